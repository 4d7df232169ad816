"""Figures shown as a shop would write them, which reads back."""

from __future__ import annotations

import re
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from interchange.quantity import (
    DIMENSIONS,
    read_quantity,
    show,
)

LB, LB_FT, HP, PSI = 0.45359237, 1.3558179483314004, 0.74569987158227022, 6.894757293168361


@pytest.mark.parametrize(
    ("value", "dimension", "shown"),
    [
        (428.625, "length", "428.63 mm (16-7/8 in)"),
        (25.4, "length", "25.4 mm (1 in)"),
        (12.7, "length", "12.7 mm (1/2 in)"),
        (0.79375, "length", "0.79 mm (1/32 in)"),
        (25.45, "length", "25.45 mm (1 in)"),
        (25.46, "length", "25.46 mm (1.002 in)"),
        (0.03, "length", "0.03 mm (0.001 in)"),
        (0.0, "length", "0 mm (0 in)"),
        (-38.1, "length", "-38.1 mm (-1-1/2 in)"),
        (-3.0, "length", "-3 mm (-0.118 in)"),
        (-0.001, "length", "0 mm (0 in)"),
        (1300.0, "length", "1,300 mm (51.181 in)"),
        (1360 * LB, "mass", "1,360 lb"),
        (2.5 * LB, "mass", "2.5 lb"),
        (178 * LB_FT, "torque", "178 lb-ft (241 N·m)"),
        (62 * HP, "power", "62 hp (46.2 kW)"),
        (2200.0, "speed", "2,200 rpm"),
        (22.5, "angle", "22.5°"),
        (12.0, "voltage", "12 V"),
        (3000 * PSI, "pressure", "3,000 psi (207 bar)"),
        (32.774128, "displacement", "32.8 cm3 (2 in3)"),
        (45.424941408, "flow", "12 gpm (45.4 L/min)"),
        (285000.0, "money", "$2,850"),
        (285050.0, "money", "$2,851"),
        (1000.0, "money", "$10"),
        (999.0, "money", "$9.99"),
        (900.0, "money", "$9"),
        (-15000.0, "money", "-$150"),
        (0.0, "money", "$0"),
        (90.0, "rate_mile", "$0.90 /mi"),
        (3500.0, "rate_hour", "$35 /h"),
        (1200.0, "rate_day", "$12 /day"),
        (12.0, "hours", "12 h"),
        (12.5, "hours", "12.5 h"),
        (10.0, "days", "10 days"),
        (1.0, "days", "1 day"),
        (0.0, "days", "0 days"),
        (7.0, "days", "1 wk"),
        (21.0, "days", "3 wk"),
        (12.0, "count", "12"),
        (0.72, "share", "72 %"),
        (0.07, "share", "7 %"),
        (4.1, "ratio", "4.1:1"),
        (41 / 11, "ratio", "3.73:1"),
        (13.684, "ratio", "13.68:1"),
        (62.0, "distance", "62 mi"),
        (1234.4, "distance", "1,234 mi"),
        (None, "length", "not known"),
    ],
)
def test_shown(value: float | None, dimension: str, shown: str) -> None:
    assert show(value, dimension) == shown


@pytest.mark.parametrize(
    ("text", "dimension", "shown"),
    [
        ("409.575-409.702 mm", "length", "409.58 to 409.7 mm (16-1/8 to 16.13 in)"),
        ("16-7/8 in ±1/16 in", "length", "428.63 ± 1.59 mm (16-7/8 ± 1/16 in)"),
        ("$200-700", "money", "$200 to $700"),
        ("$0.90-1.60 /mi", "rate_mile", "$0.90 to $1.60 /mi"),
        ("1-3 wk", "days", "1 to 3 wk"),
        ("3-7 days", "days", "3 to 7 days"),
        ("14 days ±1 day", "days", "14 ± 1 days"),
        ("5-15 %", "share", "5 to 15 %"),
        ("10.9-11.3:1", "ratio", "10.9 to 11.3:1"),
        ("60-70 hp", "power", "60 to 70 hp (44.7 to 52.2 kW)"),
    ],
)
def test_shown_with_its_ends_or_tolerance(text: str, dimension: str, shown: str) -> None:
    read = read_quantity(text, dimension)
    assert show(read.value, dimension, low=read.low, high=read.high, tolerance=read.tolerance) == shown


@pytest.mark.parametrize("dimension", DIMENSIONS)
def test_every_dimension_can_be_shown(dimension: str) -> None:
    assert re.search(r"\d", show(1.0, dimension))


@given(thirty_seconds=st.integers(1, 20000))
def test_a_shown_fraction_reads_back(thirty_seconds: int) -> None:
    value = float(Fraction(thirty_seconds * 254, 320))
    fraction = show(value, "length").partition("(")[2].rstrip(")")
    assert read_quantity(fraction, "length").value == value
