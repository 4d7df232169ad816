"""Whole commands with an altitude, and with what broke."""

import json

import pytest


def dimension(ran, name):
    (made,) = json.loads(ran.out)["fits"]
    return next(one for one in made["dimensions"] if one["name"] == name)


def test_fit_at_a_height(run, shop):
    job = shop / "jobs/hill-tractor"
    at_sea = dimension(run("fit", job, "brackmoor-b440e.early-crank", "--json", code=0), "power")
    assert at_sea["reason"] == "62 hp @ 2100 rpm against 66 hp @ 2100 rpm (-6%)"
    high = dimension(run("fit", job, "brackmoor-b440e.early-crank", "--altitude", "5,200 ft", "--json", code=0), "power")
    assert high["give"] == "53.3 hp at 5,200 ft (of 62 hp @ 2100 rpm)"
    assert high["need"] == "56.7 hp at 5,200 ft (of 66 hp @ 2100 rpm)"
    assert high["verdict"] == at_sea["verdict"]  # both lose alike


def test_height_speaks_for_a_turbo(run, shop):
    """A turbocharged donor loses less than the natural engine it replaces."""
    job = shop / "jobs/hill-tractor"
    reasons = [
        dimension(run("fit", job, "kestavik-k425", "--altitude", height, "--json", code=0), "power")["reason"]
        for height in ("0 ft", "9,000 ft")
    ]
    low, high = (int(reason.rpartition("(")[2].partition("%")[0]) for reason in reasons)
    assert high > low > 0


def test_altitude_of_home_and_of_the_command(run, own_shop):
    job = own_shop / "jobs/hill-tractor"
    assert json.loads(run("rank", job, "--json", code=0).out)["altitude"] is None
    home = own_shop / "home.yaml"
    home.write_text(home.read_text(encoding="utf-8") + "altitude: 5,200 ft\n", encoding="utf-8")
    assert json.loads(run("rank", job, "--json", code=0).out)["altitude"] == "5,200 ft"
    assert json.loads(run("rank", job, "--altitude", "1000 ft", "--json", code=0).out)["altitude"] == "1000 ft"
    assert json.loads(run("rank", job, "--json", code=0).out)["altitude"] == "5,200 ft"
    assert "Ratings are compared as they are at 5,200 ft." in run("rank", job, code=0).out


def test_altitude_nought_changes_nothing(run, shop):
    job = shop / "jobs/hill-tractor"
    plain, nought = (json.loads(run("rank", job, "--json", *more, code=0).out) for more in ((), ("--altitude", "0 ft")))
    assert {**nought, "altitude": None} == plain


@pytest.mark.parametrize("height", ["5200", "52,000 ft", "up there"])
def test_no_height(run, shop, height):
    ran = run("rank", shop / "jobs/hill-tractor", "--altitude", height, code=2)
    assert ran.err.startswith("interchange: ")
    assert "(" in ran.err


def test_a_home_too_high(run, own_shop):
    home = own_shop / "home.yaml"
    home.write_text(home.read_text(encoding="utf-8") + "altitude: 52,000 ft\n", encoding="utf-8")
    line = home.read_text(encoding="utf-8").count("\n")
    ran = run("rank", own_shop / "jobs/hill-tractor", code=2)
    assert f"home.yaml:{line}:11: altitude: no machine works at 52,000 ft" in ran.err


def rewritten(shop, old, new):
    job = shop / "jobs/hill-tractor"
    path = job / "job.yaml"
    text = path.read_text(encoding="utf-8")
    assert old in text
    path.write_text(text.replace(old, new), encoding="utf-8")
    return job


USABLE = "    usable: [housing, flywheel, clutch, starter, nose, fuel, sump, front, manifolds, cooling, electrics]\n"


def test_usable_left_out_is_taken_and_said(run, own_shop):
    job = rewritten(own_shop, USABLE, "")
    for command in (("rank", job), ("rank", job), ("fit", job, "kestavik-k425")):  # the second from memory
        ran = run(*command, code=0)
        assert "job.yaml:5:3: usable is left out: taken, not told, from spun bearing: clutch, cooling" in ran.err
        assert "[usable-taken]" in ran.err
    assert json.loads(run("rank", job, "--json", code=0).out)["job_problems"][0].endswith("[usable-taken]")


def test_usable_left_out_with_nothing_to_go_by_is_said_too(run, own_shop):
    job = rewritten(own_shop, USABLE, "")
    rewritten(own_shop, "spun bearing on number 2, crank blue and rod bent", "it just stopped")
    ran = run("fit", job, "kestavik-k425", "--json", code=0)
    assert "job.yaml:5:3: usable is left out, and what broke is not known to this kind: nothing of it is counted on" in ran.err
    assert "own" not in json.loads(ran.out)["fits"][0]["suppliers"].values()


def test_what_is_spoilt_is_warned_of_and_counted_on(run, own_shop):
    job = rewritten(own_shop, "    usable: [", "    failure: injection-pump\n    usable: [")
    told = run("fit", job, "kestavik-k425", code=0)
    assert "job.yaml:9:56: fuel is said to be usable, and a dead injection pump mostly spoils it" in told.err
    rewritten(own_shop, "    proof:", "    usable_anyway: [fuel]\n    proof:")
    anyway = run("fit", job, "kestavik-k425", code=0)
    assert anyway.err == ""
    assert anyway.out == told.out


def test_what_is_in_doubt_is_to_be_checked_first(run, shop):
    (made,) = json.loads(run("fit", shop / "jobs/pit-loader", "tolvane-t412.plain", "--json", code=0).out)["fits"]
    assert {"housing", "flywheel", "nose"} <= {slot for slot, by in made["suppliers"].items() if by == "own"}
    flywheel, nose = (next(kept for kept in made["keep"] if kept.startswith(part)) for part in ("flywheel or", "crank hub"))
    assert "check for cracks and metal first: still good in 80% after a thrown rod, a judgement" in flywheel
    assert "check" not in nose


@pytest.mark.parametrize(
    ("new", "fault"),
    [
        pytest.param(
            "    failure: siezed\n", "engine has no failure called 'siezed' (did you mean 'seized'?)", id="no such failure"
        ),
        pytest.param("    usable_anyway: [fule]\n", "engine has no slot called 'fule' (did you mean 'fuel'?)", id="no such slot"),
    ],
)
def test_names_the_kind_does_not_have(run, own_shop, new, fault):
    job = rewritten(own_shop, "    proof:", new + "    proof:")
    assert fault in run("rank", job, code=2).err
