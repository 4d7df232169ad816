"""The holes of a pattern as points in the common view, whichever way they were written.

All patterns are seen looking from the gearbox end towards the fan (a pump: looking at its shaft end), x to the right, y up,
angles clockwise from straight up, so that two faces that mate overlay without mirroring. What was noted from the front is
flipped here, and nowhere else.
"""

from __future__ import annotations

import hashlib
import math
from typing import NamedTuple

from interchange.catalog.model import Pattern, Point

FROM_THE_FRONT = "from the front"
SHAPE_STEP_MM = 0.01


class Hole(NamedTuple):
    """One hole: its centre, its clear diameter or its thread's major diameter, and how sure the centre is.

    What is not known is None.
    """

    x_mm: float
    y_mm: float
    hole_mm: float | None
    thread_mm: float | None
    tolerance_mm: float | None

    @property
    def radius_mm(self) -> float:
        """Distance from the centre of the pattern."""
        return math.hypot(self.x_mm, self.y_mm)

    @property
    def angle_deg(self) -> float:
        """Clockwise from straight up."""
        return math.degrees(math.atan2(self.x_mm, self.y_mm)) % 360


def holes_of(pattern: Pattern) -> tuple[Hole, ...] | None:
    """The holes in the common view; None where circle or hole count is not known.

    Where a circle's first angle is not known it is taken as 0: the caller asks :func:`angle_known` before it relies on clocking.
    """
    flip = -1.0 if pattern.seen == FROM_THE_FRONT else 1.0
    if pattern.points:
        return tuple(_point(point, flip, pattern) for point in pattern.points)
    if pattern.circle is None or pattern.holes is None:
        return None
    radius = pattern.circle.value / 2
    low, high = pattern.circle.ends
    known = pattern.circle.tolerance is not None or high > low
    tolerance = (high - low) / 4 if known else None  # a radius is half as far off as its diameter, either way
    first = pattern.first_hole.value if pattern.first_hole else 0.0
    hole_mm = pattern.hole.value if pattern.hole else None
    thread_mm = pattern.thread.major_mm if pattern.thread else None
    holes = []
    for i in range(pattern.holes):
        angle = math.radians(first + 360.0 * i / pattern.holes)
        holes.append(Hole(flip * radius * math.sin(angle), radius * math.cos(angle), hole_mm, thread_mm, tolerance))
    return tuple(holes)


def angle_known(pattern: Pattern) -> bool:
    """Whether where the holes stand around the circle is known."""
    return bool(pattern.points) or pattern.first_hole is not None


def dowels_of(pattern: Pattern) -> tuple[Hole, ...]:
    """The dowels in the common view."""
    flip = -1.0 if pattern.seen == FROM_THE_FRONT else 1.0
    return tuple(_point(point, flip, pattern) for point in pattern.dowels)


def _point(point: Point, flip: float, pattern: Pattern) -> Hole:
    tolerances = [figure.tolerance for figure in (point.x, point.y)]
    known = [tolerance for tolerance in tolerances if tolerance is not None]
    hole = point.hole or pattern.hole
    thread = point.thread or pattern.thread
    return Hole(
        flip * point.x.value,
        point.y.value,
        hole.value if hole and not point.thread else None,
        thread.major_mm if thread and not point.hole else None,
        max(known) if len(known) == len(tolerances) else None,
    )


def shape_key(pattern: Pattern) -> str:
    """A short key equal for patterns with the same holes in the same places to 0.01 mm, however they were written."""
    holes = holes_of(pattern)
    if holes is None:
        return ""
    places = sorted((_step(hole.x_mm), _step(hole.y_mm)) for hole in holes)
    return hashlib.blake2b(repr((places, angle_known(pattern))).encode(), digest_size=8).hexdigest()


def _step(mm: float) -> int:
    """Whole steps, with the noise of a sine rounded away first: it must not tip a half step either way."""
    return round(round(mm / SHAPE_STEP_MM, 4))
