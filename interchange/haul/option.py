"""What is fetched, a price somebody gave for it, and one way of fetching it with what it costs and takes."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, NamedTuple

from interchange.haul.pallet import End, Line
from interchange.haul.rates import Money
from interchange.spread import NOTHING, Spread, total

if TYPE_CHECKING:
    from collections.abc import Sequence

    from interchange.haul.limits import Limit
    from interchange.haul.rates import HaulRates, Rate

OWN, QUOTE = "own rig", "quote"
PALLET, TERMINAL = "pallet freight", "pallet freight to a terminal"
HOT_SHOT, HEAVY = "hired hot-shot", "hired heavy haul"
HIRED = (PALLET, TERMINAL, HOT_SHOT, HEAVY)
MILES_NOT_KNOWN = "the road miles are not known"
WEIGHT_NOT_KNOWN = "the weight is not known"
PERMIT_WIDTH_IN = 102.0
"""Wider loads need a permit on most roads: from memory."""
LOW_HEIGHT_IN = 120.0
"""On a deck of 3 ft or so this stands at the 13 ft 6 in that bridges mostly leave: from memory."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Load:
    """What is to be fetched."""

    what: str
    """In words, for the lines of the bill."""
    ids: frozenset[str] = frozenset()
    """What quotes may call it: its ids in the catalog, and the ad's."""
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

    `hours` are one's own, or paid for at the own hour's rate; `days` pass until it stands at home, None where nobody can tell.
    Unloading at home is not reckoned in any mode.
    """

    mode: str
    cost: Spread | None
    hours: Spread
    days: Spread | None
    allowed: bool | None
    why: str
    lines: tuple[Line, ...]
    cautions: tuple[str, ...]
    limits: tuple[Limit, ...] = ()


def priced(
    mode: str, lines: Sequence[Line], *, allowed: bool | None, why: str, hours: Spread = NOTHING, days: Spread | None = None,
    cautions: tuple[str, ...] = (), limits: tuple[Limit, ...] = (),
) -> HaulOption:  # fmt: skip
    """An option that costs the sum of its lines."""
    cost = total(line.cost for line in lines)
    return HaulOption(mode, cost, hours, days, allowed, why, tuple(lines), cautions, limits)


def unpriced(mode: str, why: str, cautions: tuple[str, ...], *, ruled_out: bool, limits: tuple[Limit, ...] = ()) -> HaulOption:
    """Without a cost nothing is allowed yet; what is ruled out stays so."""
    return HaulOption(mode, None, NOTHING, None, False if ruled_out else None, why, (), cautions, limits)


def size_cautions(load: Load) -> tuple[str, ...]:
    """What a wide or high load asks for on the road."""
    said = []
    if wide(load):
        said.append("Wider than 8 ft 6 in: a permit is needed on most roads (from memory; the state decides).")
    if load.height_in is not None and load.height_in > LOW_HEIGHT_IN:
        said.append(
            "Higher than 10 ft: measure it on the deck; bridges mostly leave 13 ft 6 in (from memory; the state decides)."
        )
    return tuple(said)


def permit_lines(load: Load, rates: HaulRates) -> list[Line]:
    """Permits, where the load is too wide to go without."""
    return [Line("permits for a wide load", rates.wide_load.spread, rates.wide_load.origin)] if wide(load) else []


def wide(load: Load) -> bool:
    """Whether it is wider than most roads take without a permit."""
    return load.width_in is not None and load.width_in > PERMIT_WIDTH_IN


def days_on_the_way(miles: Spread, a_day: Rate, wait: Rate) -> Spread:
    """Days until it is there: the wait, then so far a day; fast and near for the low end, slow and far for the high."""
    return Spread(
        wait.low + miles.low / a_day.high, wait.likely + miles.likely / a_day.likely, wait.high + miles.high / a_day.low
    )


def joined(*parts: str) -> str:
    """Parts that say something, one after the other."""
    return "; ".join(part for part in parts if part)
