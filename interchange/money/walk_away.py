"""The walk-away price: the most to pay for what an ad offers and still do no worse than with the next best way."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING, NamedTuple

from interchange.money.bill import PRICE

if TYPE_CHECKING:
    from interchange.money.bill import Bill


class Way(NamedTuple):
    """A way to have the machine running again, with what it is expected to come to: an ad by its id, or another way out."""

    id: str
    title: str
    mean_cents: float


class WalkAway(NamedTuple):
    """The most to pay, in cents; below nothing where even a gift is dearer than the next best way."""

    cents: float
    instead: Way


def most_to_pay(bill: Bill, instead_cents: float) -> float | None:
    """The price, paid as it stands, at which a bill is expected to come to so much; None where more than the price is not known.

    A price counts once for what is bought, and again with the chance that it is lost (``price_times``).
    """
    if set(bill.unknown) - {PRICE}:
        return None
    price = bill.line(PRICE)
    others = bill.mean_cents - (bill.price_times * price.mean_cents if price else 0.0)
    return (instead_cents - others) / bill.price_times


def walk_aways(ways: Sequence[Way], bills: Sequence[tuple[str, Bill]], tax: float = 0.0) -> dict[str, WalkAway]:
    """For each ad, by its id, the most to pay against the best of all other ways; none where there is no other.

    Sales tax is in the bill's price, and not in what is to be paid to the seller.
    """
    ranked = sorted(ways, key=lambda way: (way.mean_cents, way.id))[:2]
    found = {}
    for id_, bill in bills:
        instead = next((way for way in ranked if way.id != id_), None)
        cents = most_to_pay(bill, instead.mean_cents) if instead else None
        if instead and cents is not None:
            found[id_] = WalkAway(cents / (1 + tax), instead)
    return found
