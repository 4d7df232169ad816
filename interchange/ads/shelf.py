"""The ads of a job in DuckDB, as read: only pastes whose content changed are split and read again.

The file is named after what it was made from, so that one that is there is right; it is made aside and renamed into place.
The pasted text stays where it was: delete the file and nothing is lost.
"""

from __future__ import annotations

import contextlib
import json
import os
from collections.abc import Callable, Iterator, Sequence
from pathlib import Path
from typing import TYPE_CHECKING, NamedTuple

from interchange.ads.fields import AdReading, AdWords
from interchange.ads.notes import Note
from interchange.ads.pasted import Ad, ads_in, again, day_of, read_paste
from interchange.ads.plain_reading import from_plain, to_plain
from interchange.ads.read import read_ad
from interchange.catalog.folders import shown_name
from interchange.catalog.words import Phrase
from interchange.errors import Problem
from interchange.store.cache import connect
from interchange.store.place import cache_folder
from interchange.store.stamp import code_stamp, digest

if TYPE_CHECKING:
    import duckdb

Progress = Callable[[str, int, int], None]
SQL = Path(__file__).parent / "sql"
Row = list[object]


class Words(NamedTuple):
    """The catalog's words for ads, and a digest that changes with any of them."""

    phrases: tuple[Phrase, ...]
    words: AdWords
    stamp: str


class ReadAd(NamedTuple):
    """An ad and what was read out of it."""

    ad: Ad
    reading: AdReading


def read_new(ads: Sequence[Ad], words: Words, progress: Progress | None = None) -> list[ReadAd]:
    """Read ads that are not kept."""
    found = []
    for done, ad in enumerate(ads):
        if progress:
            progress("reading ads", done, len(ads))
        found.append(ReadAd(ad, read_ad(ad.text, words.phrases, words.words)))
    return found


def shelved(paths: Sequence[Path], words: Words, progress: Progress | None = None) -> list[ReadAd]:
    """The ads of a job's files, in order, each once as it was pasted last; read again only where a file changed."""
    digests = {str(path): digest(path.read_bytes()) for path in paths}
    made_of = digest(json.dumps([code_stamp(), words.stamp, digests]).encode())
    key = digest("\n".join(sorted(str(path.resolve().parent) for path in paths)).encode())[:16]
    stem = f"ads-{key}-"
    file = cache_folder() / f"{stem}{made_of[:16]}.duckdb"
    if not file.exists():
        _make(file, stem, paths, digests, words, progress)
    connection = connect(file, read_only=True)
    try:
        rows = connection.execute("SELECT id, body, source, line, day, reading, notes FROM ad ORDER BY path, place").fetchall()
    finally:
        connection.close()
    latest: dict[str, ReadAd] = {}
    for id_, body, source, line, day, reading, notes in rows:
        ad = Ad(id_, body, source, line, day, (), *_notes(notes))
        ad = again(latest[id_].ad if id_ in latest else None, ad)
        latest[id_] = ReadAd(ad, from_plain(json.loads(reading)))
    return list(latest.values())


def _notes(plain: str) -> tuple[tuple[Note, ...], tuple[Problem, ...]]:
    notes, faults = json.loads(plain)
    return tuple(Note(*each) for each in notes), tuple(Problem(*each) for each in faults)


def _make(
    file: Path, stem: str, paths: Sequence[Path], digests: dict[str, str], words: Words, progress: Progress | None
) -> None:  # fmt: skip
    """Make the file aside: rows of unchanged pastes from the one before, where it was made by the same code and words."""
    file.parent.mkdir(parents=True, exist_ok=True)
    before = sorted(file.parent.glob(f"{stem}*.duckdb"))
    aside = file.with_name(f"{file.stem}-{os.getpid()}.building")
    made_by = digest(json.dumps([code_stamp(), words.stamp]).encode())
    try:
        connection = connect(aside, read_only=False)
        try:
            connection.execute((SQL / "shelf.sql").read_text(encoding="utf-8"))
            connection.execute("CREATE TABLE made (by_ TEXT)")
            connection.execute("INSERT INTO made VALUES (?)", [made_by])
            kept = _take_over(connection, before, digests, made_by)
            fresh = [path for path in paths if str(path) not in kept]
            for done, path in enumerate(fresh):
                if progress:
                    progress("reading ads", done, len(fresh))
                _put(connection, path, digests[str(path)], words)
            connection.execute("CHECKPOINT")
        finally:
            connection.close()
        aside.replace(file)
        for old in before:
            with contextlib.suppress(OSError):
                old.unlink()
    finally:
        for left in (aside, aside.with_name(aside.name + ".wal")):
            with contextlib.suppress(OSError):
                left.unlink(missing_ok=True)


