"""Plans for the demo's machines, one rule of the trade at a time."""

import dataclasses

import pytest

from interchange.catalog.figure import Figure
from interchange.catalog.model import Adapter
from interchange.catalog.nodes import Node
from interchange.errors import FileProblemsError, InputError
from interchange.fit.case import Donor
from interchange.fit.finding import ADAPTS, BOLTS_UP, MACHINE_WORK, STOPS, UNSURE, VERDICTS
from interchange.fit.report import plan
from interchange.fit.setting import Setting
from interchange.quantity import read_quantity


@pytest.fixture
def loader(pit_loader):
    """The pit loader's engine seat: framed, converter, pump on the nose; the dead unit is a Hestrel H52D."""
    return pit_loader.seat("engine")


@pytest.fixture
def tractor(hill_tractor):
    """The hill tractor's: no frame, clutch; the dead unit is a Brackmoor B440 with a stressed block."""
    return hill_tractor.seat("engine")


def quantity(text, dimension):
    return Figure(quantity=read_quantity(text, dimension))


def word(text):
    return Figure(word=text)


def planned(seat, named, offer="running_machine", without=(), usable=None, case=None, **changed):
    """The plan for a form of a donor with some features changed or left out."""
    (form,) = seat.forms(named)
    features = {path: figure for path, figure in seat.features(form).items() if path not in without}
    features |= {path.replace("__", "."): figure for path, figure in changed.items()}
    case = case or seat.case
    if usable is not None:
        case = dataclasses.replace(case, usable=frozenset(usable))
    return plan(case, Donor(title=named, features=features, offer=seat.offer(offer)))


def judged(made, name):
    return next(one for one in made.judged if one.name == name)


def test_verdicts_are_these_words_and_no_others():
    assert VERDICTS == ("bolts up", "adapts", "machine work", "not known", "stops")


def test_the_same_engine_bolts_up(loader):
    made = planned(loader, "hestrel-h52d.loader")
    assert (made.verdict, made.worst.verdict, made.chance.value) == (BOLTS_UP, BOLTS_UP, 1.0)
    assert {one.verdict for one in made.judged} == {BOLTS_UP}
    assert (made.missing, made.doubtful, made.hold, made.stopped_by) == ((), (), (), ())


def test_every_demo_engine_gets_a_plan_that_holds_together(loader, tractor):
    for seat in (loader, tractor):
        for unit in (
            "hestrel-h52d",
            "hestrel-h52g",
            "hestrel-h78e",
            "tolvane-t412",
            "brackmoor-b440",
            "kestavik-k438",
            "orrindale-od46",
        ):
            for form in seat.forms(unit):
                made = seat.plan(form)
                assert made.verdict in VERDICTS
                assert {one.verdict for one in made.judged} <= set(VERDICTS)
                assert made.feasible == (not made.missing and not made.stopped_by)
                assert all(one.reason for one in made.judged)
                assert 0 <= made.chance.value <= 1
                assert made.cost_cents > 0


def test_wrong_rotation_stops(loader):
    made = planned(loader, "hestrel-h52d.loader", core__rotation=word("clockwise"))
    assert made.verdict == STOPS
    assert [one.name for one in made.stopped_by] == ["rotation"]
    assert made.worst.reason == "clockwise against counter-clockwise"
    assert made.chance.value == 0
    assert planned(loader, "kestavik-k438").verdict == STOPS


def test_a_plain_block_stops_in_a_machine_without_a_frame_and_a_stressed_one_nowhere(loader, tractor):
    plain = planned(tractor, "brackmoor-b440.plain")
    assert "block" in [one.name for one in plain.stopped_by]
    assert judged(planned(tractor, "brackmoor-b440.stressed"), "block").verdict == BOLTS_UP
    stressed = planned(loader, "tolvane-t412.stressed")
    assert judged(stressed, "block").verdict == BOLTS_UP
    assert stressed.feasible


def test_a_block_of_which_nobody_knows_does_for_a_frame(loader, tractor):
    assert judged(planned(loader, "hestrel-h52d.loader", without=["core.block"]), "block").verdict == BOLTS_UP
    assert judged(planned(tractor, "brackmoor-b440.stressed", without=["core.block"]), "block").verdict == UNSURE


