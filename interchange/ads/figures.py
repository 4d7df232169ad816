"""An ad's text made fit to read, its title, and every number in it that stands for itself."""

from __future__ import annotations

from typing import NamedTuple

from interchange.ads.fields import Span
from interchange.ads.mended import Mended, mended
from interchange.ads.number import Labelled, Number, Phone, Taken, dates_and_addresses, labelled, numbers, phones
from interchange.ads.page import own
from interchange.ads.plain import clean
from interchange.ads.title import title_span

LONGEST_AD = 50_000


class Figures(NamedTuple):
    """A text with its markup blanked and its slips put right, and the numbers in it; spans are of ``mended.text``."""

    read_to: int
    mended: Mended
    title: Span
    phones: tuple[Phone, ...]
    labelled: tuple[Labelled, ...]
    taken: Taken
    """The stretches that are no number for itself: telephones, dates, addresses, serial numbers."""
    numbers: tuple[Number, ...]

    @property
    def text(self) -> str:
        """What is read."""
        return self.mended.text


def figures(text: str) -> Figures:
    """The figures of an ad; of a text longer than any ad only the beginning counts."""
    plain = own(clean(text[:LONGEST_AD]))
    whole = mended(plain)
    tel, named = phones(whole.text), labelled(whole.text)
    taken = Taken([*(one.span for one in tel), *(one.span for one in named), *dates_and_addresses(whole.text)])
    return Figures(len(plain), whole, title_span(whole.text), tuple(tel), tuple(named), taken, tuple(numbers(whole.text, taken)))
