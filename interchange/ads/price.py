"""The price asked, told apart from every other number: what it was, what something else costs, and no price at all."""

from __future__ import annotations

import re
from collections.abc import Sequence
from math import isfinite

from interchange.ads import price_words as says
from interchange.ads.currency import Prices
from interchange.ads.fields import PriceRead, Span
from interchange.ads.no_price import no_price, terms
from interchange.ads.number import Number, is_year_like
from interchange.ads.price_choice import Candidate, comes_down, exchanged, last_said, marked_down, ranges_joined
from interchange.ads.talk import Talk, talk

_REACH = 48  # characters looked at on either side of a number
_LEAST, _MOST = 20, 2_000_000  # dollars, for a number with no currency sign
_LEAST_FOR = 50  # after "for" alone
_LEAST_ALONE, _MOST_ALONE = 200, 10_000  # with no word of asking either
_ELSE = 0.6
_SIGNED, _SURE_ASKED = 0.86, 0.88  # certain of money with only its sign; with a word of asking and no sign
_LEAST_LISTED = 100  # between commas in a title


_COUNTS = {"two": 2, "both": 2, "three": 3, "four": 4, "five": 5}

_PLACEHOLDERS = frozenset([
    0, 1, 2, 3, 11, 12, 111, 123, 1111, 1234, 4321, 9999, 11111, 12345, 54321, 99999, 111111, 123456, 999999,
    1111111, 1234567, 9999999,
])  # fmt: skip
_DOUBTFUL_PLACEHOLDER = 100


_SIGNS = {"€": "EUR", "£": "GBP"}


def by_rules(text: str, numbers: Sequence[Number], title: Span) -> tuple[Prices, list[Candidate]]:
    """Choose the price asked among the numbers of an ad; with it every sum that was held against it."""
    auction, rents = says.AUCTION.search(text) is not None, says.RENTS.search(text) is not None
    hired = says.FOR_HIRE.search(text) is not None
    to_and_fro = talk(text)
    made = [one for number in numbers if (one := _candidate(text, number, title, to_and_fro, rents=rents))]
    if hired:
        timed = [one for number in numbers if (one := _by_time(text, number))]
        made = sorted([*(_hire(one) for one in made), *timed], key=lambda one: one.digits_at)
    found = marked_down(text, ranges_joined(text, [_bid(text, one) for one in made] if auction else made))
    if only := says.TRADE_ONLY.search(text):
        read = PriceRead("trade", None, None, None, only.group(), Span(*only.span()), _SIGNED)
        return Prices(read, None, tuple(one.read for one in found)), found
    live = [candidate for candidate in found if not candidate.other]
    was = [candidate for candidate in live if candidate.was]
    asked = [candidate for candidate in live if not candidate.was]
    if not asked and was:  # "was 900" and nothing after it: that is all the price there is
        asked, was = [was[0]._replace(read=was[0].read._replace(note="said of the past", certainty=0.4))], was[1:]
    spare = [candidate.read for candidate in found if candidate.other]
    if not asked and (again := _same_again(text, found)):
        return Prices(again, None, tuple(one.read for one in found if one.read.span != again.span)), found
    if not asked:
        nothing = no_price(text)
        last = _last_resort(text, numbers, title, to_and_fro) if nothing.kind == "none" and not auction else None
        return Prices(last or nothing, was[0].read if was else None, tuple(spare)), found
    best = _best(_weighed(text, asked)) if not to_and_fro.to_and_fro else last_said(asked)
    best = exchanged(text, best, asked)
    rest = [candidate.read for candidate in asked if candidate.read.span != best.read.span]
    chosen = _struck_out(text, best.read, rest)
    old = was[0].read if was else next((one for one in rest if one.note == "struck out"), None)
    if chosen.terms is None and any(comes_down(text, one, chosen) for one in rest):
        chosen = chosen._replace(terms="obo")
    others = sorted((one for one in (*rest, *spare, *(w.read for w in was[1:])) if one is not old), key=lambda one: one.span)
    return Prices(chosen, old, tuple(others)), found


