import re
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path

import pytest

from interchange.catalog.nodes import Node, read_nodes
from interchange.catalog.rooms import ROOMS
from interchange.catalog.schema import schema, schema_text

CATALOG = Path(__file__).parents[2] / "catalog"
SHIPPED = sorted(path for folder in ("standards", "trade", "demo/catalog") for path in (CATALOG / folder).glob("*.yaml"))
SCHEMA = schema()
TYPES = {"string": str, "number": (int, float), "integer": int, "boolean": bool, "object": dict, "array": list}


def as_an_editor_reads(node: Node) -> object:
    if isinstance(node.value, dict):
        return {key: as_an_editor_reads(child) for key, child in node.value.items()}
    if isinstance(node.value, list):
        return [as_an_editor_reads(child) for child in node.value]
    for pattern, number in ((r"-?[0-9]+", int), (r"-?[0-9]+\.[0-9]+", float)):
        if re.fullmatch(pattern, node.value):
            return number(node.value)
    return node.value


def faults(value: object, rule: dict, path: str = "") -> Iterator[str]:
    """What the schema does not allow: the keywords it uses, and no others."""
    told = {
        "$schema", "title", "description", "definitions", "$ref", "allOf", "anyOf", "enum", "type", "properties", "required",
        "additionalProperties", "propertyNames", "items", "minItems", "maxItems", "minimum", "minProperties", "maxProperties",
    }  # fmt: skip
    assert rule.keys() <= told
    if "$ref" in rule:
        assert len(rule) == 1, "draft-07 looks at nothing beside a $ref"
        yield from faults(value, SCHEMA["definitions"][rule["$ref"].removeprefix("#/definitions/")], path)
        return
    for each in rule.get("allOf", ()):
        yield from faults(value, each, path)
    if "anyOf" in rule and all(next(faults(value, each, path), None) for each in rule["anyOf"]):
        yield f"{path}: none of the forms"
    if "enum" in rule and value not in rule["enum"]:
        yield f"{path}: {value!r} is not one of the words"
    named = rule.get("type", [*TYPES])
    if not isinstance(value, tuple(TYPES[name] for name in ([named] if isinstance(named, str) else named))):
        yield f"{path}: {value!r} is not {named}"
        return
    if isinstance(value, (int, float)) and value < rule.get("minimum", value):
        yield f"{path}: too little"
    if isinstance(value, list):
        if not rule.get("minItems", 0) <= len(value) <= rule.get("maxItems", len(value)):
            yield f"{path}: {len(value)} items"
        for i, child in enumerate(value):
            yield from faults(child, rule.get("items", {}), f"{path}[{i}]")
    if isinstance(value, dict):
        yield from faults_of_keys(value, rule, path)


def faults_of_keys(value: dict, rule: dict, path: str) -> Iterator[str]:
    if not rule.get("minProperties", 0) <= len(value) <= rule.get("maxProperties", len(value)):
        yield f"{path}: {len(value)} keys"
    for key in rule.get("required", ()):
        if key not in value:
            yield f"{path}: no {key}"
    for key, child in value.items():
        known = rule.get("properties", {}).get(key, rule.get("additionalProperties", {}))
        if known is False:
            yield f"{path}.{key}: not known"
            continue
        if not re.search(rule.get("propertyNames", {}).get("pattern", ""), key):
            yield f"{path}.{key}: not an id"
        yield from faults(child, known, f"{path}.{key}")


def test_the_committed_schema_is_what_the_code_makes():
    committed = (CATALOG / "catalog.schema.json").read_text(encoding="utf-8")
    assert committed == schema_text(), "run scripts/catalog_schema.py"


def test_every_room_and_every_field_is_in_it_with_a_sentence():
    assert SCHEMA["properties"].keys() == {"origin", *ROOMS}
    for name, one in SCHEMA["definitions"].items():
        for key, field in one.get("properties", {}).items():
            assert key == "origin" or field["description"].strip(), f"{name}.{key}"


@pytest.mark.parametrize("path", SHIPPED, ids=lambda path: path.stem)
def test_the_shipped_files_are_what_it_allows(path):
    root, problems = read_nodes(path.read_text(encoding="utf-8"), path.name)
    assert root is not None
    assert not problems
    assert list(faults(as_an_editor_reads(root), SCHEMA)) == []


@pytest.mark.parametrize(
    ("text", "fault"),
    [
        pytest.param("unit: {}", ".unit: not known", id="unknown room"),
        pytest.param("units: {a: {kind: engine, title: A, makr: B}}", ".units.a.makr: not known", id="unknown key"),
        pytest.param("units: {a: {title: A}}", ".units.a: no kind", id="missing key"),
        pytest.param("units: {A b: {kind: engine, title: A}}", ".units.A b: not an id", id="id"),
        pytest.param("patterns: {a: {holes: 0}}", ".patterns.a.holes: too little", id="no holes"),
        pytest.param("patterns: {a: {circle: {valeu: 3 in}}}", ".patterns.a.circle: none of the forms", id="figure"),
        pytest.param("patterns: {a: {circle: []}}", ".patterns.a.circle: none of the forms", id="no figures"),
        pytest.param("origin: {basis: guess}", ".origin.basis: 'guess' is not one of the words", id="closed word"),
        pytest.param("rates: {labor: {}}", ".rates.labor: not known", id="unknown table"),
        pytest.param("shafts: [a]", ".shafts: ['a'] is not object", id="shape"),
    ],
)
def test_mistakes_are_not_allowed(text, fault):
    root, _ = read_nodes(text, "a.yaml")
    assert list(faults(as_an_editor_reads(root), SCHEMA)) == [fault]


def test_nothing_loads_it_at_start_up():
    script = (
        "import sys, interchange.catalog.checking, interchange.store.cache; print('interchange.catalog.schema' in sys.modules)"
    )
    run = subprocess.run([sys.executable, "-c", script], capture_output=True, text=True, check=True, cwd=CATALOG.parent)
    assert run.stdout.strip() == "False"
