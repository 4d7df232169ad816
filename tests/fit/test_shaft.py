import pytest

from interchange.catalog.figure import Figure, Origin
from interchange.catalog.model import Shaft
from interchange.fit.finding import AGREES, DIFFERS, NOT_KNOWN
from interchange.fit.shaft import compare_shafts, module_of, pitch_diameter_mm
from interchange.quantity import Spline, read_quantity, read_spline


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
            "tapers",
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
