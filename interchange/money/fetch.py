"""Fetching what an ad offers: where it stands, how far that is, and the cheapest allowed way home."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from interchange.ads.offer_kind import is_machine
from interchange.catalog.rates import HaulTable
from interchange.errors import InputError
from interchange.fit.finding import joined
from interchange.haul.freight import HaulOption, Load, cheapest, haul_options
from interchange.haul.places import Ambiguous, Place, StateOnly, find_place, suggest_places
from interchange.haul.rates import KG_PER_LB, haul_rates, rate_of
from interchange.haul.rig import rig_of
from interchange.haul.road import RoadMiles, no_road, road_miles, road_miles_to_state
from interchange.money.bill import HAUL, Line
from interchange.money.placed import Known, placed, words_to_find

if TYPE_CHECKING:
    from collections.abc import Sequence

    import duckdb

    from interchange.ads.fields import AdReading
    from interchange.ads.reads import Read
    from interchange.catalog.figure import Figure
    from interchange.fit.setting import Setting
    from interchange.money.rank import Candidate

PALLET_LB = 60.0  # a hardwood pallet and straps, a judgement


class Fetch(NamedTuple):
    """The haul of one ad: None where it is not known, with the reason."""

    place: str
    road: RoadMiles | None
    option: HaulOption | None
    options: tuple[HaulOption, ...]
    line: Line | None
    note: str


class Fetcher:
    """Finds places and prices hauls for one home; each place is looked up once."""

    def __init__(self, setting: Setting, places: duckdb.DuckDBPyConnection) -> None:
        self.setting, self.places = setting, places
        home = setting.home
        found = find_place(places, home.place)
        if not isinstance(found, Place):
            near = suggest_places(places, home.place) if found is None else ()
            hint = f"did you mean {near[0]!r}?" if near else "write town and state, or a ZIP"
            raise InputError(f"{home.where.file}: place: {home.place!r} is not one known place", hint)
        self.home = found
        table = setting.library.record("rates", "haul")
        if table is None or not isinstance(table.value, HaulTable):
            raise InputError("the catalog has no table of rates called 'haul'", "put back trade/haul.yaml")
        self.rates = haul_rates(table.value)
        self.rig = rig_of(home.rig) if home.rig else None
        self.hour = rate_of(home.rates.driving_hour or home.rates.own_hour or setting.rates.own_hour)
        self._roads: dict[tuple[str, str], tuple[str, RoadMiles | None, str]] = {}
        self._found: Known = {}

    def road(self, reading: AdReading) -> tuple[str, RoadMiles | None, str]:
        """(place as found, road miles, what to mind) for the place of an ad."""
        near = (self.home.lat, self.home.lon)
        place, found = placed(self.places, reading, near, self._found)
        if place is None:
            return "", None, "the ad gives no place"
        text = words_to_find(place)
        key = (text, found.state if isinstance(found, Place) else "")
        if key not in self._roads:
            self._roads[key] = self._look_up(text, found)
        name, road, note = self._roads[key]
        if road and place.kind == "near" and place.away_mi:
            off = place.away_mi
            road = RoadMiles(
                road.likely, max(road.low - off, 1.0), road.high + off, joined(road.note, f"{off:.0f} miles off {name}")
            )
        return name, road, note

    def _look_up(self, text: str, found: Place | Ambiguous | StateOnly | None) -> tuple[str, RoadMiles | None, str]:
        if isinstance(found, Place):
            road = road_miles(self.home, found)
            return f"{found.name}, {found.state}", road, found.note if road else no_road(self.home, found) or ""
        if isinstance(found, StateOnly):
            if found.nearest_mi is None or found.median_mi is None or found.farthest_mi is None:
                return found.name, None, found.note
            span = (found.nearest_mi, found.median_mi, found.farthest_mi)
            return found.name, road_miles_to_state(self.home, found.state, span), joined("only the state is known", found.note)
        if isinstance(found, Ambiguous):
            states = ", ".join(sorted({choice.state for choice in found.choices}))
            return text, None, f"{text} could be in {states}: ask"
        hints = suggest_places(self.places, text)
        return text, None, f"{text!r} is not a place known here" + (f": {hints[0]}?" if hints else "")

    def fetch(self, read: Read, *units: Sequence[Candidate]) -> Fetch:
        """The haul for an ad, for all the units that are wanted of it: the forms each may have."""
        name, road, note = self.road(read.reading)
        options = haul_options(self.load(read, *units), road, self.rig, self.rates, own_hour=self.hour)
        if road is None:
            return Fetch(name, None, None, options, None, note)
        sure = cheapest(options)
        option = sure or cheapest(options, conditional=True)
        if option is None or option.cost is None:
            return Fetch(name, road, None, options, None, joined(note, "no way of fetching it is allowed"))
        origin = joined(f"{option.mode}, about {road.likely:.0f} mi from {name}", option.why if sure is None else "")
        return Fetch(name, road, option, options, Line(HAUL, option.cost, origin), note)

    def load(self, read: Read, *units: Sequence[Candidate]) -> Load:
        """What is to be carried: the whole machine, or the units on a pallet; weights from the ad, else from the catalog."""
        said = float(read.reading.weight_lb.value) if read.reading.weight_lb else None
        if is_machine(read.reading):
            hit = next(iter(read.matched.of("machines")), None)
            machine = self.setting.library.machine(hit.name.id)[1] if hit else None
            weight = said or (_pounds(machine.weight) if machine else None)
            size = [_inches(getattr(machine, side, None)) for side in ("length", "width", "height")]
            return Load(what=read.title, weight_lb=weight, length_in=size[0], width_in=size[1], height_in=size[2])
        known = [weight for weight in map(self._heaviest, units) if weight is not None]
        weight = said or (sum(known) + PALLET_LB if len(known) == len(units) else None)
        return Load(what=read.title, weight_lb=weight, on_pallet=True)

    def _heaviest(self, candidates: Sequence[Candidate]) -> float | None:
        """The heaviest form a unit may have, in pounds; None where none has a weight."""
        weights = []
        for candidate in candidates:
            record, _ = self.setting.library.unit(candidate.form.unit)
            form = record.presented.get(candidate.form.variant)
            weights.append(_pounds(form.features.get("core.weight")) if form else None)
        return max((weight for weight in weights if weight is not None), default=None)


def _pounds(figure: Figure | None) -> float | None:
    return figure.value / KG_PER_LB if figure else None


def _inches(figure: Figure | None) -> float | None:
    return figure.value / 25.4 if figure else None
