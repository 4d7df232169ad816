"""What would have to be true for a donor that does not go in to go in after all: one sentence for each thing that stops it.

A plan has as few things that stop it as any choice of suppliers leaves, so these are the fewest that would have to change.
"""

from __future__ import annotations

from collections.abc import Iterator

from interchange.catalog.figure import Figure
from interchange.catalog.model import Dimension, Joint
from interchange.fit.case import BOUGHT, DONOR, MACHINE, NOBODY, OWN, Case, Suppliers
from interchange.fit.faces import spoken
from interchange.fit.finding import DIFFERS, STOPS
from interchange.fit.plan import Choice
from interchange.fit.shaft_torque import carries
from interchange.fit.stack_up import INFINITE
from interchange.quantity import show

WHOSE = {DONOR: "the donor's", OWN: "one's own", BOUGHT: "a bought", MACHINE: "the machine's", NOBODY: "nobody's"}


def would_have_to_be(case: Case, choice: Choice, suppliers: Suppliers) -> Iterator[str]:
    """Everything that would have to be otherwise; nothing where nothing stops it."""
    for slot, way in choice.suppliers.items():
        if way.by == NOBODY and way.stops:
            supply = case.kind.supply.get(slot)
            yield f"somebody would have to supply {supply.parts if supply and supply.parts else slot}"
    for name, option in choice.taken.items():
        if option.verdict == STOPS and name in case.kind.joints:
            yield _joined(case, case.kind.joints[name], suppliers)
        elif option.verdict == STOPS:
            dimension = case.kind.dimensions[name]
            yield f"{spoken(dimension.give)} would have to be {_wanted(dimension, suppliers.figure(dimension.need))}"
    titles = case.kind.stack_ups
    for closing, standing in zip(choice.closings, choice.standings, strict=True):
        if closing.verdict == STOPS:
            least, most = standing.least_mm, standing.most_mm
            ends = [f"at least {least:.1f} mm"] * (least > -INFINITE) + [f"at most {most:.1f} mm"] * (most < INFINITE)
            yield f"{titles[closing.name].title} would have to come to {' and '.join(ends)}"


def _joined(case: Case, joint: Joint, suppliers: Suppliers) -> str:
    """What the two ends of a joint would have to do: carry the torque, where that is what breaks, or else go together."""
    one, other = (f"{WHOSE[suppliers.source(end)]} {spoken(end)}" for end in joint.between)
    if joint.torque:
        ends = [suppliers.figure(end) for end in joint.between]
        shafts = [case.shaft(end.ref) if end and not end.others else None for end in ends]
        load = carries(shafts, suppliers.figure(joint.torque)).finding
        if load.state == DIFFERS:
            return f"{one} and {other} would have to carry what turns them: {load.text}"
    return f"{one} and {other} would have to go together, or something that joins them be found"


def _wanted(dimension: Dimension, need: Figure | None) -> str:
    """What a dimension would take, in words."""
    if need is None or dimension.rule is None:
        return f"what the {spoken(dimension.need)} asks for, which is not known"
    if dimension.rule.name == "pairs":
        return (
            " or ".join(dict.fromkeys(give for give, wanted in dimension.rule.pairs if wanted == need.text)) or "nothing there is"
        )
    if dimension.rule.name == "same":
        return need.text
    if dimension.rule.name in ("at least", "at most"):
        return f"{dimension.rule.name} {need.text}"
    ends = ((dimension.rule.below, "below"), (dimension.rule.above, "above"))
    relative = dimension.rule.relative
    dim = need.quantity.dimension if need.quantity else ""
    limits = [f"{limit:.0%} {side}" if relative else f"{show(limit, dim)} {side}" for limit, side in ends if limit is not None]
    return f"within {' and '.join(limits)} {need.text}"
