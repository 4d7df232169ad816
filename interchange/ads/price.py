"""The price asked, told apart from every other number: what it was, what something else costs, and no price at all."""

from __future__ import annotations

import re
from collections.abc import Sequence
from math import isfinite
from typing import NamedTuple

from interchange.ads.fields import PriceRead, Span
from interchange.ads.no_price import NOT_SAID, no_price, terms
from interchange.ads.number import Number, is_year_like

_REACH = 48  # characters looked at on either side of a number
_LEAST, _MOST = 20, 2_000_000  # dollars, for a number with no currency sign
_LEAST_FOR = 50  # after "for" alone
_LEAST_ALONE, _MOST_ALONE = 200, 10_000  # with no word of asking either
_ELSE = 0.6
_SIGNED, _SURE_ASKED = 0.86, 0.88  # certain of money with only its sign; with a word of asking and no sign
_LEAST_LISTED = 100  # between commas in a title
_WIDEST_DASH = 6  # signs between the ends of a range

_ASKED = re.compile(
    r"(?:asking|asks?|price[ds]?|preis|prix|precio|prijs|cena|wants?|wanting|sell(?:ing)?(?: it| them| all)? for|yours for"
    r"|take[sn]?|i'?d take|sacrifice|let (?:it )?go for|would like|like to (?:get|see)|looking to get|hop(?:e|ing) to get"
    r"|(?:somebody|someone|anybody) give me|ask for it|how(?:'s|s| is| about)|settle for|accept"
    r"|need|(?:go|let (?:it|her|them) go|going) (?:cheap )?(?:for|at)|lowest|no less than|thinking"
    r"|figure[ds]?(?: on)?|would be|make (?:it|that)|call it|say|our price|outright"
    r"|come get it for|have to (?:have|get)|got to (?:have|get)"
    r"|buy it now|bin|make it|now|only|just|gets? it|cash|first|obo|firm|sale)"
    r"(?:[ \t]{0,2}(?:is|at|of|price|reduced|to|it|a|around|about|only|just|am|all|for|[:=~@–-]"
    r"|\.{2,3})){0,3}[ \t]{0,2}[:=~@–-]?[ \t]{0,2}\Z",
    re.IGNORECASE,
)
_FOR = re.compile(r"\b(?:for|at|@)[ \t]{0,2}\Z", re.IGNORECASE)
_LEADER = re.compile(r"(?:\.{4,}|_{4,}|…{2,})[ \t]{0,3}\Z|[ \t](?:--|–|—|=)[ \t]{0,2}\Z")

