"""Where the parts come from: each slot as a box, tied to whoever supplies it."""

from __future__ import annotations

from collections.abc import Sequence

from interchange.sheets.drawing import ALONE, FACE, LEFT, MIDDLE, PART, SIZE, Box, Drawing, Line, Shape, Words, rectangle

COLUMN_MM, BOX_MM, GAP_MM, LETTER_MM = 52.0, 7.0, 2.5, 3.2
LONGEST = 34


def sources(title: str, parts: Sequence[tuple[str, str]], missing: Sequence[str] = ()) -> Drawing:
    """``parts`` are (what, from whom), in the order of the slots; ``missing`` are what nobody supplies."""
    names = list(dict.fromkeys(source for _, source in parts))
    shapes: list[Shape] = []
    rows = [what for what, _ in parts] + list(missing)
    step = BOX_MM + GAP_MM
    middle = (len(rows) - 1) / 2
    spacing = max(len(rows) * step / max(len(names), 1), BOX_MM * 2)
    places = {name: (i - (len(names) - 1) / 2) * -spacing for i, name in enumerate(names)}
    for name, y in places.items():
        shapes += list(rectangle(Box(0.0, y - BOX_MM / 2, COLUMN_MM * 0.55, y + BOX_MM / 2), PART))
        shapes.append(Words(COLUMN_MM * 0.275, y - LETTER_MM / 2, name, LETTER_MM, SIZE, MIDDLE))
    by = dict(enumerate(source for _, source in parts))
    for i, what in enumerate(rows):
        y = (middle - i) * step
        known = i in by
        shapes += list(rectangle(Box(COLUMN_MM, y - BOX_MM / 2, 2.5 * COLUMN_MM, y + BOX_MM / 2), PART if known else ALONE))
        words = what if len(what) <= LONGEST else what[: LONGEST - 1].rstrip() + "…"
        shapes.append(Words(COLUMN_MM + 2.0, y - LETTER_MM / 2, words, LETTER_MM, SIZE if known else ALONE, LEFT))
        if known:
            shapes.append(Line(COLUMN_MM * 0.55, places[by[i]], COLUMN_MM, y, FACE))
    return Drawing(title, tuple(shapes))
