"""What is to be carried: a unit or machine of the catalog by its id, with what the user knows better of its weight and size."""

from __future__ import annotations

import dataclasses
import re
from typing import TYPE_CHECKING, get_args

from interchange.catalog.suggest import suggestion
from interchange.errors import InputError
from interchange.haul.option import Load
from interchange.haul.pallet import End
from interchange.haul.rates import KG_PER_LB
from interchange.quantity import QuantityError, read_quantity

if TYPE_CHECKING:
    from interchange.catalog.figure import Figure
    from interchange.catalog.model import Machine
    from interchange.store.library import Library

PALLET_LB = 60.0
"""A hardwood pallet and straps: a judgement."""
MM_PER_IN = 25.4
WEIGHT = "core.weight"
_TIMES = re.compile(r"\s*(?:[x×*]|\bby\b)\s*", re.IGNORECASE)
_UNIT = re.compile(r"[^\W\d]+\.?$|[\"'″′]$")
SIDES = 3
SIZE_HINT = "write length × width × height, such as 48 x 40 x 42 in"
ENDS = tuple(end for end in get_args(End) if end != "not known")


def load_of(library: Library, name: str) -> Load:
    """A unit (or unit.variant) on a pallet, or a machine whole. Raises InputError where the catalog has no such id."""
    unit_id, _, variant = name.partition(".")
    if library.record("units", unit_id):
        record, unit = library.unit(unit_id)
        if variant and variant not in record.presented:
            raise InputError(f"{unit_id} has no variant {variant!r}", suggestion(variant, unit.variants))
        forms = [record.presented[variant]] if variant else list(record.presented.values())
        weights = [weight for form in forms if (weight := pounds(form.features.get(WEIGHT))) is not None]
        heaviest = max(weights) + PALLET_LB if weights else None
        return Load(what=unit.title, ids=frozenset({unit_id, name}), weight_lb=heaviest, on_pallet=True)
    if library.record("machines", name):
        machine = library.machine(name)[1]
        return machine_load(machine, machine.title, pounds(machine.weight), frozenset({name}))
    rows = library.connection.execute("SELECT id FROM record WHERE live AND room IN ('units', 'machines')").fetchall()
    raise InputError(f"the catalog has no unit or machine {name!r}", suggestion(name, [row[0] for row in rows]))


def machine_load(machine: Machine | None, what: str, weight_lb: float | None, ids: frozenset[str]) -> Load:
    """A machine as it stands."""
    sides = (None, None, None) if machine is None else (machine.length, machine.width, machine.height)
    length_in, width_in, height_in = (inches_of(side) for side in sides)
    return Load(what=what, ids=ids, weight_lb=weight_lb, length_in=length_in, width_in=width_in, height_in=height_in)


def with_known(load: Load, weight: str | None, size: str | None, collection: str | None, delivery: str) -> Load:
    """A load with what the user says of it as it travels, pallet and all. Raises InputError for what cannot be read."""
    if weight is not None:
        load = dataclasses.replace(load, weight_lb=read_weight_lb(weight))
    if size is not None:
        length_in, width_in, height_in = read_size_in(size)
        load = dataclasses.replace(load, length_in=length_in, width_in=width_in, height_in=height_in)
    return dataclasses.replace(load, collection=end_of(collection), delivery=end_of(delivery))


def end_of(word: str | None) -> End:
    """What stands at one end. Raises InputError for another word."""
    if not word:
        return "not known"
    for end in get_args(End):
        if word == end:
            return end  # type: ignore[no-any-return]
    raise InputError(f"{word!r} is not what may stand at an end", "write one of: " + ", ".join(ENDS))


def read_weight_lb(text: str) -> float:
    """A weight in pounds; of a range the heavier end."""
    try:
        quantity = read_quantity(text, "mass")
    except QuantityError as error:
        raise InputError(f"weight {text!r}: {error.message}", error.hint or "write it with its unit, such as 900 lb") from error
    kg = quantity.value if quantity.high is None else quantity.high
    if kg <= 0:
        raise InputError(f"weight {text!r} is nothing to haul", "write it with its unit, such as 900 lb")
    return round(kg / KG_PER_LB, 6)


def read_size_in(text: str) -> tuple[float, float, float]:
    """Length, width and height in inches; a side without a unit takes the one of the last."""
    parts = [part for part in _TIMES.split(text.strip()) if part]
    if len(parts) != SIDES:
        raise InputError(f"size {text!r} does not have three sides", SIZE_HINT)
    unit = _UNIT.search(parts[-1])
    sides = []
    for part in parts:
        written = part if _UNIT.search(part) or unit is None else f"{part} {unit.group()}"
        try:
            mm = read_quantity(written, "length").value
        except QuantityError as error:
            raise InputError(f"size {text!r}: {error.message}", error.hint or SIZE_HINT) from error
        if mm <= 0:
            raise InputError(f"size {text!r} has a side of nothing", SIZE_HINT)
        sides.append(round(mm / MM_PER_IN, 6))
    return sides[0], sides[1], sides[2]


def pounds(figure: Figure | None) -> float | None:
    """A mass of the catalog in pounds."""
    return figure.value / KG_PER_LB if figure else None


def inches_of(figure: Figure | None) -> float | None:
    """A length of the catalog in inches."""
    return figure.value / MM_PER_IN if figure else None
