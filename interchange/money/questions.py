"""What an answer would be worth: how much less the best way is expected to come to once it is known.

Every question has a few outcomes whose chances are those the bill was made with, and a mean for each: their average is the mean
of the bill, so an answer can only help. It is worth nothing where no answer would change what is chosen.
"""

from __future__ import annotations

import dataclasses
from collections.abc import Iterable, Iterator, Mapping, Sequence
from typing import TYPE_CHECKING, NamedTuple

from interchange.ads.offer_kind import offered
from interchange.catalog.features import SEAT
from interchange.catalog.health import HealthQuestion
from interchange.catalog.rates import AskingRates
from interchange.fit.finding import UNSURE
from interchange.money.bill import Outcome
from interchange.money.rank import REBUILT, bill_among, leftovers_of

if TYPE_CHECKING:
    from interchange.catalog.figure import Figure
    from interchange.fit.setting import DeadSeat
    from interchange.money.rank import Entry

TAPE, PHOTO, PLATE, SELLER = "tape", "photo", "plate", "seller"
LEAST_CHANCE = 1e-9
FORM, SOUND, DIMENSION, PART, PRICE, PLACE = "form", "sound", "dimension", "part", "price", "place"


class Outlook(NamedTuple):
    """One way a question may turn out: its chance, and what the ad then is expected to come to, in cents."""

    label: str
    chance: float
    cents: float


class Question(NamedTuple):
    """Something that can be asked about an ad; without outcomes its worth is not known, because the ad's total is not."""

    about: str
    id: str
    title: str
    decides: str
    seen: str
    ask: str = ""
    """How the catalog words it; empty where it has no words of its own."""
    hoped: str = ""
    need: Figure | None = None
    outcomes: tuple[Outlook, ...] = ()
    wrong: float = 0.0
    none: float = 0.0
    told: tuple[tuple[float, ...], ...] = ()
    """How often each answer (across) is given under each outcome (down); empty: the true one, but for ``wrong``."""


class Worth(NamedTuple):
    """A question with what its answer is worth, in cents."""

    question: Question
    cents: float | None


def worth_of(question: Question, now: float, others: float) -> float:
    """How much the best way is expected to come down by asking: never negative.

    ``now`` is the ad's expected total, ``others`` that of the best way without it. An answer makes the chances of the outcomes
    anew (Bayes), and the better of the ad and the others is taken; without an answer all stays as it is.
    """
    outcomes = question.outcomes
    channel = question.told or _channel(len(outcomes), question.wrong)
    best = min(now, others)
    answered = 0.0
    for answer in range(len(channel[0]) if channel else 0):
        weight = [outcome.chance * row[answer] for outcome, row in zip(outcomes, channel, strict=True)]
        heard = sum(weight)
        if heard > LEAST_CHANCE:
            mean = sum(part * outcome.cents for part, outcome in zip(weight, outcomes, strict=True)) / heard
            answered += heard * min(mean, others)
    return max(0.0, (1 - question.none) * (best - answered))


def _channel(outcomes: int, wrong: float) -> tuple[tuple[float, ...], ...]:
    """The true outcome is told, or by mistake any of the others."""
    if outcomes < 2:  # noqa: PLR2004 - nothing to tell apart
        return ((1.0,),) * outcomes
    other = wrong / (outcomes - 1)
    return tuple(tuple(1 - wrong if told == true else other for told in range(outcomes)) for true in range(outcomes))


def halves(label: str, chance: float, yes_cents: float, mean_cents: float, otherwise: str) -> tuple[Outlook, ...]:
    """Two outcomes of which one's mean is known: the other's is what makes their average the mean there is now."""
    if not LEAST_CHANCE < chance < 1 - LEAST_CHANCE:
        return ()
    no_cents = (mean_cents - chance * yes_cents) / (1 - chance)
    return Outlook(label, chance, yes_cents), Outlook(otherwise, 1 - chance, no_cents)


