import random

import pytest
from hypothesis import given
from hypothesis import strategies as st

from interchange.money.shape import mean, triangle
from interchange.spread import Spread

SPREADS = [
    pytest.param(Spread(100, 150, 400), id="dear tail"),
    pytest.param(Spread(100, 200, 300), id="even"),
    pytest.param(Spread(100, 100, 300), id="low is likely"),
    pytest.param(Spread(100, 300, 300), id="high is likely"),
]


@pytest.mark.parametrize("spread", SPREADS)
def test_one_in_ten_falls_outside_either_end(spread):
    shape = triangle(spread)
    draw = random.Random(7)  # noqa: S311 - the same draws every time
    values = [draw.triangular(shape.least, shape.most, shape.peak) for _ in range(200_000)]
    assert sum(value < spread.low for value in values) / len(values) == pytest.approx(0.10, abs=0.005)
    assert sum(value < spread.high for value in values) / len(values) == pytest.approx(0.90, abs=0.005)
    assert mean(spread) == pytest.approx(sum(values) / len(values), rel=0.01)


def test_an_even_spread_has_its_mean_in_the_middle():
    # By hand: L = R, W = 2L, so l = L - sqrt(0.1 * 2L * L) = L (1 - sqrt(0.2)); with l = 100, L = 100 / (1 - 0.44721) = 180.90.
    shape = triangle(Spread(100, 200, 300))
    assert shape.least == pytest.approx(200 - 180.902, abs=0.001)
    assert shape.mean == pytest.approx(200)


def test_a_sure_amount_is_itself():
    assert mean(Spread(5, 5, 5)) == 5


@pytest.mark.parametrize("wrong", [Spread(2, 1, 3), Spread(1, 3, 2)])
def test_ends_out_of_order_are_a_wrong_call(wrong):
    with pytest.raises(ValueError, match="does not hold"):
        triangle(wrong)


amounts = st.floats(0, 1e7)


@given(amounts, amounts, amounts)
def test_the_triangle_holds_its_spread(one, two, three):
    spread = Spread(*sorted((one, two, three)))
    shape = triangle(spread)
    slack = 1e-6 * (spread.high - spread.low) + 1e-9
    assert shape.least <= spread.low + slack
    assert shape.most >= spread.high - slack
    assert shape.peak == spread.likely
    assert shape.least - slack <= shape.mean <= shape.most + slack


@given(amounts, amounts, amounts, st.floats(0, 1e6))
def test_the_mean_moves_with_the_spread(one, two, three, more):
    spread = Spread(*sorted((one, two, three)))
    moved = Spread(*(value + more for value in spread))
    assert mean(moved) == pytest.approx(mean(spread) + more, rel=1e-6, abs=1e-3)
