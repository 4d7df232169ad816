"""What `ways` shows and gives to programs: what proves it dead, the ways out in one table, and what would change the choice."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING, Any, NamedTuple

from interchange.money.flips import in_words
from interchange.money.ways import DONOR, SEVERAL, USED_OTHER, USED_SAME
from interchange.sheets.terminal import LEFT, NOTHING, RIGHT, dollars, from_to, indented, table, text

if TYPE_CHECKING:
    from rich.console import Console

    from interchange.fit.setting import DeadSeat
    from interchange.money.flips import Flip
    from interchange.money.odds import Range
    from interchange.money.ways import Net, Ways

Json = dict[str, Any]
TABLE = 78
BY_AD = (USED_SAME, USED_OTHER, DONOR, SEVERAL)


class Shown(NamedTuple):
    """All there is to show of a job's ways out."""

    job: str
    seats: tuple[DeadSeat, ...]
    ways: Ways
    flips: tuple[Flip, ...]
    spent: str
    no_ads: str
    """Why there are no ads in it; empty where there are."""


def show_ways(out: Console, shown: Shown) -> None:
    """Proof, table, break-evens, and what was spent."""
    out.print(text(f"{shown.job}: ways out", "bold"))
    _proofs(out, shown.seats)
    several = len(shown.seats) > 1
    heading = "net" if shown.ways.by_net else "cost"
    if out.width < TABLE:
        for one in shown.ways.nets:
            out.print(text(_name(one), "bold"))
            worse = f"{heading} {_mean(one, shown)} · 1 in 10 worse {_worse(one, shown)}"
            out.print(indented(text(f"{_for(one, several=several)}{worse}")))
            out.print(indented(text(f"cash now {_cash(one)} · hours {_hours(one)}")))
            out.print(indented(text(f"days {_days(one)} · chance {_chance(one)}")))
            out.print(indented(text(_why(one), "dim")))
    else:
        figures = (
            ("cash now", RIGHT),
            ("hours", RIGHT),
            ("days", RIGHT),
            ("chance", RIGHT),
            (heading, RIGHT),
            ("10% worse", RIGHT),
        )
        rows = table(("way", LEFT), *figures)
        for one in shown.ways.nets:
            cell = text(f"{_for(one, several=several)}{_name(one)}")
            if _why(one):
                cell.append("\n").append(text(_why(one), "dim"))
            rows.add_row(cell, _cash(one), _hours(one), _days(one), _chance(one), _mean(one, shown), _worse(one, shown))
        out.print(rows)
    _explained(out, shown)
    if shown.flips:
        out.print(text("What would change the choice", "bold"))
        for flip in shown.flips:
            out.print(indented(text(in_words(flip)), 2))
    if shown.spent:
        out.print(text(f"Spent before, and the same whatever is done: {shown.spent}.", "dim"))


def _explained(out: Console, shown: Shown) -> None:
    """What the figures are, and what is missing."""
    if shown.ways.by_net:
        rest = ", the other dead units cured in the best way known" if len(shown.seats) > 1 else ""
        words = f"Net: what the machine is worth running, less what the way comes to{rest}; own hours and waiting are paid in it."
    else:
        words = "Cost: all it comes to, own hours and waiting paid; with a +, what it brings. Nets are not known: "
        words += "write worth: repaired in job.yaml."
    out.print(text(words, "dim"))
    out.print(text("One in ten turns out worse than the last figure.", "dim"))
    if shown.no_ads:
        out.print(text(f"No ads are weighed: {shown.no_ads}.", "dim"))


def _proofs(out: Console, seats: Sequence[DeadSeat]) -> None:
    """What proves a unit dead, or what is to be done before money goes into another."""
    for seat in seats:
        if seat.dead.proof:
            out.print(text(f"Proven dead, the {seat.name}: {seat.dead.proof}"))
            continue
        out.print(
            text(f"First: is the {seat.name} dead? Nothing under proof in job.yaml says so. To do, the cheapest first:", "yellow")
        )
        for proof in seat.case.kind.proofs:
            out.print(indented(text(f"{proof.title}: rules out {proof.rules_out}" if proof.rules_out else proof.title), 2))
        if not seat.case.kind.proofs:
            out.print(indented(text("the catalog does not say what proves such a unit dead"), 2))


def _name(one: Net) -> str:
    """The way; an ad with its id."""
    return f"{one.row.title} ({one.row.id})" if one.row.sort in BY_AD else one.row.title


def _for(one: Net, *, several: bool) -> str:
    return f"{', '.join(one.row.seats)}: " if several and one.row.seats else ""


def _why(one: Net) -> str:
    missing = f"not known: {', '.join(one.row.unknown)}" if one.row.unknown else ""
    return "; ".join(filter(None, (one.row.why, missing)))


def _cash(one: Net) -> str:
    return dollars(one.row.cash)


def _hours(one: Net) -> str:
    return from_to(one.row.hours) if one.row.hours else NOTHING


def _days(one: Net) -> str:
    return NOTHING if one.row.days is None else f"{one.row.days:.0f}"


def _chance(one: Net) -> str:
    return NOTHING if one.row.chance is None else f"{one.row.chance:.0%}"


def _weighed(one: Net, shown: Shown) -> Range | None:
    return one.net if shown.ways.by_net or not one.row.mends else (one.cost if one.row.known else None)


def _mean(one: Net, shown: Shown) -> str:
    found = _weighed(one, shown)
    sign = "+" if found and not shown.ways.by_net and not one.row.mends else ""
    return "not known" if found is None else sign + dollars(found.mean)


def _worse(one: Net, shown: Shown) -> str:
    found = _weighed(one, shown)
    if found is None:
        return NOTHING
    return dollars(found.low if found is one.net else found.high)


def ways_result(shown: Shown) -> Json:
    """The same for a program: money in dollars, times in hours and days."""
    return {
        "job": shown.job,
        "spent": shown.spent or None,
        "by_net": shown.ways.by_net,
        "proof": [
            {
                "seat": seat.name,
                "proof": seat.dead.proof or None,
                "to_do": [
                    {"do": each.title, "rules_out": each.rules_out} for each in seat.case.kind.proofs if not seat.dead.proof
                ],
            }
            for seat in shown.seats
        ],
        "ways": [_result(one) for one in shown.ways.nets],
        "break_even": [
            {"way": each.way, "what": each.what, "best": each.wins, "level": _figure(each.what, each.level),
             "taken": _figure(each.what, each.taken), "words": in_words(each)}
            for each in shown.flips
        ],
    }  # fmt: skip


def _figure(what: str, value: float) -> float:
    """Dollars, days or a chance."""
    return round(value / 100, 2) if what in ("leftovers", "worth") else round(value, 4)


def _result(one: Net) -> Json:
    row = one.row
    return {
        "id": row.id,
        "sort": row.sort,
        "title": row.title,
        "seats": list(row.seats),
        "why": row.why,
        "cash_now": None if row.cash is None else round(row.cash / 100, 2),
        "hours": row.hours._asdict() if row.hours else None,
        "days": row.days,
        "chance": row.chance,
        "cost": _range(one.cost) if row.mends else None,
        "net": _range(one.net),
        "not_known": list(row.unknown),
    }


def _range(found: Range | None) -> Json | None:
    if found is None:
        return None
    names = ("expected", "p10", "p50", "p90")
    return {name: round(value / 100, 2) for name, value in zip(names, found, strict=True)}