def test_a_sheet_pan_stops_in_a_machine_without_a_frame_unless_ones_own_is_usable(tractor):
    sheet = {"sump__build": word("sheet")}
    own = planned(tractor, "brackmoor-b440.stressed", **sheet)
    assert own.suppliers["sump"] == "own"
    lost = planned(tractor, "brackmoor-b440.stressed", usable=tractor.case.usable - {"sump"}, **sheet)
    assert (lost.suppliers["sump"], judged(lost, "pan_build").reason) == ("bought", "bought to suit")


def test_other_fuel_stops(loader):
    assert [one.name for one in planned(loader, "hestrel-h52g.loader").stopped_by] == ["fuel"]


def test_own_flywheel_on_another_crank_brings_the_balance_warning(loader):
    with_own = planned(loader, "tolvane-t412.plain")
    assert with_own.suppliers["flywheel"] == "own"
    assert "balance" in judged(with_own, "crank_flange").caution
    whole = planned(loader, "hestrel-h52d.loader")
    assert judged(whole, "crank_flange").caution == ""


def test_the_balance_warning_comes_with_every_own_flywheel_on_another_crank_and_only_then(loader, tractor):
    seen = set()
    for seat in (loader, tractor):
        for (unit,) in seat.setting.library.connection.execute("SELECT id FROM record WHERE live AND room = 'units'").fetchall():
            if seat.setting.library.unit(unit)[1].kind != "engine":
                continue
            for form in seat.forms(unit):
                for offer in ("complete", "long_block"):
                    made = seat.plan(form, seat.offer(offer))
                    source, caution = made.suppliers["flywheel"], judged(made, "crank_flange").caution
                    seen.add(source)
                    if source == "own":
                        assert "check the balance scheme" in caution, (form, offer)
                    if source == "donor":
                        assert caution == "", (form, offer)
    assert {"own", "donor"} <= seen


def test_another_balance_is_mended(loader):
    offset = planned(loader, "tolvane-t412.plain", core__balance=word("offset"))
    one = judged(offset, "balance")
    assert (offset.suppliers["flywheel"], one.verdict) == ("own", MACHINE_WORK)
    assert one.reason == "offset against neutral; flywheel balanced to the crank"


@pytest.mark.parametrize(
    ("name", "changed"),
    [
        pytest.param("volts", {"electrics__volts": quantity("24 V", "voltage")}, id="voltage"),
        pytest.param("governed", {"fuel__governed": quantity("2800 rpm", "speed")}, id="governed speed"),
        pytest.param("torque", {"core__torque": quantity("600 lb-ft", "torque")}, id="torque"),
        pytest.param("weight", {"core__weight": quantity("3,000 lb", "mass")}, id="weight"),
    ],
)
def test_what_only_costs_never_stops(loader, name, changed):
    """With nothing of one's own to carry over, so that the donor's part has to serve."""
    before = planned(loader, "hestrel-h52d.loader", usable=())
    made = planned(loader, "hestrel-h52d.loader", usable=(), **changed)
    assert made.feasible
    assert made.cost_cents >= before.cost_cents
    assert judged(made, name).verdict in (ADAPTS, MACHINE_WORK)


def test_a_difference_without_a_remedy_is_taken_as_it_is(loader):
    one = judged(planned(loader, "hestrel-h52d.loader", core__weight=quantity("3,000 lb", "mass")), "weight")
    assert (one.verdict, one.reason) == (ADAPTS, "3,000 lb against 1,080 lb (+178%): taken as it is")


def test_stop_control_counts_only_where_a_solenoid_stops_it(loader):
    cable = planned(loader, "hestrel-h52d.loader", usable=(), without=["fuel.stop_volts"], fuel__stop=word("cable"))
    assert (judged(cable, "stop_control").verdict, judged(cable, "stop_control").reason) == (BOLTS_UP, "not needed: cable")
    solenoid = planned(loader, "hestrel-h52d.loader", usable=(), fuel__stop_volts=quantity("24 V", "voltage"))
    assert judged(solenoid, "stop_control").verdict == ADAPTS
    unknown = planned(
        loader, "hestrel-h52d.loader", usable=(), without=["fuel.stop"], fuel__stop_volts=quantity("24 V", "voltage")
    )
    assert judged(unknown, "stop_control").verdict == UNSURE
    alike = planned(loader, "hestrel-h52d.loader", usable=(), without=["fuel.stop"])
    assert judged(alike, "stop_control").verdict == BOLTS_UP


