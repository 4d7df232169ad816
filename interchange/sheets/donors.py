"""What `donors` shows and gives to programs: the units of the catalog that go in, the cheapest first."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING, Any, NamedTuple

from interchange.sheets.fit_result import plan_result
from interchange.sheets.terminal import LEFT, NARROW, RIGHT, STYLES, dollars, indented, named_verdict, table, text

if TYPE_CHECKING:
    from rich.console import Console
    from rich.text import Text

    from interchange.fit.donors import Donors, Ranked
    from interchange.fit.setting import DeadSeat

Json = dict[str, Any]


class Shared(NamedTuple):
    """A machine of the catalog that came with a donor for more than one dead unit."""

    id: str
    title: str
    donors: tuple[tuple[str, str], ...]
    """(seat, donor) for each."""
    cents: float
    """All their plans together; price and haul come on top once."""


def show_donors(out: Console, job: str, seat: DeadSeat, donors: Donors) -> None:
    """The ranked table of one dead unit."""
    out.print(text(f"{job}: what the catalog has for the {seat.name}, {seat.unit.title}", "bold"))
    if not donors.found:
        out.print(text("Nothing in the catalog goes in."))
    elif out.width < NARROW:
        for place, ranked in enumerate(donors.found, 1):
            out.print(text(f"{place:>2} {donor_id(ranked)}  {dollars(ranked.plan.cost_cents)}", "bold"))
            out.print(indented(_verdict(ranked)))
            out.print(indented(text(_words(ranked))))
    else:
        rows = table(("#", RIGHT), ("donor", LEFT), ("fit", LEFT), ("goes in", RIGHT), ("wait", RIGHT), ("cost", RIGHT))
        for place, ranked in enumerate(donors.found, 1):
            plan = ranked.plan
            which = text(donor_id(ranked)).append(f"\n{_form(ranked)}" if _form(ranked) else "", "dim")
            wait = f"{plan.lead_days:.0f} d" if plan.lead_days else ""
            rows.add_row(str(place), which, _verdict(ranked), f"{plan.chance.value:.0%}", wait, dollars(plan.cost_cents))
        out.print(rows)
    out.print(
        text(
            f"{donors.forms} forms of units looked at, {donors.ruled_out} ruled out at once, {donors.planned} planned. "
            "Cost is what making it go is expected to take, as a complete unit: without its price, its haul, and taking one out "
            "and putting one in.",
            "dim",
        )
    )


def show_shared(out: Console, shared: Sequence[Shared]) -> None:
    """Machines that have a donor for more than one dead unit."""
    if shared:
        out.print(text("One machine with more than one of them (its price and haul are paid once)", "bold"))
    for one in shared:
        parts = "; ".join(f"{donor} for the {seat}" for seat, donor in one.donors)
        out.print(indented(text(f"{one.title} ({one.id}): {parts}; together {dollars(one.cents)}"), 2))


def donors_result(seat: DeadSeat, donors: Donors) -> Json:
    """One dead unit's donors. Costs in dollars, without price, haul, and the hours of taking one out and putting one in."""
    return {
        "seat": seat.name,
        "forms": donors.forms,
        "ruled_out": donors.ruled_out,
        "planned": donors.planned,
        "donors": [
            {
                "unit": ranked.form.unit,
                "variant": ranked.form.variant or None,
                "share": ranked.form.share,
                "tell": ranked.form.tell or None,
                **plan_result(ranked.plan),
            }
            for ranked in donors.found
        ],
    }


def shared_result(one: Shared) -> Json:
    """One machine with more than one donor."""
    donors = [{"seat": seat, "donor": donor} for seat, donor in one.donors]
    return {"machine": one.id, "title": one.title, "donors": donors, "cost": round(one.cents / 100, 2)}


def donor_id(ranked: Ranked) -> str:
    """The id by which `fit` takes it."""
    return f"{ranked.form.unit}.{ranked.form.variant}" if ranked.form.variant else ranked.form.unit


def _verdict(ranked: Ranked) -> Text:
    plan = ranked.plan
    return text(named_verdict(plan.verdict, plan.worst.title if plan.worst else None), STYLES[plan.verdict])


def _form(ranked: Ranked) -> str:
    """How many of the unit's are this form, and what shows it."""
    return f"{ranked.form.share:.0%} of them; {ranked.form.tell}".rstrip("; ") if ranked.form.variant else ""


def _words(ranked: Ranked) -> str:
    plan = ranked.plan
    wait = f"waits {plan.lead_days:.0f} d" if plan.lead_days else ""
    return " · ".join(filter(None, (f"goes in {plan.chance.value:.0%}", wait, _form(ranked))))
