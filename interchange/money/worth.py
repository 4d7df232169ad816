"""What an answer would be worth: how much less the best way is expected to come to once it is known.

The world may stand in a few ways (``Truth``), whose chances are those the bill was made with. For each stands what the ad then
comes to, by every plan there is to choose from. An answer makes the chances anew (Bayes); then the cheapest plan is taken, or
another way altogether if that is cheaper. The same choices are open before and after, so an answer can only help, and it is
worth nothing where none would change what is chosen.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

NOTHING_ELSE = float("inf")


class Truth(NamedTuple):
    """One way the world may stand."""

    says: str
    """The answer that is right then."""
    chance: float
    costs: tuple[float, ...]
    """What the ad then comes to, in cents, by each plan of its branch."""
    branch: int = 0
    """What shows by itself before work begins, asked or not: which form it is. In each branch a plan is chosen of its own."""


class Answer(NamedTuple):
    """One answer: how likely it is right, and what the ad is expected to come to where it is."""

    label: str
    chance: float
    cents: float


def worth_of(truths: Sequence[Truth], other_cents: float | None, wrong: float = 0.0, none: float = 0.0) -> float:
    """How much the best way is expected to come down by asking, in cents: never negative.

    ``other_cents`` is the best way without this ad, None where there is no other. ``wrong`` is the chance that another answer
    than the right one is given, each of the others as likely; ``none`` that none is given, which leaves all as it is.
    """
    answers = tuple(dict.fromkeys(truth.says for truth in truths))
    other = NOTHING_ELSE if other_cents is None else other_cents
    off = wrong / (len(answers) - 1) if len(answers) > 1 else 0.0
    asked = 0.0
    for answer in answers:
        weights = [truth.chance * (1 - off * (len(answers) - 1) if truth.says == answer else off) for truth in truths]
        asked += best_cents(truths, weights, other)
    unasked = best_cents(truths, [truth.chance for truth in truths], other)
    return max(0.0, (1 - none) * (unasked - asked))


def best_cents(truths: Sequence[Truth], weights: Sequence[float], other_cents: float = NOTHING_ELSE) -> float:
    """What the best way comes to with these weights of the truths, times their sum."""
    branches: dict[int, list[float]] = {}
    for truth, weight in zip(truths, weights, strict=True):
        weighed = [weight * cents for cents in truth.costs]
        before = branches.get(truth.branch)
        branches[truth.branch] = [one + two for one, two in zip(before, weighed, strict=True)] if before else weighed
    with_it = sum(min(plans) for plans in branches.values())
    whole = sum(weights)
    return min(with_it, whole * other_cents) if whole > 0 and other_cents < NOTHING_ELSE else with_it


def answers_of(truths: Sequence[Truth]) -> tuple[Answer, ...]:
    """Each answer with its chance, and what the ad comes to where it is right, the plan chosen by it."""
    found = []
    for says in dict.fromkeys(truth.says for truth in truths):
        weights = [truth.chance if truth.says == says else 0.0 for truth in truths]
        whole = sum(weights)
        if whole > 0:
            found.append(Answer(says, whole, best_cents(truths, weights) / whole))
    return tuple(found)


def moved_cents(truths: Sequence[Truth]) -> float:
    """How far an answer moves what the ad comes to, on the average: by it questions go where a total is not known."""
    answers = answers_of(truths)
    middle = sum(answer.chance * answer.cents for answer in answers)
    return sum(answer.chance * abs(answer.cents - middle) for answer in answers)
