import math
import random

import pytest

from interchange.catalog.figure import Figure, Origin
from interchange.catalog.geometry import Hole
from interchange.catalog.model import Joint, Pattern, Point
from interchange.fit.clocking import Clock, line_up, turned
from interchange.fit.finding import AGREES, DIFFERS, NOT_KNOWN
from interchange.fit.pattern import compare_patterns
from interchange.fit.reading_odds import chance_of_mating, within_disc
from interchange.quantity import read_quantity

UPRIGHT, FREE = Clock((0.0,)), Clock(None)


def length(text, read=""):
    return Figure(quantity=read_quantity(text, "length"), origin=Origin(read=read))


def ring(count, radius, off=None):
    angles = [math.tau / count * i for i in range(count)]
    return tuple(Hole(radius * math.sin(a), radius * math.cos(a), None, None, off) for a in angles)


def shaken(luck, face, sigma):
    return tuple(h._replace(x_mm=h.x_mm + luck.gauss(0, sigma), y_mm=h.y_mm + luck.gauss(0, sigma)) for h in face)


def rice(offset, slack, sigma):
    """The same chance by its series: Poisson weights of the offset times the gamma shares of the disc."""
    x, y = (offset / sigma) ** 2 / 2, (slack / sigma) ** 2 / 2
    total, weight, gone, term = 0.0, math.exp(-x), 0.0, math.exp(-y)
    for k in range(400):
        gone += term
        total += weight * (1 - gone)
        weight *= x / (k + 1)
        term *= y / (k + 1)
    return total


@pytest.mark.parametrize("offset", [0.0, 0.3, 1.0, 2.5])
@pytest.mark.parametrize("slack", [0.05, 0.4, 1.0, 3.0])
@pytest.mark.parametrize("sigma", [0.2, 0.5, 2.0])
def test_the_disc_against_the_series(offset, slack, sigma):
    assert within_disc(offset, slack, sigma) == pytest.approx(rice(offset, slack, sigma), abs=1e-7)


@pytest.mark.parametrize(
    ("offset", "slack", "sigma", "chance"),
    [
        pytest.param(0.39, 0.4, 0.0, 1.0, id="exact and inside"),
        pytest.param(0.41, 0.4, 0.0, 0.0, id="exact and outside"),
        pytest.param(0.0, -0.1, 1.0, 0.0, id="a bolt too thick passes nowhere"),
        pytest.param(50.0, 0.4, 0.1, 0.0, id="hopeless"),
        pytest.param(0.0, 100.0, 0.1, 1.0, id="certain"),
        pytest.param(10.0, 10.0, 0.001, 0.5, id="on the edge of a wide disc: half"),
    ],
)
def test_the_disc_at_its_ends(offset, slack, sigma, chance):
    assert within_disc(offset, slack, sigma) == pytest.approx(chance, abs=1e-4)


def odds(a, b, clock, clearance, on_circle):
    extra = sum(max(hole.tolerance_mm or 0 for hole in face) for face in (a, b))
    return chance_of_mating(a, b, line_up(a, b, clock, clearance, extra), clearance, on_circle)


def test_two_circles_by_hand():
    """Radii 1 mm apart, slack 0.4, ± 0.8 read as two sigma: the area from -3.5 to -1.5 sigma, 0.49977 - 0.43319 in print."""
    assert odds(ring(12, 200), ring(12, 201, 0.8), UPRIGHT, 0.8, (True, True)) == pytest.approx(0.06658, abs=2e-5)


@pytest.mark.parametrize(
    ("offset", "off_a", "off_b"),
    [
        pytest.param(0.9, 0.0, 1.6, id="one read"),
        pytest.param(0.9, 0.8, 1.6, id="both read"),
        pytest.param(0.2, 0.3, 1.0, id="nearly there"),
    ],
)
def test_circles_against_a_simulation(offset, off_a, off_b):
    luck = random.Random(1)  # noqa: S311 - a fixed row of figures is wanted, not a secret
    stated = odds(ring(6, 200, off_a), ring(6, 200 + offset, off_b), UPRIGHT, 0.8, (True, True))
    tries = 4000
    mate = 0
    for _ in range(tries):
        a, b = ring(6, luck.gauss(200, off_a / 2)), ring(6, luck.gauss(200 + offset, off_b / 2))
        mate += line_up(a, b, UPRIGHT, 0.8).complete
    assert stated == pytest.approx(mate / tries, abs=4 * math.sqrt(0.25 / tries))


LOPSIDED = tuple(Hole(x, y, None, None, 1.0) for x, y in [(0, 100), (80, 60), (90, -30), (-20, -95), (-100, 10)])


