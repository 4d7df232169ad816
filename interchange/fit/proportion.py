"""What the machine's figures come to where what they go in proportion to is another: PTO and pump follow the governor."""

from __future__ import annotations

import re
from collections.abc import Callable
from typing import TYPE_CHECKING

from interchange.quantity import QuantityError, read_quantity, show

if TYPE_CHECKING:
    from interchange.catalog.figure import Figure
    from interchange.catalog.model import Dimension

LEAST_MOVE = 0.005  # less than this is not worth a word
UNIT = re.compile(r"[A-Za-z°][^@]*?(?= *(?:@|$|±))")
WHOLE_FROM = 100


def moved(dimension: Dimension, give: Figure | None, need: Figure | None, figure_at: Callable[[str], Figure | None]) -> str:
    """In words what a difference does to the figures of the machine that go with it; nothing where it does nothing.

    Nothing is said either where one of the two is not known or disputed. Where the machine gives none of them, the share is told.
    """
    if not dimension.moves or give is None or need is None or give.others or need.others:
        return ""
    if give.quantity is None or need.quantity is None or need.value <= 0:
        return ""
    share = give.value / need.value - 1
    if abs(share) < LEAST_MOVE:
        return ""
    known = {path: figure for path in dimension.moves if (figure := figure_at(path)) and figure.quantity}
    if not known:
        return f"{' and '.join(dimension.moves.values())} {share:+.0%}, where there is any"
    words = []
    for path, figure in known.items():
        new = [written_like(one, one.value * (1 + share)) for one in figure.readings if one.quantity]
        words.append(f"{dimension.moves[path]} {' or '.join(new)} instead of {' or '.join(one.text for one in figure.readings)}")
    return "; ".join(words)


def written_like(figure: Figure, value: float) -> str:
    """A value in the unit that a figure was written in."""
    quantity = figure.quantity
    if quantity is None:
        return ""
    match = UNIT.search(quantity.text)
    unit = match.group().strip() if match else ""
    try:
        amount = value / read_quantity(f"1 {unit}", quantity.dimension).value
    except QuantityError:
        return show(value, quantity.dimension)
    return f"{amount:,.0f} {unit}" if amount >= WHOLE_FROM else f"{amount:.3g} {unit}"
