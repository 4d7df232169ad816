from pathlib import Path

import pytest

from interchange.errors import FileProblemsError, InputError
from interchange.job import folder
from interchange.job.folder import find_home
from interchange.job.home import read_home

DEMO = Path(__file__).parents[2] / "catalog" / "demo"


def home_of(folder: Path, text: str) -> Path:
    path = folder / "home.yaml"
    path.write_text(text, encoding="utf-8")
    return path


def problems_of(path: Path) -> list[tuple[int, int, str]]:
    with pytest.raises(FileProblemsError) as caught:
        read_home(path)
    assert all(problem.file.endswith("home.yaml") for problem in caught.value.problems)
    assert all(problem.text and problem.hint for problem in caught.value.problems)
    return [(problem.line, problem.column, problem.slug) for problem in caught.value.problems]


def test_the_demo_home_reads_without_faults():
    home = read_home(DEMO / "home.yaml")
    assert home.place
    assert all(folder.is_dir() for folder in home.catalog_folders)
    assert home.rig
    assert home.rig.trailer


def test_a_home_with_a_place_only_leaves_the_rest_unknown(tmp_path):
    home = read_home(home_of(tmp_path, "place: Barre, VT\n"))
    assert home.place == "Barre, VT"
    assert home.catalog_folders == ()
    assert home.rig is None
    assert home.rates.own_hour is None
    assert home.rates.hold_day is None


def test_figures_are_in_base_units_and_take_the_origin_of_the_file(tmp_path):
    text = """\
origin: {basis: measured, from: the scale at the pit, on: 2026-04-02}
place: '05641'
rates: {own_hour: $40/h, hold_day: {value: $25/day, basis: judgement}}
rig: {vehicle: {gvwr: 10000 lb}}
"""
    home = read_home(home_of(tmp_path, text))
    assert home.place == "05641"
    assert home.rates.own_hour.value == pytest.approx(4000)
    assert home.rates.own_hour.origin == ("", "measured", "the scale at the pit", "2026-04-02")
    assert home.rates.hold_day.origin.basis == "judgement"
    assert home.rig.vehicle.gvwr.value == pytest.approx(10000 * 0.45359237)
    assert home.rig.vehicle.curb is None


def test_catalog_folders_lie_beside_the_home_file_wherever_the_command_runs(tmp_path, monkeypatch):
    shop = tmp_path / "shop"
    shop.mkdir()
    home = home_of(shop, "place: Barre, VT\ncatalog: [catalog, ../other, /srv/parts]\n")
    monkeypatch.chdir(tmp_path)
    folders = [folder.resolve() for folder in read_home(home).catalog_folders]
    assert folders == [shop.resolve() / "catalog", tmp_path.resolve() / "other", Path("/srv/parts").resolve()]


def test_one_catalog_folder_needs_no_list(tmp_path):
    assert read_home(home_of(tmp_path, "place: x\ncatalog: mine\n")).catalog_folders == (tmp_path / "mine",)


@pytest.mark.parametrize(
    ("text", "places"),
    [
        pytest.param("", [(1, 1, "empty")], id="nothing written"),
        pytest.param("catalog: [catalog]\n", [(1, 1, "missing-key")], id="no place"),
        pytest.param("place: Barre, VT\nrates: {own_hour: 40 lb}\n", [(2, 22, "bad-figure")], id="wrong dimension"),
        pytest.param("place: Barre, VT\nrigg: {}\n", [(2, 1, "unknown-key")], id="misspelt key"),
        pytest.param("place: [Barre, VT]\n", [(1, 8, "wrong-shape")], id="a list for a word"),
        pytest.param("place: Barre\nplace: Stowe\n", [(2, 1, "duplicate-key")], id="given twice"),
        pytest.param("- place: Barre\n", [(1, 1, "wrong-shape")], id="a list for the file"),
        pytest.param("place: Barre\nrig: {trailer: {}}\n", [(2, 1, "missing-key")], id="a rig without a vehicle"),
        pytest.param(
            "place: Barre\nrates: {own_hour: cheap, hold_day: 3 mm}\n",
            [(2, 19, "bad-figure"), (2, 38, "bad-figure")],
            id="two faults on one line",
        ),
    ],
)
def test_faults_are_told_with_their_places(tmp_path, text, places):
    assert problems_of(home_of(tmp_path, text)) == places


def test_a_home_that_is_not_there(tmp_path):
    with pytest.raises(InputError, match="there is no home file") as caught:
        read_home(tmp_path / "home.yaml")
    assert caught.value.hint
    assert not isinstance(caught.value, FileProblemsError)


def test_a_home_that_is_not_utf_8(tmp_path):
    path = tmp_path / "home.yaml"
    path.write_bytes(b"place: M\xfcnster\n")
    with pytest.raises(InputError, match=r"not UTF-8 text \(line 1\)"):
        read_home(path)


def test_the_nearest_home_above_the_job_is_taken(tmp_path):
    job = tmp_path / "shop" / "jobs" / "loader"
    job.mkdir(parents=True)
    outer = home_of(tmp_path, "place: Barre, VT\n")
    assert find_home(job, None) == outer.resolve()
    inner = home_of(tmp_path / "shop", "place: Stowe, VT\n")
    assert find_home(job, None) == inner.resolve()


def test_a_home_that_is_named_wins(tmp_path):
    home_of(tmp_path, "place: Barre, VT\n")
    elsewhere = tmp_path / "elsewhere"
    elsewhere.mkdir()
    named = home_of(elsewhere, "place: Stowe, VT\n")
    assert find_home(tmp_path, elsewhere) == named
    assert find_home(tmp_path, named) == named


def test_a_job_given_relative_to_the_working_folder(tmp_path, monkeypatch):
    home_of(tmp_path, "place: Barre, VT\n")
    (tmp_path / "jobs" / "loader").mkdir(parents=True)
    monkeypatch.chdir(tmp_path / "jobs")
    assert find_home(Path("loader"), None) == tmp_path.resolve() / "home.yaml"


def test_no_home_anywhere_above(tmp_path, monkeypatch):
    monkeypatch.setattr(folder, "HOME_FILE", "no-such-home.yaml")  # a real one may lie above the folder for temporary files
    with pytest.raises(InputError, match=r"no no-such-home\.yaml") as caught:
        find_home(tmp_path, None)
    assert "--home" in caught.value.hint


def test_the_altitude_is_a_length_and_never_taken_for_granted(tmp_path):
    assert read_home(home_of(tmp_path, "place: Barre, VT\n")).altitude is None
    assert read_home(home_of(tmp_path, 'place: Barre, VT\naltitude: "5,200 ft"\n')).altitude.value == pytest.approx(5200 * 304.8)
    assert problems_of(home_of(tmp_path, "place: Barre, VT\naltitude: 5200\n")) == [(2, 11, "bad-figure")]
