"""The cache file: where it lies, and how it is brought up to date without disturbing a reader.

It is built aside and renamed into place, and opened read-only, so two commands at once neither corrupt nor block, and a kill
at any moment leaves the truth (the YAML files) intact and the cache rebuildable. Only files whose content changed are read again.
"""

from __future__ import annotations

import contextlib
import os
import shutil
import tempfile
import time
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import TYPE_CHECKING, NamedTuple

from interchange.catalog.folders import SourceFile, read_content, shown_name, source_files
from interchange.errors import InputError, Problem
from interchange.store.load import Progress, Source, forget, holds_kinds, load, settle
from interchange.store.place import cache_folder
from interchange.store.queries import sql
from interchange.store.stamp import code_stamp, digest

if TYPE_CHECKING:
    import duckdb

CATALOG, SUFFIX = "catalog-", ".duckdb"
BUILDING = "building-"
LEFT_BEHIND_S = 3600.0  # what a killed command was building; one at work is done in a hundredth of that


class Read(NamedTuple):
    """What bringing the cache up to date took."""

    read: int
    """Files read again."""
    removed: int
    """Files that are gone."""
    unchanged: int


def cache_path(folders: tuple[Path, ...], sources: list[Source]) -> Path:
    """The cache file of a search path with this content, read by this code: where it exists, it holds.

    Content and code are in the name, because DuckDB shares an open database among all who name its path: a changed cache under
    the same path would not be seen by a process that has the old one open.
    """
    path_key = digest("\n".join(str(folder.resolve()) for folder in folders).encode())[:16]
    parts = [code_stamp(), *(f"{source.path}:{source.rank}:{source.digest}" for source in sources)]
    return cache_folder() / f"{CATALOG}{path_key}-{digest(chr(10).join(parts).encode())}{SUFFIX}"


def connect(path: Path, *, read_only: bool) -> duckdb.DuckDBPyConnection:
    """A connection to a cache file. Raises InputError where it cannot be opened."""
    import duckdb

    try:
        return duckdb.connect(str(path), read_only=read_only, config={"threads": 2} if read_only else {})
    except duckdb.Error as error:
        raise InputError(f"cannot open the cache {path}: {error}", "delete it; it is rebuilt") from error


def made_once(path: Path, fill: Callable[[duckdb.DuckDBPyConnection], object]) -> duckdb.DuckDBPyConnection:
    """A read-only connection to a file that is filled on the first call, aside, and renamed into place."""
    if not path.exists():
        path.parent.mkdir(parents=True, exist_ok=True)
        aside = path.with_name(f"{path.stem}-{os.getpid()}.building")
        try:
            connection = connect(aside, read_only=False)
            try:
                fill(connection)
                connection.execute("CHECKPOINT")
            finally:
                connection.close()
            aside.replace(path)
        finally:
            with contextlib.suppress(OSError):
                aside.unlink(missing_ok=True)
    return connect(path, read_only=True)


def up_to_date(folders: tuple[Path, ...], progress: Progress | None = None) -> tuple[duckdb.DuckDBPyConnection, Read]:
    """A read-only connection to the cache of a search path, with changed files read again first.

    Raises InputError for a folder or file that cannot be read, and where no cache can be written.
    """
    sources = [_source(file) for file in source_files(folders)]
    path = cache_path(folders, sources)
    connection = _open(path)
    if connection is not None:
        return connection, Read(0, 0, len(sources))
    earlier = _earlier(path)
    with _aside(path) as aside:
        read = _build(aside / path.name, sources, progress, earlier[:1])
        (aside / path.name).replace(path)
    connection = connect(path, read_only=True)
    for left in earlier:
        with contextlib.suppress(OSError):  # one that another command has open stays, where the system will have it so
            left.unlink()
    return connection, read


def _source(file: SourceFile) -> Source:
    """A file as it is now. It is known in the cache by where it lies, from whatever folder the program is run."""
    content = read_content(file.path)
    return Source(str(file.path.resolve()), file.name, file.rank, digest(content), content)


def _open(path: Path, *, read_only: bool = True) -> duckdb.DuckDBPyConnection | None:
    """An open cache; None where there is none, and where it is damaged."""
    if not path.exists():
        return None
    import duckdb

    try:
        connection = connect(path, read_only=read_only)
    except InputError:
        return None
    with contextlib.suppress(duckdb.Error):
        if connection.execute("SELECT code FROM stamp").fetchall():
            return connection
    connection.close()
    return None


