"""What is checked once all files are read: names that no file defines, names defined twice, and sums that disagree.

A rule is a generator over records; its docstring says what it finds.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Collection, Iterable, Iterator, Mapping, Sequence
from typing import TYPE_CHECKING, NamedTuple

from interchange.catalog.features import Presented
from interchange.catalog.figure import Where
from interchange.catalog.model import Adapter, Kind, Pattern, Unit
from interchange.catalog.rooms import CatalogFile, Record, parse_file, read_file, read_record
from interchange.catalog.suggest import suggestion
from interchange.errors import Problem

if TYPE_CHECKING:
    from interchange.catalog.decode import Reference

DISPLACEMENT_SLACK = 0.03  # 15 % of the rows of one real engine table are further off: worth a word
SHARES_SLACK = 0.011


class SourceText(NamedTuple):
    """A file to read: its name, text, and its folder's rank."""

    name: str
    text: str
    rank: int


class Catalog(NamedTuple):
    """Everything on a search path: the record that counts for each id, by room, and all problems, sorted."""

    rooms: dict[str, dict[str, Record]]
    files: tuple[CatalogFile, ...]
    problems: tuple[Problem, ...]

    def room(self, name: str) -> dict[str, Record]:
        """The records of a room, by id."""
        return self.rooms.get(name, {})


def read_kinds(texts: Iterable[SourceText]) -> dict[str, Kind]:
    """The kinds of a search path, read ahead of the units that need them; their problems are reported with their file."""
    kinds: dict[str, Kind] = {}
    for source in texts:
        if "kinds:" not in source.text:  # a cheap look before a parse: most files hold none
            continue
        rooms, origin, _ = parse_file(source.text, source.name)
        for id_, node in rooms.get("kinds", {}).items():
            one, _ = read_record("kinds", id_, node, origin, source.name, {})
            if one is not None and isinstance(one.value, Kind):
                kinds[id_] = one.value
    return kinds


def read_catalog(texts: Sequence[SourceText]) -> Catalog:
    """Read and check all files of a search path."""
    kinds = read_kinds(texts)
    files = tuple(read_file(source.text, source.name, kinds) for source in texts)
    problems = [problem for file in files for problem in file.problems]
    rooms: dict[str, dict[str, Record]] = {}
    ranked: dict[tuple[str, str], tuple[int, Where]] = {}
    for source, file in zip(texts, files, strict=True):
        for one in file.records:
            first = ranked.get((one.room, one.id))
            if first and first[0] == source.rank:
                problems.append(defined_twice(one.room, one.id, one.where, first[1]))
                continue
            ranked[one.room, one.id] = (source.rank, one.where)
            rooms.setdefault(one.room, {})[one.id] = one
    known = names_of(rooms)
    for file in files:
        for one in file.records:
            problems += unknown_references(one.references, known)
            problems += check_record(one)
    return Catalog(rooms, files, tuple(sorted(problems)))


def names_of(rooms: Mapping[str, Mapping[str, Record]]) -> dict[str, set[str]]:
    """Every name that may be referred to, by room; a unit's variants are unit.variant."""
    known = {room: set(records) for room, records in rooms.items()}
    for id_, one in rooms.get("units", {}).items():
        if isinstance(one.value, Unit):
            known["units"].update(f"{id_}.{name}" for name in one.value.variants)
    return known


def defined_twice(room: str, id_: str, where: Where, first: Where) -> Problem:
    """Two records of one room and folder share an id."""
    return Problem(*where, "defined-twice", f"{room} {id_}: {id_!r} is defined again", f"first in {first.file}:{first.line}")


def unknown_references(references: Iterable[Reference], known: Mapping[str, Collection[str]]) -> Iterator[Problem]:
    """unknown-name: something is named that no file defines."""
    for reference in references:
        names: set[str] = set()
        for room in reference.room.split("|"):
            names.update(known.get(room, ()))
        if reference.id not in names:
            room = reference.room.replace("|", " or ").replace("s ", " ").removesuffix("s")
            text = f"{reference.path}: no {room} is called {reference.id!r}"
            yield Problem(*reference.where, "unknown-name", text, suggestion(reference.id, names))


