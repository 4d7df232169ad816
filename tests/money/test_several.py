"""Several dead units: joint bills worked by hand, the cheapest way against every assignment there is, and ads of our own."""

import dataclasses
from itertools import combinations, product
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from interchange.ads.pasted import ads_in
from interchange.ads.reads import ad_words, matched
from interchange.ads.shelf import read_new
from interchange.catalog.figure import Figure
from interchange.catalog.folders import search_path
from interchange.catalog.model import Kind
from interchange.fit.case import Case, Chance
from interchange.fit.donors import best_donors
from interchange.fit.finding import BOLTS_UP
from interchange.fit.report import Plan
from interchange.fit.setting import Setting
from interchange.haul.atlas import atlas
from interchange.job.home import read_home
from interchange.job.job import read_job
from interchange.money.bill import HAUL, PRICE, Bill, Line, Outcome, bill
from interchange.money.fetch import Fetcher
from interchange.money.rank import rank
from interchange.money.several import Cure, cheapest, joint_bill, together
from interchange.quantity import read_quantity
from interchange.spread import Spread, exactly
from interchange.store.cache import up_to_date
from interchange.store.library import Library

DEMO = Path(__file__).parents[2] / "catalog" / "demo"
CASE = Case(
    kind=Kind(title="pump", slots={}, seat={}), seat={}, own={}, usable=frozenset(),
    pattern=lambda _: None, shaft=lambda _: None,
    own_hour_cents=4000, hold_day_cents=1000, lost_try_cents=80_000,
)  # fmt: skip
UNKNOWN_HOURS = "hours to take one out and put one in"


def hours(text):
    return Figure(quantity=read_quantity(text, "hours"))


def plan_of(chance=1.0):
    return Plan("donor", BOLTS_UP, None, (), {}, (), (), 0.0, 0.0, 0.0, Chance(chance, ""), (), (), (), (), ())


def bills_of(price, haul, units=2, swap="10 h"):
    """An engine that may not be good (0.6 that it is) and a pump that may not go in (0.75 that it does)."""
    return {
        "engine": bill([Outcome(1.0, plan_of())], CASE, price, haul, hours(swap) if swap else None, 0.6, "", units),
        "pump": bill([Outcome(1.0, plan_of(0.75))], CASE, price, haul, hours("5 h"), 1.0, "", units),
    }


PRICE_2000, HAUL_500 = Line(PRICE, exactly(200_000), "asked"), Line(HAUL, exactly(50_000), "own rig")


def test_a_joint_bill_by_hand():
    made = joint_bill(bills_of(PRICE_2000, HAUL_500))
    assert {line.label: line.amount.likely for line in made.lines} == pytest.approx(
        {
            "price": 200_000,
            "haul": 50_000,
            "engine: own hours": 10 * 4000,
            # half of 2,500, and 10 h at 40 for taking it out again, with a chance of 0.4
            "engine: it may not be good": 0.4 * (125_000 + 40_000),
            "pump: own hours": 5 * 4000,
            "pump: it may not go in": 0.25 * 125_000,
        }
    )
    assert made.mean_cents == pytest.approx(407_250)  # 2,000 + 500 + 400 + 660 + 200 + 312.50
    singles = bills_of(PRICE_2000, HAUL_500, units=1)
    assert singles["engine"].mean_cents == pytest.approx(406_000)  # 2,500 + 400 + 0.4 * 2,900
    assert singles["pump"].mean_cents == pytest.approx(332_500)  # 2,500 + 200 + 0.25 * 2,500


def test_price_and_haul_are_at_risk_once_in_all():
    lost = bill([Outcome(1.0, plan_of(0.0))], CASE, PRICE_2000, HAUL_500, hours("5 h"), 1.0, "", 3)
    assert 3 * lost.line("it may not go in").amount.likely == pytest.approx(250_000)


def test_one_unit_alone_keeps_its_bill():
    single = bills_of(PRICE_2000, HAUL_500, units=1)["pump"]
    assert joint_bill({"pump": single}) is single


def test_what_is_not_known_is_named_once_or_with_its_unit():
    made = joint_bill(bills_of(None, HAUL_500, swap=None))
    assert made.unknown == ("price", f"engine: {UNKNOWN_HOURS}")
    assert [line.label for line in made.lines].count("haul") == 1


