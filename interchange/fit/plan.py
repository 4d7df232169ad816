"""The cheapest complete way to make a donor go in, or the fewest facts that stop it.

For each slot a supplier is chosen, for each joint and dimension a way to make it good, so that the stack-ups close and money is
least: parts and work, own hours, mixing of sets, and the longest wait at what a day of standing costs. The search is branch
and bound over slots with a bound that never overestimates, so what it finds is the least there is.
"""

from __future__ import annotations

import itertools
from collections.abc import Iterator
from typing import NamedTuple

from interchange.catalog.features import SEAT
from interchange.catalog.model import StackUp
from interchange.fit.case import BOUGHT, DONOR, NOBODY, OWN, Case, Donor, Effort, Suppliers, effort_of, middle
from interchange.fit.factor import Factor, Option, applies, factors_of, options
from interchange.fit.finding import ADAPTS, MACHINE_WORK, STOPS
from interchange.fit.stack_up import Closing, Depths, close_all, joints_that_shift

UNREACHED = (1 << 30, float("inf"))


class Supplied(NamedTuple):
    """One way to fill a slot."""

    by: str
    effort: Effort
    charge_cents: float = 0.0
    """What is charged for a part the ad may not bring."""
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

    stops: int
    cents: float
    lead_days: float
    suppliers: tuple[Supplied, ...]
    taken: tuple[Option, ...]
    remedies: frozenset[str]


def supplies(case: Case, donor: Donor, slot: str) -> list[Supplied]:
    """The ways to fill a slot: from the donor if the ad brings it, one's own if it is usable, bought."""
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
            instead = min((other.effort.cents(case) for other in found), default=0.0)
            found.insert(0, Supplied(DONOR, Effort(), (1 - brings) * instead))
    return found or [Supplied(NOBODY, Effort(), stops=1)]


