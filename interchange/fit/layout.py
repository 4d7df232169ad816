"""How the parts of a plan fall into groups that can be decided by themselves."""

from __future__ import annotations

import collections
from collections.abc import Collection, Iterable, Mapping, Sequence
from typing import NamedTuple

from interchange.catalog.model import StackUp
from interchange.fit.case import Case
from interchange.fit.factor import Factor
from interchange.fit.stack_up import joints_that_shift, names_of
from interchange.fit.ties import Ties


class Group(NamedTuple):
    """Slots, factors and stack-ups that hang together and on nothing else."""

    slots: tuple[str, ...]
    factors: tuple[tuple[Factor, ...], ...]
    """For each slot, those that it completes; first those that hang on no slot of the group."""
    stacks: tuple[str, ...]
    sets: tuple[str, ...]


class Layout(NamedTuple):
    """What does not change from donor to donor while the same slots, factors and stack-ups are there."""

    groups: tuple[Group, ...]
    shifting: frozenset[str]
    """Joints whose thickness some stack-up takes."""
    calls: Mapping[str, int]
    """How many factors and stack-ups may call for each remedy."""


class Tying:
    """Slots, factors and stack-ups parted into groups: tied by factors, sets, stack-ups and remedies they may share."""

    def __init__(
        self, case: Case, slots: Sequence[str], settled: Collection[str], factors: Sequence[Factor], stacks: Iterable[str]
    ) -> None:  # fmt: skip
        self.case, self.slots, self.settled, self.factors = case, slots, settled, factors
        self.stacks = {name: case.kind.stack_ups[name] for name in stacks}
        self.shifting = joints_that_shift(self.stacks.values())
        callers: list[Factor | StackUp] = [*factors, *self.stacks.values()]
        self.calls = collections.Counter(name for caller in callers for name in caller.remedies)

    def layout(self) -> Layout:
        """All groups."""
        ties = Ties()
        sets = {name: [slot for slot in each.slots if slot in self.slots] for name, each in self.case.kind.sets.items()}
        for slot in self.slots:
            ties.tie(f"slot {slot}")
        for factor in self.factors:
            ties.tie(f"factor {factor.name}", *self._open(factor.slots), *self._shared(factor.remedies))
        for name, slots in sets.items():
            ties.tie(f"set {name}", *self._open(slots))
        for name, stack in self.stacks.items():
            names = names_of(stack)
            joints = (f"factor {each}" for each in names if each in self.shifting)
            ties.tie(f"stack {name}", *self._open(names), *joints, *self._shared(stack.remedies))
        return Layout(tuple(self._group(members, sets) for members in ties.groups()), self.shifting, self.calls)

    def _open(self, slots: Iterable[str]) -> list[str]:
        """Slots of these whose supplier is still to be chosen."""
        return [f"slot {slot}" for slot in slots if slot in self.slots and slot not in self.settled]

    def _shared(self, remedies: Iterable[str]) -> list[str]:
        return [f"remedy {name}" for name in remedies if self.calls[name] > 1 and name in self.case.remedies]

    def _group(self, members: set[str], sets: Mapping[str, list[str]]) -> Group:
        slots = tuple(slot for slot in self.slots if f"slot {slot}" in members)
        place = {slot: i + 1 for i, slot in enumerate(slots)}
        factors: list[list[Factor]] = [[] for _ in range(len(slots) + 1)]
        for factor in self.factors:
            if f"factor {factor.name}" in members:
                factors[max((place.get(slot, 0) for slot in factor.slots), default=0)].append(factor)
        return Group(
            slots,
            tuple(map(tuple, factors)),
            tuple(name for name in self.stacks if f"stack {name}" in members),
            tuple(name for name in sets if f"set {name}" in members),
        )
