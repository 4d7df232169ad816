"""The same ad pasted again, though not word for word: a price changed, a line added, another site's furniture round it.

Two ads are one where they name the same thing at the same place and most of the shorter one's words stand in the other, in the
same order three by three, prices aside. What tells two things of one seller apart keeps them two: both in one paste, or another
serial number, year, telephone or meter reading.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from typing import NamedTuple

from interchange.ads.fields import AdReading
from interchange.ads.named import Matched
from interchange.ads.pasted import Ad
from interchange.ads.plain import clean

LEAST_SHARED = 0.7
"""Of the shorter ad's threes of words, to be the same ad. Chosen on our own examples: common practice, no source."""
LEAST_WORDS = 8  # with fewer, two ads are alike for want of words
THREE = 3
_WORD = re.compile(r"[^\W_]+")
_MONEY = re.compile(r"[$€£][ \t]{0,2}[0-9][0-9.,]{0,12}k?", re.IGNORECASE)


class Seen(NamedTuple):
    """One pasting of an ad: its day where that is known, the price it had, and its id."""

    on: str
    cents: int | None
    currency: str | None
    ad: str


class Told(NamedTuple):
    """An ad with what is held against others."""

    ad: Ad
    reading: AdReading
    matched: Matched


def grouped(ads: Sequence[Told]) -> list[list[Told]]:
    """The ads, those that are one together, as pasted; a group stands where its last one stood."""
    threes: dict[str, frozenset[tuple[str, ...]]] = {}
    groups: list[list[Told]] = []
    by_thing: dict[tuple[str, str], list[list[Told]]] = {}
    for one in sorted(ads, key=lambda told: told.ad.on):
        threes[one.ad.id] = _threes(one)
        key = _thing(one)
        rivals = by_thing.setdefault(key, []) if key else []
        best = max(rivals, key=lambda group: _alike(group, one, threes), default=None)
        if best is not None and _alike(best, one, threes) >= LEAST_SHARED:
            best.append(one)
            continue
        groups.append([one])
        rivals.append(groups[-1])
    order = {told.ad.id: place for place, told in enumerate(ads)}
    return sorted(groups, key=lambda group: order[group[-1].ad.id])


def history(group: Sequence[Told]) -> tuple[Seen, ...]:
    """When a group's ads were pasted and what was asked, oldest first; days that are not known come first."""
    return tuple(sorted((seen for told in group for seen in _seen(told)), key=lambda seen: seen.on))


def _seen(told: Told) -> Iterator[Seen]:
    price = told.reading.price
    for day in (*told.ad.before, told.ad.on):
        yield Seen(day, price.cents, price.currency, told.ad.id)


def _thing(told: Told) -> tuple[str, str] | None:
    """What it names first and where it is; None where either is not known, for then nothing says that two are one."""
    place = told.reading.place
    first = told.matched.hits[0] if told.matched.hits else None
    if first is None or place is None:
        return None
    return first.name.id, f"{place.town or ''} {place.state or ''}".casefold() if place.town else place.zip or place.state or ""


def _threes(told: Told) -> frozenset[tuple[str, ...]]:
    """Three words in a row, each that there is; sums of money count as one word."""
    text = _MONEY.sub(" ", clean(told.ad.text).lower())
    price = told.reading.price.text.lower()
    words = _WORD.findall(text.replace(price, " ") if price else text)
    return frozenset(zip(*(words[place:] for place in range(THREE)), strict=False))


def _alike(group: Sequence[Told], one: Told, threes: dict[str, frozenset[tuple[str, ...]]]) -> float:
    """How much of the shorter stands in the longer, of those of the group it is likest; 0 where something tells them apart."""
    if any(_apart(other, one) for other in group):
        return 0.0
    return max(_shared(threes[other.ad.id], threes[one.ad.id]) for other in group)


def _shared(some: frozenset[tuple[str, ...]], others: frozenset[tuple[str, ...]]) -> float:
    least = min(len(some), len(others))
    return len(some & others) / least if least > LEAST_WORDS - THREE else 0.0


def _apart(one: Told, other: Told) -> bool:
    """Whether something tells two ads apart, however alike they are."""
    if one.ad.source == other.ad.source:
        return True
    facts = (_numbers(one.reading), _numbers(other.reading))
    if any(facts[0][name] != facts[1][name] for name in facts[0].keys() & facts[1].keys()):
        return True
    phones = [{re.sub("[^0-9]", "", str(phone.value))[-10:] for phone in told.reading.phones} for told in (one, other)]
    return bool(phones[0] and phones[1] and not phones[0] & phones[1])


def _numbers(reading: AdReading) -> dict[str, object]:
    """Hours, year and serial number, where they are told."""
    told = {"hours": reading.hours, "year": reading.year, **{fact.name: fact for fact in reading.said if fact.name == "serial"}}
    return {name: field.value for name, field in told.items() if field is not None}
