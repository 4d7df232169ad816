"""Numbers said in words, as a telephone takes them down: "twenty two hundred", "seven fifty", "h fifty two d"."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from typing import NamedTuple

_UNITS = {
    "one": 1, "two": 2, "three": 3, "four": 4, "five": 5, "six": 6, "seven": 7, "eight": 8, "nine": 9,
}  # fmt: skip
_TEENS = {
    "ten": 10, "eleven": 11, "twelve": 12, "thirteen": 13, "fourteen": 14, "fifteen": 15, "sixteen": 16, "seventeen": 17,
    "eighteen": 18, "nineteen": 19,
}  # fmt: skip
_TENS = {
    "twenty": 20, "thirty": 30, "forty": 40, "fourty": 40, "fifty": 50, "sixty": 60, "seventy": 70, "eighty": 80, "ninety": 90,
}  # fmt: skip
_SCALES = {"hundred": 100, "thousand": 1000, "grand": 1000, "k": 1000}
_ALIKE = {"too": "two", "to": "two", "won": "one", "ate": "eight", "for": "four"}  # heard for a number, after another
_DIGITS = {"zero": "0", "oh": "0", **{word: str(value) for word, value in _UNITS.items()}}
_NAMED = "|".join([*_UNITS, *_TEENS, *_TENS, "hundred", "thousand", "grand", "zero"])
_HALF = ("and", "a", "half")
_AND_A_HALF = re.compile(
    r"(?<![\w.$])(?P<whole>[0-9]{1,2})[ ](?:and[ ]a[ ]half|1/2)[ ](?P<scale>grand|thousand|k|hundred)\b", re.IGNORECASE
)
NUMBER_WORD = re.compile(rf"\b(?:{_NAMED})\b", re.IGNORECASE)
_RUN = re.compile(
    rf"(?<![\w-])(?:(?:(?:a[ ])?couple(?:[ ]of)?|a|[0-9]{{1,3}}(?:\.[0-9])?)[ ](?=hundred\b|thousand\b|grand\b))?(?:{_NAMED})"
    rf"(?:(?:[ ]{{1,2}}|-)(?:and[ ](?=(?:{_NAMED})\b))?(?:{_NAMED}|oh|too|k|and[ ]a[ ]half(?=[ ](?:hundred|thousand|grand|k)\b)"
    rf"|a[ ](?:hundred|thousand|grand))\b){{0,11}}(?![\w'’])",
    re.IGNORECASE,
)
_LETTER_NAMES = {
    "be": "b", "bee": "b", "see": "c", "cee": "c", "dee": "d", "gee": "g", "aitch": "h", "jay": "j", "kay": "k", "el": "l",
    "ell": "l", "em": "m", "en": "n", "oh": "o", "pea": "p", "pee": "p", "are": "r", "ar": "r", "ess": "s", "es": "s", "tea": "t",
    "tee": "t", "vee": "v", "ex": "x",
}  # fmt: skip
_LETTERS = re.compile(
    rf"(?<![\w'’])(?P<first>{'|'.join(_LETTER_NAMES)}|[a-z])(?:[ ](?P<second>{'|'.join(_LETTER_NAMES)}|[a-z]))?[ ]\Z",
    re.IGNORECASE,
)
_LONGEST_LETTERS = 12
_TAKEN_BACK = re.compile(
    r"(?:no[ ,]{1,2})?(?:scratch that|make it|make that|i mean|i meant|sorry|wait)[ ,]{1,2}(?:no[ ]|it'?s[ ])?\Z", re.IGNORECASE
)
_SOME = re.compile(r"\b(?:several|few|couple|some)[ ]\Z", re.IGNORECASE)
_TIRES = re.compile(r"\b(?:tires?|tyres?|sizes?|rubber)[ ]\Z", re.IGNORECASE)
_SUM_CLOSES = re.compile(r"[ ]{0,2}(?:\Z|[,.;!\n)]|(?:today|firm|obo|cash|takes|or best|even|and it)\b)", re.IGNORECASE)
_SUM_ENDS = re.compile(r"[ ](?:today|firm|obo|cash|takes|or best|even|and it)\b", re.IGNORECASE)
_CYLINDERS = re.compile(r"[ -]cyl", re.IGNORECASE)
_TEN, _HUNDRED, _YEARS_OF = 10, 100, 2000  # "two thousand nine" is a year
_ALONE = 13  # numbers below this are left in words where they stand alone: "two for 900", "six bolts"
_PHONE_DIGITS, _ZIP_DIGITS, _FEWEST_DIGITS = 7, 5, 3
SMALL = {**_UNITS, **_TEENS, **_TENS}
_EITHER = re.compile(
    rf"\b(?P<low>{'|'.join(SMALL)})(?:[ ]or(?: maybe)?|[ ]to|[ ]maybe)[ ](?:{'|'.join(SMALL)})"
    rf"(?:[ -](?:{'|'.join(_UNITS)}))?[ ]"
    r"(?P<scale>hundred|thousand|grand)\b",
    re.IGNORECASE,
)  # "eleven or twelve hundred"
_TENS_OR_TEENS = "|".join([*_TENS, *_TEENS])
HEARD = re.compile(
    rf"\b(?:(?P<two>to|too)(?=[ ](?:hundred|thousand|grand)\b)|(?P<too>too)(?=[ ](?:{_TENS_OR_TEENS})\b)"
    rf"|(?P<four>for)(?=[ ](?:hundred|grand)\b)|(?<=\bfor )(?P<again>for)(?=[ ](?:thousand|{_TENS_OR_TEENS})\b)"
    r"|(?P<teen>for[ ]teen|four[ ]teen)\b|(?<=\bbe )(?P<model>for)(?=[ ]forty\b)|(?P<eight>ate)(?=[ ](?:hundred|thousand)\b)"
    r"|(?P<one>won)(?=[ ](?:hundred|thousand)\b))",
    re.IGNORECASE,
)  # numbers taken down as other words
_HEARD_AS = {
    "two": "two",
    "too": "two",
    "four": "four",
    "again": "four",
    "teen": "fourteen",
    "model": "four",
    "eight": "eight",
    "one": "one",
}
_PUNCTUATION = re.compile(r"[ ](?P<word>comma|period)(?=[ \n]|\Z)", re.IGNORECASE)


class Edit(NamedTuple):
    """A stretch of text and the words that are read in its place."""

    start: int
    end: int
    words: str


class _Said(NamedTuple):
    """A number in words: its figures, where, and whether it is said as an amount (with "hundred" or the like)."""

    figures: str
    start: int
    end: int
    amount: bool


def heard(text: str) -> Iterator[Edit]:
    """Number words taken down as words that sound alike: "for teen hundred", "too thousand"."""
    for match in HEARD.finditer(text):
        yield Edit(*match.span(), _HEARD_AS[str(match.lastgroup)])


def spoken_numbers(text: str) -> Iterator[Edit]:
    """What to read for numbers in words, in order, with letters said before a model number; one taken back is left out."""
    last: _Said | None = None
    held: list[Edit] = []
    for match in _RUN.finditer(text):
        for said in _numbers_in(text, match):
            between = text[last.end : said.start] if last and said.start - last.end < 40 else ""  # noqa: PLR2004
            back = _TAKEN_BACK.search(between)
            if last and back and held and held[-1].end == last.end and back.start() <= 12:  # noqa: PLR2004 - "hours "
                held[-1] = Edit(held[-1].start, held[-1].end, "")
                held.append(Edit(last.end + back.start(), said.start, ""))
            start, letters = said.start, ""
            before = _LETTERS.search(text[max(0, said.start - _LONGEST_LETTERS) : said.start])
            if before and not said.amount and 2 <= len(said.figures) <= 3 and before["first"].lower() not in ("a", "i"):  # noqa: PLR2004
                start -= len(before.group())
                names = [name.lower() for name in before.group("first", "second") if name]
                letters = "".join(_LETTER_NAMES.get(name, name) for name in names) + " "
            if held and start < held[-1].end:
                start, letters = said.start, ""
            held.append(Edit(start, said.end, letters + said.figures))
            last = said
    held += _halves(text, held)
    taken = {edit.start for edit in held}
    for match in _EITHER.finditer(text):
        if match.start("low") not in taken:
            value = SMALL[match["low"].lower()] * _SCALES[match["scale"].lower()]
            held.append(Edit(*match.span("low"), f"{value:,}"))
    yield from sorted([*held, *_spoken_stops(text, held)])


def _halves(text: str, held: Sequence[Edit]) -> list[Edit]:
    """Halves after figures: "2 and a half grand", "2 1/2 grand"."""
    found = []
    for match in _AND_A_HALF.finditer(text):
        if not any(edit.start < match.end() and match.start() < edit.end for edit in held):
            value = (int(match["whole"]) + 0.5) * _SCALES[match["scale"].lower()]
            found.append(Edit(*match.span(), _figures(value, amount=True)))
    return found


def _spoken_stops(text: str, held: Sequence[Edit]) -> list[Edit]:
    """A "comma" and "period" said aloud, in a text that has neither sign."""
    if any(sign in text for sign in ".,"):
        return []
    taken = {edit.start for edit in held}
    return [
        Edit(*match.span(), "," if match["word"].lower() == "comma" else ".")
        for match in _PUNCTUATION.finditer(text)
        if match.start() not in taken
    ]


def _numbers_in(text: str, match: re.Match[str]) -> list[_Said]:
    """The numbers of a run of words. Seven digits and more are a telephone, which is read elsewhere."""
    words = [
        (one.group().lower(), match.start() + one.start(), match.start() + one.end())
        for one in re.finditer(r"[A-Za-z]+|[0-9.]+", match.group())
    ]
    digits = [word for word, _, _ in words if word in _DIGITS]
    if len(digits) == len(words) and len(words) >= _FEWEST_DIGITS:
        if len(words) >= _PHONE_DIGITS:
            return []
        return [_Said("".join(map(_DIGITS.__getitem__, digits)), words[0][1], words[-1][2], False)]
    if len(digits) >= _PHONE_DIGITS:
        return []
    found: list[_Said] = []
    at = 0
    while at < len(words):
        value, used, amount = _number_at(words, at, text)
        if not used:
            at += 1
            continue
        if amount or used > 1 or value >= _ALONE:
            found.append(_Said(_figures(value, amount=amount), words[at][1], words[at + used - 1][2], amount))
        at += used
    return found


def _figures(value: float, *, amount: bool) -> str:
    """Figures for a number; a round sum said in hundreds or thousands is grouped, so that it is no year."""
    if value % 1:
        return f"{value:g}"
    return f"{int(value):,}" if amount and value >= 1000 and value % 50 == 0 else str(int(value))  # noqa: PLR2004


def _number_at(words: Sequence[tuple[str, int, int]], at: int, text: str) -> tuple[float, int, bool]:
    """(value, words used, said as an amount) of the number that begins at a word; nothing used where none does."""
    value, used = _group(words, at, text)
    if not used:
        if not _begins_bare(words, at, text):
            return 0.0, 0, False
        value = 1.0
    if tuple(_word(words, at + used + i) for i in range(3)) == _HALF:
        value, used = value + 0.5, used + 3
    scale = _word(words, at + used)
    if scale in _SCALES:
        value *= _SCALES[scale]
        used += 1
        rest, more = _rest(words, at + used, text, below=_SCALES[scale])
        closes = at + used + more == len(words) and _SUM_CLOSES.match(text, words[-1][2])
        if closes and more == 1 and rest < _TEN and value > _YEARS_OF and _SCALES[scale] == _SCALES["thousand"]:
            rest *= 100  # "sixteen thousand nine"
        return value + rest, used + more, True
    pair, more = _group(words, at + used, text)
    if more and 1 <= value < _HUNDRED and _TEN <= pair < _HUNDRED and _word(words, at + used + more) not in _SCALES:
        return value * 100 + pair, used + more, False  # "seven fifty"
    if more and pair < _TEN <= value and not _TIRES.search(text, max(0, words[at][1] - 10), words[at][1]):
        last, further = _group(words, at + used + more, text)
        if further and _TEN <= last < _HUNDRED and _word(words, at + used + more + further) not in _SCALES:
            return value * 1000 + pair * 100 + last, used + more + further, True  # "ten two fifty"
        if value < _TENS["twenty"] and _SUM_ENDS.match(text, words[at + used + more - 1][2]):
            return value * 1000 + pair * 100, used + more, True  # "sixteen five firm"
    return value, used, False


def _begins_bare(words: Sequence[tuple[str, int, int]], at: int, text: str) -> bool:
    """Whether "hundred and forty" begins a number, and not the end of another or of "several hundred"."""
    some = _SOME.search(text, max(0, words[at][1] - 10), words[at][1])
    return not at and not some and _word(words, at) in _SCALES and _word(words, at + 1) == "and"


def _rest(words: Sequence[tuple[str, int, int]], at: int, text: str, below: int) -> tuple[float, int]:
    """What follows "hundred" or "thousand" and belongs to it: "two thousand nineteen", not "a thousand, twenty five hundred"."""
    skipped = int(_word(words, at) == "and")
    value, used = _group(words, at + skipped, text)
    if used and _word(words, at + skipped + used) == "hundred":
        value *= 100
        used += 1
        more, further = _rest(words, at + skipped + used, text, below=100)
        value, used = value + more, used + further
    pair, more = _group(words, at + skipped + used, text) if used and value < 10 else (0.0, 0)  # noqa: PLR2004
    if more and pair >= 10 and below > 100 and _word(words, at + skipped + used + more) not in _SCALES:  # noqa: PLR2004 - "four thousand two fifty"
        value, used = value * 100 + pair, used + more
    if not used or value >= below or _word(words, at + skipped + used) in _SCALES:
        return 0.0, 0
    return value, skipped + used


def _group(words: Sequence[tuple[str, int, int]], at: int, text: str) -> tuple[float, int]:
    """A number below a hundred, or figures or "a" before a scale; "sixty six cylinder" is sixty, of six cylinders."""
    word = _word(words, at)
    skipped = int(word == "a" and _word(words, at + 1) == "couple")
    if _word(words, at + skipped) == "couple":
        skipped += 1 + int(_word(words, at + skipped + 1) == "of")
        return 2.0, skipped if _word(words, at + skipped) in _SCALES else 0
    if word == "a" or word[:1].isdigit():
        return (1.0 if word == "a" else float(word.rstrip(".") or 0)), int(_word(words, at + 1) in _SCALES)
    if word in _TENS:
        unit = _word(words, at + 1)
        unit = _ALIKE.get(unit, unit)
        if unit in _UNITS and not _CYLINDERS.match(text, words[at + 1][2]):
            return _TENS[word] + _UNITS[unit], 2
        return _TENS[word], 1
    if word in _TEENS:
        return _TEENS[word], 1
    return (_UNITS[word], 1) if word in _UNITS else (0.0, 0)


def _word(words: Sequence[tuple[str, int, int]], at: int) -> str:
    return words[at][0] if at < len(words) else ""
