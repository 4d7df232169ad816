"""The user's lines laid over what was read."""

import pytest

from interchange.ads.corrected import corrected
from interchange.ads.notes import Note
from interchange.ads.read import read_ad

AD = "Tolvane T412 engine\n$925\nBarre, VT\n1,200 hours, weighs 700 lb. It knocks. No starter."


@pytest.fixture
def laid(phrases, words):
    def laid_(*lines, ad=AD):
        notes = [Note("2026-11-20", *line.split(": ", 1), "ads.txt", at) for at, line in enumerate(lines, 1)]
        return corrected(read_ad(ad, phrases, words), notes, phrases, words)

    return laid_


@pytest.mark.parametrize(
    ("line", "field", "value"),
    [
        pytest.param("price: $3,200 obo", "price", lambda p: (p.kind, p.cents, p.terms) == ("asked", 320000, "obo"), id="price"),
        pytest.param("price: 4k", "price", lambda p: p.cents == 400000, id="price in thousands"),
        pytest.param("price: EUR 2.900", "price", lambda p: (p.cents, p.currency) == (290000, "EUR"), id="price in euros"),
        pytest.param("price: 20", "price", lambda p: p.cents == 2000, id="a small price, and nothing said short"),
        pytest.param("price: 1,950 obo", "price", lambda p: (p.cents, p.terms) == (195000, "obo"), id="a price with no sign"),
        pytest.param("price: call", "price", lambda p: (p.kind, p.cents) == ("call", None), id="no price"),
        pytest.param("place: Keene, NH", "place", lambda p: (p.town, p.state) == ("Keene", "NH"), id="place"),
        pytest.param("place: 03766", "place", lambda p: p.zip == "03766", id="zip"),
        pytest.param("offer: long block", "offer", lambda f: f.value == "long_block", id="offer"),
        pytest.param("hours: 4,200", "hours", lambda f: f.value == 4200, id="hours"),
        pytest.param("weight: 1,900 lb", "weight_lb", lambda f: f.value == pytest.approx(1900), id="weight"),
        pytest.param("weight: 500 kg", "weight_lb", lambda f: f.value == pytest.approx(1102.3, 1e-4), id="weight in kg"),
    ],
)
def test_his_word_stands(laid, line, field, value):
    found = laid(line)
    assert found.faults == ()
    assert value(getattr(found.reading, field)), getattr(found.reading, field)
    assert "your line of 2026-11-20" in getattr(found.reading, field).text


def test_the_price_asked_before_is_kept(laid):
    assert laid("price: $800").reading.was_price.cents == 92500


@pytest.mark.parametrize(
    ("line", "slug"),
    [
        pytest.param("price: cheap", "bad-price", id="price"),
        pytest.param("offer: long blok", "bad-offer", id="offer"),
        pytest.param("hours: many", "bad-hours", id="hours"),
        pytest.param("weight: 400", "bad-weight", id="weight without a unit"),
    ],
)
def test_what_cannot_be_followed_is_told_and_changes_nothing(laid, phrases, words, line, slug):
    found = laid(line)
    assert [(fault.file, fault.line, fault.slug) for fault in found.faults] == [("ads.txt", 1, slug)]
    assert found.faults[0].hint
    assert found.reading == read_ad(AD, phrases, words)


def words_of(reading):
    return {(hit.id, hit.negated) for hit in reading.phrases}


@pytest.mark.parametrize(
    ("line", "there", "gone"),
    [
        pytest.param("answered: why was it pulled: pulled for upgrade", ("pulled_for_upgrade", False), None, id="added"),
        pytest.param("answered: does it knock: no", ("knocks", True), ("knocks", False), id="denies what the ad says"),
        pytest.param("photo: milky oil on the stick", ("milky_oil", False), None, id="seen on a photo"),
        pytest.param("answered: turns by hand: no", ("turns_by_hand", True), None, id="a good word denied"),
    ],
)
def test_what_was_told_is_added(laid, line, there, gone):
    found = words_of(laid(line).reading)
    assert there in found
    assert gone not in found


def test_a_part_said_to_come_after_all(laid):
    assert "starter" in laid().reading.missing
    reading = laid("answered: starter: starter is included").reading
    assert "starter" in reading.included
    assert "starter" not in reading.missing
