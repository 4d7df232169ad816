"""A job set against the catalog: a case for each dead unit, and plans for donors, each made once."""

from __future__ import annotations

import collections
import dataclasses
from typing import TYPE_CHECKING, NamedTuple

from interchange.catalog.decode import Reader
from interchange.catalog.model import Machine, Offer, Unit, Variant
from interchange.catalog.rates import WorkRates
from interchange.catalog.suggest import suggestion
from interchange.errors import FileProblemsError, InputError, Problem
from interchange.fit.case import Case, Donor
from interchange.fit.failure import movable, what_is_left
from interchange.fit.height import HINT, TOO_HIGH, too_high
from interchange.fit.outlook import Outlook
from interchange.fit.report import Plan, plan

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping

    from interchange.catalog.figure import Figure
    from interchange.catalog.model import Features, Kind, Seat
    from interchange.catalog.nodes import Node
    from interchange.catalog.rooms import Record
    from interchange.job.home import Home
    from interchange.job.job import DeadUnit, Job
    from interchange.store.library import Library

WORK_RATES = "work"
WHOLE = "complete"


class Form(NamedTuple):
    """One form a donor may turn out to have, with its share."""

    unit: str
    variant: str
    share: float
    share_known: bool
    tell: str
    title: str


class DeadSeat:
    """One dead unit of a job: its case, and the plans made for it."""

    def __init__(self, setting: Setting, name: str, dead: DeadUnit, seat: Seat, record: Record) -> None:
        self.setting, self.name, self.dead, self.seat = setting, name, dead, seat
        library = setting.library
        unit_record, unit = library.unit(dead.unit.partition(".")[0])
        self.unit = unit
        rates = setting.rates
        home = setting.home.rates
        kind = library.kind(seat.kind)
        self.left = what_is_left(kind, dead)
        self.case = Case(
            kind=kind,
            seat=record.presented[name].features if name in record.presented else {},
            own=form_features(unit_record, dead.unit.partition(".")[2]),
            usable=self.left.usable,
            doubts=self.left.doubts,
            height=setting.home.altitude,
            adapters=library.adapters(seat.kind),
            remedies=library.remedies(),
            pattern=library.pattern,
            shaft=library.shaft,
            own_hour_cents=(home.own_hour or rates.own_hour).value,
            hold_day_cents=(home.hold_day or rates.hold_day).value,
            lost_try_cents=rates.lost_try.value,
        )
        self._loaded: set[str] = set()
        self.load(figure.ref for figure in (*self.case.seat.values(), *self.case.own.values()))
        self.load(face for adapter in self.case.adapters for face in adapter.faces)
        self.outlook = Outlook(library.connection, self.case, self.load)
        self._plans: dict[object, Plan] = {}

    def load(self, refs: Iterable[str]) -> None:
        """Fetch the patterns and shafts that will be asked for, in one go: one by one takes a millisecond each.

        Those written in place come with what they are written in.
        """
        fresh = {ref for ref in refs if ref and ":" not in ref} - self._loaded
        self._loaded |= fresh
        for room in ("patterns", "shafts") if fresh else ():
            collections.deque(self.setting.library.records(room, tuple(sorted(fresh))), maxlen=0)

    def offer(self, word: str) -> Offer:
        """What an ad of this sort brings, by the kind's table. Raises InputError for a sort it has not."""
        found = self.case.kind.offers.get(word)
        if found is None:
            raise InputError(f"{self.case.kind.id} has no offer called {word!r}", suggestion(word, self.case.kind.offers))
        return found

    def fitted(self, machine: Machine) -> Mapping[str, float]:
        """What came in a machine's like seat, with shares: the seat of this name, else the first that takes such a unit."""
        name = self.drawn_from(machine)
        return machine.seats[name].fitted if name else {}

    def drawn_from(self, machine: Machine) -> str | None:
        """The seat of a donor machine whose unit would be taken: the one of this name, else the first that takes such a unit."""
        takes = {name: seat.fitted for name, seat in machine.seats.items() if seat.kind == self.case.kind.id}
        return self.name if takes.get(self.name) else next(iter(takes), None)

    def forms(self, named: str) -> list[Form]:
        """The forms a unit (or unit.variant) may have, with their shares brought to a whole."""
        unit_id, _, variant = named.partition(".")
        _, unit = self.setting.library.unit(unit_id)
        if variant and variant not in unit.variants:
            raise InputError(f"{unit.title} has no variant {variant!r}", suggestion(variant, unit.variants))
        if variant:
            chosen = unit.variants[variant]
            return [Form(unit_id, variant, 1.0, True, chosen.tell, _form_title(unit, variant, chosen))]
        if not unit.variants:
            return [Form(unit_id, "", 1.0, True, "", unit.title)]
        stated = all(each.share is not None for each in unit.variants.values())
        shares = unit.shares
        return [
            Form(unit_id, name, shares[name], stated, each.tell, _form_title(unit, name, each))
            for name, each in unit.variants.items()
        ]

    def features(self, form: Form) -> Features:
        """What one form of a donor presents."""
        return form_features(self.setting.library.unit(form.unit)[0], form.variant)

    def form(self, unit_id: str, variant: str) -> Form:
        """One form of a unit, with its share of them."""
        return next(form for form in self.forms(unit_id) if form.variant == variant)

    def prepare(self, units: tuple[str, ...]) -> None:
        """Fetch units, and the faces and shafts they present, in one go."""
        records = list(self.setting.library.records("units", units))
        forms = (form for record in records for form in record.presented.values())
        self.load(figure.ref for form in forms for figure in form.features.values())

    def pair(
        self, unit_id: str, variant: str, offer: Offer | None = None, said: Features | None = None
    ) -> tuple[Case, Donor]:  # fmt: skip
        """The case with its chances for one form of a unit, and that form as a donor, with what its seller says of it."""
        record, unit = self.setting.library.unit(unit_id)
        features = form_features(record, variant)
        features = features | {path: _told(features.get(path), figure) for path, figure in (said or {}).items()}
        self.load(figure.ref for figure in features.values())
        title = _form_title(unit, variant, unit.variants[variant]) if variant else unit.title
        case = dataclasses.replace(self.case, chances=self.outlook.chances(unit.maker, unit_id))
        return case, Donor(title=title, features=features, offer=offer or self.offer(WHOLE))

    def plan(self, form: Form, offer: Offer | None = None, said: Features | None = None) -> Plan:
        """The plan for one form of a donor, made once; what comes with it is what a complete unit brings, unless told."""
        offer = offer or self.offer(WHOLE)
        words = tuple((path, figure.text, str(figure.origin)) for path, figure in (said or {}).items())
        key = (form.unit, form.variant, offer.has, tuple(offer.perhaps.items()), offer.work, offer.title, words)
        if key not in self._plans:
            _, unit = self.setting.library.unit(form.unit)
            if unit.kind != self.case.kind.id:
                raise InputError(f"{unit.title} is a {unit.kind}; the {self.name} of this machine is a {self.case.kind.id}")
            self._plans[key] = plan(*self.pair(form.unit, form.variant, offer, said))
        return self._plans[key]


