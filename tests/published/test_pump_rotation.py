"""Which hand of pump a drive wants, worked out from axes in space and held against the table of the pump kind.

Rotation is a vector along its axis, by the right hand: seen by somebody who looks along a line, a shaft turns clockwise
where its vector points away from him. Here z runs from the fan to the flywheel end of the engine. The standard engine turns
counter-clockwise facing the flywheel (common in the trade); the rest is geometry.
"""

import itertools
from pathlib import Path

import pytest

from interchange.catalog.check import SourceText, read_kinds
from interchange.catalog.derive import derived
from interchange.catalog.figure import Figure
from interchange.quantity import read_quantity

TRADE = Path(__file__).parents[2] / "catalog" / "trade"
PUMP = read_kinds([SourceText("pump.yaml", (TRADE / "pump.yaml").read_text(encoding="utf-8"), 0)])["pump"]
BACK, FRONT = (0, 0, 1), (0, 0, -1)
HANDS = ("clockwise", "counter-clockwise")
OTHER = dict(zip(HANDS, HANDS[::-1], strict=True))


def along(a, b):
    return sum(one * other for one, other in zip(a, b, strict=True))


def reversed_(a):
    return tuple(-one for one in a)


def seen(rotation, gaze):
    """The hand of a rotation for somebody looking along a line."""
    return "clockwise" if along(rotation, gaze) > 0 else "counter-clockwise"


def turning(hand, gaze):
    """The rotation that has this hand for somebody looking along a line."""
    return gaze if hand == "clockwise" else reversed_(gaze)


# Where the pump's body lies from its shaft end: somebody who looks at the shaft end looks that way.
BODY = {
    "crank nose": FRONT, "flywheel end": BACK, "timing gear front": FRONT, "timing gear rear": BACK,
    "ring gear front": FRONT, "ring gear rear": BACK,
}  # fmt: skip
GEARED = ("timing gear front", "timing gear rear", "ring gear front", "ring gear rear")


def by_geometry(driven_by, engine, meshes):
    shaft = turning(engine, FRONT)  # facing the flywheel, one looks to the front
    for _ in range(meshes):
        shaft = reversed_(shaft)  # two gears in mesh turn against each other
    return seen(shaft, BODY[driven_by])


def by_table(**known):
    features = {
        f"seat.{name}": Figure(quantity=read_quantity(text, "count")) if name == "meshes" else Figure(word=text)
        for name, text in known.items()
        if text is not None
    }
    made = derived(PUMP, features, "seat").get("seat.rotation")
    return made.word if made else None


def test_the_standard_engine_from_both_ends():
    assert seen(turning("counter-clockwise", FRONT), BACK) == "clockwise"


CASES = [(by, engine, 0) for by, engine in itertools.product(("crank nose", "flywheel end"), HANDS)]
CASES += [
    (by, engine, meshes)
    for by, engine, meshes in itertools.product(GEARED, HANDS, range(5))
    if by.startswith("timing") or 1 <= meshes <= 3
]


@pytest.mark.parametrize(("by", "engine", "meshes"), CASES, ids=str)
def test_the_table_is_the_geometry(by, engine, meshes):
    counted = str(meshes) if by in GEARED else None
    assert by_table(driven_by=by, engine_rotation=engine, meshes=counted) == by_geometry(by, engine, meshes)


@pytest.mark.parametrize(("by", "engine", "meshes"), CASES, ids=str)
def test_the_other_engine_wants_the_other_pump(by, engine, meshes):
    counted = str(meshes) if by in GEARED else None
    one, other = (by_table(driven_by=by, engine_rotation=hand, meshes=counted) for hand in (engine, OTHER[engine]))
    assert one == OTHER[other]


@pytest.mark.parametrize("engine", HANDS)
def test_nose_and_flywheel_end_want_other_hands(engine):
    nose, end = (by_table(driven_by=by, engine_rotation=engine) for by in ("crank nose", "flywheel end"))
    assert nose == engine == OTHER[end]


def test_a_pump_on_a_pto_shaft():
    """ISO 500: the shaft turns clockwise seen from behind the tractor; the pump's shaft end faces the tractor."""
    shaft = turning("clockwise", FRONT)
    assert by_table(driven_by="pto shaft") == seen(shaft, BACK) == "counter-clockwise"


@pytest.mark.parametrize(
    "known",
    [
        pytest.param({"driven_by": "crank nose"}, id="engine not known"),
        pytest.param({"engine_rotation": "clockwise", "meshes": "1"}, id="drive not known"),
        pytest.param({"driven_by": "timing gear front", "engine_rotation": "clockwise"}, id="meshes not counted"),
        pytest.param({"driven_by": "timing gear front", "engine_rotation": "clockwise", "meshes": "9"}, id="more than the table"),
        pytest.param({"driven_by": "ring gear front", "engine_rotation": "clockwise", "meshes": "0"}, id="a pinion is a mesh"),
    ],
)
def test_what_is_not_known_gives_no_hand(known):
    assert by_table(**known) is None
