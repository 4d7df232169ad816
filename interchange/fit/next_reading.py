"""The one further reading that would settle best which shape it is: the most expected information among those that can be taken.

Information is how much less open the choice is expected to be afterwards (mutual information, in bits): for a count by all its
outcomes, for a length by Gauss-Hermite quadrature about what each candidate should read.
"""

from __future__ import annotations

from collections.abc import Collection, Sequence
from typing import NamedTuple

from interchange.catalog.figure import READING_TOLERANCE_MM
from interchange.fit.candidate import Candidate
from interchange.fit.identify import Identified, density, entropy_bits, sigma_mm
from interchange.fit.part_sort import BY_NAME
from interchange.fit.taken import COUNTED, KINDS, Reading, ReadingKind

PART = "part"
CALIPER_OPENS_MM = 150.0  # a 6 in caliper, what a tool box has: a judgement
REGISTERS = ("bore", "spigot")
HEARD = frozenset({"circle"})  # comes from somebody else, and cannot be taken off the part
SMALL = 0.002
"""Shapes less likely than this no longer count for what to ask."""
MOST_ASKED = 60
WORTH_BITS = 0.01
# Five nodes and weights of Gauss-Hermite quadrature for a normal of σ = 1: exact for polynomials up to degree nine.
NODES = ((0.0, 8 / 15), (1.3556262, 0.2220759), (-1.3556262, 0.2220759), (2.8569700, 0.0112574), (-2.8569700, 0.0112574))


class Worth(NamedTuple):
    """What a further reading is expected to bring."""

    name: str
    """The reading's, or ``part``: say which part it is."""
    bits: float
    by: str
    """How it would be taken."""
    outcomes: tuple[tuple[str, float | str], ...]
    """(candidate's id, what it should read) for the likeliest, those of which it is known."""


def next_readings(found: Identified, cannot: Collection[str] = (), *, part_known: bool = False) -> tuple[Worth, ...]:
    """Every further reading that would tell something, the best first; of equal worth, what is easier stands first."""
    open_ = [each for each in found.standings if each.chance >= SMALL][:MOST_ASKED]
    if not open_:
        return ()
    whole = sum(each.chance for each in open_)
    candidates = [each.candidate for each in open_]
    chances = [each.chance / whole for each in open_]
    taken = {reading.kind.name for reading in found.readings}
    worths = [] if part_known or PART in cannot else [_which_part(candidates, chances)]
    rooms = {each.room for each in candidates}
    barred = {*taken, *cannot, *HEARD, *_partners(candidates, taken)}
    kinds = [kind for kind in KINDS.values() if kind.room in rooms and kind.name not in barred]
    worths += [(_count if kind.counted else _length)(kind, candidates, chances) for kind in kinds]
    return tuple(sorted((each for each in worths if each.bits >= WORTH_BITS), key=lambda each: -round(each.bits, 2)))


def _partners(candidates: Sequence[Candidate], taken: Collection[str]) -> frozenset[str]:
    """Sides of the register that are not this part's: those that no candidate has, and both where either was read."""
    own = {name for each in candidates for name in each.expected if name not in each.partners}
    read = any(name in taken for name in REGISTERS)
    return frozenset(name for name in REGISTERS if read or name not in own)


def _which_part(candidates: Sequence[Candidate], chances: Sequence[float]) -> Worth:
    """To say which part it is costs a look: a shape of several parts, or of none that is known, stays with any answer."""
    names = sorted({name for each in candidates for name in each.sorts})
    after = weight = 0.0
    for name in names:
        kept = [chance if not each.sorts or name in each.sorts else 0.0 for each, chance in zip(candidates, chances, strict=True)]
        share = sum(kept)
        weight += share
        after += share * entropy_bits([chance / share for chance in kept])
    bits = entropy_bits(chances) - after / weight if weight else 0.0
    titles = ((each.id, " or ".join(BY_NAME[name].title for name in sorted(each.sorts))) for each in candidates if each.sorts)
    return Worth(PART, bits, "a look", tuple(titles))


def _count(kind: ReadingKind, candidates: Sequence[Candidate], chances: Sequence[float]) -> Worth:
    """All counts that any candidate has."""
    counts = sorted({expected.value for each in candidates for expected in each.expected.get(kind.name, ())})
    readings = [(Reading(kind, count, 0.0, "", COUNTED), None) for count in counts]
    after, weight = 0.0, 0.0
    for reading, _ in readings:
        likely = [chance * density(each, reading) for each, chance in zip(candidates, chances, strict=True)]
        share = sum(likely)
        weight += share
        after += share * entropy_bits([each / share for each in likely])
    bits = entropy_bits(chances) - after / weight if weight else 0.0
    return Worth(kind.name, bits, COUNTED, _outcomes(kind, candidates))


def _length(kind: ReadingKind, candidates: Sequence[Candidate], chances: Sequence[float]) -> Worth:
    """About what each candidate should read; one of which nothing is known may read anything, and stays as likely as it is."""
    by, tolerance = _hand(kind, candidates)
    after = weight = 0.0
    for each, chance in zip(candidates, chances, strict=True):
        expected = each.expected.get(kind.name, ())
        for one in expected:
            sigma = sigma_mm(one, tolerance)
            for node, share in NODES:
                reading = Reading(kind, max(one.value + node * sigma, 0.1), tolerance, "", by)
                likely = [of * density(other, reading) for other, of in zip(candidates, chances, strict=True)]
                whole = sum(likely)
                after += chance / len(expected) * share * entropy_bits([part / whole for part in likely])
                weight += chance / len(expected) * share
    bits = weight * entropy_bits(chances) - after if weight else 0.0
    return Worth(kind.name, bits, by, _outcomes(kind, candidates))


def _hand(kind: ReadingKind, candidates: Sequence[Candidate]) -> tuple[str, float]:
    """How a length would be read: a depth with a depth gauge, what a caliper spans with a caliper, the rest with a tape."""
    sizes = [expected.value for each in candidates for expected in each.expected.get(kind.name, ())]
    by = "depth gauge" if kind.name == "depth" else "caliper" if sizes and max(sizes) <= CALIPER_OPENS_MM else "tape"
    return by, READING_TOLERANCE_MM[by]


def _outcomes(kind: ReadingKind, candidates: Sequence[Candidate]) -> tuple[tuple[str, float | str], ...]:
    return tuple((each.id, each.expected[kind.name][0].value) for each in candidates if each.expected.get(kind.name))
