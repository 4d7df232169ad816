"""Where an ad says it stands, as written: a ZIP, a town and state, so far from a town, a state. No map is asked here."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from interchange.ads.fields import PlaceRead, Span
from interchange.ads.number import Taken
from interchange.ads.place_abroad import LAND_NAMES, read_abroad
from interchange.ads.place_states import (
    CODE,
    DOUBTED_FORMS,
    END,
    LOWER_TOWN,
    NICKNAMES,
    NOT_TOWNS,
    OLD_FORMS,
    STATE,
    STATE_BY_NAME,
    STATE_DOTTED,
    STATE_NAME,
    STATES,
    TOWN,
    TOWN_ENDS,
    TOWN_STARTS,
    WORDLIKE,
    ZIP,
)

if TYPE_CHECKING:
    from collections.abc import Iterator

_STATE_WORD = re.compile(
    rf"(?<![\w'’-])(?:(?P<code>[A-Za-z]{{2}})|(?P<name>(?i:{STATE_NAME}))|(?P<old>"
    rf"(?i:{'|'.join(OLD_FORMS)})\.?)){END}\.?(?:,?[ ]{{1,8}}\(?{ZIP}\)?)?"
)
_TOWN_BEFORE = re.compile(rf"(?<![\w'’-])(?P<town>{TOWN})(?P<comma>[ ]?,[ \t]{{0,3}}|[ ]{{1,2}}|[ ]?\(|[ ](?i:comma)[ ])\Z")
_LOWER_BEFORE = re.compile(
    rf"(?<![\w'’-])(?P<town>{LOWER_TOWN})(?P<comma>[ ]?,[ \t]{{0,3}}|[ ]{{1,2}}|[ ]?\(|[ ](?i:comma)[ ])\Z"
)
_ZIP_ALONE = re.compile(rf"(?<![\w$€£.,#/-]){ZIP}")
_TOWN_AFTER = re.compile(rf"[ ]{TOWN}[ ]?,?[ ](?:{CODE})(?![\w])")
_ZIP_CUE = re.compile(
    r"(?:zip(?: ?code)?|located(?: in| at)?|location|in|near|from|ships? from"
    r"|pick ?up)[ \t]{0,2}[:#-]?[ \t]{0,2}\Z",
    re.IGNORECASE,
)
_CUE = re.compile(
    r"(?:\b(?:located|location|loc|place|town|city|area|pick(?:ed)? ?up|equipment|machine|engine|it'?s|its"
    r"|is|sits|sitting|stored|here|we are|we're|i'?m|i am|live|seen|fob|yard|based|listed[^\n]{0,24}"
    r"|posted[^\n]{0,24})"
    r"[ \t]{0,2}(?:is |it |up |down |out |over )?(?:in|at|near|around|by|:|-)[ \t]{0,2})\Z",
    re.IGNORECASE,
)
_IN = re.compile(r"\b(?:in|at|near|from)[ ]\Z", re.IGNORECASE)
_NEAR = re.compile(r"\b(?P<how>of|from|near(?: to)?|close to|outside|not far from)[ ]", re.IGNORECASE)
_AWAY = re.compile(
    r"(?<![\w.$])(?:(?:about|approx\.?|around|roughly|~)[ ]?)?(?:(?P<miles>[0-9]{1,3})[ ]?(?P<unit>mi"
    r"(?:les?)?|km|minutes?|mins?|hours?|hrs?)\.?[ ](?:drive |away )?)?"
    r"(?:(?:just|little|bit|due)[ ])?"
    r"(?:(?P<towards>north ?east|north ?west|south ?east|south ?west|north|south|east|west|ne|nw|se|sw|n|s"
    r"|e|w|outside|out)\.?[ ])?\Z",
    re.IGNORECASE,
)
_STATE_AGAIN = STATE.replace("code>", "code2>").replace("name>", "name2>").replace("old>", "old2>")
_NEAR_TOWN = re.compile(
    rf"(?P<town>{TOWN}){END}(?:[ ]?,?[ ]{{0,2}}{STATE}{END})?(?:,?[ ]{{1,8}}\(?{ZIP}\)?)?"
    rf"|(?P<lower>{LOWER_TOWN})(?:[ ]?,[ ]{{0,2}}|[ ]{{1,2}}){_STATE_AGAIN}{END}"
)
_STATE_TAG = re.compile(rf"(?:\[(?:USA?[-_/ ])?|\bUSA?[-_/])(?P<code>{CODE})(?![\w])")
_REGION = re.compile(
    rf"(?<![\w'’-])(?P<region>(?:(?i:northern|southern|eastern|western|central|upstate|north ?east(?:ern)?"
    rf"|north ?west(?:ern)?|south ?east(?:ern)?|south ?west(?:ern)?|middle|north|south|east|west"
    rf"|mid)[- ]|(?i:[nsew]\.|cent\.)[ ]?)){STATE_DOTTED}{END}"
)
_STATE_ALONE = re.compile(rf"(?<![\w'’-])(?:(?P<code>[A-Z]{{2}})|(?P<name>{STATE_NAME})){END}(?P<rest>[ \t.!)]{{0,4}}(?=\n|$))?")
_STATE_CUE = re.compile(r"\b(?:in|located|location:?|from|near|of|throughout|all over|only|state:)[ ]{1,2}\Z", re.IGNORECASE)
_LOCATED = re.compile(
    rf"(?i:\blocated[ ](?:in|at|near)|\blocation[ ]?:|\bcity[ ]?:|\btown[ ]?:|\bpick ?up in|\bsitting in"
    rf"|\bstored in)[ \t]{{0,3}}(?P<town>{TOWN}|{LOWER_TOWN})|\((?P<brackets>{TOWN})"
    rf"(?:[ ]?[/,&][ ]?{TOWN}|[ ]area)?\)[ \t]{{0,3}}(?=\n"
    rf"|$)"
)
_AWAY_REACH = 40
_SMALL_LINE = re.compile(r"[ \t]{0,3}[a-z][a-z'’-]{2,20}(?:[ ][a-z][a-z'’-]{1,20}){0,2}[ ]{1,2}")
LONGER = "a longer name"
"""The note of a name that takes in a word before a town already read, to be taken where there is such a town."""
_DOUBTED = 0.34
_COUNTY_SURE = 0.55  # a town named beside it says more
_CLOSING = re.compile(
    r"[ \t]{0,3}(?:[.,;!)(/|–-]|\n|\Z|\(?[0-9]{3}\)?[-. ]{1,2}[0-9]{3}|[0-9]{5}\b|text\b|call\b|txt\b|ph\b|pick)", re.IGNORECASE
)
_TOWN_REACH = 64  # characters looked back from a state
_KM_PER_MI = 1.609344


def read_places(text: str, taken: Taken, known: frozenset[str]) -> tuple[PlaceRead, ...]:
    """Every place named, the surest first. `known` holds trade words, which are trimmed off the front of a town."""
    if not any(sign.isalnum() for sign in text):
        return ()
    found: list[PlaceRead] = []
    for reader in (_abroads, _nicknames, _betweens, _nears, _regions, _town_states, _zips, _locateds, _lone_states):
        covered = Taken([place.span for place in found])
        found += [place for place in reader(text, taken, known) if not covered.holds(*place.span)]
    found = [_of_the_past(text, place) for place in found]
    return tuple(sorted(found, key=lambda place: (-place.certainty, place.span)))


_PAST = re.compile(
    r"\b(?:bought|purchased|came|showed up|truck|hauled|shipped (?:in|up|down)|got (?:it|this|her|him)|picked (?:it"
    r"|this|her) up|dealer"
    r"|sold new|delivered new|traded|road job|worked|job|drove (?:it|her)|brought|ordered|rebuilt|machined|serviced)\b"
    r"[^.!?\n]{0,40}\b(?:from|in|at|by|near|out of)[ ]\Z",
    re.IGNORECASE,
)
_PAST_REACH, _PAST_LESS, _PAST_LEAST = 72, 0.35, 0.36


def _of_the_past(text: str, place: PlaceRead) -> PlaceRead:
    """Where it was bought or worked comes after any other place: "showed up on the truck from Pontiac, Illinois"."""
    if not _PAST.search(text[max(0, place.span.start - _PAST_REACH) : place.span.start]):
        return place
    return place._replace(certainty=min(place.certainty, max(place.certainty - _PAST_LESS, _PAST_LEAST)))


_BETWEEN = re.compile(
    rf"\b(?i:half[ -]?way[ ])?(?i:between)[ ](?P<town>{TOWN}|{LOWER_TOWN})(?:,?[ ]{{0,2}}(?P<first>[A-Z]{{2}}))?"
    rf"[ ](?i:and|&)[ ]"
    rf"(?:{TOWN}|{LOWER_TOWN})[ ]?,?[ ]{{0,2}}{STATE}{END}"
)


_NICKNAME = re.compile(rf"(?<![\w'’.-])(?<!\bLas )(?P<name>{'|'.join(NICKNAMES)})(?:,?[ ][A-Z]{{2}})?(?![\w'’-])")


def _nicknames(text: str, taken: Taken, known: frozenset[str]) -> list[PlaceRead]:
    del known
    return [
        _made(text, "town_state", Span(*match.span()), 0.7, *NICKNAMES[match["name"]])
        for match in _NICKNAME.finditer(text)
        if not taken.holds(*match.span())
    ]


def _betweens(text: str, taken: Taken, known: frozenset[str]) -> list[PlaceRead]:
    """Between two towns, "between Wooster and Ashland, OH": the first stands for the place, less sure than one alone."""
    del known
    found = []
    for match in _BETWEEN.finditer(text):
        if not taken.holds(*match.span()):
            state = match["first"] if match["first"] in STATES else _state(match)
            note = "between two towns: the first is taken"
            found.append(_made(text, "town_state", Span(*match.span()), 0.85, match["town"], state, note=note))
    return found


def is_county(words: str) -> bool:
    """Whether small words name a county rather than a town."""
    return words.endswith((" county", " parish", " co", " co.", " cty"))


def _made(
    text: str, kind: str, span: Span, certainty: float, town: str | None = None,
    state: str | None = None, zip_code: str | None = None,
    away_mi: float | None = None, towards: str | None = None, note: str = "",
) -> PlaceRead:  # fmt: skip
    return PlaceRead(kind, town, state, zip_code, away_mi, towards, text[span.start : span.end], span, certainty, note)


def _state(match: re.Match[str], suffix: str = "") -> str | None:
    code, name, old = match[f"code{suffix}"], match[f"name{suffix}"], match[f"old{suffix}"]
    if code:
        return code.upper()
    if name:
        return STATE_BY_NAME[name.lower()]
    return OLD_FORMS[old.lower().rstrip(".")] if old else None


def _town_states(text: str, taken: Taken, known: frozenset[str]) -> list[PlaceRead]:
    return [place for place in _before_states(text, taken, known) if place.certainty > _DOUBTED]


def doubted_places(text: str, taken: Taken, known: frozenset[str]) -> list[PlaceRead]:
    """Towns before what may be a state, and longer names of towns: each counts only where there is such a town there."""
    return [place for place in _before_states(text, taken, known) if place.certainty <= _DOUBTED]


def _before_states(text: str, taken: Taken, known: frozenset[str]) -> Iterator[PlaceRead]:
    """From each state back to the town before it on the line; a doubted one is to be looked up."""
    for match in _STATE_WORD.finditer(text):
        code = match["code"]
        if code and code.upper() not in STATES:
            continue
        line = text[max(0, match.start() - _TOWN_REACH) : match.start()].rpartition("\n")[2]
        before = _TOWN_BEFORE.search(line) or _LOWER_BEFORE.search(line)
        if before is None or (before["comma"].strip() == "(" and text[match.end() : match.end() + 1] != ")"):
            continue
        comma = bool(before["comma"].strip())
        rest = text[match.end() : match.end() + 40].partition("\n")[0]
        whole = not rest.strip(" \t.")
        small = code is not None and not code.isupper() and code.upper() in WORDLIKE and not comma
        doubted = small
        if match["old"] and match["old"].lower().rstrip(".") in DOUBTED_FORMS and not (comma or text[match.end() - 1] == "."):
            if not whole:
                continue
            doubted = True
        if match["old"] and match["old"].lower().startswith("man") and not comma:
            continue  # "the old man."
        line_at = match.start() - len(line)
        town_from, town_to = line_at + before.start("town"), line_at + before.end("town")
        lower = before["town"][0].islower()
        trimmed = _town_start(before["town"], known)
        alone = line[: before.start("town")].rstrip()[-1:] in ("", ".", "!", "?")
        if trimmed is None and comma and alone and before["town"].istitle():
            trimmed = 0  # "Price, Utah" in a sentence of its own
        elif trimmed is None and (comma or match["name"] or lower is False) and not before["town"].isupper():
            trimmed, doubted = before["town"].rfind(" ") + 1, True  # "on a skid in Price, Utah"
        if trimmed is None:
            continue
        doubted = doubted or not _believed(
            text,
            match,
            comma=comma,
            whole=whole and line.islower(),
            shouting=lower or before["town"].isupper(),
            cue=text[max(0, town_from + trimmed - _TOWN_REACH) : town_from + trimmed],
        )
        if doubted and code and not _may_be_state(code, rest, lower=lower, shouting=not lower and before["town"].isupper()):
            continue
        certainty = (0.95 if comma else 0.8) - (0.1 if lower else 0) - (0.2 if match["old"] else 0)
        if match["zip"]:
            certainty = 0.98
        elif is_county(text[town_from + trimmed : town_to].lower()):
            certainty = _COUNTY_SURE
        if doubted:
            certainty = _DOUBTED
        end = match.end() - (text[match.end() - 1] == ".")
        span = Span(town_from + trimmed, end)
        if not taken.holds(town_from + trimmed, town_to):
            yield _made(text, "town_state", span, certainty, text[span.start : town_to], _state(match), match["zip"])
        longer = before["town"][:trimmed].split()
        if (
            longer and not doubted and longer[-1].lower().strip(".") not in NOT_TOWNS
        ):  # a part's word may begin a town: Hood River
            longer_from = town_from + trimmed - len(longer[-1]) - 1
            town = text[longer_from:town_to]
            yield _made(text, "town_state", Span(longer_from, end), _DOUBTED, town, _state(match), match["zip"], note=LONGER)


def _may_be_state(code: str, rest: str, *, lower: bool, shouting: bool) -> bool:
    """Whether two letters that may be a word are worth a look in the list of towns: "beaver falls pa", "Evansville IN plant"."""
    closing = _CLOSING.match(rest) is not None
    if code.isupper() or code.istitle():
        return not lower and (not shouting or closing)
    return closing if code.upper() in WORDLIKE else lower


def _town_start(town: str, known: frozenset[str]) -> int | None:
    """Where the town itself begins, after words that cannot be part of one; None where nothing is left.

    "Great" and such begin towns too: they go only after a word that does not ("Runs Great Barre").
    """
    at = 0
    for match in re.finditer(r"[^ ]+", town):
        word = match.group().lower().strip(".")
        following = town[match.end() + 1 :].partition(" ")[0].lower().strip(".")
        closes = (word in TOWN_ENDS and match.start() > at) or following in ("city", "town", "falls", "springs")
        if not closes and (word in NOT_TOWNS or word in known) and ((match.start() == at and at) or word not in TOWN_STARTS):
            at = match.end() + 1
    return at if at < len(town) else None


def _believed(text: str, match: re.Match[str], *, comma: bool, whole: bool, shouting: bool, cue: str) -> bool:
    """Whether a two-letter code here is a state: "RUNS GOOD, OK TIRES" and "barre or best" are not places."""
    code = match["code"]
    if not code or match["zip"] or whole:
        return True
    following = text[match.end() : match.end() + 2].lstrip(" \t")[:1]
    ends = text[match.end() - 1] == "." or following == "" or following in "\n.,);·|-–(!/" or following.isdigit()
    cued = _CUE.search(cue) is not None or (code.upper() not in WORDLIKE and _IN.search(cue) is not None)
    if code.upper() not in WORDLIKE:
        return ends or cued or comma or code.isupper()
    if not code.isupper():
        return comma and (ends or cued) and not (code.lower() == "or" and following.isdigit())
    return comma and ends if shouting else ends or cued or comma


def _zips(text: str, taken: Taken, known: frozenset[str]) -> list[PlaceRead]:
    del known
    found = []
    for match in _ZIP_ALONE.finditer(text):
        if taken.holds(*match.span()):
            continue
        code = match["zip"]
        before = text[max(0, match.start() - 24) : match.start()].rpartition("\n")[2]
        after = text[match.end() : match.end() + 24].partition("\n")[0]
        cued = _ZIP_CUE.search(before) is not None
        alone = not before.strip(" \t(") and not after.strip(" \t).")
        if cued or code[0] == "0" or "-" in match.group():
            certainty = 0.9 if cued else 0.8
        elif alone:
            certainty = 0.7
        elif _TOWN_AFTER.match(after):
            certainty = 0.5
        elif before.rstrip(" \t(")[-1:] in (".", ",", ";") and after[:1] in (".", ",", ";", ")", ""):
            certainty = 0.6
        else:
            continue
        found.append(_made(text, "zip", Span(*match.span()), certainty, zip_code=code))
    return found


def _nears(text: str, taken: Taken, known: frozenset[str]) -> list[PlaceRead]:
    found = []
    for match in _NEAR.finditer(text):
        before = text[max(0, match.start() - _AWAY_REACH) : match.start()]
        away = _AWAY.search(before)
        miles, towards = (away["miles"], away["towards"]) if away else (None, None)
        if match["how"].lower() in ("of", "from") and not miles and not towards:
            continue
        town = _NEAR_TOWN.match(text, match.end())
        if not town:
            continue
        words, state = (town["town"], _state(town)) if town["town"] else (town["lower"], _state(town, "2"))
        if towards and towards.lower() == "out" and not (miles or state):
            continue  # "out of Dunmarrow" names a machine as soon as a town
        tail = words.rpartition(" ")[2]
        if state is None and " " in words and tail in STATES:
            words, state = words[: -len(tail) - 1], tail
        code = town["code"] or town["code2"]
        if code and code.islower() and code.upper() in WORDLIKE and "," not in town.group():
            state = None  # "near Steyr or pallet"
        start = match.start() - (len(before) - away.start() if away else 0)
        if (state is None and words.lower() in LAND_NAMES) or _town_start(words, known) != 0 or taken.holds(start, town.end()):
            continue
        away_mi, note = _distance(miles, (away["unit"] or "").lower() if away else "")
        certainty = 0.85 if state else 0.7 if miles or towards else 0.6
        side = _TOWARDS.get((towards or "").lower().replace(" ", ""))
        found.append(_made(text, "near", Span(start, town.end()), certainty, words, state, town["zip"], away_mi, side, note))
    return found


def _distance(number: str | None, unit: str) -> tuple[float | None, str]:
    """Miles, or None with a note where only a time was written."""
    if number is None:
        return None, ""
    if unit.startswith(("min", "h")):
        return None, f"{number} {unit} away"
    return (round(float(number) / _KM_PER_MI, 1) if unit == "km" else float(number)), ""


_TOWARDS = {
    "n": "north", "s": "south", "e": "east", "w": "west", "ne": "northeast", "nw": "northwest", "se": "southeast",
    "sw": "southwest", "north": "north", "south": "south", "east": "east", "west": "west",
    "northeast": "northeast", "northwest": "northwest",
    "southeast": "southeast", "southwest": "southwest",
}  # fmt: skip


def _regions(text: str, taken: Taken, known: frozenset[str]) -> list[PlaceRead]:
    del known
    return [
        _made(text, "state", Span(*match.span()), 0.7, state=_state(match), note=match["region"].strip())
        for match in _REGION.finditer(text)
        if not taken.holds(*match.span())
        and match.group().lower() not in STATE_BY_NAME  # West Virginia is a state of its own
        and (not match["code"] or match["code"].isupper() or match["code"].upper() not in WORDLIKE)
    ]


def _locateds(text: str, taken: Taken, known: frozenset[str]) -> list[PlaceRead]:
    found = []
    for match in _LOCATED.finditer(text):
        words = match["town"] or match["brackets"]
        if words[0].islower():
            words = words.split(" ")[0]
        start = match.start("town" if match["town"] else "brackets")
        if _town_start(words, known) == 0 and not taken.holds(start, start + len(words)):
            found.append(
                _made(text, "town", Span(start, start + len(words)), 0.6 if match["town"] and words[0].isupper() else 0.4, words)
            )
    return found


def _abroads(text: str, taken: Taken, known: frozenset[str]) -> list[PlaceRead]:
    del known
    return [place for place in read_abroad(text) if not taken.holds(*place.span)]


_CLAUSE_ENDS = (".", ",", ";", "|", "·", "-", ")", "")


def abroad(place: PlaceRead) -> PlaceRead:
    """The same place in an ad priced in the money of another land: two letters after a town are no state of America."""
    if place.kind not in ("town_state", "near", "town") or place.town is None or place.state not in (None, "NL", "DE", "WA"):
        return place
    return place._replace(
        kind="abroad",
        state="WA" if place.state == "WA" else None,
        note=place.note or (f"abroad: {place.state}" if place.state else "abroad"),
    )


def _lone_states(text: str, taken: Taken, known: frozenset[str]) -> list[PlaceRead]:
    """A state by itself: on its own line, after "in", or closing a line."""
    del known
    found = [
        _made(text, "state", Span(*match.span("code")), 0.6, state=match["code"])  # "[US-VA]", as forums tag what is sold
        for match in _STATE_TAG.finditer(text)
        if not taken.holds(*match.span("code"))
    ]
    for match in _STATE_ALONE.finditer(text):
        code, closes = match["code"], match["rest"] is not None
        span = Span(*match.span("code" if code else "name"))
        if (code and code not in STATES) or taken.holds(*span):
            continue
        before = text[max(0, span.start - _AWAY_REACH) : span.start].rpartition("\n")[2]
        whole_line = closes and not before.strip(" \t(")
        cued = _STATE_CUE.search(before) is not None
        clause = before.rstrip(" \t(")[-1:] in _CLAUSE_ENDS and text[span.end : span.end + 1] in _CLAUSE_ENDS
        if not (whole_line or cued or closes or clause) or (
            code in WORDLIKE and not whole_line and not before.lower().endswith("state: ")
        ):
            continue
        found.append(
            _made(text, "state", span, 0.6 if whole_line or cued else 0.5, state=code or STATE_BY_NAME[match["name"].lower()])
        )
    return found
