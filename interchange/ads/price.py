"""The price asked, told apart from every other number: what it was, what something else costs, and no price at all."""

from __future__ import annotations

import re
from collections.abc import Sequence
from math import isfinite
from typing import NamedTuple

from interchange.ads.fields import PriceRead, Span
from interchange.ads.number import Number, is_year_like

_REACH = 48  # characters looked at on either side of a number
_LEAST, _MOST = 20, 2_000_000  # dollars, for a number with no currency sign
_LEAST_FOR = 50  # after "for" alone
_LEAST_ALONE, _MOST_ALONE = 200, 10_000  # with no word of asking either
_LEAST_LISTED = 100  # between commas in a title
_WIDEST_DASH = 6  # signs between the ends of a range

_ASKED = re.compile(
    r"(?:asking|asks?|price[ds]?|preis|prix|wants?|wanting|sell(?:ing)?(?: it| them| all)? for|yours for"
    r"|take[sn]?|i'?d take|sacrifice|let (?:it )?go for"
    r"|buy it now|bin|make it|now|only|just|gets? it|cash|first|obo|firm|sale)"
    r"(?:[ \t]{0,2}(?:is|at|of|price|reduced|to|it|a|around|about|only|just|am|all|for|[:=~@–-]"
    r"|\.{2,3})){0,3}[ \t]{0,2}[:=~@–-]?[ \t]{0,2}\Z",
    re.IGNORECASE,
)
_FOR = re.compile(r"\b(?:for|at|@)[ \t]{0,2}\Z", re.IGNORECASE)
_TAIL = re.compile(
    r"[ \t]{0,2}[/,(–-]?[ \t]{0,2}(?:or best|o\.? ?b\.? ?o\b|firm\b|neg(?:otiable)?\b|cash\b|takes? (?:it"
    r"|all|both|everything)\b|each\b|ea\b|apiece\b|buys\b|gets it\b|delivered\b|shipped\b|picked up\b)",
    re.IGNORECASE,
)
_SENTENCE_END = re.compile(
    r"[ \t]{0,2}(?:$|[\n.,;!)?]|or\b|obo\b|firm\b|cash\b|each\b|if\b|takes?\b|and\b|but\b|[-–]\s)", re.IGNORECASE
)
_WAS = re.compile(
    r"\b(?:was|were|used to be|originally|original price|old price|regular(?:ly)?|reg|reduced from"
    r"|down from|dropped from|lowered from|from|before)"
    r"(?:[ \t]{1,2}(?:asking|listed|price|at|for)){0,2}[ \t]{0,2}[:]?[ \t]{0,2}\Z",
    re.IGNORECASE,
)
_ONLY_FROM = re.compile(r"(?<!reduced )(?<!down )(?<!dropped )(?<!lowered )\b(?:from|before)[ \t:]{0,3}\Z", re.IGNORECASE)
_OTHER = re.compile(
    r"\b(?:(?:will|can|would|could) pay(?: up to)?|paying(?: up to)?|paid|spent|spend|cost|costs|costing"
    r"|invested|put|worth|value[d]?|valued at|retails?|retail|list(?:s|ed)?|new(?: ones?)?(?: is| are"
    r"| was)?|sells? for|sold for"
    r"|deposit|core charge|core|shipping|freight|deliver(?:y|ed|s)?|haul(?:ing)?|quoted?|owed?s?|over"
    r"|receipts?(?: for)?|fee|down payment|budget"
    r"|save|off|discount|reward|offered|turned down|crate(?:d|ing)?|palletiz\w{2,4}|tax|doc fee|load(?:ing)?)"
    r"(?:[ \t]{1,2}(?:is|are|was|were|me|us|him|for|at|of|about|around|over|up to|an?|new|price|charge|in"
    r"|in it|into it|over|it|on|will|run|runs|be)){0,3}[ \t]{0,2}[:(]?[ \t]{0,2}\Z",
    re.IGNORECASE,
)
_SPENT = re.compile(
    r"\b(?:(?:will|can|would|could) pay(?: up to)?|paying(?: up to)?|paid|spent|cost me|invested|worth"
    r"|owed?)[ \t]{1,2}(?:about |over |around )?\Z",
    re.IGNORECASE,
)
_OTHER_AFTER = re.compile(
    r"[ \t]{0,2}(?:new\b|core (?:charge|deposit)|deposit|for (?:shipping|delivery|freight|crating)"
    r"|shipping|delivery|freight|to (?:ship|deliver|crate|load|rebuild|fix)"
    r"|in (?:parts|receipts|repairs|work|it)|worth\b|invested|value\b|extra\b|more\b|off\b|per "
    r"(?:loaded )?mi(?:le)?\b|/mi\b|a mile\b|an? hour labor)",
    re.IGNORECASE,
)
_RENTAL = re.compile(
    r"[ \t]{0,2}(?:(?:/|per|a|an|each|every)[ \t]{0,2}(?:h|hr|hour|day|wk|week|weekend|mo|month|std)\b|"
    r"(?:hourly|daily|weekly|monthly)\b)",
    re.IGNORECASE,
)
_RANGE = re.compile(r"[ \t]{0,2}(?:-|–|to|or)[ \t]{0,2}\Z", re.IGNORECASE)
_AFTER_PAUSE = re.compile(r"[,–-][ \t]{0,2}\Z")
_HALF_RANGE = re.compile(r"(?<![\w.])\$?(?P<low>[0-9]{1,3}(?:\.[0-9])?)[ \t]?(?:-|–|to)[ \t]?\$?\Z")
_UP_FROM = re.compile(r"[$€£][ \t]{0,2}[0-9][0-9.,]{0,12}k?[ \t]{0,2}(?:-|–|to)[ \t]{0,2}\Z", re.IGNORECASE)  # $800-1000
_COUNT_FOR = re.compile(
    r"(?<![\w.$-])(?P<count>[2-9]|1[0-9]|two|three|four|five|both)(?: of them)? ?(?:for|@)[ \t]{0,2}\Z", re.IGNORECASE
)
_COUNTS = {"two": 2, "both": 2, "three": 3, "four": 4, "five": 5}
_EACH = re.compile(r"[ \t]{0,2}/?[ \t]{0,2}(?:each|ea|apiece|a ?piece)\b", re.IGNORECASE)

