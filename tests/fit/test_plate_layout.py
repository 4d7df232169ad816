"""What is cut, drilled, sunk and tapped in a plate, and in which joint it stands."""

import math

import pytest

from interchange.catalog.figure import Figure, Origin
from interchange.catalog.geometry import holes_of
from interchange.catalog.model import Joint, Pattern, PlateLimits, Point, Register
from interchange.errors import InputError
from interchange.fit.plate import design_plate
from interchange.fit.plate_joint import joint_of, plate_joints
from interchange.fit.plate_layout import BORE, DOWELLED, SPIGOT, SUNK, TAPPED, THROUGH, plate_layout, tapping_drill_mm
from interchange.quantity import Quantity, read_quantity, read_thread
from interchange.store.named_face import NamedFace
from interchange.store.shapes import Use

IN = 25.4


def mm(value):
    return Figure(quantity=Quantity("length", value, None, None, None, f"{value:g} mm"))


def ring(holes, diameter, first=0.0, **more):
    angle = Figure(quantity=read_quantity(f"{first:g} deg", "angle"))
    more.setdefault("thread", None if "hole" in more else read_thread("M10x1.5"))
    title = more.pop("title", f"ring of {diameter}")
    return Pattern(id=title, title=title, circle=mm(diameter), holes=holes, first_hole=angle, **more)


LIMITS = PlateLimits(
    material="steel", land=mm(6), edge=0.85, engagement=1.0, head=1.5, head_depth=1.0, floor=0.5,
    origin=Origin(basis="judgement", source="common practice, no source"),
)  # fmt: skip
MADE = Figure(quantity=Quantity("length", 26, 12, 40, None, "12-40 mm"))
FIXED = Joint(between=("a.x", "b.x"), clearance=mm(0.8))


def laid_out(a, b, joint=FIXED):
    return plate_layout(a, b, joint, LIMITS, design_plate(a, b, joint, LIMITS, MADE))


def test_a_size_2_housing_to_a_size_3_face_by_hand(pit_loader):
    """Through the plate into the first: clear for 3/8 in, heads sunk 1.5 bolts wide and 1 deep; threads for the second at 3/8-16.

    The tapping drill of 3/8-16 is 3/8 less 1/16 in: 5/16 in, as drill charts have it.
    """
    two, three = (pit_loader.library.pattern(f"sae-j617-{size}") for size in (2, 3))
    made = laid_out(two, three)
    sunk = [hole for hole in made.holes if hole.operation == SUNK]
    tapped = [hole for hole in made.holes if hole.operation == TAPPED]
    assert [hole.name for hole in made.holes] == [f"{letter}{i}" for letter in "AB" for i in range(1, 13)]
    for hole, place in zip((*sunk, *tapped), (*holes_of(two), *holes_of(three)), strict=True):
        assert math.dist((hole.x_mm, hole.y_mm), (place.x_mm, place.y_mm)) < 1e-9
    assert {(round(hole.drill_mm, 4), round(hole.sink_mm, 4), hole.sink_depth_mm) for hole in sunk} == {(10.325, 14.2875, 9.525)}
    assert {(round(hole.drill_mm, 4), hole.thread) for hole in tapped} == {(7.9375, "3/8-16")}
    assert [(each.kind, each.of) for each in made.registers] == [(BORE, "No. 3 housing"), (SPIGOT, "No. 2 housing")]
    assert made.outside_mm == pytest.approx(19.25 * IN)
    assert made.opening_mm == pytest.approx(16.1275 * IN)  # bored right through, where the second part's spigot goes in


def test_turned_holes_stand_where_the_design_turns_them():
    """One face's holes stand over the other's until it is turned by half their pitch."""
    a, b = ring(6, 200), ring(6, 210, hole=mm(11.0))
    joint = Joint(between=("a.x", "b.x"), clearance=mm(0.8), clock=("any",))
    design = design_plate(a, b, joint, LIMITS, MADE)
    made = plate_layout(a, b, joint, LIMITS, design)
    turn = math.radians(design.clock_deg)
    first = next(hole for hole in made.holes if hole.name == "B1")
    assert design.clock_deg == pytest.approx(30, abs=0.1)
    assert (first.x_mm, first.y_mm) == pytest.approx((105 * math.sin(turn), 105 * math.cos(turn)))


def test_a_clear_face_is_tapped_for_and_its_thread_is_not_known():
    made = laid_out(ring(4, 300, hole=mm(13.0)), ring(4, 200, 45, hole=mm(11.0)))
    assert {(hole.operation, hole.drill_mm, hole.bolt_mm) for hole in made.holes} == {
        (TAPPED, None, 12.2), (TAPPED, None, 10.2),
    }  # fmt: skip


