"""One figure read from left to right: numbers, units, ranges, tolerances, ratings."""

from __future__ import annotations

import re
from fractions import Fraction
from functools import lru_cache
from typing import NamedTuple

from interchange.errors import InputError
from interchange.quantity.units import BARE, DIMENSIONS, DOLLARS, FT, IN, SIGNED, SPELLINGS, UNITS
from interchange.quantity.values import PLAIN_SIGNS, Quantity, QuantityError, Rating, capped

MOST_DIGITS = 15  # a float holds no more, and nobody measures more
_NO_FRACTIONS = DOLLARS | {"count"}
_INCHES_A_FOOT = 12
_TO = ("to", "TO")
_CASED = {"T", "M", "mPa"}  # a capital here would be another unit: never a guess

_PLAIN = re.compile(r"([0-9]{1,9})(?:[- ]([0-9]{1,4})/([0-9]{1,4})|\.([0-9]{1,9}))? ?([A-Za-z\"°]{1,5}3?)")
_BLANKS = re.compile(r"[ \t]*")
_NUMBER = re.compile(r"[0-9][0-9,]*(?:\.[0-9]+)?|\.[0-9]+")
_GROUPED = re.compile(r"[1-9][0-9]{0,2}(?:,[0-9]{3})+")
_MIXED = re.compile(r"(?:([0-9][0-9,]*)(-|[ \t]+))?([0-9]+)/([0-9]+)(?![0-9,/]|\.[0-9])")
_WORD = r"([A-Za-z]+(?:\^?3|³)?(?:\.(?![.0-9]))?)"
_UNIT = re.compile(rf"(/ ?|per )?{_WORD}(?:( ?/ ?| ?[·*] ?|-| ){_WORD})?|''|[\"'°%]|: ?1(?![0-9.,/])")
_RANGE = re.compile(r"[ \t]*(-|\.\.(?!\.)|(?:to|TO)\b)[ \t]*")
_PLUS_MINUS = re.compile(r"[ \t]*(?:±|\+/-)[ \t]*")
_SIGN = re.compile(r"[-+](?=[0-9.$U])")
_DOLLAR = re.compile(r"(?:US)?\$[ ]?|USD[ ]")
_AFTER_FEET = re.compile(r"(?:[ \t]*|(-))(?=[0-9]|\.[0-9])")
_TIR = re.compile(r"[ \t]*TIR\b")
_PIECE = re.compile(r"[^ \t]+")
_AT = re.compile(r"@|\b(?:at|AT)\b")


class _Amount(NamedTuple):
    """One figure as written: its size in units of `factor`, where it starts, if it has a sign, if feet and inches."""

    size: Fraction
    factor: Fraction | None
    at: int
    signed: bool
    compound: bool


def _named(dimension: str) -> str:
    return dimension.replace("rate_", "rate per ")


def units_read(dimension: str) -> str:
    """The units a dimension may be written in, for a hint or a manual page."""
    names = [names.split()[0] for names in SPELLINGS[dimension]]
    if dimension in BARE:
        names.append("a bare number")
    return f"{_named(dimension)} may be written in {' or '.join(filter(None, (', '.join(names[:-1]), names[-1])))}"


