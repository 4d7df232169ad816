"""An ad's text into fields, each with where it was read and how sure it is. Nothing is looked up and nothing is guessed."""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from typing import Protocol, TypeVar

from interchange.ads.fields import NO_WORDS, AdReading, AdWords, Field, Phrase, PhraseHit, Span
from interchange.ads.line import Line, lines
from interchange.ads.model_word import model_words
from interchange.ads.number import Labelled, Number, Taken, dates_and_addresses, is_year_like, labelled, numbers, phones
from interchange.ads.offer import offer, part_reads, subject, unit_health
from interchange.ads.place_words import read_places
from interchange.ads.plain import clean
from interchange.ads.price import read_prices
from interchange.ads.wording import BREAK, COMMA, Hit, Token, hits, lexicon, tokens

_LONGEST_TITLE = 140
_AROUND = 40  # characters looked at on either side of a number
_LB_PER = {"pounds": 1.0, "kilograms": 2.204623, "tons": 2000.0}
_KM_PER_MI = 1.609344
_MOST_HOURS, _FEWEST_HOURS = 99_999, 25

_HOURS_BEFORE = re.compile(r"\b(?:hour ?meter|hours?|hrs?|meter|clock|tach)\b(?:[ \t]{1,2}(?:reads?|reading|shows?|showing|says|at|is|on it|on meter|of)){0,2}[ \t]{0,2}[:=~#-]?[ \t]{0,2}$", re.IGNORECASE)
_NOT_HOURS_BEFORE = re.compile(
    r"\b(?:open|call|after|within|takes?|took|about an?|drive[ns]?|in|every|warranty|another|labou?r|give me|notice|last|next|first)[ \t]{1,2}(?:about |the |only )?$|/[ \t]{0,2}$",
    re.IGNORECASE,
)
_NOT_HOURS_AFTER = re.compile(
    r"[ \t.]{0,2}(?:away|drive\b|of (?:labou?r|work|drive)|labou?r|notice|each way|north|south|east|west|a day|/ ?day|per day|from (?:me|here|town|[A-Z])|ago|old\b|trip|round ?trip|warranty|n of|s of|e of|w of)",
    re.IGNORECASE,
)
_HOURS_SINCE = re.compile(r"[ \t]{0,2}(?:on|since|after)[ \t]{1,2}(?:the[ ]|a[ ]|new[ ]|engine[ ]|motor[ ]|complete[ ]){0,3}(?:re-?build|overhaul|reman|motor|engine|in-?frame|new)", re.IGNORECASE)
_ABOUT = re.compile(r"(?:about|approx\w{0,8}|around|roughly|~|est\w{0,6}|maybe|supposedly|under|over|less than|more than)[ \t.]{0,2}$", re.IGNORECASE)

_YEAR_LABEL = re.compile(r"\b(?:year|yr|model year|built|mfg|made|baujahr)\b[ \t]{0,2}(?:in|of)?[ \t]{0,2}[:=]?[ \t]{0,2}$", re.IGNORECASE)
_NOT_YEAR_BEFORE = re.compile(
    r"\b(?:in|since|until|till|from|by|before|after|est|established|rebuilt|overhauled|bought|purchased|new in|spring|summer|fall|winter|of|joined|(?:jan|feb|mar|apr|may|jun|jul|aug|sep|oct|nov|dec)\w{0,6}"
    r"|s/?n|serial|model|number|no\.?|\#|hours|hrs)[ \t:.,#]{0,3}(?:[0-9]{1,2},? )?$",
    re.IGNORECASE,
)
_SHORT_YEAR = re.compile(r"(?<![\w'’])['’](?P<year>[3-9][0-9]|[0-2][0-9])(?=[ \t]{1,2}(?:[A-Z]|model|vintage))")
_DECADE = re.compile(r"\b(?:(?P<part>early|mid|late)[- ]{0,3})(?:19)?(?P<tens>[3-9]0)['’]?s\b", re.IGNORECASE)

