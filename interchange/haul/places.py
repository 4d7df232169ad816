"""US places without a network: a ZIP, a town or a state becomes a point on the map, and is never guessed.

The points come from the `zipcodes` package. Against the 2022 Census gazetteer the median of a town's ZIP points is
1.0 mile off at the middle and 3.7 at the ninetieth percentile (18,931 towns, own count); names that are not the post
office's own are worse, since a state may hold two villages of one name, so such a place carries a note.
"""

from __future__ import annotations

import csv
import tempfile
from collections import Counter
from functools import cache
from importlib import resources
from itertools import groupby
from pathlib import Path
from statistics import median
from typing import TYPE_CHECKING, Any, NamedTuple, TypeVar, cast

from interchange.errors import InputError
from interchange.haul.place_text import STATES, county_key, is_county, read_words, state_name, town_key
from interchange.haul.road import great_circle_mi

if TYPE_CHECKING:
    from collections.abc import Iterator

    import duckdb

    from interchange.haul.place_text import Words

FAR_MI = 25.0
"""Points of one town farther apart than this are doubted: wrong post-office boxes, or two places of one name."""
FEW_ZIPS = 3
"""With fewer ZIPs than this a town's median is no better than any of them."""
POST_OFFICE, ACCEPTED, LOCAL = 0, 1, 2


class Place(NamedTuple):
    """A point on the map, how it was found ('zip', 'town' or 'county'), and what to mind about it."""

    name: str
    state: str
    lat: float
    lon: float
    how: str
    note: str = ""
    country: str = "US"


class Ambiguous(NamedTuple):
    """A name that several places have; `nearest` is an offer only, to be shown with the note, never taken silently."""

    text: str
    choices: tuple[Place, ...]
    nearest: Place | None
    note: str


class StateOnly(NamedTuple):
    """Only the state is known: its middle, and how far off its ZIPs are in straight miles (None without a home)."""

    state: str
    name: str
    lat: float
    lon: float
    nearest_mi: float | None
    median_mi: float | None
    farthest_mi: float | None
    note: str


Found = TypeVar("Found", bound="Place | Ambiguous | StateOnly")


class PlaceRow(NamedTuple):
    """One ZIP with its point, as it is loaded."""

    zip: str
    town: str
    state: str
    county: str
    county_key: str
    lat: float
    lon: float


class NameRow(NamedTuple):
    """One name of a ZIP: the post office's own, one it accepts, or a local one."""

    town_key: str
    town: str
    state: str
    standing: int
    zip: str


def place_rows() -> Iterator[PlaceRow]:
    """The good records: not military, not at 0,0."""
    for record in _good_records():
        yield PlaceRow(
            record["zip_code"],
            record["city"],
            record["state"],
            record["county"],
            county_key(record["county"]),
            float(record["lat"]),
            float(record["long"]),
        )


def name_rows() -> Iterator[NameRow]:
    """Every name by which a good ZIP goes."""
    keys: dict[str, str] = {}
    for record in _good_records():
        named = [(POST_OFFICE, record["city"])]
        named += [(ACCEPTED, name) for name in record["acceptable_cities"]]
        named += [(LOCAL, name) for name in record["unacceptable_cities"]]
        for standing, name in named:
            key = keys.get(name)
            if key is None:
                key = keys[name] = town_key(name)
            yield NameRow(key, name, record["state"], standing, record["zip_code"])


def _good_records() -> Iterator[dict[str, Any]]:
    import zipcodes

    for record in zipcodes.list_all():  # type: ignore[no-untyped-call]
        if record["state"] in STATES and (float(record["lat"]), float(record["long"])) != (0.0, 0.0):
            yield record


def load_places(connection: duckdb.DuckDBPyConnection) -> int:
    """Fills the tables place, place_name and town; gives the number of ZIPs. Through a file: a tenth of row by row."""
    connection.execute(_statement("create"))
    connection.execute(_statement("miles"))
    with tempfile.TemporaryDirectory() as folder:
        for table, rows in (("place", place_rows()), ("place_name", name_rows())):
            path = Path(folder) / f"{table}.csv"
            with path.open("w", encoding="utf-8", newline="") as stream:
                csv.writer(stream).writerows(rows)
            copy = f"INSERT INTO {table} SELECT * FROM read_csv($1, header = false, all_varchar = true)"
            connection.execute(copy, [str(path)])
    connection.execute(_statement("towns"))
    counted = connection.execute("SELECT count(*) FROM place").fetchone()
    return int(counted[0]) if counted else 0


@cache
def _states_of_areas() -> dict[str, str]:
    states: dict[str, Counter[str]] = {}
    for record in _good_records():
        for code in record["area_codes"]:
            states.setdefault(code, Counter())[record["state"]] += 1
    return {code: counted.most_common(1)[0][0] for code, counted in states.items()}


