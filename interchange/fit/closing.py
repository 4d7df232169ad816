"""Ways to close the stack-ups of a plan: with made plates as thick as closes most, and with remedies for what they leave open."""

from __future__ import annotations

import itertools
from collections.abc import Collection, Iterator, Mapping, Sequence
from typing import NamedTuple

from interchange.catalog.model import Remedy, StackUp
from interchange.fit.case import Case, middle
from interchange.fit.finding import ADAPTS, AGREES, BOLTS_UP, DIFFERS, MACHINE_WORK, NOT_KNOWN, STOPS, UNSURE, Finding, joined
from interchange.fit.stack_up import CLOSE_ENOUGH_MM, CLOSER_READINGS, INFINITE, Shifts, Standing, spoken_term


class Way(NamedTuple):
    """One way to close all stack-ups of a plan: what it costs, how thick the made plates are, and a remedy or none for each."""

    stops: int
    cents: float
    lead_days: float
    plates: Mapping[str, float]
    remedies: tuple[Remedy | None, ...]


NOTHING_TO_CLOSE = Way(0, 0.0, 0.0, {}, ())


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
    stake_cents: float = 0.0
    missing: tuple[str, ...] = ()
    plates: tuple[tuple[str, float], ...] = ()
    """(joint, thickness) of the made plates it was closed with."""


def ways_to_close(case: Case, standings: Sequence[Standing], shifts: Shifts, paid: frozenset[str]) -> Iterator[Way]:
    """Every way to close them all that may be worth it: which of them made plates close, and what is done about the others.

    A remedy in ``paid`` is paid for already, and costs nothing more.
    """
    if not standings:
        yield NOTHING_TO_CLOSE
        return
    plates = _plates(standings, shifts)
    tried: set[tuple[tuple[str, ...], ...]] = set()
    for thick in _corners(case, standings, plates):
        choices = tuple(_mends(case, each, thick) for each in standings)
        state = tuple(
            (str(_closes(each, thick)), *(one.id for one in mends if one)) for each, mends in zip(standings, choices, strict=True)
        )
        if state in tried:
            continue
        tried.add(state)
        yield from _remedied(case, standings, thick, choices, paid)


def _mends(case: Case, standing: Standing, plates: Mapping[str, float]) -> tuple[Remedy | None, ...]:
    """What can be done about a stack-up at some thicknesses: nothing where it closes or is not known, else what reaches so far.

    Nothing too where nothing does reach: that stops it.
    """
    if standing.sum.missing:
        return (None,)
    out = _out_mm(standing, plates)
    if out <= CLOSE_ENOUGH_MM:
        return (None,)
    return tuple(each for each in _remedies(case, standing.ready.stack) if out <= _reach_mm(each) + CLOSE_ENOUGH_MM) or (None,)


def _reach_mm(remedy: Remedy) -> float:
    return INFINITE if remedy.reach is None else remedy.reach.value


def _plates(standings: Sequence[Standing], shifts: Shifts) -> dict[str, tuple[float, float]]:
    """Made plates, and the thicknesses they can have."""
    wanted = {joint for each in standings for joint in each.sum.plates}
    return {joint: span for joint, span in shifts.items() if span and joint in wanted}


def _remedied(
    case: Case, standings: Sequence[Standing], plates: Mapping[str, float], choices: Sequence[tuple[Remedy | None, ...]],
    paid: frozenset[str],
) -> Iterator[Way]:  # fmt: skip
    """The choices of a remedy for each stack-up that does not close by itself."""
    charges = sum(sum(_charge_and_stake(case, each, paid)) for each in standings if each.sum.missing)
    for chosen in itertools.product(*choices):
        stops = sum(
            remedy is None and not (each.sum.missing or each.ready.only_costs or _closes(each, plates))
            for each, remedy in zip(standings, chosen, strict=True)
        )
        fresh = {remedy.id: case.effort(remedy) for remedy in chosen if remedy and remedy.id not in paid}
        cents = charges + sum(effort.cents(case) for effort in fresh.values())
        lead = max((middle(effort.lead) for effort in fresh.values()), default=0.0)
        yield Way(stops, cents, lead, plates, chosen)


def _remedies(case: Case, stack: StackUp) -> list[Remedy]:
    return [case.remedies[name] for name in stack.remedies if name in case.remedies]


def _charge_and_stake(case: Case, standing: Standing, paid: frozenset[str]) -> tuple[float, float]:
    """What is charged for a stack-up not known: the chance that it does not close, times the cheapest mend or a lost try."""
    doubt = 1 - case.chance(standing.ready.name).value
    mends = _remedies(case, standing.ready.stack)
    if not mends:
        return 0.0, 0.0 if standing.ready.only_costs else doubt * case.lost_try_cents
    return doubt * min(0.0 if each.id in paid else case.effort(each).cents(case) for each in mends), 0.0