_FIRM = re.compile(
    r"\b(?:price(?:s| is| are)? firm|firm (?:on|price)|firm\b(?=[ \t]{0,2}(?:$|\n|[.,;!)]))|non?[- ]?neg"
    r"(?:otiable)?|no low ?ball\w{0,5}|not negotiable)",
    re.IGNORECASE,
)
_OBO = re.compile(
    r"\b(?:o\.? ?b\.? ?o\b|(?:or )?best (?:reasonable )?offer|neg(?:otiable)?\b|reasonable offers?"
    r"|open to offers|vhb|vb\b)",
    re.IGNORECASE,
)
_FIRM_AFTER = re.compile(r"[ \t]{0,2}(?:cash)?[ \t]{0,2}[-,(/]?[ \t]{0,2}(?:is )?(?:firm\b|non[- ]?neg)", re.IGNORECASE)
_CALL = re.compile(
    r"\b(?:(?:call|text|pm|dm|message|msg|e?mail|inquire|contact|ask)(?: (?:me|us|seller|dealer))?(?: "
    r"(?:for|4|about|on|with))?(?: (?:a|the|our|your))? (?:pric(?:e|ing)|quote|best offer|offers?)\b"
    r"|price (?:on|upon|by) (?:request|application|inquiry)|p\.?o\.?a\.?\b(?=[ \t]*(?:$|\n|[.,;)]))|"
    r"(?:make|send)(?: me| us)?(?: an?)?(?: reasonable| fair| best| serious)? offers?\b"
    r"|(?:taking|accepting|entertaining|open to)(?: all| any)? offers\b|best offer\b|price: ?(?:call|ask"
    r"|tbd)\b|no price\b|obo\b)",
    re.IGNORECASE,
)
_TRADE = re.compile(
    r"\b(?:(?:will |would |want to |looking to |like to )?(?:trade|swap)(?: it| this)? (?:for|4)\b"
    r"|for trade\b|trade only\b|trades? considered\b|(?:will|would) (?:consider )?trade?s?\b)",
    re.IGNORECASE,
)
_FREE_LINE = re.compile(
    r"(?:^|\n)[ \t]{0,4}(?:price:? ?)?(?P<free>free)(?:[ \t!.]{0,4}(?=\n|$)|[ \t](?!(?:delivery|shipping"
    r"|local|freight|quote|if|estimate|to|for|of|from)\b))|\b(?P<taken>free to (?:good home|haul|whoever)"
    r"|free for the (?:taking|hauling))",
    re.IGNORECASE,
)
_PLACEHOLDERS = frozenset([
    0, 1, 2, 3, 11, 12, 111, 123, 1111, 1234, 4321, 9999, 11111, 12345, 54321, 99999, 111111, 123456, 999999,
    1111111, 1234567, 9999999,
])  # fmt: skip
_DOUBTFUL_PLACEHOLDER = 100


class Prices(NamedTuple):
    """All the money in an ad: the price asked, what it was, and the rest."""

    asked: PriceRead
    was: PriceRead | None
    others: tuple[PriceRead, ...]


