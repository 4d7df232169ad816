"""What would have to be otherwise for the choice to change: the figure at which two ways are level, by solving again."""

from __future__ import annotations

from collections.abc import Callable

HALVINGS = 60


def break_even_chance(safe_cents: float, gamble_cents: float, rescue_cents: float) -> float:
    """How likely a gamble may go wrong before the safe way is the cheaper one.

    (cost of the safe way - cost of the gamble if it is good) / what its rescue costs; a share beyond 0 to 1 decides either way.
    """
    return (safe_cents - gamble_cents) / rescue_cents


def level_at(cost: Callable[[float], float], target_cents: float, least: float, most: float) -> float | None:
    """The figure between these at which a cost that only rises, or only falls, comes to the target; None where it does not."""
    low, high = cost(least) - target_cents, cost(most) - target_cents
    if low * high > 0 or low == high:
        return None
    for _ in range(HALVINGS):
        middle = (least + most) / 2
        here = cost(middle) - target_cents
        if (here <= 0) == (low <= 0):
            least = middle
        else:
            most = middle
    return (least + most) / 2
