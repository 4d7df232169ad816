"""The folder of one job: the machine, its dead units, and the ads pasted for them."""

from __future__ import annotations

import dataclasses
from collections.abc import Mapping
from dataclasses import dataclass, field
from pathlib import Path
from typing import TYPE_CHECKING

from interchange.catalog.figure import NO_ORIGIN, NOWHERE, Origin, Where
from interchange.catalog.folders import shown_name
from interchange.catalog.model import Id, Money
from interchange.errors import FileProblemsError, InputError
from interchange.job.folder import JOB_FILE
from interchange.job.home import read_one

if TYPE_CHECKING:
    from interchange.catalog.nodes import Node


@dataclass(frozen=True, slots=True, kw_only=True)
class DeadUnit:
    """A unit of the machine that is dead."""

    unit: Id
    """Which unit it is: a unit, or unit.variant."""
    broke: str = ""
    """What broke."""
    usable: tuple[Id, ...] = ()
    """Its slots that are still good."""
    proof: str = ""
    """What proves it dead."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Job:
    """One machine with what is wrong with it."""

    title: str
    """What to call the job."""
    machine: Id
    """The machine."""
    dead: Mapping[str, DeadUnit]
    """Seat to the dead unit in it."""
    spent: Money | None = None
    """What has been spent already: shown apart, and never weighed."""
    note: str = ""
    """Anything else."""
    folder: str = field(default="")
    origin: Origin = NO_ORIGIN
    where: Where = NOWHERE


def read_job(folder: Path) -> tuple[Job, Node]:
    """A job's file. Raises InputError where there is none, FileProblemsError where it has faults."""
    path = folder / JOB_FILE
    if not folder.is_dir():
        raise InputError(f"there is no job folder {shown_name(folder)}", "a job is a folder with a job.yaml in it")
    if not path.is_file():
        raise InputError(f"there is no {JOB_FILE} in {shown_name(folder)}", "write one: title, machine, and what is dead")
    value, root, problems = read_one(Job, path)
    if problems or not isinstance(value, Job) or root is None:
        raise FileProblemsError(tuple(problems))
    return dataclasses.replace(value, folder=str(folder)), root
