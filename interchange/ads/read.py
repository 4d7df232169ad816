"""An ad's text into fields, each with where it was read and how sure it is. Nothing is looked up and nothing is guessed."""

from __future__ import annotations

import re
from bisect import bisect_left
from collections.abc import Iterable, Sequence
from dataclasses import fields, replace
from typing import Any, get_args

from interchange.ads.currency import Prices
from interchange.ads.fields import (
    NO_WORDS,
    AdReading,
    AdWords,
    Field,
    ModelWord,
    PartRead,
    Phrase,
    PhraseHit,
    PlaceRead,
    PriceRead,
    Span,
    UnitHealth,
)
from interchange.ads.figures import figures
from interchange.ads.measure import as_field, deliver_mi, hours, volts, weight, year
from interchange.ads.mended import Mended
from interchange.ads.model_word import model_words
from interchange.ads.number import Labelled, Number, Taken
from interchange.ads.offer import Said, offer
from interchange.ads.part import part_reads
from interchange.ads.place_guess import BRITISH, guesses
from interchange.ads.place_words import abroad, read_places
from interchange.ads.price_settled import read_prices
from interchange.ads.seeking import seeks
from interchange.ads.subject import subject
from interchange.ads.title import LONGEST_TITLE
from interchange.ads.unit_state import unit_health
from interchange.ads.wording import BREAK, COMMA, Hit, Token, hits, lexicon, tokens

_AROUND = 40  # characters looked at on either side of a number


_SEEN_FROM = re.compile(
    r"(?:seen|looking|viewed|facing|from|at)[^.\n]{0,24}\b(?P<end>flywheel|rear|back|front|fan|nose"
    r"|shaft end|pulley)\b",
    re.IGNORECASE,
)
_SOLD = re.compile(
    r"(?:^|\n)[^\w\n]{0,8}(?P<sold>[Ss]old|SOLD)[^\w\n]{0,8}(?=\n|\Z)|(?<![\w])(?P<loud>SOLD)(?![ \t]?"
    r"(?:WITH|AS|OUT|SEPARATELY|FOR|BY|IN|NEW)\b|\w)"
)
_NAMED_NUMBERS = ("power_hp", "power_kw", "cylinders", "litres", "cubic_inches", "rpm")
_OWN_FIELDS = frozenset(["meter_doubted", "will_ship", "no_shipping", "pickup_only", "on_pallet", "can_deliver"])
_ROTATIONS = {
    "rotation_clockwise": "clockwise",
    "rotation_counter_clockwise": "counter-clockwise",
    "rotation_reverse": "reverse",
    "rotation_standard": "standard",
}
_HEALTH_REACH = 6  # words a phrase may stand from the unit it speaks of


