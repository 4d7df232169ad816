"""A stack-up as a section to scale along the crank line: each length from the end of the one before, and where it has to end."""

from __future__ import annotations

import math
from typing import NamedTuple

from interchange.sheets.drawing import (
    ALONE,
    CENTRE,
    FACE,
    LEFT,
    MEETS,
    MIDDLE,
    PART,
    SIZE,
    TAPE,
    Box,
    Drawing,
    Line,
    Shape,
    Words,
    rectangle,
)

PAGE_MM, ROW_MM, THICK_MM, LETTER_MM = 110.0, 11.0, 4.0, 3.4
LEAST_SPAN_MM = 1.0
BARS_MM = (1, 2, 5, 10, 20, 50, 100, 200, 500)


class Length(NamedTuple):
    """One term: what it is, how long with its sign, mm; None where it is not known."""

    title: str
    mm: float | None


def section(title: str, lengths: tuple[Length, ...], least_mm: float, most_mm: float, notes: tuple[str, ...] = ()) -> Drawing:
    """Lengths laid end to end from a zero line, and the window their end has to fall into, mm; infinite where it has no end.

    Where a length is not known it is told, and no end is drawn.
    """
    ends, at = [0.0], 0.0
    for length in lengths:
        at += length.mm or 0.0
        ends.append(at)
    bounds = [bound for bound in (least_mm, most_mm) if math.isfinite(bound)]
    left, right = min([*ends, *bounds]), max([*ends, *bounds])
    scale = PAGE_MM / max(right - left, LEAST_SPAN_MM)
    shapes: list[Shape] = []
    for row, (length, start) in enumerate(zip(lengths, ends, strict=False)):
        shapes += _length(length, (start - left) * scale, scale, -row * ROW_MM)
    foot = -len(lengths) * ROW_MM
    zero = -left * scale
    shapes += [Line(zero, 4.0, zero, foot - THICK_MM, CENTRE), Words(zero, 5.0, "0", LETTER_MM, SIZE, MIDDLE)]
    known = all(length.mm is not None for length in lengths)
    if known:
        shapes += _end((at - left) * scale, at, foot, closes=least_mm - 1e-6 <= at <= most_mm + 1e-6)
    if bounds:
        shapes += _window(least_mm, most_mm, left, scale, foot - ROW_MM)
    shapes += _bar(scale, foot - 2.6 * ROW_MM)
    return Drawing(title, tuple(shapes), notes)


def _length(length: Length, x: float, scale: float, y: float) -> list[Shape]:
    """One row: a bar of its length where it stands, its words above it."""
    if length.mm is None:
        return [Words(0.0, y + 1.0, f"{length.title}: not known", LETTER_MM, ALONE, LEFT)]
    end = x + length.mm * scale
    words = f"{length.title} {length.mm:+.1f}"
    return [
        *rectangle(Box(min(x, end), y - THICK_MM, max(x, end), y), PART if length.mm >= 0 else FACE),
        Line(end, y, end, y - ROW_MM, CENTRE),
        Words(min(x, end, PAGE_MM / 2), y + 1.2, words, LETTER_MM, SIZE, LEFT),
    ]


def _end(x: float, mm: float, y: float, *, closes: bool) -> list[Shape]:
    layer = MEETS if closes else ALONE
    return [
        Line(x, y + ROW_MM - THICK_MM, x, y - ROW_MM - THICK_MM, layer),
        Words(min(x + 1.5, PAGE_MM * 0.7), y, f"ends at {mm:.1f} mm", LETTER_MM, layer, LEFT),
    ]


def _window(least_mm: float, most_mm: float, left: float, scale: float, y: float) -> list[Shape]:
    """From where to where it has to end."""
    low = (least_mm - left) * scale if math.isfinite(least_mm) else 0.0
    high = (most_mm - left) * scale if math.isfinite(most_mm) else PAGE_MM
    words = window_words(least_mm, most_mm)
    return [
        Line(low, y, high, y, TAPE),
        *(Line(x, y - 2, x, y + 2, TAPE) for x, end in ((low, least_mm), (high, most_mm)) if math.isfinite(end)),
        Words(min(low, PAGE_MM * 0.5), y - LETTER_MM - 2.0, f"has to end {words}", LETTER_MM, TAPE, LEFT),
    ]


def window_words(least_mm: float, most_mm: float) -> str:
    """Where a sum has to end."""
    if not math.isfinite(least_mm):
        return f"at {most_mm:.1f} mm or less"
    if not math.isfinite(most_mm):
        return f"at {least_mm:.1f} mm or more"
    return f"between {least_mm:.1f} and {most_mm:.1f} mm"


def _bar(scale: float, y: float) -> list[Shape]:
    """The longest round length that takes no more than a third of the page."""
    mm = max((bar for bar in BARS_MM if bar * scale <= PAGE_MM / 3), default=BARS_MM[0])
    return [
        Line(0.0, y, mm * scale, y, PART),
        Line(0.0, y - 1, 0.0, y + 1, PART),
        Line(mm * scale, y - 1, mm * scale, y + 1, PART),
        Words(mm * scale + 2.0, y - LETTER_MM / 2, f"{mm} mm", LETTER_MM, SIZE, LEFT),
    ]
