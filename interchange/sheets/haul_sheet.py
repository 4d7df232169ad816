"""What `haul` shows: how far it is, every way of fetching it, what the rig's ratings say, and what to mind."""

from __future__ import annotations

from typing import TYPE_CHECKING

from interchange.haul.freight import OWN
from interchange.sheets.terminal import LEFT, NARROW, NOTHING, RIGHT, dollars, indented, table, text

if TYPE_CHECKING:
    from rich.console import Console

    from interchange.sheets.haul_result import HaulResult, LimitResult, LineResult, Range, WayResult

MAY = {True: "yes", None: "check first", False: "no"}
MAY_STYLES = {True: "green", None: "magenta", False: "red"}
SMALL = 10.0  # under this a figure keeps a decimal


def show_haul(out: Console, result: HaulResult) -> None:
    """Fetching one load from one place."""
    out.print(text(f"{result['job']}: fetching {_load(result)} from {result['place']} to {result['home']}", "bold"))
    _road(out, result)
    for warning in result["warnings"]:
        out.print(text(f"Mind: {warning}.", "yellow"))
    _table(out, result["ways"])
    _cheapest(out, result)
    for way in result["ways"]:
        _way(out, way)
    _limits(out, result)
    _cautions(out, result["ways"])


def _load(result: HaulResult) -> str:
    weight = "weight not known" if result["weight_lb"] is None else f"{result['weight_lb']:,.0f} lb"
    size = f", {' × '.join(f'{side:g}' for side in result['size_in'])} in" if result["size_in"] else ""
    return f"{result['what']} ({weight}{size})"


def _road(out: Console, result: HaulResult) -> None:
    road = result["road"]
    if road is None:
        out.print(text("How far it is by road is not known.", "magenta"))
        return
    miles = road["miles"]
    words = f"About {miles['likely']:.0f} miles by road, {miles['low']:.0f} to {miles['high']:.0f}"
    out.print(text(f"{words} (one haul in ten is shorter, one in ten longer). {_sentence(road['how'])}"))


def _table(out: Console, ways: list[WayResult]) -> None:
    if out.width < NARROW:
        for way in ways:
            out.print(text(f"{way['mode']}: {MAY[way['allowed']]}", MAY_STYLES[way["allowed"]]))
            out.print(indented(text(f"{_costs(way)} · {_figure(way['hours'])} h · {_figure(way['days'])} d")))
        return
    rows = table(
        ("way", LEFT), ("low", RIGHT), ("likely", RIGHT), ("high", RIGHT), ("hours", RIGHT), ("days", RIGHT), ("allowed", LEFT)
    )
    for way in ways:
        costs = _money(way["cost"])
        may = text(MAY[way["allowed"]], MAY_STYLES[way["allowed"]])
        rows.add_row(text(way["mode"]), *costs, _figure(way["hours"]), _figure(way["days"]), may)
    out.print(rows)


def _cheapest(out: Console, result: HaulResult) -> None:
    named = {way["mode"]: way for way in reversed(result["ways"])}
    for mode, words in ((result["cheapest"], "The cheapest that is allowed"), (result["if_checked"], "Cheaper once checked")):
        if mode:
            out.print(text(f"{words}: {mode}, {_costs(named[mode])}.", "bold"))
    if result["cheapest"] is None:
        out.print(text("Nothing that can be priced is surely allowed.", "magenta"))


def _way(out: Console, way: WayResult) -> None:
    """The lines of one way, and why it may or may not be; of a hired way that is ruled out only the reason."""
    out.print()
    out.print(text(way["mode"], "bold"))
    if way["why"]:
        out.print(indented(text(_sentence(way["why"]), MAY_STYLES[way["allowed"]]), 2))
    if way["allowed"] is False and way["mode"] != OWN:
        return
    if out.width < NARROW:
        for line in way["lines"]:
            out.print(indented(text(f"{line['label']}: {' – '.join(_money(line['cost']))}"), 2))
            out.print(indented(text(line["origin"], "dim"), 4))
    elif way["lines"]:
        out.print(_lines(way["lines"]))


def _lines(lines: list[LineResult]) -> object:
    rows = table(("", LEFT), ("low", RIGHT), ("likely", RIGHT), ("high", RIGHT), ("from", LEFT))
    for line in lines:
        rows.add_row(text(line["label"]), *_money(line["cost"]), text(line["origin"], "dim"))
    return rows


def _limits(out: Console, result: HaulResult) -> None:
    """Every rating of the own rig against this load."""
    limits = next((way["limits"] for way in result["ways"] if way["mode"] == OWN), [])
    if not limits:
        return
    out.print()
    out.print(text("The rig against this load", "bold"))
    if out.width < NARROW:
        for limit in limits:
            out.print(indented(text(f"{limit['name']}: {_against(limit)}", MAY_STYLES[limit["holds"]]), 2))
            out.print(indented(text(_noted(limit), "dim"), 4))
    else:
        rows = table(("", LEFT), ("load, lb", RIGHT), ("rating, lb", RIGHT), ("holds", LEFT), ("", LEFT))
        for limit in limits:
            holds = text(_holds(limit), MAY_STYLES[limit["holds"]])
            rows.add_row(text(limit["name"]), _lb(limit["load_lb"]), _lb(limit["rating_lb"]), holds, text(_noted(limit), "dim"))
        out.print(rows)
    carries = result["rig_carries_lb"]
    words = (
        "No load surely holds all its ratings." if carries is None else f"All its ratings hold up to a load of {carries:,.0f} lb."
    )
    out.print(text(words))


def _noted(limit: LimitResult) -> str:
    return f"{limit['note']}. To mend it: {limit['mend']}" if limit["mend"] else limit["note"]


def _holds(limit: LimitResult) -> str:
    if limit["holds"] is None:
        return "check"
    return "yes" if limit["holds"] else "no"


def _against(limit: LimitResult) -> str:
    if limit["load_lb"] is None or limit["rating_lb"] is None:
        return _holds(limit)
    return f"{_lb(limit['load_lb'])} lb of {_lb(limit['rating_lb'])} lb: {_holds(limit)}"


def _cautions(out: Console, ways: list[WayResult]) -> None:
    """What to mind, each once, under the ways it is for."""
    out.print()
    out.print(text("What to mind", "bold"))
    for_ways: dict[str, list[str]] = {}
    for way in ways:
        for caution in way["cautions"] if way["allowed"] is not False else []:
            for_ways.setdefault(caution, []).append(way["mode"])
    for caution, modes in for_ways.items():
        out.print(indented(text(f"{', '.join(dict.fromkeys(modes))}: {caution}"), 2))


def _money(cost: Range | None) -> tuple[str, str, str]:
    if cost is None:
        return NOTHING, NOTHING, NOTHING
    return dollars(100 * cost["low"]), dollars(100 * cost["likely"]), dollars(100 * cost["high"])


def _costs(way: WayResult) -> str:
    cost = way["cost"]
    if cost is None:
        return "cost not known"
    low, likely, high = _money(cost)
    return likely if low == high else f"{likely} ({low} to {high})"


def _figure(spread: Range | None) -> str:
    """Low to high, or one figure where they are one; a dash for nothing at all."""
    if spread is None or not spread["high"]:
        return NOTHING
    low, high = (f"{each:.1f}".removesuffix(".0") if each < SMALL else f"{each:.0f}" for each in (spread["low"], spread["high"]))
    return low if low == high else f"{low}–{high}"


def _lb(pounds: float | None) -> str:
    return NOTHING if pounds is None else f"{pounds:,.0f}"


def _sentence(words: str) -> str:
    return words[:1].upper() + words[1:].rstrip(".") + "."
