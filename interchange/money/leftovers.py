"""What is left of a donor machine once the unit is out of it: sold by part over months, the rest for scrap.

    credit = sum(chance * price * (1 - fee) / (1 + discount) ** months) + scrap - (taking off, packing, tearing down) * own hour

Each part is sold or not, apart from the others; the hours are one draw, by one pair of hands, and are spent sold or not. A part
that is not expected to bring its own hours stays on for scrap.
"""

from __future__ import annotations

from collections.abc import Collection
from typing import TYPE_CHECKING, NamedTuple

from interchange.catalog.rates import SellingRates
from interchange.errors import InputError
from interchange.fit.case import spread_of
from interchange.money.bill import LEFTOVERS, Line
from interchange.money.odds import AllOf, Odds, mean, perhaps, scaled, what_to_expect
from interchange.quantity.units import UNITS
from interchange.spread import Spread, total

if TYPE_CHECKING:
    from interchange.catalog.model import LeftPart, Machine
    from interchange.fit.setting import Setting

TON_KG = float(UNITS["mass"]["ton"])
MONTH_DAYS = float(UNITS["days"]["month"])
SELLING = "selling"


class Selling(NamedTuple):
    """What selling costs and brings: the home's figures, else the trade's."""

    fee: Spread
    discount_month: float
    scrap_ton: Spread
    sales_tax: float
    kept_back: Spread
    opened_brings: Spread


class Sale(NamedTuple):
    """One part to sell: what it brings if it is sold, in today's money without its fee, in cents."""

    title: str
    brings: Spread
    chance: float
    months: Spread
    hours: Spread

    @property
    def mean_cents(self) -> float:
        """What is expected of it, before the hours."""
        return self.chance * mean(self.brings)


class Parted(NamedTuple):
    """A machine sold by part."""

    sales: tuple[Sale, ...]
    kept_on: tuple[str, ...]
    """Parts not worth their own hours."""
    scrap: Spread
    hours: Spread
    """All own hours of it."""
    odds: Odds
    """The credit, in cents."""

    @property
    def mean_cents(self) -> float:
        """What is expected of it, own hours paid."""
        return mean(self.odds)


def selling(setting: Setting) -> Selling:
    """What selling costs and brings. Raises InputError where the catalog's table is gone."""
    one = setting.library.record("rates", SELLING)
    if one is None or not isinstance(one.value, SellingRates):
        raise InputError("the catalog has no table of rates called 'selling'", "put back trade/rates.yaml")
    table, home = one.value, setting.home.rates
    return Selling(
        spread_of(home.selling_fee or table.fee),
        (home.discount_month or table.discount_month).value,
        spread_of(home.scrap_ton or table.scrap_ton),
        (home.sales_tax or table.sales_tax).value,
        spread_of(table.kept_back),
        spread_of(table.opened_brings),
    )


def parted(
    machine: Machine, taken: Collection[str], rates: Selling, own_hour: float, weight_kg: Spread | None = None
) -> Parted | None:
    """What a machine brings sold by part, without what sits in the seats ``taken``; None where the catalog says nothing."""
    left = machine.leftovers
    if left is None:
        return None
    sales: list[Sale] = []
    kept_on: list[Sale] = []
    for part in left.parts.values():
        if not part.seat or part.seat not in taken:
            sale = _sale(part, rates)
            worth = sale.mean_cents > mean(sale.hours) * own_hour
            (sales if worth else kept_on).append(sale)
    weight = weight_kg or spread_of(machine.weight)
    scrap = weight.times(rates.scrap_ton).times((left.scrap or 0.0) / TON_KG)
    hours = total((spread_of(left.hours), *(sale.hours for sale in sales)))
    credits_ = (*(perhaps(sale.chance, sale.brings) for sale in sales), scrap, scaled(hours.times(own_hour), -1))
    return Parted(tuple(sales), tuple(sale.title for sale in kept_on), scrap, hours, AllOf(credits_))


def _sale(part: LeftPart, rates: Selling) -> Sale:
    """A part: dear and soon with little fee at one end, cheap and late with much at the other."""
    fee = spread_of(part.fee) if part.fee else rates.fee
    days = spread_of(part.months)
    months = Spread(*(each / MONTH_DAYS for each in days))
    worth = [(1 + rates.discount_month) ** -each for each in months]
    price = spread_of(part.price)
    brings = Spread(
        price.low * (1 - fee.high) * worth[2], price.likely * (1 - fee.likely) * worth[1], price.high * (1 - fee.low) * worth[0]
    )
    return Sale(part.title, brings, part.chance, months, spread_of(part.hours))


def leftovers_line(found: Parted | None) -> Line | None:
    """The credit as a line of a bill, below nothing; None where it is not known, or not worth the hours."""
    if found is None or found.mean_cents <= 0:
        return None
    cost = scaled(found.odds, -1)
    may_be = what_to_expect(cost)
    months = max((sale.months.high for sale in found.sales), default=0.0)
    words = (
        f"{len(found.sales)} parts sold by chance over up to {months:.0f} months, scrap, less {found.hours.likely:.0f} own hours"
    )
    return Line(LEFTOVERS, Spread(may_be.low, may_be.middle, may_be.high), words, may_be.mean, cost)
