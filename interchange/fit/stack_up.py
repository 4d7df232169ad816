"""Signed sums of lengths along the crank line, with their tolerance and what is missing from them."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from typing import NamedTuple

from interchange.catalog.features import SEAT
from interchange.catalog.figure import Figure
from interchange.catalog.kind_rules import THICK, read_term
from interchange.catalog.model import Remedy, StackUp
from interchange.fit.case import MACHINE, NOTHING_TO_GO_BY, OWN, Suppliers, effort_of, figure_from, slot_of
from interchange.fit.finding import ADAPTS, AGREES, BOLTS_UP, DIFFERS, MACHINE_WORK, NOT_KNOWN, STOPS, UNSURE, Finding

INFINITE = float("inf")
CLOSE_ENOUGH_MM = 1e-9


class Sum(NamedTuple):
    """A stack-up before the thickness of what stands in its joints: the known part, ± in mm, and the rest."""

    known_mm: float
    tolerance_mm: float
    thick: tuple[tuple[float, str], ...]
    """(factor, joint) for every joint whose thickness it takes."""
    missing: tuple[str, ...]
    """Features that are not known; the sum means nothing while there are any."""


def add_up(terms: Sequence[str], figure_at: Callable[[str], Figure | None], joints: frozenset[str]) -> Sum:
    """Add the terms of a stack-up. ``figure_at`` gives the figure at slot.feature, from whoever supplies the slot.

    Tolerances add as they stand: these are a handful of readings, and a plate is cut to them.
    """
    known = tolerance = 0.0
    thick: list[tuple[float, str]] = []
    missing: list[str] = []
    for text in terms:
        term = read_term(text)
        if term is None:
            raise ValueError(f"{text!r} is not a term")
        slot, _, feature = term.path.partition(".")
        if feature == THICK and slot in joints:
            thick.append((term.factor, slot))
            continue
        figure = figure_at(term.path)
        if figure is None:
            missing.append(term.path)
            continue
        known += term.factor * figure.value
        tolerance += abs(term.factor) * (figure.high - figure.low) / 2
    return Sum(known, tolerance, tuple(thick), tuple(missing))


def window(stack: StackUp, target_mm: float) -> tuple[float, float]:
    """(least, most) the whole sum may be, mm."""
    low = high = target_mm
    if stack.within:
        low, high = low - stack.within.value, high + stack.within.value
    if stack.at_least:
        low, high = low + stack.at_least.value, INFINITE
    return low, high


class Depths(NamedTuple):
    """The stack-ups of a plan, who supplies their terms, and what thickness stands in their joints."""

    stacks: Mapping[str, StackUp]
    suppliers: Suppliers
    shifts: Mapping[str, tuple[float, float]]
    """For each joint with a plate or adapter, the (least, most) thickness it can have, mm."""
    joints: frozenset[str]
    paid: frozenset[str]
    """Remedies that are paid for already."""


class Closing(NamedTuple):
    """How one stack-up closes."""

    name: str
    verdict: str
    finding: Finding
    sum_mm: float | None = None
    target_mm: float | None = None
    tolerance_mm: float = 0.0
    remedy: Remedy | None = None
    charge_cents: float = 0.0
    missing: tuple[str, ...] = ()
    plates: tuple[tuple[str, float], ...] = ()
    """(joint, thickness) of the made plates it was closed with."""


class _Open(NamedTuple):
    name: str
    stack: StackUp
    sum: Sum
    target_mm: float | None
    missing: tuple[str, ...]


def joints_that_shift(stacks: Iterable[StackUp]) -> frozenset[str]:
    """Joints whose thickness some stack-up takes."""
    terms = (read_term(text) for stack in stacks for text in stack.sum)
    return frozenset(term.path.partition(".")[0] for term in terms if term and term.path.endswith(f".{THICK}"))


def close_all(depths: Depths) -> tuple[Closing, ...]:
    """Close every stack-up; a made plate gets the thickness, of those at which something just closes, that costs least."""
    opened = [_open(name, stack, depths) for name, stack in depths.stacks.items()]
    fixed = {joint: low for joint, (low, high) in depths.shifts.items() if low == high}
    free = [(joint, span) for joint, span in depths.shifts.items() if span[0] != span[1]]
    best: tuple[tuple[float, float, float], tuple[Closing, ...]] | None = None
    for made in _thicknesses(free, opened, fixed):
        closings = tuple(_close(each, fixed | made, tuple(made.items()), depths) for each in opened)
        remedies = {c.remedy.id: c.remedy for c in closings if c.remedy and c.remedy.id not in depths.paid}
        cents = sum(effort_of(remedy).cents(depths.suppliers.case) for remedy in remedies.values())
        cents += sum(c.charge_cents for c in closings)
        key = (sum(c.verdict == STOPS for c in closings), cents, sum(made.values()))
        if best is None or key < best[0]:
            best = (key, closings)
    return best[1] if best else ()


def _open(name: str, stack: StackUp, depths: Depths) -> _Open:
    """A stack-up with its terms added and its target found."""
    suppliers = depths.suppliers
    total = add_up(stack.sum, suppliers.figure, depths.joints)
    if not stack.target:
        return _Open(name, stack, total, 0.0, total.missing)
    if stack.target == OWN:
        own = add_up(stack.sum, lambda path: figure_from(suppliers.case, suppliers.donor, path, _own_source(path)), depths.joints)
        missing = tuple(f"own {path}" if not path.startswith(SEAT) else path for path in own.missing)
        total = total._replace(tolerance_mm=total.tolerance_mm + own.tolerance_mm)
        return _Open(name, stack, total, None if own.missing else own.known_mm, total.missing + missing)
    target = suppliers.figure(stack.target)
    return _Open(name, stack, total, target.value if target else None, total.missing + (() if target else (stack.target,)))


def _own_source(path: str) -> str:
    return MACHINE if slot_of(path) == SEAT else OWN


def _thicknesses(
    free: list[tuple[str, tuple[float, float]]], opened: list[_Open], fixed: Mapping[str, float]
) -> Iterator[dict[str, float]]:
    """Thicknesses worth trying for the made plates: the ends of their ranges, and where a stack-up just closes.

    With two plates the second is tried at every such value for each value of the first: their sum is what counts.
    """
    if not free:
        yield {}
        return
    (joint, (low, high)), *others = free
    for rest in _thicknesses(others, opened, fixed):
        tried = {low, high}
        for each in opened:
            factor = sum(f for f, name in each.sum.thick if name == joint)
            if each.missing or each.target_mm is None or factor == 0:
                continue
            standing = each.sum.known_mm + sum(f * (fixed | rest).get(name, 0.0) for f, name in each.sum.thick if name != joint)
            for edge in window(each.stack, each.target_mm):
                thickness = (edge - standing) / factor
                if low <= thickness <= high:
                    tried.add(thickness)
        for thickness in sorted(tried):
            yield {joint: thickness, **rest}


def _close(each: _Open, thick: Mapping[str, float], plates: tuple[tuple[str, float], ...], depths: Depths) -> Closing:
    """One stack-up with all its thicknesses."""
    case = depths.suppliers.case
    fix = min(
        (case.remedies[name] for name in each.stack.remedies if name in case.remedies),
        key=lambda remedy: 0.0 if remedy.id in depths.paid else effort_of(remedy).cents(case),
        default=None,
    )
    if each.missing or each.target_mm is None:
        text = "not known: " + ", ".join(path.replace(".", " ").replace("_", " ") for path in dict.fromkeys(each.missing))
        chance = case.chances.get(each.name, NOTHING_TO_GO_BY)
        charge = (1 - chance.value) * effort_of(fix).cents(case) if fix else 0.0
        return Closing(each.name, UNSURE, Finding(NOT_KNOWN, text), charge_cents=charge, missing=each.missing, plates=plates)
    total = each.sum.known_mm + sum(factor * thick.get(joint, 0.0) for factor, joint in each.sum.thick)
    low, high = window(each.stack, each.target_mm)
    out = max(low - total, total - high, 0.0)
    plus_minus = f" ±{each.sum.tolerance_mm:.2g}" if each.sum.tolerance_mm else ""
    text = f"{total:.1f}{plus_minus} mm, wanted {_wanted(low, high)}"
    caveat = (
        ""
        if out or low + each.sum.tolerance_mm <= total <= high - each.sum.tolerance_mm
        else "within the reading error of its limit"
    )
    made = (total, each.target_mm, each.sum.tolerance_mm)
    if out <= CLOSE_ENOUGH_MM:
        return Closing(each.name, BOLTS_UP, Finding(AGREES, text, caveat, 0.0), *made, plates=plates)
    finding = Finding(DIFFERS, f"{text}: out by {out:.1f} mm", gap_mm=out)
    if fix is None:
        return Closing(each.name, STOPS, finding, *made, plates=plates)
    verdict = ADAPTS if fix.bought else MACHINE_WORK
    return Closing(each.name, verdict, finding, *made, remedy=fix, plates=plates)


def _wanted(low: float, high: float) -> str:
    return f"at least {low:.1f} mm" if high == INFINITE else f"{low:.1f} to {high:.1f} mm"
