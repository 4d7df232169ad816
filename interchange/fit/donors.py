"""The units of the whole catalog that go in cheapest, without a plan for every one of them."""

from __future__ import annotations

import bisect
import dataclasses
from typing import TYPE_CHECKING, NamedTuple

from interchange.fit.bound import INFINITE, Bounded, Bounds
from interchange.fit.plan import best_choice, may_beat
from interchange.fit.setting import WHOLE

if TYPE_CHECKING:
    from interchange.fit.report import Plan
    from interchange.fit.setting import DeadSeat, Form

CHUNK = 32
CLOSE_ENOUGH_CENTS = 1e-6


class Ranked(NamedTuple):
    """One form of a unit that goes in, with its plan."""

    form: Form
    plan: Plan


class Donors(NamedTuple):
    """The cheapest donors, the cheapest first, and how much of the catalog had to be planned to be sure of it."""

    found: tuple[Ranked, ...]
    planned: int
    ruled_out: int
    """Forms that something stops, by what is compared in SQL alone."""
    forms: int


def best_donors(seat: DeadSeat, most: int) -> Donors:
    """The ``most`` forms of units with the cheapest plans, as complete units; ties go by id.

    Plans are made in the order of what they cannot be below, until nothing left can come before the last of those found.
    """
    bounds = Bounds(seat.setting.library.connection, seat.case, seat.offer(WHOLE), seat.load)
    going = [one for one in bounds.every if one.cents < INFINITE]
    best: list[tuple[float, str, str]] = []
    planned = 0
    for start in range(0, len(going), CHUNK):
        chunk = going[start : start + CHUNK]
        if _settled(best, most, chunk[0]):
            break
        units = list(dict.fromkeys(one.unit for one in chunk))
        seat.prepare(tuple(units))
        least = bounds.by_slot(units)
        for one in chunk:
            if _settled(best, most, one):
                break
            case, donor = seat.pair(one.unit, one.variant)
            case = dataclasses.replace(case, explain=False)
            ceiling = best[-1][0] + CLOSE_ENOUGH_CENTS if len(best) == most else INFINITE
            if ceiling < INFINITE and not may_beat(case, donor, ceiling, least[one.unit, one.variant], bounds.slots):
                continue
            planned += 1
            choice = best_choice(case, donor)
            if not choice.stops:
                bisect.insort(best, (choice.cost_cents, one.unit, one.variant))
                del best[most:]
    found = tuple(Ranked(form, seat.plan(form)) for form in (seat.form(unit, variant) for _, unit, variant in best))
    return Donors(found, planned, len(bounds.every) - len(going), len(bounds.every))


def _settled(best: list[tuple[float, str, str]], most: int, next_: Bounded) -> bool:
    """Whether nothing from here on can come before the last of those found."""
    return len(best) == most and next_.cents > best[-1][0] + CLOSE_ENOUGH_CENTS
