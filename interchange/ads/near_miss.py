"""Models of a family that is in the catalog, but with a number that is in none: what is one of these is not its neighbour.

"Tolvane T421", "a made-up H62D beside an H52D": the pattern of letters and digits is one the catalog has, the number is not.
Makers that an ad denies ("a Drennock, not a Hestrel") are told here too.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import replace
from typing import TYPE_CHECKING, NamedTuple

from interchange.ads.fields import AdReading, Field, Span
from interchange.ads.named import MACHINES, Hit, Matched, Name
from interchange.ads.offer_kind import LIKENED, spoken_of
from interchange.ads.queries import sql
from interchange.store.rows import folded

if TYPE_CHECKING:
    import duckdb

_MODEL = re.compile(r"(?<![\w$€£.-])[A-Za-z]{1,3}[-]?[0-9]{2,4}[A-Za-z]{0,2}(?![\w]|[-.][\w])")
_DENIED = re.compile(r"\b(?:not|isn'?t|never|no)[ ](?:an?|the)?[ ]?(?P<maker>[A-Za-z]{4,15})\b", re.IGNORECASE)
_MOST = 60  # words of an ad that are looked at
_LONG = 4  # signs of a model that tell its family without the maker's name
_BESIDE = 24
_NOT_TOLD = 0.5
_DIGITS = re.compile("[0-9]")


class Neighbour(NamedTuple):
    """A model of no catalog, and one that is like it: of what room, by its id."""

    span: Span
    room: str
    like: str


def refused(
    connection: duckdb.DuckDBPyConnection,
    texts: Mapping[str, str],
    readings: Mapping[str, AdReading],
    found: Mapping[str, Matched],
) -> tuple[dict[str, Matched], dict[str, Neighbour]]:
    """What each ad names, and nothing where it sells a neighbour of what it names, or of a maker that it denies.

    With the neighbours, by the ads that sell one.
    """
    words = {id_: list(_MODEL.finditer(text))[:_MOST] for id_, text in texts.items() if found[id_].hits}
    denied = {id_: {match["maker"].lower() for match in _DENIED.finditer(texts[id_])} for id_ in words}
    bound = {
        "patterns": sorted({_pattern(match.group()) for each in words.values() for match in each}),
        "denied": sorted({maker for each in denied.values() for maker in each}),
    }
    rows = connection.execute(sql("patterns"), bound).fetchall()
    names, makers = {row[0] for row in rows}, {(row[1], row[2].lower()) for row in rows}
    families = {row[1]: (row[3], row[4]) for row in sorted(rows, key=lambda row: row[3], reverse=True)}
    neighbours: dict[str, Neighbour] = {}
    unit_makers = {row[2].lower() for row in rows if row[3] != MACHINES}
    result = dict(found)
    for id_, each in words.items():
        kept = _without_makers(found[id_], denied[id_] & unit_makers, readings[id_])
        misses = [Span(*match.span()) for match in each if _is_miss(texts[id_], match, names, makers)]
        if kept.hits and misses and _leads(misses, kept, readings[id_]):
            kept = Matched((), kept.near)
            room, like = families[_pattern(texts[id_][misses[0].start : misses[0].end])]
            neighbours[id_] = Neighbour(misses[0], room, like)
        result[id_] = kept
    return result, neighbours


def with_subject(reading: AdReading, neighbour: Neighbour, text: str, kind: str | None) -> AdReading:
    """The reading of an ad whose subject no noun tells: what its neighbour is sold as."""
    if reading.subject is not None and reading.subject.certainty > _NOT_TOLD:
        return reading
    found = text[neighbour.span.start : neighbour.span.end]
    sort = "machine" if neighbour.room == MACHINES else "unit"
    which = Field("subject_is", kind, found, neighbour.span, _NOT_TOLD) if kind else None
    return replace(reading, subject=Field("subject", sort, found, neighbour.span, _NOT_TOLD), subject_is=which)


def _pattern(word: str) -> str:
    return _DIGITS.sub("#", folded(word))


def _is_miss(text: str, match: re.Match[str], names: set[str], makers: set[tuple[str, str]]) -> bool:
    """Whether a model has a pattern of the catalog and no name of it, and is not only likened to."""
    word = folded(match.group())
    family = {maker for pattern, maker in makers if pattern == _pattern(word)}
    if word in names or not family:
        return False
    before = folded(text[max(0, match.start() - _BESIDE) : match.start()])
    if len(word) < _LONG and not any(maker and folded(maker.split()[0]) in before for maker in family):
        return False
    hit = Hit(Name(word, "", "", "", match.group(), ""), Span(*match.span()), 0.0, False, False)
    return spoken_of(text, hit) > LIKENED


def _leads(misses: list[Span], matched: Matched, reading: AdReading) -> bool:
    """Whether the first is named before all that is in the catalog, or the title names it and nothing of the catalog."""
    first = min(hit.span.start for hit in matched.hits)
    if misses[0].start < first:
        return True
    title = reading.title.span if reading.title else Span(0, 0)
    return not any(hit.in_title for hit in matched.hits) and any(title.start <= miss.start < title.end for miss in misses)


def _without_makers(matched: Matched, denied: set[str], reading: AdReading) -> Matched:
    """Without the units of makers that are denied, and machines that would stand for such a unit."""
    if not denied:
        return matched
    machine = reading.subject is not None and reading.subject.value == "machine"
    hits = [hit for hit in matched.hits if hit.name.maker.lower() not in denied and (hit.name.room != MACHINES or machine)]
    return Matched(tuple(hits), matched.near)
