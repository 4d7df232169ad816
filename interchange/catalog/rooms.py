"""A catalog file into records: which rooms there are, and how each is read.

A file is a mapping of rooms; a room is a mapping of ids to records. ``origin:`` at the top of a file holds for every figure in
it that says nothing else.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from typing import TYPE_CHECKING, NamedTuple

from interchange.catalog.decode import SPECIAL, Bad, Reader, Reference, inherited_origin, mapping_of, record
from interchange.catalog.features import Presented, presented, seat_needs
from interchange.catalog.figure import Origin, Where
from interchange.catalog.health import HealthQuestion, HealthTest
from interchange.catalog.kind_check import check_kind
from interchange.catalog.kind_rules import read_factor, read_feature_type, read_rule
from interchange.catalog.model import (
    Adapter,
    Factor,
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
from interchange.catalog.nodes import NO_BODY, Body, Node, bodies, descend, read_nodes
from interchange.catalog.references import plain_references
from interchange.catalog.suggest import suggestion
from interchange.catalog.words import WORD_ROOMS, Phrase, Wording

if TYPE_CHECKING:
    from interchange.errors import Problem

SPECIAL[FeatureType] = read_feature_type
SPECIAL[Rule] = read_rule
SPECIAL[Factor] = read_factor

ROOMS: dict[str, type] = {
    "kinds": Kind,
    "patterns": Pattern,
    "shafts": Shaft,
    "pins": Pin,
    "remedies": Remedy,
    "adapters": Adapter,
    "phrases": Phrase,
    "health_tests": HealthTest,
    "health_questions": HealthQuestion,
    **dict.fromkeys(WORD_ROOMS, Wording),
    "rates": object,  # a table of its own for each id
    "units": Unit,
    "machines": Machine,
}
RATES = "rates"
ID = re.compile(r"[a-z0-9][a-z0-9_-]{0,79}")


class Record(NamedTuple):
    """One record of a file, as read: its value, its own text (from which it can be read again), and what it refers to."""

    room: str
    id: str
    value: object
    body: Body
    origin: Origin
    where: Where
    references: tuple[Reference, ...]
    presented: dict[str, Presented]


class Name(NamedTuple):
    """A name that a file defines, whether its record is sound or not; ``variants`` are the forms of a unit."""

    room: str
    id: str
    where: Where
    variants: tuple[str, ...]


class CatalogFile(NamedTuple):
    """What one file holds, and every problem found in it."""

    name: str
    records: list[Record]
    problems: list[Problem]
    names: list[Name]


def singular(room: str) -> str:
    """One of what a room holds, in words."""
    return {"remedies": "remedy"}.get(room, room.removesuffix("s")).replace("_", " ")


def names_in(rooms: Mapping[str, Mapping[str, Node]], file: str) -> list[Name]:
    """Every name that the rooms of a file define."""
    found = []
    for room, records in rooms.items():
        for id_, node in records.items():
            inside = descend(node, ("variants",)).value if room == "units" else None
            variants = tuple(inside) if inside and isinstance(inside, dict) and inside is not node.value else ()
            found.append(Name(room, id_, Where(file, node.key_line, node.key_column), variants))
    return found


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
    room: str, id_: str, node: Node, origin: Origin, file: str, kinds: Mapping[str, Kind | None], body: Body = NO_BODY
) -> tuple[Record | None, list[Problem]]:
    """One record from its node. The record is None where a fault keeps it from being used.

    A kind that is None has faults of its own: what needs it is not reported as well.
    """
    reader = Reader(file, origin)
    reader.path = [f"{room} {id_}"]
    if not ID.fullmatch(id_):
        text = f"{id_!r} cannot be an id"
        reader.problem(node, "bad-id", text, "write lower-case letters, digits, hyphens and underscores", at_key=True)
        return None, reader.problems
    cls = ROOMS[room]
    if room == RATES:
        from interchange.catalog.rates import RATE_TABLES  # many fields, which few files need: 2 ms

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
        kind = _kind(value.kind, descend(node, ("kind",)), reader, kinds)
        if kind:
            forms = presented(value, kind, reader, node)
    elif isinstance(value, Machine):
        forms = _seats(value, node, reader, kinds)
    elif isinstance(value, Kind):
        check_kind(value, node, reader)
    elif isinstance(value, Adapter):
        kind = kinds.get(value.kind)
        if kind and value.joint not in kind.joints:
            text = f"{kind.id} has no joint called {value.joint!r}"
            reader.problem(descend(node, ("joint",)), "unknown-name", text, suggestion(value.joint, kind.joints))
    elif isinstance(value, HealthTest):
        _features_of(value, node, reader, kinds)
    references = (*reader.references, *plain_references(value, node, reader))
    return Record(room, id_, value, body, origin, reader.where(node), references, forms), reader.problems


def _features_of(test: HealthTest, node: Node, reader: Reader, kinds: Mapping[str, Kind | None]) -> None:
    """The features that hold a test's limits are features of its kind."""
    kind = kinds.get(test.kind)
    if kind is None:
        return
    known = [f"{slot}.{feature}" for slot, features in kind.slots.items() for feature in features]
    for key in ("each", "least", "most", "spread"):
        path = getattr(test, key)
        if path and path not in known:
            text = f"{kind.id} has no feature called {path!r}"
            reader.problem(descend(node, (key,)), "unknown-name", text, suggestion(path, known))


def _seats(machine: Machine, node: Node, reader: Reader, kinds: Mapping[str, Kind | None]) -> dict[str, Presented]:
    """What each seat asks for."""
    forms: dict[str, Presented] = {}
    reader.origin = machine.origin
    for name, seat in machine.seats.items():
        reader.path += ["seats", name]
        kind = _kind(seat.kind, descend(node, ("seats", name, "kind")), reader, kinds)
        if kind:
            reader.path.append("needs")
            forms[name] = seat_needs(seat.needs, kind, reader, f"{machine.id}:{name}")
            reader.path.pop()
        del reader.path[-2:]
    for name, part in machine.leftovers.parts.items() if machine.leftovers else ():
        if part.seat and part.seat not in machine.seats:
            text = f"{machine.title} has no seat called {part.seat!r}"
            at = descend(node, ("leftovers", "parts", name, "seat"))
            reader.problem(at, "unknown-name", text, suggestion(part.seat, machine.seats))
    return forms


def _kind(name: str, at: Node, reader: Reader, kinds: Mapping[str, Kind | None]) -> Kind | None:
    if name not in kinds:
        hint = suggestion(name, kinds) or "define it in a catalog file, or correct the name"
        reader.problem(at, "unknown-name", f"no kind is called {name!r}", hint)
    return kinds.get(name)


def read_file(text: str, name: str, kinds: Mapping[str, Kind | None]) -> CatalogFile:
    """All records of one file. ``kinds`` are those of the whole search path, this file's own included."""
    rooms, origin, problems = parse_file(text, name)
    records: list[Record] = []
    entries = [(room, id_, node) for room, nodes in rooms.items() for id_, node in nodes.items()]
    for (room, id_, node), body in zip(entries, bodies(text, [node for _, _, node in entries]), strict=True):
        one, found = read_record(room, id_, node, origin, name, kinds, body)
        problems += found
        if one is not None:
            records.append(one)
    return CatalogFile(name, records, sorted(problems), names_in(rooms, name))


__all__ = ["ROOMS", "CatalogFile", "Name", "Record", "names_in", "parse_file", "read_file", "read_record", "singular"]
