"""What must agree within a kind: names it does not define, words a feature cannot have, and comparisons that make no sense."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator, Mapping
from typing import NamedTuple

from interchange.catalog.decode import Reader
from interchange.catalog.kind_rules import THICK, feature_type, read_term
from interchange.catalog.model import (
    ANY,
    PATTERN_FEATURE,
    QUANTITY_FEATURES,
    SHAFT_FEATURE,
    TORQUE_FEATURE,
    WORD_FEATURE,
    Derived,
    Dimension,
    FeatureType,
    Joint,
    Kind,
)
from interchange.catalog.nodes import Node, descend
from interchange.catalog.suggest import suggestion
from interchange.quantity import QuantityError, read_quantity

Keys = tuple[str | int, ...]
SEAT = "seat"
COUNT_FEATURE = "count"
WORDS = FeatureType(WORD_FEATURE)


class Fault(NamedTuple):
    """One thing wrong in a kind: where, and in the words of a problem."""

    keys: Keys
    slug: str
    text: str
    hint: str
    at_key: bool = False


def check_kind(kind: Kind, node: Node, reader: Reader) -> None:
    """Report everything in a kind that does not agree with the rest of it."""
    for fault in (*_names(kind), *_terms(kind), *_words(kind), *_comparisons(kind), *_derivations(kind), *_ratings(kind)):
        outer = list(reader.path)
        reader.path += [key for key in fault.keys if isinstance(key, str)]
        reader.problem(descend(node, fault.keys), fault.slug, fault.text, fault.hint, at_key=fault.at_key)
        reader.path = outer


def _names(kind: Kind) -> Iterator[Fault]:
    """unknown-name: what the kind uses and does not define."""
    for keys, name, choices, at_key in _used(kind):
        if name not in choices:
            hint = suggestion(name, choices) or "define it in this kind, or correct the name"
            yield Fault(keys, "unknown-name", f"{name!r} is not defined in this kind", hint, at_key)


def _features(kind: Kind) -> set[str]:
    return {f"{slot}.{feature}" for slot, features in (*kind.slots.items(), ("seat", kind.seat)) for feature in features}


def _whens(kind: Kind) -> Iterator[tuple[Keys, Mapping[str, tuple[str, ...]]]]:
    """Everything that holds only where features have certain words."""
    groups = (("joints", kind.joints), ("dimensions", kind.dimensions), ("stack_ups", kind.stack_ups), ("supply", kind.supply))
    for group, members in groups:
        for name, member in members.items():
            yield (group, name, "when"), member.when


def _used(kind: Kind) -> Iterator[tuple[Keys, str, Collection[str], bool]]:
    """Every name a kind uses: where it stands, the name, what it may be, and whether it is a key."""
    known = _features(kind)
    with_own = known | {f"own.{path}" for path in known}
    for keys, when in _whens(kind):
        for path in when:
            yield (*keys, path), path, known, True
    for name, joint in kind.joints.items():
        for i, path in enumerate(joint.between):
            yield ("joints", name, "between", i), path, known, False
        if joint.torque:
            yield ("joints", name, "torque"), joint.torque, known, False
    for name, dimension in kind.dimensions.items():
        for key, path in (("give", dimension.give), ("need", dimension.need)):
            if path:
                yield ("dimensions", name, key), path, with_own, False
        for i, joint_name in enumerate(dimension.joints):
            yield ("dimensions", name, "joints", i), joint_name, kind.joints, False
        for i, stack_name in enumerate(dimension.stack_ups):
            yield ("dimensions", name, "stack_ups", i), stack_name, kind.stack_ups, False
    for name, stack in kind.stack_ups.items():
        if stack.target and stack.target != "own":
            yield ("stack_ups", name, "target"), stack.target, known, False
    for name, members in kind.sets.items():
        for i, slot in enumerate(members.slots):
            yield ("sets", name, "slots", i), slot, kind.slots, False
    for slot in kind.supply:
        yield ("supply", slot), slot, kind.slots, True
    for name, offer in kind.offers.items():
        for i, slot in enumerate(offer.has):
            yield ("offers", name, "has", i), slot, kind.slots, False
        for slot in offer.perhaps:
            yield ("offers", name, "perhaps", slot), slot, kind.slots, True
    for path in kind.ask:
        yield ("ask", path), path, known, True
    for word, facts in kind.said.items():
        for path in facts:
            yield ("said", word, path), path, known, True
    yield from _used_by_ratings(kind, known)


def _used_by_ratings(kind: Kind, known: Collection[str]) -> Iterator[tuple[Keys, str, Collection[str], bool]]:
    """The names used by what follows from other features, by height and by ways of breaking."""
    seat = {path for path in known if path.startswith(f"{SEAT}.")}
    for name, dimension in kind.dimensions.items():
        for path in dimension.moves:
            yield ("dimensions", name, "moves", path), path, seat, True
    for name, rule in kind.derive.items():
        yield ("derive", name), name, known, True
        for key, paths in (("of", rule.of), ("times", rule.times), ("over", rule.over)):
            for i, path in enumerate(paths):
                yield ("derive", name, key, i), path, known, False
    if kind.altitude:
        for i, path in enumerate(kind.altitude.features):
            yield ("altitude", "features", i), path, known, False
        yield ("altitude", "by"), kind.altitude.by, set(known) - seat, False
    for name, way in kind.ways.items():
        for i, broken in enumerate(way.not_after):
            yield ("ways", name, "not_after", i), broken, kind.failures, False
    for name, failure in kind.failures.items():
        for i, broken in enumerate(failure.repair.not_after if failure.repair else ()):
            yield ("failures", name, "repair", "not_after", i), broken, kind.failures, False
        for i, slot in enumerate(failure.spoils):
            yield ("failures", name, "spoils", i), slot, kind.slots, False
        for slot in failure.doubts:
            yield ("failures", name, "doubts", slot), slot, kind.slots, True


def _terms(kind: Kind) -> Iterator[Fault]:
    """bad-term and unknown-name: the terms of the stack-ups."""
    known = _features(kind)
    for name, stack in kind.stack_ups.items():
        for i, text in enumerate(stack.sum):
            keys = ("stack_ups", name, "sum", i)
            term = read_term(text)
            if term is None:
                yield Fault(keys, "bad-term", f"{text!r} is not a term", "write +slot.feature, -joint.thick or -0.5 seat.feature")
                continue
            slot, _, feature = term.path.partition(".")
            if term.path not in known and not (feature == THICK and slot in kind.joints):
                hint = suggestion(term.path, known) or "define it in this kind, or correct the name"
                yield Fault(keys, "unknown-name", f"{term.path!r} is not defined in this kind", hint)


def _words(kind: Kind) -> Iterator[Fault]:
    """unknown-word: a word that its feature cannot have."""
    for keys, when in _whens(kind):
        for path, words in when.items():
            yield from _closed(kind, (*keys, path), path, words)
    for word, facts in kind.said.items():
        for path, told in facts.items():
            yield from _closed(kind, ("said", word, path), path, (told,))
    for path, rule in kind.derive.items():
        for i, row in enumerate(rule.rows):
            for j, (column, word) in enumerate(zip((*rule.of, path), row, strict=False)):
                if word != ANY or column == path:
                    yield from _closed(kind, ("derive", path, "rows", i, j), column, (word,))
    if kind.altitude:
        for word in kind.altitude.losses:
            for fault in _closed(kind, ("altitude", "losses", word), kind.altitude.by, (word,)):
                yield fault._replace(keys=fault.keys[:-1], at_key=True)
    for name, dimension in kind.dimensions.items():
        for i, pair in enumerate(dimension.rule.pairs if dimension.rule else ()):
            keys = ("dimensions", name, "rule", "pairs", i)
            for side, path in enumerate((dimension.give, dimension.need)):
                yield from _closed(kind, (*keys, side), path, pair[side : side + 1])


def _closed(kind: Kind, keys: Keys, path: str, words: Iterable[str]) -> Iterator[Fault]:
    type_ = feature_type(kind, path)
    for i, word in enumerate(words):
        if type_ and type_.words and word not in type_.words:
            yield Fault((*keys, i), "unknown-word", f"{path} is never {word!r}", suggestion(word, type_.words))


def _comparisons(kind: Kind) -> Iterator[Fault]:
    """bad-joint and bad-dimension: what cannot be compared. Names that are not defined are told already."""
    for name, joint in kind.joints.items():
        sorts = {type_.name for path in joint.between if (type_ := feature_type(kind, path))}
        if len(joint.between) != 2 or len(sorts) > 1 or sorts - {PATTERN_FEATURE, SHAFT_FEATURE}:  # noqa: PLR2004 - two faces
            text = "a joint is between two patterns, or between two shafts"
            yield Fault(("joints", name, "between"), "bad-joint", text, "write between: [slot.feature, slot.feature]")
        yield from _load(kind, name, joint)
        for i, turn in enumerate(joint.clock):
            if turn != "any":
                yield from _turn(("joints", name, "clock", i), turn)
    for name, dimension in kind.dimensions.items():
        text = _no_sense(kind, dimension)
        if text:
            hint = "write give, need and rule; or joints; or stack_ups"
            yield Fault(("dimensions", name), "bad-dimension", text, hint, at_key=True)


def _load(kind: Kind, name: str, joint: Joint) -> Iterator[Fault]:
    """What a joint must carry: a torque, and only between shafts. A feature that is not defined is told already."""
    load = feature_type(kind, joint.torque) if joint.torque else None
    if load is None:
        return
    keys = ("joints", name, "torque")
    if load.name != TORQUE_FEATURE:
        text = f"{joint.torque} is a {load.name}, and a joint carries a torque"
        yield Fault(keys, "bad-joint", text, "name a feature whose type is torque")
    elif any((type_ := feature_type(kind, path)) and type_.name == PATTERN_FEATURE for path in joint.between):
        yield Fault(keys, "bad-joint", "only a joint between two shafts has a torque", "leave it out of a joint between faces")


def _turn(keys: Keys, turn: str) -> Iterator[Fault]:
    try:
        read_quantity(turn, "angle")
    except QuantityError as error:
        yield Fault(keys, "bad-figure", error.message, "write angles such as 0 deg, or any")


def _no_sense(kind: Kind, dimension: Dimension) -> str:
    """Why a dimension decides nothing; empty where it does."""
    compares = (bool(dimension.give), bool(dimension.need), dimension.rule is not None)
    if any(compares) != all(compares):
        return "give, need and rule go together"
    if not any(compares) and not dimension.joints and not dimension.stack_ups:
        return "a dimension compares two features, or stands for joints or stack-ups"
    give, need = (feature_type(kind, path) if path else None for path in (dimension.give, dimension.need))
    if give is None or need is None or dimension.rule is None:
        return ""
    if give.name != need.name:
        return f"{dimension.give} is a {give.name} and {dimension.need} a {need.name}: they cannot be compared"
    if give.name in (PATTERN_FEATURE, SHAFT_FEATURE):
        return "patterns and shafts go together in joints, not by a rule"
    is_word = give.name == WORD_FEATURE
    if (dimension.rule.name == "pairs") != is_word and dimension.rule.name != "same":
        return f"the rule {dimension.rule.name!r} is not for a {give.name}"
    return ""


def _derivations(kind: Kind) -> Iterator[Fault]:
    """bad-derive: what cannot follow. Names that are not defined are told already."""
    for path, rule in kind.derive.items():
        text, hint = _cannot_follow(kind, path, rule)
        if text:
            yield Fault(("derive", path), "bad-derive", text, hint, at_key=True)


def _cannot_follow(kind: Kind, path: str, rule: Derived) -> tuple[str, str]:
    """Why nothing can follow by a rule, and how to mend it; two empty words where all is well."""
    inputs = (*rule.of, *rule.times, *rule.over)
    is_table, is_product = bool(rule.of or rule.rows), bool(rule.times or rule.over or rule.unit)
    if is_table == is_product or (is_table and not (rule.of and rule.rows)) or (is_product and not (rule.times and rule.unit)):
        return "a derived value is a table or a product", "write of and rows; or times, over, factor and unit"
    if len({name.partition(".")[0] for name in (path, *inputs)}) > 1:
        return "a value follows only from its own slot, or from the seat", "the rest may come from another unit"
    if path in inputs:
        return f"{path} cannot follow from itself", "take it out of what it goes by"
    types = {name: type_ for name in (path, *inputs) if (type_ := feature_type(kind, name))}
    if is_table:
        odd = next((name for name, type_ in types.items() if type_.name not in (WORD_FEATURE, COUNT_FEATURE)), "")
        if odd or types.get(path, WORDS).name != WORD_FEATURE:
            return f"{odd or path} is a {types[odd or path].name}", "a table goes by words and counts, and gives a word"
        if any(len(row) != len(rule.of) + 1 for row in rule.rows):
            return f"a row here has {len(rule.of) + 1} words", "one for each feature, or any, and last what follows"
        counts = [i for i, name in enumerate(rule.of) if name in types and types[name].name == COUNT_FEATURE]
        odd = next((row[i] for row in rule.rows for i in counts if row[i] != ANY and not row[i].isdecimal()), "")
        if odd:
            return f"{odd!r} is not a count", "write a number, or any"
        return "", ""
    odd = next((name for name, type_ in types.items() if type_.name not in QUANTITY_FEATURES), "")
    if odd:
        return f"{odd} is a {types[odd].name}", "a product is of figures"
    if path in types:
        try:
            read_quantity(f"1 {rule.unit}", types[path].name)
        except QuantityError as error:
            return f"{rule.unit!r} is no unit of {types[path].name}", error.hint
    return "", ""


def _ratings(kind: Kind) -> Iterator[Fault]:
    """bad-rating: what goes in proportion, or falls with height, is a figure; what decides how much is a word."""
    for name, dimension in kind.dimensions.items():
        for path in dimension.moves:
            type_ = feature_type(kind, path)
            if type_ and type_.name not in QUANTITY_FEATURES:
                text = f"{path} is a {type_.name}: it goes in proportion to nothing"
                yield Fault(("dimensions", name, "moves", path), "bad-rating", text, "name a figure of the seat", at_key=True)
        if dimension.moves and not dimension.rule:
            text = "nothing goes in proportion to joints or stack-ups"
            yield Fault(("dimensions", name, "moves"), "bad-rating", text, "write give, need and rule", at_key=True)
    if kind.altitude:
        for i, path in enumerate(kind.altitude.features):
            type_ = feature_type(kind, path)
            if type_ and type_.name not in QUANTITY_FEATURES:
                text = f"{path} is a {type_.name}: height takes nothing of it"
                yield Fault(("altitude", "features", i), "bad-rating", text, "name a power or torque")
        by = feature_type(kind, kind.altitude.by)
        if by and by.name != WORD_FEATURE:
            yield Fault(("altitude", "by"), "bad-rating", f"{kind.altitude.by} is a {by.name}", "name a word feature")
