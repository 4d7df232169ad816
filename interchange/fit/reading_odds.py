"""How likely two faces mate whose readings are too coarse to say.

A reading is taken as normal about what was read, with its ± as two standard deviations: a judgement, since nobody writes down how
he held the tape. A circle's holes all move together, in or out, because the diameter was the one thing read; holes noted point by
point move each by itself.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from typing import NamedTuple

from interchange.catalog.geometry import Hole
from interchange.fit.clocking import LineUp, Pair, pairs_at

SIGMAS = 2.0
"""Standard deviations in a reading's ±."""
FARTHEST_SIGMAS = 8.0  # beyond it lies less than one in 10^15
STEPS = 96  # of Simpson's rule: good to 1e-9 where the slack is up to a few hundred standard deviations, tested
FEWER_STEPS = 24  # for each point, where the circle's own doubt is integrated over as well


def normal_share(z: float) -> float:
    """The share of a normal distribution below z standard deviations: (1 + erf(z / √2)) / 2."""
    return math.erfc(-z / math.sqrt(2)) / 2


def between(low: float, high: float, mean: float, sigma: float) -> float:
    """The chance that a normal reading lies between two limits."""
    if sigma <= 0:
        return 1.0 if low <= mean <= high else 0.0
    return max(0.0, normal_share((high - mean) / sigma) - normal_share((low - mean) / sigma))


def within_disc(offset_mm: float, slack_mm: float, sigma_mm: float, steps: int = STEPS) -> float:
    """The chance that a centre read ``offset_mm`` off is at most ``slack_mm`` off: normal both ways, so a Rice distribution.

    The integral over the disc, chord by chord: ∫ φ(x) × erf(half chord / (σ √2)) dx, by Simpson's rule over the angle.
    """
    if slack_mm < 0:
        return 0.0
    if sigma_mm <= 0:
        return 1.0 if offset_mm <= slack_mm else 0.0
    low = max(-slack_mm, offset_mm - FARTHEST_SIGMAS * sigma_mm)
    high = min(slack_mm, offset_mm + FARTHEST_SIGMAS * sigma_mm)
    if low >= high:
        return 0.0
    start, end = math.asin(max(-1.0, low / slack_mm)), math.asin(min(1.0, high / slack_mm))

    def chord(angle: float) -> float:
        """What lies on one chord, for a step of the angle."""
        x, half = slack_mm * math.sin(angle), slack_mm * math.cos(angle)
        density = math.exp(-(((x - offset_mm) / sigma_mm) ** 2) / 2) / (sigma_mm * math.sqrt(2 * math.pi))
        return density * math.erf(half / (sigma_mm * math.sqrt(2))) * half

    return min(1.0, _simpson(chord, start, end, steps))


def _simpson(function: Callable[[float], float], start: float, end: float, steps: int) -> float:
    width = (end - start) / steps
    inner = sum((4 if i % 2 else 2) * function(start + i * width) for i in range(1, steps))
    return (function(start) + inner + function(end)) * width / 3


class _Off(NamedTuple):
    """How one bolt stands in its hole, mm: off along the radius, off along the circle, what it may be, and σ of its centres."""

    radial: float
    across: float
    slack: float
    sigma: float


def chance_of_mating(
    bolts: Sequence[Hole], holes: Sequence[Hole], found: LineUp, clearance_mm: float, on_circle: tuple[bool, bool]
) -> float:  # fmt: skip
    """The chance that every bolt has its hole, at the best of the clockings in ``found``; of two circles exact.

    ``found`` is the line-up with every hole widened by what the readings may be off; ``on_circle`` says which face was read
    as a circle. Where holes were noted one by one it is a lower bound: they might pass at a turn between those tried, or in other
    pairs.
    """
    spreads = [[(hole.tolerance_mm or 0.0) / SIGMAS for hole in face] for face in (bolts, holes)]
    extra = SIGMAS * sum(max(each, default=0.0) for each in spreads)
    circle_sigma = math.hypot(*(each[0] for each, circle in zip(spreads, on_circle, strict=True) if circle and each))
    own = [[0.0] * len(each) if circle else each for each, circle in zip(spreads, on_circle, strict=True)]
    best = 0.0
    for turn in found.clockings:
        pairs = pairs_at(bolts, holes, turn, clearance_mm, extra)
        if len(pairs) == len(bolts) == len(holes):
            placed = [_off(pair, bolts, holes, math.hypot(own[0][pair.bolt], own[1][pair.hole])) for pair in pairs]
            best = max(best, _all_pass(placed, circle_sigma))
    return best


def _off(pair: Pair, bolts: Sequence[Hole], holes: Sequence[Hole], sigma: float) -> _Off:
    """What a pair is off along the circle stays as it is when only the difference of the radii is in doubt."""
    radial = bolts[pair.bolt].radius_mm - holes[pair.hole].radius_mm
    return _Off(radial, math.sqrt(max(pair.offset_mm**2 - radial**2, 0.0)), pair.slack_mm, sigma)


def _all_pass(placed: Sequence[_Off], circle_sigma: float) -> float:
    """The chance that all of these pass where they stand."""
    fixed = [each for each in placed if not each.sigma]
    loose = [each for each in placed if each.sigma]
    if any(each.slack < each.across for each in fixed):
        return 0.0
    rooms = [(each.radial, math.sqrt(each.slack**2 - each.across**2)) for each in fixed]
    low = max((-room - radial for radial, room in rooms), default=-math.inf)
    high = min((room - radial for radial, room in rooms), default=math.inf)
    if not loose:
        return between(low, high, 0.0, circle_sigma)
    if not circle_sigma:
        return _product(loose, 0.0, STEPS) if low <= 0 <= high else 0.0

    def all_with(off: float) -> float:
        """With the radii off by so much."""
        density = math.exp(-((off / circle_sigma) ** 2) / 2) / (circle_sigma * math.sqrt(2 * math.pi))
        return _product(loose, off, FEWER_STEPS) * density

    start, end = max(low, -FARTHEST_SIGMAS * circle_sigma), min(high, FARTHEST_SIGMAS * circle_sigma)
    return min(1.0, _simpson(all_with, start, end, STEPS)) if start < end else 0.0


def _product(placed: Sequence[_Off], off_mm: float, steps: int) -> float:
    """Each by itself, with the radii off by so much; like ones are worked out once."""
    known: dict[tuple[float, ...], float] = {}
    total = 1.0
    for each in placed:
        offset = math.hypot(each.radial + off_mm, each.across)
        key = (round(offset, 6), round(each.slack, 6), each.sigma)
        if key not in known:
            known[key] = within_disc(offset, each.slack, each.sigma, steps)
        total *= known[key]
    return total
