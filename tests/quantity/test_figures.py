"""What a shop writes is read exactly or refused with the place; nothing is guessed."""

from __future__ import annotations

from fractions import Fraction

import pytest

from interchange.errors import InputError
from interchange.quantity import (
    DIMENSIONS,
    LONGEST,
    Quantity,
    QuantityError,
    read_quantity,
    read_rating,
    read_spline,
    read_taper,
    read_thread,
    units_read,
)

LB, LB_FT, HP, PSI = 0.45359237, 1.3558179483314004, 0.74569987158227022, 6.894757293168361


def mm(inches: str) -> float:
    """Inches written as a fraction or decimal, in mm, worked out apart from the module."""
    return float(Fraction(inches) * Fraction(254, 10))


ONE_FIGURE = [
    # length
    ("16-7/8 in", "length", 428.625),
    ("16-7/8in", "length", 428.625),
    ('16 7/8"', "length", 428.625),
    ('16-7/8"', "length", 428.625),
    ("16 7/8''", "length", 428.625),
    ("16 7/8”", "length", 428.625),
    ("16–7/8 in", "length", 428.625),
    ("16\u00a07/8 in", "length", 428.625),
    ("16.875 inch", "length", 428.625),
    ("16.875 inches", "length", 428.625),
    ("16.875 in.", "length", 428.625),
    ("16.875 IN", "length", 428.625),
    ("  16.875\tin ", "length", 428.625),
    ("7/8 in", "length", 22.225),
    ("9/8 in", "length", 28.575),
    ("0 7/8 in", "length", 22.225),
    ("1-1/2 in", "length", 38.1),
    ("1-1/3 in", "length", mm("4/3")),
    (".5 in", "length", 12.7),
    ("1,200-1/2 in", "length", mm("2401/2")),
    ("4' 3-1/2\"", "length", mm("103/2")),
    ("4'3-1/2\"", "length", mm("103/2")),
    ("4'-3-1/2\"", "length", mm("103/2")),
    ("4 ft 3-1/2 in", "length", mm("103/2")),
    ("4 feet 3 1/2 inches", "length", mm("103/2")),
    ("-4' 3\"", "length", mm("-51")),
    ("0' 6\"", "length", mm("6")),
    ("4' 11-7/8\"", "length", mm("479/8")),
    ("4'", "length", mm("48")),
    ("4.5'", "length", mm("54")),
    ("409.58 mm", "length", 409.58),
    ("16,000 mm", "length", 16000.0),
    ("1,234,567 mm", "length", 1234567.0),
    ("41 cm", "length", 410.0),
    ("1.2 m", "length", 1200.0),
    ("5 thou", "length", 0.127),
    ("0.20 mm TIR", "length", 0.2),
    ('0.008" TIR', "length", mm("0.008")),
    ("-3 mm", "length", -3.0),
    ("+3 mm", "length", 3.0),
    ("-16-7/8 in", "length", -428.625),
    ("−3 mm", "length", -3.0),
    ("0 mm", "length", 0.0),
    # mass
    ("1,360 lb", "mass", 1360 * LB),
    ("1,360 lbs.", "mass", 1360 * LB),
    ("617 kg", "mass", 617.0),
    ("1.2 ton", "mass", 1088.621688),
    ("1.2 tons", "mass", 1088.621688),
    ("1.2 short tons", "mass", 1088.621688),
    ("1.2 t", "mass", 1200.0),
    ("1.2 tonne", "mass", 1200.0),
    ("1.2 metric tons", "mass", 1200.0),
    # torque
    ("178 lb-ft", "torque", 178 * LB_FT),
    ("178 lb. ft.", "torque", 178 * LB_FT),
    ("178 ft-lb", "torque", 178 * LB_FT),
    ("178 ft·lbs", "torque", 178 * LB_FT),
    ("240 N·m", "torque", 240.0),
    ("240 Nm", "torque", 240.0),
    ("240 N m", "torque", 240.0),
    ("240 N⋅m", "torque", 240.0),
    # power, speed
    ("62 hp", "power", 62 * HP),
    ("62-1/2 hp", "power", 62.5 * HP),
    ("46 kW", "power", 46.0),
    ("100 PS", "power", 73.549875),
    ("2,200 rpm", "speed", 2200.0),
    ("2200 r/min", "speed", 2200.0),
    # angle, voltage, pressure
    ("15 deg", "angle", 15.0),
    ("15°", "angle", 15.0),
    ("22-1/2 deg", "angle", 22.5),
    ("-15 deg", "angle", -15.0),
    ("12 V", "voltage", 12.0),
    ("3,000 psi", "pressure", 3000 * PSI),
    ("200 bar", "pressure", 20000.0),
    ("20.5 MPa", "pressure", 20500.0),
    # displacement, flow
    ("2.0 in3", "displacement", 32.774128),
    ("2 in³", "displacement", 32.774128),
    ("2 in^3", "displacement", 32.774128),
    ("2 cu in", "displacement", 32.774128),
    ("2 cu. in.", "displacement", 32.774128),
    ("318 ci", "displacement", 5211.086352),
    ("32 cc", "displacement", 32.0),
    ("32 cm3", "displacement", 32.0),
    ("32 cc/rev", "displacement", 32.0),
    ("4.1 L", "displacement", 4100.0),
    ("12 gpm", "flow", 45.424941408),
    ("12 L/min", "flow", 12.0),
    # money and rates, in cents
    ("$2,850", "money", 285000.0),
    ("$2,850.50", "money", 285050.0),
    ("2850", "money", 285000.0),
    ("2850 USD", "money", 285000.0),
    ("US$2,850", "money", 285000.0),
    ("$1.5", "money", 150.0),
    ("$0", "money", 0.0),
    ("$1.10 /mi", "rate_mile", 110.0),
    ("$1.10 per mile", "rate_mile", 110.0),
    ("$1/km", "rate_mile", 160.9344),
    ("$0.585 /mi", "rate_mile", 58.5),
    ("$35/h", "rate_hour", 3500.0),
    ("$35", "rate_hour", 3500.0),
    ("$12/day", "rate_day", 1200.0),
    ("$84/wk", "rate_day", 1200.0),
    # time
    ("12 h", "hours", 12.0),
    ("90 min", "hours", 1.5),
    ("2 wk", "days", 14.0),
    ("10 days", "days", 10.0),
    ("1 day", "days", 1.0),
    ("3 months", "days", 91.3125),
    ("1 year", "days", 365.25),
    # count, share, distance
    ("12", "count", 12.0),
    ("12 holes", "count", 12.0),
    ("7 %", "share", 0.07),
    ("7%", "share", 0.07),
    ("0.07", "share", 0.07),
    ("0", "share", 0.0),
    ("1", "share", 1.0),
    ("100 %", "share", 1.0),
    ("4.10:1", "ratio", 4.1),
    ("4.10 : 1", "ratio", 4.1),
    ("4.1: 1", "ratio", 4.1),
    ("3.73", "ratio", 3.73),
    ("41/10", "ratio", 4.1),
    ("37/9", "ratio", 37 / 9),
    ("0.72:1", "ratio", 0.72),
    ("62 mi", "distance", 62.0),
    ("160.9344 km", "distance", 100.0),
]


