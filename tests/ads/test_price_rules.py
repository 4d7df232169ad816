"""What the rules alone make of sums that what was learned may read otherwise: they are one sign among the others."""

import pytest

from interchange.ads.figures import figures
from interchange.ads.price import by_rules


@pytest.mark.parametrize(
    ("text", "kind", "cents"),
    [
        pytest.param("Hammer price: $8,250.00\nBH4 loader", "none", None, id="what it fetched"),
        pytest.param("RL90, what is it worth, 500? 1500? you tell me", "call", None, id="figures as questions"),
        pytest.param(
            "tires are new, $418 for the pair last year. Pellworth 540, 7,250", "asked", 725000, id="tires bought last year"
        ),
        pytest.param("T412 fourteen hundred and fifty less the fifty: 1400", "asked", 140000, id="said twice"),
        pytest.param("$1\nBrackmoor B440 motor. Trade only, no cash", "trade", None, id="trade only"),
    ],
)
def test_by_rules(text, kind, cents):
    counted = figures(text)
    prices, _ = by_rules(counted.text, counted.numbers, counted.title)
    assert (prices.asked.kind, prices.asked.cents) == (kind, cents)
