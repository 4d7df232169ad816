"""What `haul` gives for programs: fetching one load, way by way. Money in dollars, weights in lb, sizes in inches."""

from __future__ import annotations

from typing import TYPE_CHECKING, TypedDict

from interchange.haul.freight import cheapest
from interchange.haul.limits import heaviest_lb
from interchange.haul.mend import mend

if TYPE_CHECKING:
    from interchange.haul.freight import HaulOption, Load
    from interchange.haul.hauler import Hauler
    from interchange.haul.limits import Limit
    from interchange.haul.rig import Rig
    from interchange.haul.way import Way
    from interchange.spread import Spread


class Range(TypedDict):
    """One in ten is less than low, one in ten more than high."""

    low: float
    likely: float
    high: float


class LineResult(TypedDict):
    """One line of what a way costs, in dollars."""

    label: str
    cost: Range
    origin: str


class LimitResult(TypedDict):
    """One rating of the rig against what this load puts on it; `holds` is None where it is not known or depends."""

    name: str
    rating_lb: float | None
    load_lb: float | None
    holds: bool | None
    note: str
    mend: str


class WayResult(TypedDict):
    """One way of fetching it. `cost` and `days` are None where they cannot be told, `allowed` where a check comes first."""

    mode: str
    allowed: bool | None
    why: str
    cost: Range | None
    hours: Range
    days: Range | None
    lines: list[LineResult]
    limits: list[LimitResult]
    cautions: list[str]


class RoadResult(TypedDict):
    """Road miles one way, about."""

    miles: Range
    how: str


class HaulResult(TypedDict):
    """What `haul` gives.

    `cheapest` is the mode that costs least among those allowed, `if_checked` the one that would if what has to be checked first
    holds; both None where there is none. `rig_carries_lb` is the heaviest load all ratings of the own rig surely hold for.
    """

    job: str
    what: str
    weight_lb: float | None
    size_in: list[float] | None
    home: str
    place: str
    road: RoadResult | None
    warnings: list[str]
    cheapest: str | None
    if_checked: str | None
    rig_carries_lb: float | None
    ways: list[WayResult]


def haul_result(hauler: Hauler, job: str, load: Load, way: Way, options: tuple[HaulOption, ...]) -> HaulResult:
    """Fetching one load from one place."""
    sure, perhaps = cheapest(options), cheapest(options, conditional=True)
    sides = [side for side in (load.length_in, load.width_in, load.height_in) if side is not None]
    road = way.road
    return {
        "job": job,
        "what": load.what,
        "weight_lb": None if load.weight_lb is None else round(load.weight_lb, 1),
        "size_in": [round(side, 2) for side in sides] or None,
        "home": f"{hauler.home.name}, {hauler.home.state}",
        "place": way.name,
        "road": None if road is None else {"miles": _range(road.low, road.likely, road.high, 1), "how": road.note},
        "warnings": [warning for warning in way.warnings if road is None or warning != road.note],
        "cheapest": sure.mode if sure else None,
        "if_checked": perhaps.mode if perhaps and perhaps != sure else None,
        "rig_carries_lb": heaviest_lb(hauler.rig) if hauler.rig else None,
        "ways": [_way(option, load, hauler.rig) for option in options],
    }


def _way(option: HaulOption, load: Load, rig: Rig | None) -> WayResult:
    return {
        "mode": option.mode,
        "allowed": option.allowed,
        "why": option.why,
        "cost": None if option.cost is None else _dollars(option.cost),
        "hours": _range(*option.hours),
        "days": None if option.days is None else _range(*option.days),
        "lines": [{"label": line.label, "cost": _dollars(line.cost), "origin": line.origin} for line in option.lines],
        "limits": [_limit(limit, rig, load.weight_lb) for limit in option.limits] if rig else [],
        "cautions": list(option.cautions),
    }


def _limit(limit: Limit, rig: Rig, load_lb: float | None) -> LimitResult:
    return {
        "name": limit.name,
        "rating_lb": None if limit.rating_lb is None else round(limit.rating_lb, 1),
        "load_lb": None if limit.load_lb is None else round(limit.load_lb, 1),
        "holds": limit.ok,
        "note": limit.note,
        "mend": mend(limit, rig, load_lb),
    }


def _dollars(spread: Spread) -> Range:
    return _range(spread.low / 100, spread.likely / 100, spread.high / 100)


def _range(low: float, likely: float, high: float, places: int = 2) -> Range:
    return {"low": round(low, places), "likely": round(likely, places), "high": round(high, places)}