def may_be_left(mends: Sequence[Remedy]) -> bool:
    """Whether some gap is beyond what any of these mends."""
    return all(each.reach is not None for each in mends)


def least_to_close(case: Case, standing: Standing, shifts: Shifts, paid: Collection[str], calls: Mapping[str, int]) -> float:
    """What a stack-up comes to at the least, in cents, however thick the made plates in it are.

    A remedy in ``paid`` is paid for, or may come to be; ``calls`` says how many stack-ups may share each of the others.
    """
    mends = _remedies(case, standing.ready.stack)
    if standing.ready.only_costs and may_be_left(mends) and not standing.sum.missing:
        return 0.0
    cents = {each.id: 0.0 if each.id in paid else case.effort(each).cents(case) for each in mends}
    if standing.sum.missing:
        lost = 0.0 if standing.ready.only_costs else case.lost_try_cents
        return (1 - case.chance(standing.ready.name).value) * min(cents.values(), default=lost)
    low = high = standing.sum.known_mm
    for joint, factor in standing.sum.plates.items():
        span = shifts[joint] or (0.0, 0.0)
        ends = (factor * span[0], factor * span[1])
        low, high = low + min(ends), high + max(ends)
    closes = high >= standing.least_mm - CLOSE_ENOUGH_MM and low <= standing.most_mm + CLOSE_ENOUGH_MM
    return 0.0 if closes else min((each / calls[name] for name, each in cents.items()), default=0.0)


def _total_mm(standing: Standing, plates: Mapping[str, float]) -> float:
    return standing.sum.known_mm + sum(factor * plates[joint] for joint, factor in standing.sum.plates.items())


def _out_mm(standing: Standing, plates: Mapping[str, float]) -> float:
    """How far a sum is outside what it may be."""
    total = _total_mm(standing, plates)
    return max(standing.least_mm - total, total - standing.most_mm, 0.0)


def _closes(standing: Standing, plates: Mapping[str, float]) -> bool:
    return not standing.sum.missing and _out_mm(standing, plates) <= CLOSE_ENOUGH_MM


def _corners(
    case: Case, standings: Sequence[Standing], plates: Mapping[str, tuple[float, float]]
) -> Iterator[dict[str, float]]:  # fmt: skip
    """Thicknesses worth trying for the made plates: where as many limits meet as there are plates.

    The limits are the ends of what each plate can be, of what each sum may be, and of how far off a remedy may find it. Whatever
    set of stack-ups some thicknesses close or bring within reach, thicknesses at such a corner do too.
    """
    names = list(plates)
    limits: list[tuple[tuple[float, ...], float]] = []
    for i, name in enumerate(names):
        limits += [(tuple(float(i == j) for j in range(len(names))), end) for end in plates[name]]
    for each in standings:
        if not each.sum.missing and each.sum.plates:
            row = tuple(each.sum.plates.get(name, 0.0) for name in names)
            reaches = {0.0, *map(_reach_mm, _remedies(case, each.ready.stack))} - {INFINITE}
            ends = [end for reach in reaches for end in (each.least_mm - reach, each.most_mm + reach)]
            limits += [(row, end - each.sum.known_mm) for end in ends if abs(end) != INFINITE]
    for chosen in itertools.combinations(limits, len(names)):
        solved = _solved([[*row, end] for row, end in chosen])  # of nothing: the one corner there is without plates
        if solved is None:
            continue
        thick = dict(zip(names, solved, strict=True))
        if all(plates[name][0] - CLOSE_ENOUGH_MM <= each <= plates[name][1] + CLOSE_ENOUGH_MM for name, each in thick.items()):
            yield thick


def _solved(rows: list[list[float]]) -> list[float] | None:
    """The one solution of as many linear equations as unknowns; None where there is none, or more."""
    count = len(rows)
    for i in range(count):
        pivot = max(range(i, count), key=lambda j: abs(rows[j][i]))
        if abs(rows[pivot][i]) < CLOSE_ENOUGH_MM:
            return None
        rows[i], rows[pivot] = rows[pivot], rows[i]
        for j in range(count):
            if j != i:
                share = rows[j][i] / rows[i][i]
                rows[j] = [a - share * b for a, b in zip(rows[j], rows[i], strict=True)]
    return [rows[i][count] / rows[i][i] for i in range(count)]


