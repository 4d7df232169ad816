"""Nodes into typed values, driven by the type hints of the model.

Every fault becomes a Problem with its place; what follows from a reported fault is skipped, so one fault is one problem.
A decoder for a type is compiled once; decoding then is plain calls.
"""

from __future__ import annotations

import dataclasses
import functools
import types
import typing
from collections.abc import Callable, Mapping, Sequence
from typing import Annotated, Any, TypeVar

from interchange.catalog.figure import BASES, NO_ORIGIN, READINGS, Figure, Origin, Where
from interchange.catalog.nodes import Node
from interchange.catalog.suggest import suggestion
from interchange.errors import Problem
from interchange.quantity import (
    Quantity,
    QuantityError,
    Spline,
    Thread,
    read_quantity,
    read_rating,
    read_spline,
    read_thread,
)

RATED_DIMENSIONS = frozenset({"power", "torque"})
MADE_BY_DECODER = frozenset({"id", "where", "origin"})
MOST_DIGITS = 9

Read = Callable[[Node, "Reader"], Any]
T = TypeVar("T")


class Bad:
    """What a decoder gives for a node whose fault is reported."""


BAD = Bad()


class Reader:
    """Decodes the nodes of one file: holds its name, its problems, and where in it the decoder is."""

    def __init__(self, file: str, origin: Origin = NO_ORIGIN) -> None:
        self.file = file
        self.problems: list[Problem] = []
        self.path: list[str] = []
        self.origin = origin
        self.references: list[Reference] = []

    def problem(self, node: Node, slug: str, text: str, hint: str = "", *, at_key: bool = False, offset: int = 0) -> Bad:
        """Report a fault at a node, or at its key."""
        if node.value is None and not at_key:
            return BAD  # refused and reported when it was read
        line, column = (node.key_line, node.key_column) if at_key else (node.line, node.column + offset)
        path = ".".join(self.path)
        where = f"{path}: " if path else ""
        self.problems.append(Problem(self.file, line, column, slug, f"{where}{text}", hint))
        return BAD

    def where(self, node: Node) -> Where:
        """Where a node stands; a record's place is its key's."""
        if node.key_line:
            return Where(self.file, node.key_line, node.key_column)
        return Where(self.file, node.line, node.column)


class Reference(typing.NamedTuple):
    """A name that must be defined somewhere: its room, and where it is used."""

    room: str
    id: str
    path: str
    where: Where


def text_of(node: Node, reader: Reader) -> str | Bad:
    """A plain, non-empty word or sentence."""
    if isinstance(node.value, str):
        text = node.value.strip()
        return text or reader.problem(node, "empty", "nothing is written here", "write a value or leave the key out")
    return reader.problem(node, "wrong-shape", "a single value is wanted here, not a list or mapping")


def mapping_of(node: Node, reader: Reader) -> dict[str, Node] | Bad:
    """A mapping."""
    if isinstance(node.value, dict):
        return node.value
    return reader.problem(node, "wrong-shape", f"a mapping is wanted here, not {shape(node)}", "write indented key: value lines")


def shape(node: Node) -> str:
    """A node's shape in words."""
    if isinstance(node.value, str):
        return f"{node.value[:40]!r}" if node.value else "nothing"
    return "a list" if isinstance(node.value, list) else "a mapping"


def one_of(words: Sequence[str]) -> Read:
    """A decoder for a closed list of words."""

    def read(node: Node, reader: Reader) -> Any:
        text = text_of(node, reader)
        if isinstance(text, Bad) or text in words:
            return text
        return reader.problem(node, "unknown-word", f"{text!r} is not one of the words for this", suggestion(text, words))

    return read


def _whole(node: Node, reader: Reader) -> Any:
    text = text_of(node, reader)
    if isinstance(text, Bad):
        return BAD
    if text.isascii() and text.isdigit() and len(text) <= MOST_DIGITS and int(text) > 0:
        return int(text)
    return reader.problem(node, "not-a-count", f"{text!r} is not a whole number", "write a number such as 12")


def _share(node: Node, reader: Reader) -> Any:
    quantity = _amount(node, reader, "share")
    if isinstance(quantity, Bad):
        return BAD
    if not 0 <= quantity.value <= 1:
        return reader.problem(node, "not-a-share", f"{quantity.text!r} is not a share between 0 and 1")
    return quantity.value


