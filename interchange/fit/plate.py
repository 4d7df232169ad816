"""Whether one plate can carry two faces that do not mate, and what it comes to.

From one side bolts go through the plate into the first part, their heads sunk; on the other the second part is bolted into
threads in the plate. A face written as tapped takes the plate's bolts; one written as clear has its own, into the plate. A second
face tapped like the first, or with a bore like it, is written as what it mates with, as the standards print it: it is clear, with
a spigot. What matters is how far the second part is turned on the first, among the clockings the joint allows.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import NamedTuple

from interchange.catalog.geometry import angle_known, dowels_of, holes_of
from interchange.catalog.model import Joint, Length, Pattern
from interchange.catalog.things import PlateLimits
from interchange.fit.clocking import Clock, read_clock
from interchange.fit.drilling import ROUNDING, Drilled, Range, best_turn, drill, nearest_holes
from interchange.fit.finding import joined
from interchange.fit.pattern import named


class PlateDesign(NamedTuple):
    """One plate for two faces."""

    possible: bool | None
    """None where too little is known to say."""
    reason: str = ""
    """Why it is not possible, or what is not known."""
    clock_deg: float = 0.0
    """How far the second part is turned clockwise on the first."""
    least_land_mm: float = math.inf
    """Between the edges of the nearest two holes."""
    thick_mm: Range | None = None
    """(least, most) thickness: least by threads and sunk heads, most by what the remedy makes."""
    shared: int = 0
    """Bolts that go right through both parts, because their holes line up."""
    outside_mm: float = 0.0
    """The least outside diameter."""
    opening_mm: float = 0.0
    """The largest round opening that leaves the holes their edge."""
    pilots: str = ""
    material: str = ""
    caveats: str = ""

    @property
    def words(self) -> str:
        """The design in a sentence, or why there is none."""
        if not self.possible or self.thick_mm is None:
            return self.reason
        turn = f", second part turned {self.clock_deg:.4g}°" if self.clock_deg else ""
        through = f", {self.shared} bolts right through" if self.shared else ""
        low, high = self.thick_mm
        made = f"plate of {self.material}, {low:.3g} to {high:.3g} mm thick, {self.outside_mm:.0f} mm across{turn}{through}"
        land = f"{self.least_land_mm:.1f} mm between the nearest holes" if self.least_land_mm < math.inf else ""
        return joined(made, land, self.pilots, self.caveats)


def design_plate(a: Pattern, b: Pattern, joint: Joint, limits: PlateLimits, makes_thick: Length | None) -> PlateDesign:
    """The plate that joins face ``a`` to face ``b``, at the allowed clocking that leaves most land; or why there is none."""
    one, other = holes_of(a), holes_of(b)
    if one is None or other is None:
        return PlateDesign(None, f"the holes of {named(a if one is None else b)} are not all known")
    if makes_thick is None or joint.clearance is None:
        return PlateDesign(None, f"how {'thick it may be' if makes_thick is None else 'wide its holes are'} is not stated")
    holes = drill(a, one, b, other, joint.clearance.value, limits)
    if isinstance(holes, str):
        return PlateDesign(None, holes)
    ours, theirs = holes
    clock = read_clock(joint.clock)
    known = clock.centres_deg is None or (angle_known(a) and angle_known(b))
    turn = best_turn(ours, theirs, clock if known else Clock(None), joint.clearance.value)
    land, nearest, shared = nearest_holes(ours, theirs, turn, joint.clearance.value)
    everything, recesses = (*ours, *theirs), recesses_of(a, b)
    crowded, reading = _too_close(land, nearest, limits), _reading_mm(a, b)
    if crowded and land + reading >= limits.land.value:
        return PlateDesign(None, f"{crowded}; the readings are only good to ±{reading:.2g} mm", turn, land)
    fault = crowded or _breaks_in(everything, recesses, limits)
    alone = [each for i, each in enumerate(ours) if i not in {one for one, _ in shared}]
    alone += [each for j, each in enumerate(theirs) if j not in {other for _, other in shared}]
    thick = _thickness(alone, recesses, limits, makes_thick)
    if not fault and thick[0] > thick[1] + ROUNDING:
        fault = f"the bolts want {thick[0]:.1f} mm of plate, and it is made at most {thick[1]:.3g} mm thick"
    if fault:
        return PlateDesign(False, fault, turn, land)
    if not known:
        lacking = named(b if angle_known(a) else a)
        return PlateDesign(None, f"where the holes of {lacking} stand around their circle is not known")
    rims = [each.place.radius_mm + limits.edge * each.bolt_mm for each in everything]
    flanges = [pattern.flange.value / 2 for pattern in (a, b) if pattern.flange]
    return PlateDesign(
        True,
        clock_deg=turn,
        least_land_mm=land,
        thick_mm=thick,
        shared=len(shared),
        outside_mm=2 * max(*rims, *flanges),
        opening_mm=max(0.0, 2 * min(each.place.radius_mm - limits.edge * each.bolt_mm for each in everything)),
        pilots=_pilots(a, b),
        material=limits.material,
        caveats=_caveats(a, b, land, limits, recesses, everything),
    )


def _too_close(land_mm: float, nearest: tuple[str, str], limits: PlateLimits) -> str:
    """Why two holes are too close; nothing where they are not."""
    if land_mm >= limits.land.value - ROUNDING:
        return ""
    how = f"leave {land_mm:.1f} mm between them" if land_mm >= 0 else f"run into each other by {-land_mm:.1f} mm"
    return f"{nearest[0]} and {nearest[1]} {how} at best, {limits.land.text} is wanted"


class Recess(NamedTuple):
    """A bore in the plate that takes a part's spigot."""

    radius_mm: float
    depth_mm: float | None
    text: str
    """Its size as written."""
    of: str


