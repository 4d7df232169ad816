"""A drawing as SVG in millimetres, for a page or by itself. Words are data: they are escaped, and never markup."""

from __future__ import annotations

from html import escape

from interchange.sheets.drawing import LEFT, MIDDLE, PLAIN, STYLES, Box, Circle, Drawing, Line, Shape, Style
from interchange.sheets.plain import one_line

ANCHORS = {LEFT: "start", MIDDLE: "middle"}
CAPITAL = 0.72
"""How high a capital is, as a share of the size of its font: Arial and Helvetica."""
MARGIN_MM = 3.0


def svg(drawing: Drawing, *, box: Box | None = None, true_size: bool = True, label: str = "") -> str:
    """An ``svg`` element. At true size it is as many millimetres wide as what it shows; otherwise it fills what it stands in.

    ``label`` is what is read out instead of it, the title where it is empty.
    """
    shown = box or drawing.box.widened(MARGIN_MM)
    size = f' width="{_mm(shown.width)}mm" height="{_mm(shown.height)}mm"' if true_size else ""
    view = f"{_mm(shown.left)} {_mm(-shown.top)} {_mm(shown.width)} {_mm(shown.height)}"
    words = escape(one_line(label or drawing.title))
    body = "".join(map(_element, drawing.shapes))
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg"{size} viewBox="{view}" role="img" aria-label="{words}"'
        f' font-family="Arial, Helvetica, sans-serif"><title>{words}</title>{body}</svg>\n'
    )


def _element(shape: Shape) -> str:
    style = STYLES.get(shape.layer, PLAIN)
    if isinstance(shape, Line):
        ends = f'x1="{_mm(shape.x1)}" y1="{_mm(-shape.y1)}" x2="{_mm(shape.x2)}" y2="{_mm(-shape.y2)}"'
        return f"<line {ends}{_stroke(style)}/>"
    if isinstance(shape, Circle):
        return f'<circle cx="{_mm(shape.x)}" cy="{_mm(-shape.y)}" r="{_mm(shape.radius)}" fill="none"{_stroke(style)}/>'
    turn = f' transform="rotate({_mm(-shape.turn_deg)} {_mm(shape.x)} {_mm(-shape.y)})"' if shape.turn_deg else ""
    place = f'x="{_mm(shape.x)}" y="{_mm(-shape.y)}" font-size="{_mm(shape.height / CAPITAL)}"'
    anchor = ANCHORS.get(shape.anchor, "end")
    return f'<text {place} text-anchor="{anchor}" fill="{style.colour}"{turn}>{escape(one_line(shape.text))}</text>'


def _stroke(style: Style) -> str:
    dashes = f' stroke-dasharray="{" ".join(map(_mm, style.dashes_mm))}"' if style.dashes_mm else ""
    return f' stroke="{style.colour}" stroke-width="{style.width_mm:g}"{dashes}'


def _mm(value: float) -> str:
    """Millimetres to a ten-thousandth, without idle zeros."""
    text = f"{value:.4f}".rstrip("0").rstrip(".")
    return "0" if text == "-0" else text
