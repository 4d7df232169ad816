"""Whether two bolt faces go together, by geometry and not by name.

Faces mate under a rotation about the pilot, among the clockings a joint allows. Each bolt passes each hole within an interval of
angles; the sweep over the ends of these intervals finds the clocking at which most distinct bolts have distinct holes.
"""

from __future__ import annotations

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
    """The best clocking, clockwise."""
    clockings: tuple[float, ...]
    """The middle of every range of turns as good."""
    worst_offset_mm: float
    """Between the centres of the worst pair that lines up, at the best clocking."""
    least_gap_mm: float
    """How far the worst hole is from letting its bolt pass, where not all line up; 0 where they do."""

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


def read_clock(texts: Sequence[str]) -> Clock:
    """Allowed clockings as written in a kind: ``any``, or angles. Raises QuantityError for anything else."""
    if tuple(texts) == ("any",):
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
    """Intervals of turns (degrees, low within one turn of 0) at which bolts pass holes."""
    for i, bolt in enumerate(bolts):
        for j, hole in enumerate(holes):
            slack = slack_mm(bolt, hole, clearance_mm) + extra_mm + ROUNDING_MM
            if slack < 0 or abs(bolt.radius_mm - hole.radius_mm) > slack:
                continue
            product = 2 * bolt.radius_mm * hole.radius_mm
            if product == 0:
                yield _Pass(0.0, WHOLE_TURN, i, j)
                continue
            cosine = (bolt.radius_mm**2 + hole.radius_mm**2 - slack**2) / product
            half = math.degrees(math.acos(max(-1.0, min(1.0, cosine))))
            middle = (hole.angle_deg - bolt.angle_deg) % WHOLE_TURN
            yield _Pass(middle - half, middle + half, i, j)


def line_up(bolts: Sequence[Hole], holes: Sequence[Hole], clock: Clock, clearance_mm: float, extra_mm: float = 0.0) -> LineUp:
    """The best clocking of one face on another. ``extra_mm`` widens every hole, for readings that may be off by so much."""
    passes = list(_passes(bolts, holes, clearance_mm, extra_mm))
    best, ranges = 0, list[tuple[float, float]]()
    for low, high in _cells(passes, clock):
        turn = (low + high) / 2
        active = [(p.bolt, p.hole) for p in passes if _contains(p, turn)]
        count = len(active) if _distinct(active) else _matching(active, len(bolts))
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
    clockings = tuple(round((low + high) / 2, 9) % WHOLE_TURN for low, high in ranges)
    turn = clockings[0] if clockings else (clock.centres_deg or (0.0,))[0]
    offset, gap = _offsets(bolts, holes, turn, clearance_mm, complete=best == len(bolts) == len(holes))
    return LineUp(len(bolts), len(holes), best, turn, clockings, offset, gap)


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
) -> tuple[float, float]:
    """(worst offset among bolts that pass, worst lack among those that do not), each bolt with its nearest hole."""
    cosine, sine = math.cos(math.radians(turn)), math.sin(math.radians(turn))
    worst_offset = worst_gap = 0.0
    for bolt in bolts:
        x = bolt.x_mm * cosine + bolt.y_mm * sine
        y = bolt.y_mm * cosine - bolt.x_mm * sine
        nearest = min(holes, key=lambda hole: math.hypot(hole.x_mm - x, hole.y_mm - y))
        offset = math.hypot(nearest.x_mm - x, nearest.y_mm - y)
        lack = offset - slack_mm(bolt, nearest, clearance_mm)
        if lack <= ANGLE_STEP_DEG or complete:
            worst_offset = max(worst_offset, offset)
        else:
            worst_gap = max(worst_gap, lack)
    return worst_offset, worst_gap


def compare_patterns(a: Pattern, b: Pattern, joint: Joint) -> Finding:
    """Whether face ``a`` bolts to face ``b`` in a joint: holes, register, dowels and the depth a standard fixes with them."""
    count_a, count_b = (len(p.points) or p.holes for p in (a, b))
    if count_a and count_b and count_a != count_b:
        return Finding(DIFFERS, f"{count_a} holes against {count_b}")
    holes_a, holes_b = holes_of(a), holes_of(b)
    if holes_a is None or holes_b is None:
        lacking = a if holes_a is None else b
        what = "hole count" if lacking.holes is None and lacking.circle else "bolt circle"
        return Finding(NOT_KNOWN, f"the {what} of {named(lacking)} is not known")
    clock = read_clock(joint.clock)
    clearance = joint.clearance.value if joint.clearance else 0.0
    reading = _reading_mm(holes_a) + _reading_mm(holes_b)
    fixed = clock.centres_deg is not None
    clocking_known = not fixed or (angle_known(a) and angle_known(b))
    searched = clock if clocking_known else Clock(None)
    found = line_up(holes_a, holes_b, searched, clearance)
    if not found.complete:
        return _apart(a, b, found, searched, clearance, reading)
    if not clocking_known:
        lacking = b if angle_known(a) else a
        text = f"{found.line_up} holes on one circle; where they stand around it is not known for {named(lacking)}"
        return Finding(NOT_KNOWN, text)
    return _located(a, b, joint, found, reading)


def _located(a: Pattern, b: Pattern, joint: Joint, found: LineUp, reading_mm: float) -> Finding:
    """All holes line up: what of register, dowels and depth."""
    depths = [p.depth for p in (a, b)]
    if depths[0] and depths[1] and abs(depths[0].value - depths[1].value) > DEPTH_SLACK_MM:
        off = abs(depths[0].value - depths[1].value)
        return Finding(DIFFERS, f"the bolts line up, but the depth is {depths[0].text} against {depths[1].text}", gap_mm=off)
    register = compare_registers(a.pilot, b.pilot, joint.register.value if joint.register else None)
    if register.state == DIFFERS:
        return register
    dowels_a, dowels_b = dowels_of(a), dowels_of(b)
    dowel_note = ""
    if dowels_a and dowels_b:
        bare = [hole._replace(hole_mm=None, thread_mm=None) for hole in dowels_a]
        bare_b = [hole._replace(hole_mm=None, thread_mm=None) for hole in dowels_b]
        dowels = line_up(bare, bare_b, Clock((found.clock_deg,)), 2 * DOWEL_SLACK_MM)
        if not dowels.complete:
            text = f"all {found.line_up} bolts line up, but {dowels.line_up} of {max(dowels.bolts, dowels.holes)} dowels"
            return Finding(DIFFERS, text, gap_mm=dowels.least_gap_mm)
        dowel_note = "dowels too"
    elif dowels_a or dowels_b:
        dowel_note = "dowels on one side only"
    turn = f" turned {found.clock_deg:.4g}°" if found.clock_deg > ANGLE_STEP_DEG else ""
    offset = f", {show(found.worst_offset_mm, 'length')} off at worst" if found.worst_offset_mm > 0.005 else ""  # noqa: PLR2004
    text = joined(f"{found.line_up} of {found.bolts} holes line up{turn}{offset}", register.text, dowel_note)
    located = register.state == AGREES or (dowels_a and dowels_b)
    weak = [_weak(p) for p in (a, b)]
    caveat = joined(
        "" if located or not joint.register else "nothing known locates it",
        f"readings good to ±{reading_mm:.2g} mm" if reading_mm > 0.05 else "",  # noqa: PLR2004 - finer than any bolt hole
        *dict.fromkeys(weak),
    )
    return Finding(AGREES, text, caveat)


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
