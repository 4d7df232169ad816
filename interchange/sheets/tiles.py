"""A drawing at true size over as many sheets of paper as it takes, with bars to check the printer by and marks to join them.

Nothing is scaled. What is drawn keeps to the middle of the sheet that Letter and A4 share, 190 × 259 mm, so that either paper
will take the other's file; round each part of the drawing stand a bar of 100 mm and one of 4 in, along both sides.
"""

from __future__ import annotations

import math
import string
from collections.abc import Iterator, Sequence
from typing import NamedTuple

from interchange.catalog.suggest import suggestion
from interchange.errors import InputError
from interchange.sheets.drawing import (
    BAR,
    FRAME,
    JOIN,
    MIDDLE,
    WORDS,
    Box,
    Drawing,
    Line,
    Shape,
    Words,
    box_of,
    cross,
    moved,
    rectangle,
    touches,
)


class Paper(NamedTuple):
    """A sheet, mm."""

    name: str
    width: float
    height: float


PAPERS = {"letter": Paper("letter", 215.9, 279.4), "a4": Paper("a4", 210.0, 297.0)}
SHARED_WIDTH, SHARED_HEIGHT = 190.0, 259.0
SIDE, FOOT, HEAD = 14.0, 14.0, 11.0
"""Room for the bars at the left and below, and for the title above."""
WINDOW_WIDTH, WINDOW_HEIGHT = SHARED_WIDTH - SIDE, SHARED_HEIGHT - FOOT - HEAD
OVERLAP = 12.0
MARK = 5.0
BARS = (("100 mm", 100.0), ("4 in", 101.6))
DO_NOT_DRILL = "If this bar is not 100 mm long, do not drill: print at 100 %, never fitted to the page."
HOW_TO_JOIN = (
    "Cut the sheets along the grey lines inside their frames and lay the blue crosses of neighbours on each other; then measure "
    "across the whole once more."
)
MOST_SHEETS = 100
MAP_MM = 60.0
"""The least room a map tells anything in."""
LINE_MM, SMALL_MM, TITLE_MM = 5.0, 2.6, 5.0
COLUMNS = 108
"""Letters in a line of the first page."""


class Clipped(NamedTuple):
    """Shapes of which only what lies in a box is drawn."""

    box: Box
    shapes: tuple[Shape, ...]


class Page(NamedTuple):
    """One sheet: what is clipped to its window, and what stands around it."""

    paper: Paper
    clipped: tuple[Clipped, ...]
    shapes: tuple[Shape, ...]


class Tile(NamedTuple):
    """One part of the drawing."""

    name: str
    """Column as a letter, row from the top: B2."""
    box: Box
    """What of the drawing it shows."""


def paper_named(name: str) -> Paper:
    """A paper by name. Raises InputError where it is not known."""
    found = PAPERS.get(name.casefold())
    if found is None:
        raise InputError(f"no paper is called {name!r}", suggestion(name, PAPERS) or f"there are {', '.join(PAPERS)}")
    return found


def pages(drawing: Drawing, paper: Paper, table: Sequence[str] = (), sized: Drawing | None = None) -> tuple[Page, ...]:
    """First what is to be known, a drawing with dimensions where there is one, and a map; then the sheets at true size."""
    tiles, marks = tiles_over(drawing)
    lines = [*_folded((*drawing.notes, HOW_TO_JOIN, DO_NOT_DRILL)), "", *_folded(table)]
    return (
        *_told(drawing, paper, lines, tiles),
        *([_small(sized, paper)] if sized else []),
        *(_sheet(drawing, paper, tile, marks) for tile in tiles),
    )


