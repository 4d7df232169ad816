"""What no plan for a unit of the catalog can be below, of all of them at once in SQL.

A plan costs what its slots and joints cost. Each joint, dimension or stack-up that hangs on no more than one slot with a
choice is charged to that slot, and each slot takes its cheapest way by itself. Those of one slot that may share a remedy cost
together what the dearest of them does, and a remedy that several slots may call for is split among them. A set costs its
mixing, or what keeping it whole costs more where that is less. What hangs on two choices is left out. So the sum is never
above what the plan comes to, and infinite only where no plan goes.
"""

from __future__ import annotations

import collections
import dataclasses
from collections.abc import Callable, Iterable, Iterator, Mapping
from typing import TYPE_CHECKING, NamedTuple

from interchange.catalog.figure import Figure
from interchange.catalog.model import Joint, Offer, Rule, StackUp
from interchange.fit.case import (
    BOUGHT,
    DONOR,
    NOBODY,
    NOTHING_TO_GO_BY,
    OWN,
    Case,
    Chance,
    Donor,
    Effort,
    effort_of,
    figure_from,
    middle,
    slot_of,
    source_of,
    spread_of,
)
from interchange.fit.choices import supplies
from interchange.fit.closing import may_be_left
from interchange.fit.faces import rows_of_adapters, state_of_ends
from interchange.fit.factor import NO_THICKNESS, Factor, applies_to_seat, factors_of, only_costs, options
from interchange.fit.finding import DIFFERS
from interchange.fit.outlook import PRIOR_WEIGHT, Answers, answers, sql
from interchange.fit.plan import standing_costs
from interchange.fit.stack_up import made_ready, names_of, terms_of, window
from interchange.fit.ties import Ties

if TYPE_CHECKING:
    import duckdb

INFINITE = float("inf")
SUPPLIERS = ("", DONOR, OWN, BOUGHT, NOBODY)
NO_SLOT = "="  # begins the name of a slot that is none: what hangs on no choice
ANYTHING = Answers(None, -INFINITE, INFINITE)
WIDER = 1e-5  # limits are widened by so much of themselves: a figure at the very limit must count as agreeing
TURNED = {"same": "same", "at least": "at most", "at most": "at least"}


class Bounded(NamedTuple):
    """One form of a unit, and what no plan for it can be below, in cents; infinite where none goes."""

    cents: float
    unit: str
    variant: str


class _Way(NamedTuple):
    """One way to fill a slot, or a slot of its own for what hangs on no choice."""

    slot: str
    by: str
    cents: float = 0.0
    days: float = 0.0


class _Cost(NamedTuple):
    cents: float
    days: float
    thick_mm: float = 0.0
    """What stands in the joint for it, at the least."""


class _Term(NamedTuple):
    """A joint or dimension while its slot is filled in one way: what the donor's feature has to be, and what the rest costs."""

    place: int
    bundle: int
    factor: str
    feature: str | None
    answers: Answers
    differs: _Cost
    unknown_cents: float
    faces: tuple[tuple[str, _Cost], ...] = ()
    parts: tuple[tuple[str, float], ...] = ()
    """Of a stack-up: the donor's features in it, and how often each is taken; the answers are of their sum."""
    joints: tuple[tuple[str, float], ...] = ()
    """Of a stack-up: joints of the same place that something may have to stand in, and how often that is taken."""


NOTHING = _Cost(0.0, 0.0)
NO_TERM = _Term(0, -1, "", None, Answers(), NOTHING, 0.0)


