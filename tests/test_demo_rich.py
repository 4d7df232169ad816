"""The demo shows everything the program does: enough of each sort, nothing twice, and nothing that no ad leads to."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from interchange.ads.split import ad_id, split
from interchange.catalog.check import Catalog, SourceText, read_catalog
from interchange.catalog.geometry import dowels_of, holes_of
from interchange.catalog.model import Adapter, Machine, Pattern, Unit
from interchange.job.folder import ad_files
from interchange.job.home import read_home
from interchange.job.job import read_job

CATALOG = Path(__file__).parents[1] / "catalog"
DEMO = CATALOG / "demo"
JOBS = {"pit-loader": (34, "Dunmarrow RL90"), "hill-tractor": (32, "Pellworth 540")}
FOLDERS = (CATALOG / "standards", CATALOG / "trade", DEMO / "catalog")


@pytest.fixture(scope="module")
def catalog() -> Catalog:
    return read_catalog(
        [
            SourceText(str(path), path.read_text(encoding="utf-8"), rank)
            for rank, folder in enumerate(FOLDERS)
            for path in sorted(folder.glob("*.yaml"))
        ]
    )


def demo_only(catalog: Catalog, room: str) -> dict[str, object]:
    return {id_: one.value for id_, one in catalog.room(room).items() if str(DEMO) in one.where.file}


def pattern(catalog: Catalog, id_: str) -> Pattern:
    value = catalog.room("patterns")[id_].value
    assert isinstance(value, Pattern)
    return value


def ads_of(job: str) -> list[str]:
    return [piece.text for path in ad_files(DEMO / "jobs" / job) for piece in split(path.read_text(encoding="utf-8"))]


def test_the_demo_has_no_problems(catalog: Catalog) -> None:
    assert [str(problem) for problem in catalog.problems if str(DEMO) in problem.file] == []


@pytest.mark.parametrize(
    ("room", "least"), [("units", 17), ("machines", 8), ("adapters", 8), ("patterns", 40), ("shafts", 10)], ids=str
)
def test_enough_of_each(catalog: Catalog, room: str, least: int) -> None:
    assert len(demo_only(catalog, room)) >= least


def test_engines_and_pumps(catalog: Catalog) -> None:
    kinds = [unit.kind for unit in demo_only(catalog, "units").values() if isinstance(unit, Unit)]
    assert kinds.count("engine") >= 13
    assert kinds.count("pump") >= 4


def test_every_variant_has_a_share_and_a_tell(catalog: Catalog) -> None:
    for unit in demo_only(catalog, "units").values():
        assert isinstance(unit, Unit)
        shares = [variant.share for variant in unit.variants.values()]
        assert all(share and variant.tell for share, variant in zip(shares, unit.variants.values(), strict=True)), unit.id
        assert not shares or sum(share or 0 for share in shares) == pytest.approx(1), unit.id


def test_most_engine_features_are_known(catalog: Catalog) -> None:
    for id_, unit in demo_only(catalog, "units").items():
        assert isinstance(unit, Unit)
        if unit.kind == "engine":
            for name, form in catalog.room("units")[id_].presented.items():
                assert len(form.features) >= 45, f"{id_}.{name}"


@pytest.mark.parametrize(
    ("a", "b"),
    [
        pytest.param("hestrel-rear-52", "hestrel-housing-52", id="own housing, noted from the front"),
        pytest.param("hestrel-rear-52", "tolvane-rear-4", id="points and a circle"),
        pytest.param("hestrel-rear-52", "kestavik-rear-25", id="drawn from the front"),
        pytest.param("brackmoor-rear-44", "brackmoor-housing-44", id="uneven, noted from the front"),
        pytest.param("brackmoor-rear-44", "kestavik-rear-38", id="inches and millimetres"),
        pytest.param("pellworth-bell-540", "brackmoor-tractor-bell", id="gearbox and housing"),
    ],
)
def test_faces_that_are_one_under_two_names(catalog: Catalog, a: str, b: str) -> None:
    one, other = pattern(catalog, a), pattern(catalog, b)
    for of in (holes_of, dowels_of):
        places = [sorted((round(hole.x_mm, 2), round(hole.y_mm, 2)) for hole in of(each) or ()) for each in (one, other)]
        assert places[0]
        assert len(places[0]) == len(places[1])
        for first, second in zip(*places, strict=True):
            assert first == pytest.approx(second, abs=0.015)


def test_an_uneven_face_does_not_match_its_own_mirror(catalog: Catalog) -> None:
    holes = holes_of(pattern(catalog, "brackmoor-rear-44")) or ()
    places = {(round(hole.x_mm, 1), round(hole.y_mm, 1)) for hole in holes}
    assert {(-x, y) for x, y in places} != places


def test_adapters_join_two_faces_and_cost_something(catalog: Catalog) -> None:
    for adapter in demo_only(catalog, "adapters").values():
        assert isinstance(adapter, Adapter)
        assert len(adapter.faces) == 2
        assert adapter.price
        assert adapter.lead


@pytest.mark.parametrize("job", JOBS)
def test_a_job_is_read_with_its_home(catalog: Catalog, job: str) -> None:
    home = read_home(DEMO / "home.yaml")
    assert [folder.is_dir() for folder in home.catalog_folders] == [True]
    value, _ = read_job(DEMO / "jobs" / job)
    machine = catalog.room("machines")[value.machine].value
    assert isinstance(machine, Machine)
    assert machine.title == JOBS[job][1]
    for seat, dead in value.dead.items():
        unit, _, form = dead.unit.partition(".")
        presented = catalog.room("units")[unit].presented[form].features
        assert {path.partition(".")[0] for path in presented} >= set(dead.usable)
        assert dead.unit in machine.seats[seat].fitted


@pytest.mark.parametrize("job", JOBS)
def test_enough_ads_and_no_two_alike(job: str) -> None:
    ads = ads_of(job)
    assert len(ads) >= JOBS[job][0]
    assert len({ad_id(text) for text in ads}) == len(ads)


def test_no_ad_stands_in_both_jobs() -> None:
    assert not {ad_id(text) for text in ads_of("pit-loader")} & {ad_id(text) for text in ads_of("hill-tractor")}


def test_every_unit_and_machine_is_named_or_fitted(catalog: Catalog) -> None:
    words = re.sub(r"[\s-]+", "", " ".join(text for job in JOBS for text in ads_of(job))).casefold()
    fitted = {
        name.partition(".")[0]
        for machine in demo_only(catalog, "machines").values()
        if isinstance(machine, Machine)
        for seat in machine.seats.values()
        for name in seat.fitted
    }
    for room in ("units", "machines"):
        for id_, one in demo_only(catalog, room).items():
            model = id_.rpartition("-")[2]
            assert id_ in fitted or model in words, one


@pytest.mark.parametrize(
    "words",
    [
        r"\$[0-9],[0-9]{3} OBO", r"\b[0-9]k\b", r"asking [0-9]+", r"was \$?[0-9]", r"\$1\.", r"call for price",
        r"firm", r"exchange", r"need gone", r"ran when parked", r"cold start", r"turns by hand", r"milky", r"knocks",
        r"no plate", r"looking for", r"parting out", r"long block", r"short block", r"bare block", r"core",
        r"<br>", r"&nbsp;", r"gas\b", r"24 ?v", r"no ecm", r"0[0-9]{4}$", r"^(?!.*, [A-Z]{2}).*13601",
    ],
)  # fmt: skip
def test_ads_say_it_in_many_ways(words: str) -> None:
    assert any(re.search(words, text, re.IGNORECASE | re.MULTILINE) for job in JOBS for text in ads_of(job))


def test_telephones_are_of_the_range_kept_for_fiction() -> None:
    for job in JOBS:
        for path in ad_files(DEMO / "jobs" / job):
            for number in re.findall(r"555[-. ]?([0-9]{4})\b", path.read_text(encoding="utf-8")):
                assert number.startswith("01"), number