def tiles_over(drawing: Drawing) -> tuple[tuple[Tile, ...], tuple[Shape, ...]]:
    """The parts that show any of the drawing, and the marks that join them, in the drawing's own place.

    Raises InputError for a drawing that would take more than a hundred.
    """
    box = drawing.box.widened(2.0)
    step_x, step_y = WINDOW_WIDTH - OVERLAP, WINDOW_HEIGHT - OVERLAP
    columns = max(1, math.ceil((box.width - OVERLAP) / step_x))
    rows = max(1, math.ceil((box.height - OVERLAP) / step_y))
    if columns * rows > MOST_SHEETS:
        raise InputError(f"{drawing.title} would take {columns * rows} sheets", "a template is for what a bench can hold")
    left = (box.left + box.right - (columns * step_x + OVERLAP)) / 2
    top = (box.bottom + box.top + (rows * step_y + OVERLAP)) / 2
    tiles = []
    for row in range(rows):
        for column in range(columns):
            x, y = left + column * step_x, top - row * step_y
            tile = Tile(f"{string.ascii_uppercase[column]}{row + 1}", Box(x, y - WINDOW_HEIGHT, x + WINDOW_WIDTH, y))
            if any(touches(shape, tile.box) for shape in drawing.shapes):
                tiles.append(tile)
    return tuple(tiles), tuple(_marks(left, top, columns, rows))


def _marks(left: float, top: float, columns: int, rows: int) -> Iterator[Shape]:
    """A line along the middle of each overlap, and crosses on it that both neighbours show."""
    step_x, step_y = WINDOW_WIDTH - OVERLAP, WINDOW_HEIGHT - OVERLAP
    right, bottom = left + columns * step_x + OVERLAP, top - rows * step_y - OVERLAP
    for column in range(1, columns):
        x = left + column * step_x + OVERLAP / 2
        yield Line(x, bottom, x, top, FRAME)
        for row in range(rows):
            for share in (0.2, 0.8):
                yield from cross(x, top - row * step_y - share * WINDOW_HEIGHT, MARK, JOIN)
    for row in range(1, rows):
        y = top - row * step_y - OVERLAP / 2
        yield Line(left, y, right, y, FRAME)
        for column in range(columns):
            for share in (0.2, 0.8):
                yield from cross(left + column * step_x + share * WINDOW_WIDTH, y, MARK, JOIN)


def _corner(paper: Paper) -> tuple[float, float]:
    """Where on the sheet the shared middle begins."""
    return (paper.width - SHARED_WIDTH) / 2, (paper.height - SHARED_HEIGHT) / 2


def _bars(paper: Paper) -> Iterator[Shape]:
    """Both bars along the foot and up the side, and what they are for."""
    x, y = _corner(paper)
    for at, (words, long) in zip((2.0, 8.0), reversed(BARS), strict=True):
        yield from _bar(x + SIDE, y + at, long, 0.0)
        yield Words(x + SIDE + long + 2.0, y + at - 1.0, words, SMALL_MM, BAR)
        yield from _bar(x + at, y + FOOT, long, 90.0)
        yield Words(x + at + 1.0, y + FOOT + long + 2.0, words, SMALL_MM, BAR, turn_deg=90.0)
    warning = DO_NOT_DRILL.split(": ")
    yield Words(x + SIDE + 118.0, y + 7.0, f"{warning[0]}:", 2.2, BAR)
    yield Words(x + SIDE + 118.0, y + 2.5, f"{warning[1]}", 2.2, BAR)


def _bar(x: float, y: float, long: float, turn_deg: float) -> Iterator[Line]:
    """A bar with ticks at its ends, to the right or up."""
    tick = 1.5
    if turn_deg:
        yield Line(x, y, x, y + long, BAR)
        yield from (Line(x - tick, end, x + tick, end, BAR) for end in (y, y + long))
    else:
        yield Line(x, y, x + long, y, BAR)
        yield from (Line(end, y - tick, end, y + tick, BAR) for end in (x, x + long))