class _Terms:
    """The terms of a case, for donors that all bring the same."""

    def __init__(self, case: Case, offer: Offer, faces: Mapping[str, list[str]]) -> None:
        """``faces``: the distinct faces and shafts that units of the kind present, by feature."""
        self.case, self.faces = case, faces
        self.sure = dataclasses.replace(
            case, chances={name: Chance(0.0, "") for name in (*case.kind.joints, *case.kind.dimensions)}
        )
        self.blank = Donor(title="", features={}, offer=offer)
        self.ways = {
            slot: supplies(case, self.blank, slot, sure=True)
            for slot in case.kind.slots
            if slot not in case.kind.supply or applies_to_seat(case.kind.supply[slot].when, case)
        }
        self.settled = {slot: ways[0].by for slot, ways in self.ways.items() if len(ways) == 1}
        self.charged, self.stacked = self._charged(), self._stacked()
        self.bundles = self._bundles()
        self.slots = self._slots()
        called = {(name, self.slots[factor.name]) for factor, _ in self.charged for name in factor.remedies}
        called |= {(name, f"stack {each}") for (each, stack), _ in self.stacked for name in stack.remedies}
        self.callers = collections.Counter(name for name, _ in called)
        self.places = [_Way(slot, "") for slot in dict.fromkeys(self.slots.values()) if slot not in self.ways]
        for slot, ways in self.ways.items():
            for way in ways:
                cents = INFINITE if way.stops else way.charge_cents + way.stake_cents + way.effort.cents(case)
                self.places.append(_Way(slot, way.by, cents, middle(way.effort.lead)))

    def _slots(self) -> dict[str, str]:
        """The slot each factor and stack-up is charged to; one of its own for those of a bundle that hang on no choice."""
        named = [(factor.name, slot) for factor, slot in self.charged] + [(name, slot) for (name, _), slot in self.stacked]
        return {name: slot or f"{NO_SLOT}{self.bundles[name]}" for name, slot in named}

    def _charged(self) -> list[tuple[Factor, str]]:
        """The factors that hang on no more than one slot with a choice, each with that slot; the empty one where on none."""
        found = []
        for factor in factors_of(self.case, self.blank):
            open_slots = [slot for slot in factor.slots if slot not in self.settled]
            here = self.ways.keys() >= set(factor.slots) and len(open_slots) <= 1 and applies_to_seat(factor.when, self.case)
            if here and not self.case.falls_with_height(*factor.ends):  # the feature table has ratings at the sea
                found.append((factor, "".join(open_slots)))
        return found

    def _stacked(self) -> list[tuple[tuple[str, StackUp], str]]:
        """The stack-ups that hang on no more than one slot with a choice, each with that slot."""
        found = []
        for name, stack in self.case.kind.stack_ups.items():
            slots = [slot for slot in names_of(stack) if slot in self.case.kind.slots]
            open_slots = [slot for slot in slots if slot not in self.settled]
            if self.ways.keys() >= set(slots) and len(open_slots) <= 1 and applies_to_seat(stack.when, self.case):
                found.append(((name, stack), "".join(open_slots)))
        return found

    def _bundles(self) -> dict[str, int]:
        """A number for each factor charged, the same for those of one slot that may share a remedy."""
        ties = Ties()
        for factor, slot in self.charged:
            ties.tie(f"term {factor.name}", *(f"remedy {name} {slot}" for name in factor.remedies))
        for (name, stack), slot in self.stacked:
            ties.tie(f"term {name}", *(f"remedy {each} {slot}" for each in stack.remedies))
        return {name.removeprefix("term "): number for number, group in enumerate(ties.groups()) for name in group}

    def all(self) -> Iterator[_Term]:
        """Every term; one that is always nothing for each place, so that each stands in the sum."""
        for place in range(len(self.places)):
            yield NO_TERM._replace(place=place)
        for factor, _ in self.charged:
            for place, by in self._places_of(factor.name):
                yield self._term(factor, by)._replace(place=place, bundle=self.bundles[factor.name])
        for (name, stack), _ in self.stacked:
            for place, by in self._places_of(name):
                yield self._stack_term(name, stack, by)._replace(place=place, bundle=self.bundles[name])

    def _places_of(self, name: str) -> Iterator[tuple[int, dict[str, str]]]:
        """The places where a factor or stack-up is charged, each with who then supplies what."""
        for place, way in enumerate(self.places):
            if way.slot == self.slots[name]:
                yield place, self.settled | {way.slot: way.by}

    def _term(self, factor: Factor, by: Mapping[str, str]) -> _Term:
        sources = [source_of(end, by) for end in factor.ends]
        blank = options(self.sure, self.blank, factor, by)
        loaded = factor.joint is not None and factor.joint.torque  # a shaft that breaks may be mended for less than the doubt
        unknown_cents = 0.0 if loaded else blank[0].charge_cents + blank[0].stake_cents
        term = NO_TERM._replace(factor=factor.name, unknown_cents=unknown_cents)
        if NOBODY in sources or sources.count(DONOR) != 1:
            return term
        end, other = factor.ends if sources[0] == DONOR else factor.ends[::-1]
        fixed = figure_from(self.case, self.blank, other, source_of(other, by))
        if fixed is None:
            return term
        term = term._replace(feature=end)
        if fixed.others:
            return term._replace(answers=ANYTHING)
        turned = sources[0] != DONOR
        if factor.joint:
            refs = self.faces.get(end, ())
            costs = (self._face_cost(factor, factor.joint, Figure(ref=ref), fixed, turned=turned) for ref in refs)
            return term._replace(faces=tuple(zip(refs, costs, strict=True)))
        wanted = self._wanted(factor.dimension.rule if factor.dimension else None, end, fixed, turned=turned)
        otherwise = 0.0 if only_costs(factor) else INFINITE
        return term._replace(answers=wanted, differs=self._cheapest([], factor.remedies, otherwise))

    def _stack_term(self, name: str, stack: StackUp, by: Mapping[str, str]) -> _Term:
        """A stack-up: the donor's terms against what the rest leaves them. What stands in a joint only ever adds thickness."""
        ready = made_ready(self.case, self.blank, name, stack)
        remedies = [self.case.remedies[each] for each in stack.remedies if each in self.case.remedies]
        mends = NOTHING if ready.only_costs and may_be_left(remedies) else self._cheapest([], stack.remedies)
        whole = {each.id: self.case.effort(each).cents(self.case) for each in remedies}
        shared = [cents / self.callers[each] for each, cents in whole.items() if self._factors_call(each)]
        unknown_cents = min([*whole.values(), *shared], default=0.0 if ready.only_costs else self.case.lost_try_cents)
        term = NO_TERM._replace(factor=name, unknown_cents=unknown_cents)
        parts: dict[str, float] = {}
        joints: list[tuple[str, float]] = []
        rest, least_more, most_more = 0.0, 0.0, 0.0
        for factor, path in terms_of(stack.sum):
            source = source_of(path, by)
            if slot_of(path) in self.case.kind.joints:
                joints.append((slot_of(path), factor))
                least_more, most_more = min(least_more, factor * INFINITE), max(most_more, factor * INFINITE)
            elif source == DONOR:
                parts[path] = parts.get(path, 0.0) + factor
            else:
                figure = figure_from(self.case, self.blank, path, source)
                if figure is None:
                    return term
                rest += factor * figure.value
        target = self._target_mm(name, stack)
        if target is None or not parts:
            return term if target is None else NO_TERM._replace(factor=name)
        low, high = window(stack, target)
        slack = WIDER * max(1.0, abs(rest), abs(target))
        sought = Answers(None, low - rest - most_more - slack, high - rest - least_more + slack)
        if stack.within or any(adapter.thick is None for adapter in self.case.adapters if adapter.joint in names_of(stack)):
            coarse = unknown_cents * (1 - NOTHING_TO_GO_BY.value)  # readings may be too coarse to say
            mends = _Cost(min(mends.cents, coarse), 0.0)
        return term._replace(answers=sought, differs=mends, parts=tuple(parts.items()), joints=tuple(joints))

    def _factors_call(self, remedy: str) -> bool:
        return any(remedy in factor.remedies for factor, _ in self.charged)

    def _target_mm(self, name: str, stack: StackUp) -> float | None:
        """What a stack-up has to come to; None where that is not known, or is the donor's."""
        if not stack.target:
            return 0.0
        if stack.target == OWN:
            own = made_ready(self.case, self.blank, name, stack).own
            return own.known_mm if own and not own.missing else None
        figure = self.case.seat.get(stack.target)
        return figure.value if figure else None

    def _face_cost(self, factor: Factor, joint: Joint, give: Figure, need: Figure, *, turned: bool) -> _Cost:
        """What one face or shaft of a donor comes to; one that is not sure may prove to be nothing.

        Adapters count whatever they carry, and plates as if they could be made.
        """
        ends = (need, give) if turned else (give, need)
        if state_of_ends(self.case, factor.name, joint, *ends) != DIFFERS:
            return NOTHING
        rows = rows_of_adapters(self.case, factor.name, joint, (ends[0].ref, ends[1].ref)) if joint.most_adapters else ()
        made = [self.case.remedies[name] for name in factor.remedies if name in self.case.remedies]
        thick = [(row.thick_mm or NO_THICKNESS)[0] for row in rows] + [spread_of(remedy.makes_thick).low for remedy in made]
        return self._cheapest([row.effort for row in rows], factor.remedies)._replace(thick_mm=min(thick, default=0.0))

    def _cheapest(self, efforts: list[Effort], remedies: Iterable[str], otherwise: float = INFINITE) -> _Cost:
        """The least of several ways, in money and in days; a shared remedy is split among those that may call for it."""
        ways = [_Cost(effort.cents(self.case), middle(effort.lead)) for effort in efforts]
        for remedy in (self.case.remedies[name] for name in remedies if name in self.case.remedies):
            effort = self.case.effort(remedy)
            ways.append(_Cost(effort.cents(self.case) / self.callers[remedy.id], middle(effort.lead)))
        if not ways:
            return _Cost(otherwise, 0.0)
        return _Cost(min(way.cents for way in ways), min(way.days for way in ways))

    def _wanted(self, rule: Rule | None, give: str, fixed: Figure, *, turned: bool) -> Answers:
        """What the donor's figure may be; anything where the rule cannot be turned round."""
        if rule is not None and turned:
            pairs = tuple((need, offered) for offered, need in rule.pairs)
            name = "pairs" if pairs else TURNED.get(rule.name, "")
            plain = not rule.below and not rule.above
            rule = Rule(name=name, pairs=pairs) if name and plain else None
        if rule is None:
            return ANYTHING
        found = answers(self.case.kind, give, rule, fixed)
        if found.least is None or found.most is None:
            return found
        slack = WIDER * max(1.0, abs(fixed.value))
        return found._replace(least=found.least - slack, most=found.most + slack)


