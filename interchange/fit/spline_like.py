"""What a spline that stands in no catalog reads like by the tables and formulas of its standards: a likeness, no identity."""

from __future__ import annotations

from collections.abc import Sequence

from interchange.fit.shaft import DIAMETER_SLACK_MM
from interchange.fit.spline_size import pitches_like
from interchange.fit.straight_spline import ISO14, sae_sizes
from interchange.fit.taken import Reading


def spline_like(readings: Sequence[Reading]) -> tuple[str, ...]:
    """Involute pitches and straight-sided sizes that the readings do not speak against; teeth and outside diameter are needed."""
    by_name = {reading.kind.name: reading for reading in readings}
    teeth, od = by_name.get("teeth"), by_name.get("od")
    if teeth is None or od is None:
        return ()
    count = int(teeth.value)
    slack = od.tolerance + DIAMETER_SLACK_MM
    pitches = pitches_like(count, od.value - slack, od.value + slack)
    found = [f"{count}T {pitch}, an involute of 30°" for pitch in pitches]
    sizes = [*(each for each in ISO14 if each.teeth == count), *(sae_sizes(count, od.value) if _tells_sae(by_name) else ())]
    for size in sizes:
        pairs = (("od", size.major_mm), ("root", size.minor_mm), ("width", size.width_mm))
        if all(_near(by_name[name], mm) for name, mm in pairs if name in by_name):
            found.append(size.name)
    return tuple(found)


def _tells_sae(by_name: dict[str, Reading]) -> bool:
    """SAE's straight-sided splines go by proportion: it takes a second figure to tell one."""
    return "root" in by_name or "width" in by_name


def _near(reading: Reading, mm: float) -> bool:
    return abs(reading.value - mm) <= reading.tolerance + DIAMETER_SLACK_MM
