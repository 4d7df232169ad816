"""What is cut, drilled, sunk, tapped and turned in a plate that joins two faces: each hole with its operation and size."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from typing import NamedTuple

from interchange.catalog.geometry import dowels_of, holes_of
from interchange.catalog.model import Joint, Pattern
from interchange.catalog.things import PlateLimits
from interchange.errors import InputError
from interchange.fit.clocking import turned
from interchange.fit.drilling import Drilled, drill, nearest_holes
from interchange.fit.pattern import named
from interchange.fit.plate import PlateDesign, recesses_of
from interchange.quantity import Thread

THROUGH, SUNK, TAPPED, DOWELLED = "through", "sunk", "tapped", "for dowels"
BORE, SPIGOT = "bore", "spigot"
A, B = "A", "B"


class PlateHole(NamedTuple):
    """One hole of the plate, in the view both faces are written in."""

    name: str
    """A3 takes the third bolt of the first part, B3 of the second; A3+B1 lets one bolt through both."""
    x_mm: float
    y_mm: float
    operation: str
    bolt_mm: float
    drill_mm: float | None
    """What is drilled right through: a clear hole, or what is tapped; None where the thread is not known."""
    sink_mm: float | None = None
    """How wide the head is sunk."""
    sink_depth_mm: float | None = None
    thread: str = ""


class PlateRegister(NamedTuple):
    """A bore or spigot turned on the plate, in the size as written for the part: the fit is the shop's."""

    kind: str
    diameter_mm: float
    text: str
    of: str
    """The part it centres on."""


class PlateLayout(NamedTuple):
    """A plate as a shop makes it."""

    holes: tuple[PlateHole, ...]
    registers: tuple[PlateRegister, ...]
    outside_mm: float
    opening_mm: float
    """The largest round opening that leaves holes their edge and registers their shoulder; 0 where there is none."""
    crowded: tuple[str, ...] = ()
    """Dowels that come closer to another hole than the land wanted: the design looks at bolts alone."""


def tapping_drill_mm(thread: Thread) -> float:
    """Major diameter less one pitch: common practice for 60° threads, no source."""
    return thread.major_mm - thread.pitch_mm


def plate_layout(a: Pattern, b: Pattern, joint: Joint, limits: PlateLimits, design: PlateDesign) -> PlateLayout:
    """The plate of a design that is possible. Raises InputError with the reason where it is not, or too little is known."""
    one, other = holes_of(a), holes_of(b)
    if not design.possible or one is None or other is None or joint.clearance is None:
        raise InputError(
            f"no plate joins {named(a)} to {named(b)}: {design.reason}", "measure that" if design.possible is None else ""
        )
    drilled = drill(a, one, b, other, joint.clearance.value, limits)
    if isinstance(drilled, str):
        raise InputError(drilled, "write a thread or a hole size in the catalog")
    bolts = tuple(_holes((a, b), drilled, design.clock_deg, joint.clearance.value, limits))
    dowels = tuple(_dowels(a, b, design.clock_deg))
    registers = tuple(_registers(a, b))
    opening = _opening(design.opening_mm, registers, limits)
    return PlateLayout((*bolts, *dowels), registers, design.outside_mm, opening, tuple(_crowded(dowels, bolts, limits)))


def _dowels(a: Pattern, b: Pattern, turn_deg: float) -> Iterator[PlateHole]:
    """A hole for each dowel of either part, at its size where that is known."""
    for letter, face, turn in ((A, a, 0.0), (B, b, turn_deg)):
        for i, dowel in enumerate(dowels_of(face), 1):
            yield PlateHole(f"{letter}D{i}", *turned(dowel, turn), DOWELLED, dowel.hole_mm or 0.0, dowel.hole_mm)


def _crowded(dowels: Sequence[PlateHole], bolts: Sequence[PlateHole], limits: PlateLimits) -> Iterator[str]:
    """Which dowel comes how close to which hole."""
    for i, dowel in enumerate(dowels):
        for other in (*bolts, *dowels[:i]):
            apart = math.hypot(dowel.x_mm - other.x_mm, dowel.y_mm - other.y_mm)
            land = apart - (dowel.bolt_mm + (other.sink_mm or other.drill_mm or other.bolt_mm)) / 2
            if land < limits.land.value:
                how = f"leave {land:.1f} mm between them" if land >= 0 else f"run into each other by {-land:.1f} mm"
                yield f"{dowel.name} and {other.name} {how}, {limits.land.text} is wanted"


def _holes(
    faces: tuple[Pattern, Pattern], drilled: tuple[Sequence[Drilled], Sequence[Drilled]], turn_deg: float, clearance_mm: float,
    limits: PlateLimits,
) -> Iterator[PlateHole]:  # fmt: skip
    """Holes one bolt goes through first, then those of the first part, then of the second."""
    ours, theirs = drilled
    shared = sorted(nearest_holes(ours, theirs, turn_deg, clearance_mm).shared)
    places = [turned(each.place, turn_deg) for each in theirs]
    for i, j in shared:
        x, y = (ours[i].place.x_mm + places[j][0]) / 2, (ours[i].place.y_mm + places[j][1]) / 2
        bolt = max(ours[i].bolt_mm, theirs[j].bolt_mm)
        yield PlateHole(f"{A}{i + 1}+{B}{j + 1}", x, y, THROUGH, bolt, bolt + clearance_mm)
    used = {i for i, _ in shared}, {j for _, j in shared}
    for letter, row, gone, face in ((A, ours, used[0], faces[0]), (B, theirs, used[1], faces[1])):
        for i, each in enumerate(row):
            if i not in gone:
                x, y = (each.place.x_mm, each.place.y_mm) if letter == A else places[i]
                yield _hole(f"{letter}{i + 1}", x, y, each, _thread(face, i), clearance_mm, limits)


def _hole(
    name: str, x: float, y: float, each: Drilled, thread: Thread | None, clearance_mm: float, limits: PlateLimits
) -> PlateHole:  # fmt: skip
    if not each.tapped:
        clear = each.bolt_mm + clearance_mm
        text = thread.text if thread else ""
        return PlateHole(name, x, y, SUNK, each.bolt_mm, clear, each.width_mm, limits.head_depth * each.bolt_mm, text)
    if thread is None:
        return PlateHole(name, x, y, TAPPED, each.bolt_mm, None)
    return PlateHole(name, x, y, TAPPED, each.bolt_mm, tapping_drill_mm(thread), thread=thread.text)


def _thread(face: Pattern, i: int) -> Thread | None:
    """The thread of a face's hole; None where it is a clear one."""
    own = face.points[i].thread if face.points else None
    if own is None and face.points and face.points[i].hole is not None:
        return None
    return own or face.thread


def _registers(a: Pattern, b: Pattern) -> Iterator[PlateRegister]:
    """A spigot for each bore the plate goes into, a bore for each spigot that goes into the plate."""
    recesses = recesses_of(a, b)
    for recess in recesses:
        yield PlateRegister(BORE, 2 * recess.radius_mm, recess.text, recess.of)
    for face in (a, b):
        if face.pilot and face.pilot.bore and named(face) not in [recess.of for recess in recesses]:
            yield PlateRegister(SPIGOT, face.pilot.bore.value, face.pilot.bore.text, named(face))


def _opening(most_mm: float, registers: Sequence[PlateRegister], limits: PlateLimits) -> float:
    """No wider than a bore that takes a spigot, and than what leaves a spigot on the plate a wall as thick as the land."""
    walls = [each.diameter_mm - (2 * limits.land.value if each.kind == SPIGOT else 0.0) for each in registers]
    return max(0.0, min([most_mm, *walls], default=math.inf))
