"""The shipped engine's sums, worked by hand.

E is the housing's rear face forward to the crank flange, P the plate, Tf the flywheel.
"""

import dataclasses

import pytest

from interchange.catalog.figure import Figure, Origin
from interchange.catalog.model import Offer, Remedy, StackUp
from interchange.fit.case import Case, Chance, Donor, Suppliers
from interchange.fit.closing import closings, ways_to_close
from interchange.fit.finding import ADAPTS, BOLTS_UP, MACHINE_WORK, STOPS, UNSURE
from interchange.fit.report import plan
from interchange.fit.stack_up import made_ready, stand, terms_of, window
from interchange.quantity import Quantity, read_quantity

OWN_ALL = {"core": "donor", "housing": "own", "flywheel": "own", "clutch": "own"}
CLUTCH = {"seat.drive": "clutch", "seat.tip": "116 mm", "seat.tip_diameter": "20 mm"}
OWN = {
    "core.flange_proud": "14 mm",
    "core.bush_recess": "5 mm",
    "core.bush_hole_depth": "30 mm",
    "housing.depth": "120 mm",
    "flywheel.thick": "50 mm",
}
DONOR = {"core.flange_proud": "16 mm", "core.bush_recess": "8 mm", "core.bush_hole_depth": "30 mm"}


def figures(texts, read=""):
    return {
        path: Figure(word=text)
        if path in ("seat.drive", "seat.frame")
        else Figure(quantity=read_quantity(text, "length"), origin=Origin(read=read))
        for path, text in texts.items()
    }


@pytest.fixture
def kind(pit_loader):
    return pit_loader.library.kind("engine")


def case_of(kind, seat, own=OWN, **more):
    return Case(kind=kind, seat=figures(seat), own=figures(own), usable=frozenset(), pattern=lambda _: None, shaft=lambda _: None,
                own_hour_cents=3500, hold_day_cents=0, lost_try_cents=80_000, **more)  # fmt: skip


def donor_of(texts=DONOR, read=""):
    return Donor(title="donor", features=figures(texts, read), offer=Offer(has=("core",)))


def closed(case, donor, name, shifts=None, by=OWN_ALL, remedies=()):
    """How one sum of the kind closes the cheapest way."""
    stack = case.kind.stack_ups[name]
    standings = [stand(made_ready(case, donor, name, stack), Suppliers(case, donor, by), shifts or {})]
    best = min(ways_to_close(case, standings, shifts or {}, frozenset(remedies)), key=lambda way: (way.stops, way.cents))
    return closings(case, standings, shifts or {}, best, frozenset(remedies))[0]


def plate(thick):
    return {"gearbox": (thick, thick)}


@pytest.mark.parametrize(
    ("name", "thick", "sum_mm", "verdict"),
    [
        # X = E + P - Tf: own 120 - 14 - 50 = 56; with the donor's flange 16 mm proud 120 - 16 - 50 = 54, 2 mm short of it.
        pytest.param("friction_face", 0, 54, STOPS, id="friction face: 2 mm forward"),
        pytest.param("friction_face", 0.5, 54.5, BOLTS_UP, id="friction face: half a millimetre of shim, 1.5 off"),
        pytest.param("friction_face", 0.4, 54.4, STOPS, id="friction face: 1.6 off"),
        pytest.param("friction_face", 3.5, 57.5, BOLTS_UP, id="friction face: 1.5 off the other way"),
        pytest.param("friction_face", 3.6, 57.6, STOPS, id="friction face: 1.6 off the other way"),
        # pe = S - (B + P), B = E + recess = 104 + 8 = 112: 116 - 112 = 4, less half the tip's 20 mm: -6.
        pytest.param("pilot_engagement", 0, -6, STOPS, id="tip 4 mm in the bush, 10 wanted"),
        # tc = (B + P + Dp) - S = 112 + 30 - 116 = 26.
        pytest.param("tip_clearance", 0, 26, BOLTS_UP, id="26 mm ahead of the tip"),
    ],
)
def test_clutch_sums_by_hand(kind, name, thick, sum_mm, verdict):
    found = closed(case_of(kind, CLUTCH), donor_of(), name, plate(thick))
    assert (found.sum_mm, found.verdict) == (pytest.approx(sum_mm), verdict)


@pytest.mark.parametrize(
    ("tip", "sum_mm", "verdict"),
    [
        pytest.param("122 mm", 0, BOLTS_UP, id="in the bush by just half its diameter"),
        pytest.param("121.9 mm", -0.1, STOPS, id="by a tenth less"),
    ],
)
def test_pilot_engagement_wants_half_the_tip(kind, tip, sum_mm, verdict):
    found = closed(case_of(kind, CLUTCH | {"seat.tip": tip}), donor_of(), "pilot_engagement")
    assert (found.sum_mm, found.verdict) == (pytest.approx(sum_mm), verdict)


