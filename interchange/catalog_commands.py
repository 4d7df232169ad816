"""The commands about the catalog itself; the check does without the database, so that it is quick."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

import typer

from interchange.catalog.checking import check_files, files_at
from interchange.catalog.folders import search_path, shown_name
from interchange.catalog.suggest import suggestion
from interchange.errors import FileProblemsError, InputError
from interchange.job.folder import HOME_FILE, JOB_FILE
from interchange.opening import Bar, home_folders, open_library

if TYPE_CHECKING:
    from interchange.catalog.figure import Figure
    from interchange.catalog.rooms import Record
    from interchange.errors import Problem

FILES_OF_ONE = (HOME_FILE, JOB_FILE)


def check_paths(paths: tuple[Path, ...], home: Path | None) -> int:
    """Check files; print each problem on a line. 1 where there are any, else 0."""
    near = paths[0] if paths else Path.cwd()
    try:
        folders = home_folders(home, near if near.is_dir() else near.parent)
    except FileProblemsError:  # a faulty home file is one of the things to tell
        if home is not None or not paths:
            raise
        folders = search_path()
    found = files_at(paths or folders)
    targets = [path for path in found if path.name not in FILES_OF_ONE]
    if not found:
        raise InputError("no catalog files were found", "a catalog file ends in .yaml")
    records, problems = check_files(targets, folders)
    for path in found:
        if path.name in FILES_OF_ONE:
            records += 1
            problems += _check_one(path)
    for problem in sorted(problems):
        typer.echo(str(problem))
    where = shown_name(found[0]) if len(found) == 1 else f"{len(found)} files"
    counted = f"{len(problems)} problem{'' if len(problems) == 1 else 's'}" if problems else "no problems"
    typer.echo(f"{where}: {records} records, {counted}.")
    return 1 if problems else 0


def _check_one(path: Path) -> tuple[Problem, ...]:
    """The problems of a home or job file."""
    from interchange.job.home import Home, read_one
    from interchange.job.job import Job

    return tuple(read_one(Home if path.name == HOME_FILE else Job, path)[2])


def show_record(name: str, home: Path | None) -> None:
    """Print one record as it is read."""
    with Bar() as bar:
        library, _ = open_library(home_folders(home, Path.cwd()), bar)
    id_, _, variant = name.partition(".")
    rows = library.connection.execute("SELECT room, id FROM record WHERE live ORDER BY room").fetchall()
    rooms = [room for room, known in rows if known == id_]
    if not rooms:
        raise InputError(f"nothing in the catalog has the id {id_!r}", suggestion(id_, [known for _, known in rows]))
    for room in rooms:
        one = library.record(room, id_)
        if one is None:
            raise InputError(f"{room} {id_} has faults", "interchange catalog check tells them")
        if variant and variant not in one.presented:
            raise InputError(f"{id_} has no form {variant!r}", suggestion(variant, list(one.presented)))
        _print(one, variant)


def _print(one: Record, variant: str) -> None:
    from interchange.catalog.rooms import singular
    from interchange.sheets import terminal

    out = terminal.console()
    title = getattr(one.value, "title", "") or one.id
    out.print(terminal.text(f"{singular(one.room)} {one.id}: {title}", "bold"))
    out.print(terminal.text(f"{one.where}, {one.origin}", "dim"))
    for name in getattr(one.value, "__slots__", ()):
        value = getattr(one.value, name)
        shown = _words(value)
        if shown and name not in ("id", "title", "where", "origin", "slots", "seats", "variants"):
            out.print(terminal.text(f"  {name.replace('_', ' ')}: {shown}"))
    for form, presented in one.presented.items():
        if variant and form != variant:
            continue
        if form:
            out.print(terminal.text(f"  {form}", "bold"))
        for path, figure in presented.features.items():
            out.print(terminal.text(f"    {path}: {_figure(figure)}"))


def _figure(figure: Figure) -> str:
    values = " / ".join(f"{each.text} ({each.origin})" for each in figure.readings)
    return f"{values} [{figure.caveat}]" if figure.caveat and not figure.others else values


def _words(value: object) -> str:
    from interchange.catalog.figure import Figure

    if isinstance(value, Figure):
        return _figure(value)
    if isinstance(value, tuple) and hasattr(value, "text"):
        return str(value.text)
    if isinstance(value, (tuple, list)):
        return ", ".join(filter(None, (_words(each) for each in value)))
    if isinstance(value, (str, int, float)):
        return str(value)
    return ""
