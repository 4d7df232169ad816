"""Spline diameters by ANSI B92.1 against the shafts of SAE J744."""

import pytest

from interchange.fit.spline_size import pitches_like, spline_size
from interchange.quantity import read_spline, read_taper

IN = 25.4

# SAE J744 shaft ends: teeth, pitch and outside diameter in inches. PowerTorque (Funk), "SAE pump standards" table; Mechaface,
# "Spline components"; tooth counts also in the Danfoss H1 210/250 list of auxiliary mountings. CC and the pitch of BB are from
# memory.
SHAFTS = [
    ("sae-j744-a-spline", "9T 16/32", 0.625),
    ("sae-j744-a-11-spline", "11T 16/32", 0.750),
    ("sae-j744-b-spline", "13T 16/32", 0.875),
    ("sae-j744-bb-spline", "15T 16/32", 1.000),
    ("sae-j744-c-spline", "14T 12/24", 1.250),
    ("sae-j744-cc-spline", "17T 12/24", 1.500),
    ("sae-j744-d-spline", "13T 8/16", 1.750),
    ("sae-j744-f-spline", "15T 8/16", 2.000),
]
# The code of each end names its diameter in whole millimetres (tnlab.org, article on SAE J744); -4 is a 30° involute.
CODES_MM = {
    "sae-j744-a-spline": 16, "sae-j744-a-11-spline": 19, "sae-j744-b-spline": 22, "sae-j744-bb-spline": 25,
    "sae-j744-c-spline": 32, "sae-j744-cc-spline": 38, "sae-j744-d-spline": 44, "sae-j744-f-spline": 50,
}  # fmt: skip
# Keyed ends, from memory: shaft and key in inches.
KEYED = [
    ("sae-j744-a-keyed", 0.625, 0.15625),
    ("sae-j744-b-keyed", 0.875, 0.25),
    ("sae-j744-bb-keyed", 1.0, 0.25),
    ("sae-j744-c-keyed", 1.25, 0.3125),
    ("sae-j744-cc-keyed", 1.5, 0.375),
    ("sae-j744-d-keyed", 1.75, 0.4375),
]


@pytest.mark.parametrize(("id_", "written", "major_in"), SHAFTS, ids=[row[0] for row in SHAFTS])
def test_pump_shaft(shafts, id_, written, major_in) -> None:
    one = shafts[id_]
    assert (one.form, one.spline) == ("involute", read_spline(written))
    assert one.angle.value == pytest.approx(30)
    size = spline_size(one.spline)
    assert size.major_external_mm / IN == pytest.approx(major_in)
    # The table prints 1.998 in for F, a shaft slightly under 2.000; all others are printed as the formula gives them.
    printed_in = 1.998 if id_ == "sae-j744-f-spline" else major_in
    assert one.major.value / IN == pytest.approx(printed_in)
    assert f"{CODES_MM[id_]}-4" in one.size
    assert one.major.value == pytest.approx(CODES_MM[id_], abs=0.81)  # 50.8 mm is coded 50
    assert one.length is None  # the printed length is of the whole end, not of the spline


@pytest.mark.parametrize(("id_", "shaft_in", "key_in"), KEYED, ids=[row[0] for row in KEYED])
def test_keyed_pump_shaft(shafts, id_, shaft_in, key_in) -> None:
    one = shafts[id_]
    assert (one.form, one.origin.basis, one.spline) == ("keyed", "memory", None)
    assert one.major.value == pytest.approx(shaft_in * IN)
    assert one.width.value == pytest.approx(key_in * IN)


# Engineers Edge, "Involute spline ANSI B92.1 equations"; it works no example, so these are worked by hand from its equations.
WORKED = [
    pytest.param(
        "13T 16/32",
        {
            "pitch_diameter_mm": 0.8125, "base_diameter_mm": 0.70365, "circular_pitch_mm": 0.19635,
            "space_width_mm": 0.098175, "major_external_mm": 0.875, "minor_internal_mm": 0.75,
            "major_internal_mm": 0.896875, "minor_external_mm": 0.728125, "form_clearance_mm": 0.002,
            "form_internal_mm": 0.879, "form_external_mm": 0.746,
        },
        id="13T 16/32",
    ),
    pytest.param(
        "14T 12/24",
        {
            "pitch_diameter_mm": 1.16667, "base_diameter_mm": 1.01036, "major_external_mm": 1.25,
            "minor_internal_mm": 1.08333, "major_internal_mm": 1.27917, "minor_external_mm": 1.05417,
        },
        id="14T 12/24",
    ),
]  # fmt: skip


