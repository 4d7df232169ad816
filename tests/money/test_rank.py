"""Ads of our own against the demo's catalog: what each is taken for, and what that does to the bill."""

import random
from pathlib import Path

import pytest

from interchange.ads.pasted import ads_in
from interchange.ads.reads import ad_words, matched
from interchange.ads.shelf import read_new
from interchange.catalog.folders import search_path
from interchange.fit.setting import Setting
from interchange.haul.atlas import atlas
from interchange.job.home import read_home
from interchange.job.job import read_job
from interchange.money.bill import LEFTOVERS
from interchange.money.fetch import Fetcher
from interchange.money.odds import AllOf, what_to_expect
from interchange.money.rank import rank
from interchange.money.shape import triangle
from interchange.spread import Spread
from interchange.store.cache import up_to_date
from interchange.store.library import Library

DEMO = Path(__file__).parents[2] / "catalog" / "demo"


@pytest.fixture(scope="module")
def cache(tmp_path_factory):
    return tmp_path_factory.mktemp("cache")


@pytest.fixture(autouse=True)
def _cache(monkeypatch, cache):
    monkeypatch.setenv("INTERCHANGE_CACHE", str(cache))


@pytest.fixture
def ranked():
    home = read_home(DEMO / "home.yaml")
    connection, _ = up_to_date(search_path(home.catalog_folders))
    library = Library(connection)
    words = ad_words(library)

    def rank_(text, job="pit-loader", seat="engine", by="total"):
        setting = Setting(library, *read_job(DEMO / "jobs" / job), home)
        reads = matched(library, read_new(ads_in(text, "test"), words))
        return rank(setting, setting.seat(seat), reads, Fetcher(setting, atlas()), words, by)

    return rank_


def only(ranking):
    (entry,) = (*ranking.entries, *ranking.stopped)
    return entry


def test_a_family_with_forms_is_every_form_by_its_share(ranked):
    entry = only(ranked("Hestrel H52D engine\n$2,000\nRuns good.\nBarre, VT\n"))
    assert len(entry.candidates) > 1
    assert sum(candidate.share for candidate in entry.candidates) == pytest.approx(1)
    assert entry.goes_in == pytest.approx(sum(o.share * o.plan.chance.value for o in entry.outcomes))


def test_a_form_that_is_named_is_that_form(ranked):
    entry = only(ranked("Hestrel H52D loader engine\n$2,000\nBarre, VT\n"))
    assert [candidate.form.variant for candidate in entry.candidates] == ["loader"]


def test_what_the_seller_says_rules_forms_out(ranked):
    plain = only(ranked("Ostrander Vale F60 forklift\n$2,000\nBarre, VT\n"))
    diesel = only(ranked("Ostrander Vale F60 forklift, diesel engine\n$2,000\nBarre, VT\n"))
    assert {candidate.form.unit for candidate in plain.candidates} == {"hestrel-h52d", "hestrel-h52g"}
    assert {candidate.form.unit for candidate in diesel.candidates} == {"hestrel-h52d"}


def test_a_machine_is_hauled_whole_and_an_engine_on_a_pallet(ranked):
    machine = only(ranked("Varnhollow BH3 backhoe, runs and drives\n$4,000\nRutland, VT\n"))
    engine = only(ranked("Tolvane T412 engine out of a Varnhollow BH3\n$900\nRutland, VT\n"))
    assert "pallet freight" not in {option.mode for option in machine.fetch.options if option.allowed}
    assert engine.fetch.line.amount.likely < machine.fetch.line.amount.likely
    assert engine.offer == "complete"
    assert machine.offer in ("machine", "running_machine")


def test_own_rig_within_its_ratings_is_the_cheap_way_near_by(ranked):
    entry = only(ranked("Hestrel H52D loader engine\n$2,000\nMontpelier, VT\n"))
    assert entry.fetch.option.mode == "own rig"
    assert entry.fetch.option.allowed


def test_a_place_that_could_be_two_is_not_guessed(ranked):
    entry = only(ranked("Hestrel H52D loader engine\n$2,000\nlocated in Springfield\n"))
    assert entry.fetch.road is None
    assert "haul" in entry.bill.unknown


def test_only_a_state_is_a_wide_range(ranked):
    entry = only(ranked("Hestrel H52D loader engine, $2,000, located in Maine\n"))
    assert entry.fetch.road.low < entry.fetch.road.likely < entry.fetch.road.high
    assert entry.fetch.road.high - entry.fetch.road.low > 50
    assert "only the state is known" in entry.fetch.note


def test_an_unknown_model_is_told_apart_from_another_unit(ranked):
    ranking = ranked("Aldermast 5200 diesel engine\n$900\nBarre, VT\n")
    assert [read.title for read in ranking.unknown] == ["Aldermast 5200 diesel engine"]
    ranking = ranked("Lissander L20 hydraulic pump\n$200\nBarre, VT\n")
    assert len(ranking.other) == 1


def test_an_engine_out_of_a_machine_brings_no_pump(ranked):
    ranking = ranked("Tolvane T412 drop out, out of a Varnhollow BH3\n$900\nBarre, VT\n", seat="pump")
    assert not ranking.entries
    assert not ranking.stopped
    ranking = ranked("Varnhollow BH3, runs\n$4,900\nBarre, VT\n", seat="pump")
    assert len(ranking.entries) == 1


