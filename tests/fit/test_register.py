import dataclasses
import re

import pytest
from hypothesis import given
from hypothesis import strategies as st

from interchange.catalog.figure import Figure, Origin
from interchange.catalog.model import Register
from interchange.fit.finding import AGREES, DIFFERS, NOT_KNOWN
from interchange.fit.register import compare_registers, diameter
from interchange.quantity import read_quantity


def length(text, read=""):
    return Figure(quantity=read_quantity(text, "length"), origin=Origin(read=read))


def bore(text, read=""):
    return Register(bore=length(text, read))


def spigot(text, read=""):
    return Register(spigot=length(text, read))


@pytest.mark.parametrize(
    ("a", "b", "state"),
    [
        pytest.param(bore("100 mm"), spigot("100 mm"), AGREES, id="no play"),
        pytest.param(bore("100 mm"), spigot("99.75 mm"), AGREES, id="play of just the limit"),
        pytest.param(bore("100 mm"), spigot("99.74 mm"), DIFFERS, id="play just over the limit"),
        pytest.param(bore("100 mm"), spigot("100.01 mm"), DIFFERS, id="spigot larger than the bore"),
        pytest.param(
            bore("100 mm", "caliper"), spigot("100.2 mm", "caliper"), AGREES, id="larger by less than two calipers may be off"
        ),
        pytest.param(bore("100 mm", "caliper"), spigot("100.3 mm", "caliper"), DIFFERS, id="larger by more"),
        pytest.param(bore("100 mm", "caliper"), spigot("99.5 mm", "caliper"), AGREES, id="play within the limit at the best"),
        pytest.param(bore("100 mm", "caliper"), spigot("99.4 mm", "caliper"), DIFFERS, id="play beyond it at the best"),
        pytest.param(bore("100 mm"), bore("100.25 mm"), AGREES, id="two bores of one standard"),
        pytest.param(bore("100 mm"), bore("100.26 mm"), DIFFERS, id="two bores too far apart"),
        pytest.param(spigot("100 mm"), spigot("100.25 mm"), AGREES, id="two spigots of one standard"),
        pytest.param(spigot("100 mm"), spigot("100.26 mm"), DIFFERS, id="two spigots too far apart"),
        pytest.param(bore("16.125-16.130 in"), spigot("16.120-16.123 in"), AGREES, id="ranges, as a standard prints them"),
        pytest.param(bore("16.125-16.130 in"), spigot("16.131-16.133 in"), DIFFERS, id="ranges that do not meet"),
        pytest.param(None, spigot("100 mm"), NOT_KNOWN, id="none written on one side"),
        pytest.param(None, None, NOT_KNOWN, id="none on either"),
        pytest.param(Register(), spigot("100 mm"), NOT_KNOWN, id="one without a size"),
    ],
)
def test_registers(a, b, state):
    assert compare_registers(a, b, 0.25).state == state
    assert compare_registers(b, a, 0.25).state == state


def test_a_joint_without_a_limit_asks_for_no_register():
    assert compare_registers(bore("100 mm"), spigot("50 mm"), None).state == NOT_KNOWN


def test_words():
    larger = compare_registers(bore("100 mm"), spigot("102 mm"), 0.25).text
    assert larger.startswith("the 102 mm")
    assert "spigot is larger than the 100 mm" in larger
    assert "3.00 mm play" in compare_registers(bore("100 mm"), spigot("97 mm"), 0.25).text
    assert compare_registers(bore("100 mm", "caliper"), spigot("99.8 mm"), 0.25).caveat == "the play may be as much as 0.33 mm"
    assert "reads 0.20 mm larger" in compare_registers(bore("100 mm", "caliper"), spigot("100.2 mm", "caliper"), 0.25).caveat


def made(register, fit):
    return dataclasses.replace(register, fit=Figure(word=fit))


@pytest.mark.parametrize(
    ("hole", "shaft", "limit_mm", "state", "says", "caveat"),
    [
        pytest.param("H7", "g6", 0.1, AGREES, "H7/g6, 0.012-0.069 mm clearance", "", id="always play"),
        pytest.param("H7", "g6", 0.0685, AGREES, "H7/g6", "as much as 0.07 mm", id="the most play is over the limit"),
        pytest.param("H7", "g6", 0.0115, DIFFERS, "does not locate", "", id="even the least is over it"),
        pytest.param("H7", "h6", 0.1, AGREES, "0.000-0.057 mm clearance", "", id="from none"),
        pytest.param("H7", "h6", 0.057, AGREES, "H7/h6", "", id="just the most play"),
        pytest.param("H7", "h6", 0.056, AGREES, "H7/h6", "as much as 0.06 mm", id="a micrometre more than it"),
    ],
)
def test_clearance_of_two_classes_at_100_mm(hole, shaft, limit_mm, state, says, caveat):
    """H7 is 0 to 35 µm over 100 mm, g6 12 to 34 under it, h6 0 to 22 under it."""
    pair = made(bore("100 mm"), hole), made(spigot("100 mm"), shaft)
    for found in (compare_registers(*pair, limit_mm), compare_registers(*reversed(pair), limit_mm)):
        assert found.state == state
        assert says in found.text
        assert caveat in found.caveat
        assert bool(found.caveat) == bool(caveat)


