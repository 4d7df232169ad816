"""An ad's words, and what they make where they stand together: ``rl 90`` gives rl90 and 90."""

from __future__ import annotations

import re
from collections.abc import Container, Iterable, Iterator, Sequence
from collections.abc import Set as AbstractSet
from itertools import accumulate

from interchange.store.rows import folded

MOST_WORDS = 4
LEAST_LETTERS = 5  # a name without a digit must be this long to be taken by itself
MOST_LETTERS = 40
# A word, and what parts it from the next where that is little enough to be read over: " - " is the widest.
TOKEN = re.compile(r"([^\W_]{1,40})((?:[^\w\n,]|_){0,3}(?=[^\W_]))?")
SEGMENT = re.compile(r"[\n,]")  # no run goes over a comma or the end of a line
DIGIT = re.compile(r"[0-9]")
WHOLE = re.compile(r"([a-z0-9]{1,40})([^a-z0-9]*)")
WIDEST_GAP = 3
JOINED = 2  # the group of TOKEN that is there where the next word may belong to this one

Word = tuple[str, int, int, bool]
"""A folded word, where it starts and ends, and whether the next one follows closely on its line."""
Stretch = tuple[str, int, int]
"""Words joined, and where they start and end. Plain tuples: an ad has dozens, and named ones take thrice the time."""
NUMBER_FIRST = re.compile(r"\b([0-9]{2,4}) ([A-Za-z]{5,20})\b")


def words_of(text: str) -> list[Word]:
    """The words of a text, folded."""
    lower = text.lower()
    if len(lower) != len(text):  # a few capitals grow when lowered; places would no longer agree
        lower = text
    found = [(match[1], match.start(), match.end(1), match.lastindex == JOINED) for match in TOKEN.finditer(lower)]
    if lower.isascii() and lower is not text:
        return found
    return [(folded(word), start, end, joined) for word, start, end, joined in found]


def runs_of(words: Sequence[Word]) -> list[Stretch]:
    """Runs of one to four words that stand on one line close together, joined.

    What cannot be a name is left out: one sign, or fewer than five letters and no digit.
    """
    return list(_runs(words, range(len(words))))


def numbered_runs(text: str) -> list[Stretch]:
    """Those of the runs that have a digit; stretches of the text without one are passed over."""
    lower = text.lower()
    found: list[Stretch] = []
    if len(lower) != len(text) or not lower.isascii():
        _near_digits(words_of(text), found)
        return found
    at = 0
    for segment in SEGMENT.split(lower):
        if DIGIT.search(segment):
            words = [
                (match[1], match.start(), match.end(1), match.lastindex == JOINED)
                for match in TOKEN.finditer(lower, at, at + len(segment))
            ]
            _near_digits(words, found)
        at += len(segment) + 1
    return found


def standing_runs(text: str, names: Container[str], beginnings: AbstractSet[str]) -> list[Stretch]:
    """Those of the numbered runs that are among ``names``; ``beginnings`` are theirs.

    Of names as long as a run may be the same as picking them out of `numbered_runs`, in a fifth of the time: a run is followed
    only while it begins a name, and places are worked out for what is found only.
    """
    lower = text.lower()
    if len(lower) != len(text) or not lower.isascii():
        return [run for run in numbered_runs(text) if run[0] in names]
    words = WHOLE.findall(lower)
    found: list[Stretch] = []
    starts: list[int] = []
    for first in [place for place, (word, _) in enumerate(words) if word in beginnings]:
        for last, run in _followed(words[first : first + MOST_WORDS], names, beginnings):
            if not starts:
                lead = len(lower) - sum(len(word) + len(gap) for word, gap in words)
                starts = list(accumulate((len(word) + len(gap) for word, gap in words), initial=lead))
            found.append((run, starts[first], starts[first + last] + len(words[first + last][0])))
    return found


def beginnings_of(names: Iterable[str]) -> set[str]:
    """All that names begin with, and the names themselves."""
    return {name[:size] for name in names for size in range(1, len(name) + 1)}


def turned_runs(text: str) -> list[Stretch]:
    """A number with its maker after it, joined the usual way about: "a 618 Tolvane"."""
    return [(match[2].lower() + match[1], *match.span()) for match in NUMBER_FIRST.finditer(text)]


def _followed(words: Sequence[tuple[str, str]], names: Container[str], beginnings: AbstractSet[str]) -> Iterator[tuple[int, str]]:
    """(last word, run) of the names with a digit that the words make from the first one on."""
    run = ""
    for last, (word, gap) in enumerate(words):
        run += word
        if run not in beginnings:
            return
        if run in names and not run.isalpha():
            yield last, run
        if len(gap) > WIDEST_GAP or SEGMENT.search(gap):
            return


def has_model(text: str) -> bool:
    """Whether something in it looks like a model number: three signs or more, letters and digits."""
    return any(len(run) > 2 and not run.isdigit() for run, _, _ in numbered_runs(text))  # noqa: PLR2004 - two tell nothing


def _near_digits(words: Sequence[Word], found: list[Stretch]) -> None:
    """Add the runs that hold a word with a digit: they begin at it, or up to three words before."""
    after = 0
    count = len(words)
    for place in range(count):
        if not words[place][0] or words[place][0].isalpha():  # what folds to nothing has no digit
            continue
        for first in range(max(after, place - MOST_WORDS + 1), place + 1):
            run, start, end, joined = words[first]
            last = first
            if first == place and len(run) > 1:
                found.append((run, start, end))
            for word, _, end, joins in words[first + 1 : first + MOST_WORDS] if joined else ():
                run += word
                last += 1
                if len(run) > MOST_LETTERS:
                    break
                if last >= place and len(run) > 1:
                    found.append((run, start, end))
                if not joins:
                    break
        after = place + 1


def lettered_runs(words: Sequence[Word], beginnings: AbstractSet[str]) -> Iterator[Stretch]:
    """Those of the runs that have none, whose first word's first three letters are among ``beginnings``."""
    firsts = [place for place, word in enumerate(words) if word[0][:3] in beginnings]
    return (run for run in _runs(words, firsts) if run[0].isalpha())


def _runs(words: Sequence[Word], firsts: Iterable[int]) -> Iterator[Stretch]:
    for first in firsts:
        run = ""
        start = words[first][1]
        for word, _, end, joined in words[first : first + MOST_WORDS]:
            run += word
            if len(run) > MOST_LETTERS:
                break
            if len(run) >= LEAST_LETTERS or (len(run) > 1 and not run.isalpha()):
                yield run, start, end
            if not joined:
                break
