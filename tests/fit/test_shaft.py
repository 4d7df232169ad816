import pytest
from hypothesis import given
from hypothesis import strategies as st

from interchange.catalog.figure import Figure, Origin
from interchange.catalog.model import Joint, Pattern, Shaft
from interchange.fit.finding import AGREES, DIFFERS, NOT_KNOWN
from interchange.fit.shaft import compare_shafts, module_of, pitch_diameter_mm
from interchange.quantity import Spline, read_quantity, read_spline, read_taper, read_thread


def length(text, read=""):
    return Figure(quantity=read_quantity(text, "length"), origin=Origin(read=read))


def degrees(text):
    return Figure(quantity=read_quantity(text, "angle"))


def splined(spline="14T 12/24", **more):
    return Shaft(form="involute", spline=read_spline(spline) if spline else None, **more)


def keyed(major="45 mm", width="10 mm", read="", **more):
    return Shaft(form="keyed", major=length(major, read) if major else None, width=length(width) if width else None, **more)


FINE = Shaft(form="involute", spline=Spline(20, None, 1.5875, "20T m1.5875"))


def straight(teeth=10, major="1-3/8 in", **more):
    return Shaft(form="straight-sided", teeth=teeth, major=length(major) if major else None, **more)


@pytest.mark.parametrize(
    ("a", "b", "state", "says"),
    [
        pytest.param(splined(), splined(), AGREES, "14T 12/24", id="one spline"),
        pytest.param(splined(), splined("15T 12/24"), DIFFERS, "14 teeth against 15", id="one tooth more"),
        pytest.param(splined(), splined("14T 16/32"), DIFFERS, "14T 12/24 against 14T 16/32", id="another pitch"),
        pytest.param(
            splined("20T m2"), splined("20T 12/24"), DIFFERS, "20T m2 against 20T 12/24", id="module 2 is not pitch 12 (m2.117)"
        ),
        pytest.param(splined("20T 16/32"), FINE, AGREES, "20T 16/32", id="pitch 16 is module 1.5875"),
        pytest.param(
            splined(angle=degrees("30 deg")), splined(angle=degrees("45 deg")), DIFFERS, "pressure angle", id="another angle"
        ),
        pytest.param(splined(angle=degrees("30 deg")), splined(), AGREES, "14T", id="angle not known of one"),
        pytest.param(splined(None, teeth=14), splined(), NOT_KNOWN, "pitch and diameter", id="teeth counted, nothing measured"),
        pytest.param(splined(None), splined(), NOT_KNOWN, "counted", id="not counted"),
        pytest.param(
            splined(None, teeth=14, major=length("1.25 in")),
            splined(major=length("1.25 in")),
            AGREES,
            "14",
            id="teeth and diameter",
        ),
        pytest.param(straight(), straight(), AGREES, "10 splines", id="straight-sided"),
        pytest.param(straight(), straight(6), DIFFERS, "10 teeth against 6", id="straight-sided, another count"),
        pytest.param(straight(), splined("10T 12/24"), DIFFERS, "straight-sided against involute", id="another form"),
        pytest.param(keyed(), keyed("45.15 mm"), AGREES, "keyed", id="diameters apart by 0.15 mm"),
        pytest.param(keyed(), keyed("45.16 mm"), DIFFERS, "outside diameter", id="by 0.16 mm"),
        pytest.param(keyed(), keyed("45.27 mm", read="caliper"), AGREES, "keyed", id="by 0.27 mm, read by caliper"),
        pytest.param(keyed(), keyed("45.28 mm", read="caliper"), DIFFERS, "outside diameter", id="by 0.28 mm, read by caliper"),
        pytest.param(keyed(), keyed("1-3/4 in"), DIFFERS, "45 mm against 1-3/4 in", id="45 mm is not 1-3/4 in"),
        pytest.param(keyed(), keyed(width="3/8 in"), DIFFERS, "key or tooth width", id="another key"),
        pytest.param(keyed(None), keyed(), NOT_KNOWN, "a diameter is not known", id="keyed, not measured"),
        pytest.param(
            keyed(thread_hand="left"),
            keyed(thread_hand="right"),
            DIFFERS,
            "left-hand thread against right-hand",
            id="thread hand",
        ),
        pytest.param(keyed(thread_hand="left"), keyed(), AGREES, "keyed", id="thread hand not known of one"),
        pytest.param(
            Shaft(form="taper", major=length("50 mm")),
            Shaft(form="taper", major=length("50 mm")),
            NOT_KNOWN,
            "two tapers, and the taper and the key are not known of both",
            id="two tapers",
        ),
        pytest.param(Shaft(id="nose", form="taper"), Shaft(id="nose", form="taper"), AGREES, "taper", id="one taper"),
        pytest.param(Shaft(form="flange", pattern="x"), Shaft(form="flange", pattern="x"), AGREES, "flange", id="one flange"),
        pytest.param(
            Shaft(form="flange", pattern="x"), Shaft(form="flange", pattern="y"), NOT_KNOWN, "bolt patterns", id="two flanges"
        ),
    ],
)
def test_shafts(a, b, state, says):
    found = compare_shafts(a, b)
    assert found.state == state
    assert says in found.text
    assert compare_shafts(b, a).state == state


