"""Numbers in an ad, and what each of them is: money, hours, a year, a weight, a telephone, or none of these."""

from __future__ import annotations

import functools
import re
from bisect import bisect_right
from collections.abc import Sequence
from typing import NamedTuple

from interchange.ads.fields import Span

_SEPARATED = r"[0-9]+(?:[.,'’][0-9]+)*"
NUMBER = re.compile(rf"(?<![A-Za-z0-9_]){_SEPARATED}")

# Longest first. A dollar sign before the digits means money, so a telephone never begins after one.
_PHONE = re.compile(
    r"(?<![\w$€£.,-])(?:"
    r"(?:\+?1[-. ]{0,2})?(?:\([0-9]{3}\)|[0-9]{3})[-./ ]{0,3}[0-9]{3}[-. ]{1,2}[0-9]{4}"
    r"|(?:1[-. ]?)?[0-9]{10}"
    r"|\+[0-9]{1,3}(?:[ /()-]{1,2}[0-9]{2,8}){2,5}"
    r"|[0-9]{3}-[0-9]{4}"
    r")(?![\w$€£]|[.,-][0-9])"
)
_DIGIT_WORD = r"(?:zero|oh|one|two|three|four|five|six|seven|eight|nine|[0-9]{1,4})"
_SPOKEN_PHONE = re.compile(rf"(?<![\w$]){_DIGIT_WORD}(?:[-. ]{{1,3}}{_DIGIT_WORD}){{2,10}}(?!\w)", re.IGNORECASE)
_SPOKEN = {
    "zero": "0", "oh": "0", "one": "1", "two": "2", "three": "3", "four": "4", "five": "5",
    "six": "6", "seven": "7", "eight": "8", "nine": "9",
}  # fmt: skip

_DATE_OR_TIME = re.compile(
    r"(?<![\w$./-])(?:[0-9]{4}-[0-9]{2}-[0-9]{2}(?:T[0-9:.]{5,12}Z?)?|[0-9]{1,2}/[0-9]{1,2}/(?:[0-9]{4}|[0-9]{2})"
    r"|[0-9]{1,2}:[0-9]{2}(?::[0-9]{2})?(?: ?[ap]\.?m\b\.?)?|[0-9]{1,2} ?[ap]\.?m\b\.?)(?![\w/-])",
    re.IGNORECASE,
)
_ADDRESS = re.compile(r"\b(?:https?://|www\.)[^\s<>]{1,500}|[\w.+-]{1,64}@[\w-]{1,64}\.[\w.-]{2,64}")
_LABELLED = re.compile(
    r"\b(?P<label>serial(?: ?(?:no|num|number))?|s/n|sn|vin|pin|esn|stock(?: ?(?:no|num|number))?|stk|part"
    r"(?:s)? ?(?:no|num|number)|p/n|pn"
    r"|cast(?:ing)?(?: ?(?:no|num|number|code))?|arrangement(?: ?(?:no|num|number))?|post(?:ing)? id"
    r"|item ?(?:no|num|number|id)|ad ?id|lot|build code)"
    r"(?P<mark>[ \t]{0,2}(?:[.:#]|is\b|=){1,2}[ \t]{0,2}#?|[ \t]{1,2})"
    r"(?P<id>[A-Za-z0-9][A-Za-z0-9./-]{2,30})",
    re.IGNORECASE,
)
AREA_CODE = "area_code"
_AREA_CODE = re.compile(
    r"\barea code[ \t:(]{1,3}(?P<after>[2-9][0-9]{2})\b|(?<![\w$.-])(?P<before>[2-9][0-9]{2})[ ]area\b", re.IGNORECASE
)
_LABELS = {
    "s": "serial", "v": "serial", "e": "serial", "p": "part_number", "c": "casting_number", "a": "arrangement", "i": "listing_id",
    "l": "listing_id", "b": "build_code",
}  # fmt: skip

