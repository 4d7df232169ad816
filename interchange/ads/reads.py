"""The ads of a paste read, corrected by the user's lines, matched to the catalog, each once."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import TYPE_CHECKING, NamedTuple

from interchange.ads.again import Seen, Told, grouped, history
from interchange.ads.corrected import SURE, corrected
from interchange.ads.fields import NO_STRETCH, AdReading, AdWords, Field, Span
from interchange.ads.form_signs import FormReader, FormSign
from interchange.ads.match import MACHINES, UNITS, Hit, Matched, Name, match
from interchange.ads.mended import Mended, mended
from interchange.ads.near_miss import refused, with_subject
from interchange.ads.notes import Note, correction, in_order
from interchange.ads.offer_kind import as_spoken, named_subject, names_sold
from interchange.ads.page import own
from interchange.ads.plain import clean
from interchange.ads.sale import Ruled, settled
from interchange.ads.shelf import ReadAd, Words
from interchange.catalog.suggest import suggestion
from interchange.catalog.words import WORD_ROOMS, Phrase, Wording
from interchange.errors import Problem
from interchange.store.stamp import digest

if TYPE_CHECKING:
    from interchange.ads.pasted import Ad
    from interchange.store.library import Library


class Read(NamedTuple):
    """One ad, read and matched."""

    ad: Ad
    reading: AdReading
    matched: Matched
    history: tuple[Seen, ...] = ()
    """When it was pasted and what was asked, oldest first."""
    faults: tuple[Problem, ...] = ()
    """The user's lines under it that cannot be followed."""
    forms: tuple[FormSign, ...] = ()
    """What its words show of the forms of the units it names."""

    @property
    def title(self) -> str:
        """The ad's first words."""
        return self.reading.title.text.strip() if self.reading.title else self.ad.text.strip().splitlines()[0]


def ad_words(library: Library) -> Words:
    """The phrases and wordings the catalog has."""
    rooms: dict[str, tuple[Wording, ...]] = {
        room: tuple(one.value for one in library.records(room) if isinstance(one.value, Wording)) for room in WORD_ROOMS
    }
    phrases = tuple(one.value for one in library.records("phrases") if isinstance(one.value, Phrase))
    offers, things, parts, states, facts = (rooms[room] for room in WORD_ROOMS)
    words = AdWords(offers=offers, things=things, parts=parts, states=states, facts=facts)
    return Words(phrases, words, digest(repr((phrases, words)).encode()))


def matched(library: Library, read: Sequence[ReadAd]) -> list[Read]:
    """Ads that are read, matched to what the catalog has; one that was pasted again stands once, as it was pasted last."""
    found = by_rules(library, read)
    told = [Told(ad, settled(found[ad.id]), found[ad.id].matched) for ad, _ in read]
    forms = FormReader(library)
    reads = [_with_notes(library, group) for group in grouped(told)]
    return [one._replace(forms=forms.signs(one.matched, found[one.ad.id].whole, one.ad.notes)) for one in reads]


def by_rules(library: Library, read: Sequence[ReadAd]) -> dict[str, Ruled]:
    """Each ad by its id with what it names, and its subject and offer as the rules read them."""
    plain = {ad.id: own(clean(ad.text)) for ad, _ in read}
    whole = {id_: mended(text) for id_, text in plain.items()}
    texts = {ad.id: (whole[ad.id].text, whole[ad.id].forth(_title_end(reading, ad.text))) for ad, reading in read}
    found = {id_: _led_back(one, whole[id_]) for id_, one in match(library.connection, texts).items()}
    found = {id_: as_spoken(one, plain[id_]) for id_, one in found.items()}
    named = {hit.name.id for one in found.values() for hit in one.of(UNITS)}
    kinds = {id_: library.unit(id_)[1].kind for id_ in named}
    found = {ad.id: names_sold(reading, found[ad.id], plain[ad.id]) for ad, reading in read}
    readings = {ad.id: reading for ad, reading in read}
    found, neighbours = refused(library.connection, plain, readings, found)
    for id_, one in neighbours.items():
        kind = library.unit(one.like)[1].kind if one.room == UNITS else None
        readings[id_] = with_subject(readings[id_], one, plain[id_], kind)
    return {
        id_: Ruled(plain[id_], whole[id_], named_subject(reading, found[id_], plain[id_], kinds), found[id_], kinds)
        for id_, reading in readings.items()
    }


def _with_notes(library: Library, group: Sequence[Told]) -> Read:
    """The last of an ad's pastings, with the user's lines under any of them laid over it."""
    last = group[-1]
    notes = in_order(note for told in group for note in told.ad.notes)
    faults = [fault for told in group for fault in told.ad.faults]
    reading, found = last.reading, last.matched
    if notes:
        words = ad_words(library)
        reading, wrong = corrected(reading, notes, words.phrases, words.words)
        faults += wrong
        is_a = correction(notes, "is")
        if is_a:
            named = _named(library, is_a)
            if isinstance(named, Problem):
                faults.append(named)
            else:
                found = Matched((named,), ())
                reading = _sold_as(library, reading, named)
    return Read(last.ad._replace(notes=notes), reading, found, history(group), tuple(faults))


def _named(library: Library, note: Note) -> Hit | Problem:
    """What the user says it is: a unit, a form of one, or a machine, by its id."""
    base, _, variant = note.text.partition(".")
    for room in (UNITS, MACHINES):
        record = library.record(room, base)
        if record is None or (variant and (room == MACHINES or variant not in record.presented)):
            continue
        title = str(getattr(record.value, "title", base))
        return Hit(Name("", room, base, variant, f"{title}, by your line of {note.day}", ""), NO_STRETCH, 100.0, True, True)
    ids = [one.id for room in (UNITS, MACHINES) for one in library.records(room)]
    hint = suggestion(note.text, ids) or "interchange find WORDS"
    return note.problem("unknown-name", f"nothing in the catalog has the id {note.text!r}", hint)


def _sold_as(library: Library, reading: AdReading, hit: Hit) -> AdReading:
    """With what is for sale set to what the user says it is."""
    if hit.name.room == MACHINES:
        return replace(reading, subject=Field("subject", "machine", hit.name.name, hit.span, SURE), subject_is=None)
    kind = library.unit(hit.name.id)[1].kind
    subject = Field("subject", "unit", hit.name.name, hit.span, SURE)
    return replace(reading, subject=subject, subject_is=Field("subject_is", kind, hit.name.name, hit.span, SURE))


def pasted_together(library: Library, read: Sequence[ReadAd], id_: str) -> list[ReadAd]:
    """An ad and what is the same ad pasted at other times."""
    for one in matched(library, read):
        ids = {one.ad.id, *(seen.ad for seen in one.history)}
        if id_ in ids:
            return [each for each in read if each.ad.id in ids]
    return []


def _led_back(found: Matched, whole: Mended) -> Matched:
    """The names with their places in the ad as it was pasted."""
    if not whole.layers:
        return found
    hits, near = (tuple(hit._replace(span=Span(*whole.back(*hit.span))) for hit in some) for some in found)
    return Matched(hits, near)


def _title_end(reading: AdReading, text: str) -> int:
    return reading.title.span.end if reading.title else text.find("\n") if "\n" in text else len(text)
