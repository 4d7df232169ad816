"""Drawings as data, and the SVG made of them."""

import dataclasses
import math
from xml.etree import ElementTree as ET

import pytest

from interchange.catalog.figure import Figure
from interchange.catalog.geometry import holes_of
from interchange.catalog.model import Pattern, Point, Register
from interchange.errors import InputError
from interchange.quantity import read_quantity, read_thread
from interchange.sheets.drawing import (
    CENTRE,
    CIRCLE,
    FLANGE,
    HOLE,
    MIDDLE,
    PILOT,
    Box,
    Circle,
    Drawing,
    Line,
    Words,
    across,
    box_of,
    moved,
    touches,
)
from interchange.sheets.face_drawing import face_drawing
from interchange.sheets.svg import svg

NAMESPACE = "{http://www.w3.org/2000/svg}"


def mm(text):
    return Figure(quantity=read_quantity(text, "length"))


HOUSING = Pattern(
    id="it", title="No. 3 & <b>housing</b>", circle=mm("16-7/8 in"), holes=12,
    first_hole=Figure(quantity=read_quantity("15 deg", "angle")), thread=read_thread("3/8-16"),
    pilot=Register(bore=mm("16.125-16.130 in")), flange=mm("17-3/4 in"),
)  # fmt: skip


def parsed(drawing, **how):
    return ET.fromstring(svg(drawing, **how))  # noqa: S314 - our own


def test_a_face_has_its_holes_where_the_catalog_says():
    drawing = face_drawing(HOUSING)
    circles = drawing.on(HOLE)
    places = [(shape.x, shape.y) for shape in circles if isinstance(shape, Circle)]
    assert places == [(hole.x_mm, hole.y_mm) for hole in holes_of(HOUSING)]
    assert [shape.radius for shape in circles if isinstance(shape, Circle)] == pytest.approx([9.525 / 2] * 12)
    (circle,), (pilot,), (flange,) = drawing.on(CIRCLE), drawing.on(PILOT), drawing.on(FLANGE)
    assert (circle.radius, pilot.radius, flange.radius) == pytest.approx((214.3125, 204.819, 225.425), abs=0.001)
    assert [shape.text for shape in drawing.shapes if isinstance(shape, Words)] == [str(number) for number in range(1, 13)]
    assert len(drawing.on(CENTRE)) == 2


def test_a_face_noted_from_the_front_is_flipped():
    point = Point(x=mm("30 mm"), y=mm("10 mm"), hole=mm("8 mm"))
    (hole, *_) = face_drawing(Pattern(id="it", points=(point,), seen="from the front")).on(HOLE)
    assert (hole.x, hole.y, hole.radius) == (-30, 10, 4)


def test_what_is_not_known_is_said():
    face = Pattern(id="it", circle=mm("100 mm ±1/16 in"), holes=6)
    notes = " ".join(face_drawing(face).notes)
    assert "drawn as spots" in notes
    assert "where the first hole stands is not known" in notes
    assert "read to ±0.79 mm only" in notes
    with pytest.raises(InputError, match="not all known"):
        face_drawing(Pattern(id="it", circle=mm("100 mm")))


@pytest.mark.parametrize(
    ("first", "said"),
    [pytest.param("15 deg", False, id="alike from both sides"), pytest.param("20 deg", True, id="not alike")],
)
def test_a_face_that_looks_otherwise_from_behind_says_how_to_lay_it(first, said):
    face = dataclasses.replace(HOUSING, first_hole=Figure(quantity=read_quantity(first, "angle")))
    assert any("printed side down" in note for note in face_drawing(face).notes) == said


def test_svg_is_in_millimetres_and_y_runs_down():
    root = parsed(Drawing("it", (Circle(10, 20, 5, HOLE), Line(0, 0, 30, 40, CENTRE))), box=Box(0, 0, 30, 40))
    assert (root.get("width"), root.get("height"), root.get("viewBox")) == ("30mm", "40mm", "0 -40 30 40")
    circle, line = root.find(f"{NAMESPACE}circle"), root.find(f"{NAMESPACE}line")
    assert (circle.get("cx"), circle.get("cy"), circle.get("r")) == ("10", "-20", "5")
    assert [line.get(name) for name in ("x1", "y1", "x2", "y2")] == ["0", "0", "30", "-40"]
    assert line.get("stroke-dasharray") == "8 1.5 1.5 1.5"


def test_svg_that_fills_what_it_stands_in_has_no_size_of_its_own():
    root = parsed(face_drawing(HOUSING), true_size=False)
    assert root.get("width") is None
    assert root.get("role") == "img"


def test_svg_holds_every_hole_at_its_place():
    root = parsed(face_drawing(HOUSING))
    red = [each for each in root.iter(f"{NAMESPACE}circle") if each.get("stroke") == "#c00000"]
    places = {(float(each.get("cx")), -float(each.get("cy"))) for each in red}
    assert places == {(round(hole.x_mm, 4), round(hole.y_mm, 4)) for hole in holes_of(HOUSING)}


def test_words_are_data():
    hostile = 'a"><script>alert(1)</script>\u202e\x1b[31m'
    text = svg(Drawing(hostile, (Words(0, 0, hostile, 3),)))
    root = ET.fromstring(text)  # noqa: S314 - that it parses is the test
    assert {each.tag.removeprefix(NAMESPACE) for each in root.iter()} == {"svg", "title", "text"}
    assert root.find(f"{NAMESPACE}text").text == 'a"><script>alert(1)</script>[31m'
    assert root.find(f"{NAMESPACE}title").text == root.get("aria-label")


def test_turned_words_turn_to_the_left_on_a_page_that_runs_down():
    text = parsed(Drawing("it", (Words(5, 6, "up", 3, anchor=MIDDLE, turn_deg=90),))).find(f"{NAMESPACE}text")
    assert text.get("transform") == "rotate(-90 5 -6)"
    assert text.get("text-anchor") == "middle"


@pytest.mark.parametrize(
    ("box", "is_there"),
    [
        pytest.param(Box(-10, -10, 10, 10), False, id="inside it"),
        pytest.param(Box(-10, 90, 10, 110), True, id="on its line"),
        pytest.param(Box(80, 80, 90, 90), False, id="in the corner of its square"),
        pytest.param(Box(-200, -200, 200, 200), True, id="all of it"),
        pytest.param(Box(101, -10, 120, 10), False, id="beside it"),
    ],
)
def test_a_circle_is_where_its_line_is(box, is_there):
    assert touches(Circle(0, 0, 100, HOLE), box) == is_there


def test_boxes_and_moves():
    assert box_of([]) == Box(0, 0, 0, 0)
    assert box_of([Line(5, 1, 2, 9, HOLE), Circle(0, 0, 3, HOLE)]) == Box(-3, -3, 5, 9)
    assert moved(Circle(1, 2, 3, HOLE), 10, 20, 0.5) == Circle(10.5, 21, 1.5, HOLE)
    assert moved(Line(1, 2, 3, 4, HOLE), 1, 1) == Line(2, 3, 4, 5, HOLE)
    turned = box_of([Words(0, 0, "long words", 2.0, turn_deg=90)])
    assert turned.height > 5 * turned.width


def test_a_dimension_is_as_long_as_its_figure():
    drawn = list(across(10, 0, 80, -60, "80 mm"))
    level = [shape for shape in drawn if isinstance(shape, Line) and shape.y1 == shape.y2 == -60]
    assert [math.dist((line.x1, line.y1), (line.x2, line.y2)) for line in level] == [80]
