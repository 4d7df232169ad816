"""Which form of a unit a text shows: by the form's own name, what tells it from outside, its plate's letter, a serial number.

What a unit is said to fit, and what is denied, shows nothing. How much each sort of sign counts stands in `form_signs`.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence
from typing import NamedTuple

from interchange.ads.fields import Span
from interchange.ads.form_words import STOP, Word, form_words

NEAR = 9  # words among which a tell must stand together
NUMBER_NEAR = 4  # words between a number and what it counts
ENOUGH = 0.5  # of a tell's words, a number counting twice
NUMBER_WEIGHT = 2
DENIES, BESIDE = 3, 3  # words before
LOOK_BACK = 60  # signs
FROM, TYPE, NAME, TELL, LETTER, SERIAL = "came from", "of a type", "name", "tell", "letter", "serial"
_CLAUSES = re.compile(r"[;,]")
_PHRASES = re.compile(r"\b(?:with|for)\b")
_SENTENCE = re.compile(r"[.;!?][ ]|\n")
_LETTER = re.compile(r"\b(?:ends? in|letter|code)[ ]+(?P<letter>[A-Z])\b")
_SERIAL = re.compile(r"\bserials?(?: numbers?)?[ ]+(?P<below>below|under|before|up to)?[ ]*(?P<number>[0-9]{3,9})", re.IGNORECASE)
_HAS_SERIAL = re.compile(
    r"\b(?:s/?n|serial|ser)\b\.?[ ]?(?:(?:no|number|is)\b\.?[ ]?){0,2}[:#. ]{0,3}(?P<number>[0-9]{3,9})(?P<unread>x{0,3})\b",
    re.IGNORECASE,
)
_DENY = frozenset([
    "no", "not", "never", "without", "isnt", "isn", "aint", "ain", "nor", "cannot", "cant", "wrong", "minus", "less",
])  # fmt: skip
_FITS = re.compile(
    r"(?:\b(?:for|fits?(?: into| in)?|into|to fit|work in|goes in|suits?|bolts? (?:in|into|to)|than (?:an?|the)|instead of|not|no"
    r"|never|isn'?t|my|your|another|like|with|and|w/)(?:[ ](?:an?|the|my|your|our|any|most|old|[a-z]{3,12}))?[ ]{0,2})\Z",
    re.IGNORECASE,
)
_FROM = re.compile(
    r"\b(?:outta|off|from|ex|pulled|in|of|ran)[ -]{1,2}"
    r"(?:(?:an?|the|my|our|his|their|that|old|[0-9]{2,4}|[A-Za-z0-9'-]{3,14})[ ,]{1,2}){0,4}\Z",
    re.IGNORECASE,
)
_TYPE = re.compile(
    r"(?:[ -](?:[a-z]{3,9}[ ])?(?:engine|motor|type|version|form|style|kind|model|spec|one|block|take[- ]?out|take[- ]?off|unit"
    r"|casting|diesel|setup|shaft|pump|axle|box|gearbox|clutch|pan|flywheel)s?\b)",
    re.IGNORECASE,
)


class FormClue(NamedTuple):
    """Something that tells one form from the others of its unit."""

    variant: str
    sort: str
    """`NAME`, `TELL`, `LETTER` or `SERIAL`."""
    words: tuple[str, ...] = ()
    beside: frozenset[str] = frozenset()
    """The numbers in the unit's own name: a form's name shows it by standing after them."""
    denied: bool = False
    low: float = 0.0
    high: float = float("inf")
    """Of serial numbers: from `low` up to, not with, `high`."""


class Shown(NamedTuple):
    """A stretch of a text that shows a form, and by what: a sort of clue, or how its name is spoken of."""

    variant: str
    sort: str
    span: Span


def clues(unit_title: str, forms: Mapping[str, tuple[str, str]]) -> tuple[FormClue, ...]:
    """What tells the forms of a unit apart. ``forms`` maps a variant's id to its title and its tell.

    What two forms have in common, and what is part of another's clue, tells nothing.
    """
    plain = {word.key for word in form_words(unit_title)}
    numbers = frozenset(filter(str.isdigit, plain))
    names = {id_: [word.key for word in form_words(title) if word.key not in plain | {STOP}] for id_, (title, _) in forms.items()}
    found: list[FormClue] = []
    for id_, (_, tell) in forms.items():
        others = {key for other, keys in names.items() if other != id_ for key in keys}
        own = tuple(key for key in names[id_] if key not in others)
        found += [FormClue(id_, NAME, own, numbers)] if own else []
        found += _told_by(id_, tell)
    return tuple(
        clue
        for clue in dict.fromkeys(found)
        if not clue.words or not any(set(clue.words) <= set(other.words) for other in found if other.variant != clue.variant)
    )


def _told_by(id_: str, tell: str) -> Iterator[FormClue]:
    """The clues in a tell: "stamped pan with small bolts; casting number ends in P"."""
    for clause in _CLAUSES.split(tell):
        letter, serial = _LETTER.search(clause), _SERIAL.search(clause)
        if letter:
            yield FormClue(id_, LETTER, (letter["letter"],))
        elif serial:
            number = float(serial["number"])
            yield FormClue(id_, SERIAL, high=number) if serial["below"] else FormClue(id_, SERIAL, low=number)
        else:
            denied = clause.strip().lower().startswith(("no ", "without "))
            for phrase in (clause, *_PHRASES.split(clause)):
                words = tuple(word.key for word in form_words(phrase))
                if len(words) > 1:  # one word alone, such as carburetor, stands in ads of the other forms as often
                    yield FormClue(id_, TELL, words, denied=denied)


def shown(text: str, told_by: Sequence[FormClue]) -> list[Shown]:
    """What shows a form in a text (made fit to read), in order of place."""
    words = form_words(text)
    found: list[Shown] = []
    for clue in told_by:
        if clue.sort == NAME:
            found += (Shown(clue.variant, how, span) for how, span in _names(text, words, clue))
            continue
        spans = (
            _letters(text, clue.words[0])
            if clue.sort == LETTER
            else _serials(text, clue)
            if clue.sort == SERIAL
            else _tells(words, clue)
        )
        found += (Shown(clue.variant, clue.sort, span) for span in spans)
    return sorted(found, key=lambda one: (one.span.start, one.variant, one.sort))


def comes_from(text: str, at: int) -> bool:
    """Whether what stands there is what something came out of, or was in."""
    return _FROM.search(_before(text, at)) is not None


def _before(text: str, at: int) -> str:
    return _SENTENCE.split(text[max(0, at - LOOK_BACK) : at])[-1]


def _letters(text: str, letter: str) -> Iterator[Span]:
    """A letter said to end a plate or a casting number, or that ends one written out."""
    said = re.compile(
        rf"\b(?i:ends?|ending|code|letter|suffix|arr(?:angement)?)\b[^\n.]{{0,24}}?(?<![\w'’]){letter}(?![\w'’])"
        rf"|\b(?i:s/?n|serial|plate|code|casting|cast|no|number)\b[^\n]{{0,25}}?[0-9][0-9-]{{2,9}}[ -]?{letter}(?![\w'’])"
    )
    yield from (Span(*match.span()) for match in said.finditer(text))


def _serials(text: str, clue: FormClue) -> Iterator[Span]:
    """Serial numbers of the tell's length within its limits; "386xx" is the 38,600s."""
    limit = clue.low or clue.high
    for match in _HAS_SERIAL.finditer(text):
        number = float(match["number"]) * 10 ** len(match["unread"])
        if clue.low <= number < clue.high and len(f"{number:.0f}") == len(f"{limit:.0f}"):
            yield Span(*match.span())


