"""Ways out of the demo's jobs: what there is, what it nets, and what would change the choice."""

import dataclasses
from pathlib import Path
from types import SimpleNamespace

import pytest

from interchange.catalog.figure import Figure
from interchange.catalog.folders import search_path
from interchange.fit.case import spread_of
from interchange.fit.setting import Setting
from interchange.job.dead import DeadUnit
from interchange.job.home import OnHand, read_home
from interchange.job.job import NewPart, Worth, read_job
from interchange.money.flips import flips, in_words
from interchange.money.odds import mean
from interchange.money.on_hand import Standing
from interchange.money.ways import (
    Row,
    new_parts_credit,
    others_for_rank,
    ways_to_part,
    ways_without_ads,
    weighed,
)
from interchange.quantity import read_quantity
from interchange.spread import exactly
from interchange.store.cache import up_to_date
from interchange.store.library import Library

DEMO = Path(__file__).parents[2] / "catalog" / "demo"


def money(text, dimension="money"):
    return Figure(quantity=read_quantity(text, dimension))


@pytest.fixture(scope="module")
def library(tmp_path_factory):
    with pytest.MonkeyPatch.context() as patch:
        patch.setenv("INTERCHANGE_CACHE", str(tmp_path_factory.mktemp("cache")))
        home = read_home(DEMO / "home.yaml")
        connection, _ = up_to_date(search_path(home.catalog_folders))
        yield Library(connection)


def setting_of(library, job="hill-tractor", change=lambda job: job, home=lambda home: home):
    read, node = read_job(DEMO / "jobs" / job)
    return Setting(library, change(read), node, home(read_home(DEMO / "home.yaml")))


def compared(setting, standing=()):
    seats = [setting.seat(name) for name in setting.job.dead]
    rows = [row for seat in seats for row in ways_without_ads(seat, standing)]
    rows += ways_to_part(setting, seats[0].case.own_hour_cents, seats[0].case.hold_day_cents)
    return weighed(setting, rows, seats)


def with_worth(repaired=None, as_is=None):
    worth = Worth(repaired=money(repaired) if repaired else None, as_is=money(as_is) if as_is else None)
    return lambda job: dataclasses.replace(job, worth=worth)


def broke(words):
    def change(job):
        dead = {name: dataclasses.replace(one, broke=words) for name, one in job.dead.items()}
        return dataclasses.replace(job, dead=dead)

    return change


def by_id(ways):
    return {one.row.id: one for one in ways.nets}


@pytest.mark.parametrize(
    ("words", "there", "not_there"),
    [
        pytest.param("spun bearing", {"repair", "rebuild", "long_block"}, {"overhaul"}, id="the crank is gone"),
        pytest.param("thrown rod", {"short_block", "long_block"}, {"repair", "overhaul", "rebuild"}, id="the block is gone"),
        pytest.param("cracked head", {"repair", "overhaul", "long_block"}, {"short_block"}, id="the head is gone"),
        pytest.param(
            "it stopped", {"overhaul", "rebuild", "short_block", "long_block"}, {"repair"}, id="nobody knows what broke"
        ),
        pytest.param("cracked head and spun bearing", {"rebuild"}, {"repair"}, id="more than one part"),
    ],
)
def test_what_broke_says_what_can_be_done(library, words, there, not_there):
    found = by_id(compared(setting_of(library, change=broke(words)))).keys()
    assert there <= found
    assert not found & not_there


def test_by_net_it_is_worth_less_cost_and_best_first(library):
    setting = setting_of(library, change=with_worth("$13,500", "$1,900"))
    found = compared(setting)
    assert found.by_net
    block = by_id(found)["long_block"]
    assert block.net.mean == pytest.approx(1350000 - mean(block.row.cost))
    mends = [one.net.mean for one in found.nets if one.row.mends]
    assert mends == sorted(mends, reverse=True)
    fee = 0.075  # the middle of 0 to 15 %
    assert by_id(found)["sell"].net.mean == pytest.approx(190000 * (1 - fee), rel=0.001)


def test_without_a_worth_nets_are_not_known_and_cost_decides(library):
    found = compared(setting_of(library, change=with_worth()))
    assert not found.by_net
    mends = [one for one in found.nets if one.row.mends]
    assert all(one.net is None for one in mends)
    assert [one.cost.mean for one in mends] == sorted(one.cost.mean for one in mends)
    assert by_id(found)["sell"].row.unknown == ("worth: as_is in job.yaml",)
    assert by_id(found)["sell"].net is None


def test_money_spent_changes_nothing(library):
    def spent(amount):
        return lambda job: dataclasses.replace(job, spent=money(amount))

    assert compared(setting_of(library, change=spent("$1"))) == compared(setting_of(library, change=spent("$99,000")))


def test_waiting_costs_its_days_against_the_best(library):
    found = compared(setting_of(library, change=with_worth("$13,500", "$1,900")))
    wait = by_id(found)["wait"]
    best = max(one.net.mean for one in found.nets if one.row.sort != "wait")
    assert best - wait.net.mean == pytest.approx(wait.row.days * 1200)


def test_other_dead_units_are_cured_in_the_best_way_and_the_credit_for_new_parts_counts_once(library):
    setting = setting_of(library, "pit-loader")
    found = by_id(compared(setting))
    pumps = [one.row for one in compared(setting).nets if one.row.seats == ("pump",)]
    pump = min(pumps, key=lambda row: row.cost_cents)
    block = found["long_block"]
    expected = 1450000 - mean(block.row.cost) - (pump.cost_cents + pump.credit_cents)
    assert block.net.mean == pytest.approx(expected)


def part(paid, *, opened=False, used_by=()):
    return NewPart(title="gaskets", paid=money(paid), opened=opened, used_by=used_by)


