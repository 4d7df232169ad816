"""Threads, splines, tapers and ratings, as a shop writes them."""

from __future__ import annotations

import re
from fractions import Fraction

import pytest

from interchange.quantity import (
    QuantityError,
    Spline,
    Taper,
    Thread,
    read_rating,
    read_spline,
    read_taper,
    read_thread,
)

LB, LB_FT, HP, PSI = 0.45359237, 1.3558179483314004, 0.74569987158227022, 6.894757293168361


def mm(inches: str) -> float:
    """Inches written as a fraction or decimal, in mm, worked out apart from the module."""
    return float(Fraction(inches) * Fraction(254, 10))


@pytest.mark.parametrize(
    ("text", "major_mm", "pitch_mm"),
    [
        ("3/8-16", 9.525, 1.5875),
        ("3/8 - 16", 9.525, 1.5875),
        ("3/8–16 UNC", 9.525, 1.5875),
        ('3/8"-16 UNC-2B', 9.525, 1.5875),
        ("1-1/16-12", 26.9875, mm("1/12")),
        ("1 1/16-12 UN", 26.9875, mm("1/12")),
        ("11/16-12", 17.4625, mm("1/12")),
        ("2-1/2-12", 63.5, mm("1/12")),
        ("1-8", 25.4, 3.175),
        ("1-20 UNEF", 25.4, 1.27),
        ("4-4", 101.6, 6.35),
        ("#10-32", 4.826, 0.79375),
        ("#0-80 UNF", 1.524, 0.3175),
        ("M12x1.75", 12.0, 1.75),
        ("M12 x 1.75", 12.0, 1.75),
        ("M12×1.75-6H", 12.0, 1.75),
        ("M64x6", 64.0, 6.0),
        ("  M3x0.5 ", 3.0, 0.5),
    ],
)
def test_threads(text: str, major_mm: float, pitch_mm: float) -> None:
    assert read_thread(text) == Thread(major_mm, pitch_mm, text.strip())


@pytest.mark.parametrize(
    ("text", "position", "said"),
    [
        ("", 0, "is not a thread"),
        ("M12", 0, "'M12' is not a thread"),
        (" 3/4-14 NPT", 1, "'3/4-14 NPT' is not a thread"),
        ("16 in", 0, "'16 in' is not a thread"),
        ("3/8-16 LH", 0, "is not a thread"),
        ("3/0-16", 0, "is not a thread"),
        ("3/8-0", 0, "is not a thread"),
        ("1--8", 0, "is not a thread"),
        ("٣/8-16", 0, "is not a thread"),
        ("1-21", 0, "may be a numbered size"),
        ("5-8", 0, "may be a numbered size"),
        ("10-32", 0, "'10-32' may be a numbered size"),
        ("1-5/4-12", 2, "'5/4' is not a proper fraction"),
        ("1/2-6", 4, "pitch"),
        ("0/8-16", 4, "pitch"),
        ("M3x1", 3, "pitch"),
        ("M12x0", 4, "pitch"),
    ],
)
def test_threads_refused(text: str, position: int, said: str) -> None:
    with pytest.raises(QuantityError) as caught:
        read_thread(text)
    assert (caught.value.text, caught.value.position) == (text, position)
    assert said in caught.value.message
    assert "M12x1.75" in caught.value.hint


def test_the_coarsest_pitch_that_is_a_thread() -> None:
    """A third of the diameter is refused; 1/2-7 is just below it (no such thread is made, but none is denied)."""
    assert read_thread("1/2-7").pitch_mm == mm("1/7")
    with pytest.raises(QuantityError):
        read_thread("1/2-6")


@pytest.mark.parametrize(
    ("text", "spline"),
    [
        ("14T 12/24", (14, 12.0, None)),
        ("14 teeth 12/24", (14, 12.0, None)),
        ("13T, 8/16", (13, 8.0, None)),
        ("20t 2.5/5", (20, 2.5, None)),
        ("20T m2", (20, None, 2.0)),
        ("20T module 2", (20, None, 2.0)),
        ("20T m 1.25", (20, None, 1.25)),
        ("20T m0.5", (20, None, 0.5)),
        ("4T m2", (4, None, 2.0)),
        ("200T m2", (200, None, 2.0)),
    ],
)
def test_splines(text: str, spline: tuple[int, float | None, float | None]) -> None:
    assert read_spline(text) == Spline(*spline, text)


