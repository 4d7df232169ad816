"""From an ad's words to the machines and units of the catalog.

Names are compared with everything but letters and digits folded away. A name that stands in the ad word for word is taken; the
longest wins where names lie inside one another (T412T over T412). Where none does, names that share a number or a maker with the
ad are scored with rapidfuzz, and a model number that differs vetoes: a typo in a dense catalog is never decided silently. What
stays ambiguous stays so and says so.
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
BESIDE = 24  # signs between a number and its maker
LEAST_SCORE = 85.0
LEAST_MARGIN = 5.0
TOKEN = re.compile(r"[^\W_]{1,40}")
NUMBER = re.compile(r"[0-9]{2,12}")
DIGITS = re.compile(r"[0-9oil]*[0-9][0-9oil]*")
LOOKALIKES = str.maketrans("oil", "011")
ROUND = str.maketrans("o", "0")


class Run(NamedTuple):
    """Words of an ad that stand together, joined and folded, and where."""

    text: str
    start: int
    end: int


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


def words_of(text: str) -> list[Run]:
    """The words of a text, folded."""
    lower = text.lower()
    if len(lower) != len(text):  # a few capitals grow when lowered; places would no longer agree
        lower = text
    found = [Run(match.group(), *match.span()) for match in TOKEN.finditer(lower)]
    return found if lower.isascii() and lower is not text else [word._replace(text=folded(word.text)) for word in found]


def runs_of(words: Sequence[Run], text: str) -> Iterator[Run]:
    """Runs of one to four words that stand on one line close together, joined: ``rl 90`` gives rl90 and 90.

    What cannot be a name is left out: one sign, or fewer than five letters and no digit.
    """
    for first, (joined, start, end) in enumerate(words):
        if _may_name(joined):
            yield words[first]
        for word, at, after in words[first + 1 : first + MOST_WORDS]:
            between = text[end:at]
            if len(between) > 3 or "\n" in between or "," in between:  # noqa: PLR2004 - " - " is the widest gap
                break
            joined += word  # noqa: PLW2901 - the run grows
            end = after  # noqa: PLW2901
            if len(joined) > MOST_LETTERS:
                break
            if _may_name(joined):
                yield Run(joined, start, end)


def _may_name(run: str) -> bool:
    return len(run) >= LEAST_LETTERS or (len(run) > 1 and not run.isalpha())


@functools.cache
def _sql(name: str) -> str:
    return (Path(__file__).parent / "sql" / f"{name}.sql").read_text(encoding="utf-8")


def match(connection: duckdb.DuckDBPyConnection, texts: Mapping[str, tuple[str, int]]) -> dict[str, Matched]:
    """What each ad names. ``texts`` maps an ad's id to its text (made clean) and where its title ends."""
    words = {id_: words_of(text) for id_, (text, _) in texts.items()}
    runs = {id_: list(runs_of(words[id_], text)) for id_, (text, _) in texts.items()}
    known = _known(connection, words.values(), runs.values())
    found: dict[str, Matched] = {}
    for id_, (text, title_end) in texts.items():
        hits = [
            Hit(name, Span(run.start, run.end), 100.0, True, run.start < title_end)
            for run in runs[id_]
            if run.text in known
            for name in known[run.text]
            if _telling(name, run, text)
        ]
        found[id_] = Matched(_ordered(_outermost(hits)), ())
    unsettled = {id_: texts[id_] for id_, matched in found.items() if not matched.hits}
    return found | _alike(connection, unsettled, words, runs) if unsettled else found


def _known(
    connection: duckdb.DuckDBPyConnection, words: Iterable[Sequence[Run]], runs: Iterable[Sequence[Run]]
) -> dict[str, list[Name]]:
    """The names that stand in the ads, by what they fold to.

    Three runs in four are plain words: those are not sent one by one; names without a digit are sought in the ads' letters.
    """
    numbered = {run.text for each in runs for run in each if not run.text.isalpha()}
    letters = " ".join("".join([word.text for word in each]) for each in words)
    known: dict[str, list[Name]] = {}
    for row in connection.execute(_sql("exact"), {"grams": list(numbered), "letters": letters}).fetchall():
        known.setdefault(row[0], []).append(Name(*row))
    return known


def _telling(name: Name, run: Run, text: str) -> bool:
    """Whether a run is enough to name this: a bare number wants its maker beside it; a maker alone names nothing."""
    if run.text.isdigit():
        return _maker_beside(name.maker, run, text)
    return run.text != folded(name.maker)


def _maker_beside(maker: str, run: Run, text: str) -> bool:
    """Whether the maker stands near a number on its line with no other number between; a sum of money names nothing."""
    before = text[max(0, run.start - BESIDE) : run.start].rpartition("\n")[2]
    after = text[run.end : run.end + BESIDE].partition("\n")[0]
    if before.rstrip().endswith(("$", "€", "£")):
        return False
    near = [folded(part) for part in (re.split("[0-9]", before)[-1], re.split("[0-9]", after)[0])]
    wanted = [folded(word) for word in maker.split() if len(word) >= LEAST_LETTERS] or [folded(maker)]
    return any(word in part for word in wanted if word for part in near)


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
    words: Mapping[str, Sequence[Run]],
    runs: Mapping[str, Sequence[Run]],
) -> dict[str, Matched]:
    """For ads that name nothing word for word: names like theirs."""
    from rapidfuzz import fuzz, process

    present = {word.text for id_ in texts for word in words[id_]}
    numbers = {number for word in present for form in _forms(word) for number in NUMBER.findall(form)}
    bound = {"numbers": f"(?:^|[^0-9])(?:{'|'.join(sorted(numbers)) or '-'})(?:[^0-9]|$)", "words": sorted(present)}
    names = [Name(*row) for row in connection.execute(_sql("alike"), bound).fetchall()]
    choices = [name.folded.translate(LOOKALIKES) for name in names]
    found: dict[str, Matched] = {}
    for id_, (_, title_end) in texts.items():
        hits: list[Hit] = []
        for run in runs[id_]:
            plain = run.text.translate(LOOKALIKES)
            if len(plain) <= 2 or plain.isdigit() or plain.isalpha():  # noqa: PLR2004 - too short to tell by
                continue
            hits += [
                Hit(names[i], Span(run.start, run.end), score, False, run.start < title_end)
                for _, score, i in process.extract(plain, choices, scorer=fuzz.ratio, score_cutoff=LEAST_SCORE, limit=5)
                if _same_numbers(run.text, names[i].folded)
            ]
        ordered = _ordered(_best_spans(hits))
        sure = _clear(ordered)
        found[id_] = Matched(ordered if sure else (), () if sure else ordered)
    return found


def _forms(word: str) -> tuple[str, str, str]:
    """A word as written, and with letters read as the digits they look like."""
    return word, word.translate(ROUND), word.translate(LOOKALIKES)


def _same_numbers(run: str, choice: str) -> bool:
    """A model number that differs vetoes, whatever the letters say. Letters beside a digit may be digits read badly."""
    if run.translate(LOOKALIKES) == choice.translate(LOOKALIKES):
        return True
    mine, its = DIGITS.findall(run), DIGITS.findall(choice)
    return [each.translate(LOOKALIKES) for each in mine] == [each.translate(LOOKALIKES) for each in its]


def _best_spans(hits: list[Hit]) -> list[Hit]:
    best = max((hit.score for hit in hits), default=0.0)
    return [hit for hit in hits if hit.score >= best - LEAST_MARGIN]


def _clear(hits: Sequence[Hit]) -> bool:
    """Whether the best is clear of everything else."""
    return len({hit.name.id for hit in hits}) == 1
