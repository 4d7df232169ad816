"""The store's queries, which lie in .sql files beside this."""

from __future__ import annotations

import functools
from pathlib import Path

SQL = Path(__file__).parent / "sql"


@functools.cache
def sql(name: str) -> str:
    """The text of a query."""
    return (SQL / f"{name}.sql").read_text(encoding="utf-8")
