"""What a shape of the catalog would read like: each reading with the figures it should give."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from typing import NamedTuple

from interchange.catalog.figure import Figure
from interchange.catalog.geometry import Hole, holes_of
from interchange.catalog.model import Pattern, Pin, Shaft
from interchange.fit.chord import ADJACENT, SKIP_ONE, chord_mm, farthest
from interchange.fit.part_sort import sorts_of
from interchange.fit.shaft import teeth_of
from interchange.fit.spline_size import spline_size
from interchange.fit.taken import PATTERNS, PINS, SHAFTS
from interchange.store.shapes import Use

MADE_MM = 0.1  # how far a drilled or turned part may be off its drawing beside the figure's own ±; a judgement
OTHER_SIDE_MM = 0.2  # a spigot is so much smaller than its bore, at most, in the standards carried; a judgement
SAME_MM = 0.01  # distances closer than this are one
FOUR = 4
SPLINED = ("involute", "straight-sided")
LEAST_FOR_SKIP = 4


class Expected(NamedTuple):
    """One figure a reading may give: mm and the ± of the figure itself, or a count."""

    value: float
    tolerance: float


class Candidate(NamedTuple):
    """One shape of the catalog, with what each reading of it should give."""

    id: str
    room: str
    title: str
    standard: str
    sorts: frozenset[str]
    """The parts it may be of; empty where nothing tells."""
    expected: dict[str, tuple[Expected, ...]]
    """By the name of the reading; several where sources differ, or where holes are not alike. Not known: not there."""
    partners: frozenset[str]
    """Readings that are those of the part it goes on: a spigot, where the catalog has the bore."""
    note: str
    uses: tuple[Use, ...]


def candidate(id_: str, shape: Pattern | Shaft | Pin, uses: Sequence[Use] = ()) -> Candidate:
    """A shape as a candidate."""
    if isinstance(shape, Pattern):
        room, expected = PATTERNS, _of_pattern(shape)
    elif isinstance(shape, Shaft):
        room, expected = SHAFTS, _of_shaft(shape)
    else:
        room, expected = PINS, _of_pin(shape)
    pilot = shape.pilot if isinstance(shape, Pattern) else None
    partners = [name for name, figure in (("bore", pilot.bore), ("spigot", pilot.spigot)) if figure is None] if pilot else []
    title = shape.title or id_.replace(":", " ")
    sorts = sorts_of(room, shape.standard, uses)
    return Candidate(id_, room, title, shape.standard, sorts, expected, frozenset(partners), shape.note, tuple(uses))


def _figure(figure: Figure | None, more_mm: float = 0.0) -> tuple[Expected, ...]:
    """What each source says; a range stands for its middle."""
    if figure is None:
        return ()
    found = []
    for each in figure.readings:
        if each.quantity is not None:
            low, high = each.ends
            found.append(Expected((low + high) / 2, (high - low) / 2 + MADE_MM + more_mm))
    return tuple(found)


def _known(**figures: tuple[Expected, ...]) -> dict[str, tuple[Expected, ...]]:
    """Those that are known, under the names of the readings."""
    return {name.replace("_", "-"): each for name, each in figures.items() if each}


def _of_pattern(pattern: Pattern) -> dict[str, tuple[Expected, ...]]:
    pilot = pattern.pilot
    bore, spigot = (pilot.bore, pilot.spigot) if pilot else (None, None)
    known = _known(
        flange=_figure(pattern.flange),
        depth=_figure(pattern.depth),
        # A standard prints one side of a register; its partner has the other, a clearance smaller or larger.
        bore=_figure(bore) or _figure(spigot, OTHER_SIDE_MM),
        spigot=_figure(spigot) or _figure(bore, OTHER_SIDE_MM),
    )
    return known | (_of_points(pattern) if pattern.points else _of_circle(pattern))


def _of_circle(pattern: Pattern) -> dict[str, tuple[Expected, ...]]:
    """Chords by the hole count; without it only the circle itself."""
    circle, count = _figure(pattern.circle), pattern.holes
    known = _known(circle=circle, holes=(Expected(count, 0.0),) if count else ())
    if count is None or count <= 1:
        return known
    chords = {"adjacent": ADJACENT, "opposite": farthest(count)} | ({"skip-one": SKIP_ONE} if count >= LEAST_FOR_SKIP else {})
    for name, apart in chords.items():
        if circle:
            known[name] = tuple(Expected(chord_mm(each.value, count, apart), each.tolerance) for each in circle)
    if count == FOUR and circle:
        known["long-spacing"] = known["short-spacing"] = known["adjacent"]
    return known


def _of_points(pattern: Pattern) -> dict[str, tuple[Expected, ...]]:
    """Holes noted one by one: neighbours around the middle need not be equally far apart, so a chord may read several ways."""
    holes = sorted(holes_of(pattern) or (), key=lambda hole: hole.angle_deg)
    off = max((hole.tolerance_mm or 0.0 for hole in holes), default=0.0) + MADE_MM
    count = len(holes)
    known = _known(holes=(Expected(count, 0.0),))
    if count <= 1:
        return known
    known["adjacent"] = _distances(_steps(holes, ADJACENT), off)
    known["opposite"] = _distances((max(_apart(one, other) for other in holes) for one in holes), off)
    if count >= LEAST_FOR_SKIP:
        known["skip-one"] = _distances(_steps(holes, SKIP_ONE), off)
    radii = [hole.radius_mm for hole in holes]
    if max(radii) - min(radii) < off:
        known["circle"] = (Expected(2 * sum(radii) / count, off),)
    if count == FOUR and (sides := _rectangle(holes, off)):
        known["long-spacing"], known["short-spacing"] = ((Expected(side, off),) for side in sides)
    return known


def _apart(one: Hole, other: Hole) -> float:
    return math.hypot(one.x_mm - other.x_mm, one.y_mm - other.y_mm)


def _steps(holes: Sequence[Hole], step: int) -> Iterator[float]:
    return (_apart(hole, holes[(i + step) % len(holes)]) for i, hole in enumerate(holes))


def _distances(found: Iterator[float], off: float) -> tuple[Expected, ...]:
    """Distances that differ, each once."""
    kept: list[float] = []
    for mm in sorted(found):
        if not kept or mm - kept[-1] > SAME_MM:
            kept.append(mm)
    return tuple(Expected(mm, off) for mm in kept)


def _rectangle(holes: Sequence[Hole], off: float) -> tuple[float, float] | None:
    """(long side, short side) of four holes on a rectangle; None where they stand otherwise."""
    sides = list(_steps(holes, ADJACENT))
    diagonals = [_apart(holes[0], holes[2]), _apart(holes[1], holes[3])]
    pairs = ((sides[0], sides[2]), (sides[1], sides[3]), diagonals)
    if any(abs(one - other) > off for one, other in pairs):
        return None
    return max(sides), min(sides)


def _of_shaft(shaft: Shaft) -> dict[str, tuple[Expected, ...]]:
    """Diameters as written; where only the pitch is, by formula."""
    teeth = teeth_of(shaft)
    major = _figure(shaft.major)
    size = spline_size(shaft.spline) if shaft.spline and shaft.form == "involute" else None
    if not major and size:
        major = (Expected(size.major_external_mm, MADE_MM),)
    toothless = shaft.form not in SPLINED
    return _known(
        teeth=(Expected(0 if toothless else teeth or 0, 0.0),) if teeth or toothless else (),
        od=major,
        root=_figure(shaft.minor),
        width=_figure(shaft.width),
    )


def _of_pin(pin: Pin) -> dict[str, tuple[Expected, ...]]:
    return _known(upper_pin=_figure(pin.upper), lower_pin=_figure(pin.lower), spread=_figure(pin.spread), mast=_figure(pin.mast))
