"""A kind nobody has thought of is text: what it takes is read, checked and typed with no line of code for it."""

from pathlib import Path

import pytest

from interchange.catalog.check import SourceText, read_catalog
from interchange.catalog.folders import read_text, search_path, source_files
from interchange.catalog.model import Kind

WINCH = Path(__file__).with_name("winch.yaml")
PACKAGE = Path(__file__).parents[2] / "interchange"


def catalog_with(text):
    shipped = [SourceText(file.name, read_text(file.path), file.rank) for file in source_files(search_path())]
    return read_catalog([*shipped, SourceText("winch.yaml", text, 9)])


@pytest.fixture(scope="module")
def winch_text():
    return WINCH.read_text(encoding="utf-8")


@pytest.fixture(scope="module")
def catalog(winch_text):
    return catalog_with(winch_text)


def test_it_is_read_without_a_problem_beside_what_is_shipped(catalog):
    assert catalog.problems == ()
    kind = catalog.room("kinds")["winch"].value
    assert isinstance(kind, Kind)
    assert set(catalog.room("kinds")) >= {"engine", "gearbox", "pump", "axle", "winch"}
    assert list(kind.slots) == ["core", "fairlead"]


def test_its_features_get_the_types_the_kind_gives_them(catalog):
    features = catalog.room("units")["sollbach-s40"].presented[""].features
    assert features["core.ratio"].value == 25.5
    assert features["core.pull"].value == 4000.0
    assert (features["core.rotation"].text, features["core.foot"].ref) == ("clockwise", "sollbach-foot-4")
    assert catalog.room("machines")["ravensholm-24"].presented["winch"].features["seat.ratio"].text == "27:1"


@pytest.mark.parametrize(
    ("written", "instead", "slug", "says"),
    [
        pytest.param("rotation: clockwise, pull: 4 t", "rotation: sideways, pull: 4 t", "unknown-word", "sideways", id="word"),
        pytest.param("ratio: 51/2", "ratio: 51:2", "bad-figure", "write 4.10:1, or the teeth as 41/10", id="ratio"),
        pytest.param("pull: 4 t", "pul: 4 t", "unknown-feature", "pull", id="feature"),
        pytest.param("joints: [fairlead]", "joints: [farlead]", "unknown-name", "fairlead", id="joint"),
        pytest.param("rule: {within: 10 %}", "rule: {near: 10 %}", "bad-rule", "within", id="rule"),
        pytest.param("fitted: {kettrin-w8: 1}", "fitted: {kettrin-w9: 1}", "unknown-name", "kettrin-w8", id="unit"),
    ],
)
def test_a_mistake_in_it_is_told_with_its_place(winch_text, written, instead, slug, says):
    assert winch_text.count(written) == 1
    text = winch_text.replace(written, instead)
    (problem,) = catalog_with(text).problems
    assert problem.slug == slug
    assert says in f"{problem.text} {problem.hint}"
    assert instead in text.splitlines()[problem.line - 1]


def test_no_module_knows_of_it_nor_of_gearbox_and_axle():
    for path in PACKAGE.rglob("*.py"):
        text = path.read_text(encoding="utf-8")
        for name in ("winch", '"gearbox"', '"axle"'):
            assert name not in text, path
