"""Road miles from two points: the straight line times a factor of the region, with the error of such an estimate.

Factors and errors come from a table of US highway miles of 1949: the straight line takes in 1.21 miles of road a mile,
1.32 where both ends are in the mountain and Pacific states. The error of the estimate depends on the distance, the
factor hardly. A factor of 1.2 to 1.3 agrees with several published studies.
"""

from __future__ import annotations

from itertools import pairwise
from math import asin, cos, radians, sin, sqrt
from typing import NamedTuple, Protocol

MEAN_EARTH_MI = 6371.0088 / 1.609344
"""Mean radius of the Earth. Taking it for a ball is off by 0.56 % at most, far below the error of any road factor."""

WEST = frozenset({"WA", "OR", "CA", "NV", "ID", "MT", "WY", "UT", "CO", "AZ", "NM"})
WEST_FACTOR = 1.32
FACTOR = 1.21

BORDER_FACTOR, EUROPE_FACTOR, OTHER_FACTOR = 1.26, 1.28, 1.30
"""About 1.26 across the border to Canada and 1.28 in Europe by published studies; elsewhere 1.30 is a judgement. The band is
that of US roads everywhere."""
AMERICA = frozenset({"US", "CA", "MX", "GT", "BZ", "SV", "HN", "NI", "CR", "PA"})
EUROPE = frozenset(
    {
        "AT", "BE", "BG", "CH", "CZ", "DE", "DK", "EE", "ES", "FI", "FR", "GR", "HR", "HU", "IT", "LI", "LT", "LU", "LV", "MC",
        "NL", "NO", "PL", "PT", "RO", "SE", "SI", "SK", "AL", "BA", "ME", "MK", "RS", "XK", "MD", "SM", "AD",
    }
)  # fmt: skip
ISLANDS = frozenset({"GB", "IE", "MT", "CY", "IS"})
"""Countries whose roads join: the mainland of North and Central America, that of Europe, and by itself each island of Europe."""

BAND = ((100.0, 0.90, 1.20), (250.0, 0.94, 1.15), (500.0, 0.94, 1.15), (1000.0, 0.95, 1.07))
"""Estimated miles, then true over estimated at the tenth and ninetieth percentile. Measured below 100, between 250 and
500 and above 1,000; in between a straight line is drawn, which is a judgement."""

PLACE_MI = 5.0
"""How well a town's middle says where a yard is, a judgement: the band is never narrower, and no haul is shorter."""
SHORTEST_MI = 1.0

APART = {
    "AK": "the way to Alaska leads through Canada or by sea and is not reckoned here",
    "HI": "no road leads to or between the islands of Hawaii",
    "PR": "no road leads to Puerto Rico",
    "VI": "no road leads to the Virgin Islands",
    "GU": "no road leads to Guam",
    "AS": "no road leads to American Samoa",
    "MP": "no road leads to the Mariana Islands",
    "FM": "no road leads to Micronesia",
    "MH": "no road leads to the Marshall Islands",
    "PW": "no road leads to Palau",
}  # fmt: skip
"""States whose roads do not join the rest, and what to say."""


class Located(Protocol):
    """Anything with a point and a state."""

    @property
    def state(self) -> str:
        """Postal letters."""

    @property
    def country(self) -> str:
        """Its two letters."""

    @property
    def lat(self) -> float:
        """Degrees north."""

    @property
    def lon(self) -> float:
        """Degrees east."""


class RoadMiles(NamedTuple):
    """One way in road miles: likely, with a tenth of such hauls below low and a tenth above high."""

    likely: float
    low: float
    high: float
    note: str


class Water(NamedTuple):
    """Water without a road across: its middle line, and the points by which roads pass it (latitude, longitude)."""

    name: str
    line: tuple[tuple[float, float], ...]
    gates: tuple[tuple[float, float], ...]


def _box(south: float, north: float, west: float, east: float) -> tuple[tuple[float, float], ...]:
    """The line round an island."""
    return ((north, west), (north, east), (south, east), (south, west), (north, west))


