"""A choice put into words: a verdict for each dimension, and what has to be done."""

from __future__ import annotations

import math
from typing import NamedTuple

from interchange.catalog.kind_rules import THICK
from interchange.catalog.model import Dimension, Kind, Remedy
from interchange.fit.case import (
    BOUGHT,
    COST_ONLY,
    DONOR,
    NOBODY,
    OWN,
    Case,
    Chance,
    Donor,
    Effort,
    Suppliers,
    effort_of,
    effort_of_adapter,
    slot_of,
)
from interchange.fit.closing import Closing
from interchange.fit.factor import NOT_THERE, Option
from interchange.fit.finding import ADAPTS, BOLTS_UP, NOT_KNOWN, STOPS, UNSURE, Finding, joined, worst
from interchange.fit.plan import Choice, best_choice
from interchange.fit.plate_plan import PlatePlan, plates_of
from interchange.fit.proportion import moved
from interchange.fit.stack_up import terms_of
from interchange.fit.unsure import Unsure, chance_of, gambles_of, parts_of, unsure_of
from interchange.fit.what_stops import would_have_to_be
from interchange.spread import Spread, total

CARRIED, BUY, ADAPTER, WORK, MIXING, RENEW, SUNDRIES = (
    "carried over", "bought", "adapter", "work", "mixing", "renewed", "sundries",
)  # fmt: skip


class Judged(NamedTuple):
    """One dimension of a plan."""

    name: str
    title: str
    verdict: str
    reason: str
    caveat: str
    give: str
    need: str
    origin: str
    otherwise: str
    seen: str
    why: str
    caution: str
    chance: Chance | None
    gap_mm: float | None = None


class Step(NamedTuple):
    """One thing to do or to buy."""

    sort: str
    title: str
    effort: Effort
    why: str
    caution: str = ""


class Plan(NamedTuple):
    """How one donor goes in, or what stops it."""

    donor: str
    verdict: str
    worst: Judged | None
    judged: tuple[Judged, ...]
    suppliers: dict[str, str]
    steps: tuple[Step, ...]
    closings: tuple[Closing, ...]
    charges_cents: float
    """What is charged for not knowing and for parts the ad may not bring, where that can be mended."""
    cost_cents: float
    """Expected money, own hours, waiting, charges, and lost tries: what the plan was chosen by."""
    lead_days: float
    chance: Chance
    """How likely it goes together."""
    keep: tuple[str, ...]
    missing: tuple[str, ...]
    """Slots that nobody supplies."""
    unsettled: tuple[str, ...]
    """Slots that nobody supplies and that may not be needed: what decides it is not known."""
    doubtful: tuple[tuple[str, float], ...]
    """Slots counted on from the donor that the ad may not bring, with the chance that it does."""
    hold: tuple[str, ...]
    """Stack-ups that a plate goes into and that are still not known: none may be ordered until they are."""
    would_go: tuple[str, ...] = ()
    """What would have to be so for it to go in, where something stops it."""
    plates: tuple[PlatePlan, ...] = ()
    """Plates to be made."""
    gambles: tuple[tuple[float, float], ...] = ()
    """What the charges are made of: the chance that something is to be paid for, and the cents it then is."""
    unsure: tuple[Unsure, ...] = ()
    """What charges and chance hang on, one by one."""

    @property
    def hours(self) -> Spread:
        """Own hours of all that has to be done, without taking the old unit out and putting the new one in."""
        return total(step.effort.hours for step in self.steps)

    @property
    def longest(self) -> Step | None:
        """What is waited for longest; None where nothing is."""
        step = max(self.steps, key=lambda step: step.effort.lead.likely, default=None)
        return step if step and step.effort.lead.likely else None

    @property
    def feasible(self) -> bool:
        """Whether nothing stops it."""
        return self.verdict != STOPS

    @property
    def stopped_by(self) -> tuple[Judged, ...]:
        """The dimensions that stop it."""
        return tuple(one for one in self.judged if one.verdict == STOPS)