@pytest.mark.parametrize(
    ("text", "position", "said"),
    [
        ("14T", 0, "'14T' is not a spline"),
        ("12/24", 0, "is not a spline"),
        ("6 spline", 0, "is not a spline"),
        ("14T 0/0", 0, "is not a spline"),
        ("20T m0", 0, "is not a spline"),
        ("14T 12/20", 4, "'12/20' is not a pitch over its double"),
        (" 3T m2", 1, "'3' teeth"),
        ("201T m2", 0, "'201' teeth"),
    ],
)
def test_splines_refused(text: str, position: int, said: str) -> None:
    with pytest.raises(QuantityError) as caught:
        read_spline(text)
    assert (caught.value.text, caught.value.position) == (text, position)
    assert said in caught.value.message


@pytest.mark.parametrize(
    ("text", "ratio"),
    [
        ("1:8", 0.125),
        ("1 : 12.5", 0.08),
        (" 1:1 ", 1.0),
        ("1.5 in per ft", 0.125),
        ("1-1/2 in/ft", 0.125),
        ("1-1/2 in / foot", 0.125),
        ("5/8 in per foot", 0.625 / 12),
        ("12 in/ft", 1.0),
    ],
)
def test_tapers(text: str, ratio: float) -> None:
    assert read_taper(text) == Taper(pytest.approx(ratio), text.strip())


@pytest.mark.parametrize(
    ("text", "position", "said"),
    [
        ("8", 0, "'8' is not a taper"),
        (" 2:8", 1, "'2:8' is not a taper"),
        ("1:0.99", 0, "is no shaft's taper"),
        ("12.1 in/ft", 0, "is no shaft's taper"),
        ("0 in/ft", 0, "is no shaft's taper"),
        ("1-2 in/ft", 0, "is no shaft's taper"),
        (" 1.5/ft", 1, "has no unit"),
        ("1.5 lb/ft", 4, "'lb'"),
    ],
)
def test_tapers_refused(text: str, position: int, said: str) -> None:
    with pytest.raises(QuantityError) as caught:
        read_taper(text)
    assert (caught.value.text, caught.value.position) == (text, position)
    assert said in caught.value.message


@pytest.mark.parametrize(
    ("text", "dimension", "amount", "rpm"),
    [
        ("62 hp @ 2200 rpm", "power", 62 * HP, 2200.0),
        ("62 hp at 2,200 rpm", "power", 62 * HP, 2200.0),
        ("62 hp@2200 rpm", "power", 62 * HP, 2200.0),
        ("46 kW @ 2,200 rpm", "power", 46.0, 2200.0),
        ("178 lb-ft @ 1400 rpm", "torque", 178 * LB_FT, 1400.0),
        ("62 hp", "power", 62 * HP, None),
    ],
)
def test_ratings(text: str, dimension: str, amount: float, rpm: float | None) -> None:
    rating = read_rating(text, dimension)
    assert rating.amount.value == pytest.approx(amount, rel=1e-15)
    assert (rating.amount.dimension, rating.amount.text) == (dimension, re.split(r" ?@| at", text)[0])
    assert (rating.speed and rating.speed.value) == rpm
    assert rating.text == text


@pytest.mark.parametrize(
    ("text", "position", "said"),
    [
        ("62 @ 2200 rpm", 0, "'62' has no unit"),
        ("62 hp @ 2200", 8, "'2200' has no unit"),
        ("62 hp @ 2200 hp", 13, "'hp' measures power, not speed"),
        ("62 lb-ft @ 2200 rpm", 3, "'lb-ft' measures torque, not power"),
        ("62 hp @", 7, "nothing"),
        ("@ 2200 rpm", 0, "nothing"),
        ("62 hp @ 2200 rpm @ 1 rpm", 17, "'@ 1 rpm' is left over"),
        ("62 hp 2200 rpm", 6, "'2200 rpm' is left over"),
    ],
)
def test_ratings_refused(text: str, position: int, said: str) -> None:
    with pytest.raises(QuantityError) as caught:
        read_rating(text, "power")
    assert (caught.value.text, caught.value.position) == (text, position)
    assert said in caught.value.message