def read_ad(text: str, phrases: Sequence[Phrase], words: AdWords = NO_WORDS) -> AdReading:
    """Read one ad. Any text may be given; what cannot be read is None or empty, and nothing raises.

    Spans and texts are of `text` as given, whatever markup or escapes were blanked for the reading. Of a text longer
    than any ad only the beginning is read; `read_to` says how far.
    """
    counted = figures(text)
    whole, safe, title_line = counted.mended, counted.text, counted.title
    found = tokens(safe)
    tree = lexicon(phrases, words)
    rooms = _by_room(hits(tree, found))
    sought = seeks(safe)
    rooms["fact"] = [hit for hit in rooms["fact"] if hit.id != "wanted"]
    rooms["fact"] = [hit for hit in rooms["fact"] if not _gone_through(found, hit)]
    tel_spans = [phone.span for phone in counted.phones]
    named, taken, numbers = counted.labelled, counted.taken, counted.numbers
    prices = read_prices(safe, numbers, title_line, sought=sought is not None)
    money = [prices.asked, *prices.others, *([prices.was] if prices.was else [])]
    places = read_places(safe, Taken([*tel_spans, *(one.span for one in named), *(one.span for one in money)]), tree.nouns)
    foreign = prices.asked.currency not in (None, "USD", "CAD")
    if foreign:
        places = tuple(abroad(place) for place in places if place.kind != "zip")
    foreign = foreign or (prices.asked.currency is None and BRITISH.search(safe) is not None)
    perhaps = guesses(
        safe,
        Taken([*tel_spans, *(one.span for one in named), *(one.span for one in money), *(one.span for one in places)]),
        tree.nouns,
        foreign=foreign,
    )
    if foreign:
        perhaps = tuple(map(abroad, perhaps))
    hour_meter, made = hours(safe, numbers), year(safe, numbers, title_line)
    spent = Taken(
        [*(one.span for one in (hour_meter, made) if one), *(one.span for one in money), *(place.span for place in places)]
    )
    rooms["offer"] = [hit for hit in rooms["offer"] if hit.span.start < title_line.end or not _priced_apart(hit, prices)]
    nouns = _nouns(rooms)
    sort, sort_is = subject(safe, found, nouns, rooms["offer"], [*rooms["state"], *rooms["phrase"]], title_line)
    facts = rooms["fact"]
    parts = part_reads(safe, found, rooms["part"])
    gone = tuple(part.part for part in parts if part.state == "missing")
    health = _phrase_hits(safe, found, rooms, phrases)
    said = Said(health, frozenset(hit.id for hit in facts if not hit.negated), gone, prices.asked.span)
    offered = offer(safe, found, rooms["offer"], sort, sort_is, said, title_line)
    result = AdReading(
        title=_title(safe, title_line),
        price=prices.asked,
        was_price=prices.was,
        other_prices=prices.others,
        place=places[0] if places else None,
        other_places=(*places[1:], *perhaps),
        offer=offered,
        subject=sort,
        subject_is=sort_is,
        parts=parts,
        health=unit_health(safe, found, [hit for hit in nouns if hit.room == "thing"], rooms["state"]),
        phrases=health,
        hours=hour_meter,
        meter_doubted=_fact(safe, facts, "meter_doubted"),
        year=made,
        weight_lb=weight(safe, numbers),
        ships=_fact(safe, facts, "will_ship")
        or _denied(_fact(safe, facts, "no_shipping") or _fact(safe, facts, "pickup_only"), "ships"),
        on_pallet=_fact(safe, facts, "on_pallet"),
        delivers=_fact(safe, facts, "can_deliver"),
        deliver_mi=deliver_mi(safe, numbers),
        volts=volts(safe, numbers),
        rotation=_rotation(safe, facts) or (_handed(safe) if sort_is and sort_is.value == "pump" else None),
        phones=tuple(
            Field("phone", phone.digits, safe[phone.span.start : phone.span.end], phone.span, 0.9) for phone in counted.phones
        ),
        model_words=model_words(safe, title_line, taken, spent, numbers, tree.known),
        said=_said(safe, facts, numbers, named, sought),
        read_to=counted.read_to,
    )
    return result if text.startswith(safe) and not whole.layers else _as_written(text, result, whole)


def _by_room(found: Sequence[Hit]) -> dict[str, list[Hit]]:
    rooms: dict[str, list[Hit]] = {room: [] for room in ("phrase", "offer", "thing", "part", "state", "fact")}
    for hit in found:
        rooms[hit.room].append(hit)
    # A part or a fact that has an offer word in it is not that offer: "radiator core", "core deposit".
    longer = [hit for room in ("part", "fact") for hit in rooms[room]]
    rooms["offer"] = [hit for hit in rooms["offer"] if not _within_longer(hit, longer)]
    return rooms


def _gone_through(words: Sequence[Token], hit: Hit) -> bool:
    """An engine that "was gone through" was mended, and is not gone."""
    return hit.id == "no_engine" and hit.last < len(words) and words[hit.last].key in ("through", "thru", "over")


def _priced_apart(hit: Hit, prices: Prices) -> bool:
    """Whether another price than the one asked stands right behind: "short blocks $2,400" in a list of several things."""
    at = bisect_left(prices.others, hit.span.end, key=lambda price: price.span.start)
    return at < len(prices.others) and prices.others[at].span.start - hit.span.end <= _BESIDE


_BESIDE = 6  # signs


def _within_longer(hit: Hit, others: Iterable[Hit]) -> bool:
    return any(one.first <= hit.first and hit.last <= one.last and one.last - one.first > hit.last - hit.first for one in others)


def _nouns(rooms: dict[str, list[Hit]]) -> list[Hit]:
    """Things and parts in order; of two that overlap the longer ("engine mount" is no engine)."""
    found: list[Hit] = []
    for hit in sorted([*rooms["thing"], *rooms["part"]], key=lambda hit: (hit.first, -hit.last)):
        if not found or hit.first >= found[-1].last:
            found.append(hit)
    return found


def _title(text: str, span: Span) -> Field | None:
    found = text[span.start : span.end]
    return Field("title", found, found, span, 0.9 if len(found) <= LONGEST_TITLE * 2 / 3 else 0.6) if found else None


def _phrase_hits(
    text: str, words: Sequence[Token], rooms: dict[str, list[Hit]], phrases: Sequence[Phrase]
) -> tuple[PhraseHit, ...]:
    default = {phrase.id: phrase.unit for phrase in phrases}
    units = [hit for hit in rooms["thing"] if hit.id != "machine"]
    found = []
    for hit in rooms["phrase"]:
        unit = _unit_near(words, hit, units) or default.get(hit.id)
        certainty = 0.5 if hit.doubted else 0.8
        found.append(PhraseHit(hit.id, hit.span, hit.negated, text[hit.span.start : hit.span.end], unit, hit.doubted, certainty))
    return tuple(found)


