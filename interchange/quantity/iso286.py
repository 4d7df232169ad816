"""Limits of size of ISO 286-1: a nominal diameter and a tolerance class, such as 40 H7, give the least and the most it may be.

By table, not by formula: rounding the formula of the IT grades misses the printed standard in a dozen places. Only what sources
confirm is here; any other class, and any size outside a column, has no limits: not known.

- IT5 to IT9, over 3 up to 500 mm: MechGuru's table of DIN ISO 286, the BIG DAISHOWA catalogue p. 139 and the open data set
  rf-tolerance agree; engineersvault agrees up to 315 mm, where it stops.
- H and h begin at the nominal size. g up to 500 mm: rf-tolerance, with a textbook table (issuhub, table 15.2) or an extract of
  DIN ISO 286-2 (studylib) beside it everywhere; the extract prints it as hole G, up to 250 mm.
- js, k and p up to 80 mm: rf-tolerance and Sumitomo p. 28 (JIS B 0401). k also over 180 mm: rf-tolerance and the textbook.
  k of 80 to 180 mm and p over 80 mm stand on one source, so they are left out. js lies evenly about the nominal size; some
  tables round its half grades to whole micrometres, which is not done here.
"""

from __future__ import annotations

import bisect
import re
from typing import NamedTuple

UM_PER_MM = 1000.0
NOT_OVER_MM = 3.0
BANDS_UP_TO_MM = (6.0, 10.0, 18.0, 30.0, 50.0, 80.0, 120.0, 180.0, 250.0, 315.0, 400.0, 500.0)
"""A band holds sizes over the one before it, up to and with its own; the first is over 3 mm."""

IT_UM: dict[int, tuple[int, ...]] = {
    5: (5, 6, 8, 9, 11, 13, 15, 18, 20, 23, 25, 27),
    6: (8, 9, 11, 13, 16, 19, 22, 25, 29, 32, 36, 40),
    7: (12, 15, 18, 21, 25, 30, 35, 40, 46, 52, 57, 63),
    8: (18, 22, 27, 33, 39, 46, 54, 63, 72, 81, 89, 97),
    9: (30, 36, 43, 52, 62, 74, 87, 100, 115, 130, 140, 155),
}
G_UM = (4, 5, 6, 7, 9, 10, 12, 14, 15, 17, 18, 20)
"""How far g lies under the nominal size, and G over it."""
K_UM: tuple[int | None, ...] = (1, 1, 1, 2, 2, 2, None, None, 4, 4, 4, 5)
"""How far k of the grades 4 to 7 lies over the nominal size; it begins at it in the other grades."""
P_UM: tuple[int | None, ...] = (12, 15, 18, 22, 26, 32, None, None, None, None, None, None)
K_GRADES = (5, 6, 7)
"""Of the grades 4 to 7, those that are in the table of grades."""
JS_MOST_MM = 80.0
HOLE_G_MOST_MM = 250.0

CLASS = re.compile(r"([A-Z]{1,2}|[a-z]{1,2}) ?([0-9]{1,2})")


class ToleranceClass(NamedTuple):
    """A tolerance class: capital letters are of holes, small ones of shafts."""

    letters: str
    grade: int

    @property
    def of_hole(self) -> bool:
        """Whether it is a hole's."""
        return self.letters.isupper()

    def __str__(self) -> str:
        return f"{self.letters}{self.grade}"


class Deviations(NamedTuple):
    """How far the limits of size lie from the nominal size, micrometres."""

    lower_um: float
    upper_um: float


def read_class(text: str) -> ToleranceClass | None:
    """``H7`` or ``g6`` as a tolerance class; None where the text is no class."""
    match = CLASS.fullmatch(text.strip())
    return ToleranceClass(match[1], int(match[2])) if match else None


def deviations(nominal_mm: float, tolerance: ToleranceClass) -> Deviations | None:
    """The deviations of a class at a size; None where they are not confirmed."""
    if not NOT_OVER_MM < nominal_mm <= BANDS_UP_TO_MM[-1] or tolerance.grade not in IT_UM:
        return None
    band = bisect.bisect_left(BANDS_UP_TO_MM, nominal_mm)
    width = IT_UM[tolerance.grade][band]
    below = _below_um(tolerance, nominal_mm, band, width)
    return None if below is None else Deviations(below, below + width)


def _below_um(tolerance: ToleranceClass, nominal_mm: float, band: int, width: int) -> float | None:
    """The lower deviation of a class in a band."""
    match tolerance.letters:
        case "H":
            return 0
        case "G":
            return G_UM[band] if nominal_mm <= HOLE_G_MOST_MM else None
        case "h":
            return -width
        case "g":
            return -G_UM[band] - width
        case "js":
            return -width / 2 if nominal_mm <= JS_MOST_MM else None
        case "k":
            return K_UM[band] if tolerance.grade in K_GRADES or K_UM[band] is None else 0
        case "p":
            return P_UM[band]
        case _:
            return None


def limits_mm(nominal_mm: float, tolerance: ToleranceClass) -> tuple[float, float] | None:
    """(least, most) a size of this class may be; None where they are not confirmed."""
    found = deviations(nominal_mm, tolerance)
    return found and (nominal_mm + found.lower_um / UM_PER_MM, nominal_mm + found.upper_um / UM_PER_MM)
