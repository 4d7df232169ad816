"""Whether a shaft goes into what takes it: form, teeth, pitch, taper and angle exact; diameters and lengths by their figures."""

from __future__ import annotations

import dataclasses
from collections.abc import Callable
from typing import TYPE_CHECKING

from interchange.catalog.model import Joint
from interchange.fit.finding import AGREES, DIFFERS, NOT_KNOWN, Finding, joined
from interchange.fit.pattern import compare_patterns
from interchange.fit.spline_size import PRESSURE_ANGLE_DEG, pitches_like, spline_size
from interchange.fit.straight_spline import looks_like

if TYPE_CHECKING:
    from interchange.catalog.figure import Figure
    from interchange.catalog.model import Pattern, Shaft

MM_PER_INCH = 25.4
DIAMETER_SLACK_MM = 0.15  # a spline's major diameter as read with a caliper; sizes of one series are 3 mm apart
ANGLE_SLACK_DEG = 1.0
MODULE_SLACK_MM = 0.001  # pitches are exact: 16/32 and m1.5875 are one
TAPER_SLACK = 0.001  # of the taper: 0.0125 mm over 100 mm of 1:8, about what marking blue shows; a judgement
KEY_SLACK_MM = 0.03  # a key that is filed to its seat; 8 mm and 5/16 in are 0.06 mm apart; a judgement
LENGTH_SLACK_MM = 1.0
ROUNDING_MM = 1e-6
FRETS_BELOW = 0.75
"""Of the pitch diameter: a shorter engagement risks high contact stress and fretting (Danfoss Series 90 manual p. 44)."""

FindPattern = Callable[[str], "Pattern | None"]


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


def has_key(shaft: Shaft) -> bool | None:
    """Whether a key drives it; None where that is not known."""
    if shaft.keys is not None:
        return shaft.keys > 0
    return True if shaft.form == "keyed" or (shaft.form == "taper" and shaft.width) else None


def compare_shafts(a: Shaft, b: Shaft, pattern: FindPattern | None = None, joint: Joint | None = None) -> Finding:
    """Whether two shaft ends are one size.

    Two flanges are compared by the bolt patterns that ``pattern`` finds, at any turn, with the joint's clearance and register.
    """
    teeth_a, teeth_b = teeth_of(a), teeth_of(b)
    if a.id and a.id == b.id:
        return Finding(AGREES, _size(a, teeth_a), joined(a.major.caveat if a.major else "", _engagement(a, b)))
    if a.form == b.form == "flange" and a.pattern != b.pattern:
        one, other = (pattern(shaft.pattern) if pattern and shaft.pattern else None for shaft in (a, b))
        if one and other:
            turning = dataclasses.replace(joint, clock=("any",)) if joint else Joint(between=(), clock=("any",))
            return compare_patterns(one, other, turning)
    for unlike in (_apart(a, b), _keys_apart(a, b), _by_formula(a, b), _by_formula(b, a), _not_known(a, b)):
        if unlike is not None:  # a finding that does not agree is false
            return unlike
    known = next((shaft for shaft in (a, b) if shaft.spline), a)
    return Finding(AGREES, _size(known, teeth_a or teeth_b), joined(_weak(a, b), _engagement(a, b)))


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
    if a.taper and b.taper and abs(a.taper.ratio - b.taper.ratio) > TAPER_SLACK * max(a.taper.ratio, b.taper.ratio):
        return Finding(DIFFERS, f"taper {a.taper.text} against {b.taper.text}")
    if a.thread_hand and b.thread_hand and a.thread_hand != b.thread_hand:
        return Finding(DIFFERS, f"{a.thread_hand}-hand thread against {b.thread_hand}-hand")
    if a.angle and b.angle and abs(a.angle.value - b.angle.value) > ANGLE_SLACK_DEG:
        return Finding(DIFFERS, f"pressure angle {a.angle.text} against {b.angle.text}")
    sizes = [("outside diameter", a.major, b.major), ("key or tooth width", a.width, b.width)]
    if a.form == "straight-sided":  # an involute hub is cut to another root than its shaft
        sizes.append(("root diameter", a.minor, b.minor))
    for what, one, other in sizes:
        if one and other:
            apart = _gap_mm(one, other)
            if apart > DIAMETER_SLACK_MM:
                return Finding(DIFFERS, f"{what} {one.text} against {other.text}", gap_mm=apart)
    return None


