"""The printed template, read back from its dots: bars, bolt circle, holes and pilot over all its sheets."""

import importlib.util
import itertools
import math
import subprocess
import sys
from pathlib import Path

import pytest

from interchange.catalog.figure import Figure
from interchange.catalog.folders import shipped
from interchange.catalog.geometry import holes_of
from interchange.catalog.model import Joint, PlateLimits
from interchange.catalog.rooms import read_file
from interchange.errors import InputError
from interchange.fit.plate import design_plate
from interchange.fit.plate_layout import plate_layout
from interchange.quantity import read_quantity
from interchange.sheets.drawing import HOLE, Circle, Drawing, Words
from interchange.sheets.face_drawing import face_drawing
from interchange.sheets.pdf import pdf
from interchange.sheets.plate_drawing import PlateTitle, hole_table, plate_drawing
from interchange.sheets.tiles import PAPERS, pages, paper_named, tiles_over

np = pytest.importorskip("numpy")
sys.path.insert(0, str(Path(__file__).parent))
spec = importlib.util.spec_from_file_location("raster", Path(__file__).with_name("raster.py"))
raster = importlib.util.module_from_spec(spec)
spec.loader.exec_module(raster)
sys.path.pop(0)

ROOT = Path(__file__).parents[2]
TRUE_MM = 0.2
MADE = Figure(quantity=read_quantity("12-40 mm", "length"))
LIMITS = PlateLimits(
    material="steel", land=Figure(quantity=read_quantity("6 mm", "length")), edge=0.85, engagement=1.0, head=1.5,
    head_depth=1.0, floor=0.5,
)  # fmt: skip
needs_poppler = pytest.mark.skipif(raster.POPPLER is None, reason=raster.WHY_NOT)


def standard(id_):
    for path in shipped("standards").glob("*.yaml"):
        for record in read_file(path.read_text(encoding="utf-8"), path.name, {}).records:
            if record.id == id_:
                return record.value
    raise AssertionError(id_)


def bars(page):
    """(horizontal, vertical) bars: long thin black strokes, the ticks at their ends included."""
    found = [blob for blob in raster.blobs(raster.black(page)) if max(blob.width, blob.height) > 90]
    lying = sorted(blob.width for blob in found if blob.width > blob.height)
    standing = sorted(blob.height for blob in found if blob.height > blob.width)
    return lying, standing


def laid_together(sheets):
    """How far each sheet is to be moved so that its blue crosses lie on those of its neighbours, found from the dots alone.

    Neighbours share two crosses and more. Which they are is known by their order; where they are is measured.
    """
    crosses = [sorted(blob.middle for blob in raster.blobs(raster.bluish(page)) if blob.width > 8) for page in sheets]
    shifts = {0: (0.0, 0.0)}
    columns = 3
    for index in range(1, len(sheets)):
        axis = 0 if index % columns else 1  # beside the one before it, or below the one of the row above
        other = index - 1 if index % columns else index - columns
        last, first = max(each[axis] for each in crosses[other]), min(each[axis] for each in crosses[index])
        theirs = [each for each in crosses[other] if abs(each[axis] - last) < 1]
        ours = [each for each in crosses[index] if abs(each[axis] - first) < 1]
        offsets = [(a[0] - b[0], a[1] - b[1]) for a, b in zip(theirs, ours, strict=True)]
        assert len(offsets) >= 2
        assert max(math.dist(a, b) for a, b in itertools.combinations(offsets, 2)) < TRUE_MM, "the sheets do not join squarely"
        dx, dy = np.mean(offsets, axis=0)
        shifts[index] = (shifts[other][0] + dx, shifts[other][1] + dy)
    return shifts


