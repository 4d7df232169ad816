"""What a shop writes, read exactly: `16-7/8 in`, `3/8-16`, `14T 12/24`, `62 hp @ 2200 rpm`, `$200-700`, `1-3 wk`.

Sums are done in whole fractions and turned into a float once, at the end. Nothing is guessed: text that can be meant
in two ways is a `QuantityError` that says which piece, where, and how to write it instead.

A hyphen makes a mixed number of a whole number from 1 up and a proper fraction (`16-7/8 in`: as a range it would run
downwards), and a range of anything else (`16-18 in`, `1/2-3/4 in`, `1-1/2-1-3/4 in`). A comma is the US thousands mark.
A ton is the short ton of 2,000 lb; `t` and `tonne` are metric. A month is 30.4375 days, a year 365.25.
"""

from __future__ import annotations

import math
import re
from fractions import Fraction
from functools import lru_cache
from typing import TYPE_CHECKING, NamedTuple

from interchange.errors import InputError

if TYPE_CHECKING:
    from collections.abc import Callable

LONGEST = 200  # characters; no figure a shop writes is longer, and a pasted page must not be searched for one

MOST_DIGITS = 15  # a float holds no more, and nobody measures more

# The exact definitions all else follows from (NIST SP 811, appendix B, from memory). Years are Julian.
_IN = Fraction("25.4")  # mm
_FT = 12 * _IN
_MI = Fraction("1.609344")  # km
_LB = Fraction("0.45359237")  # kg
_G = Fraction("9.80665")  # m/s2
_FT_LBF = _LB * _G * _FT / 1000  # N·m
_HP = 550 * _FT_LBF / 1000  # kW
_PS = 75 * _G / 1000  # kW: the metric horsepower, 75 kgf·m/s
_PSI = _LB * _G / (_IN * _IN) * 1000  # kPa
_IN3 = _IN**3 / 1000  # cm3
_GAL_L = 231 * _IN3 / 1000  # L: the US gallon
_YEAR = Fraction("365.25")  # d; a month is a twelfth of it

DIMENSIONS = {
    "length": "mm", "mass": "kg", "torque": "N·m", "power": "kW", "speed": "rpm", "angle": "deg", "voltage": "V",
    "pressure": "kPa", "displacement": "cm3", "flow": "L/min", "money": "cents", "hours": "h", "days": "d",
    "count": "1", "share": "1", "distance": "mi",
    "rate_mile": "cents/mi", "rate_hour": "cents/h", "rate_day": "cents/d",
}  # fmt: skip
"""Each dimension and the base unit its values are in."""

