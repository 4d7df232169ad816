"""Which part a shape may be of: by the standard it belongs to, and by what the units and machines of the catalog use it for."""

from __future__ import annotations

from collections.abc import Collection
from typing import NamedTuple

from interchange.catalog.suggest import suggestion
from interchange.errors import InputError
from interchange.fit.taken import PATTERNS, PINS, SHAFTS
from interchange.store.shapes import Use


class PartSort(NamedTuple):
    """A part that people can name at a glance."""

    name: str
    title: str
    room: str
    standard: str
    """The standard whose shapes of this room are all of this part; empty where there is none."""
    features: frozenset[tuple[str, str]]
    """Features, (kind, path), at which it stands."""


def _sort(name: str, title: str, room: str, standard: str = "", **features: str) -> PartSort:
    return PartSort(
        name, title, room, standard, frozenset((kind, path) for kind, paths in features.items() for path in paths.split())
    )


SORTS = (
    _sort(
        "housing", "flywheel housing, gearbox side", PATTERNS, "SAE J617",
        engine="housing.out seat.face", gearbox="core.front seat.face",
    ),
    _sort(
        "flywheel", "flywheel drive face", PATTERNS, "SAE J620",
        engine="flywheel.drive seat.drive_plate clutch.cover",
        gearbox="seat.flywheel seat.flexplate converter.bolts clutch.cover",
    ),
    _sort("block", "rear face of the block", PATTERNS, engine="core.rear housing.block"),
    _sort("crank-flange", "crank flange", PATTERNS, engine="core.crank_flange flywheel.crank"),
    _sort("pump-flange", "pump flange", PATTERNS, "SAE J744", pump="core.flange seat.flange"),
    _sort("port", "hydraulic port flange", PATTERNS, "SAE J518"),
    _sort("pump-shaft", "pump shaft", SHAFTS, "SAE J744", pump="core.shaft seat.shaft", engine="nose.coupler seat.nose_shaft"),
    _sort("pto-shaft", "PTO shaft", SHAFTS, "ISO 500", gearbox="core.pto_output seat.pto_output"),
    _sort("input-shaft", "gearbox input shaft", SHAFTS, engine="clutch.hub seat.shaft", gearbox="core.input clutch.hub"),
    _sort("crank-nose", "crank nose", SHAFTS, engine="core.nose nose.bore"),
    _sort("hitch", "three-point hitch", PINS, "ISO 730"),
)  # fmt: skip
BY_NAME = {each.name: each for each in SORTS}


def sort_named(name: str) -> PartSort:
    """A part by its name, as ``pump-flange`` or ``pump flange``. Raises InputError where there is none."""
    found = BY_NAME.get("-".join(name.casefold().replace("-", " ").split()))
    if found is None:
        raise InputError(f"no part is called {name!r}", suggestion(name, BY_NAME) or f"there are {', '.join(BY_NAME)}")
    return found


def sorts_of(room: str, standard: str, uses: Collection[Use]) -> frozenset[str]:
    """Which parts a shape may be of; empty where neither a standard nor a use tells."""
    places = {(use.kind, use.path) for use in uses}
    return frozenset(
        sort.name
        for sort in SORTS
        if sort.room == room and ((sort.standard and sort.standard == standard) or places & sort.features)
    )
