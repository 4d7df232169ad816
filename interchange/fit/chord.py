"""Bolt circles from what a tape reads: the distance between two holes of an n-hole circle.

Holes stand evenly, so the chord between holes ``apart`` steps from each other is circle × sin(180° × apart / holes). Measured
from an edge of one hole to the same edge of the other it is the distance of their centres, whatever the holes' size.
"""

from __future__ import annotations

import math
from typing import NamedTuple

from interchange.errors import InputError

ADJACENT = 1
SKIP_ONE = 2
FEWEST_HOLES = 2


class CircleReading(NamedTuple):
    """A bolt circle as computed from a chord; the tolerance is ±, None where that of the chord is unknown."""

    circle_mm: float
    tolerance_mm: float | None


def farthest(holes: int) -> int:
    """Steps to the farthest hole: the opposite one where the count is even. Raises InputError below 2 holes."""
    if holes < FEWEST_HOLES:
        raise InputError(f"{holes} holes have no chord", "count at least 2 holes")
    return holes // 2


def chord_factor(holes: int, apart: int = ADJACENT) -> float:
    """What a chord is multiplied by to give the circle, 1 / sin(180° × apart / holes), and so is its error.

    Raises InputError below 2 holes, or for more steps than lead to the farthest hole.
    """
    most = farthest(holes)
    if not ADJACENT <= apart <= most:
        raise InputError(f"no two of {holes} holes are {apart} steps apart", f"count 1 to {most} steps, the shorter way round")
    return 1 / math.sin(math.pi * apart / holes)


def chord_mm(circle_mm: float, holes: int, apart: int = ADJACENT) -> float:
    """The distance between two holes of a circle: adjacent (1), skipping one (2) or :func:`farthest`. Errors as above."""
    return circle_mm / chord_factor(holes, apart)


def circle_from_chord(chord_mm: float, holes: int, apart: int = ADJACENT, tolerance_mm: float | None = None) -> CircleReading:
    """The bolt circle of a chord. The chord's ± grows by the same factor: ±1/16 in between two of 12 holes is ±0.24 in.

    Raises InputError for a chord that is not positive; otherwise as above.
    """
    if chord_mm <= 0:
        raise InputError(f"a chord of {chord_mm:g} mm is no distance", "measure between two different holes")
    factor = chord_factor(holes, apart)
    return CircleReading(chord_mm * factor, None if tolerance_mm is None else tolerance_mm * factor)