_TAIL = re.compile(
    r"[ \t]{0,2}[/,(–-]?[ \t]{0,2}(?:or best|o\.? ?b\.? ?o\b|firm\b|neg(?:otiable)?\b|cash\b|takes? (?:it"
    r"|all|both|everything)\b|each\b|ea\b|apiece\b|buys\b|gets it\b|delivered\b|shipped\b|picked up\b"
    r"|last price\b|or trades?\b|or b/?\.?o\b|(?:is|was) the price\b|would (?:buy|get|take) it\b|sounds?\b|is yours\b"
    r"|o\.?n\.?o\b|for (?:the|it|him|her|both|all|everything)\b|or near|even\b|bucks\b|bottom (?:dollar|line|price)"
    r"|all day\b|(?:and|n|an) (?:it'?s yours|you|not a)|come (?:and )?get it|obo\b|and no less\b"
    r"|is (?:what|fair|all|my|the|lowest|firm)\b|lowest\b|seems fair|picks? it up"
    r"|or (?:an? )?offers?\b|owns it\b|would do\b|will do\b)",
    re.IGNORECASE,
)
_SENTENCE_END = re.compile(
    r"[ \t]{0,2}(?:$|[\n.,;!)?]|[0-9]|or\b|obo\b|firm\b|cash\b|each\b|if\b|takes?\b|and\b|but\b|[-–]\s)", re.IGNORECASE
)
_WAS = re.compile(
    r"\b(?:was|were|used to be|marked|originally|original price|old price|regular(?:ly)?|reg|reduced from"
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
    r"|(?:current|opening|starting|minimum|min|next|max|high|highest|winning|your max)\.?(?: acceptable)? bid|bid(?:ding)?"
    r"|hammer(?: price)?|premium|capped|load ?out|travel|should ask|(?:won'?t|wont|wouldn'?t|not) take|got"
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
    r"|(?:bid|min(?:imum|\.)?(?: bid)?|load ?out|handling)\b|\?|each way\b|(?:loaded |a )mile\b|c/d\b"
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
_PLACED_BEFORE = re.compile(
    r"\b(?:ships?|shipping|shipped|located|pick ?up|zip|near|delivered)(?: (?:from|in|at|to|code))?[ \t:]{1,3}\Z", re.IGNORECASE
)
_AFTER_PAUSE = re.compile(r"[,–-][ \t]{0,2}\Z")
_HALF_RANGE = re.compile(r"(?<![\w.])\$?(?P<low>[0-9]{1,3}(?:\.[0-9])?)[ \t]?(?:-|–|to)[ \t]?\$?\Z")
_UP_FROM = re.compile(r"[$€£][ \t]{0,2}[0-9][0-9.,]{0,12}k?[ \t]{0,2}(?:-|–|to)[ \t]{0,2}\Z", re.IGNORECASE)  # $800-1000
_COUNT_FOR = re.compile(
    r"(?<![\w.$-])(?P<count>[2-9]|1[0-9]|two|three|four|five|both)(?: of them)? ?(?:for|@)[ \t]{0,2}\Z", re.IGNORECASE
)
_COUNTS = {"two": 2, "both": 2, "three": 3, "four": 4, "five": 5}
_EACH = re.compile(r"[ \t]{0,2}/?[ \t]{0,2}(?:each|ea|apiece|a ?piece)\b", re.IGNORECASE)

_PLACEHOLDERS = frozenset([
    0, 1, 2, 3, 11, 12, 111, 123, 1111, 1234, 4321, 9999, 11111, 12345, 54321, 99999, 111111, 123456, 999999,
    1111111, 1234567, 9999999,
])  # fmt: skip
_DOUBTFUL_PLACEHOLDER = 100
_SYMBOLS = re.compile("[\u2190-\u22ff\u2600-\u27bf\U0001f000-\U0001faff]")
_RUNS_ON = re.compile(r"[a-z,][ \t]{0,2}\n[ \t]{0,2}\Z")  # the line before goes on: "now" at its end, the price below
_BARE_UP_FROM = re.compile(r"(?<![\w$.,-])[1-9][0-9]{2,5}[ ]?(?:-|–|to)[ ]?\Z", re.IGNORECASE)
_PLUS = re.compile(r"(?:\+|\bplus)[ \t]{0,2}\Z", re.IGNORECASE)
_CORE_AFTER = re.compile(r"[ \t]{0,2}(?:refundable )?core\b", re.IGNORECASE)
_LAST_WORD = re.compile(r"[ \t]{0,2}(?:last price|bottom|(?:and )?that'?s (?:the|my) (?:bottom|last))", re.IGNORECASE)
_AUCTION = re.compile(
    r"(?<!no )\b(?:(?:current|opening|starting|minimum|min\.?|next|high|winning|sealed"
    r"|max)(?: acceptable)? bids?|buyer'?s premium|bidding"
    r"|hammer price|reserve (?:not met|is off|off)|highest bidder|to bidder|sealed bid|(?:estate"
    r"|property|consignment|public|online) auction|no reserve|buyer premium)\b",
    re.IGNORECASE,
)
_ASKED_AT_AUCTION = re.compile(r"\b(?:will take|asking|buy it now|buy now|or best offer)[ \t:]{0,3}\Z", re.IGNORECASE)
_HISTORY = re.compile(
    r"\b(?:bought|paid|cost|gave|spent|invested|quoted|traded|had the|had it)\b[^.;!?\n]{0,60}\Z", re.IGNORECASE
)
_RENTED_BY = re.compile(r"\b(?:day|daily|hour|hourly|week|weekly|month|monthly|weekend)[ \t:]{0,3}\Z", re.IGNORECASE)
_RENTS = re.compile(r"\b(?:rent(?:al|als|ed|s)?|hire)\b", re.IGNORECASE)


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
    auction, rents = _AUCTION.search(text) is not None, _RENTS.search(text) is not None
    made = [one for number in numbers if (one := _candidate(text, number, title, rents=rents))]
    found = _ranges_joined(text, [_bid(text, one) for one in made] if auction else made)
    live = [candidate for candidate in found if not candidate.other]
    was = [candidate for candidate in live if candidate.was]
    asked = [candidate for candidate in live if not candidate.was]
    if not asked and was:  # "was 900" and nothing after it: that is all the price there is
        asked, was = [was[0]._replace(read=was[0].read._replace(note="said of the past", certainty=0.4))], was[1:]
    spare = [candidate.read for candidate in found if candidate.other]
    if not asked:
        nothing = no_price(text)
        last = _last_resort(text, numbers, title) if nothing.kind == "none" and not auction else None
        return Prices(last or nothing, was[0].read if was else None, tuple(spare))
    best = _best(asked)
    rest = [candidate.read for candidate in asked if candidate is not best]
    chosen = _struck_out(text, best.read, rest)
    old = was[0].read if was else next((one for one in rest if one.note == "struck out"), None)
    return Prices(
        chosen,
        old,
        tuple(sorted((one for one in (*rest, *spare, *(w.read for w in was[1:])) if one is not old), key=lambda one: one.span)),
    )


_LAST_RESORT = 0.35
_CLAUSE_BEGINS = re.compile(r"(?:^|[.;,:&+]|\band)[ \t]{0,3}\Z", re.IGNORECASE)
_NOUN_AFTER = re.compile(r"[ \t]{1,2}(?!and\b|or\b|but\b|it\b|he\b|takes?\b|for\b|if\b|runs\b)[a-z]", re.IGNORECASE)
_LEAST_ROUND, _ROUNDED = 400, 50
_COUNTS_SOMETHING = re.compile(
    r"[ \t]{0,2}(?:on (?:the|it|her|that|this|meter|a)\b|series\b|style\b|model\b|watts?\b|grit"
    r"|since|/|x[ 0-9]|[-–][0-9]|,[ ]?[0-9]{3})",
    re.IGNORECASE,
)


def _last_resort(text: str, numbers: Sequence[Number], title: Span) -> PriceRead | None:
    """In an ad with no other price a round sum that is nothing else: "runs good eleven hundred"; doubtful, and marked so."""
    for number in numbers:
        rounded = isfinite(number.value) and _LEAST_ROUND <= number.value <= 2 * _MOST_ALONE and number.value % _ROUNDED == 0
        if number.role != "plain" or not rounded or number.leading_zero or is_year_like(number):
            continue
        before = text[max(0, number.start - _REACH) : number.start].rpartition("\n")[2]
        tail = text[number.end : number.end + _REACH]
        spoiled = (
            _NAMES_BEFORE.search(before) or _OTHER.search(before) or _OTHER_AFTER.match(tail) or _COUNTS_SOMETHING.match(tail)
        )
        counts = _CLAUSE_BEGINS.search(before) and _NOUN_AFTER.match(tail)
        if not spoiled and not counts and not before.endswith(("-", "/", "#")):
            made = _candidate(text, number, title, rents=False)
            span = Span(number.start, number.end)
            if made is None:
                note = "a round number with no word for what it is"
                return PriceRead(
                    "asked", round(number.value * 100), None, None, text[span.start : span.end], span, _LAST_RESORT, note
                )
    return None


def _best(asked: list[_Candidate]) -> _Candidate:
    """The surest; of a list of things each with its price, where none is said to be asked, the first."""
    real = [one for one in asked if one.read.kind not in ("placeholder", "rental")] or asked
    surest = max(one.read.certainty if one.read.for_count == 1 else 0.0 for one in real)
    if len({one.read.cents for one in real}) >= _LISTED and surest <= _SURE_LISTED:
        return min(real, key=lambda one: one.digits_at)
    return max(real, key=lambda one: (one.read.certainty, -one.digits_at))


_LISTED, _SURE_LISTED = 3, 0.87


def _bid(text: str, candidate: _Candidate) -> _Candidate:
    """At an auction only what the seller is said to take is asked; the rest is bids and fees."""
    before = text[max(0, candidate.read.span.start - _REACH) : candidate.read.span.start]
    return candidate if _ASKED_AT_AUCTION.search(before) else candidate._replace(other=True)


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
        return best._replace(terms=terms(text, best.span))
    note, certainty = best.note, best.certainty
    if differing:
        note = note or f"one of {len(differing) + 1} prices"
        certainty *= 0.8
    return best._replace(terms=terms(text, best.span), note=note, certainty=certainty)


def _candidate(text: str, number: Number, title: Span, *, rents: bool) -> _Candidate | None:
    if not isfinite(number.value) or number.role not in ("money", "plain"):
        return None
    window = _SYMBOLS.sub(" ", text[max(0, number.start - _REACH) : number.start])
    before = window.rpartition("\n")[2]
    run_on = window.replace("\n", " ") if not before.strip() and _RUNS_ON.search(window) else before
    tail = _SYMBOLS.sub(" ", text[number.end : number.end + _REACH])
    counted = _COUNT_FOR.search(before)
    certainty = _certainty(number, before, run_on, tail, title, counted=counted is not None)
    if certainty is None:
        return None
    if _OR_ELSE.search(before) and certainty > _ELSE:
        certainty = _ELSE  # another way to buy, not the price
    rental = _RENTAL.match(tail) is not None or (rents and _RENTED_BY.search(before) is not None)
    other = bool(_OTHER.search(before) or _OTHER_AFTER.match(tail) or (_PLUS.search(before) and _CORE_AFTER.match(tail)))
    if not other and certainty < _SURE_ASKED and _HISTORY.search(text[max(0, number.start - 2 * _REACH) : number.start]):
        other = True
    was = bool(_WAS.search(before))
    if was and _ONLY_FROM.search(before) and not re.match(r"[ \t,]{0,3}(?:down )?(?:to|now)\b", tail, re.IGNORECASE):
        was = False
    meant = number.value * (_said_short(number) if certainty == _SHORT else 1)
    cents = round(meant * 100)
    kind, note = "rental" if rental else "asked", ""
    if certainty == _SHORT:
        note = "said short: hundreds or thousands are meant"
    elif number.value > _MOST:
        kind, certainty, note = "placeholder", 0.85, "beyond any price"
    elif cents % 100 == 0 and number.value in _PLACEHOLDERS:
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


def _certainty(number: Number, before: str, run_on: str, tail: str, title: Span, *, counted: bool) -> float | None:
    """How sure it is that a number is money, or None: it is not. One that begins with 0 is a ZIP or a serial."""
    asked = _ASKED.search(run_on) is not None
    tailed = _TAIL.match(tail) is not None
    if _LAST_WORD.match(tail) and (number.role == "money" or number.value >= _LEAST_FOR):
        return 0.98
    if number.role == "money":
        if asked or (tailed and not _EACH.match(tail)):
            return 0.97
        alone = not before.strip(" \t-–") or number.start < title.end
        return 0.95 if alone else _SIGNED
    if (
        number.leading_zero
        or _PLACED_BEFORE.search(before)
        or not (_LEAST <= number.value <= _MOST or number.value in _PLACEHOLDERS or _said_short(number))
    ):
        return None
    if _SPENT.search(before):
        return 0.6
    if _UP_FROM.search(before):
        return 0.8
    if _BARE_UP_FROM.search(before) and number.value >= _LEAST_ALONE:
        return 0.45
    if is_year_like(number) and not (asked and tailed):
        return 0.6 if tailed or (asked and _SENTENCE_END.match(tail)) else None
    if asked and _said_short(number) and _SENTENCE_END.match(tail):
        return _SHORT
    if number.value < _LEAST:
        return 0.6 if asked and re.search(r"(?:asking|price)\W*\Z", before, re.IGNORECASE) else None
    if counted and _SENTENCE_END.match(tail):
        return _SURE_ASKED
    if asked and (tailed or _SENTENCE_END.match(tail)):
        return _SURE_ASKED
    if _RENTAL.match(tail) and number.value >= _LEAST:
        return 0.6
    if number.hundredths or (_LEADER.search(before) and number.value >= _LEAST_FOR):
        return _SIGNED
    if tailed:
        return 0.85
    if number.thousands:
        return 0.8 if asked else 0.7
    was = _WAS.search(before) is not None and not _ONLY_FROM.search(before)
    if counted or was:
        return 0.75 if was or _SENTENCE_END.match(tail) else None
    if asked:
        return 0.6
    if _FOR.search(before) and _SENTENCE_END.match(tail) and number.value >= _LEAST_FOR:
        return 0.6
    return _alone(number, before, tail, title)


_SHORT = 0.51
_SHORT_FROM, _SHORT_TO = 14, 48


def _said_short(number: Number) -> int:
    """What a number said short is of: "asking 3.5" thousands, "asking 18" hundreds; 0 where it is not short."""
    if number.role != "plain" or number.leading_zero:
        return 0
    if number.grouped and number.value < 20 and number.value % 1:  # noqa: PLR2004 - "3.5"
        return 1000
    return 100 if not number.grouped and _SHORT_FROM <= number.value <= _SHORT_TO else 0


def _alone(number: Number, before: str, tail: str, title: Span) -> float | None:
    """A bare number is a price only where it closes a title after a pause, or has a line to itself and thousands marked."""
    ends_line = not tail.partition("\n")[0].strip(" \t!.")
    whole_line = ends_line and not before.strip()
    if whole_line and (number.grouped or _LEAST_ALONE <= number.value < _MOST_ALONE) and number.value < _MOST:
        return 0.6 if number.grouped else 0.45
    if number.value < _LEAST_LISTED or number.value >= _MOST_ALONE or number.value % _ROUND or is_year_like(number):
        return None
    closes = ends_line or _PAUSE_AFTER.match(tail) is not None
    if _AFTER_PAUSE.search(before) and (number.digits_at < title.end or ends_line) and (ends_line or closes):
        return 0.5 if number.value >= _LEAST_ALONE else 0.4
    if number.grouped and _SENTENCE_END.match(tail) and not _NAMES_BEFORE.search(before):
        return 0.42
    if ends_line and _WORD_BEFORE.search(before) and not _NAMES_BEFORE.search(before):
        return 0.4
    if number.grouped and ends_line and _OR_ELSE.search(before):
        return 0.5
    if (not before.strip() or _AFTER_PAUSE.search(before)) and _RANGE_ON.match(tail):
        return 0.45
    return None


_ROUND = 5  # prices are round; hours and serials mostly are not
_PAUSE_AFTER = re.compile(r"[ \t]{0,2}(?:,|[-–—]|;)")
_WORD_BEFORE = re.compile(r"[A-Za-z)0-9][ \t]{1,3}\Z")
_OR_ELSE = re.compile(r"\bor[ ]\Z", re.IGNORECASE)
_RANGE_ON = re.compile(r"[ \t]{1,2}(?:to|-|–)[ \t]{1,2}[0-9]")
_NAMES_BEFORE = re.compile(
    r"\b(?:serial|s/?n|no\.?|number|model|route|rt|hwy|highway|hours?|hrs?|meter|tach|clock|reads?"
    r"|code|zip|box|plate|ends(?: in)?"
    r"|is|tag|about|around|lbs?|weighs?|rpm|at|route|lifts|or|year|in|since|from|of|a|an|the|for"
    r"|has|have|had|with)[ \t:#.]{0,3}\Z",
    re.IGNORECASE,
)


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
                and low < high
                and (high <= 3 * low or "$" in candidate.read.text)
                and "or" not in between.lower()
            ):
                span = Span(previous.read.span.start, candidate.read.span.end)
                read = previous.read._replace(cents_to=high, span=span, text=text[span.start : span.end], note="a range")
                joined[-1] = previous._replace(read=read)
                continue
        joined.append(candidate)
    return joined


def wanted(prices: Prices) -> Prices:
    """The prices of an ad that seeks and does not sell: what it would pay is no price asked."""
    others = (*(one for one in (prices.asked, prices.was) if one is not None and one.cents is not None), *prices.others)
    return Prices(NOT_SAID, None, tuple(sorted(others, key=lambda one: one.span)))
