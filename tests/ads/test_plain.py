"""Pasted text made safe to read, at its own length."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from interchange.ads.plain import clean


@pytest.mark.parametrize(
    ("pasted", "read"),
    [
        pytest.param("a<br>b", "a   \nb", id="tag that breaks a line"),
        pytest.param("a<b>c</b>", "a   c    ", id="tag that does not"),
        pytest.param('<p class="x">a', f"{' ' * 12}\na", id="tag with attributes"),
        pytest.param("hours <5000 and >3", "hours <5000 and >3", id="no tag"),
        pytest.param("a &amp; b", "a &     b", id="entity"),
        pytest.param("won&rsquo;t", "won\u2019      t", id="apostrophe entity"),
        pytest.param("a&nbsp;b", "a      b", id="blank entity"),
        pytest.param("&#60;b&#62;", "     b     ", id="entity for markup stays blank"),
        pytest.param("&nosuch;", "        ", id="unknown entity"),
        pytest.param("a\r\nb\rc", "a \nb\nc", id="line ends"),
        pytest.param("a\x1b[31mb", "a     b", id="terminal colour"),
        pytest.param("a\x1b]0;title\x07b", "a          b", id="terminal title"),
        pytest.param("a\u202eb\u200bc\x00d", "a b c d", id="direction, width and null"),
        pytest.param("a\u2028b", "a\nb", id="line separator"),
        pytest.param("a\tb\n", "a\tb\n", id="tab and line end stay"),
        pytest.param("\U0001f4b25", "$5", id="emoji dollar"),
        pytest.param("a<script>b</script>c", "a                  c", id="script"),
        pytest.param("a<!-- b\nc -->d", "a      \n     d", id="comment keeps its lines"),
        pytest.param("a<!-- never closed", "a<!-- never closed", id="comment without its end"),
    ],
)
def test_clean(pasted, read):
    assert clean(pasted) == read


@given(st.text())
def test_length_is_kept(text):
    assert len(clean(text)) == len(text)


@given(st.text(alphabet="<>/&;#!- \x1b[]\x07abrscipt\n\r\u0130\u202e"))
def test_length_is_kept_among_markup(text):
    read = clean(text)
    assert len(read) == len(text)
    assert not set(read) & set("\x00\x1b\x07\u202e\r")


def test_plain_text_is_not_copied():
    text = "Dunmarrow RL90 loader $3,750"
    assert clean(text) is text