@pytest.mark.parametrize(("written", "inches"), WORKED)
def test_worked_example(written, inches) -> None:
    size = spline_size(read_spline(written))._asdict()
    assert {name: size[name] / IN for name in inches} == pytest.approx(inches, abs=5e-6)


def test_fillet_roots() -> None:
    """(N + 1.8) / P and (N - 1.8) / P, from the same equations; the fillet root of a finer shaft is disputed, so not known."""
    coarse, fine = spline_size(read_spline("14T 12/24")), spline_size(read_spline("13T 16/32"))
    assert coarse.major_internal_fillet_mm / IN == pytest.approx(15.8 / 12)
    assert coarse.minor_external_fillet_mm / IN == pytest.approx(12.2 / 12)
    assert fine.major_internal_fillet_mm / IN == pytest.approx(14.8 / 16)
    assert fine.minor_external_fillet_mm is None


@pytest.mark.parametrize(
    ("written", "clearance_in"),
    [
        pytest.param("31T 16/32", 0.002, id="a thousandth of 1.9375 in is below the least"),
        pytest.param("33T 16/32", 0.0020625, id="a thousandth of 2.0625 in"),
        pytest.param("27T 2.5/5", 0.010, id="a thousandth of 10.8 in is above the most"),
    ],
)
def test_form_clearance_has_a_least_and_a_most(written, clearance_in) -> None:
    assert spline_size(read_spline(written)).form_clearance_mm / IN == pytest.approx(clearance_in)


def test_hub_and_shaft_clear_each_other() -> None:
    for teeth in (9, 13, 21):
        size = spline_size(read_spline(f"{teeth}T 16/32"))
        assert size.major_internal_mm > size.form_internal_mm > size.major_external_mm > size.pitch_diameter_mm
        assert size.minor_external_mm < size.form_external_mm < size.minor_internal_mm < size.pitch_diameter_mm


def test_a_metric_spline_is_not_covered() -> None:
    assert spline_size(read_spline("20T m2")) is None


@pytest.mark.parametrize(
    ("id_", "written"),
    [("iso-500-2", "21T 16/32"), ("iso-500-3", "20T 12/24")],
)
def test_pto_diameters_agree_with_a_pitch_that_is_not_printed(shafts, id_, written) -> None:
    """TractorData prints splines and diameter; the pitch is inferred from them, as the notes say, and not stored."""
    spline = read_spline(written)
    assert (shafts[id_].teeth, shafts[id_].spline) == (spline.teeth, None)
    assert spline_size(spline).major_external_mm == pytest.approx(shafts[id_].major.value)


@pytest.mark.parametrize(("id_", "written", "major_in"), SHAFTS, ids=[row[0] for row in SHAFTS])
def test_the_pitch_of_every_pump_shaft_is_told_by_teeth_and_diameter(id_, written, major_in) -> None:
    spline = read_spline(written)
    assert pitches_like(spline.teeth, major_in * IN - 0.15, major_in * IN + 0.15) == (written.split()[1],), id_


def test_a_diameter_between_pitches_tells_none() -> None:
    """PTO type 4, 22 splines and 57.5 mm: 10/20 gives 58.42 mm."""
    assert pitches_like(22, 57.35, 57.65) == ()
    assert pitches_like(22, 58.41, 58.43) == ("10/20",)
    assert pitches_like(22, 58.43, 58.5) == ()


def test_tapered_pump_shaft(shafts) -> None:
    """25-3, taper 1:8: Sauer-Danfoss H1 045/053 technical information, p. 24. Whether there is a key is its maker's choice."""
    one = shafts["sae-j744-bb-taper"]
    assert (one.form, one.taper, one.keys, one.torque) == ("taper", read_taper("1.5 in per ft")._replace(text="1:8"), None, None)
    assert (one.major.value, one.major.origin.basis) == (pytest.approx(IN), "judgement")
    assert "25-3" in one.size
