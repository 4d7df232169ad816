"""Ads ranked for a dead unit: what each may be, whether that goes in, what it costs standing at home."""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable, Collection, Sequence
from itertools import groupby
from typing import TYPE_CHECKING, NamedTuple

from interchange.ads.evidence import Health
from interchange.ads.fields import AdReading
from interchange.ads.form_signs import told_odds
from interchange.ads.match import MACHINES, UNITS
from interchange.ads.offer_kind import is_machine, offer_word, offered, sold_along
from interchange.ads.plain import clean
from interchange.ads.reads import Read
from interchange.ads.shelf import Words
from interchange.ads.soundness import Known, known_of, soundness
from interchange.catalog.figure import Figure, Origin
from interchange.catalog.model import Features, Kind, Unit
from interchange.fit.case import CORE, Case, Donor
from interchange.fit.finding import VERDICTS
from interchange.fit.setting import form_features
from interchange.haul.rates import KG_PER_LB
from interchange.money.bill import Bill, Line, Outcome, bill, price_line
from interchange.money.currency import why_no_dollars
from interchange.money.fetch import Fetch, Fetcher
from interchange.money.leftovers import Parted, Selling, leftovers_line, parted, selling
from interchange.money.walk_away import WalkAway, Way, walk_aways
from interchange.spread import exactly

if TYPE_CHECKING:
    from interchange.catalog.rooms import Record
    from interchange.fit.report import Judged
    from interchange.fit.setting import DeadSeat, Form, Setting

Progress = Callable[[str, int, int], None]
NOT_THERE = "no_"  # what facts of what is gone begin with: no_engine
REBUILT = ("core", "bare_block")  # offers whose work in the kind's table is a whole rebuild


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
    price_wants: str = ""
    """Which rate is to be written before its price is known; empty where that is not what is missing."""
    walk_away: WalkAway | None = None
    """The most to pay and still do no worse than with the next best way; None where that is not known."""

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
    def works(self) -> float:
        """The chance that it goes in and is good; a core is made good by the work it is bought for."""
        return self.goes_in * (1.0 if self.offer in REBUILT else self.health.chance)

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

    def only(self, ads: Collection[str]) -> Ranking:
        """What it says of these ads, by their ids."""
        entries, stopped = (tuple(one for one in some if one.read.ad.id in ads) for some in (self.entries, self.stopped))
        other, unknown = (tuple(one for one in some if one.ad.id in ads) for some in (self.other, self.unknown))
        return Ranking(self.seat, entries, stopped, other, unknown)


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
    for unit in (_turning_so(read, seat, name) for name in named):
        found += [Candidate(form, form.share / len(named), first.name.name) for form in seat.forms(unit)]
    kept = _as_told(read, _unless_denied(read, seat, found))
    return kept, len({candidate.form.unit for candidate in kept}) > 1


def _turning_so(read: Read, seat: DeadSeat, named: str) -> str:
    """The unit named, or the one of its family that turns as the ad says: a "right hand L20" is an L20R."""
    turns, library = read.reading.rotation, seat.setting.library
    record, unit = library.unit(named.partition(".")[0])

    def rotation(one: Record) -> str:
        known = form_features(one, "").get(f"{CORE}.rotation")
        return known.text if known else ""

    if turns is None or rotation(record) in ("", str(turns.value)):
        return named
    family = [
        one.id
        for one in library.records("units")
        if one.id != record.id
        and one.id.startswith(record.id)
        and isinstance(one.value, Unit)
        and one.value.kind == unit.kind
        and rotation(one) == str(turns.value)
    ]
    return family[0] if len(family) == 1 else named


def _as_told(read: Read, candidates: Sequence[Candidate]) -> tuple[Candidate, ...]:
    """With the shares of each unit's forms as the ad's words show them; the unit keeps its share of the whole."""
    found = []
    for unit, some in groupby(candidates, key=lambda one: one.form.unit):
        forms, odds = list(some), told_odds(read.forms, unit)
        weights = [one.share * odds.get(one.form.variant, 1.0) for one in forms]
        scale = sum(one.share for one in forms) / (sum(weights) or 1.0)
        words = {sign.variant: f", “{sign.text}”" for sign in reversed(read.forms) if sign.unit == unit and sign.odds > 1.0}
        found += [
            one._replace(share=weight * scale, by=one.by + words.get(one.form.variant, ""))
            for one, weight in zip(forms, weights, strict=True)
        ]
    return tuple(found)


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
         progress: Progress | None = None, today: dt.date | None = None, others: Sequence[Way] = ()) -> Ranking:  # fmt: skip
    """Rank ads for one dead unit. ``others`` are ways out without an ad, against which a price is weighed too."""
    known = known_of(setting.library, words, today)
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
            entries.append(_entry(seat, read, candidates, fetcher, known, ambiguous=ambiguous))
        elif read.matched.hits:
            other.append(read)
        else:
            unknown.append(read)
    going = _with_walk_away([entry for entry in entries if not entry.stopped], others, selling(setting).sales_tax)
    stopped = [entry for entry in entries if entry.stopped]
    return Ranking(seat, tuple(sorted(going, key=_order(by))), tuple(stopped), tuple(other), tuple(unknown))


