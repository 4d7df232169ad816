"""Text meant to break a reader: nothing raised, time in proportion to its length, spans that still point at it."""

from __future__ import annotations

import time

import pytest
from hypothesis import given
from hypothesis import strategies as st

from interchange.ads.fields import AdWords
from interchange.ads.figures import LONGEST_AD
from interchange.ads.read import read_ad
from interchange.ads.split import split_paste

HALF = 15_000  # signs; LONGEST_AD is above twice as many
WORST_RATIO = 3  # for twice the text; a quadratic reader shows four
SLACK_S = 0.15

REPEATED = {
    "crowns": "5 kr ", "names": "h52, ", "other listings": "similar:\n",
    "one word": "x", "digits": "1", "capitals": "Ab ", "state codes": "in or me ", "prices": "$1,234 ", "half ranges": "6-7k ",
    "open tags": "<a", "entities": "&amp;", "line ends": "\n", "terminal escapes": "\x1b[",
    "terminal titles": "\x1b]", "brackets": "(",
    "telephones": "802-555-", "spoken telephones": "five ", "denials": "no ", "towns": "Barre VT, ",
    "apostrophes": "don'", "dots": "a.",
    "comments": "<!--", "scripts": "<script", "hyphens": "a-", "near": "of Barre ", "formula cells": "=cmd|'/C calc'!A0\n",
    "bullets": "- RL90 $5 VT\n", "rules": "---\nRL90 $50\n", "blanks": " ", "dashes": "-", "labels": "s/n ",
    "feet": "1ft", "mail": "a@",
    "addresses": "http://", "asking": "asking ", "titles": "Title: x\n",
    "messages": "[1/1/26, 10:00 AM] Ray: RL90 $50\n", "nulls": "\x00",
    "direction marks": "\u202eRL90 ", "lone surrogates": "\ud800", "doubled commas": "1,1", "parts": "no starter, ",
    "knocks or": "smoke, or ", "years": "1978 ", "weights": "900 lb ", "rules of all signs": "=-*_~\n",
    "numbers in words": "twenty two hundred ", "tens": "forty ", "letters and numbers": "be four ",
    "taken back": "nine hundred no make it ",
    "broken words": "a-\n", "wrong letters": "rn0O1 ", "dollars apart": "$1 234 ", "dotted states": "N.H. ",
    "short forms": "eng. ",
    "not this one": "not a RL90 ", "out of": "out of RL90, ", "in towns": "in Barre ", "clauses": ". Barre ",
    "or prices": "$5 or ",
    "offers and prices": "short block $5 ", "long runs": "aBcDeFgHiJkLmNoPqRsTuVwXyZaB ",
    "paragraphs": "RL90 loader\n\n$5\n\n",
}  # fmt: skip


def seconds(work, text):
    start = time.perf_counter()
    work(text)
    return time.perf_counter() - start


def grows_evenly(work, half, whole):
    """Measured again where it seems not to: a busy machine must fail three times over."""
    return any(seconds(work, whole) <= WORST_RATIO * seconds(work, half) + SLACK_S for _ in range(3))


@pytest.mark.parametrize("piece", [pytest.param(piece, id=name) for name, piece in REPEATED.items()])
def test_twice_the_text_takes_about_twice_the_time(piece, phrases, words):
    half, whole = (piece * (size // len(piece)) for size in (HALF, 2 * HALF))
    assert len(whole) <= LONGEST_AD
    for work in (split_paste, lambda text: read_ad(text, phrases, words)):
        assert grows_evenly(work, half, whole)


@pytest.mark.parametrize(
    "text",
    [
        pytest.param("Dunmarrow RL90 loader " * 50_000, id="one line of 1 MB"),
        pytest.param("1" * 100_000, id="100,000 digits"),
        pytest.param("$" + "9" * 5_000, id="a price of 5,000 digits"),
        pytest.param("9" * 5_000 + " hrs", id="hours of 5,000 digits"),
    ],
)
def test_large_text(text, phrases, words):
    start = time.perf_counter()
    reading = read_ad(text, phrases, words)
    split_paste(text)
    assert time.perf_counter() - start < 20
    assert reading.read_to == min(len(text), LONGEST_AD)
    assert (reading.price.kind, reading.hours) == ("none", None)


@pytest.mark.long
def test_five_megabytes_of_ads():
    ad = "1978 Dunmarrow RL90 loader, engine knocks. $3,750 OBO\nBarre, VT 05641. Call 802-555-0143\n\n"
    many = 5_000_000 // len(ad)
    start = time.perf_counter()
    found = split_paste(ad * many)
    assert time.perf_counter() - start < 60
    assert len(found.ads) == many


MARKED = [
    ("markup", "<b>Dunmarrow</b> RL90 &amp; more<script>alert('$1')</script> $3,750"),
    ("escapes", "\x1b[31mDunmarrow\x1b[0m RL90 $3,750\x1b]0;x\x07"),
    ("direction marks", "\u202eDunmarrow RL90\u202c $3,750"),
    ("nulls", "Dunmarrow\x00 RL90 $3,750\x00"),
    ("formula cell", '=HYPERLINK("x")\nDunmarrow RL90 $3,750'),
    ("console markup", "[bold red]Dunmarrow RL90[/] $3,750"),
    ("SQL", "Dunmarrow RL90'; DROP TABLE ads; -- $3,750"),
]


@pytest.mark.parametrize("text", [pytest.param(text, id=name) for name, text in MARKED])
def test_markup_hides_nothing_and_adds_nothing(text, phrases, words):
    reading = read_ad(text, phrases, words)
    assert reading.price.cents == 375000
    assert "RL90" in [word.text for word in reading.model_words]
    assert all(text[span.start : span.end] == found for found, span in reading.spans())


SNIPPETS = st.sampled_from([
    "Dunmarrow RL90 ", "$3,750 ", "was 5200 now 4600 ", "Barre, VT ", "802-555-0143 ", "no starter, ", "knocks ",
    "1978 ", "3,200 hrs ", "\n", ". ", "<b>", "&amp;", "\x1b[31m", "\u202e", "\x00", "motor is bad ", "2 for 900 ",
    "20 mi N of ", "2.6k ", "6-7k ", "SOLD ", "free ", "24v ", "1,450 lbs ", "don&#39;t ", "(", "💲5 ",
    "long block ", "with ", "or ", "H52 D ", "S/N 123-4 ", "AT-4063 Linz ", "mid 80s ", "'78 B", "•", "Title: ",
])  # fmt: skip


@given(st.one_of(st.text(), st.lists(SNIPPETS, max_size=25).map("".join)))
def test_any_text_is_read_and_spans_are_of_it(phrases, words, text):
    reading = read_ad(text, phrases, words)
    for found, span in reading.spans():
        assert 0 <= span.start <= span.end <= len(text)
        assert text[span.start : span.end] == found
    assert 0 <= reading.price.certainty <= 1


@given(st.text())
def test_any_text_is_read_without_word_lists(text):
    reading = read_ad(text, (), AdWords())
    assert (reading.phrases, reading.parts, reading.offer) == ((), (), None)
