"""A catalog file into records: which rooms there are, and how each is read.

A file is a mapping of rooms; a room is a mapping of ids to records. ``origin:`` at the top of a file holds for every figure in
it that says nothing else.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from typing import TYPE_CHECKING, NamedTuple

from interchange.catalog.decode import SPECIAL, Bad, Reader, Reference, inherited_origin, mapping_of, one_of, record, text_of
from interchange.catalog.features import Presented, presented, seat_needs
from interchange.catalog.figure import Origin, Where
from interchange.catalog.kind_rules import check_kind, read_feature_type, read_rule
from interchange.catalog.model import (
    Adapter,
    FeatureType,
    Kind,
    Machine,
    Pattern,
    Pin,
    Remedy,
    Rule,
    Shaft,
    Unit,
)
from interchange.catalog.nodes import Node, read_nodes
from interchange.catalog.rates import RATE_TABLES
from interchange.catalog.suggest import suggestion
from interchange.catalog.words import WORD_ROOMS, Phrase, Wording

if TYPE_CHECKING:
    from interchange.errors import Problem

SPECIAL[FeatureType] = read_feature_type
SPECIAL[Rule] = read_rule

ROOMS: dict[str, type] = {
    "kinds": Kind,
    "patterns": Pattern,
    "shafts": Shaft,
    "pins": Pin,
    "remedies": Remedy,
    "adapters": Adapter,
    "phrases": Phrase,
    **dict.fromkeys(WORD_ROOMS, Wording),
    "rates": object,  # a table of its own for each id
    "units": Unit,
    "machines": Machine,
}
RATES = "rates"
ID = re.compile(r"[a-z0-9][a-z0-9_-]{0,79}")


class Record(NamedTuple):
    """One record of a file, as read: its value, its node (for the store), and what it refers to."""

    room: str
    id: str
    value: object
    node: Node
    origin: Origin
    where: Where
    references: tuple[Reference, ...]
    presented: dict[str, Presented]


class CatalogFile(NamedTuple):
    """What one file holds, and every problem found in it."""

    name: str
    records: list[Record]
    problems: list[Problem]


def parse_file(text: str, name: str) -> tuple[dict[str, dict[str, Node]], Origin, list[Problem]]:
    """Rooms of a file as nodes, its origin, and its problems."""
    root, problems = read_nodes(text, name)
    reader = Reader(name)
    rooms: dict[str, dict[str, Node]] = {}
    origin = Origin()
    if root is not None:
        entries = mapping_of(root, reader)
        if not isinstance(entries, Bad):
            for key, node in entries.items():
                if key == "origin":
                    origin = inherited_origin(node, reader)
                elif key not in ROOMS:
                    reader.problem(node, "unknown-room", f"there is no room called {key!r}", suggestion(key, ROOMS), at_key=True)
                else:
                    records = mapping_of(node, reader)
                    rooms[key] = {} if isinstance(records, Bad) else records
    return rooms, origin, problems + reader.problems


def read_record(
    room: str, id_: str, node: Node, origin: Origin, file: str, kinds: Mapping[str, Kind]
) -> tuple[Record | None, list[Problem]]:
    """One record from its node. The record is None where a fault keeps it from being used."""
    reader = Reader(file, origin)
    reader.path = [f"{room} {id_}"]
    if not ID.fullmatch(id_):
        text = f"{id_!r} cannot be an id"
        reader.problem(node, "bad-id", text, "write lower-case letters, digits, hyphens and underscores", at_key=True)
        return None, reader.problems
    cls = ROOMS[room]
    if room == RATES:
        if id_ not in RATE_TABLES:
            hint = suggestion(id_, RATE_TABLES)
            reader.problem(node, "unknown-name", f"there is no table of rates called {id_!r}", hint, at_key=True)
            return None, reader.problems
        cls = RATE_TABLES[id_]
    value = record(cls, node, reader, id=id_)
    if isinstance(value, Bad):
        return None, reader.problems
    forms: dict[str, Presented] = {}
    if isinstance(value, Unit):
        kind = _kind(value.kind, node, reader, kinds)
        if kind:
            forms = presented(value, kind, reader)
    elif isinstance(value, Machine):
        for seat_name, seat in value.seats.items():
            reader.path += ["seats", seat_name]
            kind = _kind(seat.kind, node, reader, kinds)
            if kind:
                reader.origin = value.origin
                forms[seat_name] = seat_needs(seat.needs, kind, reader, f"{id_}:{seat_name}")
            del reader.path[-2:]
    elif isinstance(value, Kind):
        check_kind(value, node, reader)
    references = (*reader.references, *_plain_references(value, node, reader))
    return Record(room, id_, value, node, origin, reader.where(node), references, forms), reader.problems


def _kind(name: str, node: Node, reader: Reader, kinds: Mapping[str, Kind]) -> Kind | None:
    kind = kinds.get(name)
    if kind is None:
        at = node.value.get("kind", node) if isinstance(node.value, dict) else node
        reader.problem(at, "unknown-name", f"no kind is called {name!r}", suggestion(name, kinds))
    return kind


def _plain_references(value: object, node: Node, reader: Reader) -> Iterable[Reference]:
    """References that stand in plain id fields, each placed at the node that holds it."""
    path = reader.path[0]

    def at(*keys: str | int) -> Where:
        here = node
        for key in keys:
            inside = here.value
            if isinstance(inside, dict) and key in inside:
                here = inside[key]  # type: ignore[index]
            elif isinstance(inside, list) and isinstance(key, int):
                here = inside[key]
        return Where(reader.file, here.line, here.column)

    def at_key(*keys: str) -> Where:
        here = node
        for key in keys:
            here = here.value[key]  # type: ignore[index, call-overload]
        return Where(reader.file, here.key_line, here.key_column)

    if isinstance(value, Machine):
        for seat_name, seat in value.seats.items():
            for unit in seat.fitted:
                yield Reference("units", unit, f"{path}.seats.{seat_name}.fitted", at_key("seats", seat_name, "fitted", unit))
    elif isinstance(value, Adapter):
        for i, face in enumerate(value.faces):
            yield Reference("patterns|shafts", face, f"{path}.faces", at("faces", i))
        yield Reference("kinds", value.kind, f"{path}.kind", at("kind"))
    elif isinstance(value, Shaft) and value.pattern:
        yield Reference("patterns", value.pattern, f"{path}.pattern", at("pattern"))
    elif isinstance(value, Kind):
        groups = (("joints", value.joints), ("dimensions", value.dimensions), ("stack_ups", value.stack_ups))
        for group, members in groups:
            for name, member in members.items():  # type: ignore[attr-defined]
                for i, remedy in enumerate(member.remedies):
                    yield Reference("remedies", remedy, f"{path}.{group}.{name}.remedies", at(group, name, "remedies", i))


def read_file(text: str, name: str, kinds: Mapping[str, Kind]) -> CatalogFile:
    """All records of one file. ``kinds`` are those of the whole search path, this file's own included."""
    rooms, origin, problems = parse_file(text, name)
    records: list[Record] = []
    for room in ROOMS:  # kinds first, units after what they refer to
        for id_, node in rooms.get(room, {}).items():
            one, found = read_record(room, id_, node, origin, name, kinds)
            problems += found
            if one is not None:
                records.append(one)
    return CatalogFile(name, records, sorted(problems))


__all__ = ["ROOMS", "CatalogFile", "Record", "one_of", "parse_file", "read_file", "read_record", "text_of"]
