"""A choice among options by the signs about each: weights learned from labelled ads, added up and made into chances.

The weights are made by `scripts/learn_ads.py` and stand in `weights/`, a file for each question; a sign that is in none of them
counts nothing.
"""

from __future__ import annotations

import json
import math
from collections.abc import Collection, Mapping, Sequence
from functools import cache
from pathlib import Path
from typing import NamedTuple

WEIGHTS = Path(__file__).parent / "weights"
BY_RULES = "rules: "
"""What signs that say what the rules came to begin with."""
BY_WORDS = "by the words of the whole ad"


class Weighing(NamedTuple):
    """The answers to a question, and for each sign what it adds to the logarithm of the odds of those it counts for."""

    answers: tuple[str, ...]
    signs: Mapping[str, tuple[tuple[int, float], ...]]
    """By the sign: the place of an answer, and the weight."""


def weighing(found: Mapping[str, Mapping[str, float]]) -> Weighing:
    """The weights of each answer, turned to be looked up by the sign."""
    signs: dict[str, list[tuple[int, float]]] = {}
    for at, own in enumerate(found.values()):
        for sign, weight in own.items():
            signs.setdefault(sign, []).append((at, weight))
    return Weighing(tuple(found), {sign: tuple(counts) for sign, counts in signs.items()})


@cache
def weights(question: str) -> Weighing:
    """What was learned about a question."""
    return weighing(json.loads((WEIGHTS / f"{question}.json").read_text(encoding="utf-8")))


def sums(signs: Collection[str], by: Weighing) -> dict[str, float]:
    """For each answer the sum of the weights of the signs there are."""
    found = [0.0] * len(by.answers)
    for sign in sorted(signs):  # in one order: sums of floats depend on it
        for at, weight in by.signs.get(sign, ()):
            found[at] += weight
    return dict(zip(by.answers, found, strict=True))


def shares(found: Sequence[float]) -> list[float]:
    """The chance of each option by its sum; they add up to one: a conditional logit (McFadden 1974)."""
    most = max(found)
    odds = [math.exp(each - most) for each in found]
    whole = math.fsum(odds)
    return [each / whole for each in odds]


def likeliest(signs: Collection[str], by: Weighing) -> tuple[str, float]:
    """The likeliest answer by the signs there are, and its chance."""
    found = sums(signs, by)
    chances = dict(zip(found, shares(list(found.values())), strict=True))
    best = max(chances, key=chances.__getitem__)
    return best, round(chances[best], 3)
