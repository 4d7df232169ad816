"""Questions in plain words, ready to be sent: how to measure, and the figure hoped for. Nothing of the buyer's stands in them."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from interchange.quantity import show
from interchange.sheets.plain import one_line

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence

    from interchange.catalog.model import Pattern
    from interchange.money.questions import Question


_HOW = {
    "photo": "a photo of the {title}, square on and close",
    "plate": "a photo of the plate, sharp enough to read every letter, for the {title}",
    "tape": "the {title}, measured with a tape to the nearest 1/16 in",
    "teardown": "the {title}, if it is apart or easily got at",
    "seller": "the {title}, as far as you know it",
}
_HOLES = (
    "how many holes the {title} has, and with a tape how far apart the two farthest holes are, from the left edge of one to "
    "the left edge of the other; a photo square on"
)
_TEETH = "how many teeth the {title} has, and its outside diameter; a photo from the end"


def wording(question: Question, pattern: Callable[[str], Pattern | None]) -> str:
    """What to ask, in words a seller understands."""
    if question.ask:
        return question.ask
    if question.need is not None and question.need.ref:
        return (_HOLES if pattern(question.need.ref) else _TEETH).format(title=question.title)
    return _HOW[question.seen].format(title=question.title)


def hoped(question: Question, pattern: Callable[[str], Pattern | None]) -> str:
    """The answer hoped for, in figures where there are any."""
    if question.hoped:
        return question.hoped
    need = question.need
    if need is None:
        return ""
    face = pattern(need.ref) if need.ref else None
    return face_hoped(face) if face else need.text


def face_hoped(face: Pattern) -> str:
    """A bolt face as it is measured: holes, the farthest pair, the pilot."""
    parts = []
    if face.holes:
        parts.append(f"{face.holes} holes")
    if face.circle and face.holes:
        parts.append(f"farthest apart {show(farthest_mm(face.circle.value, face.holes), 'length')}")
    return ", ".join(parts) or face.title or face.id


def farthest_mm(circle_mm: float, holes: int) -> float:
    """The distance between the two holes of a circle that are farthest apart: the circle where they are opposite."""
    return circle_mm if holes % 2 == 0 else circle_mm * math.cos(math.pi / (2 * holes))


def message(title: str, questions: Sequence[Question], pattern: Callable[[str], Pattern | None]) -> str:
    """A short polite message with numbered questions, ready to be sent."""
    lines = [f"Hello, I am interested in your ad “{one_line(title, 80)}”."]
    if len(questions) == 1:
        lines.append(f"Could you tell me {wording(questions[0], pattern)}?")
    else:
        lines.append("Before I make the trip, could you help me with these?")
        lines += [f"{number}. {_sentence(wording(each, pattern))}" for number, each in enumerate(questions, 1)]
    lines.append("A phone picture will do for anything you would rather show than write. Thank you!")
    return "\n".join(lines)


def _sentence(words: str) -> str:
    return words[:1].upper() + words[1:] + "."
