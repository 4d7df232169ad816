"""Where catalogs are looked for, and the files in them."""

from __future__ import annotations

from pathlib import Path
from typing import NamedTuple

from interchange.errors import InputError

PACKAGE = Path(__file__).resolve().parent.parent
ALWAYS = ("standards", "trade")


class SourceFile(NamedTuple):
    """One catalog file. ``rank`` is its folder's place on the search path: a later folder overrides an earlier by id."""

    path: Path
    name: str
    rank: int


def shipped(name: str) -> Path:
    """A folder that comes with the program: from the installed package, or beside it in a checkout."""
    installed = PACKAGE / "shipped" / name
    return installed if installed.is_dir() else PACKAGE.parent / "catalog" / name


def search_path(own: tuple[Path, ...] = ()) -> tuple[Path, ...]:
    """The shipped standards and trade folders, then one's own, in order."""
    return (*(shipped(name) for name in ALWAYS), *own)


def shown_name(path: Path) -> str:
    """A file's name for messages: relative to the working folder where it lies below it."""
    try:
        return str(path.resolve().relative_to(Path.cwd()))
    except ValueError:
        return str(path)


def source_files(folders: tuple[Path, ...]) -> list[SourceFile]:
    """Every YAML file of the folders, sorted by rank and path.

    Raises InputError for a folder that is not there.
    """
    found: list[SourceFile] = []
    for rank, folder in enumerate(folders):
        if not folder.is_dir():
            raise InputError(f"there is no catalog folder {shown_name(folder)}", "check catalog: in home.yaml")
        paths = sorted(path for path in folder.rglob("*") if path.suffix in (".yaml", ".yml") and path.is_file())
        found += [SourceFile(path, shown_name(path), rank) for path in paths]
    return found


def read_text(path: Path) -> str:
    """A file's text. Raises InputError where it cannot be read or is not UTF-8."""
    try:
        return path.read_bytes().decode("utf-8")
    except OSError as error:
        raise InputError(f"cannot read {shown_name(path)}: {error.strerror}", "check its name and rights") from error
    except UnicodeDecodeError as error:
        where = f"byte {error.start + 1}"
        raise InputError(f"{shown_name(path)} is not UTF-8 text (at {where})", "save it as UTF-8") from error
