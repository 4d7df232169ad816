"""Nodes into typed values, driven by the type hints of the model.

Every fault becomes a Problem with its place; what follows from a reported fault is skipped, so one fault is one problem.
A decoder for a type is compiled once; decoding then is plain calls.
"""

from __future__ import annotations

import dataclasses
import functools
import re
import types
import typing
from collections.abc import Callable, Collection, Mapping, Sequence
from typing import Annotated, Any, TypeVar

from interchange.catalog.figure import BASES, NO_ORIGIN, READINGS, Figure, Origin, Where
from interchange.catalog.nodes import Node
from interchange.catalog.suggest import nearest, suggestion
from interchange.errors import Problem
from interchange.quantity import (
    Quantity,
    QuantityError,
    Spline,
    Taper,
    Thread,
    read_quantity,
    read_rating,
    read_spline,
    read_taper,
    read_thread,
)

RATED_DIMENSIONS = frozenset({"power", "torque"})
MADE_BY_DECODER = frozenset({"id", "where", "origin", "folder"})
MOST_COUNT = 9999  # no pattern has more holes; a slip of the finger must not fill the memory with them
MOST_SIZE = len(str(MOST_COUNT))
TIMES = r"[0-9]{1,4}(\.[0-9]{1,4})?"

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
    value = node.value
    if isinstance(value, str):
        text = value.strip()
        return text or reader.problem(node, "empty", "nothing is written here", "write a value or leave the key out")
    text = f"a single value is wanted here, not {shape(node)}"
    return reader.problem(node, "wrong-shape", text, "write one value after the colon")


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


def _counted(least: int) -> Read:
    """A decoder for a whole number."""

    def read(node: Node, reader: Reader) -> Any:
        text = text_of(node, reader)
        if isinstance(text, Bad):
            return BAD
        if not (text.isascii() and text.isdigit()) or int(text[:MOST_SIZE]) < least:
            return reader.problem(node, "not-a-count", f"{text!r} is not a whole number", f"write a number from {least} up")
        if len(text) > MOST_SIZE or int(text) > MOST_COUNT:
            return reader.problem(node, "not-a-count", f"{text[:40]!r} is too many", f"{MOST_COUNT:,} is the most")
        return int(text)

    return read


def _as_share(text: str) -> Quantity:
    return read_quantity(text, "share")


def _share(node: Node, reader: Reader) -> Any:
    quantity = _read_with(_as_share)(node, reader)
    return BAD if isinstance(quantity, Bad) else quantity.value


def _times(node: Node, reader: Reader) -> Any:
    """A decimal above 0, without a unit: how many times something else."""
    text = text_of(node, reader)
    if isinstance(text, Bad):
        return BAD
    if not re.fullmatch(TIMES, text) or not float(text):
        return reader.problem(node, "not-a-number", f"{text[:40]!r} is not a number above 0", "write a decimal such as 1.5")
    return float(text)


def _likelihood(node: Node, reader: Reader) -> Any:
    """A likelihood ratio: a decimal, 0 where a thing is never so."""
    text = text_of(node, reader)
    if isinstance(text, Bad):
        return BAD
    if not re.fullmatch(TIMES, text):
        return reader.problem(node, "not-a-number", f"{text[:40]!r} is no number of 0 or more", "write a decimal such as 1.5")
    return float(text)


def _truth(node: Node, reader: Reader) -> Any:
    text = one_of(("yes", "no"))(node, reader)
    return BAD if isinstance(text, Bad) else text == "yes"


def _read_with(function: Callable[[str], T]) -> Callable[[Node, Reader], T | Bad]:
    """A decoder for what a function reads from text."""

    def read(node: Node, reader: Reader) -> T | Bad:
        text = text_of(node, reader)
        if isinstance(text, Bad):
            return text
        try:
            return function(text)
        except QuantityError as error:
            return _misread(node, reader, error)

    return read


def _misread(node: Node, reader: Reader, error: QuantityError) -> Bad:
    """Report text that is no figure, at the character it is about."""
    before = len(node.value) - len(node.value.lstrip()) if isinstance(node.value, str) else 0
    return reader.problem(node, "bad-figure", error.message, error.hint, offset=before + error.position)


