import os
import shutil
import subprocess
import sys
import textwrap
from pathlib import Path

import duckdb
import pytest

from interchange.errors import InputError
from interchange.store import cache, load, memo
from interchange.store.cache import problems_of, up_to_date
from interchange.store.library import Library
from interchange.store.place import cache_folder

ROOT = Path(__file__).parents[2]


def edit(path: Path, old: str, new: str) -> None:
    text = path.read_text(encoding="utf-8")
    assert old in text
    path.write_text(text.replace(old, new), encoding="utf-8")


def refreshed(folders) -> tuple[int, int, int]:
    """(read, removed, unchanged)."""
    connection, read = up_to_date(folders)
    connection.close()
    return tuple(read)


def told(folders) -> list[tuple[str, str]]:
    """(file's name, slug) of every problem."""
    connection, _ = up_to_date(folders)
    found = [(Path(problem.file).name, problem.slug) for problem in problems_of(connection)]
    connection.close()
    return found


def size_of(folders, unit: str = "lissander-l20") -> float:
    """The displacement the cache holds for a unit, by its live row."""
    connection, _ = up_to_date(folders)
    query = "SELECT f.number FROM feature f JOIN record r USING (key) WHERE r.live AND f.unit = ? AND f.feature = 'core.size'"
    ((number,),) = connection.execute(query, [unit]).fetchall()
    connection.close()
    return number


def dump(connection) -> dict[str, list]:
    """Every table, without the keys that only count the order in which records were read."""
    tables = [name for (name,) in connection.execute("SELECT table_name FROM duckdb_tables() ORDER BY 1").fetchall()]
    content = {}
    for table in tables:
        columns = [row[0] for row in connection.execute(f"DESCRIBE {table}").fetchall() if row[0] != "key"]
        content[table] = sorted(connection.execute(f"SELECT {', '.join(columns)} FROM {table}").fetchall(), key=repr)
    return content


@pytest.fixture
def reads(monkeypatch):
    """The names of the files that are read into records."""
    names = []
    real = load.read_file

    def counted(text, name, kinds):
        names.append(Path(name).name)
        return real(text, name, kinds)

    monkeypatch.setattr(load, "read_file", counted)
    return names


def test_a_first_load_reads_every_file(folders, reads):
    assert refreshed(folders) == (3, 0, 0)
    assert sorted(reads) == ["faces.yaml", "kind.yaml", "pumps.yaml"]
    assert told(folders) == []


def test_an_unchanged_reload_reads_nothing(folders, reads):
    refreshed(folders)
    reads.clear()
    assert refreshed(folders) == (0, 0, 3)
    assert reads == []


def test_a_file_touched_but_not_changed_is_not_read(folders, reads):
    refreshed(folders)
    reads.clear()
    os.utime(folders[0] / "pumps.yaml", (1, 1))
    assert refreshed(folders) == (0, 0, 3)
    assert reads == []


def test_one_changed_file_is_read_alone(folders, reads):
    assert size_of(folders) == pytest.approx(20)
    reads.clear()
    edit(folders[0] / "pumps.yaml", "20 cc", "21 cc")
    assert refreshed(folders) == (1, 0, 2)
    assert reads == ["pumps.yaml"]
    assert size_of(folders) == pytest.approx(21)


def test_a_new_file_is_read_alone(folders, reads, own_text):
    refreshed(folders)
    reads.clear()
    (folders[1] / "mine.yaml").write_text(own_text, encoding="utf-8")
    assert refreshed(folders) == (1, 0, 3)
    assert reads == ["mine.yaml"]


def test_a_removed_file_takes_its_records_along(folders, reads):
    refreshed(folders)
    reads.clear()
    (folders[0] / "pumps.yaml").unlink()
    assert refreshed(folders) == (0, 1, 2)
    assert reads == []
    connection, _ = up_to_date(folders)
    content = dump(connection)
    connection.close()
    assert content["variant"] == content["feature"] == content["reference"] == []
    assert {row[0] for row in content["name"]} == {"kinds", "patterns"}


