import json
import os
import subprocess
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]
AD = b"Tolvane T412 engine\n$925\nTurns by hand.\nBangor, Maine\n"


def test_start_makes_a_home_that_ranks(run, tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    made = run("start", "shop", code=0).out
    assert "interchange rank shop/jobs/pit-loader" in made.replace("\\", "/")
    assert "bolts up" in run("rank", "shop/jobs/pit-loader", "--unit", "engine", code=0).out


def test_start_never_writes_over_anything(run, tmp_path):
    (tmp_path / "shop").mkdir()
    (tmp_path / "shop/mine.txt").write_text("mine", encoding="utf-8")
    assert "there already" in run("start", tmp_path / "shop", code=2).err
    assert [path.name for path in (tmp_path / "shop").iterdir()] == ["mine.txt"]


def test_paste_keeps_the_text_to_the_byte(run, own_shop):
    job = own_shop / "jobs/pit-loader"
    before = set((job / "ads").iterdir())
    said = run("paste", job, stdin=AD, code=0).out
    (kept,) = set((job / "ads").iterdir()) - before
    assert kept.read_bytes() == AD
    assert "1 ad kept" in said
    assert "1 of them new" in said


def test_the_same_ad_pasted_twice_is_one_ad(run, own_shop):
    job = own_shop / "jobs/pit-loader"
    run("paste", job, stdin=AD, code=0)
    assert "0 of them new" in run("paste", job, stdin=AD, code=0).out
    ads = [ad["ad"] for ad in json.loads(run("rank", job, "--json").out)["seats"][0]["ranked"]]
    assert len(ads) == len(set(ads))


@pytest.mark.parametrize(
    ("arguments", "stdin", "says"),
    [
        pytest.param(["paste", "{job}"], b"", "nothing in the paste looks like an ad", id="empty paste"),
        pytest.param(["paste", "{job}"], b"\x00\xff\xfe" * 1000, "nothing in the paste looks like an ad", id="binary paste"),
        pytest.param(["rank", "{job}", "-"], b"   \n\n", "no ads were found", id="blank standard input"),
        pytest.param(["rank", "{job}", "nowhere.txt"], b"", "cannot read nowhere.txt", id="missing file of ads"),
        pytest.param(["rank", "{job}", "--by", "luck"], b"", "total, fit, haul, price", id="unknown order"),
        pytest.param(["rank", "{job}", "--unit", "engin"], b"", "did you mean 'engine'?", id="unknown seat"),
        pytest.param(["rank", "{home}/jobs"], b"", "there is no job.yaml", id="folder without a job"),
        pytest.param(["rank", "{home}/none"], b"", "there is no job folder", id="no folder"),
        pytest.param(["rank", "{job}", "--home", "nope.yaml"], b"", "there is no home file", id="missing home"),
        pytest.param(["fit", "{job}", "hestrel-h52"], b"", "did you mean", id="unknown donor"),
        pytest.param(["fit", "{job}", "hestrel-h52d.lodaer"], b"", "did you mean 'loader'?", id="unknown variant"),
        pytest.param(["find", "zzzzqqqq"], b"", "nothing in the catalog", id="nothing found"),
        pytest.param(["catalog", "show", "hestrel-h52x", "--home", "{home}"], b"", "did you mean 'hestrel-h52", id="unknown id"),
        pytest.param(["catalog", "check", "nowhere"], b"", "there is no nowhere", id="nothing to check"),
        pytest.param(["rank"], b"", "JOB", id="missing argument"),
        pytest.param(["sing"], b"", "sing", id="no such command"),
    ],
)
def test_a_wrong_call_is_answered_in_words(run, shop, arguments, stdin, says):
    filled = [argument.format(job=shop / "jobs/pit-loader", home=shop) for argument in arguments]
    ran = run(*filled, stdin=stdin, code=2)
    assert says in ran.out + ran.err


RL90 = "title: x\nmachine: dunmarrow-rl90\n"
DEAD = "dead: {engine: {unit: hestrel-h52d}}\n"


@pytest.mark.parametrize(
    ("written", "says"),
    [
        pytest.param(RL90 + "", "job.yaml:1:1: 'dead' is missing", id="without what is dead"),
        pytest.param(f"title: x\n{DEAD}", "job.yaml:1:1: 'machine' is missing", id="without a machine"),
        pytest.param(f"title: x\nmachine: dunmarow-rl90\n{DEAD}", "job.yaml:2:10: no machine", id="no such machine"),
        pytest.param(RL90 + "dead: {motor: {unit: hestrel-h52d}}\n", "job.yaml:3:8: ", id="no such seat"),
        pytest.param(
            RL90 + "dead:\n  engine: {unit: hestrel-h52d, usable: [housing, flywhel]}\n",
            "job.yaml:4:50: ", id="no such slot",
        ),
        pytest.param(RL90 + DEAD + "spent: lots\n", "job.yaml:4:8: ", id="bad money"),
        pytest.param("", "job.yaml:1:1: nothing is written here", id="empty"),
        pytest.param("title: [", "job.yaml:", id="not YAML"),
    ],
)  # fmt: skip
def test_a_faulty_job_is_told_with_its_place(run, own_shop, written, says):
    job = own_shop / "jobs/pit-loader"
    (job / "job.yaml").write_text(written, encoding="utf-8")
    ran = run("rank", job, code=2)
    assert says in ran.err
    assert "[" in ran.err  # every problem ends with its slug


def test_a_broken_record_of_ones_own_does_not_stop_the_rest(run, own_shop):
    (own_shop / "catalog/mine.yaml").write_text("units:\n  mine:\n    kind: engin\n    title: Mine\n", encoding="utf-8")
    ran = run("rank", own_shop / "jobs/pit-loader", "--unit", "engine", code=0)
    assert "The catalog has 1 problem" in ran.err
    assert "mine.yaml:3:11" in ran.err
    assert "bolts up" in ran.out


def test_check_tells_every_problem_and_exits_1(run, own_shop):
    (own_shop / "catalog/mine.yaml").write_text(
        "units:\n  mine: {kind: engin, title: Mine}\n  Bad Id: {kind: engine}\n", encoding="utf-8"
    )
    ran = run("catalog", "check", own_shop / "catalog/mine.yaml", code=1)
    assert ran.out.count("mine.yaml:") >= 2
    assert "did you mean 'engine'?" in ran.out


def test_check_of_a_home_checks_its_home_and_jobs_too(run, own_shop):
    assert "no problems" in run("catalog", "check", own_shop, code=0).out
    (own_shop / "home.yaml").write_text("place: Barre, VT\ncatlog: [catalog]\n", encoding="utf-8")
    assert "home.yaml:2:1: there is no 'catlog' here (did you mean 'catalog'?)" in run("catalog", "check", own_shop, code=1).out


def test_fit_shows_a_unit_a_machine_and_an_ad(run, shop):
    job = shop / "jobs/pit-loader"
    assert "rotation" in run("fit", job, "kestavik-k438", code=0).out
    assert "out of a" in run("fit", job, "varnhollow-bh3", code=0).out
    ad = json.loads(run("rank", job, "--json").out)["seats"][0]["ranked"][0]["ad"]
    shown = run("fit", job, ad[:5], "--unit", "engine", code=0).out
    assert f"Ad {ad}" in shown
    assert "What it comes to" in shown


def test_a_share_the_catalog_does_not_give_is_said_to_be_a_guess(run, own_shop):
    engines = own_shop / "catalog/engines.yaml"
    assert "taken as even" not in run("fit", own_shop / "jobs/pit-loader", "tolvane-t412", code=0).out
    text = engines.read_text(encoding="utf-8")
    start = text.index("  tolvane-t412:")
    shares = text[start:].replace("        share: 0.7\n", "", 1).replace("        share: 0.3\n", "", 1)
    engines.write_text(text[:start] + shares, encoding="utf-8")
    shown = " ".join(run("fit", own_shop / "jobs/pit-loader", "tolvane-t412", code=0).out.split())
    assert "50% of them, taken as even with the others: the catalog gives no share" in shown


def test_fit_gives_json(run, shop):
    (fit,) = json.loads(run("fit", shop / "jobs/pit-loader", "hestrel-h52d.loader", "--json", code=0).out)["fits"]
    assert fit["verdict"] == "bolts up"
    assert {"name", "verdict", "reason", "give", "need"} <= set(fit["dimensions"][0])


def test_find_and_show(run, shop):
    found = json.loads(run("find", "H52", "--home", shop, "--json", code=0).out)["found"]
    assert {"hestrel-h52d", "hestrel-h52g"} <= {one["id"] for one in found}
    shown = run("catalog", "show", "sae-j617-3", code=0).out
    assert "16.875" in shown or "16-7/8" in shown


HEAVY = ("duckdb", "rich", "rapidfuzz", "zipcodes", "yaml", "pydantic", "interchange.catalog.model")


def loaded_by(*arguments):
    code = (
        "import sys; from interchange.cli import main\n"
        "try: main(sys.argv[1:])\nexcept SystemExit: pass\n"
        "print(*sys.modules, file=sys.stderr)"
    )
    ran = subprocess.run([sys.executable, "-c", code, *map(str, arguments)], capture_output=True, text=True, check=True, cwd=ROOT)
    return set(ran.stderr.split())


@pytest.mark.skipif(not Path("/dev/full").exists(), reason="this system has no /dev/full to write to")
def test_a_full_disk_is_answered_in_words(run, shop):
    run("rank", shop / "jobs/pit-loader", code=0)
    command = [sys.executable, "-m", "interchange.cli", "rank", str(shop / "jobs/pit-loader"), "--json"]
    with Path("/dev/full").open("w", encoding="utf-8") as full:
        ran = subprocess.run(command, stdout=full, stderr=subprocess.PIPE, text=True, cwd=ROOT, check=False)
    assert ran.returncode == 2
    assert "Traceback" not in ran.stderr
    assert "No space left" in ran.stderr


def test_help_loads_nothing_heavy():
    assert not loaded_by("--help") & set(HEAVY)


def test_checking_a_file_loads_no_database():
    assert not loaded_by("catalog", "check", ROOT / "catalog/standards/hitch-pins.yaml") & {
        "duckdb",
        "rich",
        "rapidfuzz",
        "zipcodes",
        "pydantic",
    }


def test_a_question_asked_again_loads_no_database(run, shop):
    run("rank", shop / "jobs/pit-loader", code=0)
    assert not loaded_by("rank", shop / "jobs/pit-loader") & {"duckdb", "rapidfuzz", "zipcodes", "yaml"}


def test_a_reader_that_has_seen_enough_is_no_error(tmp_path):
    """As head: it closes the pipe after the first line."""
    command = [sys.executable, "-m", "interchange.cli", "rank", str(ROOT / "catalog" / "demo" / "jobs" / "pit-loader")]
    environment = os.environ | {"INTERCHANGE_CACHE": str(tmp_path)}
    with subprocess.Popen(command, stdout=subprocess.PIPE, stderr=subprocess.PIPE, env=environment) as running:
        running.stdout.readline()
        running.stdout.close()
        assert running.stderr.read() == b""
    assert running.returncode == 0


def test_the_version(run):
    assert run("--version", code=0).out.startswith("interchange 0.")
