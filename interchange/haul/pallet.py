"""Pallet freight (less than a truckload): class by density, carrying between known prices, then the adders."""

from __future__ import annotations

from math import exp, log
from typing import TYPE_CHECKING, Literal, NamedTuple

from interchange.errors import InputError
from interchange.spread import NOTHING, Spread, exactly, total

if TYPE_CHECKING:
    from interchange.haul.rates import DensityClass, HaulRates, LinehaulAnchor

End = Literal["not known", "dock", "terminal", "street", "house", "farm"]
"""What stands at one end: a dock or fork truck, the carrier's terminal, a business without either, a house, or a farm,
building site or storage yard."""

MIDDLE_CLASSES = (70.0, 85.0)
"""The classes that the known prices are for."""
CUBIC_INCHES_PER_FT3 = 1728.0
FEWEST_ANCHORS = 3


class Line(NamedTuple):
    """One line of a cost, and where its figures come from."""

    label: str
    cost: Spread
    origin: str


def density_lb_ft3(weight_lb: float, length_in: float, width_in: float, height_in: float) -> float:
    """Pounds per cubic foot of the packed load, pallet and all."""
    return weight_lb * CUBIC_INCHES_PER_FT3 / (length_in * width_in * height_in)


def freight_class(density: float, classes: tuple[DensityClass, ...]) -> float:
    """The class of a density in lb/ft³: the last row that it reaches."""
    reached = [row.freight_class for row in classes if density >= row.over_lb_ft3]
    if not reached:
        raise InputError(f"no freight class for {density:g} lb/ft3", "the first density class must begin at 0")
    return reached[-1]


def class_factor(freight: float, power: float) -> float:
    """Price against that of the middle classes: in proportion to the class above 85 and below 70. A judgement."""
    low, high = MIDDLE_CLASSES
    return float((freight / min(max(freight, low), high)) ** power)


def linehaul(weight_lb: float, miles: Spread, factor: Spread, anchors: tuple[LinehaulAnchor, ...]) -> Spread:
    """The carrying alone, in cents.

    Between and beyond the known prices the likely one goes as weight^a × miles^b, a and b fitted by least squares in
    logarithms and never below 0; low and high keep the widest ratio of any known price.
    """
    constant, by_weight, by_miles = _fit(anchors)
    low = min(anchor.price.low / anchor.price.likely for anchor in anchors)
    high = max(anchor.price.high / anchor.price.likely for anchor in anchors)
    carried = [exp(constant + by_weight * log(weight_lb) + by_miles * log(max(each, 1.0))) for each in miles]
    priced = Spread(carried[0] * low, carried[1], carried[2] * high)
    return priced.times(factor)


class Rated(NamedTuple):
    """What a load of known size is reckoned as: its own weight and class, or a heavier load of a denser class."""

    weight_lb: float
    freight_class: float


def cheapest_rated(
    weight_lb: float,
    density: float,
    miles: float,
    power: float,
    anchors: tuple[LinehaulAnchor, ...],
    classes: tuple[DensityClass, ...],
) -> Rated:
    """The cheapest of a load and every heavier one of the same size.

    Price in proportion to class falls where more weight makes a denser class; a shipper may add weight, so a load is
    never reckoned dearer than a heavier one in the same space. A judgement.
    """
    own = Rated(weight_lb, freight_class(density, classes))
    heavier = [Rated(weight_lb * row.over_lb_ft3 / density, row.freight_class) for row in classes if row.over_lb_ft3 > density]

    def price(rated: Rated) -> float:
        factor = exactly(class_factor(rated.freight_class, power))
        return linehaul(rated.weight_lb, exactly(miles), factor, anchors).likely

    return min([own, *heavier], key=price)


