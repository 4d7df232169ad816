"""An ad with what was read marked in its text: each stretch once, with everything that was read from it."""

from __future__ import annotations

import dataclasses
from collections.abc import Iterator, Sequence
from itertools import pairwise
from typing import NamedTuple

from interchange.ads.fields import AdReading, Field, ModelWord, PartRead, PhraseHit, PlaceRead, PriceRead, Span, UnitHealth
from interchange.ads.form_signs import FormSign
from interchange.ads.match import Matched

_LEFT_OUT = frozenset({"read_to", "model_words", "title"})
_A_GUESS = 0.35  # of a place: what may be a town and counts only where there is such a town


class Said(NamedTuple):
    """One thing read: its field, what it was taken to be, how sure that is, and what there is to remark."""

    field: str
    value: str
    sure: float
    text: str
    span: Span
    note: str = ""


class Mark(NamedTuple):
    """A stretch of the ad and what was read from it; an empty stretch stands for the user's own line."""

    number: int
    span: Span
    text: str
    said: tuple[Said, ...]


class Bit(NamedTuple):
    """A bit of the ad's text and the marks it lies under; ``opens`` are those that begin with it, ``closes`` those that end."""

    text: str
    within: tuple[int, ...]
    opens: tuple[int, ...]
    closes: tuple[int, ...]


def marks_of(reading: AdReading, matched: Matched, forms: Sequence[FormSign] = ()) -> tuple[Mark, ...]:
    """Everything read, by its place in the ad; what the user's own lines say comes last."""
    by_span: dict[tuple[Span, str], list[Said]] = {}
    for one in (*_named(matched), *_shown(forms), *_read(reading)):
        key = (one.span, "" if one.span.end else one.text)
        by_span.setdefault(key, []).append(one)
    ordered = sorted(by_span, key=lambda key: (not key[0].end, key[0].start, -key[0].end))
    return tuple(
        Mark(number, key[0], by_span[key][0].text, tuple(dict.fromkeys(by_span[key]))) for number, key in enumerate(ordered, 1)
    )


def bits(text: str, marks: Sequence[Mark]) -> Iterator[Bit]:
    """The ad's whole text in order, cut where a mark begins or ends: joined again it is the text."""
    real = [mark for mark in marks if mark.span.end > mark.span.start]
    starts: dict[int, list[int]] = {}
    ends: dict[int, list[int]] = {}
    for mark in sorted(real, key=lambda mark: mark.span.start - mark.span.end):
        starts.setdefault(mark.span.start, []).append(mark.number)
    for mark in sorted(real, key=lambda mark: mark.span.end - mark.span.start):
        ends.setdefault(mark.span.end, []).append(mark.number)
    within: list[int] = []
    cuts = sorted({0, len(text), *starts, *ends})
    for begin, end in pairwise(cuts):
        opened, closed = starts.get(begin, []), ends.get(end, [])
        within = [*within, *opened]
        yield Bit(text[begin:end], tuple(within), tuple(opened), tuple(closed))
        within = [number for number in within if number not in closed]


def _named(matched: Matched) -> Iterator[Said]:
    for field, hits in (("names", matched.hits), ("is like", matched.near)):
        for hit in hits:
            value = f"{hit.name.id}.{hit.name.variant}" if hit.name.variant else hit.name.id
            yield Said(field, value, hit.score / 100, hit.name.name, hit.span, "" if hit.exact else "not word for word")


def _shown(forms: Sequence[FormSign]) -> Iterator[Said]:
    """What makes a form likelier; what speaks against one goes without saying."""
    for sign in forms:
        if sign.odds > 1.0:
            yield Said("form", f"{sign.unit}.{sign.variant}", sign.odds / (1.0 + sign.odds), sign.text, sign.span, sign.why)


def _read(reading: AdReading) -> Iterator[Said]:
    for each in dataclasses.fields(reading):
        if each.name in _LEFT_OUT:
            continue
        value = getattr(reading, each.name)
        for one in value if isinstance(value, tuple) and not hasattr(value, "_fields") else (value,):
            guessed = each.name == "other_places" and one.certainty < _A_GUESS
            if one is not None and not isinstance(one, ModelWord | int) and not guessed:
                yield from _said(each.name.replace("_", " "), one)


def _said(field: str, one: Field | PriceRead | PlaceRead | PhraseHit | PartRead | UnitHealth) -> Iterator[Said]:
    match one:
        case PriceRead():
            if one.kind != "none":
                yield Said(field, _price(one), one.certainty, one.text, one.span, one.note)
        case PlaceRead():
            where = ", ".join(filter(None, (one.town, one.state, one.zip))) or one.text
            off = f"{one.away_mi:.0f} mi from " if one.away_mi else ""
            yield Said(field, f"{off}{where}", one.certainty, one.text, one.span, one.note)
        case PhraseHit():
            value = one.id.replace("_", " ") + (", denied" if one.negated else "") + (", doubted" if one.doubted else "")
            yield Said("words", value, one.certainty, one.text, one.span, f"of the {one.unit}" if one.unit else "")
        case PartRead():
            yield Said("part", f"{one.part.replace('_', ' ')} {one.state}", one.certainty, one.text, one.span)
        case UnitHealth():
            yield Said("unit", f"{one.unit} {one.state}", one.certainty, one.text, one.span)
        case Field():
            name = one.name if field == "said" else field
            yield Said(name.replace("_", " "), _value(one.value), one.certainty, one.text, one.span, one.note)


def _value(value: str | float | bool) -> str:  # noqa: FBT001 - what a field holds
    if isinstance(value, bool):
        return "yes" if value else "no"
    return f"{value:,g}" if isinstance(value, float) else str(value).replace("_", " ")


def _price(price: PriceRead) -> str:
    upper = f" to {price.cents_to / 100:,.0f}" if price.cents_to else ""
    amount = "" if price.cents is None else f"{price.cents / 100:,.2f}".removesuffix(".00") + upper
    each = "each" if price.each else f"for {price.for_count}" if price.for_count > 1 else ""
    kind = "" if price.kind == "asked" else price.kind
    return " ".join(filter(None, (kind, amount, price.currency, each, price.terms)))
