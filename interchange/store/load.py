"""Filling the tables: files into rows, rows into tables, and then what only the whole catalog can tell."""

from __future__ import annotations

import csv
from collections import defaultdict
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import TYPE_CHECKING, NamedTuple

from interchange.catalog.check import SourceText, check_record, defined_twice, read_kinds, unknown_references
from interchange.catalog.decode import Reference
from interchange.catalog.figure import Where
from interchange.catalog.folders import text_in
from interchange.catalog.nodes import collector_paused
from interchange.catalog.rooms import parse_file, read_file
from interchange.errors import Problem
from interchange.store.library import Library
from interchange.store.queries import sql
from interchange.store.rows import TABLES, Row, Rows, name_rows, rows_of

if TYPE_CHECKING:
    import duckdb

    from interchange.catalog.model import Kind

DERIVED = ("reference", "name", "variant", "feature", "pattern", "hole", "fitted", "adapter")
OF_FILES = ("record", "known", "source", "problem")
OF_ALL = ""  # where the path stands for problems that only the whole catalog shows
LONGEST_LINE = 256 * 1024 * 1024  # bytes: a record as JSON is longer than its file, which is 64 MiB at most

Progress = Callable[[str, int, int], None]


class Source(NamedTuple):
    """One file as it was read: where it lies, what it is called, its folder's rank, its digest and its content."""

    path: str
    name: str
    rank: int
    digest: str
    content: bytes

    @property
    def text(self) -> str:
        """What it says. Raises InputError where that is not UTF-8."""
        return text_in(self.content, Path(self.path))


def holds_kinds(connection: duckdb.DuckDBPyConnection, sources: list[Source], removed: list[str]) -> bool:
    """Whether these files have kinds, or had some when they were read last: then every unit is to be read again."""
    if any("kinds" in source.text and "kinds" in parse_file(source.text, source.name)[0] for source in sources):
        return True
    paths = [*(source.path for source in sources), *removed]
    found = "SELECT count(*) FROM known WHERE room = 'kinds' AND path IN (SELECT unnest(?))"
    return connection.execute(found, [paths]).fetchall() != [(0,)]


def forget(connection: duckdb.DuckDBPyConnection, paths: list[str]) -> None:
    """Remove every row that came from these files."""
    for table in DERIVED:
        connection.execute(f"DELETE FROM {table} WHERE key IN (SELECT key FROM record WHERE path IN (SELECT unnest(?)))", [paths])
    for table in OF_FILES:
        connection.execute(f"DELETE FROM {table} WHERE path IN (SELECT unnest(?))", [paths])


def load(connection: duckdb.DuckDBPyConnection, sources: list[Source], aside: Path, progress: Progress | None) -> None:
    """Read files into the tables; what is handed over to the database lies in the folder aside meanwhile."""
    kinds: dict[str, Kind | None] = dict.fromkeys(_ids(connection, "kinds"))
    kinds |= Library(connection).kinds()
    kinds |= read_kinds(SourceText(source.name, source.text, source.rank) for source in sources)
    (key,) = connection.execute("SELECT coalesce(max(key), 0) FROM record").fetchall()[0]
    rows: Rows = defaultdict(list)
    with collector_paused():  # rows by the hundred thousand and no cycles among them: the collector would take a third
        for done, source in enumerate(sources):
            if progress:
                progress("reading the catalog", done, len(sources))
            key = _rows_of_file(source, kinds, key, rows)
        insert(connection, rows, aside)


def _ids(connection: duckdb.DuckDBPyConnection, room: str) -> list[str]:
    return [id_ for (id_,) in connection.execute("SELECT id FROM known WHERE room = ?", [room]).fetchall()]


def _rows_of_file(source: Source, kinds: dict[str, Kind | None], key: int, rows: Rows) -> int:
    """Add the rows of one file; the last key given out."""
    read = read_file(source.text, source.name, kinds)
    problems = list(read.problems)
    for one in read.records:
        key += 1
        problems += check_record(one)
        for table, more in rows_of(one, key, source.path, source.rank).items():
            rows[table] += more
    rows["source"].append((source.path, source.name, source.rank, source.digest))
    rows["known"] += name_rows(read.names, source.path, source.rank)
    rows["problem"] += [(source.path, *problem) for problem in problems]
    return key


def insert(connection: duckdb.DuckDBPyConnection, rows: dict[str, list[Row]], aside: Path) -> None:
    """Rows through CSV files, which DuckDB reads in bulk: row by row it takes a hundred times longer.

    None is written as nothing at all, and so is an empty text; a column that cannot be NULL takes it for the text. The rows are
    given up as they are written: what is still held when the collector comes back it would have to look through.
    """
    filled = defaultdict(list)
    columns = "SELECT table_name, column_name FROM duckdb_columns() WHERE NOT is_nullable AND data_type = 'VARCHAR'"
    for table, column in connection.execute(columns).fetchall():
        filled[table].append(column)
    for table in TABLES:
        if not rows.get(table):
            continue
        path = aside / f"{table}.csv"
        with path.open("w", encoding="utf-8", newline="") as file:
            csv.writer(file, lineterminator="\n").writerows(rows.pop(table))
        never_null = f", FORCE_NOT_NULL ({', '.join(filled[table])})" if filled[table] else ""
        quoted = str(path).replace("'", "''")
        connection.execute(
            f"COPY {table} FROM '{quoted}' (FORMAT csv, AUTO_DETECT false, HEADER false, DELIMITER ',',"
            f" QUOTE '\"', ESCAPE '\"', NULLSTR '', MAX_LINE_SIZE {LONGEST_LINE}{never_null})"
        )
        path.unlink()


def settle(connection: duckdb.DuckDBPyConnection, aside: Path) -> None:
    """Decide which record counts for each id, and find the names that no file defines, or two do."""
    connection.execute(sql("settle"))
    connection.execute("DELETE FROM problem WHERE path = ?", [OF_ALL])
    known: dict[str, set[str]] = defaultdict(set)
    for room, id_ in connection.execute(sql("known_names")).fetchall():
        known[room].add(id_)
    found = [*unknown_references(_dangling(connection), known), *_defined_twice(connection)]
    insert(connection, {"problem": [(OF_ALL, *problem) for problem in found]}, aside)


def _dangling(connection: duckdb.DuckDBPyConnection) -> Iterator[Reference]:
    for room, id_, place, *where in connection.execute(sql("dangling")).fetchall():
        yield Reference(room, id_, place, Where(*where))


def _defined_twice(connection: duckdb.DuckDBPyConnection) -> Iterator[Problem]:
    for room, id_, *places in connection.execute(sql("twice")).fetchall():
        yield defined_twice(room, id_, Where(*places[:3]), Where(*places[3:]))
