"""Kinds that are text alone, planned with: the demo's gearboxes and axles, one rule of the trade at a time."""

import dataclasses

import pytest

from interchange.catalog.figure import Figure
from interchange.fit.case import Donor
from interchange.fit.finding import ADAPTS, BOLTS_UP, MACHINE_WORK, STOPS, UNSURE
from interchange.fit.report import plan
from interchange.job.job import DeadUnit
from interchange.opening import Bar, open_setting
from interchange.quantity import read_quantity

from .conftest import DEMO


def dead_seat(job, machine, seat, unit, usable=()):
    """A seat of a demo machine whose unit is dead, whatever the demo's own jobs say of it."""
    with Bar() as bar:
        setting, _ = open_setting(DEMO / "jobs" / job, None, bar)
    setting.machine = setting.library.machine(machine)[1]
    setting.record = setting.library.machine(machine)[0]
    setting.job = dataclasses.replace(setting.job, machine=machine, dead={seat: DeadUnit(unit=unit, usable=usable)})
    return setting.seat(seat)


@pytest.fixture(scope="module")
def tractor(_cache):
    """The hill tractor's gearbox seat: no frame, a two-stage clutch that drives the PTO."""
    return dead_seat("hill-tractor", "pellworth-540", "gearbox", "pellworth-g540.two-stage", ("clutch",))


@pytest.fixture(scope="module")
def loader(_cache):
    """The pit loader's gearbox seat: framed, converter."""
    return dead_seat("pit-loader", "dunmarrow-rl90", "gearbox", "dunmarrow-c90", ("converter",))


@pytest.fixture(scope="module")
def axle(_cache):
    """The pit loader's front axle: its ratio has to be that of the rear axle, whose tag says 4.11:1."""
    return dead_seat("pit-loader", "dunmarrow-rl90", "front_axle", "dunmarrow-x90.loader", ("brakes", "yoke"))


def planned(seat, named, offer="running_machine", usable=None, seat_changed=None, without=(), **changed):
    """The plan for a form of a donor with some features, of it or of the machine, changed or left out."""
    (form,) = seat.forms(named)
    features = {path: figure for path, figure in seat.features(form).items() if path not in without}
    features |= {path.replace("__", "."): figure for path, figure in changed.items()}
    case = seat.case
    needs = {path: figure for path, figure in case.seat.items() if path not in without} | (seat_changed or {})
    case = dataclasses.replace(case, seat=needs, usable=case.usable if usable is None else frozenset(usable))
    return plan(case, Donor(title=named, features=features, offer=seat.offer(offer)))


def judged(made, name):
    return next(one for one in made.judged if one.name == name)


def ratio(text):
    return Figure(quantity=read_quantity(text, "ratio"))


def length(text):
    return Figure(quantity=read_quantity(text, "length"))


def word(text):
    return Figure(word=text)


@pytest.mark.parametrize(
    ("place", "named"),
    [
        pytest.param("tractor", "pellworth-g540.two-stage", id="gearbox with a clutch"),
        pytest.param("loader", "dunmarrow-c90", id="gearbox with a converter"),
        pytest.param("axle", "dunmarrow-x90.loader", id="axle"),
    ],
)
def test_like_for_like_bolts_up(request, place, named):
    made = planned(request.getfixturevalue(place), named)
    assert (made.verdict, made.missing, made.stopped_by, made.hold) == (BOLTS_UP, (), (), ())
    assert {one.verdict for one in made.judged if one.otherwise != "cost only"} == {BOLTS_UP}
    assert made.cost_cents > 0  # seals and gaskets are renewed all the same


def test_cautions_and_what_is_renewed_are_there_to_print(tractor, axle):
    gearbox, final = tractor.case.kind, axle.case.kind
    assert any("cannot be tested" in caution for caution in gearbox.cautions)
    assert any("Block" in caution or "block" in caution for caution in gearbox.cautions)
    assert any("Stands" in caution for caution in final.cautions)
    for kind in (gearbox, final):
        assert kind.renew
        assert kind.renew_cost
        assert "service manual" in kind.cautions[-1]


# Gearbox


def test_clutch_and_converter_gearboxes_do_not_change_places(tractor, loader):
    assert "drive" in [one.name for one in planned(tractor, "dunmarrow-c90").stopped_by]
    assert "drive" in [one.name for one in planned(loader, "pellworth-g540.single").stopped_by]


def test_a_clutch_of_other_stages_goes_in_only_as_a_whole_unit_with_its_gearbox(tractor):
    """A single-clutch gearbox for a machine whose PTO may stop with it: one's own two-stage clutch does not serve."""
    modest = {"seat.pto": word("transmission")}
    whole = planned(tractor, "pellworth-g540.single", seat_changed=modest)
    assert (whole.verdict, whole.suppliers["clutch"]) == (BOLTS_UP, "donor")
    alone = planned(tractor, "pellworth-g540.single", "core", seat_changed=modest)
    assert alone.suppliers["clutch"] == "bought"  # one's own is usable, costs less, and does not go with it
    bought = next(step for step in alone.steps if step.sort == "bought")
    assert bought.title.startswith("complete clutch unit")
    assert "single or two-stage clutch" in bought.caution


