"""Checking catalog files without a database: the files asked about in full, the rest of the search path for its names only.

What is already in the catalog was checked when it was written, so its names and kinds are enough, and those only of files that
can matter: where an id of the checked ones, or a name they use, stands somewhere in the text. That keeps the check of one small
file as quick as starting the program.
"""

from __future__ import annotations

import collections
from pathlib import Path

from interchange.catalog.check import Names, SourceText, check_record, read_kinds, unknown_references
from interchange.catalog.folders import read_text, shown_name, source_files
from interchange.catalog.rooms import CatalogFile, names_in, parse_file, read_file
from interchange.errors import InputError, Problem

ROOMS_WITH_KINDS = ("units", "machines", "adapters", "health_tests")
MOST_LOOKED_FOR = 200  # names to look for in the text of other files; beyond that it is quicker to read them


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
    sources = source_files(folders)
    ranks = {source.path.resolve(): source.rank for source in sources}
    around = [SourceText(each.name, read_text(each.path), each.rank) for each in sources if each.path.resolve() not in asked]
    checked = [SourceText(shown_name(path), read_text(path), ranks.get(path.resolve(), len(folders))) for path in targets]
    needing = any(room in text.text for text in checked for room in ROOMS_WITH_KINDS)
    kinds = read_kinds([*around, *checked] if needing else checked)
    files = [read_file(text.text, text.name, kinds) for text in checked]
    records = [one for file in files for one in file.records]
    references = [reference for one in records for reference in one.references]
    used = {name.id for file in files for name in file.names} | {each.id.partition(".")[0] for each in references}
    names, twice = _names(checked, files, around, used if len(used) <= MOST_LOOKED_FOR else None)
    problems = [problem for file in files for problem in file.problems] + twice
    missing = list(unknown_references(references, names.known()))
    if missing:  # ones like them may stand in any file
        names, _ = _names(checked, files, around)
        missing = list(unknown_references(references, names.known()))
    problems += missing
    problems += [problem for one in records for problem in check_record(one)]
    return len(records), tuple(sorted(problems))


def _names(
    checked: list[SourceText], files: list[CatalogFile], around: list[SourceText], only: set[str] | None = None
) -> tuple[Names, list[Problem]]:
    """What the files name, and what the checked ones define again. Of those around, only what may hold certain ids, if any."""
    names = Names()
    for text in around:
        if only is None or any(id_ in text.text for id_ in only):
            rooms, _, _ = parse_file(text.text, text.name)
            collections.deque(names.add(names_in(rooms, text.name), text.rank), maxlen=0)  # what is not asked about is not told
    twice = [problem for text, file in zip(checked, files, strict=True) for problem in names.add(file.names, text.rank)]
    return names, twice
