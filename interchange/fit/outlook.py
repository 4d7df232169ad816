"""The whole catalog against one seat at once, in SQL: what agrees, what differs, what stops, and how often such pairs agree."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from interchange.catalog.features import SEAT
from interchange.catalog.kind_rules import feature_type
from interchange.catalog.model import PATTERN_FEATURE
from interchange.fit.case import MACHINE, OWN, Case, Chance, slot_of
from interchange.fit.factor import Factor, applies_to_seat, find_joint
from interchange.fit.finding import DIFFERS
from interchange.store.cache import sql
from interchange.store.rows import feature_row

if TYPE_CHECKING:
    import duckdb

    from interchange.catalog.figure import Figure

CORE = "core"
PRIOR_WEIGHT = 2.0  # as if two pairs had been seen, one of which agrees: a judgement


class Stopped(NamedTuple):
    """A variant that something outright stops."""

    unit: str
    variant: str
    title: str
    give: str
    need: str


class Outlook:
    """What SQL says of every unit of a kind for one seat. Uses temporary tables of its connection, made anew each time."""

    def __init__(self, connection: duckdb.DuckDBPyConnection, case: Case) -> None:
        self.connection = connection
        self.case = case
        self._needed()
        connection.execute(f"CREATE OR REPLACE TEMP TABLE finding AS {sql('findings')}", {"kind": case.kind.id})
        self._mating()
        self.counts = {(row[0], row[1]): (row[2], row[3]) for row in connection.execute(sql("agreement")).fetchall()}

    def _needed(self) -> None:
        """The machine's features, and the dead unit's as own.slot.feature."""
        self.connection.execute("CREATE OR REPLACE TEMP TABLE needed AS SELECT * FROM feature LIMIT 0")
        figures = {**self.case.seat, **{f"own.{path}": figure for path, figure in self.case.own.items()}}
        rows = [feature_row(0, "", "", path, figure) for path, figure in figures.items()]
        if rows:
            marks = ", ".join("?" * len(rows[0]))
            self.connection.execute("BEGIN")
            self.connection.executemany(f"INSERT INTO needed VALUES ({marks})", rows)
            self.connection.execute("COMMIT")

    def _mating(self) -> None:
        """Faces of the donor's core against what the machine or the dead unit brings to them, each distinct face once."""
        for name, joint in self.case.kind.joints.items():
            ends = (joint.between[0], joint.between[1])
            core = [end for end in ends if slot_of(end) == CORE]
            other = next((end for end in ends if slot_of(end) != CORE), None)
            if len(core) != 1 or other is None or applies_to_seat(joint.when, self.case) is False:
                continue
            need = (self.case.seat if slot_of(other) == SEAT else self.case.own).get(other)
            if need is None:
                continue
            factor = Factor(name, ends, joint=joint)
            flipped = ends[0] != core[0]
            rows = [[ref, self._state(factor, ref, count, need, flipped=flipped)] for ref, count in self._faces(core[0])]
            if not rows:
                continue
            self.connection.execute("CREATE OR REPLACE TEMP TABLE mating (ref TEXT, finding TEXT)")
            self.connection.executemany("INSERT INTO mating VALUES (?, ?)", rows)
            bound = {"joint": name, "feature": core[0], "kind": self.case.kind.id}
            self.connection.execute(f"INSERT INTO finding {sql('mated')}", bound)

    def _faces(self, feature: str) -> list[tuple[str, int | None]]:
        bound = {"feature": feature, "kind": self.case.kind.id}
        return [(row[0], row[1]) for row in self.connection.execute(sql("faces"), bound).fetchall()]

    def _state(self, factor: Factor, ref: str, count: int | None, need: Figure, *, flipped: bool) -> str:
        """What geometry says of one face; a different hole count settles it without."""
        type_ = feature_type(self.case.kind, factor.ends[0])
        if type_ and type_.name == PATTERN_FEATURE and count is not None:
            pattern = self.case.pattern(need.ref)
            needed = (len(pattern.points) or pattern.holes) if pattern else None
            if needed is not None and needed != count:
                return DIFFERS
        give = need.__class__(ref=ref)
        pair = (need, give) if flipped else (give, need)
        return find_joint(self.case, factor, *pair).state

    def stopped(self) -> dict[tuple[str, str], Stopped]:
        """Every variant that something outright stops, with the reason that comes first."""
        rows = self.connection.execute(sql("stopped")).fetchall()
        return {(row[0], row[1]): Stopped(*row) for row in rows}

    def chances(self, maker: str) -> dict[str, Chance]:
        """For each dimension and joint, how likely a unit of this maker agrees where that is not known.

        Smoothed: pairs of the same maker, drawn towards those of all makers, drawn towards even.
        """
        found: dict[str, Chance] = {}
        for name in {dimension for dimension, _ in self.counts}:
            agree, known = self.counts.get((name, None), (0, 0))
            overall = (agree + PRIOR_WEIGHT / 2) / (known + PRIOR_WEIGHT)
            same_agree, same_known = self.counts.get((name, maker), (0, 0)) if maker else (0, 0)
            value = (same_agree + PRIOR_WEIGHT * overall) / (same_known + PRIOR_WEIGHT)
            same = f", {same_agree} of {same_known} of this maker" if same_known else ""
            found[name] = Chance(value, f"{agree} of {known} known in the catalog agree{same}")
        return found


__all__ = ["MACHINE", "OWN", "Outlook", "Stopped"]
