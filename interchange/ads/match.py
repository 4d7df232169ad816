"""From an ad's words to the machines and units of the catalog.

Names are compared with everything but letters and digits folded away. A name that stands in the ad word for word is taken; the
longest wins where names lie inside one another (T412T over T412). Where none does, names that share a number or a maker with the ad
are scored with rapidfuzz, and a model number that differs vetoes: a typo in a dense catalog is never decided silently. What stays
ambiguous stays so and says so.
"""

from __future__ import annotations

import functools
import re
from collections.abc import Iterable, Iterator, Mapping, Sequence
from pathlib import Path
from typing import TYPE_CHECKING, NamedTuple

from interchange.ads.fields import Span
from interchange.store.rows import folded

if TYPE_CHECKING:
    import duckdb

UNITS, MACHINES = "units", "machines"
MOST_WORDS = 4
LEAST_LETTERS = 5  # a name without a digit must be this long to be taken by itself
MOST_LETTERS = 40
LEAST_SCORE = 85.0
LEAST_MARGIN = 5.0
TOKEN = re.compile(r"[^\W_]{1,40}")
NUMBER = re.compile(r"[0-9]{2,12}")
LOOKALIKES = str.maketrans("oil", "011")


class Word(NamedTuple):
    """A word of an ad, folded, with its place."""

    text: str
    span: Span


class Name(NamedTuple):
    """A name the catalog knows something by."""

    folded: str
    room: str
    id: str
    variant: str
    name: str
    maker: str


class Hit(NamedTuple):
    """A name found in an ad, or one like it."""

    name: Name
    span: Span
    score: float
    exact: bool
    in_title: bool


class Matched(NamedTuple):
    """What an ad names: hits best first, each of a different thing; several on one stretch of text are alternatives."""

    hits: tuple[Hit, ...]
    near: tuple[Hit, ...]
    """Names that are like something in the ad, but not enough to decide: to be asked, never taken."""

    def of(self, room: str, ids: Iterable[str] | None = None) -> tuple[Hit, ...]:
        """Hits in a room, or among some of its ids, best first."""
        chosen = None if ids is None else set(ids)
        return tuple(hit for hit in self.hits if hit.name.room == room and (chosen is None or hit.name.id in chosen))


def words_of(text: str) -> list[Word]:
    """The words of a text."""
    return [Word(folded(match.group()), Span(*match.span())) for match in TOKEN.finditer(text)]


def runs_of(words: Sequence[Word], text: str) -> Iterator[tuple[str, Span]]:
    """Runs of one to four words that stand on one line close together, joined: ``rl 90`` gives rl, rl90 and 90."""
    for start, first in enumerate(words):
        joined, end = "", first.span.start
        for word in words[start : start + MOST_WORDS]:
            between = text[end : word.span.start]
            if joined and (len(between) > 3 or "\n" in between or "," in between):  # noqa: PLR2004 - " - " is the widest gap
                break
            joined += word.text
            end = word.span.end
            if len(joined) > MOST_LETTERS:
                break
            yield joined, Span(first.span.start, end)


@functools.cache
def _sql(name: str) -> str:
    return (Path(__file__).parent / "sql" / f"{name}.sql").read_text(encoding="utf-8")


def match(connection: duckdb.DuckDBPyConnection, texts: Mapping[str, tuple[str, int]]) -> dict[str, Matched]:
    """What each ad names. ``texts`` maps an ad's id to its text (made clean) and where its title ends."""
    words = {id_: words_of(text) for id_, (text, _) in texts.items()}
    runs = {id_: list(runs_of(words[id_], text)) for id_, (text, _) in texts.items()}
    wanted = {run for each in runs.values() for run, _ in each if len(run) > 1}
    known: dict[str, list[Name]] = {}
    for row in connection.execute(_sql("exact"), {"grams": list(wanted)}).fetchall():
        known.setdefault(row[0], []).append(Name(*row))
    found: dict[str, Matched] = {}
    unsettled: dict[str, tuple[Hit, ...]] = {}
    for id_, (_, title_end) in texts.items():
        present = {word.text for word in words[id_]}
        hits = [
            Hit(name, span, 100.0, True, span.start < title_end)
            for run, span in runs[id_]
            for name in known.get(run, ())
            if _telling(name, run, present)
        ]
        kept = _ordered(_outermost(hits))
        found[id_] = Matched(kept, ())
        if not kept:
            unsettled[id_] = kept
    if unsettled:
        found |= _alike(connection, {id_: texts[id_] for id_ in unsettled}, words, runs)
    return found


