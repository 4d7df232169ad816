"""Ways out of one job, forward money only: what each costs now, takes, risks and nets, and what would change the choice.

    net = worth repaired - cost of the way - cost of the best ways for the other dead units, or what selling brings

Where the user does not say what the machine is worth, ways that end with it running are compared by what they cost.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from typing import TYPE_CHECKING, NamedTuple

from interchange.ads.offer_kind import is_machine
from interchange.fit.case import spread_of
from interchange.fit.failure import failures_in
from interchange.fit.finding import BOLTS_UP
from interchange.money.bill import HAUL, LEFTOVERS, NOT_GOOD, PARTS, PRICE, RENEWED, SHOP, SUNDRY, TIME, Bill
from interchange.money.leftovers import Parted, parted, selling
from interchange.money.odds import AllOf, Odds, Range, mean, scaled, what_to_expect
from interchange.money.on_hand import Standing, given, half
from interchange.money.rank import REBUILT
from interchange.money.walk_away import Way
from interchange.money.way_cost import WayCost, shop_queue, way_cost
from interchange.spread import Spread, exactly, total

if TYPE_CHECKING:
    from interchange.catalog.figure import Figure
    from interchange.catalog.model import WayOut
    from interchange.fit.setting import DeadSeat, Setting
    from interchange.money.rank import Entry, Ranking
    from interchange.money.several import Cure

REPAIR, TWO_IN_ONE, USED_SAME, USED_OTHER, DONOR, ON_HAND, SEVERAL = (
    "repair", "two_into_one", "used_same", "used_other", "donor", "on_hand", "several",
)  # fmt: skip
PART_OUT, SELL, WAIT = "part_out", "sell", "wait"
USED = "used"
BLOCK = "block"
MOST_OF_A_SORT = 2
CASH = (PRICE, HAUL, PARTS, SHOP, RENEWED, SUNDRY)


class Row(NamedTuple):
    """One way out. Money in cents; None is not known."""

    id: str
    sort: str
    title: str
    seats: tuple[str, ...]
    why: str
    cash: float | None
    """Expected to be paid out before it runs, deposits included."""
    hours: Spread | None
    days: float | None
    chance: float | None
    cost: Odds | None
    """What it comes to in the end, credits taken off; for selling it is below nothing."""
    unknown: tuple[str, ...] = ()
    uses: str = ""
    """The ad or the machine on hand it uses up; two ways cannot both."""
    good: float = 1.0
    rescue_cents: float = 0.0
    """What it adds to be found bad."""
    leftovers_cents: float = 0.0
    """What leftovers are expected to bring."""
    credit_cents: float = 0.0
    """What new parts bought already are worth to it; in its cost."""
    built: WayCost | None = None
    """What a way without a donor is made of."""

    @property
    def cost_cents(self) -> float:
        """What it is expected to come to."""
        return mean(self.cost) if self.cost is not None else float("inf")

    @property
    def known(self) -> bool:
        """Whether its cost is."""
        return self.cost is not None and not self.unknown

    @property
    def mends(self) -> bool:
        """Whether the machine runs after it."""
        return bool(self.seats)


class Net(NamedTuple):
    """A way with what it leaves one with, the other dead units cured in the best way known; None where that is not known."""

    row: Row
    net: Range | None
    cost: Range | None
    """What it comes to, the other dead units aside."""


class Ways(NamedTuple):
    """All ways out of a job, the best first, and whether they could be told by what they leave one with."""

    nets: tuple[Net, ...]
    by_net: bool


def ways_without_ads(seat: DeadSeat, standing: Sequence[Standing]) -> list[Row]:
    """Ways out for one dead unit that need no ad: mended, rebuilt, bought whole, or by what stands at home."""
    return [*_built(seat), *_on_hand(seat, standing)]


def others_for_rank(seat: DeadSeat, standing: Sequence[Standing]) -> list[Way]:
    """The same as ways to weigh a price against, new parts bought already counted as they would be with a used unit."""
    used = new_parts_credit(seat.setting, USED)
    rows = (row for row in ways_without_ads(seat, standing) if row.known)
    return [Way(row.id, row.title, row.cost_cents + used) for row in rows]


def _queue(setting: Setting) -> Odds | None:
    return shop_queue(setting.home.rates.shop_queue or setting.rates.shop_queue)


def new_parts_credit(setting: Setting, *names: str) -> float:
    """What new parts bought already are worth to a way, in cents: used, all that was paid; else what they still bring."""
    rates, worth = selling(setting), 0.0
    for part in setting.job.new_parts.values():
        paid = part.paid.value
        if set(names) & set(part.used_by):
            worth += paid
        else:
            worth += mean(scaled(rates.opened_brings, paid)) if part.opened else paid - mean(scaled(rates.kept_back, paid))
    return worth


def _built(seat: DeadSeat) -> Iterator[Row]:
    """Repair, overhaul, rebuilt, short and long block, as the kind tells of them."""
    kind = seat.case.kind
    broke = failures_in(kind, seat.dead.broke, seat.dead.failure)
    if len(broke) == 1 and broke[0].repair:
        yield _built_row(seat, REPAIR, broke[0].repair, broke[0].title)
    names = {id_ for id_, failure in kind.failures.items() if failure in broke}
    for id_, way in kind.ways.items():
        if not way.two_in_one and not names & set(way.not_after):
            price = seat.unit.prices.get(id_)
            told = f"{price.text}: {price.origin}" if price else str(way.origin)
            yield _built_row(seat, id_, way, told, price)


def _built_row(seat: DeadSeat, id_: str, way: WayOut, told: str, price: Figure | None = None) -> Row:
    kind = seat.case.kind
    broke = failures_in(kind, seat.dead.broke, seat.dead.failure)
    lost = any(BLOCK in failure.breaks for failure in broke)
    made = way_cost(
        way, seat.case, seat.seat.hours, _queue(seat.setting), price, seat.unit.deposit, deposit_lost=lost,
    )  # fmt: skip
    why = "; ".join(filter(None, (way.why, told)))
    if made is None:
        missing = "hours to take one out and put one in" if way.swap and seat.seat.hours is None else "the shop's queue"
        return Row(id_, id_, way.title, (seat.name,), why, None, None, None, way.good, None, (missing,))
    if made.deposit:
        back = "lost, because the old block is broken" if made.deposit_lost else "comes back for the old one"
        why += f"; a deposit of ${made.deposit / 100:,.0f} {back}"
    return _row_of(seat, id_, id_, way.title, why, made)


def _row_of(seat: DeadSeat, id_: str, sort: str, title: str, why: str, made: WayCost) -> Row:
    credit = new_parts_credit(seat.setting, id_, sort)
    return Row(
        id_, sort, title, (seat.name,), why, mean(made.cash) + made.deposit, made.hours, mean(made.days), made.good,
        AllOf((made.odds, exactly(-credit))), good=made.good, rescue_cents=made.rescue_cents, credit_cents=credit, built=made,
    )  # fmt: skip


def _on_hand(seat: DeadSeat, standing: Sequence[Standing]) -> Iterator[Row]:
    """Machines that stand at home: as donors, and as the other half of one good unit."""
    halves = [way for way in seat.case.kind.ways.values() if way.two_in_one]
    for one in standing:
        found = given(seat, one)
        if found:
            likeliest = max(found.outcomes, key=lambda each: (each.plan.feasible, each.share)).plan
            hours = likeliest.hours.plus(spread_of(seat.seat.hours))
            chance = found.good * sum(each.share * each.plan.chance.value for each in found.outcomes)
            row = _row_of_bill(seat, one.id, ON_HAND, f"{one.title}, as a donor", found.bill, chance, hours, likeliest.lead_days)
            rescue = row.rescue_cents / (1 - found.good) if found.good < 1 else 0.0
            yield row._replace(why=f"{found.why}; {_price_words(found.bill)}", good=found.good, rescue_cents=rescue)
        other = half(seat, one)
        for way in halves if other else ():
            made = way_cost(way, seat.case, seat.seat.hours, _queue(seat.setting))
            if other is None or made is None:
                continue
            row = _row_of(seat, f"{TWO_IN_ONE}, {one.id}", TWO_IN_ONE, f"{way.title}, with {one.title}", other.why, made)
            paid = [line for line in (other.price, other.left) if line]
            cost = AllOf((row.cost or exactly(0.0), *(line.odds or line.amount for line in paid)))
            yield row._replace(
                cost=cost,
                uses=one.id,
                cash=(row.cash or 0.0) + (other.price.mean_cents if other.price else 0.0),
                unknown=() if other.price else ("what it would fetch",),
                leftovers_cents=-other.left.mean_cents if other.left else 0.0,
            )


def _price_words(bill: Bill) -> str:
    price = bill.line(PRICE)
    return price.origin if price else "what it would fetch is not known"


def _row_of_bill(
    seat: DeadSeat, id_: str, sort: str, title: str, bill: Bill, chance: float, hours: Spread, days: float
) -> Row:  # fmt: skip
    credit = new_parts_credit(seat.setting, sort, USED if sort.startswith(USED) else sort)
    left = bill.line(LEFTOVERS)
    bad = bill.line(NOT_GOOD)
    cash = sum(line.mean_cents for line in bill.lines if line.label.rpartition(": ")[2] in CASH)
    return Row(
        id_, sort, title, (seat.name,), "", cash, hours, days, chance, AllOf((bill.odds, exactly(-credit))), bill.unknown,
        uses=id_, rescue_cents=bad.mean_cents if bad else 0.0, leftovers_cents=-left.mean_cents if left else 0.0,
        credit_cents=credit,
    )  # fmt: skip


def ways_by_ads(ranking: Ranking) -> list[Row]:
    """The best ads of each sort: the same unit used, another used, and whole machines."""
    seat, found = ranking.seat, []
    kept: dict[str, int] = {}
    for entry in sorted(ranking.entries, key=lambda one: (not one.bill.complete, one.bill.mean_cents, one.read.ad.id)):
        sort = _sort_of(entry, seat)
        kept[sort] = kept.get(sort, 0) + 1
        if kept[sort] <= MOST_OF_A_SORT:
            plan = entry.likeliest.plan
            good = 1.0 if entry.offer in REBUILT else entry.health.chance
            hours = plan.hours.plus(spread_of(seat.seat.hours))
            row = _row_of_bill(
                seat, entry.read.ad.id, sort, entry.read.title, entry.bill, entry.goes_in * good, hours, plan.lead_days
            )
            rescue = row.rescue_cents / (1 - good) if good < 1 else 0.0
            worst = f": {entry.worst.title}" if entry.worst and entry.verdict != BOLTS_UP else ""
            found.append(row._replace(why=f"{entry.verdict}{worst}", good=good, rescue_cents=rescue))
    return found


def _sort_of(entry: Entry, seat: DeadSeat) -> str:
    if is_machine(entry.read.reading):
        return DONOR
    return USED_SAME if entry.candidate.form.unit == seat.dead.unit.partition(".")[0] else USED_OTHER


def ways_for_several(seats: Sequence[DeadSeat], cures: Sequence[Cure]) -> list[Row]:
    """Ads that cure more than one dead unit at once."""
    found = []
    for cure in [one for one in cures if len(one.seats) > 1][:MOST_OF_A_SORT]:
        taken = [seat for seat in seats if seat.name in cure.seats]
        row = _row_of_bill(taken[0], cure.ad, SEVERAL, cure.title, cure.bill, 0.0, Spread(0.0, 0.0, 0.0), 0.0)
        hours = total(line.amount for line in cure.bill.lines if line.label.endswith(TIME))
        rate = taken[0].case.own_hour_cents
        found.append(
            row._replace(
                seats=cure.seats, chance=None, days=None, hours=hours.times(1 / rate) if rate else None,
                why=f"one machine or pair for {' and '.join(cure.seats)}, price and haul once",
            )
        )  # fmt: skip
    return found


def own_parted(setting: Setting, own_hour: float) -> Parted | None:
    """The job's own machine sold by part, its dead units for scrap; None where the catalog does not say what it brings."""
    return parted(setting.machine, tuple(setting.job.dead), selling(setting), own_hour)


