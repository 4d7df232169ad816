"""Joints and compared dimensions as factors of a plan: for each choice of suppliers, the ways to make it good and their cost."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import NamedTuple

from interchange.catalog.features import SEAT
from interchange.catalog.figure import Figure
from interchange.catalog.kind_rules import feature_type
from interchange.catalog.model import Dimension, Joint, Kind, Remedy
from interchange.fit.case import (
    BOUGHT,
    COST_ONLY,
    DONOR,
    MACHINE,
    NOBODY,
    OWN,
    OWN_PREFIX,
    Case,
    Chance,
    Donor,
    Effort,
    figure_from,
    holds,
    middle,
    slot_of,
    source_of,
    spread_of,
)
from interchange.fit.chain import Chain, torque_limit
from interchange.fit.faces import TORQUE, compare_ends, rows_of_adapters, spoken
from interchange.fit.finding import (
    ADAPTS,
    AGREES,
    BOLTS_UP,
    DIFFERS,
    MACHINE_WORK,
    NOT_KNOWN,
    STOPS,
    UNSURE,
    Finding,
    joined,
)
from interchange.fit.plate import PlateDesign, design_plate
from interchange.fit.rating import compare
from interchange.fit.shaft_torque import carries

NO_THICKNESS = (0.0, 0.0)
NOTHING_COMPARED = Finding(NOT_KNOWN, "nothing is compared")

Thickness = tuple[float, float] | None
"""(least, most) mm that something adds along the crank line; None where that is not known."""


class Option(NamedTuple):
    """One way to make a factor good."""

    verdict: str
    finding: Finding
    effort: Effort = Effort()
    cents: float = 0.0
    """Its money and own hours."""
    lead_days: float = 0.0
    charge_cents: float = 0.0
    """What is charged for not knowing: (1 - chance) times the cheapest fallback."""
    stake_cents: float = 0.0
    """The same where nothing mends it: (1 - chance) times a lost try. A bill has its own price and haul for it."""
    remedy: Remedy | None = None
    """An operation; several factors that need the same one share it."""
    chain: Chain | None = None
    """Adapters that stand between."""
    thick_mm: Thickness = NO_THICKNESS
    chance: Chance | None = None
    """How likely it agrees, where that is not known."""
    design: str = ""
    """How a made plate carries both faces."""
    fallback: str = ""
    """What would be done if what is not known turns out badly."""


NOT_THERE = Option(BOLTS_UP, Finding(AGREES, "nobody supplies it"))
"""Of a factor whose part nobody supplies: the missing part is what stops the plan, not this."""


class Factor(NamedTuple):
    """A joint, or a dimension that compares two features."""

    name: str
    ends: tuple[str, str]
    slots: tuple[str, ...]
    """The slots whose supplier it depends on."""
    joint: Joint | None = None
    dimension: Dimension | None = None
    when: Mapping[str, tuple[str, ...]] = {}
    """Only where these features have one of these words, from whoever supplies them."""

    @property
    def remedies(self) -> tuple[str, ...]:
        """What can be done where it differs, by id."""
        if self.joint:
            return self.joint.remedies
        return self.dimension.remedies if self.dimension else ()


def factors_of(case: Case, donor: Donor) -> list[Factor]:
    """Every joint and compared dimension that this machine and donor have."""
    if not case.memory.factors:
        case.memory.factors = tuple(_every_factor(case.kind))
    return [factor for factor in case.memory.factors if not factor.when or _may_apply(factor.when, case, donor)]


def _every_factor(kind: Kind) -> Iterator[Factor]:
    for name, joint in kind.joints.items():
        ends = (joint.between[0], joint.between[1])
        yield Factor(name, ends, _slots(*ends, *joint.when, *filter(None, (joint.torque,))), joint=joint, when=joint.when)
    for name, dimension in kind.dimensions.items():
        if dimension.rule:
            ends = (dimension.give, dimension.need)
            yield Factor(name, ends, _slots(*ends, *dimension.when), dimension=dimension, when=dimension.when)


def _slots(*paths: str) -> tuple[str, ...]:
    slots = (slot_of(path) for path in paths if not path.startswith(OWN_PREFIX))
    return tuple(dict.fromkeys(slot for slot in slots if slot != SEAT))


def _may_apply(when: Mapping[str, tuple[str, ...]], case: Case, donor: Donor) -> bool:
    """Whether a condition can still hold, going by what is settled beforehand: the machine, and slots only the donor fills."""
    settled = {path: words for path, words in when.items() if slot_of(path) == SEAT or _only_donor(case.kind, slot_of(path))}
    return applies(settled, case, donor) is not False


def _only_donor(kind: Kind, slot: str) -> bool:
    return slot in kind.supply and kind.supply[slot].by == (DONOR,)


def applies(when: Mapping[str, tuple[str, ...]], case: Case, donor: Donor) -> bool | None:
    """Whether a condition of the kind holds here: the machine's and the donor's features decide."""
    return holds(when, lambda path: figure_from(case, donor, path, MACHINE if slot_of(path) == SEAT else DONOR))


def options(case: Case, donor: Donor, factor: Factor, by: Mapping[str, str]) -> list[Option]:
    """The ways to make a factor good when its slots are supplied like this; found once for all donors where no donor matters."""
    sources = (source_of(factor.ends[0], by), source_of(factor.ends[1], by))
    loaded = factor.joint is not None and bool(factor.joint.torque)
    if factor.when or loaded or (sources.count(DONOR) == 1 and BOUGHT not in sources):
        return _options(case, donor, factor, by, sources)
    key = (factor.name, *sources, case.chance(factor.name))
    known = case.memory.options.get(key)
    if known is None:
        known = case.memory.options[key] = _options(case, donor, factor, by, sources)
    return known


def _options(case: Case, donor: Donor, factor: Factor, by: Mapping[str, str], sources: tuple[str, str]) -> list[Option]:
    if NOBODY in sources:
        return [NOT_THERE]
    needed = holds(factor.when, lambda path: figure_from(case, donor, path, source_of(path, by)))
    if needed is False:
        here = [figure_from(case, donor, path, source_of(path, by)) for path in factor.when]
        return [Option(BOLTS_UP, Finding(AGREES, f"not needed: {', '.join(figure.text for figure in here if figure)}"))]
    if BOUGHT in sources:
        return _carrying(case, donor, factor, by, _bought(case, factor, sources))
    if sources[0] == sources[1] == DONOR:
        return [Option(BOLTS_UP, Finding(AGREES, "stays together as it came on the donor"))]
    if set(sources) <= {OWN, MACHINE}:
        as_it_was = [Option(BOLTS_UP, Finding(AGREES, "stays together as it was in the machine"))]
        return _carrying(case, donor, factor, by, as_it_was)
    a, b = (figure_from(case, donor, end, source) for end, source in zip(factor.ends, sources, strict=True))
    finding = find(case, factor, a, b)
    if needed is None and finding.state == DIFFERS:
        asked = " and ".join(spoken(path) for path in factor.when)
        finding = Finding(NOT_KNOWN, f"{finding.text}; whether it matters hangs on the {asked}, which is not known")
    return _carrying(case, donor, factor, by, _made_good(case, donor, factor, (a, b), finding))


def _carrying(case: Case, donor: Donor, factor: Factor, by: Mapping[str, str], ways: list[Option]) -> list[Option]:
    """The ways to make a joint good, with what its shafts carry of the torque the kind names for it.

    A rating that is clearly broken cannot be mended by making the shafts meet: it stops the plan where the shaft is the machine's
    or only the donor's, and is a difference like others where another part may take its place.
    """
    path = factor.joint.torque if factor.joint else ""
    sources = tuple(source_of(end, by) for end in factor.ends)
    if not path or {*sources, source_of(path, by)} <= {OWN, MACHINE}:  # the load is the one it always had
        return ways
    ends = [figure_from(case, donor, end, source) for end, source in zip(factor.ends, sources, strict=True)]
    need = figure_from(case, donor, path, source_of(path, by))
    before = case.own.get(path)
    if set(sources) <= {OWN, MACHINE} and need and before and max(one.high for one in need.readings) <= before.value:
        return ways  # no more than these shafts carried all along
    carried = carries([case.shaft(end.ref) if end and not end.others else None for end in ends], need)
    load = carried.finding
    certain = holds(factor.when, lambda each: figure_from(case, donor, each, source_of(each, by)))
    if load.state == DIFFERS and certain:
        kept = [sources[i] == MACHINE or _only_donor(case.kind, slot_of(factor.ends[i])) for i in carried.broken]
        return [Option(STOPS, load)] if any(kept) else _made_good(case, donor, factor, (ends[0], ends[1]), load)
    if load.state == DIFFERS:
        load = Finding(NOT_KNOWN, "", joined(load.text, load.caveat))
    return [way._replace(finding=_with_load(way.finding, load)) for way in ways]


def _with_load(finding: Finding, load: Finding) -> Finding:
    """What is found of a joint, with what is found of its load."""
    text = joined(finding.text, load.text) if finding.state == AGREES else finding.text
    return finding._replace(text=text, caveat=joined(finding.caveat, load.caveat))


def _made_good(
    case: Case, donor: Donor, factor: Factor, ends: tuple[Figure | None, Figure | None], finding: Finding
) -> list[Option]:  # fmt: skip
    """The ways to make good what a comparison found."""
    if finding.state == AGREES:
        return [Option(BOLTS_UP, finding)]
    if finding.state == NOT_KNOWN:
        return [_unsure(case, factor, finding)]
    mends = _adapted(case, donor, factor, *ends, finding)
    for remedy in _remedies(case, factor):
        design = _designed(case, factor, remedy, *ends)
        if remedy.reach and (finding.gap_mm or 0.0) > remedy.reach.value:
            finding = finding._replace(caveat=joined(finding.caveat, f"{remedy.title} mends {remedy.reach.text} at most"))
        elif design is None or design.possible is not False:
            mends.append(remedied(case, remedy, finding, design))
        else:
            finding = finding._replace(caveat=joined(finding.caveat, f"no {remedy.title}: {design.reason}"))
    if mends:
        return mends
    if only_costs(factor):
        return [Option(ADAPTS, finding._replace(text=f"{finding.text}: taken as it is"))]
    return [Option(STOPS, finding)]


def _bought(case: Case, factor: Factor, sources: tuple[str, str]) -> list[Option]:
    """A bought part suits what it is chosen for; elsewhere it is whatever turns up."""
    bought = [slot_of(end) for end, source in zip(factor.ends, sources, strict=True) if source == BOUGHT]
    for slot in bought:
        supply = case.kind.supply.get(slot)
        if supply is None or not supply.suits or factor.name in supply.suits:
            return [Option(ADAPTS, Finding(AGREES, "bought to suit"))]
    text = f"hangs on the {' and the '.join(bought)} that is found"
    return [_unsure(case, factor, Finding(NOT_KNOWN, text))]


def find(case: Case, factor: Factor, a: Figure | None, b: Figure | None) -> Finding:
    """What comparing the two ends gives."""
    if factor.dimension is None or factor.dimension.rule is None:
        return compare_ends(case, factor.name, factor.joint, a, b) if factor.joint else NOTHING_COMPARED
    rule = factor.dimension.rule
    if rule.name == "pairs" and a is None and b is not None:
        type_ = feature_type(case.kind, factor.ends[0])
        if type_ and type_.words and all((word, reading.text) in rule.pairs for word in type_.words for reading in b.readings):
            return Finding(AGREES, f"not known, but any will do for {b.text}")
    return compare(rule, a, b, (spoken(factor.ends[0]), spoken(factor.ends[1])))


def _remedies(case: Case, factor: Factor) -> list[Remedy]:
    """The remedies that are allowed here and that the catalog has."""
    return [case.remedies[name] for name in factor.remedies if name in case.remedies]


def _designed(case: Case, factor: Factor, remedy: Remedy, a: Figure | None, b: Figure | None) -> PlateDesign | None:
    """The plate a remedy would make between two faces, once for all plans of a case; None where it makes none."""
    if remedy.plate is None or factor.joint is None or a is None or b is None:
        return None
    key = (remedy.id, factor.name, a.ref, b.ref)
    if key not in case.memory.designs:
        one, other = case.pattern(a.ref), case.pattern(b.ref)
        made = design_plate(one, other, factor.joint, remedy.plate, remedy.makes_thick) if one and other else None
        case.memory.designs[key] = made
    return case.memory.designs[key]


def remedied(case: Case, remedy: Remedy, finding: Finding, design: PlateDesign | None = None) -> Option:
    """A remedy as an option; a plate that was designed is as thick as its design allows."""
    low, _, high = spread_of(remedy.makes_thick)
    if design:
        low, high = design.thick_mm or (low, high)
        finding = finding._replace(caveat=joined(finding.caveat, design.words))
    effort = case.effort(remedy)
    return Option(
        ADAPTS if remedy.bought else MACHINE_WORK,
        finding,
        effort,
        effort.cents(case),
        middle(effort.lead),
        remedy=remedy,
        thick_mm=(low, high),
        design=design.words if design else "",
    )


def _adapted(
    case: Case, donor: Donor, factor: Factor, a: Figure | None, b: Figure | None, finding: Finding
) -> list[Option]:  # fmt: skip
    """Adapters, one or several in a row, that go between the two ends and carry the donor's torque."""
    joint = factor.joint
    if joint is None or not joint.most_adapters or a is None or b is None:
        return []
    found: list[Option] = []
    for chain in rows_of_adapters(case, factor.name, joint, (a.ref, b.ref)):
        limit = torque_limit(chain, donor.features.get(TORQUE))
        if limit is not None:
            said = finding._replace(caveat=joined(finding.caveat, limit))
            effort = chain.effort
            cents, lead = effort.cents(case), middle(effort.lead)
            found.append(Option(ADAPTS, said, effort, cents, lead, chain=chain, thick_mm=chain.thick_mm))
    return found


