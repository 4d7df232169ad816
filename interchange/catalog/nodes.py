"""YAML text into nodes: raw scalars with the line and column of each key and value.

Scalars stay text, because YAML 1.1 would read 1:2 as 62, 010 as 8 and no as False: the type of a field decides what its
text means. Aliases, anchors, tags, duplicate keys, deep nesting and oversized files are refused, each with its line. The
parser's events are read with the garbage collector paused: nothing here makes cycles, and the collector would double the time.
"""

from __future__ import annotations

import gc
from typing import TYPE_CHECKING, NamedTuple, TypeAlias

import yaml

from interchange.errors import Problem

if TYPE_CHECKING:
    from collections.abc import Iterator

MOST_DEPTH = 32
MOST_BYTES = 64 * 1024 * 1024
LOADER = getattr(yaml, "CSafeLoader", yaml.SafeLoader)

Value: TypeAlias = "str | dict[str, Node] | list[Node] | None"


class Node(NamedTuple):
    """A scalar (text), mapping or list, and where it stands, counted from 1.

    ``value`` is None where the node was refused and reported already: what follows from it is not reported again.
    """

    value: Value
    line: int
    column: int
    key_line: int = 0
    key_column: int = 0


class _Refusals:
    """Collects the problems of one file."""

    def __init__(self, file: str) -> None:
        self.file = file
        self.problems: list[Problem] = []

    def add(self, line: int, column: int, slug: str, text: str, hint: str) -> None:
        self.problems.append(Problem(self.file, line, column, slug, text, hint))


def read_nodes(text: str, file: str) -> tuple[Node | None, list[Problem]]:
    """The one document of a YAML text as nodes, and what was refused in it.

    The node is None where the text is empty or not YAML; the problems then say why.
    """
    if len(text) > MOST_BYTES:
        hint = f"split it into files of less than {MOST_BYTES // 2**20} MiB"
        return None, [Problem(file, 1, 1, "too-large", f"the file holds {len(text):,} characters", hint)]
    refusals = _Refusals(file)
    was_enabled = gc.isenabled()
    gc.disable()
    try:
        root = _build(yaml.parse(text, Loader=LOADER), refusals)
    except yaml.MarkedYAMLError as error:
        mark = error.problem_mark or error.context_mark
        line, column = (mark.line + 1, mark.column + 1) if mark else (1, 1)
        words = " ".join(filter(None, (error.context, error.problem)))
        refusals.add(line, column, "not-yaml", f"this is not YAML: {words}", "check indents, quotes and colons")
        root = None
    except yaml.reader.ReaderError as error:
        before = text[: error.position]
        line, column = before.count("\n") + 1, error.position - before.rfind("\n")
        refusals.add(line, column, "bad-character", "a character that YAML does not allow", "remove it")
        root = None
    finally:
        if was_enabled:
            gc.enable()
    return root, refusals.problems


def _build(events: Iterator[yaml.Event], refusals: _Refusals) -> Node | None:  # noqa: PLR0915 - one loop, for speed
    """Nodes from events. Each open mapping or list is kept with the key its next value belongs to."""
    scalar_event, mapping_start, list_start = yaml.ScalarEvent, yaml.MappingStartEvent, yaml.SequenceStartEvent
    container_ends = (yaml.MappingEndEvent, yaml.SequenceEndEvent)
    root: Node | None = None
    stack: list[Node] = []
    keys: list[tuple[str, int, int] | None] = []
    documents = 0
    skipping = 0
    for event in events:
        kind = type(event)
        if kind in container_ends:
            if skipping:
                skipping -= 1
            else:
                stack.pop()
                keys.pop()
            continue
        if skipping:
            skipping += kind in (mapping_start, list_start)
            continue
        if kind is yaml.DocumentStartEvent:
            documents += 1
            if documents > 1:
                refusals.add(event.start_mark.line + 1, 1, "second-document", "a second document", "one file, one document")
                return root
            continue
        if kind not in (scalar_event, mapping_start, list_start, yaml.AliasEvent):
            continue
        mark = event.start_mark
        line, column = mark.line + 1, mark.column + 1
        value: Value
        refused = None
        if event.anchor is not None:
            refused = ("alias", "an alias (*)") if kind is yaml.AliasEvent else ("anchor", "an anchor (&)")
        elif event.tag is not None:
            refused = ("tag", f"a tag ({event.tag})")
        elif len(stack) >= MOST_DEPTH and kind is not scalar_event:
            refused = ("too-deep", f"nesting deeper than {MOST_DEPTH}")
        if refused:
            refusals.add(line, column, refused[0], f"{refused[1]} is not read here", "write the value out")
            value = None
        elif kind is scalar_event:
            value = event.value
        else:
            value = {} if kind is mapping_start else []
        if stack and keys[-1] is None and type(stack[-1].value) is dict:  # this node is a key
            key = value
            if not isinstance(key, str):
                if not refused:
                    refusals.add(line, column, "bad-key", "a key that is not a plain word", "write a word before the colon")
                key = f"\0{line}:{column}"
            keys[-1] = (key, line, column)
            skipping += kind in (mapping_start, list_start)
            continue
        if not stack:
            node = root = Node(value, line, column)
        else:
            parent = stack[-1].value
            if type(parent) is list:
                node = Node(value, line, column)
                parent.append(node)
            else:
                key_text, key_line, key_column = keys[-1]  # type: ignore[misc] - a mapping's value has its key
                keys[-1] = None
                node = Node(value, line, column, key_line, key_column)
                first = parent.get(key_text)  # type: ignore[union-attr]
                if first is not None:
                    where = f"line {first.key_line}"
                    refusals.add(key_line, key_column, "duplicate-key", f"{key_text!r} stands here again", f"first on {where}")
                elif not key_text.startswith("\0"):
                    parent[key_text] = node  # type: ignore[index, call-overload]
        if kind is not scalar_event and kind is not yaml.AliasEvent:
            if refused:
                skipping = 1
            else:
                stack.append(node)
                keys.append(None)
    return root


def node_from_json(body: list[object]) -> Node:
    """A node from what ``json.dumps`` made of it."""
    value, line, column, key_line, key_column = body
    if isinstance(value, dict):
        value = {key: node_from_json(child) for key, child in value.items()}
    elif isinstance(value, list):
        value = [node_from_json(child) for child in value]
    return Node(value, line, column, key_line, key_column)  # type: ignore[arg-type]
