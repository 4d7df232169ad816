"""The sheet for the seller: what to check, how, and the figure hoped for.

What it may say is what `Wanted` holds, so that nothing of the home, the job, other ads or money can get onto it.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import NamedTuple

from interchange.sheets.checks import Check
from interchange.sheets.measure_drawing import square_on
from interchange.sheets.page import STRONG, WARN, Block, Figure, Heading, Page, Paragraph, Points

TITLE_LONGEST = 120
SAFE = (
    "Only what can be done safely: unit cold and switched off, battery off, nothing resting on a jack alone, no hand near a belt "
    "or fan. If it would take lifting, crawling under or taking apart, leave it and say so."
)
FIRST = "Thank you for looking at it for me. Whatever you can answer helps; leave out what takes too long."


class Wanted(NamedTuple):
    """Of one unit: its name, what helps most to know, what shows which form it is, what to check, and how it is tested."""

    kind: str
    """What people call such a unit."""
    first: tuple[tuple[str, str], ...]
    """(what helps most to know, the answer hoped for), the most first."""
    tells: tuple[str, ...]
    checks: tuple[Check, ...]
    tests: tuple[tuple[str, str], ...]
    """(what is tested, how)."""
    engine: bool
    """Whether it runs by itself, so that it can be heard."""


def seller_sheet(ad_title: str, units: Sequence[Wanted]) -> Page:
    """The page for the seller of one ad."""
    title = ad_title if len(ad_title) <= TITLE_LONGEST else ad_title[: TITLE_LONGEST - 1].rstrip() + "…"
    blocks: list[Block] = [
        Paragraph(f"About your ad: {title}", STRONG),
        Paragraph(FIRST),
        Paragraph(SAFE, WARN),
        *_photos(),
    ]
    shown = {block.alt for block in blocks if isinstance(block, Figure)}
    for unit in units:
        blocks += _unit(unit, shown, alone=len(units) == 1)
    return Page("What to check before anybody drives", tuple(blocks))


def _photos() -> Iterator[Block]:
    yield Heading("Photos")
    yield Paragraph("Wipe the dirt off first, hold the phone square to it, and send the photos as files, not as screenshots.")
    yield Points(
        (
            "The plate or tag, close enough to read every letter; and any number cast or stamped into it.",
            "The face that bolts to the rest of the machine, from straight behind, with a tape across the middle.",
            "The other end, from straight ahead and from the side.",
            "Each side, whole; and whatever is broken, missing or leaking.",
        )
    )
    for subject in ("plate", "face", "nose"):
        drawing = square_on(subject)
        yield Figure(drawing, drawing.title, wide=False)


def _unit(unit: Wanted, shown: set[str], *, alone: bool) -> Iterator[Block]:
    """What is asked of one unit; ``shown`` are the drawings that stand above, each of which is enough once."""
    if not alone:
        yield Heading(f"The {unit.kind}")
    if unit.first:
        yield Heading("What helps most" if alone else f"What helps most of the {unit.kind}", 2 if alone else 3)
        yield Points(tuple(_asked(what, hoped) for what, hoped in unit.first), numbered=True)
    yield Heading("Tell me" if alone else f"Tell me of the {unit.kind}", 2 if alone else 3)
    yield Points(tuple(_telling(unit)))
    if unit.checks:
        yield Heading("Check and measure" if alone else f"Check and measure on the {unit.kind}", 2 if alone else 3)
        yield Paragraph("In this order; the first ones settle most. Write the figure as the tape says it, such as 16-7/8 in.")
    for number, check in enumerate(unit.checks, 1):
        yield Heading(f"{number}. {check.title}", 3)
        if check.how:
            yield Paragraph(check.how)
        yield Points(tuple(_hoped(text) for text in check.hoped))
        if check.drawing and check.drawing.title not in shown:
            shown.add(check.drawing.title)
            yield Figure(check.drawing, check.drawing.title, wide=False)
    if unit.tests:
        yield Heading("If it can be tested" if alone else f"If the {unit.kind} can be tested", 2 if alone else 3)
        yield Points(tuple(f"{what}: {how}." for what, how in unit.tests))


def _asked(what: str, hoped: str) -> str:
    """A question as the message to send has it, with the answer hoped for."""
    return f"{what[:1].upper()}{what[1:]}." + (f" Hoped for: {hoped}." if hoped else "")


def _hoped(text: str) -> str:
    """A check says what is hoped for, unless it says so itself."""
    return text if "oped for" in text else f"Hoped for: {text}."


def _telling(unit: Wanted) -> Iterator[str]:
    yield f"What comes with the {unit.kind}, and what has been taken off it."
    yield "When it last ran or worked, and why it was taken out or is for sale."
    if unit.engine:
        yield "Whether it turns by hand; and if it runs, a video of a cold start with the breather in view."
        yield "Hours or miles, and how you know them."
    for tell in unit.tells:
        yield f"Whether this is so: {tell}."