_WEIGHS = re.compile(r"\b(?:weigh(?:s|ing|t)?|wt\.?|shipping weight)\b[^.\n]{0,14}$", re.IGNORECASE)
_NOT_WEIGHT_BEFORE = re.compile(r"\b(?:lifts?|lifting|capacity|rated|breakout|thrust|tows?|pulls?|carr(?:y|ies)|load|roc|operating capacity|gvwr?|bucket|torque|psi)\b[^.\n]{0,16}$", re.IGNORECASE)
_NOT_WEIGHT_AFTER = re.compile(r"[ \t.]{0,2}(?:capacity|lift|rated|breakout|torque|per|/|loader|bucket|operating|gvw|pull|test|of torque|class)", re.IGNORECASE)
_DELIVERS = re.compile(r"\b(?:deliver(?:y|ed|s)?|haul|bring|meet|drop|transport|drive|within)\b[^.\n]{0,36}$", re.IGNORECASE)
_SEEN_FROM = re.compile(r"(?:seen|looking|viewed|facing|from|at)[^.\n]{0,24}\b(?P<end>flywheel|rear|back|front|fan|nose|shaft end|pulley)\b", re.IGNORECASE)
_NAMED_NUMBERS = ("power_hp", "power_kw", "cylinders", "litres", "cubic_inches", "rpm")
_SYSTEM_VOLTS = frozenset([6, 12, 24])
_OWN_FIELDS = frozenset(["meter_doubted", "will_ship", "no_shipping", "pickup_only", "on_pallet", "can_deliver"])
_ROTATIONS = {"rotation_clockwise": "clockwise", "rotation_counter_clockwise": "counter-clockwise", "rotation_reverse": "reverse", "rotation_standard": "standard"}
_HEALTH_REACH = 6  # words a phrase may stand from the unit it speaks of


class _Read(Protocol):
    @property
    def span(self) -> Span: ...

    def _replace(self, **changes: object) -> _Read: ...


R = TypeVar("R", bound=_Read)


def read_ad(text: str, phrases: Sequence[Phrase], words: AdWords = NO_WORDS) -> AdReading:
    """Read one ad. Any text may be given; what cannot be read is None or empty, and nothing raises.

    Spans and texts are of `text` as given, whatever markup or escapes were blanked for the reading.
    """
    safe = clean(text)
    title_line = _title_span(safe)
    found = tokens(safe)
    tree = lexicon(phrases, words)
    rooms = _by_room(hits(tree, found))
    tel = phones(safe)
    tel_spans = [phone.span for phone in tel]
    named = labelled(safe)
    taken = Taken([*tel_spans, *dates_and_addresses(safe), *(one.span for one in named)])
    figures = numbers(safe, taken)
    prices = read_prices(safe, figures, title_line)
    money = [prices.asked, *prices.others, *([prices.was] if prices.was else [])]
    places = read_places(safe, Taken([*tel_spans, *(one.span for one in named), *(one.span for one in money)]), tree.known)
    spent = Taken([*(one.span for one in money), *(place.span for place in places)])
    sort, sort_is = subject(safe, found, _nouns(rooms), title_line)
    facts = rooms["fact"]
    result = AdReading(
        title=_title(safe, title_line),
        price=prices.asked,
        was_price=prices.was,
        other_prices=prices.others,
        place=places[0] if places else None,
        other_places=places[1:],
        offer=offer(safe, rooms["offer"], sort, [hit.id for hit in rooms["phrase"] if not hit.negated], title_line),
        subject=sort,
        subject_is=sort_is,
        parts=part_reads(safe, found, rooms["part"]),
        health=unit_health(safe, found, rooms["thing"], rooms["state"]),
        phrases=_phrase_hits(safe, found, rooms, phrases),
        hours=_hours(safe, figures),
        meter_doubted=_fact(safe, facts, "meter_doubted"),
        year=_year(safe, figures, title_line),
        weight_lb=_weight(safe, figures),
        ships=_fact(safe, facts, "will_ship") or _denied(_fact(safe, facts, "no_shipping") or _fact(safe, facts, "pickup_only"), "ships"),
        on_pallet=_fact(safe, facts, "on_pallet"),
        delivers=_fact(safe, facts, "can_deliver"),
        deliver_mi=_deliver_mi(safe, figures),
        volts=_volts(safe, figures),
        rotation=_rotation(safe, facts),
        phones=tuple(Field("phone", phone.digits, safe[phone.span.start : phone.span.end], phone.span, 0.9) for phone in tel),
        model_words=model_words(safe, title_line, taken, spent, figures, tree.known),
        said=_said(safe, facts, figures, named),
    )
    return result if safe is text or safe == text else _as_written(text, result)


