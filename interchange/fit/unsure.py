"""What a plan leaves unsure, one by one: how likely it turns out well, and what it costs, or stops, where it does not.

The charges and the chance of a plan are made of these, so what an answer would change can be told from them exactly.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING, NamedTuple

from interchange.fit.case import BOUGHT, COST_ONLY, DONOR, NOBODY, NOTHING_TO_GO_BY, OWN, Case, Chance, Donor
from interchange.fit.finding import UNSURE

if TYPE_CHECKING:
    from interchange.catalog.model import Kind
    from interchange.fit.plan import Choice
    from interchange.fit.report import Plan

FACTOR, STACK_UP, PART, NEED = "factor", "stack-up", "part", "need"


class Unsure(NamedTuple):
    """One thing a plan does not know."""

    sort: str
    """factor (a joint or dimension), stack-up, part (whether the ad brings it) or need (whether it is needed at all)."""
    name: str
    title: str
    chance: float
    """That it turns out well."""
    cents: float = 0.0
    """What is to be paid where it does not."""
    mended: bool = False
    """Whether something mends it then."""
    stops: bool = False
    """Whether it then does not go in."""


def unsure_of(case: Case, donor: Donor, choice: Choice) -> Iterator[Unsure]:
    """All that a choice leaves unsure, in the order of the kind."""
    for name, option in choice.taken.items():
        if option.verdict == UNSURE and option.chance:
            stops = not option.fallback and not only_costs(case.kind, name)
            cents = _whole(option.charge_cents, option.chance.value)
            yield Unsure(FACTOR, name, title_of(case.kind, name), option.chance.value, cents, bool(option.fallback), stops)
    for closing in choice.closings:
        if closing.verdict == UNSURE:
            stack, chance = case.kind.stack_ups[closing.name], case.chance(closing.name).value
            mended = any(name in case.remedies for name in stack.remedies)
            yield Unsure(STACK_UP, closing.name, stack.title, chance, _whole(closing.charge_cents, chance), mended, not mended)
    for slot, way in choice.suppliers.items():
        parts = parts_of(case.kind, slot)
        if way.by == DONOR and slot not in donor.offer.has and slot in donor.offer.perhaps:
            chance = donor.offer.perhaps[slot]
            title = f"whether it comes with {parts}"
            yield Unsure(PART, slot, title, chance, _whole(way.charge_cents, chance), stops=not others(case, slot))
        elif way.by == NOBODY:
            yield Unsure(NEED, slot, f"whether it needs {parts}", NOTHING_TO_GO_BY.value, stops=True)


def _whole(charge_cents: float, chance: float) -> float:
    """What would have to be paid, of which the chance that it must be is charged."""
    return charge_cents / (1 - chance) if charge_cents and chance < 1 else 0.0


def gambles_of(unsure: Sequence[Unsure]) -> tuple[tuple[float, float], ...]:
    """(chance, cents) of each thing that may have to be paid for."""
    return tuple((1 - one.chance, one.cents) for one in unsure if one.cents and one.chance < 1)


def chance_of(unsure: Sequence[Unsure]) -> Chance:
    """The chance that nothing stops it after all: the product over what is not known and nothing could mend.

    What is not known but can be mended is charged for instead; what only costs does not count.
    """
    lasting = [one for one in unsure if one.stops]
    if lasting:
        titles = dict.fromkeys(one.title for one in lasting)
        return Chance(math.prod(one.chance for one in lasting), "hangs on: " + ", ".join(titles))
    if any(one.mended for one in unsure):
        return Chance(1.0, "what is not known could be mended; the doubt is in the cost")
    return Chance(1.0, "everything that could stop it is known")


def if_known(plan: Plan, sort: str, name: str, *, well: bool) -> Plan:
    """The same plan, followed as it is, where one thing is known to have turned out well, or not.

    Weighed with its chance, the charges and the chance of both are those of the plan.
    """
    if not plan.feasible or not any((one.sort, one.name) == (sort, name) for one in plan.unsure):
        return plan
    known = tuple(
        one._replace(chance=1.0 if well else 0.0) if (one.sort, one.name) == (sort, name) else one for one in plan.unsure
    )
    gambles = gambles_of(known)
    charges = sum(chance * cents for chance, cents in gambles)
    return plan._replace(unsure=known, gambles=gambles, charges_cents=charges, chance=chance_of(known))


def only_costs(kind: Kind, name: str) -> bool:
    """Whether a dimension decides nothing but cost; faces that do not go together always decide."""
    return name in kind.dimensions and kind.dimensions[name].rule is not None and kind.dimensions[name].otherwise == COST_ONLY


def title_of(kind: Kind, name: str) -> str:
    """What people call a joint or dimension."""
    if name in kind.dimensions and kind.dimensions[name].rule:
        return kind.dimensions[name].title
    return next((each.title for each in kind.dimensions.values() if name in each.joints), name.replace("_", " "))


def parts_of(kind: Kind, slot: str) -> str:
    """What a slot holds, in words for a parts list."""
    supply = kind.supply.get(slot)
    return supply.parts if supply and supply.parts else slot


def others(case: Case, slot: str) -> bool:
    """Whether a slot could be filled without the donor."""
    supply = case.kind.supply.get(slot)
    by = supply.by if supply else (DONOR, OWN)
    return (OWN in by and slot in case.usable) or bool(BOUGHT in by and supply and supply.bought)