def _gap_mm(one: Figure, other: Figure) -> float:
    """By how much two figures miss each other."""
    return max(one.low - other.high, other.low - one.high, 0.0)


def _keys_apart(a: Shaft, b: Shaft) -> Finding | None:
    """A key where the other has none, or another number of them."""
    if has_key(a) is not None and has_key(b) is not None and has_key(a) != has_key(b):
        return Finding(DIFFERS, "a key against none" if has_key(a) else "no key against one")
    if a.keys is not None and b.keys is not None and a.keys != b.keys:
        return Finding(DIFFERS, f"{a.keys} {'key' if a.keys == 1 else 'keys'} against {b.keys}")
    return None


def _at_30_degrees(shaft: Shaft) -> bool:
    """Whether the formulas hold for it: its pressure angle is 30°, or nobody wrote another."""
    return shaft.angle is None or abs(shaft.angle.value - PRESSURE_ANGLE_DEG) <= ANGLE_SLACK_DEG


def _by_formula(a: Shaft, b: Shaft) -> Finding | None:
    """The one is known by its pitch, the other by its diameter: whether the formula can be right about both.

    From the shaft's outside diameter to the root of a fillet-root hub: it may be either that was measured.
    """
    size = spline_size(a.spline) if a.spline and a.form == "involute" and _at_30_degrees(a) else None
    if size is None or a.spline is None or a.major or b.spline or b.major is None:
        return None
    least, most = size.major_external_mm - DIAMETER_SLACK_MM, size.major_internal_fillet_mm + DIAMETER_SLACK_MM
    gap = max(least - b.major.high, b.major.low - most, 0.0)
    if not gap:
        return None
    text = f"{a.spline.text} would be {size.major_external_mm:.2f} mm across, not {b.major.text}"
    return Finding(DIFFERS, text, "a 30° spline by formula", gap_mm=gap)


def _not_known(a: Shaft, b: Shaft) -> Finding | None:
    """What would have to be known before two shafts can be called one size; None where enough is."""
    if a.form == "flange":
        same = a.pattern and a.pattern == b.pattern
        return None if same else Finding(NOT_KNOWN, "two flanges: compare their bolt patterns")
    if a.form == "taper":
        return _taper_not_known(a, b)
    splined = a.form in ("involute", "straight-sided")
    if splined and not (teeth_of(a) and teeth_of(b)):
        return Finding(NOT_KNOWN, "the teeth have not been counted on both")
    if not splined and not (a.major and b.major):
        return Finding(NOT_KNOWN, "a diameter is not known")
    if a.form == "involute" and not (module_of(a) and module_of(b)) and not (a.major and b.major):
        like = [f"{shaft.major.text if shaft.major else ''} {text}" for shaft in (a, b) if (text := _likeness(shaft))]
        return Finding(NOT_KNOWN, joined("the same tooth count, but pitch and diameter are not known", *like))
    return None


def _taper_not_known(a: Shaft, b: Shaft) -> Finding | None:
    """Two tapers of one large diameter may run differently, and may be keyed or not."""
    keyless = has_key(a) is False and has_key(b) is False
    lacking = (
        ("large diameter", not (a.major and b.major)),
        ("taper", not (a.taper and b.taper)),
        ("key", not keyless and not (a.width and b.width)),
    )
    missing = [what for what, is_missing in lacking if is_missing]
    if not missing:
        return None
    return Finding(NOT_KNOWN, f"two tapers, and the {' and the '.join(missing)} {_is(missing)} not known of both")


def _is(things: list[str]) -> str:
    return "is" if len(things) == 1 else "are"


