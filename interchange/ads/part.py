"""Parts and what an ad says of them: included, missing, needed, bad."""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence

from interchange.ads.fields import PartRead
from interchange.ads.wording import BREAK, COLON, COMMA, Hit, Token

_CUES = {
    "missing": "missing", "without": "missing", "no": "missing", "less": "missing", "minus": "missing", "lacks": "missing",
    "doesnt": "missing", "dont": "missing", "not": "missing", "sold": "missing", "except": "missing",
    "with": "included", "w": "included", "includes": "included", "included": "included", "including": "included",
    "incl": "included",
    "has": "included", "comes": "included", "plus": "included", "have": "included", "still": "included",
    "needs": "needed", "need": "needed", "requires": "needed", "wants": "needed",
    "bad": "bad", "broken": "bad", "cracked": "bad", "junk": "bad",
}  # fmt: skip
_KEEPS_CUE = frozenset([
    "and", "or", "nor", "a", "an", "the", "new", "good", "its", "original", "come", "comes", "has", "have",
    "include", "all", "both", "of", "is", "are", "any", "also", "still", "complete", "front", "rear", "oem",
    "rebuilt", "working", "nice", "old", "used", "extra", "with", COMMA, COLON,
])  # fmt: skip
_AFTER = {
    "missing": "missing",
    "gone": "missing",
    "included": "included",
    "bad": "bad",
    "broken": "bad",
    "cracked": "bad",
    "shot": "bad",
    "sold": "missing",
}
_AFTER_SKIPS = frozenset(["is", "are", "was", "were", "also", "has", "have", "been", "be", "and"])
# After a part, these are what is spoken of: "no head gasket trouble", "no pump noise".
_OF_IT = frozenset([
    "gasket", "gaskets", "bolt", "bolts", "stud", "studs", "leak", "leaks", "noise", "noises", "issue", "issues", "problem",
    "problems", "trouble", "work", "smoke", "knock", "crack", "cracks", "damage", "wear", "core", "whine", "slip",
])  # fmt: skip
_PRAISED = frozenset(["new", "good", "rebuilt", "nice", "fresh", "great"])
_JOINS = frozenset(["and", "or", COMMA])
_AFTER_REACH = 4
_PRICED = re.compile(r"[ \t]{0,2}[-–:(]?[ \t]{0,2}[$€£]")  # "also have injectors $40": sold apart
_LIST_PAUSES = 8  # a cue holds for a list of so many parts


def part_reads(text: str, words: Sequence[Token], parts: Iterable[Hit]) -> tuple[PartRead, ...]:
    """Parts with what is said of them: "no starter or pump", "comes with flywheel", "starter is missing"."""
    by_first = {hit.first: hit for hit in parts}
    found: list[PartRead] = []
    joined: list[Hit] = []  # parts of a list of which nothing was said yet: "head and pan gone"
    cue, index, pauses = "", 0, 0
    while index < len(words):
        hit = by_first.get(index)
        if hit is None:
            cue, pauses = _next_cue(words, index, cue, pauses)
            if words[index].key not in _JOINS:
                joined = []
            index += 1
            continue
        after = _said_after(words, hit.last)
        state = after or cue
        if hit.last < len(words) and words[hit.last].key in _OF_IT:
            state = after = ""
        if after and hit.first and words[hit.first - 1].key in ("and", "or"):  # "head, crank and pan gone"
            found += [_part(text, one, after) for one in joined]
        praised = hit.first and words[hit.first - 1].key in _PRAISED
        joined = [] if state or praised else [*joined, hit]
        if state and not (state == "included" and _PRICED.match(text, hit.span.end)):
            found.append(_part(text, hit, state))
        index = max(hit.last, index + 1)
    return tuple(found)


def _part(text: str, hit: Hit, state: str) -> PartRead:
    sure = 0.6 if state in ("needed", "bad") else 0.8
    return PartRead(hit.id, state, text[hit.span.start : hit.span.end], hit.span, sure)


def _next_cue(words: Sequence[Token], index: int, cue: str, pauses: int) -> tuple[str, int]:
    key = words[index].key
    if key == BREAK:
        return "", 0
    new = _CUES.get(key)
    if (
        new == "included"
        and cue == "missing"
        and index
        and words[index - 1].key in ("not", "doesnt", "dont", "come", "include", "no", "have")
    ):
        return cue, pauses  # "does not have a starter", "doesn't come with"
    if new and not (key in ("has", "have", "comes") and cue == "missing" and words[index - 1].key in ("doesnt", "dont", "not")):
        return new, 0
    if cue == "bad" and key == COMMA:
        return "", 0  # "block cracked, head good"
    if key in _KEEPS_CUE and pauses < _LIST_PAUSES:
        return cue, pauses + (key == COMMA)
    return "", 0


def _said_after(words: Sequence[Token], last: int) -> str:
    denied = False
    for token in words[last : last + _AFTER_REACH]:
        if token.key in ("not", "isnt", "arent", "no"):
            denied = True
        elif token.key in _AFTER:
            state = _AFTER[token.key]
            return {"included": "missing", "missing": "included"}.get(state, "") if denied else state
        elif token.key not in _AFTER_SKIPS:
            return ""
    return ""
