"""What an ad comes to in a kind's own offers, and what its words add or take away."""

from __future__ import annotations

from types import SimpleNamespace

import pytest

from interchange.ads.fields import Span
from interchange.ads.match import Hit, Matched, Name
from interchange.ads.offer_kind import is_machine, named_subject, offer_word, offered
from interchange.ads.read import read_ad
from interchange.catalog.model import Offer

ALL = ("running_machine", "machine", "parts_machine", "complete", "drop_out", "long_block", "core")


def kind(*offers):
    table = {name: Offer(title=name, has=("core", "fuel"), perhaps={"housing": 0.6, "starter": 0.5}) for name in offers or ALL}
    supply = {"housing": ["housing"], "starter": ["starter"], "fuel": ["injection_pump", "injectors"], "core": []}
    return SimpleNamespace(offers=table, supply={slot: SimpleNamespace(words=words) for slot, words in supply.items()})


@pytest.fixture(scope="module")
def read(phrases, words):
    return lambda text: read_ad(text, phrases, words)


@pytest.mark.parametrize(
    ("text", "machine", "word"),
    [
        pytest.param("Dunmarrow RL90 loader, runs and drives", True, "running_machine", id="running machine"),
        pytest.param("Dunmarrow RL90 loader", True, "machine", id="machine of which nothing is said"),
        pytest.param("Pellworth 540 tractor for parts", True, "parts_machine", id="parts machine"),
        pytest.param("Parting out a Pellworth 540 tractor", True, "parts_machine", id="parted out"),
        pytest.param("Dunmarrow RL90 loader, long block was rebuilt", True, "machine", id="a machine is no long block"),
        pytest.param("Hestrel H52D engine", False, "complete", id="unit of which nothing is said"),
        pytest.param("Hestrel H52D long block", False, "long_block", id="long block"),
        pytest.param("Hestrel H52D drop-out from a running machine", False, "drop_out", id="drop-out"),
        pytest.param("Hestrel H52D core", False, "core", id="core"),
        pytest.param("round bales", False, "complete", id="no subject"),
    ],
)
def test_offer_word(read, text, machine, word):
    reading = read(text)
    assert (is_machine(reading), offer_word(reading, kind())) == (machine, word)


def test_an_offer_the_kind_does_not_have_is_the_usual_one(read):
    assert offer_word(read("Hestrel H52D long block"), kind("complete", "core")) == "complete"


def test_a_kind_without_the_usual_takes_its_first(read):
    assert offer_word(read("Lissander L20 pump"), kind("core", "machine")) == "core"


@pytest.mark.parametrize(
    ("text", "has", "perhaps"),
    [
        pytest.param("Engine", ("core", "fuel"), {"housing": 0.6, "starter": 0.5}, id="the kind's table"),
        pytest.param("Engine, comes with starter", ("core", "fuel", "starter"), {"housing": 0.6}, id="included"),
        pytest.param("Engine, no starter", ("core", "fuel"), {"housing": 0.6}, id="perhaps, and missing"),
        pytest.param("Engine, no injection pump", ("core",), {"housing": 0.6, "starter": 0.5}, id="for sure, and missing"),
        pytest.param("Engine with bell housing, no starter or injectors", ("core", "housing"), {}, id="all of it"),
    ],
)
def test_what_comes_with_it(read, text, has, perhaps):
    result = offered(read(text), kind(), "complete")
    assert (result.has, dict(result.perhaps)) == (has, perhaps)


def named(room, end):
    """Matched as if the first signs of a text were a name of a room."""
    name = Name("bh3", room, "x", "", "BH3", "Varnhollow")
    return Matched((Hit(name, Span(0, end), 100.0, True, True),), ())


@pytest.mark.parametrize(
    ("text", "room", "subject", "offer"),
    [
        pytest.param("BH3 with the K425, blown head gasket", "machines", "machine", "machine", id="a machine by its name"),
        pytest.param("BH3, 4 cyl, low hours", "units", "unit", None, id="a unit by its name"),
        pytest.param("BH3 radiator", "machines", "part", "part", id="the noun wins"),
    ],
)
def test_a_name_says_what_no_noun_does(read, text, room, subject, offer):
    reading = named_subject(read(text), named(room, 3))
    assert (reading.subject.value, reading.offer and reading.offer.value) == (subject, offer)
    assert reading.subject.text == text[reading.subject.span.start : reading.subject.span.end]


def test_no_name_no_subject(read):
    assert named_subject(read("Norvick D44, runs"), Matched((), ())).subject is None