def _unit_near(words: Sequence[Token], hit: Hit, units: Sequence[Hit]) -> str | None:
    """The unit named in the phrase or the nearest before it in its clause, else the nearest after."""
    inside = [unit for unit in _window(units, hit.first, hit.last) if unit.first >= hit.first]
    if inside:
        return inside[0].id
    before = [unit for unit in _window(units, hit.first - _HEALTH_REACH, hit.first) if not _paused(words, unit.last, hit.first)]
    if before:
        return before[-1].id
    after = [unit for unit in _window(units, hit.last, hit.last + _HEALTH_REACH) if not _paused(words, hit.last, unit.first)]
    return after[0].id if after else None


def _window(units: Sequence[Hit], first: int, last: int) -> list[Hit]:
    low = bisect_left(units, first, key=lambda unit: unit.first)
    return list(units[low : bisect_left(units, last, key=lambda unit: unit.first)])


def _paused(words: Sequence[Token], start: int, end: int) -> bool:
    return any(words[index].key in (BREAK, COMMA, "but") for index in range(start, end))


def _fact(text: str, facts: Iterable[Hit], name: str) -> Field | None:
    hit = next((hit for hit in facts if hit.id == name), None)
    return _fact_field(text, hit) if hit else None


def _fact_field(text: str, hit: Hit) -> Field:
    return Field(hit.id, not hit.negated, text[hit.span.start : hit.span.end], hit.span, 0.5 if hit.doubted else 0.8)


def _denied(fact: Field | None, name: str) -> Field | None:
    return fact._replace(name=name, value=not fact.value) if fact else None


def _rotation(text: str, facts: Iterable[Hit]) -> Field | None:
    for hit in facts:
        value = _ROTATIONS.get(hit.id)
        if value and not hit.negated:
            seen = _SEEN_FROM.search(text[max(0, hit.span.start - _AROUND) : hit.span.end + _AROUND])
            note = f"as seen from the {seen['end'].lower()}" if seen else "from which end is not said"
            return Field("rotation", value, text[hit.span.start : hit.span.end], hit.span, 0.8 if seen else 0.5, note)
    return None


_HANDED = re.compile(
    r"\b(?P<hand>right|left|rh|lh)(?:[- ]?hand(?:ed)?)?\b"
    r"(?=[ ,.;]{0,2}(?:turn|rotation|pump|one\b|drive|[A-Z]{1,2}[0-9]|(?-i:[A-Z][a-z]{3,12} [A-Z])))"
    r"|\bturns? (?:to the )?(?P<turns>right|left)\b",
    re.IGNORECASE,
)


def _handed(text: str) -> Field | None:
    """Which way a pump turns, by its hand: "right hand L20", "turns left"."""
    match = _HANDED.search(text)
    if match is None:
        return None
    hand = (match["hand"] or match["turns"]).lower()
    value = "clockwise" if hand.startswith("r") else "counter-clockwise"
    return Field("rotation", value, match.group(), Span(*match.span()), 0.5, "by its hand, from which end is not said")


def _said(
    text: str, facts: Iterable[Hit], figures: Iterable[Number], named: Iterable[Labelled], sought: Span | None
) -> tuple[Field, ...]:
    found = [_fact_field(text, hit) for hit in facts if hit.id not in _OWN_FIELDS and hit.id not in _ROTATIONS]
    found += [as_field(text, number.role, number.value, number, 0.8) for number in figures if number.role in _NAMED_NUMBERS]
    found += [Field(one.name, one.id, one.id, one.span, 0.8) for one in named]
    if sought:
        found.append(Field("wanted", True, text[sought.start : sought.end], sought, 0.8))
    found += [
        Field("sold", True, match[match.lastgroup or 0], Span(*match.span(match.lastgroup or 0)), 0.8)
        for match in _SOLD.finditer(text)
    ]
    return tuple(sorted(found, key=lambda one: one.span))


def _as_written(text: str, read: AdReading, whole: Mended) -> AdReading:
    """The same reading with every text cut from the ad as it was pasted, markup, misreadings and all."""
    changes: dict[str, Any] = {}
    for field in fields(read):
        value = getattr(read, field.name)
        if isinstance(value, _STRETCHES):
            changes[field.name] = _recut(text, value, whole)
        elif isinstance(value, tuple):
            changes[field.name] = tuple(_recut(text, one, whole) for one in value)
    return replace(read, **changes)


_Stretch = Field | PriceRead | PlaceRead | PhraseHit | PartRead | UnitHealth | ModelWord
_STRETCHES = get_args(_Stretch)


def _recut(text: str, one: _Stretch, whole: Mended) -> _Stretch:
    span = Span(*whole.back(*one.span))
    return one._replace(span=span, text=text[span.start : span.end])
