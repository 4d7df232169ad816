"""What a dollar price is made of where an ad asks another currency: one's own rates, never anybody else's."""

from __future__ import annotations

import re
from typing import Any

from interchange.catalog.decode import BAD, SPECIAL, Bad, Reader, figure_of, mapping_of
from interchange.catalog.figure import Figure
from interchange.catalog.nodes import Node
from interchange.catalog.suggest import suggestion

CURRENCIES = (
    "AUD", "BRL", "CAD", "CHF", "CZK", "DKK", "EUR", "GBP", "HUF", "ILS", "JPY", "KES", "MXN", "NOK", "NZD", "PLN", "SEK", "TRY",
    "ZAR",
)  # fmt: skip
"""Those that ads are read in, by their codes of ISO 4217, besides dollars."""
RATE = re.compile(r"[0-9]{1,4}(\.[0-9]{1,8})?")
HOW = "write how many dollars one of it is, as 1.08"
WRITTEN = figure_of("word")


class Currencies(dict[str, Figure]):
    """Dollars for one of each currency, by its code."""

    def dollars(self, code: str) -> float | None:
        """Dollars for one of this currency; None where no rate is written."""
        return float(self[code].word) if code in self else None


def read_currencies(node: Node, reader: Reader) -> Any:  # noqa: ANN401 - as every decoder
    """A mapping of currency codes to rates, each with its origin where one is written."""
    entries = mapping_of(node, reader)
    if isinstance(entries, Bad):
        return BAD
    found = Currencies()
    for code, child in entries.items():
        reader.path.append(code)
        rate = _rate(code, child, reader)
        reader.path.pop()
        if not isinstance(rate, Bad):
            found[code] = rate
    return found


def _rate(code: str, node: Node, reader: Reader) -> Figure | Bad:
    if code not in CURRENCIES:
        hint = suggestion(code, CURRENCIES) or f"write one of: {', '.join(CURRENCIES)}"
        return reader.problem(node, "unknown-currency", f"no ad is read in a currency called {code!r}", hint, at_key=True)
    figure = WRITTEN(node, reader)
    if isinstance(figure, Bad):
        return BAD
    if figure.others:
        return reader.problem(node, "not-a-rate", "a rate is one figure, not several", HOW)
    if not RATE.fullmatch(figure.word) or not float(figure.word):
        at = node.value["value"] if isinstance(node.value, dict) else node
        return reader.problem(at, "not-a-rate", f"{figure.word[:40]!r} is no rate", HOW)
    found: Figure = figure
    return found


SPECIAL[Currencies] = read_currencies
