"""Questions about the fit of an ad's unit: what is not known and decides, and parts that may not come with it.

Each is asked of the world as the plans see it: it turns out well, with the chance that stands in the plan, or not. For each the
plan there is, and those made anew with either answer known, are what there is to choose from; forms in which nothing hangs on
it go on as they are, and its answer is taken to say nothing of which form it is.
"""

from __future__ import annotations

import dataclasses
from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING, NamedTuple

from interchange.catalog.features import SEAT
from interchange.catalog.kind_rules import THICK
from interchange.fit.case import (
    BOUGHT,
    DONOR,
    MACHINE,
    NOBODY,
    OWN,
    OWN_PREFIX,
    Case,
    Chance,
    Donor,
    figure_from,
    slot_of,
    source_of,
)
from interchange.fit.factor import factors_of
from interchange.fit.rating import right_words
from interchange.fit.report import plan as plan_for
from interchange.fit.stack_up import spoken_term, terms_of
from interchange.fit.unsure import FACTOR, NEED, PART, STACK_UP, if_known, parts_of
from interchange.money.asked import DIMENSION, PHOTO, SELLER, TAPE, YOU, Question
from interchange.money.asked import PART as ABOUT_PART
from interchange.money.rank import pair_of
from interchange.money.worth import Truth

if TYPE_CHECKING:
    from collections.abc import Mapping

    from interchange.catalog.figure import Figure
    from interchange.catalog.model import Dimension, Kind
    from interchange.catalog.rates import AskingRates
    from interchange.fit.report import Plan
    from interchange.fit.unsure import Unsure
    from interchange.money.weighing import Form, Weighing

ALMOST = 1e-9
"""As near to certain as a plan is asked for: what is certain would no longer stand in it as a doubt."""
Named = tuple[str, str]
"""A sort of unsure thing, and its name."""


class _Readings(NamedTuple):
    """What has to be read: by the seller, each with the figure on the other side if that is known, and on one's own machine."""

    seller: Mapping[str, Figure | None]
    own: tuple[str, ...]


class _Seen(NamedTuple):
    """One form with what its plan was made from."""

    form: Form
    case: Case
    donor: Donor


NOTHING_TO_READ = _Readings({}, ())


def fit_questions(weighing: Weighing, rates: AskingRates) -> Iterator[Question]:
    """Every question about how it fits that has an answer which changes something."""
    seen = [_Seen(form, *pair_of(weighing.seat, weighing.entry, form.candidate.form)) for form in weighing.forms]
    names = dict.fromkeys(named for one in seen if one.form.plan.feasible for named in _open(one))
    asked = [name for _, name in names]
    for named in names:
        readings = NOTHING_TO_READ if named[0] == PART else _readings(seen, named)
        truths = tuple(_truths(weighing, seen, named)) if readings else ()
        if truths and readings:
            yield (
                _part(weighing, named[1], truths, rates)
                if named[0] == PART
                else _fit(weighing, named, readings, truths, asked, rates)
            )


def _open(one: _Seen) -> Iterator[Named]:
    """What is not known of one form: what its plan counts on, and what may bring a cheaper one."""
    yield from ((each.sort, each.name) for each in one.form.plan.unsure if each.sort != NEED)
    brings = {*one.donor.offer.has, *one.donor.offer.perhaps}
    for factor in factors_of(one.case, one.donor):
        lacking = [path for path in factor.ends if slot_of(path) in brings and path not in one.donor.features]
        if lacking:
            yield FACTOR, factor.name
    for name, stack in one.case.kind.stack_ups.items():
        paths = [term.path for term in terms_of(stack.sum) if not term.path.endswith(f".{THICK}")]
        if any(slot_of(path) in brings and path not in one.donor.features for path in paths):
            yield STACK_UP, name
    yield from ((PART, slot) for slot in one.donor.offer.perhaps)