def recesses_of(a: Pattern, b: Pattern) -> list[Recess]:
    """The bores in the plate: one for each spigot, and for a second face that is written with the bore of what it mates with."""
    found: list[Recess] = []
    spigot_a = a.pilot.spigot if a.pilot else None
    spigot_b = (b.pilot.spigot or (None if spigot_a else b.pilot.bore)) if b.pilot else None
    for pattern, spigot in ((a, spigot_a), (b, spigot_b)):
        if spigot and pattern.pilot:
            depth = pattern.pilot.depth.value if pattern.pilot.depth else None
            found.append(Recess(spigot.value / 2, depth, spigot.text, named(pattern)))
    return found


def _breaks_in(drilled: Sequence[Drilled], recesses: Sequence[Recess], limits: PlateLimits) -> str:
    """Which hole stands on the edge of a bore, neither clear of it nor wholly inside; nothing where none does."""
    for recess in recesses:
        for each in drilled:
            out, wanted = each.place.radius_mm - recess.radius_mm, limits.edge * each.bolt_mm
            if -each.width_mm / 2 < out < wanted - ROUNDING:
                bore = f"the {recess.text} bore for {recess.of}"
                return f"{each.name} stands {abs(out):.1f} mm from the edge of {bore}, {wanted:.1f} mm is wanted"
    return ""


def _sunk_in(each: Drilled, recesses: Sequence[Recess]) -> list[Recess]:
    return [recess for recess in recesses if each.place.radius_mm < recess.radius_mm]


def _thickness(drilled: Sequence[Drilled], recesses: Sequence[Recess], limits: PlateLimits, makes_thick: Length) -> Range:
    """(least, most): thread for the tapped holes, head and floor for the sunk ones, and the recess they stand in."""
    least = makes_thick.low
    for each in drilled:
        wanted = limits.engagement if each.tapped else limits.head_depth + limits.floor
        taken = sum(recess.depth_mm or 0.0 for recess in _sunk_in(each, recesses))
        least = max(least, wanted * each.bolt_mm + taken)
    return least, makes_thick.high


def _pilots(a: Pattern, b: Pattern) -> str:
    """What centres the plate on either part."""
    if a.pilot and a.pilot.bore:
        first = f"a {a.pilot.bore.text} spigot into {named(a)}"
    elif a.pilot and a.pilot.spigot:
        first = f"a {a.pilot.spigot.text} bore for {named(a)}"
    else:
        first = f"dowels of {named(a)}" if dowels_of(a) else f"nothing known centres it on {named(a)}"
    recess = next((each for each in recesses_of(a, b) if each.of == named(b)), None)
    if recess:
        second = f"a {recess.text} bore for {named(b)}"
    elif b.pilot and b.pilot.bore:
        second = f"a {b.pilot.bore.text} spigot into {named(b)}"
    else:
        second = f"dowels of {named(b)}" if dowels_of(b) else f"nothing known centres it on {named(b)}"
    return joined(first, second)


def _reading_mm(a: Pattern, b: Pattern) -> float:
    """How far two hole centres together may be from where they were read."""
    return sum(max((hole.tolerance_mm or 0.0 for hole in holes_of(pattern) or ()), default=0.0) for pattern in (a, b))


def _caveats(
    a: Pattern, b: Pattern, land_mm: float, limits: PlateLimits, recesses: Sequence[Recess], drilled: Sequence[Drilled]
) -> str:  # fmt: skip
    """What weakens a design: where its limits come from, coarse readings, a recess of no known depth."""
    reading = _reading_mm(a, b)
    coarse = land_mm - reading < limits.land.value
    shallow = {recess.of for each in drilled for recess in _sunk_in(each, recesses) if recess.depth_mm is None}
    return joined(
        f"the readings are good to ±{reading:.2g} mm only: drill it from the parts" if coarse else "",
        f"how deep the pilot of {' and '.join(sorted(shallow))} goes is not known, and comes off the thread" if shallow else "",
        f"limits: {limits.origin}" if limits.origin.basis else "",
    )