def plan(case: Case, donor: Donor) -> Plan:
    """The best plan for a donor, with its reasons."""
    choice = best_choice(case, donor)
    suppliers = Suppliers(case, donor, {slot: way.by for slot, way in choice.suppliers.items()})
    judged = tuple(_judge_all(case, choice, suppliers))
    missing = tuple(slot for slot, way in choice.suppliers.items() if way.by == NOBODY and way.stops)
    unsettled = tuple(slot for slot, way in choice.suppliers.items() if way.by == NOBODY and not way.stops)
    serious = tuple(one.verdict for one in judged if one.otherwise != COST_ONLY or one.verdict == STOPS)
    serious += (UNSURE,) if unsettled else ()
    verdict = STOPS if missing or choice.stops else worst(serious)
    headline = next((one for one in judged if one.verdict == verdict and (one.otherwise != COST_ONLY or verdict == STOPS)), None)
    unsure = tuple(unsure_of(case, donor, choice))
    gambles = gambles_of(unsure)
    return Plan(
        donor=donor.title,
        verdict=verdict,
        worst=headline,
        judged=judged,
        suppliers=dict(suppliers.by),
        steps=tuple(_steps(case, donor, choice)),
        closings=choice.closings,
        charges_cents=sum(chance * cents for chance, cents in gambles),
        cost_cents=choice.cost_cents,
        lead_days=choice.lead_days,
        chance=Chance(0.0, "something stops it") if verdict == STOPS else chance_of(unsure),
        keep=tuple(_keep(case, choice)),
        missing=missing,
        unsettled=unsettled,
        doubtful=tuple(_doubtful(choice, donor)),
        would_go=tuple(would_have_to_be(case, choice, suppliers)) if verdict == STOPS else (),
        plates=tuple(plates_of(choice)),
        gambles=gambles,
        unsure=unsure,
        hold=tuple(
            closing.name for closing in choice.closings if closing.missing and _asks_for_thickness(case.kind, closing.name)
        ),
    )


def _judge_all(case: Case, choice: Choice, suppliers: Suppliers) -> list[Judged]:
    """Every dimension there is something to say of; of parts that nobody supplies there is not."""
    closings = {closing.name: closing for closing in choice.closings}
    taken = {name: option for name, option in choice.taken.items() if option is not NOT_THERE}
    found: list[Judged] = []
    for name, dimension in case.kind.dimensions.items():
        if dimension.rule and name in taken:
            found.append(_judge_compared(name, dimension, taken[name], suppliers))
        elif dimension.joints:
            parts = [(joint, taken[joint]) for joint in dimension.joints if joint in taken]
            if parts:
                found.append(_judge_joints(case, name, dimension, parts, suppliers))
        elif dimension.stack_ups:
            stacks = [closings[stack] for stack in dimension.stack_ups if stack in closings]
            if stacks:
                found.append(_judge_stacks(case, name, dimension, stacks))
    return found


def _judged(
    name: str,
    dimension: Dimension,
    verdict: str,
    finding: Finding,
    chance: Chance | None,
    ends: tuple[str, str, str],
    caution: str,
) -> Judged:
    give, need, origin = ends
    return Judged(
        name, dimension.title, verdict, finding.text, finding.caveat, give, need, origin, dimension.otherwise, dimension.seen,
        dimension.why, caution, chance, finding.gap_mm,
    )  # fmt: skip


def _judge_compared(name: str, dimension: Dimension, option: Option, suppliers: Suppliers) -> Judged:
    give, need = suppliers.figure(dimension.give), suppliers.figure(dimension.need)
    origins = dict.fromkeys(str(figure.origin) for figure in (give, need) if figure)
    ends = (give.text if give else "", need.text if need else "", " / ".join(origins))
    done = option.remedy.title if option.remedy else ""
    moves = moved(dimension, give, need, suppliers.figure)
    caveat = joined(option.finding.caveat, suppliers.height_caveat(dimension.give, dimension.need))
    finding = option.finding._replace(text=joined(option.finding.text, moves, done), caveat=caveat)
    caution = dimension.caution if option.verdict != BOLTS_UP else ""
    return _judged(name, dimension, option.verdict, finding, option.chance, ends, caution)


