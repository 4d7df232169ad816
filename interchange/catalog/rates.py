"""Rates a bill is made of, as the catalog keeps them: one table for each id in the room called rates."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Annotated

from interchange.catalog.figure import NO_ORIGIN, NOWHERE, Figure, Origin, Where
from interchange.catalog.model import Count, Days, Hours, Likelihood, Mass, Money, Share

HourRate = Annotated[Figure, "rate_hour"]
DayRate = Annotated[Figure, "rate_day"]
MileRate = Annotated[Figure, "rate_mile"]
Amount = Annotated[Figure, "count"]
Part = Annotated[Figure, "share"]
Distance = Annotated[Figure, "distance"]
WaitDays = Annotated[Figure, "days"]


@dataclass(frozen=True, slots=True, kw_only=True)
class WorkRates:
    """What time and doubt cost, where the home file says nothing."""

    id: str = ""
    own_hour: HourRate
    """What an own hour is worth."""
    hold_day: DayRate
    """What a day of the machine standing costs."""
    lost_try: Money
    """What a try that fails is taken to cost while plans are compared, when its price and haul are not known yet."""
    deal: Share | None = None
    """What a price not called firm comes down to, as a share of the asked."""
    deal_low: Share | None = None
    """The best that can be hoped for, as a share of the asked."""
    shop_queue: WaitDays | None = None
    """How long a machine shop lets one wait, from one in ten to one in ten; it has a long tail."""
    wait: WaitDays | None = None
    """How long one would wait for something better to turn up."""
    good_unit: Share | None = None
    """Chance that a used unit about which nothing is said needs no internal work."""
    origin: Origin = NO_ORIGIN
    where: Where = NOWHERE


@dataclass(frozen=True, slots=True, kw_only=True)
class SilenceRates:
    """What a question that was asked and not answered says of a unit."""

    id: str = ""
    ratio: Likelihood
    """How much oftener a question stays unanswered for a unit that needs no internal work than for one that does."""
    most: Count
    """How many questions count: more of them are one seller who does not answer."""
    after: Days
    """How long to wait for an answer before it counts."""
    origin: Origin = NO_ORIGIN
    where: Where = NOWHERE


@dataclass(frozen=True, slots=True, kw_only=True)
class SellingRates:
    """What selling brings and takes, where the home file says nothing."""

    id: str = ""
    fee: Part
    """What selling costs, as a share of the price."""
    discount_month: Part
    """What money is worth less for coming a month later, as a share."""
    scrap_ton: Money
    """What a short ton of machine brings at the yard, as it stands."""
    sales_tax: Part
    """Sales tax on the price of what is bought."""
    kept_back: Part
    """What a supplier keeps of the price of a new part sent back unused, freight with it."""
    opened_brings: Part
    """What a new part that was opened still brings, as a share of its price."""
    origin: Origin = NO_ORIGIN
    where: Where = NOWHERE


@dataclass(frozen=True, slots=True, kw_only=True)
class AskingRates:
    """What becomes of questions to sellers."""

    id: str = ""
    none: Share
    """How often there is no answer."""
    none_tape: Share
    """How often there is none where something has to be measured."""
    wrong_photo: Share
    """How often an answer by photo or plate is taken wrong."""
    wrong_tape: Share
    """How often one by tape is wrong."""
    wrong_word: Share
    """How often one by word is wrong."""
    origin: Origin = NO_ORIGIN
    where: Where = NOWHERE


@dataclass(frozen=True, slots=True, kw_only=True)
class DensityRow:
    """One freight class by density."""

    a_cubic_foot: Mass
    """What a cubic foot of the packed load weighs at least."""
    freight_class: str
    """The class: a number, such as 92.5."""


@dataclass(frozen=True, slots=True, kw_only=True)
class AnchorRow:
    """One known price of carrying pallet freight."""

    weight: Mass
    """Weight carried."""
    distance: Distance
    """Road miles."""
    price: Money
    """What was charged, as a range."""


@dataclass(frozen=True, slots=True, kw_only=True)
class HaulTable:
    """What hauling costs, where the home file and a quote say nothing."""

    id: str = ""
    own_mile: MileRate
    """Own truck and trailer, a mile driven, fuel and wear together."""
    own_speed_mph: Amount
    """Average speed of the rig over a whole trip, in miles an hour."""
    own_loading: Hours
    """Hours at the seller's to load and tie down."""
    own_day: Hours
    """Hours of driving after which one stops for the night."""
    overnight: Money
    """One night on the road."""
    wide_load: Money
    """Permits for a load wider than 8 ft 6 in."""
    density_classes: tuple[DensityRow, ...]
    """Freight classes by density, in rising order of density."""
    class_unknown: Amount
    """Freight class of machinery on a pallet whose size is not known, from the densest likely to the bulkiest."""
    class_power: Part
    """How strongly price goes with class outside 70 to 85: 1 means in proportion."""
    linehaul_anchors: tuple[AnchorRow, ...]
    """Known prices between which the carrying is interpolated; three or more, not all of one weight or distance."""
    linehaul_least: Money
    """The least a carrier asks for carrying a pallet, before adders."""
    fuel: Part
    """Fuel surcharge, as a share of the carrying."""
    liftgate: Money
    """Lift gate, for each end without a dock or fork truck."""
    residential: Money
    """Delivery to or collection from a house."""
    limited_access: Money
    """A farm, building site or storage yard."""
    pallet_most: Mass
    """The heaviest single pallet that is taken as pallet freight."""
    liftgate_most: Mass
    """The heaviest pallet that a lift gate takes."""
    draining: Hours
    """Hours to drain and clean what goes by pallet freight and to close its openings."""
    crating: Hours
    """Hours to set it on a pallet, brace it and strap it."""
    crate: Money
    """Pallet, lumber, straps and wrap."""
    terminal_away: Distance
    """How far the carrier's terminal is from home."""
    terminal_time: Hours
    """Hours at the terminal to wait and load."""
    pallet_wait: Days
    """Days until a pallet is collected, and at rest in terminals."""
    pallet_day: Distance
    """How far a pallet gets in a day."""
    hot_shot_mile: MileRate
    """Hired hot-shot, a loaded mile."""
    hot_shot_least: Money
    """The least a hot-shot asks."""
    hot_shot_wait: Days
    """Days until a hot-shot is free."""
    hot_shot_most: Mass
    """The heaviest load for a hot-shot trailer."""
    heavy_mile: MileRate
    """Heavy haul, a mile, for the first miles."""
    heavy_near: Distance
    """How many miles are charged at the first rate."""
    heavy_far_mile: MileRate
    """Heavy haul, each mile beyond that."""
    heavy_least: Money
    """The least a heavy haul asks."""
    heavy_wait: Days
    """Days until a heavy haul is free, permits included."""
    hired_day: Distance
    """How far a hired driver gets in a day."""
    origin: Origin = NO_ORIGIN
    where: Where = NOWHERE


RATE_TABLES: dict[str, type] = {
    "work": WorkRates, "selling": SellingRates, "haul": HaulTable, "silence": SilenceRates, "asking": AskingRates,
}  # fmt: skip