@needs_poppler
@pytest.mark.parametrize("paper", sorted(PAPERS))
def test_a_number_3_housing_measures_true_over_its_nine_sheets(paper, tmp_path):
    face = standard("sae-j617-3")
    drawing = face_drawing(face)
    path = tmp_path / "template.pdf"
    path.write_bytes(pdf(pages(drawing, PAPERS[paper]), drawing.title))
    first, *sheets = raster.pages_of(path, tmp_path)
    assert len(sheets) == 9
    for page in (first, *sheets):
        assert raster.size_mm(page) == pytest.approx(PAPERS[paper][1:], abs=0.1)
        lying, standing = bars(page)
        assert lying == pytest.approx([100.0, 101.6], abs=TRUE_MM + 0.25)  # ticks and line ends are half a stroke longer each
        assert standing == pytest.approx([100.0, 101.6], abs=TRUE_MM + 0.25)
        assert [each - 0.25 for each in (*lying, *standing)] == pytest.approx([100.0, 101.6] * 2, abs=TRUE_MM)
    shifts = laid_together(sheets)
    centres, pilot_x, pilot_y = [], [], []
    for index, page in enumerate(sheets):
        dx, dy = shifts[index]
        for blob in raster.blobs(raster.reddish(page)):
            if blob.width > 15 and blob.height > 15:  # a whole hole with its cross; one cut off at the edge is whole on the next
                x, y = blob.middle
                centres.append((x + dx, y + dy))
        x, y = raster.places(raster.greenish(page))
        pilot_x.append(x + dx)
        pilot_y.append(y + dy)
    holes = once(centres)
    assert len(holes) == 12
    pilot = raster.fitted_circle(np.concatenate(pilot_x), np.concatenate(pilot_y))
    assert pilot[2] == pytest.approx(16.1275 * 25.4, abs=TRUE_MM)
    circle = raster.fitted_circle(*(np.array(each) for each in zip(*holes, strict=True)))
    assert circle[2] == pytest.approx(16.875 * 25.4, abs=TRUE_MM)
    assert math.dist(circle[:2], pilot[:2]) < TRUE_MM
    for hole in holes_of(face):  # down the page is down the face
        nearest = min(math.dist((circle[0] + hole.x_mm, circle[1] - hole.y_mm), place) for place in holes)
        assert nearest < TRUE_MM


@needs_poppler
def test_a_plate_measures_true_over_its_nine_sheets(tmp_path):
    """The holes for both faces, by the dots of the layers for drilling and for tapping."""
    two, three = standard("sae-j617-2"), standard("sae-j617-3")
    joint = Joint(between=("a.x", "b.x"), clearance=two.circle._replace(quantity=read_quantity("1/32 in", "length")))
    design = design_plate(two, three, joint, LIMITS, MADE)
    layout = plate_layout(two, three, joint, LIMITS, design)
    block = PlateTitle("plate", "steel", "3/4 in", "engine.gearbox", "seen from the gearbox", "B")
    drawing = plate_drawing(two, three, layout, block, ("check",))
    path = tmp_path / "plate.pdf"
    path.write_bytes(pdf(pages(drawing, PAPERS["letter"], tuple(hole_table(layout.holes))), drawing.title))
    sheets = raster.pages_of(path, tmp_path)[-9:]
    shifts = laid_together(sheets)
    for colour, widths, face in ((raster.reddish, (9, 12), two), (raster.purple, (7, 9), three)):
        holes = once(
            tuple(np.add(blob.middle, shifts[index]))
            for index, page in enumerate(sheets)
            for blob in raster.blobs(colour(page))
            if widths[0] < min(blob.width, blob.height) <= max(blob.width, blob.height) < widths[1]
        )
        assert len(holes) == 12
        circle = raster.fitted_circle(*(np.array(each) for each in zip(*holes, strict=True)))
        assert circle[2] == pytest.approx(face.circle.value, abs=TRUE_MM)
        for hole in holes_of(face):
            assert min(math.dist((circle[0] + hole.x_mm, circle[1] - hole.y_mm), place) for place in holes) < TRUE_MM


def test_a_long_table_goes_on_and_the_map_is_kept():
    drawing = face_drawing(standard("sae-j617-3"))
    made = pages(drawing, PAPERS["letter"], [f"row {i}" for i in range(120)])
    words = [[shape.text for shape in page.shapes if isinstance(shape, Words)] for page in made]
    assert [row for page in words for row in page if row.startswith("row ")] == [f"row {i}" for i in range(120)]
    assert sum(any("NOT at true size" in line for line in page) for page in words) == 1
    for page in made:
        assert all(shape.y > 9 for shape in page.shapes if isinstance(shape, Words))


