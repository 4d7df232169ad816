"""What an ad says in numbers of the thing itself: hours on the meter, year, weight, volts, how far it is delivered."""

from __future__ import annotations

import re
from collections.abc import Sequence

from interchange.ads.fields import Field, Span
from interchange.ads.number import Number, is_year_like

_AROUND = 40  # characters looked at on either side of a number
_LB_PER = {"pounds": 1.0, "kilograms": 2.204623, "tons": 2000.0}
_KM_PER_MI = 1.609344
_MOST_HOURS, _FEWEST_HOURS = 99_999, 25
_HOURS_BEFORE = re.compile(
    r"\b(?:hour ?meter|hours?|hrs?|meter|clock|tach)\b(?:[ \t]{1,2}(?:reads?|reading|shows?|showing|says"
    r"|at|is|on it|on meter|of)){0,2}[ \t]{0,2}[.:=~#-]?[ \t]{0,2}[(]?\Z",
    re.IGNORECASE,
)
_HOURS_AFTER = re.compile(
    r"[ \t]{0,2}(?:on|showing on)[ \t](?:the |its |her )?(?:hour ?meter|meter|clock|tach(?:ometer)?|machine)\b", re.IGNORECASE
)
_NOT_HOURS_BEFORE = re.compile(
    r"\b(?:open|call|after|within|takes?|took|about an?|drive[ns]?|in|every|warranty|another|labou?r"
    r"|give me|notice|last|next|first)[ \t]{1,2}(?:about |the |only )?$|/[ \t]{0,2}\Z",
    re.IGNORECASE,
)
_NOT_HOURS_AFTER = re.compile(
    r"[ \t.]{0,2}(?:away|drive\b|of (?:labou?r|work|drive)|labou?r|notice|each way|north|south|east|west"
    r"|a day|/ ?day|per day|from (?:me|here|town|[A-Z])|ago|old\b|trip|round ?trip|warranty|n of|s of|e of"
    r"|w of)",
    re.IGNORECASE,
)
_OPENING = re.compile(r"\b(?:yard|shop|store|business|office|opening|our) hours\b", re.IGNORECASE)
_HOURS_SINCE = re.compile(
    r"[ \t]{0,2}(?:on|since|after)[ \t]{1,2}(?:the[ ]|a[ ]|new[ ]|engine[ ]|motor[ ]|complete[ ]){0,3}"
    r"(?:re-?build|overhaul|reman|motor|engine|in-?frame|new)",
    re.IGNORECASE,
)
_ABOUT = re.compile(
    r"(?:about|approx\w{0,8}|around|roughly|~|est\w{0,6}|maybe|supposedly|under|over|less than"
    r"|more than)[ \t.]{0,2}\Z",
    re.IGNORECASE,
)
_YEAR_LABEL = re.compile(
    r"\b(?:year|yr|model year|built|mfg|made|baujahr)\b[ \t]{0,2}(?:in|of)?[ \t]{0,2}[:=]?[ \t]{0,2}\Z", re.IGNORECASE
)
_NOT_YEAR_BEFORE = re.compile(
    r"\b(?:in|since|until|till|from|by|before|after|est|established|rebuilt|overhauled|bought|purchased"
    r"|new in|spring|summer|fall|winter|of|joined|(?:jan|feb|mar|apr|may|jun|jul|aug|sep|oct|nov"
    r"|dec)\w{0,6}"
    r"|s/?n|serial|model|number|no\.?|\#|hours|hrs)[ \t:.,#]{0,3}(?:[0-9]{1,2},? )?\Z",
    re.IGNORECASE,
)
_SHORT_YEAR = re.compile(r"(?<![\w'’])['’](?P<year>[3-9][0-9]|[0-2][0-9])(?=[ \t]{1,2}(?:[A-Z]|model|vintage))")
_DECADE = re.compile(r"\b(?:(?P<part>early|mid|late)[- ]{0,3})(?:19)?(?P<tens>[3-9]0)['’]?s\b", re.IGNORECASE)
_WEIGHS = re.compile(r"\b(?:weigh(?:s|ing|t)?|wt\.?|shipping weight)\b[^.\n]{0,14}\Z", re.IGNORECASE)
_NOT_WEIGHT_BEFORE = re.compile(
    r"\b(?:lifts?|lifting|capacity|rated|breakout|thrust|tows?|pulls?|carr(?:y|ies)|load|roc"
    r"|operating capacity|gvwr?|bucket|torque|psi)\b[^.\n]{0,16}\Z",
    re.IGNORECASE,
)
_NOT_WEIGHT_AFTER = re.compile(
    r"[ \t.]{0,2}(?:capacity|lift|rated|breakout|torque|per|/|loader|bucket|operating|gvw|pull|test"
    r"|of torque|class)",
    re.IGNORECASE,
)
_DELIVERS = re.compile(r"\b(?:deliver(?:y|ed|s)?|haul|bring|meet|drop|transport|drive|within)\b[^.\n]{0,36}\Z", re.IGNORECASE)
_SYSTEM_VOLTS = frozenset([6, 12, 24])


