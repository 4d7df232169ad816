"""How likely the unit of an ad needs no internal work: odds of a base rate, times a likelihood ratio for each thing known of it.

Sellers say one thing several ways, so of the phrases that speak well only the strongest counts, and of those that speak ill
likewise. What has been measured stands before what is said about it. Silence counts only where something was asked, and not
at once.
"""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator, Mapping, Sequence
from typing import TYPE_CHECKING, NamedTuple

from interchange.ads.fields import NO_STRETCH, AdReading, PhraseHit
from interchange.ads.health_reading import Result
from interchange.ads.notes import Note, unanswered
from interchange.catalog.words import Phrase

if TYPE_CHECKING:
    from interchange.catalog.rates import SilenceRates

MOST_ODDS = 1e6
FOR_PARTS = "for_parts"  # said of a machine it is no word on its engine
DOUBTED = 0.5  # how sure a reading is of what the seller only supposes
OUTRIGHT = "called bad outright"


class Reason(NamedTuple):
    """One thing known of a unit, and by how much it multiplies the odds."""

    text: str
    effect: str
    factor: float


class Health(NamedTuple):
    """Chance that the unit needs no internal work, with every factor, and what to take care of."""

    chance: float
    reasons: tuple[Reason, ...]
    cautions: tuple[str, ...]


class Asked(NamedTuple):
    """What was asked of the seller, and what silence is taken to say on the day of asking the program."""

    notes: Sequence[Note]
    rates: SilenceRates | None
    today: dt.date


def odds(chance: float) -> float:
    """Chance as odds, 1 to 1 for a half."""
    return chance / (1 - chance) if chance < 1 else MOST_ODDS


def health(
    reading: AdReading, phrases: Mapping[str, Phrase], base: float, kind: str, measured: Sequence[Result] = (),
    asked: Asked | None = None,
) -> Health:  # fmt: skip
    """The chance for a unit of a kind, starting from the base rate."""
    told = [(hit, phrases[hit.id]) for hit in reading.phrases if hit.id in phrases]
    mine = [(hit, phrase) for hit, phrase in told if (hit.unit or phrase.unit or kind) == kind]
    reasons = [
        Reason("", f"a used {kind} of which nothing is said: {base:.0%}", 1.0),
        *_spoken(mine, measured, whole=reading.subject is not None and reading.subject.value == "machine"),
        *_measured(measured),
        *(_silence(asked) if asked else ()),
    ]
    bad = next((each for each in reading.health if each.unit == kind and each.state == "bad" and each.certainty > DOUBTED), None)
    if bad:
        reasons.append(Reason(bad.text, OUTRIGHT, 0.0))
    value = odds(base)
    for reason in reasons:
        value *= reason.factor
    return Health(value / (1 + value), tuple(reasons), tuple(_cautions(told)))


def _spoken(mine: Sequence[tuple[PhraseHit, Phrase]], measured: Sequence[Result], *, whole: bool) -> Iterator[Reason]:
    """The strongest good word and the strongest bad one."""
    known = {result.test.about for result in measured}
    spoken = [
        (hit, ratio)
        for hit, phrase in mine
        if (ratio := _ratio(hit, phrase)) is not None
        and not hit.doubted
        and not (whole and hit.id == FOR_PARTS)
        and phrase.about not in known
    ]
    good = max((each for each in spoken if each[1] > 1), key=lambda each: each[1], default=None)
    bad = min((each for each in spoken if each[1] < 1), key=lambda each: each[1], default=None)
    for each in (good, bad):
        if each is not None:
            hit, ratio = each
            yield Reason(hit.text, "denied" if hit.negated else "said", ratio)


def _ratio(hit: PhraseHit, phrase: Phrase) -> float | None:
    """What a phrase counts. Who offers no more than "turns by hand" says little; who was asked for it has answered."""
    if hit.negated:
        return phrase.denied
    hoped_for = phrase.ratio is not None and phrase.denied is not None and phrase.denied < phrase.ratio < 1
    return 1.0 if hit.span == NO_STRETCH and hoped_for else phrase.ratio


def _measured(results: Sequence[Result]) -> Iterator[Reason]:
    """Each thing that was measured once: the worst result about it."""
    for about in dict.fromkeys(result.test.about for result in results):
        worst = min((result for result in results if result.test.about == about), key=lambda result: result.ratio)
        yield Reason(worst.text, worst.why, worst.ratio)


def _silence(asked: Asked) -> Iterator[Reason]:
    """Questions that were not answered though there was time."""
    if asked.rates is None:
        return
    waiting = asked.rates.after.value
    late = [
        (note, days)
        for note in unanswered(asked.notes)
        if (days := (asked.today - dt.date.fromisoformat(note.day)).days) >= waiting
    ]
    for note, days in late[: asked.rates.most]:
        yield Reason(note.text, f"asked {note.day}, not answered in {days} days", asked.rates.ratio)


def _cautions(told: list[tuple[PhraseHit, Phrase]]) -> list[str]:
    return list(dict.fromkeys(phrase.caution for hit, phrase in told if phrase.caution and not hit.negated))