def state_of_area(code: str) -> str | None:
    """The state a telephone's area code belongs to: the one with most of its ZIPs, for a few reach over a border."""
    return _states_of_areas().get(code)


def find_place(
    connection: duckdb.DuckDBPyConnection, text: str, near: tuple[float, float] | None = None
) -> Place | Ambiguous | StateOnly | None:
    """Looks a place up: ZIP, then town and state, then a town alone if only one state has it, then a state alone.

    `near` is the home point (latitude, longitude): it gives the distances of a state and the nearest of several
    namesakes, which is only an offer. A state's name alone means the state, though towns may be called so too.
    """
    words = read_words(text)
    by_name = _by_name(connection, text, words, near)
    if words.zip is None:
        return by_name
    by_zip = _by_zip(connection, words.zip)
    if by_zip is None:
        return _noted(by_name, f"ZIP {words.zip} is not known; found by the name") if by_name else None
    return _agreed(text, by_zip, by_name)


def suggest_places(connection: duckdb.DuckDBPyConnection, text: str) -> tuple[str, ...]:
    """Up to three names near one that is not found: to be shown, never to be taken."""
    from rapidfuzz import fuzz, process

    words = read_words(text)
    if not words.splits:
        return ()
    town, state = words.splits[0]
    rows = connection.execute(_statement("names"), {"state": state}).fetchall()
    near = process.extract(town_key(town), [row[0] for row in rows], scorer=fuzz.ratio, score_cutoff=80, limit=3)
    return tuple(f"{rows[index][1]}, {rows[index][2]}" for _, _, index in near)


def _by_zip(connection: duckdb.DuckDBPyConnection, digits: str) -> Place | None:
    row = connection.execute(_statement("zip"), {"zip": digits}).fetchone()
    if row is None:
        return None
    town, state, lat, lon, town_lat, town_lon, zips = row
    place = Place(town, state, lat, lon, "zip")
    off_mi = great_circle_mi((lat, lon), (town_lat, town_lon))
    if zips >= FEW_ZIPS and off_mi > FAR_MI:  # some are wrong boxes, more are the far corner of a large town
        return place._replace(note=f"ZIP {digits} lies {off_mi:.0f} miles from the middle of {town}: make sure")
    return place


def _by_name(
    connection: duckdb.DuckDBPyConnection, text: str, words: Words, near: tuple[float, float] | None
) -> Place | Ambiguous | StateOnly | None:
    if words.state is not None:
        return _state_alone(connection, words.state, near)
    found: list[Place | Ambiguous] = []
    for town, state in words.splits:
        if state is not None:
            hit = _town_in_state(connection, text, town, state, near)
        else:
            hit = _town_alone(connection, text, town, near)
        if hit is not None:
            found.append(hit)
    if not found:
        return None
    if len(found) > 1:  # "Lake Washington": a town Lake in Washington, or a town of both words?
        choices = tuple(place for hit in found for place in (hit.choices if isinstance(hit, Ambiguous) else (hit,)))
        return _several(text, choices, near, "it can be read as a town and its state, or as one name; put a comma")
    hit = found[0]
    if words.vague:
        return _noted(hit, "said to be near there only")
    return hit


def _town_in_state(
    connection: duckdb.DuckDBPyConnection, text: str, town: str, state: str, near: tuple[float, float] | None
) -> Place | Ambiguous | None:
    if is_county(town):
        counties = _counties(connection, town, state)
        if counties:
            return counties[0]
    key = town_key(town)
    row = connection.execute(_statement("town in state"), {"town_key": key, "state": state}).fetchone()
    if row is None:
        return None
    name, _, standing, _, _, spread_mi, _, _, _ = row
    if standing == POST_OFFICE or spread_mi <= FAR_MI:
        return _town(row)
    bound = {"town_key": key, "state": state, "standing": standing}
    points = connection.execute(_statement("points of a name"), bound).fetchall()
    choices = tuple(Place(f"{name} ({post} {zip_})", within, lat, lon, "zip") for zip_, post, within, lat, lon in points)
    return _several(text, choices, near, f"{state_name(state)} has several places of that name; a ZIP settles it")


def _counties(connection: duckdb.DuckDBPyConnection, county: str, state: str | None) -> tuple[Place, ...]:
    """The counties of a name, of one state or of all: each a middle with how far its towns lie off."""
    bound = {"county_key": county_key(county), "state": state}
    rows = connection.execute(_statement("points of a county"), bound).fetchall()
    found = []
    for within, group in groupby(rows, key=lambda row: str(row[1])):
        points = list(group)
        middle = (median(row[2] for row in points), median(row[3] for row in points))
        off_mi = max(great_circle_mi(middle, (row[2], row[3])) for row in points)
        note = f"only the county is known: its towns lie up to {off_mi:.0f} miles from the middle that is used"
        found.append(Place(points[0][0], within, *middle, "county", note))
    return tuple(found)


