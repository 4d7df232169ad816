"""Whole pastes, one of each style: a case is a text and what should come out of it."""

from __future__ import annotations

from pathlib import Path

import pytest
import yaml

from interchange.ads.read import read_ad
from interchange.ads.split import split, split_paste

PASTES = Path(__file__).parent / "pastes"
CASES = sorted(PASTES.glob("*.txt"))


def pasted(case: Path) -> str:
    return case.read_bytes().decode("utf-8")


def expected(case: Path) -> dict:
    return yaml.safe_load(case.with_suffix(".yaml").read_text(encoding="utf-8"))


def value(field):
    return None if field is None else field.value


def seen(reading, wanted: dict) -> dict:
    """What was read of the fields a case names, in the words of the case."""
    place, price = reading.place, reading.price
    of_place = {name: getattr(place, name, None) for name in ("town", "state", "zip")}
    held = {hit.id for hit in reading.phrases if not hit.negated}
    denied = {hit.id for hit in reading.phrases if hit.negated}
    everything = {
        **of_place,
        "place_kind": place and place.kind,
        "cents": price.cents, "terms": price.terms, "currency": price.currency,
        "price_kind": price.kind, "for_count": price.for_count,
        "cents_to": price.cents_to,
        "said": [field.name for field in reading.said if field.value is True],
        "was": reading.was_price and reading.was_price.cents,
        "phones": [value(phone) for phone in reading.phones],
        "phrases": [name for name in wanted.get("phrases", ()) if name in held],
        "denied": [name for name in wanted.get("denied", ()) if name in denied],
        "missing": list(reading.missing), "included": list(reading.included),
    }  # fmt: skip
    return {name: everything[name] if name in everything else value(getattr(reading, name)) for name in wanted}


@pytest.mark.parametrize("case", CASES, ids=lambda case: case.stem)
def test_paste_is_parted(case):
    want = expected(case)
    found = split_paste(pasted(case))
    firsts = [
        (ad.text.startswith(str(one["first"])), ad.text.endswith(str(one.get("last", ""))))
        for ad, one in zip(found.ads, want["ads"], strict=False)
    ]
    assert (len(found.ads), found.parted_by) == (len(want["ads"]), want["parted_by"]), [ad.text for ad in found.ads]
    assert firsts == [(True, True)] * len(want["ads"]), [ad.text for ad in found.ads]
    for crumb in want.get("crumbs", ()):
        assert crumb in [piece.text for piece in found.crumbs]


@pytest.mark.parametrize("case", CASES, ids=lambda case: case.stem)
def test_ads_of_a_paste_are_read(case, phrases, words):
    for ad, want in zip(split(pasted(case)), expected(case)["ads"], strict=True):
        fields = {name: one for name, one in want.items() if name not in ("first", "last")}
        assert seen(read_ad(ad.text, phrases, words), fields) == fields, ad.text


def test_every_style_has_a_case():
    assert len(CASES) >= 6
