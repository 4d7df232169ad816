"""Words that stand where a town would: guesses, to be looked up, for no word of theirs says that they are one."""

from __future__ import annotations

import re

from interchange.ads.fields import PlaceRead, Span
from interchange.ads.number import Taken
from interchange.ads.place_abroad import FIRM_AFTER, FIRM_WORDS, LAND_CODES, LAND_NAMES, guesses_abroad
from interchange.ads.place_person import PERSON, is_first_name, persons
from interchange.ads.place_states import NOT_TOWNS, TOWN_ENDS, TOWN_STARTS
from interchange.ads.place_words import doubted_places

_SHORT_LINE = 40  # signs
_GUESS = 0.3
_LAST_WORDS = re.compile(
    r"(?:^|[.!?,;\n–—-][ \t]{0,3}|[ ])(?P<town>(?:(?:(?:Ft|St|Mt|Pt)\.?|El|La|Le|De"
    r"|Du) )?[^\W\d_][^\W\d_'’.-]{2,20}(?:[ ][^\W\d_][^\W\d_'’-]{1,20}){0,2})[ \t.!?]{0,4}\Z"
)
_BIG = "[A-ZÀ-ÖØ-ÞŁŚŻŹČŠŽ]"
_SMALL_CUE = re.compile(
    r"\b(?:(?:i'?m|im|i am|its|it'?s|is|sits|up|down|over|out|here|shop|barn|yard|place|farm|live"
    r"|located|meet) (?:in|at|near|by|past|outside)"
    r"|up past|past|near|area of|abholung in|raum|standort|standplaats|lokalizacja|ville de|in|to my \w{2,10} in)[ ]"
    r"(?P<town>[^\W\d_][^\W\d_'’-]{2,20}(?:[ ][^\W\d_][^\W\d_'’-]{2,20}){0,1})",
    re.IGNORECASE,
)
_HERE = re.compile(
    r"\b(?:i'?m|i am|we'?re|we are|it'?s|it is|its|located|sits|sitting|lives|come (?:get|see) (?:it|her) (?:in|at)"
    r"|pick ?up|he'?s|she'?s"
    r"|(?:is|stored|parked|kept) (?:here )?)[ ]?(?:just |up |down |over |out )?(?:in|at|near|outside|closest to|nearest"
    r"|around)[ ]"
    r"(?P<town>[^\W\d_][^\W\d_'’-]{2,20}(?:[ ][^\W\d_][^\W\d_'’-]{2,20}){0,1})",
    re.IGNORECASE,
)
_OPENING = re.compile(
    rf"(?:^|[.!?][ ]|\n)(?:In|At|Near|Nr|Outside)[ ](?P<town>{_BIG}[^\W\d_]{{2,20}}(?:[ ]{_BIG}[^\W\d_]{{2,20}})?)(?=[.,;\n]|\Z)"
)
_SOMEBODY_FROM = re.compile(
    rf"\b(?:[Ii]t'?s|[Tt]his is|[Ii]'?m)[ ](?:me[ ])?[A-Z][a-z]{{1,12}}[ ](?:from|over in|over at|up in|down in|out of)[ ]"
    rf"(?P<town>{_BIG}[^\W\d_]{{2,20}}(?:[ ]{_BIG}[^\W\d_]{{2,20}})?)"
)
_AREA = re.compile(
    r"(?:^|\n|[.,;][ ])(?P<town>[^\W\d_][^\W\d_'’-]{2,20}(?:[ ][^\W\d_][^\W\d_'’-]{2,20}){0,1})[ ]area\b", re.IGNORECASE
)
_THE_YARD = re.compile(
    r"\b(?:the|our|at)[ ](?P<town>[A-Z][a-z]{2,20}(?:[ ][A-Z][a-z]{2,20})?)[ ](?:yard|shop|lot|branch|location|store"
    r"|warehouse|terminal|depot)\b"
)
_CLAUSE = re.compile(
    rf"(?:[.,;][ ]|\n)(?P<town>(?:(?:(?:Ft|St|Mt|Pt)\.?|El|La|Le|De"
    rf"|Du) )?{_BIG}[^\W\d_]{{2,20}}(?:[ ]{_BIG}[^\W\d_]{{2,20}}){{0,2}})(?=[ ]?[.,;\n]|\Z)"
)
_CLAUSE_AND_NUMBER = re.compile(
    rf"(?:[.,;][ ]|\n)(?P<town>(?:(?:(?:Ft|St|Mt|Pt)\.?|El|La|Le|De"
    rf"|Du) )?{_BIG}[^\W\d_]{{2,20}}(?:[ ]{_BIG}[^\W\d_]{{2,20}}){{0,2}})(?=,? [0-9(])"
)
_TOWN_REGION = re.compile(
    rf"(?:^|[.!?][ ]|\n)(?P<town>{_BIG}[^\W\d_]{{2,20}}"
    rf"(?:[ ]{_BIG}[^\W\d_]{{2,20}})?),[ ]{_BIG}[^\W\d_]{{2,20}}[ \t.\"”)]{{0,4}}(?=\n|\Z)"
)
_AT_TELEPHONE = re.compile(
    r"(?P<town>(?:(?:(?:Ft|St|Mt|Pt)\.?|El|La|Le|De|Du) )?[A-Z][A-Za-z]{2,20}(?:[ ][A-Z][A-Za-z]{2,20}){0,2})"
    r"[ ,.-]{1,3}(?=\(?[2-9][0-9]{2}\)?[-. ]{1,2}[0-9]{3}[-. ][0-9]{4})"
    r"|(?<=[0-9]{3}[-. ][0-9]{4}[ ])(?P<after>(?:(?:(?:Ft|St|Mt|Pt)\.?|El|La|Le|De"
    r"|Du) )?[A-Z][A-Za-z]{2,20}(?:[ ][A-Z][A-Za-z]{2,20}){0,2})"
)
_TOWN_ZIP = re.compile(
    r"(?<![\w'’-])(?P<town>(?:(?:(?:Ft|St|Mt|Pt)\.?|El|La|Le|De"
    r"|Du) )?[A-Z][A-Za-z'’-]{2,20}(?:[ ][A-Z][A-Za-z'’-]{1,20}){0,2})[ ]?,?[ ]{1,2}\(?(?:zip[ :]{1,2})?"
    r"(?P<zip>[0-9]{5})(?:-[0-9]{4})?(?=\)|[ \t]{0,3}(?:\n|\Z|[.,;|/(·–—-](?![0-9])|\(?[0-9]{3}\)?[-. ]))",
)
_LOWER_TOWN_ZIP = re.compile(
    r"(?<![\w'’-])(?P<town>[a-z]{3,20}(?:[ ][a-z]{2,20}){0,2})[ ]?,?[ ]{1,2}(?P<zip>[0-9]{5})(?=[ \t]{0,3}(?:\n|\Z|[.,;)]))"
)
_ZIP_TOWN = re.compile(
    r"(?<![\w$€£.,#/-])(?P<zip>[0-9]{5})[ ](?P<town>[A-Z][A-Za-z'’-]{2,20}(?:[ ][A-Z][A-Za-z'’-]{1,20}){0,2})"
    r"(?=[ \t]{0,3}(?:\n|\Z|[.,;)]))"
)
# "where you at" and what is answered on the next line
_ANSWER = re.compile(
    r"\b(?:where|wheres|where's|what town|what city|location)\b[^\n]{0,40}\n(?:[^\n]{1,40}?:[ ]|>[ ]?|[-–][ ]?)?"
    r"(?:(?:im|i'm|its|it's|we're|were|over|up|down|out|just|in|at|near|by|outside)[ ]){0,3}"
    r"(?P<town>[^\W\d_][^\W\d_'’-]{2,20}(?:[ ][^\W\d_][^\W\d_'’-]{1,20}){0,1})",
    re.IGNORECASE,
)
_CAPITAL_CUE = re.compile(
    r"\b(?i:ships? from|local(?: to)?|based|shipped from|sold from|posted from|coming from|located|location|loc"
    r"|pick ?up|picked up|collect(?:ed|ion)?|off (?:route|rte|rt"
    r"|highway|hwy|i|exit|us)[ -]?[0-9]{1,4} (?:in|near|at)|just (?:outside|north|south|east|west)(?: of)?"
    r"|outside(?: of)?|city|town"
    r"|within [0-9]{1,4} (?:mi|miles|hours|hrs) of|around|above|below|beyond|close to|closest to|nearest(?: town)?"
    r"|not far from|our (?:yard|shop|lot) in|the (?:barn"
    r"|yard|shop|farm|place) (?:at|in))"
    r"(?: in| at| from| near| is| of)?[ ]?[:,-]?[ ]{1,2}(?P<town>(?:(?:(?:Ft|St|Mt|Pt)\.?|El|La|Le|De"
    r"|Du) )?[A-Z][^\W\d_]{2,20}(?:[ ][A-Z][^\W\d_]{2,20}){0,2})"
)
_MOST_GUESSES = 12
BRITISH = re.compile(
    r"\b(?:petrol|carburett?ors?|vaporiser|tyres?|lorr(?:y|ies)|colour|POA|ex works|\+ ?VAT|plus VAT|inc\.? VAT|no VAT"
    r"|ZAR|Rand|EUR|SEK"
    r"|NOK|DKK|PLN|AUD|NZD|GBP|BTW|MwSt|VHB|VB|Abholung|Selbstabholer|zu verkaufen|te koop|à vendre|säljes|sælges"
    r"|se vende)\b|[€£]|(?<![\w])R ?[0-9]{1,3} [0-9]{3}\b"
)