def _county_alone(
    connection: duckdb.DuckDBPyConnection, text: str, county: str, near: tuple[float, float] | None
) -> Place | Ambiguous | None:
    choices = _counties(connection, county, None)
    if len(choices) == 1:
        return _noted(choices[0], "no state was given; only one state has a county of that name")
    states = ", ".join(choice.state for choice in choices)
    return _several(text, choices, near, f"counties of that name are in {states}; add the state") if choices else None


def _town_alone(
    connection: duckdb.DuckDBPyConnection, text: str, town: str, near: tuple[float, float] | None
) -> Place | Ambiguous | None:
    rows = connection.execute(_statement("town alone"), {"town_key": town_key(town)}).fetchall()
    if not rows:
        return _county_alone(connection, text, town, near) if is_county(town, in_state=False) else None
    if len(rows) == 1:
        place = _town(rows[0])
        return _noted(place, "no state was given; only one state has a town of that name")
    states = ", ".join(sorted(row[1] for row in rows))
    choices = tuple(_town(row) for row in rows)
    return _several(text, choices, near, f"towns of that name stand in {states}; add the state")


def _town(row: tuple[Any, ...]) -> Place:
    name, state, standing, lat, lon, spread_mi, zips, zip_, post_town = row
    note = ""
    if standing != POST_OFFICE:
        note = f"a local name, placed by ZIP {zip_} of {post_town}; a second place of that name is possible"
    elif spread_mi > FAR_MI:
        note = f"its {zips} ZIPs lie up to {spread_mi:.0f} miles from the middle that is used"
    return Place(name, state, lat, lon, "town", note)


def _state_alone(connection: duckdb.DuckDBPyConnection, state: str, near: tuple[float, float] | None) -> StateOnly:
    points = connection.execute(_statement("points of a state"), {"state": state}).fetchall()
    if not points:
        raise InputError(f"the table of places has nothing in {state_name(state)}", "load the places first")
    name = state_name(state)
    note = f"only the state is known: anywhere in {name}"
    towns = connection.execute(_statement("town alone"), {"town_key": town_key(name)}).fetchall()
    also = ", ".join(sorted({row[1] for row in towns if row[2] == POST_OFFICE}))
    if also:
        note += f"; for a town of that name ({also}) write the town and its state"
    middle = (median(lat for lat, _ in points), median(lon for _, lon in points))
    if near is None:
        return StateOnly(state, name, *middle, None, None, None, note)
    far = sorted(great_circle_mi(near, point) for point in points)
    return StateOnly(state, name, *middle, far[0], median(far), far[-1], note)


def _several(text: str, choices: tuple[Place, ...], near: tuple[float, float] | None, note: str) -> Ambiguous:
    nearest = None
    if near is not None:
        nearest = min(choices, key=lambda place: great_circle_mi(near, (place.lat, place.lon)))
        nearest = _noted(nearest, "only the nearest of several places of that name: make sure")
    return Ambiguous(text, choices, nearest, note)


def _agreed(text: str, by_zip: Place, by_name: Place | Ambiguous | StateOnly | None) -> Place | Ambiguous:
    """The ZIP's place, unless the words beside it speak of somewhere else."""
    if isinstance(by_name, StateOnly) and by_name.state != by_zip.state:
        note = f"the ZIP is in {state_name(by_zip.state)}, the words say {by_name.name}"
        return Ambiguous(text, (by_zip,), None, note)
    if isinstance(by_name, Place) and (apart := _miles(by_zip, by_name)) > FAR_MI:
        return Ambiguous(text, (by_zip, by_name), None, f"the ZIP and the town lie {apart:.0f} miles apart")
    if isinstance(by_name, Ambiguous) and all(_miles(by_zip, choice) > FAR_MI for choice in by_name.choices):
        return Ambiguous(text, (by_zip, *by_name.choices), None, "the ZIP is near no town of that name")
    return by_zip


def _noted(found: Found, note: str) -> Found:
    """The same find with one more thing to mind."""
    return cast("Found", found._replace(note=f"{found.note}; {note}" if found.note else note))


def _miles(a: Place, b: Place) -> float:
    return great_circle_mi((a.lat, a.lon), (b.lat, b.lon))


@cache
def _statement(name: str) -> str:
    """One statement of places.sql by the name in the line above it."""
    text = resources.files("interchange.haul").joinpath("places.sql").read_text(encoding="utf-8")
    blocks = (block.partition("\n") for block in text.split("-- name: ")[1:])
    return {title.strip(): body for title, _, body in blocks}[name]
