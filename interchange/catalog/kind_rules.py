"""Reading and checking what only kinds have: feature types, rules, and names that must stand in the kind itself."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from typing import TYPE_CHECKING, Any, NamedTuple

from interchange.catalog.decode import BAD, Bad, Reader, mapping_of, one_of, text_of
from interchange.catalog.model import (
    FEATURE_TYPES,
    PATTERN_FEATURE,
    SHAFT_FEATURE,
    WORD_FEATURE,
    FeatureType,
    Kind,
    Rule,
)
from interchange.catalog.suggest import suggestion
from interchange.quantity import QuantityError, read_quantity

if TYPE_CHECKING:
    from interchange.catalog.nodes import Node

TERM = re.compile(r"([+-]) ?(?:([0-9]{1,3}(?:\.[0-9]{1,6})?) )?([a-z_]{1,40})\.([a-z_]{1,40})")
THICK = "thick"
RULES = ("same", "within", "at least", "at most", "pairs")


class Term(NamedTuple):
    """One term of a stack-up: a factor (with its sign) times a named length."""

    factor: float
    path: str


def read_term(text: str) -> Term | None:
    """``+rear.thick`` or ``-0.5 seat.tip`` as a term; None where it is neither."""
    match = TERM.fullmatch(text)
    if match is None:
        return None
    sign, factor, slot, feature = match.groups()
    return Term((-1.0 if sign == "-" else 1.0) * float(factor or 1), f"{slot}.{feature}")


def read_feature_type(node: Node, reader: Reader) -> Any:
    """A feature's type: one of the named ones, or a list of the words it may be."""
    if isinstance(node.value, list):
        words = [text_of(child, reader) for child in node.value]
        return BAD if any(isinstance(word, Bad) for word in words) else FeatureType(WORD_FEATURE, tuple(words))  # type: ignore[arg-type]
    name = one_of(FEATURE_TYPES)(node, reader)
    return BAD if isinstance(name, Bad) else FeatureType(name)


def _limit(node: Node, reader: Reader) -> tuple[float, bool, str] | Bad:
    """How far: (amount, whether it is a share, its dimension)."""
    text = text_of(node, reader)
    if isinstance(text, Bad):
        return BAD
    for dimension in ("share", "length", "mass", "speed", "pressure", "displacement", "power", "count"):
        try:
            return read_quantity(text, dimension).value, dimension == "share", dimension
        except QuantityError:
            continue
    return reader.problem(node, "bad-figure", f"{text!r} is neither a share nor an amount", "write 3 % or 1/2 in")


def read_rule(node: Node, reader: Reader) -> Any:
    """A rule: a word; {within: 3 %}; {within: {below: 5 %, above: 15 %}}; or {pairs: [[give, need], …]}."""
    if isinstance(node.value, str):
        name = one_of(RULES)(node, reader)
        if isinstance(name, Bad):
            return BAD
        if name in ("within", "pairs"):
            return reader.problem(node, "missing-limit", f"{name!r} needs a limit", "write {within: 3 %} or {pairs: [[a, b]]}")
        return Rule(name=name)
    entries = mapping_of(node, reader)
    if isinstance(entries, Bad):
        return BAD
    if len(entries) != 1 or next(iter(entries)) not in RULES:
        return reader.problem(
            node, "bad-rule", "a rule is one word, or one word with its limit", "write one of: " + ", ".join(RULES)
        )
    (name, inside), *_ = entries.items()
    return _pairs(inside, reader) if name == "pairs" else _within(name, inside, reader)


def _within(name: str, inside: Node, reader: Reader) -> Any:
    sides = inside.value if isinstance(inside.value, dict) else {"below": inside, "above": inside}
    limits: dict[str, tuple[float, bool, str]] = {}
    for side, child in sides.items():
        if side not in ("below", "above"):
            return reader.problem(
                child, "unknown-key", f"a limit has no {side!r}", suggestion(side, ("below", "above")), at_key=True
            )
        limit = _limit(child, reader)
        if isinstance(limit, Bad):
            return BAD
        limits[side] = limit
    if len({limit[2] for limit in limits.values()}) != 1:
        return reader.problem(inside, "bad-rule", "both limits must be shares, or amounts of one sort")
    (_, relative, dimension), *_ = limits.values()
    below, above = (limits[side][0] if side in limits else None for side in ("below", "above"))
    return Rule(name=name, below=below, above=above, relative=relative, by_dimension=dimension)


