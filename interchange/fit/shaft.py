"""Whether a shaft goes into what takes it: form, teeth, pitch and angle exact; diameters and lengths by their figures."""

from __future__ import annotations

from typing import TYPE_CHECKING

from interchange.fit.finding import AGREES, DIFFERS, NOT_KNOWN, Finding, joined

if TYPE_CHECKING:
    from interchange.catalog.model import Shaft

MM_PER_INCH = 25.4
DIAMETER_SLACK_MM = 0.15  # a spline's major diameter as read with a caliper; sizes of one series are 3 mm apart
ANGLE_SLACK_DEG = 1.0
MODULE_SLACK_MM = 0.001  # pitches are exact: 16/32 and m1.5875 are one


def teeth_of(shaft: Shaft) -> int | None:
    """How many splines."""
    return shaft.spline.teeth if shaft.spline else shaft.teeth


def module_of(shaft: Shaft) -> float | None:
    """Pitch as a module in mm, whichever way it was written: module = 25.4 / diametral pitch."""
    if shaft.spline is None:
        return None
    if shaft.spline.module_mm is not None:
        return shaft.spline.module_mm
    pitch = shaft.spline.diametral_pitch
    return MM_PER_INCH / pitch if pitch else None


def pitch_diameter_mm(shaft: Shaft) -> float | None:
    """Teeth × module."""
    teeth, module = teeth_of(shaft), module_of(shaft)
    return teeth * module if teeth and module else None


def compare_shafts(a: Shaft, b: Shaft) -> Finding:
    """Whether two shaft ends are one size."""
    teeth_a, teeth_b = teeth_of(a), teeth_of(b)
    if a.id and a.id == b.id:
        return Finding(AGREES, _size(a, teeth_a), joined(a.major.caveat if a.major else "", _engagement(a, b)))
    for unlike in (_apart(a, b), _not_known(a, b)):
        if unlike is not None:  # a finding that does not agree is false
            return unlike
    return Finding(AGREES, _size(a, teeth_a or teeth_b), joined(_weak(a, b), _engagement(a, b)))


def _apart(a: Shaft, b: Shaft) -> Finding | None:
    """What tells two shafts apart; None where nothing does."""
    if a.form != b.form:
        return Finding(DIFFERS, f"{a.form} against {b.form}")
    teeth_a, teeth_b = teeth_of(a), teeth_of(b)
    if teeth_a and teeth_b and teeth_a != teeth_b:
        return Finding(DIFFERS, f"{teeth_a} teeth against {teeth_b}")
    module_a, module_b = module_of(a), module_of(b)
    if module_a and module_b and abs(module_a - module_b) > MODULE_SLACK_MM:
        pitches = [shaft.spline.text if shaft.spline else "" for shaft in (a, b)]
        return Finding(DIFFERS, f"{pitches[0]} against {pitches[1]}")
    if a.thread_hand and b.thread_hand and a.thread_hand != b.thread_hand:
        return Finding(DIFFERS, f"{a.thread_hand}-hand thread against {b.thread_hand}-hand")
    if a.angle and b.angle and abs(a.angle.value - b.angle.value) > ANGLE_SLACK_DEG:
        return Finding(DIFFERS, f"pressure angle {a.angle.text} against {b.angle.text}")
    for what, one, other in (("outside diameter", a.major, b.major), ("key or tooth width", a.width, b.width)):
        if one and other:
            apart = max(one.low - other.high, other.low - one.high, 0.0)
            if apart > DIAMETER_SLACK_MM:
                return Finding(DIFFERS, f"{what} {one.text} against {other.text}", gap_mm=apart)
    return None


def _not_known(a: Shaft, b: Shaft) -> Finding | None:
    """What would have to be known before two shafts can be called one size; None where enough is."""
    if a.form == "flange":
        same = a.pattern and a.pattern == b.pattern
        return None if same else Finding(NOT_KNOWN, "two flanges: compare their bolt patterns")
    if a.form == "taper":
        return Finding(NOT_KNOWN, "two tapers may start at one diameter and run differently")
    splined = a.form in ("involute", "straight-sided")
    if splined and not (teeth_of(a) and teeth_of(b)):
        return Finding(NOT_KNOWN, "the teeth have not been counted on both")
    if not splined and not (a.major and b.major):
        return Finding(NOT_KNOWN, "a diameter is not known")
    if a.form == "involute" and not (module_of(a) and module_of(b)) and not (a.major and b.major):
        return Finding(NOT_KNOWN, "the same tooth count, but pitch and diameter are not known")
    return None


def _weak(a: Shaft, b: Shaft) -> str:
    """What two shafts of one size have not been checked for."""
    unread = ""
    if a.form == "involute" and not (module_of(a) and module_of(b)):
        unread = "the pitch is not known of both"
    elif a.form in ("keyed", "straight-sided") and not (a.width and b.width):
        unread = "the key or tooth width is not known of both"
    return joined(unread, *dict.fromkeys(figure.caveat for figure in (a.major, b.major) if figure))


def _size(shaft: Shaft, teeth: int | None) -> str:
    text = shaft.spline.text if shaft.spline else (f"{teeth} splines" if teeth else shaft.form)
    return joined(text, shaft.major.text if shaft.major else "")


def _engagement(a: Shaft, b: Shaft) -> str:
    """Engagement should be at least the pitch diameter (Danfoss Series 90 manual p. 44, shaft torque notes)."""
    pitch = pitch_diameter_mm(a) or pitch_diameter_mm(b)
    lengths = [shaft.length.value for shaft in (a, b) if shaft.length]
    if not pitch or not lengths or min(lengths) >= pitch:
        return ""
    return f"only {min(lengths):.1f} mm of engagement against a pitch diameter of {pitch:.1f} mm"
