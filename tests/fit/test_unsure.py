"""What a plan leaves unsure makes up its charges and its chance; known one way or the other, both average to what they were."""

import dataclasses

import pytest

from interchange.fit.case import Chance
from interchange.fit.report import plan
from interchange.fit.unsure import FACTOR, NEED, PART, STACK_UP, Unsure, chance_of, gambles_of, if_known


@pytest.fixture(scope="module")
def plans(pit_loader, hill_tractor):
    found = []
    for setting in (pit_loader, hill_tractor):
        for name in setting.job.dead:
            seat = setting.seat(name)
            for record in setting.library.records("units"):
                if record.value.kind == seat.case.kind.id:
                    offers = [seat.offer(word) for word in ("complete", "parts_machine") if word in seat.case.kind.offers]
                    found += [seat.plan(form, offer) for form in seat.forms(record.id) for offer in offers]
    return [each for each in found if each.feasible]


def test_charges_and_chance_are_made_of_what_is_unsure(plans):
    assert {one.sort for each in plans for one in each.unsure} >= {FACTOR, STACK_UP, PART}
    for each in plans:
        assert sum(chance * cents for chance, cents in gambles_of(each.unsure)) == pytest.approx(each.charges_cents)
        assert chance_of(each.unsure) == each.chance


def test_known_well_and_known_ill_average_to_the_plan(plans):
    asked = [(each, one) for each in plans for one in each.unsure]
    assert len(asked) > 100
    for each, one in asked:
        well, ill = (if_known(each, one.sort, one.name, well=answer) for answer in (True, False))
        for value in (lambda plan: plan.charges_cents, lambda plan: plan.chance.value):
            assert one.chance * value(well) + (1 - one.chance) * value(ill) == pytest.approx(value(each))
        assert well.charges_cents <= each.charges_cents + 1e-6
        assert well.chance.value >= each.chance.value - 1e-9
        if one.stops:
            assert ill.chance.value == 0
        assert well.suppliers == ill.suppliers == each.suppliers


def test_what_is_not_unsure_changes_nothing(plans):
    assert if_known(plans[0], FACTOR, "no such joint", well=False) is plans[0]


@pytest.mark.parametrize(
    ("unsure", "chance", "basis"),
    [
        pytest.param((), 1.0, "everything that could stop it is known", id="nothing"),
        pytest.param((Unsure(FACTOR, "rear", "rear face", 0.4, 500.0, mended=True),), 1.0, "could be mended", id="mended"),
        pytest.param((Unsure(PART, "nose", "its nose", 0.4, 500.0),), 1.0, "everything that could stop it", id="only costs"),
        pytest.param(
            (Unsure(FACTOR, "nose", "front drive", 0.5, stops=True), Unsure(FACTOR, "hub", "front drive", 0.4, stops=True)),
            0.2,
            "hangs on: front drive",
            id="two joints of one title both count",
        ),
        pytest.param((Unsure(NEED, "box", "whether it needs a box", 0.5, stops=True),), 0.5, "needs a box", id="need"),
    ],
)
def test_chance(unsure, chance, basis):
    found = chance_of(unsure)
    assert found.value == pytest.approx(chance)
    assert basis in found.basis


def test_told_stands_before_what_such_pairs_do(pit_loader):
    seat = pit_loader.seat("engine")
    for form in seat.forms("tolvane-t412"):
        case, donor = seat.pair(form.unit, form.variant)
        made = plan(case, donor)
        for one in made.unsure:
            if one.sort == FACTOR:
                told = dataclasses.replace(case, told={one.name: Chance(1.0, "told")})
                again = plan(told, donor)
                assert again.cost_cents <= made.cost_cents + 1e-6
                assert all(each.chance == 1.0 for each in again.unsure if each.name == one.name)