@pytest.mark.parametrize(("text", "dimension", "value"), ONE_FIGURE, ids=str)
def test_one_figure(text: str, dimension: str, value: float) -> None:
    read = read_quantity(text, dimension)
    assert read == Quantity(dimension, pytest.approx(value, rel=1e-15), None, None, None, text.strip())


RANGES = [
    ("200-700", "money", 20000.0, 70000.0),
    ("$200-700", "money", 20000.0, 70000.0),
    ("$200-$700", "money", 20000.0, 70000.0),
    ("$200 to $700", "money", 20000.0, 70000.0),
    ("$1,200–1,800", "money", 120000.0, 180000.0),
    ("$200-700 USD", "money", 20000.0, 70000.0),
    ("$0-80", "money", 0.0, 8000.0),
    ("$0.90-1.60 /mi", "rate_mile", 90.0, 160.0),
    ("$0.90-1.60", "rate_mile", 90.0, 160.0),
    ("$0.90 /mi - $1.60 /mi", "rate_mile", 90.0, 160.0),
    ("409.58-409.70 mm", "length", 409.58, 409.7),
    ("16.125-16.130 in", "length", mm("16.125"), mm("16.13")),
    ("23.000..23.008 in", "length", mm("23"), mm("23.008")),
    ("16 in..18 in", "length", mm("16"), mm("18")),
    ("7/8..9/8 in", "length", mm("7/8"), mm("9/8")),
    ("10 to 12 in", "length", 254.0, 304.8),
    ("10 in to 12 in", "length", 254.0, 304.8),
    ("10 mm to 1 in", "length", 10.0, 25.4),
    ("16-18 in", "length", mm("16"), mm("18")),
    ("16 - 18 in", "length", mm("16"), mm("18")),
    ("1/2-3/4 in", "length", 12.7, 19.05),
    ("1/2-1-3/4 in", "length", 12.7, mm("7/4")),
    ("1-2-1/2 in", "length", 25.4, mm("5/2")),
    ("1-1/2-1-3/4 in", "length", 38.1, mm("7/4")),
    ("1 1/2 to 1 3/4 in", "length", 38.1, mm("7/4")),
    ("0 to 3/4 in", "length", 0.0, 19.05),
    ("12-12 in", "length", 304.8, 304.8),
    ("4'-6'", "length", mm("48"), mm("72")),
    ("1'-18\"", "length", mm("12"), mm("18")),
    ("3' 6\" - 4' 2\"", "length", mm("42"), mm("50")),
    ("-3 to 5 mm", "length", -3.0, 5.0),
    ("-5 to -3 mm", "length", -5.0, -3.0),
    ("1.2-1.4 t", "mass", 1200.0, 1400.0),
    ("1-3 wk", "days", 7.0, 21.0),
    ("3-10 days", "days", 3.0, 10.0),
    ("12-25 h", "hours", 12.0, 25.0),
    ("0.5-1 h", "hours", 0.5, 1.0),
    ("5-15 %", "share", 0.05, 0.15),
    ("10-12", "count", 10.0, 12.0),
    ("10.9-11.3:1", "ratio", 10.9, 11.3),
    ("10.9:1 to 11.3:1", "ratio", 10.9, 11.3),
]


