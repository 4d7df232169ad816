"""Text as a scanner or a telephone took it down, made readable: digits read as letters, words broken at line ends.

Nothing is mended in place: every change keeps where it came from, so what is read in the mended text still points at the ad.
"""

from __future__ import annotations

import re
from bisect import bisect_right
from collections.abc import Iterator
from typing import NamedTuple

from interchange.ads.place_states import STATES
from interchange.ads.slang import SLANG, slang
from interchange.ads.spoken import HEARD, NUMBER_WORD, Edit, heard, spoken_numbers
from interchange.ads.table import COLUMNS, tabled

_LONG_RUN = 24  # signs without a blank: words run together
# Words that a scanner breaks and that no rule of letters alone can tell.
_WORDS = frozenset([
    "from", "for", "out", "of", "ok", "oil", "hoe", "gasket", "motor", "pump", "farm", "mounts", "complete", "komplett", "mit",
    "coil", "still", "plate", "rebuilt", "all", "will", "filters", "fuel", "bell", "cylinder", "clutch", "links", "el", "clean",
    "full", "long", "block", "flat", "flywheel", "loader", "lift", "line", "steel", "model", "mile", "miles", "diesel", "idle",
    "flexplate", "alternator", "cam", "arm", "warm", "turns", "trim", "firm", "smoke", "smokes", "compression", "hammer",
    "number", "time", "fork", "price", "mechanical", "mech", "removed", "missing", "machine", "major",
    "makes", "main", "mount", "some",
    "more", "remanufactured", "summer", "him", "them", "came", "rim", "rims", "hour", "hours", "low", "only", "core", "hole",
    "gallon", "one", "no", "not", "or", "on", "to", "do", "so", "good", "old", "sold", "tool", "wood", "ford", "road", "load",
])  # fmt: skip
_LETTERS_OF = {"0": "Oo", "1": "IlL", "3": "Ee", "5": "Ss"}
_DIGIT_OF = str.maketrans("OoIl", "0011")