amounts = st.integers(0, 3_000_000)
spreads = st.tuples(amounts, amounts, amounts).map(lambda three: Spread(*map(float, sorted(three))))
chances = st.floats(0, 1)


@given(st.none() | spreads, st.none() | spreads, st.lists(st.tuples(chances, chances), min_size=2, max_size=4))
def test_a_joint_total_is_never_above_the_single_bills_together(price, haul, units):
    lines = [None if amount is None else Line(label, amount, "") for label, amount in ((PRICE, price), (HAUL, haul))]

    def each(among):
        return {
            f"seat {place}": bill([Outcome(1.0, plan_of(goes_in))], CASE, *lines, hours("5-12 h"), good, "", among)
            for place, (goes_in, good) in enumerate(units)
        }

    joint = joint_bill(each(len(units)))
    apart = sum(single.mean_cents for single in each(1).values())
    assert joint.mean_cents <= apart * (1 + 1e-9) + 1e-3
    labels = [line.label for line in joint.lines]
    assert (labels.count(PRICE), labels.count(HAUL)) == (price is not None, haul is not None)
    assert not [label for label in labels if label.endswith((f": {PRICE}", f": {HAUL}"))]


def cure(ad, seats, cents, unknown=()):
    return Cure(ad, ad, tuple(seats), Bill((Line("all", exactly(cents), ""),), tuple(unknown)))


def taken(cures):
    return [(one.ad, one.seats) for one in cures]


ENGINE, PUMP, BOTH = ("engine",), ("pump",), ("engine", "pump")


@pytest.mark.parametrize(
    ("cures", "expected"),
    [
        pytest.param(
            [cure("a", ENGINE, 700), cure("b", PUMP, 200), cure("m", ENGINE, 900), cure("m", PUMP, 600), cure("m", BOTH, 950)],
            [("a", ENGINE), ("b", PUMP)], id="one for each is cheaper",
        ),
        pytest.param(
            [cure("a", ENGINE, 700), cure("b", PUMP, 200), cure("m", ENGINE, 800), cure("m", PUMP, 600), cure("m", BOTH, 850)],
            [("m", BOTH)], id="the machine is cheaper",
        ),
        pytest.param(
            [cure("a", ENGINE, 700), *(cure("m", seats, 10, ["price"]) for seats in (ENGINE, PUMP, BOTH))],
            [("a", ENGINE), ("m", PUMP)], id="price not known: only where there is nothing else",
        ),
        pytest.param(
            [cure("a", ENGINE, 700), cure("b", PUMP, 900), cure("m", PUMP, 10, ["haul"])],
            [("a", ENGINE), ("b", PUMP)], id="haul not known: the dear one that is known",
        ),
        pytest.param(
            [cure("a", ENGINE, 700, [UNKNOWN_HOURS]), cure("b", ENGINE, 900, [UNKNOWN_HOURS])],
            [("a", ENGINE)], id="hours that no ad tells count against none; the pump has no ad",
        ),
        pytest.param(
            [cure("one", ENGINE, 100), cure("one", PUMP, 100), cure("two", ENGINE, 900)],
            [("two", ENGINE), ("one", PUMP)], id="an ad that cannot serve both is taken once",
        ),
        pytest.param([cure("one", ENGINE, 100), cure("one", PUMP, 90)], [("one", PUMP)], id="only one of the two can be cured"),
        pytest.param([], [], id="no ads"),
    ],
)  # fmt: skip
def test_the_cheapest_way(cures, expected):
    assert taken(cheapest(cures, BOTH)) == expected


def weight(cures, seats):
    """Seats left, seats by an ad of unknown price or haul, total."""
    left = len(seats) - sum(len(one.seats) for one in cures)
    return left, sum(len(one.seats) for one in cures if not one.priced), sum(one.bill.mean_cents for one in cures)


def by_brute_force(cures, seats):
    """The best weight over every assignment of an ad, or none, to each seat."""
    options = {(one.ad, one.seats): one for one in cures}
    ads = sorted({one.ad for one in cures})
    found = []
    for assigned in product([None, *ads], repeat=len(seats)):
        sets = {ad: tuple(seat for seat, by in zip(seats, assigned, strict=True) if by == ad) for ad in assigned if ad}
        if all(item in options for item in sets.items()):
            found.append(weight([options[item] for item in sets.items()], seats))
    return min(found)


