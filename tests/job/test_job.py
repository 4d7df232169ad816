from pathlib import Path

import pytest

from interchange.errors import FileProblemsError, InputError
from interchange.job.folder import ad_files
from interchange.job.job import read_job

DEMO = Path(__file__).parents[2] / "catalog" / "demo"
SOUND = """\
title: The pit's loader
machine: dunmarrow-rl90
dead:
  engine: {unit: hestrel-h52d, broke: a rod through the block, usable: [housing, flywheel], proof: a hole}
spent: $350
"""


def job_of(folder: Path, text: str) -> Path:
    (folder / "job.yaml").write_text(text, encoding="utf-8")
    return folder


@pytest.mark.parametrize("name", ["pit-loader", "hill-tractor"])
def test_the_demo_jobs_read_without_faults(name):
    job, _ = read_job(DEMO / "jobs" / name)
    assert job.title
    assert job.machine
    assert job.dead


def test_a_job_says_what_is_dead_and_what_was_spent(tmp_path):
    job, node = read_job(job_of(tmp_path, SOUND))
    assert job.title == "The pit's loader"
    assert list(job.dead) == ["engine"]
    dead = job.dead["engine"]
    assert (dead.unit, dead.usable, dead.proof) == ("hestrel-h52d", ("housing", "flywheel"), "a hole")
    assert job.spent.value == pytest.approx(35000)
    assert job.folder == str(tmp_path)
    assert node.value["machine"].line == 2


@pytest.mark.parametrize(
    ("text", "places"),
    [
        pytest.param("", [(1, 1, "empty")], id="nothing written"),
        pytest.param("title: x\nmachine: y\n", [(1, 1, "missing-key")], id="nothing dead"),
        pytest.param(SOUND.replace("unit: hestrel-h52d, ", ""), [(4, 3, "missing-key")], id="the dead unit not named"),
        pytest.param(SOUND.replace("spent: $350", "spent: 350 lb"), [(5, 12, "bad-figure")], id="spent in pounds of weight"),
        pytest.param(SOUND.replace("spent:", "spend:"), [(5, 1, "unknown-key")], id="misspelt key"),
        pytest.param(SOUND.replace("broke:", "brok:"), [(4, 32, "unknown-key")], id="misspelt key further in"),
        pytest.param("title: [\n", [(2, 1, "not-yaml")], id="not yaml"),
        pytest.param("title: &a x\nmachine: *a\ndead: {}\n", [(1, 8, "anchor"), (2, 10, "alias")], id="anchor and alias"),
    ],
)
def test_faults_are_told_with_their_places(tmp_path, text, places):
    with pytest.raises(FileProblemsError) as caught:
        read_job(job_of(tmp_path, text))
    problems = caught.value.problems
    assert [(problem.line, problem.column, problem.slug) for problem in problems] == places
    assert all(problem.file.endswith("job.yaml") and problem.hint for problem in problems)
    assert str(caught.value).count("\n") == len(problems) - 1


def test_the_folder_is_not_something_to_write_in_a_job(tmp_path):
    with pytest.raises(FileProblemsError) as caught:
        read_job(job_of(tmp_path, SOUND + "folder: /\n"))
    assert [problem.slug for problem in caught.value.problems] == ["unknown-key"]


def test_a_folder_that_is_not_there(tmp_path):
    with pytest.raises(InputError, match="there is no job folder"):
        read_job(tmp_path / "none")


def test_a_folder_without_a_job(tmp_path):
    with pytest.raises(InputError, match=r"there is no job\.yaml") as caught:
        read_job(tmp_path)
    assert "machine" in caught.value.hint


def test_a_job_named_by_its_file_is_told_that_a_job_is_a_folder(tmp_path):
    job_of(tmp_path, SOUND)
    with pytest.raises(InputError, match="there is no job folder"):
        read_job(tmp_path / "job.yaml")


def test_ads_come_in_the_order_of_their_names(tmp_path):
    ads = tmp_path / "ads"
    (ads / "kept").mkdir(parents=True)
    for name in ("2026-05-10.txt", "2026-05-02-2.txt", "2026-05-02.txt", ".swp"):
        (ads / name).write_text("engine", encoding="utf-8")
    assert [path.name for path in ad_files(tmp_path)] == ["2026-05-02-2.txt", "2026-05-02.txt", "2026-05-10.txt"]


def test_a_job_without_ads_has_no_files_of_them(tmp_path):
    assert ad_files(tmp_path) == []


@pytest.mark.parametrize(
    ("written", "usable"),
    [
        pytest.param("", None, id="left out"),
        pytest.param(", usable: []", (), id="none"),
        pytest.param(", usable: sump", ("sump",), id="one"),
    ],
)
def test_usable_left_out_is_not_the_same_as_none(tmp_path, written, usable):
    job, _ = read_job(job_of(tmp_path, SOUND.replace(", usable: [housing, flywheel]", written)))
    assert job.dead["engine"].usable == usable


QUOTES = """quotes:
  - {place: "Rutland, VT", amount: $450, who: a carrier, date: 2026-05-02, mode: hired hot-shot, what: hestrel-h52d}
  - {place: "05641", amount: $300-350}
"""


def test_quotes_for_hauling(tmp_path):
    job, _ = read_job(job_of(tmp_path, SOUND + QUOTES))
    first, second = job.quotes
    assert (first.place, first.who, first.date, first.mode, first.what) == (
        "Rutland, VT", "a carrier", "2026-05-02", "hired hot-shot", "hestrel-h52d",
    )  # fmt: skip
    assert first.amount.value == pytest.approx(45000)
    assert (second.place, second.mode, second.who) == ("05641", "", "")
    assert (second.amount.quantity.low, second.amount.quantity.high) == (30000, 35000)


@pytest.mark.parametrize(
    ("written", "slugs"),
    [
        pytest.param("quotes: [{place: Barre}]", ["missing-key"], id="no amount"),
        pytest.param("quotes: [{place: Barre, amount: dear}]", ["bad-figure"], id="no figure"),
        pytest.param("quotes: [{place: Barre, amount: $5, mode: balloon}]", ["unknown-word"], id="no such way"),
        pytest.param("quotes: [{place: Barre, amount: $5, said: Jo}]", ["unknown-key"], id="misspelt key"),
    ],
)
def test_a_quote_with_a_fault(tmp_path, written, slugs):
    with pytest.raises(FileProblemsError) as caught:
        read_job(job_of(tmp_path, SOUND + written + "\n"))
    assert [problem.slug for problem in caught.value.problems] == slugs
