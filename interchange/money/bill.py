"""What one ad comes to, standing at home and running: lines with low, likely and high, each with its origin.

What varies apart is drawn apart, and what hangs together is one draw (``odds.py``): the own hours of one job go together, and so
does all waiting, because it is one shop's queue; what is bought, sent out, renewed or small is a draw each. Which form it is,
whether it is good, whether it goes in and whether what is not known turns out well are branches. Where it does not go in, price
and haul are paid again for another, drawn apart from these: another seller, another road.
"""

from __future__ import annotations

import operator
from collections.abc import Callable, Sequence
from typing import TYPE_CHECKING, NamedTuple

from interchange.ads.fields import PriceRead
from interchange.fit.case import Case, effort_of, spread_of
from interchange.fit.report import ADAPTER, BUY, CARRIED, MIXING, RENEW, SUNDRIES, WORK, Plan
from interchange.money.currency import in_dollars
from interchange.money.odds import AllOf, Odds, OneOf, mean, perhaps
from interchange.spread import Spread, exactly, longest, total

if TYPE_CHECKING:
    from interchange.catalog.figure import Figure
    from interchange.catalog.rates import WorkRates
    from interchange.job.currency import Currencies

PRICE, HAUL, LEFTOVERS, PARTS, SHOP, RENEWED, SUNDRY, TIME, WAITING, DOUBT, NOT_GOOD, NOT_IN = (

    "price", "haul", "leftovers sold", "adapters and parts", "machine work", "renewed parts", "sundries", "own hours", "waiting",
    "what is not known", "it may not be good", "it may not go in",
)  # fmt: skip
FIRM = "firm"
DOUBT_ORIGIN = "chance that it does not fit, or does not come with it, times the cheapest way out"
CORE = "core"
DOLLARS = "USD"
ONCE = (PRICE, HAUL, LEFTOVERS)  # of an ad, for however many units it is taken
SORTS = {
    PARTS: ((ADAPTER, BUY, MIXING, CARRIED), "catalog: adapters, and the kind's list"),
    SHOP: ((WORK,), "the catalog's remedies"),
    RENEWED: ((RENEW,), "the kind's list"),
    SUNDRY: ((SUNDRIES,), "the kind's list"),
}


class Line(NamedTuple):
    """One line of a bill, in cents. Where it is an average of branches, what is expected is not that of the average spread."""

    label: str
    amount: Spread
    origin: str
    expected: float | None = None
    odds: Odds | None = None
    """How it may turn out, where that is no triangle."""

    @property
    def mean_cents(self) -> float:
        """What is expected of it."""
        return mean(self.amount) if self.expected is None else self.expected


class Bill(NamedTuple):
    """Lines, and what is not in them because it is not known.

    ``rest`` is how everything but price, haul and leftovers may turn out; without it each line is a draw of its own.
    """

    lines: tuple[Line, ...]
    unknown: tuple[str, ...]
    rest: Odds | None = None
    price_times: float = 1.0
    """How often the price counts in what is expected: once, and again with the chance that it is lost."""

    @property
    def total(self) -> Spread:
        """All lines together, everything cheap with everything cheap and dear with dear: wider than it will turn out."""
        return total(line.amount for line in self.lines)

    @property
    def mean_cents(self) -> float:
        """The expected total: means add, whatever hangs together."""
        return sum(line.mean_cents for line in self.lines)

    @property
    def odds(self) -> Odds:
        """How the total may turn out; its mean is that of the lines."""
        paid_once = [line for line in self.lines if self.rest is None or line.label in ONCE]
        return AllOf((*(line.odds or line.amount for line in paid_once), *((self.rest,) if self.rest else ())))

    @property
    def complete(self) -> bool:
        """Whether nothing is missing from the total."""
        return not self.unknown

    def line(self, label: str) -> Line | None:
        """The line of this label; None where there is none."""
        return next((line for line in self.lines if line.label == label), None)


class Outcome(NamedTuple):
    """One form the donor may turn out to have: its share and its plan."""

    share: float
    plan: Plan


