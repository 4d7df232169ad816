"""The plates of a plan: how thick each has to be, and why none will do. A core, a plate, and a machine's gearbox face.

The faces are as far apart as 430 and 480 mm: bolts of 10 mm with a head of 10 and 5 under it, so a plate of 15 mm at the least.
"""

import math

import pytest

from interchange.catalog.figure import Figure, Origin
from interchange.catalog.model import FeatureType, Joint, Kind, Offer, Pattern, PlateLimits, Remedy, StackUp, Supply
from interchange.fit.case import Case, Donor
from interchange.fit.finding import UNSURE
from interchange.fit.plan import best_choice
from interchange.fit.plate_plan import plates_of
from interchange.fit.report import plan
from interchange.quantity import Quantity, read_quantity, read_thread


def mm(value, read=""):
    return Figure(quantity=Quantity("length", value, None, None, None, f"{value:g} mm"), origin=Origin(read=read))


def between(low, high, dimension="length"):
    return Figure(quantity=Quantity(dimension, (low + high) / 2, low, high, None, f"{low}-{high}"))


def ring(name, diameter):
    angle = Figure(quantity=read_quantity("0 deg", "angle"))
    return Pattern(id=name, title=name, circle=mm(diameter), holes=12, first_hole=angle, thread=read_thread("M10x1.5"))


PATTERNS = {each.id: each for each in (ring("bell", 430), ring("wide", 480))}
LIMITS = PlateLimits(material="steel", land=mm(6), edge=0.85, engagement=1.0, head=1.5, head_depth=1.0, floor=0.5)
PLATE = Remedy(id="plate", title="custom plate", money=between(400, 400, "money"), makes_thick=between(12, 40), plate=LIMITS)
PLAIN = Remedy(id="plain", title="plain plate", money=between(400, 400, "money"), makes_thick=between(6, 40))
SPACER = Remedy(id="spacer", title="spacer", money=between(900, 900, "money"))
LENGTH, FACE = FeatureType("length"), FeatureType("pattern")
DEPTH = StackUp(title="depth", sum=("+core.deep", "+gearbox.thick"), target="seat.deep", within=mm(2))
TIP = StackUp(title="tip", sum=("+seat.tip", "-core.bush", "-gearbox.thick"), at_least=mm(10))


def planned(face="wide", remedies=("plate",), stack_ups=None, seat=None, core=None):
    """(choice, plan) for a core of 50 mm where a machine wants 70, and a tip of 100 that must stand 10 in a bush at 66."""
    kind = Kind(
        id="k",
        title="k",
        slots={"core": {"face": FACE, "back": FACE, "deep": LENGTH, "bush": LENGTH}},
        seat={"face": FACE, "back": FACE, "deep": LENGTH, "tip": LENGTH},
        supply={"core": Supply(by=("donor",))},
        joints={
            "gearbox": Joint(between=("core.face", "seat.face"), clearance=mm(0.8), remedies=remedies),
            "rear": Joint(between=("core.back", "seat.back"), clearance=mm(0.8), remedies=("plain",)),
        },
        stack_ups=stack_ups or {"depth": DEPTH, "tip": TIP},
    )
    machine = {"seat.face": Figure(ref="bell"), "seat.back": Figure(ref="bell"), "seat.deep": mm(70), "seat.tip": mm(100)}
    has = {"core.face": Figure(ref=face), "core.back": Figure(ref="bell"), "core.deep": mm(50), "core.bush": mm(66)}
    case = Case(
        kind=kind,
        seat=known(machine | (seat or {})),
        own={},
        usable=frozenset(),
        remedies={each.id: each for each in (PLATE, PLAIN, SPACER)},
        pattern=PATTERNS.get,
        shaft=lambda _: None,
        own_hour_cents=0,
        hold_day_cents=0,
        lost_try_cents=80_000,
    )
    donor = Donor(title="", features=known(has | (core or {})), offer=Offer(has=("core",)))
    return best_choice(case, donor), plan(case, donor)


