"""Prices asked in another currency, in dollars at one's own rate."""

from __future__ import annotations

from typing import TYPE_CHECKING

from interchange.catalog.figure import NO_ORIGIN

if TYPE_CHECKING:
    from interchange.ads.fields import PriceRead
    from interchange.job.currency import Currencies

DOLLARS = "USD"
ASKED = "asked"


def in_dollars(price: PriceRead, rates: Currencies | None) -> PriceRead:
    """The price in dollars where its currency has a rate, with the rate in its text; else as it is."""
    rate = rates.dollars(price.currency) if rates and price.currency else None
    if rates is None or price.currency is None or rate is None or price.cents is None:
        return price
    figure = rates[price.currency]
    source = f" ({figure.origin})" if figure.origin != NO_ORIGIN else ""
    return price._replace(
        cents=round(price.cents * rate),
        cents_to=None if price.cents_to is None else round(price.cents_to * rate),
        currency=DOLLARS,
        text=f"{price.text.strip()}; at {figure.word} dollars, your rate in home.yaml{source}",
    )


def why_no_dollars(price: PriceRead, rates: Currencies | None) -> str:
    """Which rate is to be written, where a price is asked in a currency that has none; empty where nothing is in the way."""
    code = price.currency
    if price.kind != ASKED or price.cents is None or code in (None, DOLLARS) or (rates is not None and code in rates):
        return ""
    return f"asked in {code}: write in home.yaml how many dollars one is, rates: {{currency: {{{code}: …}}}}"
