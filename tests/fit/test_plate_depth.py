import math

import pytest

from interchange.catalog.figure import Figure, Origin
from interchange.catalog.model import Offer, StackUp
from interchange.fit.case import Case, Donor, Suppliers
from interchange.fit.plate_depth import plate_depth
from interchange.fit.stack_up import Ready, Standing, Sum, made_ready, stand
from interchange.quantity import read_quantity

MADE = (12.0, 40.0)


def standing(title, known, least, most, plates=None, off=0.0, missing=()):
    """A stack-up that comes to ``known`` without the plates."""
    ready = Ready(title, StackUp(title=title, sum=()), (), None, ())
    return Standing(ready, Sum(known, off, {"gearbox": 1.0} if plates is None else plates, missing), least, most)


@pytest.mark.parametrize(
    ("standings", "least", "most"),
    [
        pytest.param([standing("face", 40, 54.5, 57.5)], 14.5, 17.5, id="one: 54.5 - 40 to 57.5 - 40"),
        pytest.param([standing("face", 40, 54.5, 57.5), standing("tip", -10, 6, math.inf)], 16, 17.5, id="the later of two"),
        pytest.param([standing("bush", 20, 0, math.inf, {"gearbox": -1.0})], 12, 20, id="falling: at most 20"),
        pytest.param([standing("half", 10, 20, 25, {"gearbox": 0.5})], 20, 30, id="half a millimetre for each"),
        pytest.param([standing("elsewhere", 5, 4, 6, {})], 12, 40, id="it does not stand in it"),
        pytest.param([standing("face", 0, 0, 12)], 12, 12, id="just meets what can be made"),
        pytest.param([], 12, 40, id="no stack-up at all"),
    ],
)
def test_the_least_thickness_that_closes_all(standings, least, most):
    found = plate_depth("gearbox", standings, MADE)
    assert (found.least_mm, found.most_mm, found.why) == (pytest.approx(least), pytest.approx(most), "")
    assert found.sure == (pytest.approx(least), pytest.approx(most))
    assert [each.title for each in found.windows] == [each.ready.stack.title for each in standings]


@pytest.mark.parametrize(
    ("standings", "why"),
    [
        pytest.param(
            [standing("face", 40, 54.5, 57.5), standing("bush", 12, 0, math.inf, {"gearbox": -1.0})],
            "bush allows 12.0 mm at most, face wants 14.5 mm at least",
            id="two that do not overlap",
        ),
        pytest.param(
            [standing("face", 50, 54.5, 57.5)],
            "face allows 7.5 mm at most, what the plate can be wants 12.0 mm at least",
            id="thinner than can be made",
        ),
        pytest.param(
            [standing("face", 0, 54.5, 57.5)],
            "what the plate can be allows 40.0 mm at most, face wants 54.5 mm at least",
            id="thicker than can be made",
        ),
        pytest.param([standing("shut", 9, 4, 6, {})], "shut does not close, and the plate does not stand in it", id="another's"),
        pytest.param(
            [standing("face", 40, 54.5, 57.5), standing("tip", -10, 6, math.inf, missing=("seat.tip",))],
            "tip: tip not known: do not order the plate yet",
            id="a term is missing",
        ),
        pytest.param(
            [standing("face", 40, 54.5, 57.5, {"gearbox": 1.0, "rear": 1.0})],
            "face: thickness of the plate in rear not known: do not order the plate yet",
            id="another plate is still open",
        ),
    ],
)
def test_why_there_is_none(standings, why):
    found = plate_depth("gearbox", standings, MADE)
    assert (found.least_mm, found.most_mm, found.sure, found.why) == (None, None, None, why)


def test_another_plate_of_known_thickness_counts():
    found = plate_depth("gearbox", [standing("face", 20, 54.5, 57.5, {"gearbox": 1.0, "rear": 1.0})], MADE, {"rear": 15.0})
    assert (found.least_mm, found.most_mm) == (pytest.approx(19.5), pytest.approx(22.5))


