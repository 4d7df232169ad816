"""Drawings of a fit: what is drawn is what was found, and to scale."""

import itertools
import math

import pytest

from interchange.catalog.figure import Figure
from interchange.catalog.folders import shipped
from interchange.catalog.geometry import holes_of
from interchange.catalog.model import Joint, Pattern
from interchange.catalog.rooms import read_file
from interchange.quantity import read_quantity, show
from interchange.sheets.drawing import ALONE, CIRCLE, FACE, MEETS, OTHER, PART, TAPE, Circle, Line, Words
from interchange.sheets.measure_drawing import chords_of, depth_with_straightedge, face_readings, square_on, tape_on_face
from interchange.sheets.overlay_drawing import overlay
from interchange.sheets.sources_drawing import sources
from interchange.sheets.stack_drawing import Length, section, window_words

JOINT = Joint(between=("a", "b"), clock=("any",), clearance=Figure(quantity=read_quantity("1/32 in", "length")))


def patterns():
    for path in sorted(shipped("standards").glob("*.yaml")):
        for record in read_file(path.read_text(encoding="utf-8"), path.name, {}).records:
            if isinstance(record.value, Pattern) and holes_of(record.value):
                yield record.value


STANDARD = {pattern.id: pattern for pattern in patterns()}
# The longest and the shortest chord as parts of the bolt circle: elementary geometry, sin(pi k / n).
CHORDS = {3: (0.8660, 0.8660), 4: (1.0, 0.7071), 6: (1.0, 0.5), 8: (1.0, 0.3827), 12: (1.0, 0.2588), 16: (1.0, 0.1951)}


@pytest.mark.parametrize("id_", [id_ for id_, one in STANDARD.items() if one.circle and one.holes in CHORDS])
def test_chords_of_every_standard_circle(id_):
    pattern = STANDARD[id_]
    chords = chords_of(holes_of(pattern))
    long, short = CHORDS[pattern.holes]
    assert chords.farthest_mm == pytest.approx(pattern.circle.value * long, rel=1e-3)
    assert chords.next_mm == pytest.approx(pattern.circle.value * short, rel=1e-3)


@pytest.mark.parametrize("id_", STANDARD)
def test_the_tape_is_drawn_from_edge_to_same_edge(id_):
    """Each tape is as long as its chord, at the scale of the holes drawn, and its ends stand on a hole's edge."""
    pattern = STANDARD[id_]
    drawing = tape_on_face(pattern, "title")
    chords = chords_of(holes_of(pattern))
    tapes = sorted((math.dist(s[:2], s[2:4]) for s in drawing.on(TAPE) if isinstance(s, Line)), reverse=True)
    drawn = [s for s in drawing.on(FACE) if isinstance(s, Circle)]
    assert len(drawn) == len(holes_of(pattern))
    spread = max(math.dist(a[:2], b[:2]) for a, b in itertools.combinations(drawn, 2))
    assert tapes[0] == pytest.approx(spread, rel=1e-6)
    longest = max((s for s in drawing.on(TAPE) if isinstance(s, Line)), key=lambda s: math.dist(s[:2], s[2:4]))
    assert any(math.dist(longest[:2], hole[:2]) == pytest.approx(hole.radius, abs=1e-6) for hole in drawn)
    readings = " ".join(face_readings(pattern))
    assert show(chords.farthest_mm, "length") in readings
    assert f"Hoped for: {len(drawn)}." in readings


def test_a_face_that_is_not_known_has_no_drawing():
    assert tape_on_face(Pattern(id="half"), "title") is None
    assert list(face_readings(Pattern(id="half"))) == []


@pytest.mark.parametrize(
    ("a", "b", "meet", "only_a", "only_b"),
    [
        pytest.param("sae-j617-3", "sae-j617-3", 12, 0, 0, id="the same"),
        pytest.param("sae-j617-2", "sae-j617-3", 0, 12, 12, id="other circle"),
        pytest.param("sae-j617-5", "sae-j617-6", 0, 8, 8, id="eight and eight"),
    ],
)
def test_holes_that_line_up_are_ringed_and_others_are_not(a, b, meet, only_a, only_b):
    drawing = overlay(STANDARD[a], STANDARD[b], JOINT, ("one", "other"), "title")
    assert len(drawing.on(MEETS)) == meet
    assert len([s for s in drawing.on(ALONE) if isinstance(s, Circle)]) == only_a
    assert len([s for s in drawing.on(ALONE) if isinstance(s, Line)]) == 2 * only_a
    assert len([s for s in drawing.on(OTHER) if isinstance(s, Line)]) == 2 * only_b
    assert drawing.notes[0] == f"ringed twice: {meet} that line up"


