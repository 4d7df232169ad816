"""Of any figure: exact in every unit, in order, finite, refused in words, in linear time."""

from __future__ import annotations

import re
import subprocess
import sys
import time
from fractions import Fraction
from typing import TYPE_CHECKING

import pytest
from hypothesis import assume, example, given
from hypothesis import strategies as st

from interchange import quantity
from interchange.quantity import (
    DIMENSIONS,
    QuantityError,
    read_quantity,
    read_rating,
    read_spline,
    read_taper,
    read_thread,
    reading,
    threads,
)

if TYPE_CHECKING:
    from collections.abc import Callable
    from decimal import Decimal

WHOLES, BOTTOMS = st.integers(1, 9999), st.sampled_from([2, 3, 4, 5, 8, 10, 12, 16, 32, 64, 100])
MIXED_STYLES = ["{w}-{n}/{d} in", "{w} {n}/{d} in", '{w}-{n}/{d}"', '{w} {n}/{d}"', "{w}-{n}/{d} inches", "{w:,}-{n}/{d} in"]


@given(whole=WHOLES, bottom=BOTTOMS, top=st.integers(1, 99), style=st.sampled_from(MIXED_STYLES))
def test_mixed_inches_are_exact(whole: int, bottom: int, top: int, style: str) -> None:
    assume(top < bottom)
    text = style.format(w=whole, n=top, d=bottom)
    exact = (whole + Fraction(top, bottom)) * Fraction(254, 10)
    assert read_quantity(text, "length").value == float(exact)
    assert read_quantity(f"-{text}", "length").value == -float(exact)


@given(feet=st.integers(1, 999), inches=st.integers(0, 11), eighths=st.integers(1, 7), join=st.sampled_from([" ", "-", ""]))
def test_feet_and_inches_are_exact(feet: int, inches: int, eighths: int, join: str) -> None:
    written = f"{inches}-{eighths}/8" if inches else f"{eighths}/8"
    exact = (12 * feet + inches + Fraction(eighths, 8)) * Fraction(254, 10)
    assert read_quantity(f"{feet}'{join}{written}\"", "length").value == float(exact)


@given(number=st.decimals(0, 10**7, places=4, allow_nan=False), row=st.sampled_from(sorted(quantity.UNITS)))
def test_decimals_are_exact_in_every_unit(number: Decimal, row: str) -> None:
    assume(row not in {"share", "count", "money"})
    for unit, factor in quantity.UNITS[row].items():
        text = f"{number:f} {unit}".replace("·", "-")
        assert read_quantity(text, row).value == float(Fraction(number) * factor)


@given(
    whole=st.integers(0, 10**9), rest=st.sampled_from(["", ".5", ".125", "-1/2", " 7/8", "-9/8", "-0/3", "-1/0"]),
    gap=st.sampled_from(["", " "]), dimension=st.sampled_from(sorted(DIMENSIONS)), pick=st.integers(0, 99),
)  # fmt: skip
def test_the_short_cut_reads_as_the_long_way(whole: int, rest: str, gap: str, dimension: str, pick: int) -> None:
    units = sorted(quantity.UNITS[dimension])
    text = f"{whole}{rest}{gap}{units[pick % len(units)]}"
    short = reading._plain(text, dimension)
    if short is not None:
        assert short == reading._Reader(text, dimension, 0, len(text)).read()


ENDS = st.fractions(0, 10000, max_denominator=64)


def inches(number: Fraction) -> str:
    whole, rest = divmod(number, 1)
    return f"{whole}-{rest}" if whole and rest else f"{rest or whole}"


