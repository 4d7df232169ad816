"""Ways out without a donor, worked by hand in cents."""

import dataclasses
import math

import pytest

from interchange.catalog.figure import Figure
from interchange.catalog.model import Kind, Offer, WayOut, Work
from interchange.fit.case import Case
from interchange.money.odds import mean, what_to_expect
from interchange.money.way_cost import shop_queue, way_cost
from interchange.quantity import read_quantity
from interchange.spread import Spread, exactly


def figure(text, dimension="money"):
    return Figure(quantity=read_quantity(text, dimension))


CORE = Offer(has=(), work=Work(money=figure("$2,000"), hours=figure("30 h", "hours"), lead=figure("20 days", "days")))
CASE = Case(
    kind=Kind(title="engine", slots={}, seat={}, offers={"core": CORE}), seat={}, own={}, usable=frozenset(),
    pattern=lambda _: None, shaft=lambda _: None, own_hour_cents=4000, hold_day_cents=1000, lost_try_cents=80_000,
)  # fmt: skip
PLAIN = dataclasses.replace(CASE, kind=Kind(title="pump", slots={}, seat={}))
SWAP = figure("20 h", "hours")
BLOCK = WayOut(
    title="long block", price=figure("$4,000"), money=figure("$300"), hours=figure("4 h", "hours"), swap=1.75,
    lead=figure("10 days", "days"), good=0.9,
)  # fmt: skip


def test_every_part_of_it_by_hand():
    made = way_cost(BLOCK, CASE, SWAP, None)
    if_good = 4000 + 300 + (4 + 35) * 40 + 10 * 10
    again = 2000 + (30 + 20) * 40 + 20 * 10  # made whole inside as a core, and out and in once more
    assert mean(made.if_good) == pytest.approx(100 * if_good)
    assert made.rescue_cents == pytest.approx(100 * again)
    assert mean(made.odds) == pytest.approx(100 * (if_good + 0.1 * again))
    assert what_to_expect(made.odds).middle == pytest.approx(100 * if_good, rel=0.01)


def test_a_price_of_the_unit_itself_goes_before_the_kinds():
    made = way_cost(BLOCK, CASE, SWAP, None, figure("$5,000"))
    assert made.cash == exactly(530000)


def test_a_kind_that_does_not_say_what_a_core_takes_has_it_done_again_and_a_rescue_goes_before_that():
    again = way_cost(BLOCK, PLAIN, SWAP, None)
    assert again.rescue_cents == pytest.approx(100 * (4300 + 39 * 40 + 100))
    other = way_cost(dataclasses.replace(BLOCK, rescue=Work(money=figure("$700"))), PLAIN, SWAP, None)
    assert other.rescue_cents == pytest.approx(100 * (700 + 20 * 40))


@pytest.mark.parametrize(("lost", "cost"), [(False, 0), (True, 60000)], ids=["comes back", "lost"])
def test_a_deposit_costs_only_where_the_old_one_is_not_taken(lost, cost):
    with_deposit = way_cost(BLOCK, CASE, SWAP, None, deposit=figure("$600"), deposit_lost=lost)
    assert with_deposit.deposit == 60000
    assert mean(with_deposit.odds) - mean(way_cost(BLOCK, CASE, SWAP, None).odds) == pytest.approx(cost)


def test_a_shop_lets_one_wait_with_a_long_tail():
    way = WayOut(title="rebuilt", money=figure("$1,000"), swap=1.0, shop=True, good=1.0)
    queue = shop_queue(figure("42-168 days", "days"))
    made = way_cost(way, CASE, SWAP, queue)
    mu, sigma = math.log(math.sqrt(42 * 168)), math.log(4) / 2.5631
    assert mean(made.days) == pytest.approx(math.exp(mu + sigma**2 / 2), rel=0.005)  # 97.3 days, and half are served in 84
    assert mean(made.odds) == pytest.approx(100 * (1000 + 20 * 40) + 1000 * mean(made.days))
    tail = what_to_expect(made.odds)
    assert tail.high - tail.middle > 1.5 * (tail.middle - tail.low)


@pytest.mark.parametrize(
    ("way", "swap", "queue"),
    [
        pytest.param(BLOCK, None, None, id="hours of the swap"),
        pytest.param(dataclasses.replace(BLOCK, shop=True), SWAP, None, id="the queue"),
    ],
)
def test_what_is_not_known_is_not_defaulted(way, swap, queue):
    assert way_cost(way, CASE, swap, queue) is None


def test_what_stays_in_asks_for_no_swap():
    assert way_cost(dataclasses.replace(BLOCK, swap=None), CASE, None, None).hours == Spread(4, 4, 4)
