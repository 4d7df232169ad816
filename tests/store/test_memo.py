import os

import pytest

from interchange.store import memo
from interchange.store.place import cache_folder

QUESTION, ANSWER = "which?", {"ads": [1, 2.5, None, "é"]}


@pytest.fixture
def inputs(folders, tmp_path):
    """(folders, files) that an answer rests on; one of the files is not there."""
    job = tmp_path / "job.yaml"
    job.write_text("title: x\n", encoding="utf-8")
    return folders, (job, tmp_path / "not-there.txt")


@pytest.fixture
def kept(inputs):
    memo.keep(QUESTION, ANSWER, *inputs, memo.inputs(*inputs))
    assert memo.recall(QUESTION) == ANSWER
    return inputs


def test_an_answer_is_recalled_while_nothing_has_changed(kept):
    os.utime(kept[1][0], (1, 1))
    assert memo.recall(QUESTION) == ANSWER
    assert memo.recall("another") is None


def test_nothing_was_kept():
    assert memo.recall(QUESTION) is None


@pytest.mark.parametrize("name", ["kind.yaml", "pumps.yaml"])
def test_a_changed_catalog_file_drops_it(kept, name):
    path = kept[0][0] / name
    before = path.read_text(encoding="utf-8")
    path.write_text(before + "# a remark\n", encoding="utf-8")
    assert memo.recall(QUESTION) is None
    path.write_text(before, encoding="utf-8")
    assert memo.recall(QUESTION) == ANSWER


def test_a_changed_file_drops_it(kept):
    kept[1][0].write_text("title: y\n", encoding="utf-8")
    assert memo.recall(QUESTION) is None


def test_a_new_catalog_file_drops_it(kept):
    (kept[0][1] / "mine.yaml").write_text("", encoding="utf-8")
    assert memo.recall(QUESTION) is None


def test_a_removed_catalog_file_drops_it(kept):
    (kept[0][0] / "pumps.yaml").unlink()
    assert memo.recall(QUESTION) is None


def test_a_file_that_was_not_there_and_now_is_drops_it(kept):
    kept[1][1].write_text("", encoding="utf-8")
    assert memo.recall(QUESTION) is None


def test_a_removed_folder_drops_it(kept):
    kept[0][1].rmdir()
    assert memo.recall(QUESTION) is None


@pytest.mark.usefixtures("kept")
def test_other_code_drops_it(monkeypatch):
    monkeypatch.setattr(memo, "code_stamp", lambda: "another")
    assert memo.recall(QUESTION) is None


@pytest.mark.parametrize("junk", [b"", b"{", b"[]", b'{"stamp": 1}', b"\xff\xfe", b"null", b"{}"])
def test_a_damaged_answer_is_dropped(kept, junk):
    (path,) = (cache_folder() / "answers").iterdir()
    path.write_bytes(junk)
    assert memo.recall(QUESTION) is None
    memo.keep(QUESTION, ANSWER, *kept, memo.inputs(*kept))
    assert memo.recall(QUESTION) == ANSWER


def test_a_cache_that_cannot_be_written_is_no_fault(inputs, monkeypatch, tmp_path):
    blocked = tmp_path / "file"
    blocked.write_text("", encoding="utf-8")
    monkeypatch.setenv("INTERCHANGE_CACHE", str(blocked))
    memo.keep(QUESTION, ANSWER, *inputs, memo.inputs(*inputs))
    assert memo.recall(QUESTION) is None


def test_an_input_that_changes_while_it_is_worked_on_is_not_taken_for_the_new_one(inputs):
    made_from = memo.inputs(*inputs)
    inputs[1][0].write_text("changed meanwhile", encoding="utf-8")
    memo.keep(QUESTION, ANSWER, *inputs, made_from)
    assert memo.recall(QUESTION) is None


def test_an_input_that_goes_away_while_it_is_worked_on_is_no_fault(inputs):
    made_from = memo.inputs(*inputs)
    inputs[0][1].rmdir()
    memo.keep(QUESTION, ANSWER, *inputs, made_from)
    assert memo.recall(QUESTION) is None


def test_the_oldest_answers_are_forgotten(inputs, monkeypatch):
    monkeypatch.setattr(memo, "MOST_KEPT", 3)
    for number in range(6):
        memo.keep(f"question {number}", number, *inputs, memo.inputs(*inputs))
        for path in (cache_folder() / "answers").iterdir():
            stat = path.stat()
            os.utime(path, (stat.st_atime - 10, stat.st_mtime - 10))
    assert [memo.recall(f"question {number}") for number in range(6)] == [None, None, None, 3, 4, 5]


def test_what_a_killed_command_left_is_forgotten_with_time(inputs, monkeypatch):
    monkeypatch.setattr(memo, "MOST_KEPT", 1)
    folder = cache_folder() / "answers"
    folder.mkdir(parents=True)
    left = folder / "abc.12345"
    left.write_text("{", encoding="utf-8")
    os.utime(left, (1, 1))
    memo.keep(QUESTION, ANSWER, *inputs, memo.inputs(*inputs))
    assert not left.exists()
    assert memo.recall(QUESTION) == ANSWER
