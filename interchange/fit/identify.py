"""Which shapes of the catalog some readings may be of, and how likely each is.

A reading is taken as normal about the true figure, with its ± as two standard deviations, as everywhere in this room. A few
readings in a hundred are slips (the wrong hole, the wrong end of the tape), and a part may be in no catalog at all: both are
given a flat density over all sizes, so that one odd reading does not rule out what all the others say, and what fits nothing is
told so. All shares here are judgements.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import NamedTuple

from interchange.fit.candidate import Candidate, Expected
from interchange.fit.reading_odds import SIGMAS
from interchange.fit.taken import Reading

SLIP = 0.02
"""How many lengths in a hundred are read wrong altogether."""
MISCOUNT = 0.01
IN_NO_CATALOG = 0.1
"""How often a part is in no catalog, before anything is read."""
SMALLEST_MM, LARGEST_MM = 4.0, 1500.0
COUNTS = 30
"""As many hole or tooth counts there are, for a part of which nothing is known."""
RULED_OUT = 1.5
"""Readings farther off than this many times their ± speak against a shape: three standard deviations."""
CLEAR = 0.95
"""How likely the best has to be, to be called the answer."""
FAINT = 0.01
"""What is less likely than this, and could not be held against every reading, is no rival."""


class Held(NamedTuple):
    """One reading held against one shape."""

    reading: Reading
    expected: float | None
    """The nearest of what it should have read; None where the catalog does not say."""
    off: float | None
    """Reading less expected, mm or holes."""
    agrees: bool | None
    """Whether it may be right about this shape; None where nothing is known to hold it against."""


class Standing(NamedTuple):
    """One shape among all."""

    candidate: Candidate
    chance: float
    held: tuple[Held, ...]

    @property
    def possible(self) -> bool:
        """Whether at least one reading speaks for it and none against."""
        said = [each.agrees for each in self.held if each.agrees is not None]
        return bool(said) and all(said)

    @property
    def whole(self) -> bool:
        """Whether every reading could be held against it."""
        return all(each.agrees is not None for each in self.held)

    @property
    def against(self) -> tuple[Held, ...]:
        """The readings that do not go with it."""
        return tuple(each for each in self.held if each.agrees is False)


class Identified(NamedTuple):
    """What some readings come to."""

    readings: tuple[Reading, ...]
    standings: tuple[Standing, ...]
    """The likeliest first; what stands equal, standards first."""
    none_chance: float
    """That the part is in no catalog."""

    @property
    def rivals(self) -> tuple[Standing, ...]:
        """Those that the readings leave, the likeliest first."""
        return tuple(each for each in self.standings if each.possible and (each.whole or each.chance >= FAINT))

    @property
    def answer(self) -> Standing | None:
        """The only shape it can be; None while there are several, or none that is likely enough."""
        rivals = self.rivals
        if len(rivals) == 1 and rivals[0].chance >= CLEAR and rivals[0] == self.standings[0]:
            return rivals[0]
        return None

    @property
    def entropy_bits(self) -> float:
        """How open it is still."""
        return entropy_bits([each.chance for each in self.standings] + [self.none_chance])


def identify(candidates: Sequence[Candidate], readings: Sequence[Reading]) -> Identified:
    """Every candidate with its chance by Bayes' rule, all of them equally likely before anything was read."""
    prior = (1 - IN_NO_CATALOG) / len(candidates) if candidates else 0.0
    weights = [prior * math.prod(density(each, reading) for reading in readings) for each in candidates]
    none = IN_NO_CATALOG * math.prod(flat_density(reading) for reading in readings)
    whole = sum(weights) + none
    standings = [
        Standing(each, weight / whole, tuple(_held(each, reading) for reading in readings))
        for each, weight in zip(candidates, weights, strict=True)
    ]
    standings.sort(key=lambda each: (-round(each.chance, 9), not each.candidate.standard, each.candidate.id))
    return Identified(tuple(readings), tuple(standings), none / whole)


def sigma_mm(expected: Expected, tolerance: float) -> float:
    """One standard deviation of a reading about a figure: both ± together."""
    return math.hypot(expected.tolerance, tolerance) / SIGMAS


def flat_density(reading: Reading) -> float:
    """Of a part nothing is known about: every count alike, every size alike by its logarithm, per mm."""
    if reading.kind.counted:
        return 1 / COUNTS
    return 1 / (max(reading.value, SMALLEST_MM) * math.log(LARGEST_MM / SMALLEST_MM))


def density(candidate: Candidate, reading: Reading) -> float:
    """How likely a reading is of a shape, per mm or per count."""
    expected = candidate.expected.get(reading.kind.name, ())
    flat = flat_density(reading)
    if not expected:
        return flat
    if reading.kind.counted:
        right = any(each.value == reading.value for each in expected)
        return 1 - MISCOUNT if right else MISCOUNT * flat
    parts = [_normal(reading.value - each.value, sigma_mm(each, reading.tolerance)) for each in expected]
    return (1 - SLIP) * sum(parts) / len(parts) + SLIP * flat


def _normal(off: float, sigma: float) -> float:
    return math.exp(-((off / sigma) ** 2) / 2) / (sigma * math.sqrt(2 * math.pi))


def _held(candidate: Candidate, reading: Reading) -> Held:
    expected = candidate.expected.get(reading.kind.name, ())
    if not expected:
        return Held(reading, None, None, None)
    if reading.kind.counted:
        nearest = min(expected, key=lambda each: abs(each.value - reading.value))
        return Held(reading, nearest.value, reading.value - nearest.value, nearest.value == reading.value)
    nearest = min(expected, key=lambda each: abs(each.value - reading.value) / sigma_mm(each, reading.tolerance))
    off = reading.value - nearest.value
    return Held(reading, nearest.value, off, abs(off) <= RULED_OUT * SIGMAS * sigma_mm(nearest, reading.tolerance))


def entropy_bits(chances: Sequence[float]) -> float:
    """Shannon's measure of how open a choice is."""
    return -sum(chance * math.log2(chance) for chance in chances if chance > 0)
