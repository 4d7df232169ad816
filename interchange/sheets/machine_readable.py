"""The same results for programs: plain values, documented in the guide. Money in dollars, lengths in mm, chances 0 to 1."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from interchange.fit.report import Judged, Plan
    from interchange.money.bill import Bill
    from interchange.money.rank import Entry, Ranking, Read
    from interchange.spread import Spread

Json = dict[str, Any]


def _dollars(spread: Spread) -> Json:
    return {"low": round(spread.low / 100, 2), "likely": round(spread.likely / 100, 2), "high": round(spread.high / 100, 2)}


def _plain(spread: Spread) -> Json:
    return {"low": spread.low, "likely": spread.likely, "high": spread.high}


def ranking_json(ranking: Ranking) -> Json:
    """One dead unit's ranking."""
    return {
        "seat": ranking.seat.name,
        "unit": ranking.seat.dead.unit,
        "ranked": [entry_json(entry) for entry in ranking.entries],
        "stopped": [entry_json(entry) for entry in ranking.stopped],
        "other": [read_json(read) for read in ranking.other],
        "unknown": [read_json(read) for read in ranking.unknown],
    }


def read_json(read: Read) -> Json:
    """An ad as read."""
    return {
        "ad": read.ad.id,
        "title": read.title,
        "source": read.ad.source,
        "line": read.ad.line,
        "names": [{"room": hit.name.room, "id": hit.name.id, "variant": hit.name.variant, "score": hit.score} for hit in read.matched.hits],
        "like": [{"room": hit.name.room, "id": hit.name.id, "score": round(hit.score, 1)} for hit in read.matched.near],
    }


def entry_json(entry: Entry) -> Json:
    """One ranked ad."""
    worst = entry.worst
    price = entry.read.reading.price
    return {
        **read_json(entry.read),
        "offer": entry.offer,
        "forms": [
            {
                "unit": candidate.form.unit,
                "variant": candidate.form.variant,
                "share": candidate.share,
                "tell": candidate.form.tell,
                "verdict": outcome.plan.verdict,
            }
            for candidate, outcome in zip(entry.candidates, entry.outcomes, strict=True)
        ],
        "ambiguous": entry.ambiguous,
        "verdict": entry.verdict,
        "worst": worst.title if worst else None,
        "reason": worst.reason if worst else None,
        "goes_in": entry.goes_in,
        "good": entry.health.chance,
        "price": {"kind": price.kind, "asked": None if price.cents is None else price.cents / 100, "currency": price.currency, "terms": price.terms},
        "place": entry.fetch.place or None,
        "miles": None if entry.fetch.road is None else {"low": entry.fetch.road.low, "likely": entry.fetch.road.likely, "high": entry.fetch.road.high},
        "haul": None if entry.fetch.option is None else {"mode": entry.fetch.option.mode, "allowed": entry.fetch.option.allowed},
        "bill": bill_json(entry.bill),
        "cautions": list(entry.health.cautions),
    }


def bill_json(bill: Bill) -> Json:
    """A bill."""
    return {
        "lines": [{"label": line.label, **_dollars(line.amount), "origin": line.origin} for line in bill.lines],
        "total": _dollars(bill.total),
        "expected": round(bill.mean_cents / 100, 2),
        "not_known": list(bill.unknown),
    }


def plan_json(plan: Plan) -> Json:
    """A plan."""
    return {
        "donor": plan.donor,
        "verdict": plan.verdict,
        "worst": plan.worst.name if plan.worst else None,
        "chance": {"value": plan.chance.value, "basis": plan.chance.basis},
        "cost": round(plan.cost_cents / 100, 2),
        "lead_days": plan.lead_days,
        "dimensions": [judged_json(one) for one in plan.judged],
        "suppliers": plan.suppliers,
        "missing": list(plan.missing),
        "doubtful": [{"slot": slot, "chance": chance} for slot, chance in plan.doubtful],
        "do_not_order_before_known": list(plan.hold),
        "steps": [
            {
                "sort": step.sort,
                "title": step.title,
                "why": step.why,
                "money": _dollars(step.effort.money),
                "hours": _plain(step.effort.hours),
                "lead_days": _plain(step.effort.lead),
                "caution": step.caution or None,
            }
            for step in plan.steps
        ],
        "keep": list(plan.keep),
    }


def judged_json(one: Judged) -> Json:
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