@pytest.mark.parametrize(
    ("tip", "sum_mm", "verdict"),
    [
        pytest.param("140.5 mm", 1.5, BOLTS_UP, id="1.5 mm ahead of it"),
        pytest.param("140.6 mm", 1.4, STOPS, id="1.4 mm"),
        pytest.param("143 mm", -1, STOPS, id="bottomed"),
    ],
)
def test_tip_clearance_wants_a_millimetre_and_a_half(kind, tip, sum_mm, verdict):
    found = closed(case_of(kind, CLUTCH | {"seat.tip": tip}), donor_of(), "tip_clearance")
    assert (found.sum_mm, found.verdict) == (pytest.approx(sum_mm), verdict)


@pytest.mark.parametrize(
    ("offset", "gap_mm", "verdict"),
    [
        # g = R + P + Q with Q = E - offset: 16 + 0 + (120 - 16) - 116.8 = 3.2.
        pytest.param("116.8 mm", 3.2, BOLTS_UP, id="the maker's figure"),
        pytest.param("116 mm", 4.0, BOLTS_UP, id="0.8 more"),
        pytest.param("115.9 mm", 4.1, STOPS, id="0.9 more"),
        pytest.param("117.6 mm", 2.4, BOLTS_UP, id="0.8 less"),
        pytest.param("120 mm", 0.0, STOPS, id="no gap: forced"),
    ],
)
def test_converter_gap_by_hand(kind, offset, gap_mm, verdict):
    seat = {"seat.drive": "converter", "seat.pad_depth": "16 mm", "seat.converter_gap": "3.2 mm"}
    case = case_of(kind, seat, OWN | {"flywheel.flexplate_offset": offset})
    found = closed(case, donor_of(), "converter_gap")
    assert (found.sum_mm, found.target_mm, found.verdict) == (pytest.approx(gap_mm), pytest.approx(3.2), verdict)


def test_drive_depth_by_hand(kind):
    """Housing face to drive face for a coupling: 120 - 16 - 50.2 = 53.8, the depth G of a size 10 flywheel."""
    case = case_of(kind, {"seat.drive": "direct", "seat.drive_depth": "53.8 mm"}, OWN | {"flywheel.drive_face": "50.2 mm"})
    found = closed(case, donor_of(), "drive_depth")
    assert (found.sum_mm, found.verdict) == (pytest.approx(53.8), BOLTS_UP)


def test_tolerances_add_up(kind):
    """Donor's flange by depth gauge, ±0.508: 54.5 ±0.51 against 54.5 to 57.5 closes, but only as read."""
    found = closed(case_of(kind, CLUTCH), donor_of(read="depth gauge"), "friction_face", plate(0.5))
    assert (found.verdict, found.tolerance_mm) == (BOLTS_UP, pytest.approx(0.508))
    assert found.finding.text == "54.5 ±0.51 mm, wanted 54.5 to 57.5 mm"
    assert found.finding.caveat == "within the reading error of its limit"
    sure = closed(case_of(kind, CLUTCH), donor_of(read="depth gauge"), "friction_face", plate(2))
    assert (sure.verdict, sure.finding.caveat) == (BOLTS_UP, "")
    short = closed(case_of(kind, CLUTCH), donor_of(read="depth gauge"), "friction_face", plate(0.2))
    assert short.finding.caveat == "the readings alone may be off by as much: measure again"


def test_what_is_carried_over_is_off_by_nothing(kind):
    """Own housing and flywheel read by depth gauge stand in both sums: only the two flanges' ±0.508 are left."""
    case = dataclasses.replace(case_of(kind, CLUTCH), own=figures(OWN, "depth gauge"))
    carried = closed(case, donor_of(read="depth gauge"), "friction_face", plate(2))
    assert carried.tolerance_mm == pytest.approx(2 * 0.508)
    swapped = donor_of(DONOR | {"housing.depth": "120 mm"}, "depth gauge")
    exchanged = closed(case, swapped, "friction_face", plate(2), by=OWN_ALL | {"housing": "donor"})
    assert "good to ±2 mm together" in exchanged.finding.text