@pytest.mark.parametrize(
    ("room", "name", "verdict"),
    [
        pytest.param("40.9 in", "length", BOLTS_UP, id="7/8 in between fan and core"),
        pytest.param("40.7 in", "length", MACHINE_WORK, id="too near: 5/8 in"),
        pytest.param("41.9 in", "fan_distance", BOLTS_UP, id="1-7/8 in"),
        pytest.param("42.2 in", "fan_distance", ADAPTS, id="too far: over 2 in"),
    ],
)
def test_the_fan_stands_three_quarters_to_two_inches_off_the_core(loader, room, name, verdict):
    """36-1/4 in of engine and 96 mm of housing: 40.03 in from the gearbox face. The housing counts: it stands in between."""
    seat = loader.case.seat | {"seat.room_length": quantity(room, "length")}
    exact = {"core__length": quantity("36.25 in", "length"), "housing__depth": quantity("96 mm", "length")}
    made = planned(loader, "hestrel-h52d.loader", case=dataclasses.replace(loader.case, seat=seat), **exact)
    assert judged(made, name).verdict == verdict


@pytest.mark.parametrize(
    ("name", "changed", "verdict"),
    [
        pytest.param("ring_teeth", {"flywheel__ring_teeth": quantity("110", "count")}, BOLTS_UP, id="rear set of one engine"),
        pytest.param("pan_depth", {"sump__depth": quantity("13.4 in", "length")}, BOLTS_UP, id="0.6 in under the pan"),
        pytest.param("pan_depth", {"sump__depth": quantity("13.6 in", "length")}, MACHINE_WORK, id="0.4 in under the pan"),
        pytest.param("converter_pilot", {"core__pilot_bore": quantity("1.880 in", "length")}, BOLTS_UP, id="0.15 mm play"),
        pytest.param("converter_pilot", {"core__pilot_bore": quantity("2.250 in", "length")}, MACHINE_WORK, id="sleeved"),
        pytest.param("fan_height", {"cooling__fan_height": quantity("12.4 in", "length")}, BOLTS_UP, id="fan 0.9 in higher"),
        pytest.param("fan_height", {"cooling__fan_height": quantity("12.6 in", "length")}, MACHINE_WORK, id="fan 1.1 in higher"),
        pytest.param("stop_sense", {"fuel__stop": word("energise to stop")}, ADAPTS, id="stops when energised"),
        pytest.param("earth", {"electrics__earth": word("positive")}, ADAPTS, id="positive earth"),
        pytest.param("tach", {"electrics__tach": word("sender")}, ADAPTS, id="no cable for the tachometer"),
        pytest.param("belt_line", {"nose__belt_offset": quantity("3.2 in", "length")}, BOLTS_UP, id="belts 0.08 in out of line"),
        pytest.param("belt_line", {"nose__belt_offset": quantity("3.3 in", "length")}, ADAPTS, id="belts 0.18 in out of line"),
        pytest.param("starter_side", {"housing__starter_side": word("right")}, MACHINE_WORK, id="starter on the other side"),
    ],
)  # fmt: skip
def test_what_else_a_donor_may_differ_in(loader, name, changed, verdict):
    """With nothing of one's own to carry over, so that the donor's part has to serve."""
    made = planned(loader, "hestrel-h52d.loader", usable=(), **changed)
    assert judged(made, name).verdict == verdict
    assert made.feasible


def test_ring_gear_and_starter_of_two_engines(loader):
    """Own starter, the donor's flywheel with other teeth, and no other starter to be had."""
    supply = {**loader.case.kind.supply}
    supply["starter"] = dataclasses.replace(supply["starter"], by=("own",))
    supply["flywheel"] = dataclasses.replace(supply["flywheel"], by=("donor",))
    case = dataclasses.replace(loader.case, kind=dataclasses.replace(loader.case.kind, supply=supply))
    for teeth, verdict in (("126", BOLTS_UP), ("129", MACHINE_WORK)):
        made = planned(loader, "hestrel-h52d.loader", case=case, flywheel__ring_teeth=quantity(teeth, "count"))
        assert judged(made, "ring_teeth").verdict == verdict, teeth


