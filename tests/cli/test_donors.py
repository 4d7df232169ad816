import json

import pytest

PIT_LOADER = "jobs/pit-loader"
PLAN_KEYS = {
    "donor", "verdict", "worst", "chance", "cost", "lead_days", "dimensions", "suppliers", "missing", "not_known_whether_needed",
    "doubtful", "do_not_order_before_known", "steps", "own_hours", "longest_wait", "for_it_to_go", "plates", "keep",
}  # fmt: skip


@pytest.fixture
def found(run, shop):
    return json.loads(run("donors", shop / PIT_LOADER, "--json", code=0).out)


def test_the_keys_are_these(found):
    assert found.keys() == {"seats", "shared"}
    for seat in found["seats"]:
        assert seat.keys() == {"seat", "forms", "ruled_out", "planned", "donors"}
        for donor in seat["donors"]:
            assert donor.keys() == PLAN_KEYS | {"unit", "variant", "share", "tell"}
    for machine in found["shared"]:
        assert machine.keys() == {"machine", "title", "donors", "cost"}
        assert all(each.keys() == {"seat", "donor"} for each in machine["donors"])


def test_a_plan_of_fit_has_the_same_keys(run, shop):
    (fit,) = json.loads(run("fit", shop / "jobs/hill-tractor", "brackmoor-b330.plain", "--json", code=0).out)["fits"]
    assert fit.keys() == PLAN_KEYS | {"seat"}
    (plate,) = fit["plates"]  # of a donor that is stopped by something else besides
    assert plate.keys() == {"joint", "title", "design", "depths", "least_mm", "why_not"}
    assert all(each.keys() == {"title", "mm_a_mm", "least_mm", "most_mm", "not_known"} for each in plate["depths"])
    assert (plate["least_mm"] is None) == bool(plate["why_not"])
    assert fit["own_hours"].keys() == {"low", "likely", "high"}
    assert fit["for_it_to_go"]


def test_a_stopped_fit_says_what_would_have_to_be(run, shop):
    (fit,) = json.loads(run("fit", shop / PIT_LOADER, "lissander-lv45", "--json", code=0).out)["fits"]
    assert fit["verdict"] == "stops"
    assert fit["for_it_to_go"] == ["rotation would have to be counter-clockwise", "system would have to be open centre"]
    shown = run("fit", shop / PIT_LOADER, "lissander-lv45", code=0).out
    assert "For it to go:\n  rotation would have to be counter-clockwise\n  system would have to be open centre\n" in shown


def test_every_dead_unit_has_its_donors_cheapest_first_and_none_that_stops(found):
    assert [seat["seat"] for seat in found["seats"]] == ["engine", "pump"]
    for seat in found["seats"]:
        costs = [donor["cost"] for donor in seat["donors"]]
        assert costs == sorted(costs)
        assert len(costs) == seat["forms"] - seat["ruled_out"]
        assert all(donor["verdict"] != "stops" and donor["for_it_to_go"] == [] for donor in seat["donors"])


def test_what_goes_in_costs_what_fit_says(run, shop, found):
    for seat in found["seats"]:
        for donor in seat["donors"][:3]:
            named = f"{donor['unit']}.{donor['variant']}" if donor["variant"] else donor["unit"]
            (fit,) = json.loads(run("fit", shop / PIT_LOADER, named, "--json", code=0).out)["fits"]
            assert {key: donor[key] for key in PLAN_KEYS} == {key: fit[key] for key in PLAN_KEYS}


@pytest.mark.parametrize("most", ["1", "4"])
def test_fewer_are_the_first_of_more(run, shop, found, most):
    fewer = json.loads(run("donors", shop / PIT_LOADER, "--most", most, "--json", code=0).out)
    for few, all_ in zip(fewer["seats"], found["seats"], strict=True):
        assert few["donors"] == all_["donors"][: int(most)]
        assert few["planned"] <= all_["planned"]


