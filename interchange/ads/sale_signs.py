"""The signs of an ad that tell what sort of sale it makes: its words, those of its title, what is read of its parts and state."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterator
from itertools import pairwise
from typing import TYPE_CHECKING

from interchange.ads.match import UNITS

if TYPE_CHECKING:
    from interchange.ads.fields import AdReading
    from interchange.ads.match import Matched

_WORD = re.compile(r"[a-z]+(?:'[a-z]+)?|[0-9]+|[^\w\s]|\n")
_CORE_DUE = re.compile(
    r"(?:\b(?:plus|no|an?|refundable|less|with|w/|exchange|your)|[$€£][ ]?[0-9.,]{1,9})?[ ]{0,2}\bcore[ ]{0,2}"
    r"(?:chg|crg|charges?|dep(?:osit)?|due(?: back)?|back|returns?|returned|req\w{0,7}|refund\w{0,4}|exch\w{0,5}|credit)\b",
    re.IGNORECASE,
)
_OF_A_HEAD = re.compile(r"\bhead[ -]?(?:gaskets?|bolts?|studs?|lights?|lamps?|liner)\b", re.IGNORECASE)
_HEAD = 40  # words an ad begins with
_MOST_WORDS = 500
_MANY = 4
_BESIDE = 40  # signs
_LENGTH = 120  # signs


def signs(text: str, reading: AdReading, matched: Matched) -> set[str]:
    """The signs of an ad. ``text`` is the ad made fit to read."""
    words = _words(_in_one(text))[:_MOST_WORDS]
    title = _words(_in_one(reading.title.text)) if reading.title else []
    found = {"an ad", f"length {min(len(text) // _LENGTH, 8)}"}
    for place, some in (("t", title), ("h", words[:_HEAD]), ("w", words)):
        found.update(f"{place} {word}" for word in some)
    for place, some in (("t", title), ("w", words)):
        found.update(f"{place} {one} {two}" for one, two in pairwise(some))
    found.update(_read(reading))
    found.update(_named(matched))
    found.update(_headed(title))
    found.update(_about_names(text, matched))
    found.update(_goes(words))
    return found


_RUNS = frozenset([
    "run", "runs", "running", "runner", "runners", "ran", "drive", "drives", "driven", "drove", "driving", "work", "works",
    "working", "worked", "operates", "operational", "operating", "starts", "start", "started", "starting", "fires", "fired",
    "functions", "moves", "moved", "digs", "dug", "digging", "loads", "lifts", "used", "pulls", "pulled", "usable", "mows",
    "plows",
])  # fmt: skip
_DEAD = frozenset([
    "stuck", "seized", "locked", "froze", "frozen", "blown", "blew", "knock", "knocks", "knocking", "dead", "hole", "holed",
    "window", "cracked", "apart", "pieces", "burned", "burnt", "rolled", "wrecked", "missing", "gone", "quit", "broke",
    "broken", "junk", "salvage", "scrap", "bad", "rusted", "project", "needs",
])  # fmt: skip
_DENIES = frozenset([
    "not", "no", "never", "won't", "wont", "doesn't", "doesnt", "don't", "dont", "didn't", "isn't", "hasn't", "can't",
    "cannot", "without", "nor",
])  # fmt: skip
_PAST = frozenset([
    "was", "when", "until", "till", "before", "ago", "last", "used", "would", "were", "had",
])  # fmt: skip
_NEAR = 3  # words


def _goes(words: list[str]) -> Iterator[str]:
    """Whether it is said to go, and how: of now, denied, of the past."""
    for at, word in enumerate(words):
        before = words[max(0, at - _NEAR) : at]
        after = words[at + 1 : at + 1 + _NEAR]
        if word in _RUNS:
            how = "denied" if _DENIES.intersection(before) else "past" if _PAST.intersection((*before, *after)) else "now"
            yield f"goes {how}"
        elif word in _DEAD:
            yield f"dead {'denied' if _DENIES.intersection(before) else 'said'}"


def _headed(title: list[str]) -> Iterator[str]:
    """The last words of the title before its first pause: what the others belong to."""
    at = next(
        (at for at, word in enumerate(title) if at and not word[0].isalnum() and word not in ("-", "/", "'", "&")), len(title)
    )
    head = [word for word in title[:at] if word.isalpha()]
    if head:
        yield f"head {head[-1]}"
        yield f"heads {' '.join(head[-2:])}"


def _about_names(text: str, matched: Matched) -> Iterator[str]:
    """The words beside the first name of the catalog."""
    first = min(matched.hits, key=lambda hit: hit.span.start, default=None)
    if first is None:
        return
    before, after = (
        _words(text[max(0, first.span.start - _BESIDE) : first.span.start]),
        _words(text[first.span.end : first.span.end + _BESIDE]),
    )
    yield from (f"before name {place} {word}" for place, word in enumerate(reversed(before[-2:])))
    yield from (f"after name {place} {word}" for place, word in enumerate(after[:2]))
    yield f"after {first.name.room} {' '.join(after[:1])}"
    yield f"before {first.name.room} {' '.join(before[-1:])}"


def _in_one(text: str) -> str:
    """The text with words that mean another thing together in one: a core to be given back is no core for sale."""
    text = _CORE_DUE.sub(" coredue ", text)
    return _OF_A_HEAD.sub(" headpart ", text)


def _words(text: str) -> list[str]:
    return ["0" if word.isdigit() else word for word in _WORD.findall(text.lower())]


def _read(reading: AdReading) -> Iterator[str]:
    """What was read besides."""
    if reading.subject is None:
        yield "subject none"
    else:
        yield f"subject {reading.subject.value}"
        yield f"subject {reading.subject.value} {int(reading.subject.certainty * 10)}"
    for part in reading.parts:
        yield f"part {part.part} {part.state}"
    for state, count in Counter(part.state for part in reading.parts).items():
        yield f"parts {state} {min(count, _MANY)}"
    yield from (f"said {fact.name} {fact.value is True}" for fact in reading.said)
    yield from (f"phrase {hit.id} {hit.negated}" for hit in reading.phrases)
    yield from (f"unit {one.state}" for one in reading.health)
    if reading.hours:
        yield "hours"


def _named(matched: Matched) -> Iterator[str]:
    """Which rooms of the catalog it names, and where."""
    for place, hits in (("in title", [hit for hit in matched.hits if hit.in_title]), ("below", matched.hits)):
        if not hits:
            yield f"names nothing {place}"
            continue
        first = min(hits, key=lambda hit: hit.span.start)
        yield f"names {place} {first.name.room}"
        units = sum(hit.name.room == UNITS for hit in hits)
        yield f"names {place} {min(units, _MANY)} units {min(len(hits) - units, _MANY)} machines"
