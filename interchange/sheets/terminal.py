"""What the commands show on a terminal, wide or narrow. Ads are data here: they never reach the terminal as markup."""

from __future__ import annotations

import shlex
from collections.abc import Iterable
from typing import TYPE_CHECKING

from interchange.fit.finding import ADAPTS, BOLTS_UP, MACHINE_WORK, STOPS, UNSURE
from interchange.quantity import show
from interchange.sheets.plain import one_line

if TYPE_CHECKING:
    from rich.console import Console
    from rich.padding import Padding
    from rich.table import Table
    from rich.text import Text

    from interchange.money.several import Cure
    from interchange.sheets.result import BillResult, CureResult, EntryResult, SeatResult, TogetherResult
    from interchange.spread import Spread

STYLES = {BOLTS_UP: "green", ADAPTS: "cyan", MACHINE_WORK: "yellow", UNSURE: "magenta", STOPS: "red"}
NARROW, MIDDLING = 72, 128
PLOTTED, PLOT_HIGH, PLOT_WIDE, LEAST_PLOTTED = 120, 14, 100, 3
LEFT, RIGHT = "left", "right"
MOST_LISTED, MOST_NEAR, MOST_SEVERAL = 12, 3, 5
NOTHING = "–"
NOTHING_ELSE = "everything it needs comes with it"
GAP, LEAST_TITLE = 2, 18


def console() -> Console:
    """The terminal. Colour only where it is one, and not where NO_COLOR is set; the width can be given by COLUMNS."""
    from rich.console import Console

    class Terminal(Console):
        def on_broken_pipe(self) -> None:
            """A reader that has seen enough, as head has, is no error."""
            raise BrokenPipeError

    return Terminal(highlight=False, markup=False, emoji=False, soft_wrap=False)


def dollars(cents: float | None) -> str:
    """Whole dollars; a dash where not known."""
    return NOTHING if cents is None else show(cents, "money")


def spread_text(spread: Spread) -> str:
    """Low – high, or one figure."""
    return dollars(spread.likely) if spread.low == spread.high else f"{dollars(spread.low)} – {dollars(spread.high)}"


def from_to(spread: Spread) -> str:
    """low–high in whole numbers, or one where they are one."""
    low, high = f"{spread.low:.0f}", f"{spread.high:.0f}"
    return low if low == high else f"{low}–{high}"


def text(words: str, style: str = "") -> Text:
    """Words that are never read as markup."""
    from rich.text import Text

    return Text(one_line(words), style=style)


def table(*columns: tuple[str, str]) -> Table:
    """A table with a line under its headings; figures stand to the right and are never broken."""
    from rich import box
    from rich.table import Table

    table = Table(box=box.SIMPLE_HEAD, pad_edge=False, padding=(0, 1, 0, 0), show_header=any(name for name, _ in columns))
    for name, side in columns:
        table.add_column(name, justify="right" if side == RIGHT else "left", no_wrap=side == RIGHT, overflow="fold")
    return table


def show_ranking(out: Console, job: str, seat: SeatResult, folder: str | None = None) -> None:
    """The ranked table of one dead unit, and what stands below the line; ``folder`` is the job's that keeps the ads."""
    out.print(text(f"{job}: {seat['seat']}, {seat['title']}" + (f" ({seat['broke']})" if seat["broke"] else ""), "bold"))
    if not seat["ranked"]:
        out.print(text("No ad names anything that goes in."))
    elif out.width < NARROW:
        _narrow(out, seat)
    else:
        _wide(out, seat, roomy=out.width >= MIDDLING)
    if out.width >= PLOTTED:
        _plot(out, seat)
    _takes(out, seat)
    _below(out, seat, folder)


