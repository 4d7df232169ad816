"""Adapters between two faces or shafts that do not go together: one, or several in a row, as many as the joint allows."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from typing import NamedTuple

from interchange.catalog.figure import Figure
from interchange.catalog.model import Adapter
from interchange.fit.case import Effort, effort_of_adapter
from interchange.spread import longest, total

TWO_FACES = 2

Mates = Callable[[str, str], bool]
"""Whether the first face takes the second, by geometry."""


class Chain(NamedTuple):
    """Adapters in a row, from the joint's first end to its second."""

    adapters: tuple[Adapter, ...]

    @property
    def title(self) -> str:
        """All of them by name."""
        return " and ".join(adapter.title for adapter in self.adapters)

    @property
    def thick_mm(self) -> tuple[float, float] | None:
        """What they add along the crank line; None where the thickness of one is not known."""
        known = [adapter.thick.value for adapter in self.adapters if adapter.thick]
        return (sum(known), sum(known)) if len(known) == len(self.adapters) else None

    @property
    def effort(self) -> Effort:
        """Money and hours of all of them, and the longest wait."""
        efforts = [effort_of_adapter(adapter) for adapter in self.adapters]
        return Effort(
            total(effort.money for effort in efforts),
            total(effort.hours for effort in efforts),
            longest(effort.lead for effort in efforts),
        )


def chains(adapters: Sequence[Adapter], ends: tuple[str, str], most: int, mates: Mates) -> Iterator[Chain]:
    """Every row of at most so many different adapters that leads from the first end to the second, face by face.

    ``adapters`` are those for the joint. A row may go on where a shorter one would do: its thickness may close a stack-up.
    """
    usable = [adapter for adapter in adapters if len(adapter.faces) == TWO_FACES]
    last = [adapter for adapter in usable if mates(adapter.faces[1], ends[1])]

    def grow(face: str, row: tuple[Adapter, ...]) -> Iterator[Chain]:
        final = len(row) + 1 == most
        for adapter in last if final else usable:
            if adapter not in row and mates(face, adapter.faces[0]):
                if adapter in last:
                    yield Chain((*row, adapter))
                if not final:
                    yield from grow(adapter.faces[1], (*row, adapter))

    if most:
        yield from grow(ends[0], ())


def torque_limit(chain: Chain, torque: Figure | None) -> str | None:
    """What is to be said of the torque a chain carries; None where what the donor turns out breaks it.

    Where sources differ on that torque, the most of them counts.
    """
    rated = [adapter.torque for adapter in chain.adapters if adapter.torque]
    if not rated:
        return ""
    weakest = min(rated, key=lambda figure: figure.value)
    if torque is None:
        return f"carries {weakest.text}: the donor's torque is not known"
    return "" if max(reading.value for reading in torque.readings) <= weakest.value else None
