"""The names a record uses: each must be defined somewhere on the search path."""

from __future__ import annotations

from collections.abc import Iterator

from interchange.catalog.decode import Reader, Reference
from interchange.catalog.figure import Where
from interchange.catalog.health import HealthQuestion, HealthTest
from interchange.catalog.model import Adapter, Kind, Machine, Shaft
from interchange.catalog.nodes import Node, descend


def plain_references(value: object, node: Node, reader: Reader) -> Iterator[Reference]:
    """References that stand in plain id fields, each placed at the node that holds it.

    Those of a unit's and a seat's features are found while these are decoded.
    """
    for room, name, keys, at_key in _used(value):
        here = descend(node, keys)
        line, column = (here.key_line, here.key_column) if at_key else (here.line, here.column)
        words = [key for key in keys if isinstance(key, str)]
        path = ".".join([reader.path[0], *(words[:-1] if at_key else words)])
        yield Reference(room, name, path, Where(reader.file, line, column))


Used = tuple[str, str, tuple[str | int, ...], bool]


def _used(value: object) -> Iterator[Used]:
    """(room, name, where it stands, whether as a key) for every name in a record."""
    if isinstance(value, Machine):
        for seat_name, seat in value.seats.items():
            for unit in seat.fitted:
                yield "units", unit, ("seats", seat_name, "fitted", unit), True
    elif isinstance(value, Adapter):
        yield "kinds", value.kind, ("kind",), False
        for i, face in enumerate(value.faces):
            yield "patterns|shafts", face, ("faces", i), False
    elif isinstance(value, Shaft) and value.pattern:
        yield "patterns", value.pattern, ("pattern",), False
    elif isinstance(value, HealthTest | HealthQuestion):
        yield "kinds", value.kind, ("kind",), False
        if isinstance(value, HealthQuestion) and value.test:
            yield "health_tests", value.test, ("test",), False
    elif isinstance(value, Kind):
        yield from _used_by_kind(value)


def _used_by_kind(kind: Kind) -> Iterator[Used]:
    groups = (("joints", kind.joints), ("dimensions", kind.dimensions), ("stack_ups", kind.stack_ups))
    for group, members in groups:
        for name, member in members.items():
            for i, remedy in enumerate(member.remedies):
                yield "remedies", remedy, (group, name, "remedies", i), False
    for slot, supply in kind.supply.items():
        for i, word in enumerate(supply.words):
            yield "part_words", word, ("supply", slot, "words", i), False
    for word in kind.said:
        yield "fact_words", word, ("said", word), True
