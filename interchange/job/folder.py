"""Where a job and a home keep their files."""

from __future__ import annotations

from pathlib import Path

from interchange.catalog.folders import shown_name
from interchange.errors import InputError

HOME_FILE = "home.yaml"
JOB_FILE = "job.yaml"
ADS_FOLDER = "ads"


def job_path(folder: Path) -> Path:
    """The job's file. Raises InputError where the folder or the file is not there."""
    if not folder.is_dir():
        raise InputError(f"there is no job folder {shown_name(folder)}", "a job is a folder with a job.yaml in it")
    path = folder / JOB_FILE
    if not path.is_file():
        raise InputError(f"there is no {JOB_FILE} in {shown_name(folder)}", "write one: title, machine, and what is dead")
    return path


def other_jobs(folder: Path) -> list[Path]:
    """The jobs in the same folder as this one, each by its own folder."""
    here = folder.resolve()
    return sorted(path.parent for path in here.parent.glob(f"*/{JOB_FILE}") if path.parent != here)


def find_home(job: Path, named: Path | None) -> Path:
    """The home file of a job: the one named, or the nearest above the job's folder.

    Raises InputError where there is none.
    """
    if named is not None:
        return named / HOME_FILE if named.is_dir() else named
    for folder in (job.resolve(), *job.resolve().parents):
        if (folder / HOME_FILE).is_file():
            return folder / HOME_FILE
    hint = "say where with --home, or make one with: interchange start FOLDER"
    raise InputError(f"no {HOME_FILE} in {shown_name(job)} or above it", hint)


def ad_files(folder: Path) -> list[Path]:
    """The job's files of pasted ads, oldest first by name; what an editor leaves beside them is passed over."""
    found = (folder / ADS_FOLDER).glob("*")
    return sorted(path for path in found if path.is_file() and not path.name.startswith(".") and not path.name.endswith("~"))
