"""The queries on ads, each in a file of its own."""

from __future__ import annotations

import functools
from pathlib import Path


@functools.cache
def sql(name: str) -> str:
    """The text of one query."""
    return (Path(__file__).parent / "sql" / f"{name}.sql").read_text(encoding="utf-8")
