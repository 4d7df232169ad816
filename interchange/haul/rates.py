"""What hauling costs: the editable figures behind the models of freight, each with where it comes from.

A figure becomes a `Rate`; the dimension it is written in stands beside it (`Money`, `Share` …) as an annotation. The
catalog's table of the same field names, figures and all, is turned into `HaulRates` by `haul_rates`.
"""

from __future__ import annotations

from dataclasses import dataclass, fields
from typing import TYPE_CHECKING, Annotated, Any

from interchange.errors import InputError
from interchange.spread import Spread

if TYPE_CHECKING:
    from interchange.catalog.figure import Figure

KG_PER_LB = 0.45359237


@dataclass(frozen=True, slots=True, kw_only=True)
class Rate:
    """One editable figure: a single value has low = likely = high, a bare range its likely value in the middle."""

    low: float
    """The low end, in the base unit of its dimension."""
    likely: float
    """The likely value."""
    high: float
    """The high end."""
    basis: str
    """published, measured, said, heard, judgement or memory."""
    source: str = ""
    """Where it was read, or "common practice, no source"."""

    @property
    def spread(self) -> Spread:
        """The bare figures."""
        return Spread(self.low, self.likely, self.high)

    @property
    def origin(self) -> str:
        """Basis and source in words, for a line of a bill."""
        return ": ".join(filter(None, (self.basis, self.source)))


Money = Annotated[Rate, "money"]
PerMile = Annotated[Rate, "rate_mile"]
Share = Annotated[Rate, "share"]
Hours = Annotated[Rate, "hours"]
Count = Annotated[Rate, "count"]
Mass = Annotated[Rate, "mass"]
Distance = Annotated[Rate, "distance"]
Days = Annotated[Rate, "days"]
"""The dimension a figure is written in. Money in cents, hours in h, distance in mi; mass is handed over in lb."""


@dataclass(frozen=True, slots=True, kw_only=True)
class DensityClass:
    """Freight class by density, as published in 2025."""

    over_lb_ft3: float
    """From this density on, in pounds per cubic foot of the packed load."""
    freight_class: float
    """The class."""


@dataclass(frozen=True, slots=True, kw_only=True)
class LinehaulAnchor:
    """One known price of carrying pallet freight, without adders, for a load of the middle classes (70 to 85)."""

    weight_lb: float
    """Weight carried, in pounds."""
    miles: float
    """Road miles."""
    price: Money
    """What was charged, as a range."""


@dataclass(frozen=True, slots=True, kw_only=True)
class HaulRates:
    """Every figure that the models of hauling use. All can be overridden."""

    own_mile: PerMile
    """Own truck and trailer, a mile driven, fuel and wear together."""
    own_speed_mph: Count
    """Average speed of the rig over a whole trip, in miles an hour."""
    own_loading: Hours
    """Hours at the seller's to load and tie down."""
    own_day: Hours
    """Hours of driving after which one stops for the night."""
    overnight: Money
    """One night on the road."""
    wide_load: Money
    """Permits for a load wider than 8 ft 6 in."""
    density_classes: tuple[DensityClass, ...]
    """Freight classes by density, in rising order of density."""
    class_unknown: Count
    """Freight class of machinery on a pallet whose size is not known, from the densest likely to the bulkiest."""
    class_power: Share
    """How strongly price goes with class outside 70 to 85: 1 means in proportion."""
    linehaul_anchors: tuple[LinehaulAnchor, ...]
    """Known prices between which the carrying is interpolated; three or more, not all of one weight or distance."""
    linehaul_least: Money
    """The least a carrier asks for carrying a pallet, before adders."""
    fuel: Share
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
    hot_shot_mile: PerMile
    """Hired hot-shot, a loaded mile."""
    hot_shot_least: Money
    """The least a hot-shot asks."""
    hot_shot_wait: Days
    """Days until a hot-shot is free."""
    hot_shot_most: Mass
    """The heaviest load for a hot-shot trailer."""
    heavy_mile: PerMile
    """Heavy haul, a mile, for the first miles."""
    heavy_near: Distance
    """How many miles are charged at the first rate."""
    heavy_far_mile: PerMile
    """Heavy haul, each mile beyond that."""
    heavy_least: Money
    """The least a heavy haul asks."""
    heavy_wait: Days
    """Days until a heavy haul is free, permits included."""
    hired_day: Distance
    """How far a hired driver gets in a day."""


def rate_of(figure: Figure, otherwise: str = "") -> Rate:
    """A catalog figure as a plain rate: cents, hours, miles, shares; a mass in pounds.

    ``otherwise`` is the source of a figure that names neither basis nor source.
    """
    quantity = figure.quantity
    if quantity is None:
        raise InputError("a rate must be a figure", "write an amount, or a range such as $200-400")
    per = 1 / KG_PER_LB if quantity.dimension == "mass" else 1.0
    low = quantity.value if quantity.low is None else quantity.low
    high = quantity.value if quantity.high is None else quantity.high
    return Rate(
        low=round(low * per, 6),
        likely=round(quantity.value * per, 6),
        high=round(high * per, 6),
        basis=figure.origin.basis,
        source=figure.origin.source or ("" if figure.origin.basis else otherwise),
    )


def haul_rates(table: Any) -> HaulRates:  # noqa: ANN401 - any object with these fields, so that catalog need not know haul
    """The rates of a catalog table whose fields have the names of `HaulRates`.

    Rows of `density_classes` have `a_cubic_foot` (a mass) and `freight_class` (a name that is a number, such as 92.5),
    rows of `linehaul_anchors` the figures `weight`, `distance` and `price`.
    """
    rows = ("density_classes", "linehaul_anchors")
    names = (field.name for field in fields(HaulRates) if field.name not in rows)
    given: dict[str, Any] = {name: rate_of(getattr(table, name)) for name in names}
    given["density_classes"] = tuple(
        DensityClass(over_lb_ft3=rate_of(row.a_cubic_foot).likely, freight_class=float(row.freight_class))
        for row in table.density_classes
    )
    given["linehaul_anchors"] = tuple(
        LinehaulAnchor(weight_lb=rate_of(row.weight).likely, miles=rate_of(row.distance).likely, price=rate_of(row.price))
        for row in table.linehaul_anchors
    )
    return HaulRates(**given)
