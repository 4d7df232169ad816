"""What one ad comes to, standing at home and running: lines with low, likely and high, each with its origin."""

from __future__ import annotations

import functools
from collections.abc import Callable, Sequence
from typing import TYPE_CHECKING, NamedTuple

from interchange.ads.fields import PriceRead
from interchange.fit.case import Case, effort_of, spread_of
from interchange.fit.report import ADAPTER, BUY, CARRIED, MIXING, RENEW, SUNDRIES, WORK, Plan
from interchange.money.currency import in_dollars
from interchange.money.shape import mean
from interchange.spread import Spread, exactly, longest, total

if TYPE_CHECKING:
    from interchange.catalog.figure import Figure
    from interchange.catalog.rates import WorkRates
    from interchange.job.currency import Currencies

PRICE, HAUL, PARTS, SHOP, RENEWED, SUNDRY, TIME, WAITING, DOUBT, NOT_GOOD, NOT_IN = (
    "price", "haul", "adapters and parts", "machine work", "renewed parts", "sundries", "own hours", "waiting",
    "what is not known", "it may not be good", "it may not go in",
)  # fmt: skip
FIRM = "firm"
DOUBT_ORIGIN = "chance that it does not fit, or does not come with it, times the cheapest way out"
CORE = "core"
DOLLARS = "USD"


class Line(NamedTuple):
    """One line of a bill, in cents."""

    label: str
    amount: Spread
    origin: str


class Bill(NamedTuple):
    """Lines, and what is not in them because it is not known."""

    lines: tuple[Line, ...]
    unknown: tuple[str, ...]

    @property
    def total(self) -> Spread:
        """All lines together, everything cheap with everything cheap and dear with dear: wider than it will turn out."""
        return total(line.amount for line in self.lines)

    @property
    def mean_cents(self) -> float:
        """The expected total: means add, whatever hangs together."""
        return sum(mean(line.amount) for line in self.lines)

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


def price_line(price: PriceRead, rates: WorkRates, currencies: Currencies | None = None) -> Line | None:
    """What will be paid: the asked price when firm, else what such prices come down to. None where no dollar price is known."""
    price = in_dollars(price, currencies)
    if price.kind != "asked" or price.cents is None or price.currency not in (DOLLARS, None):
        return None
    asked = float(price.cents_to or price.cents)
    if price.terms == FIRM or rates.deal is None or rates.deal_low is None:
        return Line(PRICE, exactly(float(price.cents)), f"asked: {price.text.strip()}")
    low = min(float(price.cents), asked * rates.deal_low)
    origin = f"asked: {price.text.strip()}; a deal at {rates.deal:.0%} is {rates.origin.basis or 'of no stated origin'}"
    return Line(PRICE, Spread(low, asked * rates.deal, asked), origin)


def bill(
    outcomes: Sequence[Outcome], case: Case, price: Line | None, haul: Line | None, swap: Figure | None, good: float,
    good_why: str, units: int = 1,
) -> Bill:  # fmt: skip
    """The bill of one ad for one dead unit, averaged over the forms the donor may have.

    ``good`` is the chance that the unit needs no internal work. One found bad once it is in has to come out and be made whole;
    one that does not go in has cost price and haul. ``units`` is for how many dead units the ad is taken: price and haul stand in
    the bill whole, and are at risk with each of the units in equal parts, so that they are at risk once in all.
    """
    fitting = [outcome for outcome in outcomes if outcome.plan.feasible]
    weight = sum(outcome.share for outcome in fitting)
    unknown = [name for name, line in (("price", price), ("haul", haul)) if line is None]
    lines = [line for line in (price, haul) if line is not None]
    sorts = {
        PARTS: ((ADAPTER, BUY, MIXING, CARRIED), "catalog: adapters, and the kind's list"),
        SHOP: ((WORK,), "the catalog's remedies"),
        RENEWED: ((RENEW,), "the kind's list"),
        SUNDRY: ((SUNDRIES,), "the kind's list"),
    }
    for label, (wanted, origin) in sorts.items():
        amount = _mixed(fitting, weight, functools.partial(_money, sorts=wanted))
        if amount.high:
            lines.append(Line(label, amount, origin))
    own = exactly(case.own_hour_cents)
    hours = _mixed(fitting, weight, _hours)
    if swap is None:
        unknown.append("hours to take one out and put one in")
    hours = hours.plus(spread_of(swap))
    lines.append(Line(TIME, hours.times(own), f"{hours.low:.0f} to {hours.high:.0f} h at ${case.own_hour_cents / 100:.0f}"))
    lead = _mixed(fitting, weight, _wait)
    if lead.high:
        lines.append(
            Line(
                WAITING,
                lead.times(case.hold_day_cents),
                f"the longest of {lead.likely:.0f} days at ${case.hold_day_cents / 100:.0f}",
            )
        )
    charges = sum(outcome.share * outcome.plan.charges_cents for outcome in fitting) / weight if weight else 0.0
    if charges:
        lines.append(Line(DOUBT, exactly(charges), DOUBT_ORIGIN))
    at_risk = total(line.amount for line in (price, haul) if line is not None).times(1 / units)
    if good < 1:
        refit = spread_of(swap).times(own)
        lines.append(_if_not_good(case, at_risk.plus(refit), refit, good, good_why, units))
    goes_in = sum(outcome.share * outcome.plan.chance.value for outcome in outcomes)
    if goes_in < 1:
        lost = "price and haul are lost" if units == 1 else f"its part (1 of {units}) of price and haul is lost"
        lines.append(Line(NOT_IN, at_risk.times(1 - goes_in), f"{1 - goes_in:.0%} that {lost}"))
    return Bill(tuple(lines), tuple(unknown))


def _if_not_good(case: Case, whole_try: Spread, hours: Spread, good: float, why: str, units: int) -> Line:
    """What it costs if the unit turns out bad once it is in: out again and made whole inside, as a core is, and in again.

    A kind that does not say what that takes has the whole try lost.
    """
    core = case.kind.offers.get(CORE)
    if core is None or core.work is None:
        lost = "this try" if units == 1 else f"this try, with its part (1 of {units}) of price and haul,"
        return Line(NOT_GOOD, whole_try.times(1 - good), f"{1 - good:.0%} that {lost} is lost: {why}")
    work = effort_of(core.work)
    rescue = total((work.money, work.hours.times(case.own_hour_cents), work.lead.times(case.hold_day_cents), hours))
    return Line(NOT_GOOD, rescue.times(1 - good), f"{1 - good:.0%} that it must come out and be made whole inside: {why}")


def _mixed(outcomes: Sequence[Outcome], weight: float, amount: Callable[[Plan], Spread]) -> Spread:
    """An amount averaged over the forms that go in; nothing where none does."""
    return total(amount(outcome.plan).times(outcome.share / weight) for outcome in outcomes)


def _money(plan: Plan, sorts: tuple[str, ...]) -> Spread:
    return total(step.effort.money for step in plan.steps if step.sort in sorts)


def _hours(plan: Plan) -> Spread:
    return total(step.effort.hours for step in plan.steps)


def _wait(plan: Plan) -> Spread:
    """The longest lead time, at each of low, likely and high."""
    return longest(step.effort.lead for step in plan.steps)