def test_holes_of_which_each_has_its_own_thread():
    points = (
        Point(x=mm(100), y=mm(0), thread=read_thread("M12x1.75")),
        Point(x=mm(-100), y=mm(0), hole=mm(13.0)),
    )
    made = laid_out(Pattern(id="mixed", points=points), ring(3, 300))
    by_name = {hole.name: hole for hole in made.holes}
    assert by_name["A1"].operation == SUNK
    assert by_name["A1"].thread == "M12x1.75"
    assert (by_name["A2"].operation, by_name["A2"].drill_mm) == (TAPPED, None)


def test_one_bolt_goes_through_both_where_holes_line_up():
    made = laid_out(ring(4, 300), ring(8, 300, hole=mm(11.0)))
    through = [hole for hole in made.holes if hole.operation == THROUGH]
    assert [hole.name for hole in through] == ["A1+B1", "A2+B3", "A3+B5", "A4+B7"]
    assert {round(hole.drill_mm, 6) for hole in through} == {11.0}
    assert len(made.holes) == 8


def test_dowels_of_both_parts_have_their_holes_and_crowd_nothing_unsaid():
    dowel = Point(x=mm(0), y=mm(150), hole=mm(12))
    near = Point(x=mm(100), y=mm(9), hole=mm(12.1))
    made = laid_out(ring(4, 300, 45, dowels=(dowel,)), ring(4, 200, 0, dowels=(near,)))
    dowels = {hole.name: hole for hole in made.holes if hole.operation == DOWELLED}
    assert {name: (hole.x_mm, hole.y_mm, hole.drill_mm) for name, hole in dowels.items()} == {
        "AD1": (0, 150, 12), "BD1": (pytest.approx(100), pytest.approx(9), 12.1),
    }  # fmt: skip
    (said,) = made.crowded
    assert said == "BD1 and B2 run into each other by 1.3 mm, 6 mm is wanted"


def test_what_cannot_be_made_is_told_with_the_reason():
    with pytest.raises(InputError, match=r"no plate joins ring of 300 to ring of 306: .*(leave|run into)"):
        laid_out(ring(12, 300), ring(12, 306, 3))


def test_a_spigot_on_the_plate_keeps_a_wall():
    a = ring(4, 300, pilot=Register(bore=mm(250)))
    b = ring(4, 200, 45, pilot=Register(spigot=mm(150)))
    made = laid_out(a, b)
    assert [(each.kind, each.diameter_mm) for each in made.registers] == [(BORE, 150), (SPIGOT, 250)]
    assert made.opening_mm == 150


def test_tapping_drills_as_charts_have_them():
    """M10 8.5, M12 10.25 (charts round to 10.2), 1/2-13 27/64 in to a few hundredths: from memory, as everybody has them."""
    assert tapping_drill_mm(read_thread("M10x1.5")) == pytest.approx(8.5)
    assert tapping_drill_mm(read_thread("M12x1.75")) == pytest.approx(10.25)
    assert tapping_drill_mm(read_thread("1/2-13")) == pytest.approx(27 / 64 * IN, abs=0.05)


@pytest.fixture
def joints(pit_loader):
    return list(plate_joints(pit_loader.library.kinds(), pit_loader.library.remedies()))


def face(library, id_, use=None):
    return NamedFace(id_, library.pattern(id_), use)


def test_two_housings_stand_in_the_joint_of_engine_and_gearbox(pit_loader, joints):
    faces = [face(pit_loader.library, f"sae-j617-{size}") for size in (2, 3)]
    assert joint_of(faces, joints, None).name == "engine.gearbox"
    assert joint_of(faces, joints, "gearbox.front").name == "gearbox.front"


def test_faces_by_where_they_stand_tell_their_joint(pit_loader, joints):
    library = pit_loader.library
    faces = [
        face(library, "hestrel-rear-52", Use("x", "engine", "core.rear")),
        face(library, "tolvane-rear-4", Use("y", "engine", "housing.block")),
    ]
    assert joint_of(faces, joints, None).name == "engine.rear"
    assert joint_of(faces[::-1], joints, None).name == "engine.rear"


def test_a_joint_that_cannot_be_told_is_asked_for(pit_loader, joints):
    faces = [face(pit_loader.library, id_) for id_ in ("hestrel-rear-52", "tolvane-rear-4")]
    with pytest.raises(InputError, match=r"cannot be told .--joint .*engine.rear"):
        joint_of(faces, joints, None)
    with pytest.raises(InputError, match=r"no joint with a plate is called 'engine.gearbx' .did you mean"):
        joint_of(faces, joints, "engine.gearbx")
