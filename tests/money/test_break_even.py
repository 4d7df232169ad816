"""The break-even of a gamble, as worked on paper, and solving for a figure."""

import pytest

from interchange.money.break_even import break_even_chance, level_at


@pytest.mark.parametrize(
    ("rescue", "expected"),
    [
        # A safe long block at 5,200 against a used engine at 2,400 if good: (5,200 - 2,400) / 3,500.
        pytest.param(3500, 0.80, id="a rescue in money alone"),
        # The same where the rescue also costs 8 weeks at 40 a day: 2,800 / (3,500 + 56 * 40).
        pytest.param(3500 + 56 * 40, 0.49, id="with the weeks it takes"),
    ],
)
def test_how_likely_a_gamble_may_go_wrong(rescue, expected):
    assert break_even_chance(5200, 2400, rescue) == pytest.approx(expected, abs=0.005)


@pytest.mark.parametrize(
    ("cost", "target", "expected"),
    [
        pytest.param(lambda days: 100 + 12 * days, 160, 5, id="rising"),
        pytest.param(lambda days: 100 - 12 * days, 40, 5, id="falling"),
        pytest.param(lambda days: 100 + 12 * days, 90, None, id="never so cheap"),
        pytest.param(lambda days: 100 + 12 * days, 9000, None, id="never so dear"),
        pytest.param(lambda _: 100, 100, None, id="it does not matter"),
    ],
)
def test_where_it_is_level(cost, target, expected):
    found = level_at(cost, target, 0.0, 100.0)
    assert found == (None if expected is None else pytest.approx(expected))
