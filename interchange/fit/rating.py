"""Words and amounts compared by a rule: same, within, at least, at most, or one of the pairs that go together."""

from __future__ import annotations

from typing import TYPE_CHECKING

from interchange.fit.finding import AGREES, DIFFERS, NOT_KNOWN, Finding
from interchange.quantity import show

if TYPE_CHECKING:
    from interchange.catalog.figure import Figure
    from interchange.catalog.model import Rule

SAME_SLACK = 1e-6


def compare(rule: Rule, give: Figure | None, need: Figure | None) -> Finding:
    """What is offered against what is needed.

    Where sources differ, every pair of their figures is compared: one answer stands, two make it not known.
    """
    if give is None or need is None:
        return Finding(NOT_KNOWN, _missing(give, need))
    states = {_state(rule, one, other) for one in give.readings for other in need.readings}
    text = _words(rule, give, need)
    caveat = "; ".join(dict.fromkeys(filter(None, (give.caveat, need.caveat))))
    if len(states) > 1:
        return Finding(NOT_KNOWN, text, caveat)
    return Finding(states.pop(), text, caveat)


def _missing(give: Figure | None, need: Figure | None) -> str:
    if give is None and need is None:
        return "known of neither"
    known = give or need
    said = known.text if known else ""
    return f"not known of the donor; {said} is needed" if give is None else f"the donor has {said}; what is needed is not known"


def _state(rule: Rule, give: Figure, need: Figure) -> str:
    if rule.name == "pairs":
        return AGREES if (give.text, need.text) in rule.pairs else DIFFERS
    if give.quantity is None or need.quantity is None:
        return AGREES if give.text.casefold() == need.text.casefold() else DIFFERS
    low, high = limits(rule, need)
    slack = SAME_SLACK * max(1.0, abs(need.value))
    return AGREES if give.high >= low - slack and give.low <= high + slack else DIFFERS


def limits(rule: Rule, need: Figure) -> tuple[float, float]:
    """(least, most) that a rule lets a donor have, in the base unit; infinite where one-sided."""
    below, above = rule.below, rule.above
    scale = abs(need.value) if rule.relative else 1.0
    low = need.low - (below or 0.0) * scale if rule.name in ("same", "within", "at least") else float("-inf")
    high = need.high + (above or 0.0) * scale if rule.name in ("same", "within", "at most") else float("inf")
    if rule.name == "within" and (below is None) != (above is None):
        low, high = (low, float("inf")) if above is None else (float("-inf"), high)
    return low, high


def _words(rule: Rule, give: Figure, need: Figure) -> str:
    if give.quantity is None or need.quantity is None or rule.name == "pairs":
        if give.text.casefold() == need.text.casefold():
            return f"both {give.text}"
        return f"{give.text} for {need.text}" if rule.name == "pairs" else f"{give.text} against {need.text}"
    gap = give.value - need.value
    if abs(gap) <= SAME_SLACK * max(1.0, abs(need.value)):
        return f"both {give.text}"
    share = f" ({gap / need.value:+.0%})" if need.value and give.quantity.dimension != "voltage" else ""
    at = f", {give.quantity.text}" if give.speed_rpm else ""
    return f"{show(give.value, give.quantity.dimension)} against {show(need.value, need.quantity.dimension)}{share}{at}"
