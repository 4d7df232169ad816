"""Having it fetched: pallet freight to the door or to a terminal, a hot-shot, heavy haul, or a quote in hand."""

from __future__ import annotations

from typing import TYPE_CHECKING

from interchange.errors import InputError
from interchange.haul.option import (
    HEAVY,
    HIRED,
    HOT_SHOT,
    MILES_NOT_KNOWN,
    PALLET,
    QUOTE,
    TERMINAL,
    WEIGHT_NOT_KNOWN,
    HaulOption,
    Load,
    Quote,
    days_on_the_way,
    joined,
    permit_lines,
    priced,
    size_cautions,
    unpriced,
)
from interchange.haul.own import driving_hours, may_carry, mile_line
from interchange.haul.pallet import Line, density_lb_ft3, pallet_lines, terminal_saving
from interchange.spread import Spread

if TYPE_CHECKING:
    from interchange.haul.pallet import End
    from interchange.haul.rates import HaulRates, Rate
    from interchange.haul.rig import Rig

DRAINED = "An engine must be drained and clean, strapped down, and its openings closed."
WHO_CRATES = "Draining and crating are reckoned at your own hour: ask what the seller wants for it."
WAY_BACK = "Ask whether the way back empty is in the price, and whether driver and load are insured."


def pallet(load: Load, miles: Spread | None, rates: HaulRates, own_hour: Rate) -> HaulOption:
    """Pallet freight to the door: draining and crating, carrying, fuel, and what each end adds."""
    may, why = _pallet_allowed(load, rates)
    cautions: tuple[str, ...] = (DRAINED, WHO_CRATES)
    if miles is None or load.weight_lb is None:
        missing = MILES_NOT_KNOWN if miles is None else WEIGHT_NOT_KNOWN
        return unpriced(PALLET, joined(why, missing), cautions, ruled_out=may is False)
    lines = [*_freight(load, load.weight_lb, load.delivery, miles, rates), *_prepared(rates, own_hour)]
    if load.delivery != "dock" and load.weight_lb > rates.liftgate_most.likely:
        most = f"{rates.liftgate_most.likely:.0f} lb"
        cautions += (f"Over {most} a lift gate may not take it: a fork truck, or the terminal.",)
    saving = terminal_saving(load.delivery, rates)
    if saving.high:
        cautions += (f"Collected at the carrier's terminal the freight itself may cost ${saving.likely / 100:.0f} less.",)
    days = days_on_the_way(miles, rates.pallet_day, rates.pallet_wait)
    return priced(PALLET, lines, allowed=may, why=why, hours=_preparing(rates), days=days, cautions=cautions)


def terminal(load: Load, miles: Spread | None, rig: Rig | None, rates: HaulRates, own_hour: Rate) -> HaulOption:
    """Pallet freight to the carrier's terminal, and home from there oneself: no lift gate and no house at this end."""
    may, why = _pallet_allowed(load, rates)
    checked, carries, tightest = may_carry(rig, load)
    cautions = (DRAINED, WHO_CRATES, "Ask the carrier which terminal it is, and by when it must be gone.")
    if may is not False:
        may = False if carries is False else may and carries
        why = joined(why, tightest if rig is None or carries is not True else "")
    if miles is None or load.weight_lb is None:
        missing = MILES_NOT_KNOWN if miles is None else WEIGHT_NOT_KNOWN
        return unpriced(TERMINAL, joined(why, missing), cautions, ruled_out=may is False, limits=checked)
    away = rates.terminal_away.spread.times(2.0)
    hours = driving_hours(away, rates).plus(rates.terminal_time.spread)
    lines = [*_freight(load, load.weight_lb, "terminal", miles, rates), *_prepared(rates, own_hour)]
    lines.append(mile_line(f"{away.likely:.0f} miles to the terminal and back", away, rig, rates, rates.terminal_away.origin))
    origin = joined(rates.own_speed_mph.origin, rates.terminal_time.origin, own_hour.origin)
    lines.append(Line(f"{hours.likely:.1f} own hours for it", hours.times(own_hour.spread), origin))
    days = days_on_the_way(miles, rates.pallet_day, rates.pallet_wait)
    all_hours = _preparing(rates).plus(hours)
    return priced(TERMINAL, lines, allowed=may, why=why, hours=all_hours, days=days, cautions=cautions, limits=checked)


