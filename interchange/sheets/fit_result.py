"""What `fit` gives for programs: a plan in plain values. Money in dollars, lengths in mm, times in hours and days."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from interchange.fit.plate_plan import PlatePlan
    from interchange.fit.report import Judged, Plan
    from interchange.spread import Spread

Json = dict[str, Any]


def _spread(spread: Spread, per: float = 1.0) -> Json:
    return {"low": round(spread.low / per, 2), "likely": round(spread.likely / per, 2), "high": round(spread.high / per, 2)}


def plan_result(plan: Plan) -> Json:
    """A plan."""
    return {
        "donor": plan.donor,
        "verdict": plan.verdict,
        "worst": plan.worst.name if plan.worst else None,
        "chance": {"value": plan.chance.value, "basis": plan.chance.basis},
        "cost": round(plan.cost_cents / 100, 2),
        "lead_days": plan.lead_days,
        "dimensions": [judged_result(one) for one in plan.judged],
        "suppliers": plan.suppliers,
        "missing": list(plan.missing),
        "not_known_whether_needed": list(plan.unsettled),
        "doubtful": [{"slot": slot, "chance": chance} for slot, chance in plan.doubtful],
        "do_not_order_before_known": list(plan.hold),
        "steps": [
            {
                "sort": step.sort,
                "title": step.title,
                "why": step.why,
                "money": _spread(step.effort.money, 100),
                "hours": _spread(step.effort.hours),
                "lead_days": _spread(step.effort.lead),
                "caution": step.caution or None,
            }
            for step in plan.steps
        ],
        "own_hours": _spread(plan.hours),
        "longest_wait": plan.longest.title if plan.longest else None,
        "for_it_to_go": list(plan.would_go),
        "plates": [_plate(plate) for plate in plan.plates],
        "keep": list(plan.keep),
    }


def _plate(plate: PlatePlan) -> Json:
    """A plate to be made: the thicknesses that close each depth, in mm; null where there is none, or no limit."""
    depths = [
        {
            "title": window.title,
            "mm_a_mm": window.slope,
            "least_mm": window.low_mm if math.isfinite(window.low_mm) else None,
            "most_mm": window.high_mm if math.isfinite(window.high_mm) else None,
            "not_known": list(window.missing),
        }
        for window in plate.depth.windows
    ]
    return {
        "joint": plate.joint,
        "title": plate.title,
        "design": plate.design or None,
        "depths": depths,
        "least_mm": plate.depth.least_mm,
        "why_not": plate.depth.why or None,
    }


def judged_result(one: Judged) -> Json:
    """One dimension."""
    return {
        "name": one.name,
        "title": one.title,
        "verdict": one.verdict,
        "otherwise": one.otherwise,
        "reason": one.reason,
        "caveat": one.caveat or None,
        "give": one.give or None,
        "need": one.need or None,
        "gap_mm": one.gap_mm,
        "origin": one.origin or None,
        "seen": one.seen,
        "chance": None if one.chance is None else {"value": one.chance.value, "basis": one.chance.basis},
    }
