"""A bolt face as a drawing: its holes with centre lines and numbers, its circle, pilot, flange and dowels, and what to say."""

from __future__ import annotations

import math
from collections.abc import Iterator
from typing import TYPE_CHECKING

from interchange.catalog.geometry import Hole, angle_known, dowels_of, holes_of
from interchange.errors import InputError
from interchange.fit.pattern import named
from interchange.quantity import show
from interchange.sheets.drawing import (
    CENTRE,
    CIRCLE,
    DOWEL,
    FLANGE,
    HOLE,
    MIDDLE,
    PILOT,
    WORDS,
    Circle,
    Drawing,
    Line,
    Shape,
    Words,
    cross,
)

if TYPE_CHECKING:
    from interchange.catalog.figure import Figure
    from interchange.catalog.model import Pattern

BEYOND_MM = 4.0
ARM_MM = 4.0
SPOT_MM = 1.0
NUMBER_MM = 4.0
AT_THE_CENTRE_MM = 15.0
ALIKE_MM = 0.05
COARSE_MM = 0.3
"""Closer than this is as good as a drilled hole stands anyway: a judgement."""
SEEN = {
    "from the shaft end": "seen looking at the shaft end or port",
    "": "seen looking from the gearbox end towards the fan",
}


def face_drawing(pattern: Pattern) -> Drawing:
    """A face as it is seen. Raises InputError where its holes are not all known."""
    holes = holes_of(pattern)
    if not holes:
        raise InputError(f"the holes of {named(pattern)} are not all known", "it takes a bolt circle and a hole count, or points")
    return Drawing(named(pattern), tuple(face_shapes(pattern, holes)), tuple(face_notes(pattern, holes)))


def diameters(pattern: Pattern) -> Iterator[tuple[str, str, Figure]]:
    """(layer, what it is, figure) of the circles a face has."""
    if pattern.circle:
        yield CIRCLE, "bolt circle", pattern.circle
    if pattern.pilot and pattern.pilot.bore:
        yield PILOT, "pilot bore", pattern.pilot.bore
    if pattern.pilot and pattern.pilot.spigot:
        yield PILOT, "spigot", pattern.pilot.spigot
    if pattern.flange:
        yield FLANGE, "flange", pattern.flange


def face_shapes(pattern: Pattern, holes: tuple[Hole, ...]) -> Iterator[Shape]:
    """All lines of a face, with its centre at the origin."""
    reach = max(math.hypot(hole.x_mm, hole.y_mm) + (hole.hole_mm or hole.thread_mm or 0.0) / 2 for hole in holes)
    for layer, _, figure in diameters(pattern):
        yield Circle(0.0, 0.0, figure.value / 2, layer)
        reach = max(reach, figure.value / 2)
    yield Line(-reach - BEYOND_MM, 0.0, reach + BEYOND_MM, 0.0, CENTRE)
    yield Line(0.0, -reach - BEYOND_MM, 0.0, reach + BEYOND_MM, CENTRE)
    for number, hole in enumerate(holes, 1):
        yield from _hole(hole, HOLE)
        yield _number(hole, str(number))
    for letter, dowel in zip("DEFGHIJK", dowels_of(pattern), strict=False):
        yield from _hole(dowel, DOWEL)
        yield _number(dowel, letter)


def _hole(hole: Hole, layer: str) -> Iterator[Shape]:
    """The hole at its size, or a spot where that is not known, with a centre line along the radius and one across."""
    radius = (hole.hole_mm or hole.thread_mm or 0.0) / 2
    yield Circle(hole.x_mm, hole.y_mm, radius or SPOT_MM, layer)
    yield from cross(hole.x_mm, hole.y_mm, (radius or SPOT_MM) + ARM_MM, layer)


def _number(hole: Hole, text: str) -> Words:
    """Beside a hole, towards the centre of the face and clear of its lines."""
    radius = (hole.hole_mm or hole.thread_mm or 0.0) / 2
    away = radius + ARM_MM + NUMBER_MM
    out = hole.radius_mm
    x, y = (-hole.x_mm / out, -hole.y_mm / out) if out > AT_THE_CENTRE_MM else (0.7, 0.7)
    if abs(x) < 0.2 or abs(y) < 0.2:  # noqa: PLR2004 - straight in it would stand on the centre line
        x, y = x + 0.35, y + 0.35
    return Words(hole.x_mm + x * away, hole.y_mm + y * away - NUMBER_MM / 2, text, NUMBER_MM, WORDS, MIDDLE)


def face_notes(pattern: Pattern, holes: tuple[Hole, ...]) -> Iterator[str]:
    """What to say beside it: sizes, from which side, what is not known."""
    yield SEEN.get(pattern.seen, SEEN[""])
    if not _same_from_behind(pattern, holes):
        yield "seen from the other side its holes stand otherwise: on the face that mates with it lay the paper printed side down"
    yield f"{len(holes)} holes{_sizes(pattern, holes)}"
    for _, what, figure in diameters(pattern):
        yield f"{what} {show(figure.value, 'length', tolerance=figure.tolerance or None)}{_weak(figure)}"
    if dowels_of(pattern):
        yield f"{len(dowels_of(pattern))} dowels, lettered from D"
    yield from face_doubts(pattern, holes)


def face_doubts(pattern: Pattern, holes: tuple[Hole, ...]) -> Iterator[str]:
    """What is not sure about a face, and what to watch for."""
    if not angle_known(pattern):
        yield "where the first hole stands is not known: it is drawn at the top, and may be turned"
    elif pattern.first_hole and pattern.first_hole.caveat:
        yield f"first hole at {pattern.first_hole.text}: {pattern.first_hole.caveat}"
    coarse = max((hole.tolerance_mm or 0.0 for hole in holes), default=0.0)
    if coarse > COARSE_MM:
        yield f"the holes were read to ±{coarse:.2g} mm only: check them against the part before drilling"
    if pattern.note:
        yield pattern.note


def _same_from_behind(pattern: Pattern, holes: tuple[Hole, ...]) -> bool:
    """Whether holes and dowels stand alike when the face is looked at from its other side."""
    places = [(hole.x_mm, hole.y_mm) for hole in (*holes, *dowels_of(pattern))]
    return all(min(math.dist((-x, y), other) for other in places) < ALIKE_MM for x, y in places)


def _sizes(pattern: Pattern, holes: tuple[Hole, ...]) -> str:
    if pattern.thread:
        return f", {pattern.thread.text}, drawn at the outside of the thread"
    if pattern.hole:
        return f", {show(pattern.hole.value, 'length')}{_weak(pattern.hole)}"
    known = any(hole.hole_mm or hole.thread_mm for hole in holes)
    return ", of several sizes" if known else ", of a size that is not known: drawn as spots"


def _weak(figure: Figure) -> str:
    return f" ({figure.caveat})" if figure.caveat else ""
