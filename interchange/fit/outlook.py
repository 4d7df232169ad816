"""The whole catalog against one seat at once, in SQL: what agrees, what differs, what stops, and how often such pairs agree."""

from __future__ import annotations

import functools
from collections.abc import Callable, Iterable, Iterator, Sequence
from pathlib import Path
from typing import TYPE_CHECKING, NamedTuple

from interchange.catalog.features import SEAT
from interchange.catalog.figure import Figure
from interchange.catalog.kind_rules import feature_type
from interchange.catalog.model import WORD_FEATURE, Dimension
from interchange.fit.case import OWN_PREFIX, Case, Chance, slot_of
from interchange.fit.factor import CORE, COST_ONLY, Factor, applies_to_seat, find_joint
from interchange.fit.rating import limits

if TYPE_CHECKING:
    import duckdb

PRIOR_WEIGHT = 2.0  # as if two pairs had been seen, one of which agrees: a judgement
SQL = Path(__file__).parent / "sql"


@functools.cache
def _sql(name: str) -> str:
    return (SQL / f"{name}.sql").read_text(encoding="utf-8")


class Stopped(NamedTuple):
    """A variant that something outright stops."""

    unit: str
    variant: str
    title: str
    give: str
    need: str


class Asked(NamedTuple):
    """A dimension of the core, and what it lets a unit have: words, or a range; neither where what is needed is not known."""

    dimension: str
    title: str
    position: int
    give: str
    need: str | None
    words: list[str] | None = None
    least: float | None = None
    most: float | None = None


class Mating(NamedTuple):
    """A joint of the core with a face or shaft that is there already."""

    factor: Factor
    end: str
    """The core's feature."""
    need: Figure
    flipped: bool
    """Whether the core's is the second of the joint's two ends."""


class Mated(NamedTuple):
    """What geometry says of one face or shaft in one joint."""

    joint: str
    position: int
    end: str
    ref: str
    state: str


