"""What is for sale: a machine, a unit or a part, in what state of completeness, and which parts come with it."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from interchange.ads.fields import Field, PartRead, Span, UnitHealth
from interchange.ads.wording import BREAK, COLON, COMMA, Hit, Token

# Before a noun, these say it is not the thing sold but where that came from, or what the thing sold has.
_COMES_FROM = frozenset(["for", "from", "off", "of", "fits", "fit", "out", "to", "removed", "pulled", "took", "into", "in"])
_HAS = frozenset(["with", "w", "has", "have", "needs", "need", "bad", "blown", "no", "without", "plus", "and", "wants", "had", "includes"])
_TRANSPARENT = frozenset(["a", "an", "the", "my", "our", "his", "this", "that", "good", "running", "rebuilt", "used", "complete", "old"])

_CUES = {
    "missing": "missing", "without": "missing", "no": "missing", "less": "missing", "minus": "missing", "lacks": "missing",
    "doesnt": "missing", "dont": "missing", "not": "missing", "sold": "missing", "except": "missing",
    "with": "included", "w": "included", "includes": "included", "included": "included", "including": "included", "incl": "included",
    "has": "included", "comes": "included", "plus": "included", "have": "included", "still": "included",
    "needs": "needed", "need": "needed", "requires": "needed", "wants": "needed",
    "bad": "bad", "broken": "bad", "cracked": "bad", "junk": "bad",
}  # fmt: skip
_KEEPS_CUE = frozenset(
    ["and", "or", "nor", "a", "an", "the", "new", "good", "its", "original", "come", "comes", "has", "have", "include", "all", "both", "of"]
    + ["is", "are", "any", "also", "still", "complete", "front", "rear", "oem", "rebuilt", "working", "nice", "old", "used", "extra", "with"]
    + [COMMA, COLON]
)
_AFTER = {"missing": "missing", "gone": "missing", "included": "included", "bad": "bad", "broken": "bad", "cracked": "bad", "shot": "bad", "sold": "missing"}
_AFTER_SKIPS = frozenset(["is", "are", "was", "were", "also", "has", "have", "been", "be", "and"])
_AFTER_REACH = 4
_LIST_PAUSES = 8  # a cue holds for a list of so many parts

_MACHINE_OFFERS = ("parts_machine", "running_machine", "machine")
_RUNS = ("runs_and_drives", "cold_start_video", "runs_well", "ran_when_parked")


def part_reads(text: str, words: Sequence[Token], parts: Iterable[Hit]) -> tuple[PartRead, ...]:
    """Parts with what is said of them: "no starter or pump", "comes with flywheel", "starter is missing"."""
    by_first = {hit.first: hit for hit in parts}
    found: list[PartRead] = []
    cue, index, pauses = "", 0, 0
    while index < len(words):
        hit = by_first.get(index)
        if hit is None:
            cue, pauses = _next_cue(words, index, cue, pauses)
            index += 1
            continue
        state = _said_after(words, hit.last) or cue
        if state:
            found.append(PartRead(hit.id, state, text[hit.span.start : hit.span.end], hit.span, 0.6 if state in ("needed", "bad") else 0.8))
        index = max(hit.last, index + 1)
    return tuple(found)


def _next_cue(words: Sequence[Token], index: int, cue: str, pauses: int) -> tuple[str, int]:
    key = words[index].key
    if key == BREAK:
        return "", 0
    new = _CUES.get(key)
    if new == "included" and cue == "missing" and index and words[index - 1].key in ("not", "doesnt", "dont", "come", "include", "no", "have"):
        return cue, pauses  # "does not have a starter", "doesn't come with"
    if new and not (key in ("has", "have", "comes") and cue == "missing" and words[index - 1].key in ("doesnt", "dont", "not")):
        return new, 0
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


def unit_health(text: str, words: Sequence[Token], things: Sequence[Hit], states: Sequence[Hit]) -> tuple[UnitHealth, ...]:
    """Units called good or bad in one clause: "motor is good, trans is bad", "good motor bad trans"."""
    marks = sorted([hit for hit in things if hit.id != "machine"] + list(states), key=lambda hit: hit.first)
    found: list[UnitHealth] = []
    clause: list[Hit] = []
    for hit in marks:
        if clause and _pause_between(words, clause[-1].last, hit.first):
            found += _clause_health(text, clause)
            clause = []
        clause.append(hit)
    return tuple(found + _clause_health(text, clause))


def _pause_between(words: Sequence[Token], start: int, end: int) -> bool:
    return end - start > 6 or any(words[index].key in (BREAK, COMMA, "but", "with", "w") for index in range(start, end))


def _clause_health(text: str, clause: Sequence[Hit]) -> list[UnitHealth]:
    units = [hit for hit in clause if hit.room == "thing"]
    states = [hit for hit in clause if hit.room == "state"]
    if not units or not states:
        return []
    if len(states) == 1:
        pairs = [(unit, states[0]) for unit in units]
    else:
        state_first = clause[0].room == "state"
        order = units if state_first else list(reversed(units))
        pairs = []
        for state in states:
            near = next((unit for unit in order if (unit.first > state.first) == state_first), None)
            if near:
                pairs.append((near, state))
    made = []
    for unit, state in pairs:
        span = Span(min(unit.span.start, state.span.start), max(unit.span.end, state.span.end))
        value = state.id if not state.negated else {"good": "bad", "bad": "good"}.get(state.id, state.id)
        certainty = 0.5 if state.doubted else 0.75 if len(clause) == 2 else 0.6  # noqa: PLR2004 - one unit, one state
        made.append(UnitHealth(unit.id, value, text[span.start : span.end], span, certainty))
    return made


def subject(text: str, words: Sequence[Token], nouns: Sequence[Hit], title: Span) -> tuple[Field | None, Field | None]:
    """What is for sale: machine, unit or part, and which; from the title's head noun, else from the first noun of the ad."""
    in_title = [hit for hit in nouns if title.start <= hit.span.start < title.end]
    head, certainty = _head(words, in_title), 0.85
    if head is None:
        certainty = 0.5
        head = _head(words, [hit for hit in nouns if hit.span.start >= title.end])
    if head is None:
        return None, None
    kind = "part" if head.room == "part" else "machine" if head.id == "machine" else "unit"
    found = text[head.span.start : head.span.end]
    return Field("subject", kind, found, head.span, certainty), Field("subject_is", head.id, found, head.span, certainty)


