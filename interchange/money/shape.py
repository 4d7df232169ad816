"""The shape behind low, likely and high: a triangle with its peak at likely, one in ten below low, one in ten above high."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, NamedTuple

if TYPE_CHECKING:
    from interchange.spread import Spread

TAIL = 0.1
ROOT = math.sqrt(TAIL)
MOST_STEPS, CLOSE = 12, 1e-15  # five or six steps do


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
    (L - l)² / (W L) = 0.1, and likewise on the right, so l = L - sqrt(0.1 W L) and r = R - sqrt(0.1 W R). With L / W the
    square of a sine and R / W that of its cosine, the angle at which l / (l + r) is as wanted is found by Newton's method.

    Raises ValueError where low, likely and high are not in order.
    """
    low, likely, high = spread
    if not low <= likely <= high:
        raise ValueError(f"{low} ≤ {likely} ≤ {high} does not hold")
    left, right = likely - low, high - likely
    if left + right == 0:
        return Triangle(likely, likely, likely)
    wanted = left / (left + right)
    angle = math.asin(math.sqrt(TAIL + (1 - 2 * TAIL) * wanted))
    for _ in range(MOST_STEPS):
        sine, cosine = math.sin(angle), math.cos(angle)
        off = (1 - wanted) * _reach(sine) - wanted * _reach(cosine)
        step = off / ((1 - wanted) * cosine * (2 * sine - ROOT) + wanted * sine * (2 * cosine - ROOT))
        angle -= step
        if abs(step) < CLOSE:
            break
    sine, cosine = math.sin(angle), math.cos(angle)
    width = (left + right) / (_reach(sine) + _reach(cosine))
    return Triangle(likely - sine * sine * width, likely, likely + cosine * cosine * width)


def _reach(root: float) -> float:
    """From the peak to P10 (or P90), as a part of the whole width; ``root`` is that of the share of the width on this side."""
    return root * root - ROOT * root


def mean(spread: Spread) -> float:
    """The mean of a spread."""
    return triangle(spread).mean
