"""What a way out without a donor comes to: mended, rebuilt, or bought whole, with what it costs when it goes wrong.

    cost = price + money + own hours * rate + days of waiting * hold cost,  and with the chance that it is no good,
           the unit comes out again, is made whole inside as a core is, and goes in again

A machine shop's queue is lognormal. Own hours of both tries are one draw; so is the queue.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from interchange.fit.case import Case, effort_of, spread_of
from interchange.money.bill import CORE
from interchange.money.odds import AllOf, Odds, OneOf, long_tailed, mean, scaled
from interchange.spread import NOTHING, Spread, exactly

if TYPE_CHECKING:
    from interchange.catalog.figure import Figure
    from interchange.catalog.model import WayOut


class WayCost(NamedTuple):
    """What a way comes to if all goes well, and what goes wrong adds; money in cents, times in hours and days."""

    cash: Spread
    """Paid to others before it runs, a deposit aside."""
    hours: Spread
    days: Odds
    good: float
    own_hour: float
    hold_day: float
    again_cash: Spread = NOTHING
    again_hours: Spread = NOTHING
    again_days: Spread = NOTHING
    deposit: float = 0.0
    """Laid out and, if the old one is taken, paid back."""
    deposit_lost: bool = False

    @property
    def if_good(self) -> Odds:
        """What it comes to where it is good."""
        return self._tried(self.cash, self.hours, NOTHING)

    @property
    def odds(self) -> Odds:
        """What it comes to."""
        bad = self._tried(self.cash, self.hours.plus(self.again_hours), self.again_days, self.again_cash)
        return OneOf(((self.good, self.if_good), (1 - self.good, bad))) if self.good < 1 else self.if_good

    @property
    def rescue_cents(self) -> float:
        """What is expected to be added where it is no good."""
        again = self._tried(self.cash, self.hours.plus(self.again_hours), self.again_days, self.again_cash)
        return mean(again) - mean(self.if_good)

    def _tried(self, cash: Spread, hours: Spread, more_days: Spread, more_cash: Spread = NOTHING) -> Odds:
        lost = exactly(self.deposit if self.deposit_lost else 0.0)
        waited = (scaled(self.days, self.hold_day), more_days.times(self.hold_day))
        return AllOf((cash, more_cash, hours.times(self.own_hour), lost, *waited))


def way_cost(
    way: WayOut, case: Case, swap: Figure | None, queue: Odds | None, price: Figure | None = None,
    deposit: Figure | None = None, *, deposit_lost: bool = False,
) -> WayCost | None:  # fmt: skip
    """The cost of a way; None where what it hangs on is not known: the hours of a swap, or the shop's queue.

    ``price`` is the unit's own price for it; ``queue`` the days a machine shop lets one wait.
    """
    if (way.swap and swap is None) or (way.shop and queue is None):
        return None
    out_and_in = spread_of(swap)
    hours = spread_of(way.hours).plus(out_and_in.times(way.swap or 0.0))
    lead = spread_of(way.lead)
    cash = spread_of(price or way.price).plus(spread_of(way.money))
    core = case.kind.offers.get(CORE)
    rescue = way.rescue or (core.work if core else None)
    if rescue:
        again = effort_of(rescue)
        again_cash, again_hours, again_days = again.money, again.hours.plus(out_and_in), again.lead
    else:  # the kind does not say what it takes to make one whole inside: the same again
        again_cash, again_hours, again_days = cash, hours, lead
    bought = bool(price or way.price)
    return WayCost(
        cash,
        hours,
        queue if way.shop and queue is not None else lead,
        way.good,
        case.own_hour_cents,
        case.hold_day_cents,
        again_cash,
        again_hours,
        again_days,
        deposit.value if deposit and bought else 0.0,
        deposit_lost,
    )


def shop_queue(figure: Figure | None) -> Odds | None:
    """A machine shop's queue in days, lognormal between its one in ten and one in ten; None where it is not known."""
    return long_tailed(spread_of(figure)) if figure else None
