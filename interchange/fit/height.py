"""Ratings at the height where the machine works: thin air takes power and torque, as much as the kind says."""

from __future__ import annotations

from typing import TYPE_CHECKING

from interchange.catalog.figure import BASES, Figure
from interchange.errors import InputError
from interchange.fit.proportion import written_like
from interchange.quantity import QuantityError, read_quantity

if TYPE_CHECKING:
    from interchange.catalog.model import Altitude, HeightLoss

MM_A_FOOT = 304.8
LOSS_FEET = 1000.0  # a loss is given for each so many feet
HIGHEST_MM = 20_000 * MM_A_FOOT  # no shop or mine is higher: a slip of the finger
TOO_HIGH = "no machine works at {}"
HINT = "write the height above the sea, such as 5,200 ft"


def read_height(text: str) -> Figure:
    """A height as somebody gives it for one run. Raises InputError for what is no height, or higher than any machine works."""
    try:
        height = Figure(quantity=read_quantity(text, "length"))
    except QuantityError as error:
        raise InputError(f"{text!r} is no height: {error.message}", error.hint or HINT) from error
    if too_high(height):
        raise InputError(TOO_HIGH.format(text), HINT)
    return height


def too_high(height: Figure) -> bool:
    """Whether a height is a slip of the finger."""
    return height.value > HIGHEST_MM


def left(loss: HeightLoss, height_mm: float) -> tuple[float, float, float]:
    """(least, likely, most) share of a rating left at a height: 1 - loss × (height - above) / 1000 ft, and never below 0."""
    thousands = max(0.0, height_mm - loss.above.value) / MM_A_FOOT / LOSS_FEET
    low, high = loss.loss.ends
    least, likely, most = (max(0.0, 1 - share * thousands) for share in (high, loss.loss.value, low))
    return least, likely, most


def lowered(rule: Altitude, height: Figure, figure: Figure, decider: Figure | None) -> Figure | None:
    """A rating at a height; None where how much is lost hangs on what is not known.

    ``decider`` is the word that decides it (natural, turbo). Below the height from which anything is lost, nothing changes.
    """
    if all(left(loss, height.value)[0] == 1 for loss in rule.losses.values()):
        return figure
    words = [one.text for one in decider.readings] if decider else []
    if not words or not rule.losses.keys() >= set(words):
        return None
    first, *others = (
        _at(rule.losses[word], height, one) for one in figure.readings if one.quantity for word in dict.fromkeys(words)
    )
    return first._replace(others=tuple(others))


def _at(loss: HeightLoss, height: Figure, figure: Figure) -> Figure:
    """One reading of a rating, at a height."""
    quantity = figure.quantity
    least, likely, most = left(loss, height.value)
    if quantity is None or least == 1:
        return figure._replace(others=())
    value = figure.value * likely
    ends = (figure.low * least, figure.high * most)
    low, high = ends if ends[0] < ends[1] else (None, None)
    text = f"{written_like(figure, value)} at {height.text} (of {figure.text})"
    one, other = figure.origin, loss.loss.origin
    basis = max((basis for basis in (one.basis, other.basis) if basis), key=BASES.index, default="")
    source = "; ".join(filter(None, (one.source, f"less by height: {other.source}" if other.source else "")))
    return figure._replace(
        quantity=quantity._replace(value=value, low=low, high=high, tolerance=None, text=text),
        origin=one._replace(basis=basis, source=source),
        others=(),
    )