def _hire(candidate: Candidate) -> Candidate:
    """Where a thing is for hire, every price is for a time."""
    return candidate if candidate.other else candidate._replace(read=candidate.read._replace(kind="rental"))


def _by_time(text: str, number: Number) -> Candidate | None:
    """A sum of hire with its time right behind: "85 hr with me in it", "275 day"."""
    if (
        number.role not in ("hours", "time")
        or text[number.start - 1 : number.start] == "/"
        or not _LEAST <= number.value <= _MOST_ALONE
    ):
        return None
    span = Span(number.start, number.digits_end)
    read = PriceRead("rental", round(number.value * 100), None, None, text[span.start : span.end], span, _ELSE)
    return Candidate(read, was=False, other=False, digits_at=number.digits_at)


def _same_again(text: str, found: Sequence[Candidate]) -> PriceRead | None:
    """What was paid, where that is asked again: "I paid $500 and I am asking the same"."""
    if so := says.SO_ASKED.search(text):
        named = [one.read for one in found if one.read.span.end <= so.start()]
        return named[-1]._replace(note="said of what it is worth, and asked", certainty=_ELSE) if named else None
    if not says.SAME_AGAIN.search(text):
        return None
    paid = [one.read for one in found if says.PAID.search(text[max(0, one.read.span.start - _REACH) : one.read.span.start])]
    return paid[0]._replace(note="what was paid is asked again", certainty=_ELSE) if paid else None


def _weighed(text: str, asked: Sequence[Candidate]) -> list[Candidate]:
    """The prices with what stands about them: an aside, a sum for several, one he would come down to, an edit."""
    weighed: list[Candidate] = []
    for one in asked:
        before = text[max(0, one.read.span.start - _REACH) : one.read.span.start]
        sure = one.read.certainty
        if sure >= _CORRECTED:
            pass
        elif says.EDITED.search(before):
            sure = _LAST + len(weighed) * _LATER
        elif weighed and says.COMES_DOWN.search(before) and any(other.read.certainty >= _SIGNED for other in weighed):
            sure = min(sure, _ELSE)
        elif len(asked) > 2 and says.BOTH.search(before):  # noqa: PLR2004 - a list, and all of it together
            sure *= _LEAST_OF_A_LIST
        elif (says.OUTRIGHT.search(before) and says.EXCHANGE.search(text)) or (
            len(asked) > 1
            and (
                says.ASIDE.search(before)
                or says.BOTH.search(before)
                or says.FOR_SEVERAL.match(text[one.read.span.end : one.read.span.end + _REACH])
            )
        ):
            sure *= _BESIDES
        weighed.append(one._replace(read=one.read._replace(certainty=min(sure, 1.0))))
    return weighed


_LAST, _LATER, _BESIDES, _LEAST_OF_A_LIST = 0.985, 1e-4, 0.7, 0.4
_LAST_RESORT = 0.35
_LEAST_ROUND, _ROUNDED = 400, 50


def _last_resort(text: str, numbers: Sequence[Number], title: Span, to_and_fro: Talk) -> PriceRead | None:
    """In an ad with no other price a round sum that is nothing else, "runs good eleven hundred": doubtful, and marked so."""
    best: tuple[int, int, Number] | None = None
    for number in numbers:
        if number.role != "plain" or number.leading_zero or is_year_like(number) or not isfinite(number.value):
            continue
        before = text[max(0, number.start - _REACH) : number.start].rpartition("\n")[2]
        tail = text[number.end : number.end + _REACH]
        if _is_something_else(number, before, tail) or _candidate(text, number, title, to_and_fro, rents=False) is not None:
            continue
        over = says.SENTENCE_OVER.match(tail) is not None or says.TAIL.match(tail) is not None
        points = 2 * over + (number.value % _ROUNDED == 0) + (says.CLAUSE_BEGINS.search(before) is not None)
        least = 1 if number.value >= _LEAST_ROUND and number.value % _ROUNDED == 0 else 2
        if points >= least and _LEAST_LISTED <= number.value <= 2 * _MOST_ALONE and number.value % _ROUND == 0:
            best = max(best or (points, number.start, number), (points, number.start, number), key=lambda one: one[:1])
    if best is None:
        return None
    span = Span(best[2].start, best[2].end)
    note = "a round number with no word for what it is"
    return PriceRead("asked", round(best[2].value * 100), None, None, text[span.start : span.end], span, _LAST_RESORT, note)


