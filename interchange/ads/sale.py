"""What sort of sale an ad makes, settled: what the rules read, weighed again by signs learned from labelled ads."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from typing import TYPE_CHECKING, NamedTuple

from interchange.ads.fields import Field, Span
from interchange.ads.learned import BY_RULES, BY_WORDS, likeliest, weights
from interchange.ads.match import UNITS
from interchange.ads.offer_kind import MACHINE_DEFAULT, MACHINE_OFFERS, PARTED_OUT, UNIT_DEFAULT, is_machine
from interchange.ads.sale_signs import signs

if TYPE_CHECKING:
    from interchange.ads.fields import AdReading
    from interchange.ads.match import Matched
    from interchange.ads.mended import Mended

LEARNED = "sale"
PART = "part"


class Ruled(NamedTuple):
    """An ad as the rules alone read it: the text that was read, what it names, and the kind of each unit it names.

    ``whole`` is ``pasted`` made fit to read; spans are of ``pasted``.
    """

    pasted: str
    whole: Mended
    reading: AdReading
    matched: Matched
    kinds: Mapping[str, str]

    @property
    def signs(self) -> set[str]:
        """The signs of what sort of sale it makes."""
        return signs(self.whole.text, self.reading, self.matched)

    @property
    def sought(self) -> bool:
        """Whether it seeks and does not sell."""
        return any(fact.name == "wanted" and fact.value is True for fact in self.reading.said)


def said(reading: AdReading) -> str:
    """What the rules come to, the usual where they read nothing."""
    if reading.offer is None:
        return MACHINE_DEFAULT if is_machine(reading) else UNIT_DEFAULT
    word = str(reading.offer.value)
    return PARTED_OUT if word == PART and is_machine(reading) else word


def settled(ruled: Ruled) -> AdReading:
    """The reading with the likeliest sale."""
    reading = ruled.reading
    if ruled.sought:
        return reading
    by_rules = said(reading)
    plainly = [f"{BY_RULES}plainly {by_rules}"] if reading.offer else []
    best, sure = likeliest({*ruled.signs, f"{BY_RULES}said {by_rules}", *plainly}, weights(LEARNED))
    sort = "machine" if best in MACHINE_OFFERS else PART if best == PART else "unit"
    if best != by_rules:
        span = reading.offer.span if reading.offer else reading.title.span if reading.title else Span(0, 0)
        word = reading.offer.text if reading.offer else reading.title.text if reading.title else ""
        reading = replace(reading, offer=Field("offer", best, word, span, sure, BY_WORDS))
    if reading.subject is not None and reading.subject.value == sort:
        return reading
    return _of_sort(ruled, reading, sort, sure)


def _of_sort(ruled: Ruled, reading: AdReading, sort: str, sure: float) -> AdReading:
    """The reading with its subject of another sort: what unit it is, by the first the ad names."""
    unit = next(iter(ruled.matched.of(UNITS)), None)
    span = unit.span if unit and sort == "unit" else reading.title.span if reading.title else Span(0, 0)
    text = ruled.pasted[span.start : span.end]
    which = reading.subject_is
    if sort == "machine":
        which = None
    elif sort == "unit":
        kind = ruled.kinds.get(unit.name.id) if unit else None
        which = Field("subject_is", kind, text, span, sure) if kind else which
    return replace(reading, subject=Field("subject", sort, text, span, sure, BY_WORDS), subject_is=which)
