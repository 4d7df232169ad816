"""Short ads by two writers who knew nothing of the reader. Before any rule was changed because of them the reader had 87 % of the
first 54 prices and 80 % of the other 166 right, and 88 % of the offers, 98 % of the units and 97 % of the refusals; they are for
tuning now, and hold it where it is."""

from pathlib import Path

import pytest
import yaml

from interchange.ads.read import read_ad

SHORT = Path(__file__).parents[1] / "data" / "short_ads"
LEAST = 0.92


def test_prices_of_short_ads(phrases, words):
    rows = yaml.safe_load((SHORT / "prices.yaml").read_text(encoding="utf-8"))
    assert len(rows) >= 200
    wrong = []
    for row in rows:
        price = read_ad(row["text"], phrases, words).price
        asked = price.kind in ("asked", "rental")
        amount = price.cents / 100 if asked and price.cents is not None else None
        currency = (price.currency or "USD") if asked else row["currency"]
        if (price.kind, amount, currency) != (row["kind"], row["price"], row["currency"]):
            wrong.append(f"{row['text']!r}: wanted {row['kind']} {row['price']}, got {price.kind} {amount} {currency}")
    assert len(wrong) <= (1 - LEAST) * len(rows), "\n".join(wrong)


@pytest.mark.parametrize("key", ["kind", "terms", "currency"])
def test_labels_are_known_words(key):
    rows = yaml.safe_load((SHORT / "prices.yaml").read_text(encoding="utf-8"))
    known = {
        "kind": {"asked", "call", "trade", "placeholder", "rental", "none"},
        "terms": {"obo", "firm", None},
        "currency": {"USD", "CAD", "EUR", "GBP", "MXN", "AUD", "NZD"},
    }
    assert {row[key] for row in rows} <= known[key]


LEARNED = {"haggles": 0.78}  # sums said in talk, after a haggle: these stay hard
LEARNED_FROM = sorted(path.stem for path in SHORT.glob("*.yaml") if path.stem not in ("prices", "offers"))


@pytest.mark.parametrize("name", LEARNED_FROM)
def test_what_was_learned_from_is_read(name, phrases, words):
    """Sums asked, of ads the weights were learned from; how the same does on writers it knows nothing of is in the score."""
    rows = yaml.safe_load((SHORT / f"{name}.yaml").read_text(encoding="utf-8"))
    priced = [row for row in rows if row["kind"] == "asked" and row["price"]]
    right = 0
    for row in priced:
        price = read_ad(row["text"], phrases, words).price
        right += price.cents is not None and abs(price.cents / 100 - row["price"]) < 0.5
    assert len(priced) >= 25
    assert right >= LEARNED.get(name, LEAST) * len(priced)
