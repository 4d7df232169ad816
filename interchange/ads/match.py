"""From an ad's words to the machines and units of the catalog.

Names are compared with everything but letters and digits folded away. A name that stands in the ad word for word is taken; the
longest wins where names lie inside one another (T412T over T412), and where several things share the name, the one that has
a name with most of the ad's title comes first. A name without its last letters ("H52" beside its maker) leaves open which of its
family it is. Where none stands there, `alike` looks for names that are like something in the ad.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping, Sequence
from typing import TYPE_CHECKING

from interchange.ads.fields import Span
from interchange.ads.named import LOOKALIKES, MACHINES, UNITS, Hit, Matched, Name, each_thing_once
from interchange.ads.queries import sql
from interchange.ads.runs import (
    DIGIT,
    LEAST_LETTERS,
    Stretch,
    beginnings_of,
    has_model,
    lettered_runs,
    numbered_runs,
    standing_runs,
    turned_runs,
    words_of,
)
from interchange.store.rows import folded

if TYPE_CHECKING:
    import duckdb

    from interchange.ads.alike import Thing

__all__ = ["MACHINES", "UNITS", "Hit", "Known", "Matched", "Name", "match"]

BESIDE = 24  # signs between a number and its maker
SHEET = 200  # signs back to its maker where it is labelled as a model
_FAMILY = re.compile(r"([a-z]{0,40}[0-9]{2,4})[a-z]{1,2}\Z")  # H52D and H52G
FAMILY = 90.0  # how far a name agrees whose last letters are left off
_MODEL_LABEL = re.compile(r"\b(?:model|mod|type|typ|modell|modelo|mdl)\b[ \t.:;=|,-]{0,6}\Z", re.IGNORECASE)
LIKELY = 50.0  # of a name like one in the title, to doubt what the body names
MISREAD = LOOKALIKES | str.maketrans("OIL", "011")
MOST_SENT = 20_000  # with more runs than this it takes longer to send them than to fetch every name


class Known:
    """The catalog's names as they are looked up, kept from one call to the next where there are many ads."""

    def __init__(self, connection: duckdb.DuckDBPyConnection, texts: Iterable[str] | None = None) -> None:
        """Every name, or only those that may stand in some texts: for a few ads that is quicker."""
        bound: dict[str, object] = {"grams": None, "misread": None, "letters": None}
        if texts is not None:
            kept = list(texts)
            grams = {run for text in kept for run, _, _ in (*numbered_runs(text), *turned_runs(text))}
            letters = " ".join("".join([word[0] for word in words_of(text)]) for text in kept)
            if len(grams) <= MOST_SENT:
                misread = {run.translate(LOOKALIKES) for run in grams}
                bound = {"grams": list(grams), "misread": list(misread), "letters": letters}
        self.names: dict[str, list[Name]] = {}
        self.misread: dict[str, list[Name]] = {}
        for row in connection.execute(sql("exact"), bound).fetchall():
            self.names.setdefault(row[0], []).append(Name(*row))
        for name, each in self.names.items():
            if not name.isalpha() and len(name) > 2:  # noqa: PLR2004 - two signs misread may be anything
                self.misread.setdefault(name.translate(LOOKALIKES), []).extend(each)
        self.starts = beginnings_of(self.names)
        self.misread_starts = beginnings_of(self.misread)
        self.families: dict[str, list[Name]] = {}
        for name, each in self.names.items():
            family = _FAMILY.match(name)
            if family and family[1] not in self.names:
                self.families.setdefault(family[1], []).extend(one for one in each if not one.variant)
        self.family_starts = beginnings_of(self.families)
        self.lettered = {name for name in self.names if name.isalpha()}
        self.beginnings = {name[:size] for name in self.lettered for size in range(1, 4)}
        self.things: dict[int, Thing] = {}


def match(
    connection: duckdb.DuckDBPyConnection, texts: Mapping[str, tuple[str, int]], known: Known | None = None
) -> dict[str, Matched]:
    """What each ad names. ``texts`` maps an ad's id to its text (made clean) and where its title ends.

    ``known`` is the catalog's names where they are kept from call to call.
    """
    if known is None:
        known = Known(connection, [text for text, _ in texts.values()])
    found: dict[str, Matched] = {}
    unsettled: dict[str, tuple[str, int]] = {}
    for id_, (text, title_end) in texts.items():
        hits = _standing(known, text, title_end)
        if not any(hit.in_title for hit in hits) and (not hits or has_model(text[:title_end])):
            hits += _misread(known, text[:title_end] if hits else text, title_end)
            if not any(hit.in_title for hit in hits):
                hits += _family(known, text[:title_end] if hits else text, title_end)
            if not any(hit.in_title for hit in hits):  # what is named further down may be named in passing
                unsettled[id_] = text[:title_end] if hits else text, title_end
        found[id_] = Matched(each_thing_once(_outermost(hits)) if len(hits) > 1 else tuple(hits), ())
    _settle_ties(connection, found, texts)
    if unsettled:
        from interchange.ads.alike import alike

        for id_, like in alike(connection, unsettled, known.things).items():
            found[id_] = _with_title(like, found[id_])
    return found


