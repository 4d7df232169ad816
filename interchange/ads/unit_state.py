"""Units an ad calls good or bad outright."""

from __future__ import annotations

from collections.abc import Sequence

from interchange.ads.fields import Span, UnitHealth
from interchange.ads.wording import BREAK, COMMA, Hit, Token

_REACH = 6  # words
# Words that may stand between a unit and what is said of it.
_FILLERS = frozenset([
    "is", "are", "was", "were", "seems", "feels", "still", "very", "really", "pretty", "all", "both", "and", "or",
    "the", "a", "an", "has", "been", "totally", "completely", "also", "itself", "in", "running", "diesel", "gas",
    "hydraulic", "used", "not", "isnt", "too", "just", "super", "probably", "maybe", "may", "be", "original", "old",
    "out", "on", "runs", "its", "got",
])  # fmt: skip

_MOST_MARKS = 12  # units and states of one clause; more is no sentence


def unit_health(text: str, words: Sequence[Token], things: Sequence[Hit], states: Sequence[Hit]) -> tuple[UnitHealth, ...]:
    """Units called good or bad in one clause: "motor is good, trans is bad", "good motor bad trans"."""
    marks = sorted([hit for hit in things if hit.id != "machine"] + list(states), key=lambda hit: hit.first)
    found: list[UnitHealth] = []
    clause: list[Hit] = []
    for hit in marks:
        if len(clause) >= _MOST_MARKS or (clause and _pause_between(words, clause[-1].last, hit.first)):
            found += _clause_health(words, text, clause)
            clause = []
        clause.append(hit)
    return tuple(found + _clause_health(words, text, clause))


def _pause_between(words: Sequence[Token], start: int, end: int) -> bool:
    return end - start > _REACH or any(words[index].key in (BREAK, COMMA, "but", "with", "w") for index in range(start, end))


def _tied(words: Sequence[Token], unit: Hit, state: Hit, units: Sequence[Hit]) -> bool:
    """Only little words or other units stand between: "engine mounts are broken" says nothing of the engine."""
    start, end = (unit.last, state.first) if unit.first < state.first else (state.last, unit.first)
    others = {index for one in units for index in range(one.first, one.last)}
    return all(index in others or words[index].key in _FILLERS for index in range(start, end))


def _clause_health(words: Sequence[Token], text: str, clause: Sequence[Hit]) -> list[UnitHealth]:
    units = [hit for hit in clause if hit.room == "thing"]
    states = [hit for hit in clause if hit.room == "state"]
    if not units or not states:
        return []
    if len(states) == 1:
        pairs = [(unit, states[0]) for unit in units if _tied(words, unit, states[0], units)]
    else:
        state_first = clause[0].room == "state"
        order = units if state_first else list(reversed(units))
        pairs = []
        for state in states:
            near = next((unit for unit in order if (unit.first > state.first) == state_first), None)
            if near and _tied(words, near, state, units):
                pairs.append((near, state))
    made = []
    for unit, state in pairs:
        span = Span(min(unit.span.start, state.span.start), max(unit.span.end, state.span.end))
        value = state.id if not state.negated else {"good": "bad", "bad": "good"}.get(state.id, state.id)
        certainty = 0.5 if state.doubted else 0.75 if len(clause) == 2 else 0.6  # noqa: PLR2004 - one unit, one state
        made.append(UnitHealth(unit.id, value, text[span.start : span.end], span, certainty))
    return made
