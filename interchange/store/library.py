"""Records of the cache as typed values again, each decoded when it is first asked for."""

from __future__ import annotations

import json
from collections.abc import Iterator
from pathlib import Path
from typing import TYPE_CHECKING, TypeVar

from interchange.catalog.figure import Origin
from interchange.catalog.folders import shown_name
from interchange.catalog.model import Adapter, Kind, Machine, Pattern, Remedy, Shaft, Unit
from interchange.catalog.nodes import Body, node_of
from interchange.catalog.rooms import Record, read_record, singular
from interchange.catalog.suggest import suggestion
from interchange.errors import InputError

if TYPE_CHECKING:
    import duckdb

T = TypeVar("T")


class Library:
    """What the catalog holds, by id. Faulty records are not there: their problems are told apart."""

    def __init__(self, connection: duckdb.DuckDBPyConnection) -> None:
        self.connection = connection
        self._records: dict[tuple[str, str], Record | None] = {}
        self._kinds: dict[str, Kind] | None = None
        self._shapes: dict[str, Pattern | Shaft] = {}
        self._names: dict[str, str] = {}

    def records(self, room: str, ids: tuple[str, ...] | None = None) -> Iterator[Record]:
        """The records of a room, or those named, in the order they were read."""
        only = "" if ids is None else " AND id IN (SELECT unnest(?))"
        bound: list[object] = [room] if ids is None else [room, list(ids)]
        rows = self.connection.execute(
            f"SELECT id, path, line, col, body, body_line, origin FROM record WHERE live AND room = ?{only} ORDER BY key", bound
        ).fetchall()
        kinds = self.kinds() if room in ("units", "machines") else {}
        for id_, path, line, column, text, body_line, origin in rows:
            known = self._records.get((room, id_))
            if known is None:
                body = Body(text, body_line)
                node = node_of(body, line, column)
                known, _ = read_record(room, id_, node, Origin(*json.loads(origin)), self._shown(path), kinds, body)
                self._records[room, id_] = known
                if known:
                    for form in known.presented.values():
                        self._shapes.update(form.shapes)
            if known is not None:
                yield known

    def _shown(self, path: str) -> str:
        """A file's name from the working folder, which need not be the one in which it was read."""
        if path not in self._names:
            self._names[path] = shown_name(Path(path))
        return self._names[path]

    def record(self, room: str, id_: str) -> Record | None:
        """One record; None where there is none."""
        if (room, id_) not in self._records:
            self._records[room, id_] = next(self.records(room, (id_,)), None)
        return self._records[room, id_]

    def kinds(self) -> dict[str, Kind]:
        """Every kind."""
        if self._kinds is None:
            self._kinds = {one.id: one.value for one in self.records("kinds") if isinstance(one.value, Kind)}
        return self._kinds

    def _wanted(self, room: str, cls: type[T], id_: str) -> tuple[Record, T]:
        one = self.record(room, id_)
        if one is None or not isinstance(one.value, cls):
            ids = [row[0] for row in self.connection.execute("SELECT id FROM record WHERE live AND room = ?", [room]).fetchall()]
            raise InputError(f"there is no {singular(room)} {id_!r} in the catalog", suggestion(id_, ids))
        return one, one.value

    def kind(self, id_: str) -> Kind:
        """A kind. Raises InputError where there is none."""
        return self._wanted("kinds", Kind, id_)[1]

    def unit(self, id_: str) -> tuple[Record, Unit]:
        """A unit with its record. Raises InputError where there is none."""
        return self._wanted("units", Unit, id_)

    def machine(self, id_: str) -> tuple[Record, Machine]:
        """A machine with its record. Raises InputError where there is none."""
        return self._wanted("machines", Machine, id_)

    def remedies(self) -> dict[str, Remedy]:
        """Every remedy."""
        return {one.id: one.value for one in self.records("remedies") if isinstance(one.value, Remedy)}

    def adapters(self, kind: str) -> tuple[Adapter, ...]:
        """The adapters for a kind of unit."""
        all_ = (one.value for one in self.records("adapters"))
        return tuple(one for one in all_ if isinstance(one, Adapter) and one.kind == kind)

    def pattern(self, id_: str) -> Pattern | None:
        """A pattern by id, whether it has a record of its own or was written in place; None where there is none."""
        shape = self._shape("patterns", id_)
        return shape if isinstance(shape, Pattern) else None

    def shaft(self, id_: str) -> Shaft | None:
        """A shaft by id, likewise."""
        shape = self._shape("shafts", id_)
        return shape if isinstance(shape, Shaft) else None

    def _shape(self, room: str, id_: str) -> Pattern | Shaft | None:
        if id_ not in self._shapes:
            owner, in_place, _ = id_.partition(":")
            if in_place:
                unit = owner.partition(".")[0]
                for owners in ("units", "machines"):
                    self.record(owners, unit)
            else:
                one = self.record(room, id_)
                if one and isinstance(one.value, Pattern | Shaft):
                    self._shapes[id_] = one.value
        return self._shapes.get(id_)
