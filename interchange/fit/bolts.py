"""What bolts hold: stress area, proof load, preload and torque, and the torque a ring of them carries by friction.

Everything is in newtons, millimetres and newton metres. What is not covered by a table is None: not known.
"""

from __future__ import annotations

import math
from collections.abc import Iterable
from typing import TYPE_CHECKING, NamedTuple

from interchange.errors import InputError

if TYPE_CHECKING:
    from interchange.quantity import Thread

MM_PER_INCH = 25.4
MPA_PER_PSI = 0.45359237 * 9.80665 / MM_PER_INCH**2
"""One pound-force on a square inch, by the definitions of the pound and of standard gravity."""

INCH_DEPTH = 0.9743
METRIC_DEPTH = 0.9382
"""What is taken off the major diameter, in pitches. The inch figure gives the areas printed with SAE J429, the metric one those
printed with ISO 898-1; it stands on the torque-tension page of dfmcad.com."""

PRELOAD_SHARE = 0.75
"""Of proof, for a joint that is taken apart again: three sources agree (one quotes Shigley), two others use 0.75-0.9 and 0.8."""
K_DRY = 0.20
K_LUBRICATED = 0.15
"""Nut factors (Cox Hardware, bolt torque and clamping force). Printed ranges: dry 0.20-0.25, oiled 0.15-0.20, anti-seize
0.12-0.16."""
PRELOAD_SCATTER = 0.30
"""One torque gives preloads up to 25-30 % apart (rulesofthumb.info, bolt torque)."""


class ProofStress(NamedTuple):
    """A proof stress, and the largest diameter it holds for."""

    up_to_mm: float
    stress_mpa: float


def _psi(up_to_inch: float, stress_psi: float) -> ProofStress:
    return ProofStress(up_to_inch * MM_PER_INCH, stress_psi * MPA_PER_PSI)


INCH_PROOF = {
    "2": (_psi(0.75, 55_000), _psi(1.5, 33_000)),
    "5": (_psi(1.0, 85_000), _psi(1.5, 74_000)),
    "8": (_psi(1.5, 120_000),),
}
"""SAE J429 (hex cap screw table of the city of Everett; MW Components), from 1/4 in up. That of grade 8 is its printed proof
loads over the area."""
METRIC_PROOF = {
    "8.8": (ProofStress(16.0, 580.0), ProofStress(39.0, 600.0)),
    "10.9": (ProofStress(39.0, 830.0),),
}
"""ISO 898-1 (Optimas; SLS Bearings), printed for M8 to M24; that it reaches to M39 is from memory."""
SMALLEST_INCH_MM = 0.25 * MM_PER_INCH
LIMIT_SLACK_MM = 1e-6


def is_metric(thread: Thread) -> bool:
    """Whether a thread is written as metric, M12x1.75."""
    return thread.text.strip().startswith("M")


def stress_area_mm2(thread: Thread) -> float:
    """The tensile stress area, coarse or fine: π/4 × (major - 0.9743 pitch)², with 0.9382 for a metric thread."""
    depth = METRIC_DEPTH if is_metric(thread) else INCH_DEPTH
    return math.pi / 4 * (thread.major_mm - depth * thread.pitch_mm) ** 2


def proof_stress_mpa(thread: Thread, grade: str) -> float | None:
    """The proof stress of a bolt of this grade; None where the tables do not go to its size, or hold the grade for other threads.

    Raises InputError for a grade in no table.
    """
    grades = METRIC_PROOF if is_metric(thread) else INCH_PROOF
    if grade not in INCH_PROOF and grade not in METRIC_PROOF:
        raise InputError(f"{grade!r} is no bolt grade known here", f"use one of {', '.join((*INCH_PROOF, *METRIC_PROOF))}")
    if not is_metric(thread) and thread.major_mm < SMALLEST_INCH_MM - LIMIT_SLACK_MM:
        return None
    for row in grades.get(grade, ()):
        if thread.major_mm <= row.up_to_mm + LIMIT_SLACK_MM:
            return row.stress_mpa
    return None


def proof_load_n(thread: Thread, grade: str) -> float | None:
    """The load a bolt bears without a permanent stretch: area × proof stress. None and errors as for the stress."""
    stress = proof_stress_mpa(thread, grade)
    return None if stress is None else stress * stress_area_mm2(thread)


def preload_n(thread: Thread, grade: str, share: float = PRELOAD_SHARE) -> float | None:
    """What a bolt is tightened to, a share of its proof load. None and errors as for the stress."""
    proof = proof_load_n(thread, grade)
    return None if proof is None else share * proof


def tightening_torque_nm(force_n: float, major_mm: float, nut_factor: float = K_DRY) -> float:
    """The torque that gives a preload: T = K × d × F, newton metres."""
    return nut_factor * major_mm * force_n / 1000


def friction_carried_nm(force_n: float, radii_mm: Iterable[float], *, friction: float, safety: float) -> float:
    """The torque a face carries by friction: each bolt presses at its own distance from the centre.

    Sum of preload × friction × radius, over the safety factor, newton metres. Only bolts that are in their holes count, so a
    partial match carries what its bolts do. Nothing is allowed for dowels, or for shear. Raises InputError for a friction
    or safety factor that is not positive.
    """
    if friction <= 0 or safety <= 0:
        raise InputError(f"a friction of {friction:g} at a safety factor of {safety:g} carries nothing", "write both above 0")
    return sum(force_n * friction * radius for radius in radii_mm) / safety / 1000
