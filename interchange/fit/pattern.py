"""Whether two bolt faces go together, by geometry and not by name.

Faces mate under a rotation about the pilot, among the clockings a joint allows. Each bolt passes each hole within an interval of
angles; the sweep over the ends of these intervals finds the clocking at which most distinct bolts have distinct holes.
"""

from __future__ import annotations

import dataclasses
import functools
import itertools
import math
import re
from collections.abc import Iterator, Sequence
from typing import NamedTuple

from interchange.catalog.geometry import Hole, angle_known, dowels_of, holes_of
from interchange.catalog.model import Joint, Pattern
from interchange.fit.finding import AGREES, DIFFERS, NOT_KNOWN, Finding, joined
from interchange.fit.register import compare_registers
from interchange.quantity import read_quantity, show

WHOLE_TURN = 360.0
DOWEL_SLACK_MM = 0.25  # a dowel in a reamed hole stands still: a judgement, not a standard's figure
DEPTH_SLACK_MM = 1.0  # two printings of one depth differ by 0.3 mm; two sizes by 8 mm and more
ANGLE_STEP_DEG = 1e-9
ANGLE_DIGITS = 9
TURN_WORTH_SAYING_DEG = 0.05
OFFSET_WORTH_SAYING_MM = 0.05
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


class _Pass(NamedTuple):
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
    if bolt.thread_mm is not None and hole.thread_mm is not None:
        return (clearance_mm - abs(bolt.thread_mm - hole.thread_mm)) / 2
    threads = [each.thread_mm for each in (bolt, hole) if each.thread_mm is not None]
    clears = [each.hole_mm for each in (bolt, hole) if each.hole_mm is not None]
    if threads and clears:
        return (clears[0] - threads[0]) / 2
    if len(clears) == 2:  # noqa: PLR2004 - both faces clear: the bolt suits the smaller hole
        thickness = min(clears) - clearance_mm
        return sum(clear - thickness for clear in clears) / 2
    return clearance_mm / 2


def _passes(bolts: Sequence[Hole], holes: Sequence[Hole], clearance_mm: float, extra_mm: float) -> Iterator[_Pass]:
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
                yield _Pass(0.0, WHOLE_TURN, i, j)
                continue
            half = math.degrees(math.acos(min(1.0, cosine)))
            middle = (bolt_angle - angle) % WHOLE_TURN
            yield _Pass(middle - half, middle + half, i, j)


def line_up(bolts: Sequence[Hole], holes: Sequence[Hole], clock: Clock, clearance_mm: float, extra_mm: float = 0.0) -> LineUp:
    """The best clocking of one face on another. ``extra_mm`` widens every hole, for readings that may be off by so much."""
    passes = list(_passes(bolts, holes, clearance_mm, extra_mm))
    best, clockings = _best_turns(passes, clock, len(bolts))
    turn = clockings[0] if clockings else (clock.centres_deg or (0.0,))[0]
    complete = best == len(bolts) == len(holes)
    return LineUp(len(bolts), len(holes), best, turn, clockings, *_offsets(bolts, holes, turn, clearance_mm, complete=complete))


def _best_turns(passes: Sequence[_Pass], clock: Clock, bolts: int) -> tuple[int, tuple[float, ...]]:
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


def _cells(passes: Sequence[_Pass], clock: Clock) -> list[tuple[float, float]]:
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


def _contains(each: _Pass, turn: float) -> bool:
    reach = (each.high_deg - each.low_deg) / 2
    away = (turn - (each.low_deg + reach) + WHOLE_TURN / 2) % WHOLE_TURN - WHOLE_TURN / 2
    return abs(away) <= reach + ANGLE_STEP_DEG


def _distinct(pairs: Sequence[tuple[int, int]]) -> bool:
    return len({i for i, _ in pairs}) == len(pairs) == len({j for _, j in pairs})


def _matching(pairs: Sequence[tuple[int, int]], bolts: int) -> int:
    """The most bolts that can have a hole of their own (augmenting paths)."""
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

    return sum(place(i, set()) for i in range(bolts))


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