def _sheet(drawing: Drawing, paper: Paper, tile: Tile, marks: Sequence[Shape]) -> Page:
    """One part at true size."""
    x, y = _corner(paper)
    window = Box(x + SIDE, y + FOOT, x + SIDE + WINDOW_WIDTH, y + FOOT + WINDOW_HEIGHT)
    dx, dy = window.left - tile.box.left, window.bottom - tile.box.bottom
    inside = [shape for shape in (*drawing.shapes, *marks) if touches(shape, tile.box.widened(1.0))]
    head = window.top + 2.5
    around: list[Shape] = [
        Words(window.left, head, f"{tile.name}  {drawing.title}", 4.0),
        *(Words(window.left, window.top + 7.5, drawing.notes[0], SMALL_MM) for _ in drawing.notes[:1]),
        *_bars(paper),
    ]
    around += rectangle(window, FRAME)
    return Page(paper, (Clipped(window, tuple(moved(shape, dx, dy) for shape in inside)),), tuple(around))


def _told(drawing: Drawing, paper: Paper, lines: Sequence[str], tiles: Sequence[Tile]) -> Iterator[Page]:
    """Pages of words, the map of the sheets below the last of them or on a page of its own."""
    x, y = _corner(paper)
    bottom = y + FOOT + 4.0
    left, wanted = list(lines), MAP_MM
    while left or wanted:
        at = y + SHARED_HEIGHT - 16.0
        shapes: list[Shape] = [Words(x + SIDE, at + 8.0, drawing.title, TITLE_MM)]
        while left and at > bottom:
            line = left.pop(0)
            shapes.append(Words(x + SIDE, at, line, SMALL_MM))
            at -= LINE_MM if line else LINE_MM / 2
        if not left and at - bottom > wanted:
            shapes += _map(drawing, tiles, Box(x + SIDE, bottom, x + SHARED_WIDTH, at - 2.0))
            wanted = 0.0
        yield Page(paper, (), (*shapes, *_bars(paper)))


def _map(drawing: Drawing, tiles: Sequence[Tile], room: Box) -> Iterator[Shape]:
    """How the sheets go together: not at true size, and it says so."""
    corners = [Line(*tile.box, FRAME) for tile in tiles]
    yield Words(room.left, room.top, "How the sheets go together. This map is NOT at true size:", SMALL_MM)
    yield from _fitted([*drawing.shapes, *corners], room, [shape for shape in drawing.shapes if not isinstance(shape, Words)])
    for tile in tiles:
        sides = list(rectangle(tile.box, FRAME))
        middle = ((tile.box.left + tile.box.right) / 2, (tile.box.bottom + tile.box.top) / 2)
        name = Words(*middle, tile.name, 14.0, WORDS, MIDDLE)
        yield from _fitted([*drawing.shapes, *corners], room, [*sides, name])


def _fitted(all_: Sequence[Shape], room: Box, shown: Sequence[Shape]) -> Iterator[Shape]:
    """Some of a drawing's shapes, made as small as all of it has to be to go into a room, below its first line."""
    whole = box_of(all_)
    scale = min(room.width / whole.width, (room.height - 4.0) / whole.height, 0.5)
    dx, dy = room.left - whole.left * scale, room.top - 4.0 - whole.top * scale
    return (moved(shape, dx, dy, scale) for shape in shown)


def _small(sized: Drawing, paper: Paper) -> Page:
    """A drawing with its dimensions on one page, as small as it has to be."""
    x, y = _corner(paper)
    room = Box(x + SIDE, y + FOOT + 4.0, x + SHARED_WIDTH, y + SHARED_HEIGHT - 14.0)
    heading = (
        Words(x + SIDE, room.top + 6.0, sized.title, TITLE_MM),
        Words(x + SIDE, room.top, "Dimensions. This page is NOT at true size: do not measure or drill from it.", SMALL_MM),
    )
    return Page(paper, (), (*heading, *_fitted(sized.shapes, room, sized.shapes), *_bars(paper)))


def _folded(notes: Sequence[str]) -> Iterator[str]:
    import textwrap

    for note in notes:
        yield from textwrap.wrap(note, COLUMNS, subsequent_indent="   ")
