"""Words that may name a maker or model: RL90, T-412, H52 D, 540, and the capitalised words beside them."""

from __future__ import annotations

import re
from collections.abc import Sequence

from interchange.ads.fields import ModelWord, Span
from interchange.ads.number import Number, Taken, is_year_like
from interchange.ads.place_states import STATES

_WORD = re.compile(r"(?<![\w$€£'’])[A-Za-z0-9]{1,14}(?:[-/.][A-Za-z0-9]{1,8}){0,3}(?![\w])")
_UNIT_NUMBER = re.compile(
    r"[0-9][0-9.]*-?(?:k|hp|bhp|kw|v|volts?|h|hrs?|hours?|lbs?|kgs?|mi|miles?|km|ft|in|inch|mm|cm|cc|ci"
    r"|cid|l|th|st|nd|rd|wd|x[0-9]+|pt|point|am|pm|gpm|psi|rpm|oz|spd"
    r"|speed|cyl|cylinder|ton|tons|yd|gal|obo|firm|each|ea|s|pcs?|bolt|hole|spline|tooth|stage|owner|ply"
    r"|amp|stroke|point|door|way|hr|min|day|days|x)|[0-9]+(?:[-/.][0-9]+)*",
    re.IGNORECASE,
)
_SPACED = re.compile(r"(?<![\w$'’-])(?P<letters>[A-Z]{1,3})[ ](?P<number>[0-9]{2,4}[A-Z]{0,2})(?![\w]|[.,/-][0-9])")
_SUFFIXED = re.compile(r"(?<![\w$'’-])[A-Z]{1,4}-?[0-9]{1,4}[ ](?P<suffix>[B-HJ-Z]|[A-Z]{2})(?![\w'’&/])")
_NUMBER_SUFFIXED = re.compile(r"(?<![\w$'’.,-])[0-9]{2,4}[ ][B-HJ-Z](?![\w'’&/.])")
_NAME = re.compile(r"(?<![\w'’])[A-Z][A-Za-z]{2,19}(?![\w'’])")
_LOWER_NAME = re.compile(r"(?<![\w'’-])(?P<name>[a-z]{4,19})[ ]\Z")
_NOT_NAMES = frozenset([
    "the", "and", "for", "with", "from", "out", "off", "runs", "good", "great", "nice", "sale", "used", "new",
    "parts", "only", "call", "text", "asking", "price", "firm", "obo", "cash", "free", "old", "very", "has", "have",
    "had", "was", "will", "needs", "need", "not", "but", "all", "any", "this", "that", "been", "its", "complete",
    "clean", "low", "high", "hours", "hour", "year", "see", "more", "selling", "wanted", "here", "just", "pulled",
    "are", "you", "our", "can", "best", "offer", "make", "trade", "trades", "located", "near", "pick", "title",
    "subject", "condition", "location", "model", "hello", "please", "also", "other", "comes", "what", "one", "two",
    "three", "four", "six", "sold", "some", "still", "there", "they", "would", "like", "ran", "when", "fits",
    "take", "how", "who", "why", "him", "about", "around", "over", "than", "under", "into", "paid", "spent",
    "weighs", "mine", "rated", "approx", "nearly", "almost", "your", "their", "then", "vintage", "antique",
    "industrial", "heavy", "duty", "rare", "big", "small", "early", "late", "style", "series", "type", "running",
    "original", "january", "february", "march", "april", "may", "june", "july", "august", "september", "october",
    "november", "december", "today", "monday", "friday", "sunday",
])  # fmt: skip
_NOT_LETTERS = frozenset([
    "OK", "OBO", "PTO", "GAS", "HP", "HRS", "USD", "EUR", "CAD", "AND", "FOR", "THE", "ALL", "NEW", "AT", "TO",
    "BY", "NO", "IS", "ON", "OF", "I", "A", "ZIP", "RUN",
])  # fmt: skip
_MOST_DIGITS = 5


def model_words(
    text: str, title: Span, taken: Taken, spent: Taken, numbers: Sequence[Number], known: frozenset[str]
) -> tuple[ModelWord, ...]:
    """Candidates in order of place. `taken` is what was read as something else, `spent` adds places and prices."""
    found: dict[Span, ModelWord] = {}

    def add(start: int, end: int, kind: str, certainty: float) -> None:
        span = Span(start, end)
        in_title = title.start <= start < title.end
        found.setdefault(span, ModelWord(text[start:end], span, kind, in_title, round(certainty * (1 if in_title else 0.7), 3)))

    for pattern in (_SPACED, _SUFFIXED):
        for match in pattern.finditer(text):
            letters = match["letters"] if pattern is _SPACED else match["suffix"]
            usable = letters not in _NOT_LETTERS and letters not in STATES and letters.lower() not in known
            if usable and not taken.holds(*match.span()) and not spent.holds(*match.span()):
                add(*match.span(), "model", 0.8)
    for match in _WORD.finditer(text):
        word = match.group()
        if word.isdigit() or word.isalpha() or not any(map(str.isdigit, word)) or not any(map(str.isalpha, word)):
            continue
        if not _UNIT_NUMBER.fullmatch(word) and not taken.holds(*match.span()) and not spent.holds(*match.span()):
            add(*match.span(), "model", 0.9)
    for number in numbers:
        if number.role == "plain" and not spent.holds(number.digits_at, number.digits_end):
            certainty = _number_certainty(text, number, title)
            if certainty:
                add(number.digits_at, number.digits_end, "number", certainty)
                suffixed = _NUMBER_SUFFIXED.match(text, number.digits_at)
                if suffixed:
                    add(*suffixed.span(), "model", 0.6)
    starts = {span.start for span in found}
    for match in _NAME.finditer(text):
        in_title = title.start <= match.start() < title.end
        word = match.group().lower()
        beside = match.end() + 1 in starts
        if (in_title or beside) and word not in known and word not in _NOT_NAMES and not spent.holds(*match.span()):
            add(*match.span(), "name", 0.8 if beside else 0.5)
    for span in [span for span, word in found.items() if word.kind != "name"]:
        beside_lower = _LOWER_NAME.search(text[max(0, span.start - 22) : span.start])
        if beside_lower:
            start = span.start - len(beside_lower.group())
            word = beside_lower["name"]
            if word not in known and word not in _NOT_NAMES and not spent.holds(start, span.start):
                add(start, start + len(word), "name", 0.5)
    return tuple(sorted(found.values(), key=lambda word: word.span))


def _number_certainty(text: str, number: Number, title: Span) -> float:
    """A bare number names a model in a title, or after a capitalised word; a year or a long number does not."""
    digits = number.digits_end - number.digits_at
    if number.grouped or number.thousands or not 2 <= digits <= _MOST_DIGITS or is_year_like(number):  # noqa: PLR2004 - "4 cyl"
        return 0.0
    before = text[max(0, number.digits_at - 20) : number.digits_at]
    after_name = re.search(r"[A-Z][A-Za-z]{2,19}[ ]\Z", before) is not None
    in_title = title.start <= number.digits_at < title.end
    if after_name:
        return 0.8
    return 0.6 if in_title else 0.0
