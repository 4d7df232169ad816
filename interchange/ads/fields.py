"""What can be read out of an ad: every field with the stretch of text it was read from and how sure the reading is."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import NamedTuple

from interchange.catalog.words import Phrase, Wording

__all__ = [
    "NO_WORDS", "AdReading", "AdWords", "Field", "ModelWord", "PartRead", "Phrase", "PhraseHit", "PlaceRead", "PriceRead", "Span",
    "UnitHealth",    "Wording",
]  # fmt: skip


class AdWords(NamedTuple):
    """The word lists that are not phrases, a room of the ads file each."""

    offers: tuple[Wording, ...] = ()
    """`offer_words`: what sort of thing is offered."""
    things: tuple[Wording, ...] = ()
    """`thing_words`: kinds of unit, and `machine`."""
    parts: tuple[Wording, ...] = ()
    """`part_words`: what may be missing or included."""
    states: tuple[Wording, ...] = ()
    """`state_words`: `good` and `bad`, as said of a unit."""
    facts: tuple[Wording, ...] = ()
    """`fact_words`: anything else said that is true or not."""


NO_WORDS = AdWords()


class Span(NamedTuple):
    """A stretch of the ad's text: `text[start:end]`."""

    start: int
    end: int


NO_STRETCH = Span(0, 0)
"""The span of what the user's own lines say."""


class Field(NamedTuple):
    """One thing read: `text` is `ad[span.start:span.end]`, certainty runs from 0 to 1."""

    name: str
    value: str | int | float | bool
    text: str
    span: Span
    certainty: float
    note: str = ""


class PriceRead(NamedTuple):
    """A price as written. No currency is converted; none written is None.

    kind: `asked` · `call` (ask the seller, or make an offer) · `trade` · `placeholder` (1, 1234, 99999: not a price) ·
    `rental` · `none` (nothing said). `cents_to` is the upper end where a range was written.
    """

    kind: str
    cents: int | None
    currency: str | None
    terms: str | None
    text: str
    span: Span
    certainty: float
    note: str = ""
    cents_to: int | None = None
    for_count: int = 1
    each: bool = False


class PlaceRead(NamedTuple):
    """Where it stands, as written.

    kind: `zip` · `town_state` · `town` · `near` (so far from a named place) · `state` (perhaps with a region of it) ·
    `abroad`. `town` may begin with words that are none of it where nothing in the text parts them: a lookup that fails
    should try again without the first.
    """

    kind: str
    town: str | None
    state: str | None
    zip: str | None
    away_mi: float | None
    towards: str | None
    text: str
    span: Span
    certainty: float
    note: str = ""


class PhraseHit(NamedTuple):
    """A phrase found. `unit` is the kind of unit it is said of; negated is "no knocks"; doubted is "may knock"."""

    id: str
    span: Span
    negated: bool
    text: str
    unit: str | None
    doubted: bool
    certainty: float


class PartRead(NamedTuple):
    """A part and what is said of it: `included` · `missing` · `needed` · `bad`."""

    part: str
    state: str
    text: str
    span: Span
    certainty: float


class UnitHealth(NamedTuple):
    """A unit called `good` or `bad` outright, as in "motor is good, trans is bad"."""

    unit: str
    state: str
    text: str
    span: Span
    certainty: float


class ModelWord(NamedTuple):
    """A word that may name a maker or model: kind `model` (letters and digits), `number`, or `name`."""

    text: str
    span: Span
    kind: str
    in_title: bool
    certainty: float


@dataclass(frozen=True, slots=True, kw_only=True)
class AdReading:
    """All that was read out of one ad. What was not found is None or empty, never a default."""

    title: Field | None
    price: PriceRead
    was_price: PriceRead | None
    other_prices: tuple[PriceRead, ...]
    place: PlaceRead | None
    other_places: tuple[PlaceRead, ...]
    offer: Field | None
    subject: Field | None
    """`machine`, `unit` or `part`."""
    subject_is: Field | None
    """Which kind of unit, or which part, is for sale: an id of `thing_words` or `part_words`."""
    parts: tuple[PartRead, ...]
    health: tuple[UnitHealth, ...]
    phrases: tuple[PhraseHit, ...]
    hours: Field | None
    meter_doubted: Field | None
    year: Field | None
    weight_lb: Field | None
    ships: Field | None
    on_pallet: Field | None
    delivers: Field | None
    deliver_mi: Field | None
    volts: Field | None
    rotation: Field | None
    phones: tuple[Field, ...]
    model_words: tuple[ModelWord, ...]
    said: tuple[Field, ...]
    """Facts by the ids of `fact_words` (value True, or False where denied), and numbers with a name (power_hp, serial)."""

    read_to: int
    """How much of the text was read: all of it, save for a text far longer than any ad."""

    @property
    def missing(self) -> tuple[str, ...]:
        """Parts said not to come with it."""
        return tuple(dict.fromkeys(part.part for part in self.parts if part.state == "missing"))

    @property
    def included(self) -> tuple[str, ...]:
        """Parts said to come with it."""
        return tuple(dict.fromkeys(part.part for part in self.parts if part.state == "included"))

    def spans(self) -> Iterator[tuple[str, Span]]:
        """Every text read with its span, for marking up a page."""
        singles = (
            self.title, self.was_price, self.place, self.offer, self.subject, self.subject_is, self.hours, self.meter_doubted,
            self.year, self.weight_lb, self.ships, self.on_pallet, self.delivers, self.deliver_mi, self.volts, self.rotation,
        )  # fmt: skip
        groups = (
            self.other_prices, self.other_places, self.parts, self.health, self.phrases, self.phones, self.model_words, self.said,
        )  # fmt: skip
        yield self.price.text, self.price.span
        for one in singles:
            if one is not None:
                yield one.text, one.span
        for group in groups:
            for member in group:
                yield member.text, member.span
