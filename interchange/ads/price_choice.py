"""Sums held against one another: which was marked down, which is only another way to buy, which was said last."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise
from typing import NamedTuple

from interchange.ads import price_words as says
from interchange.ads.fields import PriceRead, Span

_REACH = 48  # characters looked at on either side of a number
_LEAST_SAID = 0.45
_LEAST_CENTS = 50_00
_WIDEST_DASH = 6  # signs between the ends of a range


class Candidate(NamedTuple):
    """A sum that may be the price: `was` where it is said of the past, `other` where it is for something else."""

    read: PriceRead
    was: bool
    other: bool
    digits_at: int


def marked_down(text: str, found: list[Candidate]) -> list[Candidate]:
    """Of "$1500 now 1250" the first is what it was."""
    for at, (old, new) in enumerate(pairwise(found)):
        between = text[old.read.span.end : new.read.span.start]
        lower = (new.read.cents or 0) < (old.read.cents or 0)
        if lower and len(between) <= _REACH and says.MARKED_DOWN.fullmatch(between):
            found[at] = old._replace(was=True)
    return found


def last_said(asked: Sequence[Candidate]) -> Candidate:
    """The last of a talk."""
    real = [one for one in asked if one.read.kind not in ("placeholder", "rental")] or asked
    return max(real, key=lambda one: (one.read.certainty >= _LEAST_SAID and (one.read.cents or 0) >= _LEAST_CENTS, one.digits_at))


def exchanged(text: str, best: Candidate, asked: Sequence[Candidate]) -> Candidate:
    """Of an exchange price and an outright one the lower."""
    found = [one for one in asked if says.EXCHANGE.match(text, one.read.span.end)]
    return min(found, key=lambda one: one.read.cents or 0) if found and len(asked) > 1 and says.OUTRIGHT.search(text) else best


def comes_down(text: str, one: PriceRead, chosen: PriceRead) -> bool:
    """Whether the seller would take a lower price than the one asked."""
    before = text[max(0, one.span.start - _REACH) : one.span.start].rpartition("\n")[2]
    return (one.cents or 0) < (chosen.cents or 0) and says.WOULD_TAKE.search(before) is not None


def either(text: str, low: int, high: int, end: int) -> bool:
    """Whether "1,100 or 1,200" is one price, and not two ways to buy."""
    return 3 * high <= 4 * low and says.OTHER_WAY.match(text, end) is None


def _between(text: str, low: PriceRead, words: str) -> bool:
    """Whether "and" joins the ends: "somewhere between $2,500 and $3,000"."""
    return (
        says.AND.fullmatch(words) is not None
        and says.BETWEEN.search(text[max(0, low.span.start - _REACH) : low.span.start]) is not None
    )


def ranges_joined(text: str, found: list[Candidate]) -> list[Candidate]:
    """$800-1000 is one price with two ends; the second end may lack its sign."""
    joined: list[Candidate] = []
    for candidate in found:
        if joined and joined[-1].read.span.start >= candidate.read.span.start:
            joined.pop()  # "$6-7k": the 6 was read by itself first
        previous = joined[-1] if joined else None
        if (
            previous
            and not candidate.was
            and previous.read.kind == candidate.read.kind == "asked"
            and previous.read.cents_to is None
        ):
            between = text[previous.read.span.end : candidate.read.span.start]
            low, high = previous.read.cents or 0, candidate.read.cents or 0
            if (
                len(between) <= _WIDEST_DASH
                and (says.RANGE.fullmatch(between) or _between(text, previous.read, between))
                and low < high
                and (high <= 3 * low or "$" in candidate.read.text)
                and ("or" not in between.lower() or either(text, low, high, candidate.read.span.end))
            ):
                span = Span(previous.read.span.start, candidate.read.span.end)
                read = previous.read._replace(cents_to=high, span=span, text=text[span.start : span.end], note="a range")
                joined[-1] = previous._replace(read=read)
                continue
        joined.append(candidate)
    return joined
