"""What `rank` gives, as plain values: printed as JSON, remembered between runs, and drawn on a terminal.

Money in dollars, chances 0 to 1, miles one way; what is not known is None. These names stay: the guide
documents them on its page json.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, TypedDict

from interchange.ads.entered import named_model
from interchange.fit.case import OWN
from interchange.fit.report import ADAPTER, BUY, WORK
from interchange.money.odds import what_to_expect

if TYPE_CHECKING:
    from interchange.ads.reads import Read
    from interchange.fit.report import Plan
    from interchange.money.bill import Bill
    from interchange.money.rank import Entry, Ranking
    from interchange.money.several import Cure, Together
    from interchange.money.walk_away import WalkAway
    from interchange.spread import Spread


class SpreadResult(TypedDict):
    """Low (one in ten is less), likely, high (one in ten is more)."""

    low: float
    likely: float
    high: float


class LineResult(SpreadResult):
    """One line of a bill."""

    label: str
    origin: str


class BillResult(TypedDict):
    """A bill: its lines, their sum point by point, the expected total, and what is not in it.

    `p10`, `p50` and `p90` are of the total as it may turn out: one in ten comes to less than `p10`, one in ten more than `p90`.
    """

    lines: list[LineResult]
    total: SpreadResult
    expected: float
    p10: float
    p50: float
    p90: float
    not_known: list[str]


class NameResult(TypedDict):
    """Something of the catalog that an ad names."""

    room: str
    id: str
    variant: str
    score: float


class SeenResult(TypedDict):
    """One pasting of an ad: `on` is its day, None where it is not known; `ad` the id it had then."""

    on: str | None
    asked: float | None
    currency: str | None
    ad: str


class ReadResult(TypedDict):
    """An ad as read: `model` is what it calls its subject, None where it names no model.

    `history` is when it was pasted and what was asked, oldest first, though its text changed.
    """

    ad: str
    title: str
    model: str | None
    source: str
    line: int
    names: list[NameResult]
    like: list[NameResult]
    history: list[SeenResult]


class FormResult(TypedDict):
    """One form the unit of an ad may have."""

    unit: str
    variant: str
    share: float
    share_known: bool
    tell: str
    verdict: str


class PriceResult(TypedDict):
    """The price as asked, in its own currency; `wants` says which rate is to be written before it is known in dollars."""

    kind: str
    asked: float | None
    currency: str | None
    terms: str | None
    wants: str | None


class HaulResult(TypedDict):
    """The way of fetching it; allowed is None where a rating has to be checked first."""

    mode: str
    allowed: bool | None


class PartsResult(TypedDict):
    """What the likeliest form takes: one's own slots that go across, what is bought, adapters, and work."""

    own: list[str]
    bought: list[str]
    adapters: list[str]
    work: list[str]


class FactorResult(TypedDict):
    """One factor of the chance that a unit needs no internal work: it multiplies the odds by `ratio`."""

    text: str | None
    why: str
    ratio: float


class WalkAwayResult(TypedDict):
    """The most to pay and still do no worse than with the next best way: `instead`, an ad's id or another way out."""

    most: float
    instead: str
    title: str
    expected: float


class EntryResult(ReadResult):
    """One ranked ad."""

    offer: str
    forms: list[FormResult]
    ambiguous: bool
    verdict: str
    worst: str | None
    reason: str | None
    stopped_by: list[str]
    parts: PartsResult
    goes_in: float
    good: float
    works: float
    factors: list[FactorResult]
    price: PriceResult
    place: str | None
    miles: SpreadResult | None
    haul: HaulResult | None
    bill: BillResult
    walk_away: WalkAwayResult | None
    cautions: list[str]


class SeatResult(TypedDict):
    """All ads for one dead unit."""

    seat: str
    unit: str
    title: str
    broke: str
    ranked: list[EntryResult]
    stopped: list[EntryResult]
    other: list[ReadResult]
    unknown: list[ReadResult]


class CureResult(TypedDict):
    """One ad taken for one or more dead units (`seats`).

    In the bill price and haul stand once; for more units than one every other line begins with its seat: `engine: waiting`.
    """

    ad: str
    title: str
    seats: list[str]
    bill: BillResult


class TogetherResult(TypedDict):
    """All dead units at once.

    `cures` is the cheapest way to cure all that can be cured, each ad taken once and each unit cured once; `expected` its total,
    `not_known` what is not in it (`AD: price`), and `uncovered` the units it has no ad for. `apart` is the best ad for each unit
    by itself, and `apart_expected` their totals added up: price and haul count for each. `several` are the ads that go in for
    more than one unit, each for as many as it can be taken for, best first.
    """

    cures: list[CureResult]
    expected: float
    not_known: list[str]
    uncovered: list[str]
    apart: list[CureResult]
    apart_expected: float
    several: list[CureResult]


class RankResult(TypedDict):
    """What `rank` gives; `together` is None where only one dead unit is ranked.

    `folder` is the job's, where the ads are those kept in it; None for a paste, or files, that are not.
    """

    job: str
    folder: str | None
    spent: str | None
    altitude: str | None
    catalog_problems: list[str]
    job_problems: list[str]
    seats: list[SeatResult]
    together: TogetherResult | None


