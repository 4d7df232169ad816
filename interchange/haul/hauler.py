"""Everything hauling needs to know of one home: where it is, what the rates are, the rig, and the quotes of the job."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from interchange.catalog.rates import HaulTable
from interchange.errors import InputError
from interchange.haul.freight import HaulOption, Load, Quote, haul_options
from interchange.haul.load_of import end_of
from interchange.haul.places import Ambiguous, Place, StateOnly, find_place, suggest_places
from interchange.haul.rates import haul_rates, rate_of
from interchange.haul.rig import rig_of
from interchange.haul.road import great_circle_mi
from interchange.haul.way import Way, way_to
from interchange.haul.world import EXTRA_WANTED, find_abroad, world_atlas
from interchange.job.folder import HOME_FILE

if TYPE_CHECKING:
    import duckdb

    from interchange.fit.setting import Setting
    from interchange.job.job import HaulQuote

SAME_PLACE_MI = 10.0
"""A quote for a place this near is for the same haul: a judgement."""


class _PlacedQuote(NamedTuple):
    given: HaulQuote
    name: str
    point: tuple[float, float] | None


class Hauler:
    """Finds the way to a place and prices every way of fetching a load from it."""

    def __init__(self, setting: Setting, places: duckdb.DuckDBPyConnection) -> None:
        self.setting, self.places = setting, places
        self.not_looked = ""
        self._opened: list[duckdb.DuckDBPyConnection | None] = []
        home = setting.home
        found = find_place(places, home.place) or self.abroad(home.place)
        if not isinstance(found, Place):
            near = suggest_places(places, home.place) if found is None else ()
            hint = f"did you mean {near[0]!r}?" if near else "write town and state, or a ZIP"
            hint += f"; {self.not_looked}" if self.not_looked else ""
            raise InputError(f"{home.where.file}: place: {home.place!r} is not one known place", hint)
        self.home = found
        table = setting.library.record("rates", "haul")
        if table is None or not isinstance(table.value, HaulTable):
            raise InputError("the catalog has no table of rates called 'haul'", "put back trade/haul.yaml")
        self.rates = haul_rates(table.value)
        self.rig = rig_of(home.rig) if home.rig else None
        own = home.rates.driving_hour or home.rates.own_hour
        self.hour = rate_of(own, HOME_FILE) if own else rate_of(setting.rates.own_hour)
        self.delivery = end_of(home.at_home)
        self._quotes = tuple(map(self._placed, setting.job.quotes))

    @property
    def near(self) -> tuple[float, float]:
        """Where home is: latitude and longitude."""
        return self.home.lat, self.home.lon

    def way(self, text: str) -> Way:
        """The way to a place as it is written."""
        return self.way_to(text, find_place(self.places, text, self.near) or self.abroad(text, self.near))

    def way_to(self, text: str, found: Place | Ambiguous | StateOnly | None) -> Way:
        """The way to what a text was found to be."""
        if found is not None:
            return way_to(self.home, text, found)
        return way_to(self.home, text, None, suggest_places(self.places, text), self.not_looked)

    def abroad(self, text: str, near: tuple[float, float] | None = None) -> Place | Ambiguous | None:
        """A town outside the United States; None, and it is remembered why, where the extra that has them is not installed."""
        world = self._world()
        if world is None:
            self.not_looked = EXTRA_WANTED
            return None
        return find_abroad(world, text, near)

    def _world(self) -> duckdb.DuckDBPyConnection | None:
        """The towns abroad, opened when they are first asked for."""
        if not self._opened:
            self._opened.append(world_atlas())
        return self._opened[0]

    def options(self, load: Load, way: Way) -> tuple[HaulOption, ...]:
        """Every way of fetching a load, cheapest likely cost first; a quote for it stands for what would be reckoned."""
        return haul_options(load, way.road, self.rig, self.rates, self.quotes(load, way), own_hour=self.hour)

    def quotes(self, load: Load, way: Way) -> tuple[Quote, ...]:
        """The job's quotes for such a load from there."""
        return tuple(
            Quote(price=rate_of(given.amount), mode=given.mode, said_by=given.who, on=given.date)
            for given, name, point in self._quotes
            if _same_place(name, point, way) and _is_for(given.what, load)
        )

    def _placed(self, given: HaulQuote) -> _PlacedQuote:
        way = self.way(given.place)
        point = (way.place.lat, way.place.lon) if isinstance(way.place, Place) else None
        return _PlacedQuote(given, way.name, point)


def _same_place(name: str, point: tuple[float, float] | None, way: Way) -> bool:
    """Whether a quote's place is where the way leads: near enough, or the same name where there is no point."""
    if point is None or not isinstance(way.place, Place):
        return name.casefold() == way.name.casefold()
    return great_circle_mi(point, (way.place.lat, way.place.lon)) <= SAME_PLACE_MI


def _is_for(what: str, load: Load) -> bool:
    """Whether a quote that names a unit, machine or ad means this load."""
    return not what or any(what in (each, each.partition(".")[0]) for each in load.ids)
