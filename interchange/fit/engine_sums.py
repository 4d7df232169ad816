"""Workshop sums about engines and pumps, in the base units: mm, cm3, N·m, kW, rpm, kPa, L/min.

All are mechanics and not rules of thumb; the round numbers a shop knows (5252, 9549, 231, 1714) follow from the units.
"""

from __future__ import annotations

import math

from interchange.errors import InputError

SECONDS_A_MINUTE = 60.0
REVOLUTIONS_A_CYCLE = {2: 1, 4: 2}


def displacement_cm3(bore_mm: float, stroke_mm: float, cylinders: int) -> float:
    """Swept volume: π/4 × bore² × stroke × cylinders."""
    return math.pi / 4 * bore_mm**2 * stroke_mm * cylinders / 1000


def power_kw(torque_nm: float, speed_rpm: float) -> float:
    """Power of a torque at a speed: 2π T n, which is T n / 9549.3."""
    return torque_nm * speed_rpm * 2 * math.pi / SECONDS_A_MINUTE / 1000


def torque_nm(power_kw: float, speed_rpm: float) -> float:
    """Torque of a power at a speed. Raises InputError for a speed that is not positive."""
    if speed_rpm <= 0:
        raise InputError(f"{speed_rpm:g} rpm gives no torque", "write the speed the power is rated at")
    return power_kw * 1000 * SECONDS_A_MINUTE / (2 * math.pi * speed_rpm)


def _turns(strokes: int) -> int:
    if strokes not in REVOLUTIONS_A_CYCLE:
        raise InputError(f"an engine has no {strokes} strokes", "write 2 or 4")
    return REVOLUTIONS_A_CYCLE[strokes]


def bmep_kpa(torque_nm: float, displacement_cm3: float, strokes: int = 4) -> float:
    """Brake mean effective pressure: 4π T / V for four strokes, 2π T / V for two.

    For comparing how hard engines of different size work. Raises InputError for other strokes, or no displacement.
    """
    turns = _turns(strokes)
    if displacement_cm3 <= 0:
        raise InputError(f"{displacement_cm3:g} cm3 is no displacement", "write the swept volume")
    return 2 * math.pi * turns * torque_nm / displacement_cm3 * 1000


def torque_of_bmep_nm(bmep_kpa: float, displacement_cm3: float, strokes: int = 4) -> float:
    """The torque of a brake mean effective pressure. Raises InputError for other strokes than 2 and 4."""
    return bmep_kpa * displacement_cm3 / (2 * math.pi * _turns(strokes) * 1000)


def piston_speed_m_s(stroke_mm: float, speed_rpm: float) -> float:
    """Mean piston speed: two strokes a revolution, 2 s n."""
    return 2 * stroke_mm / 1000 * speed_rpm / SECONDS_A_MINUTE


def _check_share(share: float, what: str) -> None:
    if not 0 < share <= 1:
        raise InputError(f"{what} of {share:g} is not above 0 and up to 1", "write 0.9 or 90 %")


def pump_flow_l_min(displacement_cm3: float, speed_rpm: float, volumetric: float = 1.0) -> float:
    """What a pump delivers: displacement × speed × volumetric efficiency. Raises InputError for an efficiency over 1."""
    _check_share(volumetric, "a volumetric efficiency")
    return displacement_cm3 * speed_rpm / 1000 * volumetric


def pump_power_kw(flow_l_min: float, pressure_kpa: float, efficiency: float = 1.0) -> float:
    """Power to deliver a flow at a pressure, q p / (60 η); at efficiency 1 the power that is in the oil.

    With the flow really delivered, the efficiency is the overall one; with displacement × speed it is the mechanical one
    alone. Raises InputError for an efficiency over 1.
    """
    _check_share(efficiency, "an efficiency")
    return flow_l_min * pressure_kpa / (SECONDS_A_MINUTE * 1000) / efficiency


def pump_torque_nm(displacement_cm3: float, pressure_kpa: float, mechanical: float = 1.0) -> float:
    """Torque on the pump shaft: V p / (2π η), with the mechanical efficiency. Raises InputError for one over 1."""
    _check_share(mechanical, "a mechanical efficiency")
    return displacement_cm3 * pressure_kpa / (2 * math.pi * 1000) / mechanical
