"""Words of an ad and of a catalog's tells, brought to one spelling, so that "8-bolt crank" agrees with "eight flywheel bolts"."""

from __future__ import annotations

import re
from fractions import Fraction
from typing import NamedTuple

from interchange.ads.spoken import SMALL

STOP = "."
_SAME = {
    "lifttruck": r"fork[ -]?lifts?|fork[ -]?trucks?|lift[ -]?trucks?",
    "genset": r"gen(?:erator)?[ -]?sets?|light[ -]plants?|generators?|aggregat",
    "powerunit": r"(?:power|pwr\.?)[ -]?units?",
    "rowcrop": r"row[ -]?crop",
    "housing": r"bell[ -]?hous(?:ings?|g)|bells?|hsg\.?|housings?",
    "flywheel": r"fly[ -]?wheels?|flywh?l",
    "flexplate": r"flex[ -]?plates?",
    "address": r"industrial (?:way|park|blvd|dr|drive|ave|rd|road|st|street|supply|salvage|surplus|auction)",
    "industrial": r"indust(?:\.|rial)",
    "stamped": r"stamped|tin|pressed|sheet[ -]?(?:metal|steel)",
    "pan": r"(?:oil[ -]?)?pans?|sumps?",
    "twostage": r"(?:two|dual|double|2)[ -]?stage|(?:dual|double)(?= (?:clutch|pto)\b)",
    "onestage": r"(?:single|one|1)[ -]?stage|single(?=,? (?:clutch|row)\b)",
    "volt": r"(?<=[0-9])v|volts?",
    "tooth": r"teeth|tooth|toothed|(?<=[0-9])t",
    "inch": r"\"|''|inch(?:es)?|(?<=[0-9])[ -]?in\b",
    "size": r"sizes?|sae",
    "carburetor": r"carbs?|carburett?ors?",
    "vaporizer": r"vapori[sz]ers?",
    "spline": r"splined?s?",
    "flat": r"flat|plain",
    "large": r"large|big",
    "bolt": r"bolts?|studs?",
}
_EDGE = r"(?![a-z])"
_WORD = re.compile(
    "|".join(f"(?P<{key}>(?<![a-z])(?:{pattern}){'' if key == 'inch' else _EDGE})" for key, pattern in _SAME.items())
    + rf"|(?P<half>(?:{'|'.join(SMALL)})[ -]and[ -]a[ -]half)"
    r"|(?P<whole>[0-9]{1,2})[ -](?P<part>[0-9]{1,2}/(?:2|4|8|16|32))(?![0-9])"
    r"|(?P<number>[0-9]{1,3}(?:,[0-9]{3}){1,3}(?![0-9])|[0-9]+(?:\.[0-9]+)?)|(?P<word>[^\W\d_]+)|(?P<stop>[.;!?](?=\s|\Z)|\n)",
    re.IGNORECASE,
)
_EMPTY = frozenset([
    "a", "an", "the", "of", "on", "in", "at", "to", "is", "are", "it", "its", "has", "have", "by", "per", "each", "either", "as",
    "number", "code", "ends", "my", "our", "that", "this", "there",
])  # fmt: skip


class Word(NamedTuple):
    """A word in its one spelling, and where it stands; `STOP` ends a sentence or a line."""

    key: str
    start: int
    end: int


def form_words(text: str) -> list[Word]:
    """The words of a text that tell something, numbers in figures, in order."""
    found = []
    for match in _WORD.finditer(text):
        key = _key(match)
        if key:
            found.append(Word(key, *match.span()))
    return found


def _key(match: re.Match[str]) -> str:
    said = match.group().lower()
    match match.lastgroup:
        case "word":
            return str(SMALL[said]) if said in SMALL else "" if said in _EMPTY else _stem(said)
        case "number":
            return said.replace(",", "")
        case "half":
            return f"{SMALL[re.split('[ -]', said)[0]] + 0.5:g}"
        case "part":
            return f"{int(match['whole']) + float(Fraction(match['part'])):g}"
        case "stop":
            return STOP
        case sort:
            return sort or ""


def _stem(word: str) -> str:
    """A word without what its end says of number and time: levers, lever; mounts, mount; governed, govern."""
    for end in ("ed", "es", "s"):
        if word.endswith(end) and len(word) - len(end) > 2 and not word.endswith("ss"):  # noqa: PLR2004 - what is left must tell something
            return word.removesuffix(end)
    return word
