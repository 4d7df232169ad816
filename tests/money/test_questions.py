"""What can be asked about an ad: its chances and means are those of the bill, and every sort of unknown is there."""

from __future__ import annotations

import dataclasses
import shutil
from pathlib import Path

import pytest

from interchange.ask_commands import askings_of
from interchange.catalog.health import HealthQuestion, HealthTest
from interchange.fit.report import plan
from interchange.fit.unsure import if_known
from interchange.money.asked import DIMENSION, FORM, PART, PLACE, PRICE, SELLER, SOUND, YOU, Question
from interchange.money.bill import Outcome
from interchange.money.fit_questions import fit_questions
from interchange.money.questions import was_asked, weighed
from interchange.money.rank import bill_among, leftovers_of, pair_of
from interchange.money.weighing import Weighing
from interchange.money.worth import moved_cents

DEMO = Path(__file__).parents[2] / "catalog" / "demo"


def opened(shop, job):
    """A job of a shop, ranked."""
    from interchange.commands import rankings_of, read_ads, seats_of
    from interchange.opening import Bar, open_setting

    with Bar() as bar:
        setting, _ = open_setting(shop / "jobs" / job, None, bar)
        read, words = read_ads(setting, shop / "jobs" / job, [], "", bar)
        rankings, _ = rankings_of(setting, seats_of(setting, None), read, words, "total", bar, shop / "jobs" / job)
    return setting, rankings


@pytest.fixture(scope="module")
def jobs(tmp_path_factory):
    shop = tmp_path_factory.mktemp("shop") / "shop"
    shutil.copytree(DEMO, shop)
    with pytest.MonkeyPatch.context() as patch:
        patch.setenv("INTERCHANGE_CACHE", str(tmp_path_factory.mktemp("cache")))
        yield [opened(shop, job.name) for job in sorted((shop / "jobs").iterdir())]


@pytest.fixture(scope="module")
def askings(jobs):
    """Every question about every ad of the demo's jobs."""
    return [asking for setting, rankings in jobs for asking in askings_of(setting, rankings)]


def test_the_forms_of_an_ad_come_to_its_bill(jobs):
    for _, rankings in jobs:
        for ranking in rankings:
            for entry in ranking.entries:
                weighing = Weighing(ranking.seat, entry)
                mean = sum(form.share * weighing.cents(form.plan) for form in weighing.forms)
                assert mean == pytest.approx(entry.bill.mean_cents, rel=1e-9), entry.read.title


def test_followed_as_it_is_every_world_averages_to_the_bill(askings):
    asked = [(asking.entry, worth.question) for asking in askings for worth in asking.worths if worth.question.truths]
    assert len(asked) > 100
    for entry, each in asked:
        assert sum(truth.chance for truth in each.truths) == pytest.approx(1), each
        assert sum(truth.chance * truth.costs[0] for truth in each.truths) == pytest.approx(entry.bill.mean_cents), each


def test_plans_are_made_anew_for_an_answer(askings):
    asked = [worth.question for asking in askings for worth in asking.worths]
    anew = [each for each in asked for truth in each.truths if min(truth.costs) < truth.costs[0] - 1]
    assert {each.about for each in anew} == {DIMENSION, PART}


def test_every_sort_of_question_is_there_and_none_is_below_nothing(askings):
    worths = [worth for asking in askings for worth in asking.worths]
    assert {worth.question.about for worth in worths} == {FORM, SOUND, DIMENSION, PART, PRICE, PLACE}
    assert all(worth.cents is None or worth.cents >= 0 for worth in worths)
    assert {worth.question.about for worth in worths if worth.cents} >= {SOUND, PART}


def test_where_the_total_is_not_known_no_answer_is_weighed(askings):
    for asking in askings:
        if not asking.entry.bill.complete:
            assert all(worth.cents is None for worth in asking.worths)
            assert asking.worths[0].question.about in (PRICE, PLACE)
        else:
            assert all(worth.cents is not None for worth in asking.worths)