@st.composite
def offered(draw):
    """A few seats, and ads for some sets of them at whole cents; a few of unknown price."""
    seats = tuple("abcd"[: draw(st.integers(1, 4))])
    cures = []
    for ad in range(draw(st.integers(0, 4))):
        sets = [taken for size in range(1, len(seats) + 1) for taken in combinations(seats, size)]
        for chosen in draw(st.lists(st.sampled_from(sets), unique=True, max_size=6)):
            unknown = draw(st.sampled_from([(), (), (), ("price",), (UNKNOWN_HOURS,)]))
            cures.append(cure(f"ad {ad}", chosen, draw(st.integers(0, 50)), unknown))
    return seats, cures


@given(offered())
def test_the_cheapest_way_is_that_of_all_assignments(case):
    seats, cures = case
    chosen = cheapest(cures, seats)
    assert weight(chosen, seats) == by_brute_force(cures, seats)
    assert len({one.ad for one in chosen}) == len(chosen)
    cured = [seat for one in chosen for seat in one.seats]
    assert len(set(cured)) == len(cured)


@pytest.fixture(scope="module")
def demo(tmp_path_factory):
    """The demo's home and catalog; a job may be given other dead units."""
    with pytest.MonkeyPatch.context() as patch:
        patch.setenv("INTERCHANGE_CACHE", str(tmp_path_factory.mktemp("cache")))
        home = read_home(DEMO / "home.yaml")
        connection, _ = up_to_date(search_path(home.catalog_folders))
        yield Library(connection), home


def rankings_of(demo, text, change=lambda job: job, by="total"):
    library, home = demo
    job, node = read_job(DEMO / "jobs" / "pit-loader")
    setting = Setting(library, change(job), node, home)
    words = ad_words(library)
    reads = matched(library, read_new(ads_in(text, "test"), words))
    fetcher = Fetcher(setting, atlas())
    rankings = [rank(setting, setting.seat(seat), reads, fetcher, words, by) for seat in setting.job.dead]
    return rankings, lambda read, units: fetcher.fetch(read, *units).line


MACHINE = "Dunmarrow RL90 loader, runs and drives\n$5,000\nRutland, VT\n"
PAIR = "Hestrel H52D loader engine and Lissander L20 pump, both for $2,400\nRuns good.\nRutland, VT\n"


def test_a_whole_machine_cures_both_with_price_and_haul_once(demo):
    found = together(*rankings_of(demo, MACHINE))
    (only,) = found.cures
    assert only.seats == ("engine", "pump")
    assert found.several == (only,)
    assert [line.label for line in only.bill.lines if line.label in (PRICE, HAUL)] == [PRICE, HAUL]
    assert found.apart_cents - found.mean_cents > only.bill.line(PRICE).amount.low
    assert found.unknown == ()


def test_engine_and_pump_of_one_ad_travel_on_one_pallet(demo):
    rankings, hauling = rankings_of(demo, PAIR)
    (engine,), (pump,) = (ranking.entries for ranking in rankings)
    (only,) = together(rankings, hauling).cures
    haul = only.bill.line(HAUL).amount.likely
    assert only.seats == ("engine", "pump")
    assert haul <= engine.fetch.line.amount.likely + pump.fetch.line.amount.likely
    assert haul >= max(engine.fetch.line.amount.likely, pump.fetch.line.amount.likely)


@pytest.mark.parametrize("at_once", [None, Line(HAUL, exactly(9e9), "a truck")], ids=["not allowed at once", "dearer at once"])
def test_loose_units_are_fetched_one_by_one_where_that_is_cheaper(demo, at_once):
    rankings, _ = rankings_of(demo, PAIR)
    (engine,), (pump,) = (ranking.entries for ranking in rankings)
    (only,) = together(rankings, lambda _read, _units: at_once).several
    assert only.bill.line(HAUL).amount == engine.fetch.line.amount.plus(pump.fetch.line.amount)


def test_a_price_for_each_is_paid_for_each(demo):
    priced = [together(*rankings_of(demo, PAIR.replace("both for $2,400", words))).cures for words in ("$800 each", "$800")]
    each, once = [only.bill.line(PRICE).amount.likely for (only,) in priced]
    assert each == pytest.approx(2 * once)


