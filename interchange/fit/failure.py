"""What broke, and what that leaves of one's own unit: ways of breaking are known by their wordings, as the kind gives them."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING, NamedTuple

from interchange.fit.case import OWN

if TYPE_CHECKING:
    from interchange.catalog.model import Failure, Kind
    from interchange.job.job import DeadUnit

WORD = re.compile(r"[a-z0-9]+(?:'[a-z]+)?")
DENIALS = frozenset(
    {"no", "not", "never", "without", "isn't", "wasn't", "didn't", "hasn't", "doesn't", "don't", "won't", "can't", "aren't"}
)
DENIED_WITHIN = 2  # words before


class Left(NamedTuple):
    """What a failure leaves of a unit."""

    usable: frozenset[str]
    """Slots that can be carried over."""
    taken: bool
    """Whether nobody said so: the list was left out, and what broke decides."""
    failures: tuple[str, ...]
    """What broke, as people call it; empty where it is not recognised."""
    spoiled: dict[str, str]
    """Slots told to be usable that what broke spoils, each with what broke."""
    doubts: dict[str, str]
    """Usable slots to be checked first, each with the reason in words."""


def what_is_left(kind: Kind, dead: DeadUnit) -> Left:
    """What of a dead unit can be used, by what the job says and what broke."""
    broke = failures_in(kind, dead.broke, dead.failure)
    spoils = {slot: failure.title for failure in broke for slot in failure.spoils if slot not in dead.usable_anyway}
    taken = dead.usable is None
    if dead.usable is None:
        usable = frozenset(slot for slot in movable(kind) if slot not in spoils) if broke else frozenset()
    else:
        usable = frozenset(dead.usable)
    usable |= frozenset(dead.usable_anyway)
    shares: dict[str, tuple[float, str]] = {}
    for failure in broke:
        for slot, share in failure.doubts.items():
            if slot in usable and slot not in dead.usable_anyway:
                shares[slot] = min(shares.get(slot, (1.0, "")), (share, failure.title))
    doubts = {
        slot: f"check for cracks and metal first: still good in {share:.0%} after a {title}, a judgement"
        for slot, (share, title) in shares.items()
    }
    told = {slot: spoils[slot] for slot in dead.usable or () if slot in spoils}
    return Left(usable, taken, tuple(failure.title for failure in broke), told, doubts)


def movable(kind: Kind) -> tuple[str, ...]:
    """Slots that one's own unit may supply."""
    return tuple(slot for slot, supply in kind.supply.items() if OWN in supply.by)


def failures_in(kind: Kind, broke: str, named: str = "") -> tuple[Failure, ...]:
    """The ways of breaking that a text speaks of; the one named, where one is.

    The longest wording counts where several begin within one another, and none that the text denies: "not seized".
    """
    if named:
        return (kind.failures[named],) if named in kind.failures else ()
    words = WORD.findall(broke.casefold().replace("’", "'"))
    sayings = [(WORD.findall(say.casefold()), id_) for id_, failure in kind.failures.items() for say in failure.say]
    used: set[int] = set()
    found: set[str] = set()
    for saying, id_ in sorted(sayings, key=lambda each: -len(each[0])):
        for start in range(len(words) - len(saying) + 1) if saying else ():
            span = set(range(start, start + len(saying)))
            if words[start : start + len(saying)] == saying and not span & used:
                used |= span
                if not DENIALS & set(words[max(0, start - DENIED_WITHIN) : start]):
                    found.add(id_)
    return tuple(failure for id_, failure in kind.failures.items() if id_ in found)
