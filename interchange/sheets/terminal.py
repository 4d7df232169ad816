"""What the commands show on a terminal, wide or narrow. Ads are data here: they never reach the terminal as markup."""

from __future__ import annotations

from collections.abc import Iterable
from typing import TYPE_CHECKING

from interchange.fit.finding import ADAPTS, BOLTS_UP, MACHINE_WORK, STOPS, UNSURE
from interchange.quantity import show
from interchange.sheets.plain import one_line

if TYPE_CHECKING:
    from rich.console import Console
    from rich.table import Table
    from rich.text import Text

    from interchange.fit.report import Judged, Plan
    from interchange.fit.setting import DeadSeat
    from interchange.money.bill import Bill
    from interchange.money.rank import Entry, Ranking
    from interchange.spread import Spread

STYLES = {BOLTS_UP: "green", ADAPTS: "cyan", MACHINE_WORK: "yellow", UNSURE: "magenta", STOPS: "red"}
NARROW, MIDDLING = 72, 100
MOST_LISTED = 12


def console() -> Console:
    """The terminal. Colour only where it is one, and not where NO_COLOR is set; the width can be given by COLUMNS."""
    from rich.console import Console

    return Console(highlight=False, markup=False, emoji=False, soft_wrap=False)


def dollars(cents: float | None) -> str:
    """Whole dollars; a dash where not known."""
    return "–" if cents is None else show(cents, "money")


def spread_text(spread: Spread) -> str:
    """low – high, or one figure."""
    return dollars(spread.likely) if spread.low == spread.high else f"{dollars(spread.low)} – {dollars(spread.high)}"


def text(words: str, style: str = "") -> Text:
    """Words that are never read as markup."""
    from rich.text import Text

    return Text(one_line(words), style=style)


def _table(*columns: tuple[str, str], box: bool = True) -> Table:
    from rich import box as boxes
    from rich.table import Table

    table = Table(box=boxes.SIMPLE_HEAD if box else None, pad_edge=False, expand=False, show_header=any(name for name, _ in columns))
    for name, justify in columns:
        table.add_column(name, justify=justify, no_wrap=justify == "right", overflow="fold")  # type: ignore[arg-type]
    return table


def headline(entry: Entry) -> tuple[str, str]:
    """(verdict, the dimension that gives it) of an entry."""
    worst = entry.worst
    return entry.verdict, worst.title if worst else ""


def show_ranking(out: Console, ranking: Ranking, *, many: bool) -> None:
    """The ranked table of one dead unit, and what stands below the line."""
    seat = ranking.seat
    title = f"{seat.setting.job.title}: {seat.name}, {seat.unit.title}" + (f" ({seat.dead.broke})" if seat.dead.broke else "")
    out.print(text(title, "bold"))
    if not ranking.entries:
        out.print(text("No ad names anything that goes in."))
    elif out.width < NARROW:
        _narrow(out, ranking)
    else:
        _wide(out, ranking, roomy=out.width >= MIDDLING)
    _below(out, ranking)
    out.print(text("Totals are expected cost standing at home and running, own hours included; what was spent before is left out.", "dim"))
    if many:
        out.print()


def _wide(out: Console, ranking: Ranking, *, roomy: bool) -> None:
    columns = [("#", "right"), ("ad", "left"), ("what", "left"), ("fit", "left"), ("goes in", "right"), ("miles", "right")]
    columns += [("haul", "right"), ("price", "right"), ("total", "right")]
    table = _table(*columns)
    most = max(16, out.width - (78 if roomy else 66))
    for place, entry in enumerate(ranking.entries, 1):
        verdict, worst = headline(entry)
        fit = text(f"{verdict}: {worst}" if worst and verdict != BOLTS_UP else verdict, STYLES[verdict])
        table.add_row(
            str(place), entry.read.ad.id, text(one_line(entry.read.title, most)), fit, f"{entry.goes_in:.0%}", _miles(entry),
            dollars(entry.fetch.line.amount.likely if entry.fetch.line else None), _price(entry), _total(entry),
        )  # fmt: skip
    out.print(table)


def _narrow(out: Console, ranking: Ranking) -> None:
    for place, entry in enumerate(ranking.entries, 1):
        verdict, worst = headline(entry)
        out.print(text(one_line(f"{place:>2} {entry.read.ad.id} {entry.read.title}", out.width - 1), "bold"))
        out.print(text(f"   {verdict}" + (f": {worst}" if worst and verdict != BOLTS_UP else ""), STYLES[verdict]))
        haul = dollars(entry.fetch.line.amount.likely if entry.fetch.line else None)
        out.print(text(f"   {entry.goes_in:.0%} · {_miles(entry)} mi · haul {haul}"))
        out.print(text(f"   price {_price(entry)} · total {_total(entry)}"))


def _miles(entry: Entry) -> str:
    return "–" if entry.fetch.road is None else f"{entry.fetch.road.likely:.0f}"


def _price(entry: Entry) -> str:
    price = entry.read.reading.price
    if entry.price is not None:
        return dollars(price.cents)
    return one_line(price.text, 12) if price.kind in ("call", "trade", "rental", "placeholder") and price.text.strip() else "–"


def _total(entry: Entry) -> str:
    return dollars(entry.bill.mean_cents) + ("" if entry.bill.complete else " +")


