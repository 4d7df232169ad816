from pathlib import Path

import pytest

from interchange.catalog import checking
from interchange.catalog.checking import check_files, files_at
from interchange.errors import InputError

DEMO = Path(__file__).parents[2] / "catalog" / "demo" / "catalog"
SHIPPED = [DEMO.parents[1] / "standards", DEMO.parents[1] / "trade", DEMO]
FACES = "patterns:\n  two-bolt: {circle: 106 mm, holes: 2}\n  four-bolt: {circle: 120 mm, holes: 4}\n"


@pytest.fixture
def folders(tmp_path):
    shared, own = tmp_path / "shared", tmp_path / "own"
    shared.mkdir()
    own.mkdir()
    (shared / "faces.yaml").write_text(FACES, encoding="utf-8")
    (shared / "pump.yaml").write_text(
        "kinds:\n  pump: {title: pump, slots: {core: {face: pattern}}, seat: {}}\n", encoding="utf-8"
    )
    (shared / "faulty.yaml").write_text("shafts:\n  bad: {form: square}\n", encoding="utf-8")
    return shared, own


@pytest.fixture
def parsed(monkeypatch):
    """The files whose names were read without their being checked."""
    names = []
    real = checking.parse_file

    def counted(text, name):
        names.append(Path(name).name)
        return real(text, name)

    monkeypatch.setattr(checking, "parse_file", counted)
    return names


def slugs(folders, name: str, text: str) -> list[str]:
    path = folders[1] / name
    path.write_text(text, encoding="utf-8")
    return [problem.slug for problem in check_files([path], folders)[1]]


@pytest.mark.parametrize("path", sorted(path for folder in SHIPPED for path in folder.glob("*.yaml")), ids=lambda path: path.stem)
def test_every_shipped_file_is_sound(path):
    records, problems = check_files([path], tuple(SHIPPED))
    assert problems == ()
    assert records


def test_the_shipped_files_are_sound_together():
    records, problems = check_files(files_at(tuple(SHIPPED)), tuple(SHIPPED))
    assert problems == ()
    assert records > 150


def test_faults_of_files_not_asked_about_are_not_told(folders):
    assert slugs(folders, "mine.yaml", "shafts:\n  good: {form: plain}\n") == []


def test_an_override_in_ones_own_folder_is_not_a_second_definition(folders):
    assert slugs(folders, "mine.yaml", "patterns:\n  two-bolt: {circle: 107 mm, holes: 2}\n") == []


def test_a_second_definition_in_the_same_folder_is_told(folders):
    path = folders[0] / "more.yaml"
    path.write_text("patterns:\n  two-bolt: {circle: 107 mm, holes: 2}\n", encoding="utf-8")
    (problem,) = check_files([path], folders)[1]
    assert (problem.slug, problem.line, problem.column) == ("defined-twice", 2, 3)
    assert "faces.yaml:2" in problem.hint


def test_a_second_definition_is_told_of_a_file_that_is_named_twice_only_once(folders):
    path = folders[0] / "faces.yaml"
    assert check_files(files_at((path, path, folders[0])), folders)[1][0].slug == "unknown-word"
    assert len(check_files(files_at((path, path)), folders)[1]) == 0


def test_names_of_other_files_are_known(folders):
    text = "units:\n  l20: {kind: pump, title: L20, slots: {core: {face: four-bolt}}}\n"
    assert slugs(folders, "mine.yaml", text) == []
    assert slugs(folders, "mine.yaml", text.replace("four-bolt", "five-bolt")) == ["unknown-name"]


def test_a_name_like_it_is_found_in_files_that_would_not_be_read_otherwise(folders, parsed):
    path = folders[1] / "mine.yaml"
    path.write_text("shafts:\n  flanged: {form: flange, pattern: two-bolts}\n", encoding="utf-8")
    (problem,) = check_files([path], folders)[1]
    assert problem.hint == "did you mean 'two-bolt'?"
    assert "faces.yaml" in parsed


def test_other_files_are_parsed_only_where_they_matter(folders, parsed):
    assert slugs(folders, "mine.yaml", "shafts:\n  good: {form: plain}\n") == []
    assert parsed == []
    assert slugs(folders, "mine.yaml", "shafts:\n  flanged: {form: flange, pattern: two-bolt}\n") == []
    assert parsed == ["faces.yaml"]


def test_many_names_are_looked_up_by_reading_everything(folders, parsed):
    many = "".join(f"  p{number}: {{circle: 100 mm, holes: 4}}\n" for number in range(checking.MOST_LOOKED_FOR + 1))
    assert slugs(folders, "mine.yaml", f"patterns:\n{many}") == []
    assert sorted(parsed) == ["faces.yaml", "faulty.yaml", "pump.yaml"]


def test_a_file_outside_the_search_path_overrides_like_ones_own(folders, tmp_path):
    path = tmp_path / "elsewhere.yaml"
    path.write_text("patterns:\n  two-bolt: {circle: 107 mm, holes: 2}\n", encoding="utf-8")
    assert check_files([path], folders) == (1, ())


def test_a_file_that_is_not_there(tmp_path):
    with pytest.raises(InputError, match="there is no"):
        files_at((tmp_path / "none.yaml",))


def test_files_of_folders_and_files_as_they_are_named(folders):
    odd = folders[1] / "notes.txt"
    odd.write_text("", encoding="utf-8")
    (folders[1] / "deep").mkdir()
    (folders[1] / "deep" / "more.yml").write_text("", encoding="utf-8")
    assert [path.name for path in files_at((folders[1], odd, folders[1]))] == ["more.yml", "notes.txt"]
