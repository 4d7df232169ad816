"""What is checked once all files are read: names that no file defines, names defined twice, and sums that disagree.

A rule is a generator over records; its docstring says what it finds.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Collection, Iterable, Iterator, Mapping, Sequence
from typing import TYPE_CHECKING, NamedTuple

from interchange.catalog.features import Presented
from interchange.catalog.figure import Where
from interchange.catalog.model import Adapter, Kind, Pattern, Register, Shaft, Unit
from interchange.catalog.rooms import CatalogFile, Name, Record, parse_file, read_file, read_record, singular
from interchange.catalog.suggest import suggestion
from interchange.catalog.words import Phrase, Wording
from interchange.errors import Problem
from interchange.quantity.iso286 import limits_mm, read_class

if TYPE_CHECKING:
    from interchange.catalog.decode import Reference

DISPLACEMENT_SLACK = 0.03  # 15 % of the rows of one real engine table are further off: worth a word
SHARES_SLACK = 0.011
PATTERN_SIZES = ("circle", "hole", "flange")
REGISTER_SIZES = ("bore", "spigot")
SHAFT_SIZES = ("major", "minor", "width", "length", "key_length")
MOST_HINTS = 200  # names looked up for a likely meaning: where more are missing a whole file is, and each look costs 1-2 ms


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


def read_kinds(texts: Iterable[SourceText]) -> dict[str, Kind | None]:
    """The kinds of a search path, read ahead of the units that need them; None for one with faults.

    The faults are reported with their file.
    """
    kinds: dict[str, Kind | None] = {}
    ranks: dict[str, int] = {}
    for source in texts:
        if "kinds" not in source.text:  # a cheap look before a parse: most files hold none
            continue
        rooms, origin, _ = parse_file(source.text, source.name)
        for id_, node in rooms.get("kinds", {}).items():
            one, _ = read_record("kinds", id_, node, origin, source.name, {})
            kinds.setdefault(id_, None)
            if one is not None and isinstance(one.value, Kind) and source.rank > ranks.get(id_, -1):
                kinds[id_], ranks[id_] = one.value, source.rank
    return kinds


def read_catalog(texts: Sequence[SourceText]) -> Catalog:
    """Everything the texts hold. Of records with one id the one of the highest rank counts; within a rank, the first."""
    kinds = read_kinds(texts)
    files = tuple(read_file(source.text, source.name, kinds) for source in texts)
    problems = [problem for file in files for problem in file.problems]
    rooms: dict[str, dict[str, Record]] = {}
    ranks: dict[tuple[str, str], int] = {}
    names = Names()
    for source, file in zip(texts, files, strict=True):
        problems += names.add(file.names, source.rank)
        for one in file.records:
            if source.rank > ranks.get((one.room, one.id), -1):
                ranks[one.room, one.id] = source.rank
                rooms.setdefault(one.room, {})[one.id] = one
    known = names.known()
    problems += unknown_references((each for file in files for one in file.records for each in one.references), known)
    problems += [problem for file in files for one in file.records for problem in check_record(one)]
    return Catalog(rooms, files, tuple(sorted(problems)))


class Names:
    """Every name on a search path, faulty records' included: what has a fault of its own is not missing as well."""

    def __init__(self) -> None:
        self._first: dict[tuple[str, str], tuple[int, Name]] = {}

    def add(self, names: Iterable[Name], rank: int) -> Iterator[Problem]:
        """Take in the names of a file; those defined already in a folder of the same rank are problems."""
        for name in names:
            held = self._first.get((name.room, name.id))
            if held and held[0] == rank:
                yield defined_twice(name.room, name.id, name.where, held[1].where)
            elif not held or held[0] < rank:
                self._first[name.room, name.id] = rank, name

    def known(self) -> dict[str, set[str]]:
        """What may be referred to, by room; a unit's variants are unit.variant."""
        known: dict[str, set[str]] = {}
        for (room, id_), (_, name) in self._first.items():
            known.setdefault(room, set()).update((id_, *(f"{id_}.{variant}" for variant in name.variants)))
        return known


def defined_twice(room: str, id_: str, where: Where, first: Where) -> Problem:
    """Two records of one room and folder share an id."""
    hint = f"first in {first.file}:{first.line}; keep one"
    return Problem(*where, "defined-twice", f"{room} {id_}: {id_!r} is defined again", hint)


