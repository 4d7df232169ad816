"""A sheet as data: headings, paragraphs, lists, tables and figures, before it is a page, Markdown or paper.

Nothing here knows of a file: `page_html`, `page_markdown` and `page_pdf` each write the same blocks. Text is data in all of them.
"""

from __future__ import annotations

from typing import NamedTuple

from interchange.sheets.drawing import Drawing

PLAIN, STRONG, QUIET, WARN = "plain", "strong", "quiet", "warn"
LEFT, RIGHT, WRITE = "left", "right", "write"
"""How a column stands; one to write in is left empty, with a line."""


class Heading(NamedTuple):
    """A heading of the second or third level; the first is the page's title."""

    text: str
    level: int = 2


class Paragraph(NamedTuple):
    """Some sentences, and how much they weigh."""

    text: str
    weight: str = PLAIN


class Points(NamedTuple):
    """A list; numbered where its order matters."""

    items: tuple[str, ...]
    numbered: bool = False


class Column(NamedTuple):
    """One column of a table."""

    heading: str
    side: str = LEFT


class Table(NamedTuple):
    """Rows under headings, with what the table is. The first cell of a row heads it."""

    caption: str
    columns: tuple[Column, ...]
    rows: tuple[tuple[str, ...], ...]
    foot: tuple[str, ...] = ()
    """A last row that sums up; none where empty."""


class Figure(NamedTuple):
    """A drawing, and what is read out or written where it cannot be shown."""

    drawing: Drawing
    alt: str
    wide: bool = True
    """Whether it wants the width of the page; a small one stands beside others."""


class Quote(NamedTuple):
    """Text of somebody else, line by line as it was written."""

    text: str
    source: str


Block = Heading | Paragraph | Points | Table | Figure | Quote


class Page(NamedTuple):
    """A whole sheet."""

    title: str
    blocks: tuple[Block, ...]