def _dollars(spread: Spread) -> SpreadResult:
    return {"low": round(spread.low / 100, 2), "likely": round(spread.likely / 100, 2), "high": round(spread.high / 100, 2)}


def seat_result(ranking: Ranking) -> SeatResult:
    """One dead unit's ranking."""
    return {
        "seat": ranking.seat.name,
        "unit": ranking.seat.dead.unit,
        "title": ranking.seat.unit.title,
        "broke": ranking.seat.dead.broke,
        "ranked": [entry_result(entry) for entry in ranking.entries],
        "stopped": [entry_result(entry) for entry in ranking.stopped],
        "other": [read_result(read) for read in ranking.other],
        "unknown": [read_result(read) for read in ranking.unknown],
    }


def read_result(read: Read) -> ReadResult:
    """An ad as read."""
    names: list[list[NameResult]] = [
        [{"room": h.name.room, "id": h.name.id, "variant": h.name.variant, "score": round(h.score, 1)} for h in hits]
        for hits in (read.matched.hits, read.matched.near)
    ]
    return {
        "ad": read.ad.id,
        "title": read.title,
        "model": named.words if (named := named_model(read.reading)) else None,
        "source": read.ad.source,
        "line": read.ad.line,
        "names": names[0],
        "like": names[1],
        "history": [
            {
                "on": seen.on or None,
                "asked": None if seen.cents is None else seen.cents / 100,
                "currency": seen.currency,
                "ad": seen.ad,
            }
            for seen in read.history
        ],
    }


def entry_result(entry: Entry) -> EntryResult:
    """One ranked ad."""
    worst, price, fetch = entry.worst, entry.read.reading.price, entry.fetch
    road, option, plan = fetch.road, fetch.option, entry.likeliest.plan
    forms: list[FormResult] = [
        {
            "unit": candidate.form.unit,
            "variant": candidate.form.variant,
            "share": candidate.share,
            "share_known": candidate.form.share_known,
            "tell": candidate.form.tell,
            "verdict": outcome.plan.verdict,
        }
        for candidate, outcome in zip(entry.candidates, entry.outcomes, strict=True)
    ]
    asked = None if price.cents is None else price.cents / 100
    stopped_by = [f"{one.title}: {one.reason}" for one in plan.stopped_by] + [f"nobody supplies {slot}" for slot in plan.missing]
    return {
        **read_result(entry.read),
        "offer": entry.offer,
        "forms": forms,
        "ambiguous": entry.ambiguous,
        "verdict": entry.verdict,
        "worst": worst.title if worst else None,
        "reason": worst.reason if worst else None,
        "stopped_by": stopped_by,
        "parts": _parts(plan),
        "goes_in": entry.goes_in,
        "good": entry.health.chance,
        "works": entry.works,
        "factors": [{"text": each.text or None, "why": each.effect, "ratio": each.factor} for each in entry.health.reasons],
        "price": {
            "kind": price.kind,
            "asked": asked,
            "currency": price.currency,
            "terms": price.terms,
            "wants": entry.price_wants or None,
        },
        "place": fetch.place or None,
        "miles": None if road is None else {"low": road.low, "likely": road.likely, "high": road.high},
        "haul": None if option is None else {"mode": option.mode, "allowed": option.allowed},
        "bill": bill_result(entry.bill),
        "walk_away": walk_away_result(entry.walk_away),
        "cautions": list(entry.health.cautions),
    }


def _parts(plan: Plan) -> PartsResult:
    def titles(sort: str) -> list[str]:
        return [step.title for step in plan.steps if step.sort == sort]

    own = [slot for slot, by in plan.suppliers.items() if by == OWN]
    return {"own": own, "bought": titles(BUY), "adapters": titles(ADAPTER), "work": titles(WORK)}


def walk_away_result(walk_away: WalkAway | None) -> WalkAwayResult | None:
    """The most to pay."""
    if walk_away is None:
        return None
    instead = walk_away.instead
    return {
        "most": round(walk_away.cents / 100, 2),
        "instead": instead.id,
        "title": instead.title,
        "expected": round(instead.mean_cents / 100, 2),
    }


def bill_result(bill: Bill) -> BillResult:
    """A bill."""
    may_be = what_to_expect(bill.odds)
    lines: list[LineResult] = [{"label": line.label, **_dollars(line.amount), "origin": line.origin} for line in bill.lines]
    return {
        "lines": lines,
        "total": _dollars(bill.total),
        "expected": round(bill.mean_cents / 100, 2),
        "p10": round(may_be.low / 100, 2),
        "p50": round(may_be.middle / 100, 2),
        "p90": round(may_be.high / 100, 2),
        "not_known": list(bill.unknown),
    }


def cure_result(cure: Cure) -> CureResult:
    """One ad for one or more dead units."""
    return {"ad": cure.ad, "title": cure.title, "seats": list(cure.seats), "bill": bill_result(cure.bill)}


def together_result(found: Together) -> TogetherResult:
    """All dead units at once."""
    return {
        "cures": [cure_result(cure) for cure in found.cures],
        "expected": round(found.mean_cents / 100, 2),
        "not_known": list(found.unknown),
        "uncovered": list(found.uncovered),
        "apart": [cure_result(cure) for cure in found.apart],
        "apart_expected": round(found.apart_cents / 100, 2),
        "several": [cure_result(cure) for cure in found.several],
    }