_UNITS: tuple[tuple[str, str], ...] = (
    ("hours", (
        r"(?:(?:original|actual|total|engine|meter|operating|orig\.?|real|honest|true|running|run|tach"
        r"|machine)[ ])?(?:hours?|hrs?|horas|heures|stunden)\b|h\b|std\b"
    )),
    ("feet_pounds", r"(?:ft|foot|lb)[-. ]{0,2}(?:lbs?|pounds?|ft)\b"),
    ("pounds", r"lbs?\b|pounds?\b|\#(?![\w])"),
    ("kilograms", r"kgs?\b|kilos?\b|kilograms?\b"),
    ("tons", r"tons?\b|tonnes?\b"),
    ("power_hp", r"hp\b|h\.p\.|horse(?:power)?\b|bhp\b"),
    ("power_kw", r"kw\b"),
    ("volts", r"v(?:olts?|dc)?\b"),
    ("rpm", r"rpms?\b|r/min"),
    ("cylinders", r"cyl(?:inders?)?\b"),
    ("litres", r"l(?:iters?|itres?|tr)?\b(?!['’])"),
    ("cubic_inches", r"c\.?i\.?d?\.?(?![a-z])|cubic inch\w{0,2}|cu\.? ?in\b"),
    ("cc", r"cc\b|ccm\b"),
    ("kilometres", r"km\b|kilomet\w{2,3}\b"),
    ("miles", r"mi\b|miles?\b"),
    ("length", (
        r"ft\b|feet\b|foot\b|inch(?:es)?\b|in\b(?=[. ]{0,2}(?:bore|wide|long|lift|tire|bucket|blade|wheel))"
        r"|[\"”″]|mm\b|cm\b|['′](?!s)|yds?\b|yards?\b"
    )),
    ("share", r"%|percent\b|pct\b"),
    ("pressure", r"psi\b|bar\b|kpa\b"),
    ("flow", r"gpm\b|gal(?:lons?)?\b|qts?\b|quarts?\b|lpm\b"),
    ("time", r"(?:days?|weeks?|wks?|months?|mos?|years?|yrs?|minutes?|mins?|seconds?|secs?)\b"),
    ("amps", r"amps?\b"),
    ("ordinal", r"(?:st|nd|rd|th)\b"),
    ("drive", r"x ?[0-9]|wd\b|x\b|pt\b|point\b|speed\b|spd\b|stage\b|spool\b|ply\b"),
    ("count", (
        r"acres?\b|owners?\b|pcs?\b|pieces?\b|photos?\b|pics?\b|teeth\b|spline\w?\b|bolts?\b|holes?\b|sets?\b"
        r"|men\b|people\b|of (?:these|them)\b"
    )),
)  # fmt: skip
_UNIT = re.compile(rf"[ \t]{{0,2}}[-+]?[ \t]?(?:{'|'.join(f'(?P<{name}>{form})' for name, form in _UNITS)})", re.IGNORECASE)
_THOUSANDS = re.compile(r"[ \t]?k(?![^\W\d_])", re.IGNORECASE)

