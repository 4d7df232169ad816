"""Small drawings for somebody with a tape and a phone: where to lay the tape, and from where to take the photo.

They fill a width that suits a page, whatever the size of the part, so letters and lines are never scaled.
"""

from __future__ import annotations

import itertools
import math
from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING, NamedTuple

from interchange.catalog.geometry import Hole, holes_of
from interchange.quantity import show
from interchange.sheets.drawing import (
    CENTRE,
    CIRCLE,
    FACE,
    MIDDLE,
    PART,
    SIZE,
    TAPE,
    Box,
    Circle,
    Drawing,
    Line,
    Shape,
    Words,
    cross,
    rectangle,
)

if TYPE_CHECKING:
    from interchange.catalog.figure import Figure
    from interchange.catalog.model import Pattern

PAGE_MM, LETTER_MM, TICK_MM, SPOT_MM = 100.0, 4.0, 2.5, 1.2
OFF_MM = 3.0
SAME = 0.5
"""Chords closer than this, mm, are one: of several the first is marked."""


class Chords(NamedTuple):
    """What a tape says of a face, from the edge of a hole to the same edge of another: which holes, and how far, mm."""

    farthest: tuple[int, int]
    farthest_mm: float
    next: tuple[int, int]
    next_mm: float


def chords_of(holes: Sequence[Hole]) -> Chords | None:
    """The longest and the shortest way between two holes; None of fewer than two."""
    pairs = [
        (math.dist((a.x_mm, a.y_mm), (b.x_mm, b.y_mm)), i, j) for (i, a), (j, b) in itertools.combinations(enumerate(holes), 2)
    ]
    if not pairs:
        return None
    most, least = max(pairs)[0], min(pairs)[0]
    far = next(pair for pair in pairs if pair[0] > most - SAME)
    near = next(pair for pair in reversed(pairs) if pair[0] < least + SAME)
    return Chords(far[1:], far[0], near[1:], near[0])


def tape_on_face(pattern: Pattern, title: str) -> Drawing | None:
    """A bolt face with the tape laid across it; None where its holes are not all known."""
    holes = holes_of(pattern) or ()
    chords = chords_of(holes)
    if chords is None:
        return None
    rings = [figure.value / 2 for figure in _rings(pattern)]
    reach = max([*rings, *(hole.radius_mm for hole in holes)])
    scale = PAGE_MM / 2 / (reach or 1.0)
    shapes: list[Shape] = [Circle(0.0, 0.0, ring * scale, PART) for ring in rings]
    shapes += [Circle(0.0, 0.0, pattern.circle.value / 2 * scale, CIRCLE)] if pattern.circle else []
    shapes += list(cross(0.0, 0.0, 3.0))
    for hole in holes:
        shapes.append(Circle(hole.x_mm * scale, hole.y_mm * scale, max(_radius(hole) * scale, SPOT_MM), FACE))
    shapes += _chord(holes, chords.farthest, scale, "A")
    shapes += _chord(holes, chords.next, scale, "B") if chords.next_mm < chords.farthest_mm - SAME else []
    return Drawing(title, tuple(shapes))


def _rings(pattern: Pattern) -> Iterator[Figure]:
    pilot = pattern.pilot
    yield from (figure for figure in (pattern.flange, pilot and pilot.bore, pilot and pilot.spigot) if figure)


def _radius(hole: Hole) -> float:
    return (hole.hole_mm or hole.thread_mm or 0.0) / 2


def _chord(holes: Sequence[Hole], ends: tuple[int, int], scale: float, letter: str) -> list[Shape]:
    """A tape from the edge of one hole to the same edge of another, with a tick at each end and its letter beside it."""
    one, other = (holes[end] for end in ends)
    x1, y1, x2, y2 = one.x_mm * scale, one.y_mm * scale, other.x_mm * scale, other.y_mm * scale
    long = math.hypot(x2 - x1, y2 - y1) or 1.0
    along, beside = ((x2 - x1) / long, (y2 - y1) / long), (-(y2 - y1) / long, (x2 - x1) / long)
    edge = max(_radius(one) * scale, SPOT_MM)
    x1, y1, x2, y2 = (place + edge * way for place, way in zip((x1, y1, x2, y2), (*along, *along), strict=True))
    shapes: list[Shape] = [Line(x1, y1, x2, y2, TAPE)]
    for x, y in ((x1, y1), (x2, y2)):
        shapes.append(
            Line(x - beside[0] * TICK_MM, y - beside[1] * TICK_MM, x + beside[0] * TICK_MM, y + beside[1] * TICK_MM, TAPE)
        )
    at = 0.3
    x, y = x1 + (x2 - x1) * at + beside[0] * OFF_MM, y1 + (y2 - y1) * at + beside[1] * OFF_MM
    shapes.append(Words(x, y - LETTER_MM / 2, letter, LETTER_MM + 1, TAPE, MIDDLE))
    return shapes


