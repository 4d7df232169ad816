"""Joints and compared dimensions as factors of a plan: for each choice of suppliers, the ways to make it good and their cost."""

from __future__ import annotations

from collections.abc import Mapping
from typing import NamedTuple

from interchange.catalog.features import SEAT
from interchange.catalog.figure import Figure
from interchange.catalog.kind_rules import feature_type
from interchange.catalog.model import PATTERN_FEATURE, Adapter, Dimension, Joint, Remedy
from interchange.fit.case import (
    BOUGHT,
    DONOR,
    MACHINE,
    NOBODY,
    NOTHING_TO_GO_BY,
    OWN,
    OWN_PREFIX,
    Case,
    Chance,
    Donor,
    Effort,
    effort_of,
    effort_of_adapter,
    figure_from,
    holds,
    slot_of,
    spread_of,
)
from interchange.fit.finding import ADAPTS, AGREES, BOLTS_UP, DIFFERS, MACHINE_WORK, NOT_KNOWN, STOPS, UNSURE, Finding
from interchange.fit.pattern import compare_patterns
from interchange.fit.rating import compare
from interchange.fit.shaft import compare_shafts

COST_ONLY, FIXABLE, STOPPING = "cost only", "fixable", "stops"


class Option(NamedTuple):
    """One way to make a factor good."""

    verdict: str
    finding: Finding
    effort: Effort = Effort()
    charge_cents: float = 0.0
    """What is charged for not knowing: (1 - chance) times the cheapest fallback."""
    remedy: Remedy | None = None
    """An operation; several factors that need the same one share it."""
    adapter: Adapter | None = None
    thick_mm: tuple[float, float] = (0.0, 0.0)
    """What it adds along the crank line: a made plate has a range."""
    chance: Chance | None = None
    """How likely it agrees, where that is not known."""
    fallback: str = ""
    """What would be done if what is not known turns out badly."""


class Factor(NamedTuple):
    """A joint, or a dimension that compares two features."""

    name: str
    ends: tuple[str, str]
    joint: Joint | None = None
    dimension: Dimension | None = None

    @property
    def slots(self) -> tuple[str, ...]:
        """The slots whose supplier it depends on."""
        slots = (slot_of(end) for end in self.ends if not end.startswith(OWN_PREFIX))
        return tuple(dict.fromkeys(slot for slot in slots if slot != SEAT))


def factors_of(case: Case, donor: Donor) -> list[Factor]:
    """Every joint and compared dimension that this machine and donor have."""
    found: list[Factor] = []
    for name, joint in case.kind.joints.items():
        if applies(joint.when, case, donor):
            found.append(Factor(name, (joint.between[0], joint.between[1]), joint=joint))
    for name, dimension in case.kind.dimensions.items():
        if dimension.rule and applies(dimension.when, case, donor):
            found.append(Factor(name, (dimension.give, dimension.need), dimension=dimension))
    return found


def applies(when: Mapping[str, tuple[str, ...]], case: Case, donor: Donor) -> bool | None:
    """Whether a condition of the kind holds here: the machine's and the core's features decide."""
    return holds(when, lambda path: figure_from(case, donor, path, MACHINE if slot_of(path) == SEAT else DONOR))


def options(case: Case, donor: Donor, factor: Factor, sources: tuple[str, str]) -> list[Option]:
    """The ways to make a factor good when its two ends come from these sources, cheapest kinds first. Empty: none does."""
    if NOBODY in sources:
        return [Option(BOLTS_UP, Finding(AGREES, "not fitted"))]
    if BOUGHT in sources:
        return [Option(ADAPTS, Finding(AGREES, "bought to suit"))]
    if sources[0] == sources[1] == DONOR:
        return [Option(BOLTS_UP, Finding(AGREES, "stays together as it came on the donor"))]
    if set(sources) <= {OWN, MACHINE}:
        return [Option(BOLTS_UP, Finding(AGREES, "stays together as it was in the machine"))]
    a, b = (figure_from(case, donor, end, source) for end, source in zip(factor.ends, sources, strict=True))
    finding = find(case, factor, a, b)
    if finding.state == AGREES:
        return [Option(BOLTS_UP, finding)]
    mends = _mends(case, factor, a, b, finding)
    if finding.state == NOT_KNOWN:
        return [_unsure(case, factor, finding, mends)]
    if mends:
        return mends
    if factor.dimension and factor.dimension.otherwise == COST_ONLY:
        return [Option(ADAPTS, finding)]
    return [Option(STOPS, finding)]


