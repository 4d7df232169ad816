"""What the home file says: where one lives, what one hauls with, what an hour and a day are worth, where the catalogs are."""

from __future__ import annotations

import dataclasses
from collections.abc import Mapping
from dataclasses import dataclass, field
from pathlib import Path
from typing import Annotated

from interchange.catalog.decode import Bad, Reader, record
from interchange.catalog.figure import NO_ORIGIN, NOWHERE, Figure, Origin, Where
from interchange.catalog.folders import read_text, shown_name
from interchange.catalog.model import Days, Id, Length, Mass, Money, Number, Share
from interchange.catalog.nodes import Node, read_nodes
from interchange.catalog.rates import DayRate, HourRate, MileRate, Part
from interchange.errors import FileProblemsError, InputError, Problem
from interchange.job.currency import Currencies
from interchange.job.dead import DeadUnit

Ratio = Annotated[Figure, "count"]


@dataclass(frozen=True, slots=True, kw_only=True)
class VehicleRatings:
    """The truck's ratings, from its plates and papers. Leave out what is not known: nothing is assumed."""

    gvwr: Mass | None = None
    """The most the truck may weigh, tongue weight included."""
    gcwr: Mass | None = None
    """The most truck and trailer may weigh together."""
    curb: Mass | None = None
    """Weight of the empty truck with full tanks."""
    aboard: Mass | None = None
    """People, tools and boxes aboard on such a trip."""
    payload: Mass | None = None
    """The most it may carry, from the sticker."""
    rear_axle: Mass | None = None
    """Rating of the rear axle."""
    rear_axle_own: Mass | None = None
    """What the rear axle bears without a trailer, from a scale."""
    wheelbase: Length | None = None
    """From axle to axle: with the overhang it tells how the tongue bears on the rear axle."""
    overhang: Length | None = None
    """From the rear axle to the ball."""
    rear_tyres: Number | None = None
    """How many tyres the rear axle has: 2 or 4."""
    tyre: Mass | None = None
    """What each of them is rated for at the pressure it has, from its sidewall."""
    bed_length: Length | None = None
    """Length of the bed."""
    bed_width: Length | None = None
    """Width of the bed between the wheel wells."""
    tow: Mass | None = None
    """The heaviest loaded trailer the maker allows."""
    hitch: Mass | None = None
    """The heaviest loaded trailer the hitch is stamped for."""
    hitch_tongue: Mass | None = None
    """The most tongue weight the hitch is stamped for."""
    ball: Length | None = None
    """Diameter of the ball."""
    ball_rating: Mass | None = None
    """The rating stamped on the ball."""
    tie_downs: Number | None = None
    """Chains or straps for a load in the bed."""
    tie_down_rating: Mass | None = None
    """Working load of each of them."""


@dataclass(frozen=True, slots=True, kw_only=True)
class TrailerRatings:
    """The trailer's ratings, from its plate. Leave out what is not known."""

    gvwr: Mass | None = None
    """The most the trailer may weigh, itself included."""
    own_weight: Mass | None = None
    """Weight of the empty trailer."""
    axles: Number | None = None
    """How many axles it has."""
    axle: Mass | None = None
    """The rating of each of them."""
    tyres: Number | None = None
    """How many tyres stand on the road."""
    tyre: Mass | None = None
    """What each of them is rated for at the pressure it has, from its sidewall."""
    coupler: Length | None = None
    """Ball size of the coupler."""
    coupler_rating: Mass | None = None
    """The rating stamped on the coupler."""
    chains: Mass | None = None
    """Breaking load of the safety chains."""
    deck_length: Length | None = None
    """Length of the deck."""
    deck_width: Length | None = None
    """Width between the fenders, or of the deck if it is above the wheels."""
    tie_downs: Number | None = None
    """How many chains or straps there are."""
    tie_down_rating: Mass | None = None
    """Working load of each of them."""


@dataclass(frozen=True, slots=True, kw_only=True)
class OwnRig:
    """What one hauls with."""

    vehicle: VehicleRatings
    """The truck."""
    trailer: TrailerRatings | None = None
    """The trailer; without one the load goes in the bed."""
    cost_mile: MileRate | None = None
    """What a mile driven costs, if better known than the general rate."""


