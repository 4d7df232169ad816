"""What would change the choice among the ways out: each figure solved for where the best way and another are level."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING, NamedTuple

from interchange.money.break_even import break_even_chance, level_at
from interchange.money.odds import mean
from interchange.spread import exactly

if TYPE_CHECKING:
    from interchange.money.ways import Net, Row, Ways
    from interchange.spread import Spread

LEFTOVERS, WAIT, BAD, WORTH = "leftovers", "wait", "bad", "worth"
MOST_OTHERS = 4
LEAST_CHANCE = 0.005  # below it, nothing is so sure to be good that it would win
WEEK, SHORT_WEEKS = 7, 3


class Flip(NamedTuple):
    """Where a choice turns: a way, the figure of it that decides, where it is level, and what was taken."""

    way: str
    title: str
    what: str
    wins: bool
    """Whether this is the best way now, which would lose beyond the figure; else one that would win short of or beyond it."""
    level: float
    """Cents, days, or a chance."""
    taken: float


def flips(ways: Ways, repaired: Spread | None) -> tuple[Flip, ...]:
    """What would change the choice for each dead unit: its best way, the nearest others, and what the machine is worth.

    Ways for several units at once are gone into only where one of them is the best of all.
    """
    found: list[Flip] = []
    firsts: list[Net] = []
    mends = [one for one in ways.nets if one.row.mends and _value(one, ways) is not None]
    for seats in dict.fromkeys(one.row.seats for one in mends):
        best, *others = [one for one in mends if one.row.seats == seats]
        firsts.append(best)
        if len(seats) > 1 and any((_value(one, ways) or 0.0) > (_value(best, ways) or 0.0) for one in mends):
            continue
        if others:
            found += _of_best(best.row, _gap(best, others[0], ways))
        for other in others[:MOST_OTHERS]:
            found += _of_other(other.row, _gap(best, other, ways))
    if firsts and (ways.by_net or len(firsts) == 1):
        found += _of_worth(max(firsts, key=lambda one: _value(one, ways) or 0.0), ways, repaired)
    return tuple(found)


def _value(one: Net, ways: Ways) -> float | None:
    """What a way is weighed by, more being better."""
    if ways.by_net:
        return one.net.mean if one.net else None
    return -one.row.cost_cents if one.row.known else None


def _gap(best: Net, other: Net, ways: Ways) -> float:
    return (_value(best, ways) or 0.0) - (_value(other, ways) or 0.0)


def _of_best(row: Row, gap: float) -> Iterator[Flip]:
    """How much worse the best way may turn out before the next is level."""
    if row.leftovers_cents:
        yield Flip(row.id, row.title, LEFTOVERS, True, row.leftovers_cents - gap, row.leftovers_cents)
    yield from _waiting(row, gap, wins=True)
    if row.good < 1 and row.rescue_cents > 0:
        if_good = row.cost_cents - (1 - row.good) * row.rescue_cents
        level = break_even_chance(row.cost_cents + gap, if_good, row.rescue_cents)
        yield Flip(row.id, row.title, BAD, True, level, 1 - row.good)


def _of_other(row: Row, gap: float) -> Iterator[Flip]:
    """How much better another way would have to turn out."""
    if row.leftovers_cents:
        yield Flip(row.id, row.title, LEFTOVERS, False, row.leftovers_cents + gap, row.leftovers_cents)
    yield from _waiting(row, -gap, wins=False)
    if row.good < 1 and row.rescue_cents > 0:
        if_good = row.cost_cents - (1 - row.good) * row.rescue_cents
        level = break_even_chance(row.cost_cents - gap, if_good, row.rescue_cents)
        if level >= LEAST_CHANCE:
            yield Flip(row.id, row.title, BAD, False, level, 1 - row.good)


def _waiting(row: Row, more_cents: float, *, wins: bool) -> Iterator[Flip]:
    """The days of waiting at which a way costs so much more, or less, than now."""
    made = row.built
    if made is None or made.hold_day <= 0:
        return
    days = mean(made.days)
    if days <= 0:
        return

    def cost(waited: float) -> float:
        return mean(made._replace(days=exactly(waited)).odds)

    far = days + 2 * max(0.0, more_cents) / made.hold_day + 1
    level = level_at(cost, cost(days) + more_cents, 0.0, far)
    if level is not None:
        yield Flip(row.id, row.title, WAIT, wins, level, days)


def _of_worth(best: Net, ways: Ways, repaired: Spread | None) -> Iterator[Flip]:
    """What the machine has to be worth running before mending it is better than the best way of being rid of it."""
    rid = [one.net.mean for one in ways.nets if not one.row.mends and one.net and one.row.days is None]
    if not rid:
        return
    if ways.by_net and best.net and repaired:
        worth = mean(repaired)
        yield Flip(best.row.id, best.row.title, WORTH, True, worth - (best.net.mean - max(rid)), worth)
    elif not ways.by_net:
        yield Flip(best.row.id, best.row.title, WORTH, True, best.row.cost_cents + max(rid), 0.0)


def in_words(flip: Flip) -> str:
    """A flip as a sentence."""
    wins = f"{flip.title}: wins {'unless' if flip.wins else 'if'}"
    if flip.what == LEFTOVERS:
        if flip.wins and flip.level <= 0:
            return f"{flip.title}: wins even if its leftovers bring nothing"
        return f"{wins} its leftovers bring {_over(flip)} {_dollars(flip.level)} (taken: {_dollars(flip.taken)})"
    if flip.what == WAIT:
        taken = f"(taken: {_weeks(flip.taken)} on the average)"
        return f"{wins} its wait is {_under(flip)} {_weeks(flip.level)} {taken}"
    if flip.what == BAD:
        if flip.wins and flip.level >= 1:
            return f"{flip.title}: wins even if it is sure to be bad"
        return f"{wins} it is bad {_under(flip)} {flip.level:.0%} of the time (taken: {flip.taken:.0%})"
    told = f" (told: {_dollars(flip.taken)})" if flip.taken else ""
    return f"mending it beats being rid of it where it is worth over {_dollars(flip.level)} running{told}"


def _weeks(days: float) -> str:
    weeks = days / WEEK
    return f"{weeks:.1f} weeks" if weeks < SHORT_WEEKS else f"{weeks:.0f} weeks"


def _over(flip: Flip) -> str:
    return "under" if flip.wins else "over"


def _under(flip: Flip) -> str:
    return "over" if flip.wins else "under"


def _dollars(cents: float) -> str:
    return f"-${-cents / 100:,.0f}" if cents < 0 else f"${cents / 100:,.0f}"