def _judge_joints(case: Case, name: str, dimension: Dimension, parts: list[tuple[str, Option]], suppliers: Suppliers) -> Judged:
    """A dimension that stands for joints takes the worst of them; a carried or bought part makes it adapt at best."""
    verdicts: list[str] = []
    texts: list[tuple[str, str]] = []
    carried = False
    for joint, option in parts:
        ends = case.kind.joints[joint].between
        sources = [suppliers.source(end) for end in ends]
        moved = OWN in sources and DONOR in sources
        carried = carried or moved
        verdict = ADAPTS if option.verdict == BOLTS_UP and (moved or BOUGHT in sources) else option.verdict
        verdicts.append(verdict)
        done = option.remedy.title if option.remedy else option.chain.title if option.chain else ""
        texts.append((joint.replace("_", " "), joined(_with(ends, sources), option.finding.text, done)))
    verdict = worst(tuple(verdicts))
    lead = max(parts, key=lambda part: (part[1].verdict == verdict, part[1].finding.gap_mm or 0.0))[1]
    ends = case.kind.joints[parts[0][0]].between
    figures = [suppliers.figure(end) for end in ends]
    origins = dict.fromkeys(str(figure.origin) for figure in figures if figure and figure.origin.basis)
    shown = (figures[0].text if figures[0] else "", figures[1].text if figures[1] else "", " / ".join(origins))
    chance = _all_of([option.chance for _, option in parts if option.chance])
    caveats = joined(*dict.fromkeys(option.finding.caveat for _, option in parts if option.finding.caveat))
    finding = Finding(lead.finding.state, _in_one(texts), caveats, lead.finding.gap_mm)
    caution = dimension.caution if carried or verdict not in (BOLTS_UP, ADAPTS) else ""
    return _judged(name, dimension, verdict, finding, chance, shown, caution)


def _in_one(texts: list[tuple[str, str]]) -> str:
    """What is to be said of several joints, each by name; once, where it is the same of all."""
    said = {text for _, text in texts}
    return said.pop() if len(said) == 1 else " · ".join(f"{name}: {text}" for name, text in texts)


def _with(ends: tuple[str, ...], sources: list[str]) -> str:
    """Which end is one's own or bought, where it is not all one source."""
    words = {OWN: "own", BOUGHT: "bought"}
    parts = [f"{words[source]} {slot_of(end)}" for end, source in zip(ends, sources, strict=True) if source in words]
    return " and ".join(parts) if len(set(sources)) > 1 else ""


def _all_of(chances: list[Chance]) -> Chance | None:
    """The chance that several things all agree; None of none."""
    if not chances:
        return None
    return Chance(math.prod(each.value for each in chances), joined(*dict.fromkeys(each.basis for each in chances)))


def _judge_stacks(case: Case, name: str, dimension: Dimension, stacks: list[Closing]) -> Judged:
    verdict = worst(tuple(closing.verdict for closing in stacks))
    titles = case.kind.stack_ups
    texts = []
    for closing in stacks:
        plates = "".join(f" with {thick:.1f} mm of plate" for _, thick in closing.plates)
        done = closing.remedy.title if closing.remedy else ""
        texts.append(f"{titles[closing.name].title}: {joined(closing.finding.text + plates, done)}")
    caveats = joined(*dict.fromkeys(closing.finding.caveat for closing in stacks if closing.finding.caveat))
    chance = _all_of([case.chance(closing.name) for closing in stacks if closing.verdict == UNSURE])
    lead = stacks[0]
    finding = Finding(NOT_KNOWN if verdict == UNSURE else lead.finding.state, " · ".join(texts), caveats, lead.finding.gap_mm)
    shown = tuple("" if value is None else f"{value:.1f} mm" for value in (lead.sum_mm, lead.target_mm))
    return _judged(name, dimension, verdict, finding, chance, (shown[0], shown[1], ""), "")