def _truths(weighing: Weighing, seen: Sequence[_Seen], named: Named) -> Iterator[Truth]:
    """How the world may stand: the form, and whether it turns out well; nothing where nothing hangs on it."""
    made = [_plans(one, named) if one.form.plan.feasible else None for one in seen]
    hanging = [(one, each) for one, each in zip(seen, made, strict=True) if each]
    if not hanging:
        return
    whole = sum(one.form.share for one, _ in hanging)
    usual = sum(one.form.share * chance for one, (chance, _) in hanging) / whole
    for branch, (one, each) in enumerate(zip(seen, made, strict=True)):
        chance, plans = each or (usual, (one.form.plan,))
        for well, part in ((True, chance), (False, 1 - chance)):
            costs = tuple(weighing.cents(if_known(plan, *named, well=well)) for plan in plans)
            yield Truth(_says(named, well=well), one.form.share * part, costs, branch)


def _says(named: Named, *, well: bool) -> str:
    if named[0] == PART:
        return "it comes with it" if well else "it does not come with it"
    return "agrees" if well else "differs"


def _plans(one: _Seen, named: Named) -> tuple[float, tuple[Plan, ...]] | None:
    """The chance that it turns out well, and the plans there are to choose from; None where none of them hangs on it."""
    now = one.form.plan
    found = next((each for each in now.unsure if (each.sort, each.name) == named), None)
    chance = found.chance if found else _chance(one, named)
    if not ALMOST < chance < 1 - ALMOST:
        return None
    made = [now, *(_planned(one, named, sure) for sure in (1 - ALMOST, ALMOST))]
    plans = [each for each in made if each.feasible]
    if not any(_hangs(each.unsure, named) for each in plans):
        return None
    return chance, tuple(plans)


def _hangs(unsure: Sequence[Unsure], named: Named) -> bool:
    return any((each.sort, each.name) == named and (each.cents or each.stops) for each in unsure)


def _chance(one: _Seen, named: Named) -> float:
    sort, name = named
    return one.donor.offer.perhaps.get(name, 0.0) if sort == PART else one.case.chance(name).value


def _planned(one: _Seen, named: Named, chance: float) -> Plan:
    """The plan that would be made, were it as likely as that."""
    sort, name = named
    if sort == PART:
        offer = dataclasses.replace(one.donor.offer, perhaps={**one.donor.offer.perhaps, name: chance})
        return plan_for(one.case, dataclasses.replace(one.donor, offer=offer))
    return plan_for(dataclasses.replace(one.case, told={name: Chance(chance, "asked")}), one.donor)


def _part(weighing: Weighing, slot: str, truths: tuple[Truth, ...], rates: AskingRates) -> Question:
    title, parts = slot.replace("_", " "), parts_of(weighing.seat.case.kind, slot)
    ask = f"whether it comes with the {title}" + (f" ({parts})" if parts != title else "") + ", and a photo of that"
    decides = f"whether the {title} has to be found elsewhere"
    return Question(ABOUT_PART, slot, title, decides, PHOTO, ask, "yes", None, truths, rates.wrong_photo, rates.none)


def _fit(
    weighing: Weighing, named: Named, readings: _Readings, truths: tuple[Truth, ...], asked: Sequence[str], rates: AskingRates
) -> Question:  # fmt: skip
    sort, name = named
    kind = weighing.seat.case.kind
    dimension = _dimension(kind, named)
    title = dimension.title if dimension else name.replace("_", " ")
    if dimension and not dimension.rule and sum(each in (*dimension.joints, *dimension.stack_ups) for each in asked) > 1:
        title = f"{title}: {kind.stack_ups[name].title if sort == STACK_UP else name.replace('_', ' ')}"
    at = dimension.seen if dimension else TAPE
    by_hand = at in (TAPE, "teardown")
    wrong = rates.wrong_tape if by_hand else rates.wrong_word if at == SELLER else rates.wrong_photo
    why = (dimension.why if dimension else "") or title
    if not readings.seller:
        ask = "; ".join(f"the {spoken_term(path)}" for path in readings.own)
        return Question(DIMENSION, name, title, why, at, ask, "", None, truths, wrong, 0.0, YOU)
    need = next((figure for figure in readings.seller.values() if figure), None)
    ask, hoped = _words(kind, dimension, readings.seller, need, sort)
    own = tuple(spoken_term(path) for path in readings.own)
    none = rates.none_tape if by_hand else rates.none
    return Question(DIMENSION, name, title, why, at, ask, hoped, need, truths, wrong, none, SELLER, own)