_BROKEN = re.compile(r"(?<=[A-Za-z])-\n(?=[a-z]{2})|(?<=[$,0-9])-\n(?=[0-9]{3})")
_BROKEN_MODEL = re.compile(r"(?<=\b[A-Z]-)\n(?=[0-9])")
_ODD_NUMBER = re.compile(r"(?<![A-Za-z0-9_])[0-9OoIl]{1,9}(?:[.,/-][0-9OoIl]{1,9}){0,3}(?![A-Za-z0-9_'’])")
_NOUGHTS = re.compile(r"[1-9][0-9]?[Oo]{2,3}(?:\.[Oo]{2})?")
_ODD_MODEL = re.compile(r"(?<![A-Za-z0-9_])[A-Z]{1,3}-?[0-9]{1,3}[Oo](?:[0-9]|[A-Z](?![A-Za-z0-9]))?(?![A-Za-z0-9_'’])")
_ODD_DOLLAR = re.compile(
    r"(?<![A-Za-z0-9_])S[ ]?(?=[0-9OoIl]{3,4}[ ,]{1,2}(?:obo|firm|cash|or best)\b)|(?i:(?<=price )"
    r"|(?<=price: )|(?<=asking ))S[ ]?(?=[0-9OoIl])"
    r"|(?<![A-Za-z0-9_])S(?=[0-9OoIl]{1,3},[0-9OoIl]{3}(?![A-Za-z0-9_]))"
)
_ODD_WORD = re.compile(r"(?<![A-Za-z0-9_$€£])[A-Za-z0135]{2,20}(?![A-Za-z0-9_])")
_RN = re.compile(r"(?<![A-Za-z])[A-Za-z]{0,12}rn[A-Za-z]{0,12}(?![A-Za-z])")
_TOKEN = re.compile(rf"\S{{{_LONG_RUN},400}}")
_SEAM = re.compile(r"(?<=[a-z])(?=[A-Z])|(?<=[0-9])(?=[a-z]{5})|(?<=[A-Za-z0-9][,.&])(?=[A-Za-z])|(?<=[a-z][,.])(?=[0-9$])")
_STATE_SEAM = re.compile(
    rf"(?<=[a-z]{{3}})(?=(?:{'|'.join(STATES)})(?:[ ]{{1,2}}[0-9]{{5}})?(?=[.\s]|\Z))"
    rf"|(?:(?<=[, ]{'|(?<=[, ]'.join(code + ')' for code in STATES)})(?=[0-9]{{5}}(?![0-9]))"
)
_SPACED = re.compile(
    r"(?<![\w$€£.,-])[0-9]{1,2}(?P<gap>[ ])[0-9]{3}(?=(?:[.,]-{1,2})?[ ]?(?:\$|€|£|(?:eur|euros?"
    r"|usd|cad|mxn|pesos|sek|dkk|nok|kr|kronor|kroner|zł|kč|czk|yen|huf|forint|(?-i:Ft)"
    r"|pln|horas|heures|hours|hrs|stunden|std|timer|timmar|h|hod)(?![a-z])))"
    r"|(?<![\w$€£.,-])[0-9]{3}(?P<wide>[ ])[0-9]{3}(?=(?:[.,]-{1,2})?[ ]?(?:€|£|(?:eur|euros?|mxn"
    r"|pesos|sek|dkk|nok|kr|kronor|kroner|zł|kč|czk|pln|yen|jpy|tl|huf|forint|(?-i:Ft))(?![a-z])))"
    r"|(?:[€£]|\b(?:kr\.?|eur|cad|sek|dkk|nok|pln|zar|rand|zł|(?-i:R)))[ ]?[0-9]{1,3}(?P<after>[ ])[0-9]{3}(?![\w-])"
    r"|\$[ ]?[0-9]{1,2}(?P<dollars>[ ])[0-9Oo]{3}(?![\w-])",
    re.IGNORECASE,
)  # a blank for thousands, beside a currency or hours: "3 900 $", "2 800 horas"
_RANDS = re.compile(r"(?<![\w$€£])R[ ]?(?=[0-9]{1,3}[ ,][0-9]{3}(?![\w-]))")  # of South Africa: "R48 000"
_SPACED_DIGITS = re.compile(
    r"(?<=[0-9])[ ](?=,[0-9]{3}(?![0-9]))|(?<=[$][0-9],[0-9])[ ](?=[0-9]{2}(?![0-9]))"
    r"|(?<=[$] [0-9],[0-9])[ ](?=[0-9]{2}(?![0-9]))"
)
_SPACED_COMMA = re.compile(
    r"(?<=[$][0-9])(?:[ ],[ ]?|,[ ])(?=[0-9]{3}(?![0-9]))|(?<=[$][0-9]{2})(?:[ ],[ ]?|,[ ])(?=[0-9]{3}(?![0-9]))"
)
_AFTER_DOLLAR = re.compile(
    r"(?:(?<=\$)|(?<=\$ ))(?=[0-9OoIlSB.,]{2})[0-9OoIlSBZ]{1,4}(?:[.,][0-9OoIlSB]{2,3}){0,2}(?![A-Za-z0-9_'’])"
)
_AFTER_DOLLAR_DIGIT = str.maketrans("OoIlSBZ", "0011582")
_DOTTED_STATE = re.compile(
    r"(?<![A-Za-z.])(?:N\. ?(?P<n>[HYJMCDBS])|S\. ?(?P<s>[CD])|R\. ?(?P<r>I)|W\. ?(?P<w>V)|D\. ?(?P<d>C)"
    r"|B\. ?(?P<b>C))\.(?![A-Za-z])"
    r"|(?<=[A-Za-z,] )(?P<words>W\. ?Va|S\. ?Dak|N\. ?Dak|N\. ?Mex|N\. ?Car|S\. ?Car)\."
    r"|(?<=[a-z] )(?P<ohio>O)\.(?=[ ]{0,3}(?:\n|\Z))"
)  # "Littleton, N.H." and, at the end, "Bucyrus O."
_SHORT_FORMS = {
    "eng": "engine",
    "engs": "engines",
    "dsl": "diesel",
    "dies": "diesel",
    "gd": "good",
    "exc": "excellent",
    "hd": "head",
    "hds": "heads",
    "ldr": "loader",
    "ldrs": "loaders",
    "blk": "block",
    "blks": "blocks",
    "hsg": "housing",
    "reblt": "rebuilt",
    "rblt": "rebuilt",
    "rbt": "rebuilt",
    "pwr": "power",
    "rad": "radiator",
    "wh": "wheel",
    "whl": "wheel",
    "cond": "condition",
    "elec": "electric",
    "mtr": "motor",
    "trac": "tractor",
    "flywhl": "flywheel",
    "alt": "alternator",
    "strtr": "starter",
    "compl": "complete",
    "cplt": "complete",
    "xmsn": "transmission",
    "ind": "industrial",
    "hyd": "hydraulic",
    "brgs": "bearings",
    "crnk": "crank",
    "sep": "separate",
    "incl": "includes",
    "orig": "original",
    "approx": "approx",
    "trans": "transmission",
    "inj": "injection",
}  # as small ads print them
_NOUNS = frozenset(["engine", "engines", "motor", "loader", "block", "transmission", "tractor", "housing", "head", "radiator"])
_TOWN_BEFORE_IND = re.compile(r"[A-Z][a-z]{3,20},?[ ]\Z")
_NEW_PHRASE = re.compile(r"[ ]{1,2}[A-Z0-9]")
# Those that are no words of their own, and more that are printed without a point as often as with one.
_POINTLESS = {
    name: _SHORT_FORMS[name]
    for name in (
        "eng", "engs", "dsl", "ldr", "ldrs", "blk", "blks", "hsg", "reblt", "rblt", "whl", "mtr", "flywhl", "strtr", "compl",
        "cplt", "xmsn", "brgs", "crnk", "inj", "hyd",
    )
} | {
    "motr": "motor", "crk": "crank", "gskt": "gasket", "gskts": "gaskets", "tranny": "transmission", "trny": "transmission",
    "frt": "front", "brkt": "bracket", "brkts": "brackets", "mnfld": "manifold", "manif": "manifold", "cyls": "cylinders",
    "sht": "short", "lng": "long", "hdgskt": "head gasket", "asm": "assembly", "assy": "assembly",
    "bkhoe": "backhoe", "altr": "alternator", "pmp": "pump", "pwrshift": "powershift",
}  # fmt: skip
_SHORTENED = re.compile(
    rf"(?<![\w.'’/-])(?:(?:{'|'.join(_SHORT_FORMS)})\.|(?:{'|'.join(map(re.escape, _POINTLESS))})(?![.'’-]))(?![\w])",
    re.IGNORECASE,
)
_SEVERAL = re.compile(r"(?<![\w-])[A-Za-z]{1,3}-?[0-9]{1,4}(?=s(?![\w'’]))")  # "two BH3s"
_LETTERED = re.compile(r"(?<!\S)\S(?:[ ][^\s-]){4,120}(?!\S)")
_RUN_IN = re.compile(
    r"(?<=[a-z]{3})(?=[0-9])|(?<=[0-9])(?=[A-Za-z]{2})|(?<=[a-z])(?=[A-Z])|(?<=[A-Za-z][,.])(?=[A-Za-z])|(?<=[0-9],)(?=[0-9]{2}[a-z])"
)
_HORSES = re.compile(r"(?<![A-Za-z])h\.[ ]?p\.(?![\w])", re.IGNORECASE)
_ADDRESS = re.compile(r"(?:https?:|www\.)|@", re.IGNORECASE)
_QUICK = re.compile(
    r"[0-9][OoIls]|[OoIl][0-9]|[A-Za-z][0135]|[0135][A-Za-z]|-\n|rn|\S{24}|[a-z]{3}[A-Z]{2}\b|[A-Z]{2}[0-9]{5}"
    r"|[0-9] [0-9]{3}|[$€£] ?[0-9]{1,3}[ ,]|[$] ?[0-9]{0,3}[A-Za-z]|[Il],[0-9]|[0-9] ,[0-9]"
    r"|\b[NSRWD]\.|[A-Za-z]\.(?:[ ,;]|$)|[a-z] O\."
)


