import dataclasses

import pytest

from interchange.catalog.figure import Figure, Origin
from interchange.catalog.model import Bolts, Joint, Pattern, Point
from interchange.fit.finding import AGREES, DIFFERS
from interchange.fit.part_match import partial_line_up
from interchange.fit.pattern import compare_patterns
from interchange.quantity import Quantity, read_thread

LBF_N, IN = 4.4482216152605, 25.4


def mm(value):
    return Figure(quantity=Quantity("length", value, None, None, None, f"{value:g} mm"))


def ring(holes, diameter, first=0.0, **more):
    angle = Figure(quantity=Quantity("angle", first, None, None, None, f"{first:g} deg"))
    return Pattern(id=f"{holes} on {diameter}", circle=mm(diameter), holes=holes, first_hole=angle, **more)


BOLTS = Bolts(grades=("5", "8.8"), friction=0.15, safety=2.0)
JOINT = Joint(between=("a.x", "b.x"), clearance=mm(0.8), bolts=BOLTS)
ANY = dataclasses.replace(JOINT, clock=("any",))
INCH = {"thread": read_thread("3/8-16")}


@pytest.mark.parametrize(
    ("a", "b", "joint", "line_up", "clockings"),
    [
        pytest.param(ring(8, 400), ring(12, 400), JOINT, 4, (0,), id="8 and 12: every second and every third"),
        pytest.param(ring(8, 400), ring(12, 400, 15), JOINT, 4, (0,), id="half a pitch on: the other four"),
        pytest.param(ring(8, 400), ring(12, 400, 7.5), JOINT, 0, (), id="a quarter pitch on"),
        pytest.param(ring(8, 400), ring(12, 400, 10), ANY, 4, range(5, 360, 15), id="free: wherever they meet, every 15 degrees"),
        pytest.param(ring(8, 400), ring(12, 400.7), JOINT, 4, (0,), id="unequal circles within the clearance"),
        pytest.param(ring(8, 400), ring(12, 401), JOINT, 0, (), id="unequal circles beyond it"),
        pytest.param(ring(10, 400), ring(12, 400), ANY, 2, range(0, 360, 6), id="10 and 12 share a factor of two"),
        pytest.param(ring(5, 400), ring(12, 400), ANY, 1, range(0, 360, 6), id="5 and 12 share none"),
    ],
)
def test_how_many_line_up(a, b, joint, line_up, clockings):
    found = partial_line_up(a, b, joint).found
    assert found.line_up == line_up == partial_line_up(b, a, joint).found.line_up
    assert sorted(clock % 360 for clock in found.clockings) == pytest.approx(list(clockings), abs=1e-6)
    assert compare_patterns(a, b, joint).state == DIFFERS


def test_four_3_8_bolts_by_hand():
    """Four 3/8-16 of grade 5 on a 16-7/8 in circle, at 75 % of a printed proof load of 6,600 lbf (SAE J429).

    4 × 0.75 × 6,600 lbf × 0.15 × 8.4375 in / 2 = 12,530 lbf-in: 1,416 N·m.
    """
    found = partial_line_up(ring(8, 16.875 * IN, **INCH), ring(12, 16.875 * IN, hole=mm(10.3)), JOINT, 1200.0)
    assert found.carried_nm == pytest.approx(12_530 * LBF_N * IN / 1000, rel=0.003)
    assert found.threads == ("3/8-16",)
    assert "grade 5, preload 75% of proof, friction 0.15, safety 2" in found.basis
    assert "as much as" in found.words
    assert "less than" in found._replace(needed_nm=1500.0).words


@pytest.mark.parametrize(
    ("a", "b", "bolts", "says"),
    [
        pytest.param({}, {}, BOLTS, "the bolts' size is not", id="no size anywhere"),
        pytest.param({"thread": read_thread("M10x1.5")}, {}, None, "no grade, friction and safety", id="the joint says nothing"),
        pytest.param({"thread": read_thread("M42x4.5")}, {}, BOLTS, "M42x4.5 of grade 5 or 8.8 is not in", id="off the tables"),
        pytest.param(
            {"hole": mm(15.4)}, {"hole": mm(15.4)}, BOLTS, "the bolts' size is not", id="14.6 mm is neither 9/16 in nor 16"
        ),
        pytest.param({"hole": mm(15.1)}, {"hole": mm(15.3)}, BOLTS, "", id="14.3 mm is 9/16 in"),
        pytest.param({"hole": mm(19.0)}, {"hole": mm(19.2)}, BOLTS, "", id="18.2 mm is near M18"),
        pytest.param({"hole": mm(18.0)}, {"hole": mm(18.0)}, BOLTS, "the bolts' size is not", id="17.2 mm is no size"),
    ],
)
def test_what_they_carry_is_known_or_not(a, b, bolts, says):
    joint = dataclasses.replace(JOINT, bolts=bolts)
    found = partial_line_up(ring(8, 400, **a), ring(12, 400, **b), joint)
    assert (found.carried_nm is None) == bool(says)
    assert says in found.basis
    assert ("what they carry is not known" in found.words) == bool(says)


