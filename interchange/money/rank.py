"""Ads ranked for a dead unit: what each may be, whether that goes in, what it costs standing at home."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import TYPE_CHECKING, NamedTuple

from interchange.ads.again import Seen, Told, grouped, history
from interchange.ads.evidence import Health, health
from interchange.ads.fields import AdReading, AdWords, Span
from interchange.ads.match import MACHINES, UNITS, Matched, match
from interchange.ads.mended import Mended, mended
from interchange.ads.offer_kind import as_spoken, is_machine, named_subject, names_sold, offer_word, offered, sold_along
from interchange.ads.plain import clean
from interchange.ads.shelf import ReadAd, Words
from interchange.catalog.figure import Figure, Origin
from interchange.catalog.model import Features, Kind
from interchange.catalog.words import WORD_ROOMS, Phrase, Wording
from interchange.fit.case import CORE
from interchange.fit.finding import VERDICTS
from interchange.fit.setting import form_features
from interchange.money.bill import Bill, Line, Outcome, bill, price_line
from interchange.money.fetch import Fetch, Fetcher
from interchange.store.stamp import digest

if TYPE_CHECKING:
    from interchange.ads.pasted import Ad
    from interchange.fit.report import Judged
    from interchange.fit.setting import DeadSeat, Form, Setting
    from interchange.store.library import Library

Progress = Callable[[str, int, int], None]


REBUILT = ("core", "bare_block")  # offers whose work in the kind's table is a whole rebuild


class Read(NamedTuple):
    """One ad, read and matched."""

    ad: Ad
    reading: AdReading
    matched: Matched
    history: tuple[Seen, ...] = ()
    """When it was pasted and what was asked, oldest first."""

    @property
    def title(self) -> str:
        """The ad's first words."""
        return self.reading.title.text.strip() if self.reading.title else self.ad.text.strip().splitlines()[0]


class Candidate(NamedTuple):
    """One form the unit of an ad may have, and by what."""

    form: Form
    share: float
    by: str


class Entry(NamedTuple):
    """One ad ranked for one dead unit."""

    read: Read
    offer: str
    candidates: tuple[Candidate, ...]
    outcomes: tuple[Outcome, ...]
    fetch: Fetch
    health: Health
    bill: Bill
    goes_in: float
    ambiguous: bool

    @property
    def likeliest(self) -> Outcome:
        """The form that is likeliest, of those that go in where any does."""
        return max(self.outcomes, key=lambda outcome: (outcome.plan.feasible, outcome.share))

    @property
    def candidate(self) -> Candidate:
        """The candidate of the likeliest outcome."""
        return self.candidates[self.outcomes.index(self.likeliest)]

    @property
    def verdict(self) -> str:
        """The verdict of the likeliest form; it stops where every form is stopped."""
        return self.likeliest.plan.verdict

    @property
    def worst(self) -> Judged | None:
        """The dimension that gives the verdict."""
        return self.likeliest.plan.worst

    @property
    def stopped(self) -> bool:
        """Whether every form is stopped."""
        return all(not outcome.plan.feasible for outcome in self.outcomes)

    @property
    def price(self) -> Line | None:
        """The price line of the bill."""
        return self.bill.line("price")


class Ranking(NamedTuple):
    """All ads of a job for one dead unit: those that may go in, in order; those stopped; those for something else; the rest."""

    seat: DeadSeat
    entries: tuple[Entry, ...]
    stopped: tuple[Entry, ...]
    other: tuple[Read, ...]
    unknown: tuple[Read, ...]


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
    plain = {ad.id: clean(ad.text) for ad, _ in read}
    whole = {id_: mended(text) for id_, text in plain.items()}
    texts = {ad.id: (whole[ad.id].text, whole[ad.id].forth(_title_end(reading, ad.text))) for ad, reading in read}
    found = {id_: _led_back(one, whole[id_]) for id_, one in match(library.connection, texts).items()}
    found = {id_: as_spoken(one, plain[id_]) for id_, one in found.items()}
    named = {hit.name.id for one in found.values() for hit in one.of(UNITS)}
    kinds = {id_: library.unit(id_)[1].kind for id_ in named}
    found = {ad.id: names_sold(reading, found[ad.id], plain[ad.id]) for ad, reading in read}
    told = [Told(ad, named_subject(reading, found[ad.id], plain[ad.id], kinds), found[ad.id]) for ad, reading in read]
    return [Read(*group[-1], history(group)) for group in grouped(told)]


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


def candidates_of(read: Read, seat: DeadSeat) -> tuple[tuple[Candidate, ...], bool]:
    """The forms the unit of an ad may have for a seat, with shares; and whether the ad leaves open which unit it is."""
    library = seat.setting.library
    kind = seat.case.kind.id
    subject_is = str(read.reading.subject_is.value) if read.reading.subject_is else ""
    units = [hit for hit in read.matched.of(UNITS) if library.unit(hit.name.id)[1].kind == kind]
    machines = read.matched.of(MACHINES)
    found: list[Candidate] = []
    if is_machine(read.reading) or (machines and not units and subject_is == kind):
        for machine in machines[:1]:
            fitted = seat.fitted(library.machine(machine.name.id)[1])
            whole = sum(fitted.values()) or 1.0
            for unit, share in fitted.items():
                found += [
                    Candidate(form, form.share * share / whole, f"as fitted to the {machine.name.name}")
                    for form in seat.forms(unit)
                ]
        if found or machines:
            return _unless_denied(read, seat, found), False
    if not units:
        return (), False
    if subject_is not in ("", kind, "machine") and not sold_along(read.matched, units[0], clean(read.ad.text)):
        return (), False
    first = units[0]
    rivals = [hit for hit in units if hit.span == first.span]
    named = list(dict.fromkeys(f"{hit.name.id}.{hit.name.variant}" if hit.name.variant else hit.name.id for hit in rivals))
    for unit in named:
        found += [Candidate(form, form.share / len(named), first.name.name) for form in seat.forms(unit)]
    kept = _unless_denied(read, seat, found)
    return kept, len({candidate.form.unit for candidate in kept}) > 1