def test_of_four_holes_on_eight_four_line_up():
    eight = Pattern(circle=length("200 mm"), holes=8, hole=length("11 mm"))
    four = Pattern(circle=length("200 mm"), holes=4, hole=length("11 mm"))
    drawing = overlay(eight, four, JOINT, ("one", "other"), "title")
    assert len(drawing.on(MEETS)) == 4
    assert "crossed out: 4 of one alone" in drawing.notes
    assert overlay(eight, Pattern(id="half"), JOINT, ("one", "other"), "title") is None


def length(text):
    return Figure(quantity=read_quantity(text, "length"))


LENGTHS = (Length("housing", 96.0), Length("proud", -14.3), Length("pad", 16.0), Length("offset", -94.8))


def bars(drawing):
    """(left, right) of every bar, by its upper line, in the order of the rows."""
    for layer in (PART, FACE):
        yield from (s for s in drawing.on(layer) if isinstance(s, Line) and s.y1 == s.y2)


def test_a_section_is_to_scale():
    drawing = section("title", LENGTHS, 2.4, 4.0)
    bar = next(s for s in drawing.on(PART) if isinstance(s, Line) and s.y1 == min(each.y1 for each in bars(drawing)))
    words = next(s.text for s in drawing.shapes if isinstance(s, Words) and s.text.endswith(" mm") and s.text[0].isdigit())
    mm = (bar.x2 - bar.x1) / float(words.split()[0])
    widths = {round(abs(s.x2 - s.x1) / mm, 1) for s in bars(drawing)}
    assert {96.0, 14.3, 16.0, 94.8} <= widths
    (end,) = [s for s in drawing.on(MEETS) if isinstance(s, Line)]
    zero = next(s for s in drawing.shapes if isinstance(s, Words) and s.text == "0")
    assert (end.x1 - zero.x) / mm == pytest.approx(2.9)
    assert any(s.text == "ends at 2.9 mm" for s in drawing.on(MEETS) if isinstance(s, Words))
    ends = next(s for s in drawing.on(TAPE) if isinstance(s, Line) and s.y1 == s.y2)
    assert ((ends.x1 - zero.x) / mm, (ends.x2 - zero.x) / mm) == pytest.approx((2.4, 4.0))


@pytest.mark.parametrize(
    ("least", "most", "layer"),
    [
        pytest.param(2.9, 9.0, MEETS, id="on its lower bound"),
        pytest.param(3.0, 9.0, ALONE, id="below"),
        pytest.param(-math.inf, 2.9, MEETS, id="on its upper bound"),
        pytest.param(-math.inf, 2.8, ALONE, id="above"),
        pytest.param(2.0, math.inf, MEETS, id="no upper bound"),
    ],
)
def test_where_a_section_ends_says_whether_it_closes(least, most, layer):
    assert any(isinstance(s, Line) for s in section("title", LENGTHS, least, most).on(layer))


def test_a_length_that_is_not_known_is_told_and_no_end_drawn():
    drawing = section("title", (LENGTHS[0], Length("proud", None)), -math.inf, math.inf)
    assert any(s.text == "proud: not known" for s in drawing.on(ALONE) if isinstance(s, Words))
    assert not drawing.on(MEETS)
    assert not drawing.on(TAPE)


def test_words_for_where_a_sum_has_to_end():
    assert window_words(1.0, 2.0) == "between 1.0 and 2.0 mm"
    assert window_words(1.0, math.inf) == "at 1.0 mm or more"
    assert window_words(-math.inf, 2.0) == "at 2.0 mm or less"


def test_every_part_is_tied_to_whom_it_comes_from():
    drawing = sources("title", [("block", "the donor"), ("starter", "one's own"), ("pan", "the donor")], ["harness"])
    ties = [s for s in drawing.on(FACE) if isinstance(s, Line)]
    assert len(ties) == 3
    assert len({tie.y1 for tie in ties}) == 2
    assert [s.text for s in drawing.on(ALONE) if isinstance(s, Words)] == ["harness"]


@pytest.mark.parametrize(
    "drawing", [depth_with_straightedge(), *map(square_on, ("plate", "nose", "face"))], ids=lambda d: d.title[:20]
)
def test_small_drawings_keep_to_a_page(drawing):
    assert drawing.box.width < 160
    assert drawing.box.height < 120
    assert CIRCLE not in {shape.layer for shape in drawing.shapes}
