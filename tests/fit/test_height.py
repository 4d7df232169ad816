"""Ratings at a height."""

import dataclasses
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from interchange.catalog.check import SourceText, read_kinds
from interchange.catalog.figure import Figure, Origin
from interchange.errors import InputError
from interchange.fit.case import DONOR, MACHINE, OWN, Donor, Suppliers, figure_from
from interchange.fit.height import lowered, read_height
from interchange.fit.outlook import Outlook
from interchange.quantity import Quantity, read_rating

TRADE = Path(__file__).parents[2] / "catalog" / "trade"
RULE = read_kinds([SourceText("engine.yaml", (TRADE / "engine.yaml").read_text(encoding="utf-8"), 0)])["engine"].altitude


def hp(text, basis="measured", others=()):
    rating = read_rating(text, "power")
    speed = rating.speed.value if rating.speed else None
    return Figure(quantity=rating.amount._replace(text=text), speed_rpm=speed, origin=Origin(basis=basis), others=others)


def word(text, *others):
    return Figure(word=text, others=tuple(map(word, others)))


def feet(amount):
    return Figure(quantity=Quantity("length", amount * 304.8, None, None, None, f"{amount:,} ft"))


@pytest.mark.parametrize(
    ("height", "aspiration", "share"),
    [
        pytest.param(0, "natural", 1, id="at the sea"),
        pytest.param(500, "natural", 1, id="natural: just where it begins"),
        pytest.param(1500, "natural", 0.97, id="natural: 1000 ft above that"),
        pytest.param(5200, "natural", 0.859, id="natural: 5,200 ft"),
        pytest.param(3280, "turbo", 1, id="turbo: below 1000 m"),
        pytest.param(13123.36, "turbo", 1 - 0.0305 * 9.8425, id="turbo: 4000 m"),
        pytest.param(-200, "natural", 1, id="below the sea"),
    ],
)
def test_what_is_left(height, aspiration, share):
    made = lowered(RULE, feet(height), hp("62 hp @ 2200 rpm"), word(aspiration))
    assert made.value == pytest.approx(share * hp("62 hp").value)
    assert made.speed_rpm == 2200


def test_the_words_say_what_it_was():
    assert lowered(RULE, feet(5200), hp("62 hp @ 2200 rpm"), word("natural")).text == "53.3 hp at 5,200 ft (of 62 hp @ 2200 rpm)"


@given(power=st.floats(5, 500), aspiration=st.sampled_from(["natural", "turbo", "not told"]))
def test_at_the_sea_nothing_changes(power, aspiration):
    figure = Figure(quantity=Quantity("power", power, None, None, None, f"{power} kW"))
    assert lowered(RULE, feet(0), figure, None if aspiration == "not told" else word(aspiration)) is figure


@given(one=st.floats(0, 19_000), other=st.floats(0, 19_000), aspiration=st.sampled_from(["natural", "turbo"]))
def test_higher_is_never_more(one, other, aspiration):
    low, high = (lowered(RULE, feet(each), hp("62 hp"), word(aspiration)) for each in sorted((one, other)))
    assert high.value <= low.value + 1e-9


@pytest.mark.parametrize(
    "aspiration", [None, word("ram air"), word("natural", "ram air")], ids=["none", "no such", "one no such"]
)
def test_what_decides_it_is_not_known(aspiration):
    assert lowered(RULE, feet(5200), hp("62 hp"), aspiration) is None


def test_disputed_aspiration_gives_both():
    made = lowered(RULE, feet(5200), hp("62 hp"), word("natural", "turbo"))
    assert [round(one.value / hp("62 hp").value, 3) for one in made.readings] == [0.859, 0.941]


def test_disputed_ratings_are_each_lowered():
    made = lowered(RULE, feet(1500), hp("60 hp", others=(hp("70 hp"),)), word("natural"))
    assert [round(one.value / hp("1 hp").value, 2) for one in made.readings] == [58.2, 67.9]


def test_ranges_keep_their_ends():
    made = lowered(RULE, feet(1500), hp("60-70 hp"), word("natural"))
    assert (made.low, made.high) == pytest.approx((0.97 * hp("60 hp").value, 0.97 * hp("70 hp").value))


def test_the_rule_s_origin_is_in_the_figure_s():
    made = lowered(RULE, feet(5200), hp("62 hp"), word("turbo"))
    assert made.origin.basis == "judgement"
    assert "MSHA" in made.origin.source


@pytest.mark.parametrize("text", ["5,200 ft", "1585 m", "1 m", "20,000 ft"])
def test_heights_that_are_read(text):
    assert read_height(text).text == text


@pytest.mark.parametrize(
    ("text", "fault"),
    [
        pytest.param("5200", "is no height", id="no unit"),
        pytest.param("high", "is no height", id="no figure"),
        pytest.param("20,001 ft", "no machine works at", id="higher than any"),
    ],
)
def test_heights_that_are_not(text, fault):
    with pytest.raises(InputError, match=fault) as caught:
        read_height(text)
    assert caught.value.hint


@pytest.fixture
def tractor(hill_tractor):
    return hill_tractor.seat("engine")


def donor_of(seat, named):
    form = seat.forms(named)[0]
    return Donor(title=form.title, features=seat.features(form), offer=seat.offer("complete"))


def test_like_is_compared_with_like(tractor):
    """The seat's rating is of the engine it was built with, and loses by the dead unit's aspiration."""
    high = dataclasses.replace(tractor.case, height=feet(5200))
    donor = donor_of(tractor, "kestavik-k425")
    for path, source in (("seat.power", MACHINE), ("core.power", OWN), ("own.core.torque", OWN), ("core.power", DONOR)):
        before, after = figure_from(tractor.case, donor, path, source), figure_from(high, donor, path, source)
        aspiration = (donor.features if source == DONOR else high.own)["core.aspiration"].text
        assert after.value / before.value == pytest.approx({"natural": 0.859, "turbo": 1 - 0.0305 * 1.9191601}[aspiration])
    assert figure_from(high, donor, "core.weight", DONOR) == donor.features["core.weight"]


def test_a_donor_of_unknown_aspiration_is_not_known_and_it_is_said(tractor):
    donor = donor_of(tractor, "kestavik-k425")
    donor = dataclasses.replace(donor, features={path: one for path, one in donor.features.items() if path != "core.aspiration"})
    high = dataclasses.replace(tractor.case, height=feet(5200))
    suppliers = Suppliers(high, donor, {"core": DONOR})
    assert suppliers.figure("core.power") is None
    assert suppliers.height_caveat("core.power", "seat.power") == "at 5,200 ft it hangs on the aspiration, which is not known"
    assert suppliers.height_caveat("core.weight") == ""
    assert Suppliers(tractor.case, donor, {"core": DONOR}).height_caveat("core.power") == ""


def test_the_outlook_leaves_out_what_height_changes(tractor):
    connection = tractor.setting.library.connection
    asked = {each.dimension for each in Outlook(connection, tractor.case)._asked()}
    high = Outlook(connection, dataclasses.replace(tractor.case, height=feet(5200)))
    assert asked - {each.dimension for each in high._asked()} == {"power", "torque", "power_enough", "torque_enough"}
