"""How sound the unit of one ad is: its words, its readings and its seller's silence, held against the catalog."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable, Mapping
from typing import TYPE_CHECKING, NamedTuple

from interchange.ads.evidence import Asked, Health, health
from interchange.ads.health_reading import Reading, judged, latest, readings_in
from interchange.ads.notes import statements
from interchange.catalog.health import HealthTest
from interchange.catalog.rates import SilenceRates
from interchange.catalog.words import Phrase

if TYPE_CHECKING:
    from interchange.ads.reads import Read
    from interchange.ads.shelf import Words
    from interchange.catalog.model import Features
    from interchange.store.library import Library


class Known(NamedTuple):
    """What an ad is held against."""

    phrases: Mapping[str, Phrase]
    tests: tuple[HealthTest, ...]
    silence: SilenceRates | None
    today: dt.date | None
    """The day of asking; without one nothing is taken for silence."""


def known_of(library: Library, words: Words, today: dt.date | None = None) -> Known:
    """The catalog's phrases and tests, and what silence says."""
    tests = tuple(one.value for one in library.records("health_tests") if isinstance(one.value, HealthTest))
    silence = library.record("rates", "silence")
    rates = silence.value if silence and isinstance(silence.value, SilenceRates) else None
    return Known({phrase.id: phrase for phrase in words.phrases}, tests, rates, today)


def soundness(read: Read, kind: str, features: Features, base: float, known: Known) -> Health:
    """The chance that an ad's unit needs no internal work; ``features`` are those of the form it most likely has."""
    measured = [judged(reading, features) for reading in readings_of(read, kind, known.tests)]
    asked = Asked(read.ad.notes, known.silence, known.today) if known.today else None
    return health(read.reading, known.phrases, base, kind, measured, asked)


def readings_of(read: Read, kind: str, tests: Iterable[HealthTest]) -> list[Reading]:
    """The last reading of each test of a kind, out of the ad and out of one's own lines under it."""
    of_kind = [test for test in tests if test.kind == kind]
    readings = [*readings_in(read.ad.text, of_kind, "the ad says")]
    for statement in statements(read.ad.notes):
        readings += readings_in(statement.note.text, of_kind, f"your line of {statement.note.day}")
    return latest(readings)
