"""The place of an ad, read and looked up."""

import pytest

from interchange.ads.fields import AdWords
from interchange.ads.read import read_ad
from interchange.haul.atlas import atlas
from interchange.haul.places import Ambiguous, Place
from interchange.money.placed import placed


@pytest.fixture(scope="module")
def places(tmp_path_factory):
    with pytest.MonkeyPatch.context() as patch:
        patch.setenv("INTERCHANGE_CACHE", str(tmp_path_factory.mktemp("cache")))
        yield atlas()


@pytest.mark.parametrize(
    ("text", "town", "state"),
    [
        pytest.param("B440 reman. Call. Penn Yan.", "Penn Yan", "NY", id="last words, one state has it"),
        pytest.param("k425 900\nwenatchee", "Wenatchee", "WA", id="a line of its own"),
        pytest.param("OD46, $3,400. Ft. Wayne", "Fort Wayne", "IN", id="short form"),
        pytest.param("T412. Watertown, N.Y.", "Watertown", "NY", id="dotted state"),
        pytest.param("B330, Malone, 12953", "Malone", "NY", id="town and ZIP"),
        pytest.param("SKARROW S28 PARTING\nPrice, Utah", "Price", "UT", id="a town that is a word"),
        pytest.param("K438 engine (Barre)\nText 802-555-0143", "Barre", "VT", id="settled by the area code"),
        pytest.param("600 bucks cash bad axe michigan", "Bad Axe", "MI", id="words before the town"),
    ],
)
def test_found(places, text, town, state):
    found = placed(places, read_ad(text, (), AdWords()))[1]
    assert isinstance(found, Place)
    assert (found.name, found.state) == (town, state)


def test_a_town_of_several_states_stays_open(places):
    assert isinstance(placed(places, read_ad("K438 engine (Barre)", (), AdWords()))[1], Ambiguous)


def test_words_that_are_no_town_give_no_place(places):
    assert placed(places, read_ad("K438 engine, runs. Qwxyz.", (), AdWords())) == (None, None)


def test_abroad_is_not_looked_up_here(places):
    place, found = placed(places, read_ad("OD46 VB 3.400 € Abholung in Kassel", (), AdWords()))
    assert found is None
    assert place is not None
    assert (place.kind, place.town) == ("abroad", "Kassel")