def circle_and_points(one: Record) -> Iterator[Problem]:
    """circle-and-points: a pattern is given both ways."""
    for pattern in _patterns(one):
        if pattern.points and pattern.circle:
            yield _problem(one, pattern.where, "circle-and-points", "a pattern is a circle or points, not both", "leave one out")


def circle_wider_than_flange(one: Record) -> Iterator[Problem]:
    """circle-outside-flange: the bolt circle is wider than the flange it is on."""
    for pattern in _patterns(one):
        if pattern.circle and pattern.flange and pattern.circle.low >= pattern.flange.high:
            text = f"the bolt circle {pattern.circle.text} does not lie inside the flange {pattern.flange.text}"
            yield _problem(one, pattern.circle.where, "circle-outside-flange", text, "one of the two is misread")


def displacement_disagrees(one: Record) -> Iterator[Problem]:
    """displacement-disagrees: bore, stroke and cylinders do not give the displacement stated."""
    seen: set[Where] = set()
    for form in one.presented.values():
        parts = [form.features.get(f"core.{name}") for name in ("bore", "stroke", "cylinders", "displacement")]
        if any(part is None or part.quantity is None for part in parts):
            continue
        bore, stroke, cylinders, stated = (part.value for part in parts if part)
        swept = math.pi / 4 * bore**2 * stroke * cylinders / 1000
        where = parts[3].where if parts[3] else one.where
        if abs(swept / stated - 1) > DISPLACEMENT_SLACK and where not in seen:
            seen.add(where)
            text = f"bore, stroke and cylinders give {swept / 1000:.2f} L, not {stated / 1000:.2f} L"
            yield _problem(one, where, "displacement-disagrees", text, "one of the four is misread")


def shares_over_one(one: Record) -> Iterator[Problem]:
    """shares: the shares of a unit's variants, or of what came fitted, come to more than the whole."""
    groups: list[tuple[str, list[float]]] = []
    if isinstance(one.value, Unit):
        groups.append(("variants", [v.share for v in one.value.variants.values() if v.share is not None]))
    for seat_name, seat in getattr(one.value, "seats", {}).items():
        groups.append((f"what came fitted as {seat_name}", list(seat.fitted.values())))
    for label, shares in groups:
        if sum(shares) > 1 + SHARES_SLACK:
            yield _problem(one, one.where, "shares", f"the shares of {label} come to {sum(shares):.2f}", "make them 1 or less")


def adapter_without_two_faces(one: Record) -> Iterator[Problem]:
    """two-faces: an adapter has two faces."""
    if isinstance(one.value, Adapter) and len(one.value.faces) != 2:  # noqa: PLR2004 - two faces
        yield _problem(one, one.where, "two-faces", f"an adapter has two faces, not {len(one.value.faces)}", "list both")


RULES: tuple[Callable[[Record], Iterator[Problem]], ...] = (
    circle_and_points,
    circle_wider_than_flange,
    displacement_disagrees,
    shares_over_one,
    adapter_without_two_faces,
)


def check_record(one: Record) -> Iterator[Problem]:
    """Every rule over one record."""
    for rule in RULES:
        yield from rule(one)


def _problem(one: Record, where: Where, slug: str, text: str, hint: str) -> Problem:
    return Problem(*where, slug, f"{one.room} {one.id}: {text}", hint)


def _patterns(one: Record) -> Iterator[Pattern]:
    if isinstance(one.value, Pattern):
        yield one.value
    seen: set[str] = set()
    for form in one.presented.values():
        for id_, shape in form.shapes.items():
            if isinstance(shape, Pattern) and id_ not in seen:
                seen.add(id_)
                yield shape


__all__ = ["Catalog", "Presented", "SourceText", "check_record", "names_of", "read_catalog", "read_kinds", "unknown_references"]