def known(features):
    return {path: figure for path, figure in features.items() if figure}


def test_what_a_plate_s_thickness_does_to_every_depth():
    """50 + P is 68 to 72: P is 18 to 22. 100 - 66 - P is at least 10: P is at most 24."""
    choice, made = planned()
    (plate,) = plates_of(choice)
    assert (plate.joint, plate.title) == ("gearbox", "custom plate")
    assert plate.design.startswith("plate of steel, 15 to 40 mm thick")
    assert [(each.title, each.slope, each.low_mm, each.high_mm) for each in plate.depth.windows] == [
        ("depth", 1.0, pytest.approx(18), pytest.approx(22)),
        ("tip", -1.0, -math.inf, pytest.approx(24)),
    ]
    assert (plate.depth.least_mm, plate.depth.most_mm, plate.depth.why) == (pytest.approx(18), pytest.approx(22), "")
    assert made.plates == (plate,)
    assert made.feasible


@pytest.mark.parametrize(
    ("changed", "least_mm", "why"),
    [
        pytest.param({"seat": {"seat.deep": mm(66)}}, 15, "", id="14 to 18 would do, and the bolts want 15"),
        pytest.param({"seat": {"seat.deep": mm(63)}}, 15, "", id="11 to 15: just"),
        pytest.param(
            {"seat": {"seat.deep": mm(62.9)}},
            None,
            "depth allows 14.9 mm at most, what the plate can be wants 15.0 mm at least",
            id="a tenth short of what the bolts want",
        ),
        pytest.param(
            {"seat": {"seat.deep": mm(93)}, "core": {"core.bush": mm(40)}},
            None,
            "what the plate can be allows 40.0 mm at most, depth wants 41.0 mm at least",
            id="thicker than plates are made",
        ),
        pytest.param(
            {"core": {"core.bush": mm(72.1)}},
            None,
            "tip allows 17.9 mm at most, depth wants 18.0 mm at least",
            id="the two shut it",
        ),
        pytest.param({"core": {"core.bush": mm(72)}}, 18, "", id="the two meet"),
        pytest.param(
            {"core": {"core.bush": None}},
            None,
            "tip: bush not known: do not order the plate yet",
            id="one term of the donor's not known",
        ),
        pytest.param(
            {"seat": {"seat.deep": None}},
            None,
            "depth: deep not known: do not order the plate yet",
            id="what it must come to not known",
        ),
    ],
)
def test_the_least_thickness_or_why_there_is_none(changed, least_mm, why):
    _, made = planned(**changed)
    (plate,) = made.plates
    assert (plate.depth.least_mm, plate.depth.why) == (least_mm if least_mm is None else pytest.approx(least_mm), why)
    assert bool(made.hold) == why.endswith("do not order the plate yet")


def test_a_plate_that_does_not_close_a_depth_is_told_though_a_spacer_mends_it():
    depth = StackUp(title="depth", sum=DEPTH.sum, target=DEPTH.target, within=DEPTH.within, remedies=("spacer",))
    _, made = planned(seat={"seat.deep": mm(60)}, stack_ups={"depth": depth, "tip": TIP})
    assert made.feasible
    assert [step.title for step in made.steps] == ["custom plate", "spacer"]
    assert [plate.depth.least_mm for plate in made.plates] == [None]


@pytest.mark.parametrize(
    "changed",
    [
        pytest.param({"face": "bell", "seat": {"seat.deep": mm(50)}}, id="it bolts up"),
        pytest.param({"core": {"core.face": None}, "seat": {"seat.deep": mm(50)}}, id="the face is not known"),
        pytest.param(
            {"stack_ups": {"face": StackUp(title="face", sum=("+core.deep",), at_least=mm(1))}}, id="it stands in no depth"
        ),
    ],
)
def test_no_plate_to_speak_of(changed):
    _, made = planned(**changed)
    assert made.plates == ()