def test_a_short_engagement_is_told():
    """Pitch diameter of 14T 12/24: 14 × 25.4 / 12 = 29.63 mm."""
    assert pitch_diameter_mm(splined()) == pytest.approx(29.6333, abs=1e-4)
    assert compare_shafts(splined(length=length("29.7 mm")), splined(length=length("40 mm"))).caveat == ""
    short = compare_shafts(splined(length=length("29.5 mm")), splined(length=length("40 mm")))
    assert (short.state, short.caveat) == (AGREES, "only 29.5 mm of engagement against a pitch diameter of 29.6 mm")


def test_what_has_not_been_checked_is_told():
    assert "width is not known" in compare_shafts(keyed(width=None), keyed()).caveat
    one_pitch = compare_shafts(splined(None, teeth=14, major=length("1.25 in")), splined(major=length("1.25 in")))
    assert "the pitch is not known of both" in one_pitch.caveat


def test_module_of_a_pitch():
    assert module_of(splined("14T 12/24")) == pytest.approx(25.4 / 12)
    assert module_of(splined("20T m2")) == 2
    assert module_of(splined(None)) is None


def tapered(major="50 mm", taper="1:8", width="12 mm", read="", **more):
    return Shaft(
        form="taper",
        major=length(major, read) if major else None,
        taper=read_taper(taper) if taper else None,
        width=length(width) if width else None,
        **more,
    )


@pytest.mark.parametrize(
    ("a", "b", "state", "says"),
    [
        pytest.param(tapered(), tapered(), AGREES, "taper 1:8; 50 mm", id="one taper"),
        pytest.param(tapered(), tapered(taper="1-1/2 in per ft"), AGREES, "taper", id="1:8 is an inch and a half per foot"),
        pytest.param(tapered(), tapered(taper="1:8.0079"), AGREES, "taper", id="another taper by less than a thousandth of it"),
        pytest.param(tapered(), tapered(taper="1:8.0081"), DIFFERS, "taper 1:8 against", id="by more"),
        pytest.param(tapered(), tapered(taper="1:10"), DIFFERS, "taper 1:8 against 1:10", id="another taper"),
        pytest.param(tapered(), tapered("50.15 mm"), AGREES, "taper", id="large end apart by 0.15 mm"),
        pytest.param(tapered(), tapered("50.16 mm"), DIFFERS, "outside diameter", id="by 0.16 mm"),
        pytest.param(tapered(), tapered(width="14 mm"), DIFFERS, "key", id="another key"),
        pytest.param(tapered(), tapered(width=None, keys=0), DIFFERS, "a key against none", id="a key and none"),
        pytest.param(tapered(width=None, keys=0), tapered(), DIFFERS, "no key against one", id="none and a key"),
        pytest.param(tapered(width=None, keys=0), tapered(width=None, keys=0), AGREES, "taper", id="both without a key"),
        pytest.param(tapered(keys=1), tapered(keys=2), DIFFERS, "1 key against 2", id="two keys"),
        pytest.param(tapered(keys=1), tapered(), AGREES, "taper", id="keys counted on one"),
        pytest.param(tapered(width=None), tapered(), NOT_KNOWN, "the key is not known", id="key not known of one"),
        pytest.param(tapered(width=None, keys=1), tapered(), NOT_KNOWN, "the key is not known", id="a key of no known width"),
        pytest.param(tapered(taper=""), tapered(), NOT_KNOWN, "the taper is not known", id="taper not known of one"),
        pytest.param(tapered(""), tapered(), NOT_KNOWN, "the large diameter is not known", id="diameter not known of one"),
        pytest.param(tapered(taper=""), tapered("60 mm"), DIFFERS, "outside diameter", id="not known, but another size"),
    ],
)
def test_tapers(a, b, state, says):
    found = compare_shafts(a, b)
    assert found.state == state
    assert says in found.text
    assert compare_shafts(b, a).state == state


