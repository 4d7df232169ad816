"""All that can be asked about an ad, each question with what its answer is worth."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator, Sequence
from typing import TYPE_CHECKING, NamedTuple

from interchange.catalog.health import HealthQuestion
from interchange.catalog.rates import AskingRates
from interchange.money.asked import DIMENSION, FORM, MISSING, PART, PLACE, PLATE, PRICE, SELLER, SOUND, TAPE, YOU, Question
from interchange.money.bill import HAUL
from interchange.money.bill import PRICE as PRICE_LINE
from interchange.money.fit_questions import fit_questions
from interchange.money.rank import REBUILT
from interchange.money.weighing import Weighing
from interchange.money.worth import Truth, moved_cents, worth_of

if TYPE_CHECKING:
    from interchange.fit.setting import DeadSeat
    from interchange.money.rank import Entry

__all__ = ["DIMENSION", "FORM", "PART", "PLACE", "PRICE", "SOUND", "YOU", "Question", "Worth", "questions_of", "weighed"]
SHORTEST_WORD = 3


class Worth(NamedTuple):
    """A question with what its answer is worth, in cents; None where the ad's total is not known."""

    question: Question
    cents: float | None


def questions_of(
    seat: DeadSeat, entry: Entry, rates: AskingRates, health: Iterable[HealthQuestion], asked: Sequence[str],
    tested: Collection[str] = (),
) -> Iterator[Question]:  # fmt: skip
    """All that can be asked about an ad for one dead unit, but for what was asked already.

    ``asked`` is how the user's own lines name it, ``tested`` the tests of health of which there is a reading.
    """
    weighing = Weighing(seat, entry)
    for question in (*_missing(entry), *_forms(weighing, rates), *_sound(weighing, rates, health, tested),
                     *fit_questions(weighing, rates)):  # fmt: skip
        if not any(was_asked(question, said) for said in asked):
            yield question


def was_asked(question: Question, said: str) -> bool:
    """Whether own words name a question: by its id, or by words that all stand in its title, or it in them."""
    words, title = _words(said), _words(question.title)
    by_id = " ".join(said.casefold().split()) == question.id.replace("_", " ")
    return by_id or bool(words and title and (words <= title or title <= words))


def _words(text: str) -> set[str]:
    plain = "".join(sign if sign.isalnum() else " " for sign in text.casefold())
    return {word for word in plain.split() if len(word) >= SHORTEST_WORD}


def _missing(entry: Entry) -> Iterator[Question]:
    """Price and place, without which there is no total."""
    if PRICE_LINE in entry.bill.unknown and not entry.price_wants:
        yield Question(PRICE, PRICE, "price", "whether it is worth going for", SELLER, "what you would like for it")
    if HAUL in entry.bill.unknown and entry.fetch.road is None:
        yield Question(PLACE, PLACE, "place", "what fetching it costs", SELLER, "which town it stands in, with the state or ZIP")


def _forms(weighing: Weighing, rates: AskingRates) -> Iterator[Question]:
    """Which form it is: by the tells of the forms it may have. Forms of one unit that nothing tells apart are one answer."""
    entry = weighing.entry
    units = {form.candidate.form.unit for form in weighing.forms}
    truths: list[Truth] = []
    titles: dict[tuple[str, str], str] = {}
    for branch, form in enumerate(weighing.forms):
        one = form.candidate.form
        told = one.tell or (one.unit if len(units) > 1 else "")
        title = titles.setdefault((one.unit, told), one.title)
        truths.append(Truth(title, form.share, (weighing.cents(form.plan),), branch))
    if len(titles) < 2:  # noqa: PLR2004 - nothing to tell apart
        return
    best = min(truths, key=lambda truth: truth.costs[0]).says
    tells = "; ".join(dict.fromkeys(one.form.tell for one in entry.candidates if one.form.tell))
    ask = "a photo of the plate and of what shows which form it is" + (f" ({tells})" if tells else "")
    title = "which form it is"
    yield Question(FORM, "form", title, title, PLATE, ask, best, None, tuple(truths), rates.wrong_photo, rates.none)


def _sound(
    weighing: Weighing, rates: AskingRates, health: Iterable[HealthQuestion], tested: Collection[str]
) -> Iterator[Question]:  # fmt: skip
    """Whether the unit is sound, by each of the kind's questions. How often an answer misleads stands in its shares."""
    entry, chance = weighing.entry, weighing.entry.health.chance
    if entry.offer in REBUILT or not 0 < chance < 1:
        return
    said = {hit.id for hit in entry.read.reading.phrases}
    good, bad = weighing.mean_if(1.0), weighing.mean_if(0.0)
    for one in health:
        if one.kind == weighing.seat.case.kind.id and not said & set(one.told_by) and one.test not in tested:
            truths = tuple(
                Truth(says, part * share, (cents,))
                for part, cents, hoped in ((chance, good, one.good_if_sound), (1 - chance, bad, one.good_if_not))
                for says, share in (("as hoped", hoped), ("otherwise", 1 - hoped))
            )
            none = rates.none_tape if one.seen in (TAPE, "teardown") else rates.none
            yield Question(SOUND, one.id, one.title, "whether it needs internal work", one.seen, one.ask, one.hoped, None,
                           truths, 0.0, none)  # fmt: skip


def weighed(questions: Iterable[Question], entry: Entry, other_cents: float | None) -> list[Worth]:
    """Questions with their worth against the best other way, the most first.

    Where a total is not known no answer can be weighed: what would make it known comes first, and then what moves it most.
    """
    found = []
    for question in questions:
        missing = question.about in MISSING or not entry.bill.complete
        cents = None if missing else worth_of(question.truths, other_cents, question.wrong, question.none)
        found.append(Worth(question, cents))
    return sorted(
        found,
        key=lambda one: (
            one.question.about not in MISSING, -(one.cents or 0.0), -(1 - one.question.none) * moved_cents(one.question.truths),
            one.question.title,
        ),
    )  # fmt: skip
