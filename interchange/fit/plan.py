"""The cheapest complete way to make a donor go in, or the fewest facts that stop it.

For each slot a supplier is chosen, for each joint and dimension a way to make it good, so that the stack-ups close and money is
least: parts and work, own hours, mixing of sets, and the longest wait at what a day of standing costs. Slots that nothing ties to
each other are solved by themselves, each for every wait that pays; then, under each cap on the wait, the cheapest of all are put
together. Nothing is left out that could be better, so what is found is the least there is.
"""

from __future__ import annotations

import itertools
from collections.abc import Iterator, Mapping
from typing import NamedTuple

from interchange.fit.case import BOUGHT, DONOR, NOBODY, OWN, Case, Donor, Effort, Suppliers, effort_of, middle
from interchange.fit.factor import Factor, Option, applies, factors_of, options
from interchange.fit.finding import STOPS
from interchange.fit.layout import Group, Layout, Tying
from interchange.fit.stack_up import (
    Closing,
    Ready,
    Shifts,
    Standing,
    Way,
    closings,
    made_ready,
    stand,
    ways_to_close,
)

SMALL_GROUP = 3


class Supplied(NamedTuple):
    """One way to fill a slot."""

    by: str
    effort: Effort
    charge_cents: float = 0.0
    """What is charged for a part the ad may not bring: the chance that it does not, times the cheapest other."""
    stake_cents: float = 0.0
    """The same where there is no other: times a lost try."""
    stops: int = 0


class Choice(NamedTuple):
    """What a plan decides: who supplies each slot, how each factor is made good, how the stack-ups close."""

    suppliers: dict[str, Supplied]
    taken: dict[str, Option]
    closings: tuple[Closing, ...]
    mixed: tuple[str, ...]
    stops: int
    cost_cents: float
    lead_days: float


class _Partial(NamedTuple):
    """A choice under way."""

    stops: int = 0
    cents: float = 0.0
    lead_days: float = 0.0
    taken: tuple[Option, ...] = ()
    remedies: frozenset[str] = frozenset()

    def plus(self, stops: int, cents: float, lead_days: float) -> _Partial:
        """With this much more."""
        return self._replace(
            stops=self.stops + stops, cents=self.cents + cents, lead_days=max(self.lead_days, lead_days)
        )  # fmt: skip


class _Solution(NamedTuple):
    """A group decided."""

    stops: int
    cents: float
    lead_days: float
    by: dict[str, Supplied]
    taken: dict[str, Option]
    standings: tuple[Standing, ...]
    shifts: Shifts
    paid: frozenset[str]
    way: Way


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


def standing_costs(case: Case, donor: Donor) -> Iterator[Effort]:
    """What every plan for a donor takes, whatever is chosen."""
    yield effort_of(donor.offer.work)
    yield effort_of(case.kind.renew_cost)
    yield effort_of(case.kind.sundries)