def _plot(out: Console, seat: SeatResult) -> None:
    """Totals against chances in letters, each ad by its place; nothing of so few that the table shows it as well."""
    from interchange.sheets.total_plot import Dot, in_letters

    dots = [
        Dot(str(place), entry["works"], 100 * entry["bill"]["expected"], 100 * entry["bill"]["p10"], 100 * entry["bill"]["p90"])
        for place, entry in enumerate(seat["ranked"], 1)
        if not entry["bill"]["not_known"]
    ]
    if len(dots) < LEAST_PLOTTED:
        return
    out.print(text("Total, upwards, against the chance that it goes in and is good; by place, + where there is no room", "bold"))
    for line in in_letters(dots, PLOT_WIDE, PLOT_HIGH):
        out.print(line, no_wrap=True, crop=True)
    out.print()


def _takes(out: Console, seat: SeatResult) -> None:
    """What makes each ad go in: the reason of its verdict, what goes across, what is bought, fitted between or worked."""
    if not seat["ranked"]:
        return
    out.print(text("What each takes", "bold"))
    for entry in seat["ranked"]:
        parts = entry["parts"]
        groups = (("own", parts["own"]), ("buy", parts["bought"]), ("adapter", parts["adapters"]), ("work", parts["work"]))
        words = "; ".join(f"{label}: {', '.join(titles)}" for label, titles in groups if titles)
        out.print(indented(text(f"{entry['ad']}  {words or NOTHING_ELSE}"), 2))
        for caution in entry["cautions"]:
            out.print(indented(text(f"mind: {caution}", "yellow"), 4))


def _wide(out: Console, seat: SeatResult, *, roomy: bool) -> None:
    """One row an ad. Titles are cut to what the figures leave.

    Where the width is middling the fit stands under the title, the most to pay under the price, and what one in ten comes to more
    than under the total.
    """
    headings: tuple[str, ...] = ("#", "ad", "goes in", "miles", "haul", "price", "at most", "total", "10% over")
    figures: list[tuple[str, ...]] = [_figures(place, entry) for place, entry in enumerate(seat["ranked"], 1)]
    if not roomy:
        headings, *figures = [(*row[:5], f"{row[5]}\n{row[6]}", f"{row[7]}\n{row[8]}") for row in (headings, *figures)]
    columns = list(zip(headings, *figures, strict=True))
    widths = [max(len(line) for cell in column for line in cell.splitlines()) for column in columns]
    verdicts = [_fit(entry) for entry in seat["ranked"]]
    fit_width = max(len(verdict) for verdict in verdicts) + GAP if roomy else 0
    room = max(LEAST_TITLE, out.width - sum(widths) - fit_width - GAP * (len(headings) + 1))
    names = [("#", RIGHT), ("ad", LEFT), ("what", LEFT), *([("fit", LEFT)] if roomy else [])]
    rows = table(*names, *((heading, RIGHT) for heading in headings[2:]))
    rows.columns[1].no_wrap = True
    if roomy:
        rows.columns[3].no_wrap = True
    for entry, row, verdict in zip(seat["ranked"], figures, verdicts, strict=True):
        title = text(_cut(entry["title"], room))
        what = [title, verdict] if roomy else [title.append("\n").append(verdict)]
        rows.add_row(*row[:2], *what, *row[2:])
    out.print(rows)


def _cut(words: str, room: int) -> str:
    """Words cut to so many columns: an emoji takes two."""
    from rich.cells import cell_len, set_cell_size

    line = one_line(words)
    return line if cell_len(line) <= room else set_cell_size(line, room - 1).rstrip() + "…"


def _figures(place: int, entry: EntryResult) -> tuple[str, ...]:
    money = (_line(entry, "haul"), _price(entry), _most(entry), _total(entry), dollars(100 * entry["bill"]["p90"]))
    return (str(place), entry["ad"], f"{entry['goes_in']:.0%}", _miles(entry), *money)


def _fit(entry: EntryResult) -> Text:
    """The verdict and what gives it."""
    return text(named_verdict(entry["verdict"], entry["worst"]), STYLES[entry["verdict"]])


