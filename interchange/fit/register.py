"""Registers: whether one face centres on the other."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from interchange.fit.finding import AGREES, DIFFERS, NOT_KNOWN, Finding, joined
from interchange.quantity import show
from interchange.quantity.iso286 import limits_mm, read_class

if TYPE_CHECKING:
    from interchange.catalog.figure import Figure
    from interchange.catalog.model import Register

ROUNDING_MM = 1e-6


class Diameter(NamedTuple):
    """The diameter of a register with the limits it is made to, or may have by the way it was read."""

    figure: Figure
    low: float
    high: float
    fit: str = ""
    """Its tolerance class, where it has one."""

    @property
    def limited(self) -> bool:
        """Whether limits of size are written for it, as a range."""
        return self.figure.quantity is not None and self.figure.quantity.low is not None


def compare_registers(a: Register | None, b: Register | None, limit_mm: float | None) -> Finding:
    """A spigot in a bore by its clearance; two bores, or two spigots, of one standard by their size.

    ``limit_mm`` is how much clearance still locates. Sizes with a tolerance class have the limits of ISO 286-1. Not known where
    either has no register written, or a class whose limits are not known.
    """
    if limit_mm is None or a is None or b is None:
        return Finding(NOT_KNOWN, "")
    unknown = [each.fit.text for each in (a, b) if each.fit and (each.bore or each.spigot) and _limits(each) is None]
    if unknown:
        return Finding(NOT_KNOWN, f"the limits of a {' and a '.join(dict.fromkeys(unknown))} register are not known")
    if a.bore and b.spigot:
        bore, spigot = diameter(a, a.bore), diameter(b, b.spigot)
    elif b.bore and a.spigot:
        bore, spigot = diameter(b, b.bore), diameter(a, a.spigot)
    else:
        return _alike(a, b, limit_mm)
    return _clearance(bore, spigot, limit_mm)


def diameter(register: Register, figure: Figure) -> Diameter:
    """A register's diameter with its limits: those of its class, widened by what the reading may be off, or the figure's own."""
    least, most = _limits(register) or (figure.value, figure.value)
    fit = register.fit.text if register.fit else ""
    return Diameter(figure, figure.low + least - figure.value, figure.high + most - figure.value, fit)


def _limits(register: Register) -> tuple[float, float] | None:
    """The limits a register's class gives; None where it gives none, or sources differ on the class."""
    size, fit = register.bore or register.spigot, register.fit
    if size is None or fit is None or (register.bore and register.spigot) or len({one.text for one in fit.readings}) > 1:
        return None
    tolerance = read_class(fit.text)
    if tolerance is None or tolerance.of_hole != bool(register.bore):
        return None
    return limits_mm(size.value, tolerance)


def _clearance(bore: Diameter, spigot: Diameter, limit_mm: float) -> Finding:
    """A spigot in a bore. The clearance runs from the least, largest spigot in smallest bore, to the most."""
    sizes = [show(each.figure.value, "length") for each in (bore, spigot)]
    play, least, most = bore.figure.value - spigot.figure.value, bore.low - spigot.high, bore.high - spigot.low
    weak: list[str] = []
    read = bore.figure.tolerance or spigot.figure.tolerance  # of a reading, "as much as" says more than a range does
    made = bore.fit or spigot.fit or ((bore.limited or spigot.limited) and not read)
    if most < -ROUNDING_MM:
        larger = f", by {-most:.3f} to {-least:.3f} mm" if made else ""
        text = f"the {sizes[1]} spigot is larger than the {sizes[0]} pilot bore{larger}"
        return Finding(DIFFERS, text, gap_mm=-most)
    if least > limit_mm + ROUNDING_MM:
        text = f"{play:.2f} mm play in the {sizes[0]} pilot does not locate (limit {limit_mm:.2f} mm)"
        return Finding(DIFFERS, text, gap_mm=play)
    fits = "/".join(each.fit for each in (bore, spigot) if each.fit)
    text = f"pilot {sizes[0]}" + (f" {fits}" if fits else "") + (f", {_range(least, most)}" if made else "")
    if made and least < -ROUNDING_MM:
        weak.append(f"the spigot may be as much as {-least:.3f} mm larger than the bore")
    elif play < -ROUNDING_MM:
        weak.append(f"the spigot reads {-play:.2f} mm larger than the bore, within the reading error")
    if most > limit_mm + ROUNDING_MM:
        weak.append(f"the play may be as much as {most:.2f} mm")
    return Finding(AGREES, text, joined(*weak))


def _range(least: float, most: float) -> str:
    """The clearance from its least to its most; below nothing it is interference."""
    if least < -ROUNDING_MM:
        return f"{-least:.3f} mm interference to {max(most, 0.0):.3f} mm clearance"
    return f"{max(least, 0.0):.3f}-{most:.3f} mm clearance"


def _alike(a: Register, b: Register, limit_mm: float) -> Finding:
    """Two bores, or two spigots, of one standard."""
    one, other = a.bore or a.spigot, b.bore or b.spigot
    if one is None or other is None:
        return Finding(NOT_KNOWN, "")
    first, second = diameter(a, one), diameter(b, other)
    apart = max(first.low - second.high, second.low - first.high, 0.0)
    if apart > limit_mm + ROUNDING_MM:
        return Finding(DIFFERS, f"pilots {one.text} against {other.text}", gap_mm=apart)
    fits = [f" {each.fit}" if each.fit else "" for each in (first, second)]
    return Finding(AGREES, f"pilot {one.text}{fits[0] if fits[0] == fits[1] else ''}")