def test_own_pan_goes_on_only_where_its_pickup_meets_the_pump(tractor):
    supply = {**tractor.case.kind.supply}
    supply["sump"] = dataclasses.replace(supply["sump"], by=("own",))
    case = dataclasses.replace(tractor.case, kind=dataclasses.replace(tractor.case.kind, supply=supply))
    for place, verdict in (("front", BOLTS_UP), ("rear", MACHINE_WORK)):
        made = planned(tractor, "brackmoor-b440.stressed", case=case, core__oil_pump=word(place))
        assert judged(made, "pickup").verdict == verdict, place


def test_the_tip_has_to_suit_the_bush(tractor):
    for bore, verdict in (("0.757 in", BOLTS_UP), ("0.875 in", MACHINE_WORK)):
        made = planned(tractor, "brackmoor-b440.stressed", core__bush_bore=quantity(bore, "length"))
        assert judged(made, "bush").verdict == verdict, bore
    short = planned(tractor, "brackmoor-b440.stressed", core__bush_length=quantity("9 mm", "length"))
    assert judged(short, "pilot").verdict == MACHINE_WORK  # half of 3/4 in is 9.5 mm


def test_mounts_are_no_part_of_a_machine_without_a_frame(tractor, loader):
    assert "mounts" not in planned(tractor, "brackmoor-b440.stressed").suppliers
    assert "mounts" in planned(loader, "hestrel-h52d.loader").suppliers


def test_own_housing_goes_on_only_where_the_rear_face_and_dowels_match(loader):
    same = planned(loader, "hestrel-h52d.power-unit", "long_block")
    assert (same.suppliers["housing"], judged(same, "rear_face").verdict) == ("own", ADAPTS)
    kind = loader.case.kind
    supply = {**kind.supply, "housing": dataclasses.replace(kind.supply["housing"], by=("donor", "own"))}
    none_for_sale = dataclasses.replace(loader.case, kind=dataclasses.replace(kind, supply=supply))
    other = planned(loader, "tolvane-t618.plain", "long_block", usable=["housing"], case=none_for_sale)
    assert (other.suppliers["housing"], judged(other, "rear_face").verdict) == ("own", MACHINE_WORK)
    assert "12 holes against 8; rear face bored and plate made" in judged(other, "rear_face").reason
    no_land = planned(loader, "brackmoor-b440.plain", "long_block", usable=["housing"], case=none_for_sale)
    assert judged(no_land, "rear_face").verdict == STOPS
    assert "run into each other by 10.9 mm at best" in judged(no_land, "rear_face").caveat


def test_a_bought_part_suits_what_it_is_chosen_for_and_nothing_else(loader):
    made = planned(loader, "hestrel-h52d.loader", "long_block", usable=[])
    assert made.suppliers["housing"] == "bought"
    reason = judged(made, "rear_face").reason
    assert reason == "rear: bought housing; bought to suit · gearbox: bought housing; hangs on the housing that is found"
    assert judged(made, "rear_face").verdict == UNSURE
    assert judged(made, "starter").verdict == ADAPTS
    bought = next(step for step in made.steps if step.title == "flywheel housing or rear plate")
    assert (bought.sort, bought.caution) == (
        "bought",
        "before it is paid for, check that it suits: rear, gearbox, starter, starter side",
    )


def test_ignorance_is_charged(loader):
    made = planned(loader, "hestrel-h52d.loader", "long_block", usable=[])
    assert made.charges_cents > 0


def test_the_starter_goes_with_the_ring_gear(loader):
    """Another pinion: the donor's starter is not put on one's own flywheel without work."""
    made = planned(loader, "tolvane-t412.plain")
    assert made.suppliers["flywheel"] == made.suppliers["starter"]


def test_an_electronic_engine_stops_where_its_set_does_not_come(loader):
    made = planned(loader, "hestrel-h78e", "long_block")
    assert made.verdict == STOPS
    assert "electronics" in made.missing
    perhaps = planned(loader, "hestrel-h78e", "complete")
    assert perhaps.feasible
    assert ("electronics", 0.5) in perhaps.doubtful
    assert perhaps.chance.value == pytest.approx(0.5)
    assert "controller" in perhaps.chance.basis


def test_an_electronic_set_cannot_be_bought(loader):
    """Controller, harness, sensors and throttle have to come from one machine, so no shop and no parts bin saves it."""
    assert loader.case.kind.supply["electronics"].by == ("donor",)
    everything = planned(loader, "hestrel-h78e", "long_block", usable=list(loader.case.kind.slots))
    assert everything.missing == ("electronics",)


