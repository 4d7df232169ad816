"""Readings of a unit's health, out of an ad or out of the user's own lines, held against what they should be."""

from __future__ import annotations

import functools
import re
from collections.abc import Iterable, Iterator, Mapping, Sequence
from typing import TYPE_CHECKING, NamedTuple

from interchange.ads.plain import clean
from interchange.catalog.figure import Figure
from interchange.quantity import show
from interchange.quantity.units import UNITS

if TYPE_CHECKING:
    from interchange.catalog.health import HealthTest
    from interchange.catalog.model import Features

MOST_READINGS = 16
ROUNDING = 1e-9  # of a limit: psi into kPa and back is no fault of an engine
_NUMBER = r"[0-9]{1,5}+(?:\.[0-9]{1,3}+)?"
_PARTED = r"(?:[ \t]{0,3}(?:,|/|;|-|–|and|&)[ \t]{0,3}|[ \t]{1,3})"
_NUMBERS = rf"{_NUMBER}(?:{_PARTED}{_NUMBER}){{0,{MOST_READINGS - 1}}}"
_UNIT = r"[ \t]{0,2}(?:psig?|lbs?|pounds|bar|kpa|mpa|%|percent)(?!\w)"
_BETWEEN = r"[^0-9\n.;]{0,40}"
_NEAR = 24  # signs after a reading in which a word may say that it is another


class Reading(NamedTuple):
    """What a test read, in the base unit of what it measures, one value for each place."""

    test: HealthTest
    values: tuple[float, ...]
    text: str
    where: str
    """Who says so: the ad, or the day of one's own line."""


class Result(NamedTuple):
    """A reading held against its limits: which of the test's ratios it earns, and why."""

    test: HealthTest
    ratio: float
    text: str
    why: str


def readings_in(text: str, tests: Sequence[HealthTest], where: str) -> Iterator[Reading]:
    """Every reading that stands in a text: the test's words, numbers, and a unit. Without a unit it is none."""
    plain = clean(text)
    for test in tests:
        match = _wording(test.say).search(plain)
        if match is None or _another(test, plain[match.start() : match.end() + _NEAR]):
            continue
        numbers, unit = (match["after"], match["unit_after"]) if match["after"] else (match["before"], match["unit_before"])
        size = _size(unit.strip().lower(), test.measures)
        if size is not None:
            values = tuple(float(number) * size for number in re.findall(_NUMBER, numbers))
            yield Reading(test, values, match.group().strip(), where)


def _another(test: HealthTest, near: str) -> bool:
    return any(word in near.casefold() for word in test.unless)


@functools.cache
def _wording(say: tuple[str, ...]) -> re.Pattern[str]:
    """The test's words before its numbers, or after them: "compression 410, 400 psi", "40 psi oil pressure"."""
    longest_first = sorted(say, key=len, reverse=True)
    words = "|".join("[ -]?".join(re.escape(part) for part in re.split("[ -]", word)) for word in longest_first)
    return re.compile(
        rf"\b(?:{words})\b{_BETWEEN}(?P<after>{_NUMBERS})(?P<unit_after>{_UNIT})"
        rf"|(?<![0-9.,])(?P<before>{_NUMBERS})(?P<unit_before>{_UNIT})[ \t]{{1,3}}(?:of[ ])?(?:hot[ ]|idle[ ])?(?:{words})\b",
        re.IGNORECASE,
    )


def _size(unit: str, measures: str) -> float | None:
    """How large one of a unit is in the base unit of what is measured; None where it measures something else."""
    spelt = {"lb": "psi", "lbs": "psi", "pounds": "psi", "psig": "psi", "mpa": "MPa", "kpa": "kPa"}.get(unit, unit)
    found = UNITS[measures].get(spelt)
    return float(found) if found is not None else None


def latest(readings: Iterable[Reading]) -> list[Reading]:
    """The last reading of each test: what was read again stands for what was read before."""
    return list({reading.test.id: reading for reading in readings}.values())