class _Reader:
    """Reads one figure from left to right; `at` is how far it has come."""

    __slots__ = ("at", "dimension", "end", "given", "text")

    def __init__(self, given: str, dimension: str, at: int, end: int) -> None:
        if dimension not in DIMENSIONS:
            raise InputError(f"no dimension is called {dimension!r}", f"there are {', '.join(DIMENSIONS)}")
        self.given = given
        self.text = given.translate(PLAIN_SIGNS)
        self.dimension = dimension
        self.at = at
        self.end = end

    def fault(self, at: int, message: str, hint: str = "") -> QuantityError:
        return QuantityError(self.given, at, message, hint or units_read(self.dimension))

    def take(self, pattern: re.Pattern[str]) -> re.Match[str] | None:
        match = pattern.match(self.text, self.at, self.end)
        if match:
            self.at = match.end()
        return match

    def piece(self, at: int) -> str:
        """What stands at a place up to the next blank, quoted."""
        match = _PIECE.match(self.text, at, self.end)
        return repr(self.given[at : match.end()][:40]) if match else "nothing"

    def onward(self, at: int) -> str:
        return repr(self.given[at : self.end].rstrip(" \t")[:40])

    def whole(self, digits: str, at: int) -> int:
        if "," in digits and not _GROUPED.fullmatch(digits):
            raise self.fault(at, f"{digits[:40]!r} has a comma out of place", "write 1,360 or 1.36")
        if len(digits) > MOST_DIGITS:
            raise self.fault(at, f"{digits[:40]!r} is too long a number", f"{MOST_DIGITS} characters are the most")
        return int(digits.replace(",", ""))

    def numeral(self) -> Fraction:
        """A whole number, a decimal, a fraction or a mixed number."""
        at = self.at
        if self.dimension not in _NO_FRACTIONS and (match := self.take(_MIXED)):
            return self.mixed(match)
        match = self.take(_NUMBER)
        if match is None:
            raise self.fault(at, f"{self.piece(at)} is where a number should be")
        digits, _, decimals = match[0].partition(".")
        most = 2 if self.dimension == "money" else MOST_DIGITS  # $1.234 is somebody's 1,234
        if len(decimals) > most:
            raise self.fault(at, f"{match[0][:40]!r} has more than {most} decimals", "thousands take a comma")
        return self.whole(digits or "0", at) + Fraction(int(decimals or 0), 10 ** len(decimals))

    def mixed(self, match: re.Match[str]) -> Fraction:
        """16-7/8, 16 7/8 or 7/8."""
        at = match.start(3)
        top, bottom = self.whole(match[3], at), self.whole(match[4], match.start(4))
        fraction = f"'{match[3]}/{match[4]}'"
        if bottom == 0:
            raise self.fault(at, f"{fraction} divides by zero", "write a fraction such as 7/8")
        whole = self.whole(match[1] or "0", match.start())
        if match[1] and top >= bottom:
            raise self.fault(at, f"{fraction} is not a proper fraction", "write 16-7/8, or a range with 'to'")
        if match[2] == "-" and whole == 0:
            raise self.fault(match.start(), f"{match[0]!r} may be a range or a fraction", "write 3/4, or 0 to 3/4")
        return whole + Fraction(top, bottom)

    def unit(self) -> Fraction | None:
        """The factor of the unit that follows, or None where the next thing is no unit."""
        self.take(_BLANKS)
        match = _UNIT.match(self.text, self.at, self.end)
        if match is None or (match[2] in _TO and not match[1]):
            return None
        keys = _keys(match)
        for key, end in keys:
            if key in UNITS[self.dimension]:
                self.at = end
                return UNITS[self.dimension][key]
        for key, end in keys:
            for dimension, units in UNITS.items():
                if key in units:
                    written = repr(self.given[self.at : end])
                    raise self.fault(self.at, f"{written} measures {_named(dimension)}, not {_named(self.dimension)}")
        raise self.fault(self.at, f"{self.piece(self.at)} is not a unit of {_named(self.dimension)}")

    def amount(self) -> _Amount:
        """One figure with its sign and unit, or feet and inches together."""
        self.take(_BLANKS)
        at = self.at
        sign = self.take(_SIGN)
        if sign and self.dimension not in SIGNED:
            raise self.fault(at, f"{self.piece(at)} has a sign", f"{_named(self.dimension)} is written without one")
        if self.dimension in DOLLARS:
            self.take(_DOLLAR)
        size, factor = self.numeral(), self.unit()
        inches = self.inches_after(size) if factor == FT and self.dimension == "length" else None
        if inches is not None:
            size, factor = size * _INCHES_A_FOOT + inches, IN
        return _Amount(-size if sign and sign[0] == "-" else size, factor, at, sign is not None, inches is not None)

    def inches_after(self, feet: Fraction) -> Fraction | None:
        """The 3-1/2" of 4' 3-1/2" or 4'-3-1/2". A hyphen joins only what could not be a range, as 1'-18" is."""
        mark = self.at
        joint = self.take(_AFTER_FEET)
        if joint is None:
            return None
        at = self.at
        inches, factor = self.numeral(), self.unit()
        joins = factor == IN and inches < _INCHES_A_FOOT and feet.denominator == 1
        if joins and (feet or not joint[1]):
            return inches
        if joint[1] and not joins:
            self.at = mark
            return None
        raise self.fault(at, f"{self.onward(at)} does not go with the feet before it", "write 4' 3-1/2\"")

    def read(self) -> Quantity:
        """The whole figure: a value or a range, then a tolerance."""
        first, second = self.amount(), None
        mark = self.take(_RANGE)
        if mark:
            second = self.amount()
            if mark[1] == "-" and (first.signed or second.signed):
                raise self.fault(mark.start(1), "'-' between signed figures may be a sign", "write 'to': -3 to 5 mm")
        if self.dimension == "length":
            self.take(_TIR)
        tolerance = self.amount() if self.take(_PLUS_MINUS) else None
        self.take(_BLANKS)
        if self.at < self.end:
            hint = "write 4.10:1, or the teeth as 41/10" if self.dimension == "ratio" else "one figure or one range is read"
            raise self.fault(self.at, f"{self.onward(self.at)} is left over", hint)
        if tolerance and (second or tolerance.signed):
            raise self.fault(tolerance.at, f"{self.onward(tolerance.at)} is no tolerance", "write 16-7/8 in ±1/16 in")
        low = self.in_base(first, second or (None if self.dimension in BARE else tolerance))
        text = self.given[first.at : self.end].rstrip()
        if second is None:
            self.check(first, low)
            plus_minus = float(self.in_base(tolerance, first)) if tolerance else None
            return Quantity(self.dimension, float(low), None, None, plus_minus, text)
        if first.factor and not second.factor:
            raise self.fault(second.at, f"{self.piece(second.at)} has no unit", "write it after the range")
        high = self.in_base(second, None)
        if low > high:
            raise self.fault(first.at, f"the range {self.onward(first.at)} runs downwards", "write the lower end first")
        self.check(first, low)
        self.check(second, high)
        return Quantity(self.dimension, float((low + high) / 2), float(low), float(high), None, text)

    def in_base(self, amount: _Amount, lender: _Amount | None) -> Fraction:
        """The size in the base unit. A figure without a unit takes its neighbour's, save that of feet and inches."""
        factor = amount.factor
        if factor is None and lender and not lender.compound:
            factor = lender.factor
        if factor is None:
            factor = BARE.get(self.dimension)
        if factor is None:
            raise self.fault(amount.at, f"{self.piece(amount.at)} has no unit")
        return amount.size * factor

    def check(self, amount: _Amount, size: Fraction) -> None:
        if self.dimension == "share" and size > 1:
            raise self.fault(amount.at, f"{self.piece(amount.at)} is more than the whole", "write 0.07 or 7 %")
        if self.dimension == "ratio" and not size:
            raise self.fault(amount.at, f"{self.piece(amount.at)} is no ratio", "write 4.10:1, or the teeth as 41/10")
        if self.dimension == "count" and size.denominator != 1:
            raise self.fault(amount.at, f"{self.piece(amount.at)} is not a whole number", "a count is written 12")