@pytest.mark.parametrize(
    ("title", "serves"),
    [
        pytest.param("Lissander L20 pump with Hestrel H52D engine", {"engine", "pump"}, id="with"),
        pytest.param("Hestrel H52D engine + Lissander L20 pump", {"engine", "pump"}, id="plus sign"),
        pytest.param("Lissander L20 pump off a Hestrel H52D engine", {"pump"}, id="off"),
        pytest.param("Hestrel H52D engine without Lissander L20 pump", {"engine"}, id="without"),
        pytest.param("Lissander L20 pump and coupler for Hestrel H52D engine", {"pump"}, id="and, but for"),
    ],
)
def test_what_a_title_sells_along(demo, title, serves):
    rankings, _ = rankings_of(demo, f"{title}\n$900\nRutland, VT\n")
    assert {ranking.seat.name for ranking in rankings if ranking.entries} == serves


def test_an_ad_for_one_pump_cures_one_of_two_dead_pumps(demo):
    """Two rankings for pumps: a loose pump serves one of them; a machine with one pump seat, too."""
    for text in ("Lissander L20 pump\n$400\nRutland, VT\n", MACHINE):
        rankings, hauling = rankings_of(demo, text)
        (pump,) = [ranking for ranking in rankings if ranking.seat.name == "pump"]
        setting = pump.seat.setting
        second = type(pump.seat)(setting, "steering pump", pump.seat.dead, pump.seat.seat, setting.record)
        found = together([pump, pump._replace(seat=second)], hauling)
        assert found.several == ()
        assert [one.seats for one in found.cures] == [("pump",)]
        assert found.uncovered == ("steering pump",)


def test_what_no_ad_goes_in_for_is_named_and_the_rest_solved(demo):
    found = together(*rankings_of(demo, "Lissander L20 pump\n$400\nRutland, VT\n"))
    assert [one.seats for one in found.cures] == [("pump",)]
    assert found.uncovered == ("engine",)


def test_what_is_not_in_the_total_is_told_by_ad(demo):
    rankings, hauling = rankings_of(demo, MACHINE.replace("$5,000", "call for price"))
    found = together(rankings, hauling)
    (only,) = found.cures
    assert found.unknown == (f"{only.ad}: price",)


def test_the_order_of_the_tables_changes_nothing(demo):
    text = MACHINE + "\n----\n\n" + PAIR + "\n----\n\nLissander L20 pump\n$400\nRutland, VT\n"
    assert together(*rankings_of(demo, text, by="total")) == together(*rankings_of(demo, text, by="fit"))


def money(cents):
    return Figure(quantity=read_quantity(f"${cents / 100:.2f}", "money"))


@settings(max_examples=12, deadline=None)
@given(st.none() | st.integers(0, 100_000_000))
def test_money_already_spent_changes_no_plan_bill_or_way(demo, cents):
    def change(job):
        return dataclasses.replace(job, spent=None if cents is None else money(cents))

    def weighed(rankings, hauling):
        entries = [[(one.read.ad.id, one.outcomes, one.goes_in, one.bill) for one in each.entries] for each in rankings]
        return entries, together(rankings, hauling)

    text = MACHINE + "\n----\n\n" + PAIR
    assert weighed(*rankings_of(demo, text, change)) == weighed(*rankings_of(demo, text))


@settings(max_examples=6, deadline=None)
@given(st.none() | st.integers(0, 100_000_000))
def test_money_already_spent_changes_no_list_of_donors(demo, cents):
    library, home = demo
    job, node = read_job(DEMO / "jobs" / "pit-loader")

    def listed(spent):
        setting = Setting(library, dataclasses.replace(job, spent=spent), node, home)
        return {seat: best_donors(setting.seat(seat), 5) for seat in job.dead}

    assert listed(None if cents is None else money(cents)) == listed(job.spent)


@settings(max_examples=8, deadline=None)
@given(st.integers(0, 5_000))
def test_an_engine_that_turns_the_wrong_way_is_stopped_whatever_it_is_asked_for(demo, dollars):
    text = f"Kestavik K438 power unit, runs good\n${dollars}\nBarre, VT\n\n----\n\n{PAIR}"
    engine, pump = rankings_of(demo, text)[0]
    (wrong,) = engine.stopped
    assert wrong.candidate.form.unit == "kestavik-k438"
    assert [one.name for one in wrong.likeliest.plan.stopped_by] == ["rotation"]
    assert [entry.candidate.form.unit for entry in engine.entries] == ["hestrel-h52d"]
    assert [entry.candidate.form.unit for entry in pump.entries] == ["lissander-l20"]
