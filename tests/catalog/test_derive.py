"""What follows from other features, and what does not."""

import math
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from interchange.catalog.check import SourceText, read_catalog, read_kinds
from interchange.catalog.derive import MOST_COMBINED, derived, disagreements
from interchange.catalog.figure import Figure, Origin, Where
from interchange.catalog.model import Derived, Factor, FeatureType, Kind
from interchange.fit.engine_sums import pump_flow_l_min, pump_power_kw, pump_torque_nm
from interchange.quantity import Quantity, read_quantity

TRADE = Path(__file__).parents[2] / "catalog" / "trade"
PUMP = read_kinds([SourceText("pump.yaml", (TRADE / "pump.yaml").read_text(encoding="utf-8"), 0)])["pump"]


def figure(text, dimension, basis="measured", others=()):
    return Figure(quantity=read_quantity(text, dimension), origin=Origin(basis=basis), others=others)


def word(text, basis="measured", others=()):
    return Figure(word=text, origin=Origin(basis=basis), others=others)


def exactly(value, dimension):
    return Figure(quantity=Quantity(dimension, value, None, None, None, f"{value}"))


def kind(derive, **seat):
    types = {name: FeatureType(*type_) for name, type_ in seat.items()}
    return Kind(title="thing", slots={"core": types}, seat=types, derive=derive)


def flow(**more):
    return derived(PUMP, {f"core.{name}": one for name, one in more.items()}, "").get("core.flow")


def test_the_flow_of_a_pump():
    made = flow(displacement=figure("45 cc", "displacement"), speed=figure("1800 rpm", "speed"))
    assert made.value == pytest.approx(81)
    assert made.text == "81 L/min"
    assert made.origin.source == "follows from displacement 45 cc and speed 1800 rpm: without leakage"


@given(size=st.floats(1, 500), rpm=st.floats(100, 5000), kpa=st.floats(100, 40_000))
def test_products_are_the_sums_of_the_workshop(size, rpm, kpa):
    known = {
        "core.displacement": exactly(size, "displacement"), "core.speed": exactly(rpm, "speed"),
        "core.pressure": exactly(kpa, "pressure"),
    }  # fmt: skip
    made = derived(PUMP, known, "")
    assert made["core.flow"].value == pytest.approx(pump_flow_l_min(size, rpm))
    assert made["core.torque"].value == pytest.approx(pump_torque_nm(size, kpa, 0.85))
    asked = {path.replace("core", "seat"): one for path, one in known.items()}
    power = derived(PUMP, asked, "seat")["seat.power"].value
    assert power == pytest.approx(pump_power_kw(pump_flow_l_min(size, rpm), kpa, 0.85), rel=1e-5)
    torque = exactly(pump_torque_nm(size, kpa, 0.85), "torque")
    seat = derived(PUMP, {"seat.drive_torque": torque, "seat.pressure": exactly(kpa, "pressure")}, "seat")
    assert seat["seat.most_displacement"].value == pytest.approx(size)


@given(size=st.floats(1, 500), rpm=st.floats(100, 5000))
def test_displacement_and_flow_of_a_seat_follow_from_each_other(size, rpm):
    speed = {"seat.speed": exactly(rpm, "speed")}
    made = derived(PUMP, {**speed, "seat.displacement": exactly(size, "displacement")}, "seat")["seat.flow"]
    assert derived(PUMP, {**speed, "seat.flow": made}, "seat")["seat.displacement"].value == pytest.approx(size)


def test_ranges_are_carried_through():
    made = flow(displacement=figure("40-50 cc", "displacement"), speed=figure("1800-2000 rpm", "speed"))
    assert (made.low, made.high) == pytest.approx((72, 100))
    assert made.text == "72-100 L/min"


def test_a_divisor_turns_the_ends_of_its_range_over():
    known = {"seat.flow": figure("80-100 L/min", "flow"), "seat.speed": figure("2000-2500 rpm", "speed")}
    made = derived(PUMP, known, "seat")["seat.displacement"]
    assert (made.low, made.high) == pytest.approx((32, 50))


def test_nothing_is_divided_by_what_may_be_nothing():
    known = {"seat.flow": figure("80 L/min", "flow"), "seat.speed": figure("0 rpm", "speed")}
    assert "seat.displacement" not in derived(PUMP, known, "seat")


def test_tolerances_count_as_ranges():
    made = flow(displacement=figure("45 cc ±5 cc", "displacement"), speed=figure("2000 rpm", "speed"))
    assert (made.low, made.high) == pytest.approx((80, 100))


def test_where_sources_differ_so_does_what_follows():
    size = figure("40 cc", "displacement", others=(figure("50 cc", "displacement"),))
    made = flow(displacement=size, speed=figure("2000 rpm", "speed"))
    assert [one.value for one in made.readings] == pytest.approx([80, 100])
    assert "sources differ" in made.caveat


def test_sources_that_differ_in_what_does_not_matter_are_one():
    by = word("crank nose", others=(word("ring gear front"),))
    assert len(derived(PUMP, {"seat.driven_by": by}, "seat")["seat.stands"].readings) == 1


def test_too_many_disputed_figures_are_not_known():
    many = tuple(figure(f"{n} cc", "displacement") for n in range(1, MOST_COMBINED + 1))
    assert flow(displacement=many[0]._replace(others=many[1:]), speed=figure("2000 rpm", "speed"))
    assert not flow(displacement=many[0]._replace(others=many[1:]), speed=figure("1 rpm", "speed", others=(many[0],)))