def test_a_kind_that_changes_reads_everything_again(folders, reads):
    refreshed(folders)
    reads.clear()
    edit(folders[0] / "kind.yaml", "[left, right]", "[left, right, either]")
    refreshed(folders)
    assert sorted(reads) == ["faces.yaml", "kind.yaml", "pumps.yaml"]


def test_a_kind_that_goes_away_reads_everything_again(folders):
    refreshed(folders)
    (folders[0] / "kind.yaml").unlink()
    assert told(folders) == [("pumps.yaml", "unknown-name"), ("pumps.yaml", "unknown-name")]
    connection, _ = up_to_date(folders)
    assert dump(connection)["feature"] == []
    connection.close()


def test_ones_own_folder_overrides_by_id_and_gives_way_again(folders, own_text):
    assert size_of(folders) == pytest.approx(20)
    mine = folders[1] / "mine.yaml"
    mine.write_text(own_text, encoding="utf-8")
    assert size_of(folders) == pytest.approx(20.5)
    assert told(folders) == []
    connection, _ = up_to_date(folders)
    record, unit = Library(connection).unit("lissander-l20")
    live = connection.execute("SELECT live FROM record WHERE id = 'lissander-l20' ORDER BY rank").fetchall()
    connection.close()
    assert unit.title == "Lissander L20, measured"
    assert record.presented[""].features["core.size"].value == pytest.approx(20.5)
    assert live == [(False,), (True,)]
    mine.unlink()
    assert size_of(folders) == pytest.approx(20)


def test_in_one_folder_the_first_of_two_counts_and_the_second_is_told(folders, own_text):
    (folders[0] / "zz.yaml").write_text(own_text, encoding="utf-8")
    assert size_of(folders) == pytest.approx(20)
    connection, _ = up_to_date(folders)
    (problem,) = problems_of(connection)
    connection.close()
    assert (Path(problem.file).name, problem.line, problem.column, problem.slug) == ("zz.yaml", 2, 3, "defined-twice")
    assert "pumps.yaml:2" in problem.hint
    (folders[0] / "zz.yaml").unlink()
    assert told(folders) == []


def test_a_missing_name_is_told_until_another_file_defines_it(folders):
    edit(folders[0] / "pumps.yaml", "face: four-bolt", "face: six-bolt")
    assert told(folders) == [("pumps.yaml", "unknown-name")]
    extra = folders[1] / "faces.yaml"
    extra.write_text("patterns:\n  six-bolt: {circle: 140 mm, holes: 6}\n", encoding="utf-8")
    assert refreshed(folders) == (1, 0, 3)
    assert told(folders) == []
    extra.unlink()
    assert told(folders) == [("pumps.yaml", "unknown-name")]


def test_a_faulty_record_is_not_missing_as_well(folders):
    edit(folders[0] / "faces.yaml", "circle: 120 mm", "circle: wide")
    assert told(folders) == [("faces.yaml", "bad-figure")]
    edit(folders[0] / "faces.yaml", "circle: wide", "circle: 120 mm")
    assert told(folders) == []


@pytest.mark.parametrize("junk", [b"", b"not a database", b"\0" * 100_000], ids=["empty", "words", "zeros"])
def test_a_damaged_cache_is_built_anew(folders, junk):
    refreshed(folders)
    for path in cache_folder().glob("catalog-*.duckdb"):
        path.write_bytes(junk)
    assert size_of(folders) == pytest.approx(20)
    assert told(folders) == []


@pytest.mark.parametrize("part", [0.3, 0.6, 0.9])
def test_a_cache_cut_short_is_built_anew(folders, part):
    refreshed(folders)
    (path,) = cache_folder().glob("catalog-*.duckdb")
    content = path.read_bytes()
    path.write_bytes(content[: int(len(content) * part)])
    assert size_of(folders) == pytest.approx(20)
    edit(folders[0] / "pumps.yaml", "20 cc", "21 cc")
    assert size_of(folders) == pytest.approx(21)


