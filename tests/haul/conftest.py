"""The places, loaded once, and the shipped haul rates."""

from pathlib import Path
from types import SimpleNamespace

import duckdb
import pytest
import yaml

from interchange.catalog.figure import Figure, Origin
from interchange.haul.places import load_places
from interchange.haul.rates import HaulRates, Rate, haul_rates
from interchange.quantity import read_quantity

SHIPPED = Path(__file__).parents[2] / "catalog" / "trade" / "haul.yaml"
DIMENSIONS = {
    "own_mile": "rate_mile", "own_speed_mph": "count", "own_loading": "hours", "own_day": "hours",
    "overnight": "money", "class_unknown": "count", "class_power": "share", "linehaul_least": "money", "fuel": "share",
    "liftgate": "money", "residential": "money", "limited_access": "money", "pallet_most": "mass",
    "liftgate_most": "mass", "hot_shot_mile": "rate_mile", "hot_shot_least": "money", "hot_shot_most": "mass",
    "heavy_mile": "rate_mile", "heavy_near": "distance", "heavy_far_mile": "rate_mile", "heavy_least": "money",
    "wide_load": "money", "draining": "hours", "crating": "hours", "crate": "money", "terminal_away": "distance",
    "terminal_time": "hours", "pallet_wait": "days", "pallet_day": "distance", "hot_shot_wait": "days", "heavy_wait": "days",
    "hired_day": "distance",
    "a_cubic_foot": "mass", "weight": "mass", "distance": "distance", "price": "money",
}  # fmt: skip


def figure(name, written):
    """A figure as the catalog would decode it."""
    if not isinstance(written, dict):
        return Figure(quantity=read_quantity(str(written), DIMENSIONS[name]))
    origin = Origin(basis=written["basis"], source=written["from"])
    return Figure(quantity=read_quantity(str(written["value"]), DIMENSIONS[name]), origin=origin)


def row(written):
    words = ("freight_class",)
    return SimpleNamespace(**{name: value if name in words else figure(name, value) for name, value in written.items()})


@pytest.fixture(scope="session")
def shipped() -> dict:
    return yaml.safe_load(SHIPPED.read_text(encoding="utf-8"))["rates"]["haul"]


@pytest.fixture(scope="session")
def rates(shipped) -> HaulRates:
    table = {
        name: tuple(map(row, value)) if isinstance(value, list) else figure(name, value)
        for name, value in shipped.items()
        if name != "origin"
    }
    return haul_rates(SimpleNamespace(**table))


@pytest.fixture
def own_hour() -> Rate:
    return Rate(low=2500, likely=3500, high=4500, basis="judgement")


@pytest.fixture(scope="session")
def places():
    with duckdb.connect() as connection:
        assert load_places(connection) == 41914
        yield connection