def test_a_joint_without_friction_carries_nothing_known():
    slippery = dataclasses.replace(JOINT, bolts=dataclasses.replace(BOLTS, friction=0.0))
    found = partial_line_up(ring(8, 400, **INCH), ring(12, 400), slippery)
    assert (found.carried_nm, found.basis) == (None, "the friction of this joint is written as none")


def test_holes_of_mixed_size_carry_each_its_own():
    """M10 above and below (33,700 N of proof), M16 at the sides (91,000 N, Optimas): 0.75 × 0.15 × 0.1 m × 2 × 124,700 N / 2."""
    threads = [read_thread(text) for text in ("M10x1.5", "M16x2", "M10x1.5", "M16x2")]
    places = [(0, 100), (100, 0), (0, -100), (-100, 0)]
    tapped = Pattern(
        id="tapped", points=tuple(Point(x=mm(x), y=mm(y), thread=t) for (x, y), t in zip(places, threads, strict=True))
    )
    more = [*zip(places, (10.8, 16.8, 10.8, 16.8), strict=True), ((70.0, 70.0), 10.8)]
    clear = Pattern(id="clear", points=tuple(Point(x=mm(x), y=mm(y), hole=mm(size)) for (x, y), size in more))
    found = partial_line_up(tapped, clear, JOINT)
    assert found.found.line_up == 4
    assert found.carried_nm == pytest.approx(0.75 * 0.15 * 0.1 * 124_700, rel=0.003)
    assert found.threads == ("M10x1.5", "M16x2")
    turned = Pattern(id="turned", points=tuple(Point(x=p.y, y=mm(-p.x.value), hole=p.hole) for p in clear.points))
    assert partial_line_up(tapped, turned, JOINT).found.line_up == 2  # M10 in 16.8 mm goes too, M16 in 10.8 mm does not


def test_the_finding_says_it_and_stays_a_difference():
    found = compare_patterns(ring(8, 400, **INCH), ring(12, 400), ANY, 350.0)
    assert (found.state, found.text) == (DIFFERS, "8 holes against 12, of which 4 line up")
    assert found.caveat.startswith(
        "not a fit, but 4 of 12 line up, or 15°, 30°, 45°, 60° and 19 more, 0.00 mm off at worst of 0.40 mm"
    )
    assert "needed" in found.caveat
    assert found.carried_nm == pytest.approx(partial_line_up(ring(8, 400, **INCH), ring(12, 400), ANY).carried_nm)
    fits = compare_patterns(ring(8, 400, **INCH), ring(8, 400), ANY, 350.0)
    assert (fits.state, fits.carried_nm) == (AGREES, None)


def test_where_nothing_centres_the_faces_it_says_so():
    joint = dataclasses.replace(JOINT, register=mm(0.25))
    assert compare_patterns(ring(8, 400), ring(12, 400), joint).caveat.startswith("not located: nothing known centres")
    pins = (Point(x=mm(80), y=mm(0)),)
    assert "not located" not in compare_patterns(ring(8, 400, dowels=pins), ring(12, 400), joint).caveat


@pytest.mark.parametrize("other", [ring(12, 400, hole=mm(10.3)), Pattern(id="nothing known")], ids=["a circle", "nothing"])
def test_a_face_not_known_has_no_line_up(other):
    unknown = Pattern(id="unknown", circle=mm(400))
    assert partial_line_up(unknown, other, JOINT) is None


def test_what_is_written_in_the_kind(pit_loader):
    bolts = pit_loader.library.kind("engine").joints["gearbox"].bolts
    assert (bolts.grades, bolts.friction, bolts.safety) == (("5", "8.8"), 0.15, 2.0)
    assert bolts.origin == Origin(basis="judgement", source="common practice, no source")
    crank = pit_loader.library.kind("engine").joints["crank"].bolts
    assert crank.grades == ("8", "10.9")
    assert pit_loader.library.kind("engine").joints["starter"].bolts is None


def test_what_is_carried_grows_with_the_circle():
    small, large = (partial_line_up(ring(4, size, **INCH), ring(8, size), JOINT).carried_nm for size in (200, 400))
    assert large == pytest.approx(2 * small)
