"""The plate that joins two faces as a drawing: on layers by operation, with dimensions, a title block and a table of holes."""

from __future__ import annotations

import textwrap
from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING, NamedTuple

from interchange.fit.plate_layout import DOWELLED, SPIGOT, SUNK, TAPPED, THROUGH, PlateHole, PlateLayout
from interchange.quantity import show
from interchange.sheets.drawing import (
    CENTRE,
    CIRCLE,
    DOWEL,
    DRILL,
    MIDDLE,
    OPENING,
    OUTLINE,
    REGISTER,
    SINK,
    SPOT,
    TAP,
    TITLE,
    WORDS,
    Box,
    Circle,
    Drawing,
    Line,
    Shape,
    Words,
    across,
    cross,
    rectangle,
)

if TYPE_CHECKING:
    from interchange.catalog.model import Pattern

CHECK = "CHECK AGAINST THE PARTS BEFORE CUTTING"
BEYOND_MM, ARM_MM, NUMBER_MM, SPOT_MM = 4.0, 3.0, 3.5, 1.5
LEVEL_MM, ROW_MM, BLOCK_MM, LETTER_MM = 7.0, 5.0, 160.0, 3.0
LEGIBLE_MM = 180.0
"""Letters grow with a plate wider than this, so that they can still be read where all of it is on one page."""
ON_CENTRE_MM = 15.0
BLOCK_COLUMNS = 64
LAYERS = {TAPPED: TAP, DOWELLED: DOWEL}


class PlateTitle(NamedTuple):
    """What stands in the title block."""

    title: str
    material: str
    thickness: str
    joint: str
    seen: str
    sunk_from: str
    """The part from whose side heads are sunk."""


def plate_drawing(a: Pattern, b: Pattern, layout: PlateLayout, block: PlateTitle, notes: Sequence[str]) -> Drawing:
    """The plate alone at true size: what is cut, drilled, sunk, tapped, turned; centre lines and numbers."""
    return Drawing(block.title, tuple(_plate(a, b, layout)), tuple(notes))


def sized_drawing(a: Pattern, b: Pattern, layout: PlateLayout, block: PlateTitle, notes: Sequence[str]) -> Drawing:
    """The same with its dimensions below and the title block under them."""
    plate = plate_drawing(a, b, layout, block, notes)
    large = max(1.0, layout.outside_mm / LEGIBLE_MM)
    level = -layout.outside_mm / 2 - LEVEL_MM * large * 1.5
    sizes: list[Shape] = []
    for diameter, words in sorted(_diameters(a, b, layout)):
        sizes += across(0.0, 0.0, diameter, level, words, LETTER_MM * large)
        level -= LEVEL_MM * large
    return plate._replace(shapes=(*plate.shapes, *sizes, *_block(block, layout, level, large)))


def _plate(a: Pattern, b: Pattern, layout: PlateLayout) -> Iterator[Shape]:
    reach = layout.outside_mm / 2
    yield Circle(0.0, 0.0, reach, OUTLINE)
    if layout.opening_mm:
        yield Circle(0.0, 0.0, layout.opening_mm / 2, OPENING)
    for register in layout.registers:
        yield Circle(0.0, 0.0, register.diameter_mm / 2, REGISTER)
    for face in (a, b):
        if face.circle:
            yield Circle(0.0, 0.0, face.circle.value / 2, CIRCLE)
    yield Line(-reach - BEYOND_MM, 0.0, reach + BEYOND_MM, 0.0, CENTRE)
    yield Line(0.0, -reach - BEYOND_MM, 0.0, reach + BEYOND_MM, CENTRE)
    for hole in layout.holes:
        yield from _hole(hole)


