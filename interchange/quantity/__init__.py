"""What a shop writes, read exactly: `16-7/8 in`, `3/8-16`, `14T 12/24`, `62 hp @ 2200 rpm`, `4.10:1`, `$200-700`, `1-3 wk`.

Sums are done in whole fractions and turned into a float once, at the end. Nothing is guessed: text that can be meant
in two ways is a `QuantityError` that says which piece, where, and how to write it instead.

A hyphen makes a mixed number of a whole number from 1 up and a proper fraction (`16-7/8 in`: as a range it would run
downwards), and a range of anything else (`16-18 in`, `1/2-3/4 in`, `1-1/2-1-3/4 in`). A comma is the US thousands mark.
A ratio is how often the driving side turns for once of the driven: `4.10:1`, `4.10`, or the teeth as `41/10`.
A ton is the short ton of 2,000 lb; `t` and `tonne` are metric. A month is 30.4375 days, a year 365.25.
"""

from __future__ import annotations

from interchange.quantity.reading import MOST_DIGITS, read_quantity, read_rating, units_read
from interchange.quantity.shown import show
from interchange.quantity.tapers import read_taper
from interchange.quantity.threads import read_spline, read_thread
from interchange.quantity.units import DIMENSIONS, SPELLINGS, UNITS
from interchange.quantity.values import LONGEST, Quantity, QuantityError, Rating, Spline, Taper, Thread

__all__ = [
    "DIMENSIONS", "LONGEST", "MOST_DIGITS", "SPELLINGS", "UNITS", "Quantity", "QuantityError", "Rating", "Spline", "Taper",
    "Thread", "read_quantity", "read_rating", "read_spline", "read_taper", "read_thread", "show", "units_read",
]  # fmt: skip
