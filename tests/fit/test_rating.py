import pytest

from interchange.catalog.figure import Figure, Origin
from interchange.catalog.model import Rule
from interchange.fit.finding import AGREES, DIFFERS, NOT_KNOWN
from interchange.fit.rating import compare
from interchange.quantity import read_quantity, read_rating


def figure(text, dimension, **more):
    return Figure(quantity=read_quantity(text, dimension), **more)


def mm(text, read=""):
    return figure(text, "length", origin=Origin(read=read))


def hp(text):
    rating = read_rating(text, "power")
    return Figure(quantity=rating.amount._replace(text=rating.text), speed_rpm=rating.speed.value if rating.speed else None)


def word(text):
    return Figure(word=text)


SAME, LEAST, MOST = Rule(name="same"), Rule(name="at least"), Rule(name="at most")
TENTH = Rule(name="within", below=0.1, above=0.1)
POWER = Rule(name="within", below=0.1, above=0.15)
PLAY = Rule(name="within", below=1.5, above=1.5, relative=False)
FLOOR = Rule(name="within", below=0.1)
CEILING = Rule(name="within", above=0.1)
FRAME = Rule(name="pairs", pairs=(("stressed", "frameless"), ("stressed", "framed"), ("plain", "framed")))


@pytest.mark.parametrize(
    ("rule", "give", "need", "state"),
    [
        pytest.param(SAME, word("Clockwise"), word("clockwise"), AGREES, id="one word, whatever its letters"),
        pytest.param(SAME, word("clockwise"), word("counter-clockwise"), DIFFERS, id="two words"),
        pytest.param(SAME, figure("12 V", "voltage"), figure("12 V", "voltage"), AGREES, id="12 V"),
        pytest.param(SAME, figure("24 V", "voltage"), figure("12 V", "voltage"), DIFFERS, id="24 V"),
        pytest.param(SAME, mm("25.4 mm"), mm("1 in"), AGREES, id="one length in two units"),
        pytest.param(SAME, mm("25.5 mm"), mm("1 in"), DIFFERS, id="0.1 mm off, exactly known"),
        pytest.param(SAME, mm("25.5 mm", "caliper"), mm("1 in"), AGREES, id="0.1 mm off, by caliper"),
        pytest.param(LEAST, mm("100 mm"), mm("100 mm"), AGREES, id="at least: just"),
        pytest.param(LEAST, mm("99.9 mm"), mm("100 mm"), DIFFERS, id="at least: just not"),
        pytest.param(LEAST, mm("500 mm"), mm("100 mm"), AGREES, id="at least: plenty"),
        pytest.param(MOST, mm("100 mm"), mm("100 mm"), AGREES, id="at most: just"),
        pytest.param(MOST, mm("100.1 mm"), mm("100 mm"), DIFFERS, id="at most: just not"),
        pytest.param(MOST, mm("101.5 mm", "tape"), mm("100 mm"), AGREES, id="at most: not by the tape, which may be 1.6 mm off"),
        pytest.param(MOST, mm("101.7 mm", "tape"), mm("100 mm"), DIFFERS, id="at most: more than a tape may be off"),
        pytest.param(TENTH, figure("900 lb", "mass"), figure("1,000 lb", "mass"), AGREES, id="a tenth below"),
        pytest.param(TENTH, figure("899 lb", "mass"), figure("1,000 lb", "mass"), DIFFERS, id="more than a tenth below"),
        pytest.param(TENTH, figure("1,100 lb", "mass"), figure("1,000 lb", "mass"), AGREES, id="a tenth above"),
        pytest.param(TENTH, figure("1,101 lb", "mass"), figure("1,000 lb", "mass"), DIFFERS, id="more than a tenth above"),
        pytest.param(POWER, hp("92 hp @ 2200 rpm"), hp("80 hp @ 2200 rpm"), AGREES, id="15 % above is allowed"),
        pytest.param(POWER, hp("68 hp @ 2200 rpm"), hp("80 hp @ 2200 rpm"), DIFFERS, id="15 % below is not"),
        pytest.param(PLAY, mm("101.5 mm"), mm("100 mm"), AGREES, id="an amount, just"),
        pytest.param(PLAY, mm("101.6 mm"), mm("100 mm"), DIFFERS, id="an amount, just not"),
        pytest.param(FLOOR, mm("900 mm"), mm("100 mm"), AGREES, id="only below: any above"),
        pytest.param(FLOOR, mm("89 mm"), mm("100 mm"), DIFFERS, id="only below: too low"),
        pytest.param(CEILING, mm("1 mm"), mm("100 mm"), AGREES, id="only above: any below"),
        pytest.param(CEILING, mm("111 mm"), mm("100 mm"), DIFFERS, id="only above: too high"),
        pytest.param(FRAME, word("stressed"), word("frameless"), AGREES, id="stressed block, no frame"),
        pytest.param(FRAME, word("stressed"), word("framed"), AGREES, id="stressed block in a frame"),
        pytest.param(FRAME, word("plain"), word("framed"), AGREES, id="plain block in a frame"),
        pytest.param(FRAME, word("plain"), word("frameless"), DIFFERS, id="plain block, no frame"),
        pytest.param(SAME, None, word("x"), NOT_KNOWN, id="not known of the one"),
        pytest.param(SAME, word("x"), None, NOT_KNOWN, id="of the other"),
        pytest.param(SAME, None, None, NOT_KNOWN, id="of neither"),
    ],
)
def test_rules(rule, give, need, state):
    assert compare(rule, give, need).state == state


