"""The price asked as it is settled: what the rules found, weighed again by signs learned from labelled ads."""

from __future__ import annotations

from collections.abc import Sequence

from interchange.ads.currency import Prices, in_its_currency
from interchange.ads.fields import PriceRead, Span
from interchange.ads.learned import BY_RULES, BY_WORDS, likeliest, shares, sums, weights
from interchange.ads.no_price import NOT_SAID, no_price, terms
from interchange.ads.number import Number
from interchange.ads.price import by_rules
from interchange.ads.price_signs import Option, options, signs, silent_signs

LEARNED, NO_SUM = "price", "no_sum"
IT = "the price"
_BY_SIGNS = "by what stands about it"
_SURE = 0.5  # below this what the rules chose stands
_PRICED = ("asked", "rental")
FREE = "free"
SILENT = ("none", "call", "trade", FREE)


def read_prices(text: str, numbers: Sequence[Number], title: Span, *, sought: bool = False) -> Prices:
    """The price asked, what it was, and all other money of an ad; ``sought`` where the ad seeks and does not sell."""
    ruled, found = by_rules(text, numbers, title)
    some = options(numbers, found)
    if some:
        about = signs(text, title, some, ruled.asked, sought=sought)
        found_sums = [sums(one, weights(LEARNED))[IT] for one in about]
        ruled = _settled(text, some, shares(found_sums), ruled)
    prices = in_its_currency(text, ruled)
    if sought:
        return wanted(prices)
    return prices if prices.asked.cents else prices._replace(asked=_silent(text, prices.asked))


def _settled(text: str, found: Sequence[Option], chances: Sequence[float], ruled: Prices) -> Prices:
    """The likeliest option in place of what the rules chose; theirs stands among the other sums then."""
    best = max(range(len(chances)), key=chances.__getitem__)
    sure = round(chances[best], 3)
    if sure < _SURE:
        return ruled
    if best == len(found):
        if ruled.asked.kind not in _PRICED or not ruled.asked.cents:
            return ruled  # no sum: asked for, traded, or free
        return Prices(no_price(text), ruled.was, _in_order(ruled, ruled.asked))
    option = found[best]
    chosen = _read(text, option)
    if chosen.kind == "placeholder" and not chosen.cents and (given := no_price(text)).cents == 0:
        return Prices(given, ruled.was, _in_order(ruled, *([ruled.asked] if ruled.asked.cents else [])))  # "$0" under "free"
    if chosen.kind == "placeholder" and ruled.asked.kind not in _PRICED:
        return ruled  # what stands in for a price says less than "trade"
    if ruled.asked.span.start <= option.number.digits_at < ruled.asked.span.end:
        return ruled
    chosen = chosen._replace(certainty=sure, note=chosen.note or _BY_SIGNS)
    was = ruled.was if ruled.was is not None and ruled.was.span != chosen.span else None
    spare = [ruled.asked] if ruled.asked.cents is not None else []
    return Prices(chosen, was, tuple(one for one in _in_order(ruled, *spare) if one.span != chosen.span))


def silence(ruled: PriceRead) -> str:
    """What is said in place of a sum: call, trade, free; or none."""
    return FREE if ruled.cents == 0 else ruled.kind


def _silent(text: str, ruled: PriceRead) -> PriceRead:
    """Where no sum is asked, the likeliest of what may stand for it; a sum that stands in for a price is left as it is."""
    said = silence(ruled)
    if said not in SILENT:
        return ruled
    best, sure = likeliest({*silent_signs(text), f"{BY_RULES}said {said}"}, weights(NO_SUM))
    if best == said:
        return ruled
    cents = 0 if best == FREE else None
    kind = "asked" if best == FREE else best
    return PriceRead(kind, cents, None, None, "", Span(0, 0), sure, "" if best == "none" else BY_WORDS)


def _read(text: str, option: Option) -> PriceRead:
    """The price an option comes to."""
    number = option.number
    if option.candidate is not None:
        read = option.candidate.read
        return read._replace(terms=terms(text, read.span), note="")
    span = Span(number.start, number.end)
    cents = round(option.value * 100)
    return PriceRead("asked", cents, number.currency, terms(text, span), text[span.start : span.end], span, 0.0)


def _in_order(ruled: Prices, *more: PriceRead) -> tuple[PriceRead, ...]:
    return tuple(sorted((*ruled.others, *more), key=lambda one: one.span))


def wanted(prices: Prices) -> Prices:
    """The prices of an ad that seeks and does not sell: what it would pay is no price asked."""
    others = (*(one for one in (prices.asked, prices.was) if one is not None and one.cents is not None), *prices.others)
    return Prices(NOT_SAID, None, tuple(sorted(others, key=lambda one: one.span)))
