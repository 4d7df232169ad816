"""A figure, word or reference as a catalog holds it: what was written, and where it comes from."""

from __future__ import annotations

from typing import NamedTuple

from interchange.quantity import Quantity

READINGS = ("standard", "handbook", "caliper", "depth gauge", "tape", "photo")
BASES = ("published", "measured", "said", "heard", "judgement", "memory")
WEAK_BASES = frozenset({"said", "heard", "judgement", "memory"})

# What a way of reading is good for, ± mm. Tape on a casting 1/16 in, depth 0.02 in, caliper 0.005 in: judgement. A standard
# or a handbook prints its own limits, so it adds nothing; a photo gives no length.
READING_TOLERANCE_MM = {"standard": 0.0, "handbook": 0.0, "caliper": 0.127, "depth gauge": 0.508, "tape": 1.5875}

BASIS_WORDS = {
    "published": "published",
    "measured": "measured",
    "said": "the seller says",
    "heard": "hearsay",
    "judgement": "a judgement",
    "memory": "from memory, unconfirmed",
}


class Where(NamedTuple):
    """A place in a user's file, counted from 1."""

    file: str
    line: int
    column: int

    def __str__(self) -> str:
        return f"{self.file}:{self.line}:{self.column}"


NOWHERE = Where("", 0, 0)


class Origin(NamedTuple):
    """Where a figure comes from: how it was read, on what basis, from whom, when."""

    read: str = ""
    basis: str = ""
    source: str = ""
    on: str = ""

    def over(self, outer: Origin) -> Origin:
        """This origin, with what it leaves out taken from the outer one.

        A figure with a basis of its own was not read the way the others were: it inherits no reading, and so no tolerance.
        """
        read = self.read if self.basis else self.read or outer.read
        return Origin(read, self.basis or outer.basis, self.source or outer.source, self.on or outer.on)

    def __str__(self) -> str:
        parts = (BASIS_WORDS.get(self.basis, ""), self.source, self.read and f"read by {self.read}", self.on)
        return ", ".join(filter(None, parts)) or "no origin given"


NO_ORIGIN = Origin()


class Figure(NamedTuple):
    """One known thing about a part: a quantity (with a speed, for a rating), a word, or a reference.

    ``others`` holds what further sources say where sources differ. A thing not known has no figure at all. A tuple, because
    a large catalog has half a million: a frozen dataclass takes three times as long to make.
    """

    quantity: Quantity | None = None
    speed_rpm: float | None = None
    word: str = ""
    ref: str = ""
    origin: Origin = NO_ORIGIN
    where: Where = NOWHERE
    others: tuple[Figure, ...] = ()

    @property
    def value(self) -> float:
        """The quantity in its base unit.

        Raises ValueError where the figure is a word or a reference.
        """
        if self.quantity is None:
            raise ValueError(f"{self.text!r} is not a quantity")
        return self.quantity.value

    @property
    def ends(self) -> tuple[float, float]:
        """The least and the most it can be: the ends of a range, or the value, with the tolerance where one is known."""
        value = self.value
        quantity, more = self.quantity, self.tolerance or 0.0
        if quantity is None or quantity.low is None or quantity.high is None:
            return value - more, value + more
        return quantity.low - more, quantity.high + more

    @property
    def low(self) -> float:
        """The least it can be."""
        return self.ends[0]

    @property
    def high(self) -> float:
        """The most it can be."""
        return self.ends[1]

    @property
    def tolerance(self) -> float | None:
        """± in the base unit: written, or from the way it was read; None where unknown."""
        if self.quantity is None:
            return None
        if self.quantity.tolerance is not None:
            return self.quantity.tolerance
        if self.quantity.dimension == "length":
            return READING_TOLERANCE_MM.get(self.origin.read)
        return None

    @property
    def text(self) -> str:
        """As written."""
        if self.quantity is not None:
            return self.quantity.text
        return self.word or self.ref

    @property
    def readings(self) -> tuple[Figure, ...]:
        """This figure and what other sources say instead."""
        return (self, *self.others)

    @property
    def caveat(self) -> str:
        """A short warning where the figure is weak or disputed; empty where it stands."""
        if self.others:
            return "sources differ: " + " / ".join(f"{f.text} ({f.origin})" for f in self.readings)
        if self.origin.basis in WEAK_BASES:
            return BASIS_WORDS[self.origin.basis]
        return ""