def _with_walk_away(entries: list[Entry], others: Sequence[Way], tax: float) -> list[Entry]:
    """The ads with the most to pay for each, against the best of the other ads whose total is known, and other ways."""
    ways = [Way(one.read.ad.id, one.read.title, one.bill.mean_cents) for one in entries if one.bill.complete]
    found = walk_aways((*ways, *others), [(one.read.ad.id, one.bill) for one in entries], tax)
    return [one._replace(walk_away=found.get(one.read.ad.id)) for one in entries]


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
    seat: DeadSeat, read: Read, candidates: tuple[Candidate, ...], fetcher: Fetcher,
    known: Known, *, ambiguous: bool,
) -> Entry:  # fmt: skip
    kind = seat.case.kind
    word = offer_word(read.reading, kind)
    offer = offered(read.reading, kind, word)
    said = _said_of_it(read.reading, kind)
    outcomes = tuple(Outcome(candidate.share, seat.plan(candidate.form, offer, said)) for candidate in candidates)
    fetch = fetcher.fetch(read, candidates)
    well = health_for(seat, read, candidates, known)
    goes_in = sum(outcome.share * outcome.plan.chance.value for outcome in outcomes)
    wants = why_no_dollars(read.reading.price, seat.setting.home.rates.currency)
    entry = Entry(read, word, candidates, outcomes, fetch, well, Bill((), ()), goes_in, ambiguous, wants)
    return entry._replace(bill=bill_among(seat, entry, fetch.line, 1, leftovers_of(read, [seat])))


def pair_of(seat: DeadSeat, entry: Entry, form: Form | None = None) -> tuple[Case, Donor]:
    """The case, and a form of an ad's unit as a donor, the likeliest if none is named: what its plan was made from."""
    form, reading, kind = form or entry.candidate.form, entry.read.reading, seat.case.kind
    return seat.pair(form.unit, form.variant, offered(reading, kind, entry.offer), _said_of_it(reading, kind))


def health_for(seat: DeadSeat, read: Read, candidates: Sequence[Candidate], known: Known) -> Health:
    """How sound the unit of an ad is; readings are held against the limits of the form it most likely has."""
    likeliest = max(candidates, key=lambda candidate: candidate.share).form
    features = form_features(seat.setting.library.unit(likeliest.unit)[0], likeliest.variant)
    return soundness(read, seat.case.kind.id, features, seat.setting.rates.good_unit or 0.0, known)


def leftovers_of(read: Read, seats: Sequence[DeadSeat]) -> Line | None:
    """What is left of the machine of an ad brings, when the units for these seats are out of it; None where it is not known."""
    if not seats:
        return None
    setting = seats[0].setting
    found = parted_out(read, seats, selling(setting), seats[0].case.own_hour_cents) if setting.home.part_out else None
    return leftovers_line(found)


def parted_out(read: Read, seats: Sequence[DeadSeat], rates: Selling, own_hour: float) -> Parted | None:
    """The machine of an ad sold by part; None where it is none, or the catalog does not say what its leftovers bring."""
    hit = next(iter(read.matched.of(MACHINES)), None) if is_machine(read.reading) else None
    if hit is None:
        return None
    machine = seats[0].setting.library.machine(hit.name.id)[1]
    taken = [drawn for drawn in (seat.drawn_from(machine) for seat in seats) if drawn]
    lost = _lost(read.reading)
    taken += [name for name, seat in machine.seats.items() if seat.kind in lost]
    said = exactly(float(read.reading.weight_lb.value) * KG_PER_LB) if read.reading.weight_lb else None
    return parted(machine, taken, rates, own_hour, said)


def _lost(reading: AdReading) -> set[str]:
    """Kinds of units that an ad says are not in the machine, or no good: nobody buys them."""
    gone = {fact.name.removeprefix(NOT_THERE) for fact in reading.said if fact.value is True and fact.name.startswith(NOT_THERE)}
    return gone | {one.unit for one in reading.health if one.state == "bad"}


def bill_among(seat: DeadSeat, entry: Entry, haul: Line | None, units: int, left: Line | None = None) -> Bill:
    """The bill of an ad for one dead unit, where it is taken for so many of them and hauled at once."""
    rates = seat.setting.rates
    good = 1.0 if entry.offer in REBUILT else entry.health.chance  # made whole by the offer's own work: paid for already
    price = price_line(entry.read.reading.price, rates, seat.setting.home.rates.currency, selling(seat.setting).sales_tax)
    if price and entry.read.reading.price.each and not is_machine(entry.read.reading):
        price = price._replace(amount=price.amount.times(units))  # asked for each of the loose units
    return bill(entry.outcomes, seat.case, price, haul, seat.seat.hours, good, _why(entry.health), units, left)


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
