"""A JSON Schema of catalog files, for editors: made from the model and the sentence under each of its fields.

It says less than the reader checks (an editor does not know threads from text); what it says is draft-07. The committed copy is
catalog/catalog.schema.json; scripts/catalog_schema.py writes it.
"""

from __future__ import annotations

import ast
import dataclasses
import functools
import inspect
import itertools
import json
import re
import types
import typing
from collections.abc import Mapping
from typing import Annotated, Any

from interchange.catalog.decode import MADE_BY_DECODER
from interchange.catalog.figure import BASES, READINGS, Figure
from interchange.catalog.kind import FEATURE_TYPES, Factor, FeatureType, Rule
from interchange.catalog.kind_rules import RULES
from interchange.catalog.nodes import Node
from interchange.catalog.rates import RATE_TABLES
from interchange.catalog.rooms import ID, RATES, ROOMS
from interchange.quantity import Spline, Taper, Thread

Schema = dict[str, Any]

TITLE = "catalog file"

TEXT: Schema = {"type": ["string", "number", "boolean"]}  # an editor takes 540 and yes for more than the words they are here
ORIGIN: Schema = {
    "description": "Where figures come from; holds for every one below that says nothing else.",
    "type": "object",
    "properties": {
        "read": {"description": "How it was read; this sets its tolerance.", "enum": [*READINGS]},
        "basis": {"description": "On what ground it is believed.", "enum": [*BASES]},
        "from": {"description": "Who or what says so.", **TEXT},
        "on": {"description": "When, as 2026-05-02.", **TEXT},
    },
    "additionalProperties": False,
}


def _list_of(item: Schema) -> Schema:
    return {"type": "array", "items": item, "minItems": 1}


def _ref(name: str) -> Schema:
    return {"$ref": f"#/definitions/{name}"}


def _figure() -> Schema:
    noted = {**ORIGIN, "properties": {"value": TEXT, **ORIGIN["properties"]}, "required": ["value"]}
    noted["description"] = "A figure with its origin."
    one = [TEXT, noted]
    return {"anyOf": [*one, {**_list_of({"anyOf": one}), "description": "What each source says, where they differ."}]}


def _limit() -> Schema:
    return {"anyOf": [TEXT, {"type": "object", "properties": {"below": TEXT, "above": TEXT}, "additionalProperties": False}]}


def _rule() -> Schema:
    limits: Schema = {name: _limit() for name in RULES if name != "pairs"}
    limits["pairs"] = _list_of({**_list_of(TEXT), "minItems": 2, "maxItems": 2})
    one_of_them = {"type": "object", "properties": limits, "additionalProperties": False, "minProperties": 1, "maxProperties": 1}
    return {"anyOf": [{"enum": [name for name in RULES if name not in ("within", "pairs")]}, one_of_them]}


SIMPLE: dict[object, Schema] = {
    str: TEXT,
    Thread: TEXT,
    Spline: TEXT,
    Taper: TEXT,
    bool: {"enum": ["yes", "no"]},
    Node: {},
    Rule: _rule(),
    Factor: {"type": "number", "minimum": 0},
    FeatureType: {"anyOf": [{"enum": [*FEATURE_TYPES]}, _list_of(TEXT)]},
}
NUMERAL = re.compile(r"[0-9]+(\.[0-9]+)?")  # a word such as 8.8, which an editor takes for a number
LABELLED: dict[str, Schema] = {
    "count": {"type": "integer", "minimum": 1},
    "number": {"type": "integer", "minimum": 0},
    "share": {"type": ["number", "string"]},
    "times": {"type": "number", "minimum": 0},
    "likelihood": {"type": "number", "minimum": 0},
    "id": TEXT,
}


@functools.cache
def sentences(cls: type) -> dict[str, str]:
    """The sentence under each field of a class, from its source."""
    (made,) = ast.parse(inspect.getsource(cls)).body
    body = made.body if isinstance(made, ast.ClassDef) else []
    found = {}
    for field, under in itertools.pairwise(body):
        if isinstance(field, ast.AnnAssign) and isinstance(field.target, ast.Name) and isinstance(under, ast.Expr):
            found[field.target.id] = ast.literal_eval(under.value)
    return found


def _of_type(type_: Any, definitions: dict[str, Schema]) -> Schema:  # noqa: ANN401 - a type hint
    """What may be written for a type hint."""
    origin, args = typing.get_origin(type_), typing.get_args(type_)
    if origin is Annotated:
        inner, label = args
        if isinstance(label, tuple):
            return {"enum": [word for word in label if word] + [float(word) for word in label if NUMERAL.fullmatch(word)]}
        return _ref("figure") if inner is Figure else LABELLED[label]
    if origin in (types.UnionType, typing.Union):
        return _of_type(next(arg for arg in args if arg is not type(None)), definitions)
    if origin is tuple:
        item = _of_type(args[0], definitions)
        return {"anyOf": [item, {"type": "array", "items": item}]}
    if origin is Mapping:
        return {"type": "object", "additionalProperties": _of_type(args[1], definitions)}
    if type_ in SIMPLE:
        return SIMPLE[type_]
    _define(type_, definitions)
    return _ref(type_.__name__)


def _define(cls: type, definitions: dict[str, Schema]) -> None:
    """Add what may be written for a class, and for every class it holds."""
    if cls.__name__ in definitions:
        return
    made: Schema = {"description": inspect.cleandoc(cls.__doc__ or ""), "type": "object"}
    definitions[cls.__name__] = made
    hints = typing.get_type_hints(cls, include_extras=True)
    fields = [field for field in dataclasses.fields(cls) if field.name not in MADE_BY_DECODER]
    properties: Schema = {"origin": _ref("origin")} if "origin" in hints else {}
    for field in fields:
        properties[field.name] = {"description": sentences(cls)[field.name], "allOf": [_of_type(hints[field.name], definitions)]}
    missing = dataclasses.MISSING
    required = [field.name for field in fields if field.default is missing and field.default_factory is missing]
    made |= {"properties": properties, "additionalProperties": False} | ({"required": required} if required else {})


def schema() -> Schema:
    """The schema of a catalog file."""
    definitions: dict[str, Schema] = {"origin": ORIGIN, "figure": _figure()}
    rooms: Schema = {"origin": _ref("origin")}
    for room, cls in ROOMS.items():
        if room == RATES:
            tables = {id_: _of_type(table, definitions) for id_, table in RATE_TABLES.items()}
            rooms[room] = {"type": "object", "properties": tables, "additionalProperties": False}
        else:
            names = {"pattern": f"^{ID.pattern}$"}
            rooms[room] = {"type": "object", "propertyNames": names, "additionalProperties": _of_type(cls, definitions)}
    return {
        "$schema": "http://json-schema.org/draft-07/schema#",
        "title": TITLE,
        "description": "A mapping of rooms; a room is a mapping of ids to records.",
        "type": "object",
        "properties": rooms,
        "additionalProperties": False,
        "definitions": definitions,
    }


def schema_text() -> str:
    """The schema as it is committed."""
    return json.dumps(schema(), indent=1, ensure_ascii=False) + "\n"
