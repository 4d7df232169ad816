"""An ad with its fields marked: nothing of the text is lost, and each stretch stands once."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from interchange.ads.fields import Span
from interchange.ads.marked import Mark, bits, marks_of
from interchange.ads.match import Matched
from interchange.ads.read import read_ad

AD = "Tolvane T412 engine, long block\n$925 obo\nBarre, VT\nRuns good, no smoke. No starter."


def bracketed(text, marks):
    return "".join("[" * len(bit.opens) + bit.text + "".join(f"]{number}" for number in bit.closes) for bit in bits(text, marks))


@pytest.mark.parametrize(
    ("spans", "shown"),
    [
        pytest.param([], "abcdef", id="nothing"),
        pytest.param([(0, 2), (4, 6)], "[ab]1cd[ef]2", id="apart"),
        pytest.param([(0, 6), (2, 4)], "[ab[cd]2ef]1", id="one in another"),
        pytest.param([(0, 4), (0, 2)], "[[ab]2cd]1ef", id="beginning together"),
        pytest.param([(0, 3), (2, 5)], "[ab[c]1de]2f", id="across"),
        pytest.param([(0, 0)], "abcdef", id="no stretch"),
    ],
)
def test_brackets(spans, shown):
    assert bracketed("abcdef", [Mark(at, Span(*span), "", ()) for at, span in enumerate(spans, 1)]) == shown


@given(st.text(max_size=40), st.data())
def test_the_text_stays_whole(text, data):
    at = st.integers(0, len(text))
    spans = data.draw(st.lists(st.tuples(at, at).map(sorted), max_size=6))
    found = list(bits(text, [Mark(number, Span(*span), "", ()) for number, span in enumerate(spans, 1)]))
    assert "".join(bit.text for bit in found) == text
    opened = [number for bit in found for number in bit.opens]
    assert sorted(opened) == sorted(number for bit in found for number in bit.closes)
    assert len(opened) == len(set(opened)) == sum(start < end for start, end in spans)


def test_every_field_read_is_marked(phrases, words):
    reading = read_ad(AD, phrases, words)
    marks = marks_of(reading, Matched((), ()))
    said = {(one.field, one.value): mark.text for mark in marks for one in mark.said}
    assert said["price", "925 USD obo"] == "$925"
    assert said["place", "Barre, VT"] == "Barre, VT"
    assert said["offer", "long block"] == "long block"
    assert said["words", "smokes, denied"] == "smoke"
    assert ("part", "starter missing") in said
    assert [mark.number for mark in marks] == list(range(1, len(marks) + 1))
    assert all(AD[mark.span.start : mark.span.end] == mark.text for mark in marks)
