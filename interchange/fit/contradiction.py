"""Readings of one part that cannot all be right, whatever part it is."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from typing import NamedTuple

from interchange.fit.chord import ADJACENT, SKIP_ONE, circle_from_chord, farthest
from interchange.fit.taken import Reading
from interchange.quantity import show

CHORDS = ("adjacent", "skip-one", "opposite", "circle")
FEWEST, MOST = 2, 48
LEAST_FOR_SKIP = 4
ORDERED = (
    ("circle", "flange", "the bolt circle does not go on the flange"),
    ("opposite", "flange", "the holes do not go on the flange"),
    ("bore", "flange", "the pilot is wider than the flange"),
    ("spigot", "flange", "the pilot is wider than the flange"),
    ("adjacent", "skip-one", "neighbouring holes cannot be farther apart than every other one"),
    ("adjacent", "opposite", "neighbouring holes cannot be farther apart than opposite ones"),
    ("skip-one", "opposite", "every other hole cannot be farther away than the opposite one"),
    ("short-spacing", "long-spacing", "the short side cannot be longer than the long one"),
    ("root", "od", "the root cannot be wider than the outside"),
    ("width", "od", "a key or tooth cannot be wider than its shaft"),
)
"""(what cannot be larger, than what, what is said where it is)."""


class CircleOf(NamedTuple):
    """The bolt circle one reading gives for a hole count."""

    reading: Reading
    circle_mm: float
    tolerance_mm: float

    def agrees(self, other: CircleOf) -> bool:
        """Whether both can be right within their ±."""
        return abs(self.circle_mm - other.circle_mm) <= self.tolerance_mm + other.tolerance_mm


def contradictions(readings: Sequence[Reading]) -> tuple[str, ...]:
    """What in the readings speaks against the rest of them, in sentences."""
    by_name = {reading.kind.name: reading for reading in readings}
    return (*_chords_apart(by_name), *_out_of_order(by_name))


def circles_of(by_name: Mapping[str, Reading], holes: int) -> tuple[CircleOf, ...]:
    """The bolt circle as each chord gives it for so many holes, the surest first."""
    steps = {"adjacent": ADJACENT, "opposite": farthest(holes)} | ({"skip-one": SKIP_ONE} if holes >= LEAST_FOR_SKIP else {})
    found = []
    for name in CHORDS:
        reading = by_name.get(name)
        if reading and name == "circle":
            found.append(CircleOf(reading, reading.value, reading.tolerance))
        elif reading and name in steps:
            circle = circle_from_chord(reading.value, holes, steps[name], reading.tolerance)
            found.append(CircleOf(reading, circle.circle_mm, circle.tolerance_mm or 0.0))
    return tuple(sorted(found, key=lambda each: each.tolerance_mm))


def counts_agreeing(by_name: Mapping[str, Reading]) -> tuple[int, ...]:
    """The hole counts for which all chords give one circle; empty where fewer than two chords were read."""
    if sum(name in by_name for name in CHORDS) <= 1:
        return ()
    return tuple(count for count in range(FEWEST, MOST + 1) if _agree(circles_of(by_name, count), by_name, count))


def _agree(circles: Sequence[CircleOf], by_name: Mapping[str, Reading], holes: int) -> bool:
    if "skip-one" in by_name and holes < LEAST_FOR_SKIP:
        return False
    return all(one.agrees(other) for one in circles for other in circles)


def _chords_apart(by_name: Mapping[str, Reading]) -> Iterator[str]:
    """Chords that give different circles for the holes counted; without a count, chords that agree for none."""
    if sum(name in by_name for name in CHORDS) <= 1:
        return
    counted = by_name.get("holes")
    others = counts_agreeing(by_name)
    if counted is None:
        if not others:
            yield "no number of even holes gives these chords one bolt circle: read them again, or the holes are not even"
        return
    holes = int(counted.value)
    if holes < FEWEST:
        yield "one hole has no chord: count the holes again"
        return
    circles = circles_of(by_name, holes)
    for i, one in enumerate(circles):
        for other in circles[i + 1 :]:
            if not one.agrees(other):
                text = f"for {holes} holes the {_says(one)}, the {_says(other)}"
                yield f"{text}: one of them, or the count, is wrong, or the holes are not even{_would_agree(others, holes)}"


def _says(circle: CircleOf) -> str:
    size = show(circle.circle_mm, "length", tolerance=circle.tolerance_mm)
    return f"{circle.reading.kind.title} gives a circle of {size}"


def _would_agree(counts: Sequence[int], holes: int) -> str:
    if not counts:
        return "; no even number of holes would make them agree"
    near = sorted(counts, key=lambda count: abs(count - holes))[:3]
    return f"; they would agree for {' or '.join(map(str, sorted(near)))} holes"


def _out_of_order(by_name: Mapping[str, Reading]) -> Iterator[str]:
    for smaller, larger, why in ORDERED:
        one, other = by_name.get(smaller), by_name.get(larger)
        if one and other and one.value - one.tolerance > other.value + other.tolerance:
            yield f"{one.kind.title} {one.text} and {other.kind.title} {other.text}: {why}"