class _Search:
    """Branch and bound over the slots of one kind for one donor."""

    def __init__(self, case: Case, donor: Donor) -> None:
        self.case, self.donor = case, donor
        kind = case.kind
        named = [slot for slot in kind.slots if not (slot in kind.supply and not applies(kind.supply[slot].when, case, donor))]
        self.slots = named
        place = {slot: i for i, slot in enumerate(named)}
        self.ways = [supplies(case, donor, slot) for slot in named]
        factors = [factor for factor in factors_of(case, donor) if all(slot in place for slot in factor.slots)]
        self.stacks = {name: stack for name, stack in kind.stack_ups.items() if applies(stack.when, case, donor)}
        self.shifting = joints_that_shift(self.stacks.values())
        self.factors: list[list[Factor]] = [[] for _ in named]
        for factor in factors:
            self.factors[max((place[slot] for slot in factor.slots), default=0)].append(factor)
        self.flat = list(itertools.chain.from_iterable(self.factors))
        self.sets = {name: [place[slot] for slot in each.slots if slot in place] for name, each in kind.sets.items()}
        self.known: dict[tuple[str, tuple[str, str]], list[Option]] = {}
        self.shared = self._shared_remedies()
        self.settled = {slot: ways[0].by for slot, ways in zip(named, self.ways, strict=True) if len(ways) == 1}
        self.least = [[self._least(slot, way) for way in ways] for slot, ways in enumerate(self.ways)]
        self.rest = self._bounds()
        self.best: Choice | None = None
        self.best_key: tuple[float, float] = UNREACHED

    def _shared_remedies(self) -> frozenset[str]:
        """Remedies that more than one factor may call for: the bound must not count them, since they are paid once."""
        seen: dict[str, int] = {}
        for factor in self.flat:
            member = factor.joint or factor.dimension
            for name in member.remedies if member else ():
                seen[name] = seen.get(name, 0) + 1
        for stack in self.stacks.values():
            for name in stack.remedies:
                seen[name] = seen.get(name, 0) + 1
        return frozenset(name for name, times in seen.items() if times > 1)

    def ways_for(self, factor: Factor, suppliers: Suppliers) -> list[Option]:
        """The options of a factor for the suppliers of its ends, found once, without those another beats."""
        sources = (suppliers.source(factor.ends[0]), suppliers.source(factor.ends[1]))
        key = (factor.name, sources)
        if key not in self.known:
            found = options(self.case, self.donor, factor, sources)
            self.known[key] = found if factor.name in self.shifting else self._undominated(found)
        return self.known[key]

    def _undominated(self, found: list[Option]) -> list[Option]:
        """Options that no other beats in both cost and wait. A shared remedy may come free, so it always stays."""
        kept: list[Option] = []
        for option in found:
            shared = option.remedy is not None and option.remedy.id in self.shared
            beaten = not shared and any(self._beats(other, option) for other in kept)
            if not beaten:
                kept = [
                    other for other in kept if (other.remedy and other.remedy.id in self.shared) or not self._beats(option, other)
                ]
                kept.append(option)
        return kept

    def _beats(self, one: Option, other: Option) -> bool:
        cost, price = (o.charge_cents + o.effort.cents(self.case) for o in (one, other))
        return cost <= price and middle(one.effort.lead) <= middle(other.effort.lead)

    def _least(self, slot: int, way: Supplied) -> tuple[int, float]:
        """(stops, cents) that filling a slot this way costs at least, with the factors that hang on no other open choice."""
        stops, cents = way.stops, way.charge_cents + way.effort.cents(self.case)
        suppliers = Suppliers(self.case, self.donor)
        suppliers.by |= self.settled
        suppliers.by[self.slots[slot]] = way.by
        for factor in self.factors[slot]:
            if all(each in suppliers.by for each in factor.slots):
                found = self.ways_for(factor, suppliers)
                stops += min(option.verdict == STOPS for option in found)
                cents += min(self._cents(option, frozenset(self.shared)) for option in found)
        return stops, cents

    def _bounds(self) -> list[tuple[int, float]]:
        """For each slot, (stops, cents) that this slot and all after it cost at least."""
        rest = [(0, 0.0)] * (len(self.slots) + 1)
        for slot in reversed(range(len(self.slots))):
            least, after = self.least[slot], rest[slot + 1]
            rest[slot] = (after[0] + min(s for s, _ in least), after[1] + min(c for _, c in least))
        return rest

    def _cents(self, option: Option, paid: frozenset[str]) -> float:
        if option.remedy is not None and option.remedy.id in paid:
            return option.charge_cents
        return option.charge_cents + option.effort.cents(self.case)

    def run(self) -> Choice:
        """The best choice there is."""
        self._fill(0, _Partial(0, 0.0, 0.0, (), (), frozenset()), Suppliers(self.case, self.donor))
        if self.best is None:
            raise ValueError("a kind without slots has no plan")
        return self.best

    def _key(self, partial: _Partial, rest: tuple[int, float] = (0, 0.0)) -> tuple[float, float]:
        return partial.stops + rest[0], partial.cents + rest[1] + partial.lead_days * self.case.hold_day_cents

    def _fill(self, slot: int, partial: _Partial, suppliers: Suppliers) -> None:
        """Try every way to fill a slot, cheapest first."""
        if self._key(partial, self.rest[slot]) >= self.best_key:
            return
        if slot == len(self.slots):
            self._finish(partial, suppliers)
            return
        for _, way in sorted(zip(self.least[slot], self.ways[slot], strict=True), key=lambda pair: pair[0]):
            suppliers.by[self.slots[slot]] = way.by
            cents = partial.cents + way.charge_cents + way.effort.cents(self.case)
            lead = max(partial.lead_days, middle(way.effort.lead))
            chosen = (*partial.suppliers, way)
            cents += sum(
                middle(effort.money) + middle(effort.hours) * self.case.own_hour_cents for effort in self._mixing(slot, chosen)
            )
            begun = _Partial(partial.stops + way.stops, cents, lead, chosen, partial.taken, partial.remedies)
            self._make_good(slot, 0, begun, suppliers)
        del suppliers.by[self.slots[slot]]

    def _make_good(self, slot: int, index: int, partial: _Partial, suppliers: Suppliers) -> None:
        """Try every option of the factors that this slot completes."""
        if self._key(partial, self.rest[slot + 1]) >= self.best_key:
            return
        if index == len(self.factors[slot]):
            self._fill(slot + 1, partial, suppliers)
            return
        for option in self.ways_for(self.factors[slot][index], suppliers):
            paid = option.remedy is not None and option.remedy.id in partial.remedies
            after = _Partial(
                partial.stops + (option.verdict == STOPS),
                partial.cents + self._cents(option, partial.remedies),
                partial.lead_days if paid else max(partial.lead_days, middle(option.effort.lead)),
                partial.suppliers,
                (*partial.taken, option),
                partial.remedies | {option.remedy.id} if option.remedy else partial.remedies,
            )
            self._make_good(slot, index + 1, after, suppliers)

    def _mixing(self, slot: int, chosen: tuple[Supplied, ...]) -> Iterator[Effort]:
        """The cost of sets that this slot completes with more than one supplier."""
        for name, places in self.sets.items():
            if places and max(places) == slot and len({chosen[i].by for i in places}) > 1:
                yield effort_of(self.case.kind.sets[name].mixing)

    def _finish(self, partial: _Partial, suppliers: Suppliers) -> None:
        """Close the stack-ups and keep the choice if it is the best so far."""
        shifts = {
            factor.name: option.thick_mm
            for factor, option in zip(self.flat, partial.taken, strict=True)
            if option.adapter or option.remedy
        }
        depths = Depths(self.stacks, suppliers, shifts, frozenset(self.case.kind.joints), partial.remedies)
        closings = close_all(depths)
        new = {closing.remedy.id: closing.remedy for closing in closings if closing.remedy}
        fresh = [effort_of(remedy) for id_, remedy in new.items() if id_ not in partial.remedies]
        stops = partial.stops + sum(closing.verdict == STOPS for closing in closings)
        cents = partial.cents + sum(effort.cents(self.case) for effort in fresh) + sum(c.charge_cents for c in closings)
        lead = max([partial.lead_days, *(middle(effort.lead) for effort in fresh)])
        key = (stops, cents + lead * self.case.hold_day_cents)
        if key < self.best_key:
            self.best_key = key
            mixed = tuple(
                name for name, places in self.sets.items() if places and len({partial.suppliers[i].by for i in places}) > 1
            )
            self.best = Choice(
                dict(zip(self.slots, partial.suppliers, strict=True)),
                {factor.name: option for factor, option in zip(self.flat, partial.taken, strict=True)},
                closings,
                mixed,
                stops,
                key[1],
                lead,
            )


def best_choice(case: Case, donor: Donor) -> Choice:
    """The choice with the fewest stops, and of these the least expected money."""
    return _Search(case, donor).run()


__all__ = ["ADAPTS", "MACHINE_WORK", "SEAT", "Choice", "StackUp", "Supplied", "best_choice", "supplies"]
