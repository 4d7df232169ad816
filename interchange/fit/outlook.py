"""The whole catalog against one seat at once, in SQL: what agrees, what differs, and how often such pairs agree."""

from __future__ import annotations

import functools
from collections.abc import Callable, Iterable, Iterator, Sequence
from pathlib import Path
from typing import TYPE_CHECKING, NamedTuple

from interchange.catalog.features import SEAT
from interchange.catalog.figure import Figure
from interchange.catalog.kind_rules import feature_type
from interchange.catalog.model import WORD_FEATURE, Dimension, Kind, Rule
from interchange.fit.case import CORE, NOTHING_TO_GO_BY, OWN_PREFIX, Case, Chance, slot_of
from interchange.fit.faces import state_of_ends
from interchange.fit.factor import Factor, applies_to_seat
from interchange.fit.rating import limits

if TYPE_CHECKING:
    import duckdb

PRIOR_WEIGHT = 2.0  # as if two pairs had been seen, one of which agrees: a judgement
SQL = Path(__file__).parent / "sql"


@functools.cache
def sql(name: str) -> str:
    """One of this room's queries."""
    return (SQL / f"{name}.sql").read_text(encoding="utf-8")


Counts = dict[tuple[str, str | None, str | None], tuple[int, int]]
"""(how many agree, of how many known) for a joint or dimension: of all units, of one maker's, of one unit's forms."""


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
    """What SQL says of every unit of a kind for one seat. Keeps temporary tables of its connection, made anew each time."""

    def __init__(
        self, connection: duckdb.DuckDBPyConnection, case: Case, load: Callable[[Iterable[str]], None] | None = None
    ) -> None:
        """``load`` is told beforehand which faces and shafts will be asked for."""
        self.case = case
        self._load = load
        self._chances: dict[tuple[str, str], dict[str, Chance]] = {}
        matings = list(self._matings())
        asked = list(self._asked())
        connection.execute(sql("finding"), self._bound(asked, self._mated(connection, matings)))
        connection.execute(sql("agreement"))
        counted = connection.execute("SELECT dimension, maker, unit, agree, known FROM agreement").fetchall()
        self.counts: Counts = {(name, maker, unit): (agree, known) for name, maker, unit, agree, known in counted}
        self._families = {unit for _, _, unit in self.counts if unit}

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
            if (
                dimension.rule
                and of_unit
                and asks
                and not self.case.falls_with_height(dimension.give, dimension.need)
                and applies_to_seat(dimension.when, self.case)
            ):
                yield self._wanted(Asked(name, dimension.title, position, dimension.give, None), dimension)

    def _wanted(self, asked: Asked, dimension: Dimension) -> Asked:
        """With what a unit may have there."""
        own = dimension.need.startswith(OWN_PREFIX)
        need = self.case.own.get(dimension.need.removeprefix(OWN_PREFIX)) if own else self.case.seat.get(dimension.need)
        if need is None or need.others or dimension.rule is None:
            return asked
        return Asked(*asked[:4], need.text, *answers(self.case.kind, dimension.give, dimension.rule, need))

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
        faces = connection.execute(sql("faces"), bound).fetchall() if matings else []
        if self._load:
            self._load(ref for _, ref in faces)
        first = len(self.case.kind.dimensions)
        found: list[Mated] = []
        for position, mating in enumerate(matings, first):
            for feature, ref in faces:
                if feature == mating.end:
                    give = Figure(ref=ref)
                    pair = (mating.need, give) if mating.flipped else (give, mating.need)
                    state = state_of_ends(self.case, mating.factor.name, self.case.kind.joints[mating.factor.name], *pair)
                    found.append(Mated(mating.factor.name, position, feature, ref, state))
        return found

    def chances(self, maker: str, unit: str = "") -> dict[str, Chance]:
        """For each dimension and joint, how likely a unit of this maker and family agrees where that is not known.

        Smoothed: a unit's other forms are drawn towards units of the same maker, those towards all, those towards even.
        """
        key = (maker, unit if unit in self._families else "")
        if key not in self._chances:
            self._chances[key] = {name: chance_of(self.counts, name, *key) for name in {name for name, *_ in self.counts}}
        return self._chances[key]


class Answers(NamedTuple):
    """What a rule lets a unit have: words, or a range."""

    words: list[str] | None = None
    least: float | None = None
    most: float | None = None


def answers(kind: Kind, give: str, rule: Rule, need: Figure) -> Answers:
    """What a rule lets the feature ``give`` be, for what is needed; words in lower case."""
    if rule.name == "pairs":
        return Answers([word.lower() for word, wanted in rule.pairs if wanted == need.text])
    type_ = feature_type(kind, give)
    if need.quantity is None or (type_ and type_.name == WORD_FEATURE):
        return Answers([need.text.lower()])
    return Answers(None, *limits(rule, need))


def chance_of(counts: Counts, name: str, maker: str, unit: str) -> Chance:
    """How likely a joint or dimension agrees, by what agrees in the catalog: of all, of a maker, of a unit's forms."""
    value, basis = 0.5, []
    for key, of_what in (
        ((name, None, None), "in all"),
        ((name, maker, None), "of this maker"),
        ((name, maker, unit), "of this family"),
    ):
        agree, known = counts.get(key, (0, 0)) if key[1] != "" and key[2] != "" else (0, 0)
        value = (agree + PRIOR_WEIGHT * value) / (known + PRIOR_WEIGHT)
        if known:
            basis.append(f"{agree} of {known} {of_what}")
    if not basis:
        return NOTHING_TO_GO_BY
    return Chance(value, f"known in the catalog, these agree: {', '.join(reversed(basis))}")
