"""Plans against every choice there is, tried one by one, on random small kinds."""

import dataclasses
import random

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from random_kinds import cost, every_total, random_case

from interchange.catalog.figure import Figure
from interchange.catalog.model import Adapter
from interchange.fit.case import Donor
from interchange.fit.plan import best_choice


def no_choice_is_better(seed):
    case, donor = random_case(seed)
    choice = best_choice(case, donor)
    stops, cents = min(every_total(case, donor))
    assert (choice.stops, choice.cost_cents) == (stops, pytest.approx(cents))


@settings(max_examples=600, deadline=None)
@given(st.integers(0, 10**9))
def test_no_choice_is_better_than_the_plan(seed):
    no_choice_is_better(seed)


@pytest.mark.long
@settings(max_examples=2000, deadline=None)
@given(st.integers(0, 10**9))
def test_no_choice_is_better_than_any_of_many_plans(seed):
    no_choice_is_better(seed)


@settings(max_examples=150, deadline=None)
@given(st.integers(0, 10**9))
def test_a_plan_costs_what_its_parts_cost(seed):
    """What the plan says is taken adds up to its cost, so that a bill made of it is the bill it was chosen by."""
    case, donor = random_case(seed)
    choice = best_choice(case, donor)
    done = {option.remedy.id: option.remedy for option in choice.taken.values() if option.remedy}
    done |= {each.id: each for option in choice.taken.values() if option.chain for each in option.chain.adapters}
    done |= {closing.remedy.id: closing.remedy for closing in choice.closings if closing.remedy}
    spent = [cost(each, "price" if isinstance(each, Adapter) else "money") for each in done.values()]
    spent += [cost(case.kind.sets[name].mixing) for name in choice.mixed]
    spent += [(way.effort.cents(case), way.effort.lead.likely) for way in choice.suppliers.values()]
    everything = (*choice.taken.values(), *choice.closings, *choice.suppliers.values())
    charges = sum(each.charge_cents + each.stake_cents for each in everything)
    assert choice.lead_days == max(days for _, days in spent)
    assert choice.cost_cents == pytest.approx(sum(cents for cents, _ in spent) + charges + choice.lead_days * case.hold_day_cents)


@settings(max_examples=300, deadline=None)
@given(st.integers(0, 10**9))
def test_not_knowing_is_never_cheaper_than_knowing_that_it_agrees(seed):
    """Take a donor whose words and faces all are the machine's own: what is left out of it can only make it dearer."""
    case, donor = random_case(seed)
    luck = random.Random(seed)  # noqa: S311 - a fixed row of figures is wanted, not a secret
    alike = {"face": Figure(ref="four"), "side": Figure(ref="four"), "word": Figure(word="red")}
    everywhere = {f"{slot}.{name}": figure for slot in (*case.kind.slots, "seat") for name, figure in alike.items()}
    lengths = {path: figure for path, figure in donor.features.items() if path.endswith(".len")}
    case = dataclasses.replace(case, seat=case.seat | everywhere, own=case.own | everywhere)
    known = best_choice(case, Donor(title="", features=lengths | everywhere, offer=donor.offer))
    left_out = {path: figure for path, figure in everywhere.items() if luck.random() < 0.6}
    unknown = best_choice(case, Donor(title="", features=lengths | left_out, offer=donor.offer))
    assert (known.stops, known.cost_cents) <= (unknown.stops, unknown.cost_cents + 1e-6)
