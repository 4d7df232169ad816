"""What a unit presents and a seat needs: features, decoded by the types their kind gives them.

A feature is known by its path, slot.feature for a unit and seat.feature for a seat. A pattern or shaft written in place gets
an id of its own from where it stands, so that everything downstream works with references.
"""

from __future__ import annotations

import functools
from collections.abc import Mapping
from typing import NamedTuple

from interchange.catalog.decode import (
    BAD,
    Bad,
    Read,
    Reader,
    Reference,
    figure_of,
    inherited_origin,
    record,
    text_of,
)
from interchange.catalog.derive import derived, disagreements
from interchange.catalog.figure import Figure, Where
from interchange.catalog.model import PATTERN_FEATURE, SHAFT_FEATURE, Features, FeatureType, Kind, Pattern, Shaft, Unit
from interchange.catalog.nodes import Node, descend
from interchange.catalog.suggest import suggestion

SEAT = "seat"
NAMED = figure_of("word")
SHAPES: dict[str, type[Pattern | Shaft]] = {PATTERN_FEATURE: Pattern, SHAFT_FEATURE: Shaft}
ROOM_OF_SHAPE = {PATTERN_FEATURE: "patterns", SHAFT_FEATURE: "shafts"}


class Presented(NamedTuple):
    """The features of one form of a unit (variant is empty for the plain unit), with what was written in place."""

    features: Features
    shapes: dict[str, Pattern | Shaft]


@functools.cache
def _decoder(type_: FeatureType) -> Read:
    return figure_of(type_.name, type_.words)


class _Place(NamedTuple):
    """Where features stand: the slot or seat, whose they are, and where what is written in place is put."""

    prefix: str
    owner: str
    shapes: dict[str, Pattern | Shaft]


def _shape(node: Node, reader: Reader, type_: FeatureType, path: str, place: _Place) -> Figure | Bad:
    """A pattern or shaft: named, named with an origin, or written in place."""
    value = node.value
    named = node
    origin = reader.origin
    text: str | Bad
    if not isinstance(value, dict):
        text = text_of(node, reader)
    elif "value" in value:
        named = value["value"]
        figure = NAMED(node, reader)
        if isinstance(figure, Bad):
            return BAD
        text, origin = figure.word, figure.origin
    else:
        shape_id = f"{place.owner}:{path}"
        made = record(SHAPES[type_.name], node, reader, id=shape_id)
        if isinstance(made, Bad):
            return BAD
        place.shapes[shape_id] = made
        return Figure(ref=shape_id, origin=made.origin, where=reader.where(node))
    if isinstance(text, Bad):
        return BAD
    where = Where(reader.file, named.line, named.column)
    reader.references.append(Reference(ROOM_OF_SHAPE[type_.name], text, ".".join(reader.path), where))
    return Figure(ref=text, origin=origin, where=where)


def _features(entries: Mapping[str, Node], types: Mapping[str, FeatureType], reader: Reader, place: _Place) -> Features:
    """Features of one slot or seat, keyed prefix.feature."""
    out: Features = {}
    outer = reader.origin
    if "origin" in entries:
        reader.origin = inherited_origin(entries["origin"], reader)
    for name, node in entries.items():
        type_ = types.get(name)
        if type_ is None:
            if name != "origin":
                hint = suggestion(name, types) or "add it to the kind, or take it out"
                reader.problem(node, "unknown-feature", f"no feature is called {name!r} here", hint, at_key=True)
            continue
        path = f"{place.prefix}.{name}"
        reader.path.append(name)
        figure = _shape(node, reader, type_, path, place) if type_.name in SHAPES else _decoder(type_)(node, reader)
        reader.path.pop()
        if not isinstance(figure, Bad):
            out[path] = figure
    reader.origin = outer
    return out


def _slots(
    slots: Mapping[str, Mapping[str, Node]], kind: Kind, reader: Reader, owner: str, shapes: dict[str, Pattern | Shaft],
    node: Node,
) -> Features:  # fmt: skip
    """Features of every slot; the node is that of the unit or variant."""
    out: Features = {}
    for slot, entries in slots.items():
        types = kind.slots.get(slot)
        reader.path += ["slots", slot]
        if types is None:
            hint = suggestion(slot, kind.slots) or f"add it to the kind {kind.id}, or take it out"
            at = descend(node, ("slots", slot))
            reader.problem(at, "unknown-slot", f"{kind.id} has no slot called {slot!r}", hint, at_key=True)
        else:
            out.update(_features(entries, types, reader, _Place(slot, owner, shapes)))
        del reader.path[-2:]
    return out


def presented(unit: Unit, kind: Kind, reader: Reader, node: Node) -> dict[str, Presented]:
    """What each variant of a unit presents, from its node; the key is empty where the unit has one form."""
    outer, reader.origin = reader.origin, unit.origin
    shapes: dict[str, Pattern | Shaft] = {}
    base = _slots(unit.slots, kind, reader, unit.id, shapes, node)
    out: dict[str, Presented] = {}
    for name, variant in unit.variants.items():
        reader.path += ["variants", name]
        own_shapes = dict(shapes)
        changed = _slots(variant.slots, kind, reader, f"{unit.id}.{name}", own_shapes, descend(node, ("variants", name)))
        del reader.path[-2:]
        out[name] = Presented(_with_derived(base | changed, kind, reader, ""), own_shapes)
    reader.origin = outer
    return out or {"": Presented(_with_derived(base, kind, reader, ""), shapes)}


def _with_derived(features: Features, kind: Kind, reader: Reader, owner: str) -> Features:
    """With what follows from them; what disagrees with what follows is reported, once where several variants share it."""
    if not kind.derive:
        return features
    name = f"{'.'.join(reader.path)}: " if reader.path else ""
    reader.problems += [each for each in disagreements(kind, features, name) if each not in reader.problems]
    return features | derived(kind, features, owner)


def seat_needs(entries: Mapping[str, Node], kind: Kind, reader: Reader, owner: str) -> Presented:
    """What a seat asks for, keyed seat.feature."""
    shapes: dict[str, Pattern | Shaft] = {}
    asked = _features(entries, kind.seat, reader, _Place(SEAT, owner, shapes))
    return Presented(_with_derived(asked, kind, reader, SEAT), shapes)
