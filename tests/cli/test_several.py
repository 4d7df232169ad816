import json

import pytest

PIT_LOADER = "jobs/pit-loader"


@pytest.fixture
def found(run, shop):
    return json.loads(run("rank", shop / PIT_LOADER, "--json", code=0).out)


def test_whole_loaders_of_the_same_model_cure_engine_and_pump(found):
    loaders = {ad["ad"]: ad["title"] for ad in found["seats"][0]["ranked"] if "RL90" in ad["title"].replace("-", "")}
    both = {cure["ad"] for cure in found["together"]["several"] if cure["seats"] == ["engine", "pump"]}
    served = [{ad["ad"] for ad in seat["ranked"]} for seat in found["seats"]]
    assert len(loaders.keys() & both) >= 2
    assert both == served[0] & served[1]


def test_price_and_haul_stand_once_and_the_total_is_below_the_single_ones(found):
    expected = [{ad["ad"]: ad["bill"]["expected"] for ad in seat["ranked"]} for seat in found["seats"]]
    for cure in found["together"]["several"]:
        labels = [line["label"] for line in cure["bill"]["lines"]]
        assert labels.count("price") == labels.count("haul") == 1
        assert cure["bill"]["expected"] < sum(each[cure["ad"]] for each in expected)


def test_the_cheapest_way_is_no_dearer_than_any_other_shown(found):
    way = found["together"]
    assert way["expected"] == pytest.approx(sum(cure["bill"]["expected"] for cure in way["cures"]), abs=0.02)
    assert way["expected"] <= min(cure["bill"]["expected"] for cure in way["several"])
    assert way["expected"] <= way["apart_expected"]
    assert [seat for cure in way["cures"] for seat in cure["seats"]] == ["engine", "pump"]
    assert way["uncovered"] == way["not_known"] == []


@pytest.mark.parametrize("arguments", [[PIT_LOADER, "--unit", "pump"], ["jobs/hill-tractor"]], ids=["one asked for", "one dead"])
def test_one_unit_has_nothing_together(run, shop, arguments):
    ran = run("rank", shop / arguments[0], *arguments[1:], "--json", code=0)
    assert json.loads(ran.out)["together"] is None
    assert "All of it together" not in run("rank", shop / arguments[0], *arguments[1:], code=0).out


@pytest.mark.parametrize("columns", ["60", "110"], ids=["narrow", "wide"])
def test_the_machine_that_beats_one_for_each_says_by_how_much(run, shop, monkeypatch, columns):
    monkeypatch.setenv("COLUMNS", columns)
    paste = b"Dunmarrow RL90 loader, runs and drives\n$5,000\nRutland, VT\n"
    shown = run("rank", shop / PIT_LOADER, "-", stdin=paste, code=0).out
    assert "All of it together" in shown
    assert "engine, pump" in shown
    assert "price and haul counted for each" in " ".join(shown.split())


def test_a_unit_without_an_ad_is_named(run, shop):
    shown = run("rank", shop / PIT_LOADER, "-", stdin=b"Lissander L20 pump\n$400\nRutland, VT\n", code=0).out
    assert "No ad for: engine." in shown


def test_fit_of_a_machine_tells_the_joint_total(run, shop, found):
    cure = found["together"]["several"][0]
    shown = run("fit", shop / PIT_LOADER, cure["ad"], code=0).out
    assert f"For engine and pump together: ${cure['bill']['expected']:,.0f} expected" in shown
    assert json.loads(run("fit", shop / PIT_LOADER, cure["ad"], "--json", code=0).out)["together"] == cure
    assert "together:" not in run("fit", shop / PIT_LOADER, cure["ad"], "--unit", "pump", code=0).out


def test_money_spent_before_changes_no_figure(run, own_shop, found):
    job = own_shop / PIT_LOADER / "job.yaml"
    machine = found["together"]["several"][0]["ad"]
    text = job.read_text(encoding="utf-8")
    assert "spent: $1,900\n" in text

    def answers():
        ranked = json.loads(run("rank", own_shop / PIT_LOADER, "--json", code=0).out)
        return ranked.pop("spent"), ranked, run("fit", own_shop / PIT_LOADER, machine, "--json", code=0).out

    spent, *before = answers()
    job.write_text(text.replace("spent: $1,900\n", ""), encoding="utf-8")
    without, *after = answers()
    assert (spent, without) == ("$1,900", None)
    assert before == after