def test_readings_narrow_what_is_sure():
    found = plate_depth("gearbox", [standing("face", 40, 54.5, 57.5, off=1.0)], MADE)
    assert (found.least_mm, found.most_mm) == (pytest.approx(14.5), pytest.approx(17.5))
    assert found.sure == (pytest.approx(15.5), pytest.approx(16.5))
    assert plate_depth("gearbox", [standing("face", 40, 54.5, 57.5, off=1.6)], MADE).sure is None
    elsewhere = plate_depth("gearbox", [standing("elsewhere", 5, 4, 6, {}, off=1.5)], MADE)
    assert (elsewhere.least_mm, elsewhere.sure) == (12, None)
    sloped = plate_depth("gearbox", [standing("half", 10, 20, 25, {"gearbox": 0.5}, off=1.0)], MADE)
    assert sloped.sure == (pytest.approx(22), pytest.approx(28))


# The shipped engine by hand. Own X = 120 + 0 - 14 - 50 = 56, its window 54.5 to 57.5. The donor's shorter housing, 100 mm, and a
# flange 16 mm proud: X = 100 + P - 16 - 50 = 34 + P, so P is 20.5 to 23.5. Engagement S - (100 - 16 + 8 + P) - half of 20:
# 126 - 92 - P - 10 = 24 - P >= 0, so P is at most 24. Clearance (92 + 30 + P) - 126 = P - 4 >= 1.5, so P is at least 5.5.
SEAT = {"seat.tip": "126 mm", "seat.tip_diameter": "20 mm"}
OWN = {
    "core.flange_proud": "14 mm", "core.bush_recess": "5 mm", "core.bush_hole_depth": "30 mm", "housing.depth": "120 mm",
    "flywheel.thick": "50 mm",
}  # fmt: skip
DONOR = {"core.flange_proud": "16 mm", "core.bush_recess": "8 mm", "core.bush_hole_depth": "30 mm", "housing.depth": "100 mm"}
BY = {"core": "donor", "housing": "donor", "flywheel": "own", "clutch": "own"}


def figures(texts, read=""):
    made = {path: Figure(quantity=read_quantity(text, "length"), origin=Origin(read=read)) for path, text in texts.items()}
    return made | {"seat.drive": Figure(word="clutch")}


def by_hand(kind, donor=DONOR, read=""):
    case = Case(kind=kind, seat=figures(SEAT), own=figures(OWN), usable=frozenset(), pattern=lambda _: None,
                shaft=lambda _: None, own_hour_cents=0, hold_day_cents=0, lost_try_cents=80_000)  # fmt: skip
    one = Donor(title="donor", features=figures(donor, read), offer=Offer(has=("core", "housing")))
    suppliers = Suppliers(case, one, BY)
    names = ("friction_face", "pilot_engagement", "tip_clearance")
    standings = [stand(made_ready(case, one, name, kind.stack_ups[name]), suppliers, {"gearbox": MADE}) for name in names]
    return plate_depth("gearbox", standings, MADE)


def test_a_clutch_by_hand(pit_loader):
    found = by_hand(pit_loader.library.kind("engine"))
    assert [(each.slope, each.low_mm, each.high_mm) for each in found.windows] == [
        (1, pytest.approx(20.5), pytest.approx(23.5)),
        (-1, -math.inf, pytest.approx(24)),
        (1, pytest.approx(5.5), math.inf),
    ]
    assert (found.least_mm, found.most_mm, found.why) == (pytest.approx(20.5), pytest.approx(23.5), "")


def test_a_clutch_by_hand_with_what_the_readings_are_off(pit_loader):
    """By depth gauge, ±0.508 mm each: of the friction face's own two, ±1.016; of engagement three, ±1.524, so 24 less that."""
    found = by_hand(pit_loader.library.kind("engine"), read="depth gauge")
    assert [each.tolerance_mm for each in found.windows] == pytest.approx([1.016, 1.524, 2.032])
    assert found.sure == (pytest.approx(21.516), pytest.approx(22.476))  # 23.5 - 1.016 = 22.484; 24 - 1.524 = 22.476


@pytest.mark.parametrize("lost", ["core.bush_hole_depth", "housing.depth"])
def test_a_clutch_with_one_term_unknown_has_no_plate(pit_loader, lost):
    found = by_hand(pit_loader.library.kind("engine"), {path: text for path, text in DONOR.items() if path != lost})
    assert found.least_mm is None
    assert lost.replace("core.", "").replace(".", " ").replace("_", " ") + " not known" in found.why
    assert found.why.endswith("do not order the plate yet")
