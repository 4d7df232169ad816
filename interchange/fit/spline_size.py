"""Diameters of an involute spline from its teeth and pitch: ANSI B92.1, 30° pressure angle, millimetres.

Formulas: Engineers Edge, involute spline ANSI B92.1 equations. One source; every SAE J744 pump shaft agrees with it. With N teeth
and a diametral pitch of P an inch, diameters are inches before they are turned into millimetres.
"""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, NamedTuple

if TYPE_CHECKING:
    from interchange.quantity import Spline

MM_PER_INCH = 25.4
PRESSURE_ANGLE_DEG = 30.0
FINEST_FILLET_PITCH = 12.0
FORM_CLEARANCE_SHARE = 0.001
FORM_CLEARANCE_INCH = (0.002, 0.010)
FLAT_ROOT = 1.35
FILLET_ROOT = 1.8


class SplineSize(NamedTuple):
    """Basic diameters, without tolerance."""

    pitch_diameter_mm: float
    """Teeth over pitch."""
    base_diameter_mm: float
    """Where the involutes begin."""
    circular_pitch_mm: float
    """From tooth to tooth along the pitch circle."""
    space_width_mm: float
    """The least effective space, half the circular pitch."""
    major_external_mm: float
    """Outside diameter of the shaft, (N + 1) / P."""
    minor_internal_mm: float
    """Inside diameter of the hub, (N - 1) / P."""
    major_internal_mm: float
    """Root of the hub, flat root and side fit, (N + 1.35) / P."""
    major_internal_fillet_mm: float
    """The same with a fillet root, (N + 1.8) / P."""
    minor_external_mm: float
    """Root of the shaft, flat root, (N - 1.35) / P."""
    minor_external_fillet_mm: float | None
    """The same with a fillet root, (N - 1.8) / P up to 12/24. Not known for finer pitches: what is printed for them, N - 1.2,
    would be shallower than a flat root and is taken for a misprint."""
    form_internal_mm: float
    """How far out the hub's flanks must be true."""
    form_external_mm: float
    """How far in the shaft's flanks must be true."""
    form_clearance_mm: float
    """A thousandth of the pitch diameter, 0.002 in at least and 0.010 in at most."""


def spline_size(spline: Spline) -> SplineSize | None:
    """The basic diameters of a 30° spline; None where it is written by module, which B92.1 does not cover."""
    pitch = spline.diametral_pitch
    if pitch is None:
        return None
    unit = MM_PER_INCH / pitch
    pitch_diameter = spline.teeth * unit
    least, most = (MM_PER_INCH * limit for limit in FORM_CLEARANCE_INCH)
    clearance = min(max(FORM_CLEARANCE_SHARE * pitch_diameter, least), most)
    return SplineSize(
        pitch_diameter_mm=pitch_diameter,
        base_diameter_mm=pitch_diameter * math.cos(math.radians(PRESSURE_ANGLE_DEG)),
        circular_pitch_mm=math.pi * unit,
        space_width_mm=math.pi * unit / 2,
        major_external_mm=pitch_diameter + unit,
        minor_internal_mm=pitch_diameter - unit,
        major_internal_mm=pitch_diameter + FLAT_ROOT * unit,
        major_internal_fillet_mm=pitch_diameter + FILLET_ROOT * unit,
        minor_external_mm=pitch_diameter - FLAT_ROOT * unit,
        minor_external_fillet_mm=pitch_diameter - FILLET_ROOT * unit if pitch <= FINEST_FILLET_PITCH else None,
        form_internal_mm=pitch_diameter + unit + 2 * clearance,
        form_external_mm=pitch_diameter - unit - 2 * clearance,
        form_clearance_mm=clearance,
    )


STANDARD_PITCHES = (2.5, 3.0, 4.0, 5.0, 6.0, 8.0, 10.0, 12.0, 16.0, 20.0, 24.0, 32.0, 40.0, 48.0)
"""The pitches of ANSI B92.1 down to 48/96: from memory, unconfirmed."""


def pitches_like(teeth: int, least_mm: float, most_mm: float) -> tuple[str, ...]:
    """Pitches, as 12/24, at which a 30° shaft of so many teeth has an outside diameter of least to most: (N + 1) / P."""
    sizes = {pitch: (teeth + 1) * MM_PER_INCH / pitch for pitch in STANDARD_PITCHES}
    return tuple(f"{pitch:g}/{2 * pitch:g}" for pitch, major_mm in sizes.items() if least_mm <= major_mm <= most_mm)
