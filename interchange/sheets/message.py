"""Questions in plain words, ready to be sent, worded as on the sheet for a seller. Nothing of the buyer's stands in them."""

from __future__ import annotations

from typing import TYPE_CHECKING

from interchange.money.asked import DIMENSION
from interchange.sheets.checks import HOW, shaft_readings
from interchange.sheets.measure_drawing import face_readings
from interchange.sheets.plain import one_line

if TYPE_CHECKING:
    from collections.abc import Sequence

    from interchange.money.asked import Question
    from interchange.store.library import Library


def wording(question: Question, library: Library) -> str:
    """What to ask, in words a seller understands: as the catalog puts it, else where to lay the tape, else how it is seen."""
    if question.ask:
        return question.ask
    readings = _readings(question, library)
    return f"the {question.title}. {' '.join(readings) if readings else HOW.get(question.seen, '')}".strip()


def hoped(question: Question, library: Library) -> str:
    """The answer hoped for, where it does not stand in the wording already."""
    if question.hoped or question.need is None or _readings(question, library):
        return question.hoped
    return question.need.text


def _readings(question: Question, library: Library) -> tuple[str, ...]:
    """What to count and measure on a face or a shaft, each with the figure hoped for."""
    if question.need is None or not question.need.ref:
        return ()
    face = library.pattern(question.need.ref)
    if face:
        return tuple(face_readings(face))
    shaft = library.shaft(question.need.ref)
    return tuple(shaft_readings(shaft)) if shaft else ()


def message(title: str, questions: Sequence[Question], library: Library) -> str:
    """A short polite message with numbered questions, ready to be sent."""
    lines = [f"Hello, I am interested in your ad “{one_line(title, 80)}”."]
    if len(questions) == 1:
        lines.append(f"Could you tell me {wording(questions[0], library).rstrip('.')}?{_hoped(questions[0], library)}")
    else:
        lines.append("Before I make the trip, could you help me with these?")
        lines += [
            f"{number}. {_sentence(wording(each, library))}{_hoped(each, library)}" for number, each in enumerate(questions, 1)
        ]
    lines.append("A phone picture will do for anything you would rather show than write. Thank you!")
    return "\n".join(lines)


def _sentence(words: str) -> str:
    return f"{words[:1].upper()}{words[1:].rstrip('.')}."


def _hoped(question: Question, library: Library) -> str:
    """The figure hoped for, as it follows a question of fit. Of its health it would put words in his mouth."""
    words = hoped(question, library) if question.about == DIMENSION else ""
    return f" Hoped for: {words.rstrip('.')}." if words else ""
