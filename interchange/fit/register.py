"""Registers: whether one face centres on the other."""

from __future__ import annotations

from typing import TYPE_CHECKING

from interchange.fit.finding import AGREES, DIFFERS, NOT_KNOWN, Finding
from interchange.quantity import show

if TYPE_CHECKING:
    from interchange.catalog.figure import Figure
    from interchange.catalog.model import Register

ROUNDING_MM = 1e-6


def compare_registers(a: Register | None, b: Register | None, limit_mm: float | None) -> Finding:
    """A spigot in a bore by its clearance; two bores, or two spigots, of one standard by their size.

    ``limit_mm`` is how much clearance still locates. Not known where either has no register written.
    """
    if limit_mm is None or a is None or b is None:
        return Finding(NOT_KNOWN, "")
    if a.bore and b.spigot:
        bore, spigot = a.bore, b.spigot
    elif b.bore and a.spigot:
        bore, spigot = b.bore, a.spigot
    else:
        return _alike(a.bore or a.spigot, b.bore or b.spigot, limit_mm)
    play, most = bore.value - spigot.value, bore.high - spigot.low
    if most < -ROUNDING_MM:
        text = f"the {show(spigot.value, 'length')} spigot is larger than the {show(bore.value, 'length')} pilot bore"
        return Finding(DIFFERS, text, gap_mm=-most)
    if bore.low - spigot.high > limit_mm + ROUNDING_MM:
        text = f"{play:.2f} mm play in the {show(bore.value, 'length')} pilot does not locate (limit {limit_mm:.2f} mm)"
        return Finding(DIFFERS, text, gap_mm=play)
    text = f"pilot {show(bore.value, 'length')}"
    if play < -ROUNDING_MM:
        return Finding(AGREES, text, f"the spigot reads {-play:.2f} mm larger than the bore, within the reading error")
    return Finding(AGREES, text, "" if most <= limit_mm + ROUNDING_MM else f"the play may be as much as {most:.2f} mm")


def _alike(a: Figure | None, b: Figure | None, limit_mm: float) -> Finding:
    if a is None or b is None:
        return Finding(NOT_KNOWN, "")
    apart = max(a.low - b.high, b.low - a.high, 0.0)
    if apart > limit_mm + ROUNDING_MM:
        return Finding(DIFFERS, f"pilots {a.text} against {b.text}", gap_mm=apart)
    return Finding(AGREES, f"pilot {a.text}")
