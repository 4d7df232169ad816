import dataclasses
import itertools

import pytest
from hypothesis import given
from hypothesis import strategies as st

from interchange.catalog.figure import Figure, Origin
from interchange.catalog.model import FeatureType, Joint, Kind, Pattern, Remedy, Shaft, Supply
from interchange.fit.case import BOUGHT, DONOR, OWN, Case, Donor, Memory
from interchange.fit.factor import factors_of, options
from interchange.fit.finding import ADAPTS, AGREES, BOLTS_UP, DIFFERS, MACHINE_WORK, NOT_KNOWN, STOPS
from interchange.fit.report import plan
from interchange.fit.shaft_torque import by_shear, carries, key_torque_nm, section_mm, shear_torque_nm
from interchange.quantity import read_quantity, read_spline, read_taper


def length(text):
    return Figure(quantity=read_quantity(text, "length"))


def torque(text, *others, basis=""):
    more = tuple(torque(other) for other in others)
    return Figure(quantity=read_quantity(text, "torque"), origin=Origin(basis=basis), others=more)


def splined(spline="14T 12/24", rated=None, **more):
    return Shaft(form="involute", spline=read_spline(spline), torque=torque(rated) if rated else None, **more)


def keyed(major="40 mm", width="12 mm", **more):
    return Shaft(form="keyed", major=length(major), width=length(width) if width else None, **more)


def test_torsion_of_a_round_bar():
    """100 MPa on 20 mm: π × 8000 / 16 × 100 = 157,080 N·mm. Twice the diameter carries eight times as much."""
    assert shear_torque_nm(20, 100) == pytest.approx(157.0796, abs=1e-4)
    assert shear_torque_nm(40, 100) == pytest.approx(8 * shear_torque_nm(20, 100))


def test_shear_of_a_key():
    """12 × 50 mm at 100 MPa: 60,000 N at 20 mm from the middle of a 40 mm shaft."""
    assert key_torque_nm(40, 12, 50, 100) == pytest.approx(1200)


@pytest.mark.parametrize(
    ("shaft", "mm"),
    [
        pytest.param(splined(), 12.2 / 12 * 25.4, id="fillet root by formula, (14 - 1.8) / 12 in"),
        pytest.param(splined("13T 16/32"), 11.65 / 16 * 25.4, id="flat root where no fillet root is known, (13 - 1.35) / 16 in"),
        pytest.param(splined(minor=length("26 mm")), 26, id="root as measured"),
        pytest.param(splined("14T m2"), None, id="by module, and not measured"),
        pytest.param(Shaft(form="straight-sided", teeth=6, major=length("35 mm")), None, id="straight-sided, not measured"),
        pytest.param(Shaft(form="straight-sided", teeth=6, minor=length("30 mm")), 30, id="straight-sided"),
        pytest.param(keyed(), 40, id="keyed"),
        pytest.param(Shaft(form="taper", major=length("25 mm")), 25, id="taper, at its large end"),
        pytest.param(Shaft(form="plain"), None, id="plain, not measured"),
        pytest.param(Shaft(form="flange", pattern="x", major=length("90 mm")), None, id="a flange carries by its bolts"),
    ],
)
def test_the_bar_inside_a_shaft(shaft, mm):
    assert section_mm(shaft) == (mm if mm is None else pytest.approx(mm))
    assert (by_shear(shaft) is None) == (mm is None)


def test_a_keyway_takes_a_quarter_and_a_short_key_shears_first():
    """125 MPa on 40 mm: 1570.8 N·m, three quarters of it 1178.1; a 12 mm key at 100 MPa carries 24 N·m a millimetre."""
    plain = by_shear(Shaft(form="plain", major=length("40 mm")))
    assert plain.torque_nm == pytest.approx(1570.796, abs=1e-3)
    assert by_shear(keyed()).torque_nm == pytest.approx(0.75 * plain.torque_nm)
    assert by_shear(keyed(width=None, length=length("10 mm"))).torque_nm == pytest.approx(0.75 * plain.torque_nm)
    assert by_shear(keyed(key_length=length("49 mm"))).torque_nm == pytest.approx(49 * 24)
    assert "12 × 49 mm key at 100 MPa" in by_shear(keyed(key_length=length("49 mm"))).how
    assert by_shear(keyed(key_length=length("49.1 mm"))).torque_nm == pytest.approx(0.75 * plain.torque_nm)
    assert by_shear(keyed(length=length("20 mm"))).torque_nm == pytest.approx(480)
    keyless = Shaft(form="taper", major=length("40 mm"), taper=read_taper("1:8"), keys=0)
    assert by_shear(keyless).torque_nm == pytest.approx(plain.torque_nm)


