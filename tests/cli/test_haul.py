import json

import duckdb
import pytest

from interchange.haul.place_text import town_key
from interchange.haul.world import CountryRow, TownRow, load_world

PIT_LOADER = "jobs/pit-loader"
RANGE = {"low", "likely", "high"}


@pytest.fixture
def hauled(run, own_shop):
    def haul(*arguments):
        return json.loads(run("haul", own_shop / PIT_LOADER, *arguments, "--json", code=0).out)

    return haul


def ways(result):
    return {way["mode"]: way for way in result["ways"]}


def test_the_keys_are_these(hauled):
    result = hauled("Rutland, VT", "--size", "48 x 40 x 42 in")
    assert result.keys() == {
        "job", "what", "weight_lb", "size_in", "home", "place", "road", "warnings", "cheapest", "if_checked", "rig_carries_lb",
        "ways",
    }  # fmt: skip
    assert result["road"].keys() == {"miles", "how"}
    for way in result["ways"]:
        assert way.keys() == {"mode", "allowed", "why", "cost", "hours", "days", "lines", "limits", "cautions"}
        assert way["cost"].keys() == way["hours"].keys() == way["days"].keys() == RANGE
        assert all(line.keys() == {"label", "cost", "origin"} and line["origin"] for line in way["lines"])
        assert all(limit.keys() == {"name", "rating_lb", "load_lb", "holds", "note", "mend"} for limit in way["limits"])


def test_a_unit_like_the_dead_one_is_fetched_where_nothing_is_said(hauled):
    result = hauled("Rutland, VT")
    assert result["what"] == "Hestrel H52D"
    assert result["weight_lb"] == pytest.approx(1080 + 60)
    assert hauled("Rutland, VT", "--unit", "pump")["what"] != result["what"]


def test_ways_come_cheapest_first_and_cost_the_sum_of_their_lines(hauled):
    result = hauled("Columbus, OH", "--size", "48 x 40 x 42 in", "--seller", "dock")
    costs = [way["cost"]["likely"] for way in result["ways"]]
    assert costs == sorted(costs)
    for way in result["ways"]:
        for end in RANGE:
            assert way["cost"][end] == pytest.approx(sum(line["cost"][end] for line in way["lines"]), abs=0.05)
    allowed = [way["mode"] for way in result["ways"] if way["allowed"]]
    assert result["cheapest"] == allowed[0]


def test_a_machine_too_heavy_for_the_rig_is_hired(hauled):
    result = hauled("Rutland, VT", "--what", "dunmarrow-rl90")
    own = ways(result)["own rig"]
    assert own["allowed"] is False
    assert result["cheapest"] == "hired heavy haul"
    ball = next(limit for limit in own["limits"] if limit["name"] == "ball")
    assert ball["mend"] == "a 2-5/16 in ball rated 23,200 lb or more"
    assert ball["holds"] is False


@pytest.mark.parametrize(("weight", "holds"), [("10,600 lb", True), ("10,601 lb", False)])
def test_the_weight_given_stands_over_the_catalogs(hauled, weight, holds):
    own = ways(hauled("Rutland, VT", "--what", "dunmarrow-rl90", "--weight", weight))["own rig"]
    assert next(limit for limit in own["limits"] if limit["name"] == "trailer GVWR")["holds"] is holds


def test_what_the_rig_carries_is_where_its_limits_end(hauled):
    most = hauled("Rutland, VT")["rig_carries_lb"]
    for pounds, holds in ((most, True), (most + 1, False)):
        own = ways(hauled("Rutland, VT", "--weight", f"{pounds:.0f} lb"))["own rig"]
        assert all(limit["holds"] for limit in own["limits"]) is holds


