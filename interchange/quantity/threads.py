"""Screw threads and splines, as a shop writes them."""

from __future__ import annotations

import re
from fractions import Fraction
from functools import lru_cache

from interchange.quantity.units import IN
from interchange.quantity.values import PLAIN_SIGNS, QuantityError, Spline, Thread, capped

_TEETH = range(4, 201)
_LARGEST_WHOLE, _FINEST_WHOLE = 4, 20  # in, threads an inch: 10-32 and 4-40 are numbered sizes, not 10 and 4 in
# Compiled at first use, for start-up.
_THREAD = (
    r"[ \t]*(?:M([0-9]{1,3}(?:\.[0-9])?) ?[x×*X] ?([0-9]{1,2}(?:\.[0-9]{1,2})?)(?:-[4-8][GgHh])?|"
    r"(?:#([0-9]|1[0-4])|(?=[0-9])([0-9]{1,2}(?![0-9/]))?(?:[- ]?([0-9]{1,2})/([1-9][0-9]{0,2}))?)(?:\"| in)?"
    r" ?- ?([1-9][0-9]?)(?: ?UN(?:C|F|S|EF)?)?(?:-[123][AB])?)[ \t]*"
)
_SPLINE = (
    r"[ \t]*([0-9]{1,3})[ -]?(?:T|t|teeth|tooth),? ?"
    r"(?:([1-9][0-9]?(?:\.5)?)/([0-9]{1,3})|(?:m|mod|module) ?([1-9][0-9]?(?:\.[0-9]{1,2})?|0\.[1-9][0-9]?))[ \t]*"
)


def _form(pattern: str, text: str, name: str, hint: str) -> re.Match[str]:
    match = re.fullmatch(pattern, capped(text).translate(PLAIN_SIGNS))
    if match is None:
        raise QuantityError(text, len(text) - len(text.lstrip()), f"{text.strip()[:40]!r} is not a {name}", hint)
    return match


@lru_cache(maxsize=4096)
def read_thread(text: str) -> Thread:
    """A straight thread: `3/8-16`, `1-1/16-12 UN`, `#10-32` or `M12x1.75` (never M12 alone). Raises `QuantityError`.

    A numbered size is 0.060 in + 0.013 in times its number (the rule of ASME B1.1, from memory). A pitch of a third of
    the diameter is no thread's: the coarsest standard ones stay under a quarter (from memory).
    """
    hint = "write 3/8-16, #10-32 or M12x1.75; pipe threads are not read"
    match = _form(_THREAD, text, "thread", hint)
    metric, pitch_mm, number, whole, top, bottom, per_inch = match.groups()
    written = repr(match[0].strip())
    if metric:
        major, pitch = Fraction(metric), Fraction(pitch_mm)
    else:
        inches = int(whole or 0) + Fraction(int(top or 0), int(bottom or 1))
        if number:
            inches = Fraction("0.060") + int(number) * Fraction("0.013")
        elif top and int(top) >= int(bottom):
            raise QuantityError(text, match.start(5), f"'{top}/{bottom}' is not a proper fraction", hint)
        elif not top and (inches > _LARGEST_WHOLE or int(per_inch) > _FINEST_WHOLE):
            raise QuantityError(text, match.start(4), f"{written} may be a numbered size", hint)
        major, pitch = inches * IN, IN / Fraction(per_inch)
    if not 0 < 3 * pitch < major:
        raise QuantityError(text, match.start(2 if metric else 7), f"{written} has a pitch that no thread has", hint)
    return Thread(float(major), float(pitch), text.strip())


@lru_cache(maxsize=4096)
def read_spline(text: str) -> Spline:
    """An involute spline: `14T 12/24` (pitch over stub pitch, its double) or `20T m2`. Raises `QuantityError`."""
    hint = "write 14T 12/24 or, metric, 20T m2"
    match = _form(_SPLINE, text, "spline", hint)
    teeth, pitch, stub, module = match.groups()
    if int(teeth) not in _TEETH:
        raise QuantityError(text, match.start(1), f"{teeth!r} teeth are not those of a spline", "4 to 200 are read")
    if pitch and Fraction(stub) != 2 * Fraction(pitch):
        raise QuantityError(text, match.start(2), f"'{pitch}/{stub}' is not a pitch over its double", hint)
    return Spline(int(teeth), float(pitch) if pitch else None, float(module) if module else None, text.strip())
