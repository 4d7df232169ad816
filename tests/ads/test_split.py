"""A paste into ads: nothing lost, nothing moved, nothing raised."""

from __future__ import annotations

import random
import re
import string

import pytest
from hypothesis import given
from hypothesis import strategies as st

from interchange.ads.line import lines
from interchange.ads.plain import clean
from interchange.ads.split import ad_id, looks_like_an_ad, split, split_paste


@pytest.mark.parametrize(
    "text",
    [
        "Hestrel H52D engine",
        "RL90 loader $3,750 (802) 555-0100",
        "4 loader tires $1000",
        "tractor",
        "good rubber, $40 for the set",
        "Pellworth 540 for the barn",
    ],
)
def test_looks_like_an_ad(text):
    assert looks_like_an_ad(text)


def noise(seed, alphabet, length=4000):
    return "".join(random.Random(seed).choices(alphabet, k=length))  # noqa: S311 - noise, not a secret


@pytest.mark.parametrize(
    "text",
    [
        pytest.param("", id="nothing"),
        pytest.param(" \n\t ", id="blanks"),
        pytest.param("123456789 4711", id="digits"),
        pytest.param("lorem ipsum dolor sit amet", id="words of another trade"),
        pytest.param("🔥🔥🔥 ➖➖➖", id="signs"),
        pytest.param("%PDF-1.7 %\x80\x81 0 obj << /L 9 >>", id="binary head"),
        pytest.param("aGVsbG8gd29ybGQgdGhpcyBpcyBiYXNlNjQgdGV4dA==", id="base64"),
        pytest.param(noise(1, string.printable), id="printable noise"),
        pytest.param(noise(2, string.hexdigits), id="hex noise"),
        pytest.param(noise(3, [chr(i) for i in range(256)]), id="byte noise"),
        pytest.param(noise(4, [chr(i) for i in range(0x4E00, 0x9FFF)]), id="noise of another script"),
    ],
)
def test_noise_is_no_ad(text):
    assert not looks_like_an_ad(text)
    assert split(text) == ()


def test_ad_id_is_of_the_words():
    assert ad_id("Dunmarrow RL90\n  $3,750") == ad_id("  dunmarrow rl90 $3,750 ")
    assert ad_id("Dunmarrow RL90 $3,750") != ad_id("Dunmarrow RL90 $3,751")


def test_ad_id_can_be_read_out():
    ids = {ad_id(f"ad {i}") for i in range(2000)}
    assert len(ids) == 2000
    assert all(re.fullmatch(r"[2-9a-hjkmnp-z]{8}", one) for one in ids)


def test_ad_id_takes_anything():
    assert len(ad_id("\ud800")) == len(ad_id("")) == 8


def test_rules_of_any_sign():
    ads = "Dunmarrow RL90 loader $5,000, Barre, VT", "Hestrel H52D engine $900, Troy, NY"
    for rule in ("----", "====", "***", "____", "~~~~", "• • •", "- - - -", "———", "--- ad 2 ---", "Listing 2"):
        assert [ad.text for ad in split(f"{ads[0]}\n{rule}\n{ads[1]}")] == list(ads), rule


def test_what_is_no_ad_among_ads_is_a_crumb():
    found = split_paste("Found these:\n- Hestrel H52D engine $900, Troy, NY\n- Tolvane T412 engine $700, Troy, NY\n")
    assert [crumb.text for crumb in found.crumbs] == ["Found these:", "-", "-"]


PIECES = st.sampled_from([
    "Dunmarrow RL90 loader", "$3,750 OBO", "Barre, VT", "802-555-0143", "", "", "----", "====",
    "• Hestrel H52D engine $900, Troy, NY", "Save", "Share", "Runs good. Needs tires.",
    "1978 Pellworth 540, $2,400", "<br>", "<p>T412</p>", "[3/14/26, 10:02 AM] Ray: hi", "Title: B330 engine",
    "Price: $800", "\x1b[31m", "\u202e", "🚜 Skarrow S28 🚜", "1. Kestavik K425 $5", "\r", "asking 900",
])  # fmt: skip
PASTES = st.one_of(st.text(), st.lists(PIECES, max_size=20).map("\n".join))


@given(PASTES)
def test_pieces_are_stretches_in_order(text):
    found = split_paste(text)
    for pieces in (found.ads, found.crumbs, sorted([*found.ads, *found.crumbs], key=lambda piece: piece.start)):
        at = 0
        for piece in pieces:
            assert at <= piece.start < piece.end <= len(text)
            assert text[piece.start : piece.end] == piece.text
            at = piece.end


@given(PASTES)
def test_nothing_is_lost(text):
    found = split_paste(text)
    kept = list(text)
    for piece in (*found.ads, *found.crumbs):
        kept[piece.start : piece.end] = [" "] * (piece.end - piece.start)
    for line in lines(clean(text)):
        if line.sort == "rule":
            kept[line.start : line.end] = [" "] * (line.end - line.start)
    assert "".join(kept).strip() == ""


@given(PASTES)
def test_splitting_again_gives_the_same(text):
    assert split(text) == split(text)


def test_the_shortest_ads_of_a_ruled_paste_are_kept():
    found = split_paste("----\nH52D 800 obo\n----\nT412 1200 firm\n----\nK425 900\n----\n")
    assert [ad.text for ad in found.ads] == ["H52D 800 obo", "T412 1200 firm", "K425 900"]


BODY = """Ran well until the day it was lifted out, and has been under a roof since.
Injection pump, starter and alternator are on it.
The flexplate is there too.
We load with a fork truck on weekdays.
$3,600 OBO, cash. Text Wes 802-555-0143, Barre."""
HEADLINE = "Hestrel H52D diesel engine - $3,750 (Barre)"


@pytest.mark.parametrize(
    "body",
    [
        pytest.param("make / manufacturer: Hestrel\ncondition: good", id="a label"),
        pytest.param("Barre VT 05641", id="a place"),
        pytest.param("H52D from our own yard.", id="the model again"),
        pytest.param("Came out of a machine that was scrapped for its bucket and its axles last fall.", id="prose"),
    ],
)
def test_a_headline_with_the_sum_belongs_to_the_body_below_it(body):
    ad = f"{HEADLINE}\n\n{body}\n{BODY}"
    assert [piece.text for piece in split(ad)] == [ad]
    other = ad.replace("H52D", "T412").replace("Hestrel", "Tolvane")
    assert [piece.text for piece in split(f"{ad}\n\n{other}")] == [ad, other]


def test_headlines_alone_are_ads():
    titles = [HEADLINE, "Tolvane T412 engine - $900 (Utica)", "Dunmarrow RL90 loader - $6,500 (Houlton)"]
    assert [piece.text for piece in split("\n\n".join(titles))] == titles
