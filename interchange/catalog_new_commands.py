"""What `catalog new` and `catalog schema` do: whole new files, never over one that is there."""

from __future__ import annotations

import json as json_format
import os
import shlex
from pathlib import Path
from typing import TYPE_CHECKING, NamedTuple

import typer

from interchange.catalog.folders import SUFFIXES, shown_name
from interchange.catalog.plain_text import one_line
from interchange.catalog.rooms import ID, singular
from interchange.catalog.stub import SCHEMA_FILE, Facts, machine_text, unit_text
from interchange.errors import InputError
from interchange.job.folder import HOME_FILE, find_home
from interchange.opening import Bar, open_library, open_setting

if TYPE_CHECKING:
    from collections.abc import Sequence

    from interchange.ads.reads import Read
    from interchange.job.home import Home
    from interchange.store.library import Library

NO_FOLDER = "write catalog: [catalog] in it and make that folder beside it"
GIVE_ID = "give one: interchange catalog new ID …"


class Wanted(NamedTuple):
    """What was asked for; left out is empty."""

    id: str
    kinds: Sequence[str]
    machine: bool
    title: str
    maker: str


def new(wanted: Wanted, *, home: Path | None, job: Path | None, ad: str | None) -> None:
    """Write the file of one new unit or machine and say where."""
    with Bar() as bar:
        if ad is not None and job is not None:
            text, id_, folder = _from_ad(wanted, home, job, ad, bar)
        elif ad is not None or job is not None:
            raise InputError("--job and --ad go together", "interchange catalog new --job JOB --ad AD")
        else:
            text, id_, folder = _from_call(wanted, home, bar)
    path = write_new(folder / f"{id_}.yaml", text)
    typer.echo(f"Made {shown_name(path)}. Fill in what you know, then: interchange catalog check {_quoted(path)}")
    schema = folder / SCHEMA_FILE
    if not schema.exists():
        typer.echo(f"For an editor that knows its words: interchange catalog schema --write {_quoted(schema)}")


def _quoted(path: Path) -> str:
    return shlex.quote(shown_name(path))


def _from_call(wanted: Wanted, home: Path | None, bar: Bar) -> tuple[str, str, Path]:
    """(text, id, folder) of what the options say."""
    from interchange.catalog.folders import search_path
    from interchange.job.home import read_home

    if not wanted.id:
        raise InputError("an id is missing", "interchange catalog new ID --kind KIND, or --job JOB --ad AD")
    if not wanted.kinds:
        hint = "--machine --kind engine --kind pump" if wanted.machine else "--kind engine"
        raise InputError("which kind is not said", f"write it: {hint}")
    own = read_home(find_home(Path.cwd(), home))
    folder = own_folder(own)
    library, _ = open_library(search_path(own.catalog_folders), bar)
    facts = Facts(_free(library, folder, wanted.id), one_line(wanted.title) or wanted.id, wanted.maker)
    return _text(wanted, wanted.kinds, facts, library), facts.id, folder


def _from_ad(wanted: Wanted, home: Path | None, job: Path, ad: str, bar: Bar) -> tuple[str, str, Path]:
    """(text, id, folder) of what an ad of a job says."""
    from interchange.ads.entered import facts_of
    from interchange.ads.offer_kind import is_machine
    from interchange.ads.pasted import ad_named
    from interchange.ads.reads import matched
    from interchange.commands import read_ads

    setting, _ = open_setting(job, home, bar)
    folder = own_folder(setting.home)
    read, _ = read_ads(setting, job, [], "", bar)
    chosen = ad_named([one.ad for one in read], ad)
    (found,) = matched(setting.library, [one for one in read if one.ad.id == chosen.id])
    known = list(dict.fromkeys(hit.name.id for hit in found.matched.hits))
    if known and not wanted.id:
        again = shlex.join(["--job", str(job), "--ad", ad])
        hint = f"interchange catalog show {known[0]}; where it is another: interchange catalog new ID {again}"
        raise InputError(f"ad {chosen.id} names what the catalog has: {', '.join(known)}", hint)
    machine = wanted.machine or (not wanted.kinds and is_machine(found.reading))
    dead = list(dict.fromkeys(setting.machine.seats[name].kind for name in setting.job.dead))
    kinds = wanted.kinds or (dead if machine else _kind_sold(found, dead, setting.library))
    facts = facts_of(chosen, found.reading, None if machine else setting.library.kind(kinds[0]))
    id_ = wanted.id or facts.id
    if not id_:
        raise InputError(
            f"ad {chosen.id} names no model to make an id of",
            "interchange catalog new ID " + shlex.join(["--job", str(job), "--ad", ad]),
        )
    facts = facts._replace(
        id=_free(setting.library, folder, id_),
        title=one_line(wanted.title) or one_line(facts.title) or id_,
        maker=wanted.maker or facts.maker,
    )
    return _text(wanted._replace(machine=machine), kinds, facts, setting.library), id_, folder


