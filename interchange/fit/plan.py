"""The cheapest complete way to make a donor go in, or the fewest facts that stop it.

For each slot a supplier is chosen, for each joint and dimension a way to make it good, so that the stack-ups close and money is
least: parts and work, own hours, mixing of sets, and the longest wait at what a day of standing costs. Slots that nothing ties to
each other are solved by themselves, each for every wait that pays; then, under each cap on the wait, the cheapest of all are put
together. Nothing is left out that could be better, so what is found is the least there is.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import NamedTuple

from interchange.fit.case import Case, Donor, Effort, effort_of, middle
from interchange.fit.choices import Choices, Supplied
from interchange.fit.closing import Closing, closings
from interchange.fit.factor import Option
from interchange.fit.group_search import GroupSearch, Solution
from interchange.fit.stack_up import Standing


class Choice(NamedTuple):
    """What a plan decides: who supplies each slot, how each factor is made good, how the stack-ups close."""

    suppliers: dict[str, Supplied]
    taken: dict[str, Option]
    closings: tuple[Closing, ...]
    standings: tuple[Standing, ...]
    """The stack-ups as they were added up, in the same order."""
    mixed: tuple[str, ...]
    stops: int
    cost_cents: float
    lead_days: float


def standing_costs(case: Case, donor: Donor) -> Iterator[Effort]:
    """What every plan for a donor takes, whatever is chosen."""
    yield effort_of(donor.offer.work)
    yield effort_of(case.kind.renew_cost)
    yield effort_of(case.kind.sundries)


def best_choice(case: Case, donor: Donor) -> Choice:
    """The choice with the fewest stops, and of these the least expected money.

    Under each cap on the wait the cheapest of every group is taken, and of these the cheapest.
    """
    choices = Choices(case, donor)
    fronts = [GroupSearch(choices, group).run() for group in choices.groups]
    fixed = list(standing_costs(case, donor))
    cents = sum(effort.cents(case) for effort in fixed)
    soonest = max((middle(effort.lead) for effort in fixed), default=0.0)
    soonest = max([soonest, *(min(each.lead_days for each in front) for front in fronts)])
    best: tuple[int, float, float, list[Solution]] | None = None
    for cap in sorted({soonest, *(each.lead_days for front in fronts for each in front if each.lead_days > soonest)}):
        parts = [
            min((each for each in front if each.lead_days <= cap), key=lambda each: (each.stops, each.cents, each.lead_days))
            for front in fronts
        ]
        lead = max([soonest, *(each.lead_days for each in parts)])
        total = cents + sum(each.cents for each in parts) + lead * case.hold_day_cents
        stops = sum(each.stops for each in parts)
        if best is None or (stops, total) < best[:2]:
            best = (stops, total, lead, parts)
    if best is None:
        raise ValueError("there is always the soonest plan")
    return _choice(choices, *best)


def may_beat(case: Case, donor: Donor, ceiling_cents: float, least_cents: Mapping[str, float], slots: Mapping[str, str]) -> bool:
    """Whether the best choice may come to less than a ceiling: False only where it cannot.

    ``least_cents`` is what each slot comes to at the least, ``slots`` the slot to which each joint, dimension and stack-up is
    charged there. Only the largest group is decided, with what the others leave it.
    """
    choices = Choices(case, donor)
    group = max(choices.groups, key=lambda group: len(group.slots))
    fixed = sum(effort.cents(case) for effort in standing_costs(case, donor))
    names = [*(factor.name for factors in group.factors for factor in factors), *group.stacks]
    names += [f"set {name}" for name in group.sets]
    spared = {*group.slots, *(slots[name] for name in names if name in slots)}
    others = sum(cents for slot, cents in least_cents.items() if slot not in spared)
    return bool(GroupSearch(choices, group, ceiling_cents - fixed - others).run())


def _choice(choices: Choices, stops: int, cost_cents: float, lead_days: float, parts: list[Solution]) -> Choice:
    """The chosen solutions of all groups together, in the order of the kind."""
    suppliers = {slot: way for part in parts for slot, way in part.by.items()}
    taken = {name: option for part in parts for name, option in part.taken.items()}
    closed = {
        closing.name: closing
        for part in parts
        for closing in closings(choices.case, part.standings, part.shifts, part.way, part.paid)
    }
    standing = {each.ready.name: each for part in parts for each in part.standings}
    by = {slot: way.by for slot, way in suppliers.items()}
    return Choice(
        {slot: suppliers[slot] for slot in choices.slots},
        {factor.name: taken[factor.name] for factor in choices.factors},
        tuple(closed[name] for name in choices.stacks),
        tuple(standing[name] for name in choices.stacks),
        tuple(name for name in choices.case.kind.sets if choices.mixes(name, by)),
        stops,
        cost_cents,
        lead_days,
    )