def disputed(*texts, dimension="power"):
    first, *others = (figure(text, dimension) for text in texts)
    return Figure(quantity=first.quantity, others=tuple(others))


def test_sources_that_differ_have_to_say_the_same():
    need = figure("84 hp", "power")
    agreeing = compare(POWER, disputed("84 hp", "81 hp"), need)
    assert agreeing.state == AGREES
    assert agreeing.caveat.startswith("sources differ: 84 hp")
    assert compare(POWER, disputed("84 hp", "60 hp"), need).state == NOT_KNOWN
    assert compare(POWER, disputed("50 hp", "60 hp"), need).state == DIFFERS


@pytest.mark.parametrize(
    ("rule", "give", "need", "says"),
    [
        pytest.param(SAME, word("clockwise"), word("clockwise"), "both clockwise", id="the same"),
        pytest.param(SAME, word("left"), word("right"), "left against right", id="words apart"),
        pytest.param(FRAME, word("plain"), word("framed"), "plain goes with framed", id="a pair"),
        pytest.param(FRAME, word("plain"), word("frameless"), "plain does not go with frameless", id="no pair"),
        pytest.param(MOST, mm("36-1/4 in"), mm("41-1/2 in"), "36-1/4 in, at most 41-1/2 in", id="room enough"),
        pytest.param(MOST, mm("50 in"), mm("41-1/2 in"), "50 in, at most 41-1/2 in: 215.9 mm (8-1/2 in) over", id="too long"),
        pytest.param(LEAST, mm("74.6 mm"), mm("100 mm"), "74.6 mm, at least 100 mm: 25.4 mm (1 in) short", id="too short"),
        pytest.param(
            POWER, hp("68 hp @ 2200 rpm"), hp("80 hp @ 2100 rpm"), "68 hp @ 2200 rpm against 80 hp @ 2100 rpm (-15%)", id="power"
        ),
        pytest.param(SAME, figure("24 V", "voltage"), figure("12 V", "voltage"), "24 V against 12 V", id="voltage"),
        pytest.param(SAME, mm("25.4 mm"), mm("1 in"), "25.4 mm is 1 in", id="one length in two units"),
        pytest.param(SAME, None, word("diesel"), "what it has not known; what it must suit is diesel", id="not known"),
    ],
)
def test_words(rule, give, need, says):
    assert compare(rule, give, need).text == says


def test_a_length_that_is_off_says_by_how_much():
    assert compare(MOST, mm("110 mm"), mm("100 mm")).gap_mm == pytest.approx(10, abs=1e-3)
    assert compare(PLAY, mm("97 mm"), mm("100 mm")).gap_mm == pytest.approx(1.5, abs=1e-3)
    assert compare(PLAY, mm("99 mm"), mm("100 mm")).gap_mm is None


def test_what_agrees_only_by_grace_of_the_reading_says_so():
    assert compare(MOST, mm("101 mm", "tape"), mm("100 mm")).caveat == "only within what the readings may be off"
    assert compare(MOST, mm("99 mm", "tape"), mm("100 mm")).caveat == ""
