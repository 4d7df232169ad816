from dataclasses import fields

import pytest

from interchange.catalog.figure import Figure, Origin
from interchange.haul.limits import allowed, limits
from interchange.haul.rig import Rig, Trailer, Vehicle, rig_of
from interchange.job.home import OwnRig, TrailerRatings, VehicleRatings
from interchange.quantity import read_quantity


def written(text: str, dimension: str) -> Figure:
    return Figure(quantity=read_quantity(text, dimension), origin=Origin(basis="measured", source="own book"))


def lb(text: str) -> Figure:
    return written(f"{text} lb", "mass")


OWN = OwnRig(
    vehicle=VehicleRatings(
        gvwr=lb("10000"), gcwr=lb("20000"), curb=lb("6500"), aboard=lb("500"), payload=lb("3500"), rear_axle=lb("6000"),
        rear_axle_own=lb("3400"), rear_tyres=4, tyre=lb("2500"), bed_length=written("8 ft", "length"),
        bed_width=written("50 in", "length"), tow=lb("12000"), hitch=lb("10000"), hitch_tongue=lb("1500"),
        ball=written("2-5/16 in", "length"), ball_rating=lb("10000"), tie_downs=6,
        tie_down_rating=lb("1500"),
    ),
    trailer=TrailerRatings(
        gvwr=lb("9000"), own_weight=lb("2200"), axles=2, axle=lb("5200"), tyres=4, tyre=lb("2540"), chains=lb("9000"),
        coupler=written("2-5/16 in", "length"), coupler_rating=lb("10000"),
        deck_length=written("18 ft", "length"), deck_width=written("82 in", "length"), tie_downs=4,
        tie_down_rating=lb("3000"),
    ),
    cost_mile=written("$1.10/mi", "rate_mile"),
)  # fmt: skip


def test_a_home_file_in_pounds_and_inches() -> None:
    rig = rig_of(OWN)
    assert rig.trailer is not None
    assert rig.vehicle.gvwr_lb == pytest.approx(10000)
    assert rig.vehicle.ball_in == pytest.approx(2.3125)
    assert rig.vehicle.tie_downs == 6
    assert (rig.vehicle.rear_tyres, rig.vehicle.tyre_lb) == (4, pytest.approx(2500))
    assert (rig.trailer.axles, rig.trailer.axle_lb) == (2, pytest.approx(5200))
    assert (rig.trailer.tyres, rig.trailer.tyre_lb) == (4, pytest.approx(2540))
    assert rig.trailer.chains_lb == pytest.approx(9000)
    assert rig.trailer.deck_length_in == pytest.approx(216)
    assert rig.cost_mile is not None
    assert rig.cost_mile.spread == pytest.approx((110, 110, 110))
    assert rig.cost_mile.origin == "measured: own book"


def test_no_rating_is_lost_on_the_way() -> None:
    rig = rig_of(OWN)
    lost = {field.name for part in (rig.vehicle, rig.trailer) for field in fields(part) if getattr(part, field.name) is None}
    assert lost <= {"rear_axle_leverage"}


def test_nothing_stated_stays_not_known() -> None:
    assert rig_of(OwnRig(vehicle=VehicleRatings())) == Rig(vehicle=Vehicle())
    assert rig_of(OwnRig(vehicle=VehicleRatings(), trailer=TrailerRatings())) == Rig(vehicle=Vehicle(), trailer=Trailer())


def test_a_load_of_exactly_the_rating_holds_after_conversion() -> None:
    checked = limits(rig_of(OWN), 6800)
    assert next(limit for limit in checked if limit.name == "trailer GVWR").ok is True
    assert next(limit for limit in checked if limit.name == "ball size").ok is True
    assert allowed(checked) is None  # the rear axle is stated, its lever is not
