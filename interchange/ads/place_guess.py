"""Words that stand where a town would: guesses, to be looked up, for no word of theirs says that they are one."""

from __future__ import annotations

import re

from interchange.ads.fields import PlaceRead, Span
from interchange.ads.number import Taken
from interchange.ads.place_words import NOT_TOWNS, TOWN_ENDS, TOWN_STARTS

_SHORT_LINE = 40  # signs
_GUESS = 0.3
_LAST_WORDS = re.compile(
    r"(?:^|[.!?,;\n–—-][ \t]{0,3}|[ ])(?P<town>(?:(?:Ft|St|Mt"
    r"|Pt)\. )?[^\W\d_][^\W\d_'’.-]{2,20}(?:[ ][^\W\d_][^\W\d_'’-]{1,20}){0,2})[ \t.!?]{0,4}\Z"
)
_SMALL_CUE = re.compile(
    r"\b(?:(?:i'?m|im|i am|its|it'?s|is|sits|up|down|over|out|here|shop|barn|yard|place|farm|live"
    r"|located|meet) (?:in|at|near|by|past|outside)"
    r"|up past|past|near|area of|abholung in|raum|standort|standplaats|lokalizacja|ville de|in|to my \w{2,10} in)[ ]"
    r"(?P<town>[^\W\d_][^\W\d_'’-]{2,20}(?:[ ][^\W\d_][^\W\d_'’-]{2,20}){0,1})",
    re.IGNORECASE,
)
_AREA = re.compile(
    r"(?:^|\n|[.,;][ ])(?P<town>[^\W\d_][^\W\d_'’-]{2,20}(?:[ ][^\W\d_][^\W\d_'’-]{2,20}){0,1})[ ]area\b", re.IGNORECASE
)
_CLAUSE = re.compile(
    r"(?:[.,;][ ]|\n)(?P<town>(?:(?:Ft|St|Mt"
    r"|Pt)\. )?[A-Z][^\W\d_]{2,20}(?:[ ][A-Z][^\W\d_]{2,20}){0,2})(?=[ ]?[.,;\n]|\Z|,? [0-9(])"
)
_TOWN_REGION = re.compile(
    r"(?:^|[.!?][ ]|\n)(?P<town>[A-Z][^\W\d_]{2,20}(?:[ ][A-Z][^\W\d_]{2,20})?),[ ][A-Z][^\W\d_]{2,20}[ \t.]{0,3}(?=\n|\Z)"
)
_AT_TELEPHONE = re.compile(
    r"(?P<town>(?:(?:Ft|St|Mt"
    r"|Pt)\. )?[A-Z][A-Za-z]{2,20}(?:[ ][A-Z][A-Za-z]{2,20}){0,2})"
    r"[ ,.-]{1,3}(?=\(?[2-9][0-9]{2}\)?[-. ]{1,2}[0-9]{3}[-. ][0-9]{4})"
    r"|(?<=[0-9]{3}[-. ][0-9]{4}[ ])(?P<after>(?:(?:Ft|St|Mt|Pt)\. )?[A-Z][A-Za-z]{2,20}(?:[ ][A-Z][A-Za-z]{2,20}){0,2})"
)
_MOST_GUESSES = 8
BRITISH = re.compile(
    r"\b(?:petrol|carburett?ors?|vaporiser|tyres?|lorr(?:y|ies)|colour|POA|ex works|\+ ?VAT|plus VAT|inc\.? VAT|no VAT)\b"
)


def guesses(text: str, taken: Taken, known: frozenset[str]) -> tuple[PlaceRead, ...]:
    """Words that stand where a town would and are nothing else known: to be looked up, and dropped where there is no such town.

    The last words of a text or a line by themselves, words after "in" or "near", a clause of capitalised words alone.
    """
    found: dict[Span, PlaceRead] = {}

    def add(start: int, end: int, certainty: float) -> None:
        words = text[start:end]
        first, last = 0, len(words)
        for match in re.finditer(r"[^ ]+", words):
            if _no_town(match.group(), known):
                if match.start() > first:  # words after it are no part of the town's name
                    last = match.start() - 1
                    break
                first = match.end() + 1
        span = Span(start + first, start + max(first, last))
        if span.start < span.end and span not in found and not taken.holds(*span):
            found[span] = PlaceRead(
                "town", text[span.start : span.end], None, None, None, None, text[span.start : span.end], span, certainty
            )

    lines = [(match.start(), match.group()) for match in re.finditer(r"[^\n]+", text)]
    closing = [line for line in lines if line[1].strip()][-3:]
    for start, line in reversed(closing):
        last = _LAST_WORDS.search(line[-80:])
        if last and (len(line) <= _SHORT_LINE or start == closing[-1][0] or last.group()[:1] in ".!?,;"):
            at = start + max(0, len(line) - 80)
            add(at + last.start("town"), at + last.end("town"), _GUESS)
    for match in _AT_TELEPHONE.finditer(text):
        add(*match.span(match.lastgroup or 0), _GUESS + 0.02)
    for pattern, certainty in (
        (_TOWN_REGION, _GUESS + 0.03),
        (_AREA, _GUESS),
        (_SMALL_CUE, _GUESS - 0.1),
        (_CLAUSE, _GUESS - 0.05),
    ):
        for match in pattern.finditer(text):
            if len(found) >= _MOST_GUESSES:
                break
            add(*match.span("town"), certainty)
    return tuple(sorted(found.values(), key=lambda place: -place.certainty))


def _no_town(word: str, known: frozenset[str]) -> bool:
    plain = word.lower().strip(".,'’")
    return (plain in NOT_TOWNS or plain in known or plain in _PLAIN_WORDS) and plain not in TOWN_STARTS | TOWN_ENDS


_PLAIN_WORDS = frozenset([
    "week", "summer", "winter", "spring", "fall", "years", "year", "ago", "now", "last", "back", "there", "then", "them", "him",
    "her", "you", "they", "money", "time", "place", "side", "thing", "stuff", "lot", "bit", "way", "one", "two", "all", "both",
    "january", "february", "march", "april", "may", "june", "july", "august", "september", "october", "november", "december",
    "mon", "tue", "tues", "wed", "thu", "thur", "thurs", "fri", "sat", "sun", "ad", "usd", "eur", "festpreis", "standplaats",
    "standort", "raum", "abholung", "ort", "lieu", "plats", "miejsce", "ubicacion", "bei", "versand", "envio",
    "monday", "tuesday", "wednesday", "thursday", "friday", "saturday", "sunday", "evenings", "eves", "days", "anytime", "please",
    "thanks", "thank", "only", "lol", "pm", "am", "serious", "buyers", "calls", "texts", "emails", "usa", "neg", "vat", "btw",
    "mwst", "tva", "iva", "moms", "excl", "incl", "plus", "each", "piece", "scrap", "yours", "mine", "ours",
    "grain", "separately",
    "apart", "used", "like", "heavy", "horses", "hp", "ton", "tons", "details", "description", "condition", "horsepower", "more",
    "info", "seller", "information", "photos", "pictures", "answers", "answer", "questions", "mechanical", "field", "woods",
    "shed", "house", "dad", "dads", "uncle", "brother", "son", "wife", "work", "working", "right", "left",
    "head", "top", "bottom",
    "first", "second", "third", "it'll", "well", "too", "also", "hold", "holds", "dont", "know", "want",
    "need", "offers", "trades",
    "trade", "haul", "load", "loading", "pick", "storage", "auction", "sale", "bidder", "bid", "lots", "cattle", "hay", "wood",
])  # fmt: skip
