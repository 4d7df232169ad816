"""One pair in full on a terminal: every dimension, the plan, what hangs on the form, and what an ad comes to."""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import TYPE_CHECKING

from interchange.fit.case import spread_of
from interchange.fit.finding import BOLTS_UP, STOPS, UNSURE
from interchange.money.odds import what_to_expect
from interchange.sheets.terminal import LEFT, NARROW, RIGHT, STYLES, dollars, from_to, indented, spread_text, table, text

if TYPE_CHECKING:
    from rich.console import Console

    from interchange.fit.forms import FormChange
    from interchange.fit.plate_plan import PlatePlan
    from interchange.fit.report import Judged, Plan
    from interchange.fit.setting import DeadSeat
    from interchange.money.bill import Bill
    from interchange.money.leftovers import Parted
    from interchange.money.walk_away import WalkAway
    from interchange.spread import Spread

ShownForm = tuple[str, float, str, "Plan", tuple["FormChange", ...]]
"""A form's title, share and tell, its plan, and what it changes against the likeliest."""


def show_plan(out: Console, seat: DeadSeat, plan: Plan, title: str) -> None:
    """One pair in full: every dimension, then the plan."""
    out.print(text(title, "bold"))
    worst = f": {plan.worst.title}" if plan.worst and plan.verdict != BOLTS_UP else ""
    out.print(text(f"{plan.verdict}{worst}", STYLES[plan.verdict]))
    out.print(text(f"chance it goes together {plan.chance.value:.0%}: {plan.chance.basis}"))
    out.print()
    _dimensions(out, plan.judged)
    if plan.missing:
        out.print(text(f"Nobody supplies: {', '.join(plan.missing)}", STYLES[STOPS]))
    if plan.unsettled:
        words = f"Nobody supplies, and whether it is needed is not known: {', '.join(plan.unsettled)}"
        out.print(text(words, STYLES[UNSURE]))
    if plan.feasible:
        _parts(out, seat, plan)
    else:
        reasons = "; ".join(_stopping(one) for one in plan.stopped_by)
        words = f"It does not go in, so no parts plan is given. What stops it: {reasons or 'what nobody supplies'}."
        out.print(text(words, STYLES[STOPS]))
        out.print(text("For it to go:", "bold"))
        for each in plan.would_go:
            out.print(indented(text(each), 2))
    for plate in plan.plates:
        _plate(out, plate)
    _cautions(out, seat, plan)


def _stopping(one: Judged) -> str:
    """What stops a plan, with what was tried."""
    return f"{one.title}: {one.reason}" + (f" ({one.caveat})" if one.caveat else "")


def _dimensions(out: Console, judged: tuple[Judged, ...]) -> None:
    if out.width < NARROW:
        for one in judged:
            out.print(text(f"{one.title}: {one.verdict}", STYLES[one.verdict]))
            out.print(indented(text(f"{one.reason}" + (f" [{one.caveat}]" if one.caveat else "")), 2))
        return
    rows = table(("dimension", LEFT), ("verdict", LEFT), ("why", LEFT))
    for one in judged:
        caveat = f" [{one.caveat}]" if one.caveat else ""
        unsure = f" ({one.chance.value:.0%}: {one.chance.basis})" if one.verdict == UNSURE and one.chance else ""
        rows.add_row(text(one.title), text(one.verdict, STYLES[one.verdict]), text(f"{one.reason}{caveat}{unsure}", ""))
    out.print(rows)


def _parts(out: Console, seat: DeadSeat, plan: Plan) -> None:
    out.print(text("Who supplies what", "bold"))
    supply = seat.case.kind.supply
    for source in dict.fromkeys(plan.suppliers.values()):
        slots = [(supply[slot].parts or slot) if slot in supply else slot for slot, by in plan.suppliers.items() if by == source]
        out.print(indented(text(f"{source}: {'; '.join(slots)}"), 2))
    for slot, chance in plan.doubtful:
        parts = supply[slot].parts if slot in supply else slot
        out.print(indented(text(f"ask whether it comes with it: {parts} ({chance:.0%})"), 2))
    out.print()
    out.print(text("To do and to buy", "bold"))
    rows = table(("", LEFT), ("", LEFT), ("money", RIGHT), ("hours", RIGHT), ("wait", RIGHT))
    for step in plan.steps:
        money, hours, lead = step.effort
        cells = (
            spread_text(money) if money.high else "",
            from_to(hours) if hours.high else "",
            f"{from_to(lead)} d" if lead.high else "",
        )
        rows.add_row(text(step.sort), text(step.title), *cells)
    out.print(rows)
    for step in plan.steps:
        if step.caution:
            out.print(indented(text(f"{step.title}: {step.caution}", "yellow"), 2))
    longest = plan.longest
    waiting = f"; the longest wait is {from_to(longest.effort.lead)} days: {longest.title}" if longest else ""
    hours = plan.hours.plus(spread_of(seat.seat.hours))
    swap = spread_of(seat.seat.hours)
    known = ", without taking one out and putting one in, which is not known"
    if seat.seat.hours:
        known = f", {from_to(swap)} of them for taking one out and putting one in"
    out.print(text(f"Own hours in all {from_to(hours)}{known}{waiting}."))
    if plan.hold:
        names = ", ".join(seat.case.kind.stack_ups[name].title for name in plan.hold)
        out.print(text(f"Do not order a plate or spacer yet: {names} not known.", "magenta"))
    if seat.case.kind.renew:
        out.print(text("Always renewed while it is apart", "bold"))
        out.print(indented(text(", ".join(seat.case.kind.renew)), 2))
    if plan.keep:
        out.print(text("Keep from the dead unit", "bold"))
        for kept in plan.keep:
            out.print(indented(text(kept), 2))