def _names(text: str, words: Sequence[Word], clue: FormClue) -> Iterator[tuple[str, Span]]:
    """A form's own name, with how it is spoken of."""
    size = len(clue.words)
    for first in range(len(words) - size + 1):
        if tuple(word.key for word in words[first : first + size]) != clue.words or _denied(words, first):
            continue
        span = Span(words[first].start, words[first + size - 1].end)
        if comes_from(text, span.start):
            yield FROM, span
        elif _TYPE.match(text, span.end) or any(word.key in clue.beside for word in words[max(0, first - BESIDE) : first]):
            yield TYPE, span
        elif not _FITS.search(_before(text, span.start)):
            yield NAME, span


def _tells(words: Sequence[Word], clue: FormClue) -> Iterator[Span]:
    """Where most of a tell's words stand together, each of its numbers beside another of them."""
    wanted = {key: NUMBER_WEIGHT if key[0].isdigit() else 1 for key in clue.words}
    numbers = {key for key in wanted if key[0].isdigit()}
    at = 0
    while at < len(words):
        inside = _together(words, at, wanted)
        share = sum(wanted[key] for key in inside) / sum(wanted.values())
        counted = all(
            key in inside and any(0 < abs(place - inside[key]) <= NUMBER_NEAR for place in inside.values()) for key in numbers
        )
        if share >= ENOUGH and len(inside) > 1 and counted and _denied(words, at) == clue.denied:
            last = max(inside.values())
            yield Span(words[at].start, words[last].end)
            at = last
        at += 1


def _together(words: Sequence[Word], at: int, wanted: Mapping[str, int]) -> dict[str, int]:
    """Which of the wanted words stand in one sentence from a place on, where one does, each at its first place."""
    inside: dict[str, int] = {}
    if words[at].key not in wanted:
        return inside
    for place in range(at, min(len(words), at + NEAR)):
        if words[place].key == STOP:
            break
        if words[place].key in wanted:
            inside.setdefault(words[place].key, place)
    return inside


def _denied(words: Sequence[Word], first: int) -> bool:
    """Whether a no stands a few words before, in the same sentence."""
    for word in reversed(words[max(0, first - DENIES) : first]):
        if word.key == STOP:
            return False
        if word.key in _DENY:
            return True
    return False