def _earlier(path: Path) -> list[Path]:
    """Caches of the same search path with other content, the newest first."""
    key, _, _ = path.stem.rpartition("-")
    with contextlib.suppress(OSError):  # another command may just be removing one
        others = [(other.stat().st_mtime, other) for other in path.parent.glob(f"{key}-*{SUFFIX}") if other != path]
        return [other for _, other in sorted(others, reverse=True)]
    return []


@contextlib.contextmanager
def _aside(path: Path) -> Iterator[Path]:
    """A folder beside the cache to build in, gone afterwards; what killed commands left behind goes too."""
    try:
        path.parent.mkdir(parents=True, exist_ok=True)
        aside = Path(tempfile.mkdtemp(prefix=BUILDING, dir=path.parent))
    except OSError as error:
        hint = "set INTERCHANGE_CACHE to a folder that can be written"
        raise InputError(f"cannot write the cache in {path.parent}: {error.strerror}", hint) from error
    try:
        yield aside
    finally:
        shutil.rmtree(aside, ignore_errors=True)
        for left in path.parent.glob(f"{BUILDING}*"):
            with contextlib.suppress(OSError):
                if time.time() - left.stat().st_mtime > LEFT_BEHIND_S:
                    shutil.rmtree(left, ignore_errors=True)


def _build(new: Path, sources: list[Source], progress: Progress | None, earlier: list[Path]) -> Read:
    """Make a cache: from an earlier one where there is one that serves, else from nothing."""
    import duckdb

    connection = None
    for old in earlier:
        with contextlib.suppress(OSError):
            shutil.copyfile(old, new)
            connection = _of_this_code(new)
    if connection is None:
        new.unlink(missing_ok=True)
        connection, earlier = _empty(new), []
    try:
        return _fill(connection, sources, new.parent, progress)
    except duckdb.Error:
        if not earlier:
            raise
    finally:
        connection.close()
    return _build(new, sources, progress, [])  # a part of the earlier one was damaged


def _of_this_code(path: Path) -> duckdb.DuckDBPyConnection | None:
    """A copy of an earlier cache, open for writing; None where it is damaged, or was made by other code."""
    connection = _open(path, read_only=False)
    if connection is None or connection.execute("SELECT code FROM stamp").fetchall() == [(code_stamp(),)]:
        return connection
    connection.close()
    return None


def _empty(path: Path) -> duckdb.DuckDBPyConnection:
    connection = connect(path, read_only=False)
    connection.execute(sql("schema"))
    connection.execute("INSERT INTO stamp VALUES (?)", [code_stamp()])
    return connection


def _fill(connection: duckdb.DuckDBPyConnection, sources: list[Source], aside: Path, progress: Progress | None) -> Read:
    """Read what differs from what the cache was made from."""
    rows = connection.execute("SELECT path, digest, rank FROM source").fetchall()
    have = {path: (content, rank) for path, content, rank in rows}
    changed = [source for source in sources if have.get(source.path) != (source.digest, source.rank)]
    removed = sorted(have.keys() - {source.path for source in sources})
    if holds_kinds(connection, changed, removed):
        changed = sources
    forget(connection, [*(source.path for source in changed), *removed])
    load(connection, changed, aside, progress)
    settle(connection, aside)
    connection.execute("CHECKPOINT")
    return Read(len(changed), len(removed), len(sources) - len(changed))


def problems_of(connection: duckdb.DuckDBPyConnection) -> list[Problem]:
    """Every problem found in the catalog, sorted, with files named as seen from the working folder."""
    names = {name: shown_name(Path(path)) for path, name in connection.execute("SELECT path, name FROM source").fetchall()}
    rows = connection.execute("SELECT file, line, col, slug, text, hint FROM problem").fetchall()
    return sorted(_as_seen(Problem(*row), names) for row in rows)


def _as_seen(problem: Problem, names: dict[str, str]) -> Problem:
    hint = problem.hint
    if problem.slug == "defined-twice":
        hint = next((hint.replace(f" {old}:", f" {new}:") for old, new in names.items() if f" {old}:" in hint), hint)
    return problem._replace(file=names.get(problem.file, problem.file), hint=hint)


__all__ = [
    "Progress", "Read", "cache_folder", "cache_path", "code_stamp", "connect", "problems_of", "sql", "up_to_date",
]  # fmt: skip
