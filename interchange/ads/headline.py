"""Headlines that say the sum, "H52D engine - $3,750 (Barre)", and the bodies that stand after a blank line."""

from __future__ import annotations

import re
from collections.abc import Sequence

from interchange.ads.line import Line

_SUM = r"(?:[$€£]|US ?\$|CAD? ?\$)[ ]?[0-9]"
_PRICED_TITLE = re.compile(rf"[^\n]{{4,90}}[ ][-–—]{{1,2}}[ ]?{_SUM}[^\n]{{0,60}}")
_ENDS_PRICED = re.compile(rf"[^\n]{{8,90}}{_SUM}[0-9,.]{{0,8}}(?:[ ](?:firm|obo|ea|each))?", re.IGNORECASE)
_MODEL = re.compile(r"[a-z]{1,3}-?[0-9]{2,4}")
_PROSE = 60  # signs of a line that runs on
_MOST_HEAD = 2  # lines


def with_bodies(groups: Sequence[Sequence[Line]]) -> list[list[Line]]:
    """With "H52D engine - $3,750 (Barre)", a headline that says the sum, joined to the body that stands after a blank line."""
    joined: list[list[Line]] = []
    for group in groups:
        if joined and _is_body(_content(group), _content(joined[-1])):
            joined[-1] += group
        else:
            joined.append(list(group))
    return joined


def _is_body(content: Sequence[Line], head: Sequence[Line]) -> bool:
    """Whether a block is what a headline before it is about: no headline itself, and a label, a place, prose, or its model."""
    if not content or not head or len(head) > _MOST_HEAD:
        return False
    first, title = content[0], head[0].text.strip()
    models = {word for word in _MODEL.findall(title.lower()) if not word.isdigit()}
    shared = any(word in first.text.lower() for word in models)
    headed = _PRICED_TITLE.fullmatch(title) or (_ENDS_PRICED.fullmatch(title) and (shared or not first.has_model))
    if not headed or _PRICED_TITLE.fullmatch(first.text.strip()) or first.stands_alone or first.sort == "price":
        return False
    return first.is_detail or first.sort in ("label", "place") or len(first.text) >= _PROSE or shared


def _content(group: Sequence[Line]) -> list[Line]:
    return [line for line in group if line.sort not in ("blank", "rule", "crumb")]
