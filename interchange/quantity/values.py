"""The values that reading gives, and the fault it raises."""

from __future__ import annotations

from typing import NamedTuple

LONGEST = 200  # characters; no figure a shop writes is longer, and a pasted page must not be searched for one
# What a phone or a word processor puts in place of the plain signs. One for one, so that positions stay true.
PLAIN_SIGNS = str.maketrans("’′”″–−⁄º⋅∙\u00a0\u2009\u202f", "''\"\"--/°··   ")


class QuantityError(ValueError):
    """Text that is not a quantity: `text` as given, `position` (from 0) of the piece at fault, `message` and `hint`."""

    def __init__(self, text: str, position: int, message: str, hint: str = "") -> None:
        super().__init__(f"{message} ({hint})" if hint else message)
        self.text = text
        self.position = position
        self.message = message
        self.hint = hint


class Quantity(NamedTuple):
    """A figure in the base unit of its dimension. A range has both ends, and its middle as value; `tolerance` is ±."""

    dimension: str
    value: float
    low: float | None
    high: float | None
    tolerance: float | None
    text: str


class Thread(NamedTuple):
    """A straight screw thread by its nominal major diameter and pitch, both in mm."""

    major_mm: float
    pitch_mm: float
    text: str


class Spline(NamedTuple):
    """An involute spline: its teeth, and either the diametral pitch (teeth per inch of pitch circle) or the module."""

    teeth: int
    diametral_pitch: float | None
    module_mm: float | None
    text: str


class Taper(NamedTuple):
    """The taper of a shaft end: how much of its diameter it loses in a length, 0.125 for 1:8."""

    ratio: float
    text: str


class Rating(NamedTuple):
    """An amount and the speed it is given at, if one was written."""

    amount: Quantity
    speed: Quantity | None
    text: str


def capped(text: str) -> str:
    """The text, unless it is too long to be a figure. Raises QuantityError."""
    if len(text) > LONGEST:
        raise QuantityError(text, LONGEST, f"{text[:40]!r} and more is too long", f"{LONGEST} characters are the most")
    return text
