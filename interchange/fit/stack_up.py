"""Signed sums of lengths along the crank line, with their tolerance and what is missing from them."""

from __future__ import annotations

import functools
import itertools
from collections.abc import Callable, Iterable, Mapping, Sequence
from typing import NamedTuple

from interchange.catalog.features import SEAT
from interchange.catalog.figure import Figure
from interchange.catalog.kind_rules import THICK, Term, read_term
from interchange.catalog.model import StackUp
from interchange.fit.case import CORE, COST_ONLY, DONOR, MACHINE, OWN, Case, Donor, Suppliers, figure_from, slot_of

INFINITE = float("inf")
CLOSE_ENOUGH_MM = 1e-6
ROUNDING_MM = 1e-9
CLOSER_READINGS = "closer readings"

Shifts = Mapping[str, tuple[float, float] | None]
"""For each joint with a plate or adapter in it, the (least, most) thickness it can have, mm; None where it is not known."""


class Sum(NamedTuple):
    """Terms added up: the known part, ± in mm, and the rest."""

    known_mm: float
    tolerance_mm: float
    plates: Mapping[str, float]
    """Joint to factor, for every made plate whose thickness it takes."""
    missing: tuple[str, ...]
    """Features that are not known; the sum means nothing while there are any."""


class Ready(NamedTuple):
    """A stack-up with what no choice changes: its terms, and the dead unit's own sum where that is its target."""

    name: str
    stack: StackUp
    terms: tuple[Term, ...]
    own: Sum | None
    names: tuple[str, ...]
    """The slots and joints it takes its terms and target from."""
    unsettled: tuple[str, ...] = ()
    """What decides whether it matters at all, and is not known."""
    only_costs: bool = False
    """Whether it decides nothing but cost: what no remedy mends is then taken as it is."""


class Standing(NamedTuple):
    """A stack-up as the suppliers stand: its sum without the made plates, and where that should come to."""

    ready: Ready
    sum: Sum
    least_mm: float
    most_mm: float


@functools.cache
def terms_of(texts: tuple[str, ...]) -> tuple[Term, ...]:
    """The terms of a stack-up. Raises ValueError for a text that is none: the catalog check reports it before."""
    terms = [read_term(text) for text in texts]
    if None in terms:
        raise ValueError(f"{texts[terms.index(None)]!r} is not a term")
    return tuple(term for term in terms if term)


def joints_that_shift(stacks: Iterable[StackUp]) -> frozenset[str]:
    """Joints whose thickness some stack-up takes."""
    terms = itertools.chain.from_iterable(terms_of(stack.sum) for stack in stacks)
    return frozenset(slot_of(term.path) for term in terms if term.path.endswith(f".{THICK}"))


def add_up(
    terms: Sequence[Term], figure_at: Callable[[str], Figure | None], joints: frozenset[str], shifts: Shifts
) -> Sum:  # fmt: skip
    """Add the terms of a stack-up. ``figure_at`` gives the figure at slot.feature, from whoever supplies the slot.

    A joint that nothing stands in adds nothing. Tolerances add as they stand: these are a handful of readings, and a plate is
    cut to them.
    """
    known = tolerance = 0.0
    plates: dict[str, float] = {}
    missing: list[str] = []
    for factor, path in terms:
        slot = slot_of(path)
        if slot in joints and path.endswith(f".{THICK}"):
            span = shifts.get(slot, (0.0, 0.0))
            if span is None:
                missing.append(f"thickness of the adapter in {slot}")
            elif span[0] == span[1]:
                known += factor * span[0]
            else:
                plates[slot] = plates.get(slot, 0.0) + factor
            continue
        figure = figure_at(path)
        if figure is None:
            missing.append(path)
            continue
        known += factor * figure.value
        tolerance += abs(factor) * (figure.high - figure.low) / 2
    return Sum(known, tolerance, plates, tuple(missing))


def names_of(stack: StackUp) -> tuple[str, ...]:
    """The slots and joints a stack-up takes its terms and target from."""
    return tuple(dict.fromkeys(slot_of(path) for path in (*(term.path for term in terms_of(stack.sum)), stack.target)))


def made_ready(case: Case, donor: Donor, name: str, stack: StackUp) -> Ready:
    """A stack-up of a case, with the dead unit's own sum where that is what it must come to."""
    terms, names = terms_of(stack.sum), names_of(stack)
    sources = {path: MACHINE if slot_of(path) == SEAT else DONOR for path in stack.when}
    unsettled = tuple(path for path, source in sources.items() if figure_from(case, donor, path, source) is None)
    decides = [each.otherwise for each in case.kind.dimensions.values() if name in each.stack_ups]
    only_costs = bool(decides) and set(decides) == {COST_ONLY}
    if stack.target != OWN:
        return Ready(name, stack, terms, None, names, unsettled, only_costs)

    def own_figure(path: str) -> Figure | None:
        return figure_from(case, donor, path, MACHINE if slot_of(path) == SEAT else OWN)

    own = add_up(terms, own_figure, frozenset(case.kind.joints), {})
    return Ready(
        name, stack, terms, own._replace(missing=tuple(_owned(path) for path in own.missing)), names, unsettled, only_costs
    )


def _owned(path: str) -> str:
    return path if slot_of(path) == SEAT else f"own {path}"


def window(stack: StackUp, target_mm: float) -> tuple[float, float]:
    """(least, most) the whole sum may be, mm."""
    low = high = target_mm
    if stack.within:
        low, high = low - stack.within.value, high + stack.within.value
    if stack.at_least:
        low, high = low + stack.at_least.value, INFINITE
    if stack.at_most:
        low, high = low if stack.at_least else -INFINITE, target_mm + stack.at_most.value
    return low, high


def stand(ready: Ready, suppliers: Suppliers, shifts: Shifts) -> Standing:
    """Add a stack-up up for a choice of suppliers."""
    total = add_up(ready.terms, suppliers.figure, frozenset(suppliers.case.kind.joints), shifts)
    total = total._replace(missing=(*total.missing, *ready.unsettled))
    target = 0.0
    if ready.own is not None:
        target = ready.own.known_mm
        error = total.tolerance_mm + ready.own.tolerance_mm - 2 * _carried_mm(ready, suppliers)
        total = total._replace(tolerance_mm=max(error, 0.0), missing=(*total.missing, *ready.own.missing))
    elif ready.stack.target:
        figure = suppliers.figure(ready.stack.target)
        if figure is None:
            total = total._replace(missing=(*total.missing, ready.stack.target))
        else:
            target = figure.value
            total = total._replace(tolerance_mm=total.tolerance_mm + (figure.high - figure.low) / 2)
    within = ready.stack.within
    if within and not total.missing and total.tolerance_mm > max(within.value, ROUNDING_MM):
        total = total._replace(missing=(CLOSER_READINGS,))
    return Standing(ready, total, *window(ready.stack, target))


def _carried_mm(ready: Ready, suppliers: Suppliers) -> float:
    """± of the terms that stand in the dead unit's own sum too: one's own housing is as deep as it was, however it was read."""
    same = [(factor, path) for factor, path in ready.terms if suppliers.source(path) in (OWN, MACHINE)]
    figures = [(abs(factor), suppliers.figure(path)) for factor, path in same]
    return sum(factor * (figure.high - figure.low) / 2 for factor, figure in figures if figure)


def spoken_term(path: str) -> str:
    """A term in words; the core's and the machine's go by their own names."""
    return path.replace(f"{SEAT}.", "").replace(f"{CORE}.", "").replace(".", " ").replace("_", " ")
