"""The shape behind low, likely and high: a triangle with its peak at likely, one in ten below low, one in ten above high."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, NamedTuple

if TYPE_CHECKING:
    from interchange.spread import Spread

TAIL = 0.1
STEPS = 60  # halvings: far below a cent


class Triangle(NamedTuple):
    """A triangular distribution: its ends and its peak."""

    least: float
    peak: float
    most: float

    @property
    def mean(self) -> float:
        """The mean of a triangular distribution: (a + b + c) / 3."""
        return (self.least + self.peak + self.most) / 3


def triangle(spread: Spread) -> Triangle:
    """The triangle with this peak, P10 and P90.

    With L and R the triangle's width left and right of the peak and W = L + R, the area below the peak less l is
    (L - l)² / (W L) = 0.1, and likewise on the right, so l = L - sqrt(0.1 W L) and r = R - sqrt(0.1 W R). The share L / W is
    found by halving, since l / (l + r) rises with it.

    Raises ValueError where low, likely and high are not in order.
    """
    low, likely, high = spread
    if not low <= likely <= high:
        raise ValueError(f"{low} ≤ {likely} ≤ {high} does not hold")
    left, right = likely - low, high - likely
    if left + right == 0:
        return Triangle(likely, likely, likely)
    wanted = left / (left + right)
    least, most = TAIL, 1 - TAIL
    for _ in range(STEPS):
        share = (least + most) / 2
        if _reach(share) < wanted * (_reach(share) + _reach(1 - share)):
            least = share
        else:
            most = share
    share = (least + most) / 2
    width = (left + right) / (_reach(share) + _reach(1 - share))
    return Triangle(likely - share * width, likely, likely + (1 - share) * width)


def _reach(share: float) -> float:
    """From the peak to P10 (or P90), as a part of the whole width, where the peak stands at this share of it."""
    return max(0.0, share - math.sqrt(TAIL * share))


def mean(spread: Spread) -> float:
    """The mean of a spread."""
    return triangle(spread).mean
