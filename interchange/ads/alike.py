"""For ads that name nothing word for word: what in the catalog is like something in them.

Candidates are found in SQL by rare words and groups of three signs, and scored with rapidfuzz. Model numbers are decisive: one
that agrees promotes, two of one pattern that differ veto, and a slip in a long one is only ever offered. What is not clear of
everything else is left open.
"""

from __future__ import annotations

import re
from collections import defaultdict
from collections.abc import Mapping, Sequence
from typing import TYPE_CHECKING, NamedTuple

from rapidfuzz import fuzz, process
from rapidfuzz.distance import OSA

from interchange.ads.fields import Span
from interchange.ads.named import LOOKALIKES, Hit, Matched, Name, each_thing_once
from interchange.ads.queries import sql
from interchange.ads.runs import Stretch, Word, numbered_runs, words_of
from interchange.store.rows import folded

if TYPE_CHECKING:
    import duckdb

CANDIDATES = 12  # looked at for each ad
RAREST = 12  # words, and groups of signs, of an ad that find candidates
COMMON = 200  # a word that more things have, and more than one in fifty, finds nothing by itself
LEAST_SCORE = 85.0  # rapidfuzz's ratio of two model numbers that agree but for a letter
LEAST_LIKE = 60.0
LEAST_MARGIN = 5.0
LEAST_COVER = 0.2  # of an ad's and a title's words, by weight, to be worth asking
LONG = 6  # signs of a model number in which a wrong one is likelier a slip than another model
AGREES = 0.8  # what model numbers count against words
OTHER_MAKER = 0.5  # what words count for where the ad names another maker of those it may be
SURE = 8  # signs from which a model number counts in full
NEAR = 5
STRICT = re.compile("[0-9]+")
DIGITS = re.compile(r"[0-9oil]*[0-9][0-9oil]*")
# A word with hyphens and strokes, or a few letters and a number: CL-51, S450, Q 300.
MODEL = re.compile(r"\b[A-Za-z]{1,3} [0-9]{2,5}\b|[A-Za-z0-9]+(?:[-/.][A-Za-z0-9]+)*")
LEAST_SIGNS, MOST_SIGNS = 3, 14  # of a model number
LEAST_BARE = 5  # digits of one without letters


class Like(NamedTuple):
    """A thing of the catalog held against an ad: how far words and model numbers agree."""

    name: Name
    span: Span
    worth: float
    """Words and model number together."""
    ratio: float
    """Of the model numbers that agree, as far as any do."""
    rival: float
    """The same with those that may be a slip of it."""
    worth_asking: bool


class Pair(NamedTuple):
    """A model number of a thing and one of the ad."""

    name: Name
    span: Span
    ratio: float
    same_digits: bool
    slip: bool

    @property
    def worth(self) -> float:
        """A number of the same pattern with other digits adds nothing; a short one less than a long one."""
        return self.ratio / 100 * min(len(self.name.folded), SURE) / SURE if self.same_digits or self.slip else 0.0


def alike(
    connection: duckdb.DuckDBPyConnection, texts: Mapping[str, tuple[str, int]], things: dict[int, Thing]
) -> dict[str, Matched]:
    """Names like those in each ad: taken where one is clear of all others, else offered. ``things`` are kept between calls."""
    connection.execute(sql("features"))
    ids = list(texts)
    titles, numbered = zip(*(_looked_at(*each) for each in texts.values()), strict=True)
    bound = {
        "ads": list(range(len(ids))),
        "titles": list(titles),
        "numbered": list(numbered),
        "common": COMMON,
        "rarest": RAREST,
        "most": CANDIDATES,
    }
    candidates: dict[int, list[tuple[int, float]]] = defaultdict(list)
    for ad, key, cover in connection.execute(sql("alike"), bound).fetchall():
        candidates[ad].append((key, cover))
    things |= _things(connection, {key for each in candidates.values() for key, _ in each} - things.keys())
    found = {}
    for ad, id_ in enumerate(ids):
        text, title_end = texts[id_]
        found[id_] = _matched([(things[key], cover) for key, cover in candidates[ad]], text, set(titles[ad].split()), title_end)
    return found


class Thing(NamedTuple):
    """A thing as it is compared."""

    title: Name
    makers: frozenset[str]
    numbers: tuple[tuple[str, Name], ...]
    """Its names that have digits and those that stand in its title: the maker left off, lookalikes taken for digits."""


def _things(connection: duckdb.DuckDBPyConnection, keys: set[int]) -> dict[int, Thing]:
    names: dict[int, list[Name]] = defaultdict(list)
    if not keys:
        return {}
    for key, *name in connection.execute(sql("names_of"), {"keys": list(keys)}).fetchall():
        names[key].append(Name(*name))
    return {key: _thing(each) for key, each in names.items()}