def guesses(text: str, taken: Taken, known: frozenset[str], *, foreign: bool = False) -> tuple[PlaceRead, ...]:
    """Words that stand where a town would and are nothing else known: to be looked up, and dropped where there is no such town.

    A name of a person is noted as one. In an ad from abroad (`foreign`) its own forms are looked for too.
    The last words of a text or a line by themselves, words after "in" or "near", a clause of capitalised words alone.
    """
    found: dict[Span, PlaceRead] = {}

    people = Taken(persons(text))

    def add(start: int, end: int, certainty: float, zip_code: str | None = None) -> None:
        words = text[start:end]
        first, last = 0, len(words)
        for match in re.finditer(r"[^ ]+", words):
            if _no_town(match.group(), known):
                if match.start() > first:  # words after it are no part of the town's name
                    last = match.start() - 1
                    break
                first = match.end() + 1
        span = Span(start + first, start + max(first, last))
        town = text[span.start : span.end]
        if not town or span in found or taken.holds(*span) or _never(town):
            return
        if FIRM_WORDS.search(town) or FIRM_AFTER.search(words[last:]):
            return
        note = PERSON if people.holds(*span) or (" " not in town and is_first_name(town)) else ""
        found[span] = PlaceRead("town", town, None, zip_code, None, None, town, span, certainty, note)

    for place in doubted_places(text, taken, known):
        found.setdefault(place.span, place)
    if foreign:
        for span, certainty in guesses_abroad(text):
            add(*span, certainty)
    for match in [*_TOWN_ZIP.finditer(text), *_LOWER_TOWN_ZIP.finditer(text), *_ZIP_TOWN.finditer(text)]:
        add(*match.span("town"), _GUESS + 0.035, match["zip"])
    for match in _ANSWER.finditer(text):
        add(*match.span("town"), _GUESS + 0.03)
    for match in _CAPITAL_CUE.finditer(text):
        add(*match.span("town"), _GUESS + 0.025)

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
        (_OPENING, _GUESS + 0.02),
        (_HERE, _GUESS + 0.01),
        (_AREA, _GUESS),
        (_SOMEBODY_FROM, _GUESS),
        (_SMALL_CUE, _GUESS - 0.1),
        (_CLAUSE, _GUESS - 0.05),
        (_THE_YARD, _GUESS - 0.06),
        (_CLAUSE_AND_NUMBER, _GUESS - 0.07),
    ):
        for match in pattern.finditer(text):
            if len(found) >= _MOST_GUESSES:
                break
            add(*match.span("town"), certainty)
    return tuple(sorted(found.values(), key=lambda place: -place.certainty))