@pytest.mark.parametrize(("text", "dimension", "low", "high"), RANGES, ids=str)
def test_ranges(text: str, dimension: str, low: float, high: float) -> None:
    read = read_quantity(text, dimension)
    assert (read.low, read.high) == (low, high)
    assert read.value == pytest.approx((low + high) / 2, rel=1e-15)
    assert (read.dimension, read.tolerance, read.text) == (dimension, None, text)


@pytest.mark.parametrize(
    ("text", "value", "tolerance"),
    [
        ("16-7/8 in ±1/16 in", 428.625, 1.5875),
        ("16-7/8 in ± 1/16 in", 428.625, 1.5875),
        ("16-7/8 in +/- 1/16 in", 428.625, 1.5875),
        ("16-7/8 in ±1/16", 428.625, 1.5875),
        ("16-7/8 ±1/16 in", 428.625, 1.5875),
        ("16-7/8 in ±1 mm", 428.625, 1.0),
        ("16-7/8 in ±0 mm", 428.625, 0.0),
        ("4' 3\" ±1/4 in", 1295.4, 6.35),
        ("0.20 mm TIR ±0.01 mm", 0.2, 0.01),
    ],
)
def test_tolerances(text: str, value: float, tolerance: float) -> None:
    assert read_quantity(text, "length") == Quantity("length", value, None, None, tolerance, text)


def test_a_tolerance_on_a_share_is_not_lent_backwards() -> None:
    """A bare 0.5 is a share already; taking the sign of its tolerance would make it half a percent."""
    assert read_quantity("0.5 ± 5 %", "share") == Quantity("share", 0.5, None, None, 0.05, "0.5 ± 5 %")


