"""A sheet as Markdown: whatever stands in its text is text there too. Drawings are told in words."""

from __future__ import annotations

import re
from collections.abc import Iterator

from interchange.sheets.page import RIGHT, STRONG, WARN, Block, Figure, Heading, Page, Paragraph, Points, Quote, Table
from interchange.sheets.plain import one_line

LONGEST = 100_000
SPECIAL = re.compile(r"[\\`*_\[\]<>#|~&$]|(?<=\S)@(?=\S)|(?<=[A-Za-z]):(?=//)|(?<=www)\.", re.IGNORECASE)
AT_THE_START = re.compile(r"^(\s*)([-+=]|\d{1,9}(?=[.)](?:\s|$)))")
TICKS = re.compile("`+")


def markdown(page: Page) -> str:
    """The file's text."""
    parts = [f"# {escaped(page.title)}", *("\n".join(_block(block)) for block in page.blocks)]
    return "\n\n".join(parts) + "\n"


def escaped(text: str) -> str:
    """One line of text that no reader of Markdown takes for anything else."""
    line = SPECIAL.sub(lambda found: "\\" + found.group(), one_line(text, LONGEST))
    return AT_THE_START.sub(_start, line)


def _start(found: re.Match[str]) -> str:
    """A dash that would begin a list, or the full stop after a number that would."""
    return f"{found[1]}\\{found[2]}" if not found[2].isdigit() else f"{found[1]}{found[2]}\\"


def _block(block: Block) -> Iterator[str]:
    if isinstance(block, Heading):
        yield f"{'#' * block.level} {escaped(block.text)}"
    elif isinstance(block, Paragraph):
        text = escaped(block.text)
        yield {STRONG: f"**{text}**", WARN: f"> {text}"}.get(block.weight, text)
    elif isinstance(block, Points):
        for number, item in enumerate(block.items, 1):
            yield f"{f'{number}.' if block.numbered else '-'} {escaped(item)}"
    elif isinstance(block, Table):
        yield from _table(block)
    elif isinstance(block, Figure):
        yield f"*Drawing: {escaped(block.drawing.title)}.*"
        if block.drawing.notes:
            yield ""
            yield from (f"- {escaped(note)}" for note in block.drawing.notes)
    else:
        yield from _quote(block)


def _table(table: Table) -> Iterator[str]:
    yield f"{escaped(table.caption)}:"
    yield ""
    yield _row([escaped(column.heading) for column in table.columns])
    yield _row(["--:" if column.side == RIGHT else "---" for column in table.columns])
    for row in table.rows:
        yield _row([escaped(cell) for cell in row])
    if table.foot:
        yield _row([f"**{escaped(cell)}**" if cell else "" for cell in table.foot])


def _row(cells: list[str]) -> str:
    return "| " + " | ".join(cells) + " |"


def _quote(quote: Quote) -> Iterator[str]:
    """Between fences longer than any row of ticks in it, so that it stands there as it was written."""
    lines = [one_line(line, LONGEST) for line in quote.text.splitlines()]
    longest = max((len(ticks) for line in lines for ticks in TICKS.findall(line)), default=0)
    fence = "`" * max(3, longest + 1)
    yield f"{fence}text"
    yield from lines
    yield fence
    yield ""
    yield escaped(quote.source)