def ways_to_part(setting: Setting, own_hour: float, hold_day: float) -> list[Row]:
    """Selling it by part, selling it as it stands, and waiting."""
    rates, worth = selling(setting), setting.job.worth
    unsold = exactly(-new_parts_credit(setting, SELL))
    left = own_parted(setting, own_hour)
    months = max((sale.months.likely for sale in left.sales), default=0.0) if left else 0.0
    rows = [
        Row(
            PART_OUT, PART_OUT, "sell it by part", (), f"the last part may take {months:.0f} months" if left else "", 0.0,
            left.hours if left else None, None, None, AllOf((scaled(left.odds, -1), unsold)) if left else None,
            () if left else ("what its parts bring: leftovers of the machine in the catalog",),
        )
    ]  # fmt: skip
    sold: Odds | None = None
    if worth.as_is:
        kept = Spread(1 - rates.fee.high, 1 - rates.fee.likely, 1 - rates.fee.low)
        sold = AllOf((scaled(spread_of(worth.as_is).times(kept), -1), unsold))
    missing = () if sold else ("worth: as_is in job.yaml",)
    rows.append(Row(SELL, SELL, "sell it as it stands", (), "less the selling fee", 0.0, None, None, None, sold, missing))
    wait = setting.home.rates.wait or setting.rates.wait
    if wait:
        days = wait.value
        why = f"pays only if something turns up that is at least ${days * hold_day / 100:,.0f} cheaper"
        rows.append(Row(WAIT, WAIT, f"wait {wait.text}", (), why, 0.0, None, days, None, None))
    return rows


