"""What torque a shaft end carries: its maker's rating, or else about what shear of its root or its key allows.

A standard fixes a shaft's shape only; what it carries is its steel and its heat treatment, so a maker's figure wins wherever
there is one. Without it the estimate rests on the stress of the one rating that was found published. How hard the teeth bear on
each other is not reckoned: no source for a limit was found beyond the length of engagement, which `shaft` compares. Nor is the
grip of a taper.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import TYPE_CHECKING, NamedTuple

from interchange.catalog.figure import WEAK_BASES
from interchange.fit.finding import AGREES, DIFFERS, NOT_KNOWN, Finding, joined
from interchange.fit.shaft import has_key
from interchange.fit.spline_size import spline_size
from interchange.quantity import show

if TYPE_CHECKING:
    from interchange.catalog.figure import Figure
    from interchange.catalog.model import Shaft

SHEAR_MPA = 125.0
"""Sauer-Danfoss rate a 25-3 end (1 in, taper 1:8, no key) for 405 N·m (H1 045/053 technical information, p. 24): 126 MPa on its
large diameter. Their maximum is 540 N·m, 168 MPa. Another maker's ratings of splines, from memory, come to 155-166 MPa at the
root."""
KEYWAY_SHARE = 0.75
"""What a keyway leaves of a shaft's torque, from the old code for transmission shafting: from memory, unconfirmed."""
KEY_SHEAR_MPA = 100.0
"""Of plain key steel: about half its shear yield, 0.577 × 370 MPa. From memory, unconfirmed."""
SLACK = 1e-6


class Carried(NamedTuple):
    """Torque against shaft ends: the finding, and which of the ends have a rating that is clearly broken."""

    finding: Finding
    broken: tuple[int, ...] = ()


class Estimate(NamedTuple):
    """What a shaft carries by reckoning, and by shear of what."""

    torque_nm: float
    how: str


def shear_torque_nm(diameter_mm: float, stress_mpa: float = SHEAR_MPA) -> float:
    """The torque at which a solid round bar reaches a shear stress at its surface: τ π d³ / 16, newton metres."""
    return stress_mpa * math.pi * diameter_mm**3 / 16 / 1000


def key_torque_nm(shaft_mm: float, width_mm: float, length_mm: float, stress_mpa: float = KEY_SHEAR_MPA) -> float:
    """The torque at which one key reaches a shear stress across its width: τ w L d / 2, newton metres."""
    return stress_mpa * width_mm * length_mm * shaft_mm / 2 / 1000


def section_mm(shaft: Shaft) -> float | None:
    """The diameter of the solid bar inside a shaft end; None where it is not known.

    Of a spline its root, as measured or by formula, the smaller of flat and fillet root; of other ends their outside diameter.
    """
    if shaft.form in ("keyed", "taper", "plain"):
        return shaft.major.value if shaft.major else None
    if shaft.minor:
        return shaft.minor.value
    size = spline_size(shaft.spline) if shaft.spline and shaft.form == "involute" else None
    return size and (size.minor_external_fillet_mm or size.minor_external_mm)


def by_shear(shaft: Shaft) -> Estimate | None:
    """What a shaft end carries by shear; None where its size is not known. Two keys count as one: they do not share evenly."""
    diameter_mm = section_mm(shaft)
    if diameter_mm is None:
        return None
    keyed = has_key(shaft)
    torque_nm = shear_torque_nm(diameter_mm) * (KEYWAY_SHARE if keyed else 1.0)
    what = "root" if shaft.form in ("involute", "straight-sided") else "section beside the keyway" if keyed else "section"
    found = Estimate(torque_nm, f"shear of its {diameter_mm:.1f} mm {what} at {SHEAR_MPA:g} MPa")
    length = shaft.key_length or shaft.length
    if not (keyed and shaft.width and length):
        return found
    key_nm = key_torque_nm(diameter_mm, shaft.width.value, length.value)
    size = f"{shaft.width.value:.4g} × {length.value:.4g} mm"
    return min(found, Estimate(key_nm, f"shear of its {size} key at {KEY_SHEAR_MPA:g} MPa"))


def carries(ends: Sequence[Shaft | None], need: Figure | None) -> Carried:
    """Whether the ends of a joint carry a torque.

    Agrees with a text where they do; differs only where a maker's rating is broken by every reading, none of them weak; else what
    is doubtful is the caveat. Not known, and silent, where there is nothing to go by.
    """
    rated = [(i, end.torque) for i, end in enumerate(ends) if end and end.torque]
    if rated:
        return _by_rating(rated, need)
    estimates = [estimate for end in ends if end and (estimate := by_shear(end))]
    if need is None or not estimates:
        return Carried(Finding(NOT_KNOWN, ""))
    weakest = min(estimates)
    most_nm = max(reading.high for reading in need.readings)
    carried = f"about {_shown(weakest.torque_nm)} by {weakest.how}"
    if weakest.torque_nm < most_nm * (1 - SLACK):
        return Carried(Finding(NOT_KNOWN, "", f"carries {carried}; needs {_shown(most_nm)}: ask its maker"))
    times = weakest.torque_nm / most_nm
    return Carried(Finding(AGREES, f"carries {carried}, {times:.1f} times the {_shown(most_nm)} needed", need.caveat))


def _by_rating(rated: Sequence[tuple[int, Figure]], need: Figure | None) -> Carried:
    """A torque against the ratings of the ends that have one."""
    weakest = min((figure for _, figure in rated), key=lambda figure: figure.value)
    said = f"rated {_shown(weakest.value)} by its maker"
    if need is None:
        return Carried(Finding(NOT_KNOWN, "", joined(f"{said}; the torque needed is not known", weakest.caveat)))
    broken = tuple(i for i, figure in rated if _clearly_breaks(need, figure))
    said = f"{said}; needs {_shown(need.value)}"
    weak = joined(*dict.fromkeys((weakest.caveat, need.caveat)))
    if broken:
        return Carried(Finding(DIFFERS, said, weak), broken)
    if any(one.high > other.low * (1 + SLACK) for one in need.readings for _, figure in rated for other in figure.readings):
        return Carried(Finding(NOT_KNOWN, "", joined(said, weak)))
    return Carried(Finding(AGREES, said, weak))


def _clearly_breaks(need: Figure, rating: Figure) -> bool:
    """Whether every reading of a need is over every reading of a rating, and none of them rests on hearsay."""
    readings = (*need.readings, *rating.readings)
    if any(reading.origin.basis in WEAK_BASES for reading in readings):
        return False
    return all(one.low > other.high * (1 + SLACK) for one in need.readings for other in rating.readings)


def _shown(torque_nm: float) -> str:
    return show(torque_nm, "torque")