def test_interference_is_said():
    """At 60 mm: H7 0 to 30 µm over, k6 2 to 21 over, p6 32 to 51 over."""
    at_times = compare_registers(made(bore("60 mm"), "H7"), made(spigot("60 mm"), "k6"), 0.1)
    assert (at_times.state, "0.021 mm interference to 0.028 mm clearance" in at_times.text) == (AGREES, True)
    assert at_times.caveat == "the spigot may be as much as 0.021 mm larger than the bore"
    always = compare_registers(made(bore("60 mm"), "H7"), made(spigot("60 mm"), "p6"), 0.1)
    assert (always.state, "by 0.002 to 0.051 mm" in always.text) == (DIFFERS, True)


@pytest.mark.parametrize(
    "shaft",
    [
        pytest.param(made(spigot("100 mm"), "f7"), id="a class of one worked example"),
        pytest.param(made(spigot("100 mm"), "p6"), id="p over 80 mm: one source"),
        pytest.param(made(spigot("100 mm"), "H7"), id="a hole's class"),
        pytest.param(made(spigot("100 mm"), "snug"), id="no class"),
        pytest.param(
            dataclasses.replace(spigot("100 mm"), fit=Figure(word="g6", others=(Figure(word="h6"),))), id="sources differ"
        ),
    ],
)
def test_a_class_without_limits_is_not_known(shaft):
    assert compare_registers(bore("100 mm"), shaft, 0.25).state == NOT_KNOWN
    assert compare_registers(shaft, bore("100 mm"), 0.25).state == NOT_KNOWN


def test_a_class_against_a_reading_counts_both():
    """99.97 mm by caliper, good to 0.127 mm, in 100 H7: from 0.097 mm too large to 0.192 mm of play."""
    found = compare_registers(made(bore("100 mm"), "H7"), spigot("99.97 mm", "caliper"), 0.1)
    assert (found.state, "0.097 mm interference to 0.192 mm clearance" in found.text) == (AGREES, True)
    assert "as much as 0.19 mm" in found.caveat


def test_limits_that_are_written_give_a_clearance_too():
    found = compare_registers(bore("16.125-16.130 in"), spigot("16.120-16.123 in"), 0.3)
    assert "0.051-0.254 mm clearance" in found.text
    assert "clearance" not in compare_registers(bore("100 mm"), spigot("99.9 mm"), 0.3).text
    by_caliper = compare_registers(bore("16.125-16.130 in"), spigot("16.120 in", "caliper"), 0.3)
    assert ("clearance" in by_caliper.text, by_caliper.caveat) == (False, "the play may be as much as 0.38 mm")


CLASSES = st.sampled_from(["", "H6", "H7", "H8", "G7", "h6", "h7", "g6", "g7", "js6", "k6", "p6", "f7"])
READ = st.sampled_from(["", "caliper", "tape", "handbook"])


@st.composite
def registers(draw):
    size, read, fit = draw(st.integers(700, 800)) / 10, draw(READ), draw(CLASSES)
    plain = (bore if draw(st.booleans()) else spigot)(f"{size} mm", read)
    return made(plain, fit) if fit else plain


@given(registers(), registers(), st.sampled_from([0.0, 0.05, 0.25, 2.0]))
def test_either_way_round_is_one_answer(a, b, limit_mm):
    assert compare_registers(a, b, limit_mm).state == compare_registers(b, a, limit_mm).state


@given(registers())
def test_limits_are_in_order_about_a_size(register):
    figure = register.bore or register.spigot
    found = diameter(register, figure)
    assert found.low <= found.high
    assert figure.low - 0.2 < found.low
    assert found.high < figure.high + 0.2


@given(registers(), registers())
def test_the_clearance_said_runs_from_least_to_most(a, b):
    text = compare_registers(a, b, 2.0).text
    if match := re.search(r"([0-9.]+)-([0-9.]+) mm clearance", text):
        assert 0 <= float(match[1]) <= float(match[2])
