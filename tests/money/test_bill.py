"""A bill worked by hand: every line from stated figures, in cents."""

import dataclasses

import pytest

from interchange.ads.fields import PriceRead, Span
from interchange.catalog.figure import Figure
from interchange.catalog.model import Kind, Offer, Work
from interchange.catalog.rates import WorkRates
from interchange.fit.case import Case, Chance, Effort
from interchange.fit.finding import BOLTS_UP, STOPS
from interchange.fit.report import ADAPTER, CARRIED, RENEW, WORK, Plan, Step
from interchange.money.bill import Bill, Line, Outcome, bill, price_line
from interchange.money.odds import what_to_expect
from interchange.quantity import read_quantity
from interchange.spread import NOTHING, Spread, exactly


def money(text, dimension="money"):
    return Figure(quantity=read_quantity(text, dimension))


RATES = WorkRates(
    own_hour=money("$40", "rate_hour"),
    hold_day=money("$10", "rate_day"),
    lost_try=money("$800", "money"),
    deal=0.9,
    deal_low=0.75,
    good_unit=0.35,
)
CASE = Case(
    kind=Kind(title="engine", slots={}, seat={}), seat={}, own={}, usable=frozenset(),
    pattern=lambda _: None, shaft=lambda _: None,
    own_hour_cents=4000, hold_day_cents=1000, lost_try_cents=80_000,
)  # fmt: skip


def asked(cents, terms=None, kind="asked", currency="USD"):
    return PriceRead(kind, cents, currency, terms, "as asked", Span(0, 8), 1.0)


def plan_of(*steps, verdict=BOLTS_UP, chance=1.0, charges=0.0):
    return Plan("donor", verdict, None, (), {}, steps, (), charges, 0.0, 0.0, Chance(chance, ""), (), (), (), (), ())


STEPS = (
    Step(CARRIED, "housing", Effort(hours=Spread(2, 3, 4)), ""),
    Step(ADAPTER, "ring", Effort(exactly(30000), exactly(1), Spread(7, 14, 21)), ""),
    Step(WORK, "flywheel drilled", Effort(Spread(10000, 20000, 30000), NOTHING, Spread(5, 10, 15)), ""),
    Step(RENEW, "seals", Effort(exactly(25000)), ""),
)


def lines_of(made):
    return {line.label: line.amount for line in made.lines}


def test_a_firm_price_is_exact_and_another_comes_down():
    assert price_line(asked(200000, "firm"), RATES).amount == exactly(200000)
    assert price_line(asked(200000, "obo"), RATES).amount == pytest.approx(Spread(150000, 180000, 200000))
    assert price_line(asked(200000), RATES).amount == pytest.approx(Spread(150000, 180000, 200000))


@pytest.mark.parametrize(
    "price",
    [
        pytest.param(asked(None, kind="call"), id="call"),
        pytest.param(asked(100, kind="placeholder"), id="placeholder"),
        pytest.param(asked(200000, currency="EUR"), id="other currency"),
    ],
)
def test_what_is_no_dollar_price_is_not_known(price):
    assert price_line(price, RATES) is None


def test_every_line_by_hand():
    price, haul = Line("price", exactly(200000), ""), Line("haul", exactly(50000), "")
    made = bill([Outcome(1.0, plan_of(*STEPS))], CASE, price, haul, money("10-20 h", "hours"), 0.6, "")
    lines = lines_of(made)
    assert lines["adapters and parts"] == exactly(30000)
    assert lines["machine work"] == Spread(10000, 20000, 30000)
    assert lines["renewed parts"] == exactly(25000)
    assert lines["own hours"] == Spread((2 + 1 + 10) * 4000, (3 + 1 + 15) * 4000, (4 + 1 + 20) * 4000)
    assert lines["waiting"] == Spread(7000, 14000, 21000)  # the longest wait, not the sum: 14 days at $10
    # lost with a chance of 0.4: price 2,000 + haul 500 + 15 h at 40
    assert lines["it may not be good"].likely == pytest.approx(0.4 * (200000 + 50000 + 15 * 4000))
    assert "it may not go in" not in lines
    assert made.total.likely == pytest.approx(sum(amount.likely for amount in lines.values()))
    assert made.complete


