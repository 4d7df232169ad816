"""What to write for each feature of a kind, as comment lines: how it is written, how it is seen, and what it decides."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import NamedTuple

from interchange.catalog.features import SEAT
from interchange.catalog.kind_rules import read_term
from interchange.catalog.model import PATTERN_FEATURE, SHAFT_FEATURE, WORD_FEATURE, Dimension, FeatureType, Kind
from interchange.catalog.plain_text import one_line

EXAMPLES = {
    "length": "5/8 in or 15.9 mm", "angle": "15 deg", "count": "6", "mass": "905 lb or 410 kg", "torque": "178 lb-ft @ 1400 rpm",
    "power": "62 hp @ 2200 rpm", "speed": "2200 rpm", "voltage": "12 V", "pressure": "2250 psi or 155 bar",
    "displacement": "201 cu in, 3.3 L or 41 cc/rev", "flow": "20 gpm or 76 L/min", "share": "65 %", "ratio": "4.10:1",
}  # fmt: skip
# Left empty, so that a line whose comment sign is taken off and nothing else is a problem, and never a figure.
SHAPES = {
    PATTERN_FEATURE: "{circle: , holes: , first_hole: , thread: }",
    SHAFT_FEATURE: "{form: , spline: , major: , length: }",
}
SHAPE_WORDS = {PATTERN_FEATURE: "bolt face, or the id of one", SHAFT_FEATURE: "shaft or bore, or the id of one"}
SEEN = {
    "photo": "a photo shows it", "tape": "a tape tells", "teardown": "seen only apart", "plate": "on its plate",
    "seller": "the seller knows",
}  # fmt: skip
STOPS = "stops"
SEVERITY = (STOPS, "fixable", "cost only")
MOST_NAMED = 3
LONGEST_NOTE = 400
LAST = len(SEVERITY)


class Decides(NamedTuple):
    """A dimension that a feature has to do with: how bad a difference is, and the dimension's place in the kind's order."""

    severity: int
    order: int
    dimension: Dimension


def features_of(kind: Kind, dimension: Dimension) -> tuple[str, ...]:
    """Every feature a dimension goes by, as slot.feature or seat.feature, those of its joints and stack-ups included."""
    paths = [dimension.give, dimension.need]
    for name in dimension.joints:
        joint = kind.joints.get(name)
        paths += (*joint.between, joint.torque) if joint else ()
    for name in dimension.stack_ups:
        stack = kind.stack_ups.get(name)
        if stack:
            paths += [term.path for text in stack.sum if (term := read_term(text))] + [stack.target]
    known = {f"{slot}.{name}" for slot, types in kind.slots.items() for name in types} | {f"{SEAT}.{name}" for name in kind.seat}
    return tuple(path for path in dict.fromkeys(paths) if path in known)


def decided_by(kind: Kind) -> dict[str, list[Decides]]:
    """What each feature decides, the worst first."""
    found: dict[str, list[Decides]] = {}
    for order, dimension in enumerate(kind.dimensions.values()):
        for path in features_of(kind, dimension):
            found.setdefault(path, []).append(Decides(SEVERITY.index(dimension.otherwise), order, dimension))
    return {path: sorted(some, key=lambda one: one[:2]) for path, some in found.items()}


def worst_first(paths: Mapping[str, FeatureType], prefix: str, decides: Mapping[str, list[Decides]]) -> list[str]:
    """The features of a slot, those that stop a swap first; the rest as the kind has them."""

    def key(name: str) -> tuple[int, int]:
        found = decides.get(f"{prefix}.{name}")
        return found[0][:2] if found else (LAST, 0)

    return sorted(paths, key=key)


def line(name: str, type_: FeatureType, decides: list[Decides], follows: str = "") -> str:
    """One feature as it would be written, empty, with what to write there behind it.

    ``follows`` says what it follows from where it is left out.
    """
    notes = [how_written(type_)]
    notes += dict.fromkeys(SEEN[one.dimension.seen] for one in decides)
    for severity in dict.fromkeys(one.severity for one in decides):
        titles = list(dict.fromkeys(one.dimension.title for one in decides if one.severity == severity))
        more = " and more" if len(titles) > MOST_NAMED else ""
        notes.append(f"{SEVERITY[severity]}: {', '.join(titles[:MOST_NAMED])}{more}")
    if follows:
        notes.append(follows)
    shape = SHAPES.get(type_.name, "")
    return f"{name}: {shape}".rstrip() + f"   # {one_line('; '.join(notes), LONGEST_NOTE)}"


def how_written(type_: FeatureType) -> str:
    """What may be written for a feature of this type."""
    if type_.words:
        return ", ".join(type_.words[:-1]) + (" or " if len(type_.words) > 1 else "") + type_.words[-1]
    if type_.name == WORD_FEATURE:
        return "a word"
    return SHAPE_WORDS.get(type_.name) or f"{type_.name}, as {EXAMPLES[type_.name]}"


def follows_from(kind: Kind) -> dict[str, str]:
    """For each feature that the kind derives, what it follows from where it is left out."""
    return {
        path: f"left out, it follows from {', '.join(dict.fromkeys((*rule.of, *rule.times, *rule.over)))}"
        for path, rule in kind.derive.items()
    }


def what_stops(kind: Kind) -> Iterator[str]:
    """A line for each dimension that stops a swap, in the kind's order: its features of the unit, and how it is seen."""
    for dimension in kind.dimensions.values():
        if dimension.otherwise == STOPS:
            own = [path for path in features_of(kind, dimension) if not path.startswith(f"{SEAT}.")]
            yield one_line(f"{dimension.title}: {', '.join(own) or 'the machine alone'}; {SEEN[dimension.seen]}", LONGEST_NOTE)