def _is_something_else(number: Number, before: str, tail: str) -> bool:
    """Whether a bare number counts, names or places something."""
    if before.endswith(("-", "#")) or (before.endswith("/") and not before.endswith(" /")):
        return True
    if says.NAMES_BEFORE.search(before) or says.OTHER.search(before) or says.OTHER_AFTER.match(tail):
        return True
    named = says.MODEL_BEFORE.search(before) is not None and number.value < 1000  # noqa: PLR2004 - "Pellworth 540"
    counts = says.CLAUSE_BEGINS.search(before) and says.NOUN_AFTER.match(tail)
    return bool(named or counts or says.COUNTS_SOMETHING.match(tail))


def _best(asked: list[Candidate]) -> Candidate:
    """The surest; of a list of things each with its price, where none is said to be asked, the first."""
    real = [one for one in asked if one.read.kind not in ("placeholder", "rental")] or asked
    if all(one.read.kind == "rental" for one in real):
        return min(real, key=lambda one: one.read.cents or 0)  # the shortest time
    if any(one.read.kind == "placeholder" and one.read.currency for one in asked):
        real = [one for one in real if one.read.certainty >= _ELSE] or asked  # a bare number beside "$1234567" is a model's
    outright = any(
        one.read.certainty in _OUTRIGHT or one.read.certainty > _OUTRIGHT[-1] for one in real if one.read.for_count == 1
    )
    if len({one.read.cents for one in real}) >= _LISTED and not outright:
        return min(real, key=lambda one: one.digits_at)
    return max(real, key=lambda one: (one.read.certainty, -one.digits_at))


_LISTED = 3
_TAILED = 0.96  # a sum of money with a word behind it: firm, takes it
_OUTRIGHT = (_SURE_ASKED, 0.97)  # where a word says that it is asked


def _bid(text: str, candidate: Candidate) -> Candidate:
    """At an auction only what the seller is said to take is asked; the rest is bids and fees."""
    before = text[max(0, candidate.read.span.start - _REACH) : candidate.read.span.start]
    return candidate if says.ASKED_AT_AUCTION.search(before) else candidate._replace(other=True)


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


def _candidate(text: str, number: Number, title: Span, to_and_fro: Talk, *, rents: bool) -> Candidate | None:
    if not isfinite(number.value) or number.role not in ("money", "plain"):
        return None
    window = says.SYMBOLS.sub(" ", text[max(0, number.start - _REACH) : number.start])
    before = window.rpartition("\n")[2]
    run_on = window.replace("\n", " ") if not before.strip() and says.RUNS_ON.search(window) else before
    tail = says.SYMBOLS.sub(" ", text[number.end : number.end + _REACH])
    counted = says.COUNT_FOR.search(before)
    certainty = _certainty(number, before, run_on, tail, title, counted=counted is not None)
    if to_and_fro.to_and_fro and _answers_another(text, number, before):
        return None
    if certainty is None and to_and_fro.to_and_fro and _answers(number, before):
        certainty = _ELSE
    if certainty is None:
        return None
    if says.OR_ELSE.search(before) and certainty > _ELSE:
        certainty = _ELSE  # another way to buy, not the price
    rental = says.RENTAL.match(tail) is not None or (rents and says.RENTED_BY.search(before) is not None)
    other = to_and_fro.holds(number.digits_at) or bool(
        says.OTHER.search(before)
        or says.SENT.search(before)
        or says.OTHER_AFTER.match(tail)
        or (says.PLUS.search(before) and says.CORE_AFTER.match(tail))
    )
    other = (other or says.GO_FOR.search(before) is not None) and not says.NEW_PRICE.search(before)
    if not other and certainty < _SURE_ASKED and says.HISTORY.search(text[max(0, number.start - 2 * _REACH) : number.start]):
        other = True
    was = bool(says.WAS.search(before))
    if was and says.ONLY_FROM.search(before) and not re.match(r"[ \t,]{0,3}(?:down )?(?:to|now)\b", tail, re.IGNORECASE):
        was = False
    meant = number.value * (_said_short(number) if certainty == _SHORT else 1)
    tenths = number.role == "money" and number.currency == "USD" and not number.thousands
    if tenths and says.TENTHS.fullmatch(text, number.digits_at, number.digits_end):
        meant, certainty = 1000 * number.value, min(certainty, 0.8)  # "$2.5": nobody asks two dollars and a half
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
        number.currency or _beside(text, number),
        None,
        text[number.start : number.end],
        span,
        certainty,
        note,
        None,
        count,
        says.EACH.match(tail) is not None,
    )
    if number.thousands and (half := says.HALF_RANGE.search(before)) and float(half["low"]) * 100_000 < cents:
        start = number.start - len(before) + half.start()
        span = Span(start, number.end)
        read = read._replace(
            cents=round(float(half["low"]) * 100_000), cents_to=cents, span=span, text=text[start : span.end], note="a range"
        )
    return Candidate(read, was, other, number.digits_at)