class _Candidate(NamedTuple):
    read: PriceRead
    was: bool
    other: bool
    digits_at: int


def read_prices(text: str, numbers: Sequence[Number], title: Span) -> Prices:
    """Choose the price asked among the numbers of an ad; certainty falls where several differ."""
    found = _ranges_joined(text, [made for number in numbers if (made := _candidate(text, number, title))])
    live = [candidate for candidate in found if not candidate.other]
    was = [candidate for candidate in live if candidate.was]
    asked = [candidate for candidate in live if not candidate.was]
    if not asked and was:  # "was 900" and nothing after it: that is all the price there is
        asked, was = [was[0]._replace(read=was[0].read._replace(note="said of the past", certainty=0.4))], was[1:]
    spare = [candidate.read for candidate in found if candidate.other]
    if not asked:
        return Prices(_no_price(text), was[0].read if was else None, tuple(spare))
    best = max(
        asked,
        key=lambda candidate: (
            candidate.read.kind not in ("placeholder", "rental"),
            candidate.read.certainty,
            -candidate.digits_at,
        ),
    )
    rest = [candidate.read for candidate in asked if candidate is not best]
    chosen = _struck_out(text, best.read, rest)
    old = was[0].read if was else next((one for one in rest if one.note == "struck out"), None)
    return Prices(
        chosen,
        old,
        tuple(sorted((one for one in (*rest, *spare, *(w.read for w in was[1:])) if one is not old), key=lambda one: one.span)),
    )


def _struck_out(text: str, best: PriceRead, rest: list[PriceRead]) -> PriceRead:
    """Settle the terms and certainty of the best; mark a higher price right after it as the old one (listing pages do so)."""
    differing = [one for one in rest if one.cents != best.cents and one.kind == "asked"]
    for index, one in enumerate(rest):
        between = text[min(best.span.end, one.span.end) : max(best.span.start, one.span.start)]
        if (
            one in differing
            and not between.strip()
            and "$" in best.text
            and (one.cents or 0) > (best.cents or 0)
            and one.span > best.span
        ):
            rest[index] = one._replace(note="struck out")
            differing.remove(one)
    if best.kind == "placeholder":
        return best._replace(terms=_terms(text, best.span))
    note, certainty = best.note, best.certainty
    if differing:
        note = note or f"one of {len(differing) + 1} prices"
        certainty *= 0.8
    return best._replace(terms=_terms(text, best.span), note=note, certainty=certainty)


def _candidate(text: str, number: Number, title: Span) -> _Candidate | None:
    if not isfinite(number.value) or number.role not in ("money", "plain"):
        return None
    before = text[max(0, number.start - _REACH) : number.start].rpartition("\n")[2]
    tail = text[number.end : number.end + _REACH]
    counted = _COUNT_FOR.search(before)
    certainty = _certainty(number, before, tail, title, counted=counted is not None)
    if certainty is None:
        return None
    rental = _RENTAL.match(tail) is not None
    other = bool(_OTHER.search(before) or _OTHER_AFTER.match(tail))
    was = bool(_WAS.search(before))
    if was and _ONLY_FROM.search(before) and not re.match(r"[ \t,]{0,3}(?:down )?(?:to|now)\b", tail, re.IGNORECASE):
        was = False
    cents = round(number.value * 100)
    kind, note = "rental" if rental else "asked", ""
    if cents % 100 == 0 and number.value in _PLACEHOLDERS:
        kind, certainty, note = "placeholder", 0.85, "not a price but a stand-in for one"
    elif number.value == _DOUBTFUL_PLACEHOLDER:
        certainty, note = min(certainty, 0.5), "may be a stand-in for a price"
    count = 1
    if counted:
        word = counted["count"].lower()
        count = _COUNTS.get(word) or int(word)
    span = Span(number.start, number.end)
    read = PriceRead(
        kind,
        cents,
        number.currency,
        None,
        text[number.start : number.end],
        span,
        certainty,
        note,
        None,
        count,
        _EACH.match(tail) is not None,
    )
    if number.thousands and (half := _HALF_RANGE.search(before)) and float(half["low"]) * 100_000 < cents:
        start = number.start - len(before) + half.start()
        span = Span(start, number.end)
        read = read._replace(
            cents=round(float(half["low"]) * 100_000), cents_to=cents, span=span, text=text[start : span.end], note="a range"
        )
    return _Candidate(read, was, other, number.digits_at)