def _signed(node: Node, reader: Reader) -> Any:
    """A share that may be taken away: -1 to 1."""
    text = text_of(node, reader)
    if isinstance(text, Bad):
        return BAD
    minus = text.startswith("-")
    share = _share(node._replace(value=text.lstrip("+-")), reader)
    return BAD if isinstance(share, Bad) else -share if minus else share


def _truth(node: Node, reader: Reader) -> Any:
    text = one_of(("yes", "no"))(node, reader)
    return BAD if isinstance(text, Bad) else text == "yes"


def _read_with(function: Callable[[str], Any]) -> Read:
    def read(node: Node, reader: Reader) -> Any:
        text = text_of(node, reader)
        if isinstance(text, Bad):
            return BAD
        try:
            return function(text)
        except QuantityError as error:
            return reader.problem(node, "bad-figure", error.message, error.hint, offset=error.position)

    return read


def _amount(node: Node, reader: Reader, dimension: str) -> Quantity | Bad:
    text = text_of(node, reader)
    if isinstance(text, Bad):
        return BAD
    try:
        return read_quantity(text, dimension)
    except QuantityError as error:
        return reader.problem(node, "bad-figure", error.message, error.hint, offset=error.position)


ORIGIN_KEYS = ("read", "basis", "from", "on")


def read_origin(entries: Mapping[str, Node], reader: Reader) -> Origin:
    """The origin keys of a mapping, over what the reader inherits."""
    words: list[str] = []
    for key in ORIGIN_KEYS:
        node = entries.get(key)
        if node is None:
            words.append("")
            continue
        choices = {"read": READINGS, "basis": BASES}.get(key)
        reader.path.append(key)
        text = one_of(choices)(node, reader) if choices else text_of(node, reader)
        reader.path.pop()
        words.append("" if isinstance(text, Bad) else text)
    return Origin(*words).over(reader.origin)


def figure_of(dimension: str, choices: tuple[str, ...] = ()) -> Read:
    """A decoder for a figure of a dimension, or a word (from the choices, where given), or a reference.

    A figure is a plain value, a mapping {value, read, basis, from, on}, or a list of these where sources differ.
    """
    word = one_of(choices) if choices else text_of

    def plain(node: Node, reader: Reader, origin: Origin) -> Any:
        where = Where(reader.file, node.line, node.column)
        if dimension == "word":
            text = word(node, reader)
            return BAD if isinstance(text, Bad) else Figure(word=text, origin=origin, where=where)
        if dimension in RATED_DIMENSIONS:
            rating = _read_with(lambda text: read_rating(text, dimension))(node, reader)
            if isinstance(rating, Bad):
                return BAD
            speed = rating.speed.value if rating.speed else None
            amount = rating.amount._replace(text=rating.text)
            return Figure(quantity=amount, speed_rpm=speed, origin=origin, where=where)
        amount = _amount(node, reader, dimension)
        return BAD if isinstance(amount, Bad) else Figure(quantity=amount, origin=origin, where=where)

    def read(node: Node, reader: Reader) -> Any:
        value = node.value
        if isinstance(value, list):
            if not value:
                return reader.problem(node, "empty", "an empty list of figures", "leave the key out where it is not known")
            several = [read(child, reader) for child in value]
            if any(isinstance(one, Bad) for one in several):
                return BAD
            return dataclasses.replace(several[0], others=tuple(several[1:]))
        if not isinstance(value, dict):
            return plain(node, reader, reader.origin)
        for key, child in value.items():
            if key != "value" and key not in ORIGIN_KEYS:
                hint = suggestion(key, ("value", *ORIGIN_KEYS))
                return reader.problem(child, "unknown-key", f"a figure has no {key!r}", hint, at_key=True)
        if "value" not in value:
            return reader.problem(node, "missing-key", "a figure needs a value", "write value: and the figure")
        return plain(value["value"], reader, read_origin(value, reader))

    return read


def _id(node: Node, reader: Reader) -> Any:
    return text_of(node, reader)


def _several(inner: Read) -> Read:
    """A list, or one item written without the list."""

    def read(node: Node, reader: Reader) -> Any:
        children = node.value if isinstance(node.value, list) else [node]
        out = [inner(child, reader) for child in children]
        return BAD if any(isinstance(one, Bad) for one in out) else tuple(out)

    return read


