import subprocess
import sys

import duckdb
import pytest
from hypothesis import given
from hypothesis import strategies as st

from interchange.errors import InputError
from interchange.haul.place_text import STATES, read_words, state_of, town_key
from interchange.haul.places import Ambiguous, Place, StateOnly, find_place, load_places, place_rows, suggest_places

HOME = (44.197, -72.502)  # Barre, Vermont


@pytest.mark.parametrize(
    ("text", "name", "state", "how"),
    [
        pytest.param("05641", "Barre", "VT", "zip", id="zip"),
        pytest.param("05641-1234", "Barre", "VT", "zip", id="zip with four more"),
        pytest.param("Barre, VT 05641", "Barre", "VT", "zip", id="zip and town agree"),
        pytest.param("Vermont 05641", "Barre", "VT", "zip", id="zip and state agree"),
        pytest.param("Barre, VT", "Barre", "VT", "town", id="comma"),
        pytest.param("Barre VT", "Barre", "VT", "town", id="no comma"),
        pytest.param("  barre ,vt. ", "Barre", "VT", "town", id="case and points"),
        pytest.param("Barre, Vermont", "Barre", "VT", "town", id="state in full"),
        pytest.param("Barre Vermont", "Barre", "VT", "town", id="state in full, no comma"),
        pytest.param("Barre, VT, USA", "Barre", "VT", "town", id="country"),
        pytest.param("Barre, Washington County, VT", "Barre", "VT", "town", id="county between"),
        pytest.param("Fargo North Dakota", "Fargo", "ND", "town", id="state of two words"),
        pytest.param("Charles Town, West Virginia", "Charles Town", "WV", "town", id="west is not left over"),
        pytest.param("St. Johnsbury, VT", "Saint Johnsbury", "VT", "town", id="saint"),
        pytest.param("Mt Vernon, IL", "Mount Vernon", "IL", "town", id="mount"),
        pytest.param("Ft. Wayne, Ind.", "Fort Wayne", "IN", "town", id="fort and an old short form"),
        pytest.param("Winston-Salem, NC", "Winston Salem", "NC", "town", id="hyphen"),
        pytest.param("DuBois, PA", "Du Bois", "PA", "town", id="space"),
        pytest.param("N. Platte, NE", "North Platte", "NE", "town", id="point of the compass"),
        pytest.param("Coeur d'Alene, ID", "Coeur D Alene", "ID", "town", id="apostrophe"),
        pytest.param("Washington, DC", "Washington", "DC", "town", id="district"),
        pytest.param("La Porte IN", "La Porte", "IN", "town", id="letters that are a word"),
        pytest.param("New York, NY", "New York", "NY", "town", id="town called like its state"),
    ],
)
def test_found_without_doubt(places, text, name, state, how) -> None:
    found = find_place(places, text)
    assert isinstance(found, Place)
    assert (found.name, found.state, found.how, found.note) == (name, state, how, "")


def test_points_are_where_the_towns_are(places) -> None:
    assert find_place(places, "Barre, VT")[2:4] == pytest.approx(HOME, abs=0.05)


@pytest.mark.parametrize(
    ("text", "note"),
    [
        pytest.param("near Barre, VT", "said to be near", id="near"),
        pytest.param("Barre area, VT", "said to be near", id="area"),
        pytest.param("Just outside of Barre, VT", "said to be near", id="outside"),
        pytest.param("Berlin, VT", "a local name, placed by ZIP 05602 of Montpelier", id="not a post office"),
        pytest.param("Barre, VT 99999", "ZIP 99999 is not known", id="no such zip"),
        pytest.param("Winston-Salem", "no state was given; only one state", id="unique town alone"),
    ],
)
def test_found_with_something_to_mind(places, text, note) -> None:
    found = find_place(places, text)
    assert isinstance(found, Place)
    assert note in found.note


@pytest.mark.parametrize(
    ("text", "states", "note"),
    [
        pytest.param("Barre", {"MA", "VT"}, "MA, VT; add the state", id="town in two states"),
        pytest.param("Kansas City", {"KS", "MO"}, "add the state", id="never by population"),
        pytest.param("Fargo, ND 05641", {"ND", "VT"}, "lie 1185 miles apart", id="zip and town disagree"),
        pytest.param("05641 Texas", {"VT"}, "the ZIP is in Vermont, the words say Texas", id="zip and state disagree"),
    ],
)
def test_several_are_listed(places, text, states, note) -> None:
    found = find_place(places, text)
    assert isinstance(found, Ambiguous)
    assert {choice.state for choice in found.choices} == states
    assert note in found.note
    assert found.nearest is None


def test_a_zip_beside_words_that_name_nothing_is_taken(places) -> None:
    assert find_place(places, "behind the mill 05641").name == "Barre"


def test_the_nearest_namesake_is_an_offer_with_a_warning(places) -> None:
    found = find_place(places, "Barre", near=HOME)
    assert isinstance(found, Ambiguous)
    assert found.nearest is not None
    assert found.nearest.state == "VT"
    assert "make sure" in found.nearest.note


def test_two_local_names_far_apart_in_one_state_are_not_merged(places) -> None:
    found = find_place(places, "Crossroads, MS")
    assert isinstance(found, Ambiguous)
    assert len(found.choices) == 2
    assert "a ZIP settles it" in found.note


@pytest.mark.parametrize("text", ["VT", "vt", "Vermont", "vermont "])
def test_a_state_alone_is_a_range(places, text) -> None:
    found = find_place(places, text, near=HOME)
    assert isinstance(found, StateOnly)
    assert found.state == "VT"
    assert 0 <= found.nearest_mi < 10 < found.median_mi < found.farthest_mi < 120
    assert "anywhere in Vermont" in found.note