def closings(
    case: Case, standings: Sequence[Standing], shifts: Shifts, way: Way, paid: frozenset[str]
) -> tuple[Closing, ...]:  # fmt: skip
    """A way to close them put into words, its made plates in the middle of what they may be."""
    thick = _centred(standings, _plates(standings, shifts), way)
    return tuple(_closing(case, each, thick, remedy, paid) for each, remedy in zip(standings, way.remedies, strict=True))


def _centred(
    standings: Sequence[Standing], plates: Mapping[str, tuple[float, float]], way: Way
) -> dict[str, float]:  # fmt: skip
    """Each made plate in turn in the middle of the thicknesses at which everything that closes, or is within reach, still is.

    At an end of them instead, where that leaves less to mend of what does not close.
    """
    thick = dict(way.plates)
    deciding = [each for each in standings if not (each.sum.missing or each.ready.only_costs)]
    closing = [(each, 0.0) for each in standings if _closes(each, thick)]
    closing += [(each, _reach_mm(remedy)) for each, remedy in zip(standings, way.remedies, strict=True) if remedy]
    for joint, span in plates.items():
        lows, highs = [span[0]], [span[1]]
        for each, reach in closing:
            factor = each.sum.plates.get(joint, 0.0)
            if factor:
                rest = _total_mm(each, thick) - factor * thick[joint]
                low, high = sorted(((each.least_mm - reach - rest) / factor, (each.most_mm + reach - rest) / factor))
                lows.append(low)
                highs.append(high)
        low, high = max(lows), min(highs)
        tried = [thick | {joint: each} for each in ((low + high) / 2, low, high)]
        thick = min(tried, key=lambda each: sum(_out_mm(one, each) for one in deciding))
    return thick


def _closing(case: Case, each: Standing, thick: Mapping[str, float], remedy: Remedy | None, paid: frozenset[str]) -> Closing:
    """One stack-up with all its thicknesses."""
    name, total = each.ready.name, each.sum
    if total.missing:
        text = " and ".join(spoken_term(path) for path in dict.fromkeys(total.missing)) + " not known"
        if total.missing == (CLOSER_READINGS,) and each.ready.stack.within:
            off = f"±{each.ready.stack.within.value:.2g} mm is all it may be off"
            text = f"the readings are good to ±{total.tolerance_mm:.2g} mm together, and {off}"
        charge, stake = _charge_and_stake(case, each, paid)
        finding = Finding(NOT_KNOWN, text)
        return Closing(name, UNSURE, finding, charge_cents=charge, stake_cents=stake, missing=total.missing)
    whole, out = _total_mm(each, thick), _out_mm(each, thick)
    plates = tuple((joint, thick[joint]) for joint in total.plates)
    error = total.tolerance_mm
    inside = each.least_mm + error <= whole <= each.most_mm - error
    made = Closing(
        name,
        BOLTS_UP,
        Finding(AGREES, _words(each, whole), "" if inside else "within the reading error of its limit", 0.0),
        whole,
        _aim_mm(each),
        error,
        plates=plates,
    )
    if out <= CLOSE_ENOUGH_MM:
        return made
    caveat = "the readings alone may be off by as much: measure again" if out <= error else ""
    farthest = max((each for each in _remedies(case, each.ready.stack)), key=_reach_mm, default=None)
    beyond = f"{farthest.title} mends {farthest.reach.text} at most" if farthest and farthest.reach and remedy is None else ""
    finding = Finding(DIFFERS, joined(_words(each, whole), f"out by {out:.1f} mm", beyond), caveat, out)
    if remedy is None and each.ready.only_costs:
        return made._replace(verdict=ADAPTS, finding=finding._replace(text=joined(finding.text, "taken as it is")))
    verdict = STOPS if remedy is None else ADAPTS if remedy.bought else MACHINE_WORK
    return made._replace(verdict=verdict, finding=finding, remedy=remedy)


def _aim_mm(each: Standing) -> float:
    """The middle of what a sum may be, or the one end it has."""
    ends = [end for end in (each.least_mm, each.most_mm) if abs(end) != INFINITE]
    return sum(ends) / len(ends)


def _words(each: Standing, total_mm: float) -> str:
    error = each.sum.tolerance_mm
    plus_minus = f" ±{error:.2g}" if error else ""
    if each.most_mm == INFINITE:
        return f"{total_mm:.1f}{plus_minus} mm, wanted at least {each.least_mm:.1f} mm"
    if each.least_mm == -INFINITE:
        return f"{total_mm:.1f}{plus_minus} mm, wanted at most {each.most_mm:.1f} mm"
    return f"{total_mm:.1f}{plus_minus} mm, wanted {each.least_mm:.1f} to {each.most_mm:.1f} mm"
