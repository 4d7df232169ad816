"""Which form of a unit the words of an ad show: its own name, what tells it, a plate's letter, a serial number, a machine."""

from __future__ import annotations

import pytest

from interchange.ads.corrected import NO_STRETCH
from interchange.ads.fields import Span
from interchange.ads.form_signs import MOST, NEVER, FormSign, told_odds
from interchange.ads.form_told import FROM, LETTER, NAME, SERIAL, TELL, TYPE, clues, shown
from interchange.ads.form_words import STOP, form_words
from interchange.ads.notes import read_note
from interchange.ads.pasted import Ad
from interchange.ads.reads import ad_words, matched
from interchange.ads.shelf import read_new
from interchange.store.library import Library

DIESEL = clues(
    "Norrow N44",
    {
        "yard": ("Norrow N44, loader", "splined coupler on the crank nose; plate code ends in L"),
        "farm": ("Norrow N44, tractor", "cast pan with half-inch bolts; four axle bolts a side; casting number ends in S"),
        "works": (
            "Norrow N44, power unit",
            "stamped pan; size 4 housing; governed at 1800; no coupler on the nose; serial below 41200",
        ),
    },
)


def told(text):
    return {(one.variant, one.sort) for one in shown(text, DIESEL)}


@pytest.mark.parametrize(
    ("text", "signs"),
    [
        pytest.param("N44 out of a loader", {("yard", FROM)}, id="what it came out of"),
        pytest.param("Norrow N44 tractor engine", {("farm", TYPE)}, id="its own name before engine"),
        pytest.param("N44, power unit", {("works", TYPE)}, id="its own name after the model"),
        pytest.param("Pwr. unit, runs. Norrow", {("works", NAME)}, id="its own name somewhere"),
        pytest.param("has the cast pan, 1/2 in bolts", {("farm", TELL)}, id="part of a tell"),
        pytest.param("tin oil pan", {("works", TELL)}, id="another word for it"),
        pytest.param("SAE 4 bell housing", {("works", TELL)}, id="a size as sellers write it"),
        pytest.param("SAE 3 bell housing", set(), id="another size"),
        pytest.param("axle bolts, 4 a side", {("farm", TELL)}, id="a number near what it counts"),
        pytest.param("coupler still on the nose", {("yard", TELL)}, id="most of a tell's words"),
        pytest.param("no coupler on the nose", {("works", TELL)}, id="a tell that says no"),
        pytest.param("plate ends in L", {("yard", LETTER)}, id="the plate's letter"),
        pytest.param("casting no. 44-0812S", {("farm", LETTER)}, id="a letter at the end of a casting number"),
        pytest.param("s/n 40117", {("works", SERIAL)}, id="a serial number below"),
        pytest.param("s/n 41200", set(), id="a serial number that is not below"),
        pytest.param("serial 386xx", {("works", SERIAL)}, id="a serial number half told"),
        pytest.param("fits a loader", set(), id="what it fits"),
        pytest.param("for my tractor", set(), id="what it is for"),
        pytest.param("not the loader engine", set(), id="what it is not"),
        pytest.param("pan gasket. Cast iron manifold", set(), id="words of two sentences"),
    ],
)
def test_what_shows_a_form(text, signs):
    assert told(text) == signs


def test_what_two_forms_have_in_common_tells_nothing():
    found = clues("N44", {"a": ("N44, early", "cast pan; six bolts"), "b": ("N44, late", "cast pan; eight bolts")})
    assert {(one.variant, one.words) for one in found} == {
        ("a", ("early",)), ("a", ("6", "bolt")), ("b", ("late",)), ("b", ("8", "bolt")),
    }  # fmt: skip


@pytest.mark.parametrize(
    ("text", "words"),
    [
        pytest.param("8-bolt crank", ["8", "bolt", "crank"], id="hyphen"),
        pytest.param("eleven-and-a-half-inch coupling", ["11.5", "inch", "coupling"], id="a half in words"),
        pytest.param('1-1/4" 14T', ["1.25", "inch", "14", "tooth"], id="a mixed number, a letter for teeth"),
        pytest.param("41/11", ["41", "11"], id="a ratio is two numbers"),
        pytest.param("dual clutch, dual remotes", ["twostage", "clutch", "dual", "remot"], id="what is double"),
        pytest.param("industrial, Kokomo, Ind. Industrial Way", ["industrial", "kokomo", "ind", STOP, "address"], id="addresses"),
        pytest.param("1,800 rpm, 24V", ["1800", "rpm", "24", "volt"], id="thousands, volts"),
    ],
)
def test_words_of_one_spelling(text, words):
    assert [word.key for word in form_words(text)] == words


def test_words_stand_where_they_stand():
    text = 'Fork lift, 1-1/4" shaft'
    assert [text[word.start : word.end] for word in form_words(text)] == ["Fork lift", "1-1/4", '"', "shaft"]


def test_odds_multiply_up_to_a_limit():
    def sign(variant, odds):
        return FormSign("u", variant, odds, "", Span(0, 0), "")

    signs = [sign("a", 18.0), sign("a", 2.0), sign("b", 0.5), *[sign("c", 18.0)] * 3]
    assert told_odds(signs, "u") == {"a": 36.0, "b": 0.5, "c": MOST}
    assert told_odds(signs, "other") == {}


@pytest.fixture(scope="module")
def forms_of(demo_store):
    library = Library(demo_store)
    words = ad_words(library)

    def forms_of_(text):
        return matched(library, read_new([Ad("a", text, "", 1, "")], words))[0].forms

    return forms_of_


def test_a_machine_it_came_out_of_tells_its_form(forms_of):
    """The demo's RL90 came with the loader form (0.45 of all H52D) and never with another."""
    odds = told_odds(forms_of("Hestrel H52D engine out of an RL90"), "hestrel-h52d")
    assert odds == pytest.approx({"loader": 1 / 0.45, "row-crop": NEVER / 0.25, "power-unit": NEVER / 0.3})


def test_a_machine_it_fits_tells_nothing(forms_of):
    assert forms_of("Hestrel H52D engine for an RL90") == ()


@pytest.mark.parametrize(
    ("line", "variant"),
    [
        pytest.param("answered: plate photo: the code ends in L", "loader", id="an answer"),
        pytest.param("answered: coupler on the nose: no", "power-unit", id="a no to a question"),
        pytest.param("photo: thirteen-inch clutch in it", "row-crop", id="a photo"),
    ],
)
def test_what_was_answered_tells_a_form(demo_store, line, variant):
    library = Library(demo_store)
    note = read_note(f"@ 2026-11-22 {line}", "a.txt", 3)
    ads = read_new([Ad("a", "Hestrel H52D engine, runs", "", 1, "", notes=(note,))], ad_words(library))
    (sign,) = matched(library, ads)[0].forms
    assert (sign.variant, sign.span) == (variant, NO_STRETCH)
    assert "2026-11-22" in sign.text


def test_signs_point_into_the_ad_as_pasted(forms_of):
    text = "Hestrel H52D, eng. from fork lift,\n\x1b[1mplate ends in P\x1b[0m. runs, twenty two hundred"
    (sign,) = [one for one in forms_of(text) if one.variant == "power-unit"]
    assert (text[slice(*sign.span)], sign.odds) == ("ends in P", 20.0)