def _with_title(title: Matched, body: Matched) -> Matched:
    """What the title may name before what the body does.

    A slip in the title leaves both open, unless the body names what it may be.
    """
    if not body.hits:
        return title
    if title.hits:
        return Matched(each_thing_once((*title.hits, *body.hits)), ())
    near = tuple(hit for hit in title.near if hit.score >= LIKELY)
    if not near or {hit.name.id for hit in near} & {hit.name.id for hit in body.hits}:
        return body
    return Matched((), (*near, *body.hits))


def _standing(known: Known, text: str, title_end: int) -> list[Hit]:
    """The names that stand there word for word."""
    names = known.names
    here = standing_runs(text, names, known.starts)
    here += [run for run in turned_runs(text) if run[0] in names]
    if known.lettered:
        here += [run for run in lettered_runs(words_of(text), known.beginnings) if run[0] in known.lettered]
    return _hits(here, names, text, title_end)


def _misread(known: Known, text: str, title_end: int) -> list[Hit]:
    """The one thing whose name stands there with letters for the digits they look like, or the other way about."""
    here = standing_runs(text.translate(MISREAD), known.misread, known.misread_starts)
    read = [run for run in here if _letters_and_digits(text[run[1] : run[2]])]
    hits = _hits(read, known.misread, text, title_end, exact=False)
    return hits if len({hit.name.id for hit in hits}) == 1 else []


def _family(known: Known, text: str, title_end: int) -> list[Hit]:
    """Those of a family whose name stands there without its last letters, where their maker's name is said too."""
    runs = [run for run in standing_runs(text, known.families, known.family_starts) if not run[0].isdigit()]
    said = {word for word, *_ in words_of(text)} if runs else set()
    return [
        Hit(name, Span(start, end), FAMILY, False, start < title_end)
        for run, start, end in runs
        for name in known.families[run]
        if folded(name.maker.partition(" ")[0]) in said or run.startswith(folded(name.maker) or " ")
    ]


def _letters_and_digits(run: str) -> bool:
    return DIGIT.search(run) is not None and not folded(run).isdigit()


def _hits(
    runs: Iterable[Stretch], named: Mapping[str, Sequence[Name]], text: str, title_end: int, *, exact: bool = True
) -> list[Hit]:
    return [
        Hit(name, Span(start, end), 100.0, exact, start < title_end)
        for run, start, end in runs
        for name in named[run]
        if _telling(name, run, start, end, text)
    ]


def _telling(name: Name, run: str, start: int, end: int, text: str) -> bool:
    """Whether a run is enough to name this: a bare number wants its maker beside it; a maker alone names nothing."""
    if run.isdigit():
        return _maker_beside(name.maker, start, end, text)
    return not run.isalpha() or run != folded(name.maker)


def _maker_beside(maker: str, start: int, end: int, text: str) -> bool:
    """Whether the maker stands near a number on its line with no other number between; a sum of money names nothing."""
    before = text[max(0, start - BESIDE) : start].rpartition("\n")[2]
    after = text[end : end + BESIDE].partition("\n")[0]
    if before.rstrip().endswith(("$", "€", "£")):
        return False
    labelled = _MODEL_LABEL.search(before) is not None  # "Make: Pellworth", and on a line further down "Model: 540"
    near = (
        [folded(text[max(0, start - SHEET) : start])]
        if labelled
        else [folded(part) for part in (re.split("[0-9]", before)[-1], re.split("[0-9]", after)[0])]
    )
    wanted = [folded(word) for word in maker.split() if len(word) >= LEAST_LETTERS] or [folded(maker)]
    return any(word in part for word in wanted if word for part in near)


def _outermost(hits: list[Hit]) -> list[Hit]:
    """Hits that do not lie inside a longer one."""
    spans = {hit.span for hit in hits}
    if len(spans) == 1:
        return hits

    def inside(span: Span) -> bool:
        return any(other != span and other.start <= span.start and span.end <= other.end for other in spans)

    return [hit for hit in hits if not inside(hit.span)]


def _settle_ties(connection: duckdb.DuckDBPyConnection, found: dict[str, Matched], texts: Mapping[str, tuple[str, int]]) -> None:
    """Of several things called by the words an ad begins with, put those first one of whose names has most of the ad's title."""
    tied = {id_: [hit for hit in one.hits if hit.span == one.hits[0].span] for id_, one in found.items() if len(one.hits) > 1}
    tied = {id_: hits for id_, hits in tied.items() if len({hit.name.id for hit in hits}) > 1}
    if not tied:
        return
    from rapidfuzz import utils

    ids = sorted({hit.name.id for hits in tied.values() for hit in hits})
    called: dict[tuple[str, str], list[str]] = {}
    for room, id_, name in connection.execute(sql("called"), {"ids": ids}).fetchall():
        called.setdefault((room, id_), []).append(name)
    for id_, hits in tied.items():
        title = texts[id_][0][: texts[id_][1]]

        said = set(utils.default_process(title).split())

        def apart(hit: Hit, said: set[str] = said) -> int:
            """Less where more words of one of its names stand in the title; else they stay as they are."""
            names = called[hit.name.room, hit.name.id]
            return -max(len(said.intersection(utils.default_process(name).split())) for name in names)

        ordered = sorted(hits, key=apart)
        found[id_] = Matched((*ordered, *(hit for hit in found[id_].hits if hit not in hits)), ())
