"""How an amount may turn out: sums of what varies apart, and branches of which one comes to pass; its mean, P10, P50 and P90.

A chance amount is a tree. A leaf is a spread (a triangle, ``shape.py``) or a long-tailed amount given by its cuts. ``AllOf`` adds
amounts that are drawn independently; ``OneOf`` is one of several, each with its chance: a unit is good or bad, not 80 % good.
What hangs together (hours of one pair of hands, waiting in one queue) belongs in one leaf, whose ends add.

Means are exact: they add, and branches average. The distribution is its Fourier-cosine series on the interval it lives on
(F. Fang and C. W. Oosterlee, SIAM Journal on Scientific Computing 31, 2008; from memory, held against simulation in the tests):
characteristic functions of independent amounts multiply and those of branches average, so the whole tree needs no enumeration.
"""

from __future__ import annotations

import cmath
import itertools
import math
from collections.abc import Sequence
from typing import NamedTuple, TypeAlias

from interchange.money.shape import mean as mean_of_spread
from interchange.money.shape import triangle
from interchange.spread import Spread, exactly

LOW, MIDDLE, HIGH = 0.1, 0.5, 0.9
BLOCKS = (range(1, 33), *(range(2**power + 1, 2 ** (power + 1) + 1) for power in range(5, 11)))
FADED = 3e-3  # the series is long enough where the characteristic function has come down to this
LAST = 8  # terms that must all have
DEVIATIONS = 9  # farther out than this there is nothing that counts
NARROW = 1e-6  # of the whole width: below it a triangle is a point
NORMAL_DECILE = 1.2815515655446004  # of the standard normal distribution, P90
SLICES = 48


class Cuts(NamedTuple):
    """An amount by its cuts, rising: as likely between any two neighbours as between any other two, evenly within."""

    at: tuple[float, ...]


class AllOf(NamedTuple):
    """All of these together, each drawn apart."""

    parts: tuple[Odds, ...]


class OneOf(NamedTuple):
    """One of these, each with its chance; the chances come to 1."""

    branches: tuple[tuple[float, Odds], ...]


Odds: TypeAlias = "Spread | Cuts | AllOf | OneOf"


class Range(NamedTuple):
    """What an amount comes to: its mean; one in ten is below ``low`` and one in ten above ``high``, half below ``middle``."""

    mean: float
    low: float
    middle: float
    high: float


NONE = exactly(0.0)


def perhaps(chance: float, amount: Odds) -> Odds:
    """An amount that comes to pass with this chance, and else nothing."""
    if chance >= 1:
        return amount
    return OneOf(((chance, amount), (1 - chance, NONE))) if chance > 0 else NONE


def long_tailed(spread: Spread) -> Odds:
    """A lognormal amount with this P10 and P90; its likely value is not asked. A sure amount stays so.

    The median is the geometric mean of both and sigma is ln(P90 / P10) / 2.5631. It is cut into slices of one chance each, evenly
    within; the last is cut off where it keeps the slice's mean, so that the mean is exp(mu + sigma² / 2) but for the first slice.
    """
    if spread.low <= 0 or spread.low >= spread.high:
        return spread
    middle = (math.log(spread.low) + math.log(spread.high)) / 2
    sigma = (math.log(spread.high) - math.log(spread.low)) / (2 * NORMAL_DECILE)
    from statistics import NormalDist

    normal = NormalDist(middle, sigma)
    cuts = [math.exp(normal.inv_cdf(place / SLICES)) for place in range(1, SLICES)]
    first = max(0.0, 2 * cuts[0] - cuts[1])
    wanted = SLICES * math.exp(middle + sigma * sigma / 2)
    inside = (first + cuts[0]) / 2 + sum((one + two) / 2 for one, two in itertools.pairwise(cuts))
    return Cuts((first, *cuts, max(cuts[-1], 2 * (wanted - inside) - cuts[-1])))