def _unsure(case: Case, factor: Factor, finding: Finding) -> Option:
    """Not known: charged the chance that it does not fit times the cheapest way out, so that ignorance is never the cheapest.

    Where nothing mends it the way out is a lost try; what only costs is then taken as it is.
    """
    chance = case.chance(factor.name)
    if finding.chance is not None and factor.name not in case.told:
        chance = Chance(finding.chance, finding.chance_basis)
    cheapest = min(_remedies(case, factor), key=lambda remedy: case.effort(remedy).cents(case), default=None)
    if cheapest is None:
        stake = 0.0 if only_costs(factor) else (1 - chance.value) * case.lost_try_cents
        return Option(UNSURE, finding, stake_cents=stake, chance=chance)
    charge = (1 - chance.value) * case.effort(cheapest).cents(case)
    return Option(UNSURE, finding, charge_cents=charge, chance=chance, fallback=cheapest.title)


def only_costs(factor: Factor) -> bool:
    """Whether a difference decides nothing but cost; faces that do not go together always decide."""
    return factor.dimension is not None and factor.dimension.otherwise == COST_ONLY


def applies_to_seat(when: Mapping[str, tuple[str, ...]], case: Case) -> bool | None:
    """Whether a condition of the kind holds as far as the machine alone decides; None where it does not."""
    return holds(when, lambda path: case.seat.get(path) if slot_of(path) == SEAT else None)
