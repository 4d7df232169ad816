"""Shapes that go together: bolt patterns, shafts and pins. The sentence under each field says what to write there."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Annotated

from interchange.catalog.figure import NO_ORIGIN, NOWHERE, Figure, Origin, Where
from interchange.catalog.measures import Angle, Count, Id, Length, Number, Torque
from interchange.quantity import Spline, Taper, Thread


@dataclass(frozen=True, slots=True, kw_only=True)
class Point:
    """A hole or dowel at a point."""

    x: Length
    """Right of the centre, as seen; negative to the left."""
    y: Length
    """Above the centre; negative below."""
    hole: Length | None = None
    """Diameter of a clear hole, or of a dowel."""
    thread: Thread | None = None
    """Thread of a tapped hole."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Register:
    """A close fit that centres one face on the other: give the bore or the spigot."""

    bore: Length | None = None
    """Diameter of the recess."""
    spigot: Length | None = None
    """Diameter of the raised shoulder that enters a recess."""
    fit: Annotated[Figure, "word"] | None = None
    """Tolerance class of ISO 286 on that diameter, which is then the nominal one: H7 of a bore, g6 of a spigot."""
    depth: Length | None = None
    """How deep or how proud."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Pattern:
    """A bolt face: holes on a circle, or at points."""

    id: str = ""
    title: str = ""
    """What people call it."""
    circle: Length | None = None
    """Bolt circle diameter."""
    holes: Count | None = None
    """How many holes on the circle."""
    first_hole: Angle | None = None
    """Angle of the first hole, clockwise from straight up, as seen."""
    thread: Thread | None = None
    """Thread of the holes, where they are tapped."""
    hole: Length | None = None
    """Diameter of the holes, where they are clear."""
    points: tuple[Point, ...] = ()
    """The holes one by one, instead of a circle."""
    dowels: tuple[Point, ...] = ()
    """Dowels that locate the face."""
    pilot: Register | None = None
    """The register that centres it."""
    flange: Length | None = None
    """Outside diameter of the flange."""
    depth: Length | None = None
    """Depth the standard fixes with the pattern: a flywheel's G, from housing face to drive face."""
    seen: Annotated[str, ("from the gearbox", "from the front", "from the shaft end")] = "from the gearbox"
    """The side it was noted from. From the front is flipped on reading."""
    standard: str = ""
    """The standard it belongs to."""
    size: str = ""
    """Its size in that standard."""
    note: str = ""
    """What to watch for."""
    origin: Origin = NO_ORIGIN
    where: Where = NOWHERE


@dataclass(frozen=True, slots=True, kw_only=True)
class Shaft:
    """A shaft end, or the bore that takes it."""

    id: str = ""
    title: str = ""
    """What people call it."""
    form: Annotated[str, ("involute", "straight-sided", "keyed", "taper", "flange", "plain")]
    """How it drives."""
    spline: Spline | None = None
    """Teeth and pitch, 14T 12/24, or module, 20T m2."""
    teeth: Count | None = None
    """How many splines, where the pitch is not stated."""
    angle: Angle | None = None
    """Pressure angle of an involute spline."""
    major: Length | None = None
    """Outside diameter; of a taper, at its large end."""
    minor: Length | None = None
    """Root diameter."""
    taper: Taper | None = None
    """Of a taper, on the diameter: 1:8, or 1-1/2 in per ft."""
    width: Length | None = None
    """Width of a spline's tooth or of the key."""
    keys: Number | None = None
    """How many keys; 0 for a taper that holds without one."""
    key_length: Length | None = None
    """Length of the key."""
    length: Length | None = None
    """Usable length; of a taper, along it."""
    thread: Thread | None = None
    """Thread at its end."""
    thread_hand: Annotated[str, ("right", "left", "")] = ""
    """Hand of that thread; some crank noses are left-hand."""
    torque: Torque | None = None
    """What its maker rates it for."""
    speed: Annotated[Figure, "speed"] | None = None
    """The speed the standard gives it."""
    pattern: Id = ""
    """For a flange: its bolt pattern."""
    standard: str = ""
    """The standard it belongs to."""
    size: str = ""
    """Its size in that standard."""
    note: str = ""
    """What to watch for."""
    origin: Origin = NO_ORIGIN
    where: Where = NOWHERE


@dataclass(frozen=True, slots=True, kw_only=True)
class Pin:
    """Hitch pins of one category."""

    id: str = ""
    title: str = ""
    """What people call it."""
    upper: Length | None = None
    """Upper pin diameter."""
    lower: Length | None = None
    """Lower pin diameter."""
    spread: Length | None = None
    """Distance between the lower points."""
    mast: Length | None = None
    """Height of the mast."""
    standard: str = ""
    """The standard it belongs to."""
    size: str = ""
    """Its category."""
    note: str = ""
    """What to watch for."""
    origin: Origin = NO_ORIGIN
    where: Where = NOWHERE
