"""The bound is never above what a plan comes to, and the cheapest donors are those that planning every unit finds."""

import dataclasses
import random
import shutil
import sys
from pathlib import Path

import pytest

from interchange.catalog.figure import Figure
from interchange.fit.bound import INFINITE, Bounds
from interchange.fit.donors import best_donors
from interchange.fit.finding import STOPS
from interchange.fit.plan import best_choice
from interchange.fit.report import plan
from interchange.fit.setting import WHOLE
from interchange.job.home import read_home
from interchange.opening import Bar, open_setting
from interchange.quantity import read_quantity

ROOT = Path(__file__).parents[2]
JOBS = [("pit_loader", "engine"), ("pit_loader", "pump"), ("hill_tractor", "engine")]


@pytest.fixture(params=JOBS, ids=lambda job: f"{job[0]} {job[1]}")
def seat(request):
    return request.getfixturevalue(request.param[0]).seat(request.param[1])


@pytest.fixture(scope="module")
def many(tmp_path_factory):
    """The demo's jobs among 120 more engines."""
    sys.path.insert(0, str(ROOT / "scripts"))
    try:
        from big_catalog import write_catalog
    finally:
        sys.path.pop(0)
    home = tmp_path_factory.mktemp("many") / "home"
    shutil.copytree(ROOT / "catalog" / "demo", home)
    write_catalog(home / "more", 120)
    file = home / "home.yaml"
    file.write_text(file.read_text(encoding="utf-8").replace("catalog: [catalog]", "catalog: [catalog, more]"), encoding="utf-8")
    assert read_home(file).catalog == ("catalog", "more")
    return home


def every_total(seat):
    """(cost, unit, variant) of every form that goes in."""
    found = []
    for one in Bounds(seat.setting.library.connection, seat.case, seat.offer(WHOLE), seat.load).every:
        choice = best_choice(*seat.pair(one.unit, one.variant))
        if choice.stops:
            continue
        assert one.cents <= choice.cost_cents + 1e-6, (one, choice.cost_cents)
        found.append((choice.cost_cents, one.unit, one.variant))
    return sorted(found)


def as_totals(donors):
    return [(ranked.plan.cost_cents, ranked.form.unit, ranked.form.variant) for ranked in donors.found]


@pytest.mark.parametrize("most", [1, 3, 50])
def test_the_cheapest_are_those_that_planning_all_finds(seat, most):
    assert as_totals(best_donors(seat, most)) == every_total(seat)[:most]


@pytest.mark.parametrize("name", ["pit-loader", "hill-tractor"])
def test_the_cheapest_among_many(many, name):
    setting, problems = open_setting(many / "jobs" / name, None, Bar())
    assert not problems
    seat = setting.seat("engine")
    donors = best_donors(seat, 20)
    assert as_totals(donors) == every_total(seat)[:20]
    assert donors.planned < donors.forms - donors.ruled_out, "it is found without planning all"


@pytest.mark.parametrize("luck", [0, *(pytest.param(luck, marks=pytest.mark.long) for luck in range(1, 8))])
def test_the_bound_holds_whatever_is_needed(many, luck):
    """Some of what the machine and the dead unit say left out, some of one's own parts gone, time dear or free."""
    chance = random.Random(luck)  # noqa: S311 - a fixed row of figures is wanted, not a secret
    setting, _ = open_setting(many / "jobs" / chance.choice(("pit-loader", "hill-tractor")), None, Bar())
    seat = setting.seat("engine")
    seat.case = dataclasses.replace(
        seat.case,
        seat={path: figure for path, figure in seat.case.seat.items() if chance.random() < 0.7},
        own={path: figure for path, figure in seat.case.own.items() if chance.random() < 0.7},
        usable=frozenset(slot for slot in sorted(seat.case.usable) if chance.random() < 0.6),
        height=chance.choice((None, Figure(quantity=read_quantity("5,200 ft", "length")))),
        own_hour_cents=chance.choice((0.0, 3500.0)),
        hold_day_cents=chance.choice((0.0, 1200.0, 9000.0)),
    )
    assert as_totals(best_donors(seat, 10)) == every_total(seat)[:10]


def test_what_is_ruled_out_does_not_go_in(seat):
    for one in Bounds(seat.setting.library.connection, seat.case, seat.offer(WHOLE), seat.load).every:
        if one.cents == INFINITE:
            assert best_choice(*seat.pair(one.unit, one.variant)).stops


TURNED = {"clockwise": "counter-clockwise", "counter-clockwise": "clockwise"}


def stopped_when(seat, form, **changed):
    """What stops a form with some words changed."""
    case, donor = seat.pair(form.unit, form.variant)
    words = {path.replace("__", "."): Figure(word=text) for path, text in changed.items()}
    return {one.name for one in plan(case, dataclasses.replace(donor, features=donor.features | words)).stopped_by}


def test_nothing_in_the_list_turns_the_wrong_way_and_turned_round_none_of_it_goes(seat):
    """Whatever else it costs: the cheapest of all stops like the dearest."""
    wanted = seat.case.seat["seat.rotation"].text
    found = best_donors(seat, 50).found
    assert found
    for ranked in found:
        assert seat.features(ranked.form)["core.rotation"].text == wanted
        assert "rotation" in stopped_when(seat, ranked.form, core__rotation=TURNED[wanted])


def test_no_price_of_work_or_time_brings_the_wrong_rotation_in(seat):
    wrong = TURNED[seat.case.seat["seat.rotation"].text]
    free = {name: dataclasses.replace(each, money=None, hours=None, lead=None) for name, each in seat.case.remedies.items()}
    case = dataclasses.replace(seat.case, remedies=free, own_hour_cents=0.0, hold_day_cents=0.0)
    for one in Bounds(seat.setting.library.connection, seat.case, seat.offer(WHOLE), seat.load).every:
        _, donor = seat.pair(one.unit, one.variant)
        features = donor.features | {"core.rotation": Figure(word=wrong)}
        assert best_choice(case, dataclasses.replace(donor, features=features)).taken["rotation"].verdict == STOPS


def test_a_plain_block_goes_in_no_frameless_machine_and_a_stressed_one_in_either(hill_tractor, pit_loader):
    frameless, framed = hill_tractor.seat("engine"), pit_loader.seat("engine")
    for seat, frame in ((frameless, "frameless"), (framed, "framed")):
        assert seat.case.seat["seat.frame"].text == frame
        found = best_donors(seat, 50).found
        blocks = {seat.features(ranked.form)["core.block"].text for ranked in found}
        assert blocks == ({"stressed"} if frame == "frameless" else {"stressed", "plain"})
        for ranked in found:
            plain, stressed = (stopped_when(seat, ranked.form, core__block=block) for block in ("plain", "stressed"))
            assert ("block" in plain) == (frame == "frameless")
            assert "block" not in stressed