def _by_room(found: Sequence[Hit]) -> dict[str, list[Hit]]:
    rooms: dict[str, list[Hit]] = {room: [] for room in ("phrase", "offer", "thing", "part", "state", "fact")}
    for hit in found:
        rooms[hit.room].append(hit)
    # A part or a fact that has an offer word in it is not that offer: "radiator core", "core deposit".
    longer = [hit for room in ("part", "fact") for hit in rooms[room]]
    rooms["offer"] = [hit for hit in rooms["offer"] if not _within_longer(hit, longer)]
    return rooms


def _within_longer(hit: Hit, others: Iterable[Hit]) -> bool:
    return any(one.first <= hit.first and hit.last <= one.last and one.last - one.first > hit.last - hit.first for one in others)


def _nouns(rooms: dict[str, list[Hit]]) -> list[Hit]:
    """Things and parts in order; of two that overlap the longer ("engine mount" is no engine)."""
    found: list[Hit] = []
    for hit in sorted([*rooms["thing"], *rooms["part"]], key=lambda hit: (hit.first, -hit.last)):
        if not found or hit.first >= found[-1].last:
            found.append(hit)
    return found


def _title_span(text: str) -> Span:
    """The first line that says what it is: no page leavings, no price, place or telephone alone."""
    spare: Span | None = None
    for line in lines(text[:_FAR]):
        if line.sort in ("blank", "rule", "crumb"):
            continue
        span = _first_sentence(text, line)
        if line.sort == "text" or (line.sort == "chat" and span.end > span.start):
            return span
        if line.sort == "label" and spare is None:
            spare = span
    return spare or Span(0, 0)


_FAR = 4000  # signs within which a title must stand
_SENTENCE = re.compile(r"[.!?](?=\s|$)|\s[-–—|]{1,2}\s(?=[A-Z][a-z]{1,10} )")


def _first_sentence(text: str, line: Line) -> Span:
    start = line.body_at
    label = re.compile(r"(?:title|subject|listing|heading|headline|ad|item|for sale|selling)[ \t]{0,2}:[ \t]{0,3}", re.IGNORECASE).match(text, start, line.end)
    if label:
        start = label.end()
    body = text[start : line.end].rstrip()
    if len(body) > _LONGEST_TITLE:
        stop = _SENTENCE.search(body, 10)
        body = body[: stop.start() if stop and stop.start() <= _LONGEST_TITLE else _LONGEST_TITLE].rstrip()
    return Span(start, start + len(body))


def _title(text: str, span: Span) -> Field | None:
    found = text[span.start : span.end]
    return Field("title", found, found, span, 0.9 if len(found) <= _LONGEST_TITLE * 2 / 3 else 0.6) if found else None


def _phrase_hits(text: str, words: Sequence[Token], rooms: dict[str, list[Hit]], phrases: Sequence[Phrase]) -> tuple[PhraseHit, ...]:
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
    from bisect import bisect_left

    low = bisect_left(units, first, key=lambda unit: unit.first)
    return list(units[low : bisect_left(units, last, key=lambda unit: unit.first)])


def _paused(words: Sequence[Token], start: int, end: int) -> bool:
    return any(words[index].key in (BREAK, COMMA, "but") for index in range(start, end))


def _field(text: str, name: str, value: str | float | bool, number: Number, certainty: float, note: str = "") -> Field:  # noqa: FBT001 - a value as read
    return Field(name, value, text[number.start : number.end], Span(number.start, number.end), certainty, note)


def _hours(text: str, figures: Sequence[Number]) -> Field | None:
    found = []
    for number in figures:
        before = text[max(0, number.start - _AROUND) : number.start].rpartition("\n")[2]
        after = text[number.end : number.end + _AROUND]
        labelled_so = _HOURS_BEFORE.search(before) is not None
        if number.role != "hours" and not (labelled_so and number.role == "plain"):
            continue
        if not number.value <= _MOST_HOURS or _NOT_HOURS_AFTER.match(after) or (_NOT_HOURS_BEFORE.search(before) and not labelled_so):
            continue
        since = _HOURS_SINCE.match(after)
        if number.value < _FEWEST_HOURS and not (labelled_so or since):
            continue
        about = _ABOUT.search(before) is not None
        certainty = (0.9 if number.role == "hours" or labelled_so else 0.7) - (0.3 if since else 0) - (0.1 if about else 0)
        note = "since work was done on it, not the meter" if since else "about" if about else ""
        found.append(_field(text, "hours", number.value, number, certainty, note))
    return max(found, key=lambda one: one.certainty, default=None)