def weighed(setting: Setting, rows: Sequence[Row], seats: Sequence[DeadSeat]) -> Ways:
    """Every way with what it leaves one with, the best first; those not known last."""
    names = [seat.name for seat in seats]
    ranked = {name: sorted((row for row in rows if row.seats == (name,) and row.known), key=_cost) for name in names}
    repaired = setting.job.worth.repaired
    worth = spread_of(repaired) if repaired else None
    nets = [_net(row, ranked, worth) for row in rows if row.sort != WAIT]
    top = max((one.net for one in nets if one.net), key=lambda net: net.mean, default=None)
    for row in rows:
        if row.sort == WAIT:
            held = (row.days or 0.0) * (seats[0].case.hold_day_cents if seats else 0.0)
            nets.append(Net(row, Range(*(each - held for each in top)) if top else None, None))
    by_net = worth is not None
    return Ways(tuple(sorted(nets, key=lambda one: _order(one, names, by_net=by_net))), by_net)


def _cost(row: Row) -> tuple[float, str]:
    return row.cost_cents, row.id


def _net(row: Row, ranked: Mapping[str, Sequence[Row]], worth: Spread | None) -> Net:
    """What a way leaves one with; the other dead units are cured by the cheapest way that does not use up the same thing."""
    cost = what_to_expect(row.cost) if row.cost is not None else None
    if row.cost is None or row.unknown:
        return Net(row, None, cost)
    if not row.mends:
        return Net(row, what_to_expect(scaled(row.cost, -1)), None)
    rest = [
        next((other for other in others if not row.uses or other.uses != row.uses), None)
        for name, others in ranked.items()
        if name not in row.seats
    ]
    if worth is None or any(other is None for other in rest):
        return Net(row, None, cost)
    # the credit for new parts is had once, with the way itself
    again = [AllOf((other.cost, exactly(other.credit_cents))) for other in rest if other and other.cost is not None]
    return Net(row, what_to_expect(AllOf((worth, *(scaled(one, -1) for one in (row.cost, *again))))), cost)


def _order(one: Net, names: Sequence[str], *, by_net: bool) -> tuple[object, ...]:
    """Ways for each dead unit, then those for several, then being rid of it; the best first, what is not known last."""
    row = one.row
    group = len(names) + 1 if not row.mends else names.index(row.seats[0]) if len(row.seats) == 1 else len(names)
    if by_net or not row.mends:
        return (group, one.net is None, -one.net.mean if one.net else 0.0, row.id)
    return (group, not row.known, row.cost_cents if row.cost is not None else 0.0, row.id)