def named_verdict(verdict: str, worst: str | None) -> str:
    """A verdict with the dimension that gives it."""
    return f"{verdict}: {worst}" if worst and verdict != BOLTS_UP else verdict


def _narrow(out: Console, seat: SeatResult) -> None:
    for place, entry in enumerate(seat["ranked"], 1):
        out.print(text(_cut(f"{place:>2} {entry['ad']} {entry['title']}", out.width - 1), "bold"))
        out.print(indented(_fit(entry)))
        out.print(indented(text(f"goes in {entry['goes_in']:.0%} · {_miles(entry)} mi · haul {_line(entry, 'haul')}")))
        out.print(indented(text(f"price {_price(entry)} · at most {_most(entry)}")))
        out.print(indented(text(f"total {_total(entry)} · 10% over {dollars(100 * entry['bill']['p90'])}")))


def indented(words: Text, by: int = 3) -> Padding:
    """Words set in from the left, their further lines too."""
    from rich.padding import Padding

    return Padding(words, (0, 0, 0, by), expand=False)


def _miles(entry: EntryResult) -> str:
    return NOTHING if entry["miles"] is None else f"{entry['miles']['likely']:.0f}"


def _line(entry: EntryResult, label: str) -> str:
    return next((dollars(100 * line["likely"]) for line in entry["bill"]["lines"] if line["label"] == label), NOTHING)


def _price(entry: EntryResult) -> str:
    price = entry["price"]
    if price["kind"] == "asked" and price["asked"] is not None and price["currency"] not in (None, "USD"):
        return f"{price['asked']:,.0f} {price['currency']}"
    if any(line["label"] == "price" for line in entry["bill"]["lines"]) and price["asked"] is not None:
        return dollars(100 * price["asked"])
    return price["kind"] if price["kind"] in ("call", "trade", "rental") else NOTHING


def _most(entry: EntryResult) -> str:
    """The most to pay; none where even a gift is dearer than the next best way."""
    most = entry["walk_away"]
    return NOTHING if most is None else dollars(100 * int(most["most"])) if most["most"] >= 1 else "none"


def _total(entry: EntryResult) -> str:
    return _expected(entry["bill"])


def _expected(bill: BillResult) -> str:
    return dollars(100 * bill["expected"]) + (" +" if bill["not_known"] else "")


def _below(out: Console, seat: SeatResult, folder: str | None) -> None:
    """What cannot go in, what is for something else, and what is not in the catalog."""
    if any(entry["bill"]["not_known"] for entry in seat["ranked"]):
        out.print(text("+ something is not known and not in the total: price, place or hours.", "dim"))
    for wants in dict.fromkeys(entry["price"]["wants"] for entry in seat["ranked"]):
        if wants:
            out.print(text(f"Price not known where it is {wants}", "dim"))
    if any(entry["walk_away"] for entry in seat["ranked"]):
        best = min(
            (entry["walk_away"]["expected"], entry["walk_away"]["title"]) for entry in seat["ranked"] if entry["walk_away"]
        )
        out.print(
            text(
                f"At most: at that price it is level with the best of the others: {_cut(best[1], 40)}, {dollars(100 * best[0])}.",
                "dim",
            )
        )
    if any(len(entry["forms"]) > 1 for entry in seat["ranked"]):
        out.print(
            text(
                "Where an ad leaves open which form it is, figures are averaged over them; interchange fit JOB AD tells them.",
                "dim",
            )
        )
    if seat["stopped"]:
        out.print(text("Does not go in:", "bold"))
        for entry in seat["stopped"]:
            words = f"{entry['ad']} {one_line(entry['title'], 48)}: {'; '.join(entry['stopped_by'])}"
            out.print(indented(text(words, STYLES[STOPS]), 2))
    if seat["other"]:
        out.print(text(f"For something else: {_ids(read['ad'] for read in seat['other'])}"))
    if seat["unknown"]:
        out.print(text("Not in the catalog, or no model named:", "bold"))
        for read in seat["unknown"][:MOST_LISTED]:
            names = dict.fromkeys(name["id"] for name in read["like"])
            near = f" (may be {' or '.join(list(names)[:MOST_NEAR])}: ask)" if names else ""
            out.print(indented(text(f"{read['ad']} {one_line(read['title'], 60)}{near}"), 2))
            if read["model"] and folder is not None:
                out.print(indented(text(f"interchange catalog new --job {shlex.quote(folder)} --ad {read['ad']}", "cyan"), 4))
        if len(seat["unknown"]) > MOST_LISTED:
            out.print(indented(text(f"and {len(seat['unknown']) - MOST_LISTED} more"), 2))
        out.print(text("To rank a model that is not there, write it into your catalog: interchange guide catalog.", "dim"))


