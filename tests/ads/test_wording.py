"""Wordings found word by word, and what the shipped list says."""

from __future__ import annotations

import pytest

from interchange.ads.fields import AdWords
from interchange.ads.wording import hits, lexicon, readings, tokens
from interchange.catalog.words import Phrase, Wording


def found(text, *phrases, words=AdWords()):  # noqa: B008 - it never changes
    return [(hit.room, hit.id, text[hit.span.start : hit.span.end]) for hit in hits(lexicon(phrases, words), tokens(text))]


@pytest.mark.parametrize(
    ("wording", "sequences"),
    [
        pytest.param("blow-by", {("blow", "by")}, id="hyphen"),
        pytest.param("turns|spins by hand", {("turns", "by", "hand"), ("spins", "by", "hand")}, id="choice"),
        pytest.param("turns (over) by hand", {("turns", "by", "hand"), ("turns", "over", "by", "hand")}, id="left out"),
        pytest.param(
            "is (not|never) stuck", {("is", "stuck"), ("is", "not", "stuck"), ("is", "never", "stuck")}, id="choice left out"
        ),
        pytest.param("don't know", {("dont", "know")}, id="apostrophe"),
        pytest.param("runs, drives", {("runs", ",", "drives")}, id="comma"),
    ],
)
def test_readings(wording, sequences):
    assert set(readings(wording)) == sequences


@pytest.mark.parametrize(
    "wording", ["receipts (for (the) rebuild)", "turns (over by hand", "over) by hand", " ".join(["(a|b|c)"] * 6)]
)
def test_wordings_that_cannot_be_read(wording):
    with pytest.raises(ValueError, match=r"brackets|wordings"):
        list(readings(wording))


def test_longest_wording_wins_and_rooms_do_not_hinder_each_other():
    ran = Phrase(id="ran", say=("ran",))
    parked = Phrase(id="parked", say=("ran when parked",))
    words = AdWords(things=(Wording(id="engine", say=("engine",)),), facts=(Wording(id="told", say=("engine ran",)),))
    assert found("Engine ran when parked", ran, parked, words=words) == [
        ("thing", "engine", "Engine"),
        ("fact", "told", "Engine ran"),
        ("phrase", "parked", "ran when parked"),
    ]


@pytest.mark.parametrize(
    "text",
    ["blow-by", "BLOW BY", "blow\nby", "blow  by", "blow\u2011by", "(blow-by)", "blow-by."],
)
def test_one_wording_many_looks(text):
    assert [hit[1] for hit in found(text, Phrase(id="blow_by", say=("blow-by",)))] == ["blow_by"]


@pytest.mark.parametrize("text", ["blow. By", "blow\n\nby", "blow, by", "blow; by", "blow\nBy", "blowby", "elbow-by"])
def test_pauses_and_other_words_part_a_wording(text):
    assert found(text, Phrase(id="blow_by", say=("blow-by",))) == []


def test_offsets_are_of_the_text():
    text = "\u2705 RL90:  doesn\u2019t  KNOCK!"
    assert [text[token.start : token.end] for token in tokens(text) if token.key.isalnum()] == ["RL90", "doesn\u2019t", "KNOCK"]


# Chances that a unit so described needs no internal work, against one of 35 % of which nothing is said: judgements of this
# project. The ratios shipped are these as odds over the base's odds, to two figures.
BASE = 0.35
CHANCES = {
    "cold_start_video": 0.7, "runs_and_drives": 0.7, "pulled_for_upgrade": 0.55, "ran_when_parked": 0.35,
    "rebuilt_no_receipts": 0.35,
    "turns_by_hand": 0.3, "hard_starting": 0.25, "needs_head_gasket": 0.2, "stuck_from_sitting": 0.1,
    "blow_by": 0.1, "milky_oil": 0.1,
    "for_parts": 0.05, "not_running": 0.05, "knocks": 0.03, "seized_running": 0.02, "cracked_block": 0.0,
    "low_hours": 0.4, "fresh_paint": 0.25, "no_plate_photo": 0.25,
}  # fmt: skip


@pytest.mark.parametrize(("name", "chance"), CHANCES.items())
def test_shipped_ratios(phrases, name, chance):
    (ratio,) = (phrase.ratio for phrase in phrases if phrase.id == name)
    assert ratio == pytest.approx(chance / (1 - chance) / (BASE / (1 - BASE)), rel=0.05)


def test_every_shipped_phrase_says_something(phrases):
    assert [phrase.id for phrase in phrases if (phrase.ratio, phrase.caution) == (None, None)] == []


def test_a_denial_counts_the_other_way(phrases):
    both = [(phrase.ratio, phrase.denied) for phrase in phrases if phrase.denied is not None]
    assert both
    assert all(ratio is not None and (ratio < 1 < denied or denied < ratio) for ratio, denied in both)


def test_offer_words_cover_the_trade(words):
    assert {wording.id for wording in words.offers} >= {
        "running_machine", "machine", "parts_machine", "complete", "drop_out", "long_block", "short_block",
        "bare_block", "core", "part",
    }  # fmt: skip


def every(phrases, words):
    return [*phrases, *(wording for room in words for wording in room)]


def test_every_shipped_wording_is_found(phrases, words):
    """In text as sellers write it, by its own id or by a longer or earlier neighbour's."""
    tree = lexicon(phrases, words)
    lost = []
    for one in every(phrases, words):
        for wording in one.say:
            for sequence in readings(wording):
                text = " ".join(sequence).replace(" ,", ",").replace(" .", ".")
                if not hits(tree, tokens(text)):
                    lost.append((one.id, wording, text))
    assert lost == []


def test_no_wording_shrinks_to_one_word_unless_listed_so(phrases, words):
    """`(pay|deposit) before` also reads "before": what may be left out must not be all that tells."""
    shrunk = []
    for one in every(phrases, words):
        plain = {sequence for wording in one.say if "(" not in wording for sequence in readings(wording)}
        shrunk += [
            (one.id, wording, words_)
            for wording in one.say
            for words_ in readings(wording)
            if len(words_) == 1 and words_ not in plain
        ]
    assert shrunk == []


def test_a_wording_means_one_thing(phrases, words):
    """No wording stands under two ids of a room: which would win is chance."""
    for room in (phrases, *words):
        seen: dict[tuple[str, ...], str] = {}
        doubled = [
            (sequence, one.id, seen[sequence])
            for one in room
            for wording in one.say
            for sequence in readings(wording)
            if seen.setdefault(sequence, one.id) != one.id
        ]
        assert doubled == []
