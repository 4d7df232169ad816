"""Features that follow from others: a table of words, or a product of figures. What is written always stands before them.

A derived value rests on features of one slot, or of the seat, so that it means the same whoever supplies the rest. It keeps
the weakest basis of what it is made from; ranges and disputed figures are carried through.
"""

from __future__ import annotations

import itertools
import math
from collections.abc import Iterator, Mapping
from typing import TYPE_CHECKING

from interchange.catalog.figure import BASES, Figure, Origin
from interchange.catalog.kind_rules import feature_type
from interchange.catalog.model import ANY, Derived, Kind
from interchange.errors import Problem
from interchange.quantity import Quantity, read_quantity

if TYPE_CHECKING:
    from interchange.catalog.model import Features

MOST_COMBINED = 64  # of disputed figures: beyond that it is not worth a sum, and not known
DISAGREES_BY = 0.05  # a written figure this far from the derived one is worth a word: a judgement, plates are rounded
THOUSAND = 1000
SEAT = "seat"


def derived(kind: Kind, features: Features, owner: str) -> Features:
    """The features that follow and are not written; ``owner`` is seat for a seat's features, else empty.

    One may rest on another, in whatever order the kind gives them: it is gone round until nothing more follows.
    """
    open_ = {path: rule for path, rule in kind.derive.items() if _of(path, owner) and path not in features}
    found: Features = {}
    while open_:
        made = {path: figure for path, rule in open_.items() if (figure := follow(kind, path, rule, {**features, **found}))}
        if not made:
            break
        found |= made
        open_ = {path: rule for path, rule in open_.items() if path not in made}
    return found


def _of(path: str, owner: str) -> bool:
    return path.startswith(f"{SEAT}.") == (owner == SEAT)


def disagreements(kind: Kind, features: Features, name: str) -> Iterator[Problem]:
    """derived-disagrees: what is written is not what follows from the rest. ``name`` says whose features they are."""
    told: set[frozenset[str]] = set()
    for path, rule in kind.derive.items():
        written = features.get(path)
        if written is None:
            continue
        rest = {name: figure for name, figure in features.items() if name != path}
        figure = follow(kind, path, rule, rest | derived(kind, rest, path.partition(".")[0]))
        same_sum = frozenset((path, *rule.of, *rule.times, *rule.over))
        if figure is None or not _apart(written, figure) or same_sum in told:
            continue
        told.add(same_sum)
        text = f"{name}{path} is {written.text}, but {figure.text} {figure.origin.source.partition(':')[0]}"
        yield Problem(*written.where, "derived-disagrees", text, "one of them is misread; leave out what follows from the others")


def _apart(written: Figure, figure: Figure) -> bool:
    """Whether no reading of the one can be a reading of the other."""
    return all(_differ(one, other) for one in written.readings for other in figure.readings)


def _differ(one: Figure, other: Figure) -> bool:
    if one.quantity is None or other.quantity is None:
        return one.text.casefold() != other.text.casefold()
    slack = DISAGREES_BY * abs(other.value)
    return one.high < other.low - slack or one.low > other.high + slack


def follow(kind: Kind, path: str, rule: Derived, features: Mapping[str, Figure]) -> Figure | None:
    """What one rule makes of the features; None where that is not known."""
    inputs = (*rule.of, *rule.times, *rule.over)
    known = [features[name] for name in inputs if name in features]
    if not known:
        return None
    if rule.of:
        choices = [features[name].readings if name in features else (None,) for name in rule.of]
    elif len(known) < len(inputs):
        return None
    else:
        choices = [figure.readings for figure in known]
    if math.prod(map(len, choices)) > MOST_COMBINED:
        return None
    made: list[Figure] = []
    for chosen in itertools.product(*choices):
        figure = _looked_up(rule, chosen) if rule.of else _product(kind, path, rule, [one for one in chosen if one])
        if figure is None:
            return None
        if all((figure.word, figure.quantity) != (other.word, other.quantity) for other in made):
            made.append(_with_origin(figure, rule, inputs, features, chosen))
    return made[0]._replace(others=tuple(made[1:]))


def _with_origin(
    figure: Figure, rule: Derived, inputs: tuple[str, ...], features: Mapping[str, Figure], chosen: tuple[Figure | None, ...]
) -> Figure:
    """With where it comes from: what it follows from, on the weakest ground that any of that has."""
    used = [(name, one) for name, one in zip(inputs, chosen, strict=True) if one is not None]
    bases = [one.origin.basis for _, one in used if one.origin.basis]
    basis = max(bases, key=BASES.index, default="")
    source = "follows from " + " and ".join(f"{_short(name)} {one.text}" for name, one in used)
    return figure._replace(
        origin=Origin(basis=basis, source=f"{source}: {rule.note}" if rule.note else source),
        where=next(features[name].where for name, _ in used),
    )


def _short(path: str) -> str:
    return path.partition(".")[2].replace("_", " ")


def _looked_up(rule: Derived, chosen: tuple[Figure | None, ...]) -> Figure | None:
    """The last word of the first row that holds; None where it hangs on what is not known."""
    found: set[str] = set()
    for row in rule.rows:
        cells = row[: len(rule.of)]
        matches = [_matches(cell, figure) for cell, figure in zip(cells, chosen, strict=False)]
        if False in matches or len(row) != len(rule.of) + 1:
            continue
        found.add(row[-1])
        if None not in matches:
            return Figure(word=row[-1]) if len(found) == 1 else None
    return None


def _matches(cell: str, figure: Figure | None) -> bool | None:
    """Whether a cell of a row holds; None where the figure is not known."""
    if cell == ANY:
        return True
    return None if figure is None else figure.text.casefold() == cell.casefold()


def _product(kind: Kind, path: str, rule: Derived, chosen: list[Figure]) -> Figure | None:
    """Factor × figures / others, from the least it can be to the most; None where something divided by may be nothing."""
    type_ = feature_type(kind, path)
    if type_ is None or any(figure.quantity is None for figure in chosen):
        return None
    above, below = chosen[: len(rule.times)], chosen[len(rule.times) :]
    if any(figure.low <= 0 <= figure.high for figure in below):
        return None
    size = read_quantity(f"1 {rule.unit}", type_.name).value * float(rule.factor)
    value = size * math.prod(one.value for one in above) / math.prod(one.value for one in below)
    ends = [one.ends for one in above] + [(1 / one.high, 1 / one.low) for one in below]
    corners = [size * math.prod(corner) for corner in itertools.product(*ends)]
    low, high = min(corners), max(corners)
    exact = high - low <= 1e-12 * abs(value)
    text = _shown(value, low, high, read_quantity(f"1 {rule.unit}", type_.name).value, exact=exact) + f" {rule.unit}"
    return Figure(quantity=Quantity(type_.name, value, None if exact else low, None if exact else high, None, text))


def _shown(value: float, low: float, high: float, unit: float, *, exact: bool) -> str:
    return _number(value / unit) if exact else f"{_number(low / unit)}-{_number(high / unit)}"


def _number(amount: float) -> str:
    """Three figures, or all of a whole number."""
    return f"{amount:,.0f}" if abs(amount) >= THOUSAND else f"{amount:.3g}"