def test_readings_coarser_than_the_play_settle_nothing(kind):
    """A tape is good to ±1.59 mm, and 1.5 is all the friction face may be off: not known, and no plate is ordered."""
    found = closed(case_of(kind, CLUTCH), donor_of(read="tape"), "friction_face", plate(2))
    assert (found.verdict, found.missing) == (UNSURE, ("closer readings",))
    assert found.finding.text == "the readings are good to ±1.6 mm together, and ±1.5 mm is all it may be off"
    clearance = closed(case_of(kind, CLUTCH), donor_of(read="tape"), "tip_clearance")
    assert clearance.verdict == BOLTS_UP  # it has no upper limit, and 26 mm is far from 1.5


@pytest.mark.parametrize(
    ("left_out", "says"),
    [
        pytest.param("housing.depth", "own housing depth", id="of the dead unit's housing"),
        pytest.param("core.flange_proud", "flange proud not known", id="of the donor's core"),
    ],
)
def test_one_term_not_known_makes_the_sum_not_known(kind, left_out, says):
    own = {path: text for path, text in OWN.items() if path != left_out or path.startswith("core")}
    has = {path: text for path, text in DONOR.items() if path != left_out}
    found = closed(case_of(kind, CLUTCH, own), donor_of(has), "friction_face")
    assert (found.verdict, found.sum_mm) == (UNSURE, None)
    assert says in found.finding.text


def test_whether_a_sum_matters_has_to_be_known_too(kind):
    seat = {path: text for path, text in CLUTCH.items() if path != "seat.drive"}
    found = closed(case_of(kind, seat), donor_of(), "friction_face", plate(2))
    assert (found.verdict, found.missing) == (UNSURE, ("seat.drive",))


def test_an_adapter_of_unknown_thickness_makes_the_sum_not_known(kind):
    found = closed(case_of(kind, CLUTCH), donor_of(), "friction_face", {"gearbox": None})
    assert (found.verdict, found.missing) == (UNSURE, ("thickness of the adapter in gearbox",))


def money(value):
    return Figure(quantity=Quantity("money", float(value), None, None, None, ""))


SPACER = Remedy(id="spacer-turned", title="spacer", money=money(30000))
BUSH = Remedy(id="bush-extended", title="bush", money=money(9000), bought=True)


def test_what_does_not_close_is_mended_and_what_is_not_known_is_charged(kind):
    mends = {"spacer-turned": SPACER, "bush-extended": BUSH}
    case = case_of(kind, CLUTCH, remedies=mends, chances={"pilot_engagement": Chance(0.75, "")})
    spacer = closed(case, donor_of(), "friction_face")
    assert (spacer.verdict, spacer.remedy) == (MACHINE_WORK, SPACER)
    assert closed(case, donor_of(), "pilot_engagement").verdict == ADAPTS
    unknown = closed(case, donor_of({"core.flange_proud": "16 mm"}), "pilot_engagement")
    assert (unknown.verdict, unknown.charge_cents) == (UNSURE, pytest.approx(0.25 * 9000))
    paid = closed(case, donor_of({"core.flange_proud": "16 mm"}), "pilot_engagement", remedies=["bush-extended"])
    assert paid.charge_cents == 0


def test_a_made_plate_is_as_thick_as_closes_everything(kind):
    """friction face closes with 0.5 to 3.5 mm of plate and the tip with at most 3: so 0.5 to 3, and the middle of it."""
    case = case_of(kind, CLUTCH | {"seat.tip": "125 mm"})
    names = ("friction_face", "pilot_engagement", "tip_clearance")
    shifts = {"gearbox": (0.0, 10.0)}
    standings = [
        stand(made_ready(case, donor_of(), name, case.kind.stack_ups[name]), Suppliers(case, donor_of(), OWN_ALL), shifts)
        for name in names
    ]
    best = min(ways_to_close(case, standings, shifts, frozenset()), key=lambda way: way.stops)
    made = closings(case, standings, shifts, best, frozenset())
    assert [each.verdict for each in made] == [BOLTS_UP] * 3
    assert [each.plates for each in made] == [(("gearbox", pytest.approx(1.75)),)] * 3


def test_two_made_plates_share_what_is_wanted(kind):
    """A plate of 0 to 3 mm and another of 0 to 10: 12 mm is in reach only with both."""
    stack = StackUp(title="", sum=("+rear.thick", "+gearbox.thick"), at_least=Figure(quantity=read_quantity("12 mm", "length")))
    case, shifts = case_of(kind, CLUTCH), {"rear": (0.0, 3.0), "gearbox": (0.0, 10.0)}
    standings = [stand(made_ready(case, donor_of(), "both", stack), Suppliers(case, donor_of(), OWN_ALL), shifts)]
    (made,) = [
        closings(case, standings, shifts, way, frozenset())[0]
        for way in ways_to_close(case, standings, shifts, frozenset())
        if not way.stops
    ]
    assert sum(thick for _, thick in made.plates) == pytest.approx(made.sum_mm)
    assert made.sum_mm >= 12


