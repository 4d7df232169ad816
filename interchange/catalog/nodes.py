"""YAML text into nodes: raw scalars with the line and column of each key and value.

Scalars stay text, because YAML 1.1 would read 1:2 as 62, 010 as 8 and no as False: the type of a field decides what its
text means. Aliases, anchors, tags, duplicate keys, deep nesting and oversized files are refused, each with its line. The
parser's events are read with the garbage collector paused: nothing here makes cycles, and the collector would double the time.
"""

from __future__ import annotations

import contextlib
import gc
import itertools
import re
from collections.abc import Callable, Iterable, Iterator
from typing import Any, NamedTuple, TypeAlias

import yaml

from interchange.catalog.folders import MOST_BYTES
from interchange.errors import Problem

MOST_DEPTH = 32
LOADER: type[Any] = getattr(yaml, "CSafeLoader", yaml.SafeLoader)

BREAK = re.compile("\r\n|[\r\n\x85\u2028\u2029]")
# What YAML lets through in quotes alone, as "\e[1m" or "\0", but no figure or name has: it could write on a terminal.
CONTROL = re.compile("[\0-\x08\x0b-\x1f\x7f-\x9f\ud800-\udfff]")
BAD_CHARACTER = ("bad-character", "a control character", "take it out")

Value: TypeAlias = "str | dict[str, Node] | list[Node] | None"
Event: TypeAlias = Any  # an event of either loader: their stubs say too little of it


class Node(NamedTuple):
    """A scalar (text), mapping or list, and where it stands, counted from 1; a quoted scalar stands after its quote.

    ``value`` is None where the node was refused and reported already: what follows from it is not reported again.
    """

    value: Value
    line: int
    column: int
    key_line: int = 0
    key_column: int = 0


@contextlib.contextmanager
def collector_paused() -> Iterator[None]:
    """The garbage collector off for a while, and afterwards as it was."""
    was_enabled = gc.isenabled()
    gc.disable()
    try:
        yield
    finally:
        if was_enabled:
            gc.enable()


def read_nodes(text: str, file: str) -> tuple[Node | None, list[Problem]]:
    """The one document of a YAML text as nodes, and what was refused in it.

    The node is None where the text is empty or not YAML; the problems then say why.
    """
    if len(text) > MOST_BYTES:
        hint = f"split it into files of less than {MOST_BYTES / 2**20:g} MiB"
        return None, [Problem(file, 1, 1, "too-large", f"the file holds {len(text):,} characters", hint)]
    tree = _Tree(file)
    with collector_paused():
        try:
            with _events(text) as next_event:
                return tree.document(next_event), tree.problems
        except yaml.MarkedYAMLError as error:
            mark = error.problem_mark or error.context_mark
            line, column = (mark.line + 1, mark.column + 1) if mark else (1, 1)
            words = " ".join(filter(None, (error.context, error.problem)))
            tree.report(line, column, "not-yaml", f"this is not YAML: {words}", "check indents, quotes and colons")
        except (yaml.reader.ReaderError, UnicodeEncodeError):
            # The two loaders count the place differently, one in bytes and one in characters: it is looked for here.
            found = yaml.reader.Reader.NON_PRINTABLE.search(text)
            line, column = _place(text, found.start() if found else 0)
            tree.report(line, column, "bad-character", "a character that YAML does not allow", "take it out")
        except (ValueError, OverflowError):  # the pure loader on "\UFFFFFFFF"
            tree.report(
                tree.line, 1, "not-yaml", "this is not YAML, here or soon after: no such character", "check what is escaped"
            )
    return None, tree.problems


@contextlib.contextmanager
def _events(text: str) -> Iterator[Callable[[], Any]]:
    """What gives the next event of a text, and None after the last."""
    loader = LOADER(text)
    try:
        yield loader.get_event
    finally:
        loader.dispose()


def _place(text: str, offset: int) -> tuple[int, int]:
    """Line and column of an offset, counted from 1."""
    line, start = 1, 0
    for found in BREAK.finditer(text, 0, offset):
        line, start = line + 1, found.end()
    return line, offset - start + 1