@given(one=ENDS, other=ENDS, mark=st.sampled_from(["-", " - ", " to ", "..", "–"]))
@example(Fraction(3, 2), Fraction(7, 4), "-")
@example(Fraction(0), Fraction(3, 4), " to ")
def test_the_ends_of_a_range_keep_their_order(one: Fraction, other: Fraction, mark: str) -> None:
    assume(one != other)
    assume(mark in (" to ", " - ", "..") or min(one, other) != 0)  # 0-3/4 is refused: it may be a fraction
    low, high = sorted((one, other))
    assume(mark in (" to ", "..") or low.denominator != 1 or high >= 1)
    up, down = f"{inches(low)}{mark}{inches(high)} in", f"{inches(high)}{mark}{inches(low)} in"
    read = read_quantity(up, "length")
    assert (read.low, read.high) == (float(low * Fraction(254, 10)), float(high * Fraction(254, 10)))
    assert read.low <= read.value <= read.high
    tight_mixed = mark in ("-", "–") and high.denominator == 1 and low < 1
    if tight_mixed:  # 16-7/8 is a mixed number, never a range
        assert read_quantity(down, "length").value == float((high + low) * Fraction(254, 10))
    else:
        with pytest.raises(QuantityError, match="runs downwards"):
            read_quantity(down, "length")


PIECES = [*"0123456789-/.,' \"$±+@#%°x", "in", "mm", " lb", "ft", "rpm", " to ", "..", "M", "T "]
SHOP = st.lists(st.sampled_from(PIECES), max_size=24).map("".join)


def fault(read: Callable[..., object], arguments: tuple[str, ...]) -> QuantityError | None:
    try:
        read(*arguments)
    except QuantityError as error:
        return error
    return None


@given(text=st.one_of(st.text(), SHOP), dimension=st.sampled_from(sorted(DIMENSIONS)))
@example("1" * 400, "length")
@example("9" * 15 + "/" + "9" * 15 + " t", "mass")
@example("to", "length")
@example("\ud800", "money")
def test_nothing_but_a_quantity_error_on_any_text(text: str, dimension: str) -> None:
    for read, arguments in (
        (read_quantity, (text, dimension)), (read_rating, (text, dimension)), (read_thread, (text,)), (read_spline, (text,)),
        (read_taper, (text,)),
    ):  # fmt: skip
        error = fault(read, arguments)
        if error is not None:
            assert 0 <= error.position <= len(text)
            assert error.text == text
            assert error.message.isprintable()
            assert error.hint


@given(text=SHOP)
def test_what_is_read_is_finite_and_in_order(text: str) -> None:
    try:
        read = read_quantity(text, "length")
    except QuantityError:
        return
    assert abs(read.value) < 1e20
    assert (read.low is None) == (read.high is None)
    if read.low is not None and read.high is not None:
        assert read.low <= read.value <= read.high


@pytest.mark.parametrize(
    "unit", ["1", "1,", "1/", "1-", " ", "\t", "a", "a.", "a ", "- ", "'", ".", "1 ", "-1/1", "T", "to", "@", "at"]
)
def test_patterns_take_linear_time(unit: str) -> None:
    """Far past the cap on length: 200,000 characters take well under a second, where squares would take hours."""
    text = unit * (200_000 // len(unit))
    patterns = [value for value in vars(reading).values() if isinstance(value, re.Pattern)]
    patterns.extend(re.compile(pattern) for pattern in (threads._THREAD, threads._SPLINE))
    assert len(patterns) > 10
    start = time.process_time()
    for pattern in patterns:
        for tried in (text, "1" + text, "1 " + text + "!"):
            pattern.match(tried)
            pattern.fullmatch(tried)
    reading._AT.search(text)
    assert time.process_time() - start < 5


def test_a_second_reading_is_the_same_object() -> None:
    assert read_quantity("16-7/8 in", "length") is read_quantity("16-7/8 in", "length")
    assert read_thread("3/8-16") is read_thread("3/8-16")
    with pytest.raises(AttributeError):
        read_quantity("16-7/8 in", "length").value = 1.0


def test_importing_it_is_cheap() -> None:
    code = "import sys, interchange.quantity; print(*sys.modules)"
    loaded = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True, encoding="utf-8")
    modules = set(loaded.stdout.split())
    ours = {name for name in modules if name.startswith("interchange")}
    assert all(name in ("interchange", "interchange.errors") or name.startswith("interchange.quantity") for name in ours)
    assert not modules & {"dataclasses", "inspect", "yaml", "duckdb", "rich", "typer", "rapidfuzz", "pint"}