# Spellings in lower case; the first is the one shown in hints. A `·` stands for a dot, a hyphen, a `*` or a blank.
_SPELLINGS: dict[str, dict[str, Fraction | int]] = {
    "length": {"mm": 1, "cm": 10, "m": 1000, "in inch inches \" ''": _IN, "ft foot feet '": _FT, "thou": _IN / 1000},
    "mass": {
        "lb lbs pound pounds": _LB, "kg kilo kilos": 1, "ton tons short·ton short·tons": 2000 * _LB,
        "t tonne tonnes metric·ton metric·tons": 1000,
    },
    "torque": {
        "lb-ft lb·ft lbs·ft lbf·ft ft·lb ft·lbs ft·lbf": _FT_LBF, "N·m n·m nm": 1,
        "lb-in lb·in lbf·in in·lb in·lbs in·lbf": _FT_LBF / 12,
    },
    "power": {"hp bhp": _HP, "kW kw": 1, "PS ps metric·hp": _PS},
    "speed": {"rpm r/min rev/min": 1},
    "angle": {"deg degree degrees °": 1},
    "voltage": {"V v volt volts": 1},
    "pressure": {"psi": _PSI, "bar": 100, "MPa mpa": 1000, "kPa kpa": 1},
    "displacement": {
        "in3 cu·in cuin cubic·inch cubic·inches ci cid in3/rev": _IN3, "cc cm3 ccm cc/rev cm3/rev": 1,
        "L l liter liters litre litres": 1000,
    },
    "flow": {"gpm us·gpm gal/min": _GAL_L, "L/min l/min lpm": 1},
    "money": {"$ usd dollar dollars": 100},
    "hours": {"h hr hrs hour hours": 1, "min minute minutes": Fraction(1, 60)},
    "days": {
        "days d day": 1, "wk wks week weeks": 7, "months month mo": _YEAR / 12, "years year yr": _YEAR,
    },
    "count": {"holes hole": 1, "teeth tooth": 1, "bolts bolt": 1, "pcs pc": 1},
    "share": {"% percent": Fraction(1, 100)},
    "distance": {"mi mile miles": 1, "km": 1 / _MI},
    "rate_mile": {"/mi /mile": 100, "/km": 100 * _MI},
    "rate_hour": {"/h /hr /hour": 100},
    "rate_day": {"/day /d": 100, "/wk /week": Fraction(100, 7)},
}  # fmt: skip
_UNITS = {
    dimension: {spelling: Fraction(size) for names, size in rows.items() for spelling in names.split()}
    for dimension, rows in _SPELLINGS.items()
}
# How people read them: the size of one in base units, and what stands after it. Length and days have their own ways.
_SHOWN: dict[str, tuple[tuple[Fraction | int, str], ...]] = {
    "mass": ((_LB, " lb"),), "torque": ((_FT_LBF, " lb-ft"), (1, " N·m")), "power": ((_HP, " hp"), (1, " kW")),
    "speed": ((1, " rpm"),), "angle": ((1, "°"),), "voltage": ((1, " V"),), "pressure": ((_PSI, " psi"), (100, " bar")),
    "displacement": ((1, " cm3"), (_IN3, " in3")), "flow": ((_GAL_L, " gpm"), (1, " L/min")), "hours": ((1, " h"),),
    "count": ((1, ""),), "share": ((Fraction(1, 100), " %"),), "distance": ((1, " mi"),), "money": ((100, ""),),
    "rate_mile": ((100, " /mi"),), "rate_hour": ((100, " /h"),), "rate_day": ((100, " /day"),),
}  # fmt: skip
_DOLLARS = {"money", "rate_mile", "rate_hour", "rate_day"}
# What a number without a unit is: dollars (per the mile, hour or day its place is for), a share or a count.
_BARE = {"share": Fraction(1), "count": Fraction(1)} | dict.fromkeys(_DOLLARS, Fraction(100))
_SIGNED = {"length", "angle"}
_NO_FRACTIONS = _DOLLARS | {"count"}
_TEETH = range(4, 201)
_LARGEST_WHOLE, _FINEST_WHOLE = 4, 20  # in, threads an inch: 10-32 and 4-40 are numbered sizes, not 10 and 4 in
_INCHES_A_FOOT = 12
_CENTS_BELOW = 10  # $
_NEAR_MM = 0.05 + 1e-9  # what a fraction of an inch may be off the figure it is shown for
_TO = ("to", "TO")
_CASED = {"T", "M", "mPa"}  # a capital here would be another unit: never a guess

_PLAIN = re.compile(r"([0-9]{1,9})(?:[- ]([0-9]{1,4})/([0-9]{1,4})|\.([0-9]{1,9}))? ?([A-Za-z\"°]{1,5}3?)")
_BLANKS = re.compile(r"[ \t]*")
_NUMBER = re.compile(r"[0-9][0-9,]*(?:\.[0-9]+)?|\.[0-9]+")
_GROUPED = re.compile(r"[1-9][0-9]{0,2}(?:,[0-9]{3})+")
_MIXED = re.compile(r"(?:([0-9][0-9,]*)(-|[ \t]+))?([0-9]+)/([0-9]+)(?![0-9,/]|\.[0-9])")
_WORD = r"([A-Za-z]+(?:\^?3|³)?(?:\.(?![.0-9]))?)"
_UNIT = re.compile(rf"(/ ?|per )?{_WORD}(?:( ?/ ?| ?[·*] ?|-| ){_WORD})?|''|[\"'°%]")
_RANGE = re.compile(r"[ \t]*(-|\.\.(?!\.)|(?:to|TO)\b)[ \t]*")
_PLUS_MINUS = re.compile(r"[ \t]*(?:±|\+/-)[ \t]*")
_SIGN = re.compile(r"[-+](?=[0-9.$U])")
_DOLLAR = re.compile(r"(?:US)?\$[ ]?|USD[ ]")
_AFTER_FEET = re.compile(r"(?:[ \t]*|(-))(?=[0-9]|\.[0-9])")
_TIR = re.compile(r"[ \t]*TIR\b")
_PIECE = re.compile(r"[^ \t]+")
_AT = re.compile(r"@|\b(?:at|AT)\b")
# Compiled at first use, for start-up.
_THREAD = (
    r"[ \t]*(?:M([0-9]{1,3}(?:\.[0-9])?) ?[x×*X] ?([0-9]{1,2}(?:\.[0-9]{1,2})?)(?:-[4-8][GgHh])?|"
    r"(?:#([0-9]|1[0-4])|(?=[0-9])([0-9]{1,2}(?![0-9/]))?(?:[- ]?([0-9]{1,2})/([1-9][0-9]{0,2}))?)(?:\"| in)?"
    r" ?- ?([1-9][0-9]?)(?: ?UN(?:C|F|S|EF)?)?(?:-[123][AB])?)[ \t]*"
)
_SPLINE = (
    r"[ \t]*([0-9]{1,3})[ -]?(?:T|t|teeth|tooth),? ?"
    r"(?:([1-9][0-9]?(?:\.5)?)/([0-9]{1,3})|(?:m|mod|module) ?([1-9][0-9]?(?:\.[0-9]{1,2})?|0\.[1-9][0-9]?))[ \t]*"
)
# What a phone or a word processor puts in place of the plain signs. One for one, so that positions stay true.
_PLAIN_SIGNS = str.maketrans("’′”″–−⁄º⋅∙\u00a0\u2009\u202f", "''\"\"--/°··   ")


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


