"""Files with mistakes, and every line that is reported for them. A new case is a new file.

``name.yaml`` is read together with ``base.yml`` and, where it is there, ``name.second.yml``; ``name.txt`` is what is reported.
"""

from pathlib import Path

import pytest

from interchange.catalog.check import SourceText, read_catalog
from interchange.catalog.checking import check_files

CASES = Path(__file__).parent / "cases"
NAMED = sorted(CASES.glob("*.yaml"))


def files_of(case: Path) -> list[Path]:
    second = case.with_suffix(".second.yml")
    return [CASES / "base.yml", case, *([second] if second.is_file() else [])]


def reported(case: Path) -> str:
    sources = [SourceText(path.name, path.read_text(encoding="utf-8"), 0) for path in files_of(case)]
    return "".join(f"{problem}\n" for problem in read_catalog(sources).problems)


@pytest.mark.parametrize("case", NAMED, ids=lambda path: path.stem)
def test_what_is_reported(case):
    assert reported(case) == case.with_suffix(".txt").read_text(encoding="utf-8")


@pytest.mark.parametrize("case", NAMED, ids=lambda path: path.stem)
def test_checking_the_file_alone_reports_the_same(case, tmp_path, monkeypatch):
    for path in files_of(case):
        (tmp_path / path.with_suffix(".yaml").name).write_bytes(path.read_bytes())
    monkeypatch.chdir(tmp_path)
    targets = [tmp_path / path.with_suffix(".yaml").name for path in files_of(case)]
    _, problems = check_files(targets[1:], (tmp_path,))
    expected = (
        case.with_suffix(".txt")
        .read_text(encoding="utf-8")
        .replace(".second.yml", ".second.yaml")
        .replace("base.yml", "base.yaml")
    )
    assert "".join(f"{problem}\n" for problem in problems) == expected


def test_ten_mistakes_are_ten_problems_each_with_its_mend():
    sources = [SourceText(path.name, path.read_text(encoding="utf-8"), 0) for path in files_of(CASES / "ten_mistakes.yaml")]
    problems = read_catalog(sources).problems
    assert len(problems) == 10
    assert len({problem.slug for problem in problems}) == 10
    assert len({problem.line for problem in problems}) == 10
    assert all(problem.hint and problem.line and problem.column for problem in problems)


@pytest.mark.parametrize("case", NAMED, ids=lambda path: path.stem)
def test_every_problem_says_how_to_mend_it(case):
    sources = [SourceText(path.name, path.read_text(encoding="utf-8"), 0) for path in files_of(case)]
    assert all(problem.hint for problem in read_catalog(sources).problems)


def test_the_base_is_sound():
    assert read_catalog([SourceText("base.yml", (CASES / "base.yml").read_text(encoding="utf-8"), 0)]).problems == ()


def test_every_case_has_its_report_and_every_report_its_case():
    assert {path.stem for path in NAMED} == {path.stem for path in CASES.glob("*.txt")}
