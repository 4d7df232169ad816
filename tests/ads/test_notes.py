"""The user's own lines under an ad."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from interchange.ads.notes import Note, correction, in_order, read_note, statements, unanswered, without_notes
from interchange.ads.pasted import ads_in, each_once
from interchange.errors import Problem

AS_PASTED = "Hestrel H52D engine\n$3,750 OBO\nBarre, VT\n\nTolvane T412 engine\n$925\n"
WITH_LINES = """\
Hestrel H52D engine
$3,750 OBO
Barre, VT
@ 2026-11-20 price: $3,200
@ 2026-11-20 asked: plate photo

Tolvane T412 engine
$925
  @ 2026-11-21 asked: does it turn
"""


def note(word, text, day="2026-11-20", line=1):
    return Note(day, word, text, "ads.txt", line)


def test_without_ones_own_lines_a_paste_is_what_it_was():
    text, cuts = without_notes(WITH_LINES, "ads.txt")
    assert text == AS_PASTED
    assert [(cut.note.line, cut.note.word, cut.note.text) for cut in cuts] == [
        (4, "price", "$3,200"),
        (5, "asked", "plate photo"),
        (9, "asked", "does it turn"),
    ]


def test_lines_belong_to_the_ad_above_and_change_neither_its_id_nor_its_place():
    plain, noted = ads_in(AS_PASTED, "ads.txt"), ads_in(WITH_LINES, "ads.txt")
    assert [ad.id for ad in noted] == [ad.id for ad in plain]
    assert [ad.line for ad in noted] == [1, 7]
    assert [[each.word for each in ad.notes] for ad in noted] == [["price", "asked"], ["asked"]]


def test_a_line_above_every_ad_is_a_fault_and_is_told():
    (ad, _) = ads_in("@ 2026-11-20 price: $5\n" + AS_PASTED, "ads.txt")
    assert ad.notes == ()
    assert [(fault.line, fault.slug) for fault in ad.faults] == [(1, "no-ad")]


def test_an_ad_pasted_again_keeps_the_lines_under_both():
    (ad,) = each_once([*ads_in("Tolvane T412 engine\n$925\n@ 2026-11-20 asked: plate photo\n", "a"),
                       *ads_in("Tolvane T412 engine\n$925\n@ 2026-11-22 answered: plate photo: sent\n", "b")])  # fmt: skip
    assert [each.word for each in ad.notes] == ["asked", "answered"]


@pytest.mark.parametrize(
    ("line", "column", "slug"),
    [
        pytest.param("@ 2026-11-31 price: $5", 3, "bad-date", id="no such day"),
        pytest.param("@ 2026-11-20 prise: $5", 14, "unknown-word", id="misspelt"),
        pytest.param("@ 2026-11-20 price:", 14, "empty", id="nothing said"),
        pytest.param("@ 2026-11-20 price $5", 1, "bad-note", id="no colon"),
        pytest.param("   @ 2026-11-20 colour: red", 17, "unknown-word", id="set in"),
    ],
)
def test_what_is_no_note_is_told_with_its_place(line, column, slug):
    found = read_note(line, "ads.txt", 7)
    assert isinstance(found, Problem)
    assert (found.line, found.column, found.slug) == (7, column, slug)
    assert found.hint


def test_a_misspelt_word_is_suggested():
    assert read_note("@ 2026-11-20 answred: no", "ads.txt", 1).hint == "did you mean 'answered'?"


@pytest.mark.parametrize("line", ["@dunmarrow_parts", "mail me @ home", "rate: $5 @ 2026", "@ the yard on route 9"])
def test_what_a_seller_writes_is_left_alone(line):
    assert without_notes(f"{line}\n", "ads.txt") == (f"{line}\n", ())


@given(st.lists(st.sampled_from([*AS_PASTED.splitlines(), "@ 2026-11-20 note: x", "@ 2026-1 y", "\x0b", "a\x0cb", "\r"])))
def test_nothing_is_lost_of_any_text(lines):
    text = "".join(f"{line}\n" for line in lines)
    left, cuts = without_notes(text, "ads.txt")
    assert left.count("\n") + len(cuts) == len(lines)
    assert [cut.at for cut in cuts] == sorted(cut.at for cut in cuts)
    assert all(lines[cut.note.line - 1].startswith("@ 2026-1") for cut in cuts)


def test_the_latest_correction_stands():
    notes = [note("price", "$3,000", "2026-11-22"), note("price", "$3,200"), note("place", "Barre, VT")]
    assert correction(notes, "price").text == "$3,000"
    assert correction(notes, "hours") is None


@pytest.mark.parametrize(
    ("answer", "open_"),
    [
        pytest.param(note("answered", "plate photo: sent", "2026-11-22"), [], id="answered"),
        pytest.param(note("answered", "Plate photo?: sent", "2026-11-22"), [], id="whatever its capitals and mark"),
        pytest.param(note("answered", "plate photo: sent", "2026-11-19"), ["plate photo"], id="before it was asked"),
        pytest.param(note("answered", "hours: 400", "2026-11-22"), ["plate photo"], id="something else"),
    ],
)
def test_a_question_counts_until_it_is_answered(answer, open_):
    assert [each.text for each in unanswered([note("asked", "plate photo"), answer])] == open_


@pytest.mark.parametrize(
    ("text", "said"),
    [
        pytest.param("does it knock: no", [("knock", True)], id="no"),
        pytest.param("does it turn over: yes", [("turn over", False)], id="yes"),
        pytest.param("does it turn over: Yes, by hand", [("turn over", False), ("by hand", False)], id="yes and more"),
        pytest.param("why was it pulled: pulled for upgrade", [("pulled for upgrade", False)], id="in words"),
        pytest.param("it smokes", [("it smokes", False)], id="without a question"),
        pytest.param("is the nose splined: north side", [("north side", False)], id="begins like a no"),
    ],
)
def test_answers_are_statements(text, said):
    assert [(one.text, one.denied) for one in statements([note("answered", text)])] == said


def test_notes_are_in_order_and_once():
    one, other = note("note", "a", "2026-11-22"), note("note", "b")
    assert in_order([one, other, one]) == (other, one)
