"""The clockings at which bolts have their holes: one face turned on another about their common centre.

Each bolt passes each hole within an interval of angles; the sweep over the ends of these intervals finds the turns at which most
distinct bolts have distinct holes.
"""

from __future__ import annotations

import functools
import itertools
import math
from collections.abc import Iterator, Sequence
from typing import NamedTuple

from interchange.catalog.geometry import Hole
from interchange.quantity import read_quantity

WHOLE_TURN = 360.0
ANGLE_STEP_DEG = 1e-9
ANGLE_DIGITS = 9
ROUNDING_MM = 1e-6  # so that a bolt without any play still passes its own hole


class Clock(NamedTuple):
    """Turns a joint allows: centres and the play about each, degrees; any turn where centres is None."""

    centres_deg: tuple[float, ...] | None
    play_deg: float = 0.0


class LineUp(NamedTuple):
    """How the holes of two faces line up at the best clocking."""

    bolts: int
    """Holes of the first face."""
    holes: int
    """Holes of the second face."""
    line_up: int
    """Distinct bolts that have distinct holes at the best clocking."""
    clock_deg: float
    """The best clocking: so far the second face is turned clockwise on the first."""
    clockings: tuple[float, ...]
    """The middle of every range of turns as good."""
    worst_offset_mm: float
    """Between the centres of the worst pair that lines up, at the best clocking."""
    least_gap_mm: float
    """How far the worst hole is from letting its bolt pass, where not all line up; 0 where they do."""
    spare_mm: float
    """How much farther off the tightest of the bolts that pass could be."""

    @property
    def complete(self) -> bool:
        """Whether every bolt of both faces has its hole."""
        return self.line_up == self.bolts == self.holes


class Pass(NamedTuple):
    """The turns at which one bolt passes one hole."""

    low_deg: float
    high_deg: float
    bolt: int
    hole: int


@functools.cache
def read_clock(texts: tuple[str, ...]) -> Clock:
    """Allowed clockings as written in a kind: ``any``, or angles. Raises QuantityError for anything else."""
    if texts == ("any",):
        return Clock(None)
    angles = [read_quantity(text, "angle") for text in texts]
    return Clock(tuple(angle.value % WHOLE_TURN for angle in angles), max(angle.tolerance or 0.0 for angle in angles))


def slack_mm(bolt: Hole, hole: Hole, clearance_mm: float) -> float:
    """How far two hole centres may be apart for a bolt to pass; negative where it is too thick.

    A tapped hole fixes the bolt, so only the clear hole gives. Where a face is written as tapped on both sides (both name one
    standard), or says nothing, the clear hole is the bolt and the joint's stated clearance.
    """
    return _slack_mm(bolt.thread_mm, bolt.hole_mm, hole.thread_mm, hole.hole_mm, clearance_mm)


@functools.lru_cache(maxsize=1024)  # a face has holes of one or two sizes, and is asked about each of them with each
def _slack_mm(
    bolt_thread: float | None, bolt_clear: float | None, thread: float | None, clear: float | None, clearance_mm: float
) -> float:
    if bolt_thread is not None and thread is not None:
        return (clearance_mm - abs(bolt_thread - thread)) / 2
    tapped = bolt_thread if bolt_thread is not None else thread
    clears = [each for each in (bolt_clear, clear) if each is not None]
    if tapped is not None and clears:
        return (clears[0] - tapped) / 2
    if len(clears) == 2:  # noqa: PLR2004 - both faces clear: the bolt suits the smaller hole
        thickness = min(clears) - clearance_mm
        return sum(each - thickness for each in clears) / 2
    return clearance_mm / 2