def test_a_quote_stands_for_what_would_be_reckoned(hauled, own_shop):
    job = own_shop / PIT_LOADER / "job.yaml"
    quotes = (
        "quotes:\n"
        '  - {place: "05701", amount: $120, who: a carrier from the next town, date: 2026-05-02, mode: pallet freight}\n'
        '  - {place: "Columbus, OH", amount: $1}\n'
        '  - {place: "Rutland, VT", amount: $2, what: lissander-l20}\n'
    )
    job.write_text(job.read_text(encoding="utf-8") + quotes, encoding="utf-8")
    result = hauled("Rutland, VT")
    quote = ways(result)["quote"]
    assert result["cheapest"] == "quote"
    assert quote["cost"] == {"low": 120, "likely": 120, "high": 120}
    assert quote["lines"][0] == {
        "label": "pallet freight", "cost": quote["cost"], "origin": "quote: a carrier from the next town 2026-05-02",
    }  # fmt: skip
    assert ways(result)["pallet freight"]["allowed"] is False
    assert ways(result)["hired hot-shot"]["allowed"] is True
    assert ways(hauled("Columbus, OH"))["quote"]["cost"]["likely"] == 1
    assert "quote" not in ways(hauled("Montpelier, VT"))
    pump = [way["cost"]["likely"] for way in hauled("Rutland, VT", "--unit", "pump")["ways"] if way["mode"] == "quote"]
    assert sorted(pump) == [2, 120]


def test_a_quote_for_one_ad_counts_in_rank_for_that_ad_alone(run, own_shop):
    job = own_shop / PIT_LOADER
    first, second = b"Hestrel H52D loader engine\n$2,000", b"Hestrel H52D loader engine, runs\n$2,100"
    paste = b"%b\nMontpelier, VT\n\n-----\n\n%b\nMontpelier, VT\n" % (first, second)

    def ranked():
        made = json.loads(run("rank", job, "-", "--unit", "engine", "--json", stdin=paste, code=0).out)
        return {entry["ad"]: entry["haul"]["mode"] for entry in made["seats"][0]["ranked"]}

    before = ranked()
    assert len(before) == 2
    assert set(before.values()) == {"own rig"}
    one = next(iter(before))
    quote = f"quotes: [{{place: 'Montpelier, VT', amount: $1, what: {one}}}]\n"
    (job / "job.yaml").write_text((job / "job.yaml").read_text(encoding="utf-8") + quote, encoding="utf-8")
    after = ranked()
    assert after.pop(one) == "quote"
    assert set(after.values()) == {"own rig"}


def test_what_stands_at_home_is_in_the_home_file(hauled, own_shop):
    before = ways(hauled("Columbus, OH", "--seller", "dock"))["pallet freight"]
    assert any("what stands there is not known" in line["label"] for line in before["lines"])
    home = own_shop / "home.yaml"
    home.write_text(home.read_text(encoding="utf-8") + "at_home: dock\n", encoding="utf-8")
    after = ways(hauled("Columbus, OH", "--seller", "dock"))["pallet freight"]
    assert not any("what stands there" in line["label"] or "lift gate" in line["label"] for line in after["lines"])


def test_without_a_rig_nothing_is_own(hauled, own_shop):
    home = own_shop / "home.yaml"
    home.write_text(home.read_text(encoding="utf-8").partition("rig:")[0], encoding="utf-8")
    result = hauled("Rutland, VT")
    assert ways(result)["own rig"]["allowed"] is False
    assert result["rig_carries_lb"] is None
    assert result["cheapest"] == "hired hot-shot"


def test_a_town_of_several_states_is_the_nearest_with_a_warning(run, own_shop, hauled):
    result = hauled("Kansas City")
    assert result["place"].startswith("Kansas City, ")
    assert "the nearest of several" in result["warnings"][0]
    shown = run("haul", own_shop / PIT_LOADER, "Kansas City", code=0).out
    assert "Mind: Kansas City, " in shown


def test_about_and_the_band_are_always_said(run, own_shop):
    shown = run("haul", own_shop / PIT_LOADER, "Rutland, VT", code=0).out
    assert "About 57 miles by road, 51 to 68 (one haul in ten is shorter, one in ten longer)." in shown