def _hole(hole: PlateHole) -> Iterator[Shape]:
    """What is drilled, and around it what is sunk; where the thread is not known, a spot to start from."""
    widest = max(hole.drill_mm or 0.0, hole.sink_mm or 0.0, 2 * SPOT_MM) / 2
    yield from cross(hole.x_mm, hole.y_mm, widest + ARM_MM)
    if hole.drill_mm is None:
        yield Circle(hole.x_mm, hole.y_mm, SPOT_MM, SPOT)
    else:
        yield Circle(hole.x_mm, hole.y_mm, hole.drill_mm / 2, LAYERS.get(hole.operation, DRILL))
    if hole.sink_mm:
        yield Circle(hole.x_mm, hole.y_mm, hole.sink_mm / 2, SINK)
    out = (hole.x_mm**2 + hole.y_mm**2) ** 0.5
    x, y = (hole.x_mm / out, hole.y_mm / out) if out > ON_CENTRE_MM else (0.7, 0.7)
    side = -y, x  # beside it along the circle, where there is room between holes
    away = widest + NUMBER_MM
    yield Words(hole.x_mm + side[0] * away, hole.y_mm + side[1] * away - NUMBER_MM / 2, hole.name, NUMBER_MM, WORDS, MIDDLE)


def _diameters(a: Pattern, b: Pattern, layout: PlateLayout) -> Iterator[tuple[float, str]]:
    """Each with its words; a register's are those of the part, with its limits."""
    yield layout.outside_mm, f"outside Ø{show(layout.outside_mm, 'length')}"
    if layout.opening_mm:
        yield layout.opening_mm, f"opening, at most Ø{show(layout.opening_mm, 'length')}"
    for register in layout.registers:
        words = f"{register.kind} {'into' if register.kind == SPIGOT else 'for'} {register.of}"
        yield register.diameter_mm, f"{words}: Ø{register.diameter_mm:.2f} mm ({register.text})"
    for letter, face in (("A", a), ("B", b)):
        if face.circle:
            yield face.circle.value, f"bolt circle {letter} Ø{show(face.circle.value, 'length')}"


def _block(block: PlateTitle, layout: PlateLayout, top: float, large: float) -> Iterator[Shape]:
    """The title block under the plate, in its middle."""
    rows = [folded for line in (CHECK, *block_lines(block, layout)) for folded in textwrap.wrap(line, BLOCK_COLUMNS)]
    row, left = ROW_MM * large, -BLOCK_MM * large / 2
    yield from rectangle(Box(left, top - row * (len(rows) + 0.6), -left, top), TITLE)
    for i, words in enumerate(rows):
        yield Words(left + row / 2, top - row * (i + 1), words, LETTER_MM * large, TITLE)


def block_lines(block: PlateTitle, layout: PlateLayout) -> tuple[str, ...]:
    """The title block's lines but for the warning."""
    counts = {
        operation: sum(hole.operation == operation for hole in layout.holes) for operation in (THROUGH, SUNK, TAPPED, DOWELLED)
    }
    holes = ", ".join(f"{count} {operation}" for operation, count in counts.items() if count)
    return (
        block.title,
        f"Material: {block.material}. Thickness: {block.thickness}.",
        f"Joint: {block.joint}. Holes: {holes}.",
        f"Millimetres, 1:1, {block.seen}.",
        f"Heads are sunk from the side of {block.sunk_from}.",
        "OUTLINE, OPENING, DRILL: cut. TAP: at its tapping drill. SPOT: a start only.",
        "COUNTERBORE, REGISTER, DOWEL: machined, to the part in hand.",
    )


def hole_table(holes: Sequence[PlateHole]) -> Iterator[str]:
    """One line a hole, from the centre: x to the right, y up."""
    yield "hole: x, y from the centre, mm; what is done"
    for hole in holes:
        yield f"{hole.name}: {hole.x_mm:.3f}, {hole.y_mm:.3f}; {hole_words(hole)}"


def hole_words(hole: PlateHole) -> str:
    """What is done at a hole."""
    if hole.operation == DOWELLED:
        return f"for a dowel{f' of {hole.drill_mm:.2f}' if hole.drill_mm else ', size not known'}, reamed to suit"
    if hole.drill_mm is None:
        return f"tapped to suit its bolt, about {hole.bolt_mm:.2f} mm: thread not known"
    if hole.operation == TAPPED:
        return f"drilled {hole.drill_mm:.2f}, tapped {hole.thread}"
    if hole.operation == SUNK and hole.sink_mm and hole.sink_depth_mm:
        return f"drilled {hole.drill_mm:.2f}, sunk {hole.sink_mm:.2f} wide and {hole.sink_depth_mm:.2f} deep"
    return f"drilled {hole.drill_mm:.2f} right through, one bolt for both parts"