def test_a_cache_of_other_code_is_built_anew(folders, monkeypatch, reads):
    refreshed(folders)
    reads.clear()
    for module in (cache, memo):
        if hasattr(module, "code_stamp"):
            monkeypatch.setattr(module, "code_stamp", lambda: "another")
    assert refreshed(folders) == (3, 0, 0)
    assert len(reads) == 3


def test_a_change_shows_while_an_older_connection_is_open(folders):
    old, _ = up_to_date(folders)
    before = dump(old)
    edit(folders[0] / "pumps.yaml", "20 cc", "21 cc")
    assert size_of(folders) == pytest.approx(21)
    assert dump(old) == before
    edit(folders[0] / "pumps.yaml", "21 cc", "20 cc")
    assert size_of(folders) == pytest.approx(20)
    old.close()


def test_changes_one_after_the_other_leave_one_cache_file(folders):
    for size in range(20, 25):
        refreshed(folders)
        edit(folders[0] / "pumps.yaml", f"{size} cc", f"{size + 1} cc")
    refreshed(folders)
    assert len(list(cache_folder().glob("catalog-*"))) == 1


def test_two_search_paths_have_two_caches(folders):
    refreshed(folders)
    refreshed(folders[:1])
    assert len(list(cache_folder().glob("catalog-*"))) == 2
    assert refreshed(folders) == (0, 0, 3)


def test_the_order_of_folders_matters(folders, own_text):
    (folders[1] / "mine.yaml").write_text(own_text, encoding="utf-8")
    assert size_of(folders) == pytest.approx(20.5)
    assert size_of((folders[1], folders[0])) == pytest.approx(20)


def left_in_cache() -> list[str]:
    return sorted(path.name for path in cache_folder().iterdir())


def test_a_fault_while_building_leaves_the_old_cache_and_nothing_else(folders, monkeypatch):
    refreshed(folders)
    before = {name: (cache_folder() / name).read_bytes() for name in left_in_cache()}
    edit(folders[0] / "pumps.yaml", "20 cc", "21 cc")

    class KilledError(Exception):
        pass

    def killed(*_):
        raise KilledError

    with monkeypatch.context() as patch:
        patch.setattr(load, "read_file", killed)
        with pytest.raises(KilledError):
            up_to_date(folders)
    assert {name: (cache_folder() / name).read_bytes() for name in left_in_cache()} == before
    edit(folders[0] / "pumps.yaml", "21 cc", "20 cc")
    assert refreshed(folders) == (0, 0, 3)


def in_another_process(folders, code: str) -> subprocess.Popen:
    paths = ", ".join(f"Path({str(folder)!r})" for folder in folders)
    text = f"from pathlib import Path\nfolders = ({paths},)\n" + textwrap.dedent(code)
    environment = {**os.environ, "PYTHONPATH": str(ROOT)}
    return subprocess.Popen(
        [sys.executable, "-c", text], stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True, env=environment, cwd=ROOT
    )


def test_a_kill_in_the_middle_leaves_a_cache_that_can_be_used(folders):
    refreshed(folders)
    edit(folders[0] / "pumps.yaml", "20 cc", "21 cc")
    killed = in_another_process(
        folders,
        """
        import os, signal
        from interchange.store import cache, load
        load.read_file = lambda *_: os.kill(os.getpid(), signal.SIGKILL)
        cache.up_to_date(folders)
        """,
    )
    killed.communicate(timeout=60)
    assert killed.returncode < 0
    assert size_of(folders) == pytest.approx(21)
    assert told(folders) == []


def test_processes_at_once_on_a_cold_cache_agree(folders):
    code = """
        from interchange.store.cache import problems_of, up_to_date
        connection, read = up_to_date(folders)
        print(connection.execute("SELECT unit, feature, number, word, ref FROM feature ORDER BY ALL").fetchall())
        print(problems_of(connection))
    """
    running = [in_another_process(folders, code) for _ in range(3)]
    said = [process.communicate(timeout=120) for process in running]
    assert [process.returncode for process in running] == [0, 0, 0], said
    assert len(set(said)) == 1
    assert "lissander-l32" in said[0][0]
    assert len(left_in_cache()) == 1