class Bounds:
    """What no plan for any form of a unit can be below. Keeps a temporary table of its connection, made anew each time."""

    def __init__(
        self, connection: duckdb.DuckDBPyConnection, case: Case, offer: Offer, load: Callable[[Iterable[str]], None]
    ) -> None:
        """Needs the temporary tables of the case's outlook. ``load`` is told which faces and shafts will be asked for."""
        features = sorted({end for joint in case.kind.joints.values() for end in joint.between})
        faces: dict[str, list[str]] = {}
        for feature, ref in connection.execute(sql("faces"), {"kind": case.kind.id, "features": features}).fetchall():
            faces.setdefault(feature, []).append(ref)
        load(ref for refs in faces.values() for ref in refs)
        made = _Terms(case, offer, faces)
        sets = {name: [slot for slot in each.slots if slot in made.ways] for name, each in case.kind.sets.items()}
        self.slots: Mapping[str, str] = made.slots | {f"set {name}": f"{NO_SLOT}set {name}" for name in sets}
        """The slot each joint, dimension, stack-up or set is charged to, where it is."""
        self._connection = connection
        self._named = list(dict.fromkeys([*(way.slot for way in made.places), *self.slots.values()]))
        """Slots by number, as the queries know them."""
        connection.execute(sql("form"), {"kind": case.kind.id})
        connection.execute(sql("bound"), _bound(made, case, self._named))
        members = [(name, slot) for name, slots in sets.items() for slot in slots]
        mixing = {name: effort_of(each.mixing).cents(case) for name, each in case.kind.sets.items()}
        mixed = {
            "sets": [self._named.index(self.slots[f"set {name}"]) for name, _ in members],
            "set_slots": [self._named.index(slot) for _, slot in members],
            "set_cents": [mixing[name] for name, _ in members],
        }
        connection.execute(sql("slot_bound"), mixed)
        standing = list(standing_costs(case, made.blank))
        bound = {
            "hold_day_cents": case.hold_day_cents,
            "standing_cents": sum(effort.cents(case) for effort in standing),
            "standing_days": max((middle(effort.lead) for effort in standing), default=0.0),
        }
        self.every = [Bounded(*row) for row in connection.execute(sql("bounded"), bound).fetchall()]
        """Every form, the least first."""

    def by_slot(self, units: list[str]) -> dict[tuple[str, str], dict[str, float]]:
        """(unit, variant) to what each slot comes to at the least, for some units."""
        found: dict[tuple[str, str], dict[str, float]] = {}
        for unit, variant, slot, cents in self._connection.execute(sql("slot_bounds"), {"units": units}).fetchall():
            found.setdefault((unit, variant), {})[self._named[slot]] = cents
        return found