@pytest.mark.parametrize(
    ("bases", "weakest"),
    [
        pytest.param(("measured", "said"), "said", id="the seller says one of them"),
        pytest.param(("memory", "published"), "memory", id="memory is weakest"),
        pytest.param(("published", "measured"), "measured", id="measured is weaker than published"),
        pytest.param(("", ""), "", id="none given"),
    ],
)
def test_the_weakest_basis_stays(bases, weakest):
    made = flow(displacement=figure("45 cc", "displacement", bases[0]), speed=figure("1800 rpm", "speed", bases[1]))
    assert made.origin.basis == weakest


def test_what_is_written_stands():
    known = {"core.displacement": figure("45 cc", "displacement"), "core.speed": figure("1800 rpm", "speed")}
    assert "core.flow" not in derived(PUMP, {**known, "core.flow": figure("70 L/min", "flow")}, "")


def test_nothing_follows_from_half_of_it():
    assert flow(displacement=figure("45 cc", "displacement")) is None
    assert derived(PUMP, {}, "") == {}


TABLE = Derived(of=("seat.a", "seat.b"), rows=(("x", "any", "left"), ("any", "1", "right"), ("any", "2", "left")))


@pytest.mark.parametrize(
    ("a", "b", "hand"),
    [
        pytest.param("x", None, "left", id="any holds for what is not known"),
        pytest.param("X", "1", "left", id="the first row that holds counts"),
        pytest.param("y", "1", "right", id="a later row"),
        pytest.param("y", "3", None, id="no row"),
        pytest.param("y", None, None, id="hangs on what is not known"),
        pytest.param(None, "1", None, id="an earlier row might hold, and says otherwise"),
        pytest.param(None, "2", "left", id="an earlier row might hold, and says the same"),
    ],
)
def test_a_table_of_words(a, b, hand):
    one = kind({"seat.hand": TABLE}, a=("word",), b=("count",), hand=("word",))
    known = {"seat.a": a and word(a), "seat.b": b and figure(b, "count")}
    made = derived(one, {path: value for path, value in known.items() if value}, "seat")
    assert (made["seat.hand"].word if made else None) == hand


def test_one_may_rest_on_another_in_any_order():
    half = Derived(times=("core.b",), factor=Factor(0.5), unit="mm")
    one = kind({"core.c": Derived(times=("core.a",), unit="mm"), "core.a": half}, a=("length",), b=("length",), c=("length",))
    made = derived(one, {"core.b": figure("10 mm", "length")}, "")
    assert {path: each.value for path, each in made.items()} == {"core.a": 5, "core.c": 5}


@pytest.mark.parametrize(
    ("stated", "told"),
    [
        pytest.param("81 L/min", False, id="the same"),
        pytest.param("85.0 L/min", False, id="nearly"),
        pytest.param("85.1 L/min", True, id="a twentieth off"),
        pytest.param("60-82 L/min", False, id="a range with it inside"),
    ],
)
def test_written_and_derived_disagree(stated, told):
    where = Where("pumps.yaml", 7, 13)
    known = {
        "core.displacement": figure("45 cc", "displacement"), "core.speed": figure("1800 rpm", "speed"),
        "core.flow": figure(stated, "flow")._replace(where=where),
    }  # fmt: skip
    found = list(disagreements(PUMP, known, "units p: "))
    assert [problem.slug for problem in found] == ["derived-disagrees"] * told
    if told:
        assert found[0].line == 7
        assert "core.flow is 85.1 L/min, but 81 L/min follows from displacement 45 cc and speed 1800 rpm" in found[0].text


def test_units_and_seats_have_what_follows():
    text = """\
units:
  p:
    kind: pump
    title: P
    origin: {basis: said}
    slots: {core: {displacement: 45 cc/rev}}
    variants:
      slow: {slots: {core: {speed: 1000 rpm}}}
      fast: {slots: {core: {speed: 2000 rpm}}}
      rated: {slots: {core: {speed: 2000 rpm, flow: 80 L/min}}}
machines:
  m:
    title: M
    seats: {pump: {kind: pump, needs: {driven_by: crank nose, engine_rotation: counter-clockwise}}}
"""
    kinds = SourceText("pump.yaml", (TRADE / "pump.yaml").read_text(encoding="utf-8"), 0)
    catalog = read_catalog([kinds, SourceText("mine.yaml", text, 1)])
    (told,) = [problem for problem in catalog.problems if problem.file == "mine.yaml"]
    assert (told.line, told.column, told.slug) == (10, 53, "derived-disagrees")
    assert told.text.startswith("units p: core.flow is 80 L/min, but 90 L/min follows from")
    forms = catalog.room("units")["p"].presented
    flows = {name: form.features["core.flow"] for name, form in forms.items()}
    assert {name: one.value for name, one in flows.items()} == pytest.approx({"slow": 45, "fast": 90, "rated": 80})
    assert flows["slow"].caveat == "the seller says"
    seat = catalog.room("machines")["m"].presented["pump"].features
    assert seat["seat.rotation"].word == "counter-clockwise"


def test_the_factor_of_torque_is_what_it_says():
    assert float(PUMP.derive["core.torque"].factor) == pytest.approx(1 / (2 * math.pi * 1000 * 0.85), rel=1e-8)
    assert float(PUMP.derive["seat.most_displacement"].factor) == pytest.approx(2 * math.pi * 1000 * 0.85, rel=1e-8)
