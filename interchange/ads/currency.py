"""All the money of an ad, in the currency that stands elsewhere in it where the sums have none of their own."""

from __future__ import annotations

import re
from typing import NamedTuple

from interchange.ads.fields import PriceRead
from interchange.ads.number import by_land

_ELSEWHERE = re.compile(
    r"(?<![\w$])(?:(?P<code>EUR|GBP|CAD|CDN|MXN|SEK|DKK|NOK|PLN|CHF|AUD|NZD|ZAR)\b"
    r"|(?P<word>(?i:canadian (?:funds|dollars?|money|\$)"
    r"|(?:in|prices?) canadian|(?:aussie|australian|nz|kiwi) (?:dollars?|bucks)|pounds sterling)\b)|(?P<sign>[€£]))"
)
_AMERICAN = re.compile(r"\bUSD?\b|\bU\.S\.|\bUS ?\$|\$ ?US")
_OF = {"CDN": "CAD", "€": "EUR", "£": "GBP"}
_DOLLARS = ("CAD", "MXN", "AUD", "NZD")


class Prices(NamedTuple):
    """All the money in an ad: the price asked, what it was, and the rest."""

    asked: PriceRead
    was: PriceRead | None
    others: tuple[PriceRead, ...]


def in_its_currency(text: str, prices: Prices) -> Prices:
    """The prices with the one currency the ad names elsewhere: "Price: 265 ... Currency: EUR", "$900 ... Canadian funds"."""
    named = {_currency(match) for match in _ELSEWHERE.finditer(text)}
    if len(named) != 1 or _AMERICAN.search(text):
        return prices
    currency = named.pop()

    def told(price: PriceRead) -> PriceRead:
        if price.cents is None or not (price.currency is None or (price.currency == "USD" and currency in _DOLLARS)):
            return price
        return price._replace(currency=currency, note=price.note or "the currency stands elsewhere in the ad")

    return Prices(told(prices.asked), told(prices.was) if prices.was else None, tuple(map(told, prices.others)))


def _currency(match: re.Match[str]) -> str:
    if match["word"]:
        said = match["word"].lower()
        return "GBP" if "sterling" in said else by_land(said) or "CAD"
    return _OF.get(match.group(), match.group())