REFUSED = [
    # text, dimension, position, a piece of the message, a piece of the hint
    ("", "length", 0, "nothing", "mm, cm, m, in, ft or thou"),
    ("   ", "length", 3, "nothing", ""),
    ("about 16", "length", 0, "'about'", "mm"),
    ("~16 in", "length", 0, "'~16'", ""),
    ("nan", "length", 0, "'nan'", ""),
    ("inf", "money", 0, "'inf'", "$ or a bare number"),
    ("1e400", "length", 1, "'e400'", ""),
    ("1e3 mm", "length", 1, "'e3'", ""),
    ("0x10 mm", "length", 1, "'x10'", ""),
    ("1_000 mm", "length", 1, "'_000 mm'", ""),
    ("१६ in", "length", 0, "'१६'", ""),
    ("1६ in", "length", 1, "'६ in'", ""),
    ("2³ in", "length", 1, "'³ in'", ""),
    ("16½ in", "length", 2, "'½ in'", ""),
    ("16 in\n", "length", 5, r"'\n'", ""),
    ("16 in\x1b[31m", "length", 5, r"'\x1b[31m'", ""),
    ("5. in", "length", 1, "'. in'", ""),
    ("0.5.5 in", "length", 3, "'.5 in'", ""),
    ("16...18 in", "length", 2, "'...18 in'", ""),
    ("1234567890123456 mm", "length", 0, "too long", "15"),
    ("0." + "1" * 16 + " mm", "length", 0, "more than 15 decimals", ""),
    # units
    ("16", "length", 0, "'16' has no unit", "mm, cm, m, in, ft or thou"),
    ("10-12", "length", 0, "'10-12' has no unit", ""),
    ("62", "power", 0, "'62' has no unit", "hp, kW or PS"),
    ("16 kg", "length", 3, "'kg' measures mass, not length", "mm"),
    ("16 in", "mass", 3, "'in' measures length, not mass", "lb"),
    ("16 furlongs", "length", 3, "'furlongs' is not a unit of length", "mm"),
    ("1 T", "mass", 2, "'T'", "t"),
    ("1 M", "length", 2, "'M'", "m"),
    ("20 mPa", "pressure", 3, "'mPa'", "MPa"),
    ("2 days", "hours", 2, "'days' measures days, not hours", "h or min"),
    ("$12/day", "money", 3, "'/day' measures rate per day, not money", ""),
    ("$12/day", "rate_hour", 3, "'/day' measures rate per day, not rate per hour", "/h"),
    ("10 in - 12", "length", 8, "'12' has no unit", "after the range"),
    ("200 USD-300", "money", 8, "'300' has no unit", ""),
    ("3 - 4' 2\"", "length", 0, "'3' has no unit", ""),
    ("4' 3\" ±1/4", "length", 7, "'1/4' has no unit", ""),
    ("25 mm ±5 %", "length", 9, "'%' measures share, not length", ""),
    # fractions and hyphens
    ("16-7/0 in", "length", 3, "'7/0' divides by zero", ""),
    ("7/0 in", "length", 0, "'7/0' divides by zero", ""),
    ("16-8/8 in", "length", 3, "'8/8' is not a proper fraction", "'to'"),
    ("16 9/8 in", "length", 3, "'9/8' is not a proper fraction", ""),
    ("0-3/4 in", "length", 0, "'0-3/4' may be a range or a fraction", "0 to 3/4"),
    ("0'-6\"", "length", 3, "'6\"'", ""),
    ("7/8.5 in", "length", 1, "'/8.5 in'", ""),
    ("3/4/2026 in", "length", 1, "'/4/2026 in'", ""),
    ("1/2-3/4-7/8 in", "length", 7, "'-7/8 in' is left over", ""),
    ("18-16 in", "length", 0, "'18-16 in' runs downwards", "lower end first"),
    ("16 - 7/8 in", "length", 0, "'16 - 7/8 in' runs downwards", ""),
    ("$700-200", "money", 0, "'$700-200' runs downwards", ""),
    ("-3 to -5 mm", "length", 0, "runs downwards", ""),
    ("-3-5 mm", "length", 2, "'-'", "-3 to 5 mm"),
    ("3--1 mm", "length", 1, "'-'", ""),
    ("- 3 mm", "length", 0, "'-'", ""),
    ("-3 kg", "mass", 0, "'-3' has a sign", ""),
    ("-$5", "money", 0, "'-$5' has a sign", ""),
    ("10 to in", "length", 6, "'in'", ""),
    ("10 in to", "length", 8, "nothing", ""),
    ("10 in ±", "length", 7, "nothing", ""),
    ("±1/16 in", "length", 0, "'±1/16'", ""),
    ("16-18 in ±1/16 in", "length", 10, "'1/16 in' is no tolerance", "±"),
    ("16 in ±-1 in", "length", 7, "'-1 in' is no tolerance", ""),
    # commas
    ("1,36 lb", "mass", 0, "'1,36'", "1,360"),
    ("1,3600 lb", "mass", 0, "'1,3600'", ""),
    ("12,345,67 lb", "mass", 0, "'12,345,67'", ""),
    ("1360,5 lb", "mass", 0, "'1360,5'", ""),
    ("0,123 lb", "mass", 0, "'0,123'", ""),
    (",5 lb", "mass", 0, "',5'", ""),
    ("$1,20", "money", 1, "'1,20'", ""),
    ("$1.234", "money", 1, "'1.234' has more than 2 decimals", "comma"),
    # leftovers
    ("1 in 2 in", "length", 5, "'2 in' is left over", "one figure"),
    ('1" 2"', "length", 3, "'2\"' is left over", ""),
    ("16 in x 12 in", "length", 6, "'x 12 in' is left over", ""),
    ("16 inch(es)", "length", 7, "'(es)' is left over", ""),
    ("4' 12\"", "length", 3, "'12\"' does not go with the feet", ""),
    ("4.5' 3\"", "length", 5, "'3\"' does not go with the feet", ""),
    ("4 ft 6", "length", 5, "'6' does not go with the feet", ""),
    ("802-555-0100", "money", 7, "'-0100' is left over", ""),
    ("€100", "money", 0, "'€100'", "$"),
    ("$2.5k", "money", 4, "'k'", ""),
    # what a share and a count can be
    ("7", "share", 0, "'7' is more than the whole", "7 %"),
    ("1.01", "share", 0, "more than the whole", ""),
    ("101 %", "share", 0, "more than the whole", ""),
    ("50-101 %", "share", 3, "'101' is more than the whole", ""),
    ("12.5", "count", 0, "'12.5' is not a whole number", "12"),
    ("12-13.5", "count", 3, "'13.5' is not a whole number", ""),
    ("1/2", "count", 1, "'/2' is left over", ""),
    # a ratio is to one
    ("41:10", "ratio", 2, "':10' is left over", "41/10"),
    ("1:4.10", "ratio", 1, "':4.10' is left over", "4.10:1"),
    ("0:1", "ratio", 0, "is no ratio", "4.10:1"),
    ("4.10 to 1", "ratio", 0, "runs downwards", ""),
    ("4.10 mm", "ratio", 5, "'mm' measures length, not ratio", ":1 or a bare number"),
    ("4.10:1", "length", 4, "':1' measures ratio, not length", ""),
]


