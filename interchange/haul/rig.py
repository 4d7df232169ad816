"""Own truck and trailer, by the ratings on their plates. A rating left out is not known and never assumed."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from interchange.haul.rates import KG_PER_LB, PerMile, rate_of
from interchange.job.folder import HOME_FILE

if TYPE_CHECKING:
    from interchange.catalog.figure import Figure
    from interchange.job.home import OwnRig, TrailerRatings, VehicleRatings

MM_PER_IN = 25.4
CRUMBS = 6
"""Decimals kept: a load of exactly the rating must not fail by what conversion leaves over."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Vehicle:
    """The truck, as its door plate, manual and hitch say. Leave out what is not known."""

    gvwr_lb: float | None = None
    """Gross vehicle weight rating: the most the truck itself may weigh, tongue weight included."""
    gcwr_lb: float | None = None
    """Gross combined weight rating: the most truck and trailer may weigh together."""
    curb_lb: float | None = None
    """Weight of the empty truck with full tanks."""
    aboard_lb: float | None = None
    """Weight of people, tools and boxes aboard on such a trip."""
    payload_lb: float | None = None
    """The most it may carry, from the sticker: people, cargo and tongue weight together."""
    rear_axle_lb: float | None = None
    """Rating of the rear axle."""
    rear_axle_own_lb: float | None = None
    """What the rear axle bears with people and tools aboard but no trailer, from a scale."""
    rear_axle_leverage: float | None = None
    """How many times the tongue weight the rear axle feels, the hitch being behind it; 1.5 in one maker's example."""
    rear_tyres: int | None = None
    """How many tyres the rear axle has: 2 or 4."""
    tyre_lb: float | None = None
    """What each of them is rated for at the pressure it has, from its sidewall."""
    bed_length_in: float | None = None
    """Length of the bed, in inches."""
    bed_width_in: float | None = None
    """Width of the bed between the wheel wells, in inches."""
    tow_lb: float | None = None
    """The heaviest loaded trailer the maker allows."""
    hitch_lb: float | None = None
    """The heaviest loaded trailer the hitch is stamped for."""
    hitch_tongue_lb: float | None = None
    """The most tongue weight the hitch is stamped for."""
    ball_in: float | None = None
    """Diameter of the ball, in inches."""
    ball_lb: float | None = None
    """The rating stamped on the ball."""
    tie_downs: int | None = None
    """How many chains or straps there are for a load in the bed."""
    tie_down_lb: float | None = None
    """Working load of each of them."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Trailer:
    """The trailer, as its plate says. Leave out what is not known."""

    gvwr_lb: float | None = None
    """Gross rating: the most the trailer may weigh, itself included."""
    own_lb: float | None = None
    """Weight of the empty trailer."""
    axles: int | None = None
    """How many axles it has."""
    axle_lb: float | None = None
    """The rating of each of them."""
    tyres: int | None = None
    """How many tyres stand on the road."""
    tyre_lb: float | None = None
    """What each of them is rated for at the pressure it has, from its sidewall."""
    coupler_in: float | None = None
    """Ball size of the coupler, in inches."""
    coupler_lb: float | None = None
    """The rating stamped on the coupler."""
    chains_lb: float | None = None
    """Breaking load of the safety chains."""
    deck_length_in: float | None = None
    """Length of the deck, in inches."""
    deck_width_in: float | None = None
    """Width between the fenders, or of the deck if it is above the wheels, in inches."""
    tie_downs: int | None = None
    """How many chains or straps there are."""
    tie_down_lb: float | None = None
    """Working load of each of them."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Rig:
    """What one hauls with: a truck, and a trailer unless loads go in the bed."""

    vehicle: Vehicle
    """The truck."""
    trailer: Trailer | None = None
    """The trailer; without one the load goes in the bed."""
    cost_mile: PerMile | None = None
    """What a mile driven costs, if better known than the general rate."""


def rig_of(own: OwnRig) -> Rig:
    """The rig of a home file in pounds and inches."""
    return Rig(
        vehicle=_vehicle(own.vehicle),
        trailer=None if own.trailer is None else _trailer(own.trailer),
        cost_mile=None if own.cost_mile is None else rate_of(own.cost_mile, HOME_FILE),
    )


def _vehicle(own: VehicleRatings) -> Vehicle:
    return Vehicle(
        gvwr_lb=_lb(own.gvwr),
        gcwr_lb=_lb(own.gcwr),
        curb_lb=_lb(own.curb),
        aboard_lb=_lb(own.aboard),
        payload_lb=_lb(own.payload),
        rear_axle_lb=_lb(own.rear_axle),
        rear_axle_own_lb=_lb(own.rear_axle_own),
        rear_axle_leverage=_leverage(own.wheelbase, own.overhang),
        rear_tyres=own.rear_tyres,
        tyre_lb=_lb(own.tyre),
        bed_length_in=_in(own.bed_length),
        bed_width_in=_in(own.bed_width),
        tow_lb=_lb(own.tow),
        hitch_lb=_lb(own.hitch),
        hitch_tongue_lb=_lb(own.hitch_tongue),
        ball_in=_in(own.ball),
        ball_lb=_lb(own.ball_rating),
        tie_downs=own.tie_downs,
        tie_down_lb=_lb(own.tie_down_rating),
    )


def _trailer(own: TrailerRatings) -> Trailer:
    return Trailer(
        gvwr_lb=_lb(own.gvwr),
        own_lb=_lb(own.own_weight),
        axles=own.axles,
        axle_lb=_lb(own.axle),
        tyres=own.tyres,
        tyre_lb=_lb(own.tyre),
        coupler_in=_in(own.coupler),
        coupler_lb=_lb(own.coupler_rating),
        chains_lb=_lb(own.chains),
        deck_length_in=_in(own.deck_length),
        deck_width_in=_in(own.deck_width),
        tie_downs=own.tie_downs,
        tie_down_lb=_lb(own.tie_down_rating),
    )


def _leverage(wheelbase: Figure | None, overhang: Figure | None) -> float | None:
    """How many times the tongue weight the rear axle feels: 1 + overhang / wheelbase, by moments about the front axle."""
    return None if wheelbase is None or overhang is None else 1 + overhang.value / wheelbase.value


def _lb(figure: Figure | None) -> float | None:
    return None if figure is None else round(figure.value / KG_PER_LB, CRUMBS)


def _in(figure: Figure | None) -> float | None:
    return None if figure is None else round(figure.value / MM_PER_IN, CRUMBS)