def misspelt(entries: Mapping[str, Node], known: Collection[str], reader: Reader, text: str) -> set[str]:
    """Report every key that is not known; the known ones that were probably meant, so that they are not missed as well."""
    meant = set()
    for key, node in entries.items():
        if key not in known:
            hint = suggestion(key, known) or "take it out, or look for its name in catalog.schema.json"
            reader.problem(node, "unknown-key", text.format(repr(key)), hint, at_key=True)
            meant.add(nearest(key, known))
    return meant


ORIGIN_READERS: dict[str, Read] = {"read": one_of(READINGS), "basis": one_of(BASES), "from": text_of, "on": text_of}
ORIGIN_KEYS = tuple(ORIGIN_READERS)


def read_origin(entries: Mapping[str, Node], reader: Reader) -> Origin:
    """The origin keys of a mapping, over what the reader inherits."""
    words: list[str] = []
    for key, read in ORIGIN_READERS.items():
        node = entries.get(key)
        if node is None:
            words.append("")
            continue
        reader.path.append(key)
        text = read(node, reader)
        reader.path.pop()
        words.append("" if isinstance(text, Bad) else text)
    return Origin(*words).over(reader.origin)


FIGURE_KEYS = ("value", *ORIGIN_KEYS)


def _plain_figure(dimension: str, choices: tuple[str, ...]) -> Callable[[Node, Reader, Origin], Figure | Bad]:
    """A decoder for a figure without a mapping about it; chosen once, because a catalog holds half a million."""
    if dimension == "word":
        word = one_of(choices) if choices else text_of

        def read_word(node: Node, reader: Reader, origin: Origin) -> Figure | Bad:
            text = word(node, reader)
            if isinstance(text, Bad):
                return text
            return Figure(word=text, origin=origin, where=Where(reader.file, node.line, node.column))

        return read_word
    if dimension in RATED_DIMENSIONS:
        rating = _read_with(lambda text: read_rating(text, dimension))

        def read_rated(node: Node, reader: Reader, origin: Origin) -> Figure | Bad:
            read = rating(node, reader)
            if isinstance(read, Bad):
                return read
            speed = read.speed.value if read.speed else None
            amount = read.amount._replace(text=read.text)
            return Figure(quantity=amount, speed_rpm=speed, origin=origin, where=Where(reader.file, node.line, node.column))

        return read_rated

    def read_amount(node: Node, reader: Reader, origin: Origin) -> Figure | Bad:
        text = text_of(node, reader)
        if isinstance(text, Bad):
            return text
        try:
            quantity = read_quantity(text, dimension)
        except QuantityError as error:
            return _misread(node, reader, error)
        return Figure(quantity=quantity, origin=origin, where=Where(reader.file, node.line, node.column))

    return read_amount


def figure_of(dimension: str, choices: tuple[str, ...] = ()) -> Read:
    """A decoder for a figure of a dimension, or a word (from the choices, where given), or a reference.

    A figure is a plain value, a mapping {value, read, basis, from, on}, or a list of these where sources differ.
    """
    plain = _plain_figure(dimension, choices)

    def one(node: Node, reader: Reader) -> Figure | Bad:
        value = node.value
        if not isinstance(value, dict):
            return plain(node, reader, reader.origin)
        meant = misspelt(value, FIGURE_KEYS, reader, "a figure has no {}")
        origin = read_origin(value, reader)
        if "value" in value:
            return plain(value["value"], reader, origin)
        if "value" in meant:
            return BAD
        return reader.problem(node, "missing-key", "a figure needs a value", "write value: and the figure")

    def read(node: Node, reader: Reader) -> Figure | Bad:
        value = node.value
        if isinstance(value, str):  # nearly always
            return plain(node, reader, reader.origin)
        if not isinstance(value, list):
            return one(node, reader)
        if not value:
            return reader.problem(node, "empty", "an empty list of figures", "leave the key out where it is not known")
        first, *others = [one(child, reader) for child in value]
        sound = tuple(other for other in others if not isinstance(other, Bad))
        if isinstance(first, Bad) or len(sound) < len(others):
            return BAD
        return first._replace(others=sound)

    return read