def passes_of(bolts: Sequence[Hole], holes: Sequence[Hole], clearance_mm: float, extra_mm: float) -> Iterator[Pass]:
    """Intervals of turns of the holes (degrees, middle within one turn of 0) at which bolts pass them."""
    places = [(j, hole, hole.radius_mm, hole.angle_deg) for j, hole in enumerate(holes)]
    for i, bolt in enumerate(bolts):
        bolt_radius, bolt_angle = bolt.radius_mm, bolt.angle_deg
        for j, hole, radius, angle in places:
            slack = slack_mm(bolt, hole, clearance_mm) + extra_mm + ROUNDING_MM
            if slack < 0 or abs(bolt_radius - radius) > slack:
                continue
            product = 2 * bolt_radius * radius
            cosine = (bolt_radius**2 + radius**2 - slack**2) / product if product else -1.0
            if cosine <= -1.0:  # so near the centre that it passes at any turn
                yield Pass(0.0, WHOLE_TURN, i, j)
                continue
            half = math.degrees(math.acos(min(1.0, cosine)))
            middle = (bolt_angle - angle) % WHOLE_TURN
            yield Pass(middle - half, middle + half, i, j)


def line_up(bolts: Sequence[Hole], holes: Sequence[Hole], clock: Clock, clearance_mm: float, extra_mm: float = 0.0) -> LineUp:
    """The best clocking of one face on another. ``extra_mm`` widens every hole, for readings that may be off by so much."""
    passes = list(passes_of(bolts, holes, clearance_mm, extra_mm))
    best, clockings = best_turns(passes, clock, len(bolts))
    turn = clockings[0] if clockings else _no_better_turn(bolts, holes, clock)
    complete = best == len(bolts) == len(holes)
    return LineUp(len(bolts), len(holes), best, turn, clockings, *_offsets(bolts, holes, turn, clearance_mm, complete=complete))


def _no_better_turn(bolts: Sequence[Hole], holes: Sequence[Hole], clock: Clock) -> float:
    """Where no bolt passes at any turn: the first allowed, or the one at which the first two holes stand side by side."""
    if clock.centres_deg is not None:
        return clock.centres_deg[0]
    return (bolts[0].angle_deg - holes[0].angle_deg) % WHOLE_TURN if bolts and holes else 0.0


def best_turns(passes: Sequence[Pass], clock: Clock, bolts: int) -> tuple[int, tuple[float, ...]]:
    """The most bolts that pass at once, and the middle of every range of turns at which so many do."""
    best, ranges = 0, list[tuple[float, float]]()
    for low, high in _cells(passes, clock):
        turn = (low + high) / 2
        active = [(p.bolt, p.hole) for p in passes if _contains(p, turn)]
        if len(active) < best:
            continue
        count = len(active) if _distinct(active) else _matching(active, bolts)
        if count > best:
            best, ranges = count, []
        if count == best and best:
            if ranges and abs(ranges[-1][1] - low) < ANGLE_STEP_DEG:
                ranges[-1] = (ranges[-1][0], high)
            else:
                ranges.append((low, high))
    if len(ranges) > 1 and clock.centres_deg is None and ranges[-1][1] - ranges[0][0] > WHOLE_TURN - ANGLE_STEP_DEG:
        low, _ = ranges.pop()
        ranges[0] = (low - WHOLE_TURN, ranges[0][1])
    return best, tuple(round((low + high) / 2, ANGLE_DIGITS) % WHOLE_TURN for low, high in ranges)


def _cells(passes: Sequence[Pass], clock: Clock) -> list[tuple[float, float]]:
    """Ranges of turns between which nothing changes, inside what the joint allows; a single turn is a range of no width."""
    if clock.centres_deg is not None and clock.play_deg == 0:
        return [(centre, centre) for centre in clock.centres_deg]
    if clock.centres_deg is None:
        windows = [(0.0, WHOLE_TURN)]
    else:
        windows = [(centre - clock.play_deg, centre + clock.play_deg) for centre in clock.centres_deg]
    cells: list[tuple[float, float]] = []
    for start, end in windows:
        cuts = {start, end}
        for each in passes:
            for edge in (each.low_deg, each.high_deg):
                for turned in (edge - WHOLE_TURN, edge, edge + WHOLE_TURN):
                    if start < turned < end:
                        cuts.add(turned)
        ordered = sorted(cuts)
        cells += [(a, b) for a, b in itertools.pairwise(ordered) if b - a > ANGLE_STEP_DEG]
    return cells