def _no_town(word: str, known: frozenset[str]) -> bool:
    plain = word.lower().strip(".,'’")
    return (plain in NOT_TOWNS or plain in known or plain in _PLAIN_WORDS) and plain not in TOWN_STARTS | TOWN_ENDS


def _never(town: str) -> bool:
    """Words that by themselves are no place: one ordinary word, a land, or its letters."""
    return town.lower() in ORDINARY or town.lower() in LAND_NAMES or town in LAND_CODES or town.lower() in TOWN_STARTS


_ORDINARY = """
    accident accord action advance agency alert alpha anchor angle anvil apache arch arm art assembly atlas att auto axis
    ball banner barrier basket bear bell bells belt bent between bigfoot bills black blade blanks blue bolt bonus book
    border boring boss branch breaks brush bunch burns busy cable cache cactus calcium canvas carrier cascade case center
    central centre century challenge champion chance chat check choice church circle clear clearing clever combine community
    concrete confidence contact content cool cord core corner cost council crane cranks crisp cross crown crystal cut cycle
    cyclone cylinder dairy date daylight deal dent deposit depths dies distant district divide dock dot drain drift driver
    drivers drums duck earth echo edge effort emit english equality era ether ever exchange experiment export extension
    falls far farmer farmers federal fence fields fine flag flat fleet fly force foreman fork forks frame freedom friend
    friendly frost gap garden gate gates gateway given glass gold good goodwill grandfather grants gratis gross hack halfway
    hall handy happy hare harmony harvest harvester hatch heads helper herd highway hill hoard holder home honor hood hooks
    hope hospital host hundred hurt ideal impact independent index industrial institute interior international iron issue
    job joiner lack lackey landing lane large latex law lawn laws lead leaf learned levels library light likely little lone
    loop lotus lovely luck magnet manifest many mark market marks means mechanic media metal micro middle midnight mode
    model monitor mutual national neutral nice nickel nineteen noel normal north northeast odd odds oil okay onward
    opportunity ordinary outlook overall overlook overly pace page parade patent peak plain plant plover pluck point pointer
    points pool portage post pound power powers premium printer progress promise protection public purchase quality quarry
    quick railroad range rand reader reading recycle region register reliance relief remote reserve retreat rich ridge rig
    rock rocker roll root royalty rule rural rush safe sample secretary section security sells sentinel shade shadow shaft
    sharp sheds shell shields shook shorter sites small snow sod south speaks speed standard star start startup static stem
    stop story strong structure subtle success summers supply surprise sweet swift symbol target telephone tell toast tool
    topmost tower trace trail transfer travel trees triangle trio triplet true trust tunnel type uncertain union universal
    utility vendor view vintage waits wake walker wall walls wax welcome weld west wheeling white winner winters wise worth
    yes young zero east great buys otherwise comma saved watch reply quote ignore private save hide favorite inspection
    viewing excellent original bench bis aloha hello howdy greetings gents salut hola moin servus regards add folks europe
    weight sae canadian american german selbstabholer exc mint fair poor runner reference sold pending available new best
    delivery freight rear front early late gear gears eu
"""
ORDINARY = frozenset(_ORDINARY.split()) - frozenset(["wheeling", "reading", "hood"])
"""Words of every day that some town is called by, too; most of those towns are small."""

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