def _bound(made: _Terms, case: Case, named: list[str]) -> dict[str, object]:
    """Everything as lists, because DuckDB is slow at rows one by one."""
    terms = list(made.all())
    cards = [(number, ref, cost) for number, term in enumerate(terms) for ref, cost in term.faces]
    parts: list[tuple[int, str, float, int | None]] = []
    numbers = {(term.place, term.factor): number for number, term in enumerate(terms) if term.faces}
    for number, term in enumerate(terms):
        parts += [(number, feature, times, None) for feature, times in term.parts]
        for joint, times in term.joints:
            faced = numbers.get((term.place, joint))
            feature = terms[faced].feature if faced is not None else None
            if feature:
                parts.append((number, feature, times, faced))
    return {
        "weight": PRIOR_WEIGHT,
        "hold_day_cents": case.hold_day_cents,
        "terms": list(range(len(terms))),
        "places": [term.place for term in terms],
        "bundles": [term.bundle for term in terms],
        "factors": [term.factor for term in terms],
        "features": [term.feature for term in terms],
        "words": [term.answers.words for term in terms],
        "least": [term.answers.least for term in terms],
        "most": [term.answers.most for term in terms],
        "differ_cents": [term.differs.cents for term in terms],
        "differ_days": [term.differs.days for term in terms],
        "unknown_cents": [term.unknown_cents for term in terms],
        "parts": [len(term.parts) for term in terms],
        "part_terms": [number for number, *_ in parts],
        "part_features": [feature for _, feature, *_ in parts],
        "part_times": [times for _, _, times, _ in parts],
        "part_faces": [faced for *_, faced in parts],
        "face_terms": [number for number, *_ in cards],
        "refs": [ref for _, ref, _ in cards],
        "face_cents": [cost.cents for *_, cost in cards],
        "face_days": [cost.days for *_, cost in cards],
        "face_thick": [cost.thick_mm for *_, cost in cards],
        "way_places": list(range(len(made.places))),
        "slots": [named.index(way.slot) for way in made.places],
        "way_by": [SUPPLIERS.index(way.by) for way in made.places],
        "way_cents": [way.cents for way in made.places],
        "way_days": [way.days for way in made.places],
    }