class Rating(NamedTuple):
    """An amount and the speed it is given at, if one was written."""

    amount: Quantity
    speed: Quantity | None
    text: str


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
    names = [names.split()[0] for names in _SPELLINGS[dimension]]
    if dimension in _BARE:
        names.append("a bare number")
    return f"{_named(dimension)} may be written in {' or '.join(filter(None, (', '.join(names[:-1]), names[-1])))}"


class _Reader:
    """Reads one figure from left to right; `at` is how far it has come."""

    __slots__ = ("at", "dimension", "end", "given", "text")

    def __init__(self, given: str, dimension: str, at: int, end: int) -> None:
        if dimension not in DIMENSIONS:
            raise InputError(f"no dimension is called {dimension!r}", f"there are {', '.join(DIMENSIONS)}")
        self.given = given
        self.text = given.translate(_PLAIN_SIGNS)
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
            if key in _UNITS[self.dimension]:
                self.at = end
                return _UNITS[self.dimension][key]
        for key, end in keys:
            for dimension, units in _UNITS.items():
                if key in units:
                    written = repr(self.given[self.at : end])
                    raise self.fault(self.at, f"{written} measures {_named(dimension)}, not {_named(self.dimension)}")
        raise self.fault(self.at, f"{self.piece(self.at)} is not a unit of {_named(self.dimension)}")

    def amount(self) -> _Amount:
        """One figure with its sign and unit, or feet and inches together."""
        self.take(_BLANKS)
        at = self.at
        sign = self.take(_SIGN)
        if sign and self.dimension not in _SIGNED:
            raise self.fault(at, f"{self.piece(at)} has a sign", f"{_named(self.dimension)} is written without one")
        if self.dimension in _DOLLARS:
            self.take(_DOLLAR)
        size, factor = self.numeral(), self.unit()
        inches = self.inches_after(size) if factor == _FT and self.dimension == "length" else None
        if inches is not None:
            size, factor = size * _INCHES_A_FOOT + inches, _IN
        return _Amount(-size if sign and sign[0] == "-" else size, factor, at, sign is not None, inches is not None)

    def inches_after(self, feet: Fraction) -> Fraction | None:
        """The 3-1/2" of 4' 3-1/2" or 4'-3-1/2". A hyphen joins only what could not be a range, as 1'-18" is."""
        mark = self.at
        joint = self.take(_AFTER_FEET)
        if joint is None:
            return None
        at = self.at
        inches, factor = self.numeral(), self.unit()
        joins = factor == _IN and inches < _INCHES_A_FOOT and feet.denominator == 1
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
            raise self.fault(self.at, f"{self.onward(self.at)} is left over", "one figure or one range is read")
        if tolerance and (second or tolerance.signed):
            raise self.fault(tolerance.at, f"{self.onward(tolerance.at)} is no tolerance", "write 16-7/8 in ±1/16 in")
        low = self.in_base(first, second or (None if self.dimension in _BARE else tolerance))
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
            factor = _BARE.get(self.dimension)
        if factor is None:
            raise self.fault(amount.at, f"{self.piece(amount.at)} has no unit")
        return amount.size * factor

    def check(self, amount: _Amount, size: Fraction) -> None:
        if self.dimension == "share" and size > 1:
            raise self.fault(amount.at, f"{self.piece(amount.at)} is more than the whole", "write 0.07 or 7 %")
        if self.dimension == "count" and size.denominator != 1:
            raise self.fault(amount.at, f"{self.piece(amount.at)} is not a whole number", "a count is written 12")


def _keys(match: re.Match[str]) -> list[tuple[str, int]]:
    """How a written unit may be spelt in the tables, longest first, and where each reading ends."""
    if match[2] is None:
        return [(match[0], match.end())]
    if match[2].rstrip(".") in _CASED:
        return []
    words = [word and word.replace(".", "").replace("^", "").replace("³", "3").lower() for word in (match[2], match[4])]
    first = ("/" if match[1] else "") + words[0]
    if words[1] is None:
        return [(first, match.end())]
    return [(first + ("/" if "/" in match[3] else "·") + words[1], match.end()), (first, match.end(2))]