class _Tree:
    """Builds the nodes of one file from its events, and collects what is refused.

    The events go by a million a second at best, so the two loops name their types locally and test the usual case first.
    """

    def __init__(self, file: str, line: int = 1) -> None:
        self.file = file
        self.first = line
        """The line on which the text begins."""
        self.line = line
        """The line of the node that was begun last."""
        self.problems: list[Problem] = []
        self.next: Callable[[], Any] = lambda: None

    def report(self, line: int, column: int, slug: str, text: str, hint: str) -> None:
        """One problem of this file."""
        self.problems.append(Problem(self.file, line, column, slug, text, hint))

    def document(self, next_event: Callable[[], Any]) -> Node | None:
        """The node of the one document; None where there is none."""
        self.next = next_event
        root: Node | None = None
        documents = 0
        while (event := next_event()) is not None:
            kind = type(event)
            if kind is yaml.DocumentStartEvent:
                documents += 1
                if documents > 1:
                    mark: Any = event.start_mark
                    self.report(mark.line + 1, mark.column + 1, "second-document", "a second document", "one file, one document")
                    break
            elif kind not in (yaml.StreamStartEvent, yaml.DocumentEndEvent, yaml.StreamEndEvent):
                root = self.node(event, 0, 0, 0)
        return root

    def node(self, event: Event, key_line: int, key_column: int, depth: int) -> Node:
        """The node that begins with an event, whatever it is."""
        mark = event.start_mark
        self.line, column = mark.line + self.first, mark.column + 1
        kind = type(event)
        refused = _refused(event, kind, depth)
        if refused:
            self.report(self.line, column, *refused)
            if kind not in (yaml.ScalarEvent, yaml.AliasEvent):
                self.skip()
            return Node(None, self.line, column, key_line, key_column)
        line = self.line
        value: Value
        if kind is yaml.ScalarEvent:
            value = event.value
            column += event.style in ("'", '"')
        else:
            value = self.mapping(depth + 1) if kind is yaml.MappingStartEvent else self.list(depth + 1)
        return Node(value, line, column, key_line, key_column)

    def skip(self) -> None:
        """Pass over what is left of a mapping or list that has begun."""
        depth = 1
        while depth:
            kind = type(self.next())
            depth += kind in (yaml.MappingStartEvent, yaml.SequenceStartEvent)
            depth -= kind in (yaml.MappingEndEvent, yaml.SequenceEndEvent)

    def list(self, depth: int) -> list[Node]:
        """The items of a list that has begun."""
        items = []
        while type(event := self.next()) is not yaml.SequenceEndEvent:
            items.append(self.node(event, 0, 0, depth))
        return items

    def mapping(self, depth: int) -> dict[str, Node]:
        """The entries of a mapping that has begun."""
        next_event, first, scalar, end = self.next, self.first, yaml.ScalarEvent, yaml.MappingEndEvent
        new: Any = tuple.__new__  # what Node() calls, at half the price
        entries: dict[str, Node] = {}
        mark: Any
        while type(event := next_event()) is not end:
            mark = event.start_mark
            key_line, key_column = mark.line + first, mark.column + 1
            usual = type(event) is scalar and not event.style and event.anchor is None and event.tag is None
            key = event.value if usual else self.odd_key(event, depth)
            event = next_event()
            if type(event) is scalar and not event.style and event.anchor is None and event.tag is None:
                mark = event.start_mark
                node = new(Node, (event.value, mark.line + first, mark.column + 1, key_line, key_column))
            else:
                node = self.node(event, key_line, key_column, depth)
            if key is None:
                continue
            if key in entries:
                hint = f"first on line {entries[key].key_line}; keep one"
                self.report(key_line, key_column, "duplicate-key", f"{key!r} stands here again", hint)
            else:
                entries[key] = node
        return entries

    def odd_key(self, event: Event, depth: int) -> str | None:
        """A key that is not a bare word: one in quotes, or None for one that is reported."""
        found = len(self.problems)
        node = self.node(event, 0, 0, depth)
        if node.value is None or (isinstance(node.value, str) and node.value.isprintable()):
            return node.value
        del self.problems[found:]  # what may be wrong within it does not matter
        text = "a key that is not a plain word"
        self.report(node.line, node.column, "bad-key", text, "write a word before the colon")
        return None


def _refused(event: Event, kind: type, depth: int) -> tuple[str, str, str] | None:
    """Why a node is not read: (slug, text, hint); None where it is."""
    write_out = "write the value out"
    if event.anchor is not None:
        if kind is yaml.AliasEvent:
            return "alias", "an alias (*) is not read here", write_out
        return "anchor", "an anchor (&) is not read here", write_out
    if event.tag is not None:
        return "tag", f"a tag ({event.tag}) is not read here", write_out
    if kind is yaml.ScalarEvent:
        return BAD_CHARACTER if not event.value.isprintable() and CONTROL.search(event.value) else None
    return ("too-deep", f"nesting deeper than {MOST_DEPTH} is not read here", "write it flatter") if depth >= MOST_DEPTH else None


def descend(node: Node, keys: Iterable[str | int]) -> Node:
    """The node at a path of keys, or the nearest above it: a single item may stand without its list."""
    for key in keys:
        inside = node.value
        if isinstance(inside, dict) and isinstance(key, str) and key in inside:
            node = inside[key]
            continue
        if not isinstance(inside, list) or not isinstance(key, int):
            break
        node = inside[key]
    return node


class Body(NamedTuple):
    """A node's own text, and the line of the file on which it begins."""

    text: str
    line: int


NO_BODY = Body("", 0)


def bodies(text: str, nodes: list[Node]) -> list[Body]:
    """The text of each node, up to the key of the next: what `node_of` reads again. In the order of the file."""
    if "\r" in text:  # a bare one would end a row on the way into the database
        text = text.replace("\r\n", "\n").replace("\r", "\n")
    lines = text.splitlines(keepends=True)
    found = []
    for node, following in itertools.zip_longest(nodes, nodes[1:]):
        first, start = node.line - 1, node.column - 1
        last, end = (following.key_line - 1, following.key_column - 1) if following else (len(lines), 0)
        whole = [*lines[first:last], lines[last][:end]] if end else lines[first:last]
        found.append(Body(" " * start + "".join(whole)[start:], node.line))
    return found


def node_of(body: Body, key_line: int, key_column: int) -> Node:
    """A mapping that was sound, read again from its text; what follows it there, which may be half of something, is left."""
    tree = _Tree("", body.line)
    with _events(body.text) as next_event:
        while type(event := next_event()) is not yaml.MappingStartEvent:
            pass
        tree.next = next_event
        return tree.node(event, key_line, key_column, 0)