def questions_of(
    seat: DeadSeat, entry: Entry, rates: AskingRates, health: Iterable[HealthQuestion], asked: Sequence[str]
) -> Iterator[Question]:
    """All that can be asked about an ad for one dead unit, but for what was asked already."""
    found = [*_unknown(entry), *_forms(seat, entry, rates), *_sound(seat, entry, rates, health)]
    found += [*_dimensions(seat, entry, rates), *_parts(seat, entry, rates)]
    for question in found:
        if not any(question.title.casefold() in said or said in question.title.casefold() for said in asked):
            yield question


def _unknown(entry: Entry) -> Iterator[Question]:
    """Price and place, without which there is no total."""
    if "price" in entry.bill.unknown and not entry.price_wants:
        yield Question(PRICE, PRICE, "price", "whether it is worth going for", SELLER, "what you would like for it")
    if "haul" in entry.bill.unknown and entry.fetch.road is None:
        yield Question(PLACE, PLACE, "place", "what fetching it costs", SELLER, "which town it stands in, with the state or ZIP")


def _mean(seat: DeadSeat, entry: Entry) -> float:
    return bill_among(seat, entry, entry.fetch.line, 1, leftovers_of(entry.read, [seat])).mean_cents


def _forms(seat: DeadSeat, entry: Entry, rates: AskingRates) -> Iterator[Question]:
    """Which form it is: by the tells of the forms it may have."""
    if len(entry.outcomes) < 2:  # noqa: PLR2004 - one form: nothing to ask
        return
    now = entry.bill.mean_cents
    whole = sum(outcome.share for outcome in entry.outcomes) or 1.0
    known, left, left_share = [], now, 1.0
    for candidate, outcome in zip(entry.candidates, entry.outcomes, strict=True):
        share = outcome.share / whole
        if outcome.plan.feasible:
            alone = entry._replace(outcomes=(Outcome(1.0, outcome.plan),), candidates=(candidate._replace(share=1.0),),
                                   goes_in=outcome.plan.chance.value)  # fmt: skip
            cents = _mean(seat, alone)
            known.append(Outlook(candidate.form.title, share, cents))
            left, left_share = left - share * cents, left_share - share
    if left_share > LEAST_CHANCE:  # the forms that are stopped: bought all the same, they cost what makes the average
        known.append(Outlook("one that does not go in", left_share, left / left_share))
    elif abs(left) > 1.0 and known:
        known = [one._replace(cents=one.cents + left) for one in known]
    tells = "; ".join(dict.fromkeys(one.form.tell for one in entry.candidates if one.form.tell))
    wanted = min(known, key=lambda one: one.cents).label
    ask = "a photo of the plate and of what shows which form it is" + (f" ({tells})" if tells else "")
    title = "which form it is"
    yield Question(FORM, "form", title, title, PLATE, ask, wanted, None, tuple(known), rates.wrong_photo, rates.none)


def _sound(
    seat: DeadSeat, entry: Entry, rates: AskingRates, health: Iterable[HealthQuestion]
) -> Iterator[Question]:  # fmt: skip
    """Whether the unit is sound, by each of the kind's questions."""
    chance = entry.health.chance
    if entry.offer in REBUILT or not LEAST_CHANCE < chance < 1 - LEAST_CHANCE:
        return
    now = entry.bill.mean_cents
    said = {hit.id for hit in entry.read.reading.phrases}
    good = _mean(seat, entry._replace(health=entry.health._replace(chance=1.0)))
    outcomes = halves("sound", chance, good, now, "not sound")
    for one in health:
        if one.kind == seat.case.kind.id and not said & set(one.told_by):
            told = ((one.good_if_sound, 1 - one.good_if_sound), (one.good_if_not, 1 - one.good_if_not))
            none = rates.none_tape if one.seen == TAPE else rates.none
            yield Question(SOUND, one.id, one.title, "whether it needs internal work", one.seen, one.ask, one.hoped, None,
                           outcomes, 0.0, none, told)  # fmt: skip


