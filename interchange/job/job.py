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
from interchange.job.dead import DeadUnit
from interchange.job.folder import job_path
from interchange.job.home import read_one

if TYPE_CHECKING:
    from interchange.catalog.nodes import Node


@dataclass(frozen=True, slots=True, kw_only=True)
class Worth:
    """What the machine is worth to its owner; the program has no way of knowing."""

    repaired: Money | None = None
    """Running again."""
    as_is: Money | None = None
    """Sold as it stands."""


@dataclass(frozen=True, slots=True, kw_only=True)
class NewPart:
    """A new part bought already: what it is still good for hangs on what is done."""

    title: str
    """What it is."""
    paid: Money
    """What was paid for it."""
    opened: bool = False
    """Whether it was opened, so that it cannot be sent back."""
    used_by: tuple[Id, ...] = ()
    """Ways out that use it, by their ids or sorts: overhaul, short_block, used."""


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
    worth: Worth = Worth()
    """What the machine is worth, so that ways out can be told apart from selling it."""
    new_parts: Mapping[str, NewPart] = field(default_factory=dict)
    """New parts bought already, by a word for each: they are used, sent back or sold, as the way out has it."""
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


__all__ = ["DeadUnit", "Job", "NewPart", "Worth", "read_job"]
