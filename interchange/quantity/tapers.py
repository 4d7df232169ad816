"""Tapers of shafts, as a shop writes them."""

from __future__ import annotations

import re
from fractions import Fraction

from interchange.quantity.reading import read_quantity
from interchange.quantity.values import PLAIN_SIGNS, QuantityError, Taper, capped

MM_PER_FOOT = 304.8
_RATIO = r"1 ?: ?([0-9]{1,3}(?:\.[0-9]{1,4})?)"
_PER_FOOT = r"(.{1,40}?)(?: per | ?/ ?)(?:ft|foot)"
HINT = "write 1:8, or 1-1/2 in per ft"


def read_taper(text: str) -> Taper:
    """A taper on the diameter: `1:8`, `1-1/2 in per ft` or `1.5 in/ft`, which are one. Raises `QuantityError`."""
    plain = capped(text).translate(PLAIN_SIGNS)
    before = len(plain) - len(plain.lstrip())
    written = plain.strip()
    if match := re.fullmatch(_RATIO, written):
        run = Fraction(match[1])
        if run < 1:
            raise QuantityError(text, before, f"{written!r} is no shaft's taper", HINT)
        return Taper(float(1 / run), text.strip())
    match = re.fullmatch(_PER_FOOT, written)
    if match is None:
        raise QuantityError(text, before, f"{written[:40]!r} is not a taper", HINT)
    try:
        rise = read_quantity(match[1], "length")
    except QuantityError as error:
        raise QuantityError(text, before + error.position, error.message, HINT) from error
    if rise.low is not None or not 0 < rise.value <= MM_PER_FOOT:
        raise QuantityError(text, before, f"{written!r} is no shaft's taper", HINT)
    return Taper(rise.value / MM_PER_FOOT, text.strip())