def find(case: Case, factor: Factor, a: Figure | None, b: Figure | None) -> Finding:
    """What comparing the two ends gives."""
    if factor.dimension is not None:
        rule = factor.dimension.rule
        if rule is None:
            raise ValueError(f"{factor.name} has no rule")
        return compare(rule, a, b)
    return find_joint(case, factor, a, b)


def find_joint(case: Case, factor: Factor, a: Figure | None, b: Figure | None) -> Finding:
    """Whether two faces or shafts go together; where sources differ, all of them have to say the same."""
    joint = factor.joint
    if joint is None or a is None or b is None:
        lacking = [end for end, figure in zip(factor.ends, (a, b), strict=True) if figure is None]
        return Finding(NOT_KNOWN, " and ".join(map(spoken, lacking)) + " not known")
    findings = [_faces(case, joint, factor.ends[0], one.ref, other.ref) for one in a.readings for other in b.readings]
    if len({finding.state for finding in findings}) > 1:
        return Finding(NOT_KNOWN, findings[0].text, "; ".join(filter(None, (a.caveat, b.caveat))))
    caveats = dict.fromkeys(filter(None, (findings[0].caveat, a.caveat, b.caveat)))
    return findings[0]._replace(caveat="; ".join(caveats))


def _faces(case: Case, joint: Joint, end: str, a: str, b: str) -> Finding:
    type_ = feature_type(case.kind, end)
    if type_ and type_.name == PATTERN_FEATURE:
        one, other = case.pattern(a), case.pattern(b)
        if one and other:
            return compare_patterns(one, other, joint)
    else:
        shaft, taker = case.shaft(a), case.shaft(b)
        if shaft and taker:
            return compare_shafts(shaft, taker)
    return Finding(NOT_KNOWN, f"{a} or {b} is not in the catalog")


def _mends(case: Case, factor: Factor, a: Figure | None, b: Figure | None, finding: Finding) -> list[Option]:
    """Adapters that go between the two ends, and remedies that are allowed here."""
    found: list[Option] = []
    if factor.joint and factor.joint.most_adapters and a and b and finding.state == DIFFERS:
        for adapter in case.adapters:
            if adapter.joint == factor.name and _goes_between(case, factor.joint, factor.ends[0], adapter, a.ref, b.ref):
                thick = adapter.thick.value if adapter.thick else 0.0
                text = Finding(DIFFERS, finding.text, finding.caveat, finding.gap_mm)
                found.append(Option(ADAPTS, text, effort_of_adapter(adapter), adapter=adapter, thick_mm=(thick, thick)))
    allowed = factor.joint.remedies if factor.joint else factor.dimension.remedies if factor.dimension else ()
    for name in allowed:
        remedy = case.remedies.get(name)
        if remedy:
            found.append(remedied(remedy, finding))
    return found


def remedied(remedy: Remedy, finding: Finding) -> Option:
    """A remedy as an option."""
    thick = (0.0, 0.0)
    if remedy.makes_thick:
        low, _, high = spread_of(remedy.makes_thick)
        thick = (low, high)
    verdict = ADAPTS if remedy.bought else MACHINE_WORK
    return Option(verdict, finding, effort_of(remedy), remedy=remedy, thick_mm=thick)


def _goes_between(case: Case, joint: Joint, end: str, adapter: Adapter, a: str, b: str) -> bool:
    """Whether an adapter's first face takes the first end and its second the second."""
    if len(adapter.faces) != 2:  # noqa: PLR2004 - two faces; the catalog check reports others
        return False
    return bool(_faces(case, joint, end, a, adapter.faces[0])) and bool(_faces(case, joint, end, adapter.faces[1], b))


def _unsure(case: Case, factor: Factor, finding: Finding, mends: list[Option]) -> Option:
    """Not known: charged the chance that it does not fit times the cheapest way out, so that ignorance is never the cheapest."""
    chance = case.chances.get(factor.name, NOTHING_TO_GO_BY)
    cheapest = min(mends, key=lambda mend: mend.effort.cents(case), default=None)
    charge = (1 - chance.value) * cheapest.effort.cents(case) if cheapest else 0.0
    fallback = cheapest.remedy.title if cheapest and cheapest.remedy else ""
    return Option(UNSURE, finding, charge_cents=charge, chance=chance, fallback=fallback)


def spoken(path: str) -> str:
    """A feature's path in words."""
    return path.removeprefix(f"{SEAT}.").replace("own.", "own ").replace(".", " ").replace("_", " ")


def applies_to_seat(when: Mapping[str, tuple[str, ...]], case: Case) -> bool | None:
    """Whether a condition of the kind holds as far as the machine alone decides; None where it does not."""
    return holds(when, lambda path: case.seat.get(path) if slot_of(path) == SEAT else None)