RATED = "300 N·m"


@pytest.mark.parametrize(
    ("ends", "need", "state", "broken", "says", "caveat"),
    [
        pytest.param((splined(rated=RATED), None), torque("300 N·m"), AGREES, (), "rated 221 lb-ft", "", id="just enough"),
        pytest.param((splined(rated=RATED), None), torque("300.1 N·m"), DIFFERS, (0,), "needs 221", "", id="just too little"),
        pytest.param((None, splined(rated=RATED)), torque("340 N·m"), DIFFERS, (1,), "needs", "", id="of the other end"),
        pytest.param(
            (splined(rated=RATED), splined(rated="400 N·m")), torque("340 N·m"), DIFFERS, (0,), "300 N·m", "", id="the weaker end"
        ),
        pytest.param(
            (splined(rated=RATED), splined(rated="400 N·m")), torque("440 N·m"), DIFFERS, (0, 1), "300 N·m", "", id="both ends"
        ),
        pytest.param((splined(rated=RATED), splined()), torque("500 N·m"), DIFFERS, (0,), "rated", "", id="a rating beats shear"),
        pytest.param(
            (splined(rated="900 N·m"), splined()), torque("800 N·m"), AGREES, (), "rated", "", id="where it is the higher too"
        ),
        pytest.param(
            (splined(rated=RATED), None), torque("250-340 N·m"), NOT_KNOWN, (), "", "rated 221 lb-ft (300 N·m) by its maker",
            id="a range over it",
        ),
        pytest.param(
            (splined(rated=RATED), None), torque("340 N·m", "290 N·m"), NOT_KNOWN, (), "", "sources differ", id="sources differ"
        ),
        pytest.param(
            (splined(rated=RATED), None), torque("340 N·m", basis="heard"), NOT_KNOWN, (), "", "hearsay", id="hearsay"
        ),
        pytest.param(
            (dataclasses.replace(splined(), torque=torque(RATED, basis="memory")), None), torque("340 N·m"), NOT_KNOWN, (), "",
            "from memory", id="nor does a rating from memory",
        ),
        pytest.param((splined(rated=RATED), None), None, NOT_KNOWN, (), "", "torque needed is not known", id="need not known"),
        pytest.param((splined(), None), None, NOT_KNOWN, (), "", "", id="neither known"),
        pytest.param((None, None), torque("340 N·m"), NOT_KNOWN, (), "", "", id="no shaft known"),
        pytest.param((splined("14T m2"), None), torque("340 N·m"), NOT_KNOWN, (), "", "", id="no size known"),
        pytest.param((splined(), None), torque("422 N·m"), AGREES, (), "1.0 times", "", id="14T 12/24 by shear, 422.5 N·m"),
        pytest.param((splined(), None), torque("211 N·m"), AGREES, (), "2.0 times the 156 lb-ft (211 N·m)", "", id="twice"),
        pytest.param(
            (splined(), None), torque("423 N·m"), NOT_KNOWN, (), "",
            "by shear of its 25.8 mm root at 125 MPa; needs 312 lb-ft (423 N·m)", id="just over it: asked, not refused",
        ),
        pytest.param((splined(), splined("13T 16/32")), torque("200 N·m"), NOT_KNOWN, (), "", "18.5 mm root", id="the weaker"),
    ],
)  # fmt: skip
def test_torque_against_what_shafts_carry(ends, need, state, broken, says, caveat):
    found = carries(ends, need)
    assert (found.finding.state, found.broken) == (state, broken)
    assert says in found.finding.text
    assert caveat in found.finding.caveat
    assert bool(found.finding.caveat) == bool(caveat)
    assert bool(found.finding.text) == bool(says)


