"""A question about an ad: what it is about, how it is asked, and how the world may stand."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from interchange.money.worth import Answer, Truth, answers_of

if TYPE_CHECKING:
    from interchange.catalog.figure import Figure

TAPE, PHOTO, PLATE, SELLER = "tape", "photo", "plate", "seller"
FORM, SOUND, DIMENSION, PART, PRICE, PLACE = "form", "sound", "dimension", "part", "price", "place"
YOU = "you"
MISSING = (PRICE, PLACE)
"""What a total is not known without."""


class Question(NamedTuple):
    """Something that can be asked about an ad; without truths its worth is not known, because the ad's total is not."""

    about: str
    id: str
    title: str
    decides: str
    seen: str
    ask: str = ""
    """How the catalog words it; empty where it has no words of its own."""
    hoped: str = ""
    need: Figure | None = None
    """The figure on the other side."""
    truths: tuple[Truth, ...] = ()
    wrong: float = 0.0
    none: float = 0.0
    whom: str = SELLER
    """Who can answer it: the seller, or you, at your own machine."""
    own: tuple[str, ...] = ()
    """What has to be read on one's own machine besides, before the answer settles it."""

    @property
    def outcomes(self) -> tuple[Answer, ...]:
        """Each answer with its chance, and what the ad comes to then."""
        return answers_of(self.truths)
