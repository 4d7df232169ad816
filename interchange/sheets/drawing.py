"""A drawing as data: lines, circles and words in millimetres, x to the right and y up, on named layers.

Nothing here knows of paper or files: `svg`, `pdf` and `dxf` each write the same shapes.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator
from typing import NamedTuple

# Layers, by what a line is for. A plate's are by operation, so that a shop can cut, drill and tap from them one by one.
OUTLINE, OPENING, REGISTER = "outline", "opening", "register"
DRILL, SINK, TAP, SPOT, DOWEL = "drill", "counterbore", "tap", "spot", "dowel"
HOLE, PILOT, FLANGE = "hole", "pilot", "flange"
CENTRE, CIRCLE, SIZE, WORDS, TITLE = "centre", "bolt circle", "dimension", "words", "title"
BAR, JOIN, FRAME = "check bar", "join", "frame"
TAPE, PART, FACE, MEETS, ALONE, OTHER = "tape", "part", "face", "meets", "alone", "alone on the other"
MARKED = "marked"


class Style(NamedTuple):
    """How a layer is drawn."""

    colour: str
    width_mm: float = 0.25
    dashes_mm: tuple[float, ...] = ()


PLAIN = Style("#000000")
STYLES = {
    OUTLINE: Style("#000000", 0.35),
    OPENING: Style("#000000", 0.25, (6.0, 2.0)),
    REGISTER: Style("#006000", 0.3),
    DRILL: Style("#c00000", 0.3),
    SINK: Style("#c06000", 0.2, (2.0, 1.0)),
    TAP: Style("#a000a0", 0.3),
    SPOT: Style("#c00000", 0.2),
    DOWEL: Style("#007080", 0.3),
    HOLE: Style("#c00000", 0.3),
    PILOT: Style("#006000", 0.3),
    FLANGE: Style("#404040", 0.25, (8.0, 2.0)),
    CENTRE: Style("#606060", 0.13, (8.0, 1.5, 1.5, 1.5)),
    CIRCLE: Style("#606060", 0.13, (4.0, 1.5)),
    SIZE: Style("#303030", 0.15),
    WORDS: PLAIN,
    TITLE: PLAIN,
    BAR: Style("#000000", 0.25),
    JOIN: Style("#0000c0", 0.2),
    FRAME: Style("#a0a0a0", 0.13),
    TAPE: Style("#0040b0", 0.8),
    PART: Style("#404040", 0.4),
    FACE: Style("#606060", 0.3),
    MEETS: Style("#006030", 0.7),
    ALONE: Style("#b00000", 0.4),
    OTHER: Style("#7a3a00", 0.4, (1.6, 1.0)),
    MARKED: Style("#0040b0", 1.0),
}

LEFT, MIDDLE, RIGHT = "left", "middle", "right"
WIDE = 0.6
"""How wide a letter is on average, in heights of a capital: to reserve room by, no more."""


class Line(NamedTuple):
    """A straight line."""

    x1: float
    y1: float
    x2: float
    y2: float
    layer: str


class Circle(NamedTuple):
    """A circle."""

    x: float
    y: float
    radius: float
    layer: str


class Words(NamedTuple):
    """One line of text: where it stands, how high its capitals are, which of its ends is there, and its turn to the left."""

    x: float
    y: float
    text: str
    height: float
    layer: str = WORDS
    anchor: str = LEFT
    turn_deg: float = 0.0


Shape = Line | Circle | Words


class Box(NamedTuple):
    """A rectangle."""

    left: float
    bottom: float
    right: float
    top: float

    @property
    def width(self) -> float:
        """From left to right."""
        return self.right - self.left

    @property
    def height(self) -> float:
        """From bottom to top."""
        return self.top - self.bottom

    def widened(self, by: float) -> Box:
        """The box with a margin on all sides."""
        return Box(self.left - by, self.bottom - by, self.right + by, self.top + by)

    def meets(self, other: Box) -> bool:
        """Whether they have any of the plane in common."""
        across = self.left < other.right and other.left < self.right
        return across and self.bottom < other.top and other.bottom < self.top


class Drawing(NamedTuple):
    """A figure: its shapes, what it is called, and what is to be said beside it."""

    title: str
    shapes: tuple[Shape, ...]
    notes: tuple[str, ...] = ()
    """Sentences to print beside it, the important ones first."""

    @property
    def box(self) -> Box:
        """What the shapes take."""
        return box_of(self.shapes)

    def on(self, *layers: str) -> tuple[Shape, ...]:
        """The shapes of some layers."""
        return tuple(shape for shape in self.shapes if shape.layer in layers)


def box_of(shapes: Iterable[Shape]) -> Box:
    """The rectangle around shapes; of no shapes, nothing at the origin."""
    boxes = [_box(shape) for shape in shapes] or [Box(0.0, 0.0, 0.0, 0.0)]
    lefts, bottoms, rights, tops = zip(*boxes, strict=True)
    return Box(min(lefts), min(bottoms), max(rights), max(tops))


def _box(shape: Shape) -> Box:
    if isinstance(shape, Line):
        return Box(min(shape.x1, shape.x2), min(shape.y1, shape.y2), max(shape.x1, shape.x2), max(shape.y1, shape.y2))
    if isinstance(shape, Circle):
        return Box(shape.x - shape.radius, shape.y - shape.radius, shape.x + shape.radius, shape.y + shape.radius)
    width = len(shape.text) * shape.height * WIDE * 1.3
    starts = {LEFT: 0.0, MIDDLE: -width / 2, RIGHT: -width}[shape.anchor]
    turn = math.radians(shape.turn_deg)
    along, up = (math.cos(turn), math.sin(turn)), (-math.sin(turn), math.cos(turn))
    corners = [
        (shape.x + a * along[0] + b * up[0], shape.y + a * along[1] + b * up[1])
        for a in (starts, starts + width)
        for b in (0.0, shape.height)
    ]
    xs, ys = [x for x, _ in corners], [y for _, y in corners]
    return Box(min(xs), min(ys), max(xs), max(ys))


def touches(shape: Shape, box: Box) -> bool:
    """Whether any of a shape may lie in a box; of a circle its line counts, not what it encloses."""
    if not _box(shape).widened(0.01).meets(box):
        return False
    if not isinstance(shape, Circle):
        return True
    near = math.hypot(max(box.left - shape.x, 0.0, shape.x - box.right), max(box.bottom - shape.y, 0.0, shape.y - box.top))
    far = math.hypot(
        max(abs(box.left - shape.x), abs(box.right - shape.x)), max(abs(box.bottom - shape.y), abs(box.top - shape.y))
    )
    return near <= shape.radius <= far


def moved(shape: Shape, dx: float, dy: float, scale: float = 1.0) -> Shape:
    """A shape scaled about the origin and then moved; a template is never scaled, a map of its sheets is."""
    if isinstance(shape, Line):
        ends = (shape.x1 * scale + dx, shape.y1 * scale + dy, shape.x2 * scale + dx, shape.y2 * scale + dy)
        return Line(*ends, shape.layer)
    if isinstance(shape, Circle):
        return Circle(shape.x * scale + dx, shape.y * scale + dy, shape.radius * scale, shape.layer)
    return shape._replace(x=shape.x * scale + dx, y=shape.y * scale + dy, height=shape.height * scale)


def cross(x: float, y: float, arm: float, layer: str = CENTRE) -> Iterator[Line]:
    """Two lines that meet at a point."""
    yield Line(x - arm, y, x + arm, y, layer)
    yield Line(x, y - arm, x, y + arm, layer)


def rectangle(box: Box, layer: str) -> Iterator[Line]:
    """The four sides of a box."""
    yield Line(box.left, box.bottom, box.right, box.bottom, layer)
    yield Line(box.right, box.bottom, box.right, box.top, layer)
    yield Line(box.right, box.top, box.left, box.top, layer)
    yield Line(box.left, box.top, box.left, box.bottom, layer)


def across(x: float, y: float, diameter: float, level: float, words: str, letter: float = 3.0) -> Iterator[Shape]:
    """A diameter dimensioned below a circle: two lines down from its ends, one between them with ticks, and the figure."""
    left, right = x - diameter / 2, x + diameter / 2
    tick = letter / 2
    for end in (left, right):
        yield Line(end, y, end, level - tick, SIZE)
        yield Line(end - tick, level - tick, end + tick, level + tick, SIZE)
    yield Line(left, level, right, level, SIZE)
    yield Words(x, level + letter / 3, words, letter, SIZE, MIDDLE)
