"""The distribution of an amount, held against hand sums and against simulation of the same tree."""

import math
import random
from statistics import fmean

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from interchange.money.odds import AllOf, Cuts, Law, OneOf, long_tailed, mean, perhaps, scaled, what_to_expect
from interchange.money.shape import triangle
from interchange.spread import Spread, exactly

DECILES = (0.1, 0.5, 0.9)


def draw(odds, dice):
    """One outcome, drawn straight from what the tree says."""
    if isinstance(odds, Spread):
        least, peak, most = triangle(odds)
        return dice.triangular(least, most, peak) if most > least else peak
    if isinstance(odds, Cuts):
        place = dice.randrange(len(odds.at) - 1)
        return dice.uniform(odds.at[place], odds.at[place + 1])
    if isinstance(odds, AllOf):
        return sum(draw(part, dice) for part in odds.parts)
    left = dice.random()
    for chance, part in odds.branches:
        left -= chance
        if left < 0:
            return draw(part, dice)
    return draw(odds.branches[-1][1], dice)


SURE_TRY = AllOf((Spread(1500, 1800, 2000), Spread(180, 220, 400), Spread(500, 700, 1400), exactly(250)))
RESCUE = AllOf((Spread(1000, 2000, 3500), Spread(600, 900, 1500)))
CASES = [
    pytest.param(Spread(100, 150, 400), id="one line"),
    pytest.param(SURE_TRY, id="lines drawn apart"),
    pytest.param(AllOf((SURE_TRY, perhaps(0.35, RESCUE))), id="good or bad"),
    pytest.param(AllOf((SURE_TRY, perhaps(0.35, RESCUE), perhaps(0.1, SURE_TRY))), id="goes in or not"),
    pytest.param(AllOf((Spread(90, 100, 110), perhaps(0.5, Spread(4000, 5000, 9000)))), id="narrow or far off"),
    pytest.param(OneOf(((0.6, Spread(1, 2, 4)), (0.4, AllOf((Spread(3, 5, 6), Spread(0, 1, 1)))))), id="forms"),
    pytest.param(AllOf((long_tailed(Spread(42, 84, 168)), Spread(10, 20, 60))), id="long tail"),
    pytest.param(AllOf((SURE_TRY, *(scaled(perhaps(0.7, Spread(a, 2 * a, 3 * a)), -1) for a in (50, 200, 400)))), id="credits"),
]


def shares_at(odds, draws, seed):
    """The part of so many draws at or below the stated P10, P50 and P90."""
    dice = random.Random(seed)  # noqa: S311 - the same draws every time
    found = what_to_expect(odds)
    outcomes = [draw(odds, dice) for _ in range(draws)]
    return [sum(one <= at for one in outcomes) / draws for at in found[1:]], outcomes


@pytest.mark.parametrize("odds", CASES)
def test_simulation_agrees(odds):
    shares, outcomes = shares_at(odds, 40_000, 11)
    assert shares == pytest.approx(DECILES, abs=0.012)  # five standard errors of 40,000 draws, and 0.003
    spread = math.sqrt(fmean((one - mean(odds)) ** 2 for one in outcomes) / len(outcomes))
    assert fmean(outcomes) == pytest.approx(mean(odds), abs=5 * spread)


@pytest.mark.long
@pytest.mark.parametrize("odds", CASES)
def test_a_million_draws_agree_within_half_a_percent(odds):
    shares, _ = shares_at(odds, 1_000_000, 12)
    assert shares == pytest.approx(DECILES, abs=0.005)


@pytest.mark.parametrize("spread", [Spread(100, 150, 400), Spread(100, 100, 300), Spread(-300, -100, -100)])
def test_one_line_has_its_own_ends(spread):
    found = what_to_expect(spread)
    reach = spread.high - spread.low
    assert found.low == pytest.approx(spread.low, abs=0.003 * reach)
    assert found.high == pytest.approx(spread.high, abs=0.003 * reach)


def test_two_even_chances_by_hand():
    # Half nothing, half a triangle from 0 to 2 about 1: P(X <= x) = 1/2 + x²/4 up to 1; so P50 is 0 and the 3/4 mark is 1.
    even = Spread(math.sqrt(0.2), 1, 2 - math.sqrt(0.2))
    law = Law(perhaps(0.5, even))
    assert law.chance_below(1) == pytest.approx(0.75, abs=0.002)
    assert law.quantile(0.9) == pytest.approx(2 - math.sqrt(0.4), abs=0.01)  # (2 - x)²/4 = 0.1
    assert law.mean == pytest.approx(0.5)


def test_a_sure_amount_is_itself():
    assert what_to_expect(AllOf((exactly(5), exactly(7)))) == (12, 12, 12, 12)
    assert perhaps(1, exactly(5)) == exactly(5)
    assert mean(perhaps(0, exactly(5))) == 0


@pytest.mark.parametrize(("low", "high"), [(42, 168), (10, 400), (99, 101)])
def test_a_long_tail_has_its_deciles_and_the_mean_of_its_formula(low, high):
    # ln has mean (ln low + ln high) / 2 and sigma (ln high - ln low) / 2.5631; the mean is exp(mu + sigma² / 2).
    mu, sigma = math.log(low * high) / 2, math.log(high / low) / 2.5631031
    tail = long_tailed(Spread(low, (low + high) / 2, high))
    found = what_to_expect(tail)
    assert found.middle == pytest.approx(math.sqrt(low * high), rel=0.01)
    assert found.low == pytest.approx(low, rel=0.03)
    assert found.high == pytest.approx(high, rel=0.03)
    assert found.mean == pytest.approx(math.exp(mu + sigma * sigma / 2), rel=0.005)


amounts = st.floats(0, 1e6)
spreads = st.tuples(amounts, amounts, amounts).map(lambda ends: Spread(*sorted(ends)))
chances = st.floats(0, 1)
trees = st.recursive(
    spreads,
    lambda inner: (
        st.lists(inner, min_size=1, max_size=3).map(lambda parts: AllOf(tuple(parts)))
        | st.tuples(chances, inner, inner).map(lambda each: OneOf(((each[0], each[1]), (1 - each[0], each[2]))))
    ),
    max_leaves=6,
)


@given(trees, st.floats(-10, 10))
def test_means_scale(odds, by):
    assert mean(scaled(odds, by)) == pytest.approx(by * mean(odds), rel=1e-9, abs=1e-3)


@settings(max_examples=40, deadline=None)
@given(trees)
def test_deciles_are_in_order_and_within_what_can_be(odds):
    found = what_to_expect(odds)
    law = Law(odds)
    assert law.least - 1e-6 <= found.low <= found.middle <= found.high <= law.most + 1e-6
    assert found.mean == pytest.approx(mean(odds), rel=1e-9, abs=1e-6)


@settings(max_examples=25, deadline=None)
@given(trees, st.floats(-1e6, 1e6))
def test_a_sure_amount_more_moves_everything_by_it(odds, more):
    moved, stood = what_to_expect(AllOf((odds, exactly(more)))), what_to_expect(odds)
    near = 0.01 * (Law(odds).width + 1)
    assert list(moved) == pytest.approx([each + more for each in stood], abs=near)
