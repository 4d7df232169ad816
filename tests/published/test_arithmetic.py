"""Engine and pump sums against printed worked examples; where a page is slightly wrong, the test says so."""

import math

import pytest

from interchange.errors import InputError
from interchange.fit.engine_sums import (
    bmep_kpa,
    displacement_cm3,
    piston_speed_m_s,
    power_kw,
    pump_flow_l_min,
    pump_power_kw,
    pump_torque_nm,
    torque_nm,
    torque_of_bmep_nm,
)

IN = 25.4
IN3_CM3 = IN**3 / 1000
HP_KW = 0.45359237 * 9.80665 * 0.3048 * 550 / 1000
FT_LBF_NM = 0.45359237 * 9.80665 * 0.3048
PSI_KPA = 0.45359237 * 9.80665 / IN**2 * 1000
GALLON_L = 231 * IN3_CM3 / 1000


def test_displacement_in_cubic_inches() -> None:
    """Liquisearch, "Engine displacement": 4.312 in bore, 3.65 in stroke, 8 cylinders, 426.4 in³."""
    assert displacement_cm3(4.312 * IN, 3.65 * IN, 8) / IN3_CM3 == pytest.approx(426.4, abs=0.05)


def test_displacement_in_cubic_centimetres() -> None:
    """Liquisearch, "Engine displacement": 10 cm bore, 5 cm stroke, 4 cylinders, 1570 cm³; the page cuts off the 0.8."""
    swept = displacement_cm3(100, 50, 4)
    assert math.floor(swept / 10) * 10 == 1570
    assert swept == pytest.approx(1570.8, abs=0.05)


def test_power_and_torque_of_a_mean_pressure() -> None:
    """ilovecalcs, engine horsepower: 2.0 L four-stroke at 10 bar and 6500 rpm: 159.2 N·m, 108.3 kW, 145.3 hp."""
    torque = torque_of_bmep_nm(1000, 2000)
    assert torque == pytest.approx(159.2, abs=0.05)
    assert power_kw(torque, 6500) == pytest.approx(108.3, abs=0.05)
    assert power_kw(torque, 6500) / HP_KW == pytest.approx(145.3, abs=0.05)
    assert torque_nm(power_kw(torque, 6500), 6500) == pytest.approx(torque)


def test_mean_pressure_of_a_torque() -> None:
    """onlycalculators, BMEP: 2000 cm³ four-stroke, 250 N·m, 1570.8 kPa."""
    assert bmep_kpa(250, 2000) == pytest.approx(1570.8, abs=0.05)


def test_power_where_the_page_is_slightly_wrong() -> None:
    """onlycalculators prints 143.8 kW for 250 N·m at 5500 rpm; 2π × 250 × 5500 / 60 is 143.99 kW."""
    assert power_kw(250, 5500) == pytest.approx(143.99, abs=0.005)
    assert power_kw(250, 5500) != pytest.approx(143.8, abs=0.1)


def test_the_shop_s_round_numbers() -> None:
    """5252 and 9549 of every formula page; 9554 at Engineering ToolBox, "hydraulic pump motor sizing", is off by 0.05 %."""
    assert 1 / (power_kw(FT_LBF_NM, 1) / HP_KW) == pytest.approx(5252.113, abs=0.001)
    assert 1 / power_kw(1, 1) == pytest.approx(9549.297, abs=0.001)
    assert bmep_kpa(FT_LBF_NM, IN3_CM3) / PSI_KPA == pytest.approx(150.796, abs=0.001)
    assert 12 * 1 / (power_kw(FT_LBF_NM, 1) / HP_KW) == pytest.approx(63025.36, abs=0.01)
    assert 1 / (pump_power_kw(GALLON_L, PSI_KPA) / HP_KW) == pytest.approx(1714.286, abs=0.001)


def test_torque_is_power_over_speed_and_not_times_it() -> None:
    """Watts Shop Performance prints T = hp × rpm / 5252; 100 hp at 2626 rpm is 200 lb-ft, not 50."""
    assert torque_nm(100 * HP_KW, 2626) / FT_LBF_NM == pytest.approx(200.0, abs=0.01)


def test_two_strokes_work_twice_as_often() -> None:
    """2π T / V against 4π T / V: the same torque takes half the mean pressure."""
    assert bmep_kpa(250, 2000, strokes=2) == pytest.approx(bmep_kpa(250, 2000) / 2)
    assert torque_of_bmep_nm(bmep_kpa(250, 2000, 2), 2000, 2) == pytest.approx(250)


def test_piston_speed_in_two_units() -> None:
    """No printed example was found. By hand: a 6 in stroke at 2000 rpm moves 2 × 6 × 2000 / 12 = 2000 ft/min, 10.16 m/s."""
    assert piston_speed_m_s(6 * IN, 2000) == pytest.approx(10.16)
    assert piston_speed_m_s(120, 2200) == pytest.approx(8.8)


