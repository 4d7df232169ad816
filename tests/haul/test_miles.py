import pytest
from hypothesis import given
from hypothesis import strategies as st

from interchange.haul.places import Place
from interchange.haul.road import PLACE_MI, WEST, band, great_circle_mi, no_road, road_miles, road_miles_to_state

PROVINCES = ("ON", "BC", "NS", "NL", "QC")


def at(state, lat, lon, country="") -> Place:
    return Place("somewhere", state, lat, lon, "town", "", country or ("CA" if state in PROVINCES else "US"))


BARRE = at("VT", 44.19, -72.50)
RENO, SALT_LAKE = at("NV", 39.53, -119.81), at("UT", 40.76, -111.89)


@pytest.mark.parametrize(
    ("a", "b", "factor"),
    [
        pytest.param(RENO, SALT_LAKE, 1.32, id="both ends west"),
        pytest.param(RENO, SALT_LAKE._replace(state="ND"), 1.21, id="one end west"),
        pytest.param(RENO._replace(state="TX"), SALT_LAKE._replace(state="ND"), 1.21, id="neither"),
    ],
)
def test_factor_by_region(a, b, factor) -> None:
    straight_mi = great_circle_mi((a.lat, a.lon), (b.lat, b.lon))
    road = road_miles(a, b)
    assert road.likely == pytest.approx(straight_mi * factor)
    assert str(factor) in road.note


def test_eleven_western_states() -> None:
    assert len(WEST) == 11


@pytest.mark.parametrize(
    ("estimate_mi", "low", "high"),
    [
        pytest.param(10, 0.90, 1.20, id="short"),
        pytest.param(100, 0.90, 1.20, id="end of short"),
        pytest.param(175, 0.92, 1.175, id="half way"),
        pytest.param(250, 0.94, 1.15, id="middle begins"),
        pytest.param(500, 0.94, 1.15, id="middle ends"),
        pytest.param(750, 0.945, 1.11, id="half way again"),
        pytest.param(1000, 0.95, 1.07, id="long"),
        pytest.param(2500, 0.95, 1.07, id="very long"),
    ],
)
def test_band_by_distance(estimate_mi, low, high) -> None:
    assert band(estimate_mi) == pytest.approx((low, high))


def test_the_same_place_has_a_least() -> None:
    road = road_miles(BARRE, BARRE)
    assert (road.low, road.likely, road.high) == (1.0, PLACE_MI, 2 * PLACE_MI)
    assert "the same place or nearly" in road.note


@given(st.floats(31, 41), st.floats(-100, -99), st.floats(0, 6), st.floats(0, 6))
def test_farther_in_one_region_is_never_shorter(lat, lon, one, more) -> None:
    home = at("KS", lat, lon)
    near, far = (road_miles(home, at("KS", lat, lon + east)) for east in (one, one + more))
    assert all(a <= b + 1e-9 for a, b in zip(near[:3], far[:3], strict=True))
    assert near.low <= near.likely <= near.high


@pytest.mark.parametrize(
    ("a", "b", "water", "least_mi"),
    [
        pytest.param(at("WI", 43.04, -87.91), at("MI", 43.23, -86.25), "Lake Michigan", 220, id="across the lake"),
        pytest.param(at("WI", 44.51, -88.02), at("MI", 44.76, -85.62), "Lake Michigan", 250, id="by the straits"),
        pytest.param(at("CT", 41.31, -72.93), at("NY", 40.92, -72.66), "Long Island Sound", 100, id="the sound"),
        pytest.param(at("PA", 42.13, -80.09), at("MI", 42.33, -83.05), "Lake Erie", 240, id="round the lake's west end"),
        pytest.param(at("VT", 44.48, -73.21), at("NY", 44.70, -73.45), "Lake Champlain", 60, id="by the north end"),
        pytest.param(at("MI", 43.80, -83.00), at("MI", 45.06, -83.43), "Saginaw Bay", 140, id="round the bay"),
        pytest.param(at("NJ", 38.94, -74.91), at("DE", 38.78, -75.14), "Delaware Bay", 130, id="by the bridge up river"),
        pytest.param(at("WA", 48.75, -122.48), at("WA", 48.12, -123.43), "Puget Sound", 190, id="by the narrows"),
        pytest.param(at("MI", 47.12, -88.57), at("ON", 48.38, -89.25), "Lake Superior", 350, id="round the west end"),
        pytest.param(at("NY", 43.16, -77.61), at("ON", 43.65, -79.38), "Lake Ontario", 150, id="by the falls"),
        pytest.param(at("MI", 45.06, -83.43), at("ON", 43.75, -81.71), "Lake Huron", 250, id="by the river"),
    ],
)
def test_round_water(a, b, water, least_mi) -> None:
    road = road_miles(a, b)
    assert road.likely > least_mi
    assert f"reckoned round {water}" in road.note