def _below(out: Console, ranking: Ranking) -> None:
    """What cannot go in, what is for something else, and what is not in the catalog."""
    if any(not entry.bill.complete for entry in ranking.entries):
        out.print(text("+ something is not known and not in the total: price, place or hours.", "dim"))
    if any(entry.ambiguous or len(entry.outcomes) > 1 for entry in ranking.entries):
        out.print(text("Where the ad leaves open which form it is, the figures are averaged over them: interchange fit shows each.", "dim"))
    if ranking.stopped:
        out.print(text("Does not go in:", "bold"))
        for entry in ranking.stopped:
            plan = entry.likeliest.plan
            reasons = [f"{one.title}: {one.reason}" for one in plan.stopped_by] or [f"nobody supplies {slot}" for slot in plan.missing]
            out.print(text(f"  {entry.read.ad.id} {one_line(entry.read.title, 48)}: {'; '.join(reasons)}", STYLES[STOPS]))
    if ranking.other:
        out.print(text(f"For something else: {_ids(read.ad.id for read in ranking.other)}"))
    if ranking.unknown:
        out.print(text("Not in the catalog, or no model named:"))
        for read in ranking.unknown[:MOST_LISTED]:
            near = f" (like {read.matched.near[0].name.name}?)" if read.matched.near else ""
            out.print(text(f"  {read.ad.id} {one_line(read.title, 60)}{near}"))
        if len(ranking.unknown) > MOST_LISTED:
            out.print(text(f"  and {len(ranking.unknown) - MOST_LISTED} more"))


def _ids(ids: Iterable[str]) -> str:
    listed = list(ids)
    more = f" and {len(listed) - MOST_LISTED} more" if len(listed) > MOST_LISTED else ""
    return ", ".join(listed[:MOST_LISTED]) + more


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
    _parts(out, seat, plan)
    _cautions(out, seat, plan)


def _dimensions(out: Console, judged: tuple[Judged, ...]) -> None:
    if out.width < NARROW:
        for one in judged:
            out.print(text(f"{one.title}: {one.verdict}", STYLES[one.verdict]))
            out.print(text(f"   {one.reason}" + (f" [{one.caveat}]" if one.caveat else "")))
        return
    table = _table(("dimension", "left"), ("verdict", "left"), ("why", "left"))
    for one in judged:
        caveat = f" [{one.caveat}]" if one.caveat else ""
        unsure = f" ({one.chance.value:.0%}: {one.chance.basis})" if one.verdict == UNSURE and one.chance else ""
        table.add_row(text(one.title), text(one.verdict, STYLES[one.verdict]), text(f"{one.reason}{caveat}{unsure}", ""))
    out.print(table)


def _parts(out: Console, seat: DeadSeat, plan: Plan) -> None:
    out.print(text("Who supplies what", "bold"))
    supply = seat.case.kind.supply
    for source in dict.fromkeys(plan.suppliers.values()):
        slots = [(supply[slot].parts or slot) if slot in supply else slot for slot, by in plan.suppliers.items() if by == source]
        out.print(text(f"  {source}: {'; '.join(slots)}"))
    for slot, chance in plan.doubtful:
        parts = supply[slot].parts if slot in supply else slot
        out.print(text(f"  ask whether it comes with it: {parts} ({chance:.0%})"))
    out.print()
    out.print(text("To do and to buy", "bold"))
    table = _table(("", "left"), ("", "left"), ("money", "right"), ("hours", "right"), ("wait", "right"))
    for step in plan.steps:
        money, hours, lead = step.effort
        cells = (
            spread_text(money) if money.high else "",
            f"{hours.low:.0f}–{hours.high:.0f}" if hours.high else "",
            f"{lead.low:.0f}–{lead.high:.0f} d" if lead.high else "",
        )
        table.add_row(text(step.sort), text(step.title), *cells)
    out.print(table)
    for step in plan.steps:
        if step.caution:
            out.print(text(f"  {step.title}: {step.caution}", "yellow"))
    if plan.hold:
        names = ", ".join(seat.case.kind.stack_ups[name].title for name in plan.hold)
        out.print(text(f"Do not order a plate or spacer yet: {names} not known.", "magenta"))
    if plan.keep:
        out.print(text("Keep from the dead unit", "bold"))
        for kept in plan.keep:
            out.print(text(f"  {kept}"))


def _cautions(out: Console, seat: DeadSeat, plan: Plan) -> None:
    out.print(text("Mind", "bold"))
    for caution in dict.fromkeys([one.caution for one in plan.judged if one.caution] + list(seat.case.kind.cautions)):
        out.print(text(f"  {caution}"))


def show_bill(out: Console, bill: Bill) -> None:
    """The lines of a bill with their origin."""
    out.print(text("What it comes to", "bold"))
    if out.width < NARROW:
        for line in bill.lines:
            out.print(text(f"  {line.label} {spread_text(line.amount)}"))
            out.print(text(f"     {line.origin}", "dim"))
    else:
        table = _table(("", "left"), ("low", "right"), ("likely", "right"), ("high", "right"), ("from", "left"))
        for line in bill.lines:
            table.add_row(text(line.label), *(dollars(amount) for amount in line.amount), text(line.origin, "dim"))
        table.add_row(text("together", "bold"), *(dollars(amount) for amount in bill.total), text(f"expected {dollars(bill.mean_cents)}"))
        out.print(table)
    if bill.unknown:
        out.print(text(f"Not in it, because not known: {', '.join(bill.unknown)}.", "magenta"))
