"""Fetching a load, mode by mode: own rig, pallet freight, a hired hot-shot or heavy haul, or a quote in hand."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from interchange.haul.hired import heavy, hot_shot, outdone, pallet, quoted, terminal
from interchange.haul.option import (
    HEAVY,
    HIRED,
    HOT_SHOT,
    OWN,
    PALLET,
    QUOTE,
    TERMINAL,
    HaulOption,
    Load,
    Quote,
)
from interchange.haul.own import own_haul
from interchange.spread import Spread

if TYPE_CHECKING:
    from interchange.haul.rates import HaulRates, Rate
    from interchange.haul.rig import Rig
    from interchange.haul.road import RoadMiles

__all__ = [
    "HEAVY", "HIRED", "HOT_SHOT", "OWN", "PALLET", "QUOTE", "TERMINAL", "HaulOption", "Load", "Quote", "cheapest", "haul_options",
]  # fmt: skip


def haul_options(
    load: Load,
    road: RoadMiles | None,
    rig: Rig | None,
    rates: HaulRates,
    quotes: Sequence[Quote] = (),
    *,
    own_hour: Rate,
) -> tuple[HaulOption, ...]:
    """Every mode, cheapest likely cost first, those without a cost last.

    `road` is None where the miles are not known or no road leads; `own_hour` is what an own hour is worth, in cents.
    """
    miles = None if road is None else Spread(road.low, road.likely, road.high)
    modes = [
        own_haul(load, miles, rig, rates, own_hour),
        pallet(load, miles, rates, own_hour),
        terminal(load, miles, rig, rates, own_hour),
        hot_shot(load, miles, rates),
        heavy(load, miles, rates),
    ]
    for quote in quotes:
        modes = [outdone(option, quote) for option in modes]
    modes += [quoted(quote) for quote in quotes]
    return tuple(sorted(modes, key=lambda option: (option.cost is None, option.cost.likely if option.cost else 0.0)))


def cheapest(options: tuple[HaulOption, ...], *, conditional: bool = False) -> HaulOption | None:
    """The cheapest mode that is allowed, or with `conditional` one that needs a check first; None if there is none."""
    for option in options:
        if option.cost is not None and (option.allowed or (conditional and option.allowed is None)):
            return option
    return None