def _answers_another(text: str, number: Number, before: str) -> bool:
    """Whether what was asked before is the hours, the year or the like: "Ed: hours?", "OP: 6250"."""
    asked = text[: max(0, number.start - len(before) - 1)].rstrip()[-_REACH:].rpartition("\n")[2]
    return number.role == "plain" and says.ANSWERS.fullmatch(before) is not None and says.ANOTHER_FIGURE.search(asked) is not None


def _answers(number: Number, before: str) -> bool:
    """Whether a number begins what somebody says in a talk: "Ray: 1500", "no 1500", "1700 meet me"."""
    round_sum = _LEAST_FOR <= number.value <= _MOST_ALONE and number.value % _ROUND == 0
    return number.role == "plain" and round_sum and not is_year_like(number) and says.ANSWERS.fullmatch(before) is not None


def _beside(text: str, number: Number) -> str | None:
    """A currency that stands on the line of a number without one, as in a row of a table."""
    start = text.rfind("\n", max(0, number.start - _LINE), number.start) + 1 or max(0, number.start - _LINE)
    end = text.find("\n", number.end, number.end + _LINE)
    found = {
        code or _SIGNS[euro or pound]
        for code, euro, pound in says.CODE.findall(text[start : end if end >= 0 else number.end + _LINE])
    }
    return found.pop() if len(found) == 1 else None


_LINE = 160