def test_a_part_that_may_not_come_with_it_by_the_bill_itself(jobs):
    """The ad's bill with the part known to come, and known not to: a bill made with these plans says the same."""
    setting, rankings = jobs[-1]
    (asking,) = [each for each in askings_of(setting, rankings) if each.entry.read.ad.id == "e3ymfenj"]
    question = next(worth.question for worth in asking.worths if worth.question.id == "housing")
    seat, entry = rankings[0].seat, asking.entry
    left = leftovers_of(entry.read, [seat])
    for truth, well in zip(question.truths, (True, False), strict=True):
        plan = if_known(entry.likeliest.plan, "part", "housing", well=well)
        known = entry._replace(outcomes=(Outcome(1.0, plan),))
        assert truth.costs[0] == pytest.approx(bill_among(seat, known, entry.fetch.line, 1, left).mean_cents)
    come, not_come = question.outcomes
    assert come.chance == pytest.approx(0.75)
    assert come.cents < entry.bill.mean_cents < not_come.cents


def test_what_is_not_known_of_the_machine_is_for_its_owner(jobs):
    setting, rankings = jobs[-1]
    seat = rankings[0].seat
    entry = next(each for each in rankings[0].entries if each.read.ad.id == "e3ymfenj")
    case = seat.case
    try:
        seat.case = dataclasses.replace(case, seat={path: each for path, each in case.seat.items() if path != "seat.volts"})
        plans = {}
        for candidate in entry.candidates:
            plans[candidate] = plan(*pair_of(seat, entry, candidate.form))
        outcomes = tuple(each._replace(plan=plans[one]) for one, each in zip(entry.candidates, entry.outcomes, strict=True))
        changed = entry._replace(outcomes=outcomes)
        rates = setting.library.record("rates", "asking").value
        asked = {each.id: each for each in fit_questions(Weighing(seat, changed), rates)}
    finally:
        seat.case = case
    assert asked["stop_control"].whom == YOU or asked["volts"].whom == YOU
    mine = next(each for each in asked.values() if each.whom == YOU)
    assert mine.none == 0
    assert "volts" in mine.ask
    assert all(each.whom == SELLER for name, each in asked.items() if "volts" not in each.ask)


def test_what_cannot_be_weighed_comes_in_the_order_of_what_it_moves(askings):
    asking = next(each for each in askings if not each.entry.bill.complete and len(each.worths) > 4)
    rest = [worth.question for worth in asking.worths if worth.question.truths]
    moved = [(1 - each.none) * moved_cents(each.truths) for each in rest]
    assert moved == sorted(moved, reverse=True)
    assert [worth.question for worth in weighed(rest[::-1], asking.entry, None)] == rest


@pytest.mark.parametrize(
    ("said", "there"),
    [
        pytest.param("cold start video", True, id="its title"),
        pytest.param("Cold start?", True, id="a part of it"),
        pytest.param("a video of a cold start, please", True, id="more words"),
        pytest.param("cold_start", True, id="its id"),
        pytest.param("compression", False, id="another"),
        pytest.param("", False, id="nothing"),
        pytest.param(" : ", False, id="signs"),
        pytest.param("it", False, id="a word too short to mean it"),
    ],
)
def test_what_was_asked_is_known_by_its_words(said, there):
    assert was_asked(Question(SOUND, "cold_start", "cold start video", "", "photo"), said) is there


def test_an_answer_is_weighed_as_a_reading_of_the_same_test_counts(jobs):
    library = jobs[0][0].library
    tests = {one.id: one.value for one in library.records("health_tests") if isinstance(one.value, HealthTest)}
    asked = [one.value for one in library.records("health_questions") if isinstance(one.value, HealthQuestion) and one.value.test]
    assert {one.test for one in asked} == {"compression", "oil_pressure"}
    for one in asked:
        test = tests[one.test]
        assert one.good_if_sound / one.good_if_not == pytest.approx(test.passes, rel=0.03)
        assert (1 - one.good_if_sound) / (1 - one.good_if_not) == pytest.approx(test.fails, rel=0.04)