def _head(words: Sequence[Token], nouns: Sequence[Hit]) -> Hit | None:
    """The noun the others belong to: of nouns side by side the last ("loader engine"), none that follows "for" or "with"."""
    index = 0
    while index < len(nouns):
        run = index
        while run + 1 < len(nouns) and _side_by_side(words, nouns[run], nouns[run + 1]):
            run += 1
        if not _belongs_to_another(words, nouns[index].first):
            return nouns[run]
        index = run + 1
    return None


def _side_by_side(words: Sequence[Token], left: Hit, right: Hit) -> bool:
    """Only models and such stand between: no pause, no little word that starts another phrase."""
    between = [words[index].key for index in range(left.last, right.first)]
    blocked = (*_COMES_FROM, *_HAS, BREAK, COMMA, COLON, "or", "is", "runs")
    return len(between) <= 2 and not any(key in blocked for key in between)  # noqa: PLR2004 - "loader diesel engine"


def _belongs_to_another(words: Sequence[Token], first: int) -> bool:
    """A "for", "out of" or "with" stands before it, in the same phrase: "starter for Brackmoor engine"."""
    for index in range(first - 1, max(-1, first - 6), -1):
        key = words[index].key
        if key in (BREAK, COMMA, COLON):
            return False
        if key in ("sale", "selling"):
            return False
        if key in _COMES_FROM or key in _HAS:
            return not (key == "for" and words[index + 1].key == "sale")
    return False


def offer(text: str, offers: Sequence[Hit], sort: Field | None, phrase_ids: Iterable[str], title: Span) -> Field | None:
    """What sort of offer it is: the word used for it, the title's before the body's; else what the subject and health words make it."""
    kind = sort.value if sort else None
    live = [hit for hit in offers if not hit.negated and not (hit.id == "core" and kind == "part")]
    in_title = [hit for hit in live if title.start <= hit.span.start < title.end]
    fitting = [hit for hit in in_title or live if _suits(hit.id, kind)] or in_title
    if fitting:
        best = min(fitting, key=lambda hit: (_ORDER.get(hit.id, 9), hit.span))
        certainty = (0.9 if in_title else 0.65) * (0.7 if best.doubted else 1)
        value = "parts_machine" if best.id == "part" and kind == "machine" and not in_title else best.id
        return Field("offer", value, text[best.span.start : best.span.end], best.span, certainty)
    if sort is None:
        return None
    if kind == "machine":
        runs = any(phrase in _RUNS[:3] for phrase in phrase_ids)
        return sort._replace(name="offer", value="running_machine" if runs else "machine", certainty=sort.certainty * 0.8)
    if kind == "part":
        return sort._replace(name="offer", value="part", certainty=sort.certainty * 0.9)
    return None


_ORDER = {"bare_block": 0, "short_block": 0, "long_block": 0, "drop_out": 1, "core": 2, "parts_machine": 3, "complete": 4, "part": 5, "running_machine": 6, "machine": 7}


def _suits(offer_id: str, kind: object) -> bool:
    """A word in the body counts only where it can be said of the thing sold: a loader is no long block."""
    if kind == "machine":
        return offer_id in _MACHINE_OFFERS or offer_id == "part"
    if kind == "unit":
        return offer_id not in _MACHINE_OFFERS
    return kind is None or offer_id == "part"