def _unless_denied(read: Read, seat: DeadSeat, candidates: list[Candidate]) -> tuple[Candidate, ...]:
    """Without the forms that the seller's words rule out, the shares made whole again; all where all are ruled out."""
    said = {
        path: word
        for fact in read.reading.said
        if fact.value is True
        for path, word in seat.case.kind.said.get(fact.name, {}).items()
    }
    kept = []
    for candidate in candidates:
        features = form_features(seat.setting.library.unit(candidate.form.unit)[0], candidate.form.variant)
        known = [(features[path].text, word) for path, word in said.items() if path in features]
        if all(text == word for text, word in known):
            kept.append(candidate)
    whole = sum(candidate.share for candidate in kept)
    if not whole:
        return tuple(candidates)
    before = sum(candidate.share for candidate in candidates)
    return tuple(candidate._replace(share=candidate.share * before / whole) for candidate in kept)


def rank(setting: Setting, seat: DeadSeat, reads: Sequence[Read], fetcher: Fetcher, words: Words, by: str = "total",
         progress: Progress | None = None) -> Ranking:  # fmt: skip
    """Rank ads for one dead unit."""
    phrases = {phrase.id: phrase for phrase in words.phrases}
    entries: list[Entry] = []
    other: list[Read] = []
    unknown: list[Read] = []
    for done, read in enumerate(reads):
        if progress:
            progress("planning", done, len(reads))
        candidates, ambiguous = candidates_of(read, seat)
        if _not_offered(read, seat.case.kind.id):
            other.append(read)
        elif candidates:
            entries.append(_entry(setting, seat, read, candidates, fetcher, phrases, ambiguous=ambiguous))
        elif read.matched.hits:
            other.append(read)
        else:
            unknown.append(read)
    going = [entry for entry in entries if not entry.stopped]
    stopped = [entry for entry in entries if entry.stopped]
    return Ranking(seat, tuple(sorted(going, key=_order(by))), tuple(stopped), tuple(other), tuple(unknown))


def _not_offered(read: Read, kind: str) -> bool:
    """Whether the ad says that there is none to be had: somebody looks for one, it is sold, or it is gone from the machine."""
    none_there = ("wanted", "sold", f"no_{kind}")
    return any(fact.name in none_there and fact.value is True for fact in read.reading.said)


def _order(by: str) -> Callable[[Entry], tuple[object, ...]]:
    """A sort key; what is not known comes last, and ties go by id so that the order never wavers."""
    infinite = float("inf")

    def key(entry: Entry) -> tuple[object, ...]:
        mean = entry.bill.mean_cents
        first: tuple[object, ...] = (not entry.bill.complete, mean)
        if by == "fit":
            first = (VERDICTS.index(entry.verdict), -entry.goes_in, *first)
        elif by == "haul":
            first = (entry.fetch.line.amount.likely if entry.fetch.line else infinite, *first)
        elif by == "price":
            first = (entry.price.amount.likely if entry.price else infinite, *first)
        return (*first, entry.read.ad.id)

    return key


def _entry(
    setting: Setting, seat: DeadSeat, read: Read, candidates: tuple[Candidate, ...], fetcher: Fetcher,
    phrases: dict[str, Phrase], *, ambiguous: bool,
) -> Entry:  # fmt: skip
    kind = seat.case.kind
    word = offer_word(read.reading, kind)
    offer = offered(read.reading, kind, word)
    said = _said_of_it(read.reading, kind)
    outcomes = tuple(Outcome(candidate.share, seat.plan(candidate.form, offer, said)) for candidate in candidates)
    fetch = fetcher.fetch(read, candidates)
    well = health(read.reading, phrases, setting.rates.good_unit or 0.0, kind.id)
    goes_in = sum(outcome.share * outcome.plan.chance.value for outcome in outcomes)
    entry = Entry(read, word, candidates, outcomes, fetch, well, Bill((), ()), goes_in, ambiguous)
    return entry._replace(bill=bill_among(seat, entry, fetch.line, 1))


def bill_among(seat: DeadSeat, entry: Entry, haul: Line | None, units: int) -> Bill:
    """The bill of an ad for one dead unit, where it is taken for so many of them and hauled at once."""
    rates = seat.setting.rates
    good = 1.0 if entry.offer in REBUILT else entry.health.chance  # made whole by the offer's own work: paid for already
    price = price_line(entry.read.reading.price, rates)
    if price and entry.read.reading.price.each and not is_machine(entry.read.reading):
        price = price._replace(amount=price.amount.times(units))  # asked for each of the loose units
    return bill(entry.outcomes, seat.case, price, haul, seat.seat.hours, good, _why(entry.health), units)


def _said_of_it(reading: AdReading, kind: Kind) -> Features:
    """Features of the core that the seller states outright: so far which way it turns."""
    turns = reading.rotation
    type_ = kind.slots.get(CORE, {}).get("rotation")
    if turns is None or type_ is None or turns.value not in type_.words:
        return {}
    source = ", ".join(filter(None, (f"the ad: “{turns.text}”", turns.note)))
    return {f"{CORE}.rotation": Figure(word=str(turns.value), origin=Origin(basis="said", source=source))}


def _why(well: Health) -> str:
    said = [f"“{reason.text}”" for reason in well.reasons if reason.text]
    return ", ".join(said) or "nothing is said of its health"