def _weak(a: Shaft, b: Shaft) -> str:
    """What two shafts of one size have not been checked for, and what does not quite agree."""
    unread = []
    if a.form == "involute" and not (module_of(a) and module_of(b)):
        unread = ["pitch"]
    elif a.form in ("keyed", "straight-sided"):
        unread = [] if a.width and b.width else ["key or tooth width"]
        if a.form == "straight-sided" and not (a.minor and b.minor):
            unread.append("root diameter")
    notes = [f"the {' and the '.join(unread)} {_is(unread)} not known of both"] if unread else []
    notes += [note for shaft in (a, b) if (note := _off_formula(shaft))]
    notes += _nearly(a, b)
    return joined(*dict.fromkeys((*notes, *(figure.caveat for figure in (a.major, b.major) if figure))))


def _nearly(a: Shaft, b: Shaft) -> list[str]:
    """What is to be looked at though it does not keep two shafts apart."""
    notes = []
    if a.width and b.width and a.form in ("keyed", "taper") and abs(a.width.value - b.width.value) > KEY_SLACK_MM + ROUNDING_MM:
        notes.append(f"the key, {a.width.text} against {b.width.text}, has to be fitted")
    tapered = a.form == "taper"
    lengths = (("key", a.key_length, b.key_length), ("taper", a.length if tapered else None, b.length))
    for what, one, other in lengths:
        if one and other and _gap_mm(one, other) > LENGTH_SLACK_MM:
            notes.append(f"{what} {one.text} long against {other.text}: only the shorter bears")
    if a.taper and b.taper and a.major and b.major:
        shift_mm = abs(a.major.value - b.major.value) / a.taper.ratio
        if shift_mm > LENGTH_SLACK_MM:
            notes.append(f"sits {shift_mm:.1f} mm further in or out, {a.major.text} against {b.major.text} at the large end")
    if a.thread and b.thread and (a.thread.major_mm, a.thread.pitch_mm) != (b.thread.major_mm, b.thread.pitch_mm):
        notes.append(f"thread {a.thread.text} against {b.thread.text}: its nut goes with the shaft")
    return notes


def _off_formula(shaft: Shaft) -> str:
    """A diameter that pitch and teeth do not give, by more than its reading."""
    size = spline_size(shaft.spline) if shaft.spline and _at_30_degrees(shaft) else None
    if size is None or shaft.major is None or shaft.spline is None or shaft.form != "involute":
        return ""
    slack = DIAMETER_SLACK_MM if shaft.major.tolerance is None else ROUNDING_MM
    by_formula = size.major_external_mm
    if shaft.major.low - slack <= by_formula <= shaft.major.high + slack:
        return ""
    return f"{shaft.major.text} outside, where {shaft.spline.text} gives {by_formula:.2f} mm by formula"


def _likeness(shaft: Shaft) -> str:
    """What a spline of which the pitch is not known looks like; a likelihood, which decides nothing."""
    if shaft.form == "involute" and shaft.spline is None and shaft.teeth and shaft.major and _at_30_degrees(shaft):
        like = pitches_like(shaft.teeth, shaft.major.low - DIAMETER_SLACK_MM, shaft.major.high + DIAMETER_SLACK_MM)
    else:
        like = looks_like(shaft)
    return f"reads like {' or '.join(like)}" if like else ""


def _size(shaft: Shaft, teeth: int | None) -> str:
    text = shaft.spline.text if shaft.spline else (f"{teeth} splines" if teeth else shaft.form)
    taper = f"taper {shaft.taper.text}" if shaft.taper else ""
    return joined(taper or text, shaft.major.text if shaft.major else "", _likeness(shaft))


def _engagement(a: Shaft, b: Shaft) -> str:
    """Engagement should be at least the pitch diameter (Danfoss Series 90 manual p. 44, shaft torque notes)."""
    pitch = pitch_diameter_mm(a) or pitch_diameter_mm(b)
    lengths = [shaft.length.value for shaft in (a, b) if shaft.length]
    if not pitch or not lengths or min(lengths) >= pitch:
        return ""
    frets = ", under three quarters of it: the teeth are overloaded and fret" if min(lengths) < FRETS_BELOW * pitch else ""
    return f"only {min(lengths):.1f} mm of engagement against a pitch diameter of {pitch:.1f} mm{frets}"
