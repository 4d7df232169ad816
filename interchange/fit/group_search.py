"""One group of slots, joints and stack-ups decided: every choice that could be the best; the others are cut off early."""

from __future__ import annotations

import collections
import itertools
from typing import NamedTuple

from interchange.fit.case import middle
from interchange.fit.choices import Choices, Supplied, as_good
from interchange.fit.closing import Way, least_to_close
from interchange.fit.factor import Factor, Option
from interchange.fit.finding import STOPS
from interchange.fit.layout import Group
from interchange.fit.stack_up import INFINITE, Shifts, Standing

SMALL_GROUP = 2  # slots: below that, finding out what is still to come costs more than it saves


class Partial(NamedTuple):
    """A choice under way."""

    stops: int = 0
    cents: float = 0.0
    lead_days: float = 0.0
    taken: tuple[Option, ...] = ()
    remedies: frozenset[str] = frozenset()

    def plus(self, stops: int, cents: float, lead_days: float) -> Partial:
        """With this much more."""
        return self._replace(
            stops=self.stops + stops, cents=self.cents + cents, lead_days=max(self.lead_days, lead_days)
        )  # fmt: skip


class Solution(NamedTuple):
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


class GroupSearch:
    """Every choice for one group, slot by slot. What it finds stands in ``front``: for every wait that makes it cheaper."""

    def __init__(self, choices: Choices, group: Group, limit_cents: float = INFINITE) -> None:
        """Choices that stop, or come to ``limit_cents`` with what their wait costs, are not looked for."""
        self.choices, self.case, self.group = choices, choices.case, group
        self.front: list[Solution] = []
        self.limit_cents = limit_cents
        self.by = dict(choices.settled)
        self.chosen: dict[str, Supplied] = {}
        self.names = [factor.name for factors in group.factors for factor in factors]
        small = len(group.slots) <= SMALL_GROUP
        self.still_to_come = [0.0] * (len(group.slots) + 1) if small else self._still_to_come()
        self.stacks = [] if small else self._stacks_by_place()
        remedies = [frozenset(name for factor in factors for name in factor.remedies) for factors in group.factors]
        self.later = [frozenset[str]().union(*remedies[place + 1 :]) for place in range(len(remedies))]
        """For each place, the remedies that factors after it may call for."""
        self.stacks_calling = collections.Counter(each for name in group.stacks for each in choices.stacks[name].stack.remedies)

    def run(self) -> list[Solution]:
        """Try everything."""
        self._make_good(0, 0, Partial(), 0.0)
        return self.front

    def _fill(self, place: int, partial: Partial, stacks_cents: float) -> None:
        """Try every way to fill the slot at a place, then all that it completes."""
        if place > len(self.group.slots):
            self._finish(partial)
            return
        slot = self.group.slots[place - 1]
        for way in self.choices.ways[slot]:
            self.chosen[slot], self.by[slot] = way, way.by
            cents = way.charge_cents + way.stake_cents + way.effort.cents(self.case)
            self._make_good(place, 0, partial.plus(way.stops, cents, middle(way.effort.lead)), stacks_cents)
        if slot not in self.choices.settled:
            del self.by[slot]

    def _make_good(self, place: int, index: int, partial: Partial, stacks_cents: float) -> None:
        """Try every option of the factors that the slot at a place completes."""
        if self._beaten(partial, self.still_to_come[place] + stacks_cents):
            return
        if index < len(self.group.factors[place]):
            for option in self.choices.options(self.group.factors[place][index], self.by):
                self._make_good(place, index + 1, _with(partial, option), stacks_cents)
            return
        if self.stacks and self.stacks[place]:
            stacks_cents += self._least_of_stacks(place, partial)
            if self._beaten(partial, self.still_to_come[place] + stacks_cents):
                return
        self._fill(place + 1, partial, stacks_cents)

    def _still_to_come(self) -> list[float]:
        """For each place, what the slots and factors after it come to at the least."""
        least = [0.0]
        for slot, factors in zip(reversed(self.group.slots), reversed(self.group.factors), strict=False):
            ways = self.choices.ways[slot]
            cents = min(way.charge_cents + way.stake_cents + way.effort.cents(self.case) for way in ways)
            least.append(least[-1] + cents + sum(map(self._least_of_factor, factors)))
        return least[::-1]

    def _least_of_factor(self, factor: Factor) -> float:
        """What a factor comes to at the least, whoever supplies its slots; a shared remedy may come free.

        One that hangs on several slots with a choice takes more trying than it saves, and counts as nothing.
        """
        if sum(slot not in self.choices.settled for slot in factor.slots) > 1:
            return 0.0
        ways = ([way.by for way in self.choices.ways[slot]] for slot in factor.slots)
        return min(
            0.0 if self._shared(option) else option.cents + option.charge_cents + option.stake_cents
            for chosen in itertools.product(*ways)
            for option in self.choices.options(factor, dict(zip(factor.slots, chosen, strict=True)))
        )

    def _shared(self, option: Option) -> bool:
        return option.remedy is not None and self.choices.calls[option.remedy.id] > 1

    def _stacks_by_place(self) -> list[list[str]]:
        """For each place, the stack-ups of which everything is chosen by then."""
        done = {slot: place for place, slot in enumerate(self.group.slots, 1)}
        done |= {factor.name: place for place, factors in enumerate(self.group.factors) for factor in factors}
        found: list[list[str]] = [[] for _ in self.still_to_come]
        for name in self.group.stacks:
            found[max((done.get(each, 0) for each in self.choices.stacks[name].names), default=0)].append(name)
        return found

    def _least_of_stacks(self, place: int, partial: Partial) -> float:
        """What the stack-ups completed at a place come to at the least; a remedy that may be shared may come free."""
        shifts = self._shifts(partial)
        standings = [self.choices.standing(name, self.by, shifts) for name in self.stacks[place]]
        paid = partial.remedies | self.later[place]
        return sum(least_to_close(self.case, standing, shifts, paid, self.stacks_calling) for standing in standings)

    def _shifts(self, partial: Partial) -> Shifts:
        """The thickness of what stands in each joint that shifts a stack-up."""
        shifting = self.choices.shifting
        taken = ((name, option) for name, option in zip(self.names, partial.taken, strict=False) if name in shifting)
        return {name: option.thick_mm for name, option in taken if option.chain or option.remedy}

    def _finish(self, partial: Partial) -> None:
        """Add the mixing of sets, close the stack-ups every way, and keep what nothing beats."""
        choices = self.choices
        for name in self.group.sets:
            if choices.mixes(name, self.by):
                partial = partial.plus(0, *choices.mixing[name])
        if self._beaten(partial):
            return
        shifts = self._shifts(partial)
        standings = tuple(choices.standing(name, self.by, shifts) for name in self.group.stacks)
        for way in choices.ways_to_close(standings, shifts, partial.remedies):
            whole = partial.plus(way.stops, way.cents, way.lead_days)
            if not self._beaten(whole):
                taken = dict(zip(self.names, partial.taken, strict=True))
                one = Solution(*whole[:3], dict(self.chosen), taken, standings, shifts, partial.remedies, way)
                self.front[:] = [each for each in self.front if not as_good(self.case, one, each)] + [one]

    def _beaten(self, one: Partial, more_cents: float = 0.0) -> bool:
        """Whether something found is as good as a choice that costs at least so much more in the end."""
        waited_cents = one.cents + more_cents + one.lead_days * self.case.hold_day_cents
        if self.limit_cents < INFINITE and (one.stops or waited_cents >= self.limit_cents):
            return True
        return any(as_good(self.case, each, one, more_cents) for each in self.front)


def _with(partial: Partial, option: Option) -> Partial:
    """A choice with one more factor made good; a remedy that is paid for already costs and waits no more."""
    stops = partial.stops + (option.verdict == STOPS)
    remedy = option.remedy.id if option.remedy else None
    if remedy in partial.remedies:
        return Partial(stops, partial.cents, partial.lead_days, (*partial.taken, option), partial.remedies)
    return Partial(
        stops,
        partial.cents + option.charge_cents + option.stake_cents + option.cents,
        max(partial.lead_days, option.lead_days),
        (*partial.taken, option),
        partial.remedies | {remedy} if remedy else partial.remedies,
    )
