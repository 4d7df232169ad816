import pytest

from interchange.catalog.figure import Figure, Origin
from interchange.catalog.rooms import read_file
from interchange.quantity import read_quantity


def length(text: str, read: str = "") -> Figure:
    return Figure(quantity=read_quantity(text, "length"), origin=Origin(read=read))


def shafts(text: str) -> dict:
    file = read_file(text, "a.yaml", {})
    assert file.problems == []
    return {one.id: one.value for one in file.records}


@pytest.mark.parametrize(
    ("text", "read", "tolerance", "low", "high"),
    [
        pytest.param("100 mm", "", None, 100, 100, id="bare: not known"),
        pytest.param("100 mm", "standard", 0, 100, 100, id="a standard prints its own limits"),
        pytest.param("100 mm", "handbook", 0, 100, 100, id="a handbook does too"),
        pytest.param("100 mm", "caliper", 0.127, 99.873, 100.127, id="caliper"),
        pytest.param("100 mm", "depth gauge", 0.508, 99.492, 100.508, id="depth gauge"),
        pytest.param("100 mm", "tape", 1.5875, 98.4125, 101.5875, id="tape"),
        pytest.param("100 mm", "photo", None, 100, 100, id="a photo gives no length"),
        pytest.param("100 ± 2 mm", "caliper", 2, 98, 102, id="what is written wins over the way of reading"),
        pytest.param("100-110 mm", "", None, 100, 110, id="range"),
        pytest.param("100-110 mm", "tape", 1.5875, 98.4125, 111.5875, id="range by the tape"),
    ],
)
def test_tolerance_comes_from_the_reading(text, read, tolerance, low, high):
    figure = length(text, read)
    assert figure.tolerance == (None if tolerance is None else pytest.approx(tolerance))
    assert (figure.low, figure.high) == (pytest.approx(low), pytest.approx(high))


def test_a_way_of_reading_gives_no_tolerance_to_what_is_not_a_length():
    figure = Figure(quantity=read_quantity("400 lb", "mass"), origin=Origin(read="tape"))
    assert figure.tolerance is None
    assert figure.low == figure.high == figure.value


def test_a_word_has_no_value():
    word = Figure(word="left")
    assert word.tolerance is None
    for attribute in ("value", "low", "high", "ends"):
        with pytest.raises(ValueError, match="'left' is not a quantity"):
            getattr(word, attribute)


@pytest.mark.parametrize(
    ("figure", "text"),
    [(length("16-7/8 in"), "16-7/8 in"), (Figure(word="left"), "left"), (Figure(ref="sae-b"), "sae-b"), (Figure(), "")],
)
def test_a_figure_reads_as_it_was_written(figure, text):
    assert figure.text == text


@pytest.mark.parametrize(
    ("basis", "caveat"),
    [
        ("published", ""),
        ("measured", ""),
        ("", ""),
        ("said", "the seller says"),
        ("heard", "hearsay"),
        ("judgement", "a judgement"),
        ("memory", "from memory, unconfirmed"),
    ],
)
def test_weak_bases_carry_a_caveat(basis, caveat):
    assert Figure(word="left", origin=Origin(basis=basis)).caveat == caveat


def test_sources_that_differ_are_told_with_their_origins():
    other = Figure(word="right", origin=Origin(basis="heard"))
    figure = Figure(word="left", origin=Origin(basis="published", source="the plate"), others=(other,))
    assert figure.readings == (figure, other)
    assert figure.caveat == "sources differ: left (published, the plate) / right (hearsay)"


def test_an_origin_is_inherited_from_file_to_record_to_figure():
    text = """\
origin: {read: handbook, basis: published, from: the book, on: 2020-01-01}
shafts:
  file: {form: plain, major: 20 mm}
  record:
    origin: {from: another book}
    form: plain
    major: 21 mm
    minor: {value: 22 mm, on: 2021-02-03}
  measured:
    origin: {basis: measured, from: the yard}
    form: plain
    major: 23 mm
    minor: {value: 24 mm, read: caliper}
    length: {value: 25 mm, basis: said, from: the seller}
"""
    found = shafts(text)
    assert found["file"].major.origin == ("handbook", "published", "the book", "2020-01-01")
    assert found["record"].major.origin == ("handbook", "published", "another book", "2020-01-01")
    assert found["record"].minor.origin == ("handbook", "published", "another book", "2021-02-03")
    assert found["measured"].major.origin == ("", "measured", "the yard", "2020-01-01")
    assert found["measured"].minor.origin == ("caliper", "measured", "the yard", "2020-01-01")
    assert found["measured"].length.origin == ("", "said", "the seller", "2020-01-01")


def test_a_basis_of_its_own_takes_no_tolerance_from_outside():
    record = "{form: plain, major: 20 mm, minor: {value: 10 mm, basis: said}}"
    shaft = shafts(f"origin: {{read: caliper, basis: measured}}\nshafts:\n  a: {record}\n")["a"]
    assert shaft.major.tolerance == pytest.approx(0.127)
    assert shaft.minor.tolerance is None


@pytest.mark.parametrize(
    ("origin", "words"),
    [
        (Origin(), "no origin given"),
        (Origin("tape", "measured", "the yard", "2026-05-02"), "measured, the yard, read by tape, 2026-05-02"),
        (Origin(basis="memory"), "from memory, unconfirmed"),
    ],
)
def test_an_origin_in_words(origin, words):
    assert str(origin) == words
