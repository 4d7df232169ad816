"""Towing ratings against printed examples and tables."""

import pytest

from interchange.haul.limits import binding, hitch_class, limits, trailer_room
from interchange.haul.rig import Rig, Trailer, Vehicle


def rooms(vehicle: Vehicle) -> dict[str, float]:
    return {limit.name: limit.rating_lb for limit in trailer_room(vehicle, 0.10)}


BARE = Vehicle(
    gvwr_lb=7200, gcwr_lb=14000, curb_lb=5500, aboard_lb=0, rear_axle_lb=4000, rear_axle_own_lb=2700, rear_axle_leverage=1.5
)
LADEN = Vehicle(
    gvwr_lb=7200, gcwr_lb=14000, curb_lb=5500, aboard_lb=700, rear_axle_lb=4000, rear_axle_own_lb=3100, rear_axle_leverage=1.5
)


def test_example_of_two_owner_manuals_empty() -> None:
    """A vehicle maker's manuals of 2009 and 2010: 14,000 - 5,500 leaves 8,500, whose tongue the rear axle still bears."""
    assert rooms(BARE)["GCWR"] == 8500
    assert trailer_room(BARE, 0.10)[0].name == "GCWR"
    assert 8500 * 0.10 * 1.5 + 2700 == 3975
    assert rooms(BARE)["rear axle"] > 8500


def test_example_of_two_owner_manuals_laden() -> None:
    """300 lb more in front and 400 behind: 7,800 by GCWR, a tongue of 1,000 by GVWR and of 600 by the rear axle: 6,000."""
    room = rooms(LADEN)
    assert room["GCWR"] == 7800
    assert room["truck GVWR"] * 0.10 == pytest.approx(1000)
    assert room["rear axle"] * 0.10 == pytest.approx(600)
    assert room["rear axle"] == pytest.approx(6000)
    assert trailer_room(LADEN, 0.10)[0].name == "rear axle"


@pytest.mark.parametrize(
    ("load_lb", "ok"),
    [
        pytest.param(3990, None, id="6,000 holds only with a light tongue"),
        pytest.param(4011, False, id="over 6,000 breaks the rear axle even then"),
        pytest.param(2000, True, id="4,000 holds at 15 % too"),
        pytest.param(2010, None, id="just over 4,000"),
    ],
)
def test_the_same_example_as_limits(load_lb, ok) -> None:
    checked = limits(Rig(vehicle=LADEN, trailer=Trailer(own_lb=2000)), load_lb)
    assert next(limit for limit in checked if limit.name == "rear axle").ok is ok
    if ok is False:
        assert binding(checked).name == "rear axle"


def test_payload_is_gross_less_curb() -> None:
    """A printed example: 9,000 gross, 6,000 curb, 3,000 payload."""
    checked = limits(Rig(vehicle=Vehicle(gvwr_lb=9000, curb_lb=6000, aboard_lb=0)), 3000)
    truck = next(limit for limit in checked if limit.name == "truck GVWR")
    assert (truck.rating_lb, truck.load_lb, truck.ok) == (3000, 3000, True)


@pytest.mark.parametrize(
    ("trailer_lb", "name", "ball_in", "chain_lb"),
    [
        (1, "class 1", 1.875, 2000),
        (2000, "class 1", 1.875, 2000),
        (2001, "class 2", 2.0, 3500),
        (3500, "class 2", 2.0, 3500),
        (3501, "class 3", 2.0, 5000),
        (5000, "class 3", 2.0, 5000),
        (5001, "class 4", None, None),
        (10000, "class 4", None, None),
    ],
)
def test_classes_of_sae_j684(trailer_lb, name, ball_in, chain_lb) -> None:
    found = hitch_class(trailer_lb)
    assert (found.name, found.least_ball_in, found.chain_lb) == (name, ball_in, chain_lb)


def test_beyond_sae_j684() -> None:
    assert hitch_class(10001) is None