# A10V series 31 catalogue, technical data at 280 bar without losses: cm³, rpm, L/min, kW, N·m.
A10V = [
    (18, 3300, 59.4, 28, 80),
    (28, 3000, 84, 39, 125),
    (45, 2600, 117, 55, 200),
    (71, 2200, 156, 73, 316),
    (100, 2000, 200, 93, 445),
    (140, 1800, 252, 118, 623),
]


@pytest.mark.parametrize(("size_cm3", "rpm", "l_min", "kw", "nm"), A10V, ids=[str(row[0]) for row in A10V])
def test_pump_catalogue(size_cm3, rpm, l_min, kw, nm) -> None:
    """Torques are cut off, not rounded: 200.5, 445.6 and 623.9 N·m are printed as 200, 445 and 623 (124.8 as 125)."""
    flow = pump_flow_l_min(size_cm3, rpm)
    assert flow == pytest.approx(l_min, abs=0.5)
    assert pump_power_kw(flow, 28_000) == pytest.approx(kw, abs=0.5)
    assert pump_torque_nm(size_cm3, 28_000) == pytest.approx(nm, abs=0.95)
    assert power_kw(pump_torque_nm(size_cm3, 28_000), rpm) == pytest.approx(pump_power_kw(flow, 28_000))


def test_pump_with_losses() -> None:
    """machinecalc, hydraulic pump flow: 18 cm³, 1500 rpm, 160 bar, 0.92 and 0.85: 24.8 L/min, 6.6 kW, 7.8 kW on the shaft."""
    flow = pump_flow_l_min(18, 1500, 0.92)
    assert flow == pytest.approx(24.8, abs=0.05)
    assert pump_power_kw(flow, 16_000) == pytest.approx(6.6, abs=0.05)
    assert pump_power_kw(flow, 16_000, 0.85) == pytest.approx(7.8, abs=0.05)


def test_pump_whose_page_is_at_odds_with_itself() -> None:
    """mech.toolfusion, pump guide: 45 cm³, 1800 rpm, 210 bar, 0.90: 81 and 72.9 L/min; over 0.85, 30 kW or 40 hp.

    The page takes 0.85 as the overall efficiency although its text makes that the product with 0.90: the sum follows its figures.
    """
    flow = pump_flow_l_min(45, 1800, 0.90)
    assert pump_flow_l_min(45, 1800) == pytest.approx(81)
    assert flow == pytest.approx(72.9)
    assert pump_power_kw(flow, 21_000, 0.85) == pytest.approx(30, abs=0.5)
    assert pump_power_kw(flow, 21_000, 0.85) / HP_KW == pytest.approx(40, abs=0.5)
    assert pump_power_kw(flow, 21_000, 0.90 * 0.85) == pytest.approx(33.4, abs=0.05)


def test_pump_in_inches() -> None:
    """hydrauliclearning.com, pump power exercise: 1.5 in³, 1800 rpm, 3000 psi, 0.90 and 0.85. Its answers were not seen; by hand
    10.52 gpm, 18.41 hp in the oil, 24.06 hp and 70.2 lb-ft on the shaft."""
    flow = pump_flow_l_min(1.5 * IN3_CM3, 1800, 0.90)
    pressure = 3000 * PSI_KPA
    assert flow / GALLON_L == pytest.approx(10.52, abs=0.005)
    assert pump_power_kw(flow, pressure) / HP_KW == pytest.approx(18.41, abs=0.005)
    assert pump_power_kw(flow, pressure, 0.90 * 0.85) / HP_KW == pytest.approx(24.06, abs=0.005)
    torque = pump_torque_nm(1.5 * IN3_CM3, pressure, 0.85)
    assert torque / FT_LBF_NM == pytest.approx(70.2, abs=0.05)
    assert power_kw(torque, 1800) == pytest.approx(pump_power_kw(flow, pressure, 0.90 * 0.85))


def test_wrong_calls() -> None:
    with pytest.raises(InputError, match="0 rpm gives no torque"):
        torque_nm(50, 0)
    with pytest.raises(InputError, match="no 3 strokes"):
        bmep_kpa(250, 2000, strokes=3)
    with pytest.raises(InputError, match="0 cm3 is no displacement"):
        bmep_kpa(250, 0)
    for share in (0.0, -0.5, 1.01, 90.0):
        with pytest.raises(InputError, match="is not above 0 and up to 1"):
            pump_flow_l_min(18, 1500, share)
        with pytest.raises(InputError, match="efficiency"):
            pump_power_kw(20, 16_000, share)
        with pytest.raises(InputError, match="efficiency"):
            pump_torque_nm(18, 16_000, share)
