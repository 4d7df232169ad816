"""A drawing as DXF in millimetres, by ezdxf: a layer for each of the drawing's. The library is loaded where one is written."""

from __future__ import annotations

import io
import re
from typing import TYPE_CHECKING

from interchange.sheets.drawing import LEFT, MIDDLE, STYLES, Circle, Drawing, Line
from interchange.sheets.plain import one_line

if TYPE_CHECKING:
    from ezdxf.layouts import Modelspace

VERSION = "R2000"
"""Old enough for the shops' cutting programs, new enough for units and true colours' nearest."""
COLOURS = {"#c00000": 1, "#c06000": 30, "#006000": 3, "#007080": 4, "#0000c0": 5, "#a000a0": 6}
BLACK_OR_WHITE, GREY = 7, 8
MILLIMETRES = 4
NOT_A_NAME = re.compile(r"[^A-Z0-9]+")


def layer_name(layer: str) -> str:
    """A layer's name in the file: ``bolt circle`` is ``BOLT_CIRCLE``."""
    return NOT_A_NAME.sub("_", layer.upper())


def dxf(drawing: Drawing) -> bytes:
    """The drawing as a file, true to size in its model space; the same drawing gives the same bytes."""
    import ezdxf

    ezdxf.options.write_fixed_meta_data_for_testing = True  # no date and no random id: a file says what was drawn, and no more
    document = ezdxf.new(VERSION, units=MILLIMETRES)
    for layer in dict.fromkeys(shape.layer for shape in drawing.shapes):
        colour = STYLES[layer].colour if layer in STYLES else ""
        grey = colour not in COLOURS and colour != "#000000"
        document.layers.add(layer_name(layer), color=COLOURS.get(colour, GREY if grey else BLACK_OR_WHITE))
    _draw(document.modelspace(), drawing)
    out = io.StringIO()
    document.write(out)
    return out.getvalue().encode("cp1252", errors="replace")  # what a file of this version is written in


def _draw(space: Modelspace, drawing: Drawing) -> None:
    from ezdxf.enums import TextEntityAlignment

    anchors = {LEFT: TextEntityAlignment.LEFT, MIDDLE: TextEntityAlignment.CENTER}
    for shape in drawing.shapes:
        on = {"layer": layer_name(shape.layer)}
        if isinstance(shape, Line):
            space.add_line((shape.x1, shape.y1), (shape.x2, shape.y2), dxfattribs=on)
        elif isinstance(shape, Circle):
            space.add_circle((shape.x, shape.y), shape.radius, dxfattribs=on)
        elif shape.text:
            words = one_line(shape.text).encode("cp1252", errors="replace").decode("cp1252")
            text = space.add_text(words, height=shape.height, rotation=shape.turn_deg, dxfattribs=on)
            text.set_placement((shape.x, shape.y), align=anchors.get(shape.anchor, TextEntityAlignment.RIGHT))
