"""Choices by learned weights: the arithmetic, what the weights come to, and that they were learned from the labels there are."""

import json
import math
import random

import pytest

from interchange.ads.figures import figures
from interchange.ads.learned import WEIGHTS, shares, sums, weighing, weights
from interchange.ads.price import by_rules
from interchange.ads.price_settled import LEARNED as PRICE
from interchange.ads.price_settled import NO_SUM, read_prices
from interchange.ads.price_signs import options, signs
from interchange.ads.sale import LEARNED as SALE


def test_shares_are_the_softmax_of_the_sums():
    found = shares([0.0, math.log(2), math.log(5)])
    assert found == pytest.approx([1 / 8, 2 / 8, 5 / 8])


@pytest.mark.parametrize("most", [0.0, 800.0, -800.0])
def test_shares_do_not_overflow(most):
    found = shares([most, most - 1, most - 2000])
    assert sum(found) == pytest.approx(1)
    assert found[0] / found[1] == pytest.approx(math.e)


def test_a_sum_counts_each_sign_once_and_passes_over_the_unknown():
    by = weighing({"a": {"x": 1.5, "y": -0.5}, "b": {"x": 0.25}})
    assert sums({"x", "y", "z"}, by) == {"a": 1.0, "b": 0.25}


@pytest.mark.parametrize("question", [PRICE, NO_SUM, SALE])
def test_weights_are_finite_and_small(question):
    by = weights(question)
    found = [weight for counts in by.signs.values() for _, weight in counts]
    assert len(found) > 1000
    assert all(math.isfinite(weight) and abs(weight) < 20 for weight in found)
    assert {at for counts in by.signs.values() for at, _ in counts} == set(range(len(by.answers)))


def test_every_weight_of_the_file_is_loaded():
    kept = json.loads((WEIGHTS / f"{SALE}.json").read_text(encoding="utf-8"))
    by = weights(SALE)
    loaded = {(by.answers[at], sign): weight for sign, counts in by.signs.items() for at, weight in counts}
    assert loaded == {(answer, sign): weight for answer, own in kept.items() for sign, weight in own.items()}


def told(text):
    counted = figures(text)
    return read_prices(counted.text, counted.numbers, counted.title)


@pytest.mark.parametrize(
    ("text", "dollars"),
    [
        ("Tolvane T412, 1978, 3200 hrs, asking 1450. Barre VT 05641", 1450),
        ("H52D loader engine $2,950 obo, paid $3,800 for it", 2950),
        ("Kestavik K425\n1,200\nruns good, call 802-555-0143", 1200),
        ("L20 pump, a new one costs 900, mine is 250", 250),
    ],
)
def test_the_price_among_other_numbers(text, dollars):
    found = told(text)
    assert found.asked.cents == dollars * 100
    assert 0 < found.asked.certainty <= 1


def test_no_number_is_lost_when_another_is_chosen():
    text = "B440 was $1500, asking $1200, paid 2000 for it, core charge $300"
    found = told(text)
    sums_read = {found.asked.cents, *(one.cents for one in found.others), *([found.was.cents] if found.was else [])}
    assert {120000, 150000, 200000, 30000} <= sums_read


def test_signs_are_linear_in_the_text():
    rng = random.Random(5)  # noqa: S311 - not for secrets
    words = ["engine", "1450", "$900", "call", "was", "\n", "hrs", "3,200", "or", "best"]
    text = " ".join(rng.choice(words) for _ in range(4000))
    counted = figures(text)
    ruled, found = by_rules(counted.text, counted.numbers, counted.title)
    some = options(counted.numbers, found)
    about = signs(counted.text, counted.title, some, ruled.asked, sought=False)
    assert len(about) == len(some) + 1
    assert len(some) <= 60
