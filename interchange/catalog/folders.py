"""Where catalogs are looked for, and the files in them."""

from __future__ import annotations

from pathlib import Path
from typing import NamedTuple

from interchange.errors import InputError

PACKAGE = Path(__file__).resolve().parent.parent
ALWAYS = ("standards", "trade")
SUFFIXES = (".yaml", ".yml")
MOST_BYTES = 64 * 1024 * 1024


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
    here = Path.cwd()
    whole = path if path.is_relative_to(here) and ".." not in path.parts else path.resolve()
    return str(whole.relative_to(here)) if whole.is_relative_to(here) else str(path)


def source_files(folders: tuple[Path, ...]) -> list[SourceFile]:
    """Every YAML file of the folders, sorted by rank and path; hidden ones are passed over.

    Paths are absolute and without links. A file that lies below two of the folders counts for the later one. Raises InputError
    for a folder that is not there.
    """
    found: dict[Path, SourceFile] = {}
    for rank, folder in enumerate(folders):
        if not folder.is_dir():
            raise InputError(f"there is no catalog folder {shown_name(folder)}", "check catalog: in home.yaml")
        whole = folder.resolve()
        for path in whole.rglob("*"):
            hidden = any(part.startswith(".") for part in path.relative_to(whole).parts)
            if path.suffix in SUFFIXES and not hidden and path.is_file():
                real = path.resolve() if path.is_symlink() else path
                found[real] = SourceFile(real, shown_name(real), rank)
    return sorted(found.values(), key=lambda source: (source.rank, source.path))


def read_content(path: Path) -> bytes:
    """A file's bytes. Raises InputError where it cannot be read, or is larger than any catalog file is."""
    try:
        if path.stat().st_size > MOST_BYTES:
            hint = f"split it into files of less than {MOST_BYTES / 2**20:g} MiB"
            raise InputError(f"{shown_name(path)} is too large to be read", hint)
        return path.read_bytes()
    except OSError as error:
        raise InputError(f"cannot read {shown_name(path)}: {error.strerror}", "check its name and rights") from error


def text_in(content: bytes, path: Path) -> str:
    """A file's bytes as text. Raises InputError where they are not UTF-8."""
    try:
        return content.decode("utf-8-sig")  # some editors begin a file with a mark
    except UnicodeDecodeError as error:
        line = content.count(b"\n", 0, error.start) + 1
        raise InputError(f"{shown_name(path)} is not UTF-8 text (line {line})", "save it as UTF-8") from error


def read_text(path: Path) -> str:
    """A file's text. Raises InputError where it cannot be read or is not UTF-8."""
    return text_in(read_content(path), path)
