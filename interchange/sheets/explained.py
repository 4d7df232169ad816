"""One ad on a terminal as it was read: its text with every stretch marked, what was made of it, and what speaks for its unit."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from interchange.ads.marked import Mark, bits, marks_of
from interchange.sheets.plain import one_line, safe_block
from interchange.sheets.terminal import LEFT, NARROW, RIGHT, indented, table, text

if TYPE_CHECKING:
    from collections.abc import Sequence

    from rich.console import Console

    from interchange.ads.evidence import Health
    from interchange.ads.notes import Note
    from interchange.ads.reads import Read
    from interchange.money.rank import Candidate
    from interchange.sheets.result import FactorResult

LEAST_SHOWN = 0.005
Seated = tuple[str, "Sequence[Candidate]", "Health | None"]
"""A dead unit's seat, the forms an ad's unit may have for it, and how sound it is; None where the ad has none for it."""


def show_explained(out: Console, read: Read, seats: Sequence[Seated]) -> None:
    """An ad with its fields marked, and what follows from them."""
    marks = marks_of(read.reading, read.matched, read.forms)
    out.print(text(f"Ad {read.ad.id} ({read.ad.source}, line {read.ad.line})", "bold"))
    out.print(text("Each stretch that something was read from stands in brackets, with its number behind.", "dim"))
    for line in _marked(read.ad.text, marks).splitlines():
        out.print(text(f"  | {line}"))
    if read.reading.read_to < len(read.ad.text):
        out.print(text(f"Only the first {read.reading.read_to:,} characters were read.", "yellow"))
    _fields(out, marks)
    _notes(out, read.ad.notes)
    for name, candidates, health in seats:
        _seat(out, name, candidates, health)


def _marked(ad: str, marks: Sequence[Mark]) -> str:
    parts = []
    for bit in bits(ad.rstrip(), [mark for mark in marks if mark.span.end <= len(ad.rstrip())]):
        parts += ["[" * len(bit.opens), bit.text, *(f"]{number}" for number in bit.closes)]
    return safe_block("".join(parts))


def _fields(out: Console, marks: Sequence[Mark]) -> None:
    if out.width < NARROW:
        for mark in marks:
            for said in mark.said:
                note = f" ({said.note})" if said.note else ""
                out.print(indented(text(f"{_number(mark)} {said.field}: {said.value}, {said.sure:.0%}{note}"), 2))
        return
    drawn = table(("", RIGHT), ("field", LEFT), ("read as", LEFT), ("sure", RIGHT), ("words", LEFT))
    for mark in marks:
        for said in mark.said:
            words = "; ".join(filter(None, (one_line(said.text, 60), said.note)))
            drawn.add_row(_number(mark), text(said.field), text(said.value), f"{said.sure:.0%}", text(words))
    out.print(drawn)


def _number(mark: Mark) -> str:
    return str(mark.number) if mark.span.end else "@"


def _notes(out: Console, notes: Sequence[Note]) -> None:
    if notes:
        out.print(text("Your lines", "bold"))
    for note in notes:
        out.print(indented(text(f"{note.day} {note.word}: {note.text}"), 2))


def _seat(out: Console, name: str, candidates: Sequence[Candidate], health: Health | None) -> None:
    if not candidates or health is None:
        out.print(text(f"For the {name}: nothing in the ad has to do with it.", "dim"))
        return
    out.print(text(f"For the {name} it may be", "bold"))
    for candidate in sorted(candidates, key=lambda each: -each.share):
        out.print(indented(text(f"{candidate.share:.0%} {candidate.form.title}, by {candidate.by}"), 2))
    show_health(out, health)


def show_health(out: Console, health: Health) -> None:
    """The chance that a unit needs no internal work, factor by factor."""
    out.print(text(f"Chance that it needs no internal work: {chance_text(health.chance)}", "bold"))
    for reason in health.reasons:
        words = f"“{reason.text}”: {reason.effect}" if reason.text else reason.effect
        times = f"odds x {reason.factor:g}  " if reason.text else ""
        out.print(indented(text(f"{times}{words}"), 2))
    for caution in health.cautions:
        out.print(indented(text(caution, "yellow"), 2))


def chance_text(chance: float) -> str:
    """A chance in whole percent; what rounds to nothing is not called nothing."""
    return "under 1%" if 0 < chance < LEAST_SHOWN else f"{chance:.0%}"


def explained_result(read: Read, seats: Sequence[Seated]) -> dict[str, Any]:
    """The same for programs; `start` and `end` count characters of `text`, and are None for the user's own lines."""
    marks = marks_of(read.reading, read.matched, read.forms)
    fields = [
        {
            "field": said.field,
            "value": said.value,
            "sure": said.sure,
            "text": said.text,
            "start": mark.span.start if mark.span.end else None,
            "end": mark.span.end or None,
            "note": said.note or None,
        }
        for mark in marks
        for said in mark.said
    ]
    return {
        "ad": read.ad.id,
        "source": read.ad.source,
        "line": read.ad.line,
        "text": read.ad.text,
        "fields": fields,
        "lines": [note._asdict() for note in read.ad.notes],
        "seats": [
            {
                "seat": name,
                "forms": [
                    {"unit": one.form.unit, "variant": one.form.variant, "share": one.share, "by": one.by} for one in candidates
                ],
                "health": health_result(health) if health else None,
            }
            for name, candidates, health in seats
        ],
    }


def factors_result(health: Health) -> list[FactorResult]:
    """Each factor of a chance: what was said or read, why it counts, and by how much it multiplies the odds."""
    return [{"text": each.text or None, "why": each.effect, "ratio": each.factor} for each in health.reasons]


def health_result(health: Health) -> dict[str, Any]:
    """A chance and its factors: each multiplies the odds."""
    return {
        "chance": health.chance,
        "factors": factors_result(health),
        "cautions": list(health.cautions),
    }