def _keys(match: re.Match[str]) -> list[tuple[str, int]]:
    """How a written unit may be spelt in the tables, longest first, and where each reading ends."""
    if match[2] is None:
        return [(match[0].replace(" ", ""), match.end())]
    if match[2].rstrip(".") in _CASED:
        return []
    words = [word and word.replace(".", "").replace("^", "").replace("³", "3").lower() for word in (match[2], match[4])]
    first = ("/" if match[1] else "") + words[0]
    if words[1] is None:
        return [(first, match.end())]
    return [(first + ("/" if "/" in match[3] else "·") + words[1], match.end()), (first, match.end(2))]


def _plain(text: str, dimension: str) -> Quantity | None:
    """The common shapes (12 mm, 16.875 in, 16-7/8 in) in one match; None for any other, and where a unit may lack."""
    match = None if dimension in BARE else _PLAIN.fullmatch(text)
    if match is None:
        return None
    whole, top, bottom, decimals, unit = match.groups()
    factor = UNITS.get(dimension, {}).get(unit)
    if factor is None:
        return None
    # A quotient of whole numbers is rounded once, as float(Fraction) is.
    numerator, denominator = int(whole), 1
    if top is not None:
        numerator, denominator = int(whole) * int(bottom) + int(top), int(bottom)
        if int(whole) == 0 or int(top) >= denominator:
            return None
    elif decimals is not None:
        denominator = 10 ** len(decimals)
        numerator = int(whole) * denominator + int(decimals)
    value = numerator * factor.numerator / (denominator * factor.denominator)
    return Quantity(dimension, value, None, None, None, text)


@lru_cache(maxsize=16384)
def read_quantity(text: str, dimension: str) -> Quantity:
    """The figure in `text`, in the base unit of `dimension` (see `DIMENSIONS`).

    Raises `QuantityError` for text that is no such figure, or could be meant in two ways; `InputError` for a dimension
    that does not exist.
    """
    return _plain(text, dimension) or _Reader(capped(text), dimension, 0, len(text)).read()


@lru_cache(maxsize=4096)
def read_rating(text: str, dimension: str) -> Rating:
    """An amount of `dimension`, alone or at a speed: `62 hp @ 2200 rpm`, `178 lb-ft`. Raises as `read_quantity` does."""
    mark = _AT.search(capped(text))
    amount = _Reader(text, dimension, 0, mark.start() if mark else len(text)).read()
    speed = _Reader(text, "speed", mark.end(), len(text)).read() if mark else None
    return Rating(amount, speed, text.strip())
