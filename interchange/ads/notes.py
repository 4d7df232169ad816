"""The user's own lines under an ad: what was read wrong, what was asked and answered, readings taken and photos seen.

A line of his begins with ``@`` and a date, then one word of a closed list, a colon, and what he has to say:

    @ 2026-11-20 price: $3,200
    @ 2026-11-20 asked: plate photo
    @ 2026-11-22 answered: plate photo: the code ends in L
    @ 2026-11-22 reading: compression 410, 395, 400 psi
    @ 2026-11-23 photo: rear face, twelve bolts

Such lines belong to the ad above them and are no part of its text: the ad keeps its id.
"""

from __future__ import annotations

import datetime as dt
import re
from collections.abc import Iterable, Iterator
from typing import NamedTuple

from interchange.catalog.suggest import suggestion
from interchange.errors import Problem

CORRECTIONS = ("price", "place", "offer", "is", "hours", "weight")
LOG = ("asked", "answered", "reading", "photo", "note")
WORDS = (*CORRECTIONS, *LOG)
ASKED, ANSWERED, READING, PHOTO = "asked", "answered", "reading", "photo"
MARK = "@"
SHAPE = "write @ 2026-11-20 price: $3,200, with one of: " + ", ".join(WORDS)
_LINE = re.compile(r"@[ \t]*(?P<day>\S+)[ \t]+(?P<word>[A-Za-z]+)[ \t]*:[ \t]*(?P<text>.*)")
_DAY = r"[0-9]{4}-|[0-9]{1,4}[./-][0-9]{1,2}[./-][0-9]{1,4}\b"
_BEGINS = re.compile(
    rf"^[ \t]{{0,8}}@[ \t]{{0,8}}(?:{_DAY}|(?:{'|'.join(WORDS)})[ \t]{{0,3}}:)[^\n]*\n?", re.MULTILINE | re.IGNORECASE
)
"""A line that is one, or was meant for one: without its date, or with another sort of date."""


class Note(NamedTuple):
    """One line of the user's."""

    day: str
    word: str
    text: str
    source: str
    line: int

    def problem(self, slug: str, text: str, hint: str = "") -> Problem:
        """A fault in what the line says."""
        return Problem(self.source, self.line, 1, slug, text, hint)


class Cut(NamedTuple):
    """A line of the user's taken out of a paste, or what is wrong with it; ``at`` is where it stood in the text that is left."""

    at: int
    note: Note | Problem


def without_notes(text: str, source: str) -> tuple[str, tuple[Cut, ...]]:
    """A paste without the user's lines, just as it was before he wrote them; also without what begins like one and is none."""
    kept: list[str] = []
    cuts: list[Cut] = []
    done, length, line = 0, 0, 1
    for match in _BEGINS.finditer(text):
        before = text[done : match.start()]
        kept.append(before)
        length += len(before)
        line += before.count("\n")
        cuts.append(Cut(length, read_note(match.group(), source, line)))
        line += match.group().count("\n")
        done = match.end()
    return "".join([*kept, text[done:]]), tuple(cuts)


def read_note(line: str, source: str, number: int) -> Note | Problem:
    """One line of the user's; a problem with its place where it is none."""
    column = len(line) - len(line.lstrip()) + 1
    match = _LINE.match(line.strip())
    if match is None:
        return Problem(source, number, column, "bad-note", f"{line.strip()!r} is no line of your own", SHAPE)
    day, word, said = match["day"], match["word"].lower(), match["text"].strip()
    try:
        dt.date.fromisoformat(day)
    except ValueError:
        return Problem(source, number, column + match.start("day"), "bad-date", f"{day!r} is no date", "write 2026-11-20")
    if word not in WORDS:
        hint = suggestion(word, WORDS)
        return Problem(source, number, column + match.start("word"), "unknown-word", f"nothing is noted under {word!r}", hint)
    if not said:
        return Problem(source, number, column + match.start("word"), "empty", f"nothing stands after {word!r}", SHAPE)
    return Note(day, word, said, source, number)


def in_order(notes: Iterable[Note]) -> tuple[Note, ...]:
    """The same notes once each, the oldest first: an ad pasted twice may carry them twice."""
    once = {(note.day, note.word, note.text): note for note in notes}
    return tuple(sorted(once.values(), key=lambda note: (note.day, note.source, note.line)))


def correction(notes: Iterable[Note], word: str) -> Note | None:
    """The latest correction of a field; None where there is none."""
    return next((note for note in reversed(in_order(notes)) if note.word == word), None)


def unanswered(notes: Iterable[Note]) -> Iterator[Note]:
    """Questions asked and not answered. An answer names its question up to the colon: ``answered: plate photo: …``."""
    ordered = in_order(notes)
    answers = [(note.day, _subject(note.text)) for note in ordered if note.word == ANSWERED]
    for note in ordered:
        asked = _subject(note.text)
        if note.word == ASKED and not any(day >= note.day and subject == asked for day, subject in answers):
            yield note


def _subject(text: str) -> str:
    return " ".join(text.partition(":")[0].casefold().strip(" ?").split())


class Statement(NamedTuple):
    """What was answered or seen, in words that speak of the unit as an ad does; ``denied`` where the answer was no."""

    text: str
    denied: bool
    note: Note


def statements(notes: Iterable[Note]) -> Iterator[Statement]:
    """Answers, readings and photos. ``answered: does it knock: no`` denies what was asked; ``yes`` says it."""
    for note in in_order(notes):
        if note.word == ANSWERED:
            asked, colon, said = (part.strip() for part in note.text.partition(":"))
            verdict = _YES_NO.match(said)
            if colon and verdict:
                yield Statement(_ASKING.sub("", asked).rstrip(" ?"), verdict["no"] is not None, note)
                said = said[verdict.end() :].strip(" ,.;:-")
            if said or not colon:
                yield Statement(said or asked, False, note)
        elif note.word in (READING, PHOTO):
            yield Statement(note.text, False, note)


_YES_NO = re.compile(r"(?:yes|yeah|yep|yup|it does|(?P<no>no|nope|it doesn'?t|it does not))\b", re.IGNORECASE)
_ASKING = re.compile(r"\A(?:does|do|did|is|are|was|has|have|will|can)\s+(?:it|the (?:engine|motor|pump|unit))?\s*", re.IGNORECASE)
