"""The cache file: where it lies, and how it is brought up to date without disturbing a reader.

It is built aside and renamed into place, and opened read-only, so two commands at once neither corrupt nor block, and a kill
at any moment leaves the truth (the YAML files) intact and the cache rebuildable. Only files whose content changed are read again.
"""

from __future__ import annotations

import contextlib
import csv
import functools
import hashlib
import os
import shutil
import tempfile
from collections import defaultdict
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import TYPE_CHECKING, NamedTuple

from interchange.catalog.check import SourceText, check_record, defined_twice, unknown_references
from interchange.catalog.check import read_kinds as kinds_in
from interchange.catalog.decode import Reference
from interchange.catalog.figure import Where
from interchange.catalog.folders import PACKAGE, SourceFile, read_text, source_files
from interchange.catalog.rooms import read_file
from interchange.errors import InputError, Problem
from interchange.store.place import cache_folder
from interchange.store.rows import TABLES, Rows, rows_of

if TYPE_CHECKING:
    import duckdb

SQL = Path(__file__).parent / "sql"
NULL = "\\N"
DERIVED = ("reference", "name", "variant", "feature", "pattern", "hole", "fitted", "adapter", "dimension", "pair")

Progress = Callable[[str, int, int], None]


class Read(NamedTuple):
    """What bringing the cache up to date took."""

    read: int
    """Files read again."""
    removed: int
    """Files that are gone."""
    unchanged: int


@functools.cache
def sql(name: str) -> str:
    """The text of a query that lies in a .sql file of the store."""
    return (SQL / f"{name}.sql").read_text(encoding="utf-8")


def code_stamp() -> str:
    """What the rows depend on besides the files: the code that reads them. Another program version makes another cache."""
    parts = []
    for folder in (PACKAGE / "catalog", PACKAGE / "store", SQL):
        for path in sorted(folder.glob("*.*")):
            stat = path.stat()
            parts.append(f"{path.name}:{stat.st_size}:{stat.st_mtime_ns}")
    quantity = (PACKAGE / "quantity.py").stat()
    parts.append(f"quantity:{quantity.st_size}:{quantity.st_mtime_ns}")
    return _digest("\n".join(parts).encode())


def _digest(content: bytes) -> str:
    return hashlib.blake2b(content, digest_size=16).hexdigest()


def cache_path(folders: tuple[Path, ...]) -> Path:
    """The cache file of one search path."""
    key = _digest("\n".join(str(folder.resolve()) for folder in folders).encode())[:16]
    return cache_folder() / f"catalog-{key}.duckdb"


def connect(path: Path, *, read_only: bool) -> duckdb.DuckDBPyConnection:
    """A connection to a cache file. Raises InputError where it cannot be opened."""
    import duckdb

    try:
        return duckdb.connect(str(path), read_only=read_only, config={"threads": 2} if read_only else {})
    except duckdb.Error as error:
        raise InputError(f"cannot open the cache {path}: {error}", "delete it; it is rebuilt") from error


def up_to_date(folders: tuple[Path, ...], progress: Progress | None = None) -> tuple[duckdb.DuckDBPyConnection, Read]:
    """A read-only connection to the cache of a search path, with changed files read again first."""
    files = source_files(folders)
    digests = {str(file.path): _digest(file.path.read_bytes()) for file in files}
    path = cache_path(folders)
    stamp = code_stamp()
    known = _known_digests(path, stamp)
    connection = None
    if known is not None:
        connection, have = known
        changed = [file for file in files if have.get(str(file.path)) != (digests[str(file.path)], file.rank)]
        removed = [name for name in have if name not in digests]
        if not changed and not removed:
            return connection, Read(0, 0, len(files))
        connection.close()
    else:
        changed, removed = files, []
    _rebuild(path, stamp, files, digests, changed, removed, fresh=known is None, progress=progress)
    return connect(path, read_only=True), Read(len(changed), len(removed), len(files) - len(changed))


def _known_digests(path: Path, stamp: str) -> tuple[duckdb.DuckDBPyConnection, dict[str, tuple[str, int]]] | None:
    """An open cache and what it was made from; None where there is none, or it was made by other code."""
    if not path.exists():
        return None
    import duckdb

    try:
        connection = connect(path, read_only=True)
    except InputError:
        return None  # damaged: built anew
    try:
        if connection.execute("SELECT code FROM stamp").fetchall() != [(stamp,)]:
            connection.close()
            return None
        rows = connection.execute("SELECT path, digest, rank FROM source").fetchall()
    except duckdb.Error:
        connection.close()
        return None
    return connection, {row[0]: (row[1], row[2]) for row in rows}


