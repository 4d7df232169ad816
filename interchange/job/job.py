"""The folder of one job: the machine, its dead units, and the ads pasted for them."""

from __future__ import annotations

import dataclasses
from collections.abc import Mapping
from dataclasses import dataclass, field
from pathlib import Path
from typing import TYPE_CHECKING

from interchange.catalog.figure import NO_ORIGIN, NOWHERE, Origin, Where
from interchange.catalog.model import Id, Money
from interchange.errors import FileProblemsError
from interchange.job.folder import job_path
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
    failure: Id = ""
    """Which of the kind's failures it was, where the words of broke do not say."""
    usable: tuple[Id, ...] | None = None
    """Its slots that are still good; left out, what broke decides."""
    usable_anyway: tuple[Id, ...] = ()
    """Slots that are still good although what broke mostly spoils them."""
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
    value, root, problems = read_one(Job, job_path(folder))
    if problems or not isinstance(value, Job) or root is None:
        raise FileProblemsError(tuple(problems))
    return dataclasses.replace(value, folder=str(folder)), root
