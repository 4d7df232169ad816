"""How likely the unit of an ad needs no internal work, from what the seller says of it.

Each phrase stands for a chance; against the base rate it becomes a likelihood ratio. Sellers say one thing several ways, so of
the phrases that speak well only the strongest counts, and of those that speak ill likewise; shifts are added at the end.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import NamedTuple

from interchange.ads.fields import AdReading, PhraseHit
from interchange.catalog.words import Phrase

NEARLY_ONE = 0.98
FOR_PARTS = "for_parts"  # said of a machine it is no word on its engine
DOUBTED = 0.5  # how sure a reading is of what the seller only supposes


class Reason(NamedTuple):
    """One thing the seller says, and what it does to the chance."""

    text: str
    effect: str
    factor: float


class Health(NamedTuple):
    """Chance that the unit needs no internal work, with its reasons."""

    chance: float
    reasons: tuple[Reason, ...]
    cautions: tuple[str, ...]


def odds(chance: float) -> float:
    """Chance as odds; a certainty is taken as nearly so."""
    bounded = min(chance, NEARLY_ONE)
    return bounded / (1 - bounded)


def health(reading: AdReading, phrases: Mapping[str, Phrase], base: float, kind: str) -> Health:
    """The chance for a unit of a kind, starting from the base rate."""
    told = [(hit, phrases[hit.id]) for hit in reading.phrases if hit.id in phrases]
    mine = [(hit, phrase) for hit, phrase in told if (hit.unit or phrase.unit or kind) == kind]
    whole = reading.subject is not None and reading.subject.value == "machine"
    spoken = [
        (hit, phrase, phrase.chance)
        for hit, phrase in mine
        if phrase.chance is not None and not hit.negated and not hit.doubted and not (whole and hit.id == FOR_PARTS)
    ]
    good = max((each for each in spoken if each[2] > base), key=lambda each: each[2], default=None)
    bad = min((each for each in spoken if each[2] <= base), key=lambda each: each[2], default=None)
    outright = [each for each in reading.health if each.unit == kind and each.state == "bad" and each.certainty > DOUBTED]
    value = odds(base)
    reasons = [Reason("", f"a used {kind} of which nothing is said: {base:.0%}", 1.0)]
    for each in (good, bad):
        if each is not None:
            hit, _, chance = each
            factor = odds(chance) / odds(base)
            value *= factor
            reasons.append(Reason(hit.text, f"units so described: {chance:.0%}", factor))
    chance = value / (1 + value)
    for hit, phrase in mine:
        if phrase.shift is not None and not hit.negated and not hit.doubted:
            chance = min(1.0, max(0.0, chance + phrase.shift))
            reasons.append(Reason(hit.text, f"{phrase.shift:+.0%}", 1.0))
    if outright:
        chance = 0.0
        reasons.append(Reason(outright[0].text, "called bad outright", 0.0))
    return Health(chance, tuple(reasons), tuple(_cautions(told)))


def _cautions(told: list[tuple[PhraseHit, Phrase]]) -> list[str]:
    return list(dict.fromkeys(phrase.caution for hit, phrase in told if phrase.caution and not hit.negated))