def _telling(name: Name, run: str, present: set[str]) -> bool:
    """Whether a run of words is enough to name this: a bare number, or a short word, wants its maker beside it."""
    maker = folded(name.maker)
    beside = bool(maker) and (run.startswith(maker) or maker in present or any(part in present for part in _makers_words(name.maker)))
    if run.isdigit():
        return beside and len(run) > 1
    if run.isalpha():
        return len(run) >= LEAST_LETTERS and run != maker
    return True


def _makers_words(maker: str) -> list[str]:
    return [word for word in maker.casefold().split() if len(word) >= LEAST_LETTERS]


def _outermost(hits: list[Hit]) -> list[Hit]:
    """Hits that do not lie inside a longer one."""
    spans = {hit.span for hit in hits}

    def inside(span: Span) -> bool:
        return any(other != span and other.start <= span.start and span.end <= other.end for other in spans)

    return [hit for hit in hits if not inside(hit.span)]


def _ordered(hits: Iterable[Hit]) -> tuple[Hit, ...]:
    """Best first: in the title before the body, higher score, earlier; each thing (and variant) once."""
    seen: set[tuple[str, str, str]] = set()
    kept = []
    for hit in sorted(hits, key=lambda hit: (not hit.in_title, -hit.score, hit.span.start, hit.name.id, hit.name.variant)):
        key = (hit.name.room, hit.name.id, hit.name.variant)
        if key not in seen:
            seen.add(key)
            kept.append(hit)
    return tuple(kept)


def _alike(
    connection: duckdb.DuckDBPyConnection,
    texts: Mapping[str, tuple[str, int]],
    words: Mapping[str, Sequence[Word]],
    runs: Mapping[str, Sequence[tuple[str, Span]]],
) -> dict[str, Matched]:
    """For ads that name nothing word for word: names like theirs."""
    from rapidfuzz import fuzz, process

    present = {word.text for id_ in texts for word in words[id_]}
    numbers = sorted({number for word in present for number in NUMBER.findall(word.translate(LOOKALIKES))})
    bound = {"numbers": numbers, "words": sorted(present)}
    names = [Name(*row) for row in connection.execute(_sql("alike"), bound).fetchall()]
    choices = [name.folded.translate(LOOKALIKES) for name in names]
    found: dict[str, Matched] = {}
    for id_, (_, title_end) in texts.items():
        mine = {word.text for word in words[id_]}
        hits: list[Hit] = []
        for run, span in runs[id_]:
            plain = run.translate(LOOKALIKES)
            if len(run) <= 2 or not any(letter.isdigit() for letter in plain):  # noqa: PLR2004 - too short to tell by
                continue
            for _, score, i in process.extract(plain, choices, scorer=fuzz.ratio, score_cutoff=LEAST_SCORE, limit=5):
                if _same_numbers(plain, choices[i]) and _telling(names[i], run, mine):
                    hits.append(Hit(names[i], span, score, False, span.start < title_end))
        ordered = _ordered(_best_spans(hits))
        sure = _clear(ordered)
        found[id_] = Matched(ordered if sure else (), () if sure else ordered)
    return found


def _same_numbers(run: str, choice: str) -> bool:
    """A model number that differs vetoes, whatever the letters say."""
    return NUMBER.findall(run) == NUMBER.findall(choice)


def _best_spans(hits: list[Hit]) -> list[Hit]:
    best = max((hit.score for hit in hits), default=0.0)
    return [hit for hit in hits if hit.score >= best - LEAST_MARGIN]


def _clear(hits: Sequence[Hit]) -> bool:
    """Whether the best is clear of everything else."""
    return len({hit.name.id for hit in hits}) == 1