def test_a_plate_that_keeps_to_no_limits_has_no_design_and_is_as_thin_as_it_is_made():
    _, made = planned(remedies=("plain",))
    (plate,) = made.plates
    assert (plate.title, plate.design, plate.depth.least_mm) == ("plain plate", "", pytest.approx(18))
    _, made = planned(remedies=("plain",), seat={"seat.deep": mm(57)})
    assert made.plates[0].depth.least_mm == pytest.approx(6)


def test_two_plates_in_one_depth_are_each_solved_with_the_other_as_thick_as_the_plan_has_it():
    """50 + P + R is 68 to 72 with two plates: whatever R is, P is 18 to 22 less that."""
    both = {
        "depth": StackUp(title="depth", sum=("+core.deep", "+gearbox.thick", "+rear.thick"), target="seat.deep", within=mm(2))
    }
    choice, made = planned(core={"core.back": Figure(ref="wide")}, stack_ups=both, seat={"seat.deep": mm(80)})
    thick = dict(choice.closings[0].plates)
    assert thick.keys() == {"gearbox", "rear"}
    assert 28 <= sum(thick.values()) <= 32
    for plate in made.plates:
        (window,) = plate.depth.windows
        other = thick["rear" if plate.joint == "gearbox" else "gearbox"]
        assert (window.low_mm, window.high_mm) == (pytest.approx(28 - other), pytest.approx(32 - other))
        assert plate.depth.least_mm <= thick[plate.joint] <= plate.depth.most_mm


def test_a_demo_engine_whose_depths_are_not_known_gets_no_thickness(hill_tractor):
    seat = hill_tractor.seat("engine")
    (form,) = seat.forms("tolvane-t412t")
    (plate,) = seat.plan(form).plates
    assert plate.depth.least_mm is None
    assert "flywheel thick not known" in plate.depth.why
    assert plate.depth.why.endswith("do not order the plate yet")


READ = {"core.deep": mm(50, "depth gauge"), "core.bush": mm(66, "depth gauge")}


def test_a_plate_by_hand_with_what_the_readings_are_off():
    """A depth gauge is good to 0.508 mm. Depth: 18.508 to 21.492 whatever they are off; tip: at most 24 - 0.508."""
    _, made = planned(core=READ)
    (plate,) = made.plates
    assert [each.tolerance_mm for each in plate.depth.windows] == pytest.approx([0.508, 0.508])
    assert (plate.depth.least_mm, plate.depth.most_mm) == (pytest.approx(18), pytest.approx(22))
    assert plate.depth.sure == (pytest.approx(18.508), pytest.approx(21.492))
    assert (made.hold, {closing.verdict for closing in made.closings} & {UNSURE}) == ((), set())


@pytest.mark.parametrize(
    ("lost", "title"),
    [
        pytest.param({"core": READ | {"core.deep": None}}, "depth", id="the donor's depth"),
        pytest.param({"core": READ | {"core.bush": None}}, "tip", id="the donor's bush"),
        pytest.param({"core": READ, "seat": {"seat.tip": None}}, "tip", id="the machine's tip"),
        pytest.param(
            {
                "core": READ | {"core.deep": mm(50, "tape"), "core.bush": mm(66, "tape")},
                "stack_ups": {"depth": StackUp(title="depth", sum=DEPTH.sum, target=DEPTH.target, within=mm(1.5)), "tip": TIP},
            },
            "depth",
            id="a tape is good to 1.59, and 1.5 is all it may be off",
        ),
    ],
)
def test_with_one_term_of_it_gone_it_is_not_known_and_no_plate_is_ordered(lost, title):
    _, made = planned(**lost)
    (plate,) = made.plates
    assert {closing.name for closing in made.closings if closing.verdict == UNSURE} == {title}
    assert made.hold == (title,)
    assert (plate.depth.least_mm, plate.depth.sure) == (None, None)
    assert plate.depth.why.startswith(f"{title}: ")
    assert plate.depth.why.endswith("not known: do not order the plate yet")
