"""The way from home to where something stands: the place as it was settled, the road miles, and what to mind."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from interchange.haul.places import Ambiguous, Place, StateOnly
from interchange.haul.road import no_road, road_miles, road_miles_to_state

if TYPE_CHECKING:
    from interchange.haul.road import RoadMiles

BORDER = "it lies over a border: customs, duty and papers are not reckoned"


class Way(NamedTuple):
    """From home to a place. `place` and `road` are None where they cannot be told, and `warnings` say why."""

    name: str
    place: Place | StateOnly | None
    road: RoadMiles | None
    warnings: tuple[str, ...]
    nearest_of_several: bool = False
    """Whether the name is that of several places and the nearest is taken; the first warning names them."""
    unknown: bool = False
    """Whether no place is called so."""


def way_to(
    home: Place, text: str, found: Place | Ambiguous | StateOnly | None, hints: tuple[str, ...] = (), why: str = ""
) -> Way:
    """The way to what a text was found to be. A town of several states is taken as the nearest of them, with a warning.

    Of a place that is not found ``hints`` are names like it, and ``why`` says where it was not looked for.
    """
    if isinstance(found, Ambiguous):
        if found.nearest is None:
            return Way(text, None, None, (f"{text}: {found.note}",))
        way = way_to(home, text, found.nearest._replace(note=""))
        warning = f"{way.name} is taken, the nearest of several: {found.note}"
        return way._replace(warnings=(warning, *way.warnings), nearest_of_several=True)
    if isinstance(found, Place):
        road = road_miles(home, found)
        abroad = "" if found.country == home.country else BORDER
        notes = (found.note, road.note if road else no_road(home, found) or "", abroad)
        return Way(f"{found.name}, {found.state}", found, road, tuple(filter(None, notes)))
    if isinstance(found, StateOnly):
        road = None
        if found.nearest_mi is not None and found.median_mi is not None and found.farthest_mi is not None:
            road = road_miles_to_state(home, found.state, (found.nearest_mi, found.median_mi, found.farthest_mi))
        return Way(found.name, found, road, (found.note,))
    near = f": {hints[0]}?" if hints else ""
    return Way(text, None, None, (f"{text!r} is not a place known here{near}" + (f"; {why}" if why else ""),), unknown=True)
