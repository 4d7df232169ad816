"""An amount known only as low, likely and high; nothing in here knows what it is an amount of."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

if TYPE_CHECKING:
    from collections.abc import Iterable


class Spread(NamedTuple):
    """Low (one in ten is less), likely, high (one in ten is more). Cents, unless what holds it says hours or miles.

    Sums and products go point by point: everything cheap together, everything dear together. That is wider than
    independent amounts would be, never narrower.
    """

    low: float
    likely: float
    high: float

    def plus(self, other: Spread) -> Spread:
        """Both amounts together."""
        return Spread(self.low + other.low, self.likely + other.likely, self.high + other.high)

    def times(self, other: Spread | float) -> Spread:
        """So many times the amount; both must not be negative, or low and high would change places."""
        by = other if isinstance(other, Spread) else Spread(other, other, other)
        return Spread(self.low * by.low, self.likely * by.likely, self.high * by.high)

    def at_least(self, other: Spread) -> Spread:
        """The larger of the two at each point: a rate with a minimum charge."""
        return Spread(max(self.low, other.low), max(self.likely, other.likely), max(self.high, other.high))


NOTHING = Spread(0.0, 0.0, 0.0)


def exactly(amount: float) -> Spread:
    """An amount without doubt."""
    return Spread(amount, amount, amount)


def total(amounts: Iterable[Spread]) -> Spread:
    """All of them together; nothing at all is 0."""
    together = NOTHING
    for amount in amounts:
        together = together.plus(amount)
    return together


def longest(amounts: Iterable[Spread]) -> Spread:
    """The largest of them at each point: what all of them take side by side; nothing at all is 0."""
    found = NOTHING
    for amount in amounts:
        found = found.at_least(amount)
    return found