def _words(
    kind: Kind, dimension: Dimension | None, paths: Mapping[str, Figure | None], need: Figure | None, sort: str
) -> tuple[str, str]:
    """How it is asked, where the catalog has words for it or it is a sum of several lengths; and what is hoped for."""
    rule = dimension.rule if dimension else None
    right = right_words(rule, need, offered=dimension.give in paths) if dimension and rule and need else ""
    if dimension and dimension.ask and sort != STACK_UP:
        return dimension.ask, right
    if sort == STACK_UP or any(path in kind.ask for path in paths):
        told = [kind.ask.get(path) or f"the {spoken_term(path)}" for path in paths]
        figures = [f"about {figure.text}" for figure in paths.values() if figure]
        return "; ".join(told), right or ", ".join(figures)
    return "", right


def _dimension(kind: Kind, named: Named) -> Dimension | None:
    sort, name = named
    if sort == FACTOR and name in kind.dimensions and kind.dimensions[name].rule:
        return kind.dimensions[name]
    return next(
        (each for each in kind.dimensions.values() if name in (each.stack_ups if sort == STACK_UP else each.joints)), None
    )


def _readings(seen: Sequence[_Seen], named: Named) -> _Readings | None:
    """Who has to read what for it to be known; None where nobody can, because it hangs on a part that is still to be found."""
    one = next((each for each in seen if _hangs(each.form.plan.unsure, named)), None)
    if one is None:
        one = next(each for each in seen if named in _open(each))
        brought = {*one.donor.offer.has, *one.donor.offer.perhaps}
        by = {slot: DONOR if slot in brought else source for slot, source in one.form.plan.suppliers.items()}
    else:
        by = one.form.plan.suppliers
    places = [(path, source_of(path, by), other) for path, other in _places(one, named)]
    unknown = [place for place in places if figure_from(one.case, one.donor, place[0], place[1]) is None]
    if any(source in (BOUGHT, NOBODY) for _, source, _ in unknown):
        return None
    asked = unknown or places  # known on both sides, but too coarsely, or sources differ: all of it again
    seller = {
        path: figure_from(one.case, one.donor, other, _other(other, by)) for path, source, other in asked if source == DONOR
    }
    own = tuple(dict.fromkeys(path for path, source, _ in asked if source != DONOR)) if unknown or not seller else ()
    return _Readings(seller, own) if seller or own else None


def _other(path: str, by: Mapping[str, str]) -> str:
    """Where the figure that is hoped for stands: on the machine, or on the dead unit."""
    return MACHINE if source_of(path, by) == MACHINE else OWN


def _places(one: _Seen, named: Named) -> Iterator[tuple[str, str]]:
    """Every feature it is told by, each with the one whose figure is hoped for there."""
    sort, name = named
    if sort == STACK_UP:
        stack = one.case.kind.stack_ups[name]
        for term in terms_of(stack.sum):
            if not term.path.endswith(f".{THICK}"):
                yield term.path, term.path
                if stack.target == OWN and slot_of(term.path) != SEAT:
                    yield OWN_PREFIX + term.path, term.path
        if stack.target not in ("", OWN):
            yield stack.target, stack.target
        return
    factor = next(each for each in factors_of(one.case, one.donor) if each.name == name)
    yield from (factor.ends, factor.ends[::-1])
    yield from ((path, path) for path in factor.when)
