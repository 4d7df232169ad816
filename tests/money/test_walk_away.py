"""The most to pay: at that price, paid as it stands, an ad is level with the next best way."""

import dataclasses

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from interchange.catalog.figure import Figure
from interchange.catalog.model import Kind, Offer, Work
from interchange.fit.case import Case, Chance, Effort
from interchange.fit.finding import BOLTS_UP
from interchange.fit.report import ADAPTER, Plan, Step
from interchange.money.bill import Bill, Line, Outcome, bill
from interchange.money.walk_away import Way, most_to_pay, walk_aways
from interchange.quantity import read_quantity
from interchange.spread import Spread, exactly


def figure(text, dimension="money"):
    return Figure(quantity=read_quantity(text, dimension))


LOST = Case(
    kind=Kind(title="engine", slots={}, seat={}), seat={}, own={}, usable=frozenset(), pattern=lambda _: None,
    shaft=lambda _: None,
    own_hour_cents=4000, hold_day_cents=1000, lost_try_cents=80_000,
)  # fmt: skip
CORE = Offer(has=(), work=Work(money=figure("$1,000-3,000"), hours=figure("20-40 h", "hours")))
MENDED = dataclasses.replace(LOST, kind=Kind(title="engine", slots={}, seat={}, offers={"core": CORE}))
RING = (Step(ADAPTER, "ring", Effort(Spread(10000, 30000, 40000), exactly(1), Spread(7, 14, 21)), ""),)


HAUL = exactly(30000)


def billed(price, goes_in, good, case, haul=HAUL):
    plan = Plan("donor", BOLTS_UP, None, (), {}, RING, (), 0.0, 0.0, 0.0, Chance(goes_in, ""), (), (), (), (), ())
    line = None if price is None else Line("price", price, "")
    return bill([Outcome(1.0, plan)], case, line, haul and Line("haul", haul, ""), figure("10-20 h", "hours"), good, "")


money = st.integers(0, 2_000_000)
shares = st.floats(0, 1)


@settings(max_examples=60, deadline=None)
@given(st.tuples(money, money, money), money, shares, shares, st.sampled_from([LOST, MENDED]))
def test_bought_at_the_walk_away_price_it_is_level_with_the_next_best_way(asked, others, goes_in, good, case):
    made = billed(Spread(*sorted(map(float, asked))), goes_in, good, case)
    most = most_to_pay(made, others)
    if most < 0:
        assert billed(exactly(0.0), goes_in, good, case).mean_cents >= others - 1e-6
    else:
        assert billed(exactly(most), goes_in, good, case).mean_cents == pytest.approx(others, rel=1e-9, abs=1e-3)


@settings(max_examples=40, deadline=None)
@given(money, money, shares, shares, st.sampled_from([LOST, MENDED]))
def test_a_cheaper_price_never_costs_more(one, other, goes_in, good, case):
    cheap, dear = (billed(exactly(float(price)), goes_in, good, case) for price in sorted((one, other)))
    assert cheap.mean_cents <= dear.mean_cents + 1e-6


def test_by_hand():
    # Price 500 and haul 1,000; the price counts 1.1 times, because one in ten does not go in.
    made = Bill((Line("price", exactly(50000), ""), Line("haul", exactly(105000), "")), (), None, 1.1)
    # without the price: 1,550 - 1.1 * 500 = 1,000; next best 2,100: (2,100 - 1,000) / 1.1 = 1,000
    assert most_to_pay(made, 210000) == pytest.approx(100000)


def test_a_price_not_asked_yet_has_a_most_to_pay_and_an_unknown_haul_none():
    assert most_to_pay(billed(None, 1.0, 1.0, LOST), 500_000) is not None
    assert most_to_pay(billed(exactly(1.0), 1.0, 1.0, LOST, haul=None), 500_000) is None


def test_the_best_is_weighed_against_the_second_and_all_others_against_the_best():
    ways = [Way("a", "A", 100.0), Way("b", "B", 150.0), Way("c", "C", 300.0)]
    bills = [(way.id, Bill((Line("price", exactly(way.mean_cents), ""),), ())) for way in ways]
    found = walk_aways(ways, bills)
    assert {id_: (each.cents, each.instead.id) for id_, each in found.items()} == {
        "a": (150, "b"),
        "b": (100, "a"),
        "c": (100, "a"),
    }
    assert walk_aways(ways[:1], bills[:1]) == {}
