"""The sheet to take along: what to measure first, when to walk away, and the plan, for the one who goes to look at an ad."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING, NamedTuple

from interchange.fit.case import DONOR, MACHINE, spread_of
from interchange.fit.finding import BOLTS_UP, STOPS, UNSURE
from interchange.fit.report import ADAPTER, BUY, CARRIED, MIXING, WORK
from interchange.money.odds import what_to_expect
from interchange.quantity import show
from interchange.sheets.checks import ANY, wanted
from interchange.sheets.fit_figures import faces_overlaid, parts_from, stack_sections, window_of
from interchange.sheets.page import (
    QUIET,
    RIGHT,
    STRONG,
    WARN,
    WRITE,
    Block,
    Column,
    Figure,
    Heading,
    Page,
    Paragraph,
    Points,
    Quote,
    Table,
)
from interchange.sheets.stack_drawing import window_words
from interchange.sheets.terminal import dollars, from_to, spread_text
from interchange.sheets.total_plot import Dot, plot

if TYPE_CHECKING:
    from interchange.catalog.model import Dimension
    from interchange.fit.case import Case, Effort, Suppliers
    from interchange.fit.report import Judged, Plan
    from interchange.fit.setting import DeadSeat
    from interchange.money.bill import Bill
    from interchange.money.rank import Entry
    from interchange.sheets.checks import Check

TITLE_LONGEST = 120
SEEN = ("photo", "plate", "seller", "tape", "teardown")
SEEN_WORDS = {
    "photo": "by eye", "plate": "on the plate", "seller": "ask", "tape": "tape", "teardown": "only apart",
}  # fmt: skip
REVERSED = {"at least": "at most", "at most": "at least"}
ENDS = ("stops", "fixable", "cost only")


class Stop(NamedTuple):
    """One dead unit the ad may cure, with all that is known of it."""

    seat: DeadSeat
    entry: Entry
    suppliers: Suppliers
    first: tuple[tuple[str, str, str], ...]
    """(what to ask, the answer hoped for, what it is worth), the best first."""
    checks: tuple[Check, ...]
    dots: tuple[Dot, ...]
    """All ads for this seat, this one marked."""

    @property
    def case(self) -> Case:
        """The dead unit, its seat and kind."""
        return self.suppliers.case

    @property
    def plan(self) -> Plan:
        """The plan of its likeliest form."""
        return self.entry.likeliest.plan


def take_along(stops: Sequence[Stop], spent: str = "") -> Page:
    """The page for one ad; ``spent`` is what is gone whatever is done."""
    ad, title = stops[0].entry.read.ad, _cut(stops[0].entry.read.title)
    blocks: list[Block] = [
        Paragraph("Your own sheet: it says what you would pay. Do not hand it over, and do not leave it on a seat.", WARN),
        Paragraph(f"Ad {ad.id}, pasted {ad.on or 'on a day not known'}: {title}", STRONG),
    ]
    for stop in stops:
        blocks += _stop(stop, alone=len(stops) == 1)
    blocks.append(Heading("Mind"))
    cautions = [caution for stop in stops for caution in _cautions(stop)]
    blocks.append(Points(tuple(dict.fromkeys(cautions))))
    blocks.append(
        Paragraph("The service manual, a licensed rigger, welder or engineer, and local rules stand before this sheet.", QUIET)
    )
    if spent:
        blocks.append(Paragraph(f"Spent before, and the same whatever is done: {spent}.", QUIET))
    if ad.notes:
        blocks += [Heading("Your own lines under it"), Points(tuple(f"{note.day} {note.word}: {note.text}" for note in ad.notes))]
    blocks += [Heading("The ad, as it was pasted"), Quote(ad.text.strip(), f"From {ad.source}, line {ad.line}.")]
    return Page(f"To take along: ad {ad.id}", tuple(blocks))


def _cut(text: str) -> str:
    return text if len(text) <= TITLE_LONGEST else text[: TITLE_LONGEST - 1].rstrip() + "…"


def _stop(stop: Stop, *, alone: bool) -> Iterator[Block]:
    seat, entry, plan = stop.seat, stop.entry, stop.plan
    prefix = "" if alone else f"{seat.name.replace('_', ' ').capitalize()}: "
    form = entry.candidate.form.title
    yield Heading(f"{prefix}{form} into the {seat.setting.machine.title}")
    yield Paragraph(_verdict(entry), STRONG)
    yield from _price(entry)
    if stop.first:
        yield Heading(f"{prefix}Ask before you drive", 3)
        columns = (Column("ask for"), Column("hoped for"), Column("why"), Column("answer", WRITE))
        yield Table("The questions worth most", columns, tuple((*each, "") for each in stop.first))
    yield Heading(f"{prefix}What ends the deal", 3)
    yield Points(tuple(_endings(stop)))
    yield Heading(f"{prefix}Look, measure, write down: in this order", 3)
    yield Paragraph(
        "What can be seen before a tape is out comes first, and of that what would stop it. Look at the unit cold. "
        "Take the figure as the tape says it, with how it was read.",
    )
    yield _measures(stop)
    yield from _readings(stop)
    yield Heading(f"{prefix}How it goes together", 3)
    yield from faces_overlaid(stop.suppliers, plan)
    yield from stack_sections(stop.suppliers, plan)
    yield Heading(f"{prefix}Parts", 3)
    yield parts_from(stop.suppliers, plan)
    yield from _parts(stop, plan)
    yield Heading(f"{prefix}What it comes to", 3)
    yield from _bill(entry.bill)
    if len(stop.dots) > 1:
        yield _plot(stop)


def _verdict(entry: Entry) -> str:
    plan = entry.likeliest.plan
    worst = f": {plan.worst.title}" if plan.worst and plan.verdict != BOLTS_UP else ""
    return (
        f"{plan.verdict[:1].upper()}{plan.verdict[1:]}{worst}. Chance that it goes together {entry.goes_in:.0%}; "
        f"that it needs no work inside {entry.health.chance:.0%}."
    )


def _price(entry: Entry) -> Iterator[Block]:
    """The price asked, and from which on to walk away."""
    asked = entry.read.reading.price.text.strip()
    yield Paragraph(f"Asked: {asked or 'no price'}.")
    most = entry.walk_away
    if most is None:
        yield Paragraph(
            "The most to pay is not known: something besides the price is missing from the bill, or there is no other ad."
        )
    elif most.cents <= 0:
        yield Paragraph(f"Walk away: even as a gift it is dearer than {_cut(most.instead.title)} ({most.instead.id}).", WARN)
    else:
        yield Paragraph(
            f"Walk away above {dollars(most.cents)}: there it is level with {_cut(most.instead.title)} "
            f"({most.instead.id}), {dollars(most.instead.mean_cents)} expected. What you find wrong comes off it.",
            WARN,
        )


def _endings(stop: Stop) -> Iterator[str]:
    """Findings after which there is nothing to talk about."""
    for one in stop.plan.judged:
        if one.verdict == STOPS:
            yield f"{one.title}: {one.reason}. As things are known it does not go in."
        elif one.otherwise == "stops":
            right = wanted(stop.suppliers, stop.case.kind.dimensions[one.name])
            if right != ANY:
                yield f"{one.title}: " + (f"anything but {right}" if right else "a difference") + _because(one)
    yield from (f"{slot}: nobody supplies it" for slot in stop.plan.missing)
    for slot, chance in stop.plan.doubtful:
        if chance < 1:
            yield f"not with it, and no price off: {_parts_word(stop, slot)} ({chance:.0%} that such an ad brings it)"
    yield from stop.entry.health.cautions
    yield "the plate gone or the number ground off, and no proof of ownership"


def _because(one: Judged) -> str:
    return f" ({one.why})" if one.why else ""


def _parts_word(stop: Stop, slot: str) -> str:
    supply = stop.case.kind.supply.get(slot)
    return (supply.parts or slot) if supply else slot


def _measures(stop: Stop) -> Table:
    """Every dimension: first what is seen without a tool, and of that what stops it."""
    kind = stop.case.kind
    judged = sorted(stop.plan.judged, key=lambda one: (SEEN.index(one.seen), ENDS.index(one.otherwise)))
    rows = []
    for number, one in enumerate(judged, 1):
        dimension = kind.dimensions[one.name]
        right, is_ = _right_and_known(stop, dimension, one)
        known = is_ if one.verdict != UNSURE else f"{is_} (not sure)" if is_ else "not known"
        rows.append(
            (
                f"{number}. {one.title}",
                SEEN_WORDS[one.seen],
                _otherwise(one),
                right,
                known,
                "",
            )
        )
    columns = (
        Column("what"), Column("how"), Column("if it differs"), Column("wanted"), Column("as known"), Column("found", WRITE),
    )  # fmt: skip
    return Table("What decides, in the order to look", columns, tuple(rows))


def _right_and_known(stop: Stop, dimension: Dimension, one: Judged) -> tuple[str, str]:
    """What a dimension has to be, and what it is as known; where the machine gives and the donor needs, the other way round."""
    sources = [stop.suppliers.source(path) for path in (dimension.give, dimension.need)]
    if dimension.rule and sources == [MACHINE, DONOR] and dimension.rule.name in REVERSED:
        return f"{REVERSED[dimension.rule.name]} {one.give}" if one.give else "", one.need
    closing = next((each for each in stop.plan.closings if each.name in dimension.stack_ups), None)
    ends = window_of(stop.suppliers, closing) if closing else ()
    if any(map(math.isfinite, ends)):
        return window_words(*ends), _named(stop, dimension, one.give)
    right = wanted(stop.suppliers, dimension) or _named(stop, dimension, one.need)
    return right, _named(stop, dimension, one.give)


def _named(stop: Stop, dimension: Dimension, text: str) -> str:
    """A figure as written; a face or shaft by what people call it."""
    if not dimension.joints or not text:
        return text
    shape = stop.case.pattern(text) or stop.case.shaft(text)
    return (shape.title or (text if ":" not in text else "one of its own")) if shape else text


def _otherwise(one: Judged) -> str:
    return {"stops": "ends it", "fixable": "to be mended", "cost only": "costs"}[one.otherwise]


def _readings(stop: Stop) -> Iterator[Block]:
    """The figures to take, with blanks, and where to lay the tape."""
    rows = [(check.title, hoped, "", "") for check in stop.checks for hoped in check.hoped]
    if rows:
        columns = (Column("on"), Column("reading"), Column("found", WRITE), Column("read by", WRITE))
        yield Table("Readings to take", columns, tuple(rows))
    shown: set[str] = set()
    for check in stop.checks:
        if check.drawing and check.drawing.title not in shown:
            shown.add(check.drawing.title)
            yield Figure(check.drawing, check.drawing.title, wide=False)


def _parts(stop: Stop, plan: Plan) -> Iterator[Block]:
    if plan.keep:
        yield Paragraph("Keep from the dead unit:", STRONG)
        yield Points(plan.keep)
    bought = [step for step in plan.steps if step.sort == BUY]
    if bought:
        yield Paragraph("Buy:", STRONG)
        yield Points(tuple(f"{step.title}: {_effort(step.effort)}" for step in bought))
    done = [step for step in plan.steps if step.sort in (ADAPTER, WORK, MIXING, CARRIED)]
    if done:
        columns = (Column("to do"), Column("sort"), Column("money", RIGHT), Column("hours", RIGHT), Column("wait", RIGHT))
        rows = [
            (
                step.title,
                step.sort,
                spread_text(step.effort.money) if step.effort.money.high else "",
                from_to(step.effort.hours) if step.effort.hours.high else "",
                f"{from_to(step.effort.lead)} d" if step.effort.lead.high else "",
            )
            for step in done
        ]
        yield Table("Adapters, work, and what goes across", columns, tuple(rows))
    if plan.hold:
        names = ", ".join(stop.case.kind.stack_ups[name].title for name in plan.hold)
        yield Paragraph(f"Do not order a plate or spacer yet: {names} not known.", WARN)
    for plate in plan.plates:
        yield Paragraph(f"{plate.title}: {plate.design or 'how it carries both faces is not known'}.")
    hours = plan.hours.plus(spread_of(stop.seat.seat.hours))
    known = "" if stop.seat.seat.hours else ", without taking one out and putting one in, which is not known"
    yield Paragraph(f"Own hours in all {from_to(hours)}{known}.")
    if stop.case.kind.renew:
        yield Paragraph(f"Always renewed while it is apart: {', '.join(stop.case.kind.renew)}.")


def _effort(effort: Effort) -> str:
    parts = [spread_text(effort.money) if effort.money.high else "", f"{from_to(effort.lead)} days" if effort.lead.high else ""]
    return ", ".join(filter(None, parts)) or "no money"


def _bill(bill: Bill) -> Iterator[Block]:
    columns = (Column("line"), Column("low", RIGHT), Column("likely", RIGHT), Column("high", RIGHT), Column("from"))
    rows = tuple((line.label, *(dollars(cents) for cents in line.amount), line.origin) for line in bill.lines)
    foot = ("together", *(dollars(cents) for cents in bill.total), f"expected {dollars(bill.mean_cents)}")
    yield Table("The bill: low is less in one of ten, high is more in one of ten", columns, rows, foot)
    may_be = what_to_expect(bill.odds)
    yield Paragraph(
        f"Expected {dollars(bill.mean_cents)}; one in ten comes to less than {dollars(may_be.low)}, half to less than "
        f"{dollars(may_be.middle)}, one in ten to more than {dollars(may_be.high)}."
    )
    if bill.unknown:
        yield Paragraph(f"Not in it, because not known: {', '.join(bill.unknown)}.", WARN)


def _plot(stop: Stop) -> Figure:
    notes = (
        "a line runs from what one in ten comes to less than, to what one in ten comes to more than",
        "numbers are places in rank",
    )
    mine = next((dot for dot in stop.dots if dot.marked), None)
    told = f" This ad: number {mine.name}, {mine.chance:.0%}, {show(mine.cents, 'money')}." if mine else ""
    return Figure(plot(stop.dots, notes), f"All ads for this unit, total against chance.{told}")


def _cautions(stop: Stop) -> Iterator[str]:
    yield from (one.caution for one in stop.plan.judged if one.caution)
    yield from (f"{step.title}: {step.caution}" for step in stop.plan.steps if step.caution)
    yield from stop.case.kind.cautions
    yield from stop.entry.fetch.option.cautions if stop.entry.fetch.option else ()