def test_ones_own_clutch_stays_where_the_stages_are_the_same(tractor):
    made = planned(tractor, "pellworth-g540.two-stage", "core")
    assert made.suppliers["clutch"] == "own"
    assert judged(made, "stages").verdict == BOLTS_UP


def test_with_nothing_but_a_clutch_of_other_stages_it_stops(tractor):
    """Where no complete unit can be had."""
    supply = {**tractor.case.kind.supply}
    supply["clutch"] = dataclasses.replace(supply["clutch"], by=("own",))
    case = dataclasses.replace(tractor.case, kind=dataclasses.replace(tractor.case.kind, supply=supply))
    (form,) = tractor.forms("pellworth-g540.single")
    made = plan(case, Donor(title="", features=tractor.features(form), offer=tractor.offer("complete")))
    assert {"stages", "pto"} <= {one.name for one in made.stopped_by}
    assert judged(made, "stages").reason == "single against two-stage"


def test_a_pto_that_stops_with_the_tractor_stops_the_swap(tractor):
    assert [one.name for one in planned(tractor, "pellworth-g540.single").stopped_by] == ["pto"]


def test_the_converter_is_kept_with_its_gearbox(loader):
    """The donor's own converter is taken though one's own is usable; a converter of another hub length never serves."""
    same = planned(loader, "dunmarrow-c90", "complete")
    assert same.suppliers["converter"] == "donor"
    other = planned(loader, "dunmarrow-c120", "machine", usable=["converter"])
    assert other.suppliers["converter"] == "donor"
    without = dataclasses.replace(loader.offer("core"), perhaps={})
    (form,) = loader.forms("dunmarrow-c120")
    case = dataclasses.replace(loader.case, usable=frozenset(["converter"]))
    made = plan(case, Donor(title="", features=loader.features(form), offer=without))
    assert made.suppliers["converter"] == "bought"
    supply = {**case.kind.supply}
    supply["converter"] = dataclasses.replace(supply["converter"], by=("donor", "own"))
    case = dataclasses.replace(case, kind=dataclasses.replace(case.kind, supply=supply))
    stuck = plan(case, Donor(title="", features=loader.features(form), offer=without))
    assert [one.name for one in stuck.stopped_by] == ["hub_length"]


def test_a_converter_of_ones_own_is_charged_for_being_mixed(loader):
    without = dataclasses.replace(loader.offer("core"), perhaps={})
    (form,) = loader.forms("dunmarrow-c90")
    made = plan(loader.case, Donor(title="", features=loader.features(form), offer=without))
    assert made.suppliers["converter"] == "own"
    assert [step.title for step in made.steps if step.sort == "mixing"] == ["converter set parts from more than one gearbox"]


@pytest.mark.parametrize(
    ("proud", "verdict"),
    [
        pytest.param("4.78 in", BOLTS_UP, id="tip clears the bottom of its hole by more than 1.5 mm whatever the readings"),
        pytest.param("4.9 in", MACHINE_WORK, id="tip bottoms"),
        pytest.param("4.2 in", MACHINE_WORK, id="held by less than half its diameter"),
    ],
)
def test_how_far_the_shaft_tip_reaches(tractor, proud, verdict):
    exact = {"seat.bush_depth": length("4 in"), "seat.bush_hole_depth": length("0.9 in")}
    made = planned(tractor, "pellworth-g540.two-stage", seat_changed=exact, core__tip=length(proud))
    assert judged(made, "pilot").verdict == verdict


def test_depth_that_nobody_has_read_is_not_known(tractor):
    made = planned(tractor, "pellworth-g540.two-stage", without=["seat.friction_depth"])
    assert (made.verdict, judged(made, "depth").verdict, made.hold) == (UNSURE, UNSURE, ("friction_face",))


@pytest.mark.parametrize(
    ("name", "changed", "verdict"),
    [
        pytest.param(
            "rear_face", {"core__rear": Figure(ref="pellworth-bell-540")}, STOPS, id="another rear face without a frame"
        ),
        pytest.param("torque", {"core__torque": Figure(quantity=read_quantity("150 lb-ft", "torque"))}, STOPS, id="too weak"),
        pytest.param("reverse", {"core__reverse": word("none")}, STOPS, id="no reverse"),
        pytest.param("pto_gear", {"core__pto_ratio": ratio("2.05:1")}, MACHINE_WORK, id="PTO gear for another speed"),
        pytest.param("gear", {"core__top": ratio("0.70:1")}, ADAPTS, id="other top gear is taken as it is"),
        pytest.param("gear", {"core__top": ratio("0.96:1")}, BOLTS_UP, id="nearly the same top gear"),
        pytest.param("speeds", {"core__speeds": Figure(quantity=read_quantity("12", "count"))}, BOLTS_UP, id="more speeds"),
        pytest.param("shift", {"core__shift": word("side")}, MACHINE_WORK, id="lever on the side"),
    ],
)
def test_one_difference(tractor, name, changed, verdict):
    made = planned(tractor, "pellworth-g540.two-stage", **changed)
    assert judged(made, name).verdict == verdict
    assert (verdict == STOPS) == (made.verdict == STOPS)


