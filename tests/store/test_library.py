from pathlib import Path

import pytest

from interchange.catalog.check import SourceText, read_catalog
from interchange.catalog.folders import read_text, search_path, source_files
from interchange.catalog.geometry import holes_of, shape_key
from interchange.catalog.model import Pattern
from interchange.errors import InputError
from interchange.store.cache import up_to_date
from interchange.store.library import Library

DEMO = Path(__file__).parents[2] / "catalog" / "demo" / "catalog"
ODD = """\
# Records written in every way YAML has for them.
origin:
    read: caliper
patterns: {in-flow: {circle: 100 mm, holes: 4}, next-to-it: {title: 'with, commas {and} "quotes"', circle: 101 mm},
  over-lines: {circle: 102 mm,
    holes: 5}  ,
  last: {title: end}}   # a remark
"shafts":
      deep:
            form: plain
            # a remark in between
            note: >-
              folded
              text

              with a gap
      'quoted-id':   {form: plain, note: "é ½ 𝕏"}
      ? asked
      : form: plain
        note: |
          kept
            as it is

      tail: {form: plain, note: it's}
units:
  p1:
    kind: pump
    title: "Pump: one"
    origin: {basis: said}
    slots:
      core: {face: {circle: 90 mm, holes: 2, note: in place}, size: [20 cc, {value: 21 cc, basis: heard}]}
    variants:
      a: {share: 30 %, slots: {core: {hand: left}}}
      b: {share: 70 %, slots: {core: {face: {circle: 95 mm}}}}"""


def texts(folders) -> list[SourceText]:
    return [SourceText(source.name, read_text(source.path), source.rank) for source in source_files(folders)]


def same_as_the_text(folders) -> int:
    """Whether the cache gives every record as reading the text does; how many there are."""
    catalog = read_catalog(texts(folders))
    connection, _ = up_to_date(folders)
    library = Library(connection)
    rooms = {room for (room,) in connection.execute("SELECT DISTINCT room FROM record").fetchall()}
    assert rooms == set(catalog.rooms)
    for room, records in catalog.rooms.items():
        cached = {one.id: one for one in library.records(room)}
        assert list(cached) == list(dict.fromkeys(cached))
        assert set(cached) == set(records)
        for id_, one in records.items():
            other = cached[id_]
            assert other.value == one.value
            assert other.presented == one.presented
            assert (other.origin, other.where) == (one.origin, one.where)
            assert other.references == one.references
    connection.close()
    return sum(map(len, catalog.rooms.values()))


def test_the_cache_gives_the_demo_catalog_as_its_text_does():
    assert same_as_the_text(search_path((DEMO,))) > 150


@pytest.mark.parametrize("ends", ["\n", "\r\n", "\r"], ids=["LF", "CRLF", "CR"])
@pytest.mark.parametrize("before", ["", "\ufeff"], ids=["plain", "byte order mark"])
@pytest.mark.parametrize(
    "after", ["", "\n", "\n\n# end\n", "\n...\n"], ids=["no last line end", "line end", "remark", "document end"]
)
def test_the_cache_gives_odd_writing_as_its_text_does(folders, ends, before, after):
    (folders[1] / "odd.yaml").write_bytes((before + ODD + after).replace("\n", ends).encode())
    assert same_as_the_text(folders) == 14


def test_the_cache_holds_a_row_for_every_feature_of_the_demo():
    folders = search_path((DEMO,))
    catalog = read_catalog(texts(folders))
    connection, _ = up_to_date(folders)
    rows = connection.execute(
        "SELECT unit, variant, feature, number, low, high, word, ref, basis, disputed FROM feature"
    ).fetchall()
    expected = set()
    for id_, one in catalog.room("units").items():
        for variant, form in one.presented.items():
            for path, figure in form.features.items():
                ends = (figure.value, figure.low, figure.high) if figure.quantity else (None, None, None)
                words = (figure.word or None, figure.ref or None, figure.origin.basis or None)
                expected.add((id_, variant, path, *ends, *words, bool(figure.others)))
    assert len(rows) == len(set(rows))
    assert set(rows) == expected
    connection.close()


def test_the_cache_holds_the_holes_of_every_pattern_of_the_demo():
    folders = search_path((DEMO,))
    catalog = read_catalog(texts(folders))
    connection, _ = up_to_date(folders)
    for id_, one in catalog.room("patterns").items():
        pattern = one.value
        holes = holes_of(pattern)
        query = "SELECT p.key, p.holes, p.shape FROM pattern p JOIN record r USING (key) WHERE r.live AND p.id = ?"
        ((key, count, shape),) = connection.execute(query, [id_]).fetchall()
        assert (count, shape or "") == (len(holes) if holes else pattern.holes, shape_key(pattern))
        found = connection.execute(
            "SELECT x_mm, y_mm, hole_mm, thread_mm FROM hole WHERE key = ? AND id = ? ORDER BY i", [key, id_]
        ).fetchall()
        assert found == [(hole.x_mm, hole.y_mm, hole.hole_mm, hole.thread_mm) for hole in holes or ()]
    connection.close()


@pytest.fixture
def library(folders):
    (folders[1] / "odd.yaml").write_text(ODD, encoding="utf-8")
    connection, _ = up_to_date(folders)
    yield Library(connection)
    connection.close()


def test_a_shape_written_in_place_is_found_by_the_name_the_figure_gives(library):
    record, _ = library.unit("p1")
    refs = {name: form.features["core.face"].ref for name, form in record.presented.items()}
    assert library.pattern(refs["a"]).circle.value == pytest.approx(90)
    assert library.pattern(refs["b"]).circle.value == pytest.approx(95)
    assert library.pattern("two-bolt").circle.value == pytest.approx(106)
    assert library.pattern("none") is None
    assert library.pattern("p1:core.none") is None
    assert library.shaft("two-bolt") is None


def test_a_shape_in_place_is_found_without_asking_for_its_unit_first(library):
    refs = library.connection.execute("SELECT DISTINCT ref FROM feature WHERE contains(ref, ':') ORDER BY 1").fetchall()
    assert len(refs) == 2
    assert all(isinstance(library.pattern(ref), Pattern) for (ref,) in refs)


def test_what_is_not_there_is_told_with_the_nearest_name(library):
    with pytest.raises(InputError, match="there is no unit 'lissander-l21' in the catalog") as caught:
        library.unit("lissander-l21")
    assert "did you mean 'lissander-l" in caught.value.hint
    with pytest.raises(InputError, match="there is no kind 'pmup'"):
        library.kind("pmup")
    with pytest.raises(InputError, match="there is no machine 'x'"):
        library.machine("x")


def test_some_records_by_id(library):
    assert [one.id for one in library.records("units", ("lissander-l32", "none"))] == ["lissander-l32"]
    assert library.record("units", "none") is None
    assert library.record("units", "lissander-l32") is library.record("units", "lissander-l32")
