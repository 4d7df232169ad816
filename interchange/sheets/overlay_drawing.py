"""Two bolt faces laid over each other: the holes that line up, and those of either that do not."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING

from interchange.catalog.geometry import Hole, angle_known, holes_of
from interchange.fit.clocking import turned
from interchange.fit.part_match import PartialLineUp, partial_line_up
from interchange.sheets.drawing import ALONE, FACE, MEETS, OTHER, PART, Circle, Drawing, Line, Shape, cross

if TYPE_CHECKING:
    from interchange.catalog.model import Joint, Pattern

PAGE_MM, SPOT_MM = 110.0, 1.2


def overlay(a: Pattern, b: Pattern, joint: Joint, names: tuple[str, str], title: str) -> Drawing | None:
    """Face ``b`` on face ``a`` at the clocking where most lines up; None where the holes of either are not all known.

    ``names`` is what to call them.
    """
    partial = partial_line_up(a, b, joint)
    holes_a, holes_b = holes_of(a), holes_of(b)
    if partial is None or holes_a is None or holes_b is None:
        return None
    rings_a, rings_b = (_rings(face) for face in (a, b))
    reach = max([hole.radius_mm for hole in (*holes_a, *holes_b)] + [*rings_a, *rings_b])
    scale = PAGE_MM / 2 / (reach or 1.0)
    shapes: list[Shape] = [*cross(0.0, 0.0, 4.0)]
    shapes += [Circle(0.0, 0.0, ring * scale, PART) for ring in rings_a]
    shapes += [Circle(0.0, 0.0, ring * scale, OTHER) for ring in rings_b]
    shapes += _holes(partial, holes_a, holes_b, scale)
    return Drawing(title, tuple(shapes), tuple(_notes(partial, a, b, names)))


def _rings(pattern: Pattern) -> list[float]:
    pilot = pattern.pilot
    figures = (pattern.flange, pilot and pilot.bore, pilot and pilot.spigot)
    return [figure.value / 2 for figure in figures if figure]


def _holes(partial: PartialLineUp, a: Sequence[Hole], b: Sequence[Hole], scale: float) -> Iterator[Shape]:
    """Those that line up ringed twice; of the first face alone crossed out; of the second alone dashed, with a cross."""
    met_a, met_b = {pair.bolt for pair in partial.pairs}, {pair.hole for pair in partial.pairs}
    for i, hole in enumerate(a):
        x, y, radius = hole.x_mm * scale, hole.y_mm * scale, _radius(hole) * scale
        radius = max(radius, SPOT_MM)
        yield Circle(x, y, radius, FACE if i in met_a else ALONE)
        if i in met_a:
            yield Circle(x, y, radius + SPOT_MM, MEETS)
        else:
            arm = radius + SPOT_MM
            yield Line(x - arm, y - arm, x + arm, y + arm, ALONE)
            yield Line(x - arm, y + arm, x + arm, y - arm, ALONE)
    for j, hole in enumerate(b):
        x, y = (place * scale for place in turned(hole, partial.found.clock_deg))
        radius = max(_radius(hole) * scale, SPOT_MM)
        yield Circle(x, y, radius, OTHER)
        if j not in met_b:
            yield from cross(x, y, radius + SPOT_MM, OTHER)


def _radius(hole: Hole) -> float:
    return (hole.hole_mm or hole.thread_mm or 0.0) / 2


def _notes(partial: PartialLineUp, a: Pattern, b: Pattern, names: tuple[str, str]) -> Iterator[str]:
    found, (one, other) = partial.found, names
    yield f"ringed twice: {found.line_up} that line up"
    if found.bolts > found.line_up:
        yield f"crossed out: {found.bolts - found.line_up} of {one} alone"
    if found.holes > found.line_up:
        yield f"dashed with a cross: {found.holes - found.line_up} of {other} alone"
    yield partial.words
    if not (angle_known(a) and angle_known(b)):
        yield "where the first hole of one of them stands is not known: every turn was tried"