def scaled(odds: Odds, by: float) -> Odds:
    """So many times the amount; a negative number makes a cost of a credit and a credit of a cost."""
    if isinstance(odds, Spread):
        ends = (odds.low * by, odds.likely * by, odds.high * by)
        return Spread(*ends) if by >= 0 else Spread(*reversed(ends))
    if isinstance(odds, Cuts):
        at = tuple(cut * by for cut in odds.at)
        return Cuts(at if by >= 0 else at[::-1])
    if isinstance(odds, AllOf):
        return AllOf(tuple(scaled(part, by) for part in odds.parts))
    return OneOf(tuple((chance, scaled(part, by)) for chance, part in odds.branches))


def mean(odds: Odds) -> float:
    """The expected amount, exactly."""
    if isinstance(odds, Spread):
        return mean_of_spread(odds)
    if isinstance(odds, Cuts):
        return _moments(odds)[0]
    if isinstance(odds, AllOf):
        return sum(mean(part) for part in odds.parts)
    return sum(chance * mean(part) for chance, part in odds.branches)


def what_to_expect(odds: Odds) -> Range:
    """Mean, P10, P50 and P90 of an amount."""
    law = Law(odds)
    return Range(law.mean, law.quantile(LOW), law.quantile(MIDDLE), law.quantile(HIGH))


class Law:
    """The distribution of an amount: the chance to come to so much or less, and back."""

    def __init__(self, odds: Odds) -> None:
        self.mean, variance = _moments(odds)
        reach = DEVIATIONS * math.sqrt(variance)
        least, most = _ends(odds)
        self.least, self.most = max(least, self.mean - reach), min(most, self.mean + reach)
        self.width = self.most - self.least
        self.sure = self.width <= NARROW * max(1.0, abs(self.mean))
        self._terms = () if self.sure else self._series(odds)

    def _series(self, odds: Odds) -> tuple[float, ...]:
        """The weights of the sines: 2 / (k pi) times the real part of the characteristic function, turned back to the least."""
        step = math.pi / self.width
        turn, turned, found = cmath.exp(-1j * step * self.least), complex(1.0), []
        for block in BLOCKS:
            values = _characteristic(odds, step, block, NARROW * self.width)
            for k, value in zip(block, values, strict=True):
                turned *= turn
                found.append(2 / (k * math.pi) * (value * turned).real)
            if max(abs(value) for value in values[-LAST:]) < FADED:
                break
        return tuple(found)

    def chance_below(self, amount: float) -> float:
        """The chance to come to this or less."""
        if self.sure:
            return 1.0 if amount >= self.least else 0.0
        if not self.least < amount < self.most:
            return 0.0 if amount <= self.least else 1.0
        place = (amount - self.least) / self.width
        angle = math.pi * place
        # sin(k a) by the recurrence sin((k + 1) a) = 2 cos(a) sin(k a) - sin((k - 1) a)
        twice, before, sine, found = 2 * math.cos(angle), 0.0, math.sin(angle), place
        for weight in self._terms:
            found += weight * sine
            before, sine = sine, twice * sine - before
        return min(1.0, max(0.0, found))

    def quantile(self, chance: float) -> float:
        """The amount that it comes to or less with this chance."""
        if self.sure:
            return self.least
        low, high, near = self.least, self.most, 1e-4 * self.width
        below, above = -chance, 1 - chance
        while high - low > near:
            place = min(0.9, max(0.1, below / (below - above)))  # by chords, but never a step of less than a tenth
            guess = low + place * (high - low)
            off = self.chance_below(guess) - chance
            if off < 0:
                low, below = guess, off
            else:
                high, above = guess, off
        return low + (high - low) * below / (below - above)


