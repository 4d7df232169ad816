"""Readings taken off a part that nobody has named yet: which there are, how each is taken, and how far off it may be."""

from __future__ import annotations

from typing import NamedTuple

from interchange.catalog.figure import READING_TOLERANCE_MM
from interchange.catalog.suggest import suggestion
from interchange.errors import InputError
from interchange.quantity import QuantityError, read_quantity

PATTERNS, SHAFTS, PINS = "patterns", "shafts", "pins"
ROOM_WORDS = {PATTERNS: "a bolt face", SHAFTS: "a shaft", PINS: "hitch pins"}
COUNTED = "counted"
HANDS = tuple(READING_TOLERANCE_MM)  # a photo gives no length
MOST_COUNTED = 999


class ReadingKind(NamedTuple):
    """One thing that can be read off a part."""

    name: str
    """The name of its flag."""
    title: str
    """What it is called in a sentence."""
    room: str
    """Of what it is a reading."""
    how: str
    """How to take it."""
    counted: bool = False


KINDS = {
    each.name: each
    for each in (
        ReadingKind("holes", "hole count", PATTERNS, "count the bolt holes, dowels left out; a photo will do", counted=True),
        ReadingKind("opposite", "opposite chord", PATTERNS, "between the two holes farthest apart, same edge to same edge"),
        ReadingKind("skip-one", "skip-one chord", PATTERNS, "from a hole to the next but one, same edge to same edge"),
        ReadingKind("adjacent", "adjacent chord", PATTERNS, "between neighbouring holes, same edge to same edge"),
        ReadingKind("circle", "bolt circle", PATTERNS, "the bolt circle, where somebody else gives it"),
        ReadingKind("bore", "pilot bore", PATTERNS, "across the recess that centres it"),
        ReadingKind("spigot", "spigot", PATTERNS, "across the raised shoulder that centres it"),
        ReadingKind("flange", "flange diameter", PATTERNS, "across the outside of the flange"),
        ReadingKind("depth", "depth to the drive face", PATTERNS, "straightedge over the housing face, down to the drive face"),
        ReadingKind("long-spacing", "long hole spacing", PATTERNS, "of four holes on a rectangle, along the long side"),
        ReadingKind("short-spacing", "short hole spacing", PATTERNS, "of four holes on a rectangle, along the short side"),
        ReadingKind("teeth", "tooth count", SHAFTS, "mark one spline and count once round; a photo will do", counted=True),
        ReadingKind("od", "outside diameter", SHAFTS, "over the splines or the shaft, a taper at its large end"),
        ReadingKind("root", "root diameter", SHAFTS, "between the bottoms of opposite splines"),
        ReadingKind("width", "key or tooth width", SHAFTS, "across the key, or one straight-sided spline"),
        ReadingKind("upper-pin", "upper pin", PINS, "across the pin of the upper link"),
        ReadingKind("lower-pin", "lower pin", PINS, "across the pin of a lower link"),
        ReadingKind("spread", "spread of the lower points", PINS, "between the shoulders of the two lower points"),
        ReadingKind("mast", "mast height", PINS, "from the lower points up to the upper one"),
    )
}


class Reading(NamedTuple):
    """One reading: a length in mm with its ±, or a count with none."""

    kind: ReadingKind
    value: float
    tolerance: float
    text: str
    """As written."""
    by: str
    """How it was read, for a person: ``tape``, ``counted``, or the ± somebody wrote."""


def read_reading(name: str, written: str, by: str = "tape") -> Reading:
    """A reading as a person writes it: ``12``, ``16-7/8 in``, ``16-7/8 in, caliper``, ``16-7/8 in ±1/32 in``.

    ``by`` is how it was read where that is not said. Raises InputError for what is no such reading.
    """
    kind = KINDS[name]
    if kind.counted:
        return _counted(kind, written)
    figure, _, hand = (part.strip() for part in written.partition(","))
    hand = hand or by
    if hand not in HANDS:
        hint = "a photo gives no length: hold a tape to it" if hand == "photo" else suggestion(hand, HANDS)
        raise InputError(f"{kind.title}: a length is not read by {hand!r}", hint or f"by {', '.join(HANDS)}")
    try:
        quantity = read_quantity(figure, "length")
    except QuantityError as error:
        raise InputError(f"{kind.title}: {error.message}", error.hint) from error
    if quantity.value <= 0:
        raise InputError(f"{kind.title}: {figure!r} is no distance", "measure between two different places")
    if quantity.low is not None and quantity.high is not None:
        half = (quantity.high - quantity.low) / 2
        return Reading(kind, (quantity.low + quantity.high) / 2, half + (quantity.tolerance or 0.0), figure, "as a range")
    if quantity.tolerance is not None:
        return Reading(kind, quantity.value, quantity.tolerance, figure, "with the ± written")
    return Reading(kind, quantity.value, READING_TOLERANCE_MM[hand], figure, hand)


def _counted(kind: ReadingKind, written: str) -> Reading:
    """A whole number; how it was counted may be said, and changes nothing."""
    digits = written.partition(",")[0].strip()
    if not digits.isascii() or not digits.isdigit() or not 0 < int(digits[:9]) <= MOST_COUNTED:
        raise InputError(f"{kind.title}: {written!r} is no count", "write a whole number, such as 12")
    return Reading(kind, int(digits), 0.0, digits, COUNTED)
