"""Every size of a standard against every other, through the joints the engine and the pump really have: only like sizes bolt up.

Figures are those of catalog/standards, whose prints are named there and held against a second copy in test_standards.py. A
second set is written here in the millimetres of other prints, so that no face is compared with itself.
"""

import dataclasses
import math
from itertools import product
from typing import NamedTuple

import pytest

from interchange.catalog.figure import Figure, Origin
from interchange.catalog.model import Pattern, Register, Shaft
from interchange.fit.chord import circle_from_chord
from interchange.fit.finding import AGREES, DIFFERS, NOT_KNOWN
from interchange.fit.pattern import compare_patterns
from interchange.fit.shaft import compare_shafts
from interchange.quantity import Quantity, Spline, read_quantity, read_spline

IN = 25.4


class Table(NamedTuple):
    """Sizes of one standard and the joint of the shipped kinds in which they are compared."""

    standard: str
    sizes: int
    kind: str
    joint: str


TABLES = {
    # Wichita Clutch mechanical PTO manual P-1100-WC p. 148, 9 sizes; a machine does not turn: the holes have to stand upright.
    "housings": Table("SAE J617", 9, "engine", "gearbox"),
    # "Housing and flywheel standards for diesel engines", a distributor's sheet; Xylem IM010 R08 p. 6. A crank turns.
    "flywheels": Table("SAE J620", 8, "engine", "coupling"),
    # PowerTorque (Funk), SAE pump standards table; AA from memory but for its pilot. A pump may hang turned by quarters.
    "pump flanges": Table("SAE J744", 12, "pump", "flange"),
}


def sizes_of(room, standard):
    return [one for one in room.values() if one.standard == standard]


def joint_of(catalog, table):
    return catalog.room("kinds")[table.kind].value.joints[table.joint]


@pytest.fixture(scope="module")
def gearbox(catalog):
    return catalog.room("kinds")["engine"].value.joints["gearbox"]


@pytest.fixture(scope="module")
def coupling(catalog):
    return catalog.room("kinds")["engine"].value.joints["coupling"]


@pytest.fixture(scope="module")
def pump_flange(catalog):
    return catalog.room("kinds")["pump"].value.joints["flange"]


def mm(value, read=""):
    text = f"{value:.2f} mm"
    return Figure(quantity=read_quantity(text, "length"), origin=Origin(read=read))


def nameless(one):
    """The same face or shaft as a stranger: the program may not go by its name."""
    return dataclasses.replace(one, id="", title="", size="")


@pytest.mark.parametrize("name", TABLES)
def test_only_like_sizes_bolt_up(catalog, patterns, name):
    table = TABLES[name]
    joint = joint_of(catalog, table)
    sizes = sizes_of(patterns, table.standard)
    assert len(sizes) == table.sizes
    unlike = {
        (one.id, other.id): compare_patterns(one, nameless(other), joint).text
        for one, other in product(sizes, sizes)
        if (compare_patterns(one, nameless(other), joint).state == AGREES) != (one.id == other.id)
    }
    assert unlike == {}


@pytest.mark.parametrize("name", TABLES)
def test_unlike_sizes_are_told_apart_and_not_merely_doubted(catalog, patterns, name):
    joint = joint_of(catalog, TABLES[name])
    for one, other in product(sizes_of(patterns, TABLES[name].standard), repeat=2):
        if one.id != other.id:
            finding = compare_patterns(one, nameless(other), joint)
            assert finding.state == DIFFERS, (one.id, other.id)
            assert finding.text


def test_shafts(shafts):
    """SAE J744 splines and keyed shafts (PowerTorque table; Mechaface, Spline components; Danfoss H1; the rest from memory), and
    the PTO shafts of ISO 500 among them: 19 shaft ends. Of the tapered one no print says whether it has a key, so that another
    which measures the same is not known to be it."""
    sizes = [one for one in shafts.values() if one.standard in ("SAE J744", "ISO 500")]
    assert len(sizes) == 19
    for one, other in product(sizes, sizes):
        finding = compare_shafts(one, nameless(other))
        alike = NOT_KNOWN if one.form == "taper" else AGREES
        assert finding.state == (alike if one.id == other.id else DIFFERS), (one.id, other.id, finding.text)


# The prints in millimetres. J620: the distributor's sheet: pilot, bolt circle, holes, depth G. J617: bores of an engine maker's
# specifications manual p. 0-69; the circles are the Wichita inches turned into millimetres, to two decimals.
FLYWHEELS_MM = {
    "sae-j620-6-1-2": (215.90, 200.02, 6, 30.2),
    "sae-j620-7-1-2": (241.30, 222.25, 8, 30.2),
    "sae-j620-8": (263.52, 244.48, 6, 62.0),
    "sae-j620-10": (314.32, 295.28, 8, 53.8),
    "sae-j620-11-1-2": (352.42, 333.38, 8, 39.6),
    "sae-j620-14": (466.72, 438.15, 8, 25.4),
    "sae-j620-16": (517.52, 488.95, 8, 15.7),
    "sae-j620-18": (571.50, 542.92, 6, 15.7),
}
HOUSINGS_MM = {
    "sae-j617-00": (787.40, 850.90, 16),
    "sae-j617-0": (647.70, 679.45, 16),
    "sae-j617-1-2": (584.20, 619.12, 12),
    "sae-j617-1": (511.18, 530.22, 12),
    "sae-j617-2": (447.68, 466.72, 12),
    "sae-j617-3": (409.58, 428.62, 12),
}


