"""Tests of a unit's health: what is measured, what it should be, and what the result says, as the catalog keeps them."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Annotated

from interchange.catalog.figure import NO_ORIGIN, NOWHERE, Figure, Origin, Where
from interchange.catalog.model import Id, Likelihood, Ratio, Share

Pressure = Annotated[Figure, "pressure"]


@dataclass(frozen=True, slots=True, kw_only=True)
class HealthTest:
    """One test of a kind of unit. The unit's own limits count where the catalog has them; the usual ones stand in for them."""

    id: str = ""
    kind: Id
    """The kind of unit it is for."""
    title: str
    """What people call it."""
    say: tuple[str, ...]
    """Words a reading of it begins with, such as `compression`."""
    unless: tuple[str, ...] = ()
    """Words near it that make it another reading, such as `cold`."""
    measures: Annotated[str, ("pressure", "share")]
    """What is read: a pressure, or a share (a leak, in percent)."""
    about: Id
    """What it speaks of; of several tests about one thing the worst result counts, and phrases about it no more."""
    how: str
    """How it is taken, in a sentence that can be sent to a seller."""
    each: str = ""
    """The feature that counts how many readings there should be, such as `core.cylinders`."""
    least: str = ""
    """The feature of the unit that says the least it may read."""
    most: str = ""
    """The feature of the unit that says the most it may read."""
    spread: str = ""
    """The feature of the unit that says by how much its readings may differ."""
    usual_least: Pressure | None = None
    """The least where the unit's own is not known."""
    usual_most: Ratio | None = None
    """The most where the unit's own is not known."""
    usual_spread: Ratio | None = None
    """How far the lowest may lie below the highest where the unit's own is not known, as a share of the highest."""
    close_spread: Ratio | None = None
    """A difference, as a share of the highest, beyond which it is doubtful."""
    passes: Likelihood
    """Likelihood ratio of readings within every limit."""
    even: Likelihood
    """Of readings that agree among themselves while how high they should be, or some of them, is not known."""
    doubtful: Likelihood
    """Of readings that differ more than is close."""
    fails: Likelihood
    """Of readings beyond a limit."""
    origin: Origin = NO_ORIGIN
    where: Where = NOWHERE


@dataclass(frozen=True, slots=True, kw_only=True)
class HealthQuestion:
    """A question whose answer tells a sound unit from one that needs internal work."""

    id: str = ""
    kind: Id
    """The kind of unit it is for."""
    title: str
    """What it is about, in a few words: an ad's log names it so."""
    ask: str
    """The question, as it is sent to a seller."""
    hoped: str
    """The answer hoped for."""
    seen: Annotated[str, ("photo", "tape", "teardown", "plate", "seller")]
    """How it is answered."""
    test: str = ""
    """The test of health that answers it: where there is a reading of it, it is not asked."""
    told_by: tuple[str, ...] = ()
    """Phrases by which an ad has answered it already."""
    good_if_sound: Share
    """How often the answer is the one hoped for where the unit needs no internal work."""
    good_if_not: Share
    """How often it is where the unit does need some."""
    origin: Origin = NO_ORIGIN
    where: Where = NOWHERE