def test_an_engine_of_which_nobody_knows_whether_it_is_electronic(loader):
    """The slot stays in the plan: what nobody brings is then not known, and does not stop it."""
    dark = planned(loader, "hestrel-h52d.loader", "long_block", without=["core.control"])
    assert (dark.verdict, dark.missing, dark.unsettled) == (UNSURE, (), ("electronics",))
    assert "whether it needs controller" in dark.chance.basis
    assert dark.chance.value <= 0.5
    known = planned(loader, "hestrel-h52d.loader", "long_block")
    assert (known.unsettled, "electronics" in known.suppliers) == ((), False)
    brings = planned(loader, "hestrel-h52d.loader", without=["core.control"])
    assert (brings.unsettled, brings.suppliers["electronics"]) == ((), "donor")


def test_a_machine_of_which_nobody_knows_whether_it_has_a_clutch(tractor):
    """Its clutch is planned for: one's own goes across."""
    case = dataclasses.replace(tractor.case, seat={k: v for k, v in tractor.case.seat.items() if k != "seat.drive"})
    made = planned(tractor, "brackmoor-b440.stressed", case=case)
    assert made.suppliers["clutch"] == "own"


def ring(seat, **more):
    """The demo's reducer ring from a size 2 housing to a size 3 face."""
    one = next(adapter for adapter in seat.case.adapters if adapter.id == "ring-2-to-3")
    return dataclasses.replace(seat.case, adapters=(dataclasses.replace(one, **more),))


def size_two(loader, case, **changed):
    """The loader's own engine with a size 2 housing on it, and nothing usable of the dead one."""
    housing = {"housing__out": Figure(ref="sae-j617-2"), "housing__depth": quantity("76.95 mm", "length"), **changed}
    return planned(loader, "hestrel-h52d.loader", usable=[], case=dataclasses.replace(case, remedies={}), **housing)


def test_an_adapter_s_thickness_is_in_the_depth(loader):
    """76.95 mm of housing and 3/4 in of ring are the 96 mm that a size 3 housing has."""
    made = size_two(loader, ring(loader))
    assert [step.title for step in made.steps if step.sort == "adapter"] == ["Reducer ring, size 2 housing to size 3 face"]
    assert judged(made, "rear_face").verdict == ADAPTS
    assert judged(made, "depth").verdict == BOLTS_UP
    too_deep = size_two(loader, ring(loader), housing__depth=quantity("96 mm", "length"))
    assert (too_deep.suppliers["housing"], judged(too_deep, "depth").verdict) == ("bought", UNSURE)


def test_an_adapter_is_only_used_up_to_its_torque(loader):
    """The donor has 252 lb-ft."""
    assert size_two(loader, ring(loader, torque=quantity("252 lb-ft", "torque"))).feasible
    weak = size_two(loader, ring(loader, torque=quantity("251 lb-ft", "torque")))
    assert not any(step.sort == "adapter" for step in weak.steps)
    unlimited = size_two(loader, ring(loader, torque=None))
    assert "torque" not in judged(unlimited, "rear_face").caveat
    (form,) = loader.forms("hestrel-h52d.loader")
    unknown = {path: figure for path, figure in loader.features(form).items() if path != "core.torque"}
    unknown |= {"housing.out": Figure(ref="sae-j617-2"), "housing.depth": quantity("76.95 mm", "length")}
    case = dataclasses.replace(ring(loader), usable=frozenset(), remedies={})
    made = plan(case, Donor(title="", features=unknown, offer=loader.offer("running_machine")))
    assert "carries 900 lb-ft: the donor's torque is not known" in judged(made, "rear_face").caveat


def test_an_adapter_of_no_stated_thickness_leaves_the_depth_open(loader):
    made = size_two(loader, ring(loader, thick=None))
    assert judged(made, "depth").verdict == UNSURE
    assert made.hold == ("converter_gap", "fan_clear")


def test_an_adapter_has_its_faces_in_the_order_of_the_joint(loader):
    turned = ring(loader, faces=("sae-j617-3", "sae-j617-2"))
    assert not any(step.sort == "adapter" for step in size_two(loader, turned).steps)
    assert isinstance(turned.adapters[0], Adapter)