def unknown_references(references: Iterable[Reference], known: Mapping[str, Collection[str]]) -> Iterator[Problem]:
    """unknown-name: something is named that no file defines."""
    hints: dict[tuple[str, str], str] = {}
    for reference in references:
        rooms = reference.room.split("|")
        if any(reference.id in known.get(room, ()) for room in rooms):
            continue
        key = (reference.room, reference.id)
        if key not in hints and len(hints) < MOST_HINTS:
            choices = {id_ for room in rooms for id_ in known.get(room, ())}
            hints[key] = suggestion(reference.id, choices)
        text = f"{reference.path}: no {' or '.join(map(singular, rooms))} is called {reference.id!r}"
        hint = hints.get(key) or "define it in a catalog file, or correct the name"
        yield Problem(*reference.where, "unknown-name", text, hint)


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
        if abs(swept - stated) > DISPLACEMENT_SLACK * stated and where not in seen:
            seen.add(where)
            text = f"bore, stroke and cylinders give {swept / 1000:.2f} L, not {stated / 1000:.2f} L"
            yield _problem(one, where, "displacement-disagrees", text, "one of the four is misread")


def size_of_nothing(one: Record) -> Iterator[Problem]:
    """no-size: a diameter or length of a face or shaft is 0 or less."""
    for shape in _shapes(one):
        register = shape.pilot if isinstance(shape, Pattern) else None
        sized = ((shape, PATTERN_SIZES if isinstance(shape, Pattern) else SHAFT_SIZES), (register, REGISTER_SIZES))
        for holder, names in sized:
            for name in names if holder else ():
                figure = getattr(holder, name)
                if figure and figure.value <= 0:
                    text = f"{name} is {figure.text}, and nothing has that size"
                    yield _problem(one, figure.where, "no-size", text, "write what was measured, or leave it out")


def class_without_limits(one: Record) -> Iterator[Problem]:
    """no-limits: a register has a tolerance class that gives no limits of size."""
    for pattern in _patterns(one):
        register = pattern.pilot
        for fit in register.fit.readings if register and register.fit else ():
            text = _no_limits(register, fit.text) if register else ""
            if text:
                yield _problem(
                    one, fit.where, "no-limits", text, "write a class such as H7 or g6, or the two limits as a range alone"
                )


def _no_limits(register: Register, text: str) -> str:
    """Why a class gives a register no limits; empty where it does."""
    tolerance, sizes = read_class(text), [size for size in (register.bore, register.spigot) if size]
    if tolerance is None:
        return f"{text!r} is not a tolerance class such as H7 or g6"
    if len(sizes) != 1:
        return f"the class {text} is of one diameter, and here {'is none' if not sizes else 'are two'}"
    if tolerance.of_hole != bool(register.bore):
        return (
            f"{text} is a class of {'holes' if tolerance.of_hole else 'shafts'}, not of a {'bore' if register.bore else 'spigot'}"
        )
    if sizes[0].quantity and sizes[0].quantity.low is not None:
        return f"{sizes[0].text} has limits of its own beside the class {text}"
    known = limits_mm(sizes[0].value, tolerance)
    return "" if known else f"the limits of {sizes[0].text} {text} are not in the tables here"


def nothing_to_say(one: Record) -> Iterator[Problem]:
    """empty: words of ads without a wording."""
    if isinstance(one.value, Phrase | Wording) and not one.value.say:
        yield _problem(one, one.where, "empty", "it has no wordings", "list under say: what sellers write")


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
    size_of_nothing,
    class_without_limits,
    displacement_disagrees,
    nothing_to_say,
    shares_over_one,
    adapter_without_two_faces,
)


def check_record(one: Record) -> Iterator[Problem]:
    """Every rule over one record."""
    for rule in RULES:
        yield from rule(one)


def _problem(one: Record, where: Where, slug: str, text: str, hint: str) -> Problem:
    return Problem(*where, slug, f"{one.room} {one.id}: {text}", hint)


def _shapes(one: Record) -> Iterator[Pattern | Shaft]:
    """The faces and shafts of a record: itself, or what is written in place in it."""
    if isinstance(one.value, Pattern | Shaft):
        yield one.value
    seen: set[str] = set()
    for form in one.presented.values():
        for id_, shape in form.shapes.items():
            if id_ not in seen:
                seen.add(id_)
                yield shape


def _patterns(one: Record) -> Iterator[Pattern]:
    return (shape for shape in _shapes(one) if isinstance(shape, Pattern))


__all__ = ["Catalog", "Names", "Presented", "SourceText", "check_record", "read_catalog", "read_kinds", "unknown_references"]
