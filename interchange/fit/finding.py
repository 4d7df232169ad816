"""What comparing two features gives, and the verdict a plan makes of it."""

from __future__ import annotations

from typing import NamedTuple

AGREES, DIFFERS, NOT_KNOWN = "agrees", "differs", "not known"

# Verdicts of a dimension, best first.
BOLTS_UP, ADAPTS, MACHINE_WORK, UNSURE, STOPS = "bolts up", "adapts", "machine work", "not known", "stops"
VERDICTS = (BOLTS_UP, ADAPTS, MACHINE_WORK, UNSURE, STOPS)


class Finding(NamedTuple):
    """Two features compared: whether they agree, the reason in a sentence, and what weakens it."""

    state: str
    text: str
    caveat: str = ""
    gap_mm: float | None = None
    chance: float | None = None
    """Where it is not known because readings are coarse: how likely it agrees, by the readings."""
    chance_basis: str = ""
    """What that chance rests on, in words."""
    carried_nm: float | None = None
    """What the bolts that line up all the same carry by friction, where the faces do not mate; not a fit."""

    def __bool__(self) -> bool:
        return self.state == AGREES


def worst(verdicts: tuple[str, ...]) -> str:
    """The worst of several verdicts; the best there is, of none."""
    return max(verdicts, key=VERDICTS.index, default=BOLTS_UP)


def joined(*parts: str) -> str:
    """Sentences that have something to say, in a row."""
    return "; ".join(filter(None, parts))
