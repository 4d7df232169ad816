"""Fetching it oneself: there empty and back loaded, with own hours, nights on the road, and every rating of the rig."""

from __future__ import annotations

from math import ceil
from typing import TYPE_CHECKING

from interchange.haul.limits import CAUTIONS, Limit, allowed, binding, limits, to_check
from interchange.haul.mend import mend
from interchange.haul.option import (
    MILES_NOT_KNOWN,
    OWN,
    HaulOption,
    Load,
    joined,
    permit_lines,
    priced,
    size_cautions,
    unpriced,
)
from interchange.haul.pallet import Line
from interchange.spread import Spread, exactly

if TYPE_CHECKING:
    from interchange.haul.rates import HaulRates, Rate
    from interchange.haul.rig import Rig

NO_RIG = "no own truck and trailer is stated"


def own_haul(load: Load, miles: Spread | None, rig: Rig | None, rates: HaulRates, own_hour: Rate) -> HaulOption:
    """There and back with one's own truck and trailer."""
    checked, may, why = may_carry(rig, load)
    cautions = CAUTIONS + size_cautions(load)
    if miles is None:
        return unpriced(OWN, joined(why, MILES_NOT_KNOWN), cautions, ruled_out=may is False, limits=checked)
    both_ways = miles.times(2.0)
    driving = driving_hours(both_ways, rates)
    hours = driving.plus(rates.own_loading.spread)
    words = f"{hours.likely:.1f} own hours, {driving.likely:.1f} of them at the wheel"
    lines = [
        mile_line(f"{both_ways.likely:.0f} miles, there empty and back loaded", both_ways, rig, rates),
        Line(
            words,
            hours.times(own_hour.spread),
            joined(rates.own_speed_mph.origin, rates.own_loading.origin, own_hour.origin),
        ),
    ]
    nights = Spread(*(float(max(0, ceil(each / rates.own_day.likely) - 1)) for each in driving))
    if nights.high:
        label = f"{nights.likely:.0f} nights on the road" if nights.likely else "perhaps a night on the road"
        label = label.replace("1 nights", "1 night")
        lines.append(Line(label, nights.times(rates.overnight.spread), rates.overnight.origin))
    lines += permit_lines(load, rates)
    days = nights.plus(exactly(1.0))
    return priced(OWN, lines, allowed=may, why=why, hours=hours, days=days, cautions=cautions, limits=checked)


def may_carry(rig: Rig | None, load: Load) -> tuple[tuple[Limit, ...], bool | None, str]:
    """Every limit of the rig, whether they all hold, and which one binds."""
    if rig is None:
        return (), False, NO_RIG
    checked = limits(rig, load.weight_lb, length_in=load.length_in, width_in=load.width_in)
    return checked, allowed(checked), _why(checked, rig, load.weight_lb)


def mile_line(label: str, miles: Spread, rig: Rig | None, rates: HaulRates, how_far: str = "") -> Line:
    """Miles driven, at the rig's own rate where it is known; ``how_far`` says where the miles come from."""
    mile = rig.cost_mile if rig and rig.cost_mile else rates.own_mile
    return Line(label, miles.times(mile.spread), joined(how_far, mile.origin))


def driving_hours(miles: Spread, rates: HaulRates) -> Spread:
    """Fast and short for the low end, slow and long for the high."""
    speed = rates.own_speed_mph
    return Spread(miles.low / speed.high, miles.likely / speed.likely, miles.high / speed.low)


def _why(checked: tuple[Limit, ...], rig: Rig, load_lb: float | None) -> str:
    """The broken or tightest limit in words, what would mend it, and what is to be checked."""
    tightest = binding(checked)
    words = ""
    if tightest is not None:
        figures = ""
        if tightest.load_lb is not None and tightest.rating_lb is not None:
            figures = f" {tightest.load_lb:.0f} lb of {tightest.rating_lb:.0f} lb"
        words = f"{'over' if tightest.ok is False else 'tightest'}: {tightest.name}{figures} ({tightest.note})"
    if tightest is not None and tightest.ok is False:
        return joined(words, f"to mend it: {mend(tightest, rig, load_lb)}")
    return joined(words, to_check(checked))