def pallet_lines(
    weight_lb: float, density: float | None, miles: Spread, ends: tuple[End, End], rates: HaulRates
) -> tuple[Line, ...]:
    """Every line of a pallet delivered: carrying, fuel, and what each end adds."""
    power, anchors = rates.class_power.likely, rates.linehaul_anchors
    rated_lb = weight_lb
    if density is None:
        classes = rates.class_unknown.spread
        words = f"class {classes.low:g} to {classes.high:g}: size not known"
    else:
        rated = cheapest_rated(weight_lb, density, miles.likely, power, anchors, rates.density_classes)
        classes, rated_lb = exactly(rated.freight_class), rated.weight_lb
        words = f"class {classes.likely:g}: {density:.1f} lb/ft³"
        if rated_lb > weight_lb:
            words = f"{density:.1f} lb/ft³, no dearer than {rated_lb:.0f} lb of class {classes.likely:g} in the same space"
    factor = Spread(*(class_factor(each, power) for each in classes))
    carried = linehaul(rated_lb, miles, factor, anchors).at_least(rates.linehaul_least.spread)
    origin = f"{len(anchors)} known prices ({anchors[0].price.origin})"
    if not _inside(weight_lb, miles.likely, anchors):
        origin += ", stretched beyond them: judgement"
    lines = [
        Line(f"carrying {weight_lb:.0f} lb, {words}", carried, origin),
        Line("fuel surcharge", carried.times(rates.fuel.spread), rates.fuel.origin),
    ]
    for where, end in zip(("collection", "delivery"), ends, strict=True):
        lines += _end_lines(where, end, rates)
    return tuple(lines)


def terminal_saving(end: End, rates: HaulRates) -> Spread:
    """What collecting it oneself at the carrier's terminal saves, against delivery to such an end."""
    return total(line.cost for line in _end_lines("delivery", end, rates))


def delivered(carried_cents: float, fuel_share: float, adders_cents: tuple[float, ...]) -> float:
    """The plain sum of one quote: carrying, fuel as a share of it, adders."""
    return carried_cents * (1 + fuel_share) + sum(adders_cents)


def _end_lines(where: str, end: End, rates: HaulRates) -> list[Line]:
    lift = Line(f"lift gate, {where}", rates.liftgate.spread, rates.liftgate.origin)
    house = Line(f"residential {where}", rates.residential.spread, rates.residential.origin)
    farm = Line(f"limited access, {where}", rates.limited_access.spread, rates.limited_access.origin)
    if end == "not known":
        dear = max(house.cost.high, farm.cost.high) + lift.cost.high
        unsure = Spread(NOTHING.low, farm.cost.likely + lift.cost.likely, dear)
        return [Line(f"{where}: what stands there is not known", unsure, "judgement: from nothing to the dearest")]
    return {"dock": [], "terminal": [], "street": [lift], "house": [lift, house], "farm": [lift, farm]}[end]


def _fit(anchors: tuple[LinehaulAnchor, ...]) -> tuple[float, float, float]:
    """Constant and exponents of weight and miles, through the likely prices."""
    if len(anchors) < FEWEST_ANCHORS:
        raise InputError(f"{len(anchors)} known freight prices are too few", "give three or more linehaul anchors")
    weights = [log(anchor.weight_lb) for anchor in anchors]
    miles = [log(anchor.miles) for anchor in anchors]
    prices = [log(anchor.price.likely) for anchor in anchors]
    many = len(anchors)
    mean_w, mean_m, mean_p = sum(weights) / many, sum(miles) / many, sum(prices) / many
    ww = sum((w - mean_w) ** 2 for w in weights)
    mm = sum((m - mean_m) ** 2 for m in miles)
    wm = sum((w - mean_w) * (m - mean_m) for w, m in zip(weights, miles, strict=True))
    wp = sum((w - mean_w) * (p - mean_p) for w, p in zip(weights, prices, strict=True))
    mp = sum((m - mean_m) * (p - mean_p) for m, p in zip(miles, prices, strict=True))
    spread = ww * mm - wm * wm
    if spread <= 1e-9 * max(ww * mm, 1e-9):
        raise InputError("the known freight prices are all of one weight or distance", "add one that differs in both")
    by_weight = max(0.0, (wp * mm - mp * wm) / spread)
    by_miles = max(0.0, (mp * ww - wp * wm) / spread)
    return mean_p - by_weight * mean_w - by_miles * mean_m, by_weight, by_miles


def _inside(weight_lb: float, miles: float, anchors: tuple[LinehaulAnchor, ...]) -> bool:
    weights = [anchor.weight_lb for anchor in anchors]
    distances = [anchor.miles for anchor in anchors]
    return min(weights) <= weight_lb <= max(weights) and min(distances) <= miles <= max(distances)
