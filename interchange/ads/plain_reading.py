"""A reading as plain lists and back again, so that a database or a file can hold it."""

from __future__ import annotations

import dataclasses
import functools
import types
import typing
from typing import Any

from interchange.ads.fields import AdReading, Span

SPAN_FIELD = "span"


def to_plain(reading: AdReading) -> dict[str, Any]:
    """A reading as what JSON can say: each field a list of its parts, or a list of such."""
    return {each.name: getattr(reading, each.name) for each in dataclasses.fields(reading)}


def from_plain(plain: dict[str, Any]) -> AdReading:
    """A reading from what :func:`to_plain` gave, through JSON or not."""
    made: dict[str, Any] = {}
    for name, (cls, several) in _shapes().items():
        value = plain[name]
        if not hasattr(cls, "_fields"):
            made[name] = value
        elif several:
            made[name] = tuple(_made(cls, parts) for parts in value)
        else:
            made[name] = None if value is None else _made(cls, value)
    return AdReading(**made)


def _made(cls: Any, parts: list[Any]) -> Any:  # noqa: ANN401 - one of the named tuples of a reading
    at = cls._fields.index(SPAN_FIELD)
    return cls(*parts[:at], Span(*parts[at]), *parts[at + 1 :])


@functools.cache
def _shapes() -> dict[str, tuple[Any, bool]]:
    """For each field of a reading: the named tuple it holds, and whether it holds several."""
    shapes: dict[str, tuple[Any, bool]] = {}
    for name, hint in typing.get_type_hints(AdReading).items():
        origin, arguments = typing.get_origin(hint), typing.get_args(hint)
        if origin is tuple:
            shapes[name] = (arguments[0], True)
        elif origin in (types.UnionType, typing.Union):
            shapes[name] = (next(each for each in arguments if each is not types.NoneType), False)
        else:
            shapes[name] = (hint, False)
    return shapes