def hot_shot(load: Load, miles: Spread | None, rates: HaulRates) -> HaulOption:
    """A minimum charge or the loaded miles, whichever is more."""
    most_lb = rates.hot_shot_most.likely
    if load.weight_lb is None:
        may, why = None, WEIGHT_NOT_KNOWN
    else:
        may = load.weight_lb <= most_lb
        why = f"{load.weight_lb:.0f} lb {'of' if may else 'is over'} {most_lb:.0f} lb"
    cautions = (WAY_BACK, *size_cautions(load))
    if miles is None:
        return unpriced(HOT_SHOT, joined(why, MILES_NOT_KNOWN), cautions, ruled_out=may is False)
    cost = miles.times(rates.hot_shot_mile.spread).at_least(rates.hot_shot_least.spread)
    line = Line(
        f"{miles.likely:.0f} loaded miles, with a least charge",
        cost,
        joined(rates.hot_shot_mile.origin, rates.hot_shot_least.origin),
    )
    days = days_on_the_way(miles, rates.hired_day, rates.hot_shot_wait)
    return priced(HOT_SHOT, [line, *permit_lines(load, rates)], allowed=may, why=why, days=days, cautions=cautions)


def heavy(load: Load, miles: Spread | None, rates: HaulRates) -> HaulOption:
    """The first miles at one rate and those beyond at a lower one, so that a mile more never costs less."""
    why = "takes what the others cannot"
    cautions = (WAY_BACK, *size_cautions(load))
    if miles is None:
        return unpriced(HEAVY, MILES_NOT_KNOWN, cautions, ruled_out=False)
    near_mi = rates.heavy_near.likely
    near = Spread(*(min(each, near_mi) for each in miles)).times(rates.heavy_mile.spread)
    far = Spread(*(max(0.0, each - near_mi) for each in miles)).times(rates.heavy_far_mile.spread)
    cost = near.plus(far).at_least(rates.heavy_least.spread)
    origin = joined(rates.heavy_mile.origin, rates.heavy_least.origin)
    if far.likely:
        origin += f"; beyond {near_mi:.0f} miles {rates.heavy_far_mile.origin}"
    line = Line(f"{miles.likely:.0f} loaded miles, with a least charge", cost, origin)
    days = days_on_the_way(miles, rates.hired_day, rates.heavy_wait)
    return priced(HEAVY, [line, *permit_lines(load, rates)], allowed=True, why=why, days=days, cautions=cautions)


def quoted(quote: Quote) -> HaulOption:
    """What somebody asks, all in. Raises InputError for a mode that nobody is hired for."""
    if quote.mode and quote.mode not in HIRED:
        raise InputError(f"a quote for {quote.mode!r}", f"it can be for {', '.join(HIRED)}, or say no mode")
    said = " ".join(part for part in (quote.said_by, quote.on) if part)
    line = Line(quote.mode or "the whole haul", quote.price.spread, f"quote: {said}" if said else "quote")
    cautions = ("Ask what it leaves out, and until when it holds.",)
    return priced(QUOTE, [line], allowed=True, why="a quote in hand", cautions=cautions)


def outdone(option: HaulOption, quote: Quote) -> HaulOption:
    """A modelled price that a quote for the same mode takes the place of."""
    same = option.mode == quote.mode or (quote.mode == PALLET and option.mode == TERMINAL)
    if same or (not quote.mode and option.mode in HIRED):
        return option._replace(allowed=False, why="a quote in hand takes its place")
    return option


def _pallet_allowed(load: Load, rates: HaulRates) -> tuple[bool | None, str]:
    most_lb = rates.pallet_most.likely
    if not load.on_pallet:
        return False, "it does not go on a pallet"
    if load.weight_lb is None:
        return None, ""
    if load.weight_lb > most_lb:
        return False, f"{load.weight_lb:.0f} lb is over the {most_lb:.0f} lb of a single pallet"
    return True, f"{load.weight_lb:.0f} lb of {most_lb:.0f} lb"


def _freight(load: Load, weight_lb: float, delivery: End, miles: Spread, rates: HaulRates) -> tuple[Line, ...]:
    density = None
    if load.length_in and load.width_in and load.height_in:
        density = density_lb_ft3(weight_lb, load.length_in, load.width_in, load.height_in)
    return pallet_lines(weight_lb, density, miles, (load.collection, delivery), rates)


def _preparing(rates: HaulRates) -> Spread:
    return rates.draining.spread.plus(rates.crating.spread)


def _prepared(rates: HaulRates, own_hour: Rate) -> list[Line]:
    """Draining, crating, and what it is crated with."""
    hours = _preparing(rates)
    origin = joined(rates.draining.origin, rates.crating.origin, own_hour.origin)
    return [
        Line(f"draining and crating, {hours.likely:.1f} h", hours.times(own_hour.spread), origin),
        Line("pallet and straps", rates.crate.spread, rates.crate.origin),
    ]
