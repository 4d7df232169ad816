"""The file of US places: filled once from the package that carries them, then only read."""

from __future__ import annotations

import contextlib
import os
from importlib import metadata
from typing import TYPE_CHECKING

from interchange.haul.places import load_places
from interchange.store.cache import connect
from interchange.store.place import cache_folder

if TYPE_CHECKING:
    import duckdb

LAYOUT = 2  # of the tables in places.sql


def atlas() -> duckdb.DuckDBPyConnection:
    """A read-only connection to the places. The first call takes about a second; the file is made aside and renamed."""
    path = cache_folder() / f"places-{metadata.version('zipcodes')}-{LAYOUT}.duckdb"
    if not path.exists():
        path.parent.mkdir(parents=True, exist_ok=True)
        aside = path.with_name(f"{path.stem}-{os.getpid()}.building")
        try:
            connection = connect(aside, read_only=False)
            try:
                load_places(connection)
                connection.execute("CHECKPOINT")
            finally:
                connection.close()
            aside.replace(path)
        finally:
            with contextlib.suppress(OSError):
                aside.unlink(missing_ok=True)
    return connect(path, read_only=True)