def test_processes_at_once_after_a_change_agree(folders):
    refreshed(folders)
    edit(folders[0] / "pumps.yaml", "20 cc", "21 cc")
    code = """
        from interchange.store.cache import up_to_date
        for _ in range(3):
            connection, read = up_to_date(folders)
            print(connection.execute("SELECT number FROM feature WHERE unit = 'lissander-l20' AND number > 0").fetchall())
            connection.close()
    """
    running = [in_another_process(folders, code) for _ in range(3)]
    said = [process.communicate(timeout=120) for process in running]
    assert said == [("[(21.0,)]\n" * 3, "")] * 3


def test_reading_again_file_by_file_gives_what_reading_at_once_gives(folders, own_text):
    refreshed(folders)
    edit(folders[0] / "pumps.yaml", "20 cc", "21 cc")
    refreshed(folders)
    edit(folders[0] / "faces.yaml", "106 mm", "107 mm")
    (folders[1] / "mine.yaml").write_text(own_text, encoding="utf-8")
    refreshed(folders)
    edit(folders[1] / "mine.yaml", "20.5", "20.6")
    (folders[0] / "more.yaml").write_text("shafts:\n  s13: {form: involute, spline: 13T 16/32}\n", encoding="utf-8")
    connection, _ = up_to_date(folders)
    bit_by_bit = dump(connection)
    connection.close()
    shutil.rmtree(cache_folder())
    connection, read = up_to_date(folders)
    assert read.read == 5
    assert dump(connection) == bit_by_bit
    connection.close()


def test_a_cache_is_of_use_from_any_working_folder(folders, monkeypatch):
    edit(folders[0] / "faces.yaml", "circle: 120 mm", "circle: wide")
    monkeypatch.chdir(folders[0])
    connection, _ = up_to_date(folders)
    assert [problem.file for problem in problems_of(connection)] == ["faces.yaml"]
    connection.close()
    monkeypatch.chdir(folders[0].parent)
    connection, read = up_to_date(folders)
    assert read.read == 0
    assert [problem.file for problem in problems_of(connection)] == ["shared/faces.yaml"]
    connection.close()


def test_a_cache_folder_that_cannot_be_written_is_told(folders, monkeypatch, tmp_path):
    blocked = tmp_path / "file"
    blocked.write_text("", encoding="utf-8")
    monkeypatch.setenv("INTERCHANGE_CACHE", str(blocked / "cache"))
    with pytest.raises(InputError, match="cannot write the cache"):
        up_to_date(folders)


def test_a_folder_that_is_not_there_is_told(tmp_path):
    with pytest.raises(InputError, match="there is no catalog folder"):
        up_to_date((tmp_path / "none",))


def test_a_catalog_without_files_is_empty(tmp_path):
    assert refreshed((tmp_path,)) == (0, 0, 0)
    assert told((tmp_path,)) == []


@pytest.mark.parametrize("text", ["", "# nothing but a remark\n", "patterns:\n", "[\n", "\0"])
def test_odd_files_do_no_harm_to_the_others(folders, text):
    (folders[0] / "odd.yaml").write_text(text, encoding="utf-8")
    assert size_of(folders) == pytest.approx(20)


@pytest.mark.parametrize("odd", [r"\N", "a,b", 'say "no"', "x; y", "it's", "caf\u00e9 \u00bd", "\\", "NULL"])
def test_text_comes_back_as_it_was_written(folders, odd):
    quoted = odd.replace("'", "''")
    edit(
        folders[0] / "pumps.yaml",
        "maker: Lissander\n    slots: {core: {face: two-bolt",
        f"maker: '{quoted}'\n    slots: {{core: {{face: two-bolt",
    )
    connection, _ = up_to_date(folders)
    assert connection.execute("SELECT maker FROM record WHERE id = 'lissander-l20'").fetchall() == [(odd,)]
    assert Library(connection).unit("lissander-l20")[1].maker == odd
    connection.close()


def test_the_cache_is_opened_for_reading_only(folders):
    connection, _ = up_to_date(folders)
    with pytest.raises(duckdb.Error):
        connection.execute("DELETE FROM record")
    connection.close()
