import pytest

from interchange.store.cache import up_to_date
from interchange.store.search import find

MORE = """\
machines:
  dunmarrow-rl90:
    title: RL90 wheel loader
    maker: Dunmarrow
    aka: [RL 90, Ninety]
    seats: {}
units:
  lissander-lv45:
    kind: pump
    title: LV45
    maker: Lissander
    variants:
      early: {title: LV45 with the long shaft, aka: [LV45-S]}
      late: {}
"""


@pytest.fixture
def found(folders):
    (folders[1] / "more.yaml").write_text(MORE, encoding="utf-8")
    connection, _ = up_to_date(folders)
    yield lambda words, most=20: find(connection, words, most)
    connection.close()


@pytest.mark.parametrize(
    "words", ["RL90", "rl-90", "rl 90", "dunmarrow rl90", "Dunmarrow-RL90", "RL 90 loader", "ninety", "DUNMARROW"]
)
def test_a_machine_is_found_however_it_is_written(found, words):
    assert (found(words)[0].room, found(words)[0].id) == ("machines", "dunmarrow-rl90")


@pytest.mark.parametrize("words", ["dunmarow rl90", "lissandre l20", "lisander l20"])
def test_a_slip_of_the_finger_is_forgiven(found, words):
    assert found(words)[0].id in {"dunmarrow-rl90", "lissander-l20"}


def test_the_whole_name_comes_first(found):
    assert found("lissander l32")[0].id == "lissander-l32"
    assert found("lissander l32")[0].score == pytest.approx(100)


def test_a_form_is_found_by_its_own_name(found):
    assert found("LV45-S")[0].id == "lissander-lv45.early"


@pytest.mark.parametrize("words", ["", " ", "---", "zzzzqqqq"])
def test_nothing_like_it(found, words):
    assert found(words) == []


@pytest.mark.parametrize("words", ["%", "'; DROP TABLE name; --", "_", '"', "\\N", "a" * 10_000])
def test_words_are_never_sql(found, words):
    found(words)
    assert found("RL90")


def test_no_more_than_asked_for(found):
    assert len(found("lissander", 2)) == 2


def test_a_record_that_does_not_count_is_not_found(folders, own_text):
    (folders[1] / "mine.yaml").write_text(own_text, encoding="utf-8")
    connection, _ = up_to_date(folders)
    found = [(one.id, one.title) for one in find(connection, "lissander l20")]
    assert found[0] == ("lissander-l20", "Lissander L20, measured")
    assert sum(id_ == "lissander-l20" for id_, _ in found) == 1
    connection.close()
