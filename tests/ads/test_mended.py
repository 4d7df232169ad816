"""Text as a scanner or a dictating telephone leaves it, made readable, with every place led back."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from interchange.ads.mended import mended


@pytest.mark.parametrize(
    ("given", "read"),
    [
        pytest.param("3,4O0 HRS", "3,400 HRS", id="letter O in a number"),
        pytest.param("59oo or best", "5900 or best", id="as many letters as digits"),
        pytest.param("8l2 hours", "812 hours", id="letter l in a number"),
        pytest.param("$2,8OO", "$2,800", id="after a dollar sign"),
        pytest.param("PRICE S3,900", "PRICE $3,900", id="S for the dollar sign"),
        pytest.param("Skarrow S28", "Skarrow S28", id="S of a model stays"),
        pytest.param("D1ESEL ENG1NE", "DIESEL ENGINE", id="ones in words"),
        pytest.param("0RRINDALE", "ORRINDALE", id="nought leads a word"),
        pytest.param("5.2l diesel", "5.2l diesel", id="a litre stays"),
        pytest.param("T412 H52D B440 OD46", "T412 H52D B440 OD46", id="models stay"),
        pytest.param("L2OR pump", "L20R pump", id="O among the digits of a model"),
        pytest.param("H2O in oil", "H2O in oil", id="water stays"),
        pytest.param("rnotor frorn barn", "motor from barn", id="rn for m only where it makes a word"),
        pytest.param("trac-\ntor, $2,-\n950", "tractor, $2,950", id="broken at line ends"),
        pytest.param("- one\n- two", "- one\n- two", id="a list is not broken words"),
        pytest.param("Littleton, N.H.", "Littleton, NH.", id="dotted state"),
        pytest.param("3 900 $ CAD", "3,900 $ CAD", id="blank for thousands before a currency"),
        pytest.param("call 555 0143", "call 555 0143", id="a telephone keeps its blank"),
        pytest.param("dsl. eng., gd.", "diesel engine, good", id="short forms"),
        pytest.param("ElkoNV", "Elko NV", id="state run on"),
        pytest.param("twenty two hundred dollars", "2,200 dollars", id="hundreds"),
        pytest.param("seven fifty firm", "750 firm", id="hundreds left unsaid"),
        pytest.param("h fifty two d", "h 52 d", id="a model spelled"),
        pytest.param("be four forty", "b 440", id="a letter by its name"),
        pytest.param("sixty six cylinder", "60 six cylinder", id="no engine has sixty six cylinders"),
        pytest.param("two thousand nineteen", "2019", id="a year"),
        pytest.param("a grand", "1,000", id="a grand"),
        pytest.param("two and a half grand", "2,500", id="a half"),
        pytest.param("three thousand twenty five hundred cash", "3,000 2,500 cash", id="two numbers side by side"),
        pytest.param("two for nine hundred", "two for 900", id="a small number stays in words"),
        pytest.param("five five five zero one one nine", "five five five zero one one nine", id="a telephone is read elsewhere"),
        pytest.param("eight three four four zero", "83440", id="a ZIP said digit by digit"),
        pytest.param("eighteen hundred no make it sixteen hundred", " 1,600", id="taken back"),
        pytest.param("runs good comma no smoke period nine fifty", "runs good, no smoke. 950", id="stops said aloud"),
        pytest.param("A long grace period.", "A long grace period.", id="a period where stops are written"),
    ],
)
def test_mended(given, read):
    assert mended(given).text == read


def test_places_lead_back():
    text = "H52D ENG1NE, twenty two hundred, H0ULTON"
    whole = mended(text)
    at = whole.text.index("2,200")
    start, end = whole.back(at, at + 5)
    assert text[start:end] == "twenty two hundred"
    assert whole.forth(text.index("H0ULTON")) == whole.text.index("HOULTON")


PIECES = st.sampled_from(
    [
        "twenty ",
        "five ",
        "hundred ",
        "no make it ",
        "0RR",
        "1l",
        "-\n",
        "$",
        "rn",
        "N.H. ",
        "eng. ",
        "S1,2O0 ",
        "x",
        " ",
        "comma ",
    ]
)


@given(st.lists(PIECES, max_size=20).map("".join))
def test_any_stretch_leads_back_into_the_text(text):
    whole = mended(text)
    for start in range(0, len(whole.text), 3):
        first, last = whole.back(start, min(start + 4, len(whole.text)))
        assert 0 <= first <= last <= len(text)