@pytest.mark.parametrize(("text", "dimension", "position", "said", "hinted"), REFUSED, ids=repr)
def test_refused_with_the_place(text: str, dimension: str, position: int, said: str, hinted: str) -> None:
    with pytest.raises(QuantityError) as caught:
        read_quantity(text, dimension)
    error = caught.value
    assert (error.text, error.position) == (text, position)
    assert said in error.message
    assert hinted in error.hint
    assert error.hint
    assert str(error) == f"{error.message} ({error.hint})"


def test_the_longest_text() -> None:
    assert read_quantity("16 in".ljust(LONGEST), "length").value == 406.4
    for read in (
        lambda text: read_quantity(text, "length"), lambda text: read_rating(text, "power"), read_thread, read_spline, read_taper,
    ):  # fmt: skip
        with pytest.raises(QuantityError, match="too long") as caught:
            read("16 in".ljust(LONGEST + 1))
        assert caught.value.position == LONGEST


def test_a_dimension_that_does_not_exist_is_a_wrong_call() -> None:
    for read in (read_quantity, read_rating):
        with pytest.raises(InputError, match="'lenght'"):
            read("16 in", "lenght")


@pytest.mark.parametrize("dimension", DIMENSIONS)
def test_units_named_in_hints_are_read(dimension: str) -> None:
    listed = units_read(dimension).partition(" may be written in ")[2].replace(" or ", ", ").split(", ")
    for unit in listed:
        text = {"a bare number": "1", "$": "$1"}.get(unit, f"1 {unit}")
        assert read_quantity(text, dimension).value > 0