@given(st.integers(50, 900), st.integers(50, 900), st.integers(1, 400))
def test_more_torque_is_never_easier(rated, need, more):
    order = (AGREES, NOT_KNOWN, DIFFERS)
    for end in (splined(rated=f"{rated} N·m"), splined()):
        first, second = (carries((end, None), torque(f"{nm} N·m")).finding.state for nm in (need, need + more))
        assert order.index(first) <= order.index(second)


# A hoist whose drum is driven through a coupler: the motor is the donor's, the coupler anybody's, the drum the machine's.
SHAFT, TORQUE = FeatureType("shaft"), FeatureType("torque")
JOINT = Joint(between=("coupler.out", "seat.shaft"), torque="core.torque", remedies=("new-coupler",))
KIND = Kind(
    title="hoist motor",
    slots={"core": {"torque": TORQUE, "shaft": SHAFT}, "coupler": {"in": SHAFT, "out": SHAFT}},
    seat={"shaft": SHAFT, "torque": TORQUE},
    supply={"core": Supply(by=("donor",)), "coupler": Supply(by=("donor", "own", "bought"))},
    joints={"drum": JOINT, "motor": Joint(between=("core.shaft", "coupler.in"), torque="core.torque")},
)


FACES = {
    "one": Pattern(id="one", circle=length("100 mm"), holes=4, hole=length("10.5 mm")),
    "same": Pattern(id="same", circle=length("100 mm"), holes=4, hole=length("10.5 mm")),
    "wide": Pattern(id="wide", circle=length("120 mm"), holes=4, hole=length("10.5 mm")),
}
OURS = {"coupler.out": Figure(ref="coupler"), "coupler.in": Figure(ref="coupler")}


def ways(by, name="drum", *, drum=None, coupler=None, motor=None, need="340 N·m", joint=None, before=None):
    known = {"drum": drum or splined(), "coupler": coupler or splined(), "motor": motor or splined()}
    kind = dataclasses.replace(KIND, joints={**KIND.joints, **({name: joint} if joint else {})})
    case = Case(
        kind=kind,
        seat={"seat.shaft": Figure(ref="drum")},
        own=OURS | ({"core.torque": torque(before)} if before else {}),
        usable=frozenset({"coupler"}),
        remedies={"new-coupler": Remedy(id="new-coupler", title="have a coupler made")},
        pattern=FACES.get,
        shaft=known.get,
        own_hour_cents=0,
        hold_day_cents=0,
        lost_try_cents=80_000,
    )
    features = {"core.shaft": Figure(ref="motor"), **OURS}
    if need:
        features["core.torque"] = torque(need)
    donor = Donor(title="motor", features=features, offer=None)
    (factor,) = (each for each in factors_of(case, donor) if each.name == name)
    return options(case, donor, factor, {"core": DONOR, "coupler": by})


WEAK = splined(rated="290 N·m")


@pytest.mark.parametrize("by", [DONOR, OWN, BOUGHT])
def test_the_machines_own_shaft_overloaded_stops_whoever_supplies_the_rest(by):
    (only,) = ways(by, drum=WEAK)
    assert only.verdict == STOPS
    assert only.finding.text == "rated 214 lb-ft (290 N·m) by its maker; needs 251 lb-ft (340 N·m)"
    assert ways(by, drum=splined(rated="340 N·m"))[0].verdict in (BOLTS_UP, ADAPTS)


def test_the_donors_only_shaft_overloaded_stops():
    (only,) = ways(OWN, "motor", motor=WEAK)
    assert only.verdict == STOPS


def test_an_overloaded_part_that_can_be_replaced_is_a_difference_to_be_mended():
    (made,) = ways(OWN, coupler=WEAK)
    assert (made.verdict, made.remedy.id, made.finding.state) == (MACHINE_WORK, "new-coupler", DIFFERS)
    both = ways(OWN, coupler=WEAK, drum=WEAK)
    assert [way.verdict for way in both] == [STOPS]


def test_a_load_that_always_was_there_is_not_asked_about():
    (way,) = ways(OWN, drum=WEAK, joint=dataclasses.replace(JOINT, torque="seat.torque"))
    assert way.finding.text == "stays together as it was in the machine"
    (way,) = ways(DONOR, "motor", motor=WEAK)
    assert way.finding.text == "stays together as it came on the donor"
    (way,) = ways(OWN, drum=WEAK, joint=dataclasses.replace(JOINT, torque=""))
    assert way.verdict == BOLTS_UP


