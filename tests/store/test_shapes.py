"""Every shape of a catalog with where it stands."""

from interchange.store.cache import up_to_date
from interchange.store.library import Library
from interchange.store.shapes import Use, shapes_of

CATALOG = """
kinds:
  winch:
    title: winch
    slots:
      drum: {face: pattern, shaft: shaft}
    seat: {face: pattern}
patterns:
  face-a: {circle: 100 mm, holes: 6}
  face-b: {circle: 120 mm, holes: 6}
  lonely: {circle: 130 mm, holes: 6}
units:
  plain-winch:
    kind: winch
    title: Plain winch
    slots: {drum: {face: face-a, shaft: {form: involute, spline: 14T 12/24}}}
  two-form-winch:
    kind: winch
    title: Two-form winch
    slots: {drum: {face: face-a}}
    variants:
      short: {title: short}
      long: {title: long, slots: {drum: {face: face-b}}}
machines:
  hauler:
    title: Hauler
    seats:
      pull:
        kind: winch
        fitted: {plain-winch: 1}
        needs: {face: {circle: 101 mm, holes: 6}}
"""


def test_each_shape_stands_where_it_is_named_or_written(tmp_path):
    (tmp_path / "mine.yaml").write_text(CATALOG, encoding="utf-8")
    connection, _ = up_to_date((tmp_path,), None)
    found = {each.id: each.uses for each in shapes_of(Library(connection))}
    assert found == {
        "face-a": (Use("plain-winch", "winch", "drum.face"), Use("two-form-winch", "winch", "drum.face")),
        "face-b": (Use("two-form-winch", "winch", "drum.face"),),
        "lonely": (),
        "plain-winch:drum.shaft": (Use("plain-winch", "winch", "drum.shaft"),),
        "hauler:pull:seat.face": (Use("hauler", "", "seat.face"),),
    }