def test_a_state_without_a_home_has_no_distances(places) -> None:
    found = find_place(places, "Oregon")
    assert isinstance(found, StateOnly)
    assert (found.nearest_mi, found.median_mi, found.farthest_mi) == (None, None, None)
    assert "for a town of that name (IL, MO, OH, WI)" in found.note


@pytest.mark.parametrize(
    "text", ["", " ", "12", "99999", "Bare, VT", "London, ON", "Paris, France", "somewhere nice", ",,,", "%' OR 1=1 --"]
)
def test_not_found_is_none(places, text) -> None:
    assert find_place(places, text) is None


def test_a_near_miss_is_a_suggestion_only(places) -> None:
    assert find_place(places, "Bare, VT") is None
    assert suggest_places(places, "Bare, VT")[0] == "Barre, VT"
    assert suggest_places(places, "99999") == ()
    assert suggest_places(places, "zzzzzzzz, VT") == ()


def test_military_and_unplaced_zips_are_left_out(places) -> None:
    rows = list(place_rows())
    assert len(rows) == 41914
    assert {row.state for row in rows} <= set(STATES)
    assert not any((row.lat, row.lon) == (0.0, 0.0) for row in rows)
    assert find_place(places, "09001") is None


def test_a_wrong_post_office_box_does_not_move_a_town(places) -> None:
    town = find_place(places, "Lebanon, PA")
    box = find_place(places, "17091")
    assert (town.lat, town.lon) == pytest.approx((40.34, -76.42), abs=0.1)
    assert "lies 26 miles from the middle of Lebanon: make sure" in box.note


def test_a_county_is_a_middle_with_its_reach(places) -> None:
    found = find_place(places, "Washington County, VT")
    assert isinstance(found, Place)
    assert (found.name, found.state, found.how) == ("Washington County", "VT", "county")
    assert "only the county is known: its towns lie up to" in found.note
    assert find_place(places, "Nowhere County, VT") is None


@pytest.mark.parametrize(
    ("text", "name", "state"),
    [
        pytest.param("Washington Co., VT", "Washington County", "VT", id="short"),
        pytest.param("Washington county Vermont", "Washington County", "VT", id="no comma"),
        pytest.param("St Lawrence County, NY", "St. Lawrence County", "NY", id="saint"),
        pytest.param("Saint Lawrence Cty, NY", "St. Lawrence County", "NY", id="saint in full"),
        pytest.param("Calcasieu Parish, LA", "Calcasieu Parish", "LA", id="parish"),
        pytest.param("Caledonia County", "Caledonia County", "VT", id="of one state only"),
    ],
)
def test_counties_however_written(places, text, name, state) -> None:
    found = find_place(places, text)
    assert isinstance(found, Place)
    assert (found.name, found.state, found.how) == (name, state, "county")


def test_a_county_of_several_states_is_listed(places) -> None:
    found = find_place(places, "Orange County", near=HOME)
    assert isinstance(found, Ambiguous)
    assert found.nearest.state == "VT"
    assert {"CA", "FL", "NY", "VT"} <= {choice.state for choice in found.choices}
    assert found.note.startswith("counties of that name are in CA, FL")


def test_co_before_no_state_is_colorado(places) -> None:
    found = find_place(places, "Aurora CO")
    assert isinstance(found, Place)
    assert (found.name, found.state, found.how) == ("Aurora", "CO", "town")


def test_loading_twice_is_loading_once() -> None:
    with duckdb.connect() as connection:
        load_places(connection)
        load_places(connection)
        assert connection.execute("SELECT count(*), count(DISTINCT zip) FROM place").fetchone() == (41914, 41914)
        twice = "SELECT count(*) FROM (SELECT town_key, state FROM town GROUP BY ALL HAVING count(*) > 1)"
        assert connection.execute(twice).fetchone() == (0,)


def test_a_state_of_an_empty_table_is_a_wrong_call() -> None:
    with duckdb.connect() as connection:
        connection.execute("CREATE TABLE place (zip VARCHAR, town VARCHAR, state VARCHAR, lat DOUBLE, lon DOUBLE)")
        with pytest.raises(InputError, match="nothing in Vermont"):
            find_place(connection, "VT")


@pytest.mark.parametrize(
    ("one", "other"),
    [
        ("St. Albans", "SAINT ALBANS"),
        ("Mc Kees Rocks", "McKees Rocks"),
        ("O'Fallon", "OFallon"),
        ("Española", "Espanola"),
        ("Sault Ste. Marie", "sault sainte marie"),
        ("W. Lebanon", "West Lebanon"),
    ],
)
def test_one_town_however_written(one, other) -> None:
    assert town_key(one) == town_key(other)


def test_a_single_letter_is_no_point_of_the_compass() -> None:
    assert town_key("S") == "s"


@pytest.mark.parametrize(("text", "letters"), [("Vt.", "VT"), ("N.H.", None), ("penna", "PA"), ("Ontario", None)])
def test_states(text, letters) -> None:
    assert state_of(text) == letters


@given(st.text(max_size=300))
def test_any_text_is_read(text) -> None:
    words = read_words(text)
    assert words.zip is None or len(words.zip) == 5
    assert all(town and (state is None or state in STATES) for town, state in words.splits)


def test_nothing_heavy_is_imported() -> None:
    modules = "interchange.haul.places, interchange.haul.freight"
    code = f"import sys, {modules}; print(sorted({{'duckdb', 'zipcodes', 'rapidfuzz'}} & set(sys.modules)))"
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert done.stdout.strip() == "[]"
