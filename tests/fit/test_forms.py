"""What a form changes, on verdicts written down by hand, and on the demo's engines."""

from typing import NamedTuple

import pytest

from interchange.fit.finding import ADAPTS, BOLTS_UP, STOPS, UNSURE
from interchange.fit.forms import FormChange, changes, hang_on_form


class Named(NamedTuple):
    """As much of a judged dimension as is looked at."""

    name: str
    verdict: str

    @property
    def title(self):
        return f"the {self.name}"


class Planned:
    def __init__(self, **verdicts):
        self.judged = tuple(Named(*each) for each in verdicts.items())


def as_rows(found):
    return [(each.dimension, each.title, each.verdict, each.instead_of) for each in found]


@pytest.mark.parametrize(
    ("likeliest", "other", "rows"),
    [
        pytest.param(Planned(fuel=BOLTS_UP), Planned(fuel=BOLTS_UP), [], id="the same"),
        pytest.param(
            Planned(fuel=BOLTS_UP, sump=ADAPTS, rear=UNSURE),
            Planned(fuel=STOPS, sump=ADAPTS, rear=BOLTS_UP),
            [("fuel", "the fuel", STOPS, BOLTS_UP), ("rear", "the rear", BOLTS_UP, UNSURE)],
            id="worse in one and better in another",
        ),
        pytest.param(
            Planned(fuel=BOLTS_UP, bush=ADAPTS),
            Planned(fuel=BOLTS_UP),
            [("bush", "the bush", "not asked", ADAPTS)],
            id="not asked",
        ),
        pytest.param(
            Planned(fuel=BOLTS_UP),
            Planned(fuel=BOLTS_UP, bush=UNSURE),
            [("bush", "the bush", UNSURE, "not asked")],
            id="asked only here",
        ),
    ],
)
def test_changes(likeliest, other, rows):
    assert as_rows(changes(likeliest, other)) == rows


@pytest.mark.parametrize(
    ("shares", "changed"),
    [
        pytest.param([0.5, 0.3, 0.2], [[], [STOPS], [ADAPTS]], id="the first is the likeliest"),
        pytest.param([0.2, 0.3, 0.5], [[BOLTS_UP], [STOPS], []], id="the last"),
        pytest.param([0.4, 0.4, 0.2], [[], [STOPS], [ADAPTS]], id="as likely: the first"),
    ],
)
def test_every_form_against_the_likeliest(shares, changed):
    plans = [Planned(fuel=BOLTS_UP), Planned(fuel=STOPS), Planned(fuel=ADAPTS)]
    assert [[each.verdict for each in one] for one in hang_on_form(plans, shares)] == changed


def test_one_form_changes_nothing():
    assert hang_on_form([Planned(fuel=BOLTS_UP)], [1.0]) == [()]


def test_a_plain_or_a_stressed_block_in_a_machine_without_a_frame(hill_tractor):
    seat = hill_tractor.seat("engine")
    forms = seat.forms("brackmoor-b440")
    found = hang_on_form([seat.plan(form) for form in forms], [form.share for form in forms])
    by_form = {form.variant: each for form, each in zip(forms, found, strict=True)}
    assert by_form["stressed"] == ()
    assert FormChange("block", "stressed block", STOPS, BOLTS_UP) in by_form["plain"]


@pytest.mark.parametrize("unit", ["hestrel-h52d", "tolvane-t412", "tolvane-t618", "orrindale-od46", "brackmoor-b440e"])
def test_what_a_form_does_not_change_is_the_same_in_both(pit_loader, unit):
    seat = pit_loader.seat("engine")
    forms = seat.forms(unit)
    plans = [seat.plan(form) for form in forms]
    likeliest = max(zip(forms, plans, strict=True), key=lambda each: each[0].share)[1]
    for plan, changed in zip(plans, hang_on_form(plans, [form.share for form in forms]), strict=True):
        told = {each.dimension for each in changed}
        before, after = ({one.name: one.verdict for one in each.judged if one.name not in told} for each in (likeliest, plan))
        assert before == after
        assert all(each.verdict != each.instead_of for each in changed)