@pytest.mark.parametrize(
    "words",
    ["Dunmarrow RL90 loader\nENGINE IS GONE, converter still here", "RL90 no engine", "Hestrel H52D loader engine SOLD"],
)
def test_what_is_gone_or_sold_is_not_ranked(ranked, words):
    ranking = ranked(f"{words}\n$900\nRutland, VT\n")
    assert not ranking.entries
    assert not ranking.stopped


def test_one_who_looks_for_an_engine_offers_none(ranked):
    ranking = ranked("Looking for a Hestrel H52D engine. Will pay $400.\nBarre, VT\n")
    assert not ranking.entries
    assert not ranking.stopped


def test_bad_words_cost(ranked):
    good = only(ranked("Hestrel H52D loader engine\n$2,000\nRuns great, video of it running.\nBarre, VT\n"))
    bad = only(ranked("Hestrel H52D loader engine\n$2,000\nSeized while running.\nBarre, VT\n"))
    assert good.health.chance > bad.health.chance
    assert good.bill.mean_cents < bad.bill.mean_cents


@pytest.mark.parametrize(("cheap", "dear"), [(500, 600), (1000, 4000)])
def test_a_cheaper_price_never_ranks_worse(ranked, cheap, dear):
    text = "Hestrel H52D loader engine\n${}\nRuns good.\nBarre, VT\n"
    assert only(ranked(text.format(cheap))).bill.mean_cents < only(ranked(text.format(dear))).bill.mean_cents


def test_a_plain_block_does_not_go_into_a_frameless_tractor(ranked):
    entry = only(ranked("Brackmoor B440 industrial engine\n$1,500\nBarre, VT\n", job="hill-tractor"))
    assert entry.stopped
    assert entry.worst.name == "block"


def test_a_stressed_block_can_serve_in_a_framed_loader(ranked):
    entry = only(ranked("Brackmoor B440 tractor engine\n$1,500\nBarre, VT\n"))
    assert not any(judged.name == "block" for judged in entry.likeliest.plan.stopped_by)


OTHERS = "----\n\nTolvane T412 engine\n$1,500\nBarre, VT\n\n----\n\nOrrindale OD46 engine, runs\n$2,500\nRutland, VT\n"


def test_a_cheaper_price_never_ranks_worse_and_the_walk_away_price_is_level(ranked):
    def of(price):
        ranking = ranked(f"Hestrel H52D loader engine\n${price:,.2f} firm\nMontpelier, VT\n\n{OTHERS}")
        return next((place, one) for place, one in enumerate(ranking.entries) if one.candidate.form.unit == "hestrel-h52d")

    places = [of(price)[0] for price in (100, 900, 2_000, 4_000, 9_000)]
    assert places == sorted(places)
    assert places[0] < places[-1]
    most = of(900)[1].walk_away
    at_most = of(round(most.cents) / 100)[1]
    assert at_most.bill.mean_cents == pytest.approx(most.instead.mean_cents, abs=1)
    assert at_most.walk_away.instead == most.instead
    assert at_most.walk_away.cents == pytest.approx(most.cents, abs=1)


def test_what_is_expected_is_within_what_may_be(ranked):
    for entry in ranked(OTHERS).entries:
        found = what_to_expect(entry.bill.odds)
        assert found.mean == pytest.approx(entry.bill.mean_cents)
        assert found.low < found.middle < found.high


def drawn(odds, dice):
    """One outcome of a bill, drawn straight from its tree."""
    if isinstance(odds, Spread):
        least, peak, most = triangle(odds)
        return dice.triangular(least, most, peak) if most > least else peak
    if isinstance(odds, AllOf):
        return sum(drawn(part, dice) for part in odds.parts)
    left = dice.random()
    for chance, part in odds.branches:
        left -= chance
        if left < 0:
            return drawn(part, dice)
    return drawn(odds.branches[-1][1], dice)


@pytest.mark.long
def test_the_deciles_of_a_bill_hold_in_a_million_draws(ranked):
    """An engine that may be bad, and a machine with its leftovers."""
    ads = "Hestrel H52D engine\n$2,000\nBarre, VT\n\n----\n\nVarnhollow BH3 backhoe, runs\n$4,000\nRutland, VT\n"
    entries = ranked(ads).entries
    assert len(entries) == 2
    for entry in entries:
        dice, found = random.Random(21), what_to_expect(entry.bill.odds)  # noqa: S311 - the same draws every time
        outcomes = [drawn(entry.bill.odds, dice) for _ in range(1_000_000)]
        shares = [sum(one <= at for one in outcomes) / len(outcomes) for at in found[1:]]
        assert shares == pytest.approx((0.1, 0.5, 0.9), abs=0.005)
        assert sum(outcomes) / len(outcomes) == pytest.approx(entry.bill.mean_cents, rel=0.003)


@pytest.mark.parametrize("said", ["engine is gone", "engine sold", "engine is bad"])
def test_what_is_not_there_or_no_good_is_not_sold_as_left_over(ranked, said):
    whole = only(ranked("Dunmarrow RL90 loader for parts\n$3,000\nBarre, VT\n", seat="pump"))
    less = only(ranked(f"Dunmarrow RL90 loader for parts, {said}\n$3,000\nBarre, VT\n", seat="pump"))
    (credit, smaller) = (next(line for line in one.bill.lines if line.label == LEFTOVERS).amount for one in (whole, less))
    assert credit.likely < smaller.likely < 0
