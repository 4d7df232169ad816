"""The plate as DXF, read back by GDAL's own reader, which shares nothing with the library that wrote it."""

import io
import struct

import pytest

from interchange.catalog.folders import search_path
from interchange.catalog.geometry import holes_of
from interchange.fit.clocking import turned
from interchange.fit.plate import design_plate
from interchange.fit.plate_joint import plate_joints
from interchange.fit.plate_layout import plate_layout
from interchange.opening import Bar, open_library
from interchange.sheets.drawing import Circle, Drawing, Words
from interchange.sheets.dxf import dxf, layer_name
from interchange.sheets.plate_drawing import CHECK, PlateTitle, sized_drawing

pyogrio = pytest.importorskip("pyogrio")
PLATES = [("sae-j617-2", "sae-j617-3", "engine.gearbox"), ("sae-j617-1", "sae-j617-4", "gearbox.front")]
TITLE = PlateTitle("Plate & <adapter> Ø", "steel", "3/4 in", "engine.gearbox", "seen from the gearbox", "B")


def read_back(content):
    """[(layer, points or text)] of every entity; a circle comes as the corners of a polygon on it."""
    meta, _, shapes, fields = pyogrio.raw.read(io.BytesIO(content))
    names = list(meta["fields"])
    layers, texts = fields[names.index("Layer")], fields[names.index("Text")]
    return [(layer, text, points(shape)) for layer, text, shape in zip(layers, texts, shapes, strict=True)]


def points(wkb):
    """The points of a well-known-binary point or line."""
    order = "<" if wkb[0] == 1 else ">"
    (kind,) = struct.unpack_from(order + "I", wkb, 1)
    across = 3 if kind & 0x80000000 or kind // 1000 == 1 else 2
    start, count = 5, 1
    if (kind & 0xFF) != 1:
        (count,) = struct.unpack_from(order + "I", wkb, 5)
        start = 9
    flat = struct.unpack_from(f"{order}{count * across}d", wkb, start)
    return [flat[i : i + 2] for i in range(0, len(flat), across)]


def circle(corners):
    """(x, y, diameter) of a circle of which a polygon's corners are known."""
    xs, ys = [x for x, _ in corners], [y for _, y in corners]
    return (max(xs) + min(xs)) / 2, (max(ys) + min(ys)) / 2, max(xs) - min(xs)


def circles(entities, layer):
    return sorted(circle(corners) for name, text, corners in entities if name == layer and not text and len(corners) > 4)


def near(found, wanted):
    assert len(found) == len(wanted)
    left = list(wanted)
    for each in found:
        best = min(left, key=lambda other: sum(abs(a - b) for a, b in zip(each, other, strict=True)))
        assert each == pytest.approx(best, abs=1e-3)
        left.remove(best)


@pytest.fixture
def made():
    """A plate by its faces' ids and its joint: faces, design, layout, entities read back."""
    with Bar() as bar:
        library, _ = open_library(search_path(), bar)

    def made_(one, other, joint):
        a, b = library.pattern(one), library.pattern(other)
        chosen = next(each for each in plate_joints(library.kinds(), library.remedies()) if each.name == joint)
        design = design_plate(a, b, chosen.joint, chosen.remedy.plate, chosen.remedy.makes_thick)
        layout = plate_layout(a, b, chosen.joint, chosen.remedy.plate, design)
        return a, b, design, layout, read_back(dxf(sized_drawing(a, b, layout, TITLE, ())))

    return made_


@pytest.mark.parametrize(("one", "other", "joint"), PLATES, ids=str)
def test_every_hole_is_where_the_catalog_says(made, one, other, joint):
    a, b, design, layout, entities = made(one, other, joint)
    assert layout.holes
    clear, tapped = a.thread.major_mm + 25.4 / 32, b.thread.major_mm - b.thread.pitch_mm
    near(circles(entities, "DRILL"), [(hole.x_mm, hole.y_mm, clear) for hole in holes_of(a)])
    near(circles(entities, "COUNTERBORE"), [(hole.x_mm, hole.y_mm, 1.5 * a.thread.major_mm) for hole in holes_of(a)])
    near(circles(entities, "TAP"), [(*turned(hole, design.clock_deg), tapped) for hole in holes_of(b)])
    near(circles(entities, "OUTLINE"), [(0, 0, design.outside_mm)])
    near(circles(entities, "BOLT_CIRCLE"), [(0, 0, face.circle.value) for face in (a, b)])
    near(circles(entities, "REGISTER"), [(0, 0, face.pilot.bore.value) for face in (a, b)])


def test_words_and_title_block_are_there(made):
    *_, entities = made(*PLATES[0])
    words = [text for _, text, _ in entities if text]
    assert CHECK in words
    assert "Material: steel. Thickness: 3/4 in." in words
    assert {f"{letter}{i}" for letter in "AB" for i in range(1, 13)} <= set(words)
    assert any(text.startswith("bolt circle A Ø466.73 mm") for text in words)


def test_the_same_plate_gives_the_same_bytes_and_says_it_is_in_millimetres():
    drawing = Drawing("it", (Circle(1, 2, 3, "drill"), Words(0, 0, "油 Ø", 3)))
    assert dxf(drawing) == dxf(drawing)
    lines = dxf(drawing).decode("cp1252").splitlines()
    assert lines[lines.index("$INSUNITS") + 2].strip() == "4"
    assert [text for _, text, _ in read_back(dxf(drawing)) if text] == ["? Ø"]


def test_layer_names():
    assert layer_name("bolt circle") == "BOLT_CIRCLE"