class _Layer(NamedTuple):
    """Changes of one kind in order, and where each begins and ends in the text it made."""

    edits: tuple[Edit, ...]
    begins: tuple[int, ...]
    ends: tuple[int, ...]

    def led(self, at: int, *, closing: bool) -> int:
        """A place led back; one inside a change goes to the end of what was changed that it is on the side of."""
        index = bisect_right(self.begins, at) - 1
        if closing and index >= 0 and self.begins[index] == at:
            index -= 1
        if index < 0:
            return at
        begins, ends = self.begins[index], self.ends[index]
        if at < ends or (closing and at == ends > begins):
            return self.edits[index].end if closing else self.edits[index].start
        return at - ends + self.edits[index].end


class Mended(NamedTuple):
    """A text as it is read, and how its places lead back to the text it was made from."""

    text: str
    layers: tuple[_Layer, ...]

    def back(self, start: int, end: int) -> tuple[int, int]:
        """The stretch of the text as given that a stretch of the mended one stands for: all of what was changed in it."""
        for layer in reversed(self.layers):
            first = layer.led(start, closing=False)
            start, end = first, max(first, layer.led(end, closing=True)) if end > start else first
        return start, end

    def forth(self, at: int) -> int:
        """Where a place of the text as given comes to lie."""
        for layer in self.layers:
            moved = 0
            for start, end, words in layer.edits:
                if end > at:
                    break
                moved += len(words) - (end - start)
            at += moved
        return at