_BEFORE = re.compile(
    r"(?P<sign>(?<![A-Za-z])(?:(?:us|ca|c|au|nz) ?|[ar])?\$|€|£|¥|₺|\b(?:usd|eur|gbp|cad|aud|chf|mxn|sek"
    r"|dkk|nok|pln|czk|zar|brl|jpy|(?-i:ILS)|kes|kshs?|huf|rands?|zł|kr\.?))[ \t]{0,2}\Z",
    re.IGNORECASE,
)
_AFTER = re.compile(
    r"(?:[,.][-–—]{1,2})?[ \t]{0,2}(?P<sign>\$[ \t]?(?:cad?|cdn|us|usd|mxn?|nz|au|(?-i:CAN(?! [A-Z])))(?![a-z])|\$(?![ \t]?[0-9])"
    r"|€(?![ \t]?[0-9])|£(?![ \t]?[0-9])"
    r"|(?:usd|eur|euros?|gbp|quid|pounds sterling|cad|aud|mxn|sek|dkk|nok|pln|czk|zar|kr|kronor|kroner|crowns|zł|kč|kc|chf"
    r"|us ?\$|dollars?(?! (?:canad|austr|aussie|nz|mexic))|dollars? (?:canadian|australian|aussie|nz|mexican)|bucks"
    r"|pesos|reais|shekels|yen|lira|huf|forints?"
    r"|(?-i:(?<=[0-9]{2},000[ ])Ft(?=[ ]{0,2}(?:[\n;,)]|\.?[ ]{0,2}(?:\n|\Z)|\Z))"
    r"|(?<=[.,]000[ ])TL(?![0-9-])|ILS|JPY|BRL|KES|TRY)"
    r"|nz(?: dollars?)?"
    r"|kiwi dollars?|canadian(?: dollars?| money| funds)?|cdn|(?:australian|aussie)(?: (?:dollars?|bucks))?|rands?"
    r"|zlot(?:y|ys|ych))(?![a-z])|(?<=[,.][-–—])(?![0-9\w]))",
    re.IGNORECASE,
)
_WHOSE_DOLLARS = re.compile(
    r"(?:[.,]00)?[ \t]{0,2}\(?(?P<land>cad|cdn|canadian|aud|aussie|nzd|nz|mxn|m\.?n\b|pesos|us|usd)\b\)?", re.IGNORECASE
)
_CURRENCIES = {
    "$": "USD", "us$": "USD", "usd": "USD", "dollar": "USD", "dollars": "USD", "bucks": "USD", "ca$": "CAD",
    "c$": "CAD", "cad": "CAD", "cdn": "CAD", "canadian": "CAD", "nzd": "NZD", "us": "USD",
    "a$": "AUD", "au$": "AUD", "aud": "AUD", "nz$": "NZD", "€": "EUR", "eur": "EUR", "euro": "EUR", "euros": "EUR", "£": "GBP",
    "gbp": "GBP", "quid": "GBP", "poundssterling": "GBP",
    "chf": "CHF", "$cad": "CAD", "$ca": "CAD", "$cdn": "CAD", "$us": "USD", "$usd": "USD",
    "$mxn": "MXN", "$mx": "MXN",
    "mxn": "MXN", "pesos": "MXN", "zł": "PLN", "kč": "CZK", "kc": "CZK", "sek": "SEK", "dkk": "DKK",
    "aussie": "AUD", "nz": "NZD", "$au": "AUD", "$nz": "NZD", "nok": "NOK", "zar": "ZAR",
    "r$": "BRL", "brl": "BRL", "reais": "BRL", "¥": "JPY", "jpy": "JPY", "yen": "JPY",
    "₺": "TRY", "tl": "TRY", "try": "TRY", "lira": "TRY",
    "ils": "ILS", "shekels": "ILS", "kes": "KES", "ksh": "KES", "kshs": "KES",
    "huf": "HUF", "ft": "HUF", "forint": "HUF", "forints": "HUF",
    "rand": "ZAR", "rands": "ZAR",
    "zloty": "PLN", "zlotys": "PLN", "zlotych": "PLN", "m.n": "MXN", "mn": "MXN", "pln": "PLN", "czk": "CZK",
}  # fmt: skip

_YEAR_FROM, _YEAR_TO = 1920, 2035
_MOST_DIGITS = 15
_FEWEST_DIGITS, _FEWEST_BARE_DIGITS = 2, 4  # of a serial number; with no mark after its label it must be longer
_THOUSANDS_GROUP = 3
_YEAR_DIGITS = 4
_BEFORE_REACH = 12


class Number(NamedTuple):
    """A number and what it is by what stands next to it: `money`, a unit of `_UNITS`, or `plain`.

    `start` and `end` take in a currency sign or unit; `digits_at` is where the digits begin. `grouped`: written with
    separators. `currency` is None where none is written.
    """

    role: str
    value: float
    start: int
    end: int
    digits_at: int
    digits_end: int
    currency: str | None
    grouped: bool
    thousands: bool
    leading_zero: bool
    hundredths: bool = False
    """Written with two places after a point, as money is: 1,395.00."""


