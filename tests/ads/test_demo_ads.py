"""Every ad of the demo against what a person reads in it: how often each field comes out right."""

from __future__ import annotations

from collections import defaultdict
from pathlib import Path

import pytest
import yaml

from interchange.ads.match import match
from interchange.ads.offer_kind import named_subject
from interchange.ads.plain import clean
from interchange.ads.read import read_ad
from interchange.ads.split import split

HERE = Path(__file__).parent
JOBS = HERE.parents[1] / "catalog" / "demo" / "jobs"
EXPECTED = yaml.safe_load((HERE / "demo_expected.yaml").read_text(encoding="utf-8"))
ADS = sum(map(len, EXPECTED.values()))
# Ads of the 79 that came out right when last measured; one lost fails. "Norvick D44 diesel": no noun and no name says what it is.
LEAST_RIGHT = {
    "price": 79, "kind": 79, "terms": 79, "town": 79, "state": 79, "zip": 79,
    "subject": 78, "offer": 79, "names": 79, "first": 79, "facts": 79,
}  # fmt: skip


def ads_of(name):
    job, file = name.split("/")
    return [piece.text for piece in split((JOBS / job / "ads" / file).read_text(encoding="utf-8"))]


def wanted(one):
    price = one["price"]
    return {
        "price": None if price is None else price * 100,
        "kind": one.get("kind", "asked"), "terms": one.get("terms"),
        "town": one["town"], "state": one["state"], "zip": one.get("zip"),
        "subject": one["subject"], "offer": one["offer"], "names": sorted(one["names"]), "first": (one["names"] or [None])[0],
        "facts": (one.get("wanted", False), one.get("petrol", False) or False),
    }  # fmt: skip


def got(reading, matched):
    said = {field.name for field in reading.said if field.value}
    ids = list(dict.fromkeys(hit.name.id for hit in matched.hits))
    place = reading.place
    return {
        "price": reading.price.cents, "kind": reading.price.kind, "terms": reading.price.terms,
        "town": place and place.town and place.town.title(), "state": place and place.state, "zip": place and place.zip,
        "subject": reading.subject and reading.subject.value, "offer": reading.offer and reading.offer.value,
        "names": sorted(ids), "first": (ids or [None])[0], "facts": ("wanted" in said, "petrol" in said),
    }  # fmt: skip


def title_end(reading):
    return reading.title.span.end if reading.title else 0


@pytest.fixture(scope="module")
def faults(phrases, words, demo_store):
    """By field, the ads where the reader and the person differ: (ad, wanted, got)."""
    found = defaultdict(list)
    for name, expected in EXPECTED.items():
        texts = ads_of(name)
        assert len(texts) == len(expected), name
        readings = [read_ad(text, phrases, words) for text in texts]
        both = zip(texts, readings, strict=True)
        matched = match(demo_store, {str(i): (clean(text), title_end(reading)) for i, (text, reading) in enumerate(both)})
        for i, (text, one) in enumerate(zip(texts, expected, strict=True)):
            assert one["begins"] in text[:60]
            want, have = wanted(one), got(named_subject(readings[i], matched[str(i)]), matched[str(i)])
            for field, value in want.items():
                if have[field] != value:
                    found[field].append((one["begins"], value, have[field]))
    return found


def test_the_person_read_every_ad():
    assert ADS == 79


@pytest.mark.parametrize("field", LEAST_RIGHT)
def test_field_is_read_as_a_person_reads_it(faults, field):
    right = ADS - len(faults[field])
    print(f"{field}: {right} of {ADS} ads, {right / ADS:.1%}")
    told = [f"{begins!r}: wanted {want!r}, got {have!r}" for begins, want, have in faults[field]]
    assert right >= LEAST_RIGHT[field], "\n".join(told)