def price_line(
    price: PriceRead, rates: WorkRates, currencies: Currencies | None = None, tax: float = 0.0
) -> Line | None:  # fmt: skip
    """What will be paid: the asked price when firm, else what such prices come down to; with sales tax, where there is any.

    None where no dollar price is known.
    """
    price = in_dollars(price, currencies)
    if price.kind != "asked" or price.cents is None or price.currency not in (DOLLARS, None):
        return None
    asked = float(price.cents_to or price.cents)
    if price.terms == FIRM or rates.deal is None or rates.deal_low is None:
        return _taxed(Line(PRICE, exactly(float(price.cents)), f"asked: {price.text.strip()}"), tax)
    low = min(float(price.cents), asked * rates.deal_low)
    origin = f"asked: {price.text.strip()}; a deal at {rates.deal:.0%} is {rates.origin.basis or 'of no stated origin'}"
    return _taxed(Line(PRICE, Spread(low, asked * rates.deal, asked), origin), tax)


def _taxed(line: Line, tax: float) -> Line:
    if not tax:
        return line
    return line._replace(amount=line.amount.times(1 + tax), origin=f"{line.origin}; with {100 * tax:.4g} % sales tax")


def bill(
    outcomes: Sequence[Outcome], case: Case, price: Line | None, haul: Line | None, swap: Figure | None, good: float,
    good_why: str, units: int = 1, left: Line | None = None,
) -> Bill:  # fmt: skip
    """The bill of one ad for one dead unit, averaged over the forms the donor may have.

    ``good`` is the chance that the unit needs no internal work. One found bad once it is in has to come out and be made whole;
    one that does not go in has cost price and haul. ``units`` is for how many dead units the ad is taken: price and haul stand in
    the bill whole, and are at risk with each of the units in equal parts, so that they are at risk once in all. ``left`` is what
    the leftovers of a machine bring, goes in or not.
    """
    fitting = [outcome for outcome in outcomes if outcome.plan.feasible]
    weight = sum(outcome.share for outcome in fitting)
    forms = [(outcome.share / weight, _Going.of(outcome.plan, case, spread_of(swap))) for outcome in fitting]
    unknown = [name for name, line in (("price", price), ("haul", haul)) if line is None]
    if swap is None:
        unknown.append("hours to take one out and put one in")
    stake = [line.amount.times(1 / units) for line in (price, haul) if line is not None]
    lines = [line for line in (price, haul, left) if line is not None]
    lines += [line for line in _sure_lines(forms, case) if line.amount.high or line.label == TIME]
    charges = sum(share * going.plan.charges_cents for share, going in forms)
    if charges:
        lines.append(Line(DOUBT, exactly(charges), DOUBT_ORIGIN))
    bad = [_bad(going, case, stake) for _, going in forms]
    if good < 1:
        lines.append(_if_not_good(forms, bad, case, good, good_why, units))
    goes_in = sum(outcome.share * outcome.plan.chance.value for outcome in outcomes)
    if goes_in < 1:
        lost = "price and haul are lost" if units == 1 else f"its part (1 of {units}) of price and haul is lost"
        amount = total(stake).times(1 - goes_in)
        expected = (1 - goes_in) * sum(mean(each) for each in stake)
        lines.append(Line(NOT_IN, amount, f"{1 - goes_in:.0%} that {lost}", expected))
    branches = tuple(
        (share, AllOf((*going.apart, OneOf(((good, AllOf(going.together)), (1 - good, AllOf(worse)))))))
        for (share, going), worse in zip(forms, bad, strict=True)
    )
    rest = (*((OneOf(branches),) if branches else ()), perhaps(1 - goes_in, AllOf(tuple(stake))))
    tries = 1 - goes_in + (1 - good if _lost(case) else 0.0)
    return Bill(tuple(lines), tuple(unknown), AllOf(rest), 1 + tries / units)


def _lost(case: Case) -> bool:
    """Whether a unit found bad is a lost try: its kind does not say what it takes to make one whole inside."""
    core = case.kind.offers.get(CORE)
    return core is None or core.work is None