def _moments(odds: Odds) -> tuple[float, float]:
    """Mean and variance."""
    if isinstance(odds, Spread):
        least, peak, most = triangle(odds)
        varied = (least - peak) ** 2 + (most - peak) ** 2 - (least - peak) * (most - peak)
        return (least + peak + most) / 3, varied / 18
    if isinstance(odds, AllOf):
        both = [_moments(part) for part in odds.parts]
        return sum(each[0] for each in both), sum(each[1] for each in both)
    if isinstance(odds, OneOf):
        weighed = [(chance, *_moments(part)) for chance, part in odds.branches]
    else:
        pairs = list(itertools.pairwise(odds.at))
        weighed = [(1 / len(pairs), (one + two) / 2, (two - one) ** 2 / 12) for one, two in pairs]
    middle = sum(chance * each for chance, each, _ in weighed)
    return middle, sum(chance * (varied + (each - middle) ** 2) for chance, each, varied in weighed)


def _ends(odds: Odds) -> tuple[float, float]:
    """The least and the most it can come to."""
    if isinstance(odds, Spread):
        shape = triangle(odds)
        return shape.least, shape.most
    if isinstance(odds, Cuts):
        return odds.at[0], odds.at[-1]
    if isinstance(odds, AllOf):
        both = [_ends(part) for part in odds.parts]
        return sum(each[0] for each in both), sum(each[1] for each in both)
    both = [_ends(part) for chance, part in odds.branches if chance > 0]
    return min(each[0] for each in both), max(each[1] for each in both)


def _characteristic(odds: Odds, step: float, block: range, narrow: float) -> list[complex]:
    """The characteristic function at k step, for the k of a block; a triangle of less than ``narrow`` is taken as a point."""
    if isinstance(odds, Spread):
        return _of_triangle(odds, step, block, narrow)
    if isinstance(odds, Cuts):
        return _of_cuts(odds.at, step, block)
    if isinstance(odds, OneOf):
        weighed = [(chance, _characteristic(part, step, block, narrow)) for chance, part in odds.branches]
        return [sum(chance * values[i] for chance, values in weighed) for i in range(len(block))]
    sure = sum(part.likely for part in odds.parts if isinstance(part, Spread) and part.low == part.high)
    product = _turning(sure, step, block)
    for part in odds.parts:
        if not isinstance(part, Spread) or part.low != part.high:
            product = [one * two for one, two in zip(product, _characteristic(part, step, block, narrow), strict=True)]
    return product


def _turning(amount: float, step: float, block: range) -> list[complex]:
    """exp(i k step amount) for the k of a block."""
    return [cmath.rect(1.0, k * step * amount) for k in block] if amount else [complex(1.0)] * len(block)


def _of_triangle(spread: Spread, step: float, block: range, narrow: float) -> list[complex]:
    """-2 ((b - c) e^(iua) - (b - a) e^(iuc) + (c - a) e^(iub)) / ((b - a)(c - a)(b - c) u²), for a triangle from a over c to b.

    Its peak is never nearer an end than a tenth of its width, since P10 and P90 lie on either side.
    """
    least, peak, most = triangle(spread)
    if most - least <= narrow:
        return _turning(spread.likely, step, block)
    left, right, base = peak - least, most - peak, most - least
    whole = -2 / (base * left * right * step * step)
    ends = zip(_turning(least, step, block), _turning(most, step, block), _turning(peak, step, block), block, strict=True)
    return [(right * one - base * top + left * two) * (whole / (k * k)) for one, two, top, k in ends]


def _of_cuts(at: Sequence[float], step: float, block: range) -> list[complex]:
    """The average of (e^(iuq) - e^(iup)) / (iu (q - p)) over neighbours p and q."""
    slices = len(at) - 1
    weights = [0.0] * len(at)  # of e^(iu cut): what its two slices make of it
    for place, (one, two) in enumerate(itertools.pairwise(at)):
        weights[place] -= 1 / (slices * (two - one))
        weights[place + 1] += 1 / (slices * (two - one))
    found = []
    for k in block:
        u = k * step
        found.append(sum(weight * cmath.rect(1.0, u * cut) for weight, cut in zip(weights, at, strict=True)) / (1j * u))
    return found