def _certainty(number: Number, before: str, run_on: str, tail: str, title: Span, *, counted: bool) -> float | None:
    """How sure it is that a number is money, or None: it is not. One that begins with 0 is a ZIP or a serial."""
    asked = says.ASKED.search(run_on) is not None
    tailed = says.TAIL.match(tail) is not None
    if "(" in before and says.CORRECTED.search(before) and number.value >= _LEAST_FOR:
        return _CORRECTED
    if says.FOR_ALL.search(before) and (number.role == "money" or number.value >= _LEAST_ALONE):
        return 0.97
    if says.LAST_WORD.match(tail) and (number.role == "money" or number.value >= _LEAST_FOR):
        return 0.98
    if number.role == "money":
        if asked or (tailed and not says.EACH.match(tail)):
            return 0.97 if asked or not says.ONLY_TERMS.match(tail) else _TAILED
        alone = not before.strip(" \t-–") or number.start < title.end
        return 0.95 if alone else _SIGNED
    if (
        number.leading_zero
        or says.PLACED_BEFORE.search(before)
        or not (_LEAST <= number.value <= _MOST or number.value in _PLACEHOLDERS or _said_short(number))
    ):
        return None
    if says.SPENT.search(before):
        return 0.6
    if says.UP_FROM.search(before):
        return 0.8
    if says.BARE_UP_FROM.search(before) and number.value >= _LEAST_ALONE:
        return 0.45
    if is_year_like(number) and says.STRONG.search(before):
        return _ELSE
    if is_year_like(number) and not (asked and tailed):
        return 0.6 if tailed or (asked and says.SENTENCE_END.match(tail)) else None
    if _said_short(number) and _is_short(number, before, tail, asked=asked):
        return _SHORT
    if number.value < _LEAST:
        return 0.6 if asked and re.search(r"(?:asking|price)\W*\Z", before, re.IGNORECASE) else None
    if counted and says.SENTENCE_END.match(tail):
        return _SURE_ASKED
    if asked and (tailed or says.SENTENCE_END.match(tail)):
        return _SURE_ASKED
    if (says.RENTAL.match(tail) or says.RENTED_BY.search(before)) and number.value >= _LEAST:
        return 0.6
    if number.hundredths or (says.LEADER.search(before) and number.value >= _LEAST_FOR):
        return _SIGNED
    if tailed:
        return 0.85
    if number.thousands:
        return 0.8 if asked else 0.7
    was = says.WAS.search(before) is not None and not says.ONLY_FROM.search(before)
    if counted or was:
        return 0.75 if was or says.SENTENCE_END.match(tail) else None
    if asked or (
        says.IS.search(before) and number.value >= _LEAST_LISTED and number.value % _ROUND == 0 and says.SENTENCE_END.match(tail)
    ):
        return 0.6
    if says.RANGE_OF.match(tail) and _LEAST_ALONE <= number.value < _MOST_ALONE and number.value % _ROUND == 0:
        return 0.44
    if says.FOR.search(before) and says.SENTENCE_END.match(tail) and number.value >= _LEAST_FOR:
        return 0.6
    return _alone(number, before, tail, title)


_SHORT = 0.51
_CORRECTED = 0.99
_SHORT_FROM, _SHORT_TO = 10, 48


def _is_short(number: Number, before: str, tail: str, *, asked: bool) -> bool:
    """Whether a small number is a price said short: one digit only where it is plainly asked, "asking about 2"."""
    if number.value < _SHORT_FROM and not number.grouped:
        return says.WANTS.search(before) is not None and says.SHORT_END.match(tail) is not None
    if asked and (says.SENTENCE_END.match(tail) or says.SHORT_END.match(tail)):
        return True
    return says.SHORT_TAIL.match(tail) is not None


def _said_short(number: Number) -> int:
    """What a number said short is of: "asking 3.5" thousands, "asking 18" hundreds; 0 where it is not short."""
    if number.role != "plain" or number.leading_zero:
        return 0
    if number.grouped and number.value < 20 and number.value % 1:  # noqa: PLR2004 - "3.5"
        return 1000
    if not number.grouped and 1 < number.value < 10:  # noqa: PLR2004 - "asking 2"
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
    if number.grouped and says.OR_NUMBER.search(before):
        return 0.45
    closes = ends_line or says.PAUSE_AFTER.match(tail) is not None
    if says.BY_ITSELF.search(before) and says.SENTENCE_OVER.match(tail) and number.value >= _LEAST_ALONE:
        return 0.45
    if says.AFTER_PAUSE.search(before) and (number.digits_at < title.end or ends_line) and (ends_line or closes):
        return 0.5 if number.value >= _LEAST_ALONE else 0.4
    if number.grouped and says.SENTENCE_END.match(tail) and not says.NAMES_BEFORE.search(before):
        return 0.42
    if ends_line and says.WORD_BEFORE.search(before) and not says.NAMES_BEFORE.search(before):
        return 0.4
    if says.WHOLE_RANGE.search(before) and not says.OF_A_METER.search(before):
        return 0.6
    if number.grouped and ends_line and says.OR_ELSE.search(before):
        return 0.5
    if (not before.strip() or says.AFTER_PAUSE.search(before)) and says.RANGE_ON.match(tail):
        return 0.45
    return None


_ROUND = 5  # prices are round; hours and serials mostly are not
