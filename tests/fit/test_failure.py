"""What broke, by its wordings, and what it leaves."""

from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from interchange.catalog.check import SourceText, read_kinds
from interchange.fit.failure import failures_in, what_is_left
from interchange.job.job import DeadUnit

TRADE = Path(__file__).parents[2] / "catalog" / "trade"
ENGINE = read_kinds([SourceText("engine.yaml", (TRADE / "engine.yaml").read_text(encoding="utf-8"), 0)])["engine"]
MOVABLE = {
    "housing",
    "flywheel",
    "starter",
    "clutch",
    "nose",
    "fuel",
    "sump",
    "front",
    "manifolds",
    "cooling",
    "electrics",
    "mounts",
}


def dead(broke="", **more):
    return DeadUnit(unit="x", broke=broke, **more)


@pytest.mark.parametrize(
    ("broke", "titles"),
    [
        pytest.param("rod through the block at number 3, pan smashed with it", ["thrown rod"], id="demo: loader"),
        pytest.param("spun bearing on number 2, crank blue and rod bent", ["spun bearing"], id="demo: tractor"),
        pytest.param("Threw a rod; WINDOW in the block", ["thrown rod"], id="twice, in capitals"),
        pytest.param("overheated, then seized", ["seizure", "boil-over"], id="two at once"),
        pytest.param("injection pump seized", ["dead injection pump"], id="the longer wording counts"),
        pytest.param("injection pump seized, and the engine seized too", ["seizure", "dead injection pump"], id="both are told"),
        pytest.param("tired but not seized", [], id="denied"),
        pytest.param("no hole in the block", [], id="denied by no"),
        pytest.param("no oil pressure, seized", ["seizure"], id="a denial of something else"),
        pytest.param("never overheated", [], id="denied by never"),
        pytest.param("doesn't overheat", [], id="denied by a short form"),
        pytest.param("won't fire, burned a valve", [], id="fire in another sense"),
        pytest.param("caught fire", ["fire"], id="fire"),
        pytest.param("seizedup", [], id="within a word"),
        pytest.param("holed-block", ["thrown rod"], id="with a hyphen"),
        pytest.param("smokes a lot", [], id="none of them"),
        pytest.param("", [], id="nothing written"),
    ],
)
def test_what_broke(broke, titles):
    assert [failure.title for failure in failures_in(ENGINE, broke)] == titles


def test_the_one_named_counts():
    assert [failure.title for failure in failures_in(ENGINE, "seized", "broken-crank")] == ["broken crank"]


def test_left_out_takes_what_is_not_spoilt():
    left = what_is_left(ENGINE, dead("injection pump seized"))
    assert left.taken
    assert left.usable == MOVABLE - {"fuel"}
    assert left.doubts == {}


def test_left_out_with_nothing_to_go_by_takes_nothing():
    assert what_is_left(ENGINE, dead("smokes a lot")).usable == frozenset()


def test_an_empty_list_is_told_and_stays_empty():
    left = what_is_left(ENGINE, dead("threw a rod", usable=()))
    assert (left.usable, left.taken) == (frozenset(), False)


def test_what_is_told_is_kept_although_it_is_spoilt_and_that_is_known():
    left = what_is_left(ENGINE, dead("clutch exploded", usable=("flywheel", "housing", "fuel")))
    assert left.usable == {"flywheel", "housing", "fuel"}
    assert left.spoiled == {"flywheel": "burst flywheel or clutch"}
    assert left.doubts == {
        "housing": "check for cracks and metal first: still good in 40% after a burst flywheel or clutch, a judgement"
    }


def test_usable_anyway_is_neither_spoilt_nor_in_doubt():
    left = what_is_left(ENGINE, dead("clutch exploded", usable=("flywheel",), usable_anyway=("flywheel", "housing")))
    assert left.usable == {"flywheel", "housing"}
    assert left.spoiled == left.doubts == {}


def test_usable_anyway_adds_to_what_is_taken():
    assert what_is_left(ENGINE, dead("injection pump seized", usable_anyway=("fuel",))).usable == MOVABLE


def test_a_thrown_rod_leaves_sump_and_flywheel_in_doubt_and_the_starter_not():
    left = what_is_left(ENGINE, dead("thrown rod"))
    assert {"sump", "flywheel"} <= left.doubts.keys()
    assert "starter" in left.usable - left.doubts.keys()


def test_of_two_failures_the_worse_doubt_counts():
    left = what_is_left(ENGINE, dead("ran away and threw a rod"))
    assert "60% after a runaway" in left.doubts["flywheel"]


@given(st.text(max_size=60), st.lists(st.sampled_from(sorted(MOVABLE)), max_size=4))
def test_nothing_told_is_taken_away(broke, usable):
    left = what_is_left(ENGINE, dead(broke, usable=tuple(usable)))
    assert left.usable == set(usable)
    assert left.doubts.keys() <= left.usable


@pytest.mark.parametrize("id_", sorted(ENGINE.failures))
def test_every_wording_leads_to_its_failure(id_):
    for say in ENGINE.failures[id_].say:
        assert ENGINE.failures[id_] in failures_in(ENGINE, f"it {say} last week")