def _certainty(number: Number, before: str, tail: str, title: Span, *, counted: bool) -> float | None:
    """How sure it is that a number is money, or None: it is not. One that begins with 0 is a ZIP or a serial."""
    if number.role == "money":
        return 0.97 if _ASKED.search(before) else 0.95
    if number.leading_zero or (not _LEAST <= number.value <= _MOST and number.value not in _PLACEHOLDERS):
        return None
    if _SPENT.search(before):
        return 0.6
    if _UP_FROM.search(before):
        return 0.8
    asked = _ASKED.search(before) is not None
    tailed = _TAIL.match(tail) is not None
    if is_year_like(number) and not (asked and tailed):
        return 0.6 if tailed or (asked and _SENTENCE_END.match(tail)) else None
    if number.value < _LEAST:
        return 0.6 if asked and re.search(r"(?:asking|price)\W*\Z", before, re.IGNORECASE) else None
    if asked and (tailed or _SENTENCE_END.match(tail)):
        return 0.88
    if tailed:
        return 0.85
    if number.thousands:
        return 0.8 if asked else 0.7
    if counted or _WAS.search(before):
        return 0.75 if _SENTENCE_END.match(tail) or _WAS.search(before) else None
    if asked:
        return 0.6
    if _FOR.search(before) and _SENTENCE_END.match(tail) and number.value >= _LEAST_FOR:
        return 0.6
    return _alone(number, before, tail, title)


def _alone(number: Number, before: str, tail: str, title: Span) -> float | None:
    """A bare number is a price only where it closes a title after a pause, or has a line to itself and thousands marked."""
    ends_line = not tail.partition("\n")[0].strip(" \t!.")
    whole_line = ends_line and not before.strip()
    if whole_line and (number.grouped or _LEAST_ALONE <= number.value < _MOST_ALONE) and number.value < _MOST:
        return 0.6 if number.grouped else 0.45
    if number.digits_at >= title.end or not _LEAST_LISTED <= number.value < _MOST_ALONE or not _AFTER_PAUSE.search(before):
        return None
    if ends_line and number.value >= _LEAST_ALONE:
        return 0.5
    return 0.4 if tail.startswith(",") and number.value % 25 == 0 else None


def _ranges_joined(text: str, found: list[_Candidate]) -> list[_Candidate]:
    """$800-1000 is one price with two ends; the second end may lack its sign."""
    joined: list[_Candidate] = []
    for candidate in found:
        if joined and joined[-1].read.span.start >= candidate.read.span.start:
            joined.pop()  # "$6-7k": the 6 was read by itself first
        previous = joined[-1] if joined else None
        if (
            previous
            and not candidate.was
            and previous.read.kind == candidate.read.kind == "asked"
            and previous.read.cents_to is None
        ):
            between = text[previous.read.span.end : candidate.read.span.start]
            low, high = previous.read.cents or 0, candidate.read.cents or 0
            if (
                len(between) <= _WIDEST_DASH
                and _RANGE.fullmatch(between)
                and low < high <= 3 * low
                and "or" not in between.lower()
            ):
                span = Span(previous.read.span.start, candidate.read.span.end)
                read = previous.read._replace(cents_to=high, span=span, text=text[span.start : span.end], note="a range")
                joined[-1] = previous._replace(read=read)
                continue
        joined.append(candidate)
    return joined


def _terms(text: str, span: Span) -> str | None:
    after = text[span.end : span.end + _REACH]
    line = after.partition("\n")[0]
    if _FIRM_AFTER.match(after):
        return "firm"
    if _OBO.search(line):
        return "obo"
    if _FIRM.search(text):
        return "firm"
    return "obo" if _OBO.search(text) else None


def wanted(prices: Prices) -> Prices:
    """The prices of an ad that seeks and does not sell: what it would pay is no price asked."""
    others = (*(one for one in (prices.asked, prices.was) if one is not None and one.cents is not None), *prices.others)
    return Prices(_NOT_SAID, None, tuple(sorted(others, key=lambda one: one.span)))


_NOT_SAID = PriceRead("none", None, None, None, "", Span(0, 0), 1.0)


def _no_price(text: str) -> PriceRead:
    free = _FREE_LINE.search(text)
    if free:
        span = Span(*free.span("free" if free["free"] else "taken"))
        note = "given away, or no price set" if free["free"] else "given away"
        return PriceRead("asked", 0, None, None, text[span.start : span.end], span, 0.5 if free["free"] else 0.8, note)
    for kind, pattern in (("call", _CALL), ("trade", _TRADE)):
        match = pattern.search(text)
        if match and not re.search(r"\b(?:no|not)\s{1,2}\Z", text[max(0, match.start() - 6) : match.start()], re.IGNORECASE):
            terms = "obo" if kind == "call" and _OBO.search(match.group()) else None
            return PriceRead(kind, None, None, terms, match.group(), Span(*match.span()), 0.85)
    return _NOT_SAID
