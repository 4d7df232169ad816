"""Words of ads that mean something, as the catalog keeps them."""

from __future__ import annotations

from dataclasses import dataclass

from interchange.catalog.figure import NO_ORIGIN, NOWHERE, Origin, Where
from interchange.catalog.model import Id, Likelihood


@dataclass(frozen=True, slots=True, kw_only=True)
class Phrase:
    """Words sellers use about a unit's health, or that call for care."""

    id: str = ""
    """The phrase's own name, such as `ran_when_parked`."""
    say: tuple[str, ...]
    """Its wordings. `a|b` is one word or the other, `(over)` may be left out; case, hyphens and apostrophes do not matter."""
    ratio: Likelihood | None = None
    """How much oftener it is said of a unit that needs no internal work than of one that does: it multiplies the odds."""
    denied: Likelihood | None = None
    """The same where the answer to a question about it is no; left out, a denial changes nothing."""
    about: Id = ""
    """What it speaks of where that can be measured, such as `cylinders`: it counts no more once that has been."""
    unit: str | None = None
    """The kind of unit it speaks of where the ad names none, such as `engine`."""
    caution: str | None = None
    """What to tell the buyer when it is found."""
    origin: Origin = NO_ORIGIN
    where: Where = NOWHERE


@dataclass(frozen=True, slots=True, kw_only=True)
class Wording:
    """Words for one thing: a sort of offer, a kind of unit, a part, a fact."""

    id: str = ""
    """The thing's own name, such as `drop_out`."""
    say: tuple[str, ...]
    """Its wordings, written as for a phrase."""
    origin: Origin = NO_ORIGIN
    where: Where = NOWHERE


WORD_ROOMS = ("offer_words", "thing_words", "part_words", "state_words", "fact_words")