def test_what_to_look_at_on_a_taper_that_agrees():
    assert compare_shafts(tapered(), tapered()).caveat == ""
    assert "sits 1.1 mm further" in compare_shafts(tapered(), tapered("50.14 mm")).caveat
    assert compare_shafts(tapered(), tapered("50.12 mm")).caveat == ""
    nuts = compare_shafts(tapered(thread=read_thread("M24x2")), tapered(thread=read_thread("3/4-16")))
    assert "thread M24x2 against 3/4-16" in nuts.caveat
    one, same = tapered(thread=read_thread("M24x2")), tapered(thread=read_thread("M24 x 2"))
    assert compare_shafts(one, same).caveat == ""
    short = compare_shafts(tapered(length=length("60 mm")), tapered(length=length("58.9 mm")))
    assert "taper 60 mm long against 58.9 mm" in short.caveat
    assert compare_shafts(tapered(length=length("60 mm")), tapered(length=length("59 mm"))).caveat == ""


def test_keys_that_nearly_agree():
    """5/16 in is 7.94 mm: a key of 8 mm has to be filed to it."""
    assert "has to be fitted" in compare_shafts(keyed(width="8 mm"), keyed(width="5/16 in")).caveat
    assert compare_shafts(keyed(width="8 mm"), keyed(width="7.97 mm")).caveat == ""
    assert "has to be fitted" in compare_shafts(keyed(width="8 mm"), keyed(width="7.96 mm")).caveat
    long, short = keyed(key_length=length("40 mm")), keyed(key_length=length("38.9 mm"))
    assert "key 40 mm long against 38.9 mm: only the shorter bears" in compare_shafts(long, short).caveat
    assert compare_shafts(long, keyed(key_length=length("39 mm"))).caveat == ""


@pytest.mark.parametrize(
    ("a", "b", "state", "says"),
    [
        pytest.param(straight(minor=length("30 mm")), straight(minor=length("30.15 mm")), AGREES, "10 splines", id="one root"),
        pytest.param(straight(minor=length("30 mm")), straight(minor=length("30.16 mm")), DIFFERS, "root diameter", id="another"),
        pytest.param(straight(width=length("6 mm")), straight(width=length("7 mm")), DIFFERS, "tooth width", id="another width"),
        pytest.param(straight(8, "40 mm"), straight(8, "36 mm"), DIFFERS, "outside diameter", id="another diameter"),
        pytest.param(straight(8, "40 mm"), straight(8, "40 mm"), AGREES, "reads like ISO 14 8×36×40", id="a size of ISO 14"),
        pytest.param(
            straight(6, "32 mm"), straight(6, "32 mm"), AGREES, "ISO 14 6×28×32 or ISO 14 6×26×32", id="light or medium series"
        ),
        pytest.param(
            straight(width=length("0.214 in")), straight(), AGREES, "from memory) or SAE 10B", id="SAE by its width"
        ),
        pytest.param(
            splined(minor=length("26 mm")), splined(minor=length("27.5 mm")), AGREES, "14T", id="an involute hub has its own root"
        ),
    ],
)  # fmt: skip
def test_straight_sided(a, b, state, says):
    found = compare_shafts(a, b)
    assert found.state == state
    assert says in found.text
    assert compare_shafts(b, a).state == state


def test_what_of_a_straight_sided_spline_is_not_read():
    assert "the key or tooth width and the root diameter are not known of both" in compare_shafts(straight(), straight()).caveat
    wide = straight(width=length("0.214 in"))
    assert "the root diameter is not known of both" in compare_shafts(wide, wide).caveat
    full = straight(width=length("0.214 in"), minor=length("30 mm"))
    assert compare_shafts(full, full).caveat == ""


@pytest.mark.parametrize(
    ("major", "read", "caveat"),
    [
        pytest.param("31.75 mm", "", "", id="as the formula gives it"),
        pytest.param("31.61 mm", "", "", id="0.14 mm under, read nobody says how"),
        pytest.param("31.59 mm", "", "where 14T 12/24 gives 31.75 mm", id="0.16 mm under"),
        pytest.param("31.63 mm", "caliper", "", id="0.12 mm under by caliper"),
        pytest.param("31.62 mm", "caliper", "where 14T 12/24 gives 31.75 mm", id="0.13 mm under by caliper"),
        pytest.param("30.2 mm", "tape", "", id="1.55 mm under by tape"),
        pytest.param("1.248 in", "handbook", "where 14T 12/24 gives 31.75 mm", id="printed slightly under"),
    ],
)
def test_a_diameter_that_pitch_and_teeth_do_not_give_is_told(major, read, caveat):
    one = splined(major=length(major, read))
    found = compare_shafts(one, one)
    assert found.state == AGREES
    assert caveat in found.caveat
    assert bool(found.caveat) == bool(caveat)


def test_the_formula_is_for_30_degrees_only():
    one = splined(major=length("30 mm"), angle=degrees("45 deg"))
    assert compare_shafts(one, one).caveat == ""
    assert (
        "reads like" not in compare_shafts(*[splined(None, teeth=14, major=length("1.25 in"), angle=degrees("45 deg"))] * 2).text
    )