def _plain(text: str, dimension: str) -> Quantity | None:
    """The common shapes (12 mm, 16.875 in, 16-7/8 in) in one match; None for any other, and where a unit may lack."""
    match = None if dimension in _BARE else _PLAIN.fullmatch(text)
    if match is None:
        return None
    whole, top, bottom, decimals, unit = match.groups()
    factor = _UNITS.get(dimension, {}).get(unit)
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


def _capped(text: str) -> str:
    if len(text) > LONGEST:
        raise QuantityError(text, LONGEST, f"{text[:40]!r} and more is too long", f"{LONGEST} characters are the most")
    return text


def _form(pattern: str, text: str, name: str, hint: str) -> re.Match[str]:
    match = re.fullmatch(pattern, _capped(text).translate(_PLAIN_SIGNS))
    if match is None:
        raise QuantityError(text, len(text) - len(text.lstrip()), f"{text.strip()[:40]!r} is not a {name}", hint)
    return match


@lru_cache(maxsize=16384)
def read_quantity(text: str, dimension: str) -> Quantity:
    """The figure in `text`, in the base unit of `dimension` (see `DIMENSIONS`).

    Raises `QuantityError` for text that is no such figure, or could be meant in two ways; `InputError` for a dimension
    that does not exist.
    """
    return _plain(text, dimension) or _Reader(_capped(text), dimension, 0, len(text)).read()


@lru_cache(maxsize=4096)
def read_rating(text: str, dimension: str) -> Rating:
    """An amount of `dimension`, alone or at a speed: `62 hp @ 2200 rpm`, `178 lb-ft`. Raises as `read_quantity` does."""
    mark = _AT.search(_capped(text))
    amount = _Reader(text, dimension, 0, mark.start() if mark else len(text)).read()
    speed = _Reader(text, "speed", mark.end(), len(text)).read() if mark else None
    return Rating(amount, speed, text.strip())


@lru_cache(maxsize=4096)
def read_thread(text: str) -> Thread:
    """A straight thread: `3/8-16`, `1-1/16-12 UN`, `#10-32` or `M12x1.75` (never M12 alone). Raises `QuantityError`.

    A numbered size is 0.060 in + 0.013 in times its number (the rule of ASME B1.1, from memory). A pitch of a third of
    the diameter is no thread's: the coarsest standard ones stay under a quarter (from memory).
    """
    hint = "write 3/8-16, #10-32 or M12x1.75; pipe threads are not read"
    match = _form(_THREAD, text, "thread", hint)
    metric, pitch_mm, number, whole, top, bottom, per_inch = match.groups()
    written = repr(match[0].strip())
    if metric:
        major, pitch = Fraction(metric), Fraction(pitch_mm)
    else:
        inches = int(whole or 0) + Fraction(int(top or 0), int(bottom or 1))
        if number:
            inches = Fraction("0.060") + int(number) * Fraction("0.013")
        elif top and int(top) >= int(bottom):
            raise QuantityError(text, match.start(5), f"'{top}/{bottom}' is not a proper fraction", hint)
        elif not top and (inches > _LARGEST_WHOLE or int(per_inch) > _FINEST_WHOLE):
            raise QuantityError(text, match.start(4), f"{written} may be a numbered size", hint)
        major, pitch = inches * _IN, _IN / Fraction(per_inch)
    if not 0 < 3 * pitch < major:
        raise QuantityError(text, match.start(2 if metric else 7), f"{written} has a pitch that no thread has", hint)
    return Thread(float(major), float(pitch), text.strip())


@lru_cache(maxsize=4096)
def read_spline(text: str) -> Spline:
    """An involute spline: `14T 12/24` (pitch over stub pitch, its double) or `20T m2`. Raises `QuantityError`."""
    hint = "write 14T 12/24 or, metric, 20T m2"
    match = _form(_SPLINE, text, "spline", hint)
    teeth, pitch, stub, module = match.groups()
    if int(teeth) not in _TEETH:
        raise QuantityError(text, match.start(1), f"{teeth!r} teeth are not those of a spline", "4 to 200 are read")
    if pitch and Fraction(stub) != 2 * Fraction(pitch):
        raise QuantityError(text, match.start(2), f"'{pitch}/{stub}' is not a pitch over its double", hint)
    return Spline(int(teeth), float(pitch) if pitch else None, float(module) if module else None, text.strip())


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
    write = _dollars if dimension in _DOLLARS else _rounded
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
