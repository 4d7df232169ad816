"""Ads by total and chance, drawn and in letters: every ad where it belongs, and none lost."""

import pytest

from interchange.sheets.drawing import MARKED, Circle, Words
from interchange.sheets.total_plot import HIGH_MM, WIDE_MM, Dot, in_letters, money_steps, plot

DOTS = [
    Dot("1", 0.0, 500_000, 400_000, 700_000),
    Dot("2", 0.5, 1_000_000, 900_000, 1_200_000, marked=True),
    Dot("3", 1.0, 0, 0, 100_000),
]


@pytest.mark.parametrize(
    ("cents", "steps"),
    [
        pytest.param(1_000_000, [0, 200_000, 400_000, 600_000, 800_000, 1_000_000], id="just reaches"),
        pytest.param(1_000_001, [0, 200_000, 400_000, 600_000, 800_000, 1_000_000, 1_200_000], id="just beyond"),
        pytest.param(1_200_001, [0, 500_000, 1_000_000, 1_500_000], id="next round step"),
        pytest.param(0, [0], id="nothing"),
    ],
)
def test_money_steps_are_round_and_reach_the_most(cents, steps):
    assert money_steps(cents) == steps


def test_a_dot_stands_at_its_chance_and_total():
    drawing = plot(DOTS)
    circles = {(round(c.x, 6), round(c.y, 6)): c for c in drawing.shapes if isinstance(c, Circle)}
    top = money_steps(1_200_000)[-1]
    assert set(circles) == {
        (0.0, round(HIGH_MM * 500_000 / top, 6)),
        (WIDE_MM / 2, round(HIGH_MM * 1_000_000 / top, 6)),
        (WIDE_MM, 0.0),
    }
    assert [c.layer for c in circles.values()].count(MARKED) == 1
    assert {"1", "2", "3"} <= {words.text for words in drawing.shapes if isinstance(words, Words)}


def test_in_letters_each_stands_in_its_row_and_column():
    lines = in_letters(DOTS, 41, 11)
    assert len(lines) == 13
    assert lines[0].index("2") - lines[0].index("│") == 21
    assert lines[5].index("1", lines[5].index("│")) - lines[5].index("│") == 1
    assert lines[10].index("3") - lines[10].index("│") == 41
    assert lines[0].startswith("$10,000 │")
    assert lines[10].startswith("     $0 │")
    assert lines[-1].split() == ["0%", "20%", "40%", "60%", "80%", "100%"]


def test_ads_at_one_place_stand_side_by_side_or_are_a_plus():
    """Four at one place: two have room, and what has none leaves a plus."""
    lines = in_letters([Dot(str(i), 0.5, 1_000_000, 0, 0) for i in range(1, 8)], 41, 11)
    row = lines[0].partition("│")[2]
    assert row.split()[0] in "1234567"
    assert len(row.split()) >= 3


def test_amounts_below_nothing_stand_on_the_floor():
    lines = in_letters([Dot("1", 0.5, -50_000, 0, 0), Dot("2", 0.5, 100_000, 0, 0)], 41, 11)
    assert "1" in lines[10].partition("│")[2]


def test_of_ads_that_all_cost_nothing_there_is_a_plot_too():
    assert in_letters([Dot("1", 0.5, 0, 0, 0)], 41, 5)
    assert plot([Dot("1", 0.5, 0, 0, 0)]).shapes
