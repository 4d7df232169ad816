"""The line of an ad that says what it is, among page leavings, prices and places."""

from __future__ import annotations

import re

from interchange.ads.fields import Span
from interchange.ads.line import Line, lines

LONGEST_TITLE = 140
_PROSE = 80  # a longer first line is no title but sentences: the first of them stands for one


def title_span(text: str) -> Span:
    """The first line that says what it is: no page leavings, no price, place or telephone alone."""
    spare: Span | None = None
    for line in lines(text[:_FAR]):
        if line.sort in ("blank", "rule", "crumb"):
            continue
        span = _first_sentence(text, line)
        if _FURNITURE.fullmatch(text, span.start, span.end):
            spare = spare or span
            continue
        if line.sort == "text" or (line.sort == "chat" and span.end > span.start):
            return span
        if line.sort == "label" and spare is None:
            spare = span
    return spare or Span(0, 0)


_FURNITURE = re.compile(
    r"(?:timed |online |consignment |estate |unsold )*(?:lots?|item|stock|stk|ref|listing|sku|ad"
    r"|auction|sale)\b[ .:#]{0,3}(?:no|number|id|results?|sale)?"
    r"[ .:#–-]{0,4}(?:sale )?[\w-]{0,12}[ .:]{0,2}|surplus property[^\n]{0,40}|for sale[ .:!]{0,3}"
    r"|[Ff]or [Ss]ale[ .:]{0,3}|wanted[ .:]{0,3}"
    r"|[^\n>»›]{2,40}(?:[ ]?[>»›][ ]?[^\n>»›]{1,40}){1,8}|showing [0-9][^\n]{0,80}"
    r"|(?:<<|«|‹)?[ ]?back to (?:results|search)[^\n]{0,60}"
    r"|results? [0-9]{1,5} of [0-9]{1,6}[^\n]{0,60}|skip to [a-z ]{3,20}",
    re.IGNORECASE,
)  # a line that names the sale and not the thing
_FAR = 4000  # signs within which a title must stand
_SENTENCE = re.compile(r"[.!?](?=\s|$)|\s[-–—|]{1,2}\s(?=[A-Z][a-z]{1,10} )")


def _first_sentence(text: str, line: Line) -> Span:
    start = line.body_at
    start += len(text[start : line.end]) - len(text[start : line.end].lstrip())
    label = re.compile(
        r"(?:title|subject|listing|heading|headline|ad|item|for sale|selling)[ \t]{0,2}:[ \t]{0,3}", re.IGNORECASE
    ).match(text, start, line.end)
    if label:
        start = label.end()
    body = text[start : line.end].rstrip()
    if len(body) > _PROSE:
        stop = _SENTENCE.search(body, 10)
        body = body[: stop.start() if stop and stop.start() <= LONGEST_TITLE else LONGEST_TITLE].rstrip()
    return Span(start, start + len(body))
