"""Whether two bolt faces go together, by geometry and not by name.

Faces mate under a rotation about the pilot, among the clockings a joint allows: where all bolts have their holes, and register,
dowels and depth agree. What lines up where they do not mate is said too, and how likely they mate where the readings are too
coarse to say.
"""

from __future__ import annotations

import dataclasses
import re
from collections.abc import Sequence

from interchange.catalog.geometry import Hole, angle_known, dowels_of, holes_of
from interchange.catalog.model import Joint, Pattern
from interchange.fit.clocking import ROUNDING_MM, WHOLE_TURN, Clock, LineUp, best_turns, line_up, pairs_at, passes_of, read_clock
from interchange.fit.finding import AGREES, DIFFERS, NOT_KNOWN, Finding, joined
from interchange.fit.part_match import PartialLineUp, partial_line_up
from interchange.fit.reading_odds import chance_of_mating
from interchange.fit.register import compare_registers
from interchange.quantity import show

DOWEL_SLACK_MM = 0.25  # a dowel in a reamed hole stands still: a judgement, not a standard's figure
DEPTH_SLACK_MM = 1.0  # two printings of one depth differ by 0.3 mm; two sizes by 8 mm and more
TURN_WORTH_SAYING_DEG = 0.05
OFFSET_WORTH_SAYING_MM = 0.05
NOT_LOCATED = "not located: nothing known centres one face on the other"


def compare_patterns(a: Pattern, b: Pattern, joint: Joint, needed_nm: float | None = None, *, explain: bool = True) -> Finding:
    """Whether face ``a`` bolts to face ``b`` in a joint: holes, register, dowels and the depth a standard fixes with them.

    Where sources differ on a bolt circle, all of them have to say the same. ``needed_nm`` is the torque the joint has to carry.
    Not to ``explain`` leaves out what lines up all the same where faces do not mate.
    """
    findings = [_compare(one, other, joint, needed_nm, explain=explain) for one in _by_source(a) for other in _by_source(b)]
    if len({finding.state for finding in findings}) > 1:
        return Finding(NOT_KNOWN, findings[0].text, joined(*dict.fromkeys(map(_weak, (a, b)))))
    chances = [finding.chance for finding in findings if finding.chance is not None]
    return findings[0]._replace(chance=min(chances) if len(chances) == len(findings) else None)


def _by_source(pattern: Pattern) -> list[Pattern]:
    """A face with the bolt circle as each of its sources has it."""
    circle = pattern.circle
    if circle is None or not circle.others:
        return [pattern]
    return [pattern, *(dataclasses.replace(pattern, circle=other) for other in circle.others)]


def _compare(a: Pattern, b: Pattern, joint: Joint, needed_nm: float | None, *, explain: bool) -> Finding:
    """One reading of each face against the other."""
    count_a, count_b = (len(p.points) or p.holes for p in (a, b))
    if count_a and count_b and count_a != count_b and not explain:
        return Finding(DIFFERS, "")
    if count_a and count_b and count_a != count_b:
        partial = partial_line_up(a, b, joint, needed_nm)
        also = f", of which {partial.found.line_up} line up" if partial and partial.found.line_up else ""
        return _with_partial(Finding(DIFFERS, f"{count_a} holes against {count_b}{also}"), a, b, joint, partial)
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
        apart = _apart(a, b, found, searched, joint, reading, explain=explain)
        if not explain:
            return apart
        if apart.state == DIFFERS:
            return _with_partial(apart, a, b, joint, partial_line_up(a, b, joint, needed_nm))
        return apart if clocking_known else apart._replace(chance=None)  # where the holes stand is in doubt as well
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
    settled = _depth_or_register(a, b, joint)
    if settled.state == DIFFERS:
        return settled
    register = settled
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
    unlocated = "" if located else _not_located(a, b, joint)
    if a.id and a.id == b.id:  # one face on both sides, whatever its figures are good for
        return Finding(AGREES, text, unlocated)
    coarse = reading_mm > max(found.spare_mm, ROUNDING_MM)
    reading = f"the readings are good to ±{reading_mm:.2g} mm, and the holes leave {found.spare_mm:.2g} mm" if coarse else ""
    return Finding(AGREES, text, joined(unlocated, register.caveat, reading, *dict.fromkeys(map(_weak, (a, b)))))