def compare_patterns(a: Pattern, b: Pattern, joint: Joint) -> Finding:
    """Whether face ``a`` bolts to face ``b`` in a joint: holes, register, dowels and the depth a standard fixes with them.

    Where sources differ on a bolt circle, all of them have to say the same.
    """
    findings = [_compare(one, other, joint) for one in _by_source(a) for other in _by_source(b)]
    if len({finding.state for finding in findings}) > 1:
        return Finding(NOT_KNOWN, findings[0].text, joined(*dict.fromkeys(map(_weak, (a, b)))))
    return findings[0]


def _by_source(pattern: Pattern) -> list[Pattern]:
    """A face with the bolt circle as each of its sources has it."""
    circle = pattern.circle
    if circle is None or not circle.others:
        return [pattern]
    return [pattern, *(dataclasses.replace(pattern, circle=other) for other in circle.others)]


def _compare(a: Pattern, b: Pattern, joint: Joint) -> Finding:
    """One reading of each face against the other."""
    count_a, count_b = (len(p.points) or p.holes for p in (a, b))
    if count_a and count_b and count_a != count_b:
        return Finding(DIFFERS, f"{count_a} holes against {count_b}")
    clearance = joint.clearance.value if joint.clearance else 0.0
    holes_a, holes_b = holes_of(a), holes_of(b)
    if holes_a is None or holes_b is None:
        return _half_known(a if holes_a is None else b, (a, b), clearance)
    clock = read_clock(joint.clock)
    reading = _reading_mm(holes_a) + _reading_mm(holes_b)
    fixed = clock.centres_deg is not None
    clocking_known = not fixed or (angle_known(a) and angle_known(b))
    searched = clock if clocking_known else Clock(None)
    found = line_up(holes_a, holes_b, searched, clearance)
    if not found.complete:
        return _apart(a, b, found, searched, clearance, reading)
    located = _located(a, b, joint, found, searched, reading)
    if clocking_known or located.state == DIFFERS:
        return located
    lacking = b if angle_known(a) else a
    text = f"{found.line_up} holes on one circle; where they stand around it is not known for {named(lacking)}"
    return Finding(NOT_KNOWN, text)


def _half_known(lacking: Pattern, both: tuple[Pattern, Pattern], clearance_mm: float) -> Finding:
    """One face is not fully noted: two circles too far apart for any bolt settle it all the same."""
    one, other = (p.circle for p in both)
    if one and other:
        apart = max(one.low - other.high, other.low - one.high) / 2
        sizes = [p.hole.value for p in both if p.hole] + [p.thread.major_mm for p in both if p.thread]
        most = max(clearance_mm, max(sizes) - min(sizes) + clearance_mm if sizes else 0.0)
        if apart > most:
            return Finding(DIFFERS, f"bolt circles {one.text} against {other.text}", gap_mm=apart)
    what = "hole count" if lacking.holes is None and lacking.circle else "bolt circle"
    return Finding(NOT_KNOWN, f"the {what} of {named(lacking)} is not known")


def _located(a: Pattern, b: Pattern, joint: Joint, found: LineUp, clock: Clock, reading_mm: float) -> Finding:
    """All holes line up: what of register, dowels and depth."""
    depths = [p.depth for p in (a, b)]
    if depths[0] and depths[1] and abs(depths[0].value - depths[1].value) > DEPTH_SLACK_MM:
        off = abs(depths[0].value - depths[1].value)
        return Finding(DIFFERS, f"the bolts line up, but the depth is {depths[0].text} against {depths[1].text}", gap_mm=off)
    register = compare_registers(a.pilot, b.pilot, joint.register.value if joint.register else None)
    if register.state == DIFFERS:
        return register
    dowels_a, dowels_b = dowels_of(a), dowels_of(b)
    turn_deg, dowel_note = found.clock_deg, ""
    if dowels_a and dowels_b:
        most = max(len(dowels_a), len(dowels_b))
        fitting, turns = _with_dowels(a, b, joint, clock)
        if len(dowels_a) != len(dowels_b) or fitting < found.line_up + most:
            return Finding(DIFFERS, f"all {found.line_up} bolts line up, but {max(fitting - found.line_up, 0)} of {most} dowels")
        turn_deg, dowel_note = turns[0], "dowels too"
    elif dowels_a or dowels_b:
        dowel_note = "dowels on one side only"
    turn = f" turned {turn_deg:.4g}°" if TURN_WORTH_SAYING_DEG < turn_deg < WHOLE_TURN - TURN_WORTH_SAYING_DEG else ""
    offset = f", {show(found.worst_offset_mm, 'length')} off at worst" if found.worst_offset_mm > OFFSET_WORTH_SAYING_MM else ""
    text = joined(f"{found.line_up} of {found.bolts} holes line up{turn}{offset}", register.text, dowel_note)
    located = register.state == AGREES or (dowels_a and dowels_b)
    unlocated = "" if located or not joint.register else "nothing known locates it"
    if a.id and a.id == b.id:  # one face on both sides, whatever its figures are good for
        return Finding(AGREES, text, unlocated)
    coarse = reading_mm > max(found.spare_mm, ROUNDING_MM)
    reading = f"the readings are good to ±{reading_mm:.2g} mm, and the holes leave {found.spare_mm:.2g} mm" if coarse else ""
    return Finding(AGREES, text, joined(unlocated, register.caveat, reading, *dict.fromkeys(map(_weak, (a, b)))))