class _Search:
    """All choices for one donor, group by group."""

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
        """Options that no other beats in both cost and wait. A shared remedy may come free, so it always stays."""
        kept: list[Option] = []
        for option in sorted(found, key=lambda option: (option.cents, option.lead_days)):
            shared = option.remedy is not None and self.calls[option.remedy.id] > 1
            if shared or not any(other.lead_days <= option.lead_days for other in kept):
                kept.append(option)
        return kept

    def solved(self, group: Group) -> list[_Solution]:
        """The best a group can do, for every wait that makes it cheaper."""
        front: list[_Solution] = []
        by = dict(self.settled)
        chosen: dict[str, Supplied] = {}
        still_to_come = self._still_to_come(group)

        def fill(place: int, partial: _Partial) -> None:
            """Try every way to fill the slot at a place, then all that it completes."""
            if place > len(group.slots):
                self._finish(group, partial, by, chosen, front)
                return
            slot = group.slots[place - 1]
            for way in self.ways[slot]:
                chosen[slot], by[slot] = way, way.by
                cents = way.charge_cents + way.stake_cents + way.effort.cents(self.case)
                make_good(place, 0, partial.plus(way.stops, cents, middle(way.effort.lead)))
            if slot not in self.settled:
                del by[slot]

        def make_good(place: int, index: int, partial: _Partial) -> None:
            """Try every option of the factors that the slot at a place completes."""
            if _beaten(front, partial, still_to_come[place]):
                return
            if index == len(group.factors[place]):
                fill(place + 1, partial)
                return
            for option in self.options(group.factors[place][index], by):
                make_good(place, index + 1, _with(partial, option))

        make_good(0, 0, _Partial())
        return front

    def _still_to_come(self, group: Group) -> list[float]:
        """For each place of a group, what the slots and factors after it come to at the least; nothing in a small one."""
        if len(group.slots) <= SMALL_GROUP:
            return [0.0] * (len(group.slots) + 1)
        least = [0.0]
        for slot, factors in zip(reversed(group.slots), reversed(group.factors), strict=False):
            cents = min(way.charge_cents + way.stake_cents + way.effort.cents(self.case) for way in self.ways[slot])
            least.append(least[-1] + cents + sum(map(self._least_cents, factors)))
        return least[::-1]

    def _least_cents(self, factor: Factor) -> float:
        """What a factor comes to at the least, whoever supplies its slots; a shared remedy may come free."""
        ways = ([way.by for way in self.ways[slot]] for slot in factor.slots)
        return min(
            0.0 if option.remedy and self.calls[option.remedy.id] > 1 else option.cents + option.charge_cents + option.stake_cents
            for chosen in itertools.product(*ways)
            for option in self.options(factor, dict(zip(factor.slots, chosen, strict=True)))
        )

    def _finish(
        self, group: Group, partial: _Partial, by: Mapping[str, str], chosen: Mapping[str, Supplied], front: list[_Solution]
    ) -> None:  # fmt: skip
        """Add the mixing of sets, close the stack-ups every way, and keep what nothing beats."""
        for name in group.sets:
            if self._mixes(name, by):
                effort = effort_of(self.case.kind.sets[name].mixing)
                partial = partial.plus(0, effort.cents(self.case), middle(effort.lead))
        if _beaten(front, partial):
            return
        factors = [factor for each in group.factors for factor in each]
        taken = {factor.name: option for factor, option in zip(factors, partial.taken, strict=True)}
        standing_in = {name: option for name, option in taken.items() if option.chain or option.remedy}
        shifts = {name: option.thick_mm for name, option in standing_in.items() if name in self.shifting}
        standings = tuple(self._standing(ready, by, shifts) for ready in map(self.stacks.__getitem__, group.stacks))
        for way in ways_to_close(self.case, standings, shifts, partial.remedies):
            whole = partial.plus(way.stops, way.cents, way.lead_days)
            if not _beaten(front, whole):
                one = _Solution(*whole[:3], dict(chosen), taken, standings, shifts, partial.remedies, way)
                front[:] = [each for each in front if not _beaten([one], each)] + [one]

    def _standing(self, ready: Ready, by: Mapping[str, str], shifts: Shifts) -> Standing:
        """A stack-up added up, once for every choice of those it takes its terms from."""
        key = (ready.name, *((by.get(name), shifts.get(name, "nothing")) for name in ready.names))
        if key not in self.standings:
            self.standings[key] = stand(ready, Suppliers(self.case, self.donor, by), shifts)
        return self.standings[key]

    def _mixes(self, name: str, by: Mapping[str, str]) -> bool:
        """Whether the parts of a set come from more than one supplier."""
        return len({by[slot] for slot in self.case.kind.sets[name].slots if slot in by}) > 1

    def run(self) -> Choice:
        """The best choice there is: under each cap on the wait the cheapest of every group, and of these the cheapest."""
        fronts = [self.solved(group) for group in self.groups]
        fixed = list(standing_costs(self.case, self.donor))
        cents = sum(effort.cents(self.case) for effort in fixed)
        soonest = max((middle(effort.lead) for effort in fixed), default=0.0)
        soonest = max([soonest, *(min(each.lead_days for each in front) for front in fronts)])
        best: tuple[int, float, float, list[_Solution]] | None = None
        for cap in sorted({soonest, *(each.lead_days for front in fronts for each in front if each.lead_days > soonest)}):
            parts = [
                min((each for each in front if each.lead_days <= cap), key=lambda each: (each.stops, each.cents, each.lead_days))
                for front in fronts
            ]
            lead = max([soonest, *(each.lead_days for each in parts)])
            total = cents + sum(each.cents for each in parts) + lead * self.case.hold_day_cents
            stops = sum(each.stops for each in parts)
            if best is None or (stops, total) < best[:2]:
                best = (stops, total, lead, parts)
        if best is None:
            raise ValueError("there is always the soonest plan")
        return self._choice(*best)

    def _choice(self, stops: int, cost_cents: float, lead_days: float, parts: list[_Solution]) -> Choice:
        """The chosen solutions of all groups together, in the order of the kind."""
        suppliers = {slot: way for part in parts for slot, way in part.by.items()}
        taken = {name: option for part in parts for name, option in part.taken.items()}
        closed = {
            closing.name: closing
            for part in parts
            for closing in closings(self.case, part.standings, part.shifts, part.way, part.paid)
        }
        by = {slot: way.by for slot, way in suppliers.items()}
        return Choice(
            {slot: suppliers[slot] for slot in self.slots},
            {factor.name: taken[factor.name] for factor in self.factors},
            tuple(closed[name] for name in self.stacks),
            tuple(name for name in self.case.kind.sets if self._mixes(name, by)),
            stops,
            cost_cents,
            lead_days,
        )


def _beaten(front: list[_Solution], one: _Partial | _Solution, more_cents: float = 0.0) -> bool:
    """Whether something in the front waits no longer and is as good as a choice that costs at least so much more in the end."""
    stops, cents, lead_days = one.stops, one.cents + more_cents, one.lead_days
    return any(each.lead_days <= lead_days and (each.stops, each.cents) <= (stops, cents) for each in front)


def _with(partial: _Partial, option: Option) -> _Partial:
    """A choice with one more factor made good; a remedy that is paid for already costs and waits no more."""
    stops = partial.stops + (option.verdict == STOPS)
    remedy = option.remedy.id if option.remedy else None
    if remedy in partial.remedies:
        return _Partial(stops, partial.cents, partial.lead_days, (*partial.taken, option), partial.remedies)
    return _Partial(
        stops,
        partial.cents + option.charge_cents + option.stake_cents + option.cents,
        max(partial.lead_days, option.lead_days),
        (*partial.taken, option),
        partial.remedies | {remedy} if remedy else partial.remedies,
    )


def best_choice(case: Case, donor: Donor) -> Choice:
    """The choice with the fewest stops, and of these the least expected money."""
    return _Search(case, donor).run()