# Axle


@pytest.mark.parametrize(
    ("written", "goes"),
    [
        pytest.param("4.11:1", True, id="as its mate's tag says"),
        pytest.param("4.11", True, id="without the one"),
        pytest.param("37/9", True, id="counted: the tag rounds"),
        pytest.param("4.10:1", False, id="the next ratio of the trade"),
        pytest.param("41/10", False, id="the next, counted"),
        pytest.param("41/11", False, id="another"),
        pytest.param("4.02:1", False, id="2 % off: no lead is wanted of like tyres"),
    ],
)
def test_a_ratio_unequal_to_its_mates_stops(axle, written, goes):
    made = planned(axle, "dunmarrow-x90.loader", core__ratio=ratio(written))
    assert ([one.name for one in made.stopped_by] == []) == goes
    assert judged(made, "ratio").verdict == (BOLTS_UP if goes else STOPS)


def test_two_forms_of_one_casting_differ_by_their_ratio_alone(axle):
    assert planned(axle, "dunmarrow-x90.loader").feasible
    made = planned(axle, "dunmarrow-x90.roading")
    assert [(one.name, one.reason) for one in made.stopped_by] == [("ratio", "41/11 against 4.11:1 (-9%)")]


def test_a_ratio_nobody_knows_is_not_known(axle):
    made = planned(axle, "dunmarrow-x90.loader", without=["core.ratio"])
    assert (made.verdict, judged(made, "ratio").verdict) == (UNSURE, UNSURE)
    assert made.chance.value < 1
    unlike = planned(axle, "dunmarrow-x90.roading", without=["seat.mate"])
    assert judged(unlike, "ratio").verdict == UNSURE
    assert "whether it matters hangs on the mate" in judged(unlike, "ratio").reason


# Rear ratio 18.00:1, tyres that roll 4.60 m behind and 2.90 m in front: for the front to run level it needs
# 18.00 × 2.90 / 4.60 = 11.348:1, for a lead of 1 % that over 1.01 = 11.235:1, of 5 % over 1.05 = 10.807:1.
LEVEL = 18.00 * 2.90 / 4.60


@pytest.mark.parametrize(
    ("lead", "goes"),
    [
        pytest.param(0.005, False, id="half a percent: too little"),
        pytest.param(0.015, True, id="1.5 %"),
        pytest.param(0.045, True, id="4.5 %"),
        pytest.param(0.06, False, id="6 %: too much"),
        pytest.param(-0.02, False, id="front behind the rear"),
    ],
)
def test_front_lead_of_one_to_five_percent(axle, lead, goes):
    wanted = ratio(f"{LEVEL / 1.05:.3f}-{LEVEL / 1.01:.3f}:1")
    seat = {"seat.mate": word("by lead"), "seat.lead_ratio": wanted}
    made = planned(axle, "dunmarrow-x90.loader", seat_changed=seat, core__ratio=ratio(f"{LEVEL / (1 + lead):.3f}:1"))
    assert judged(made, "front_lead").verdict == (BOLTS_UP if goes else STOPS)
    assert "ratio" not in [one.name for one in made.judged]


def test_ones_own_brakes_go_across_where_the_flange_is_drilled_for_them(axle):
    wet = {"brakes__type": word("wet disc"), "brakes__fluid": word("mineral oil")}
    made = planned(axle, "dunmarrow-x90.loader", **wet)
    assert made.suppliers["brakes"] == "own"
    assert judged(made, "brake").verdict == BOLTS_UP
    none = planned(axle, "dunmarrow-x90.loader", usable=[], **wet)
    assert (none.suppliers["brakes"], judged(none, "brake").verdict) == ("donor", MACHINE_WORK)
    assert "level ground" in judged(none, "brake").caution


def test_a_machine_with_two_axles_gives_the_one_of_the_same_place(axle):
    machine = axle.setting.machine
    front = machine.seats["front_axle"]
    rear = dataclasses.replace(front, fitted={"dunmarrow-x90.roading": 1.0})
    both = dataclasses.replace(machine, seats={"rear_axle": rear, **machine.seats})
    assert axle.fitted(both) == {"dunmarrow-x90.loader": 1.0}
    only = dataclasses.replace(machine, seats={"rear_axle": rear})
    assert axle.fitted(only) == {"dunmarrow-x90.roading": 1.0}
    assert axle.fitted(dataclasses.replace(machine, seats={"engine": machine.seats["engine"]})) == {}


def test_a_final_drive_is_for_one_side(axle):
    seat = {"seat.build": word("final drive"), "seat.side": word("left"), "seat.mate": word("other side")}
    for side, goes in (("left", True), ("either", True), ("right", False)):
        made = planned(
            axle, "dunmarrow-x90.loader", seat_changed=seat, core__build=word("final drive"), core__side=word(side)
        )  # fmt: skip
        assert (judged(made, "side").verdict == BOLTS_UP) == goes
        assert "yoke" not in made.suppliers