def test_a_made_plate_is_planned_where_nothing_else_goes_between(loader):
    """A size 2 housing 76 mm deep, none to be bought: 16 + 76 + plate - 14 - 94.8 is 3.2 with 20 mm of plate."""
    kind = loader.case.kind
    supply = {**kind.supply, "housing": dataclasses.replace(kind.supply["housing"], by=("donor", "own"))}
    case = dataclasses.replace(loader.case, adapters=(), usable=frozenset(), kind=dataclasses.replace(kind, supply=supply))
    housing = {"housing__out": Figure(ref="sae-j617-2"), "housing__depth": quantity("76 mm", "length")}
    made = planned(loader, "hestrel-h52d.loader", case=case, **housing)
    assert "custom adapter plate" in [step.title for step in made.steps]
    assert judged(made, "rear_face").verdict == MACHINE_WORK
    assert judged(made, "depth").reason == "converter pull-up: 3.2 mm, wanted 2.4 to 4.0 mm with 20.0 mm of plate"
    assert made.hold == ()


def test_a_condition_that_is_not_known_is_not_known_and_not_left_out(loader):
    seat = {path: figure for path, figure in loader.case.seat.items() if path != "seat.nose_drive"}
    case = dataclasses.replace(loader.case, seat=seat)
    one = judged(planned(loader, "hestrel-h52d.power-unit", usable=[], case=case), "front_drive")
    assert one.verdict == UNSURE
    assert one.need != "" or "not known" in one.reason


def test_an_unknown_variant_is_told(loader):
    with pytest.raises(InputError, match=r"has no variant 'lodaer' \(did you mean 'loader'\?\)"):
        loader.forms("hestrel-h52d.lodaer")
    with pytest.raises(InputError):
        loader.offer("drop_in")
    with pytest.raises(InputError):
        loader.setting.seat("engin")


def test_a_machine_of_which_the_drive_is_not_known_leaves_every_depth_open(loader):
    seat = {path: figure for path, figure in loader.case.seat.items() if path != "seat.drive"}
    made = planned(loader, "hestrel-h52d.loader", case=dataclasses.replace(loader.case, seat=seat))
    assert made.verdict == UNSURE
    assert made.hold == ("friction_face", "pilot_engagement", "tip_clearance", "converter_gap", "drive_depth")


def test_what_only_costs_is_in_no_verdict(loader):
    fast = planned(loader, "hestrel-h52d.loader", usable=(), fuel__governed=quantity("2800 rpm", "speed"))
    assert (fast.verdict, judged(fast, "governed").verdict) == (BOLTS_UP, MACHINE_WORK)


def test_a_dead_unit_of_another_kind_is_told(pit_loader):
    setting = pit_loader
    pump = dataclasses.replace(setting.job.dead["engine"], unit="lissander-l20", usable=())
    job = dataclasses.replace(setting.job, dead={"engine": pump})
    entry = {"unit": Node("lissander-l20", 7, 11)}
    node = Node({"machine": Node("dunmarrow-rl90", 2, 10), "dead": Node({"engine": Node(entry, 6, 3)}, 5, 1)}, 1, 1)
    with pytest.raises(
        FileProblemsError, match=r"Lissander L20 is of kind pump, and the seat 'engine' takes kind engine"
    ) as caught:
        Setting(setting.library, job, node, setting.home)
    assert [(each.slug, each.line) for each in caught.value.problems] == [("wrong-kind", 7)]


def test_forms_make_a_whole(loader):
    for unit in ("hestrel-h52d", "tolvane-t412", "hestrel-h78e"):
        assert sum(form.share for form in loader.forms(unit)) == pytest.approx(1)


def test_plans_are_made_once(loader):
    (form,) = loader.forms("hestrel-h52d.loader")
    assert loader.plan(form) is loader.plan(form)


def test_the_waiting_of_the_whole_is_the_longest_wait(loader):
    made = planned(loader, "hestrel-h78e", "complete")
    assert made.lead_days == max(step.effort.lead.likely for step in made.steps)


def test_pumps(pit_loader):
    seat = pit_loader.seat("pump")
    assert planned(seat, "lissander-l20", "complete").verdict == BOLTS_UP
    other_hand = planned(seat, "lissander-l20r", "complete")
    assert [one.name for one in other_hand.stopped_by] == ["rotation"]
