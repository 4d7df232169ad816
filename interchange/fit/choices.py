"""What there is to choose from for one donor: who may supply each slot, the ways to make each joint good, and what that costs."""

from __future__ import annotations

from collections.abc import Mapping
from typing import NamedTuple, Protocol

from interchange.fit.case import BOUGHT, DONOR, NOBODY, OWN, Case, Donor, Effort, Suppliers, effort_of, middle
from interchange.fit.closing import Way, ways_to_close
from interchange.fit.factor import Factor, Option, applies, factors_of, options
from interchange.fit.layout import Layout, Tying
from interchange.fit.stack_up import Shifts, Standing, made_ready, stand


class Supplied(NamedTuple):
    """One way to fill a slot."""

    by: str
    effort: Effort
    charge_cents: float = 0.0
    """What is charged for a part the ad may not bring: the chance that it does not, times the cheapest other."""
    stake_cents: float = 0.0
    """The same where there is no other: times a lost try."""
    stops: int = 0


def needs_slot(case: Case, donor: Donor, slot: str) -> bool | None:
    """Whether a slot has to be filled at all; None where what decides it is not known."""
    supply = case.kind.supply.get(slot)
    return applies(supply.when, case, donor) if supply else True


def supplies(case: Case, donor: Donor, slot: str, *, sure: bool) -> list[Supplied]:
    """The ways to fill a slot: from the donor if the ad brings it, one's own if it is usable, bought.

    Where nobody can, that stops the plan if it is ``sure`` that the slot is needed; otherwise it is left not known.
    """
    supply = case.kind.supply.get(slot)
    by = supply.by if supply else (DONOR, OWN)
    found: list[Supplied] = []
    if OWN in by and slot in case.usable:
        found.append(Supplied(OWN, effort_of(supply.own if supply else None)))
    if BOUGHT in by and supply and supply.bought:
        found.append(Supplied(BOUGHT, effort_of(supply.bought)))
    if DONOR in by:
        brings = 1.0 if slot in donor.offer.has else donor.offer.perhaps.get(slot, 0.0)
        if brings:
            others = [other.effort.cents(case) for other in found]
            charge = (1 - brings) * min(others) if others else 0.0
            stake = 0.0 if others else (1 - brings) * case.lost_try_cents
            found.insert(0, Supplied(DONOR, Effort(), charge, stake))
    return found or [Supplied(NOBODY, Effort(), stops=int(sure))]


class Choices:
    """All that may be chosen for one donor, each found once."""

    def __init__(self, case: Case, donor: Donor) -> None:
        self.case, self.donor = case, donor
        kind = case.kind
        needed = {slot: needs_slot(case, donor, slot) for slot in kind.slots}
        self.slots = [slot for slot in kind.slots if needed[slot] is not False]
        self.ways = {slot: supplies(case, donor, slot, sure=needed[slot] is True) for slot in self.slots}
        self.settled = {slot: ways[0].by for slot, ways in self.ways.items() if len(ways) == 1}
        there = frozenset(self.slots)
        self.factors = [factor for factor in factors_of(case, donor) if there.issuperset(factor.slots)]
        stacks = {name: stack for name, stack in kind.stack_ups.items() if applies(stack.when, case, donor) is not False}
        ready = {name: made_ready(case, donor, name, stack) for name, stack in stacks.items()}
        unneeded = frozenset(kind.slots) - there
        self.stacks = {name: one for name, one in ready.items() if unneeded.isdisjoint(one.names)}
        self.groups, self.shifting, self.calls = self._layout()
        self.known: dict[tuple[str, ...], list[Option]] = {}
        self.standings: dict[tuple[object, ...], Standing] = {}
        self.closed: dict[tuple[object, ...], list[Way]] = {}
        mixing = {name: effort_of(each.mixing) for name, each in kind.sets.items()}
        self.mixing = {name: (effort.cents(case), middle(effort.lead)) for name, effort in mixing.items()}

    def _layout(self) -> Layout:
        """The groups, found once for all donors with the same slots, factors and stack-ups."""
        names = tuple(factor.name for factor in self.factors)
        key = (tuple(self.slots), tuple(self.settled), names, tuple(self.stacks))
        known = self.case.memory.layouts.get(key)
        if known is None:
            known = Tying(self.case, self.slots, self.settled, self.factors, self.stacks).layout()
            self.case.memory.layouts[key] = known
        return known

    def options(self, factor: Factor, by: Mapping[str, str]) -> list[Option]:
        """The options of a factor for the suppliers of its slots, found once, without those another beats."""
        key = (factor.name, *(by[slot] for slot in factor.slots))
        if key not in self.known:
            found = options(self.case, self.donor, factor, by)
            self.known[key] = found if factor.name in self.shifting else self._undominated(found)
        return self.known[key]

    def _undominated(self, found: list[Option]) -> list[Option]:
        """Options that no other beats in cost and wait. A shared remedy may come free, so it always stays."""
        kept: list[Option] = []
        for option in sorted(found, key=lambda option: (option.cents, option.lead_days)):
            shared = option.remedy is not None and self.calls[option.remedy.id] > 1
            if shared or not any(as_cheap(self.case, each, option) for each in kept):
                kept.append(option)
        return kept

    def ways_to_close(self, standings: tuple[Standing, ...], shifts: Shifts, paid: frozenset[str]) -> list[Way]:
        """The ways to close stack-ups that no other beats, once for every choice of what they hang on."""
        mends = frozenset(name for each in standings for name in each.ready.stack.remedies)
        key = (tuple(map(id, standings)), tuple(sorted(shifts.items())), paid & mends)
        if key not in self.closed:
            kept: list[Way] = []
            for way in ways_to_close(self.case, standings, shifts, paid):
                if not any(as_good(self.case, each, way) for each in kept):
                    kept.append(way)
            self.closed[key] = kept
        return self.closed[key]

    def standing(self, name: str, by: Mapping[str, str], shifts: Shifts) -> Standing:
        """A stack-up added up, once for every choice of those it takes its terms from."""
        ready = self.stacks[name]
        key = (name, *((by.get(name), shifts.get(name, "nothing")) for name in ready.names))
        if key not in self.standings:
            self.standings[key] = stand(ready, Suppliers(self.case, self.donor, by), shifts)
        return self.standings[key]

    def mixes(self, name: str, by: Mapping[str, str]) -> bool:
        """Whether the parts of a set come from more than one supplier."""
        return len({by[slot] for slot in self.case.kind.sets[name].slots if slot in by}) > 1


class Waits(Protocol):
    """Anything that costs and waits."""

    @property
    def cents(self) -> float:
        """Money and own hours."""

    @property
    def lead_days(self) -> float:
        """Waiting."""


class Stops(Waits, Protocol):
    """The same, with how many things stop it."""

    @property
    def stops(self) -> int:
        """Things that stop it."""


def as_cheap(case: Case, one: Waits, other: Waits, more_cents: float = 0.0) -> bool:
    """Whether one is as cheap as another that costs at least so much more in the end, whatever else is added to both.

    A longer wait counts at most for what its days cost: beside other waits it may cost less, never more.
    """
    return one.cents + case.hold_day_cents * max(0.0, one.lead_days - other.lead_days) <= other.cents + more_cents


def as_good(case: Case, one: Stops, other: Stops, more_cents: float = 0.0) -> bool:
    """Whether one is as good as another: fewer stops always win, then :func:`as_cheap`."""
    return as_cheap(case, one, other, more_cents) if one.stops == other.stops else one.stops < other.stops
