"""Searching the catalog by name."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from interchange.store.cache import sql
from interchange.store.rows import folded

if TYPE_CHECKING:
    import duckdb

LEAST_WORD = 2


class Found(NamedTuple):
    """One record found: by which of its names, and how like the words it is (0-100)."""

    room: str
    id: str
    title: str
    maker: str
    name: str
    score: float


def find(connection: duckdb.DuckDBPyConnection, words: str, most: int = 20) -> list[Found]:
    """Records whose names are like the words, best first. Candidates come from SQL, likeness from rapidfuzz."""
    from rapidfuzz import fuzz

    whole = folded(words)
    if not whole:
        return []
    parts = [part for part in (folded(word) for word in words.split()) if len(part) >= LEAST_WORD]
    rows = connection.execute(sql("find"), {"whole": whole, "words": parts or [whole]}).fetchall()
    best: dict[tuple[str, str], Found] = {}
    for room, id_, variant, name, name_folded, title, maker in rows:
        score = max(fuzz.ratio(whole, name_folded), 0.9 * fuzz.partial_ratio(whole, name_folded))
        named = f"{id_}.{variant}" if variant else id_
        held = best.get((room, named))
        if held is None or score > held.score:
            best[room, named] = Found(room, named, title or name, maker, name, round(score, 1))
    return sorted(best.values(), key=lambda found: (-found.score, found.room, found.id))[:most]
