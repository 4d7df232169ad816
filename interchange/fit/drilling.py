"""The holes of one plate for two parts, and the clocking that leaves most metal between them."""

from __future__ import annotations

import itertools
import math
from collections.abc import Iterator, Sequence
from typing import NamedTuple

from interchange.catalog.geometry import Hole
from interchange.catalog.model import Pattern
from interchange.catalog.things import PlateLimits
from interchange.fit.clocking import ROUNDING_MM, WHOLE_TURN, Clock, slack_mm, turned
from interchange.fit.pattern import named

LAND_STEP_MM = 0.01  # how closely the best land is searched for; what is told is measured at the turn that was found
ANGLE_DIGITS = 9
ROUNDING = 1e-9

Range = tuple[float, float]


class Drilled(NamedTuple):
    """One hole in the plate."""

    name: str
    place: Hole
    bolt_mm: float
    tapped: bool
    width_mm: float
    """At its widest: the thread, or what the head is sunk into."""


class _Meeting(NamedTuple):
    """A hole for each part: at which turns they come close. Like ones count once."""

    angle_deg: float
    """The turn at which they stand side by side."""
    near_mm: float
    """Their distance then."""
    product_mm2: float
    """Of their radii."""
    widths_mm: float
    """Half of both widths: what their edges take of the distance."""
    shared_mm: float
    """How far apart one bolt still passes both; negative where it never does."""

    def half_deg(self, distance_mm: float) -> float:
        """How far from side by side they come to a distance, by the law of cosines; 0 where they are never so close."""
        if distance_mm <= self.near_mm or self.product_mm2 <= 0:
            return 0.0 if distance_mm <= self.near_mm else WHOLE_TURN / 2
        sine = math.sqrt((distance_mm**2 - self.near_mm**2) / (4 * self.product_mm2))
        return WHOLE_TURN / 2 if sine >= 1 else 2 * math.degrees(math.asin(sine))


def drill(
    a: Pattern, one: Sequence[Hole], b: Pattern, other: Sequence[Hole], clearance_mm: float, limits: PlateLimits
) -> tuple[list[Drilled], list[Drilled]] | str:  # fmt: skip
    """The plate's holes for either part; in words, what is lacking where a bolt's size is not known."""
    both_tapped = all(hole.thread_mm is not None for hole in (*one, *other))
    made: list[list[Drilled]] = []
    for pattern, holes, second in ((a, one, False), (b, other, True)):
        row: list[Drilled] = []
        for i, hole in enumerate(holes):
            name = f"hole {i + 1} of {named(pattern)}"
            if hole.thread_mm is not None:
                sunk = not (both_tapped and second)
                width = hole.thread_mm * (limits.head if sunk else 1.0)
                row.append(Drilled(name, hole, hole.thread_mm, not sunk, width))
            elif hole.hole_mm is not None and hole.hole_mm > clearance_mm:
                bolt = hole.hole_mm - clearance_mm
                row.append(Drilled(name, hole, bolt, True, bolt))
            else:
                return f"the bolt size of {named(pattern)} is not known"
        made.append(row)
    return made[0], made[1]


def best_turn(ours: Sequence[Drilled], theirs: Sequence[Drilled], clock: Clock, clearance_mm: float) -> float:
    """The allowed turn at which the nearest two holes are farthest apart, to a hundredth of a millimetre."""
    if clock.centres_deg is not None and clock.play_deg == 0:
        return max(clock.centres_deg, key=lambda turn: nearest_holes(ours, theirs, turn, clearance_mm).land_mm)
    windows = [(0.0, WHOLE_TURN)]
    if clock.centres_deg is not None:
        windows = [(centre - clock.play_deg, centre + clock.play_deg) for centre in clock.centres_deg]
    meetings = _meetings(ours, theirs, clearance_mm)
    most = max(math.sqrt(each.near_mm**2 + 4 * each.product_mm2) for each in meetings)
    low, high = -max(each.widths_mm for each in meetings), min(_own_land(ours), _own_land(theirs), most)
    best = _free(meetings, windows, low) or windows
    while high - low > LAND_STEP_MM:
        land = (low + high) / 2
        free = _free(meetings, windows, land)
        if free:
            low, best = land, free
        else:
            high = land
    start, end = max(best, key=lambda gap: (round(gap[1] - gap[0], 6), -gap[0]))
    return round((start + end) / 2, ANGLE_DIGITS) % WHOLE_TURN


