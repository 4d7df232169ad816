"""Records as rows: what each table of the cache takes from a record."""

from __future__ import annotations

import json
import re
from collections import defaultdict
from collections.abc import Iterable, Iterator
from typing import TYPE_CHECKING

from interchange.catalog.features import Presented
from interchange.catalog.geometry import holes_of, shape_key
from interchange.catalog.model import Adapter, Machine, Pattern, Unit
from interchange.catalog.rooms import Name, Record

if TYPE_CHECKING:
    from interchange.catalog.figure import Figure

Row = tuple[object, ...]
Rows = dict[str, list[Row]]

TABLES = (
    "source", "known", "record", "problem", "reference", "name", "variant", "feature", "pattern", "hole", "fitted", "adapter",
)  # fmt: skip
AS_JSON = json.JSONEncoder(separators=(",", ":"), ensure_ascii=False, check_circular=False).encode
NAMED_ROOMS = frozenset({"units", "machines", "patterns", "shafts", "pins", "adapters", "kinds", "remedies"})


NOT_FOLDED = re.compile(r"[^a-z0-9]+")


def folded(name: str) -> str:
    """A name stripped to lower-case letters and digits, so that RL-90, rl 90 and RL90 are one."""
    return NOT_FOLDED.sub("", name.casefold())


def split_variant(name: str) -> tuple[str, str]:
    """``unit.variant`` as its two parts; the variant is empty where none is named."""
    unit, _, variant = name.partition(".")
    return unit, variant


def name_rows(names: Iterable[Name], path: str, rank: int) -> list[Row]:
    """The names a file defines, as rows."""
    return [(path, rank, name.room, name.id, variant, *name.where) for name in names for variant in ("", *name.variants)]


def rows_of(one: Record, key: int, path: str, rank: int) -> Rows:
    """Every row one record gives, by table."""
    rows: Rows = defaultdict(list)
    value = one.value
    title, maker = getattr(value, "title", ""), getattr(value, "maker", "")
    place = (*one.where, *one.body)
    rows["record"].append((key, path, rank, one.room, one.id, title, maker, *place, AS_JSON(one.origin), False))
    rows["reference"] += [(key, room, id_, place, where.line, where.column) for room, id_, place, where in one.references]
    if one.room in NAMED_ROOMS:
        for variant, name in _names(one):
            rows["name"].append((key, one.room, one.id, variant, name, folded(name)))
    if isinstance(value, Pattern):
        _pattern_rows(rows, key, value)
    elif isinstance(value, Unit):
        _unit_rows(rows, key, value, one.presented)
    elif isinstance(value, Machine):
        for seat_name, seat in value.seats.items():
            for named, share in seat.fitted.items():
                rows["fitted"].append((key, one.id, seat_name, seat.kind, *split_variant(named), share))
    elif isinstance(value, Adapter):
        faces = (*value.faces, None, None)[:2]
        figures = (_value(value.thick), _value(value.price), _value(value.lead))
        rows["adapter"].append((key, one.id, value.kind, value.joint, *faces, *figures))
    for form in one.presented.values():
        for shape in form.shapes.values():
            if isinstance(shape, Pattern):
                _pattern_rows(rows, key, shape)
    return rows


def _value(figure: Figure | None) -> float | None:
    return figure.value if figure else None


def _names(one: Record) -> Iterator[tuple[str, str]]:
    """(variant, name) for everything a record may be called."""
    value = one.value
    title = getattr(value, "title", "")
    maker = getattr(value, "maker", "")
    names = dict.fromkeys(filter(None, (one.id.replace("-", " "), title, *getattr(value, "aka", ()))))
    for name in names:
        yield "", name
        if maker and not folded(name).startswith(folded(maker)):
            yield "", f"{maker} {name}"
    if isinstance(value, Unit):
        for key, variant in value.variants.items():
            for name in filter(None, (variant.title, *variant.aka)):
                yield key, name


def _pattern_rows(rows: Rows, key: int, pattern: Pattern) -> None:
    holes = holes_of(pattern)
    radii = [hole.radius_mm for hole in holes] if holes else []
    count = len(holes) if holes else pattern.holes
    depth = pattern.depth.value if pattern.depth else None
    least, most = (min(radii), max(radii)) if radii else (None, None)
    rows["pattern"].append((key, pattern.id, count, least, most, depth, shape_key(pattern) or None))
    for i, hole in enumerate(holes or ()):
        rows["hole"].append((key, pattern.id, i, hole.x_mm, hole.y_mm, hole.hole_mm, hole.thread_mm))


def _unit_rows(rows: Rows, key: int, unit: Unit, forms: dict[str, Presented]) -> None:
    for name, form in forms.items():
        variant = unit.variants.get(name)
        share = variant.share if variant else 1.0
        tell = variant.tell if variant else ""
        rows["variant"].append((key, unit.id, name, unit.kind, unit.maker, share, tell))
        rows["feature"] += [feature_row(key, unit.id, name, path, figure) for path, figure in form.features.items()]


def feature_row(key: int, unit: str, variant: str, path: str, figure: Figure) -> Row:
    """A figure as a row of the feature table."""
    numbers = (figure.quantity.value, *figure.ends) if figure.quantity else (None, None, None)
    word, ref = figure.word or None, figure.ref or None
    return (key, unit, variant, path, *numbers, word, ref, figure.origin.basis or None, bool(figure.others))