def _with_dowels(a: Pattern, b: Pattern, joint: Joint, clock: Clock) -> tuple[int, tuple[float, ...]]:
    """(bolts and dowels that fit at once, the turns at which they do): the dowels may settle which of several clockings it is."""
    holes_a, holes_b = holes_of(a) or (), holes_of(b) or ()
    clearance = joint.clearance.value if joint.clearance else 0.0
    passes = list(_passes(holes_a, holes_b, clearance, 0.0))
    pins_a, pins_b = dowels_of(a), dowels_of(b)
    for each in _passes(list(map(_bare, pins_a)), list(map(_bare, pins_b)), 2 * DOWEL_SLACK_MM, 0.0):
        one, other = pins_a[each.bolt].hole_mm, pins_b[each.hole].hole_mm
        if one is None or other is None or abs(one - other) <= DOWEL_SLACK_MM:
            passes.append(each._replace(bolt=each.bolt + len(holes_a), hole=each.hole + len(holes_b)))
    return _best_turns(passes, clock, len(holes_a) + len(pins_a))


def _bare(hole: Hole) -> Hole:
    """A place alone, without a size."""
    return hole._replace(hole_mm=None, thread_mm=None)


def _apart(a: Pattern, b: Pattern, found: LineUp, clock: Clock, clearance: float, reading_mm: float) -> Finding:
    """Not all holes line up: by how much, and whether the readings are good enough to say so."""
    holes_a, holes_b = holes_of(a) or (), holes_of(b) or ()
    if reading_mm > 0 and line_up(holes_a, holes_b, clock, clearance, reading_mm).complete:
        text = f"out by {found.least_gap_mm:.2f} mm, but the readings are only good to ±{reading_mm:.2g} mm"
        return Finding(NOT_KNOWN, text, gap_mm=found.least_gap_mm)
    circles = [p.circle for p in (a, b)]
    apart = f"bolt circles {circles[0].text} against {circles[1].text}, " if circles[0] and circles[1] else ""
    if found.line_up:
        return Finding(DIFFERS, f"{apart}{found.line_up} of {found.bolts} holes line up", gap_mm=found.least_gap_mm)
    free = line_up(holes_a, holes_b, Clock(None), clearance) if clock.centres_deg is not None else found
    if free.complete:
        text = f"all holes line up turned {free.clock_deg:.4g}°, but this joint does not turn"
        return Finding(DIFFERS, text, gap_mm=found.least_gap_mm)
    return Finding(DIFFERS, f"{apart}no hole lines up: {found.least_gap_mm:.2f} mm out", gap_mm=found.least_gap_mm)


def _reading_mm(holes: Sequence[Hole]) -> float:
    """How far a hole's centre may be from where it was read; 0 where no reading error is stated."""
    return max((hole.tolerance_mm or 0.0 for hole in holes), default=0.0)


def _weak(pattern: Pattern) -> str:
    """The first of a pattern's figures that does not stand by itself."""
    points = (("points", point.x) for point in pattern.points[:1])
    figures = (("bolt circle", pattern.circle), ("first hole", pattern.first_hole), ("hole size", pattern.hole), *points)
    return next((f"{what}: {figure.caveat}" for what, figure in figures if figure and figure.caveat), "")


PLACE_SEPARATOR = re.compile(r"[:.]")


def named(pattern: Pattern) -> str:
    """What to call a pattern in a sentence."""
    return pattern.title or " ".join(PLACE_SEPARATOR.split(pattern.id))