def judged(reading: Reading, features: Features) -> Result:
    """Hold a reading against the unit's own limits, and where these are not known against the usual ones."""
    test, values = reading.test, reading.values
    said = f"{test.title} {', '.join(_shown(value, test) for value in values)} ({reading.where})"
    for fault in (_too_low(reading, features), _too_high(reading, features), _uneven(reading, features)):
        if fault:
            return Result(test, test.fails, said, fault)
    missing = _missing(reading, features)
    if (close := test.close_spread) is not None and test.spread not in features and _apart(values) > close.value * (1 + ROUNDING):
        return Result(test, test.doubtful, said, f"{_apart(values):.0%} apart, more than {close.text} ({_from(close)})")
    if missing:
        return Result(test, test.even, said, f"no fault in it, but {missing}")
    return Result(test, test.passes, said, "within " + " and ".join(_limits(test, features)))


def _too_low(reading: Reading, features: Features) -> str:
    limit = features.get(reading.test.least) or reading.test.usual_least
    lowest = min(reading.values)
    if limit is None or lowest >= limit.value * (1 - ROUNDING):
        return ""
    return f"{_which(reading, lowest)} is below {limit.text} ({_whose(limit, reading.test.least, features)})"


def _too_high(reading: Reading, features: Features) -> str:
    limit = features.get(reading.test.most) or reading.test.usual_most
    highest = max(reading.values)
    if limit is None or highest <= limit.value * (1 + ROUNDING):
        return ""
    return f"{_which(reading, highest)} is above {limit.text} ({_whose(limit, reading.test.most, features)})"


def _uneven(reading: Reading, features: Features) -> str:
    test, values = reading.test, reading.values
    lowest, highest = min(values), max(values)
    own = features.get(test.spread)
    if own is not None:
        apart = f"{_shown(highest - lowest, test)} apart, more than {own.text} ({_whose(own, test.spread, features)})"
        return f"{_which(reading, lowest)} is low: {apart}" if highest - lowest > own.value * (1 + ROUNDING) else ""
    usual = test.usual_spread
    if usual is None or _apart(values) <= usual.value * (1 + ROUNDING):
        return ""
    return f"{_which(reading, lowest)} is low: {_apart(values):.0%} below the highest, more than {usual.text} ({_from(usual)})"


def _apart(values: Sequence[float]) -> float:
    highest = max(values)
    return (highest - min(values)) / highest if highest else 0.0


def _missing(reading: Reading, features: Features) -> str:
    """What keeps a reading without fault from being a pass."""
    test = reading.test
    count = features.get(test.each)
    if test.each and count is None:
        return "how many readings there should be is not known"
    if count is not None and len(reading.values) < count.value:
        return f"{len(reading.values)} of {count.value:.0f} were read"
    low, high = _limit(test.least, test.usual_least, features), _limit(test.most, test.usual_most, features)
    return "" if low or high else "what it should read is not in the catalog"


def _limit(path: str, usual: Figure | None, features: Features) -> Figure | None:
    return features.get(path) or usual


def _limits(test: HealthTest, features: Mapping[str, Figure]) -> Iterator[str]:
    for path, usual, word in ((test.least, test.usual_least, "at least"), (test.most, test.usual_most, "at most")):
        if limit := _limit(path, usual, dict(features)):
            yield f"{word} {limit.text} ({_whose(limit, path, features)})"


def _which(reading: Reading, value: float) -> str:
    """Which reading it is, by its place."""
    if len(reading.values) == 1:
        return _shown(value, reading.test)
    return f"number {reading.values.index(value) + 1}, {_shown(value, reading.test)},"


def _whose(limit: Figure, path: str, features: Mapping[str, Figure]) -> str:
    return "its own limit" if path in features else f"the usual limit: {_from(limit)}"


def _from(limit: Figure) -> str:
    return limit.origin.source or limit.origin.basis or "no source"


def _shown(value: float, test: HealthTest) -> str:
    return show(value, test.measures).partition(" (")[0]