@pytest.mark.parametrize(
    ("one", "way", "dollars"),
    [
        pytest.param(part("$300", used_by=("overhaul",)), "overhaul", 300, id="used: all that was paid"),
        pytest.param(part("$300", used_by=("overhaul",)), "long_block", 300 * (1 - 0.125), id="sent back: less 0 to 25 %"),
        pytest.param(part("$300", opened=True), "long_block", 300 * 0.15, id="opened: 0 to 30 %"),
    ],
)
def test_new_parts_are_a_credit_by_way(library, one, way, dollars):
    setting = setting_of(library, change=lambda job: dataclasses.replace(job, new_parts={"one": one}))
    assert new_parts_credit(setting, way) == pytest.approx(100 * dollars)


def standing(library, broke="", unit="brackmoor-b440.stressed", fetches="$2,000", machine="pellworth-540"):
    dead = {"engine": DeadUnit(unit=unit, broke=broke)} if broke else {}
    said = OnHand(machine=machine, title="the other", fetches=money(fetches) if fetches else None, dead=dead)
    return Standing("on hand: other", "the other", library.machine(machine)[1], said)


def test_a_machine_on_hand_is_a_donor_at_what_it_would_fetch(library):
    rows = {}
    for fetches in ("$2,000", "$2,500"):
        found = by_id(compared(setting_of(library), [standing(library, fetches=fetches)]))
        rows[fetches] = found["on hand: other"].row
    assert rows["$2,500"].cost_cents - rows["$2,000"].cost_cents == pytest.approx(50000, rel=0.2)
    assert rows["$2,000"].sort == "on_hand"


def test_what_it_would_fetch_is_not_known_where_nobody_says(library):
    found = by_id(compared(setting_of(library), [standing(library, fetches="")]))["on hand: other"]
    assert found.net is None
    assert found.row.unknown == ("price",)


def test_an_engine_dead_in_its_injection_pump_has_a_core_to_give(library):
    found = by_id(compared(setting_of(library), [standing(library, "injection pump seized")]))
    assert "on hand: other" in found


@pytest.mark.parametrize(
    ("words", "unit", "made"),
    [
        pytest.param("cracked head", "brackmoor-b440.stressed", True, id="head against crank"),
        pytest.param("broken crank", "brackmoor-b440.stressed", False, id="both in the crank"),
        pytest.param("cracked head", "brackmoor-b330.plain", False, id="another family"),
        pytest.param("ran away", "brackmoor-b440.stressed", False, id="not known in what"),
    ],
)
def test_two_dead_engines_that_broke_in_different_parts_make_one(library, words, unit, made):
    found = by_id(compared(setting_of(library), [standing(library, words, unit)]))
    assert ("two_into_one, on hand: other" in found) == made
    assert "on hand: other" not in found  # its core is dead, too


def test_one_machine_is_not_used_up_twice(library):
    """The loader behind the shed gives its head for the engine: it is not there for its pump as well: that counts twice."""
    other = standing(library, "cracked head", "hestrel-h52d.loader", "$100", "dunmarrow-rl90")
    found = compared(setting_of(library, "pit-loader"), [other])
    both = by_id(found)["two_into_one, on hand: other"]
    pumps = [one.row for one in found.nets if one.row.seats == ("pump",) and one.row.uses != other.id]
    cheapest = min(pumps, key=lambda row: row.cost_cents)
    assert both.net.mean == pytest.approx(1450000 - mean(both.row.cost) - (cheapest.cost_cents + cheapest.credit_cents))


def test_what_is_paid_for_an_ad_is_weighed_against_these_too(library):
    setting = setting_of(library)
    seat = setting.seat("engine")
    ways = {way.id: way.mean_cents for way in others_for_rank(seat, [])}
    assert ways["long_block"] == pytest.approx(by_id(compared(setting))["long_block"].row.cost_cents)


def test_at_a_break_even_both_are_level(library):
    """Solved again with the figure at its level, the way costs what the best one does."""
    setting = setting_of(library, change=with_worth("$13,500", "$1,900"))
    found = compared(setting)
    repaired = spread_of(setting.job.worth.repaired)
    turns = flips(found, repaired)
    mends = [one.row for one in found.nets if one.row.mends and one.net]
    best, second = mends[0].cost_cents, mends[1].cost_cents
    rows = {row.id: row for row in mends}
    seen = set()
    for turn in turns:
        target = second if turn.wins else best
        if turn.what == "wait":
            built = rows[turn.way].built
            credit = rows[turn.way].credit_cents
            assert mean(built._replace(days=exactly(turn.level)).odds) - credit == pytest.approx(target, abs=1)
        elif turn.what == "bad":
            row = rows[turn.way]
            if_good = row.cost_cents - (1 - row.good) * row.rescue_cents
            assert if_good + turn.level * row.rescue_cents == pytest.approx(target, abs=1)
        else:
            worth = turn.level - mends[0].cost_cents
            assert turn.what == "worth"
            assert worth == pytest.approx(by_id(found)["sell"].net.mean, abs=1)
        seen.add(turn.what)
        assert in_words(turn)
    assert seen == {"wait", "bad", "worth"}


def test_leftovers_decide_as_they_are_worded():
    def row(id_, cost, leftovers=0.0):
        return Row(id_, "donor", id_, ("engine",), "", 0.0, None, 0.0, 1.0, exactly(cost), leftovers_cents=leftovers)

    rows = [row("machine", 500000, 100000), row("block", 536000)]
    bare = SimpleNamespace(job=SimpleNamespace(worth=Worth()))
    found = weighed(bare, rows, [SimpleNamespace(name="engine")])
    assert [in_words(turn) for turn in flips(found, None)] == [
        "machine: wins unless its leftovers bring under $640 (taken: $1,000)"
    ]