def _contains(each: Pass, turn: float) -> bool:
    reach = (each.high_deg - each.low_deg) / 2
    away = (turn - (each.low_deg + reach) + WHOLE_TURN / 2) % WHOLE_TURN - WHOLE_TURN / 2
    return abs(away) <= reach + ANGLE_STEP_DEG


def _distinct(pairs: Sequence[tuple[int, int]]) -> bool:
    return len({i for i, _ in pairs}) == len(pairs) == len({j for _, j in pairs})


def _matching(pairs: Sequence[tuple[int, int]], bolts: int) -> int:
    """The most bolts that can have a hole of their own."""
    return len(_matched(pairs, bolts))


def _matched(pairs: Sequence[tuple[int, int]], bolts: int) -> dict[int, int]:
    """Hole to bolt, for the most bolts that can have a hole of their own (augmenting paths)."""
    options: dict[int, list[int]] = {}
    for i, j in pairs:
        options.setdefault(i, []).append(j)
    taken: dict[int, int] = {}

    def place(i: int, seen: set[int]) -> bool:
        for j in options.get(i, ()):
            if j not in seen:
                seen.add(j)
                if j not in taken or place(taken[j], seen):
                    taken[j] = i
                    return True
        return False

    for i in range(bolts):
        place(i, set())
    return taken


def turned(hole: Hole, turn_deg: float) -> tuple[float, float]:
    """Where a hole's centre comes to, (x, y) mm, when its face is turned clockwise by so much."""
    cosine, sine = math.cos(math.radians(turn_deg)), math.sin(math.radians(turn_deg))
    return hole.x_mm * cosine + hole.y_mm * sine, hole.y_mm * cosine - hole.x_mm * sine


class Pair(NamedTuple):
    """A bolt and the hole it passes."""

    bolt: int
    hole: int
    offset_mm: float
    """Between their centres."""
    slack_mm: float
    """How much that may be."""


def pairs_at(
    bolts: Sequence[Hole], holes: Sequence[Hole], turn_deg: float, clearance_mm: float, extra_mm: float = 0.0
) -> list[Pair]:  # fmt: skip
    """The most bolts that have a hole of their own at one turn, near holes first."""
    places = [turned(hole, turn_deg) for hole in holes]
    near: list[Pair] = []
    for i, bolt in enumerate(bolts):
        for j, (x, y) in enumerate(places):
            offset, slack = math.hypot(x - bolt.x_mm, y - bolt.y_mm), slack_mm(bolt, holes[j], clearance_mm)
            if slack + extra_mm >= 0 and offset <= slack + extra_mm + ROUNDING_MM:
                near.append(Pair(i, j, offset, slack))
    near.sort(key=lambda pair: pair.offset_mm)
    if _distinct([pair[:2] for pair in near]):
        return sorted(near)
    found = {(pair.bolt, pair.hole): pair for pair in near}
    return sorted(found[i, j] for j, i in _matched(list(found), len(bolts)).items())


def _offsets(
    bolts: Sequence[Hole], holes: Sequence[Hole], turn: float, clearance_mm: float, *, complete: bool
) -> tuple[float, float, float]:
    """(worst offset of bolts that pass, worst lack of those that do not, least left to those that pass), by the nearest hole."""
    cosine, sine = math.cos(math.radians(turn)), math.sin(math.radians(turn))
    places = [(hole, hole.x_mm * cosine + hole.y_mm * sine, hole.y_mm * cosine - hole.x_mm * sine) for hole in holes]
    worst_offset = worst_gap = 0.0
    least_spare = math.inf
    for bolt in bolts:
        offset, nearest = min((math.hypot(x - bolt.x_mm, y - bolt.y_mm), i) for i, (_, x, y) in enumerate(places))
        spare = slack_mm(bolt, places[nearest][0], clearance_mm) - offset
        if spare >= -ROUNDING_MM or complete:
            worst_offset, least_spare = max(worst_offset, offset), min(least_spare, spare)
        else:
            worst_gap = max(worst_gap, -spare)
    return worst_offset, worst_gap, max(0.0, least_spare) if least_spare < math.inf else 0.0
