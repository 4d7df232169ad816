"""What another governed speed does to what the engine drives."""

from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from interchange.catalog.check import SourceText, read_catalog, read_kinds
from interchange.catalog.figure import Figure
from interchange.fit.proportion import moved, written_like
from interchange.quantity import Quantity, read_quantity

CATALOG = Path(__file__).parents[2] / "catalog"


def text_of(path):
    return SourceText(path.name, path.read_text(encoding="utf-8"), 0)


GOVERNED = read_kinds([text_of(CATALOG / "trade/engine.yaml")])["engine"].dimensions["governed"]


def figure(text, dimension, *others):
    return Figure(quantity=read_quantity(text, dimension), others=tuple(figure(each, dimension) for each in others))


def rpm(text, *others):
    return figure(text, "speed", *others)


MACHINE = {"seat.pto_speed": rpm("540 rpm"), "seat.pump_flow": figure("90 L/min", "flow")}


@pytest.mark.parametrize(
    ("give", "machine", "words"),
    [
        pytest.param("2266 rpm", MACHINE,
                     "PTO speed 556 rpm instead of 540 rpm; pump flow 92.7 L/min instead of 90 L/min", id="3 %"),
        pytest.param("2140 rpm", {"seat.pto_speed": rpm("1000 rpm")}, "PTO speed 973 rpm instead of 1000 rpm", id="slower"),
        pytest.param("2266 rpm", {}, "PTO speed and pump flow +3%, where there is any", id="neither is given"),
        pytest.param("2200 rpm", MACHINE, "", id="the same"),
        pytest.param("2210 rpm", MACHINE, "", id="not worth a word"),
        pytest.param("2212 rpm", MACHINE,
                     "PTO speed 543 rpm instead of 540 rpm; pump flow 90.5 L/min instead of 90 L/min", id="just"),
    ],
)  # fmt: skip
def test_what_moves(give, machine, words):
    assert moved(GOVERNED, rpm(give), rpm("2200 rpm"), machine.get) == words


def test_nothing_is_said_of_what_is_not_known_or_disputed():
    assert moved(GOVERNED, None, rpm("2200 rpm"), MACHINE.get) == ""
    assert moved(GOVERNED, rpm("2300 rpm"), None, MACHINE.get) == ""
    assert moved(GOVERNED, rpm("2300 rpm", "2400 rpm"), rpm("2200 rpm"), MACHINE.get) == ""
    assert moved(GOVERNED, rpm("2300 rpm"), rpm("0 rpm"), MACHINE.get) == ""


def test_a_machine_with_two_speeds_is_told_both():
    machine = {"seat.pto_speed": rpm("540 rpm", "1000 rpm")}
    words = moved(GOVERNED, rpm("2420 rpm"), rpm("2200 rpm"), machine.get)
    assert words == "PTO speed 594 rpm or 1,100 rpm instead of 540 rpm or 1000 rpm"


@pytest.mark.parametrize(
    ("text", "dimension", "shown"),
    [
        pytest.param("62 hp", "power", "62 hp", id="hp"),
        pytest.param("46 kW @ 2200 rpm", "power", "46 kW", id="a rating"),
        pytest.param("24 gpm", "flow", "24 gpm", id="gpm"),
        pytest.param("178 lb-ft", "torque", "178 lb-ft", id="lb-ft"),
        pytest.param("2,500 psi ±100 psi", "pressure", "2,500 psi", id="with a tolerance"),
        pytest.param("540-560 rpm", "speed", "550 rpm", id="a range"),
    ],
)
def test_written_like(text, dimension, shown):
    quantity = read_quantity(text.partition("@")[0], dimension)._replace(text=text)
    assert written_like(Figure(quantity=quantity), quantity.value) == shown


def test_a_unit_it_does_not_know_is_shown_the_usual_way():
    odd = Figure(quantity=Quantity("speed", 540, None, None, None, "five hundred and forty"))
    assert written_like(odd, 540) == "540 rpm"


@given(give=st.floats(500, 4000), need=st.floats(500, 4000))
def test_the_pto_goes_with_the_governor(give, need):
    def exact(value):
        return Figure(quantity=Quantity("speed", value, None, None, None, f"{value} rpm"))

    words = moved(GOVERNED, exact(give), exact(need), {"seat.pto_speed": rpm("540 rpm")}.get)
    if words:
        told = float(words.partition("PTO speed ")[2].partition(" rpm")[0].replace(",", ""))
        assert told == pytest.approx(540 * give / need, abs=0.51)
    else:
        assert give == pytest.approx(need, rel=0.005)


def test_the_demo_tractor_has_a_nominal_speed():
    """ISO 500's nominal speeds, as the standards have them."""
    shafts = read_catalog([text_of(CATALOG / "standards/pto-shafts.yaml")]).room("shafts")
    nominal = {one.value.speed.value for one in shafts.values()}
    assert nominal == {540, 1000, 1300}
    files = (*CATALOG.glob("trade/*.yaml"), CATALOG / "demo/catalog/machines.yaml")
    seats = read_catalog([text_of(path) for path in files]).room("machines")["pellworth-540"].presented
    assert seats["engine"].features["seat.pto_speed"].value in nominal
