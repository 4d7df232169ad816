"""What the words of an ad make of the forms of each unit it names, with the odds each stretch of text counts for."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from typing import TYPE_CHECKING, NamedTuple

from interchange.ads.fields import NO_STRETCH, Span
from interchange.ads.form_told import FROM, LETTER, NAME, SERIAL, TELL, TYPE, FormClue, clues, comes_from, shown
from interchange.ads.named import MACHINES, UNITS, Hit, Matched
from interchange.ads.notes import Note, statements

if TYPE_CHECKING:
    from interchange.ads.mended import Mended
    from interchange.catalog.model import Unit
    from interchange.store.library import Library

# How many times as often a sign stands in an ad for its form as in one for another: counted on the labelled ads that are for
# tuning, 404 of them with a form that is told (right and not: tells 292 and 14, names it came from 69 and 2, of a type 165 and 8,
# other names 69 and 23, letters 22 and 4, all in ads of several forms; serial numbers, too few, stand with the letters).
ODDS = {TELL: 20.0, LETTER: 20.0, SERIAL: 20.0, FROM: 25.0, TYPE: 20.0, NAME: 3.0}
WHY = {
    TELL: "what tells it", LETTER: "the plate's letter", SERIAL: "the serial number", FROM: "what it came out of",
    TYPE: "its own name", NAME: "its own name",
}  # fmt: skip
NEVER = 0.02  # of a form that no machine of its model came with
MOST = 200.0  # signs of one form lean on one another: together they count for no more


class FormSign(NamedTuple):
    """A stretch of an ad that makes a form likelier, or less likely."""

    unit: str
    variant: str
    odds: float
    """What it multiplies the form's odds by."""
    text: str
    """The words, on one line."""
    span: Span
    why: str


class FormReader:
    """Reads what shows forms, and keeps what tells those of each unit apart."""

    def __init__(self, library: Library) -> None:
        self._library = library
        self._clues: dict[str, tuple[FormClue, ...]] = {}

    def signs(self, matched: Matched, whole: Mended, notes: Sequence[Note] = ()) -> tuple[FormSign, ...]:
        """The signs for the forms of the units an ad names.

        ``whole`` is its text made fit to read, ``notes`` the user's own lines under it.
        """
        units = {hit.name.id: self._library.unit(hit.name.id)[1] for hit in matched.of(UNITS)}
        found: list[FormSign] = []
        for id_, unit in units.items():
            if unit.variants:
                found += (
                    FormSign(
                        id_, one.variant, ODDS[one.sort], _line(whole.text, one.span), Span(*whole.back(*one.span)), WHY[one.sort]
                    )
                    for one in shown(whole.text, self._clues_of(id_, unit))
                )
                found += self._answered(id_, unit, notes)
                for machine in matched.of(MACHINES):
                    found += self._fitted(id_, unit, machine, whole)
        return tuple(found)

    def _clues_of(self, id_: str, unit: Unit) -> tuple[FormClue, ...]:
        if id_ not in self._clues:
            self._clues[id_] = clues(unit.title, {name: (each.title or name, each.tell) for name, each in unit.variants.items()})
        return self._clues[id_]

    def _answered(self, id_: str, unit: Unit, notes: Sequence[Note]) -> Iterator[FormSign]:
        """What was answered or seen: no stretch of the ad."""
        for told in statements(notes):
            for one in shown(f"no {told.text}" if told.denied else told.text, self._clues_of(id_, unit)):
                text = f"{told.text}{': no' if told.denied else ''} ({told.note.day})"
                yield FormSign(id_, one.variant, ODDS[one.sort], text, NO_STRETCH, WHY[one.sort])

    def _fitted(self, id_: str, unit: Unit, hit: Hit, whole: Mended) -> Iterator[FormSign]:
        """What a machine it came out of was fitted with, against how common the forms are."""
        if not comes_from(whole.text, whole.forth(hit.span.start)):
            return
        _, machine = self._library.machine(hit.name.id)
        came = {name: share for seat in machine.seats.values() for name, share in seat.fitted.items()}
        fitted = {name: came.get(f"{id_}.{name}", 0.0) for name in unit.variants}
        whole_share = sum(fitted.values())
        for name, share in unit.shares.items() if whole_share else ():
            if share:
                odds = max(fitted[name] / whole_share, NEVER) / share
                yield FormSign(id_, name, odds, hit.name.name, hit.span, f"as fitted to the {hit.name.name}")


def _line(text: str, span: Span) -> str:
    return " ".join(text[span.start : span.end].split())


def told_odds(signs: Iterable[FormSign], unit: str) -> dict[str, float]:
    """What the odds of each form of a unit are multiplied by; a form without signs is left out."""
    odds: dict[str, float] = {}
    for sign in signs:
        if sign.unit == unit:
            odds[sign.variant] = min(MOST, odds.get(sign.variant, 1.0) * sign.odds)
    return odds
