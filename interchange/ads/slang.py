"""Sums as people type them on a telephone: "1500obo", "15 hundo", "2k5", "fifteen hunderd", "22-fifty", "a grand"."""

from __future__ import annotations

import re
from collections.abc import Iterator

from interchange.ads.spoken import Edit

_NUMBER_WORDS = (
    "one|two|three|four|five|six|seven|eight|nine|ten|eleven|twelve|thirteen|fourteen|fifteen|sixteen|seventeen|eighteen|nineteen"
    "|twenty|thirty|forty|fifty|sixty|seventy|eighty|ninety"
)
_HUNDRED = r"hundo|hundy|hun(?:d(?:erd|ered|ert|red)|n?er[dt]|ured|ded|dread)|hunred|hundrd"
_THOUSAND = (
    r"thou(?! (?:over|under|of|clearance|oversize|undersize|wear|out|taper|off))|thousend|thosand|thousan|thousnd|thousands|thous"
)
_TENS = {"ten": 10, "twenty": 20, "thirty": 30, "forty": 40, "fifty": 50, "sixty": 60, "seventy": 70, "eighty": 80, "ninety": 90}
_SPELT = {
    "fiddy": "fifty",
    "forteen": "fourteen",
    "fourty": "forty",
    "ninty": "ninety",
    "fivety": "fifty",
    "tweleve": "twelve",
    "eigth": "eight",
}
_SLANG = re.compile(
    rf"(?<![\w.,$-])(?P<glued>[0-9][0-9,.]{{0,8}})(?=(?:obo|firm|ea|each|cash|ono|neg|bucks|dollars|hundred|hundo"
    rf"|grand|thousand)\b)"
    rf"|(?<![\w.$-])(?P<ks>[1-9][0-9]?)[kK](?P<more>[1-9])(?![\w])"
    rf"|(?<![\w.$-])(?P<amount>[1-9][0-9]?(?:\.[0-9])?|(?i:{_NUMBER_WORDS}))[ ]?(?i:(?P<gs>gs?"
    rf"|g['’]s|stacks?|racks)|(?P<bills>bills?))(?![\w'’])"
    rf"|(?<![\w-])(?P<wrong>(?i:{'|'.join(_SPELT)}))(?![\w])"
    rf"|(?<=[0-9 ])(?P<hundred>(?i:{_HUNDRED}))(?![\w])|(?<=[0-9 ])(?P<thousand>(?i:{_THOUSAND}))(?![\w])"
    rf"|(?<![\w-])(?P<joined>(?i:{_NUMBER_WORDS}))(?=(?i:hundred|thousand)\b)"
    rf"|(?<![\w.$-])(?P<pair>[1-9][0-9]?)[ -](?P<tens>(?i:{'|'.join(_TENS)}))(?:[ -](?P<unit>(?i:five)))?(?![\w-])"
    rf"|(?<![\w-])(?P<bare>(?i:(?:an? )?(?:even |cool )?(?:thousand|grand)))"
    rf"(?=[ ](?i:bucks|dollars|firm|obo|takes?|cash|or best|even|and it)\b|[ \t]{{0,2}}(?:$|[\n.!]))",
    re.MULTILINE,
)
_COUNTED = re.compile(rf"(?:[0-9]|\b(?:{_NUMBER_WORDS}|half an?|couple(?: of)?|and a half))[ ]\Z", re.IGNORECASE)
_HALF_A_GRAND = re.compile(r"\bhalf a (?:grand|thousand)\b", re.IGNORECASE)
_MACHINED = re.compile(
    r"\b(?:cut|ground|grind|bored?|turned|polished|within|over|under|worn)[ ][\w ]{0,14}\Z", re.IGNORECASE
)  # by thousandths
_BOTH = re.compile(
    r"(?<![\w.$])(?P<thousands>[1-9][0-9]?)[ ]thousand(?:[ ]and)?[ ](?P<hundreds>[1-9])[ ]hundred\b", re.IGNORECASE
)
_HUNDREDS = re.compile(r"(?<![\w.$])(?P<low>[1-9][0-9]?)[ ](?:to|or)[ ](?P<high>[1-9][0-9]?)[ ]hundred\b", re.IGNORECASE)
_BLOCK = re.compile(r"^[ \t]{0,3}(?:[0-9]{1,2}[ ]?x[ ])?(?P<what>LB|SB)(?=[ ,:-])", re.MULTILINE)
SLANG = re.compile(
    r"(?m:^)[ \t0-9x]{0,6}[LS]B[ ,:-]|[0-9](?:obo|firm|ea|each|cash|ono|neg|bucks|dollars|hun|grand|thou"
    r"|k[1-9]|[ ]thousand\b|[ ]?g\b|[ ]?gs\b|[ -](?:ten|twen"
    r"|thir|for|fif|six|sev|eig|nin))"
    r"|\b(?:hun|thou|grand|bills?|stacks?|racks|gs|g['’]s|fiddy|half a grand|[0-9] (?:to"
    r"|or) [0-9]{1,2} hun|forteen|fourty|ninty|fivety|tweleve|eigth)",
    re.IGNORECASE,
)
"""Where this finds nothing there is nothing to put right."""


def slang(text: str) -> Iterator[Edit]:
    """What to read for sums written so, and for LB and SB at the head of a line, in order."""
    found = sorted([*_sums(text), *_blocks(text), *_spans(text)])
    done = 0
    for edit in found:
        if edit.start >= done:
            yield edit
            done = edit.end


def _spans(text: str) -> Iterator[Edit]:
    for match in _HALF_A_GRAND.finditer(text):
        yield Edit(*match.span(), "500")
    for match in _BOTH.finditer(text):
        yield Edit(*match.span(), f"{int(match['thousands']) * 10 + int(match['hundreds'])}00")
    for match in _HUNDREDS.finditer(text):
        yield Edit(*match.span(), f"{match['low']}00-{match['high']}00")


def _blocks(text: str) -> Iterator[Edit]:
    for match in _BLOCK.finditer(text):
        yield Edit(*match.span("what"), "LONG BLOCK" if match["what"] == "LB" else "SHORT BLOCK")


def _sums(text: str) -> Iterator[Edit]:
    for match in _SLANG.finditer(text):
        start, end = match.span()
        if match["glued"]:
            yield Edit(end, end, " ")
        elif match["ks"]:
            yield Edit(start, end, f"{match['ks']}.{match['more']}k")
        elif match["amount"]:
            yield Edit(start, end, f"{match['amount']} {'thousand' if match['gs'] else 'hundred'}")
        elif match["wrong"]:
            yield Edit(start, end, _SPELT[match["wrong"].lower()])
        elif (match["hundred"] or match["thousand"]) and not _MACHINED.search(text[max(0, start - 24) : start]):
            word = "hundred" if match["hundred"] else "thousand"
            yield Edit(start, end, word if text[start - 1 : start] == " " else f" {word}")
        elif match["joined"]:
            yield Edit(end, end, " ")
        elif match["pair"]:
            value = int(match["pair"]) * 100 + _TENS[match["tens"].lower()] + (5 if match["unit"] else 0)
            yield Edit(start, end, str(value))
        elif match["bare"] and not _COUNTED.search(text[max(0, start - 12) : start]):
            yield Edit(start, end, "1,000")
