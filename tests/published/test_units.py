"""Every unit that is read, against a general unit library's definitions file and against the definitions in print.

The outside reference is pint with its own definitions, told to reckon in exact fractions, so that equal means equal.
"""

from __future__ import annotations

import warnings
from fractions import Fraction

import pint
import pytest

from interchange import quantity
from interchange.quantity import DIMENSIONS, read_quantity

# Each row of units, by dimension and first spelling: what pint calls one of them, and what it calls the base unit.
IN_PINT = {
    ("length", "mm"): ("mm", "mm"),
    ("length", "cm"): ("cm", "mm"),
    ("length", "m"): ("m", "mm"),
    ("length", "in"): ("inch", "mm"),
    ("length", "ft"): ("foot", "mm"),
    ("length", "thou"): ("thou", "mm"),
    ("mass", "lb"): ("pound", "kg"),
    ("mass", "kg"): ("kg", "kg"),
    ("mass", "ton"): ("short_ton", "kg"),
    ("mass", "t"): ("metric_ton", "kg"),
    ("torque", "lb-ft"): ("pound_force * foot", "N * m"),
    ("torque", "N·m"): ("N * m", "N * m"),
    ("torque", "lb-in"): ("pound_force * inch", "N * m"),
    ("power", "hp"): ("horsepower", "kW"),
    ("power", "kW"): ("kW", "kW"),
    ("power", "PS"): ("metric_horsepower", "kW"),
    ("speed", "rpm"): ("rpm", "turn / minute"),
    ("angle", "deg"): ("degree", "degree"),
    ("voltage", "V"): ("volt", "V"),
    ("pressure", "psi"): ("psi", "kPa"),
    ("pressure", "bar"): ("bar", "kPa"),
    ("pressure", "MPa"): ("MPa", "kPa"),
    ("pressure", "kPa"): ("kPa", "kPa"),
    ("displacement", "in3"): ("cubic_inch", "cm**3"),
    ("displacement", "cc"): ("cc", "cm**3"),
    ("displacement", "L"): ("liter", "cm**3"),
    ("flow", "gpm"): ("gallon / minute", "liter / minute"),
    ("flow", "L/min"): ("liter / minute", "liter / minute"),
    ("hours", "h"): ("hour", "hour"),
    ("hours", "min"): ("minute", "hour"),
    ("days", "days"): ("day", "day"),
    ("days", "wk"): ("week", "day"),
    ("days", "months"): ("month", "day"),
    ("days", "years"): ("year", "day"),
    ("share", "%"): ("percent", "dimensionless"),
    ("distance", "mi"): ("mile", "mile"),
    ("distance", "km"): ("km", "mile"),
}
# pint knows no money and no holes. A rate is 100 cents to the dollar over a length or time that pint does know.
RATES_IN_PINT = {
    ("rate_mile", "/mi"): ("1 / mile", "1 / mile"),
    ("rate_mile", "/km"): ("1 / km", "1 / mile"),
    ("rate_hour", "/h"): ("1 / hour", "1 / hour"),
    ("rate_day", "/day"): ("1 / day", "1 / day"),
    ("rate_day", "/wk"): ("1 / week", "1 / day"),
}
BY_DEFINITION = {
    ("money", "$"): 100,  # cents
    ("ratio", ":1"): 1,
    ("count", "holes"): 1,
    ("count", "teeth"): 1,
    ("count", "bolts"): 1,
    ("count", "pcs"): 1,
}
ROWS = {(dimension, names.split()[0]): names.split() for dimension, rows in quantity.SPELLINGS.items() for names in rows}


@pytest.fixture(scope="module")
def pint_units() -> pint.UnitRegistry:
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")  # what pint has to say of itself is not ours to mend
        return pint.UnitRegistry(non_int_type=Fraction)


def one(units: pint.UnitRegistry, unit: str, base: str) -> Fraction:
    """How many of `base` pint says one `unit` is, exactly."""
    return Fraction(units.Quantity(Fraction(1), units.parse_expression(unit).units).to(base).magnitude)


def test_every_unit_is_checked_here() -> None:
    assert set(IN_PINT) | set(RATES_IN_PINT) | set(BY_DEFINITION) == set(ROWS)
    assert {dimension for dimension, _ in ROWS} == set(DIMENSIONS)


@pytest.mark.parametrize("row", IN_PINT, ids=" ".join)
def test_a_unit_is_what_pint_says(row: tuple[str, str], pint_units: pint.UnitRegistry) -> None:
    dimension, _ = row
    expected = one(pint_units, *IN_PINT[row])
    for spelling in ROWS[row]:
        assert quantity.UNITS[dimension][spelling] == expected, spelling