WATERS = (
    Water(
        "Lake Michigan",
        ((41.68, -87.25), (43.5, -87.1), (44.7, -86.6), (45.4, -86.0), (45.78, -85.0)),
        ((41.58, -87.25), (45.85, -84.72)),
    ),
    Water("Long Island Sound", ((40.90, -73.70), (41.05, -73.0), (41.15, -72.4), (41.1, -71.7)), ((40.80, -73.83),)),
    Water(
        "Chesapeake Bay",
        ((39.35, -76.15), (38.6, -76.42), (37.8, -76.15), (37.1, -76.1)),
        ((39.6, -76.1), (38.99, -76.38), (37.0, -76.1)),
    ),
    Water(
        "the Gulf of Mexico",
        ((29.8, -84.0), (29.3, -85.5), (28.8, -89.0), (28.6, -93.5), (26.5, -96.5)),
        ((30.4, -84.3),),
    ),
    Water(
        "Lake Erie",
        ((41.6, -83.3), (41.85, -82.6), (42.1, -81.5), (42.4, -80.3), (42.8, -79.1)),
        ((41.65, -83.5), (42.9, -78.9)),
    ),
    Water("Lake Ontario", ((43.27, -79.75), (43.5, -78.5), (43.6, -77.2), (43.95, -76.4)), ((43.25, -79.6), (44.35, -75.98))),
    Water(
        "Lake Huron",
        ((43.05, -82.4), (44.0, -82.2), (45.2, -82.8), (45.9, -83.9), (46.0, -84.4)),
        ((42.99, -82.42), (46.5, -84.35)),
    ),
    Water("Saginaw Bay", ((43.66, -83.88), (44.05, -83.1), (44.6, -82.5)), ((43.6, -83.9),)),
    Water(
        "Lake Superior",
        ((46.7, -91.9), (47.2, -90.5), (47.8, -88.5), (47.7, -86.5), (47.0, -85.0), (46.5, -84.5)),
        ((46.78, -92.1), (46.5, -84.35)),
    ),
    Water(
        "Lake Champlain",
        ((44.03, -73.42), (44.3, -73.35), (44.55, -73.33), (44.85, -73.35), (45.0, -73.34)),
        ((44.03, -73.42), (45.0, -73.34)),
    ),
    Water("Delaware Bay", ((39.6, -75.57), (39.2, -75.25), (38.85, -75.0), (38.6, -74.7)), ((39.69, -75.52),)),
    Water(
        "Puget Sound", ((47.28, -122.55), (47.6, -122.45), (48.0, -122.5), (48.2, -122.8), (48.25, -123.8)), ((47.27, -122.55),)
    ),
    Water(
        "the strait to Vancouver Island",
        ((48.45, -124.8), (48.25, -123.6), (48.4, -123.1), (48.8, -123.2), (49.3, -124.0), (50.0, -125.0), (51.0, -128.5)),
        (),
    ),
    Water(
        "the sea to Newfoundland",
        ((52.2, -55.2), (51.3, -57.0), (49.5, -59.2), (47.4, -59.8), (46.3, -56.0), (46.3, -52.5)),
        (),
    ),
    # Round islands without a bridge.
    Water(
        "the sounds to Martha's Vineyard and Nantucket",
        (
            (41.28, -71.0),
            (41.40, -70.85),
            (41.48, -70.67),
            (41.50, -70.5),
            (41.48, -70.1),
            (41.40, -69.8),
            (41.15, -69.8),
            (41.15, -71.0),
            (41.28, -71.0),
        ),
        (),
    ),
    Water("the sound to Block Island", _box(41.1, 41.27, -71.7, -71.45), ()),
    Water("the water to Mackinac Island", _box(45.84, 45.89, -84.67, -84.57), ()),
    Water("the water to Beaver Island", _box(45.55, 45.85, -85.7, -85.4), ()),
    Water("the water to Washington Island", _box(45.32, 45.45, -87.0, -86.75), ()),
    Water("the channel to Catalina Island", _box(33.25, 33.55, -118.7, -118.2), ()),
    Water(
        "the water to the San Juan Islands",
        ((48.40, -122.80), (48.60, -122.76), (48.78, -122.80), (48.80, -123.25), (48.40, -123.25), (48.40, -122.80)),
        (),
    ),
    Water(
        "the water to Vashon Island",
        ((47.52, -122.50), (47.50, -122.40), (47.33, -122.42), (47.33, -122.53), (47.40, -122.55), (47.52, -122.50)),
        (),
    ),
)
"""Straight lines over these lead far round by road; over those without a gate there is only a ferry. The lines are drawn by
hand and coarse: a judgement. Going round them takes the worst of 60 printed distances from 35 to 14 % off, and the
ninetieth percentile from 9.7 to 7.9."""
OVER_THE_SEA = "no road that is reckoned here leads there: ask a freight forwarder"
DETOUR = 1.05
"""A way round that is longer by less than this is not worth a remark."""


def great_circle_mi(a: tuple[float, float], b: tuple[float, float]) -> float:
    """Straight-line miles between two points (latitude, longitude in degrees) on a ball: the haversine formula."""
    lat_a, lon_a, lat_b, lon_b = (radians(degrees) for degrees in (*a, *b))
    half = sin((lat_b - lat_a) / 2) ** 2 + cos(lat_a) * cos(lat_b) * sin((lon_b - lon_a) / 2) ** 2
    return 2 * MEAN_EARTH_MI * asin(min(1.0, sqrt(half)))