def face_readings(pattern: Pattern) -> Iterator[str]:
    """What to count and measure on a face, each with the figure hoped for."""
    holes = holes_of(pattern) or ()
    chords = chords_of(holes)
    if holes:
        yield f"Count the bolt holes; smaller holes for dowels do not count. Hoped for: {len(holes)}."
    if chords:
        yield (
            "A: tape from the edge of a hole to the same edge of the hole farthest from it. "
            f"Hoped for: {show(chords.farthest_mm, 'length')}."
        )
        if chords.next_mm < chords.farthest_mm - SAME:
            yield f"B: the same to the next hole. Hoped for: {show(chords.next_mm, 'length')}."
    if pattern.pilot and pattern.pilot.bore:
        yield f"Across the round recess in the middle. Hoped for: {show(pattern.pilot.bore.value, 'length')}."
    if pattern.pilot and pattern.pilot.spigot:
        yield f"Across the raised round shoulder in the middle. Hoped for: {show(pattern.pilot.spigot.value, 'length')}."
    if pattern.flange:
        yield f"Across the outside of the flange. Hoped for: {show(pattern.flange.value, 'length')}."


def depth_with_straightedge() -> Drawing:
    """A straightedge over a face and a tape down to what lies in it, seen from the side."""
    shapes: list[Shape] = [
        *rectangle(Box(0.0, 34.0, 40.0, 44.0), PART),
        *rectangle(Box(0.0, -44.0, 40.0, -34.0), PART),
        *rectangle(Box(0.0, -14.0, 16.0, 14.0), PART),
        *rectangle(Box(40.0, -50.0, 45.0, 50.0), FACE),
        Line(16.0, 0.0, 40.0, 0.0, TAPE),
        Line(16.0, -4.0, 16.0, 4.0, TAPE),
        Line(40.0, -4.0, 40.0, 4.0, TAPE),
        Words(28.0, 3.0, "D", LETTER_MM + 1, TAPE, MIDDLE),
        Words(49.0, 30.0, "straightedge", LETTER_MM, SIZE),
        Words(49.0, -40.0, "outer face", LETTER_MM, SIZE),
        Line(48.0, -39.0, 38.0, -39.0, CENTRE),
        Words(49.0, -6.0, "inner face", LETTER_MM, SIZE),
        Line(48.0, -4.5, 14.0, -9.0, CENTRE),
    ]
    return Drawing("Depth: a straightedge over the outer face, the tape square from it to the inner one", tuple(shapes))


def square_on(subject: str) -> Drawing:
    """From where to take a photo: ``plate``, ``nose`` or ``face``."""
    shapes = [*_SUBJECTS[subject](), *_phone(78.0)]
    shapes += [Line(40.0, 0.0, 70.0, 0.0, CENTRE), Line(40.0, 0.0, 44.0, 2.0, CENTRE), Line(40.0, 0.0, 44.0, -2.0, CENTRE)]
    return Drawing(_PHOTO_TITLES[subject], tuple(shapes))


_PHOTO_TITLES = {
    "plate": "Photo of the plate: the phone square to it, filling the picture, without flash glare",
    "nose": "Photo of the nose: from straight ahead, the whole pulley or hub in the picture, and one from the side",
    "face": "Photo of the face: from straight behind, a tape laid across the middle",
}


def _phone(x: float) -> list[Shape]:
    return [
        *rectangle(Box(x - 6, -12.0, x + 6, 12.0), PART),
        Circle(x, 7.0, 2.0, FACE),
        Words(x, -21.0, "phone", LETTER_MM, SIZE, MIDDLE),
    ]


def _plate() -> list[Shape]:
    lines = [Line(-24.0, y, 24.0 - short, y, FACE) for y, short in ((9.0, 10.0), (3.0, 0.0), (-3.0, 18.0), (-9.0, 6.0))]
    screws = [Circle(x, y, 1.2, FACE) for x in (-29.0, 29.0) for y in (-14.0, 14.0)]
    return [*rectangle(Box(-34.0, -18.0, 34.0, 18.0), PART), *lines, *screws]


def _nose() -> list[Shape]:
    spokes = [Line(9 * math.sin(a), 9 * math.cos(a), 26 * math.sin(a), 26 * math.cos(a), FACE) for a in (0.5, 2.6, 4.7)]
    return [
        Circle(0.0, 0.0, 32.0, PART), Circle(0.0, 0.0, 29.0, FACE), Circle(0.0, 0.0, 26.0, PART), Circle(0.0, 0.0, 9.0, PART),
        *rectangle(Box(-1.5, 7.0, 1.5, 11.0), FACE), *spokes,
    ]  # fmt: skip


def _face() -> list[Shape]:
    turns = [math.tau * i / 8 for i in range(8)]
    holes = [Circle(28 * math.sin(a), 28 * math.cos(a), 2.0, FACE) for a in turns]
    return [Circle(0.0, 0.0, 34.0, PART), Circle(0.0, 0.0, 22.0, PART), *holes, Line(-36.0, 0.0, 36.0, 0.0, TAPE)]


_SUBJECTS = {"plate": _plate, "nose": _nose, "face": _face}
