"""What a match is made of: a name of the catalog, where an ad has it, and all an ad names."""

from __future__ import annotations

from collections.abc import Iterable
from typing import NamedTuple

from interchange.ads.fields import Span

UNITS, MACHINES = "units", "machines"
LOOKALIKES = str.maketrans("oil", "011")


class Name(NamedTuple):
    """A name the catalog knows something by."""

    folded: str
    room: str
    id: str
    variant: str
    name: str
    maker: str


class Hit(NamedTuple):
    """A name found in an ad, or one like it."""

    name: Name
    span: Span
    score: float
    exact: bool
    in_title: bool


class Matched(NamedTuple):
    """What an ad names: hits best first, each of a different thing; several on one stretch of text are alternatives."""

    hits: tuple[Hit, ...]
    near: tuple[Hit, ...]
    """Names that are like something in the ad, but not enough to decide: to be asked, never taken."""

    @property
    def first(self) -> Hit | None:
        """The likeliest thing, decided or not."""
        return self.hits[0] if self.hits else self.near[0] if self.near else None

    def of(self, room: str, ids: Iterable[str] | None = None) -> tuple[Hit, ...]:
        """Hits in a room, or among some of its ids, best first."""
        chosen = None if ids is None else set(ids)
        return tuple(hit for hit in self.hits if hit.name.room == room and (chosen is None or hit.name.id in chosen))


def each_thing_once(hits: Iterable[Hit]) -> tuple[Hit, ...]:
    """Best first: in the title before the body, higher score, earlier; each thing (and variant) once."""
    seen: set[tuple[str, str, str]] = set()
    kept = []
    for hit in sorted(hits, key=lambda hit: (not hit.in_title, -hit.score, hit.span.start, hit.name.id, hit.name.variant)):
        key = (hit.name.room, hit.name.id, hit.name.variant)
        if key not in seen:
            seen.add(key)
            kept.append(hit)
    return tuple(kept)
