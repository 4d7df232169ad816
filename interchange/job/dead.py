"""A dead unit, as a job or a home file tells of it."""

from __future__ import annotations

from dataclasses import dataclass

from interchange.catalog.model import Id


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
