"""Where a thing stands, as written."""

from __future__ import annotations

import pytest

from interchange.ads.read import read_ad

PLACES = [
    ("town and state", "H52D engine, Barre, VT", ("town_state", "Barre", "VT", None)),
    ("no comma", "complete engine Barre VT $900", ("town_state", "Barre", "VT", None)),
    ("with a ZIP", "H52D engine. Barre VT 05641", ("town_state", "Barre", "VT", "05641")),
    ("ZIP and four", "H52D engine. Barre, VT 05641-1234", ("town_state", "Barre", "VT", "05641")),
    ("state in full", "H52D engine, White River Junction, Vermont", ("town_state", "White River Junction", "VT", None)),
    ("town of several words", "engine in Saranac Lake, NY", ("town_state", "Saranac Lake", "NY", None)),
    ("St.", "Located in St. Johnsbury, VT.", ("town_state", "St. Johnsbury", "VT", None)),
    ("capitals", "RUNS OK, BARRE VT $1500", ("town_state", "BARRE", "VT", None)),
    ("lower case", "old pellworth 540 in barre vt asking 1800", ("town_state", "barre", "VT", None)),
    ("a town that begins like praise", "Runs great. Great Barrington, MA", ("town_state", "Great Barrington", "MA", None)),
    ("praise before a town", "Runs Great Barre VT", ("town_state", "Barre", "VT", None)),
    ("telephone behind", "L32 pump. Pittsfield MA 413-555-0109", ("town_state", "Pittsfield", "MA", None)),
    ("listing line", "Listed 3 days ago in Keene, NH", ("town_state", "Keene", "NH", None)),
    ("Canada", "H52D engine, Sherbrooke, QC", ("town_state", "Sherbrooke", "QC", None)),
    ("ZIP on its line", "H52D engine\n05641", ("zip", None, None, "05641")),
    ("ZIP with a cue", "H52D engine, zip 13601", ("zip", None, None, "13601")),
    ("ZIP between stops", "OD46 motor, seized. $300. 13601. 315-555-0145", ("zip", None, None, "13601")),
    ("region and state", "H52D engine northern NY", ("state", None, "NY", None)),
    ("state alone at the end", "H52D engine Vermont", ("state", None, "VT", None)),
    ("state between stops", "H52D, knocks. $700. VT. 802-555-0178", ("state", None, "VT", None)),
    ("town alone, located", "H52D engine located in Barre", ("town", "Barre", None, None)),
    ("town in brackets", "Pellworth 540 - $1,500 (Montpelier)", ("town", "Montpelier", None, None)),
    ("abroad", "Radlader RL90, A-4063 Hörsching", ("abroad", "Hörsching", None, None)),
]


@pytest.mark.parametrize(("ad", "place"), [pytest.param(*case, id=name) for name, *case in PLACES])
def test_place(ad, place, phrases, words):
    found = read_ad(ad, phrases, words).place
    assert found is not None
    assert (found.kind, found.town, found.state, found.zip) == place


NO_PLACES = [
    ("in good shape", "ENGINE IN GOOD SHAPE, RUNS OK, TRADE OR BEST OFFER"),
    ("let me know", "LET ME KNOW, CALL ME"),
    ("machine it came out of", "T412 engine out of Dunmarrow RL90 loader"),
    ("lower case words", "it runs ok or best offer, let me know, hi there"),
    ("five digits that are a price", "Dunmarrow RL120 $18500"),
    ("five digits that are a serial", "Tolvane T412 serial 45219"),
]


@pytest.mark.parametrize("ad", [pytest.param(ad, id=name) for name, ad in NO_PLACES])
def test_no_place(ad, phrases, words):
    assert read_ad(ad, phrases, words).place is None


@pytest.mark.parametrize(
    ("ad", "away"),
    [
        pytest.param("H52D 20 mi N of Rutland", (20.0, "north", "Rutland", None), id="miles and side"),
        pytest.param(
            "about 15 miles south of Glens Falls, NY", (15.0, "south", "Glens Falls", "NY"), id="in words, with a state"
        ),
        pytest.param("H52D engine near Claremont, NH", (None, None, "Claremont", "NH"), id="near"),
        pytest.param("just outside Barre, VT", (None, None, "Barre", "VT"), id="outside"),
        pytest.param("30 km west of Sherbrooke, QC", (18.6, "west", "Sherbrooke", "QC"), id="kilometres"),
    ],
)
def test_near_a_place(ad, away, phrases, words):
    place = read_ad(ad, phrases, words).place
    assert place is not None
    assert (place.kind, place.away_mi, place.towards, place.town, place.state) == ("near", *away)


def test_hours_away_are_no_miles(phrases, words):
    place = read_ad("OD60 engine. 2 hours drive from Boston", phrases, words).place
    assert place is not None
    assert (place.town, place.away_mi, place.note) == ("Boston", None, "2 hours away")
