"""Bolt circles from a tape: the factors of a printed trade page, a worked example, and every housing and flywheel size."""

import math
import re

import pytest

from interchange.catalog.geometry import holes_of
from interchange.errors import InputError
from interchange.fit.chord import ADJACENT, SKIP_ONE, chord_factor, chord_mm, circle_from_chord, farthest
from interchange.guide.pages import page

IN = 25.4
TAPE_MM = IN / 16

# What a chord is multiplied by, as a trade's table gives it to four decimals; it is 1 / sin(180° × steps / holes), computed.
FACTORS = [
    (3, 1.1547, None, 1.1547),
    (4, 1.4142, 1.0, 1.0),
    (5, 1.7013, 1.0515, 1.0515),
    (6, 2.0, 1.1547, 1.0),
    (8, 2.6131, 1.4142, 1.0),
    (10, 3.2361, 1.7013, 1.0),
    (12, 3.8637, 2.0, 1.0),
    (16, 5.1258, 2.6131, 1.0),
]


@pytest.mark.parametrize(("holes", "adjacent", "skip_one", "opposite"), FACTORS)
def test_factors(holes, adjacent, skip_one, opposite) -> None:
    assert chord_factor(holes) == pytest.approx(adjacent, abs=5e-5)
    assert chord_factor(holes, farthest(holes)) == pytest.approx(opposite, abs=5e-5)
    if skip_one is None:
        with pytest.raises(InputError, match="no two of 3 holes are 2 steps apart"):
            chord_factor(holes, SKIP_ONE)
    else:
        assert chord_factor(holes, SKIP_ONE) == pytest.approx(skip_one, abs=5e-5)


def test_two_holes_are_a_circle_apart() -> None:
    assert chord_factor(2) == pytest.approx(1.0)
    assert chord_mm(106.375, 2) == pytest.approx(106.375)


def sizes(patterns):
    return {id_: one for id_, one in patterns.items() if id_.startswith(("sae-j617-", "sae-j620-"))}


# Adjacent chord of each size in inches, circle × sin(180° / holes), worked with four-figure sines (0.1951 for 16 holes, 0.2588
# for 12, 0.3827 for 8, 0.5 for 6) from the printed circles: Wichita Clutch P-1100-WC p. 148 and the J620 distributor's sheet.
ADJACENT_IN = {
    "sae-j617-00": 6.536, "sae-j617-0": 5.219, "sae-j617-1-2": 6.308, "sae-j617-1": 5.402, "sae-j617-2": 4.755,
    "sae-j617-3": 4.367, "sae-j617-4": 3.882, "sae-j617-5": 5.023, "sae-j617-6": 4.305, "sae-j620-6-1-2": 3.9375,
    "sae-j620-7-1-2": 3.349, "sae-j620-8": 4.8125, "sae-j620-10": 4.449, "sae-j620-11-1-2": 5.023,
    "sae-j620-14": 6.602, "sae-j620-16": 7.367, "sae-j620-18": 10.6875,
}  # fmt: skip


@pytest.mark.parametrize(("id_", "inch"), ADJACENT_IN.items(), ids=ADJACENT_IN)
def test_adjacent_chord_of_every_size(patterns, id_, inch) -> None:
    one = patterns[id_]
    assert chord_mm(one.circle.value, one.holes) / IN == pytest.approx(inch, abs=0.002)


def test_every_size_is_in_the_table_and_comes_back_from_its_chords(patterns) -> None:
    assert set(sizes(patterns)) == set(ADJACENT_IN)
    for one in sizes(patterns).values():
        holes = holes_of(one)
        for apart in range(ADJACENT, farthest(one.holes) + 1):
            laid_out = math.dist(holes[0][:2], holes[apart][:2])
            assert chord_mm(one.circle.value, one.holes, apart) == pytest.approx(laid_out)
            assert circle_from_chord(laid_out, one.holes, apart).circle_mm == pytest.approx(one.circle.value)


def test_worked_example_of_a_number_3() -> None:
    """Worked by hand: 12 holes, 4-3/8 in edge to same edge, 16-7/8 in across; the No. 3 circle is 16.875 in (Wichita p. 148)."""
    near = circle_from_chord(4.375 * IN, 12, ADJACENT, TAPE_MM)
    across = circle_from_chord(16.875 * IN, 12, farthest(12), TAPE_MM)
    assert near.circle_mm / IN == pytest.approx(16.90, abs=0.005)
    assert near.tolerance_mm / IN == pytest.approx(0.24, abs=0.005)
    assert across.circle_mm / IN == pytest.approx(16.875)
    assert across.tolerance_mm == pytest.approx(TAPE_MM)
    assert abs(near.circle_mm - across.circle_mm) < near.tolerance_mm


def test_number_3_and_number_6_differ_by_a_sixteenth_between_neighbours(patterns) -> None:
    three, six = patterns["sae-j617-3"], patterns["sae-j617-6"]
    apart_mm = chord_mm(three.circle.value, three.holes) - chord_mm(six.circle.value, six.holes)
    assert apart_mm == pytest.approx(1.6, abs=0.05)
    assert (three.holes, six.holes) == (12, 8)


def test_error_is_unknown_where_the_chord_s_is() -> None:
    assert circle_from_chord(100.0, 6).tolerance_mm is None
    assert circle_from_chord(100.0, 6, tolerance_mm=0.0).tolerance_mm == 0


@pytest.mark.parametrize(
    ("chord", "holes", "apart", "words"),
    [
        pytest.param(100.0, 1, 1, "1 holes have no chord", id="one hole"),
        pytest.param(100.0, 8, 5, "no two of 8 holes are 5 steps apart", id="the long way round"),
        pytest.param(100.0, 8, 0, "0 steps apart", id="itself"),
        pytest.param(0.0, 8, 1, "is no distance", id="no chord"),
        pytest.param(-4.0, 8, 1, "is no distance", id="negative"),
    ],
)
def test_wrong_calls(chord, holes, apart, words) -> None:
    with pytest.raises(InputError, match=words):
        circle_from_chord(chord, holes, apart)


def test_the_manuals_table_of_housings(patterns) -> None:
    """The page on measuring against the catalog's SAE J617 (its sources stand there) and the factors above."""
    rows = re.findall(r"^\| ([0-9/]+) \| (\d+) \| ([\d. |]+) \|$", page("measuring").text, re.MULTILINE)
    assert len(rows) == 9
    for size, holes, figures in rows:
        one = patterns[f"sae-j617-{size.replace('/', '-')}"]
        circle, around = one.circle.value, int(holes)
        expected = (circle, circle / chord_factor(around), circle / chord_factor(around, SKIP_ONE), one.pilot.bore.low)
        assert one.holes == around
        assert [float(figure) * IN for figure in figures.split(" | ")] == pytest.approx(expected, abs=0.0051 * IN), size