def test_one_unit_alone_has_nothing_shared(run, shop):
    one = json.loads(run("donors", shop / PIT_LOADER, "--unit", "pump", "--json", code=0).out)
    assert [seat["seat"] for seat in one["seats"]] == ["pump"]
    assert one["shared"] == []
    assert "One machine with more than one" not in run("donors", shop / PIT_LOADER, "--unit", "pump", code=0).out


def test_machines_with_both_cost_what_their_donors_cost_together(found):
    costs = [
        {f"{each['unit']}.{each['variant']}" if each["variant"] else each["unit"]: each["cost"] for each in seat["donors"]}
        for seat in found["seats"]
    ]
    assert found["shared"][0]["machine"] == "dunmarrow-rl90"
    for machine in found["shared"]:
        assert [each["seat"] for each in machine["donors"]] == ["engine", "pump"]
        parts = [known[each["donor"]] for known, each in zip(costs, machine["donors"], strict=True)]
        assert machine["cost"] == pytest.approx(sum(parts), abs=0.02)
    assert [machine["cost"] for machine in found["shared"]] == sorted(machine["cost"] for machine in found["shared"])


@pytest.mark.parametrize(
    ("arguments", "says"),
    [
        pytest.param(["donors", "{job}", "--most", "0"], "0 is not in the range", id="none"),
        pytest.param(["donors", "{job}", "--most", "1001"], "1001 is not in the range", id="too many"),
        pytest.param(["donors", "{job}", "--most", "few"], "few", id="no number"),
        pytest.param(["donors", "{job}", "--unit", "gearbox"], "no dead unit called 'gearbox'", id="not dead"),
        pytest.param(["donors", "{job}", "--unit", "engin"], "did you mean 'engine'?", id="misspelt"),
        pytest.param(["donors", "{job}", "--altitude", "high"], "high", id="no height"),
        pytest.param(["donors", "{home}/jobs"], "there is no job.yaml", id="folder without a job"),
    ],
)
def test_a_wrong_call_is_answered_in_words(run, shop, arguments, says):
    filled = [argument.format(job=shop / PIT_LOADER, home=shop) for argument in arguments]
    ran = run(*filled, code=2)
    assert says in " ".join((ran.out + ran.err).split())


def test_a_job_with_nothing_dead_is_told(run, own_shop):
    job = own_shop / PIT_LOADER / "job.yaml"
    job.write_text("title: Nothing\nmachine: dunmarrow-rl90\ndead: {}\n", encoding="utf-8")
    assert "the job names no dead unit" in run("donors", own_shop / PIT_LOADER, code=2).err


def test_where_nothing_goes_in_it_says_so(run, own_shop):
    machines = own_shop / "catalog/machines.yaml"
    text = machines.read_text(encoding="utf-8")
    start = text.index("  dunmarrow-rl90:")
    assert "fuel: diesel" in text[start:]
    machines.write_text(text[:start] + text[start:].replace("fuel: diesel", "fuel: gas", 1), encoding="utf-8")
    shown = run("donors", own_shop / PIT_LOADER, "--unit", "engine", code=0).out
    assert "Nothing in the catalog goes in." in shown
    assert "23 forms of units looked at, 23 ruled out at once, 0 planned." in shown


@pytest.mark.parametrize("spent", ["", "spent: $1\n", "spent: $91,900\n"], ids=["nothing", "a dollar", "a fortune"])
def test_money_spent_before_changes_no_list(run, own_shop, found, spent):
    job = own_shop / PIT_LOADER / "job.yaml"
    text = job.read_text(encoding="utf-8")
    assert "spent: $1,900\n" in text
    job.write_text(text.replace("spent: $1,900\n", spent), encoding="utf-8")
    assert json.loads(run("donors", own_shop / PIT_LOADER, "--json", code=0).out) == found


@pytest.mark.parametrize("width", [60, 80, 110, 160])
def test_tables_stay_within_the_terminal(run, shop, monkeypatch, width):
    monkeypatch.setenv("COLUMNS", str(width))
    shown = run("donors", shop / PIT_LOADER, code=0).out
    assert max(len(line) for line in shown.splitlines()) <= width
    assert "hestrel-h52d.loader" in shown