def test_a_unit_found_bad_comes_out_and_is_made_whole_as_a_core_is():
    work = Work(money=money("$1,000-3,000"), hours=money("20-40 h", "hours"), lead=money("10 days", "days"))
    kind = Kind(title="engine", slots={}, seat={}, offers={"core": Offer(has=(), work=work)})
    case = dataclasses.replace(CASE, kind=kind)
    price, haul = Line("price", exactly(200000), ""), Line("haul", exactly(50000), "")
    made = bill([Outcome(1.0, plan_of())], case, price, haul, money("10 h", "hours"), 0.25, "")
    # 0.75 of: 2,000 + 30 h at 40 + 10 days at 10 + 10 h at 40 to do it twice
    assert lines_of(made)["it may not be good"].likely == pytest.approx(0.75 * (200000 + 120000 + 10000 + 40000))
    assert "it may not be good" not in lines_of(bill([Outcome(1.0, plan_of())], case, price, haul, None, 1.0, ""))


def test_forms_are_averaged_and_a_stopped_one_is_a_risk():
    price, haul = Line("price", exactly(100000), ""), Line("haul", exactly(20000), "")
    fits = plan_of(Step(ADAPTER, "ring", Effort(exactly(40000)), ""))
    plain = plan_of()
    stopped = plan_of(verdict=STOPS, chance=0.0)
    outcomes = [Outcome(0.5, fits), Outcome(0.25, plain), Outcome(0.25, stopped)]
    made = bill(outcomes, CASE, price, haul, money("10 h", "hours"), 1.0, "")
    lines = lines_of(made)
    assert lines["adapters and parts"].likely == pytest.approx(40000 * 0.5 / 0.75)  # over the forms that go in
    assert lines["it may not go in"].likely == pytest.approx(0.25 * 120000)


def test_what_is_not_known_is_named_and_not_zero():
    made = bill([Outcome(1.0, plan_of())], CASE, None, None, None, 1.0, "")
    assert set(made.unknown) >= {"price", "haul"}
    assert not made.complete
    assert "price" not in lines_of(made)


def test_means_add():
    made = Bill((Line("a", Spread(100, 200, 300), ""), Line("b", exactly(50), "")), ())
    assert made.mean_cents == pytest.approx(250)


CORED = dataclasses.replace(
    CASE,
    kind=Kind(
        title="engine", slots={}, seat={},
        offers={"core": Offer(has=(), work=Work(
            money=money("$1,000-3,000"), hours=money("20-40 h", "hours"), lead=money("5-30 days", "days"))
        )},
    ),
)  # fmt: skip
PAID = (Line("price", Spread(150000, 180000, 200000), ""), Line("haul", Spread(20000, 25000, 60000), ""))
WILD = (
    Step(WORK, "drilled", Effort(Spread(1000, 1000, 90000), Spread(2, 2, 30), Spread(1, 2, 60)), ""),
    Step(ADAPTER, "ring", Effort(Spread(30000, 50000, 55000)), ""),
)


@pytest.mark.parametrize("case", [CASE, CORED], ids=["a lost try", "made whole inside"])
@pytest.mark.parametrize("good", [1.0, 0.6, 0.0])
@pytest.mark.parametrize("units", [1, 2])
def test_what_is_expected_is_the_mean_of_what_may_be(case, good, units):
    forms = [
        Outcome(0.5, plan_of(*STEPS, chance=0.8)._replace(charges_cents=9000, gambles=((0.3, 30000),))),
        Outcome(0.3, plan_of(*WILD, charges=5000)),
        Outcome(0.2, plan_of(verdict=STOPS, chance=0.0)),
    ]
    made = bill(forms, case, *PAID, money("10-20 h", "hours"), good, "", units)
    assert what_to_expect(made.odds).mean == pytest.approx(made.mean_cents, rel=1e-9)


def test_a_bad_unit_is_a_branch_and_not_an_average():
    """All else sure, one in five is bad: P50 is the price of a good one, P90 that of a bad one."""
    price, haul = Line("price", exactly(200000), ""), Line("haul", exactly(50000), "")
    made = bill([Outcome(1.0, plan_of())], CASE, price, haul, money("10 h", "hours"), 0.8, "")
    found = what_to_expect(made.odds)
    good = 200000 + 50000 + 40000
    lost = 250000 + 40000
    assert made.mean_cents == pytest.approx(good + 0.2 * lost)
    assert found.middle == pytest.approx(good, abs=0.02 * lost)
    assert found.high == pytest.approx(good + lost, abs=0.02 * lost)


def test_own_hours_and_waiting_of_a_rescue_hang_together_with_the_rest():
    """With the unit surely bad, hours are one draw of all of them: their P90 is the sum of their P90s."""
    made = bill([Outcome(1.0, plan_of())], CORED, None, None, money("10-20 h", "hours"), 0.0, "")
    shapes = [part for part in made.rest.parts[0].branches[0][1].parts[-1].branches[1][1].parts if isinstance(part, Spread)]
    assert Spread((20 + 20) * 4000, (30 + 30) * 4000, (40 + 40) * 4000) in shapes