class Phone(NamedTuple):
    """A telephone number, its digits and where it stands."""

    digits: str
    span: Span


class Labelled(NamedTuple):
    """A number with a name: serial, part_number, casting_number."""

    name: str
    id: str
    span: Span


class Taken:
    """Stretches of text already read as something else. Asking whether a place is in one is quick."""

    def __init__(self, spans: Sequence[Span]) -> None:
        merged: list[list[int]] = []
        for start, end in sorted(spans):
            if merged and start <= merged[-1][1]:
                merged[-1][1] = max(merged[-1][1], end)
            else:
                merged.append([start, end])
        self._starts = [start for start, _ in merged]
        self._ends = [end for _, end in merged]

    def holds(self, start: int, end: int) -> bool:
        """Whether any of the text from start to end is taken."""
        before = bisect_right(self._starts, end - 1) - 1
        return before >= 0 and self._ends[before] > start


def phones(text: str) -> list[Phone]:
    """Telephone numbers of 7, 10 or more digits, in digits or partly in words."""
    found = [Phone("".join(filter(str.isdigit, match.group())), Span(*match.span())) for match in _PHONE.finditer(text)]
    taken = Taken([phone.span for phone in found])
    for match in _SPOKEN_PHONE.finditer(text):
        words = re.split(r"[-. ]+", match.group().lower())
        digits = "".join(_SPOKEN.get(word, word) for word in words)
        spoken = sum(word in _SPOKEN for word in words)
        if spoken >= 2 and len(digits) in (7, 10, 11) and not taken.holds(*match.span()):  # noqa: PLR2004 - "call at two 555 0143" is no spelling
            found.append(Phone(digits, Span(*match.span())))
    return sorted(found, key=lambda phone: phone.span)


def dates_and_addresses(text: str) -> list[Span]:
    """Dates, times of day, web and mail addresses: numbers in them mean nothing here."""
    return [Span(*match.span()) for pattern in (_DATE_OR_TIME, _ADDRESS) for match in pattern.finditer(text)]


def labelled(text: str) -> list[Labelled]:
    """Numbers after a label such as "S/N" or "casting number". One without a digit is not a number."""
    found = []
    for match in _LABELLED.finditer(text):
        label = match["label"].lower()
        number = match["id"].rstrip("./-")
        if sum(sign.isdigit() for sign in number) < _FEWEST_DIGITS:
            continue
        bare = not match["mark"].strip() and label in (
            "pin",
            "lot",
            "serial",
            "casting",
            "cast",
            "sn",
            "pn",
            "stock",
            "arrangement",
        )
        if bare and number.isdigit() and len(number) < _FEWEST_BARE_DIGITS:
            continue
        name = (
            "listing_id"
            if label.startswith(("stock", "stk", "post", "ad"))
            else "serial"
            if label == "pin"
            else _LABELS[label[0]]
        )
        start = match.start("id")
        found.append(Labelled(name, number, Span(start, start + len(number))))
    for match in _AREA_CODE.finditer(text):
        code = match.lastgroup or "after"
        found.append(Labelled(AREA_CODE, match[code], Span(*match.span(code))))
    return sorted(found, key=lambda one: one.span)


def amount(digits: str) -> float:
    """The value of a number as people write them: 1,200 · 105.040 · 37.168,14 · 2.6 · 38,40. Too long is infinity.

    A last group of exactly three digits is thousands, save after a lone 0; any other last group is a fraction.
    """
    groups = re.split(r"[.,'’]", digits)
    if sum(map(len, groups)) > _MOST_DIGITS:
        return float("inf")
    if len(groups) == 1:
        return float(digits)
    marks = re.findall(r"[.,'’]", digits)
    fraction = len(groups[-1]) != _THOUSANDS_GROUP or groups[0] == "0" or (len(marks) > 1 and marks[-1] != marks[0])
    if fraction:
        return float(f"{''.join(groups[:-1])}.{groups[-1]}")
    return float("".join(groups))


