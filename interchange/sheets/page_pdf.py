"""A sheet on paper, by reportlab: the same page gives the same bytes. The library is loaded where a PDF is written."""

from __future__ import annotations

import io
import itertools
from collections.abc import Iterator, Sequence
from html import escape
from typing import TYPE_CHECKING, Any

from interchange.sheets.drawing import Drawing
from interchange.sheets.page import RIGHT, WRITE, Block, Figure, Heading, Page, Paragraph, Points, Quote, Table
from interchange.sheets.pdf import POINTS_A_MM, draw, in_the_font
from interchange.sheets.plain import one_line
from interchange.sheets.tiles import Paper

if TYPE_CHECKING:
    from reportlab.platypus import Flowable

MARGIN_MM, GAP_MM = 15.0, 3.0
SMALL_MM, LARGE_MM, TALLEST_MM = 80.0, 150.0, 130.0
LONGEST = 100_000
LONGEST_CAPTION = 200
"""It stands above the headings on every page of its table."""
MOST_BESIDE = 1500
GREEN, GREY, BROWN = "#1f4d3a", "#555555", "#7a3a00"
BOLD = "Helvetica-Bold"
SIZES = {"title": 16.0, 2: 12.5, 3: 10.5, "text": 9.5, "small": 8.5}


def paged(page: Page, paper: Paper) -> bytes:
    """The file. Its title is the page's, and it names no author."""
    from reportlab.platypus import SimpleDocTemplate

    out = io.BytesIO()
    margin = MARGIN_MM * POINTS_A_MM
    document = SimpleDocTemplate(
        out, pagesize=(paper.width * POINTS_A_MM, paper.height * POINTS_A_MM), invariant=1, title=in_the_font(page.title),
        author="", subject="", creator="interchange", lang="en",
        leftMargin=margin, rightMargin=margin, topMargin=margin, bottomMargin=margin,
    )  # fmt: skip
    made = _Made(paper.width - 2 * MARGIN_MM)
    document.build([made.words(page.title, "title"), *made.flow(page)])
    return out.getvalue()