def _year(text: str, figures: Sequence[Number], title: Span) -> Field | None:
    found = []
    for number in figures:
        if not is_year_like(number):
            continue
        before = text[max(0, number.start - _AROUND) : number.start].rpartition("\n")[2]
        in_title = title.start <= number.start < title.end
        if _YEAR_LABEL.search(before):
            certainty = 0.95
        elif _NOT_YEAR_BEFORE.search(before):
            continue
        elif in_title:
            certainty = 0.9
        elif re.match(r"[ \t]{1,2}(?:[A-Z]|model|yr|year)", text[number.end : number.end + 8]):
            certainty = 0.6
        else:
            continue
        found.append(_field(text, "year", int(number.value), number, certainty))
    for match in _SHORT_YEAR.finditer(text):
        year = int(match["year"])
        year += 1900 if year >= 30 else 2000  # noqa: PLR2004 - '29 is more likely to come than long past
        found.append(Field("year", year, match.group(), Span(*match.span()), 0.6))
    for match in _DECADE.finditer(text):
        found.append(Field("year", 1900 + int(match["tens"]), match.group(), Span(*match.span()), 0.4, "a decade"))
    return max(found, key=lambda one: one.certainty, default=None)


def _weight(text: str, figures: Sequence[Number]) -> Field | None:
    found = []
    for number in figures:
        per = _LB_PER.get(number.role)
        if per is None:
            continue
        before = text[max(0, number.start - _AROUND) : number.start].rpartition("\n")[2]
        weighs = _WEIGHS.search(before) is not None
        barred = _NOT_WEIGHT_BEFORE.search(before) or _NOT_WEIGHT_AFTER.match(text[number.end : number.end + 20])
        if (barred and not weighs) or (not weighs and (number.role == "tons" or number.value * per < 20)) or number.value * per > 400_000:  # noqa: PLR2004
            continue
        note = "" if number.role == "pounds" else "short tons" if number.role == "tons" else "from kg"
        found.append(_field(text, "weight_lb", round(number.value * per, 1), number, 0.9 if weighs else 0.6, note))
    return max(found, key=lambda one: one.certainty, default=None)


def _deliver_mi(text: str, figures: Sequence[Number]) -> Field | None:
    for number in figures:
        if number.role in ("miles", "kilometres") and _DELIVERS.search(text[max(0, number.start - _AROUND) : number.start]):
            per = 1.0 if number.role == "miles" else _KM_PER_MI
            return _field(text, "deliver_mi", round(number.value / per, 1), number, 0.8)
    return None


def _volts(text: str, figures: Sequence[Number]) -> Field | None:
    found = [number for number in figures if number.role == "volts" and number.value in _SYSTEM_VOLTS]
    if not found:
        return None
    several = len({number.value for number in found}) > 1
    return _field(text, "volts", int(found[0].value), found[0], 0.5 if several else 0.85, "more than one voltage is named" if several else "")


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


def _said(text: str, facts: Iterable[Hit], figures: Iterable[Number], named: Iterable[Labelled]) -> tuple[Field, ...]:
    found = [_fact_field(text, hit) for hit in facts if hit.id not in _OWN_FIELDS and hit.id not in _ROTATIONS]
    found += [_field(text, number.role, number.value, number, 0.8) for number in figures if number.role in _NAMED_NUMBERS]
    found += [Field(one.name, one.id, one.id, one.span, 0.8) for one in named]
    return tuple(sorted(found, key=lambda one: one.span))


def _as_written(text: str, read: AdReading) -> AdReading:
    """The same reading with every text cut from the ad as it was pasted, markup and all."""
    from dataclasses import fields, replace

    changes: dict[str, object] = {}
    for field in fields(read):
        value = getattr(read, field.name)
        if isinstance(value, tuple) and hasattr(value, "span"):
            changes[field.name] = _recut(text, value)
        elif isinstance(value, tuple):
            changes[field.name] = tuple(_recut(text, one) for one in value)
    return replace(read, **changes)  # type: ignore[arg-type]


def _recut(text: str, one: _Read) -> _Read:
    return one._replace(text=text[one.span.start : one.span.end])
