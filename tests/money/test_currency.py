"""A price asked in another currency, worked by hand at one's own rate."""

import pytest

from interchange.ads.fields import PriceRead, Span
from interchange.catalog.figure import Figure, Origin
from interchange.catalog.rates import WorkRates
from interchange.job.currency import Currencies
from interchange.money.bill import price_line
from interchange.money.currency import in_dollars, why_no_dollars
from interchange.quantity import read_quantity
from interchange.spread import Spread, exactly

BANK = Origin(source="my bank", on="2026-11-20")
RATES = Currencies(EUR=Figure(word="1.08"), SEK=Figure(word="0.0957", origin=BANK))
WORK = WorkRates(
    own_hour=Figure(quantity=read_quantity("$40", "rate_hour")),
    hold_day=Figure(quantity=read_quantity("$10", "rate_day")),
    lost_try=Figure(quantity=read_quantity("$800", "money")),
    deal=0.9,
    deal_low=0.75,
)


def price(cents=320_000, currency="EUR", kind="asked", terms="firm", text="EUR 3.200", cents_to=None):
    return PriceRead(kind, cents, currency, terms, text, Span(0, 9), 1.0, "", cents_to)


def test_a_firm_price_at_ones_own_rate():
    line = price_line(price(), WORK, RATES)
    assert line.amount == exactly(345_600)
    assert line.origin == "asked: EUR 3.200; at 1.08 dollars, your rate in home.yaml"


def test_a_price_that_comes_down_does_so_in_dollars():
    line = price_line(price(100_000, terms="obo", cents_to=120_000), WORK, RATES)
    assert line.amount == pytest.approx(Spread(0.75 * 129_600, 0.9 * 129_600, 129_600))
    assert "at 1.08 dollars, your rate in home.yaml; a deal at 90%" in line.origin


def test_a_rate_with_an_origin_names_it():
    line = price_line(price(2_500_000, "SEK", text="25 000 kr"), WORK, RATES)
    assert line.amount == exactly(239_250)
    assert line.origin == "asked: 25 000 kr; at 0.0957 dollars, your rate in home.yaml (my bank, 2026-11-20)"


@pytest.mark.parametrize(
    ("asked", "rates", "wants"),
    [
        pytest.param(price(currency="GBP"), RATES, "rates: {currency: {GBP: …}}", id="no rate for it"),
        pytest.param(price(), Currencies(), "rates: {currency: {EUR: …}}", id="no rates"),
        pytest.param(price(), None, "rates: {currency: {EUR: …}}", id="no rates given"),
        pytest.param(price(None, kind="call"), Currencies(), "", id="nothing asked"),
    ],
)
def test_without_a_rate_it_is_not_known_and_says_which_to_write(asked, rates, wants):
    assert price_line(asked, WORK, rates) is None
    assert why_no_dollars(asked, rates).endswith(wants)
    assert bool(why_no_dollars(asked, rates)) == bool(wants)


@pytest.mark.parametrize("currency", ["USD", None])
def test_dollars_are_left_alone(currency):
    asked = price(currency=currency)
    assert in_dollars(asked, RATES) == asked
    assert why_no_dollars(asked, RATES) == ""
    assert price_line(asked, WORK, RATES).amount == exactly(320_000)
