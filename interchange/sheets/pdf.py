"""Pages as a PDF at true size, by reportlab: the same pages give the same bytes. The library is loaded where a PDF is written."""

from __future__ import annotations

import io
from collections.abc import Iterable, Sequence
from typing import TYPE_CHECKING

from interchange.sheets.drawing import LEFT, MIDDLE, PLAIN, STYLES, Circle, Line, Shape
from interchange.sheets.plain import one_line
from interchange.sheets.tiles import Page

if TYPE_CHECKING:
    from reportlab.pdfgen.canvas import Canvas

POINTS_A_MM = 72 / 25.4
FONT = "Helvetica"
CAPITAL = 0.718
"""How high a capital of Helvetica is, as a share of its size."""


def pdf(pages: Sequence[Page], title: str) -> bytes:
    """The pages as a file. A reader that heeds it prints without fitting to the paper."""
    from reportlab.pdfgen.canvas import Canvas

    out = io.BytesIO()
    canvas = Canvas(out, invariant=1, pageCompression=1)
    canvas.setTitle(in_the_font(title))
    canvas.setCreator("interchange")
    canvas.setViewerPreference("PrintScaling", "None")
    for page in pages:
        canvas.setPageSize((page.paper.width * POINTS_A_MM, page.paper.height * POINTS_A_MM))
        canvas.scale(POINTS_A_MM, POINTS_A_MM)
        for part in page.clipped:
            canvas.saveState()
            window = canvas.beginPath()
            window.rect(part.box.left, part.box.bottom, part.box.width, part.box.height)
            canvas.clipPath(window, stroke=0, fill=0)
            draw(canvas, part.shapes)
            canvas.restoreState()
        draw(canvas, page.shapes)
        canvas.showPage()
    canvas.save()
    return out.getvalue()


def draw(canvas: Canvas, shapes: Iterable[Shape]) -> None:
    """Shapes where the canvas stands, in the unit it is scaled to."""
    for shape in shapes:
        style = STYLES.get(shape.layer, PLAIN)
        if isinstance(shape, (Line, Circle)):
            canvas.setStrokeColor(style.colour)
            canvas.setLineWidth(style.width_mm)
            canvas.setDash(list(style.dashes_mm))
            if isinstance(shape, Line):
                canvas.line(shape.x1, shape.y1, shape.x2, shape.y2)
            else:
                canvas.circle(shape.x, shape.y, shape.radius, stroke=1, fill=0)
        elif shape.text:
            _write(
                canvas,
                shape.x,
                shape.y,
                shape.turn_deg,
                in_the_font(shape.text),
                shape.height / CAPITAL,
                shape.anchor,
                style.colour,
            )


def _write(
    canvas: Canvas, x: float, y: float, turn_deg: float, words: str, size: float, anchor: str, colour: str
) -> None:  # fmt: skip
    canvas.saveState()
    canvas.setFillColor(colour)
    canvas.setFont(FONT, size)
    canvas.translate(x, y)
    canvas.rotate(turn_deg)
    put = canvas.drawString if anchor == LEFT else canvas.drawCentredString if anchor == MIDDLE else canvas.drawRightString
    put(0, 0, words)
    canvas.restoreState()


def in_the_font(text: str, most: int = 400) -> str:
    """What the font has: Latin letters and signs; a question mark for any other."""
    return one_line(text, most).encode("cp1252", errors="replace").decode("cp1252")