def _plate(out: Console, plate: PlatePlan) -> None:
    """A plate to be made: how it carries both faces, and what its thickness does to each depth."""
    out.print(text(f"{plate.title}, in the {plate.joint.replace('_', ' ')}", "bold"))
    if plate.design:
        out.print(indented(text(plate.design), 2))
    for window in plate.depth.windows:
        if not window.missing:
            least = f" from {window.low_mm:.1f} mm" if math.isfinite(window.low_mm) else ""
            most = f" to {window.high_mm:.1f} mm" if math.isfinite(window.high_mm) else ""
            words = f"{window.title}: {window.slope:+g} mm for each mm of plate; closes{least}{most}"
            out.print(indented(text(words if least or most else f"{words} at any thickness"), 2))
    if plate.depth.least_mm is not None:
        out.print(indented(text(f"the least thickness that closes every depth is {plate.depth.least_mm:.1f} mm"), 2))
    else:
        out.print(indented(text(f"no thickness closes every depth: {plate.depth.why}", "magenta"), 2))


def _cautions(out: Console, seat: DeadSeat, plan: Plan) -> None:
    out.print(text("Mind", "bold"))
    for caution in dict.fromkeys([one.caution for one in plan.judged if one.caution] + list(seat.case.kind.cautions)):
        out.print(indented(text(caution), 2))


def show_bill(out: Console, bill: Bill) -> None:
    """The lines of a bill with their origin."""
    out.print(text("What it comes to", "bold"))
    if out.width < NARROW:
        for line in bill.lines:
            out.print(indented(text(f"{line.label} {spread_text(line.amount)}"), 2))
            out.print(indented(text(line.origin, "dim"), 2))
    else:
        rows = table(("", LEFT), ("low", RIGHT), ("likely", RIGHT), ("high", RIGHT), ("from", LEFT))
        for line in bill.lines:
            rows.add_row(text(line.label), *(dollars(amount) for amount in line.amount), text(line.origin, "dim"))
        rows.add_row(
            text("together", "bold"), *(dollars(amount) for amount in bill.total), text(f"expected {dollars(bill.mean_cents)}")
        )
        out.print(rows)
    may_be = what_to_expect(bill.odds)
    ends = f"one in ten comes to less than {dollars(may_be.low)}, half to less than {dollars(may_be.middle)}"
    out.print(text(f"Expected {dollars(bill.mean_cents)}; {ends}, one in ten to more than {dollars(may_be.high)}."))
    if bill.unknown:
        out.print(text(f"Not in it, because not known: {', '.join(bill.unknown)}.", "magenta"))


def show_leftovers(out: Console, left: Parted) -> None:
    """What is left of a machine and what each part of it brings, in today's money."""
    out.print(text("What is left of it, sold by part", "bold"))
    if out.width < NARROW:
        for sale in left.sales:
            out.print(indented(text(f"{sale.title}: {sale.chance:.0%} at {spread_text(sale.brings)}"), 2))
            out.print(indented(text(f"{_months(sale.months)} months, {from_to(sale.hours)} h", "dim"), 4))
    else:
        rows = table(("", LEFT), ("sold", RIGHT), ("brings", RIGHT), ("months", RIGHT), ("hours", RIGHT), ("expected", RIGHT))
        for sale in left.sales:
            figures = (f"{sale.chance:.0%}", spread_text(sale.brings), _months(sale.months), from_to(sale.hours))
            rows.add_row(text(sale.title), *figures, dollars(sale.mean_cents))
        out.print(rows)
    kept = f" Not worth their hours: {', '.join(left.kept_on)}." if left.kept_on else ""
    known = f"scrap {spread_text(left.scrap)}, own hours in all {from_to(left.hours)}"
    out.print(text(f"Fees and the months of waiting are taken off; {known}. Expected in all: {dollars(left.mean_cents)}.{kept}"))


def _months(months: Spread) -> str:
    return f"{months.low:.1f}–{months.high:.1f}" if months.low < months.high else f"{months.low:.1f}"


def show_walk_away(out: Console, walk_away: WalkAway | None) -> None:
    """The most to pay for what an ad offers; nothing where it is not known."""
    if walk_away is None:
        return
    instead = f"{walk_away.instead.title} ({walk_away.instead.id}), {dollars(walk_away.instead.mean_cents)} expected"
    if walk_away.cents <= 0:
        out.print(text(f"Walk away: even as a gift it is dearer than {instead}.", "bold"))
    else:
        out.print(text(f"Pay up to {dollars(walk_away.cents)}: there it is level with {instead}.", "bold"))


def show_forms(out: Console, forms: Sequence[ShownForm]) -> None:
    """What hangs on which form a unit has, and what shows which it is."""
    out.print(text("What hangs on which it is", "bold"))
    for title, share, tell, plan, changed in forms:
        shows = f"; {tell}" if tell else ""
        cost = f", making it go {dollars(plan.cost_cents)}" if plan.feasible else ""
        out.print(indented(text(f"{title} ({share:.0%}{shows}): {plan.verdict}{cost}", STYLES[plan.verdict]), 2))
        if changed:
            words = "; ".join(f"{each.title}: {each.verdict} instead of {each.instead_of}" for each in changed)
            out.print(indented(text(words), 4))
    out.print()