def _depth_or_register(a: Pattern, b: Pattern, joint: Joint) -> Finding:
    """Whether the depths differ; if not, what the registers say."""
    depths = [p.depth for p in (a, b)]
    if depths[0] and depths[1] and abs(depths[0].value - depths[1].value) > DEPTH_SLACK_MM:
        off = abs(depths[0].value - depths[1].value)
        return Finding(DIFFERS, f"the bolts line up, but the depth is {depths[0].text} against {depths[1].text}", gap_mm=off)
    return compare_registers(a.pilot, b.pilot, joint.register.value if joint.register else None)


def _not_located(a: Pattern, b: Pattern, joint: Joint) -> str:
    """What to say where neither register nor dowels are known to hold one face on the other; nothing where none is wanted."""
    if not joint.register:
        return ""
    has_none = not any(p.pilot or p.dowels for p in (a, b))
    return NOT_LOCATED if has_none else "nothing known on both faces locates it"


def _with_partial(finding: Finding, a: Pattern, b: Pattern, joint: Joint, partial: PartialLineUp | None) -> Finding:
    """What differs, with what lines up all the same and what that carries: for whoever makes the plate, and not a fit."""
    if partial is None or not partial.found.line_up:
        return finding
    has_none = not any(p.pilot or p.dowels for p in (a, b))
    caveat = joined(finding.caveat, NOT_LOCATED if has_none and joint.register else "", f"not a fit, but {partial.words}")
    return finding._replace(caveat=caveat, carried_nm=partial.carried_nm)


def _with_dowels(a: Pattern, b: Pattern, joint: Joint, clock: Clock) -> tuple[int, tuple[float, ...]]:
    """(bolts and dowels that fit at once, the turns at which they do): the dowels may settle which of several clockings it is."""
    holes_a, holes_b = holes_of(a) or (), holes_of(b) or ()
    clearance = joint.clearance.value if joint.clearance else 0.0
    passes = list(passes_of(holes_a, holes_b, clearance, 0.0))
    pins_a, pins_b = dowels_of(a), dowels_of(b)
    for each in passes_of(list(map(_bare, pins_a)), list(map(_bare, pins_b)), 2 * DOWEL_SLACK_MM, 0.0):
        one, other = pins_a[each.bolt].hole_mm, pins_b[each.hole].hole_mm
        if one is None or other is None or abs(one - other) <= DOWEL_SLACK_MM:
            passes.append(each._replace(bolt=each.bolt + len(holes_a), hole=each.hole + len(holes_b)))
    return best_turns(passes, clock, len(holes_a) + len(pins_a))


def _bare(hole: Hole) -> Hole:
    """A place alone, without a size."""
    return hole._replace(hole_mm=None, thread_mm=None)


def _apart(a: Pattern, b: Pattern, found: LineUp, clock: Clock, joint: Joint, reading_mm: float, *, explain: bool) -> Finding:
    """Not all holes line up: by how much, and whether the readings are good enough to say so."""
    holes_a, holes_b = holes_of(a) or (), holes_of(b) or ()
    clearance = joint.clearance.value if joint.clearance else 0.0
    widened = line_up(holes_a, holes_b, clock, clearance, reading_mm) if reading_mm > 0 else found
    if widened.complete:
        settled = _depth_or_register(a, b, joint)
        if settled.state == DIFFERS:
            return settled
        pairs = pairs_at(holes_a, holes_b, widened.clock_deg, clearance, reading_mm)
        gap, play = max(pair.offset_mm - pair.slack_mm for pair in pairs), min(pair.slack_mm for pair in pairs)
        text = f"out by {gap:.2f} mm, but the readings are only good to ±{reading_mm:.2g} mm"
        chance = chance_of_mating(holes_a, holes_b, widened, clearance, (not a.points, not b.points))
        basis = f"by the reading: ±{reading_mm:.2g} mm against {play:.2g} mm of play, ± taken as two standard deviations"
        least = "at least so much, hole by hole" if a.points or b.points else ""
        return Finding(NOT_KNOWN, text, gap_mm=gap, chance=chance, chance_basis=joined(basis, least))
    if not explain:
        return Finding(DIFFERS, "")
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