def as_field(text: str, name: str, value: str | float | bool, number: Number, certainty: float, note: str = "") -> Field:  # noqa: FBT001 - a value as read
    """A field that stands where the number does."""
    return Field(name, value, text[number.start : number.end], Span(number.start, number.end), certainty, note)


def hours(text: str, figures: Sequence[Number]) -> Field | None:
    """Hours on the meter: not those of a drive, a day or a warranty; since a rebuild is noted."""
    found = []
    for number in figures:
        before = text[max(0, number.start - _AROUND) : number.start].rpartition("\n")[2]
        after = text[number.end : number.end + _AROUND]
        labelled_so = _HOURS_BEFORE.search(before) is not None or (
            number.role == "plain" and _HOURS_AFTER.match(after) is not None
        )
        if number.role != "hours" and not (labelled_so and number.role == "plain"):
            continue
        if (
            not number.value <= _MOST_HOURS
            or _NOT_HOURS_AFTER.match(after)
            or (_NOT_HOURS_BEFORE.search(before) and not labelled_so)
        ):
            continue
        since = _HOURS_SINCE.match(after)
        if number.value < _FEWEST_HOURS and (_OPENING.search(before) or not (labelled_so or since)):
            continue
        about = _ABOUT.search(before) is not None
        certainty = (0.9 if number.role == "hours" or labelled_so else 0.7) - (0.3 if since else 0) - (0.1 if about else 0)
        note = "since work was done on it, not the meter" if since else "about" if about else ""
        found.append(as_field(text, "hours", number.value, number, certainty, note))
    return max(found, key=lambda one: one.certainty, default=None)


def year(text: str, figures: Sequence[Number], title: Span) -> Field | None:
    """Year of make, surest where labelled or in the title; a decade is noted as one."""
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
        found.append(as_field(text, "year", int(number.value), number, certainty))
    for match in _SHORT_YEAR.finditer(text):
        short = int(match["year"])
        short += 1900 if short >= 30 else 2000  # noqa: PLR2004 - '29 is more likely to come than long past
        found.append(Field("year", short, match.group(), Span(*match.span()), 0.6))
    found += [
        Field("year", 1900 + int(match["tens"]), match.group(), Span(*match.span()), 0.4, "a decade")
        for match in _DECADE.finditer(text)
    ]
    return max(found, key=lambda one: one.certainty, default=None)


def weight(text: str, figures: Sequence[Number]) -> Field | None:
    """Weight in pounds, of the thing and not what it lifts."""
    found = []
    for number in figures:
        per = _LB_PER.get(number.role)
        if per is None:
            continue
        before = text[max(0, number.start - _AROUND) : number.start].rpartition("\n")[2]
        weighs = _WEIGHS.search(before) is not None
        barred = _NOT_WEIGHT_BEFORE.search(before) or _NOT_WEIGHT_AFTER.match(text[number.end : number.end + 20])
        if (
            (barred and not weighs)
            or (not weighs and (number.role == "tons" or number.value * per < 20))  # noqa: PLR2004
            or number.value * per > 400_000  # noqa: PLR2004
        ):
            continue
        note = "" if number.role == "pounds" else "short tons" if number.role == "tons" else "from kg"
        found.append(as_field(text, "weight_lb", round(number.value * per, 1), number, 0.9 if weighs else 0.6, note))
    return max(found, key=lambda one: one.certainty, default=None)


def deliver_mi(text: str, figures: Sequence[Number]) -> Field | None:
    """How many miles it is delivered or was to be fetched within."""
    for number in figures:
        if number.role in ("miles", "kilometres") and _DELIVERS.search(text[max(0, number.start - _AROUND) : number.start]):
            per = 1.0 if number.role == "miles" else _KM_PER_MI
            return as_field(text, "deliver_mi", round(number.value / per, 1), number, 0.8)
    return None


def volts(text: str, figures: Sequence[Number]) -> Field | None:
    """6, 12 or 24, where said."""
    found = [number for number in figures if number.role == "volts" and number.value in _SYSTEM_VOLTS]
    if not found:
        return None
    several = len({number.value for number in found}) > 1
    return as_field(
        text,
        "volts",
        int(found[0].value),
        found[0],
        0.5 if several else 0.85,
        "more than one voltage is named" if several else "",
    )
