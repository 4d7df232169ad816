"""Checking catalog files without a database: the files asked about in full, the rest of the search path for its names only.

What is already in the catalog was checked when it was written, so its names and kinds are enough; that keeps the check of one small
file as quick as starting the program.
"""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

from interchange.catalog.check import SourceText, check_record, defined_twice, read_kinds, unknown_references
from interchange.catalog.figure import Where
from interchange.catalog.folders import read_text, shown_name, source_files
from interchange.catalog.model import Unit
from interchange.catalog.rooms import parse_file, read_file
from interchange.errors import InputError, Problem

if TYPE_CHECKING:
    from interchange.catalog.nodes import Node
    from interchange.catalog.rooms import Record


def files_at(paths: tuple[Path, ...]) -> list[Path]:
    """The catalog files that paths name: files as they are, folders with all they hold.

    Raises InputError for a path that is not there.
    """
    found: list[Path] = []
    for path in paths:
        if path.is_dir():
            found += [source.path for source in source_files((path,))]
        elif path.is_file():
            found.append(path)
        else:
            raise InputError(f"there is no {shown_name(path)}", "name a file or a folder")
    return list(dict.fromkeys(found))


def check_files(targets: list[Path], folders: tuple[Path, ...]) -> tuple[int, tuple[Problem, ...]]:
    """(how many records were read, every problem) of the target files, against the search path they belong to."""
    asked = {path.resolve() for path in targets}
    context = [source for source in source_files(folders) if source.path.resolve() not in asked]
    ranks = {source.path.resolve(): source.rank for source in source_files(folders)}
    checked = [SourceText(shown_name(path), read_text(path), ranks.get(path.resolve(), len(folders))) for path in targets]
    around = [SourceText(source.name, read_text(source.path), source.rank) for source in context]
    kinds = read_kinds([*around, *checked])
    known: dict[str, set[str]] = {}
    first: dict[tuple[str, str, int], Where] = {}
    for text in around:
        rooms, _, _ = parse_file(text.text, text.name)
        for room, nodes in rooms.items():
            for id_, node in nodes.items():
                _know(known, room, id_, _variants(node))
                first.setdefault((room, id_, text.rank), Where(text.name, node.key_line, node.key_column))
    files = [read_file(text.text, text.name, kinds) for text in checked]
    problems = [problem for file in files for problem in file.problems]
    for text, file in zip(checked, files, strict=True):
        for one in file.records:
            _know(known, one.room, one.id, list(one.value.variants) if isinstance(one.value, Unit) else [])
            held = first.setdefault((one.room, one.id, text.rank), one.where)
            if held != one.where:
                problems.append(defined_twice(one.room, one.id, one.where, held))
        for room, nodes in parse_file(text.text, text.name)[0].items():  # a faulty record is still a name that is there
            for id_, node in nodes.items():
                _know(known, room, id_, _variants(node))
    for file in files:
        for one in file.records:
            problems += _of_record(one, known)
    return sum(len(file.records) for file in files), tuple(sorted(set(problems)))


def _of_record(one: Record, known: dict[str, set[str]]) -> list[Problem]:
    return [*unknown_references(one.references, known), *check_record(one)]


def _know(known: dict[str, set[str]], room: str, id_: str, variants: list[str]) -> None:
    names = known.setdefault(room, set())
    names.add(id_)
    names.update(f"{id_}.{variant}" for variant in variants)


def _variants(node: Node) -> list[str]:
    inside = node.value.get("variants") if isinstance(node.value, dict) else None
    return list(inside.value) if inside and isinstance(inside.value, dict) else []
