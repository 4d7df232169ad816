"""Which joint of which kind two faces would stand in, where a plate can be made for it: its clearance, clockings, limits."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from typing import NamedTuple

from interchange.catalog.model import Joint, Kind, Pattern, Remedy
from interchange.catalog.suggest import suggestion
from interchange.errors import InputError
from interchange.fit.part_sort import BY_NAME, sorts_of
from interchange.fit.pattern import named
from interchange.fit.taken import PATTERNS
from interchange.store.named_face import NamedFace
from interchange.store.shapes import Use

Feature = tuple[str, str]


class PlateJoint(NamedTuple):
    """A joint for which a plate can be made."""

    name: str
    """``kind.joint``."""
    kind: str
    joint: Joint
    remedy: Remedy

    @property
    def ends(self) -> tuple[Feature, ...]:
        """Its features, as (kind, path)."""
        return tuple((self.kind, path) for path in self.joint.between)

    @property
    def rules(self) -> tuple[object, ...]:
        """What it asks of a plate: joints with the same rules are as good as one."""
        clearance = self.joint.clearance.value if self.joint.clearance else None
        return self.joint.clock, clearance, self.remedy.id


def plate_joints(kinds: Mapping[str, Kind], remedies: Mapping[str, Remedy]) -> Iterator[PlateJoint]:
    """Every joint with a remedy that makes a plate and says what it keeps to."""
    for kind in kinds.values():
        for name, joint in kind.joints.items():
            made = next((remedies[id_] for id_ in joint.remedies if id_ in remedies and remedies[id_].plate), None)
            if made:
                yield PlateJoint(f"{kind.id}.{name}", kind.id, joint, made)


def joint_of(faces: Sequence[NamedFace], joints: Sequence[PlateJoint], wanted: str | None) -> PlateJoint:
    """The joint of that name, or the one the faces stand in. Raises InputError where it cannot be told."""
    names = [each.name for each in joints]
    if wanted:
        found = next((each for each in joints if each.name == wanted), None)
        if found is None:
            raise InputError(f"no joint with a plate is called {wanted!r}", suggestion(wanted, names) or _choices(names))
        return found
    ends = [_features(face.pattern, face.use) for face in faces]
    both = [each for each in joints if _between(each, ends)]
    either = [each for each in joints if any(set(each.ends) & features for features in ends)]
    likely = both or either
    if likely and len({each.rules for each in likely}) == 1:
        return likely[0]
    what = " to ".join(named(face.pattern) for face in faces)
    raise InputError(
        f"what a plate from {what} would stand in cannot be told", f"--joint {_choices([e.name for e in likely] or names)}"
    )


def _choices(names: Sequence[str]) -> str:
    return " or ".join(names)


def _features(pattern: Pattern, use: Use | None) -> frozenset[Feature]:
    """Where a face stands, or where such faces do."""
    if use:
        return frozenset({(use.kind, use.path)})
    return frozenset(feature for name in sorts_of(PATTERNS, pattern.standard, ()) for feature in BY_NAME[name].features)


def _between(joint: PlateJoint, ends: Sequence[frozenset[Feature]]) -> bool:
    """Whether one face stands at one of its ends and the other at the other."""
    first, second = ends[0], ends[-1]
    a, b = joint.ends[0], joint.ends[-1]
    return (a in first and b in second) or (b in first and a in second)