def _ids(ids: Iterable[str]) -> str:
    listed = list(ids)
    more = f" and {len(listed) - MOST_LISTED} more" if len(listed) > MOST_LISTED else ""
    return ", ".join(listed[:MOST_LISTED]) + more


def show_together(out: Console, together: TogetherResult) -> None:
    """All dead units at once: the cheapest way, what it is against one ad for each, and the ads that cure more than one."""
    out.print(text("All of it together", "bold"))
    if together["cures"]:
        whole = dollars(100 * together["expected"]) + (" +" if together["not_known"] else "")
        _cures(out, together["cures"], whole)
    if together["uncovered"]:
        out.print(text(f"No ad for: {', '.join(together['uncovered'])}.", STYLES[STOPS]))
    if together["not_known"]:
        out.print(text(f"+ not known and not in the total: {'; '.join(together['not_known'])}.", "dim"))
    if together["apart_expected"] >= together["expected"] + 1:
        named = ", ".join(f"{cure['ad']} for {_seats(cure)}" for cure in together["apart"])
        added = dollars(100 * together["apart_expected"])
        out.print(text(f"The best ad for each by itself, with price and haul counted for each: {added} ({named})."))
    if together["several"]:
        out.print(text("Ads that cure more than one of them", "bold"))
        _cures(out, together["several"][:MOST_SEVERAL], "")
    if len(together["several"]) > MOST_SEVERAL:
        out.print(text(f"and {_ids(cure['ad'] for cure in together['several'][MOST_SEVERAL:])}"))


def _cures(out: Console, cures: list[CureResult], whole: str) -> None:
    """Which ad for which units, with what it comes to; below it the whole where one is given."""
    if out.width < NARROW:
        for cure in cures:
            out.print(text(_cut(f"{cure['ad']} {cure['title']}", out.width - 1)))
            out.print(indented(text(f"for {_seats(cure)}: {_expected(cure['bill'])}")))
        if whole:
            out.print(text(f"together: {whole}", "bold"))
        return
    rows = [(cure["ad"], cure["title"], _seats(cure), _expected(cure["bill"])) for cure in cures]
    room = max(LEAST_TITLE, out.width - sum(max(len(row[i]) for row in rows) for i in (0, 2, 3)) - 3 * GAP - len(whole))
    drawn = table(("ad", LEFT), ("what", LEFT), ("for", LEFT), ("total", RIGHT))
    for ad, title, seats, total in rows:
        drawn.add_row(text(ad), text(_cut(title, room)), text(seats), total)
    if whole:
        drawn.add_row(text(""), text("together", "bold"), text(""), text(whole, "bold"))
    out.print(drawn)


def _seats(cure: CureResult) -> str:
    return ", ".join(cure["seats"])


def show_cure(out: Console, cure: Cure, apart_cents: float) -> None:
    """What one ad comes to for several dead units."""
    missing = f"; not in it, because not known: {', '.join(cure.bill.unknown)}" if cure.bill.unknown else ""
    words = f"For {' and '.join(cure.seats)} together: {dollars(cure.bill.mean_cents)} expected, price and haul once"
    out.print(text(f"{words} ({dollars(apart_cents)} if they counted for each){missing}.", "bold"))
