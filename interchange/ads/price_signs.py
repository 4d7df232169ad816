"""The signs about each sum of an ad that tell whether it is the price: how it is written, what stands about it, where it is."""

from __future__ import annotations

import math
import re
from bisect import bisect_left, bisect_right
from collections import Counter
from collections.abc import Iterator, Sequence
from itertools import islice, pairwise
from typing import NamedTuple

from interchange.ads.fields import PriceRead, Span
from interchange.ads.learned import BY_RULES
from interchange.ads.no_price import no_price
from interchange.ads.number import Number, is_year_like
from interchange.ads.price_choice import Candidate
from interchange.ads.price_words import AUCTION

_WORD = re.compile(r"[a-z]+(?:'[a-z]+)?|[0-9][0-9.,]*|[^\w\s]|\n")
_LONG_NUMBER = 2  # signs of a number that is more than a count
_BEFORE, _AFTER = 8, 6  # words of the line that count by being there
_BESIDE = 3  # words that count by their place
_BETWEEN = 40  # signs between one sum and the next
_MOST_OPTIONS = 60
_MOST_WORDS = 800  # of the whole ad
_ROUND = (1000, 500, 100, 50, 25, 10, 5)
_LEAST, _MOST = 20, 3_000_000
_SHORT_TENS, _SHORT_HUNDREDS = 20, (10, 48)
_PAUSE = frozenset(".,;:!?()\n|/–—-")


class Option(NamedTuple):
    """A sum that may be the price: the number it was read from, and what the rules make of it, if anything."""

    number: Number
    value: float
    candidate: Candidate | None


def options(numbers: Sequence[Number], found: Sequence[Candidate]) -> list[Option]:
    """Every sum that may be the price, in order: what the rules found, and any other number that is nothing else."""
    starts = [one.read.span.start for one in found]
    made: list[Option] = []
    for number in numbers:
        if number.role not in ("money", "plain") or number.leading_zero or not math.isfinite(number.value):
            continue  # one that begins with 0 is a ZIP or a serial
        at = bisect_right(starts, number.digits_at) - 1
        candidate = found[at] if at >= 0 and number.digits_at < found[at].read.span.end else None
        if candidate is not None and candidate.read.cents is not None:
            if not made or made[-1].candidate is not candidate:  # the ends of a range are one price
                made.append(Option(number, candidate.read.cents / 100, candidate))
            continue
        value = number.value * _meant(number)
        if _LEAST <= value <= _MOST:
            made.append(Option(number, value, None))
    return made[:_MOST_OPTIONS]


def _meant(number: Number) -> int:
    """What a short number would be of, were it a price: "3.5" thousands, "18" hundreds."""
    if number.role != "plain":
        return 1
    if number.grouped:
        return 1000 if number.value < _SHORT_TENS and number.value % 1 else 1
    return 100 if _SHORT_HUNDREDS[0] < number.value <= _SHORT_HUNDREDS[1] else 1


class _Text:
    """An ad's text cut into words once, so that what stands about any number is at hand."""

    def __init__(self, text: str) -> None:
        self.text = text
        low = text.lower()
        low = low if len(low) == len(text) else text  # a letter or two change their length
        found = [(match.start(), _plain(match.group())) for match in _WORD.finditer(low)]
        self.starts = [start for start, _ in found]
        self.words = [word for _, word in found]
        self.lines = [-1, *(at for at, sign in enumerate(text) if sign == "\n")]

    def before(self, at: int, most: int) -> list[str]:
        end = bisect_left(self.starts, at)
        return self.words[max(0, end - most) : end]

    def after(self, at: int, most: int) -> list[str]:
        start = bisect_left(self.starts, at)
        return self.words[start : start + most]

    def line(self, at: int) -> int:
        return bisect_left(self.lines, at) - 1


def _plain(word: str) -> str:
    return word if not word[0].isdigit() else "#" if len(word) > _LONG_NUMBER else "n"


def signs(text: str, title: Span, found: Sequence[Option], ruled: PriceRead, *, sought: bool) -> list[set[str]]:
    """The signs of each option, and last those of there being no price at all.

    ``ruled`` is what the rules came to: one sign among the rest.
    """
    words = _Text(text)
    money = [one for one in found if one.number.role == "money"]
    most = max((one.value for one in found), default=0.0)
    most_money = max((one.value for one in money), default=0.0)
    least = min((one.value for one in found), default=0.0)
    least_money = min((one.value for one in money), default=0.0)
    alike = Counter(one.value for one in found)
    last_line = words.line(len(text.rstrip()))
    auction = AUCTION.search(text) is not None
    made: list[set[str]] = []
    lows = [min((one.value for one in found[:index]), default=math.inf) for index in range(len(found))]
    for index, one in enumerate(found):
        number = one.number
        own = {"a sum", f"role {number.role}", f"role {number.role}, {min(len(money), 3)} with a sign", *_form(one)}
        own.update(_about(words, number))
        own.update(_beside(words, found, index))
        line = words.line(number.start)
        own.update(
            name
            for name, true in (
                ("in the title", number.digits_at < title.end),
                (f"in the title {number.role}", number.digits_at < title.end),
                ("first line", line == 0),
                ("last line", line >= last_line),
                ("first", index == 0),
                ("last", index == len(found) - 1),
                ("first with a sign", bool(money) and one is money[0]),
                ("last with a sign", bool(money) and one is money[-1]),
                ("the most", one.value == most),
                ("the most with a sign", number.role == "money" and one.value == most_money),
                ("said again", alike[one.value] > 1),
                ("at an auction", auction),
                ("less than all before", index > 0 and one.value < lows[index]),
                ("less than all before, the last", index == len(found) - 1 and index > 0 and one.value < lows[index]),
                ("the least", one.value == least),
                ("the least with a sign", number.role == "money" and one.value == least_money),
            )
            if true
        )
        own.add(f"of {min(len(found), 6)}")
        own.update(_by_rules(one, ruled))
        made.append(own)
    nothing = {"no price", f"no price, {min(len(money), 3)} with a sign", f"no price, of {min(len(found), 5)}"}
    nothing.update(f"ad {word}" for word in islice(dict.fromkeys(words.words), _MOST_WORDS) if word.isalpha() and len(word) > 1)
    nothing.update(name for name, true in (("sought", sought), ("no price, at an auction", auction)) if true)
    nothing.update(f"ad {one} {two}" for one, two in pairwise(words.words[:_MOST_WORDS]))
    said = no_price(text)
    if said.kind != "none" and said.cents is None:
        nothing |= {f"says {said.kind}", f"says {' '.join(said.text.lower().split())}"}
    if ruled.kind not in ("asked", "rental"):
        nothing.add(f"{BY_RULES}{ruled.kind}")
    made.append(nothing)
    return made


