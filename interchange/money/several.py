"""Several dead units in one job: ads that cure more than one of them, and the cheapest way to cure all."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from itertools import chain, combinations
from typing import TYPE_CHECKING, NamedTuple

from interchange.ads.match import MACHINES
from interchange.ads.offer_kind import is_machine
from interchange.money.bill import HAUL, ONCE, PRICE, Bill, Line
from interchange.money.odds import AllOf, Odds
from interchange.money.rank import bill_among, leftovers_of
from interchange.money.shape import mean
from interchange.spread import total

if TYPE_CHECKING:
    from interchange.ads.reads import Read
    from interchange.fit.setting import DeadSeat
    from interchange.money.rank import Candidate, Entry, Ranking

Hauling = Callable[["Read", Sequence[Sequence["Candidate"]]], Line | None]
"""The haul of an ad for the units that are wanted of it, each by the forms it may have; None where it is not known."""


class Cure(NamedTuple):
    """One ad taken for one or more of the dead units, by their seats, with the bill for all of them."""

    ad: str
    title: str
    seats: tuple[str, ...]
    bill: Bill

    @property
    def priced(self) -> bool:
        """Whether price and haul are known."""
        return not {PRICE, HAUL} & set(self.bill.unknown)


class Together(NamedTuple):
    """All dead units of a job at once.

    ``cures`` is the cheapest way, ``uncovered`` the seats it has no ad for. ``apart`` is the best ad for each unit by itself,
    with price and haul counted for each. ``several`` are the ads that go in for more than one, each for all it goes in for,
    best first.
    """

    cures: tuple[Cure, ...]
    uncovered: tuple[str, ...]
    apart: tuple[Cure, ...]
    several: tuple[Cure, ...]

    @property
    def mean_cents(self) -> float:
        """The expected total of the cheapest way."""
        return sum(cure.bill.mean_cents for cure in self.cures)

    @property
    def apart_cents(self) -> float:
        """The expected totals of the best ads by themselves, added up."""
        return sum(cure.bill.mean_cents for cure in self.apart)

    @property
    def unknown(self) -> tuple[str, ...]:
        """What is not in the total of the cheapest way because it is not known."""
        return tuple(f"{cure.ad}: {what}" for cure in self.cures for what in cure.bill.unknown)


def together(rankings: Sequence[Ranking], hauling: Hauling) -> Together:
    """What the ranked ads of a job come to for all its dead units at once; the order of the rankings changes nothing."""
    seats = tuple(ranking.seat.name for ranking in rankings)
    going: dict[str, list[tuple[DeadSeat, Entry]]] = {}
    for ranking in rankings:
        for entry in ranking.entries:
            going.setdefault(entry.read.ad.id, []).append((ranking.seat, entry))
    cures = [cure for _, uses in sorted(going.items()) for cure in cures_of(uses, hauling)]
    chosen = cheapest(cures, seats)
    covered = {seat for cure in chosen for seat in cure.seats}
    apart = (cheapest([cure for cure in cures if cure.seats == (seat,)], (seat,)) for seat in seats if seat in covered)
    return Together(
        chosen,
        tuple(seat for seat in seats if seat not in covered),
        tuple(chain.from_iterable(apart)),
        _more_than_one(cures),
    )


def cures_of(uses: Sequence[tuple[DeadSeat, Entry]], hauling: Hauling) -> list[Cure]:
    """One ad for every set of dead units it can be taken for at once, the smallest sets first.

    Two seats that would draw on the same unit of a donor machine cannot both be served, nor can two of one kind by an ad for a
    loose unit: how many of them it sells is not known.
    """
    found = []
    for taken in chain.from_iterable(combinations(uses, size) for size in range(1, len(uses) + 1)):
        read = taken[0][1].read
        drawn = {_drawn_from(read, seat) for seat, _ in taken}
        if len(drawn) < len(taken):
            continue
        haul = _haul(taken, hauling)
        left = leftovers_of(read, [seat for seat, _ in taken])
        bills = {seat.name: bill_among(seat, entry, haul, len(taken), left) for seat, entry in taken}
        found.append(Cure(read.ad.id, read.title, tuple(bills), joint_bill(bills)))
    return found


def _drawn_from(read: Read, seat: DeadSeat) -> str:
    """What of the ad serves a dead unit: a seat of the donor machine, or the loose unit of this kind."""
    machine = next(iter(read.matched.of(MACHINES)), None) if is_machine(read.reading) else None
    drawn = seat.drawn_from(seat.setting.library.machine(machine.name.id)[1]) if machine else None
    return drawn or f"a loose {seat.case.kind.id}"


def _haul(taken: Sequence[tuple[DeadSeat, Entry]], hauling: Hauling) -> Line | None:
    """A machine comes whole whatever is wanted of it; loose units on one pallet, or one by one where that is cheaper."""
    entries = [entry for _, entry in taken]
    read, single = entries[0].read, [entry.fetch.line for entry in entries]
    if len(entries) == 1 or is_machine(read.reading):
        return single[0]
    at_once = hauling(read, [entry.candidates for entry in entries])
    known = [line for line in single if line is not None]
    if len(known) < len(single):
        return at_once
    apart = Line(HAUL, total(line.amount for line in known), "; ".join(line.origin for line in known))
    return at_once if at_once is not None and mean(at_once.amount) <= mean(apart.amount) else apart


def joint_bill(bills: Mapping[str, Bill]) -> Bill:
    """The bill of one ad for several dead units: price, haul and leftovers once, all else of each unit's bill under its seat.

    Each unit's bill is made with the same price and haul, at risk in equal parts (``units`` of ``bill``). The bill of one unit
    alone stays as it is.
    """
    if len(bills) == 1:
        return next(iter(bills.values()))
    first = next(iter(bills.values()))
    lines = [line for line in first.lines if line.label in ONCE]
    unknown = [what for what in first.unknown if what in (PRICE, HAUL)]
    rests: list[Odds] = []
    for seat, bill in bills.items():
        lines += [line._replace(label=f"{seat}: {line.label}") for line in bill.lines if line.label not in ONCE]
        unknown += [f"{seat}: {what}" for what in bill.unknown if what not in (PRICE, HAUL)]
        own = [line.amount for line in bill.lines if line.label not in ONCE]
        rests += own if bill.rest is None else [bill.rest]
    times = 1 + sum(bill.price_times - 1 for bill in bills.values())
    return Bill(tuple(lines), tuple(unknown), AllOf(tuple(rests)), times)


class _Way(NamedTuple):
    """Cures of disjoint sets of units. Fewer units by an ad of unknown price or haul come first, then the smaller total."""

    unpriced: int
    cents: float
    cures: tuple[Cure, ...]

    def better_than(self, other: _Way | None) -> bool:
        """Whether it comes first; of two that are alike the one found first stays."""
        return other is None or (self.unpriced, self.cents) < (other.unpriced, other.cents)


def cheapest(cures: Sequence[Cure], seats: Sequence[str]) -> tuple[Cure, ...]:
    """The cheapest way to cure as many of the seats as can be, each once and each ad taken once at most.

    Exact, by the sets of seats already cured, one ad after the other: the best way for a set with the ads so far is the best
    without this ad, or this ad for a part of it and the best for the rest without it. An ad whose price or haul is not known is
    taken only for a unit that no other can be had for: what it comes to cannot be weighed against the rest.
    """
    bit = {seat: 1 << place for place, seat in enumerate(seats)}
    by_ad: dict[str, list[tuple[int, Cure]]] = {}
    for cure in cures:
        by_ad.setdefault(cure.ad, []).append((sum(bit[seat] for seat in cure.seats), cure))
    best: dict[int, _Way] = {0: _Way(0, 0.0, ())}
    for options in by_ad.values():
        before = dict(best)
        for mask, cure in options:
            cents, unpriced = cure.bill.mean_cents, 0 if cure.priced else len(cure.seats)
            for cured, way in before.items():
                if not cured & mask:
                    made = _Way(way.unpriced + unpriced, way.cents + cents, (*way.cures, cure))
                    if made.better_than(best.get(cured | mask)):
                        best[cured | mask] = made
    most = max(mask.bit_count() for mask in best)
    way = min((way for mask, way in best.items() if mask.bit_count() == most), key=lambda way: (way.unpriced, way.cents))
    return tuple(sorted(way.cures, key=lambda cure: min(bit[seat] for seat in cure.seats)))


def _more_than_one(cures: Sequence[Cure]) -> tuple[Cure, ...]:
    """Each ad that goes in for more than one dead unit, for the most it can be taken for, in the order of their totals."""
    widest: dict[str, Cure] = {}
    for cure in cures:
        if len(cure.seats) > 1 and (cure.ad not in widest or _order(cure) < _order(widest[cure.ad])):
            widest[cure.ad] = cure
    return tuple(sorted(widest.values(), key=_order))


def _order(cure: Cure) -> tuple[object, ...]:
    return (not cure.priced, -len(cure.seats), cure.bill.mean_cents, cure.ad)
