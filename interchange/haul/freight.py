"""Fetching a load, mode by mode: own rig, pallet freight, a hired hot-shot or heavy haul, or a quote in hand."""

from __future__ import annotations

from dataclasses import dataclass
from math import ceil
from typing import TYPE_CHECKING, NamedTuple

from interchange.errors import InputError
from interchange.haul.limits import CAUTIONS, allowed, binding, limits, to_check
from interchange.haul.mend import mend
from interchange.haul.pallet import End, Line, density_lb_ft3, pallet_lines, terminal_saving
from interchange.haul.rates import Money
from interchange.spread import NOTHING, Spread, total

if TYPE_CHECKING:
    from interchange.haul.limits import Limit
    from interchange.haul.rates import HaulRates, Rate
    from interchange.haul.rig import Rig
    from interchange.haul.road import RoadMiles

OWN, PALLET, HOT_SHOT, HEAVY, QUOTE = "own rig", "pallet freight", "hired hot-shot", "hired heavy haul", "quote"
HIRED = (PALLET, HOT_SHOT, HEAVY)
MILES_NOT_KNOWN = "the road miles are not known"
WEIGHT_NOT_KNOWN = "the weight is not known"
PERMIT_WIDTH_IN = 102.0
"""Wider loads need a permit on most roads: from memory."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Load:
    """What is to be fetched."""

    what: str
    """In words, for the lines of the bill."""
    weight_lb: float | None = None
    """Weight as it travels, pallet included; left out if not known."""
    on_pallet: bool = False
    """Whether it can travel on a pallet: an engine, a pump; not a whole machine."""
    length_in: float | None = None
    """Length as it travels, in inches."""
    width_in: float | None = None
    """Width as it travels, in inches."""
    height_in: float | None = None
    """Height as it travels, in inches."""
    collection: End = "not known"
    """What stands at the seller's."""
    delivery: End = "not known"
    """What stands at home."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Quote:
    """A price somebody gave for this haul. It takes the place of the model."""

    price: Money
    """What was asked, all in."""
    mode: str = ""
    """Which mode it is for; left out, it stands for every hired way."""
    said_by: str = ""
    """Who gave it."""
    on: str = ""
    """When."""


class HaulOption(NamedTuple):
    """One way to fetch it. `cost` is None where it cannot be told, `allowed` where something must be checked first.

    `hours` are one's own. Unloading at home is not reckoned in any mode.
    """

    mode: str
    cost: Spread | None
    hours: Spread
    allowed: bool | None
    why: str
    lines: tuple[Line, ...]
    cautions: tuple[str, ...]


def haul_options(
    load: Load,
    road: RoadMiles | None,
    rig: Rig | None,
    rates: HaulRates,
    quote: Quote | None = None,
    *,
    own_hour: Rate,
) -> tuple[HaulOption, ...]:
    """Every mode, cheapest likely cost first, those without a cost last.

    `road` is None where the miles are not known or no road leads; `own_hour` is what an own hour is worth, in cents.
    """
    miles = None if road is None else Spread(road.low, road.likely, road.high)
    modes = [_own(load, miles, rig, rates, own_hour), _pallet(load, miles, rates)]
    modes += [_hot_shot(load, miles, rates), _heavy(load, miles, rates)]
    if quote is not None:
        modes = [_outdone(option, quote) for option in modes]
        modes.append(_quoted(quote))
    return tuple(sorted(modes, key=lambda option: (option.cost is None, option.cost.likely if option.cost else 0.0)))


def cheapest(options: tuple[HaulOption, ...], *, conditional: bool = False) -> HaulOption | None:
    """The cheapest mode that is allowed, or with `conditional` one that needs a check first; None if there is none."""
    for option in options:
        if option.cost is not None and (option.allowed or (conditional and option.allowed is None)):
            return option
    return None


def _own(load: Load, miles: Spread | None, rig: Rig | None, rates: HaulRates, own_hour: Rate) -> HaulOption:
    """There empty and back loaded, with own hours, and nights on the road if the driving is too long for a day."""
    if rig is None:
        may: bool | None = False
        why = "no own truck and trailer is stated"
    else:
        checked = limits(rig, load.weight_lb, length_in=load.length_in, width_in=load.width_in)
        may, why = allowed(checked), _why(checked, rig, load.weight_lb)
    cautions = CAUTIONS + _wide(load)
    if miles is None:
        return _unpriced(OWN, _and(why, MILES_NOT_KNOWN), cautions, ruled_out=may is False)
    mile = rig.cost_mile if rig and rig.cost_mile else rates.own_mile
    both_ways = miles.times(2.0)
    driving = _driving_hours(both_ways, rates.own_speed_mph)
    hours = driving.plus(rates.own_loading.spread)
    lines = [
        Line(f"{both_ways.likely:.0f} miles both ways", both_ways.times(mile.spread), mile.origin),
        Line(f"{hours.likely:.1f} own hours", hours.times(own_hour.spread), own_hour.origin),
    ]
    nights = Spread(*(float(max(0, ceil(each / rates.own_day.likely) - 1)) for each in driving))
    if nights.high:
        label = f"{nights.likely:.0f} nights on the road" if nights.likely else "perhaps a night on the road"
        lines.append(Line(label, nights.times(rates.overnight.spread), rates.overnight.origin))
    return HaulOption(OWN, _sum(lines), hours, may, why, tuple(lines), cautions)


def _pallet(load: Load, miles: Spread | None, rates: HaulRates) -> HaulOption:
    cautions = ["An engine must be drained and clean, strapped down, and its openings closed."]
    may, why = _pallet_allowed(load, rates)
    if miles is None or load.weight_lb is None:
        missing = MILES_NOT_KNOWN if miles is None else WEIGHT_NOT_KNOWN
        return _unpriced(PALLET, _and(why, missing), tuple(cautions), ruled_out=may is False)
    density = None
    if load.length_in and load.width_in and load.height_in:
        density = density_lb_ft3(load.weight_lb, load.length_in, load.width_in, load.height_in)
    lines = pallet_lines(load.weight_lb, density, miles, (load.collection, load.delivery), rates)
    if load.delivery != "dock" and load.weight_lb > rates.liftgate_most.likely:
        most = f"{rates.liftgate_most.likely:.0f} lb"
        cautions.append(f"Over {most} a lift gate may not take it: a fork truck, or the terminal.")
    saving = terminal_saving(load.delivery, rates)
    if saving.high:
        cautions.append(f"Collected at the carrier's terminal it may cost ${saving.likely / 100:.0f} less.")
    return HaulOption(PALLET, _sum(lines), NOTHING, may, why, lines, tuple(cautions))


def _pallet_allowed(load: Load, rates: HaulRates) -> tuple[bool | None, str]:
    most_lb = rates.pallet_most.likely
    if not load.on_pallet:
        return False, "it does not go on a pallet"
    if load.weight_lb is None:
        return None, ""
    if load.weight_lb > most_lb:
        return False, f"{load.weight_lb:.0f} lb is over the {most_lb:.0f} lb of a single pallet"
    return True, f"{load.weight_lb:.0f} lb of {most_lb:.0f} lb"


def _hot_shot(load: Load, miles: Spread | None, rates: HaulRates) -> HaulOption:
    """A minimum charge or the loaded miles, whichever is more."""
    most_lb = rates.hot_shot_most.likely
    if load.weight_lb is None:
        may, why = None, WEIGHT_NOT_KNOWN
    else:
        may = load.weight_lb <= most_lb
        why = f"{load.weight_lb:.0f} lb {'of' if may else 'is over'} {most_lb:.0f} lb"
    if miles is None:
        return _unpriced(HOT_SHOT, _and(why, MILES_NOT_KNOWN), _wide(load), ruled_out=may is False)
    cost = miles.times(rates.hot_shot_mile.spread).at_least(rates.hot_shot_least.spread)
    line = Line(f"{miles.likely:.0f} loaded miles, with a least charge", cost, rates.hot_shot_mile.origin)
    return HaulOption(HOT_SHOT, cost, NOTHING, may, why, (line,), _wide(load))


def _heavy(load: Load, miles: Spread | None, rates: HaulRates) -> HaulOption:
    """The first miles at one rate and those beyond at a lower one, so that a mile more never costs less."""
    why = "takes what the others cannot"
    if miles is None:
        return _unpriced(HEAVY, MILES_NOT_KNOWN, _wide(load), ruled_out=False)
    near_mi = rates.heavy_near.likely
    near = Spread(*(min(each, near_mi) for each in miles)).times(rates.heavy_mile.spread)
    far = Spread(*(max(0.0, each - near_mi) for each in miles)).times(rates.heavy_far_mile.spread)
    cost = near.plus(far).at_least(rates.heavy_least.spread)
    origin = rates.heavy_mile.origin
    if far.likely:
        origin += f"; beyond {near_mi:.0f} miles {rates.heavy_far_mile.origin}"
    line = Line(f"{miles.likely:.0f} loaded miles, with a least charge", cost, origin)
    return HaulOption(HEAVY, cost, NOTHING, True, why, (line,), _wide(load))


def _quoted(quote: Quote) -> HaulOption:
    if quote.mode and quote.mode not in HIRED:
        raise InputError(f"a quote for {quote.mode!r}", f"it can be for {', '.join(HIRED)}, or say no mode")
    said = " ".join(part for part in (quote.said_by, quote.on) if part)
    cost = quote.price.spread
    line = Line(quote.mode or "the whole haul", cost, f"quote: {said}" if said else "quote")
    caution = "Ask what it leaves out, and until when it holds."
    return HaulOption(QUOTE, cost, NOTHING, True, "a quote in hand", (line,), (caution,))


def _outdone(option: HaulOption, quote: Quote) -> HaulOption:
    """A modelled price that a quote for the same mode takes the place of."""
    if option.mode == quote.mode or (not quote.mode and option.mode in HIRED):
        return option._replace(allowed=False, why="a quote in hand takes its place")
    return option


def _driving_hours(miles: Spread, speed_mph: Rate) -> Spread:
    """Fast and short for the low end, slow and long for the high."""
    return Spread(miles.low / speed_mph.high, miles.likely / speed_mph.likely, miles.high / speed_mph.low)


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
        return _and(words, f"to mend it: {mend(tightest, rig, load_lb)}")
    return _and(words, to_check(checked))


def _wide(load: Load) -> tuple[str, ...]:
    if load.width_in is not None and load.width_in > PERMIT_WIDTH_IN:
        return ("Wider than 8 ft 6 in: a permit is needed on most roads (from memory; the state decides).",)
    return ()


def _unpriced(mode: str, why: str, cautions: tuple[str, ...], *, ruled_out: bool) -> HaulOption:
    """Without a cost nothing is allowed yet; what is ruled out stays so."""
    return HaulOption(mode, None, NOTHING, False if ruled_out else None, why, (), cautions)


def _sum(lines: list[Line] | tuple[Line, ...]) -> Spread:
    return total(line.cost for line in lines)


def _and(*parts: str) -> str:
    return "; ".join(part for part in parts if part)
