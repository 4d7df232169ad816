"""Reading what only kinds have: feature types, rules, and the terms of a stack-up."""

from __future__ import annotations

import re
from typing import Any, NamedTuple

from interchange.catalog.decode import BAD, Bad, Reader, mapping_of, misspelt, one_of, text_of
from interchange.catalog.model import FEATURE_TYPES, WORD_FEATURE, Factor, FeatureType, Kind, Rule
from interchange.catalog.nodes import Node
from interchange.quantity import QuantityError, read_quantity

TERM = re.compile(r"([+-]) ?(?:([0-9]{1,3}(?:\.[0-9]{1,6})?) )?([a-z_]{1,40})\.([a-z_]{1,40})")
THICK = "thick"
SIDES = ("below", "above")
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


def read_feature_type(node: Node, reader: Reader) -> FeatureType:
    """A feature's type: one of the named ones, or a list of the words it may be.

    Once a fault in it is reported any word will do for the feature, so that the units which have it are not reported as well.
    """
    any_word = FeatureType(WORD_FEATURE)
    if isinstance(node.value, list):
        words = [text_of(child, reader) for child in node.value]
        if not words:
            reader.problem(node, "empty", "an empty list of words", "write the words, or: word")
        sound = tuple(word for word in words if not isinstance(word, Bad))
        return FeatureType(WORD_FEATURE, sound) if len(sound) == len(words) else any_word
    name = one_of(FEATURE_TYPES)(node, reader)
    return any_word if isinstance(name, Bad) else FeatureType(name)


def _limit(node: Node, reader: Reader) -> tuple[float, bool, str] | Bad:
    """How far: (amount, whether it is a share, its dimension)."""
    text = text_of(node, reader)
    if isinstance(text, Bad):
        return BAD
    for dimension in ("share", "length", "mass", "speed", "pressure", "displacement", "power", "count", "ratio"):
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
    if misspelt(sides, SIDES, reader, "a limit has no {}"):
        return BAD
    limits: dict[str, tuple[float, bool, str]] = {}
    for side, child in sides.items():
        limit = _limit(child, reader)
        if isinstance(limit, Bad):
            return BAD
        limits[side] = limit
    if not limits:
        return reader.problem(inside, "missing-limit", f"{name!r} needs a limit", "write {within: 3 %}")
    if len({limit[2] for limit in limits.values()}) != 1:
        text = "both limits must be shares, or amounts of one sort"
        return reader.problem(inside, "bad-rule", text, "write {below: 5 %, above: 15 %}")
    (_, relative, dimension), *_ = limits.values()
    below, above = (limits[side][0] if side in limits else None for side in SIDES)
    return Rule(name=name, below=below, above=above, relative=relative, by_dimension=dimension)


def _pairs(inside: Node, reader: Reader) -> Any:
    hint = "write [[stressed, frameless], [plain, framed]]"
    pairs: list[tuple[str, str]] = []
    for child in inside.value if isinstance(inside.value, list) else []:
        words = [text_of(word, reader) for word in child.value] if isinstance(child.value, list) else []
        sound = [word for word in words if not isinstance(word, Bad)]
        if len(sound) < len(words):
            return BAD
        if len(sound) != 2:  # noqa: PLR2004 - a pair
            return reader.problem(child, "bad-rule", "a pair is [what is offered, what is needed]", hint)
        pairs.append((sound[0], sound[1]))
    if not pairs:
        return reader.problem(inside, "bad-rule", "pairs need a list of pairs", hint)
    return Rule(name="pairs", pairs=tuple(pairs))


FACTOR = re.compile(r"[0-9]{1,12}(\.[0-9]{1,15})?")


def read_factor(node: Node, reader: Reader) -> Any:
    """A plain number above nothing, such as 0.001."""
    text = text_of(node, reader)
    if isinstance(text, Bad):
        return BAD
    if not FACTOR.fullmatch(text) or not float(text):
        return reader.problem(node, "bad-figure", f"{text!r} is not a number to multiply by", "write one such as 0.001")
    return Factor(text)


def feature_type(kind: Kind, path: str) -> FeatureType | None:
    """The type of the feature at slot.feature, seat.feature or own.slot.feature; None where there is none."""
    slot, _, feature = path.removeprefix("own.").partition(".")
    return (kind.seat if slot == "seat" else kind.slots.get(slot, {})).get(feature)
