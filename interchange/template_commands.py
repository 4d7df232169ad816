"""What `template` does: one bolt face at true size on paper, or the plate that joins two."""

from __future__ import annotations

import os
import tempfile
from collections.abc import Callable
from pathlib import Path
from typing import TYPE_CHECKING

import typer

from interchange.errors import InputError
from interchange.opening import Bar, home_folders, open_library, tell_problems
from interchange.sheets.face_drawing import face_drawing
from interchange.sheets.tiles import pages, paper_named
from interchange.store.named_face import face_named

if TYPE_CHECKING:
    from interchange.sheets.drawing import Drawing

READABLE = 0o644


def template(a: str, *, paper: str, to: Path | None, svg: Path | None, home: Path | None) -> None:
    """Write the files asked for and say what they are."""
    sheet = paper_named(paper)
    with Bar() as bar:
        library, problems = open_library(home_folders(home, Path.cwd()), bar)
        first = face_named(library, a)
    tell_problems([str(problem) for problem in problems])
    drawing = face_drawing(first.pattern)
    made = pages(drawing, sheet)
    target = to or Path(f"template-{_file_name(a)}.pdf")

    def as_pdf() -> bytes:
        from interchange.sheets.pdf import pdf

        return pdf(made, drawing.title)

    _write(target, as_pdf)
    _tell(target, f"{len(made) - 1} sheets of {sheet.name} at true size after the first page")
    if svg:
        _write(svg, lambda: _as_svg(drawing))
        _tell(svg, "one figure at true size")
    for note in drawing.notes:
        typer.echo(f"  {note}")
    typer.echo("Print at 100 %. Measure both bars on every sheet before you drill, and hold it against the part.")


def _as_svg(drawing: Drawing) -> bytes:
    from interchange.sheets.svg import svg

    return svg(drawing).encode()


def _tell(path: Path, what: str) -> None:
    typer.echo(f"{path}: {what}.")


def _file_name(*names: str) -> str:
    return "-".join("".join(letter if letter.isalnum() or letter in "-_." else "-" for letter in name) for name in names)


def _write(path: Path, made: Callable[[], bytes]) -> None:
    """A whole file at once, in the place of what was made there before. Raises InputError where the folder is not there."""
    if not path.parent.is_dir():
        raise InputError(f"there is no folder {str(path.parent)!r}", "make it, or name another file")
    content = made()
    handle, aside = tempfile.mkstemp(dir=path.parent, prefix=".template-")
    try:
        with os.fdopen(handle, "wb") as file:
            file.write(content)
        Path(aside).chmod(READABLE)
        Path(aside).replace(path)
    except BaseException:
        Path(aside).unlink(missing_ok=True)
        raise