def _kind_sold(found: Read, dead: Sequence[str], library: Library) -> Sequence[str]:
    """The kind of unit an ad sells: the one it says, else the only one the job has dead."""
    said = found.reading.subject_is
    if said is not None and said.value in library.kinds():
        return [str(said.value)]
    if len(dead) == 1:
        return dead
    raise InputError(f"ad {found.ad.id} does not say which kind it is", f"write --kind and one of: {', '.join(dead)}")


def _text(wanted: Wanted, kinds: Sequence[str], facts: Facts, library: Library) -> str:
    """The file's text: of a machine with a seat for each kind, or of a unit."""
    if wanted.machine:
        return machine_text({kind: library.kind(kind) for kind in dict.fromkeys(kinds)}, facts)
    if len(kinds) > 1:
        raise InputError(f"a unit is of one kind, not of {len(kinds)}", "--machine makes a machine with a seat for each")
    return unit_text(library.kind(kinds[0]), facts)


def _free(library: Library, folder: Path, id_: str) -> str:
    """The id, where it can be one and nothing has it. Raises InputError otherwise."""
    if not ID.fullmatch(id_):
        raise InputError(f"{id_!r} cannot be an id", "write lower-case letters, digits, hyphens and underscores")
    held = library.connection.execute(
        "SELECT room, file, line FROM known WHERE id = ? AND room IN ('units', 'machines') ORDER BY rank DESC", [id_]
    ).fetchone()
    if held:
        room, file, line = held
        raise InputError(f"{singular(room)} {id_} is in the catalog already: {file}:{line}", f"edit it there, or {GIVE_ID}")
    for suffix in SUFFIXES:
        _not_there(folder / f"{id_}{suffix}")
    return id_


def _not_there(path: Path) -> None:
    if path.exists() or path.is_symlink():
        raise InputError(f"{shown_name(path)} is there already, and no file is written over", GIVE_ID)


def own_folder(home: Home) -> Path:
    """The first of one's own catalog folders. Raises InputError where there is none that can be written to."""
    where = shown_name(Path(home.where.file or HOME_FILE))
    if not home.catalog_folders:
        raise InputError(f"{where} names no catalog folder of your own", NO_FOLDER)
    folder = home.catalog_folders[0]
    if not folder.is_dir():
        raise InputError(f"there is no catalog folder {shown_name(folder)}", f"make it, or correct catalog: in {where}")
    return folder


def write_new(path: Path, text: str) -> Path:
    """Write a file that is not there yet, whole: aside first, then under its name, never over another.

    Raises InputError where one of the name is there, or the folder cannot be written to.
    """
    aside = path.with_name(f".{path.name}.{os.getpid()}.new")  # hidden: a catalog passes it over
    try:
        try:
            with aside.open("x", encoding="utf-8", newline="\n") as file:
                file.write(text)
                file.flush()
                os.fsync(file.fileno())
            _put_in_place(aside, path)
        finally:
            aside.unlink(missing_ok=True)
    except FileExistsError:
        _not_there(path)
        raise
    except OSError as error:
        reason = (error.strerror or str(error)).lower()
        hint = "check the rights of the folder and the disk, or name another first under catalog: in home.yaml"
        raise InputError(f"cannot write {shown_name(path)}: {reason}", hint) from error
    return path


def _put_in_place(aside: Path, path: Path) -> None:
    """Give the finished file its name; raises FileExistsError where the name is taken."""
    try:
        os.link(aside, path)
    except FileExistsError:
        raise
    except OSError:  # a disk without links: take the name first, then put the finished file in its place at once
        path.open("x").close()
        aside.replace(path)


def schema(write: Path | None) -> None:
    """Print the JSON Schema of catalog files, or write it; over an older one, and over nothing else."""
    from interchange.catalog.schema import TITLE, schema_text

    text = schema_text()
    if write is None:
        typer.echo(text, nl=False)
        return
    if write.exists():
        if not _is_schema(write, TITLE):
            raise InputError(f"{shown_name(write)} is there already and is no schema of catalogs", "name another file")
        write.unlink()
    write_new(write, text)
    typer.echo(f"Wrote {shown_name(write)}.")


def _is_schema(path: Path, title: str) -> bool:
    """Whether a file is a schema that this command wrote, of whatever version."""
    try:
        held = json_format.loads(path.read_bytes())
    except (OSError, ValueError):
        return False
    return isinstance(held, dict) and held.get("title") == title and "$schema" in held