@pytest.mark.parametrize("id_", FLYWHEELS_MM)
def test_a_coupling_in_millimetres_finds_its_flywheel_alone(patterns, coupling, id_):
    pilot, circle, holes, depth = FLYWHEELS_MM[id_]
    spigot = Register(spigot=mm(pilot - 0.05))
    disc = Pattern(circle=mm(circle), holes=holes, hole=mm(18), pilot=spigot, depth=mm(depth))
    found = [one.id for one in sizes_of(patterns, "SAE J620") if compare_patterns(one, disc, coupling)]
    assert found == [id_]


@pytest.mark.parametrize("id_", HOUSINGS_MM)
def test_a_gearbox_in_millimetres_finds_its_housing_alone(patterns, gearbox, id_):
    bore, circle, holes = HOUSINGS_MM[id_]
    upright = Figure(quantity=read_quantity(f"{180 / holes} deg", "angle"))
    case = Pattern(circle=mm(circle), holes=holes, first_hole=upright, hole=mm(14), pilot=Register(spigot=mm(bore - 0.05)))
    found = [one.id for one in sizes_of(patterns, "SAE J617") if compare_patterns(one, case, gearbox)]
    assert found == [id_]


# The traps, each with what the program answers.


def test_numbers_6_and_3_by_the_spacing_of_neighbouring_holes(patterns):
    """Computed from the printed circles: 109.35 mm against 110.94 mm, 1.6 mm apart. A tape good to 1/16 in cannot part them, so a
    face of which only that spacing is known, and not how many holes it has, is not known."""
    six, three = patterns["sae-j617-6"], patterns["sae-j617-3"]
    apart = three.circle.value * math.sin(math.pi / 12) - six.circle.value * math.sin(math.pi / 8)
    assert apart == pytest.approx(1.6, abs=0.05)
    spacing, tape = 110.2, 1.5875  # between the two
    for size, holes in ((six, 8), (three, 12)):
        read = circle_from_chord(spacing, holes, tolerance_mm=tape)
        assert abs(read.circle_mm - size.circle.value) < read.tolerance_mm


@pytest.mark.parametrize("id_", ["sae-j617-6", "sae-j617-3"])
def test_without_the_hole_count_neither_is_taken_for_it(patterns, gearbox, id_):
    uncounted = Pattern(circle=patterns[id_].circle, pilot=patterns[id_].pilot)
    assert compare_patterns(patterns[id_], uncounted, gearbox).state == NOT_KNOWN


def test_six_and_three_are_told_apart_by_count(patterns, gearbox):
    assert compare_patterns(patterns["sae-j617-6"], patterns["sae-j617-3"], gearbox).text == "8 holes against 12"


def test_a_flange_measured_as_a_bore_fits_neither(patterns, gearbox):
    """The flange of a No. 1/2 is as wide, 25.500 in, as the pilot bore of a No. 0 (Wichita table). Who takes it for the bore has
    a face that is a No. 1/2 by its holes and a No. 0 by its bore, and is told so rather than given either."""
    half, nought = patterns["sae-j617-1-2"], patterns["sae-j617-0"]
    assert half.flange.value == pytest.approx(nought.pilot.bore.low)
    misread = dataclasses.replace(half, id="", pilot=Register(bore=half.flange))
    assert compare_patterns(half, misread, gearbox).text == "pilots 23.000-23.008 in against 25-1/2 in"
    assert compare_patterns(nought, misread, gearbox).text == "16 holes against 12"


def test_a_housing_and_a_flywheel_are_never_one_face(patterns, gearbox, coupling):
    """All 72 pairs, turned freely and upright. A No. 5 housing and an 11-1/2 in flywheel are both 8 tapped holes on 13.125 in:
    they are different parts, and what says so is the pilot, 12.375 in against 13.875 in."""
    shared = []
    for housing, flywheel in product(sizes_of(patterns, "SAE J617"), sizes_of(patterns, "SAE J620")):
        for joint in (gearbox, coupling):
            finding = compare_patterns(housing, flywheel, joint)
            assert finding.state == DIFFERS, (housing.id, flywheel.id)
        if finding.text.startswith("pilots"):
            shared.append((housing.id, flywheel.id, finding.text))
    assert shared == [("sae-j617-5", "sae-j620-11-1-2", "pilots 12.375-12.380 in against 13-7/8 in")]


