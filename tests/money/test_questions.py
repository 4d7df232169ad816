"""What an answer is worth: against every policy enumerated, never below nothing, and nothing where nothing changes."""

from __future__ import annotations

import itertools
import shutil
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from interchange.money.questions import Outlook, Question, halves, worth_of

DEMO = Path(__file__).parents[2] / "catalog" / "demo"
cents = st.integers(0, 2_000_000).map(float)
shares = st.floats(0.0, 0.5)


def question(outcomes, wrong=0.0, none=0.0, told=()):
    return Question("sound", "x", "x", "x", "photo", outcomes=tuple(outcomes), wrong=wrong, none=none, told=told)


@st.composite
def cases(draw):
    weights = draw(st.lists(st.integers(1, 20), min_size=2, max_size=4))
    outcomes = [Outlook(f"{i}", weight / sum(weights), draw(cents)) for i, weight in enumerate(weights)]
    told = ()
    if draw(st.booleans()):
        rows = [draw(st.lists(st.integers(1, 9), min_size=3, max_size=3)) for _ in outcomes]
        told = tuple(tuple(each / sum(row) for each in row) for row in rows)
    return question(outcomes, draw(shares), draw(shares), told), draw(cents)


def by_enumeration(asked, others):
    """Every outcome with every answer: what is chosen on each answer, and what that comes to where the outcome is what it is."""
    outcomes = asked.outcomes
    if asked.told:
        channel = asked.told
    else:
        off = asked.wrong / (len(outcomes) - 1)
        channel = [[1 - asked.wrong if i == j else off for j in range(len(outcomes))] for i in range(len(outcomes))]
    answers = range(len(channel[0]))
    now = min(sum(one.chance * one.cents for one in outcomes), others)
    best_policy = min(
        sum(
            one.chance * row[answer] * (one.cents if take[answer] else others)
            for one, row in zip(outcomes, channel, strict=True)
            for answer in answers
        )
        for take in itertools.product((True, False), repeat=len(answers))
    )
    return (1 - asked.none) * (now - best_policy)


@given(cases())
def test_worth_is_that_of_every_policy_tried(case):
    asked, others = case
    now = sum(one.chance * one.cents for one in asked.outcomes)
    found = worth_of(asked, now, others)
    assert found >= 0
    assert found == pytest.approx(by_enumeration(asked, others), abs=1e-3)


@given(cases())
def test_nothing_where_no_answer_changes_the_choice(case):
    asked, _ = case
    now = sum(one.chance * one.cents for one in asked.outcomes)
    assert worth_of(asked, now, max(one.cents for one in asked.outcomes) + 1) == pytest.approx(0, abs=1e-3)
    assert worth_of(asked, now, min(one.cents for one in asked.outcomes)) == pytest.approx(0, abs=1e-3)


@pytest.mark.parametrize(
    ("wrong", "none", "worth"),
    [
        # Good half the time: 4,000 or 8,000 against 5,000 for sure. Asked: half of 4,000 and half of 5,000, 500 less than 5,000.
        pytest.param(0.0, 0.0, 500.0, id="by hand"),
        pytest.param(0.0, 0.4, 300.0, id="no answer four times in ten"),
        # Told good, it is so nine times in ten: 4,400; told bad, 5,000 is taken: the half of each, 300 less.
        pytest.param(0.1, 0.0, 300.0, id="one answer in ten is wrong"),
        pytest.param(0.5, 0.0, 0.0, id="an answer that tells nothing"),
    ],
)
def test_worked_by_hand(wrong, none, worth):
    asked = question([Outlook("good", 0.5, 4000.0), Outlook("bad", 0.5, 8000.0)], wrong, none)
    assert worth_of(asked, 6000.0, 5000.0) == pytest.approx(worth)


@given(st.floats(0.01, 0.99), cents, cents)
def test_halves_average_to_what_is_expected_now(chance, yes, now):
    found = halves("yes", chance, yes, now, "no")
    assert sum(one.chance for one in found) == pytest.approx(1)
    assert sum(one.chance * one.cents for one in found) == pytest.approx(now, abs=1)


@pytest.mark.parametrize("chance", [0.0, 1.0])
def test_what_is_certain_is_no_question(chance):
    assert halves("yes", chance, 1.0, 1.0, "no") == ()


@pytest.fixture(scope="module")
def askings(tmp_path_factory):
    """Every question about every ad of the demo's jobs."""
    from interchange.ask_commands import askings_of
    from interchange.commands import rankings_of, read_ads, seats_of
    from interchange.opening import Bar, open_setting

    shop = tmp_path_factory.mktemp("shop") / "shop"
    shutil.copytree(DEMO, shop)
    found = []
    with pytest.MonkeyPatch.context() as patch:
        patch.setenv("INTERCHANGE_CACHE", str(tmp_path_factory.mktemp("cache")))
        for job in sorted((shop / "jobs").iterdir()):
            with Bar() as bar:
                setting, _ = open_setting(job, None, bar)
                read, words = read_ads(setting, job, [], "", bar)
                rankings, _ = rankings_of(setting, seats_of(setting, None), read, words, "total", bar, job)
                found += askings_of(setting, rankings)
    return found


def test_outcomes_of_every_question_average_to_the_bill(askings):
    asked = [(asking.entry, worth.question) for asking in askings for worth in asking.worths if worth.question.outcomes]
    assert len(asked) > 50
    for entry, each in asked:
        assert sum(one.chance for one in each.outcomes) == pytest.approx(1), each
        mean = sum(one.chance * one.cents for one in each.outcomes)
        assert mean == pytest.approx(entry.bill.mean_cents, rel=1e-6), each


def test_every_sort_of_question_is_there_and_none_is_below_nothing(askings):
    worths = [worth for asking in askings for worth in asking.worths]
    assert {worth.question.about for worth in worths} >= {"form", "sound", "dimension", "price", "place"}
    assert all(worth.cents is None or worth.cents >= 0 for worth in worths)
    assert any(worth.cents for worth in worths)
