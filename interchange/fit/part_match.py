"""What lines up all the same where two faces do not mate, and what those bolts would carry.

A reading aid, not a fit: it says how far off two faces are in the shop's own words, and which bolts a plate need not move.
"""

from __future__ import annotations

from typing import NamedTuple

from interchange.catalog.geometry import Hole, angle_known, holes_of
from interchange.catalog.model import Bolts, Joint, Pattern
from interchange.fit.bolts import PRELOAD_SHARE, friction_carried_nm, is_metric, preload_n
from interchange.fit.clocking import Clock, LineUp, Pair, line_up, pairs_at, read_clock
from interchange.fit.finding import joined
from interchange.quantity import Thread, read_thread, show

SIZE_SLACK_MM = 0.3  # a clear hole less its clearance against a bolt's nominal size: half the step between inch and metric sizes
# Coarse threads of the sizes bolts.py has printed areas for: what a hole without a thread is taken to want.
COARSE = tuple(
    read_thread(text)
    for text in (
        "5/16-18", "3/8-16", "7/16-14", "1/2-13", "9/16-12", "5/8-11", "3/4-10", "7/8-9", "1-8",
        "M8x1.25", "M10x1.5", "M12x1.75", "M14x2", "M16x2", "M18x2.5", "M20x2.5", "M22x2.5", "M24x3",
    )
)  # fmt: skip
MOST_CLOCKINGS = 4  # more are not listed one by one


class PartialLineUp(NamedTuple):
    """What lines up where not everything does."""

    found: LineUp
    pairs: tuple[Pair, ...]
    """The bolts that pass, at the best clocking."""
    threads: tuple[str, ...]
    """What the lined-up bolts are taken to be."""
    carried_nm: float | None
    """The torque they carry by friction; None where it is not known."""
    needed_nm: float | None
    """The torque to be carried; None where it is not known."""
    basis: str
    """What the carried torque rests on, or why it is not known."""

    @property
    def words(self) -> str:
        """What lines up and what it carries, in a sentence."""
        found = self.found
        most = max(found.bolts, found.holes)
        if not found.line_up:
            return f"none of {most} holes lines up"
        where = f" turned {found.clock_deg:.4g}°" if found.clock_deg else ""
        others = [f"{clock:.4g}°" for clock in found.clockings[1:]]
        more = f", or {', '.join(others[:MOST_CLOCKINGS])}" if others else ""
        more += f" and {len(others) - MOST_CLOCKINGS} more" if len(others) > MOST_CLOCKINGS else ""
        worst = max(self.pairs, key=lambda pair: pair.offset_mm - pair.slack_mm)
        off = f"{worst.offset_mm:.2f} mm off at worst of {worst.slack_mm:.2f} mm the holes leave"
        return joined(f"{found.line_up} of {most} line up{where}{more}, {off}", self._carries())

    def _carries(self) -> str:
        if self.carried_nm is None:
            return f"what they carry is not known: {self.basis}"
        text = f"they carry {show(self.carried_nm, 'torque')} by friction ({self.basis})"
        if self.needed_nm is None:
            return f"{text}; the torque needed is not known"
        enough = "as much as" if self.carried_nm >= self.needed_nm else "less than"
        return f"{text}, {enough} the {show(self.needed_nm, 'torque')} needed"


def partial_line_up(a: Pattern, b: Pattern, joint: Joint, needed_nm: float | None = None) -> PartialLineUp | None:
    """What of two faces lines up, whatever their hole counts, circles and sizes; None where either is not fully known.

    Where a joint does not turn but the angle of a face is not known, every turn is tried.
    """
    holes_a, holes_b = holes_of(a), holes_of(b)
    if holes_a is None or holes_b is None:
        return None
    clock = read_clock(joint.clock)
    if not (angle_known(a) and angle_known(b)):
        clock = Clock(None)
    clearance = joint.clearance.value if joint.clearance else 0.0
    found = line_up(holes_a, holes_b, clock, clearance)
    pairs = tuple(pairs_at(holes_a, holes_b, found.clock_deg, clearance)) if found.line_up else ()
    threads = [_thread_of(a, holes_a[pair.bolt], pair.bolt, b, holes_b[pair.hole], pair.hole, clearance) for pair in pairs]
    radii = [min(holes_a[pair.bolt].radius_mm, holes_b[pair.hole].radius_mm) for pair in pairs]
    carried, basis = _carried(joint.bolts, threads, radii)
    known = tuple(dict.fromkeys(thread.text for thread in threads if thread))
    return PartialLineUp(found, pairs, known, carried, needed_nm, basis)


def _thread_of(a: Pattern, one: Hole, i: int, b: Pattern, other: Hole, j: int, clearance_mm: float) -> Thread | None:
    """The bolt of a pair: the thread either face is tapped with, or else the coarse one its clear hole is for."""
    for pattern, index in ((a, i), (b, j)):
        point = pattern.points[index] if pattern.points else None
        if point and (point.thread or point.hole):
            if point.thread:
                return point.thread
        elif pattern.thread:
            return pattern.thread
    clear = [hole.hole_mm for hole in (one, other) if hole.hole_mm is not None]
    if not clear:
        return None
    size = min(clear) - clearance_mm
    nearest = min(COARSE, key=lambda thread: abs(thread.major_mm - size))
    return nearest if abs(nearest.major_mm - size) <= SIZE_SLACK_MM else None


def _carried(bolts: Bolts | None, threads: list[Thread | None], radii_mm: list[float]) -> tuple[float | None, str]:
    """(torque carried by friction, what it rests on); None with the reason where it is not known."""
    if bolts is None:
        return None, "no grade, friction and safety factor are written for this joint"
    if not bolts.friction:
        return None, "the friction of this joint is written as none"
    if None in threads:
        return None, "the bolts' size is not"
    total, used = 0.0, dict[str, str]()
    for thread, radius in zip(threads, radii_mm, strict=True):
        forces = {grade: preload_n(thread, grade) for grade in bolts.grades} if thread else {}
        held = [(force, grade) for grade, force in forces.items() if force is not None]
        if thread is None or not held:
            size = thread.text if thread else ""
            return None, f"{size} of grade {' or '.join(bolts.grades)} is not in the tables"
        force, grade = min(held)
        used[thread.text] = f"{thread.text} {'class' if is_metric(thread) else 'grade'} {grade}"
        total += friction_carried_nm(force, [radius], friction=bolts.friction, safety=bolts.safety)
    sizes = " and ".join(used.values())
    taken = f"{sizes}, preload {PRELOAD_SHARE:.0%} of proof, friction {bolts.friction:g}, safety {bolts.safety:g}"
    return total, joined(taken, str(bolts.origin) if bolts.origin.basis else "")
