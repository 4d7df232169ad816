import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from interchange.catalog.geometry import angle_known, dowels_of, holes_of, shape_key
from interchange.catalog.rooms import read_file


def pattern(body: str):
    file = read_file(f"patterns:\n  a: {{{body}}}\n", "a.yaml", {})
    assert file.problems == []
    return file.records[0].value


def centres(body: str) -> list[tuple[float, float]]:
    return [(round(hole.x_mm, 6) + 0.0, round(hole.y_mm, 6) + 0.0) for hole in holes_of(pattern(body))]


def test_angles_run_clockwise_from_straight_up():
    assert centres("circle: 200 mm, holes: 4, first_hole: 0 deg") == [(0, 100), (100, 0), (0, -100), (-100, 0)]
    assert [round(hole.angle_deg, 6) for hole in holes_of(pattern("circle: 200 mm, holes: 3, first_hole: 30 deg"))] == [
        30,
        150,
        270,
    ]
    assert all(hole.radius_mm == pytest.approx(100) for hole in holes_of(pattern("circle: 200 mm, holes: 5")))


def test_what_was_noted_from_the_front_is_flipped():
    assert centres("circle: 200 mm, holes: 1, first_hole: 90 deg") == [(100, 0)]
    assert centres("circle: 200 mm, holes: 1, first_hole: 90 deg, seen: from the front") == [(-100, 0)]
    assert centres("points: [{x: 1 mm, y: 2 mm}], seen: from the front") == [(-1, 2)]
    (dowel,) = dowels_of(pattern("circle: 200 mm, holes: 4, dowels: [{x: 30 mm, y: -40 mm, hole: 10 mm}], seen: from the front"))
    assert (dowel.x_mm, dowel.y_mm, dowel.hole_mm) == (-30, -40, 10)


@pytest.mark.parametrize("seen", ["from the gearbox", "from the shaft end"])
def test_the_common_view_is_not_flipped(seen):
    assert centres(f"points: [{{x: 1 mm, y: 2 mm}}], seen: {seen}") == [(1, 2)]


@given(first=st.integers(0, 359), holes=st.integers(1, 16))
def test_flipped_twice_is_where_it_was(first, holes):
    front = holes_of(pattern(f"circle: 200 mm, holes: {holes}, first_hole: {first} deg, seen: from the front"))
    back = holes_of(pattern(f"circle: 200 mm, holes: {holes}, first_hole: {(360 - first) % 360} deg"))
    assert {(round(h.x_mm, 4) + 0.0, round(h.y_mm, 4) + 0.0) for h in front} == {
        (round(h.x_mm, 4) + 0.0, round(h.y_mm, 4) + 0.0) for h in back
    }


@pytest.mark.parametrize("body", ["title: x", "circle: 100 mm", "holes: 4"])
def test_holes_not_known(body):
    assert holes_of(pattern(body)) is None
    assert shape_key(pattern(body)) == ""


def test_a_first_angle_that_is_left_out_is_not_known():
    assert not angle_known(pattern("circle: 100 mm, holes: 4"))
    assert angle_known(pattern("circle: 100 mm, holes: 4, first_hole: 0 deg"))
    assert angle_known(pattern("points: [{x: 1 mm, y: 2 mm}]"))
    assert shape_key(pattern("circle: 100 mm, holes: 4")) != shape_key(pattern("circle: 100 mm, holes: 4, first_hole: 0 deg"))


def points_on_circle(circle_mm: float, holes: int, first_deg: float) -> str:
    angles = [math.radians(first_deg + 360 * i / holes) for i in range(holes)]
    found = [f"{{x: {circle_mm / 2 * math.sin(a):.6f} mm, y: {circle_mm / 2 * math.cos(a):.6f} mm}}" for a in reversed(angles)]
    return f"points: [{', '.join(found)}]"


@pytest.mark.parametrize(
    ("circle_mm", "holes", "first_deg"),
    [(200, 4, 0), (200, 4, 45), (361.95, 12, 15), (428.63, 12, 15), (130.03, 6, 30), (100.01, 4, 0), (100.01, 8, 22.5)],
)
def test_points_and_a_circle_with_the_same_holes_have_one_key(circle_mm, holes, first_deg):
    circle = pattern(f"circle: {circle_mm} mm, holes: {holes}, first_hole: {first_deg} deg")
    assert shape_key(circle) == shape_key(pattern(points_on_circle(circle_mm, holes, first_deg)))


@pytest.mark.parametrize(
    "other",
    [
        "circle: 200.1 mm, holes: 4, first_hole: 45 deg",
        "circle: 200 mm, holes: 8, first_hole: 45 deg",
        "circle: 200 mm, holes: 4, first_hole: 44 deg",
    ],
)
def test_other_holes_have_another_key(other):
    assert shape_key(pattern("circle: 200 mm, holes: 4, first_hole: 45 deg")) != shape_key(pattern(other))


@pytest.mark.parametrize(
    "same",
    [
        "circle: 200 mm, holes: 4, first_hole: 135 deg",
        "circle: 200 mm, holes: 4, first_hole: 315 deg, seen: from the front",
        "circle: 20 cm, holes: 4, first_hole: 45 deg, hole: 11 mm, title: another name",
    ],
)
def test_the_same_holes_written_otherwise_have_the_same_key(same):
    assert shape_key(pattern("circle: 200 mm, holes: 4, first_hole: 45 deg")) == shape_key(pattern(same))


def test_hole_sizes_and_threads_of_points():
    body = "points: [{x: 0 mm, y: 1 mm}, {x: 1 mm, y: 0 mm, thread: M10x1.5}, {x: 0 mm, y: -1 mm, hole: 13 mm}], hole: 11 mm"
    assert [(hole.hole_mm, hole.thread_mm) for hole in holes_of(pattern(body))] == [(11, None), (None, 10), (13, None)]


@pytest.mark.parametrize(
    ("body", "tolerance"),
    [
        pytest.param("circle: 100 mm, holes: 1", None, id="not known"),
        pytest.param("circle: {value: 100 mm, read: caliper}, holes: 1", 0.0635, id="a radius is half as far off"),
        pytest.param("circle: 100 ± 2 mm, holes: 1", 1, id="written"),
        pytest.param("circle: 99-101 mm, holes: 1", 0.5, id="range"),
        pytest.param(
            "points: [{x: {value: 1 mm, read: caliper}, y: {value: 1 mm, read: tape}}]", 1.5875, id="the worse of x and y"
        ),
        pytest.param("points: [{x: {value: 1 mm, read: caliper}, y: 1 mm}]", None, id="one of the two not known"),
    ],
)
def test_how_sure_a_centre_is(body, tolerance):
    (hole,) = holes_of(pattern(body))
    assert hole.tolerance_mm == (None if tolerance is None else pytest.approx(tolerance))
