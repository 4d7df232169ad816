"""The parts of a plan's sheet that no demo donor brings about: a plate of which a thickness closes every depth."""

import dataclasses
import io
from pathlib import Path

import pytest
from rich.console import Console

from interchange.catalog.figure import Figure
from interchange.fit.case import Donor
from interchange.fit.report import plan
from interchange.opening import Bar, open_setting
from interchange.quantity import read_quantity
from interchange.sheets.fit_result import plan_result
from interchange.sheets.plan_sheet import show_plan

DEMO = Path(__file__).parents[2] / "catalog" / "demo"


@pytest.fixture(scope="module")
def loader(tmp_path_factory):
    with pytest.MonkeyPatch.context() as patch:
        patch.setenv("INTERCHANGE_CACHE", str(tmp_path_factory.mktemp("cache")))
        yield open_setting(DEMO / "jobs/pit-loader", None, Bar())[0].seat("engine")


def with_a_plate(seat, depth):
    """A size 2 housing of some depth on the loader's own engine, where none is to be bought and no adapter to be had."""
    kind = seat.case.kind
    supply = {**kind.supply, "housing": dataclasses.replace(kind.supply["housing"], by=("donor", "own"))}
    case = dataclasses.replace(seat.case, adapters=(), usable=frozenset(), kind=dataclasses.replace(kind, supply=supply))
    (form,) = seat.forms("hestrel-h52d.loader")
    housing = {"housing.out": Figure(ref="sae-j617-2"), "housing.depth": Figure(quantity=read_quantity(depth, "length"))}
    return plan(case, Donor(title="H52D", features=seat.features(form) | housing, offer=seat.offer("running_machine")))


def shown(seat, made, width=100):
    out = Console(file=io.StringIO(), width=width, no_color=True)
    show_plan(out, seat, made, "H52D")
    return " ".join(out.file.getvalue().split())


def test_a_plate_that_closes_every_depth(loader):
    """Own pull-up is 3.2 mm within 0.8: 16 + 76 + P - 14 - 94.8 is 2.4 to 4.0 with 19.2 to 20.8 mm of plate."""
    made = with_a_plate(loader, "76 mm")
    text = shown(loader, made)
    assert "custom adapter plate, in the gearbox plate of steel" in text
    assert "converter pull-up: +1 mm for each mm of plate; closes from 19.2 mm to 20.8 mm" in text
    assert "the least thickness that closes every depth is 19.2 mm" in text
    assert "no thickness closes every depth" not in text
    (plate,) = plan_result(made)["plates"]
    assert plate["least_mm"] == pytest.approx(19.2)
    assert plate["why_not"] is None
    assert plate["depths"][0] | {"least_mm": 0, "most_mm": 0} == {
        "title": "converter pull-up",
        "mm_a_mm": 1.0,
        "least_mm": 0,
        "most_mm": 0,
        "not_known": [],
    }


def test_a_plate_that_is_too_thin_to_be_made(loader):
    """14 mm deeper: 5.2 to 6.8 mm would do, and the bolts want 14.3."""
    made = with_a_plate(loader, "90 mm")
    why = "converter pull-up allows 6.8 mm at most, what the plate can be wants 14.3 mm at least"
    text = shown(loader, made)
    assert f"no thickness closes every depth: {why}" in text
    assert "the least thickness that closes" not in text
    (plate,) = plan_result(made)["plates"]
    assert (plate["least_mm"], plate["why_not"]) == (None, why)


def test_an_open_end_is_null_to_programs_and_not_told_to_people(loader):
    made = with_a_plate(loader, "76 mm")
    ends = {each["title"]: (each["least_mm"], each["most_mm"]) for each in plan_result(made)["plates"][0]["depths"]}
    one_sided = {title: each for title, each in ends.items() if None in each}
    assert one_sided
    assert "inf" not in shown(loader, made)


def test_own_hours_count_taking_out_and_putting_in(loader):
    """In all, they are the hours of the steps and of the swap."""
    made = with_a_plate(loader, "76 mm")
    hours = loader.seat.hours
    assert hours
    low, high = (sum(getattr(step.effort.hours, end) for step in made.steps) for end in ("low", "high"))
    swap = f"{hours.quantity.low:g}–{hours.quantity.high:g} of them for taking one out and putting one in"
    words = f"Own hours in all {low + hours.quantity.low:g}–{high + hours.quantity.high:g}, {swap}; the longest wait is"
    assert words in shown(loader, made)
