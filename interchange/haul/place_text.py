"""Reading the words of a place as people write them: "Barre, VT 05641", "near St. Johnsbury Vermont"."""

from __future__ import annotations

import re
import unicodedata
from typing import NamedTuple

STATES = {
    "AL": ("Alabama", "ala"), "AK": ("Alaska",), "AZ": ("Arizona", "ariz"), "AR": ("Arkansas", "ark"),
    "CA": ("California", "calif", "cal"), "CO": ("Colorado", "colo"), "CT": ("Connecticut", "conn"),
    "DE": ("Delaware", "del"), "DC": ("District of Columbia",), "FL": ("Florida", "fla"), "GA": ("Georgia",),
    "HI": ("Hawaii",), "ID": ("Idaho",), "IL": ("Illinois", "ill"), "IN": ("Indiana", "ind"), "IA": ("Iowa",),
    "KS": ("Kansas", "kans", "kan"), "KY": ("Kentucky",), "LA": ("Louisiana",), "ME": ("Maine",),
    "MD": ("Maryland",), "MA": ("Massachusetts", "mass"), "MI": ("Michigan", "mich"), "MN": ("Minnesota", "minn"),
    "MS": ("Mississippi", "miss"), "MO": ("Missouri",), "MT": ("Montana", "mont"), "NE": ("Nebraska", "nebr", "neb"),
    "NV": ("Nevada", "nev"), "NH": ("New Hampshire",), "NJ": ("New Jersey",), "NM": ("New Mexico",),
    "NY": ("New York",), "NC": ("North Carolina",), "ND": ("North Dakota",), "OH": ("Ohio",),
    "OK": ("Oklahoma", "okla"), "OR": ("Oregon", "ore"), "PA": ("Pennsylvania", "penna", "penn"),
    "RI": ("Rhode Island",), "SC": ("South Carolina",), "SD": ("South Dakota",), "TN": ("Tennessee", "tenn"),
    "TX": ("Texas", "tex"), "UT": ("Utah",), "VT": ("Vermont",), "VA": ("Virginia",), "WA": ("Washington", "wash"),
    "WV": ("West Virginia",), "WI": ("Wisconsin", "wisc", "wis"), "WY": ("Wyoming", "wyo"),
    "PR": ("Puerto Rico",), "VI": ("Virgin Islands",), "GU": ("Guam",), "AS": ("American Samoa",),
    "MP": ("Northern Mariana Islands",), "FM": ("Micronesia",), "MH": ("Marshall Islands",), "PW": ("Palau",),
}  # fmt: skip
"""Postal letters of a state or territory: its name first, then older short forms."""

_SHORT = {
    "st": "saint", "ste": "sainte", "mt": "mount", "ft": "fort", "mtn": "mountain", "spgs": "springs",
    "spg": "spring", "jct": "junction", "ctr": "center", "twp": "township", "hts": "heights",
}  # fmt: skip
_POINTS = {"n": "north", "s": "south", "e": "east", "w": "west", "no": "north", "so": "south"}
_VAGUE = ("just outside of ", "just outside ", "outside of ", "outside ", "close to ", "near ")
_PLAIN = ("located in ", "location ", "located ", "in ")
_COUNTRY = frozenset({"usa", "us", "u s a", "u s", "united states", "united states of america"})
_COUNTY = (" county", " parish", " borough")
_SHORT_COUNTY = (" co", " cty")
_ZIP = re.compile(r"(?<![0-9])([0-9]{5})(?:-[0-9]{4})?(?![0-9])")
_APOSTROPHE = re.compile(r"['’`]")
_NOT_WORD = re.compile(r"[^a-z0-9]+")
LONGEST_TEXT = 200


class Words(NamedTuple):
    """What a text says of a place. `splits` are the readings (town, state) to try in turn; state is None if unsaid."""

    zip: str | None
    splits: tuple[tuple[str, str | None], ...]
    state: str | None
    vague: bool


def words_of(text: str) -> str:
    """Lower-case words with single spaces: accents, points, hyphens and apostrophes gone."""
    plain = "".join(mark for mark in unicodedata.normalize("NFKD", text) if not unicodedata.combining(mark))
    return _NOT_WORD.sub(" ", _APOSTROPHE.sub("", plain.lower())).strip()


def town_key(text: str) -> str:
    """The letters by which one town is the same however it is written: St. Albans, SAINT ALBANS; Du Bois, DuBois."""
    words = words_of(text).split()
    if len(words) > 1:
        words[0] = _POINTS.get(words[0], words[0])
    return "".join(_SHORT.get(word, word) for word in words)


def state_of(text: str) -> str | None:
    """The postal letters of a state written out, shortened or as its letters; None if it is no state."""
    return _STATE_WORDS.get(words_of(text))


def state_name(letters: str) -> str:
    """The name of a state by its postal letters."""
    return STATES[letters][0]


def read_words(text: str) -> Words:
    """Takes a text apart into ZIP, town and state; looks nothing up."""
    text = text[:LONGEST_TEXT]
    found = _ZIP.search(text)
    digits = found.group(1) if found else None
    if found:
        text = text[: found.start()] + " " + text[found.end() :]
    parts = [part for part in (words_of(part) for part in re.split(r"[,;()/|]", text)) if part]
    while len(parts) > 1 and parts[-1] in _COUNTRY:
        parts.pop()
    if not parts:
        return Words(digits, (), None, vague=False)
    parts[0], vague = _without_preamble(parts[0])
    if len(parts) == 1:
        state = state_of(parts[0])
        return Words(digits, () if state else _splits(parts[0]), state, vague)
    state = state_of(parts[-1])
    if state is None:
        return Words(digits, (), None, vague)
    towns = [part for part in parts[:-1] if not is_county(part)] or parts[-2:-1]
    return Words(digits, ((towns[-1], state),), None, vague)


def is_county(words: str, *, in_state: bool = True) -> bool:
    """Whether words name a county (or parish, or borough) rather than a town; "co" is short for it only before a state."""
    return words.endswith(_COUNTY) or (in_state and words.endswith(_SHORT_COUNTY))


def county_key(text: str) -> str:
    """The letters by which one county is the same however it is written."""
    words = words_of(text)
    if words.endswith(_SHORT_COUNTY):
        words = f"{words.rpartition(' ')[0]} county"
    return town_key(words)


def _splits(part: str) -> tuple[tuple[str, str | None], ...]:
    """Every way to end a text without commas in a state, then the text as a town alone."""
    words = part.split()
    if len(words) > 1 and words[-1] in {"usa", "us"}:
        words.pop()
    ways: list[tuple[str, str | None]] = []
    for many in (3, 2, 1):
        state = state_of(" ".join(words[-many:])) if many < len(words) else None
        if state:
            ways.append((" ".join(words[:-many]), state))
    ways.append((" ".join(words), None))
    return tuple(ways)


def _without_preamble(part: str) -> tuple[str, bool]:
    """The text without "near" and the like, and whether that makes it vague."""
    vague = part.endswith(" area")
    part = part.removesuffix(" area")
    for words in _PLAIN:
        part = part.removeprefix(words)
    for words in _VAGUE:
        if part.startswith(words):
            return part.removeprefix(words), True
    return part, vague


_STATE_WORDS = {words_of(form): letters for letters, forms in STATES.items() for form in (letters, *forms)}