class Outlook:
    """What SQL says of every unit of a kind for one seat. Keeps a temporary table of its connection, made anew each time."""

    def __init__(
        self, connection: duckdb.DuckDBPyConnection, case: Case, load: Callable[[Iterable[str]], None] | None = None
    ) -> None:
        """``load`` is told beforehand which faces and shafts will be asked for."""
        self.case = case
        self._load = load
        self._chances: dict[str, dict[str, Chance]] = {}
        matings = list(self._matings())
        asked = list(self._asked())
        connection.execute(_sql("finding"), self._bound(asked, self._mated(connection, matings)))
        titles = {each.dimension: (each.title, each.need or "") for each in asked}
        titles |= {mating.factor.name: (mating.factor.name.replace("_", " "), mating.need.text) for mating in matings}
        joints = [mating.factor.name for mating in matings if self._stopping_joint(mating)]
        rows = connection.execute(_sql("stopped"), {"stopping": [*self._stopping_dimensions(), *joints]}).fetchall()
        self._stopped = {
            (unit, variant): Stopped(unit, variant, titles[name][0], give, titles[name][1]) for unit, variant, name, give in rows
        }
        self.counts = {(row[0], row[1]): (row[2], row[3]) for row in connection.execute(_sql("agreement")).fetchall()}

    def _bound(self, asked: Sequence[Asked], mated: Sequence[Mated]) -> dict[str, object]:
        """Everything as lists, because DuckDB is slow at rows one by one."""
        return {
            "kind": self.case.kind.id,
            "dimensions": [each.dimension for each in asked],
            "positions": [each.position for each in asked],
            "gives": [each.give for each in asked],
            "words": [each.words for each in asked],
            "least": [each.least for each in asked],
            "most": [each.most for each in asked],
            "joints": [each.joint for each in mated],
            "joint_positions": [each.position for each in mated],
            "ends": [each.end for each in mated],
            "refs": [each.ref for each in mated],
            "states": [each.state for each in mated],
        }

    def _asked(self) -> Iterator[Asked]:
        """Dimensions that the machine alone says apply, of what a unit has against the machine or the dead unit."""
        for position, (name, dimension) in enumerate(self.case.kind.dimensions.items()):
            asks = slot_of(dimension.need) == SEAT or dimension.need.startswith(OWN_PREFIX)
            of_unit = slot_of(dimension.give) in self.case.kind.slots
            if dimension.rule and of_unit and asks and applies_to_seat(dimension.when, self.case):
                yield self._wanted(Asked(name, dimension.title, position, dimension.give, None), dimension)

    def _wanted(self, asked: Asked, dimension: Dimension) -> Asked:
        """With what a unit may have there."""
        own = dimension.need.startswith(OWN_PREFIX)
        need = self.case.own.get(dimension.need.removeprefix(OWN_PREFIX)) if own else self.case.seat.get(dimension.need)
        rule = dimension.rule
        if need is None or need.others or rule is None:
            return asked
        asked = asked._replace(need=need.text)
        if rule.name == "pairs":
            return asked._replace(words=[give for give, wanted in rule.pairs if wanted == need.text])
        type_ = feature_type(self.case.kind, dimension.give)
        if need.quantity is None or (type_ and type_.name == WORD_FEATURE):
            return asked._replace(words=[need.text.lower()])
        least, most = limits(rule, need)
        return asked._replace(least=least, most=most)

    def _matings(self) -> Iterator[Mating]:
        """Joints of a unit's part with the machine, and of its core with what the dead unit brings to it."""
        for name, joint in self.case.kind.joints.items():
            ends = (joint.between[0], joint.between[1])
            for end, other in (ends, ends[::-1]):
                seat = slot_of(other) == SEAT
                need = self.case.seat.get(other) if seat else self.case.own.get(other)
                ours = slot_of(end) != SEAT if seat else slot_of(end) == CORE != slot_of(other)
                if need is not None and ours and applies_to_seat(joint.when, self.case):
                    yield Mating(Factor(name, ends, (), joint=joint), end, need, end != ends[0])
                    break

    def _mated(self, connection: duckdb.DuckDBPyConnection, matings: Sequence[Mating]) -> list[Mated]:
        """Every distinct face against what it must suit; one face serves many units."""
        bound = {"kind": self.case.kind.id, "features": sorted({mating.end for mating in matings})}
        faces = connection.execute(_sql("faces"), bound).fetchall() if matings else []
        if self._load:
            self._load(ref for _, ref in faces)
        first = len(self.case.kind.dimensions)
        found: list[Mated] = []
        for position, mating in enumerate(matings, first):
            for feature, ref in faces:
                if feature == mating.end:
                    give = Figure(ref=ref)
                    pair = (mating.need, give) if mating.flipped else (give, mating.need)
                    state = find_joint(self.case, mating.factor, *pair).state
                    found.append(Mated(mating.factor.name, position, feature, ref, state))
        return found

    def _stopping_dimensions(self) -> Iterator[str]:
        """Dimensions of the core that end it where they differ: not only cost, and nothing in the catalog mends them."""
        for name, dimension in self.case.kind.dimensions.items():
            of_core = dimension.rule and slot_of(dimension.give) == CORE
            if of_core and dimension.otherwise != COST_ONLY and not self._mended(dimension.remedies):
                yield name

    def _stopping_joint(self, mating: Mating) -> bool:
        """Whether a joint ends it where it differs: the core's with the machine itself, and no remedy or adapter for it."""
        name, joint = mating.factor.name, self.case.kind.joints[mating.factor.name]
        with_seat = slot_of(mating.end) == CORE and any(slot_of(end) == SEAT for end in joint.between)
        adapted = joint.most_adapters and any(adapter.joint == name for adapter in self.case.adapters)
        return with_seat and not adapted and not self._mended(joint.remedies)

    def _mended(self, remedies: Iterable[str]) -> bool:
        return any(name in self.case.remedies for name in remedies)

    def stopped(self) -> dict[tuple[str, str], Stopped]:
        """Every variant that something outright stops, with the reason that comes first."""
        return self._stopped

    def chances(self, maker: str) -> dict[str, Chance]:
        """For each dimension and joint, how likely a unit of this maker agrees where that is not known.

        Smoothed: pairs of the same maker, drawn towards those of all makers, drawn towards even.
        """
        if maker not in self._chances:
            self._chances[maker] = {name: self._chance(name, maker) for name in {dimension for dimension, _ in self.counts}}
        return self._chances[maker]

    def _chance(self, name: str, maker: str) -> Chance:
        agree, known = self.counts.get((name, None), (0, 0))
        overall = (agree + PRIOR_WEIGHT / 2) / (known + PRIOR_WEIGHT)
        same_agree, same_known = self.counts.get((name, maker), (0, 0)) if maker else (0, 0)
        value = (same_agree + PRIOR_WEIGHT * overall) / (same_known + PRIOR_WEIGHT)
        same = f", {same_agree} of {same_known} of this maker" if same_known else ""
        return Chance(value, f"{agree} of {known} known in the catalog agree{same}")