def _rebuild(
    path: Path, stamp: str, files: list[SourceFile], digests: dict[str, str], changed: list[SourceFile], removed: list[str],
    *, fresh: bool, progress: Progress | None,
) -> None:  # fmt: skip
    """Make the new cache aside, from the old one where it serves, and rename it into place."""
    path.parent.mkdir(parents=True, exist_ok=True)
    aside = path.with_name(f"{path.stem}-{os.getpid()}.building")
    try:
        if not fresh:
            shutil.copyfile(path, aside)
        connection = connect(aside, read_only=False)
        try:
            if fresh:
                connection.execute(sql("schema"))
                connection.execute("INSERT INTO stamp VALUES (?)", [stamp])
            texts = {str(file.path): read_text(file.path) for file in changed}
            if not fresh and any("kinds:" in text for text in texts.values()):
                changed = files  # units are read by their kinds: all of them again
                texts = {str(file.path): read_text(file.path) for file in changed}
            _forget(connection, [str(file.path) for file in changed] + removed)
            _read(connection, changed, texts, digests, progress)
            _settle(connection)
            connection.execute("CHECKPOINT")
        finally:
            connection.close()
        aside.replace(path)
    finally:
        for left in (aside, aside.with_name(aside.name + ".wal")):
            with contextlib.suppress(OSError):
                left.unlink(missing_ok=True)


def _forget(connection: duckdb.DuckDBPyConnection, paths: list[str]) -> None:
    """Remove every row that came from these files."""
    for table in DERIVED:
        connection.execute(f"DELETE FROM {table} WHERE key IN (SELECT key FROM record WHERE path IN (SELECT unnest(?)))", [paths])
    for table in ("record", "source", "problem"):
        connection.execute(f"DELETE FROM {table} WHERE path IN (SELECT unnest(?))", [paths])


def _read(
    connection: duckdb.DuckDBPyConnection, files: list[SourceFile], texts: dict[str, str], digests: dict[str, str],
    progress: Progress | None,
) -> None:  # fmt: skip
    """Read files into rows, and rows into tables."""
    from interchange.store.library import Library

    sources = [SourceText(file.name, texts[str(file.path)], file.rank) for file in files]
    kinds = Library(connection).kinds() | kinds_in(sources)
    (first,) = connection.execute("SELECT coalesce(max(key), 0) FROM record").fetchone() or (0,)
    rows: Rows = defaultdict(list)
    key = int(first)
    for done, (file, source) in enumerate(zip(files, sources, strict=True)):
        if progress:
            progress("reading the catalog", done, len(files))
        path = str(file.path)
        read = read_file(source.text, source.name, kinds)
        problems = list(read.problems)
        for one in read.records:
            key += 1
            problems += check_record(one)
            for table, more in rows_of(one, key, path, file.rank).items():
                rows[table] += more
        rows["source"].append((path, file.name, file.rank, digests[path]))
        rows["problem"] += [(path, *problem) for problem in problems]
    _insert(connection, rows)


def _insert(connection: duckdb.DuckDBPyConnection, rows: Rows) -> None:
    """Rows through CSV files, which DuckDB reads in bulk: row by row it takes a hundred times longer."""
    with tempfile.TemporaryDirectory() as folder:
        for table in TABLES:
            if not rows.get(table):
                continue
            path = Path(folder) / f"{table}.csv"
            with path.open("w", encoding="utf-8", newline="") as file:
                csv.writer(file, lineterminator="\n").writerows(
                    [[NULL if cell is None else cell for cell in row] for row in rows[table]]
                )
            connection.execute(
                f"COPY {table} FROM '{path}' (FORMAT csv, HEADER false, DELIMITER ',', QUOTE '\"', ESCAPE '\"', NULLSTR '{NULL}')"
            )


def _settle(connection: duckdb.DuckDBPyConnection) -> None:
    """Decide which record counts for each id, and find the names that no file defines."""
    connection.execute(sql("settle"))
    connection.execute("DELETE FROM problem WHERE slug IN ('unknown-name', 'defined-twice') AND path = ''")
    known: dict[str, set[str]] = defaultdict(set)
    for room, id_ in connection.execute(sql("known_names")).fetchall():
        known[room].add(id_)
    found = [
        *unknown_references(_references(connection), known),
        *(
            defined_twice(room, id_, Where(*rest[:3]), Where(*rest[3:]))
            for room, id_, *rest in connection.execute(sql("twice")).fetchall()
        ),
    ]
    if found:
        connection.executemany("INSERT INTO problem VALUES ('', ?, ?, ?, ?, ?, ?)", [list(problem) for problem in found])


def _references(connection: duckdb.DuckDBPyConnection) -> Iterator[Reference]:
    for room, id_, place, *where in connection.execute(sql("dangling")).fetchall():
        yield Reference(room, id_, place, Where(*where))


def problems_of(connection: duckdb.DuckDBPyConnection) -> list[Problem]:
    """Every problem found in the catalog, sorted."""
    rows = connection.execute("SELECT file, line, col, slug, text, hint FROM problem").fetchall()
    return sorted(Problem(*row) for row in rows)
