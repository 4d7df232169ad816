import json

import pytest

PIT_LOADER = "jobs/pit-loader"
WAY_KEYS = {
    "id", "sort", "title", "seats", "why", "cash_now", "hours", "days", "chance", "cost", "net", "not_known",
}  # fmt: skip


@pytest.fixture
def found(run, shop):
    return json.loads(run("ways", shop / PIT_LOADER, "--json", code=0).out)


def test_the_keys_are_these(found):
    assert found.keys() == {"job", "spent", "by_net", "proof", "ways", "break_even"}
    for way in found["ways"]:
        assert way.keys() == WAY_KEYS
        assert all(way[name] is None or way[name].keys() == {"expected", "p10", "p50", "p90"} for name in ("cost", "net"))
    assert all(one.keys() == {"seat", "proof", "to_do"} for one in found["proof"])
    assert all(one.keys() == {"way", "what", "best", "level", "taken", "words"} for one in found["break_even"])


def test_every_sort_of_way_is_weighed(found):
    sorts = {way["sort"] for way in found["ways"]}
    machine = {"part_out", "sell", "wait"}
    ads = {"used_same", "used_other", "donor", "several"}
    assert sorts >= {"short_block", "long_block", "on_hand", "two_into_one"} | ads | machine


def test_one_in_ten_is_worse_than_the_mean(found):
    for way in found["ways"]:
        if way["net"]:
            assert way["net"]["p10"] < way["net"]["expected"]


def test_what_would_prove_it_dead_is_to_do_where_nothing_does(run, own_shop):
    path = own_shop / PIT_LOADER / "job.yaml"
    lines = path.read_text(encoding="utf-8").splitlines()
    path.write_text("\n".join(line for line in lines if "proof:" not in line) + "\n", encoding="utf-8")
    shown = run("ways", own_shop / PIT_LOADER, code=0).out
    assert "First: is the engine dead?" in shown
    assert "starter off, crank turned by a bar both ways: rules out a starter jammed" in shown
    result = json.loads(run("ways", own_shop / PIT_LOADER, "--json", code=0).out)
    assert all(one["proof"] is None and one["to_do"] for one in result["proof"])


def test_a_job_without_ads_or_worth_is_compared_on_cost(run, own_shop):
    job = own_shop / PIT_LOADER
    for path in (job / "ads").iterdir():
        path.unlink()
    path = job / "job.yaml"
    lines = path.read_text(encoding="utf-8").splitlines()
    path.write_text("\n".join(line for line in lines if not line.startswith("worth:")) + "\n", encoding="utf-8")
    shown = run("ways", job, code=0).out
    assert "No ads are weighed: the job has none yet." in shown
    assert "Nets are not known" in shown
    assert "used_same" not in shown


@pytest.mark.parametrize(
    ("file", "old", "new", "words"),
    [
        pytest.param("home.yaml", "machine: dunmarrow-rl90", "machine: dunmarow-rl90", "'dunmarrow-rl90'?", id="machine"),
        pytest.param(f"{PIT_LOADER}/job.yaml", "used_by: [overhaul,", "used_by: [overhal,", "did you mean 'overhaul'?", id="way"),
        pytest.param(f"{PIT_LOADER}/job.yaml", "as_is:", "as_it_is:", "there is no 'as_it_is' here", id="key"),
    ],
)
def test_a_name_that_is_not_there_is_told(run, own_shop, file, old, new, words):
    path = own_shop / file
    text = path.read_text(encoding="utf-8")
    assert old in text
    path.write_text(text.replace(old, new), encoding="utf-8")
    ran = run("ways", own_shop / PIT_LOADER, code=2)
    assert words in ran.err


def test_a_narrow_terminal_is_kept_to(run, shop, monkeypatch):
    monkeypatch.setenv("COLUMNS", "50")
    shown = run("ways", shop / PIT_LOADER, code=0).out
    assert max(len(line.rstrip()) for line in shown.splitlines()) <= 50


def test_an_ad_is_weighed_against_ways_without_one(run, shop):
    ranked = json.loads(run("rank", shop / "jobs/hill-tractor", "--json", code=0).out)["seats"][0]["ranked"]
    ways = json.loads(run("ways", shop / "jobs/hill-tractor", "--json", code=0).out)["ways"]
    costs = {way["id"]: way["cost"]["expected"] for way in ways if way["cost"] and not way["not_known"]}
    weighed = {one["walk_away"]["instead"] for one in ranked if one["walk_away"]}
    assert min(costs, key=costs.get) in weighed


SIBLING = """title: "Second loader"
machine: dunmarrow-rl90
dead:
  pump: {unit: lissander-l20, broke: "no pressure"}
worth: {as_is: "$900"}
"""


def test_the_machine_of_another_job_stands_by_and_a_change_in_it_is_seen(run, own_shop):
    other = own_shop / "jobs/second-loader"
    first = json.loads(run("rank", own_shop / PIT_LOADER, "--json", code=0).out)
    other.mkdir()
    (other / "job.yaml").write_text(SIBLING, encoding="utf-8")
    ways = {way["id"]: way for way in json.loads(run("ways", own_shop / PIT_LOADER, "--json", code=0).out)["ways"]}
    assert ways["job: second-loader"]["seats"] == ["engine"]  # its pump is dead
    assert ways["job: second-loader"]["cash_now"] > 900

    def most(result):
        return result["seats"][0]["ranked"][0]["walk_away"]["most"]

    cheap = json.loads(run("rank", own_shop / PIT_LOADER, "--json", code=0).out)
    (other / "job.yaml").write_text(SIBLING.replace("$900", "$2,900"), encoding="utf-8")
    dear = json.loads(run("rank", own_shop / PIT_LOADER, "--json", code=0).out)
    assert cheap["seats"][0]["ranked"][0]["walk_away"]["instead"] == "job: second-loader"
    assert most(cheap) < most(dear) <= most(first)


def test_a_job_beside_it_with_faults_is_passed_over(run, own_shop):
    other = own_shop / "jobs/broken"
    other.mkdir()
    (other / "job.yaml").write_text("title: [", encoding="utf-8")
    run("ways", own_shop / PIT_LOADER, code=0)