@dataclass(frozen=True, slots=True, kw_only=True)
class OwnRates:
    """What one's own time and waiting are worth; what is left out comes from the trade's defaults."""

    own_hour: HourRate | None = None
    """What an own hour in the shop is worth."""
    hold_day: DayRate | None = None
    """What a day of the machine standing costs."""
    driving_hour: HourRate | None = None
    """What an hour at the wheel is worth; the shop hour where left out."""
    currency: Currencies = field(default_factory=Currencies)
    """Dollars for one of another currency, by its code: EUR: 1.08. Without one a price asked in it is not known."""
    selling_fee: Part | None = None
    """What selling leftovers costs, as a share of the price."""
    discount_month: Part | None = None
    """What money is worth less for coming a month later, as a share."""
    scrap_ton: Money | None = None
    """What a short ton of machine brings at the yard."""
    sales_tax: Part | None = None
    """Sales tax on what is bought."""
    shop_queue: Days | None = None
    """How long one's machine shop lets one wait, from one in ten to one in ten."""
    wait: Days | None = None
    """How long one would wait for something better to turn up."""


@dataclass(frozen=True, slots=True, kw_only=True)
class OnHand:
    """A machine that stands at home and might give what another needs."""

    machine: Id
    """The machine."""
    title: str = ""
    """What to call it."""
    fetches: Money | None = None
    """What it would fetch as it stands; left out, what it gives up is not known."""
    units: Mapping[str, Id] = field(default_factory=dict)
    """Seat to the unit (or unit.variant) in it; left out, whatever came fitted."""
    dead: Mapping[str, DeadUnit] = field(default_factory=dict)
    """Seat to what is dead in it."""
    good: Share | None = None
    """Chance that a unit not called dead is good; left out, that of a used unit nothing is said of."""
    origin: Origin = NO_ORIGIN
    where: Where = NOWHERE


@dataclass(frozen=True, slots=True, kw_only=True)
class Home:
    """One person's home file."""

    place: str
    """Town and state, or ZIP: distances are reckoned from here."""
    catalog: tuple[str, ...] = ()
    """Folders of one's own catalog, beside this file."""
    rates: OwnRates = OwnRates()
    """What time and waiting are worth."""
    rig: OwnRig | None = None
    """What one hauls with."""
    at_home: Annotated[str, ("dock", "street", "house", "farm")] = ""
    """What stands where freight is delivered: a dock or fork truck, a business without either, a house, or a farm."""
    on_hand: Mapping[str, OnHand] = field(default_factory=dict)
    """Machines that stand at home, by a word for each."""
    part_out: bool = True
    """Whether what is left of a donor machine is sold by part."""
    altitude: Length | None = None
    """How high above the sea the machine works. Left out, ratings are compared as they are written."""
    folder: str = ""
    origin: Origin = NO_ORIGIN
    where: Where = NOWHERE

    @property
    def catalog_folders(self) -> tuple[Path, ...]:
        """One's own catalog folders."""
        return tuple(Path(self.folder) / Path(name).expanduser() for name in self.catalog)


def read_one(cls: type, path: Path) -> tuple[object | None, Node | None, list[Problem]]:
    """A file that is one record: the record, its node and its problems."""
    name = shown_name(path)
    root, problems = read_nodes(read_text(path), name)
    if root is None:
        return None, None, problems or [Problem(name, 1, 1, "empty", "nothing is written here", "see the guide")]
    reader = Reader(name)
    value = record(cls, root, reader)
    return (None if isinstance(value, Bad) else value), root, sorted(problems + reader.problems)


def read_home(path: Path) -> Home:
    """A home file. Raises InputError where it is not there, FileProblemsError where it has faults."""
    if not path.is_file():
        raise InputError(f"there is no home file {shown_name(path)}", "interchange start FOLDER makes one to try")
    value, _, problems = read_one(Home, path)
    if problems or not isinstance(value, Home):
        raise FileProblemsError(tuple(problems))
    return dataclasses.replace(value, folder=str(path.parent))