def test_a_pitch_that_is_not_known_is_offered_but_decides_nothing():
    counted = splined(None, teeth=14, major=length("1.25 in"))
    assert compare_shafts(counted, counted).text == "14 splines; 1.25 in; reads like 12/24"
    beside = compare_shafts(splined(), counted)
    assert (beside.state, "1.25 in reads like 12/24" in beside.text) == (NOT_KNOWN, True)
    odd = splined(None, teeth=22, major=length("57.5 mm"))
    assert "reads like" not in compare_shafts(odd, odd).text


@pytest.mark.parametrize(
    ("major", "state"),
    [
        pytest.param("31.59 mm", DIFFERS, id="thinner than the shaft by more than 0.15 mm"),
        pytest.param("31.61 mm", NOT_KNOWN, id="by less"),
        pytest.param("33.59 mm", NOT_KNOWN, id="the root of a fillet-root hub is 33.44 mm"),
        pytest.param("33.60 mm", DIFFERS, id="wider than it"),
    ],
)
def test_a_diameter_no_spline_of_that_pitch_has_decides(major, state):
    """14T 12/24: 31.75 mm outside; (14 + 1.8) / 12 in = 33.443 mm at the root of a fillet-root hub."""
    counted = splined(None, teeth=14, major=length(major))
    assert compare_shafts(splined(), counted).state == state
    assert compare_shafts(counted, splined()).state == state


def flange(circle, holes=4, **more):
    return Pattern(circle=length(circle), holes=holes, hole=length("10.5 mm"), **more)


FLANGES = {
    "x": flange("100 mm", id="x"),
    "y": flange("100 mm", id="y"),
    "z": flange("110 mm", id="z"),
    "six": flange("100 mm", 6),
}
COMPANION = Joint(between=("a", "b"), clearance=length("0.5 mm"))


@pytest.mark.parametrize(
    ("one", "other", "state"),
    [("x", "y", AGREES), ("x", "z", DIFFERS), ("x", "six", DIFFERS), ("x", "lost", NOT_KNOWN), ("x", "", NOT_KNOWN)],
)
def test_flanges_go_by_their_bolts(one, other, state):
    """The first hole is not written, and need not be: a shaft may be turned."""
    a, b = (Shaft(form="flange", pattern=id_) for id_ in (one, other))
    assert compare_shafts(a, b, FLANGES.get, COMPANION).state == state
    assert compare_shafts(b, a, FLANGES.get, COMPANION).state == state
    assert compare_shafts(a, b).state == NOT_KNOWN


def test_an_engagement_under_three_quarters_frets():
    """Three quarters of 29.633 mm is 22.225 mm."""
    assert "fret" not in compare_shafts(splined(length=length("22.23 mm")), splined()).caveat
    assert "fret" in compare_shafts(splined(length=length("22.22 mm")), splined()).caveat


DIAMETERS = st.sampled_from([None, "30 mm", "31.75 mm", "31.9 mm", "1.25 in", "45 mm"])
WIDTHS = st.sampled_from([None, "8 mm", "5/16 in", "10 mm"])


@st.composite
def shafts(draw):
    def some(text, read=""):
        return length(text, read) if text else None

    form = draw(st.sampled_from(["involute", "straight-sided", "keyed", "taper", "flange", "plain"]))
    spline = draw(st.sampled_from([None, "14T 12/24", "14T 10/20", "14T m2", "15T 16/32"])) if form == "involute" else None
    return Shaft(
        form=form,
        spline=read_spline(spline) if spline else None,
        teeth=draw(st.sampled_from([None, 6, 14, 15])) if form in ("involute", "straight-sided") else None,
        major=some(draw(DIAMETERS), draw(st.sampled_from(["", "caliper", "tape"]))),
        minor=some(draw(DIAMETERS)),
        width=some(draw(WIDTHS)),
        length=some(draw(st.sampled_from([None, "20 mm", "40 mm"]))),
        taper=draw(st.sampled_from([None, read_taper("1:8"), read_taper("1:10")])) if form == "taper" else None,
        keys=draw(st.sampled_from([None, 0, 1, 2])) if form in ("keyed", "taper") else None,
        thread_hand=draw(st.sampled_from(["", "left", "right"])),
        pattern=draw(st.sampled_from(["", "x", "y", "z"])) if form == "flange" else "",
    )


@given(shafts(), shafts())
def test_either_way_round_is_one_answer(a, b):
    assert compare_shafts(a, b, FLANGES.get, COMPANION).state == compare_shafts(b, a, FLANGES.get, COMPANION).state


@given(shafts())
def test_a_shaft_never_differs_from_itself(shaft):
    assert compare_shafts(shaft, shaft, FLANGES.get, COMPANION).state != DIFFERS
