"""Opening what a command needs: the home, the job, the catalog brought up to date."""

from __future__ import annotations

import dataclasses
import os
import sys
from pathlib import Path
from typing import TYPE_CHECKING, Self

from interchange.catalog.folders import search_path
from interchange.errors import InputError
from interchange.job.folder import find_home

if TYPE_CHECKING:
    from collections.abc import Callable
    from types import TracebackType

    from interchange.errors import Problem
    from interchange.fit.setting import Setting
    from interchange.store.library import Library

SLOW_S = 1.0
READABLE = 0o644  # a file made aside is its owner's alone


class Bar:
    """A progress bar on standard error, shown only where the work takes more than a second and somebody watches."""

    def __init__(self) -> None:
        import time

        self._clock = time.monotonic
        self._began = self._clock()
        self._bar: object = None
        self._label = ""

    def __call__(self, label: str, done: int, whole: int) -> None:
        """So much of it is done."""
        if self._bar is None and (self._clock() - self._began < SLOW_S or not sys.stderr.isatty()):
            return
        from rich.console import Console
        from rich.progress import Progress

        if self._bar is None:
            self._bar = Progress(console=Console(stderr=True), transient=True)
            self._bar.start()
        bar = self._bar
        if not isinstance(bar, Progress):
            return
        if label != self._label:
            self._label = label
            bar.add_task(label, total=whole)
        bar.update(bar.task_ids[-1], completed=done, total=whole)

    def __enter__(self) -> Self:
        return self

    def __exit__(self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None) -> None:
        stop = getattr(self._bar, "stop", None)
        if stop:
            stop()


def home_folders(home: Path | None, near: Path) -> tuple[Path, ...]:
    """The search path: shipped folders, and one's own where a home file is named or found near."""
    try:
        found = find_home(near, home)
    except InputError:
        return search_path()
    from interchange.job.home import read_home

    return search_path(read_home(found).catalog_folders)


def open_library(folders: tuple[Path, ...], bar: Bar) -> tuple[Library, list[Problem]]:
    """The catalog, brought up to date, and the problems it has."""
    from interchange.store.cache import problems_of, up_to_date
    from interchange.store.library import Library

    connection, _ = up_to_date(folders, bar)
    return Library(connection), problems_of(connection)


def tell_problems(problems: list[str]) -> None:
    """Say on standard error that the catalog has problems: what is sound in it is used."""
    if problems:
        import typer

        counted = f"{len(problems)} problem{'s' * (len(problems) > 1)}"
        typer.echo(f"The catalog has {counted} (interchange catalog check); the first: {problems[0]}", err=True)


def tell_remarks(remarks: list[str]) -> None:
    """Say on standard error what of a job is worth a word."""
    for remark in remarks:
        import typer

        typer.echo(remark, err=True)


def open_setting(job_folder: Path, home: Path | None, bar: Bar, altitude: str | None = None) -> tuple[Setting, list[Problem]]:
    """A job set against the catalog, and the problems the catalog has; an altitude given stands before the home's."""
    from interchange.fit.height import read_height
    from interchange.fit.setting import Setting
    from interchange.job.home import read_home
    from interchange.job.job import read_job

    job, node = read_job(job_folder)
    own = read_home(find_home(job_folder, home))
    if altitude is not None:
        own = dataclasses.replace(own, altitude=read_height(altitude))
    library, problems = open_library(search_path(own.catalog_folders), bar)
    return Setting(library, job, node, own), problems


def write_whole(path: Path, made: Callable[[], bytes]) -> None:
    """A whole file at once, in the place of what was made there before.

    Raises InputError where the folder is not there, before anything is made.
    """
    import tempfile

    if not path.parent.is_dir():
        raise InputError(f"there is no folder {str(path.parent)!r}", "make it, or name another file")
    content = made()
    handle, aside = tempfile.mkstemp(dir=path.parent, prefix=f".{path.name}-")
    try:
        with os.fdopen(handle, "wb") as file:
            file.write(content)
        Path(aside).chmod(READABLE)
        Path(aside).replace(path)
    except BaseException:
        Path(aside).unlink(missing_ok=True)
        raise
