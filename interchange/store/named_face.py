"""Finding a bolt face by what a person writes: a pattern's id, or where it stands."""

from __future__ import annotations

from collections.abc import Iterable
from typing import TYPE_CHECKING, NamedTuple

from interchange.catalog.model import Pattern
from interchange.catalog.suggest import suggestion
from interchange.errors import InputError
from interchange.store.shapes import IN_PLACE, Use

if TYPE_CHECKING:
    from interchange.catalog.rooms import Record
    from interchange.store.library import Library

HOW = "write a pattern's id, unit.slot.feature, unit.variant.slot.feature or machine.seat.feature"
MOST_LISTED = 14
SEAT = "seat"


class NamedFace(NamedTuple):
    """A face, what was written for it, and where it stands where that was written."""

    name: str
    pattern: Pattern
    use: Use | None


def face_named(library: Library, name: str) -> NamedFace:
    """The face of a name. Raises InputError with the choices there are."""
    base, _, rest = name.partition(".")
    if IN_PLACE in name or library.record("patterns", name):
        pattern = library.pattern(name)
        if pattern is None:
            raise InputError(f"there is no pattern {name!r} in the catalog", HOW)
        return NamedFace(name, pattern, None)
    for room in ("units", "machines"):
        record = library.record(room, base)
        if record:
            return _at(library, name, record, tuple(rest.split(".")) if rest else ())
    rooms = "SELECT id FROM record WHERE live AND room IN ('patterns', 'units', 'machines')"
    ids = [id_ for (id_,) in library.connection.execute(rooms).fetchall()]
    raise InputError(f"the catalog has no pattern, unit or machine called {base!r}", suggestion(base, ids) or HOW)


def _at(library: Library, name: str, record: Record, steps: tuple[str, ...]) -> NamedFace:
    """The face of a unit or machine at a feature; of several forms that differ there, the form has to be said."""
    faces = dict(_faces(library, record))
    found = {key: pattern for key, pattern in faces.items() if _matches(key, steps, record.room)}
    if len({pattern.id for pattern in found.values()}) > 1:
        raise InputError(f"{name} differs from form to form", f"say which: {_listed(record.id, found)}")
    if not found:
        near = {key for key in faces if steps and key[-1] == steps[-1]}
        raise InputError(f"{record.id} has no bolt face {'.'.join(steps)!r}", f"it has {_listed(record.id, near or faces)}")
    key, pattern = next(iter(found.items()))
    kind = getattr(record.value, "kind", "") or _seat_kind(record, key[0])
    path = ".".join(key[-2:]) if record.room == "units" else f"{SEAT}.{key[-1]}"
    return NamedFace(name, pattern, Use(record.id, kind, path))


def _faces(library: Library, record: Record) -> Iterable[tuple[tuple[str, ...], Pattern]]:
    """((form or seat, slot, feature), pattern); the form is empty where a unit has one."""
    for form, presented in record.presented.items():
        for path, figure in presented.features.items():
            pattern = library.pattern(figure.ref) if figure.ref else None
            if pattern is not None:
                slot, _, feature = path.partition(".")
                yield (form, slot, feature) if record.room == "units" else (form, feature), pattern


def _matches(key: tuple[str, ...], steps: tuple[str, ...], room: str) -> bool:
    """A unit's form may be left out."""
    return steps in (key, key[1:]) if room == "units" else steps == key


def _seat_kind(record: Record, seat: str) -> str:
    seats = getattr(record.value, "seats", {})
    return str(seats[seat].kind) if seat in seats else ""


def _listed(id_: str, keys: Iterable[tuple[str, ...]]) -> str:
    names = [".".join(filter(None, (id_, *key))) for key in sorted(keys)]
    more = f" and {len(names) - MOST_LISTED} more" if len(names) > MOST_LISTED else ""
    return f"{', '.join(names[:MOST_LISTED])}{more}" if names else "none that is known"