def _thing(names: Sequence[Name]) -> Thing:
    title = names[0]
    maker = folded(title.maker)
    called = {name.folded.removeprefix(maker): name for name in names}
    for word in MODEL.findall(title.name):
        whole = folded(word)
        parts = [part for part in map(folded, re.split("[-/.]", word)) if len(part) >= LEAST_BARE and part != whole]
        called |= {part: title._replace(folded=part) for part in (whole, *parts) if part not in called}
    numbers = {text.translate(LOOKALIKES): name._replace(folded=text) for text, name in called.items() if _is_number(text)}
    return Thing(title, frozenset(map(folded, title.maker.split())), tuple(numbers.items()))


def _looked_at(text: str, title_end: int) -> tuple[str, str]:
    """The words of an ad's title, and its stretches with digits: those of the whole ad where the title has none."""
    words = words_of(text[:title_end] + text[title_end:].partition("\n")[0])
    title = " ".join(word for word, start, *_ in words if word and start < title_end)
    return title or "-", _stretches(words, title_end) or _stretches(words_of(text), title_end)


def _stretches(words: Sequence[Word], title_end: int) -> str:
    """What stands close together, joined, with blanks between: only where digits are, and of the title only if it has such."""
    joined: list[str] = []
    run, numbered = "", False
    for word, start, _, joins in words:
        if joined and start >= title_end:
            break
        run += word
        numbered = numbered or not word.isalpha()
        if not joins:
            if numbered and not run.isdigit():
                joined.append(run)
            run, numbered = "", False
    return " ".join(joined)


def _matched(candidates: Sequence[tuple[Thing, float]], text: str, said: set[str], title_end: int) -> Matched:
    if not candidates:
        return Matched((), ())
    usable = {run: run[0].translate(LOOKALIKES) for run in numbered_runs(text) if _is_number(run[0])}
    makers = said & {word for thing, _ in candidates for word in thing.makers}
    likes = [
        _like(thing, usable, cover, title_end, other=bool(makers and not makers & thing.makers)) for thing, cover in candidates
    ]
    best = max(one.ratio for one in likes)
    clear = [one for one in likes if best and max(one.ratio, one.rival) >= best - LEAST_MARGIN]
    if len({one.name.id for one in clear}) == 1:
        return Matched(each_thing_once([_hit(one, one.ratio, title_end) for one in clear]), ())
    offered = sorted((one for one in likes if one.worth_asking), key=lambda one: (-one.worth, one.name.id))
    return Matched((), tuple(_hit(one, min(99.0, 100 * one.worth), title_end) for one in offered[:NEAR]))


def _like(thing: Thing, runs: Mapping[Stretch, str], cover: float, title_end: int, *, other: bool) -> Like:
    """What a thing and an ad make of each other; ``other`` where the ad names another maker."""
    pairs = []
    for number, name in thing.numbers:
        for text, ratio, run in process.extract(number, runs, scorer=fuzz.ratio, score_cutoff=LEAST_LIKE, limit=3):
            same = _same_numbers(run[0], name.folded)
            slip = not same and _is_slip(text, number)
            pairs.append(Pair(name, Span(run[1], run[2]), ratio, same, slip))
    best = max(pairs, key=lambda pair: (pair.worth, pair.ratio), default=None)
    agreed = 0.0 if other else max((pair.ratio for pair in pairs if pair.same_digits), default=0.0)
    worth = (cover + AGREES * (best.worth if best else 0.0)) * (OTHER_MAKER if other else 1.0)
    vetoed = pairs and not any(pair.same_digits for pair in pairs)
    asking = any(pair.slip for pair in pairs) or agreed >= LEAST_SCORE or (worth >= LEAST_COVER and not vetoed)
    shown = best if best and best.worth else None
    return Like(
        shown.name if shown else thing.title, shown.span if shown else Span(0, title_end), worth,
        agreed if agreed >= LEAST_SCORE else 0.0,
        max((pair.ratio for pair in pairs if pair.slip), default=0.0), asking,
    )  # fmt: skip


def _is_slip(text: str, number: str) -> bool:
    return len(number) >= LONG and OSA.distance(text, number, score_cutoff=1) <= 1


def _is_number(text: str) -> bool:
    """Whether it may be a model number: three signs or more with a digit, five where there are digits alone."""
    return LEAST_SIGNS <= len(text) <= MOST_SIGNS and not text.isalpha() and (len(text) >= LEAST_BARE or not text.isdigit())


def _hit(one: Like, score: float, title_end: int) -> Hit:
    return Hit(one.name, one.span, score, False, one.span.start < title_end)


def _same_numbers(run: str, choice: str) -> bool:
    """A model number that differs vetoes, whatever the letters say. Letters beside a digit may be digits read badly."""
    if run.translate(LOOKALIKES) == choice.translate(LOOKALIKES):
        return True
    if STRICT.findall(run) == STRICT.findall(choice):  # SD1100IS and SD1100: the I is none
        return True
    mine, its = DIGITS.findall(run), DIGITS.findall(choice)
    return [each.translate(LOOKALIKES) for each in mine] == [each.translate(LOOKALIKES) for each in its]