def _meetings(ours: Sequence[Drilled], theirs: Sequence[Drilled], clearance_mm: float) -> set[_Meeting]:
    found: set[_Meeting] = set()
    for one, other in itertools.product(ours, theirs):
        radii = one.place.radius_mm, other.place.radius_mm
        angle = round((one.place.angle_deg - other.place.angle_deg) % WHOLE_TURN, ANGLE_DIGITS) % WHOLE_TURN
        figures = (
            abs(radii[0] - radii[1]),
            radii[0] * radii[1],
            (one.width_mm + other.width_mm) / 2,
            slack_mm(one.place, other.place, clearance_mm),
        )
        found.add(_Meeting(angle, *(round(figure, 6) for figure in figures)))
    return found


def _free(meetings: set[_Meeting], windows: Sequence[Range], land_mm: float) -> list[Range]:
    """The ranges of allowed turns at which no two holes are closer, edge to edge, save those that one bolt passes."""
    barred: list[Range] = []
    for each in meetings:
        half = each.half_deg(each.widths_mm + land_mm)
        if half:
            shared = each.half_deg(each.shared_mm) if each.shared_mm >= each.near_mm else -1.0
            if shared < 0:
                barred.append((each.angle_deg - half, each.angle_deg + half))
            elif shared < half:
                barred += [(each.angle_deg - half, each.angle_deg - shared), (each.angle_deg + shared, each.angle_deg + half)]
    around = sorted((low + full, high + full) for low, high in barred for full in (-WHOLE_TURN, 0.0, WHOLE_TURN))
    return [gap for start, end in windows for gap in _gaps(around, start, end)]


def _gaps(barred: Sequence[Range], start: float, end: float) -> Iterator[Range]:
    """What sorted ranges leave of a window; ends belong to what is left."""
    here = start
    for low, high in barred:
        if high <= here:
            continue
        if low >= end:
            break
        if low >= here:
            yield here, low
        here = high
    if here <= end:
        yield here, end


class Nearest(NamedTuple):
    """The nearest two holes of the plate at one turn."""

    land_mm: float
    names: tuple[str, str]
    shared: frozenset[tuple[int, int]]
    """Holes of the first and the second part that one bolt passes, by their places."""


def nearest_holes(ours: Sequence[Drilled], theirs: Sequence[Drilled], turn_deg: float, clearance_mm: float) -> Nearest:
    """The nearest two holes, of the two parts or of one; holes that one bolt passes are one hole."""
    land, nearest, shared = math.inf, ("", ""), set[tuple[int, int]]()
    places = [turned(each.place, turn_deg) for each in theirs]
    for i, one in enumerate(ours):
        for j, (other, (x, y)) in enumerate(zip(theirs, places, strict=True)):
            apart = math.hypot(one.place.x_mm - x, one.place.y_mm - y)
            if apart <= slack_mm(one.place, other.place, clearance_mm) + ROUNDING_MM:
                shared.add((i, j))
            elif apart - (one.width_mm + other.width_mm) / 2 < land - ROUNDING:
                land, nearest = apart - (one.width_mm + other.width_mm) / 2, (one.name, other.name)
    for side in (ours, theirs):
        for one, other in itertools.combinations(side, 2):
            apart = math.hypot(one.place.x_mm - other.place.x_mm, one.place.y_mm - other.place.y_mm)
            if apart - (one.width_mm + other.width_mm) / 2 < land - ROUNDING:
                land, nearest = apart - (one.width_mm + other.width_mm) / 2, (one.name, other.name)
    return Nearest(land, nearest, frozenset(shared))


def _own_land(side: Sequence[Drilled]) -> float:
    """Between the nearest two holes of one part, which no clocking changes."""
    return min(
        (
            math.hypot(one.place.x_mm - other.place.x_mm, one.place.y_mm - other.place.y_mm) - (one.width_mm + other.width_mm) / 2
            for one, other in itertools.combinations(side, 2)
        ),
        default=math.inf,
    )