def silent_signs(text: str) -> set[str]:
    """The signs of an ad that names no sum: its words, one by one and two by two."""
    words = _Text(text).words[:_MOST_WORDS]
    return {"no sum", *(f"ad {word}" for word in words), *(f"ad {one} {two}" for one, two in pairwise(words))}


def _by_rules(one: Option, ruled: PriceRead) -> Iterator[str]:
    """What the rules say of a sum; their weights are learned from ads alone that the rules were not made by."""
    read = one.candidate.read if one.candidate else None
    if read is not None and one.candidate is not None:
        yield f"{BY_RULES}{'other' if one.candidate.other else 'was' if one.candidate.was else 'asked'}"
    if ruled.kind in ("asked", "rental") and ruled.span.start <= one.number.digits_at < ruled.span.end:
        yield f"{BY_RULES}chosen"
        yield f"{BY_RULES}chosen, {math.floor(ruled.certainty * 10) / 10}"


def _form(one: Option) -> Iterator[str]:
    """How a sum is written and how much it is."""
    number, value = one.number, one.value
    if number.thousands:
        yield "k"
    if number.grouped:
        yield "grouped"
    if number.hundredths:
        yield "hundredths"
    if is_year_like(number):
        yield "like a year"
    multiple = next((step for step in _ROUND if value % step == 0), None)
    if multiple:
        yield f"round {multiple}"
    yield f"doublings {int(math.log2(max(value, 1)))}"
    yield f"triplings {int(math.log(max(value, 1), 3))} {number.role}"


def _about(words: _Text, number: Number) -> Iterator[str]:
    """What stands before a sum and behind it: words by their place, words of the line, words of the clause."""
    role = number.role
    before, after = words.before(number.start, 14), words.after(number.end, 12)
    for place in range(1, _BESIDE + 1):
        yield f"b{place} {before[-place] if len(before) >= place else '^'}"
        yield f"a{place} {after[place - 1] if len(after) >= place else '$$'}"
    yield f"b21 {' '.join(before[-2:])}"
    yield f"a12 {' '.join(after[:2])}"
    line_before = _since(before, {"\n"})
    line_after = _until(after, {"\n"})
    yield from (f"b {word}" for word in set(line_before[-_BEFORE:]) if word.isalpha())
    yield from (f"a {word}" for word in set(line_after[:_AFTER]) if word.isalpha())
    clause_before, clause_after = _since(line_before, _PAUSE), _until(line_after, _PAUSE)
    for name, empty in (
        ("begins the line", not line_before),
        ("ends the line", not line_after),
        ("a line of its own", not line_before and not line_after),
        ("begins", not clause_before),
        ("ends", not clause_after),
        ("alone", not clause_before and not clause_after),
    ):
        if empty:
            yield name
            yield f"{name} {role}"
    text = words.text
    yield f"behind {_sign(text, number.digits_at - 1)}"
    yield f"before {_sign(text, number.digits_end)}"
    head = text[max(0, number.start - 20) : number.start].rstrip(" ")
    last = re.split(r"[^A-Za-z-]", head)[-1]
    if last[:1].isupper():
        yield "behind a capital"
    if last.isupper():
        yield "behind capitals"


def _sign(text: str, at: int) -> str:
    sign = text[at : at + 1] if at >= 0 else ""
    return "x" if sign.isalnum() else sign


def _since(words: list[str], stops: frozenset[str] | set[str]) -> list[str]:
    at = next((index for index in range(len(words) - 1, -1, -1) if words[index] in stops), -1)
    return words[at + 1 :]


def _until(words: list[str], stops: frozenset[str] | set[str]) -> list[str]:
    at = next((index for index, word in enumerate(words) if word in stops), len(words))
    return words[:at]


def _beside(words: _Text, found: Sequence[Option], index: int) -> Iterator[str]:
    """The sum before and the one behind: which is more, and what stands between."""
    one = found[index]
    for name, other in (
        ("pb", found[index - 1] if index else None),
        ("nb", found[index + 1] if index + 1 < len(found) else None),
    ):
        if other is None:
            continue
        more = "more" if other.value > one.value else "no more"
        yield f"{name} {more}"
        start, end = sorted([(one.number.start, one.number.end), (other.number.start, other.number.end)])
        if end[0] - start[1] < _BETWEEN:
            yield f"{name} near {more} {other.number.role}"
            between = words.after(start[1], 12)[: max(0, bisect_left(words.starts, end[0]) - bisect_left(words.starts, start[1]))]
            yield from (f"{name} {word}" for word in between)