def exact(face):
    return tuple(hole._replace(tolerance_mm=0.0) for hole in face)


@pytest.mark.parametrize("clearance", [1.5, 3.0])
@pytest.mark.parametrize("clock", [UPRIGHT, FREE], ids=["upright", "free"])
def test_points_against_a_simulation(clock, clearance):
    """Upright it is exact; where a face may turn, turning helps a little, so that it is the least it can be."""
    luck = random.Random(2)  # noqa: S311 - a fixed row of figures is wanted, not a secret
    other = exact(shaken(luck, LOPSIDED, 0.3))
    stated = odds(LOPSIDED, other, clock, clearance, (False, False))
    tries = 3000
    mate = sum(line_up(shaken(luck, LOPSIDED, 0.5), other, clock, clearance).complete for _ in range(tries)) / tries
    slip = 4 * math.sqrt(0.25 / tries)
    assert stated <= mate + slip
    if clock is UPRIGHT:
        assert stated >= mate - slip


def test_a_circle_against_points_by_a_simulation():
    luck = random.Random(3)  # noqa: S311 - a fixed row of figures is wanted, not a secret
    circle, points = ring(6, 100.5, 0.8), ring(6, 100, 0.6)
    stated = odds(circle, points, UPRIGHT, 2.0, (True, False))
    tries = 6000
    mate = sum(
        line_up(ring(6, luck.gauss(100.5, 0.4)), shaken(luck, ring(6, 100), 0.3), UPRIGHT, 2.0).complete for _ in range(tries)
    )
    assert 0.05 < stated < 0.95
    assert stated == pytest.approx(mate / tries, abs=4 * math.sqrt(0.25 / tries))


def test_holes_that_are_far_off_have_no_chance():
    assert odds(ring(5, 100, 0.1), ring(5, 103, 0.1), UPRIGHT, 0.8, (True, True)) == 0
    other = tuple(hole._replace(x_mm=x, y_mm=y) for hole in LOPSIDED for x, y in [turned(hole, 20)])
    assert odds(LOPSIDED, other, UPRIGHT, 0.8, (False, False)) == 0


JOINT = Joint(between=("a.x", "b.x"), clearance=length("0.8 mm"))


def face(diameter, read="", **more):
    angle = Figure(quantity=read_quantity("15 deg", "angle"))
    return Pattern(id=f"{diameter} {read}", circle=length(diameter, read), holes=12, first_hole=angle, **more)


@pytest.mark.parametrize(
    ("read", "diameter", "state", "chance"),
    [
        # Radii 1 mm apart, 0.4 mm of slack, a tape's 1/16 in on the diameter: the radius is good to 0.79 mm, sigma 0.397.
        pytest.param("tape", "402 mm", NOT_KNOWN, 0.065, id="by tape"),
        pytest.param("tape", "400.4 mm", AGREES, None, id="lines up as read"),
        pytest.param("tape", "404 mm", DIFFERS, None, id="off by more than a tape is"),
        pytest.param("caliper", "402 mm", DIFFERS, None, id="by caliper"),
    ],
)
def test_only_what_coarse_readings_leave_open_has_a_chance(read, diameter, state, chance):
    found = compare_patterns(face("400 mm"), face(diameter, read), JOINT)
    assert (found.state, found.chance) == (state, chance if chance is None else pytest.approx(chance, abs=0.002))
    assert found.chance_basis == (
        "by the reading: ±0.79 mm against 0.4 mm of play, ± taken as two standard deviations" if chance else ""
    )


def test_holes_noted_one_by_one_say_that_it_is_the_least():
    read = [Point(x=length(f"{hole.x_mm + 0.6:.3f} mm", "tape"), y=length(f"{hole.y_mm:.3f} mm", "tape")) for hole in LOPSIDED]
    drawn = [Point(x=length(f"{hole.x_mm:.3f} mm"), y=length(f"{hole.y_mm:.3f} mm")) for hole in LOPSIDED]
    found = compare_patterns(Pattern(id="drawn", points=tuple(drawn)), Pattern(id="read", points=tuple(read)), JOINT)
    assert found.state == NOT_KNOWN
    assert 0 < found.chance < 0.1
    assert found.chance_basis.endswith("at least so much, hole by hole")


def test_where_the_angle_is_not_known_either_the_reading_gives_no_chance():
    open_ = Pattern(id="open", circle=length("402 mm", "tape"), holes=12)
    assert compare_patterns(face("400 mm"), open_, JOINT)[:2] == (
        NOT_KNOWN,
        compare_patterns(face("400 mm"), face("402 mm", "tape"), JOINT).text,
    )
    assert compare_patterns(face("400 mm"), open_, JOINT).chance is None
