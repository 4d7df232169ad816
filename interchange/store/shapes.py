"""Every bolt face, shaft and hitch of the catalog, with where each stands."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator
from typing import TYPE_CHECKING, NamedTuple

from interchange.catalog.model import Pattern, Pin, Shaft
from interchange.store.queries import sql

if TYPE_CHECKING:
    from interchange.store.library import Library

ROOMS = ("patterns", "shafts", "pins")
IN_PLACE = ":"


class Use(NamedTuple):
    """Who has a shape, of which kind that is, and at which feature: ``slot.feature`` of a unit, ``seat.feature`` of a machine."""

    owner: str
    kind: str
    path: str


class Shape(NamedTuple):
    """One shape of the catalog."""

    id: str
    value: Pattern | Shaft | Pin
    uses: tuple[Use, ...]


def shapes_of(library: Library) -> Iterator[Shape]:
    """All of them: those with a record of their own, then those written in place."""
    uses: dict[tuple[str, str], list[Use]] = defaultdict(list)
    for room, id_, owner, kind, path in library.connection.execute(sql("uses")).fetchall():
        uses[room, id_].append(Use(owner, kind, path))
    for room in ROOMS:
        for record in library.records(room):
            if isinstance(record.value, Pattern | Shaft | Pin):
                yield Shape(record.id, record.value, tuple(uses.pop((room, record.id), ())))
    for (room, id_), where in sorted(uses.items()):
        value = library.pattern(id_) if room == "patterns" else library.shaft(id_)
        if IN_PLACE in id_ and value is not None:
            yield Shape(id_, value, tuple(where))
