"""The file of US places: filled once from the package that carries them, then only read."""

from __future__ import annotations

from importlib import metadata
from typing import TYPE_CHECKING

from interchange.haul.places import load_places
from interchange.store.cache import made_once
from interchange.store.place import cache_folder

if TYPE_CHECKING:
    import duckdb

LAYOUT = 2  # of the tables in places.sql


def atlas() -> duckdb.DuckDBPyConnection:
    """A read-only connection to the places. The first call takes about a second; the file is made aside and renamed."""
    path = cache_folder() / f"places-{metadata.version('zipcodes')}-{LAYOUT}.duckdb"
    return made_once(path, load_places)
