"""Fetching what an ad offers: where it stands, how far that is, and the cheapest allowed way home."""

from __future__ import annotations

import dataclasses
from typing import TYPE_CHECKING, NamedTuple

from interchange.ads.offer_kind import is_machine
from interchange.fit.finding import joined
from interchange.haul.freight import HaulOption, Load, cheapest
from interchange.haul.hauler import Hauler
from interchange.haul.load_of import PALLET_LB, WEIGHT, machine_load, pounds
from interchange.haul.places import Ambiguous, Place
from interchange.haul.road import RoadMiles
from interchange.haul.way import Way
from interchange.money.bill import HAUL, Line
from interchange.money.placed import Known, placed, words_to_find

if TYPE_CHECKING:
    from collections.abc import Sequence

    import duckdb

    from interchange.ads.fields import AdReading
    from interchange.ads.reads import Read
    from interchange.fit.setting import Setting
    from interchange.money.rank import Candidate

NO_PLACE = Way("", None, None, ("the ad gives no place",))


class Fetch(NamedTuple):
    """The haul of one ad: None where it is not known, with the reason."""

    place: str
    road: RoadMiles | None
    option: HaulOption | None
    options: tuple[HaulOption, ...]
    line: Line | None
    note: str


class Fetcher(Hauler):
    """Finds places and prices hauls of ads for one home; each place is looked up once."""

    def __init__(self, setting: Setting, places: duckdb.DuckDBPyConnection) -> None:
        super().__init__(setting, places)
        self._ways: dict[tuple[str, str], Way] = {}
        self._found: Known = {}

    def way_of(self, reading: AdReading) -> Way:
        """The way to where an ad stands."""
        place, found = placed(self.places, reading, self.near, self._found)
        if place is None:
            return NO_PLACE
        text = words_to_find(place)
        key = (text, found.state if isinstance(found, Place) else "")
        if found is None and place.kind == "abroad":
            found = self.abroad(place.text, self.near)
        if isinstance(found, Ambiguous):  # an ad does not say which, and a table has no room for a warning
            found = found._replace(nearest=None)
        if key not in self._ways:
            self._ways[key] = self.way_to(text, found)
        way = self._ways[key]
        if way.road and place.kind == "near" and place.away_mi:
            off, road = place.away_mi, way.road
            note = joined(road.note, f"{off:.0f} miles off {way.name}")
            return way._replace(road=RoadMiles(road.likely, max(road.low - off, 1.0), road.high + off, note))
        return way

    def fetch(self, read: Read, *units: Sequence[Candidate]) -> Fetch:
        """The haul for an ad, for all the units that are wanted of it: the forms each may have."""
        way = self.way_of(read.reading)
        name, road, note = way.name, way.road, "; ".join(way.warnings)
        options = self.options(self.load(read, *units), way)
        sure = cheapest(options)
        option = sure or cheapest(options, conditional=True)
        if option is None or option.cost is None:
            return Fetch(name, road, None, options, None, joined(note, "no way of fetching it is allowed") if road else note)
        miles = f"about {road.likely:.0f} mi" if road else "miles not known"
        origin = joined(f"{option.mode}, {miles} from {name}", "" if sure else option.why)
        return Fetch(name, road, option, options, Line(HAUL, option.cost, origin), note)

    def load(self, read: Read, *units: Sequence[Candidate]) -> Load:
        """What is to be carried: the whole machine, or the units on a pallet; weights from the ad, else from the catalog."""
        said = float(read.reading.weight_lb.value) if read.reading.weight_lb else None
        if is_machine(read.reading):
            hit = next(iter(read.matched.of("machines")), None)
            machine = self.setting.library.machine(hit.name.id)[1] if hit else None
            weight = said or (pounds(machine.weight) if machine else None)
            ids = frozenset({read.ad.id, *([hit.name.id] if hit else [])})
            return dataclasses.replace(machine_load(machine, read.title, weight, ids), delivery=self.delivery)
        known = [weight for weight in map(self._heaviest, units) if weight is not None]
        weight = said or (sum(known) + PALLET_LB if len(known) == len(units) else None)
        ids = frozenset({read.ad.id, *(candidate.form.unit for unit in units for candidate in unit)})
        return Load(what=read.title, ids=ids, weight_lb=weight, on_pallet=True, delivery=self.delivery)

    def _heaviest(self, candidates: Sequence[Candidate]) -> float | None:
        """The heaviest form a unit may have, in pounds; None where none has a weight."""
        weights = []
        for candidate in candidates:
            record, _ = self.setting.library.unit(candidate.form.unit)
            form = record.presented.get(candidate.form.variant)
            weights.append(pounds(form.features.get(WEIGHT)) if form else None)
        return max((weight for weight in weights if weight is not None), default=None)