@pytest.mark.parametrize("row", RATES_IN_PINT, ids=" ".join)
def test_a_rate_is_what_pint_says(row: tuple[str, str], pint_units: pint.UnitRegistry) -> None:
    unit, base = (part.removeprefix("1 / ") for part in RATES_IN_PINT[row])
    expected = 100 / one(pint_units, unit, base)
    for spelling in ROWS[row]:
        assert quantity.UNITS[row[0]][spelling] == expected, spelling


@pytest.mark.parametrize("row", BY_DEFINITION, ids=" ".join)
def test_what_pint_does_not_know(row: tuple[str, str]) -> None:
    for spelling in ROWS[row]:
        assert quantity.UNITS[row[0]][spelling] == BY_DEFINITION[row], spelling


@pytest.mark.parametrize(
    ("dimension", "spelling"),
    [(dimension, spelling) for (dimension, _), spellings in ROWS.items() for spelling in spellings if spelling != "$"],
)
def test_every_spelling_is_read_from_text(dimension: str, spelling: str) -> None:
    """The tables hold it, and the reader finds it there: as shown, and with a blank or a hyphen for the dot."""
    expected = float(quantity.UNITS[dimension][spelling])
    if dimension == "share":  # the only one where a whole unit and one hundredth differ in meaning
        assert expected == 0.01
    for written in {spelling, spelling.replace("·", " "), spelling.replace("·", "-")}:
        assert read_quantity(f"1 {written}", dimension).value == expected
        assert read_quantity(f"1{written}", dimension).value == expected


# NIST Special Publication 811 (2008), appendix B, gives these as exact, or they are products of what it gives as exact.
# From memory, all of them: the page was not at hand. The check against pint above is the one with an outside source.
SP_811 = [
    pytest.param("1 in", "length", "25.4", id="inch in mm"),
    pytest.param("1 ft", "length", "304.8", id="foot in mm"),
    pytest.param("1 lb", "mass", "0.45359237", id="pound in kg"),
    pytest.param("1 ton", "mass", "907.18474", id="short ton in kg"),
    pytest.param("1 t", "mass", "1000", id="tonne in kg"),
    pytest.param("1 lb-ft", "torque", "1.3558179483314004", id="pound-force foot in N·m"),
    pytest.param("1 lb-in", "torque", "0.1129848290276167", id="pound-force inch in N·m"),
    pytest.param("1 hp", "power", "0.74569987158227022", id="550 ft·lbf/s in kW"),
    pytest.param("1 PS", "power", "0.73549875", id="metric horsepower in kW"),
    pytest.param("1 bar", "pressure", "100", id="bar in kPa"),
    pytest.param("1 in3", "displacement", "16.387064", id="cubic inch in cm3"),
    pytest.param("1 L", "displacement", "1000", id="litre in cm3"),
    pytest.param("1 gpm", "flow", "3.785411784", id="US gallon in L"),
]


@pytest.mark.parametrize(("text", "dimension", "printed"), SP_811)
def test_definitions_in_print(text: str, dimension: str, printed: str) -> None:
    assert read_quantity(text, dimension).value == float(Fraction(printed))
    unit = text.removeprefix("1 ").lower().replace("-", "·")
    assert quantity.UNITS[dimension][unit] == Fraction(printed)


def test_pressure_and_mile_in_print() -> None:
    """The two whose decimals do not end: psi is lbf/in2 (SP 811: 6.894 757 kPa), a mile is 1.609 344 km exactly."""
    assert round(read_quantity("1 psi", "pressure").value, 6) == 6.894757
    assert quantity.UNITS["distance"]["km"] * Fraction("1.609344") == 1


@pytest.mark.parametrize("text", ["16 7/8 in", "16 7/8 inch"])
def test_why_there_is_a_parser_of_our_own(text: str) -> None:
    """The general library multiplies 16 by 7/8: 14 in, silently, where the shop wrote 428.625 mm."""
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")
        theirs = pint.UnitRegistry().parse_expression(text).to("inch").magnitude
    assert theirs == 14.0
    assert read_quantity(text, "length").value == 428.625


def test_it_does_not_read_a_hyphenated_mixed_number_either() -> None:
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")
        units = pint.UnitRegistry()
        with pytest.raises(pint.DimensionalityError):
            units.parse_expression("16-7/8 in")
    assert read_quantity("16-7/8 in", "length").value == 428.625
