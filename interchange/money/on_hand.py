"""What machines that stand at home, or wait in other jobs, can give: a donor at what it would fetch, or half of one good unit."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import TYPE_CHECKING, NamedTuple

from interchange.catalog.model import Offer
from interchange.catalog.suggest import suggestion
from interchange.errors import FileProblemsError, InputError
from interchange.fit.case import CORE, spread_of
from interchange.fit.failure import failures_in
from interchange.fit.setting import WHOLE
from interchange.job.folder import other_jobs
from interchange.job.home import OnHand
from interchange.job.job import read_job
from interchange.money.bill import HAUL, PRICE, Bill, Line, Outcome, bill
from interchange.money.leftovers import leftovers_line, parted, selling
from interchange.spread import NOTHING

if TYPE_CHECKING:
    from pathlib import Path

    from interchange.catalog.model import Failure, Machine
    from interchange.fit.setting import DeadSeat, Setting
    from interchange.job.dead import DeadUnit

MACHINE_OFFER = "machine"


class Standing(NamedTuple):
    """A machine on hand: where it comes from, and what is said of it."""

    id: str
    title: str
    machine: Machine
    said: OnHand


class Given(NamedTuple):
    """What a machine on hand gives for a dead unit: the forms its unit may have, and the bill at what it would fetch."""

    standing: Standing
    outcomes: tuple[Outcome, ...]
    bill: Bill
    good: float
    why: str


class Half(NamedTuple):
    """A dead unit on hand that broke where the own one is whole."""

    standing: Standing
    price: Line | None
    left: Line | None
    why: str


def standing_by(setting: Setting, job: Path) -> list[Standing]:
    """Every machine on hand: those of the home file, and those of the jobs beside this one.

    Raises InputError where the home file names a machine the catalog does not have.
    """
    said = {f"on hand: {name}": one for name, one in setting.home.on_hand.items()}
    said |= {f"job: {name}": one for name, one in _other_jobs(job)}
    found = []
    for id_, one in said.items():
        record = setting.library.record("machines", one.machine)
        if record is None:
            if id_.startswith("job"):
                continue  # that job will say so itself
            rows = setting.library.connection.execute("SELECT id FROM record WHERE live AND room = 'machines'").fetchall()
            text = f"{setting.home.where.file}: {id_}: no machine in the catalog is called {one.machine!r}"
            raise InputError(text, suggestion(one.machine, [row[0] for row in rows]))
        machine = setting.library.machine(one.machine)[1]
        found.append(Standing(id_, one.title or machine.title, machine, one))
    return found


def _other_jobs(job: Path) -> Iterator[tuple[str, OnHand]]:
    """The jobs in the same folder, as machines on hand; one with faults is passed over."""
    for folder in other_jobs(job):
        try:
            other, _ = read_job(folder)
        except (FileProblemsError, InputError):
            continue
        units = {seat: dead.unit for seat, dead in other.dead.items()}
        yield (
            folder.name,
            OnHand(machine=other.machine, title=other.title, fetches=other.worth.as_is, units=units, dead=other.dead),
        )


def given(seat: DeadSeat, standing: Standing) -> Given | None:
    """What a machine on hand gives as a donor; None where it has no such unit, or one whose core is dead too."""
    drawn = seat.drawn_from(standing.machine)
    if drawn is None:
        return None
    dead = standing.said.dead.get(drawn)
    kind = seat.case.kind
    broke = failures_in(kind, dead.broke, dead.failure) if dead else ()
    if dead and (not broke or any(CORE in failure.spoils for failure in broke)):
        return None
    named = _unit_in(standing, drawn, dead)
    fitted: Mapping[str, float] = {named: 1.0} if named else standing.machine.seats[drawn].fitted
    whole = sum(fitted.values()) or 1.0
    library = seat.setting.library
    units = {name: share for name, share in fitted.items() if library.unit(name.partition(".")[0])[1].kind == kind.id}
    offer = _offer(seat, broke)
    forms = [(form, form.share * share / whole) for name, share in units.items() for form in seat.forms(name)]
    outcomes = tuple(Outcome(share, seat.plan(form, offer)) for form, share in forms)
    if not any(outcome.plan.feasible for outcome in outcomes):
        return None
    good = standing.said.good if standing.said.good is not None else seat.setting.rates.good_unit or 0.0
    why = "; ".join(failure.title for failure in broke)
    origin = "nothing is said of its health" if standing.said.good is None else "as the home file says"
    made = bill(
        outcomes, seat.case, price_of(standing), Line(HAUL, NOTHING, "it stands here"), seat.seat.hours, good, origin,
        left=_left(seat, standing, drawn),
    )  # fmt: skip
    return Given(standing, outcomes, made, good, f"its own failure, {why}, leaves the core" if why else "it stands here")


def _unit_in(standing: Standing, drawn: str, dead: DeadUnit | None) -> str:
    return standing.said.units.get(drawn) or (dead.unit if dead else "")


def _offer(seat: DeadSeat, broke: tuple[Failure, ...]) -> Offer | None:
    """What the machine brings, without what its own failure spoils."""
    offers = seat.case.kind.offers
    whole = offers.get(MACHINE_OFFER) or offers.get(WHOLE)
    if whole is None or not broke:
        return whole
    spoiled = {slot for failure in broke for slot in failure.spoils}
    doubts = {slot: share for failure in broke for slot, share in failure.doubts.items() if slot not in spoiled}
    sure = tuple(slot for slot in whole.has if slot not in spoiled and slot not in doubts)
    return Offer(title=whole.title, has=sure, perhaps={slot: share for slot, share in doubts.items() if slot in whole.has})


def price_of(standing: Standing) -> Line | None:
    """What using it up gives away: what it would fetch. None where the home file does not say."""
    fetches = standing.said.fetches
    return Line(PRICE, spread_of(fetches), "what it would fetch") if fetches else None


def _left(seat: DeadSeat, standing: Standing, drawn: str) -> Line | None:
    """What the rest of it brings by part; its dead units bring nothing but scrap."""
    setting = seat.setting
    if not setting.home.part_out:
        return None
    gone = {drawn, *standing.said.dead}
    return leftovers_line(parted(standing.machine, gone, selling(setting), seat.case.own_hour_cents))


def half(seat: DeadSeat, standing: Standing) -> Half | None:
    """Whether a dead unit on hand and the own one, of the same family, make one good one: they broke in different parts."""
    own = _broken(seat, seat.dead)
    drawn = seat.drawn_from(standing.machine)
    dead = standing.said.dead.get(drawn) if drawn else None
    if not own or drawn is None or dead is None:
        return None
    named = _unit_in(standing, drawn, dead)
    other = _broken(seat, dead)
    if not other or own & other or named.partition(".")[0] != seat.dead.unit.partition(".")[0]:
        return None
    why = f"it broke in {_listed(other)}, one's own in {_listed(own)}"
    return Half(standing, price_of(standing), _left(seat, standing, drawn), why)


def _broken(seat: DeadSeat, dead: DeadUnit) -> frozenset[str]:
    """The parts of its core that are no good; empty where that is not known."""
    broke = [failure for failure in failures_in(seat.case.kind, dead.broke, dead.failure) if CORE in failure.spoils]
    if not all(failure.breaks for failure in broke):
        return frozenset()
    return frozenset(part for failure in broke for part in failure.breaks)


def _listed(parts: frozenset[str]) -> str:
    return ", ".join(sorted(parts))
