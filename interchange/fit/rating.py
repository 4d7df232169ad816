"""Words and amounts compared by a rule: same, within, at least, at most, or one of the pairs that go together."""

from __future__ import annotations

from typing import TYPE_CHECKING

from interchange.fit.finding import AGREES, DIFFERS, NOT_KNOWN, Finding, joined
from interchange.quantity import show

if TYPE_CHECKING:
    from interchange.catalog.figure import Figure
    from interchange.catalog.model import Rule

SAME_SLACK = 1e-6
WHOLE_PERCENT = 0.005  # what still rounds to one
NAMELESS = ("what it has", "what it must suit")


def compare(rule: Rule, give: Figure | None, need: Figure | None, names: tuple[str, str] = NAMELESS) -> Finding:
    """What is offered against what is needed; ``names`` says in words what the two are.

    Where sources differ, every pair of their figures is compared: one answer stands, two make it not known.
    """
    if give is None or need is None:
        return Finding(NOT_KNOWN, _missing(give, need, names))
    states = {_state(rule, one, other) for one in give.readings for other in need.readings}
    state = NOT_KNOWN if len(states) > 1 else states.pop()
    caveats = [give.caveat, need.caveat]
    if state == AGREES and not _as_read(rule, give, need):
        caveats.append("only within what the readings may be off")
    gap_mm = _gap_mm(rule, give, need) if state == DIFFERS else None
    return Finding(state, _words(rule, give, need, state), joined(*dict.fromkeys(caveats)), gap_mm)


def right_words(rule: Rule, other: Figure, *, offered: bool = True) -> str:
    """What one side has to be for the other: ``offered`` where that is the side the rule calls what is offered."""
    if rule.name == "pairs":
        return " or ".join(dict.fromkeys(pair[not offered] for pair in rule.pairs if pair[offered] == other.text))
    bounds = {"at least": ("at most ", "at least "), "at most": ("at least ", "at most "), "within": ("about ", "about ")}
    return bounds.get(rule.name, ("", ""))[offered] + other.text


def _missing(give: Figure | None, need: Figure | None, names: tuple[str, str]) -> str:
    lacking = " and ".join(name for name, figure in zip(names, (give, need), strict=True) if figure is None)
    known = give or need
    return f"{lacking} not known" + (f"; {names[0] if give else names[1]} is {known.text}" if known else "")


def _state(rule: Rule, give: Figure, need: Figure) -> str:
    if rule.name == "pairs":
        return AGREES if (give.text, need.text) in rule.pairs else DIFFERS
    if give.quantity is None or need.quantity is None:
        return AGREES if give.text.casefold() == need.text.casefold() else DIFFERS
    low, high = limits(rule, need)
    return AGREES if give.high >= low and give.low <= high else DIFFERS


def _as_read(rule: Rule, give: Figure, need: Figure) -> bool:
    """Whether it agrees without help from what the readings may be off."""
    if rule.name == "pairs" or give.quantity is None or need.quantity is None:
        return True
    low, high = limits(rule, need)
    return low + need.value - need.low <= give.value <= high - (need.high - need.value)


def limits(rule: Rule, need: Figure) -> tuple[float, float]:
    """(least, most) that a rule lets a donor have, in the base unit, with room for rounding; infinite where one-sided."""
    below, above = rule.below, rule.above
    scale = abs(need.value) if rule.relative else 1.0
    low = need.low - (below or 0.0) * scale if rule.name in ("same", "within", "at least") else float("-inf")
    high = need.high + (above or 0.0) * scale if rule.name in ("same", "within", "at most") else float("inf")
    if rule.name == "within" and (below is None) != (above is None):
        low, high = (low, float("inf")) if above is None else (float("-inf"), high)
    slack = SAME_SLACK * max(1.0, abs(need.value))
    return low - slack, high + slack


def _gap_mm(rule: Rule, give: Figure, need: Figure) -> float | None:
    """By how much a length is outside what it may be."""
    if give.quantity is None or need.quantity is None or give.quantity.dimension != "length":
        return None
    low, high = limits(rule, need)
    return max(low - give.high, give.low - high)


def _words(rule: Rule, give: Figure, need: Figure, state: str) -> str:
    """The two as they are written, and by how much they are apart where that says something."""
    if give.text.casefold() == need.text.casefold():
        return f"both {give.text}"
    if give.quantity is None or need.quantity is None or rule.name == "pairs":
        if rule.name == "pairs" and state != NOT_KNOWN:
            return f"{give.text} {'goes' if state == AGREES else 'does not go'} with {need.text}"
        return f"{give.text} against {need.text}"
    gap = give.value - need.value
    dimension = give.quantity.dimension
    if rule.name in ("at least", "at most"):
        how = f": {show(abs(gap), dimension)} {'short' if gap < 0 else 'over'}" if state == DIFFERS else ""
        return f"{give.text}, {rule.name} {need.text}{how}"
    if abs(gap) <= SAME_SLACK * max(1.0, abs(need.value)):
        return f"{give.text} is {need.text}"
    return f"{give.text} against {need.text}{_apart_by(gap / need.value) if need.value and rule.name == 'within' else ''}"


def _apart_by(share: float) -> str:
    """A share in whole percent, and finer where that would say nothing."""
    return f" ({share:+.0%})" if abs(share) >= WHOLE_PERCENT else f" ({share:+.2%})"
