"""How thick a plate has to be: what its thickness does to each stack-up, and the least that closes them all.

A stack-up in which a plate stands grows or shrinks with it, a millimetre for every millimetre as a rule. Each leaves a window of
thicknesses; the plate has to be in all of them. While any term is not known there is no such thickness, and no plate is ordered.
"""

from __future__ import annotations

import itertools
import math
from collections.abc import Mapping, Sequence
from typing import NamedTuple

from interchange.fit.stack_up import CLOSE_ENOUGH_MM, Standing, spoken_term

DO_NOT_ORDER = "do not order the plate yet"
CANNOT_BE_MADE = "what the plate can be"
ANY, NONE = (-math.inf, math.inf), (math.inf, -math.inf)


class DepthWindow(NamedTuple):
    """What a plate's thickness does to one stack-up."""

    title: str
    slope: float
    """Millimetres the sum grows for each millimetre of plate; 0 where the plate does not stand in it."""
    low_mm: float
    """The least thickness that closes it, as read; infinite where none does."""
    high_mm: float
    """The most."""
    tolerance_mm: float
    """What the readings of the sum may be off together."""
    sure_mm: tuple[float, float]
    """The window that closes it however the readings are off; low above high where they are too coarse for any."""
    missing: tuple[str, ...] = ()
    """Terms that are not known; the windows mean nothing while there are any."""


class PlateDepth(NamedTuple):
    """A plate against every stack-up it stands in."""

    joint: str
    windows: tuple[DepthWindow, ...]
    least_mm: float | None
    """The least thickness that closes them all, as read; None where there is none, or a term is missing."""
    most_mm: float | None
    """The most."""
    sure: tuple[float, float] | None
    """(least, most) thickness that closes them all however the readings are off."""
    why: str
    """Why there is none; empty where there is."""


def plate_depth(
    joint: str, standings: Sequence[Standing], span_mm: tuple[float, float], others_mm: Mapping[str, float] | None = None
) -> PlateDepth:  # fmt: skip
    """What the thickness of the plate in a joint does to each stack-up, and the least that closes all of them.

    ``standings`` are the stack-ups added up without their made plates, ``span_mm`` what the plate can be, ``others_mm`` how thick
    the made plates in other joints are.
    """
    windows = tuple(_window(joint, each, others_mm or {}) for each in standings)
    why = _missing(windows) or _apart(windows, span_mm)
    if why:
        return PlateDepth(joint, windows, None, None, None, why)
    least, most = _common([*((each.low_mm, each.high_mm) for each in windows), span_mm])
    low, high = _common([*(each.sure_mm for each in windows), span_mm])
    sure = (low, high) if low <= high + CLOSE_ENOUGH_MM else None
    return PlateDepth(joint, windows, least, max(least, most), sure, "")


def _window(joint: str, standing: Standing, others_mm: Mapping[str, float]) -> DepthWindow:
    """One stack-up solved for the thickness: (limit - what the rest comes to) over the slope."""
    title, total = standing.ready.stack.title, standing.sum
    slope = total.plates.get(joint, 0.0)
    others = {name: factor for name, factor in total.plates.items() if name != joint}
    unsettled = tuple(f"thickness of the plate in {name}" for name in others if name not in others_mm)
    missing = (*total.missing, *unsettled)
    if missing:
        return DepthWindow(title, slope, *NONE, total.tolerance_mm, NONE, missing)
    rest = total.known_mm + sum(factor * others_mm[name] for name, factor in others.items())
    off = total.tolerance_mm
    as_read = _solved(standing.least_mm - rest, standing.most_mm - rest, slope)
    return DepthWindow(title, slope, *as_read, off, _solved(standing.least_mm - rest + off, standing.most_mm - rest - off, slope))


def _solved(least_mm: float, most_mm: float, slope: float) -> tuple[float, float]:
    """The thicknesses that add between so much and so much; any or none where the plate adds nothing."""
    if least_mm > most_mm + CLOSE_ENOUGH_MM:
        return NONE
    if not slope:
        return ANY if least_mm <= CLOSE_ENOUGH_MM and most_mm >= -CLOSE_ENOUGH_MM else NONE
    low, high = sorted((least_mm / slope, most_mm / slope))
    return low, high


def _common(ranges: Sequence[tuple[float, float]]) -> tuple[float, float]:
    return max(low for low, _ in ranges), min(high for _, high in ranges)


def _missing(windows: Sequence[DepthWindow]) -> str:
    lacking = [f"{each.title}: {' and '.join(map(spoken_term, each.missing))} not known" for each in windows if each.missing]
    return f"{'; '.join(lacking)}: {DO_NOT_ORDER}" if lacking else ""


def _apart(windows: Sequence[DepthWindow], span_mm: tuple[float, float]) -> str:
    """Which two windows leave no thickness between them; nothing where all overlap (ranges that meet two by two all meet)."""
    shut = next((each for each in windows if each.low_mm == math.inf), None)
    if shut:
        return f"{shut.title} does not close, and the plate does not stand in it"
    named = [(CANNOT_BE_MADE, *span_mm), *((each.title, each.low_mm, each.high_mm) for each in windows)]
    for one, other in itertools.combinations(named, 2):
        lower, upper = sorted((one, other), key=lambda each: each[2])
        if upper[1] > lower[2] + CLOSE_ENOUGH_MM:
            return f"{lower[0]} allows {lower[2]:.1f} mm at most, {upper[0]} wants {upper[1]:.1f} mm at least"
    return ""