def numbers(text: str, taken: Taken) -> list[Number]:
    """Every free-standing number in order, with its role. A number inside a word (RL90, T-412) is not one."""
    found: list[Number] = []
    for match in NUMBER.finditer(text):
        start, end = match.span()
        if taken.holds(start, end):
            continue
        # A sign that closed the number before is not this one's: "14 €, 9.800 h".
        before = _BEFORE.search(text[max(found[-1].end if found else 0, start - _BEFORE_REACH) : start])
        if (
            before is None
            and start > 1
            and text[start - 1] == "-"
            and text[start - 2].isalnum()
            and not text[start - 2].isdigit()
        ):
            continue
        found.append(_number(text, match.group(), start, end, before))
    return found


def _number(text: str, digits: str, start: int, end: int, before: re.Match[str] | None) -> Number:
    value = amount(digits)
    after_digits = end
    thousands = _THOUSANDS.match(text, end)
    if thousands:
        value *= 1000
        end = thousands.end()
    first = start - (len(before.group()) if before else 0)
    zero = digits[0] == "0" and len(digits) > 1 and digits[1].isdigit()
    grouped = len(digits) != sum(map(str.isdigit, digits))
    after = None if before else _AFTER.match(text, end)
    sign = before or after
    if sign:
        said = sign["sign"].lower().replace(" ", "").rstrip(".")
        currency = _crowns(text) if said in _CROWNS else _CURRENCIES.get(said) or by_land(said)
        if said == "$" and before and (whose := _WHOSE_DOLLARS.match(text, end)):
            currency, end = _CURRENCIES.get(whose["land"].lower(), "CAD"), whose.end()
        return Number(
            "money", value, first, after.end() if after else end, start, after_digits, currency, grouped, bool(thousands), zero
        )
    unit = _UNIT.match(text, end)
    if unit and unit.lastgroup:
        return Number(unit.lastgroup, value, start, unit.end(), start, after_digits, None, grouped, bool(thousands), zero)
    about = text[end : end + 3].lower() == "ish"  # "1400ish"
    role = "glued" if end < len(text) and (text[end].isalnum() or text[end] == "_") and not about else "plain"
    hundredths = role == "plain" and digits[-3:-2] in (".", ",") and digits.endswith(("00", "50"))
    return Number(role, value, start, end, start, after_digits, None, grouped, bool(thousands), zero, hundredths)


_CROWNS = frozenset(["kr", "kronor", "kroner", "crowns"])
_LANDS = {"can": "CAD", "cdn": "CAD", "austral": "AUD", "aussie": "AUD", "nz": "NZD", "kiwi": "NZD", "mexic": "MXN"}


def by_land(said: str) -> str | None:
    """Whose dollars, by the land said with them: "canadian funds", "dollars nz", "$ can"."""
    return next((currency for land, currency in _LANDS.items() if land in said), None)


_SWEDEN = re.compile(r"\b(?:(?i:sweden|swedish|sverige|moms|och|till salu|säljer?s?)|SE)\b|[äö]")
_DENMARK = re.compile(r"\b(?:(?i:denmark|danish|danmark|danske?|til salg|sælge[rs]?)|DK)\b")
_NORWAY = re.compile(r"\b(?:(?i:norway|norwegian|norge|selge[rs]?|norske?)|NO)\b")
_NORDIC_LETTERS = re.compile(r"[æøÆØ]")


@functools.lru_cache(maxsize=8)  # the same for each sum of a text
def _crowns(text: str) -> str:
    """Whose crowns "kr" are, by the land or the letters of the text; Swedish where neither tells."""
    for currency, land in (("DKK", _DENMARK), ("NOK", _NORWAY), ("SEK", _SWEDEN), ("DKK", _NORDIC_LETTERS)):
        if land.search(text):
            return currency
    return "SEK"


def is_year_like(number: Number) -> bool:
    """A whole number of four digits that could be a year of make."""
    return (
        number.role == "plain"
        and not number.grouped
        and not number.thousands
        and number.digits_end - number.digits_at == _YEAR_DIGITS
        and _YEAR_FROM <= number.value <= _YEAR_TO
    )