def _told(known: Figure | None, said: Figure) -> Figure:
    """What is known of a feature and what a seller says of it: where they differ, two sources that do."""
    if known is None:
        return said
    return known if said.text in {one.text for one in known.readings} else known._replace(others=(*known.others, said))


def _form_title(unit: Unit, name: str, variant: Variant) -> str:
    """What to call one form: a variant's title mostly has the unit's in it."""
    title = variant.title or name
    return title if title.startswith(unit.title) else f"{unit.title}, {title}"


def form_features(record: Record, variant: str) -> Features:
    """What one form of a unit presents."""
    forms = record.presented
    if variant and variant not in forms:
        raise InputError(f"{record.id} has no variant {variant!r}", suggestion(variant, [name for name in forms if name]))
    if variant:
        return forms[variant].features
    if "" in forms:
        return forms[""].features
    shared = [form.features for form in forms.values()]
    return {path: figure for path, figure in shared[0].items() if all(other.get(path) == figure for other in shared)}


class Setting:
    """A job, its home and the catalog, with what each dead unit needs."""

    def __init__(self, library: Library, job: Job, node: Node, home: Home) -> None:
        self.library, self.job, self.home = library, job, home
        self.remarks: tuple[Problem, ...] = ()
        """What does not stop a job but is worth a word."""
        self._check(node)
        self.record, self.machine = library.machine(job.machine)
        self._seats: dict[str, DeadSeat] = {}

    @property
    def rates(self) -> WorkRates:
        """What the trade's defaults say of time and doubt. Raises InputError where the table is gone."""
        one = self.library.record("rates", WORK_RATES)
        if one is None or not isinstance(one.value, WorkRates):
            raise InputError("the catalog has no table of rates called 'work'", "put back trade/rates.yaml")
        return one.value

    def seat(self, name: str) -> DeadSeat:
        """A dead unit by its seat, set up when it is first asked for."""
        if name not in self.job.dead:
            raise InputError(f"the job has no dead unit called {name!r}", suggestion(name, self.job.dead))
        if name not in self._seats:
            self._seats[name] = DeadSeat(self, name, self.job.dead[name], self.machine.seats[name], self.record)
        return self._seats[name]

    def _check(self, node: Node) -> None:
        """Names in the job file that the catalog does not have, each with its place."""
        reader, remarks = Reader(self.job.where.file), Reader(self.job.where.file)
        machine = self.library.record("machines", self.job.machine)
        entries = node.value if isinstance(node.value, dict) else {}
        if machine is None or not isinstance(machine.value, Machine):
            self._unknown(reader, entries["machine"], "machine", self.job.machine, "machines")
        for name, dead in self.job.dead.items():
            at = _inside(entries, "dead", name)
            if machine and isinstance(machine.value, Machine) and name not in machine.value.seats:
                text = f"{machine.value.title} has no seat called {name!r}"
                reader.problem(at, "unknown-name", text, suggestion(name, machine.value.seats), at_key=True)
                continue
            unit_id, _, variant = dead.unit.partition(".")
            unit = self.library.record("units", unit_id)
            here = _inside(at.value if isinstance(at.value, dict) else {}, "unit") if at.value else at
            if unit is None or not isinstance(unit.value, Unit):
                self._unknown(reader, here, "unit", unit_id, "units")
                continue
            if variant and variant not in unit.value.variants:
                text = f"{unit_id} has no variant {variant!r}"
                reader.problem(here, "unknown-name", text, suggestion(variant, unit.value.variants))
            seat = machine.value.seats[name] if machine and isinstance(machine.value, Machine) else None
            if seat and seat.kind != unit.value.kind:
                text = f"{unit.value.title} is of kind {unit.value.kind}, and the seat {name!r} takes kind {seat.kind}"
                reader.problem(here, "wrong-kind", text, "name what was in that seat")
                continue
            kind = self.library.kind(unit.value.kind)
            inside = at.value if isinstance(at.value, dict) else {}
            for key, slots in (("usable", dead.usable or ()), ("usable_anyway", dead.usable_anyway)):
                for i, slot in enumerate(slots):
                    if slot not in kind.slots:
                        text = f"{kind.id} has no slot called {slot!r}"
                        reader.problem(_item(inside, key, i), "unknown-slot", text, suggestion(slot, kind.slots))
            if dead.failure and dead.failure not in kind.failures:
                text = f"{kind.id} has no failure called {dead.failure!r}"
                reader.problem(inside["failure"], "unknown-name", text, suggestion(dead.failure, kind.failures))
            self._remark(remarks, name, at, kind)
        if self.home.altitude and too_high(self.home.altitude):
            text = TOO_HIGH.format(self.home.altitude.text)
            reader.problems.append(Problem(*self.home.altitude.where, "too-high", f"altitude: {text}", HINT))
        if reader.problems:
            raise FileProblemsError(tuple(sorted(reader.problems)))
        self.remarks = tuple(sorted(remarks.problems))

    def _remark(self, reader: Reader, name: str, at: Node, kind: Kind) -> None:
        """What is worth a word: slots said to be usable that what broke spoils, and slots taken as usable without being told."""
        dead = self.job.dead[name]
        left = what_is_left(kind, dead)
        inside = at.value if isinstance(at.value, dict) else {}
        for i, slot in enumerate(dead.usable or ()):
            if slot in left.spoiled:
                text = f"{slot} is said to be usable, and a {left.spoiled[slot]} mostly spoils it; it is counted on"
                reader.problem(_item(inside, "usable", i), "spoiled", text, "take it out, or list it under usable_anyway")
        if left.taken and left.usable:
            text = f"usable is left out: taken, not told, from {' and '.join(left.failures)}: {', '.join(sorted(left.usable))}"
            reader.problem(at, "usable-taken", text, "list under usable what is still good", at_key=True)
        elif left.taken and movable(kind) and not left.usable:
            text = "usable is left out, and what broke is not known to this kind: nothing of it is counted on"
            reader.problem(at, "usable-not-told", text, "list under usable what is still good", at_key=True)

    def _unknown(self, reader: Reader, node: Node, what: str, name: str, room: str) -> None:
        rows = self.library.connection.execute("SELECT id FROM record WHERE live AND room = ?", [room]).fetchall()
        text = f"no {what} in the catalog is called {name!r}"
        reader.problem(node, "unknown-name", text, suggestion(name, [row[0] for row in rows]))


def _item(entries: dict[str, Node], key: str, i: int) -> Node:
    """The node of one item of a list, which may be written without the list."""
    slots = entries[key]
    return slots.value[i] if isinstance(slots.value, list) else slots


def _inside(entries: dict[str, Node], *keys: str) -> Node:
    node = entries[keys[0]]
    for key in keys[1:]:
        node = node.value[key]  # type: ignore[index, call-overload, assignment]
    return node
