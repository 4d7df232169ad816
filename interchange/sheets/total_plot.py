"""All ads at once: what each is expected to come to, against the chance that it goes in and is good. Drawn, and in letters."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from typing import NamedTuple

from interchange.quantity import show
from interchange.sheets.drawing import (
    CENTRE,
    FACE,
    LEFT,
    MARKED,
    MIDDLE,
    PART,
    RIGHT,
    SIZE,
    Circle,
    Drawing,
    Line,
    Shape,
    Words,
)

WIDE_MM, HIGH_MM, LETTER_MM, SPOT_MM = 100.0, 70.0, 3.4, 1.3
STEPS = (1, 2, 5)
MOST_STEPS = 6
TENTHS = 10
TITLE = "Total against the chance that it goes in and is good"


class Dot(NamedTuple):
    """One ad: what to call it, its chance, and its total in cents: expected, and one in ten less and more than."""

    name: str
    chance: float
    cents: float
    low_cents: float
    high_cents: float
    marked: bool = False


def money_steps(most_cents: float) -> list[int]:
    """Round amounts from nothing to above the most, in cents; seven at most."""
    least = max(most_cents, 100.0) / MOST_STEPS
    power = 10 ** math.floor(math.log10(least))
    step = next(times * power for times in (*STEPS, TENTHS) if times * power >= least - 1e-9)
    return [round(i * step) for i in range(math.ceil(most_cents / step - 1e-9) + 1)] or [0]


def plot(dots: Sequence[Dot], notes: tuple[str, ...] = ()) -> Drawing:
    """Chance to the right, total upwards, with what one in ten comes to less and more than as a line through each."""
    steps = money_steps(max(dot.high_cents for dot in dots))
    top = steps[-1] or 1
    shapes: list[Shape] = []
    for step in steps:
        y = HIGH_MM * step / top
        shapes += [Line(0.0, y, WIDE_MM, y, CENTRE), Words(-2.0, y - LETTER_MM / 2, show(step, "money"), LETTER_MM, SIZE, RIGHT)]
    for tenth in range(0, 11, 2):
        x = WIDE_MM * tenth / TENTHS
        shapes += [Line(x, 0.0, x, -1.5, PART), Words(x, -3.0 - LETTER_MM, f"{tenth * 10}%", LETTER_MM, SIZE, MIDDLE)]
    shapes += [Line(0.0, 0.0, WIDE_MM, 0.0, PART), Line(0.0, 0.0, 0.0, HIGH_MM, PART)]
    shapes.append(Words(WIDE_MM / 2, -4.5 - 2 * LETTER_MM, "chance that it goes in and is good", LETTER_MM, SIZE, MIDDLE))
    for dot in sorted(dots, key=lambda dot: dot.marked):
        shapes += _dot(dot, top)
    return Drawing(TITLE, tuple(shapes), notes)


def _dot(dot: Dot, top: float) -> Iterator[Shape]:
    x, layer = WIDE_MM * dot.chance, MARKED if dot.marked else FACE
    y, low, high = (HIGH_MM * max(cents, 0.0) / top for cents in (dot.cents, dot.low_cents, dot.high_cents))
    yield Line(x, low, x, high, layer)
    yield Circle(x, y, SPOT_MM * (1.6 if dot.marked else 1.0), layer)
    yield Words(x + 2.2, y - LETTER_MM / 2, dot.name, LETTER_MM * (1.2 if dot.marked else 1.0), layer, LEFT)


def in_letters(dots: Sequence[Dot], wide: int, high: int) -> list[str]:
    """The same in letters: each ad by its name at its place; one that would stand on another stands beside it, or is a plus."""
    steps = money_steps(max(dot.cents for dot in dots))
    top = steps[-1] or 1
    grid = [[" "] * (wide + 4) for _ in range(high)]
    for dot in dots:
        row = high - 1 - round((high - 1) * min(max(dot.cents / top, 0.0), 1.0))
        column = round((wide - 1) * dot.chance)
        _put(grid[row], column, dot.name)
    labels = {high - 1 - round((high - 1) * step / top): show(step, "money") for step in steps}
    margin = max(map(len, labels.values()))
    lines = [f"{labels.get(i, ''):>{margin}} │{''.join(row).rstrip()}" for i, row in enumerate(grid)]
    lines.append(" " * margin + " └" + "─" * wide)
    foot = [" "] * (wide + 4)
    for tenth in range(0, 11, 2):
        _put(foot, round((wide - 1) * tenth / TENTHS) - (1 if tenth else 0), f"{tenth * 10}%")
    return [*lines, " " * (margin + 2) + "".join(foot).rstrip()]


def _put(row: list[str], column: int, name: str) -> None:
    """A name where there is room for it with a space on both sides; a plus where there is none."""
    for at in (column, column - len(name) - 1, column + 3):
        around = row[max(at - 1, 0) : at + len(name) + 1]
        if at >= 0 and at + len(name) <= len(row) and not "".join(around).strip():
            row[at : at + len(name)] = name
            return
    if row[column] == " ":
        row[column] = "+"
