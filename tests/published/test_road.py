"""Road miles against a printed table of 1949, and the straight line against an outside library."""

import csv
from pathlib import Path
from statistics import median

import duckdb
import pytest
from geographiclib.geodesic import Geodesic
from hypothesis import given
from hypothesis import strategies as st

from interchange.haul.places import Place, find_place, load_places
from interchange.haul.road import great_circle_mi, road_miles

MILES_A_METRE = 1 / 1609.344
BALL_ERROR = 0.00562  # 0.56 %: a degree along the meridian at the equator, where the Earth is most curved
TABLE = Path(__file__).with_name("road_miles.csv")


@pytest.fixture(scope="module")
def ratios():
    """True over estimated miles, and whether the truth is inside the band, for each printed pair."""
    with duckdb.connect() as connection, TABLE.open(encoding="utf-8") as stream:
        load_places(connection)
        found = []
        for row in csv.DictReader(line for line in stream if not line.startswith("#")):
            a, b = find_place(connection, row["a"]), find_place(connection, row["b"])
            assert isinstance(a, Place), row
            assert isinstance(b, Place), row
            road, miles = road_miles(a, b), int(row["miles"])
            found.append((miles / road.likely, road.low <= miles <= road.high))
    return found


def test_the_whole_table_is_found(ratios) -> None:
    assert len(ratios) == 60


def test_error_of_the_estimate(ratios) -> None:
    """Measured: median 4.2 %, ninetieth percentile 7.9 %, worst 14.3 %."""
    errors = sorted(abs(1 / ratio - 1) for ratio, _ in ratios)
    assert median(errors) < 0.045
    assert errors[53] < 0.085
    assert errors[-1] < 0.15


def test_the_estimate_leans_neither_way(ratios) -> None:
    assert median(ratio for ratio, _ in ratios) == pytest.approx(1.0, abs=0.02)


def test_the_band_holds_about_four_in_five(ratios) -> None:
    """Measured: 47 of 60; the band is the tenth to the ninetieth percentile."""
    assert 0.70 <= sum(inside for _, inside in ratios) / len(ratios) <= 0.90


@given(st.floats(-89, 89), st.floats(-180, 180), st.floats(-89, 89), st.floats(-180, 180))
def test_straight_line_within_what_a_ball_allows(lat_a, lon_a, lat_b, lon_b) -> None:
    true_mi = Geodesic.WGS84.Inverse(lat_a, lon_a, lat_b, lon_b)["s12"] * MILES_A_METRE
    assert great_circle_mi((lat_a, lon_a), (lat_b, lon_b)) == pytest.approx(true_mi, rel=BALL_ERROR, abs=1e-6)
