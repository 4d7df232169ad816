"""The drawings of one plan: faces laid over each other, stack-ups in section, and where the parts come from."""

from __future__ import annotations

import math
from collections.abc import Iterator
from typing import TYPE_CHECKING

from interchange.catalog.kind_rules import THICK, feature_type
from interchange.catalog.model import PATTERN_FEATURE
from interchange.fit.case import BOUGHT, DONOR, MACHINE, NOBODY, OWN, Suppliers, slot_of
from interchange.fit.faces import spoken
from interchange.fit.report import ADAPTER, WORK
from interchange.fit.stack_up import spoken_term, terms_of, window
from interchange.sheets.overlay_drawing import overlay
from interchange.sheets.page import Figure
from interchange.sheets.sources_drawing import sources
from interchange.sheets.stack_drawing import Length, section, window_words

if TYPE_CHECKING:
    from interchange.fit.closing import Closing
    from interchange.fit.report import Plan

NAMES = {OWN: "own", DONOR: "the donor's", BOUGHT: "bought", MACHINE: "the machine's"}
FROM = {OWN: "one's own", DONOR: "the donor", BOUGHT: "bought", MACHINE: "the machine"}
WORTH_SHOWING_MM = 0.05


def faces_overlaid(suppliers: Suppliers, plan: Plan) -> Iterator[Figure]:
    """Every joint of two faces from different hands; what was bolted together before needs no drawing."""
    kind = suppliers.case.kind
    wanted = dict.fromkeys(joint for one in plan.judged for joint in kind.dimensions[one.name].joints)
    for name in wanted:
        joint = kind.joints.get(name)
        if joint is None:
            continue
        sources_ = [suppliers.source(end) for end in joint.between]
        figures = [suppliers.figure(end) for end in joint.between]
        type_ = feature_type(kind, joint.between[0])
        known_before = set(sources_) <= {OWN, MACHINE}
        if len(set(sources_)) == 1 or known_before or None in figures or type_ is None or type_.name != PATTERN_FEATURE:
            continue
        a, b = (suppliers.case.pattern(figure.ref) for figure in figures if figure)
        if a is None or b is None:
            continue
        one, other = (f"{NAMES.get(source, source)} {spoken(end)}" for source, end in zip(sources_, joint.between, strict=True))
        title = f"{name.replace('_', ' ').capitalize()}: {one} and {other}, laid over each other"
        drawing = overlay(a, b, joint, (one, other), title)
        if drawing:
            drawing = drawing._replace(notes=(*drawing.notes, *_between(plan, name)))
            yield Figure(drawing, f"{title}. {' '.join(note + '.' for note in drawing.notes[:3])}", wide=False)


def _between(plan: Plan, joint: str) -> Iterator[str]:
    """What the plan puts between them, or does to them."""
    named = f"{joint.replace('_', ' ')}: "
    yield from (
        f"{step.sort}: {step.title}" for step in plan.steps if step.sort in (ADAPTER, WORK) and step.why.startswith(named)
    )


def stack_sections(suppliers: Suppliers, plan: Plan) -> Iterator[Figure]:
    """Every stack-up of a plan, to scale, with what it has to come to."""
    for closing in plan.closings:
        stack = suppliers.case.kind.stack_ups[closing.name]
        lengths = tuple(_lengths(suppliers, closing))
        if not lengths:
            continue
        least, most = window_of(suppliers, closing)
        notes = tuple(_notes(closing))
        title = f"{stack.title[:1].upper()}{stack.title[1:]}: section along the crank line, to scale, mm"
        ends = f"It has to end {window_words(least, most)}." if math.isfinite(least) or math.isfinite(most) else ""
        yield Figure(section(title, lengths, least, most, notes), f"{title}. {ends}", wide=False)


def window_of(suppliers: Suppliers, closing: Closing) -> tuple[float, float]:
    """(least, most) its end may be, mm; without bounds where what it has to come to is not known."""
    stack = suppliers.case.kind.stack_ups[closing.name]
    if closing.target_mm is None:
        return -math.inf, math.inf
    if stack.within:  # what it was closed to is the middle then, and the one bound there is otherwise
        return window(stack, closing.target_mm)
    figure = suppliers.figure(stack.target) if stack.target and stack.target != OWN else None
    return window(stack, figure.value if figure else 0.0)


def _lengths(suppliers: Suppliers, closing: Closing) -> Iterator[Length]:
    """Its terms, with what stands in the joints as one."""
    case = suppliers.case
    stack = case.kind.stack_ups[closing.name]
    known = 0.0
    for factor, path in terms_of(stack.sum):
        if slot_of(path) in case.kind.joints and path.endswith(f".{THICK}"):
            continue
        figure = suppliers.figure(path)
        times = "" if abs(factor) == 1 else f"{abs(factor):g} × "
        if figure is None:
            yield Length(f"{times}{spoken_term(path)}", None)
            continue
        known += factor * figure.value
        source = suppliers.source(path)
        whose = f" ({NAMES[source]})" if source in (OWN, DONOR) else ""
        yield Length(f"{times}{spoken_term(path)}{whose}", factor * figure.value)
    between = 0.0 if closing.sum_mm is None else closing.sum_mm - known
    if abs(between) > WORTH_SHOWING_MM:
        yield Length("plates and adapters between", between)


def _notes(closing: Closing) -> Iterator[str]:
    yield f"{closing.verdict}: {closing.finding.text}"
    if closing.tolerance_mm:
        yield f"readings add up to ±{closing.tolerance_mm:.1f} mm"
    if closing.remedy:
        yield closing.remedy.title


def parts_from(suppliers: Suppliers, plan: Plan) -> Figure:
    """Which slot comes from whom."""
    supply = suppliers.case.kind.supply

    def parts(slot: str) -> str:
        return (supply[slot].parts or slot) if slot in supply else slot

    from_whom = [(parts(slot), FROM.get(source, source)) for slot, source in plan.suppliers.items() if source != NOBODY]
    missing = [parts(slot) for slot in (*plan.missing, *plan.unsettled)]
    told = "; ".join(
        f"{source}: {', '.join(what for what, by in from_whom if by == source)}"
        for source in dict.fromkeys(source for _, source in from_whom)
    )
    alone = f"; nobody: {', '.join(missing)}" if missing else ""
    return Figure(sources("Where the parts come from", from_whom, missing), f"Where the parts come from. {told}{alone}.")