def test_where_no_road_leads_nothing_is_priced(run, own_shop, hauled):
    result = hauled("Honolulu, HI")
    assert result["road"] is None
    assert result["cheapest"] is None
    assert all(way["cost"] is None for way in result["ways"])
    shown = run("haul", own_shop / PIT_LOADER, "Honolulu, HI", code=0).out
    assert "How far it is by road is not known." in shown
    assert "no road leads" in shown


@pytest.fixture
def abroad(monkeypatch):
    connection = duckdb.connect()
    town = TownRow(town_key("Sherbrooke"), "Sherbrooke", "QC", "CA", 45.40, -71.90)
    load_world(connection, [town], [CountryRow("canada", "CA", "Canada"), CountryRow("ca", "CA", "Canada")])
    monkeypatch.setattr("interchange.haul.hauler.world_atlas", lambda: connection)
    yield
    connection.close()


@pytest.mark.usefixtures("abroad")
def test_a_town_over_the_border(hauled):
    result = hauled("Sherbrooke, Quebec")
    assert result["place"] == "Sherbrooke, QC"
    assert 95 < result["road"]["miles"]["likely"] < 125
    assert "1.26 (Canada)" in result["road"]["how"]
    assert result["warnings"] == ["it lies over a border: customs, duty and papers are not reckoned"]


@pytest.mark.usefixtures("abroad")
def test_a_home_over_the_border(hauled, own_shop):
    home = own_shop / "home.yaml"
    home.write_text(home.read_text(encoding="utf-8").replace('"Barre, VT"', '"Sherbrooke, QC"'), encoding="utf-8")
    result = hauled("Barre, VT")
    assert result["home"] == "Sherbrooke, QC"
    assert 95 < result["road"]["miles"]["likely"] < 125
    assert result["cheapest"] is not None


def test_without_the_extra_it_is_said_what_is_wanted(run, shop, own_shop, monkeypatch):
    monkeypatch.setattr("interchange.haul.hauler.world_atlas", lambda: None)
    told = run("haul", shop / PIT_LOADER, "Sherbrooke, QC", code=2).err
    assert "'Sherbrooke, QC' is not a place known here" in told
    assert "need the extra called world: interchange guide haul" in told
    home = own_shop / "home.yaml"
    home.write_text(home.read_text(encoding="utf-8").replace('"Barre, VT"', '"Sherbrooke, QC"'), encoding="utf-8")
    ran = run("haul", own_shop / PIT_LOADER, "Barre, VT", code=2)
    assert "need the extra called world" in ran.err
    assert ran.err.count("\n") == 1


@pytest.mark.parametrize(
    ("arguments", "says"),
    [
        pytest.param(["Rutland, VT", "--what", "hestrel-h52"], "did you mean 'hestrel-h52", id="no such unit"),
        pytest.param(["Rutland, VT", "--what", "hestrel-h52d.loade"], "has no variant 'loade'", id="no such variant"),
        pytest.param(["Rutland, VT", "--weight", "heavy"], "weight 'heavy'", id="no weight"),
        pytest.param(["Rutland, VT", "--size", "48 x 40"], "does not have three sides", id="no size"),
        pytest.param(["Rutland, VT", "--seller", "beach"], "write one of: dock, terminal, street, house, farm", id="no such end"),
        pytest.param(["Rutland, VT", "--unit", "gearbox"], "no dead unit called 'gearbox'", id="not dead"),
    ],
)
def test_a_wrong_call_is_one_line(run, shop, arguments, says):
    ran = run("haul", shop / PIT_LOADER, *arguments, code=2)
    assert says in ran.err
    assert ran.err.count("\n") == 1
    assert ran.out == ""


def test_a_place_that_is_none_is_a_wrong_call(run, shop):
    told = run("haul", shop / PIT_LOADER, "Bare, VT", code=2).err
    assert "is not a place known here: Barre, VT?" in told