def _pairs(inside: Node, reader: Reader) -> Any:
    pairs: list[tuple[str, str]] = []
    for child in inside.value if isinstance(inside.value, list) else []:
        words = child.value
        texts = [text_of(word, reader) for word in words] if isinstance(words, list) else []
        if len(texts) != 2 or any(isinstance(text, Bad) for text in texts):  # noqa: PLR2004 - a pair
            return reader.problem(child, "bad-rule", "a pair is [what is offered, what is needed]")
        pairs.append((str(texts[0]), str(texts[1])))
    if not pairs:
        return reader.problem(inside, "bad-rule", "pairs need a list of pairs", "write [[stressed, frameless], [plain, framed]]")
    return Rule(name="pairs", pairs=tuple(pairs))


def check_kind(kind: Kind, node: Node, reader: Reader) -> None:
    """Report every name in a kind that the kind itself does not define."""
    known = {f"{slot}.{feature}" for slot, features in kind.slots.items() for feature in features}
    known |= {f"seat.{feature}" for feature in kind.seat}

    def check(name: str, choices: Iterable[str], *keys: str | int) -> None:
        choices = set(choices)
        if name not in choices:
            at = _descend(node, keys)
            reader.path += [str(key) for key in keys if isinstance(key, str)]
            reader.problem(at, "unknown-name", f"{name!r} is not defined in this kind", suggestion(name, choices))
            del reader.path[1:]

    for path, name, choices in _names(kind, known):
        check(name, choices, *path)
    for name, stack in kind.stack_ups.items():
        for i, text in enumerate(stack.sum):
            term = read_term(text)
            if term is None:
                at = _descend(node, ("stack_ups", name, "sum", i))
                reader.problem(at, "bad-term", f"{text!r} is not a term", "write +slot.feature or -0.5 seat.feature")
            elif not (term.path.endswith(f".{THICK}") and term.path.split(".")[0] in kind.joints):
                check(term.path, known, "stack_ups", name, "sum", i)
    for slot, features in kind.slots.items():
        for feature, type_ in features.items():
            if type_.name not in FEATURE_TYPES:
                check(type_.name, FEATURE_TYPES, "slots", slot, feature)


def _names(kind: Kind, known: set[str]) -> Iterator[tuple[tuple[str | int, ...], str, Iterable[str]]]:
    """Every name a kind uses: where it stands, the name, what it may be."""
    with_own = known | {f"own.{path}" for path in known}
    for name, joint in kind.joints.items():
        for i, path in enumerate(joint.between):
            yield ("joints", name, "between", i), path, known
        for path in joint.when:
            yield ("joints", name, "when"), path, known
    for name, dimension in kind.dimensions.items():
        for key, path in (("give", dimension.give), ("need", dimension.need)):
            if path:
                yield ("dimensions", name, key), path, with_own
        for i, joint_name in enumerate(dimension.joints):
            yield ("dimensions", name, "joints", i), joint_name, kind.joints
        for i, stack_name in enumerate(dimension.stack_ups):
            yield ("dimensions", name, "stack_ups", i), stack_name, kind.stack_ups
        for path in dimension.when:
            yield ("dimensions", name, "when"), path, known
    for name, stack in kind.stack_ups.items():
        if stack.target and stack.target != "own":
            yield ("stack_ups", name, "target"), stack.target, known
        for path in stack.when:
            yield ("stack_ups", name, "when"), path, known
    for name, members in kind.sets.items():
        for i, slot in enumerate(members.slots):
            yield ("sets", name, "slots", i), slot, kind.slots
    for slot, supply in kind.supply.items():
        yield ("supply", slot), slot, kind.slots
        for path in supply.when:
            yield ("supply", slot, "when"), path, known
    for name, offer in kind.offers.items():
        for i, slot in enumerate(offer.has):
            yield ("offers", name, "has", i), slot, kind.slots
        for slot in offer.perhaps:
            yield ("offers", name, "perhaps"), slot, kind.slots


def _descend(node: Node, keys: Iterable[str | int]) -> Node:
    """The node at a path of keys, or the nearest above it: a single item may stand without its list."""
    for key in keys:
        inside = node.value
        if isinstance(inside, dict) and key in inside:
            node = inside[key]  # type: ignore[index]
        elif isinstance(inside, list) and isinstance(key, int):
            node = inside[key]
    return node


def feature_type(kind: Kind, path: str) -> FeatureType | None:
    """The type of the feature at slot.feature, seat.feature or own.slot.feature; None where there is none."""
    slot, _, feature = path.removeprefix("own.").partition(".")
    return (kind.seat if slot == "seat" else kind.slots.get(slot, {})).get(feature)


__all__ = [
    "PATTERN_FEATURE",
    "SHAFT_FEATURE",
    "Term",
    "check_kind",
    "feature_type",
    "read_feature_type",
    "read_rule",
    "read_term",
]