@pytest.mark.parametrize(
    ("a", "b"),
    [
        pytest.param(at("WA", 48.12, -123.43), at("BC", 48.43, -123.37), id="Vancouver Island"),
        pytest.param(at("NS", 46.14, -60.19), at("NL", 48.95, -54.61), id="Newfoundland"),
        pytest.param(at("VT", 44.20, -72.50), at("MA", 41.28, -70.10), id="Nantucket"),
        pytest.param(at("VT", 44.20, -72.50), at("MA", 41.39, -70.51), id="Martha's Vineyard"),
        pytest.param(at("CT", 41.35, -72.10), at("RI", 41.17, -71.56), id="Block Island"),
        pytest.param(at("WA", 47.60, -122.33), at("WA", 48.54, -123.02), id="Friday Harbor"),
        pytest.param(at("CA", 33.77, -118.19), at("CA", 33.34, -118.33), id="Catalina"),
    ],
)
def test_only_a_ferry(a, b) -> None:
    assert "there is only a ferry over" in road_miles(a, b).note


def test_no_ferry_to_the_shore_before_an_island() -> None:
    assert "ferry" not in road_miles(at("VT", 44.20, -72.50), at("MA", 41.65, -70.28)).note  # Hyannis
    assert "ferry" not in road_miles(at("WA", 48.75, -122.48), at("WA", 48.12, -123.43)).note  # past the San Juan Islands


@pytest.mark.parametrize(
    ("a", "b"),
    [
        pytest.param(at("IN", 41.58, -87.50), at("IN", 41.68, -86.25), id="along the south shore"),
        pytest.param(at("WI", 43.04, -87.91), at("IL", 41.88, -87.63), id="one shore"),
        pytest.param(at("OH", 41.65, -83.54), at("OH", 41.50, -81.69), id="along the lake's south shore"),
        pytest.param(at("VT", 44.48, -73.21), at("VT", 44.01, -73.17), id="down one shore of the narrow lake"),
        pytest.param(at("MN", 46.79, -92.1), at("MI", 46.55, -87.40), id="along another lake's south shore"),
        pytest.param(BARRE, at("NH", 43.2, -71.5), id="no water"),
    ],
)
def test_no_water_between(a, b) -> None:
    assert "reckoned round" not in road_miles(a, b).note


QUEBEC, LYON, MILAN = at("QC", 46.81, -71.21), at("France", 45.76, 4.84, "FR"), at("Italy", 45.46, 9.19, "IT")
LEEDS, DUBLIN = at("United Kingdom", 53.8, -1.55, "GB"), at("Ireland", 53.35, -6.26, "IE")
PERTH, SYDNEY = at("Australia", -31.95, 115.86, "AU"), at("Australia", -33.87, 151.21, "AU")


@pytest.mark.parametrize(
    ("a", "b", "factor", "said"),
    [
        pytest.param(BARRE, QUEBEC, 1.26, "Canada", id="over the border"),
        pytest.param(QUEBEC, at("QC", 45.50, -73.57), 1.26, "Canada", id="within Canada"),
        pytest.param(LYON, MILAN, 1.28, "Europe", id="within Europe"),
        pytest.param(LEEDS, LEEDS._replace(lat=52.5), 1.28, "Europe", id="on an island"),
        pytest.param(PERTH, SYDNEY, 1.30, "a judgement", id="no figure"),
        pytest.param(BARRE, at("Mexico", 25.67, -100.31, "MX"), 1.30, "a judgement", id="south"),
        pytest.param(LEEDS, DUBLIN, None, "ask a freight forwarder", id="between islands"),
        pytest.param(LEEDS, LYON, None, "ask a freight forwarder", id="an island and the mainland"),
        pytest.param(BARRE, LYON, None, "ask a freight forwarder", id="over the ocean"),
        pytest.param(QUEBEC, at("AK", 61.2, -149.9), None, "Alaska", id="Alaska from Canada"),
    ],
)
def test_abroad(a, b, factor, said) -> None:
    road = road_miles(a, b)
    if factor is None:
        assert road is None
        assert said in no_road(a, b)
    else:
        assert road.likely == pytest.approx(great_circle_mi((a.lat, a.lon), (b.lat, b.lon)) * factor)
        assert said in road.note
        assert no_road(a, b) is None


@pytest.mark.parametrize(
    ("a", "b", "why"),
    [
        pytest.param("VT", "HI", "no road leads to or between the islands", id="island"),
        pytest.param("AK", "VT", "through Canada or by sea", id="Alaska"),
        pytest.param("AK", "AK", "through Canada or by sea", id="within Alaska"),
        pytest.param("PR", "VT", "Puerto Rico", id="over the sea"),
        pytest.param("PR", "PR", None, id="on one island"),
        pytest.param("VT", "CA", None, id="mainland"),
    ],
)
def test_no_road(a, b, why) -> None:
    start, end = at(a, 40.0, -80.0), at(b, 41.0, -81.0)
    reason = no_road(start, end)
    assert reason is None if why is None else why in reason
    assert (road_miles(start, end) is None) == (why is not None)


def test_a_state_only_gives_a_wide_band() -> None:
    road = road_miles_to_state(BARRE, "NH", (30.0, 80.0, 130.0))
    assert road.likely == pytest.approx(80 * 1.21)
    assert road.low < 30 * 1.21
    assert road.high > 130 * 1.21
    assert "only the state is known" in road.note
    assert road_miles_to_state(BARRE, "HI", (30.0, 80.0, 130.0)) is None