def _steps(case: Case, donor: Donor, choice: Choice) -> list[Step]:
    """Everything to do and to buy, each operation once."""
    kind = case.kind
    found: list[Step] = []
    if donor.offer.work:
        found.append(Step(WORK, f"{donor.offer.title} made whole inside", effort_of(donor.offer.work), "what it comes without"))
    for slot, way in choice.suppliers.items():
        parts = parts_of(kind, slot)
        if way.by == OWN:
            found.append(Step(CARRIED, parts, way.effort, "one's own goes across"))
        elif way.by == BOUGHT:
            why = "no other is there, or making another serve comes dearer"
            found.append(Step(BUY, parts, way.effort, why, _to_check(kind, choice, slot)))
    done: set[str] = set()
    for name, option in choice.taken.items():
        title = name.replace("_", " ")
        if option.chain:
            why = f"{title}: {option.finding.text}"
            found += [Step(ADAPTER, each.title, effort_of_adapter(each), why) for each in option.chain.adapters]
        elif option.remedy and option.remedy.id not in done:
            done.add(option.remedy.id)
            found.append(_step(option.remedy, option.effort, f"{title}: {option.finding.text}"))
    for closing in choice.closings:
        if closing.remedy and closing.remedy.id not in done:
            done.add(closing.remedy.id)
            title = kind.stack_ups[closing.name].title
            found.append(_step(closing.remedy, case.effort(closing.remedy), f"{title}: {closing.finding.text}"))
    for name in choice.mixed:
        title = f"{name.replace('_', ' ')} parts from more than one {kind.title}"
        found.append(Step(MIXING, title, effort_of(kind.sets[name].mixing), kind.sets[name].why))
    if kind.renew_cost:
        found.append(Step(RENEW, "always renewed while it is apart", effort_of(kind.renew_cost), ", ".join(kind.renew)))
    if kind.sundries:
        found.append(Step(SUNDRIES, "sundries", effort_of(kind.sundries), "what nobody counts beforehand"))
    return found


def _to_check(kind: Kind, choice: Choice, slot: str) -> str:
    """A bought part is taken to suit: what it has to suit, to be looked at before it is paid for."""
    ends = {name: joint.between for name, joint in kind.joints.items()}
    ends |= {name: (each.give, each.need) for name, each in kind.dimensions.items() if each.rule}
    names = [name for name, option in choice.taken.items() if option is not NOT_THERE and slot in map(slot_of, ends[name])]
    titles = (kind.dimensions[name].title if name not in kind.joints else name.replace("_", " ") for name in names)
    return "before it is paid for, check that it suits: " + ", ".join(dict.fromkeys(titles)) if names else ""


def _step(remedy: Remedy, effort: Effort, why: str) -> Step:
    """A remedy as something to do."""
    return Step(BUY if remedy.bought else WORK, remedy.title, effort, why, remedy.caution)


def _asks_for_thickness(kind: Kind, name: str) -> bool:
    """Whether a plate would change a stack-up that decides more than cost."""
    decides = [each for each in kind.dimensions.values() if name in each.stack_ups]
    costs = bool(decides) and all(each.otherwise == COST_ONLY for each in decides)
    return not costs and any(term.path.endswith(f".{THICK}") for term in terms_of(kind.stack_ups[name].sum))


def _keep(case: Case, choice: Choice) -> list[str]:
    """What of one's own to keep, and how."""
    found = []
    for slot, way in choice.suppliers.items():
        supply = case.kind.supply.get(slot)
        if way.by == OWN and supply:
            care = joined(case.doubts.get(slot, ""), supply.keep)
            found.append(f"{supply.parts or slot}: {care}" if care else supply.parts or slot)
    return found


def _doubtful(choice: Choice, donor: Donor) -> list[tuple[str, float]]:
    return [
        (slot, donor.offer.perhaps[slot])
        for slot, way in choice.suppliers.items()
        if way.by == DONOR and slot not in donor.offer.has and slot in donor.offer.perhaps
    ]