def mended(text: str) -> Mended:
    """The text with what a scanner and a dictating telephone do to it undone, where that is plain."""
    layers: list[_Layer] = []
    for applies, edits in (
        ((_LETTERED,), _unspaced),
        ((COLUMNS,), tabled),
        ((_QUICK, _SHORTENED), _scanned),
        ((SLANG,), slang),
        ((HEARD,), heard),
        ((NUMBER_WORD,), spoken_numbers),
    ):
        found = tuple(edits(text)) if any(each.search(text) for each in applies) else ()
        if found:
            layers.append(_layer(found))
            text = _edited(text, found)
    return Mended(text, tuple(layers))


def _layer(edits: tuple[Edit, ...]) -> _Layer:
    begins, ends, moved = [], [], 0
    for edit in edits:
        begins.append(edit.start + moved)
        moved += len(edit.words) - (edit.end - edit.start)
        ends.append(edit.end + moved)
    return _Layer(edits, tuple(begins), tuple(ends))


def _edited(text: str, edits: tuple[Edit, ...]) -> str:
    parts, done = [], 0
    for start, end, words in edits:
        parts += [text[done:start], words]
        done = end
    return "".join([*parts, text[done:]])


def _unspaced(text: str) -> Iterator[Edit]:
    """Type that was set with a blank after every sign: "a s k i n g 2 , 4 0 0"."""
    for match in _LETTERED.finditer(text):
        joined = match.group().replace(" ", "")
        yield Edit(*match.span(), _RUN_IN.sub(" ", joined))


def _scanned(text: str) -> Iterator[Edit]:
    """Changes in order, none over another: the first to claim a stretch keeps it."""
    found: list[Edit] = []
    for pattern, instead in ((_BROKEN, ""), (_BROKEN_MODEL, ""), (_ODD_DOLLAR, "$")):
        found += [Edit(*match.span(), instead) for match in pattern.finditer(text)]
    for pattern, digits in (
        (_AFTER_DOLLAR, _sum),
        (_ODD_NUMBER, _number),
        (_ODD_MODEL, _model),
        (_ODD_WORD, _word),
        (_RN, _with_m),
    ):
        for match in pattern.finditer(text):
            words = digits(match.group())
            if words != match.group():
                found.append(Edit(*match.span(), words))
    for match in _SPACED.finditer(text):
        at = next(at for at in map(match.start, ("gap", "wide", "after", "dollars")) if at >= 0)
        found.append(Edit(at, at + 1, ","))
    found += [Edit(*match.span(), "ZAR ") for match in _RANDS.finditer(text)]
    for match in _SHORTENED.finditer(text):
        if match.group().lower() == "ind." and _TOWN_BEFORE_IND.search(text, max(0, match.start() - 24), match.start()):
            continue  # the state
        words = _written_out(match.group())
        pause = match.group().endswith(".") and words.lower() in _NOUNS and _NEW_PHRASE.match(text, match.end())
        found.append(Edit(*match.span(), f"{words}," if pause else words))
    found += [Edit(match.end(), match.end(), "'") for match in _SEVERAL.finditer(text)]
    found += [Edit(*match.span(), "hp") for match in _HORSES.finditer(text)]
    found += [Edit(*match.span(), "") for match in _SPACED_DIGITS.finditer(text)]
    for match in _DOTTED_STATE.finditer(text):
        letters = "OH" if match["ohio"] else "".join(sign for sign in match.group().upper() if sign.isalpha())
        found.append(
            Edit(
                *match.span(),
                {"WVA": "WV", "SDAK": "SD", "NDAK": "ND", "NMEX": "NM", "NCAR": "NC", "SCAR": "SC"}.get(letters, letters) + ".",
            )
        )
    found += [Edit(*match.span(), ",") for match in _SPACED_COMMA.finditer(text)]
    for match in _TOKEN.finditer(text):
        if not _ADDRESS.search(match.group()):
            found += [
                Edit(match.start() + seam.start(), match.start() + seam.start(), " ") for seam in _SEAM.finditer(match.group())
            ]
    found += [Edit(match.start(), match.start(), " ") for match in _STATE_SEAM.finditer(text)]
    done = -1
    for edit in sorted(found, key=lambda edit: (edit.start, edit.start - edit.end)):
        if edit.start >= done and not (edit.start == edit.end == done):
            yield edit
            done = edit.end