class _Made:
    """Blocks as what reportlab lays out."""

    def __init__(self, wide_mm: float) -> None:
        from reportlab.lib.styles import ParagraphStyle

        self.wide_mm = wide_mm
        small, grey = SIZES["small"], GREY

        def style(name: str, under: object, **more: object) -> ParagraphStyle:
            return ParagraphStyle(name, parent=under, **more)

        text = ParagraphStyle("plain", fontName="Helvetica", fontSize=SIZES["text"], leading=12.5, spaceAfter=4)
        head = style("head", text, fontName=BOLD, textColor=GREEN, keepWithNext=1)
        cell = style("cell", text, fontSize=small, leading=10.5, spaceAfter=0)
        self.styles = {
            "title": style("title", head, fontSize=SIZES["title"], leading=19, spaceAfter=8),
            "h2": style("h2", head, fontSize=SIZES[2], leading=15, spaceBefore=9),
            "h3": style("h3", head, fontSize=SIZES[3], leading=13, spaceBefore=5, textColor="#1a1a1a"),
            "plain": text,
            "strong": style("strong", text, fontName=BOLD),
            "quiet": style("quiet", text, fontSize=small, textColor=grey),
            "warn": style("warn", text, leftIndent=8, textColor=BROWN, spaceBefore=4, spaceAfter=6),
            "cell": cell,
            "head cell": style("head cell", cell, fontName=BOLD),
            "right": style("right", cell, alignment=2),
            "quote": style("quote", cell, leading=11, leftIndent=10),
            "caption": style("caption", cell, textColor=grey, spaceAfter=2),
        }

    def words(self, text: str, style: str) -> Flowable:
        """Text that is never read as markup."""
        from reportlab.platypus import Paragraph as Laid

        return Laid(escape(in_the_font(text, LONGEST), quote=False), self.styles[style])

    def flow(self, page: Page) -> Iterator[Flowable]:
        """All blocks; small figures that follow each other stand side by side."""
        for small, run in itertools.groupby(page.blocks, lambda block: isinstance(block, Figure) and not block.wide):
            blocks = list(run)
            if small:
                yield from (self._beside(blocks[i : i + 2]) for i in range(0, len(blocks), 2))
            else:
                yield from (each for block in blocks for each in self.block(block))

    def _beside(self, figures: Sequence[Block]) -> Flowable:
        """Two small figures in a row."""
        from reportlab.platypus import Table as Laid

        cells = [self._parts(figure) if isinstance(figure, Figure) else [] for figure in figures]
        row = [*cells, *([[]] * (2 - len(cells)))]
        side = ("VALIGN", (0, 0), (-1, -1), "TOP"), ("LEFTPADDING", (0, 0), (-1, -1), 0)
        widths = [self.wide_mm * POINTS_A_MM / 2] * 2
        cut = int(any(_wordy(figure) for figure in figures if isinstance(figure, Figure)))
        return Laid([row], colWidths=widths, style=list(side), splitInRow=cut, spaceAfter=6)

    def block(self, block: Block) -> list[Flowable]:
        """One block."""
        if isinstance(block, Heading):
            return [self.words(block.text, f"h{block.level}")]
        if isinstance(block, Paragraph):
            return [self.words(block.text, block.weight)]
        if isinstance(block, Points):
            return [self._points(block)]
        if isinstance(block, Table):
            return [self._table(block)]
        if isinstance(block, Figure):
            return [self._figure(block)]
        return self._quote(block)

    def _points(self, points: Points) -> Flowable:
        from reportlab.platypus import ListFlowable, ListItem

        items = [ListItem(self.words(item, "plain"), leftIndent=14) for item in points.items]
        kind = {"bulletType": "1"} if points.numbered else {"bulletType": "bullet", "start": "•"}
        return ListFlowable(items, leftIndent=14, bulletFontSize=SIZES["small"], **kind)

    def _table(self, table: Table) -> Flowable:
        from reportlab.platypus import Table as Laid
        from reportlab.platypus import TableStyle

        sides = [column.side for column in table.columns]
        caption = [self.words(one_line(table.caption, LONGEST_CAPTION), "caption"), *[""] * (len(table.columns) - 1)]
        rows: list[list[Any]] = [caption, [self.words(column.heading, "head cell") for column in table.columns]]
        rows += [
            [self.words(cell, "right" if side == RIGHT else "cell") for cell, side in zip(row, sides, strict=True)]
            for row in table.rows
        ]
        if table.foot:
            rows.append([self.words(cell, "head cell") for cell in table.foot])
        lines: list[Any] = [
            ("SPAN", (0, 0), (-1, 0)),
            ("LINEBELOW", (0, 1), (-1, 1), 1, GREEN),
            ("LINEBELOW", (0, 2), (-1, -1), 0.4, "#c9c9c9"),
            ("VALIGN", (0, 0), (-1, -1), "TOP"),
            ("LEFTPADDING", (0, 0), (-1, -1), 0),
            ("RIGHTPADDING", (0, 0), (-1, -1), 5),
            ("TOPPADDING", (0, 0), (-1, -1), 2),
            ("BOTTOMPADDING", (0, 0), (-1, -1), 3),
        ]
        return Laid(
            rows, splitInRow=1, colWidths=self._widths(table), repeatRows=2, style=TableStyle(lines), spaceAfter=8, hAlign="LEFT"
        )

    def _widths(self, table: Table) -> list[float]:
        """Columns as wide as what stands in them asks, within bounds; one to write in takes a fair share."""
        asked = []
        for i, column in enumerate(table.columns):
            longest = max((len(row[i]) for row in (*table.rows, table.foot or ("",) * len(table.columns))), default=0)
            least = 24.0 if column.side == WRITE else len(column.heading) + 1.0
            asked.append(max(least, min(float(longest), 45.0)))
        return [self.wide_mm * POINTS_A_MM * each / sum(asked) for each in asked]

    def _figure(self, figure: Figure) -> Flowable:
        from reportlab.platypus import KeepTogether

        return KeepTogether(self._parts(figure))

    def _parts(self, figure: Figure) -> list[Flowable]:
        """A drawing, what it is, and what is to be said of it."""
        wide, high = (LARGE_MM, TALLEST_MM) if figure.wide else (SMALL_MM, SMALL_MM)
        parts = [_drawn(figure.drawing, wide, high), self.words(figure.drawing.title, "caption")]
        return parts + [self.words(note, "quote") for note in figure.drawing.notes]

    def _quote(self, quote: Quote) -> list[Flowable]:
        from reportlab.platypus import Spacer

        lines = [self.words(line, "quote") for line in quote.text.splitlines() if line.strip()]
        return [*lines, Spacer(1, GAP_MM * POINTS_A_MM), self.words(quote.source, "quiet")]


def _wordy(figure: Figure) -> bool:
    """Whether more is said of a figure than a page beside it holds: it may then go over to the next."""
    return len(figure.drawing.title) + sum(map(len, figure.drawing.notes)) > MOST_BESIDE


def _drawn(drawing: Drawing, wide_mm: float, high_mm: float) -> Flowable:
    """A drawing as wide as there is room, or as high."""
    from reportlab.platypus import Flowable as Base

    box = drawing.box.widened(GAP_MM)
    scale = min(wide_mm / box.width, high_mm / box.height, 1.3)

    class Drawn(Base):  # type: ignore[misc]
        """The shapes in the flow of the page."""

        def __init__(self) -> None:
            super().__init__()
            self.width, self.height = (side * scale * POINTS_A_MM for side in (box.width, box.height))

        def draw(self) -> None:
            """On the canvas that the page is drawn on."""
            self.canv.saveState()
            self.canv.scale(scale * POINTS_A_MM, scale * POINTS_A_MM)
            self.canv.translate(-box.left, -box.bottom)
            draw(self.canv, drawing.shapes)
            self.canv.restoreState()

    return Drawn()
