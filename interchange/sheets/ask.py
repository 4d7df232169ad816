"""What `ask` shows: the questions worth most, and the message to send."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any, NamedTuple

from interchange.money.asked import DIMENSION, MISSING, YOU
from interchange.sheets.message import hoped, message, wording
from interchange.sheets.terminal import LEFT, NARROW, RIGHT, dollars, indented, table, text

if TYPE_CHECKING:
    from collections.abc import Sequence

    from rich.console import Console

    from interchange.money.questions import Worth
    from interchange.money.rank import Entry
    from interchange.store.library import Library

MOST_ASKED = 3
LEAST_CENTS = 100


class Asking(NamedTuple):
    """One ad for one dead unit, with its questions, the most worth first."""

    seat: str
    entry: Entry
    worths: tuple[Worth, ...]

    @property
    def chosen(self) -> list[Worth]:
        """The best few for its seller: those that make a total known, and those worth a dollar or more."""
        return [one for one in self.worths if one.question.whom != YOU and worth_asking(one)][:MOST_ASKED]

    @property
    def own(self) -> list[Worth]:
        """The best few that are read on one's own machine."""
        return [one for one in self.worths if one.question.whom == YOU and worth_asking(one)][:MOST_ASKED]

    @property
    def cents(self) -> float:
        """What the best single answer is worth."""
        return max((one.cents or 0.0 for one in self.worths), default=0.0)


def worth_asking(one: Worth) -> bool:
    """Whether an answer is worth a dollar or more, or cannot be weighed before the total is known."""
    return one.cents is None or one.cents >= LEAST_CENTS


def show_asking(out: Console, asking: Asking, library: Library) -> None:
    """The questions of one ad and the message to send."""
    read = asking.entry.read
    out.print(text(f"Ad {read.ad.id}, for the {asking.seat}: {read.title}", "bold"))
    if not asking.entry.bill.complete:
        out.print(text(f"Its total is not known, for want of: {', '.join(asking.entry.bill.unknown)}.", "magenta"))
    if not asking.chosen:
        out.print(text("No answer of its seller would change what is best to do: nothing to ask."))
    for number, one in enumerate(asking.chosen, 1):
        _show_question(out, f"{number}. ", one, library)
    if asking.own:
        out.print(text("On your own machine", "bold"))
        for one in asking.own:
            _show_question(out, "", one, library)
    if asking.chosen:
        out.print()
        out.print(text("To send", "bold"))
        for line in message(read.title, [one.question for one in asking.chosen], library).splitlines():
            out.print(indented(text(line), 2))


def _show_question(out: Console, number: str, one: Worth, library: Library) -> None:
    question = one.question
    out.print(text(f"{number}{question.title}: {worth_text(one)}", "bold"))
    out.print(indented(text(f"decides {question.decides}" if question.about != DIMENSION else question.decides), 3))
    verb = "read" if question.whom == YOU else "ask for"
    out.print(indented(text(f"{verb} {wording(question, library)}"), 3))
    if words := hoped(question, library):
        out.print(indented(text(f"hoped for: {words}"), 3))
    if question.own:
        out.print(indented(text(f"to be read on your own machine too: {', '.join(question.own)}"), 3))


def worth_text(one: Worth) -> str:
    """What an answer is worth, in words."""
    if one.cents is not None:
        return f"the answer is worth {dollars(one.cents)}"
    return "its total is not known before" if one.question.about in MISSING else "not weighed, because its total is not known"


def show_calls(out: Console, askings: Sequence[Asking], library: Library) -> None:
    """Over all ads, which single question is worth asking first."""
    rows = [(one, asking) for asking in askings for one in asking.worths if one.cents is not None and worth_asking(one)]
    rows = [row for row in rows if row[0].question.whom != YOU]
    rows.sort(key=lambda row: (-(row[0].cents or 0.0), row[1].entry.read.ad.id, row[0].question.id))
    if not rows:
        out.print(text("No single answer would change what is best to do."))
    elif out.width < NARROW:
        for one, asking in rows[:MOST_ROWS]:
            out.print(text(f"{dollars(one.cents)} {asking.entry.read.ad.id} {one.question.title}"))
            out.print(indented(text(f"{asking.seat}: {asking.entry.read.title}"), 2))
    else:
        drawn = table(("worth", RIGHT), ("ad", LEFT), ("for", LEFT), ("what", LEFT), ("ask", LEFT))
        for one, asking in rows[:MOST_ROWS]:
            title = text(asking.entry.read.title[:TITLE])
            drawn.add_row(dollars(one.cents), text(asking.entry.read.ad.id), text(asking.seat), title, text(one.question.title))
        out.print(drawn)
    for asking in askings:
        _show_not_weighed(out, asking)
    if rows:
        one, asking = rows[0]
        out.print(text(f"First: {asking.entry.read.ad.id}, {wording(one.question, library)}.", "bold"))


def _show_not_weighed(out: Console, asking: Asking) -> None:
    """Why no answer about an ad can be weighed; nothing where it can."""
    id_, unknown = asking.entry.read.ad.id, asking.entry.bill.unknown
    wanted = [one.question.title for one in asking.worths if one.question.about in MISSING]
    if wanted:
        out.print(text(f"{id_}: ask for its {' and '.join(wanted)} first; without it no answer can be weighed.", "dim"))
    elif unknown:
        out.print(text(f"{id_}: no answer can be weighed; its total is not known, for want of: {', '.join(unknown)}.", "dim"))


MOST_ROWS, TITLE = 12, 40


def asking_result(asking: Asking, library: Library) -> dict[str, Any]:
    """The same for programs; worth in dollars, None where the ad's total is not known before."""
    read = asking.entry.read
    return {
        "ad": read.ad.id,
        "title": read.title,
        "seat": asking.seat,
        "questions": [
            {
                "id": one.question.id,
                "title": one.question.title,
                "decides": one.question.decides,
                "seen": one.question.seen,
                "whom": one.question.whom,
                "ask": wording(one.question, library),
                "hoped": hoped(one.question, library) or None,
                "own": list(one.question.own),
                "worth": None if one.cents is None else round(one.cents / 100, 2),
                "outcomes": [{"label": each.label, "chance": each.chance, "expected": round(each.cents / 100, 2)}
                             for each in one.question.outcomes],
            }
            for one in asking.worths
        ],
        "message": message(read.title, [one.question for one in asking.chosen], library) if asking.chosen else None,
    }  # fmt: skip
