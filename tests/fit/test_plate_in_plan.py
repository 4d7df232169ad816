"""What a plan makes of plates and coarse readings: a machine whose gearbox face the donor does not have."""

import dataclasses

import pytest

from interchange.catalog.figure import Figure, Origin
from interchange.catalog.model import FeatureType, Joint, Kind, Offer, Pattern, PlateLimits, Remedy, StackUp
from interchange.fit.case import Case, Chance, Donor
from interchange.fit.finding import BOLTS_UP, MACHINE_WORK, STOPS, UNSURE
from interchange.fit.plan import best_choice
from interchange.quantity import Quantity, read_quantity, read_thread


def mm(value, read=""):
    quantity = Quantity("length", value, None, None, None, f"{value:g} mm")
    return Figure(quantity=quantity, origin=Origin(read=read))


def between(low, high, dimension="length"):
    return Figure(quantity=Quantity(dimension, (low + high) / 2, low, high, None, f"{low}-{high}"))


def ring(name, diameter, holes=12, read="", first="0 deg"):
    angle = Figure(quantity=read_quantity(first, "angle")) if first else None
    thread = read_thread("M10x1.5")
    return Pattern(id=name, title=name, circle=mm(diameter, read), holes=holes, first_hole=angle, thread=thread)


PATTERNS = {
    each.id: each
    for each in (
        ring("bell", 430), ring("wide", 480), ring("near", 440), ring("taped", 431.5, read="tape"),
        ring("angle-unknown", 480, first=""),
    )
}  # fmt: skip
LIMITS = PlateLimits(material="steel", land=mm(6), edge=0.85, engagement=1.0, head=1.5, head_depth=1.0, floor=0.5)
PLATE = Remedy(
    id="plate", title="custom plate", money=between(400, 400, "money"), makes_thick=between(12, 40), plate=LIMITS
)  # fmt: skip
LENGTH, FACE = FeatureType("length"), FeatureType("pattern")
KIND = Kind(
    id="k",
    title="k",
    slots={"core": {"face": FACE, "deep": LENGTH}},
    seat={"face": FACE, "deep": LENGTH},
    joints={"gearbox": Joint(between=("core.face", "seat.face"), clearance=mm(0.8), remedies=("plate",))},
    stack_ups={"depth": StackUp(title="depth", sum=("+core.deep", "+gearbox.thick"), target="seat.deep", within=mm(2))},
)


def choice(face, deep=50.0, remedy=PLATE, wanted=70.0):
    case = Case(
        kind=KIND, seat={"seat.face": Figure(ref="bell"), "seat.deep": mm(wanted)}, own={}, usable=frozenset(),
        remedies={"plate": remedy}, pattern=PATTERNS.get, shaft=lambda _: None, own_hour_cents=0,
        hold_day_cents=0, lost_try_cents=80_000,
        chances={"gearbox": Chance(0.9, "of all such pairs")},
    )  # fmt: skip
    features = {"core.face": Figure(ref=face), "core.deep": mm(deep)}
    made = best_choice(case, Donor(title="", features=features, offer=Offer(has=("core",))))
    return made, made.taken["gearbox"], case


@pytest.mark.parametrize(
    ("face", "verdict", "thick", "says"),
    [
        pytest.param("bell", BOLTS_UP, (0, 0), "", id="it bolts up"),
        pytest.param("wide", MACHINE_WORK, (15, 40), "plate of steel, 15 to 40 mm thick", id="a plate carries both"),
        pytest.param(
            "near", STOPS, (0, 0), "no custom plate: hole 1 of near and hole 1 of bell run into each other", id="none can"
        ),
        pytest.param("angle-unknown", MACHINE_WORK, (12, 40), "where the holes of angle-unknown stand", id="not known"),
    ],
)
def test_a_plate_is_offered_where_it_can_be_made(face, verdict, thick, says):
    _, option, _ = choice(face)
    assert (option.verdict, option.thick_mm) == (verdict, pytest.approx(thick))
    assert says in option.finding.caveat


def test_a_plate_without_limits_is_offered_as_ever():
    _, option, _ = choice("near", remedy=dataclasses.replace(PLATE, plate=None))
    assert (option.verdict, option.thick_mm, option.finding.caveat) == (MACHINE_WORK, (12, 40), "")


@pytest.mark.parametrize(
    ("wanted", "stops"),
    [
        pytest.param(67.5, 0, id="15.5 to 19.5 mm of plate"),
        pytest.param(63.1, 0, id="up to 15.1 mm: just what the heads want"),
        pytest.param(62.9, 1, id="up to 14.9 mm: the heads want 15, though plates are made from 12"),
    ],
)
def test_stack_ups_close_within_what_the_bolts_want(wanted, stops):
    made, _, _ = choice("wide", wanted=wanted)
    assert made.stops == stops


def test_a_plate_is_designed_once_for_a_case(monkeypatch):
    made, _, case = choice("wide")
    calls = []
    monkeypatch.setattr("interchange.fit.factor.design_plate", lambda *args: calls.append(args))
    best_choice(case, Donor(title="", features={"core.face": Figure(ref="wide")}, offer=Offer(has=("core",))))
    assert (made.stops, calls, list(case.memory.designs)) == (0, [], [("plate", "gearbox", "wide", "bell")])


def test_coarse_readings_are_charged_by_what_they_leave_open():
    """Radii 0.75 mm apart, 0.4 mm of slack, sigma 0.397: the area from -2.897 to -0.882 sigma is 0.1870."""
    made, option, _ = choice("taped")
    assert option.verdict == UNSURE
    assert option.chance.value == pytest.approx(0.187, abs=0.002)
    assert option.chance.basis.startswith("by the reading: ±0.79 mm against 0.4 mm of play")
    assert option.charge_cents == pytest.approx((1 - option.chance.value) * 400)
    assert made.stops == 1  # its depth, without a plate, does not come out


def test_where_nothing_was_read_the_catalog_s_frequency_stands():
    _, option, _ = choice("nowhere")
    assert option.chance == Chance(0.9, "of all such pairs")