def test_eight_holes_on_thirteen_and_an_eighth_without_a_pilot_bolt_to_both_and_are_located_by_neither(patterns, coupling):
    face = Pattern(circle=mm(333.38), holes=8, hole=mm(10.3))
    for id_ in ("sae-j617-5", "sae-j620-11-1-2"):
        finding = compare_patterns(patterns[id_], face, coupling)
        assert (finding.state, "nothing known on both faces locates it" in finding.caveat) == (AGREES, True)


@pytest.mark.parametrize(("one", "other"), list(product(FLYWHEELS_MM, repeat=2)))
def test_the_right_bolts_at_another_sizes_depth_differ(patterns, coupling, one, other):
    """A matching bolt circle is not a fit: depth G has to be the same. G per size as printed on the distributor's sheet."""
    depth = FLYWHEELS_MM[other][3]
    deep = dataclasses.replace(patterns[one], id="", depth=mm(depth))
    finding = compare_patterns(patterns[one], deep, coupling)
    same = depth == FLYWHEELS_MM[one][3]
    assert finding.state == (AGREES if same else DIFFERS)
    assert same or "the bolts line up, but the depth is" in finding.text


PAIRED = ("b", "c", "d", "e", "f")


@pytest.mark.parametrize("letter", PAIRED)
def test_two_and_four_bolts_of_one_letter(patterns, pump_flange, letter):
    """One pilot for both (PowerTorque table); sizes D, E and F have one circle too, and stay two flanges."""
    two, four = (patterns[f"sae-j744-{letter}-{bolts}-bolt"] for bolts in (2, 4))
    assert two.pilot.spigot.value == four.pilot.spigot.value
    assert (two.circle.value == four.circle.value) == (letter in "def")
    assert compare_patterns(two, four, pump_flange).text == "2 holes against 4"
    uncounted = Pattern(circle=two.circle, pilot=two.pilot)
    assert compare_patterns(two, uncounted, pump_flange).state == NOT_KNOWN


def test_a_pump_may_hang_turned_by_a_quarter_and_by_no_eighth(patterns, pump_flange):
    two = patterns["sae-j744-b-2-bolt"]
    for turned, state in ((0, AGREES), (45, DIFFERS)):
        angle = Figure(quantity=Quantity("angle", float(turned), None, None, None, f"{turned} deg"))
        hung = dataclasses.replace(two, id="", first_hole=angle)
        assert compare_patterns(two, hung, pump_flange).state == state, turned


# Pairs that share what one sees first. Teeth and pitch: PowerTorque table; 15T 16/32 and the keyed sizes from memory.
SAME_AT_A_GLANCE = [
    pytest.param("sae-j744-b-spline", "sae-j744-d-spline", "13T 16/32 against 13T 8/16", id="13 teeth, fine and coarse"),
    pytest.param("sae-j744-bb-spline", "sae-j744-f-spline", "15T 16/32 against 15T 8/16", id="15 teeth, fine and coarse"),
    pytest.param("sae-j744-b-spline", "sae-j744-b-keyed", "involute against keyed", id="7/8 in, spline and key"),
    pytest.param("sae-j744-c-spline", "sae-j744-c-keyed", "involute against keyed", id="1-1/4 in, spline and key"),
    pytest.param("sae-j744-bb-spline", "sae-j744-c-spline", "15 teeth against 14", id="one tooth more on a thinner shaft"),
]


@pytest.mark.parametrize(("one", "other", "says"), SAME_AT_A_GLANCE)
def test_shafts_alike_at_a_glance(shafts, one, other, says):
    for pair in ((one, other), (other, one)):
        assert compare_shafts(shafts[pair[0]], shafts[pair[1]]).state == DIFFERS
    assert compare_shafts(shafts[one], shafts[other]).text == says


@pytest.mark.parametrize("id_", ["sae-j744-b-spline", "sae-j744-d-spline"])
def test_teeth_alone_do_not_name_a_shaft(shafts, id_):
    """Thirteen teeth are B's and D's: counted but neither measured nor read for pitch, the shaft is not known."""
    counted = Shaft(form="involute", teeth=13)
    assert compare_shafts(shafts[id_], counted).state == NOT_KNOWN
    measured = Shaft(form="involute", teeth=13, major=shafts[id_].major)
    other = "sae-j744-d-spline" if id_ == "sae-j744-b-spline" else "sae-j744-b-spline"
    assert (compare_shafts(shafts[id_], measured).state, compare_shafts(shafts[other], measured).state) == (AGREES, DIFFERS)


def test_a_module_spline_close_to_a_pitch_is_not_it(shafts):
    """Module 1.5875 mm is 16 teeth an inch exactly (25.4 / 16); module 1.5, which looks the same, is not."""
    same = Shaft(
        form="involute", spline=Spline(13, None, 1.5875, "13T of module 1.5875"), major=shafts["sae-j744-b-spline"].major
    )
    near = dataclasses.replace(same, spline=read_spline("13T m1.5"))
    assert compare_shafts(shafts["sae-j744-b-spline"], same).state == AGREES
    assert compare_shafts(shafts["sae-j744-b-spline"], near).state == DIFFERS
