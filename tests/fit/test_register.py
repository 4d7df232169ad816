import pytest

from interchange.catalog.figure import Figure, Origin
from interchange.catalog.model import Register
from interchange.fit.finding import AGREES, DIFFERS, NOT_KNOWN
from interchange.fit.register import compare_registers
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