def _keyed(inner: Read) -> Read:
    def read(node: Node, reader: Reader) -> Any:
        entries = mapping_of(node, reader)
        if isinstance(entries, Bad):
            return BAD
        out = {}
        for key, child in entries.items():
            reader.path.append(key)
            value = inner(child, reader)
            reader.path.pop()
            if not isinstance(value, Bad):
                out[key] = value
        return out

    return read


def _raw(node: Node, reader: Reader) -> Any:
    del reader
    return BAD if node.value is None else node


SPECIAL: dict[type, Read] = {}


def decoder(type_: Any) -> Read:
    """The decoder for a type hint. Raises TypeError for a hint it does not know."""
    if typing.get_origin(type_) is Annotated:
        inner, label = typing.get_args(type_)
        if isinstance(label, tuple):
            return one_of(label)
        if inner is Figure:
            return figure_of(label)
        return {"count": _whole, "share": _share, "signed": _signed, "id": _id}[label]
    origin, args = typing.get_origin(type_), typing.get_args(type_)
    if origin in (types.UnionType, typing.Union):
        (inner,) = (arg for arg in args if arg is not type(None))
        return decoder(inner)
    if origin is tuple and args[-1] is Ellipsis:
        return _several(decoder(args[0]))
    if origin in (Mapping, dict):
        return _keyed(decoder(args[1]))
    if type_ in SPECIAL:
        return SPECIAL[type_]
    if dataclasses.is_dataclass(type_):
        return lambda node, reader: record(type_, node, reader)  # type: ignore[arg-type]
    simple: dict[Any, Read] = {
        str: text_of,
        bool: _truth,
        int: _whole,
        Node: _raw,
        Thread: _read_with(read_thread),
        Spline: _read_with(read_spline),
    }
    if type_ not in simple:
        raise TypeError(f"no decoder for {type_!r}")
    return simple[type_]


class _Field(typing.NamedTuple):
    name: str
    read: Read
    required: bool


@functools.cache
def _fields(cls: type) -> dict[str, _Field]:
    """Key to field, for what a person may write."""
    hints = typing.get_type_hints(cls, include_extras=True)
    fields: dict[str, _Field] = {}
    for each in dataclasses.fields(cls):
        if each.name in MADE_BY_DECODER:
            continue
        required = each.default is dataclasses.MISSING and each.default_factory is dataclasses.MISSING
        fields[each.name.rstrip("_")] = _Field(each.name, decoder(hints[each.name]), required)
    return fields


@functools.cache
def _has(cls: type, name: str) -> bool:
    return name in {each.name for each in dataclasses.fields(cls)}


def record(cls: type[T], node: Node, reader: Reader, **made: object) -> T | Bad:
    """A dataclass from a mapping. ``made`` are fields the caller knows, such as the id."""
    entries = mapping_of(node, reader)
    if isinstance(entries, Bad):
        return BAD
    fields = _fields(cls)
    outer = reader.origin
    if _has(cls, "origin"):
        if "origin" in entries:
            reader.origin = inherited_origin(entries["origin"], reader)
        made["origin"] = reader.origin
        made["where"] = reader.where(node)
    values: dict[str, object] = made
    sound = True
    for key, child in entries.items():
        each = fields.get(key)
        if each is None:
            if key != "origin" or "origin" not in made:
                hint = suggestion(key, tuple(fields))
                reader.problem(child, "unknown-key", f"there is no {key!r} here", hint, at_key=True)
            continue
        reader.path.append(key)
        value = each.read(child, reader)
        reader.path.pop()
        if isinstance(value, Bad):
            sound = False
        else:
            values[each.name] = value
    for key, each in fields.items():
        if each.required and key not in entries:
            sound = False
            reader.problem(node, "missing-key", f"{key!r} is missing", f"write {key}: here", at_key=bool(node.key_line))
    reader.origin = outer
    return cls(**values) if sound else BAD


def inherited_origin(node: Node, reader: Reader) -> Origin:
    """The origin: of a file or record, over the one outside it."""
    entries = mapping_of(node, reader)
    if isinstance(entries, Bad):
        return reader.origin
    for key, child in entries.items():
        if key not in ORIGIN_KEYS:
            reader.problem(child, "unknown-key", f"an origin has no {key!r}", suggestion(key, ORIGIN_KEYS), at_key=True)
    return read_origin(entries, reader)
