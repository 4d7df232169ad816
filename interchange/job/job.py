"""The folder of one job: the machine, its dead units, and the ads pasted for them."""

from __future__ import annotations

import dataclasses
from collections.abc import Mapping
from dataclasses import dataclass, field
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

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


HIRED_WAYS = ("pallet freight", "pallet freight to a terminal", "hired hot-shot", "hired heavy haul")


@dataclass(frozen=True, slots=True, kw_only=True)
class HaulQuote:
    """A price somebody gave for hauling: it takes the place of what the program would reckon."""

    place: str
    """Where it is fetched: town and state, or ZIP."""
    amount: Money
    """What is asked, all in."""
    who: str = ""
    """Who gave it."""
    date: str = ""
    """When."""
    mode: Annotated[str, HIRED_WAYS] = ""
    """Which way of hauling it is for; left out, it stands for every hired way."""
    what: Id = ""
    """What it is for: a unit, a machine or an ad; left out, whatever is fetched there."""
    origin: Origin = NO_ORIGIN
    where: Where = NOWHERE


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
    quotes: tuple[HaulQuote, ...] = ()
    """Prices given for hauling."""
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