def test_the_shipped_sums_are_the_trade_s(kind):
    """X = E + P - Tf, pe = S - (B + P), tc = (B + P + Dp) - S, g = R + P + Q, with E, B and Q built from parts."""
    e = {"housing.depth": 1, "rear.thick": 1, "core.flange_proud": -1}
    b = e | {"core.bush_recess": 1}
    minus_b = {path: -factor for path, factor in b.items()}
    wanted = {
        "friction_face": e | {"gearbox.thick": 1, "crank.thick": -1, "flywheel.thick": -1},
        "pilot_engagement": minus_b | {"seat.tip": 1, "gearbox.thick": -1, "seat.tip_diameter": -0.5},
        "tip_clearance": b | {"core.bush_hole_depth": 1, "gearbox.thick": 1, "seat.tip": -1},
        "converter_gap": e | {"seat.pad_depth": 1, "gearbox.thick": 1, "flywheel.flexplate_offset": -1},
    }
    for name, terms in wanted.items():
        shipped = {term.path: term.factor for term in terms_of(kind.stack_ups[name].sum)}
        assert shipped | {"crank.thick": 0} == terms | {"crank.thick": 0}


def test_no_plate_is_to_be_ordered_before_every_depth_is_known(pit_loader):
    """In the demo: leave the donor's flange depth out, and the plan says so."""
    seat = pit_loader.seat("engine")
    form = seat.forms("hestrel-h52d.power-unit")[0]
    features = dict(seat.features(form))
    whole = plan(seat.case, Donor(title="", features=features, offer=seat.offer("long_block")))
    assert whole.hold == ()
    del features["core.flange_proud"]
    lacking = plan(seat.case, Donor(title="", features=features, offer=seat.offer("long_block")))
    assert lacking.hold == ("converter_gap",)
    depth = next(one for one in lacking.judged if one.name == "depth")
    assert (depth.verdict, depth.chance.value) == (UNSURE, 0.5)


def test_a_plate_that_does_not_close_a_sum_is_as_thin_as_leaves_least_to_mend(kind):
    """Own 56; the donor with a plate of 12 to 40 mm 66 at the least, 8.5 over what is wanted."""
    shifts, donor = {"gearbox": (12.0, 40.0)}, donor_of()
    mended = case_of(kind, CLUTCH, remedies={"spacer-turned": SPACER})
    found = closed(mended, donor, "friction_face", shifts)
    assert (found.remedy, found.plates, found.finding.gap_mm) == (SPACER, (("gearbox", 12.0),), pytest.approx(8.5))


def test_window():
    within = StackUp(title="", sum=(), within=Figure(quantity=read_quantity("1.5 mm", "length")))
    assert window(within, 10) == (8.5, 11.5)
    at_least = StackUp(title="", sum=(), at_least=Figure(quantity=read_quantity("1.5 mm", "length")))
    assert window(at_least, 10) == (11.5, float("inf"))
    at_most = StackUp(title="", sum=(), at_most=Figure(quantity=read_quantity("50.8 mm", "length")))
    assert window(at_most, 10) == (float("-inf"), 60.8)
    both = dataclasses.replace(at_least, at_most=at_most.at_most)
    assert window(both, 10) == (11.5, 60.8)


@pytest.mark.parametrize(
    ("room", "verdict", "says"),
    [
        pytest.param("1066.8 mm", BOLTS_UP, "50.8 mm, wanted at most 50.8 mm", id="2 in"),
        pytest.param("1068.8 mm", ADAPTS, "52.8 mm, wanted at most 50.8 mm; out by 2.0 mm", id="2 mm more"),
    ],
)
def test_a_sum_that_may_be_so_much_at_most(kind, room, verdict, says):
    """1066.8 - 96 - 920 = 50.8 mm from fan to core."""
    spacer = Remedy(id="fan-spacer", title="fan spacer", bought=True)
    case = case_of(kind, {"seat.room_length": room}, remedies={"fan-spacer": spacer})
    donor = donor_of({"core.length": "920 mm", "housing.depth": "96 mm"})
    made = closed(case, donor, "fan_near", by={"core": "donor", "housing": "donor"})
    assert (made.verdict, made.finding.text) == (verdict, says)


def test_a_kind_with_a_bad_term_is_refused():
    with pytest.raises(ValueError, match="is not a term"):
        terms_of(("+housing.depth", "housing"))