def _several(inner: Read) -> Read:
    """A list, or one item written without the list."""

    def read(node: Node, reader: Reader) -> Any:
        children = node.value if isinstance(node.value, list) else [node]
        out = [inner(child, reader) for child in children]
        return BAD if any(isinstance(one, Bad) for one in out) else tuple(out)

    return read


def _keyed(inner: Read) -> Read:
    """A mapping of free keys."""

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


SPECIAL: dict[type, Read] = {}


def decoder(type_: Any) -> Read:
    """The decoder for a type hint. Raises TypeError for a hint it does not know."""
    if typing.get_origin(type_) is Annotated:
        inner, label = typing.get_args(type_)
        if isinstance(label, tuple):
            return one_of(label)
        if inner is Figure:
            return figure_of(label)
        return {
            "count": _counted(1), "number": _counted(0), "share": _share, "times": _times,
            "likelihood": _likelihood, "id": text_of,
        }[label]  # fmt: skip
    origin, args = typing.get_origin(type_), typing.get_args(type_)
    if origin in (types.UnionType, typing.Union):
        (inner,) = (arg for arg in args if arg is not type(None))
        return decoder(inner)
    if origin is tuple and args[-1] is Ellipsis:
        return _several(decoder(args[0]))
    if origin is Mapping:
        return mapping_of if args[1] is Node else _keyed(decoder(args[1]))  # nodes are decoded later, by their kind
    if type_ in SPECIAL:
        return SPECIAL[type_]
    if dataclasses.is_dataclass(type_):
        return lambda node, reader: record(type_, node, reader)  # type: ignore[arg-type]
    simple: dict[Any, Read] = {
        str: text_of,
        bool: _truth,
        Thread: _read_with(read_thread),
        Spline: _read_with(read_spline),
        Taper: _read_with(read_taper),
    }
    if type_ not in simple:
        raise TypeError(f"no decoder for {type_!r}")
    return simple[type_]


class _Field(typing.NamedTuple):
    name: str
    read: Read
    required: bool


class _Form(typing.NamedTuple):
    """What may be written for a class: key to field, and whether it has an origin of its own."""

    fields: dict[str, _Field]
    has_origin: bool
    keys: frozenset[str]


@functools.cache
def _form(cls: type) -> _Form:
    hints = typing.get_type_hints(cls, include_extras=True)
    fields: dict[str, _Field] = {}
    for each in dataclasses.fields(cls):
        if each.name in MADE_BY_DECODER:
            continue
        required = each.default is dataclasses.MISSING and each.default_factory is dataclasses.MISSING
        fields[each.name] = _Field(each.name, decoder(hints[each.name]), required)
    own = {"origin"} & hints.keys()
    return _Form(fields, bool(own), frozenset(fields) | own)


def record(cls: type[T], node: Node, reader: Reader, **made: object) -> T | Bad:
    """A dataclass from a mapping. ``made`` are fields the caller knows, such as the id."""
    entries = mapping_of(node, reader)
    if isinstance(entries, Bad):
        return BAD
    form: _Form = _form(cls)  # type: ignore[arg-type]
    outer = reader.origin
    if form.has_origin:
        if "origin" in entries:
            reader.origin = inherited_origin(entries["origin"], reader)
        made["origin"] = reader.origin
        made["where"] = reader.where(node)
    meant = misspelt(entries, form.keys, reader, "there is no {} here") if not form.keys.issuperset(entries) else ()
    values: dict[str, Any] = made
    sound = True
    for key, each in form.fields.items():
        child = entries.get(key)
        if child is None:
            if each.required:
                sound = False
                if key not in meant:
                    hint = f"write {key}: and its value"
                    reader.problem(node, "missing-key", f"{key!r} is missing", hint, at_key=bool(node.key_line))
            continue
        reader.path.append(key)
        value = each.read(child, reader)
        reader.path.pop()
        if isinstance(value, Bad):
            sound = False
        else:
            values[each.name] = value
    reader.origin = outer
    return cls(**values) if sound else BAD


def inherited_origin(node: Node, reader: Reader) -> Origin:
    """The origin: of a file or record, over the one outside it."""
    entries = mapping_of(node, reader)
    if isinstance(entries, Bad):
        return reader.origin
    misspelt(entries, ORIGIN_KEYS, reader, "an origin has no {}")
    return read_origin(entries, reader)
