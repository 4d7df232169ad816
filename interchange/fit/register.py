"""Registers: whether one face centres on the other."""

from __future__ import annotations

from typing import TYPE_CHECKING

from interchange.fit.finding import AGREES, DIFFERS, NOT_KNOWN, Finding
from interchange.quantity import show

if TYPE_CHECKING:
    from interchange.catalog.figure import Figure
    from interchange.catalog.model import Register


def compare_registers(a: Register | None, b: Register | None, limit_mm: float | None) -> Finding:
    """A spigot in a bore by its clearance; two bores, or two spigots, of one standard by their size.

    ``limit_mm`` is how much clearance still locates. Not known where either has no register written.
    """
    if limit_mm is None or a is None or b is None:
        return Finding(NOT_KNOWN, "")
    bore, spigot = a.bore or b.bore, a.spigot or b.spigot
    if a.bore and b.spigot:
        bore, spigot = a.bore, b.spigot
    elif b.bore and a.spigot:
        bore, spigot = b.bore, a.spigot
    else:
        return _alike(a.bore or a.spigot, b.bore or b.spigot, limit_mm)
    play = bore.value - spigot.value
    sure = max(bore.high - spigot.low, 0.0)
    if bore.high < spigot.low:
        text = f"the {show(spigot.value, 'length')} spigot is larger than the {show(bore.value, 'length')} pilot bore"
        return Finding(DIFFERS, text, gap_mm=spigot.low - bore.high)
    if play > limit_mm and bore.low - spigot.high > limit_mm:
        return Finding(DIFFERS, f"{play:.2f} mm play in the pilot does not locate (limit {limit_mm:.2f} mm)", gap_mm=play)
    caveat = "" if sure <= limit_mm else f"the play may be as much as {sure:.2f} mm"
    return Finding(AGREES, f"pilot {show(bore.value, 'length')}", caveat)


def _alike(a: Figure | None, b: Figure | None, limit_mm: float) -> Finding:
    if a is None or b is None:
        return Finding(NOT_KNOWN, "")
    apart = max(a.low - b.high, b.low - a.high, 0.0)
    if apart > limit_mm:
        return Finding(DIFFERS, f"pilots {a.text} against {b.text}", gap_mm=apart)
    return Finding(AGREES, f"pilot {a.text}")
