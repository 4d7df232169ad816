"""A reading with the user's own lines laid over it: his word stands before what was read, and what he was told is added.

What he corrects carries his line as its text, and no stretch of the ad: its span is empty.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Sequence
from dataclasses import replace
from typing import NamedTuple

from interchange.ads.fields import NO_STRETCH, AdReading, AdWords, Field, PhraseHit
from interchange.ads.learned import BY_WORDS
from interchange.ads.notes import Note, Statement, correction, statements
from interchange.ads.read import read_ad
from interchange.catalog.suggest import suggestion
from interchange.catalog.words import Phrase
from interchange.errors import Problem
from interchange.quantity import QuantityError, read_quantity, units_read
from interchange.quantity.units import LB

SURE = 1.0
_KINDS_SAID = {"call": "call", "ask": "call", "make offer": "call", "trade": "trade", "none": "none"}


class Corrected(NamedTuple):
    """A reading after the user's lines, and those of them that could not be followed."""

    reading: AdReading
    faults: tuple[Problem, ...]


def corrected(reading: AdReading, notes: Sequence[Note], phrases: Sequence[Phrase], words: AdWords) -> Corrected:
    """Lay the user's lines over a reading. What the ad itself says stays where no line speaks of it."""
    faults: list[Problem] = []
    for word, lay in _CORRECTIONS.items():
        note = correction(notes, word)
        if note is None:
            continue
        changed = lay(reading, note, words)
        if isinstance(changed, Problem):
            faults.append(changed)
        else:
            reading = changed
    for statement in statements(notes):
        reading = _told(reading, statement, phrases, words)
    return Corrected(reading, tuple(faults))


def _text(note: Note) -> str:
    return f"{note.text} (your line of {note.day})"


_PRICES = "write $3,200, 3200 obo, EUR 2.900, call or trade"
_PLAIN_SUM = re.compile(r"[0-9][0-9,]*(?:\.[0-9]{2})?(?:[ ](?:obo|firm|cash|dollars|each)|[ ]?$)")


def _price(reading: AdReading, note: Note, _: AdWords) -> AdReading | Problem:
    sign = "$" if _PLAIN_SUM.match(note.text) else ""  # "20" is twenty dollars, and nothing said short
    if note.text.startswith("-"):
        return note.problem("bad-price", f"{note.text!r} is less than nothing", _PRICES)
    found = read_ad(f"price: {sign}{note.text}", ()).price
    kind = _KINDS_SAID.get(note.text.casefold())
    if kind:
        found = found._replace(kind=kind, cents=None)
    elif found.kind == "none" or found.note == BY_WORDS:  # what an ad is likely to mean is no line of one's own
        return note.problem("bad-price", f"{note.text!r} is no price", _PRICES)
    before = reading.price if reading.price.cents is not None else reading.was_price
    return replace(
        reading, price=found._replace(text=_text(note), span=NO_STRETCH, certainty=SURE), was_price=before, other_prices=()
    )


def _place(reading: AdReading, note: Note, _: AdWords) -> AdReading | Problem:
    found = read_ad(f"Engine\nLocation: {note.text}", ()).place
    if found is None:
        return note.problem("bad-place", f"{note.text!r} is no place", "write town and state, or a ZIP")
    return replace(reading, place=found._replace(text=_text(note), span=NO_STRETCH, certainty=SURE), other_places=())


def _offer(reading: AdReading, note: Note, words: AdWords) -> AdReading | Problem:
    ids = [one.id for one in words.offers]
    word = "_".join(note.text.casefold().replace("-", " ").split())
    if word not in ids:
        hint = suggestion(word, ids)
        return note.problem("bad-offer", f"no offer is called {note.text!r}", hint.replace("_", " "))
    return replace(reading, offer=Field("offer", word, _text(note), NO_STRETCH, SURE))


def _hours(reading: AdReading, note: Note, _: AdWords) -> AdReading | Problem:
    value = _figure(note, "hours")
    if isinstance(value, Problem):
        return value
    return replace(reading, hours=Field("hours", value, _text(note), NO_STRETCH, SURE), meter_doubted=None)


def _weight(reading: AdReading, note: Note, _: AdWords) -> AdReading | Problem:
    value = _figure(note, "mass")
    if isinstance(value, Problem):
        return value
    return replace(reading, weight_lb=Field("weight_lb", value / float(LB), _text(note), NO_STRETCH, SURE))


def _figure(note: Note, dimension: str) -> float | Problem:
    text = note.text if not note.text.replace(",", "").isdigit() or dimension != "hours" else f"{note.text} h"
    try:
        return float(read_quantity(text, dimension).value)
    except QuantityError as error:
        return note.problem(f"bad-{note.word}", error.message, error.hint or units_read(dimension))


_CORRECTIONS: dict[str, Callable[[AdReading, Note, AdWords], AdReading | Problem]] = {
    "price": _price,
    "place": _place,
    "offer": _offer,
    "hours": _hours,
    "weight": _weight,
}


def _told(reading: AdReading, statement: Statement, phrases: Sequence[Phrase], words: AdWords) -> AdReading:
    """With what a statement says: phrases and facts are added; parts and the rotation stand before the ad's."""
    heard = read_ad(statement.text, phrases, words)
    said = f"{statement.text}{': no' if statement.denied else ''} ({statement.note.day})"
    hits = tuple(_denied(hit, statement)._replace(text=said, span=NO_STRETCH) for hit in heard.phrases)
    facts = tuple(
        fact._replace(value=(not fact.value) if statement.denied and isinstance(fact.value, bool) else fact.value, text=said,
                      span=NO_STRETCH, certainty=SURE)
        for fact in heard.said
    )  # fmt: skip
    spoken = {part.part for part in heard.parts}
    parts = (part._replace(text=said, span=NO_STRETCH, certainty=SURE) for part in heard.parts if not statement.denied)
    turns = heard.rotation
    return replace(
        reading,
        phrases=(*_still_said(reading.phrases, hits), *hits),
        said=(*reading.said, *facts),
        parts=(*(part for part in reading.parts if part.part not in spoken or statement.denied), *parts),
        health=(*reading.health, *(one._replace(text=said, span=NO_STRETCH) for one in heard.health if not statement.denied)),
        rotation=turns._replace(text=said, span=NO_STRETCH) if turns and not statement.denied else reading.rotation,
    )


def _denied(hit: PhraseHit, statement: Statement) -> PhraseHit:
    return hit._replace(negated=hit.negated != statement.denied, doubted=False)


def _still_said(before: Iterable[PhraseHit], now: Sequence[PhraseHit]) -> Iterable[PhraseHit]:
    """What the ad says, without what a later answer says again or denies."""
    answered = {hit.id for hit in now}
    return (hit for hit in before if hit.id not in answered)
