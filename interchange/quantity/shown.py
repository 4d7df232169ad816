"""Figures as a person reads them."""

from __future__ import annotations

import math
from fractions import Fraction
from typing import TYPE_CHECKING

from interchange.quantity.units import DOLLARS, FT_LBF, GAL_L, HP, IN3, LB, PSI

if TYPE_CHECKING:
    from collections.abc import Callable

# How people read them: the size of one in base units, and what stands after it. Length, days and ratios have their own ways.
_SHOWN: dict[str, tuple[tuple[Fraction | int, str], ...]] = {
    "mass": ((LB, " lb"),), "torque": ((FT_LBF, " lb-ft"), (1, " N·m")), "power": ((HP, " hp"), (1, " kW")),
    "speed": ((1, " rpm"),), "angle": ((1, "°"),), "voltage": ((1, " V"),), "pressure": ((PSI, " psi"), (100, " bar")),
    "displacement": ((1, " cm3"), (IN3, " in3")), "flow": ((GAL_L, " gpm"), (1, " L/min")), "hours": ((1, " h"),),
    "count": ((1, ""),), "share": ((Fraction(1, 100), " %"),), "distance": ((1, " mi"),), "money": ((100, ""),),
    "rate_mile": ((100, " /mi"),), "rate_hour": ((100, " /h"),), "rate_day": ((100, " /day"),),
}  # fmt: skip
_CENTS_BELOW = 10  # $
_NEAR_MM = 0.05 + 1e-9  # what a fraction of an inch may be off the figure it is shown for


def show(
    value: float | None, dimension: str, *, low: float | None = None, high: float | None = None,
    tolerance: float | None = None,
) -> str:  # fmt: skip
    """A figure in base units as a person reads it: `428.63 mm (16-7/8 in)`, `$2,850`, `3 wk`; None is `not known`.

    A range is shown by its ends. Inches are a fraction only where a 32nd meets the value within 0.05 mm.
    """
    if value is None:
        return "not known"
    figures = (value,) if low is None or high is None else (low, high)

    def column(write: Callable[[float], str], size: Fraction | int, unit: str) -> str:
        text = " to ".join(write(float(figure / size)) for figure in figures)
        return text + (f" ± {write(float(tolerance / size))}" if tolerance is not None else "") + unit

    if dimension == "days":
        weeks = tolerance is None and all(figure and figure % 7 == 0 for figure in figures)
        return column(_rounded, 7, " wk") if weeks else column(_rounded, 1, " day" if figures == (1,) else " days")
    if dimension == "length":
        return f"{column(_hundredths, 1, ' mm')} ({column(_inches, 1, ' in')})"
    if dimension == "ratio":
        return column(_hundredths, 1, ":1")
    write = _dollars if dimension in DOLLARS else _rounded
    first, *others = (column(write, size, unit) for size, unit in _SHOWN[dimension])
    return f"{first} ({others[0]})" if others else first


def _decimals(number: float, places: int) -> str:
    """Rounded half up, as on paper (the built-in would round 428.625 to 428.62), without idle zeros."""
    text = f"{math.floor(abs(number) * 10**places + 0.5) / 10**places:,.{places}f}"
    text = text.rstrip("0").rstrip(".") if places else text
    return f"-{text}" if number < 0 and text != "0" else text


def _hundredths(number: float) -> str:
    return _decimals(number, 2)


def _rounded(number: float) -> str:
    """Three figures, or all of a whole number."""
    return _decimals(number, max(0, 3 - len(str(int(abs(number))))))


def _dollars(dollars: float) -> str:
    cents = abs(dollars) < _CENTS_BELOW and not float(dollars).is_integer()
    return f"{'-' if dollars < 0 else ''}$" + (f"{abs(dollars):.2f}" if cents else _decimals(abs(dollars), 0))


def _inches(mm: float) -> str:
    thirty_seconds = math.floor(abs(mm) / 25.4 * 32 + 0.5)
    if not thirty_seconds or abs(thirty_seconds * 25.4 / 32 - abs(mm)) > _NEAR_MM:
        return _decimals(mm / 25.4, 3)
    whole, part = divmod(thirty_seconds, 32)
    text = "-".join(str(piece) for piece in (whole, Fraction(part, 32)) if piece)
    return f"-{text}" if mm < 0 else text
