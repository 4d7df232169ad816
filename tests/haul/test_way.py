import pytest

from interchange.haul.places import Place, find_place
from interchange.haul.way import way_to

HOME = (44.197, -72.502)  # Barre, Vermont


@pytest.fixture(scope="module")
def home(places) -> Place:
    found = find_place(places, "Barre, VT")
    assert isinstance(found, Place)
    return found


def way(places, home, text):
    return way_to(home, text, find_place(places, text, HOME))


def test_a_known_town(places, home) -> None:
    found = way(places, home, "Rutland, VT")
    assert found.name == "Rutland, VT"
    assert 50 < found.road.likely < 75
    assert found.warnings == (found.road.note,)
    assert not found.nearest_of_several


def test_a_town_of_several_states_is_the_nearest_with_a_warning(places, home) -> None:
    found = way(places, home, "Kansas City")
    assert found.nearest_of_several
    assert found.name in ("Kansas City, MO", "Kansas City, KS")
    assert found.warnings[0].startswith(f"{found.name} is taken, the nearest of several: towns of that name stand in KS, MO; ")
    assert "add the state" in found.warnings[0]
    assert found.road == way(places, home, found.name).road


def test_a_zip_and_a_town_that_disagree_are_not_settled(places, home) -> None:
    found = way(places, home, "Fargo, ND 05641")
    assert (found.place, found.road) == (None, None)
    assert found.warnings == ("Fargo, ND 05641: the ZIP and the town lie 1185 miles apart",)


def test_a_state_alone_is_a_wide_band(places, home) -> None:
    found = way(places, home, "Ohio")
    assert found.road.high > 1.2 * found.road.likely
    assert "only the state is known" in found.warnings[0]


def test_no_road(places, home) -> None:
    found = way(places, home, "Honolulu, HI")
    assert found.road is None
    assert "no road leads" in found.warnings[0]


def test_not_a_place(home) -> None:
    found = way_to(home, "Bare, VT", None, ("Barre, VT",))
    assert found.warnings == ("'Bare, VT' is not a place known here: Barre, VT?",)