@pytest.mark.parametrize(
    ("before", "verdict"),
    [
        pytest.param("340 N·m", BOLTS_UP, id="as much as the dead one gave"),
        pytest.param("339 N·m", STOPS, id="more than it gave"),
        pytest.param(None, STOPS, id="what it gave is not known"),
    ],
)
def test_shafts_that_carried_it_all_along_are_not_doubted(before, verdict):
    assert [way.verdict for way in ways(OWN, drum=WEAK, before=before)] == [verdict]
    assert [way.verdict for way in ways(DONOR, drum=WEAK, before=before)] == [STOPS]


def test_a_joint_hangs_on_whoever_supplies_its_load():
    case = Case(
        kind=KIND,
        seat={},
        own={},
        usable=frozenset(),
        pattern=id,
        shaft=id,
        own_hour_cents=0,
        hold_day_cents=0,
        lost_try_cents=80_000,
    )
    found = {each.name: each.slots for each in factors_of(case, Donor(title="", features={}, offer=None))}
    assert found == {"drum": ("coupler", "core"), "motor": ("core", "coupler")}


def test_what_is_doubtful_is_told_beside_what_is_found():
    (way,) = ways(OWN, drum=WEAK, need="")
    assert (way.verdict, way.finding.text) == (BOLTS_UP, "stays together as it was in the machine")
    assert way.finding.caveat == "rated 214 lb-ft (290 N·m) by its maker; the torque needed is not known"
    (way,) = ways(DONOR, need="400 N·m")
    assert (way.verdict, "1.1 times the 295 lb-ft (400 N·m) needed" in way.finding.text) == (BOLTS_UP, True)
    (way,) = ways(DONOR, need="500 N·m")
    assert (way.verdict, "ask its maker" in way.finding.caveat) == (BOLTS_UP, True)


@pytest.mark.parametrize(("by", "need"), list(itertools.product([OWN, DONOR], ["200 N·m", "400 N·m", "800 N·m"])))
def test_an_estimate_by_shear_refuses_nothing(by, need):
    assert [way.verdict for way in ways(by, need=need)] == [BOLTS_UP]


def test_a_joint_that_may_not_be_there_is_not_stopped_by_its_load():
    """Whether the drum is there hangs on a word nobody knows."""
    joint = dataclasses.replace(JOINT, when={"seat.drive": ("drum",)})
    (way,) = ways(DONOR, drum=WEAK, joint=joint)
    assert way.verdict == BOLTS_UP
    assert "rated 214 lb-ft" in way.finding.caveat


def flanged(pattern):
    return Shaft(form="flange", pattern=pattern)


def test_flanges_of_a_joint_go_by_the_patterns_of_the_catalog():
    loose = dataclasses.replace(JOINT, clearance=length("0.5 mm"))
    (same,) = ways(DONOR, drum=flanged("one"), coupler=flanged("same"), joint=loose)
    assert (same.verdict, "4 of 4 holes" in same.finding.text) == (BOLTS_UP, True)
    (wide,) = ways(DONOR, drum=flanged("one"), coupler=flanged("wide"), joint=loose)
    assert (wide.verdict, wide.finding.state) == (MACHINE_WORK, DIFFERS)


def test_the_demo_tractors_input_shaft_carries_what_its_maker_rates_it_for(hill_tractor):
    """The dead engine gives 192 lb-ft; the donor 218."""
    seat = hill_tractor.seat("engine")
    (form,) = seat.forms("tolvane-t412.stressed")
    input_id = seat.case.seat["seat.shaft"].ref
    needed = max(figure.high for figure in seat.features(form)["core.torque"].readings)

    def clutch(rated_nm):
        def find(id_):
            shaft = seat.case.shaft(id_)
            return dataclasses.replace(shaft, torque=torque(f"{rated_nm} N·m")) if shaft and id_ == input_id else shaft

        case = dataclasses.replace(seat.case, shaft=find, memory=Memory())
        made = plan(case, Donor(title="donor", features=seat.features(form), offer=seat.offer("running_machine")))
        return next(one for one in made.judged if one.name == "clutch")

    weak, strong = clutch(needed - 1), clutch(needed + 1)
    assert (weak.verdict, "by its maker; needs" in weak.reason) == (STOPS, True)
    assert strong.verdict != STOPS