def _take_over(connection: duckdb.DuckDBPyConnection, before: Sequence[Path], digests: dict[str, str], made_by: str) -> set[str]:
    """Copy what is unchanged out of an earlier file; the paths that need no reading."""
    import duckdb

    for old in before:
        quoted = str(old).replace("'", "''")
        try:
            connection.execute(f"ATTACH '{quoted}' AS old (READ_ONLY)")
        except duckdb.Error:
            continue
        try:
            if connection.execute("SELECT by_ FROM old.made").fetchall() != [(made_by,)]:
                continue
            pairs = connection.execute("SELECT path, digest FROM old.paste").fetchall()
            same = [path for path, known in pairs if digests.get(path) == known]
            for table in ("paste", "ad", "field"):
                connection.execute(f"INSERT INTO {table} SELECT * FROM old.{table} WHERE path IN (SELECT unnest(?))", [same])
            return set(same)
        except duckdb.Error:
            continue
        finally:
            connection.execute("DETACH old")
    return set()


def _put(connection: duckdb.DuckDBPyConnection, path: Path, known: str, words: Words) -> None:
    """Split and read one paste into rows."""
    ads = ads_in(read_paste(path), shown_name(path), day_of(path))
    readings = [read_ad(ad.text, words.phrases, words.words) for ad in ads]
    connection.execute("INSERT INTO paste VALUES (?, ?)", [str(path), known])
    if not ads:
        return
    rows = [_ad_row(str(path), place, ad, reading) for place, (ad, reading) in enumerate(zip(ads, readings, strict=True))]
    _insert(connection, "ad", rows)
    fields = [row for place, reading in enumerate(readings) for row in _field_rows(str(path), place, reading)]
    if fields:
        _insert(connection, "field", fields)


def _insert(connection: duckdb.DuckDBPyConnection, table: str, rows: list[Row]) -> None:
    """Rows in one statement, column by column: row by row takes many times longer."""
    columns = [list(column) for column in zip(*rows, strict=True)]
    names = [row[0] for row in connection.execute("SELECT column_name FROM (DESCRIBE " + table + ")").fetchall()]
    marks = ", ".join(f"unnest(?) AS {name}" for name in names)
    connection.execute(f"INSERT INTO {table} SELECT {marks}", columns)


def _ad_row(path: str, place: int, ad: Ad, reading: AdReading) -> Row:
    price, where = reading.price, reading.place
    return [
        path, place, ad.id, ad.source, ad.line, ad.on, ad.text, reading.title.text if reading.title else None,
        price.kind, price.cents, price.currency, price.terms,
        where.town if where else None, where.state if where else None, where.zip if where else None,
        str(reading.offer.value) if reading.offer else None, str(reading.subject.value) if reading.subject else None,
        float(reading.hours.value) if reading.hours else None, float(reading.weight_lb.value) if reading.weight_lb else None,
        json.dumps(to_plain(reading), ensure_ascii=False), json.dumps([ad.notes, ad.faults]),
    ]  # fmt: skip


def _field_rows(path: str, place: int, reading: AdReading) -> Iterator[Row]:
    for name, held in to_plain(reading).items():
        for one in held if type(held) is tuple else (held,):
            if not hasattr(one, "span"):
                continue
            value = getattr(one, "value", None)
            yield [path, place, name, one.text if value is None else str(value), one.span.start, one.span.end, one.certainty]