def no_road(a: Located, b: Located) -> str | None:
    """Why road miles between two places are not known; None if they can be estimated."""
    if a.state == b.state == "PR":
        return None
    apart = (APART.get(each.state) for each in (a, b) if each.country == "US")
    return next(filter(None, apart), None) or (None if _factor(a, b) else OVER_THE_SEA)


def road_miles(a: Located, b: Located) -> RoadMiles | None:
    """Road miles one way; None where no road leads (see `no_road` for the reason)."""
    found = _factor(a, b)
    if found is None or no_road(a, b):
        return None
    start, end = (a.lat, a.lon), (b.lat, b.lon)
    factor, region = found
    straight_mi, water = _straight_round_water(start, end)
    estimate = straight_mi * factor
    notes = [f"{straight_mi:.0f} straight miles × {factor}" + (f" ({region})" if region else "")]
    if water:
        notes.append(water)
    if estimate < PLACE_MI:
        notes.append(f"the same place or nearly: {PLACE_MI:.0f} miles are taken as the least")
    return _banded(max(estimate, PLACE_MI), "; ".join(notes))


def _factor(a: Located, b: Located) -> tuple[float, str] | None:
    """Road over straight miles between two places, and for which region that is; None where no road is known to join them."""
    countries = {a.country, b.country}
    if countries == {"US"}:
        return (WEST_FACTOR, "both ends in the west") if {a.state, b.state} <= WEST else (FACTOR, "")
    if countries <= {"US", "CA"}:
        return BORDER_FACTOR, "Canada"
    if countries <= EUROPE or (len(countries) == 1 and countries <= ISLANDS):
        return EUROPE_FACTOR, "Europe; the band is that of US roads"
    if countries <= AMERICA or len(countries) == 1:
        return OTHER_FACTOR, "no figure for this region: a judgement"
    return None


def road_miles_to_state(home: Located, state: str, straight_mi: tuple[float, float, float]) -> RoadMiles | None:
    """Road miles to somewhere in a state, from its nearest, median and farthest straight miles; a wide band."""
    anywhere = _Anywhere("US", state, home.lat, home.lon)
    if no_road(home, anywhere):
        return None
    factor, _ = _factor(home, anywhere) or (FACTOR, "")
    near, middle, far = (_banded(max(mi * factor, PLACE_MI), "") for mi in straight_mi)
    note = "only the state is known: from its nearest to its farthest town"
    return RoadMiles(middle.likely, near.low, far.high, note)


def band(estimate_mi: float) -> tuple[float, float]:
    """True over estimated miles at the tenth and ninetieth percentile, for an estimate of so many miles."""
    first, last = BAND[0], BAND[-1]
    if estimate_mi <= first[0]:
        return first[1], first[2]
    for (from_mi, from_low, from_high), (to_mi, to_low, to_high) in pairwise(BAND):
        if estimate_mi <= to_mi:
            share = (estimate_mi - from_mi) / (to_mi - from_mi)
            return from_low + share * (to_low - from_low), from_high + share * (to_high - from_high)
    return last[1], last[2]


class _Anywhere(NamedTuple):
    country: str
    state: str
    lat: float
    lon: float


def _banded(estimate_mi: float, note: str) -> RoadMiles:
    low, high = band(estimate_mi)
    return RoadMiles(
        estimate_mi,
        max(SHORTEST_MI, min(estimate_mi * low, estimate_mi - PLACE_MI)),
        max(estimate_mi * high, estimate_mi + PLACE_MI),
        note,
    )


def _straight_round_water(start: tuple[float, float], end: tuple[float, float]) -> tuple[float, str]:
    """Straight miles, round the water that leads farthest off where the line crosses any, and what to say of it."""
    straight_mi = longest_mi = great_circle_mi(start, end)
    said = ""
    for water in WATERS:
        crossed = sum(_cross(start, end, *side) for side in pairwise(water.line))
        if not crossed or (water.line[0] == water.line[-1] and crossed % 2 == 0):  # over an island, and not to it
            continue
        if not water.gates:
            return longest_mi, f"there is only a ferry over {water.name}: look it up, its fare is not reckoned"
        by_gate = min(great_circle_mi(start, gate) + great_circle_mi(gate, end) for gate in water.gates)
        if by_gate > max(longest_mi, straight_mi * DETOUR):
            said = f"reckoned round {water.name}: look at a map"
        longest_mi = max(longest_mi, by_gate)
    return longest_mi, said


def _cross(a: tuple[float, float], b: tuple[float, float], c: tuple[float, float], d: tuple[float, float]) -> bool:
    """Whether two lines cross on a flat map of degrees: near enough over a few hundred miles."""

    def side(p: tuple[float, float], q: tuple[float, float], r: tuple[float, float]) -> float:
        return (q[0] - p[0]) * (r[1] - p[1]) - (q[1] - p[1]) * (r[0] - p[0])

    return side(a, b, c) * side(a, b, d) < 0 and side(c, d, a) * side(c, d, b) < 0
