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

WEIGHTS = Path(__file__).parent / "weights"
BY_RULES = "rules: "
"""What signs that say what the rules came to begin with."""


@cache
def weights(question: str) -> Mapping[str, Mapping[str, float]]:
    """For a question the weight of each sign for each answer: what it adds to the logarithm of that answer's odds."""
    found: dict[str, dict[str, float]] = json.loads((WEIGHTS / f"{question}.json").read_text(encoding="utf-8"))
    return found


def sums(signs: Collection[str], weighing: Mapping[str, Mapping[str, float]]) -> dict[str, float]:
    """For each answer the sum of the weights of the signs there are."""
    return {answer: math.fsum(own[sign] for sign in signs if sign in own) for answer, own in weighing.items()}


def shares(found: Sequence[float]) -> list[float]:
    """The chance of each option by its sum; they add up to one: a conditional logit (McFadden 1974)."""
    most = max(found)
    odds = [math.exp(each - most) for each in found]
    whole = math.fsum(odds)
    return [each / whole for each in odds]
