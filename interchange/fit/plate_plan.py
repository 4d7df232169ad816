"""The plates a plan has made: which faces each joins, how thick it has to be, and what that does to every depth."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from interchange.fit.plan import Choice
from interchange.fit.plate_depth import PlateDepth, plate_depth


class PlatePlan(NamedTuple):
    """One plate to be made."""

    joint: str
    title: str
    design: str
    """How it carries both faces, where that could be worked out."""
    depth: PlateDepth


def plates_of(choice: Choice) -> Iterator[PlatePlan]:
    """Every made plate of a plan that stands in some stack-up which decides more than cost."""
    thick = {joint: thick for closing in choice.closings for joint, thick in closing.plates}
    for name, option in choice.taken.items():
        if option.remedy is None or option.remedy.makes_thick is None or not option.thick_mm:
            continue
        standings = [each for each in choice.standings if name in each.ready.names and not each.ready.only_costs]
        if standings:
            others = {joint: each for joint, each in thick.items() if joint != name}
            depth = plate_depth(name, standings, option.thick_mm, others)
            yield PlatePlan(name, option.remedy.title, option.design, depth)