class _Going(NamedTuple):
    """One form that goes in: what its plan takes, line by line."""

    plan: Plan
    money: dict[str, Spread]
    """Parts, work, renewed and small things."""
    hours: Spread
    wait: Spread
    """Days."""
    swap: Spread
    """Hours to take one out and put one in, which are in ``hours`` too."""
    own_hour: float
    hold_day: float

    @staticmethod
    def of(plan: Plan, case: Case, swap: Spread) -> _Going:
        """What a plan takes."""
        money = {label: _money(plan, sorts) for label, (sorts, _) in SORTS.items()}
        return _Going(plan, money, _hours(plan).plus(swap), _wait(plan), swap, case.own_hour_cents, case.hold_day_cents)

    @property
    def apart(self) -> tuple[Odds, ...]:
        """Draws that hang on nothing else: money, and what is not known."""
        known = sum(chance * cents for chance, cents in self.plan.gambles)
        gambles = tuple(perhaps(chance, exactly(cents)) for chance, cents in self.plan.gambles)
        return (*self.money.values(), *gambles, exactly(self.plan.charges_cents - known))

    def paid(self, label: str) -> Spread:
        """One of its sorts of money."""
        return self.money[label]

    @property
    def together(self) -> tuple[Spread, ...]:
        """Own hours and waiting, in cents: a draw each."""
        return self.hours.times(self.own_hour), self.wait.times(self.hold_day)


def _sure_lines(forms: Sequence[tuple[float, _Going]], case: Case) -> list[Line]:
    """What it takes to put one in that is good, averaged over the forms that go in; nothing where none does."""

    def averaged(label: str, origin: str, amount: Callable[[_Going], Spread]) -> Line:
        spreads = [(share, amount(going)) for share, going in forms]
        expected = sum(share * mean(spread) for share, spread in spreads)
        return Line(label, total(spread.times(share) for share, spread in spreads), origin, expected)

    hours = total(going.hours.times(share) for share, going in forms)
    days = total(going.wait.times(share) for share, going in forms).likely
    lines = [averaged(label, origin, operator.methodcaller("paid", label)) for label, (_, origin) in SORTS.items()]
    own = f"{hours.low:.0f} to {hours.high:.0f} h at ${case.own_hour_cents / 100:.0f}"
    lines.append(averaged(TIME, own, lambda going: going.together[0]))
    held = f"the longest of {days:.0f} days at ${case.hold_day_cents / 100:.0f}"
    lines.append(averaged(WAITING, held, lambda going: going.together[1]))
    return lines


def _bad(going: _Going, case: Case, stake: Sequence[Spread]) -> tuple[Spread, ...]:
    """Own hours, waiting and what else there is, where the unit turns out bad once it is in.

    It comes out again and is made whole inside, as a core is, and goes in again: by the same hands, through the same queue. A
    kind that does not say what that takes has the whole try lost.
    """
    again = going.hours.plus(going.swap)
    core = case.kind.offers.get(CORE)
    if core is None or core.work is None:
        return again.times(going.own_hour), going.wait.times(going.hold_day), *stake
    work = effort_of(core.work)
    return again.plus(work.hours).times(going.own_hour), going.wait.plus(work.lead).times(going.hold_day), work.money


def _if_not_good(
    forms: Sequence[tuple[float, _Going]], bad: Sequence[tuple[Spread, ...]], case: Case, good: float, why: str, units: int
) -> Line:  # fmt: skip
    """What a unit found bad once it is in costs more than a good one."""
    core = case.kind.offers.get(CORE)
    if core is None or core.work is None:
        lost = "this try" if units == 1 else f"this try, with its part (1 of {units}) of price and haul,"
        origin = f"{1 - good:.0%} that {lost} is lost: {why}"
    else:
        origin = f"{1 - good:.0%} that it must come out and be made whole inside: {why}"
    low, likely, high, expected = 0.0, 0.0, 0.0, 0.0
    for (share, going), worse in zip(forms, bad, strict=True):
        by = share * (1 - good)
        dear, cheap = total(worse), total(going.together)
        low, likely = low + by * (dear.low - cheap.low), likely + by * (dear.likely - cheap.likely)
        high += by * (dear.high - cheap.high)
        expected += by * (sum(mean(each) for each in worse) - sum(mean(each) for each in going.together))
    return Line(NOT_GOOD, Spread(low, likely, high), origin, expected)


def _money(plan: Plan, sorts: tuple[str, ...]) -> Spread:
    return total(step.effort.money for step in plan.steps if step.sort in sorts)


def _hours(plan: Plan) -> Spread:
    return total(step.effort.hours for step in plan.steps)


def _wait(plan: Plan) -> Spread:
    """The longest lead time, at each of low, likely and high."""
    return longest(step.effort.lead for step in plan.steps)