def _written_out(found: str) -> str:
    """A short form of the small ads written out; its point was no stop."""
    short = found.removesuffix(".")
    words = _SHORT_FORMS.get(short.lower()) or _POINTLESS[short.lower()]
    return words.upper() if short.isupper() and len(short) > 1 else words.capitalize() if short[0].isupper() else words


def _sum(found: str) -> str:
    """Digits right after a dollar sign, whatever letters stand for them; one sign alone is left as it is."""
    return found.translate(_AFTER_DOLLAR_DIGIT) if len(found) > 1 else found


def _number(found: str) -> str:
    """Digits with letters among them that look like digits: "3,4O0", "59oo", "8l2"; a litre ("5.2l") is left one."""
    digits = sum(map(str.isdigit, found))
    letters = sum(map(str.isalpha, found))
    if _NOUGHTS.fullmatch(found):
        return found.upper().replace("O", "0")
    if not letters or digits < letters or digits + letters < 3:  # noqa: PLR2004 - "1O" may be anything
        return found
    kept = list(found)
    for at, sign in enumerate(found):
        last = at + 1 == len(found)
        if sign in "Oo" or (sign in "Il" and not last):
            kept[at] = sign.translate(_DIGIT_OF)
    return "".join(kept)


def _model(found: str) -> str:
    """A letter O among the digits of a model: "L2OR", "X-9O"."""
    return found if found.upper() == "H2O" else re.sub(r"(?<=[0-9])[Oo]", "0", found)


def _word(found: str) -> str:
    """A word with digits for letters: "D1ESEL", "H0ULTON", "coi1". Models, which end in digits or have more, are left."""
    digits = sum(map(str.isdigit, found))
    if not digits or digits > 3 or digits == len(found):  # noqa: PLR2004
        return found
    for pick in (0, 1):
        words = _lettered(found, pick)
        if words.lower() in _WORDS:
            return words
    letters = len(found) - digits
    inside = re.fullmatch(r"0?[A-Za-z]{2,}(?:[01][A-Za-z]{1,}){0,3}", found) or re.fullmatch(
        r"[A-Za-z](?:[01][A-Za-z]{2,}){1,2}", found
    )
    return _lettered(found, 0) if inside and letters >= 4 else found  # noqa: PLR2004 - "T4D" is a model


def _lettered(found: str, pick: int) -> str:
    """The word with its digits as letters: capitals among capitals; of two choices for a one the first or the second."""
    small = sum(map(str.islower, found)) > sum(map(str.isupper, found))
    signs = []
    for sign in found:
        choice = _LETTERS_OF.get(sign)
        if choice is None:
            signs.append(sign)
        elif sign == "1":
            signs.append(("l", "i")[pick] if small else ("I", "L")[pick])
        else:
            signs.append(choice[1] if small else choice[0])
    return "".join(signs)


def _with_m(found: str) -> str:
    """A word in which "rn" stands for an m, where that makes it a word: "rnotor", "frorn"."""
    words = found.replace("rn", "m")
    return words if words.lower() in _WORDS else found
