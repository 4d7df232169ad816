"""What hangs on which form a donor has: forms are hidden until a tell shows which it is."""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

from interchange.fit.report import Plan


class FormChange(NamedTuple):
    """What one form changes against the likeliest."""

    dimension: str
    title: str
    verdict: str
    instead_of: str


def changes(likeliest: Plan, other: Plan) -> tuple[FormChange, ...]:
    """The dimensions whose verdict another form changes, in the order of the kind; what only one of them has counts too."""
    before = {one.name: one for one in likeliest.judged}
    after = {one.name: one for one in other.judged}
    found = []
    for name in dict.fromkeys((*before, *after)):
        one, two = before.get(name), after.get(name)
        verdicts = tuple(each.verdict if each else "not asked" for each in (two, one))
        known = two or one
        if known and verdicts[0] != verdicts[1]:
            found.append(FormChange(name, known.title, *verdicts))
    return tuple(found)


def hang_on_form(plans: Sequence[Plan], shares: Sequence[float]) -> list[tuple[FormChange, ...]]:
    """For each form its changes against the one with the largest share; nothing for that one."""
    likeliest = plans[max(range(len(plans)), key=lambda i: shares[i])]
    return [changes(likeliest, plan) if plan is not likeliest else () for plan in plans]