def once(centres):
    """Holes in an overlap are on two sheets."""
    kept = []
    for each in centres:
        if all(math.dist(each, other) > 5 for other in kept):
            kept.append(each)
        else:
            assert min(math.dist(each, other) for other in kept) < TRUE_MM, "a hole stands in two places"
    return kept


@needs_poppler
def test_a_pump_flange_fits_one_sheet_and_measures_true(tmp_path):
    face = standard("sae-j744-a-2-bolt")
    drawing = face_drawing(face)
    path = tmp_path / "template.pdf"
    path.write_bytes(pdf(pages(drawing, PAPERS["a4"]), drawing.title))
    _, sheet = raster.pages_of(path, tmp_path)
    one, other = sorted(blob.middle for blob in raster.blobs(raster.reddish(sheet)) if blob.width > 15)
    assert math.dist(one, other) == pytest.approx(4.188 * 25.4, abs=TRUE_MM)
    assert raster.fitted_circle(*raster.places(raster.greenish(sheet)))[2] == pytest.approx(3.249 * 25.4, abs=TRUE_MM)


def test_the_same_face_gives_the_same_bytes():
    drawing = face_drawing(standard("sae-j617-5"))
    once_, again = (pdf(pages(drawing, PAPERS["letter"]), drawing.title) for _ in range(2))
    assert once_ == again
    assert b"/PrintScaling /None" in once_


def test_every_sheet_warns_and_says_what_it_is():
    drawing = face_drawing(standard("sae-j617-3"))
    for page in pages(drawing, PAPERS["letter"]):
        words = " ".join(shape.text for shape in page.shapes if isinstance(shape, Words))
        assert "If this bar is not 100 mm long, do not drill:" in words
        assert drawing.title in words
        inside = [shape for shape in page.shapes if isinstance(shape, Words)]
        assert all(shape.x >= (215.9 - 190) / 2 - 0.1 for shape in inside)


@pytest.mark.parametrize("id_", ["sae-j617-00", "sae-j617-6", "sae-j744-aa-2-bolt", "sae-j518-61-1"])
def test_every_hole_is_whole_on_some_sheet(id_):
    drawing = face_drawing(standard(id_))
    tiles, _ = tiles_over(drawing)
    for hole in (shape for shape in drawing.on(HOLE) if isinstance(shape, Circle)):
        inside = [
            tile
            for tile in tiles
            if tile.box.left <= hole.x - hole.radius and hole.x + hole.radius <= tile.box.right
            and tile.box.bottom <= hole.y - hole.radius and hole.y + hole.radius <= tile.box.top
        ]  # fmt: skip
        cut = [tile for tile in tiles if tile.box.left <= hole.x <= tile.box.right and tile.box.bottom <= hole.y <= tile.box.top]
        assert inside or (hole.radius * 2 > 12 and cut)


def test_nothing_is_scaled_to_fit():
    wide = Drawing("wide", (Circle(0, 0, 900, HOLE),))
    with pytest.raises(InputError, match="would take"):
        tiles_over(Drawing("wider", (Circle(0, 0, 9000, HOLE),)))
    tiles, _ = tiles_over(wide)
    assert {(round(tile.box.width, 6), round(tile.box.height, 6)) for tile in tiles} == {(176.0, 234.0)}


def test_words_in_no_latin_letters_do_not_stop_a_template():
    drawing = Drawing("Насос 油圧 🚜", (Circle(0, 0, 20, HOLE),), ("Ølbrønd ±1/16 in",))
    assert pdf(pages(drawing, PAPERS["a4"]), drawing.title).startswith(b"%PDF")


def test_papers_by_name():
    assert paper_named("A4") == PAPERS["a4"]
    with pytest.raises(InputError, match="no paper is called 'lettr' \\(did you mean"):
        paper_named("lettr")


def test_nothing_heavy_is_loaded_before_a_file_is_written():
    code = "import sys, interchange.template_commands; print({'reportlab', 'ezdxf', 'numpy', 'PIL'} & set(sys.modules))"
    ran = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True, cwd=ROOT)
    assert ran.stdout.strip() == "set()"
