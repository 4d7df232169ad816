"""What somebody who stands before the unit can check, each with how, the figure hoped for, and a small drawing.

It goes by the kind, the unit and what the seat needs, and by nothing else of the job or the home: a seller may read it.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING, NamedTuple

from interchange.catalog.features import SEAT
from interchange.catalog.kind_rules import THICK, feature_type
from interchange.catalog.model import PATTERN_FEATURE, SHAFT_FEATURE
from interchange.fit.case import DONOR, OWN_PREFIX, Suppliers, slot_of
from interchange.fit.faces import spoken
from interchange.fit.finding import UNSURE
from interchange.fit.rating import right_words
from interchange.fit.stack_up import terms_of
from interchange.quantity import show
from interchange.sheets.measure_drawing import depth_with_straightedge, face_readings, square_on, tape_on_face

if TYPE_CHECKING:
    from interchange.catalog.figure import Figure
    from interchange.catalog.model import Dimension, Pattern, Shaft
    from interchange.fit.report import Judged, Plan
    from interchange.sheets.drawing import Drawing

MOST = 7
TEARDOWN = "teardown"
STOPS = "stops"
ANY = "any"
ORDER = {"photo": 0, "plate": 1, "seller": 2, "tape": 3, TEARDOWN: 4}
HOW = {
    "photo": "A photo, straight on, is enough.",
    "plate": "A photo of the plate or tag, close enough to read every letter.",
    "seller": "From what you know of it.",
    "tape": "With a tape; say what it read and do not round it.",
}


class Check(NamedTuple):
    """One thing to check."""

    name: str
    title: str
    how: str
    hoped: tuple[str, ...]
    """The figures hoped for, each with where to take it."""
    drawing: Drawing | None
    seen: str


def checks(suppliers: Suppliers, plan: Plan, most: int = MOST) -> list[Check]:
    """What is worth checking before anybody drives: what is not known, then what would stop it, then by the kind's order."""
    kind = suppliers.case.kind
    worth: list[tuple[tuple[int, int], Check]] = []
    for one in plan.judged:
        dimension = kind.dimensions[one.name]
        if dimension.seen == TEARDOWN:
            continue
        rank = (0 if one.verdict == UNSURE else 1 if one.otherwise == STOPS else 2, -len(worth))
        worth += [(rank, check) for check in _of_dimension(suppliers, plan, dimension, one)]
    chosen = sorted(worth, key=lambda pair: (pair[0][0], -pair[0][1]))[:most]
    return sorted((check for _, check in chosen), key=lambda check: ORDER.get(check.seen, 0))


def _of_dimension(suppliers: Suppliers, plan: Plan, dimension: Dimension, one: Judged) -> Iterator[Check]:
    name = one.name
    if dimension.rule:
        right = wanted(suppliers, dimension)
        hoped = f"{spoken(dimension.give)}: {right}"
        if right not in ("", ANY) and suppliers.source(dimension.give) == DONOR:
            yield Check(name, dimension.title, HOW.get(dimension.seen, ""), (hoped,), _photo(dimension), dimension.seen)
    for joint in dimension.joints:
        if joint in suppliers.case.kind.joints:
            yield from _of_joint(suppliers, joint, dimension)
    if one.verdict == UNSURE and dimension.stack_ups:
        yield from _of_stacks(suppliers, [closing.name for closing in plan.closings if closing.name in dimension.stack_ups], name)


def _photo(dimension: Dimension) -> Drawing | None:
    return square_on("plate") if dimension.seen == "plate" else None


def wanted(suppliers: Suppliers, dimension: Dimension) -> str:
    """What the feature has to be; empty where it is not known, or is the donor's own; ``ANY`` where any will do."""
    rule, need = dimension.rule, suppliers.figure(dimension.need)
    if rule is None or need is None or suppliers.source(dimension.need) == DONOR:
        return ""
    right, type_ = right_words(rule, need), feature_type(suppliers.case.kind, dimension.give)
    any_will_do = type_ is not None and type_.words and set(type_.words) <= set(right.split(" or "))
    return ANY if any_will_do else right


def _of_joint(suppliers: Suppliers, name: str, dimension: Dimension) -> Iterator[Check]:
    """A face or shaft of the donor against what it has to meet of somebody else."""
    ends = suppliers.case.kind.joints[name].between
    sources = [suppliers.source(end) for end in ends]
    if (sources[0] == DONOR) == (sources[1] == DONOR):
        return
    mine, other = ends if sources[0] == DONOR else (ends[1], ends[0])
    figure = suppliers.figure(other)
    type_ = feature_type(suppliers.case.kind, mine)
    if figure is None or type_ is None:
        return
    part = spoken(mine)
    title = dimension.title if part in dimension.title or dimension.title in part else f"{dimension.title}: {part}"
    if type_.name == PATTERN_FEATURE:
        pattern = suppliers.case.pattern(figure.ref)
        if pattern and tuple(face_readings(pattern)):
            yield Check(name, title, HOW["tape"], tuple(face_readings(pattern)), _face(pattern, title), dimension.seen)
    elif type_.name == SHAFT_FEATURE:
        shaft = suppliers.case.shaft(figure.ref)
        readings = tuple(shaft_readings(shaft)) if shaft else ()
        if readings:
            yield Check(name, title, HOW["tape"], readings, square_on("nose"), dimension.seen)


def _face(pattern: Pattern, title: str) -> Drawing | None:
    return tape_on_face(pattern, f"Where to lay the tape. {title[:1].upper()}{title[1:]}")


def shaft_readings(shaft: Shaft) -> Iterator[str]:
    """What to count and measure on a shaft end or bore, each with the figure hoped for."""
    teeth = shaft.spline.teeth if shaft.spline else shaft.teeth
    if teeth:
        yield f"Count the splines. Hoped for: {teeth:g}."
    for what, figure in (
        ("Across the outside", shaft.major),
        ("Across the bottom of the splines", shaft.minor),
        ("Width of the key or tooth", shaft.width),
        ("Length", shaft.length),
    ):
        if figure:
            yield f"{what}. Hoped for: {show(figure.value, 'length')}."


def _of_stacks(suppliers: Suppliers, names: Sequence[str], dimension: str) -> Iterator[Check]:
    """The lengths that the donor brings into some stack-ups, each once; hoped for is what the old unit has there."""
    kind = suppliers.case.kind
    terms = [term for name in names for term in terms_of(kind.stack_ups[name].sum)]
    paths = [
        term.path
        for term in terms
        if slot_of(term.path) != SEAT and not term.path.endswith(f".{THICK}") and suppliers.source(term.path) == DONOR
    ]
    hoped = tuple(_length(suppliers, path) for path in dict.fromkeys(paths))
    if hoped:
        one = kind.dimensions[dimension]
        yield Check(dimension, one.title, HOW["tape"], hoped, depth_with_straightedge(), one.seen)


def _length(suppliers: Suppliers, path: str) -> str:
    own: Figure | None = suppliers.case.own.get(path.removeprefix(OWN_PREFIX))
    wanted = f" Hoped for: about {show(own.value, 'length')}." if own and own.quantity else ""
    return f"{spoken(path)}.{wanted}"


def told_forms(tells: Sequence[str]) -> tuple[str, ...]:
    """What shows which form a unit has, without which of them is wanted."""
    return tuple(dict.fromkeys(tell for tell in tells if tell))