def _dimensions(seat: DeadSeat, entry: Entry, rates: AskingRates) -> Iterator[Question]:
    """Each dimension of the likeliest form that is not known because of what the donor presents: agrees, or not."""
    plan, kind = entry.likeliest.plan, seat.case.kind
    features = seat.features(entry.candidate.form)
    for judged in plan.judged:
        dimension = kind.dimensions.get(judged.name)
        if judged.verdict != UNSURE or judged.chance is None or dimension is None:
            continue
        missing = _missing(seat, dimension.give, dimension.need, dimension.joints, features)
        if not missing:
            continue
        said = {path: figure._replace(origin=figure.origin._replace(basis="said")) for path, figure in missing.items()}
        offer = offered(entry.read.reading, kind, entry.offer)
        known = seat.plan(entry.candidate.form, offer, said)
        if not known.feasible:
            continue
        outcomes = tuple(Outcome(each.share, known) if each is entry.likeliest else each for each in entry.outcomes)
        changed = entry._replace(outcomes=outcomes, goes_in=sum(each.share * each.plan.chance.value for each in outcomes))
        found = halves("agrees", judged.chance.value, _mean(seat, changed), entry.bill.mean_cents, "differs")
        wrong = rates.wrong_tape if judged.seen == TAPE else rates.wrong_photo
        none = rates.none_tape if judged.seen in (TAPE, "teardown") else rates.none
        yield Question(DIMENSION, judged.name, judged.title, dimension.why or judged.title, judged.seen, "", "",
                       next(iter(missing.values())), found, wrong, none)  # fmt: skip


def _missing(
    seat: DeadSeat, give: str, need: str, joints: Sequence[str], donor: Mapping[str, Figure]
) -> dict[str, Figure]:  # fmt: skip
    """Features that the donor does not tell, with what would agree; empty where it is one's own side that is not known."""
    pairs = [(give, need)] if give and need else [seat.case.kind.joints[name].between for name in joints]
    found: dict[str, Figure] = {}
    for ends in pairs:
        for path, other in (ends, ends[::-1]):
            wanted = _own(seat, other)
            if path not in donor and not path.startswith((f"{SEAT}.", "own.")) and wanted is not None:
                found[path] = wanted
                break
    return found


def _own(seat: DeadSeat, path: str) -> Figure | None:
    """What the machine or the dead unit presents there."""
    if path.startswith(f"{SEAT}."):
        return seat.case.seat.get(path)
    return seat.case.own.get(path.removeprefix("own."))


def _parts(seat: DeadSeat, entry: Entry, rates: AskingRates) -> Iterator[Question]:
    """Parts that are counted on and may not come with it."""
    plan, kind = entry.likeliest.plan, seat.case.kind
    offer = offered(entry.read.reading, kind, entry.offer)
    for slot, chance in plan.doubtful:
        perhaps = {name: share for name, share in offer.perhaps.items() if name != slot}
        sure = dataclasses.replace(offer, has=(*offer.has, slot), perhaps=perhaps)
        known = seat.plan(entry.candidate.form, sure)
        if known.feasible:
            outcomes = tuple(Outcome(each.share, known) if each is entry.likeliest else each for each in entry.outcomes)
            found = halves(
                "comes with it", chance, _mean(seat, entry._replace(outcomes=outcomes)), entry.bill.mean_cents, "does not"
            )
            title = slot.replace("_", " ")
            ask = f"whether it comes with the {title}, and a photo of that"
            yield Question(PART, slot, title, f"whether the {title} has to be found elsewhere", PHOTO, ask, "yes", None, found,
                           rates.wrong_photo, rates.none)  # fmt: skip


def weighed(questions: Iterable[Question], entry: Entry, others: float | None) -> list[Worth]:
    """Questions with their worth, the most first; where a total is not known, what would make it known comes first."""
    found = []
    for question in questions:
        if question.about in (PRICE, PLACE):
            found.append(Worth(question, None))
        elif question.outcomes and entry.bill.complete:
            best = others if others is not None else float("inf")
            cents = worth_of(question, entry.bill.mean_cents, best) if best < float("inf") else 0.0
            found.append(Worth(question, cents))
        elif question.outcomes:
            found.append(Worth(question, None))
    return sorted(found, key=lambda one: (one.question.about not in (PRICE, PLACE), -(one.cents or 0.0), one.question.title))
