"""Readings found in a text, and held against limits."""

import time

import pytest
from hypothesis import given
from hypothesis import strategies as st

from interchange.ads.health_reading import judged, latest, readings_in
from interchange.catalog.figure import Figure
from interchange.quantity import read_quantity
from interchange.quantity.units import PSI

FOUR = {"core.cylinders": Figure(quantity=read_quantity("4", "count"))}
LEAST = {"core.compression": Figure(quantity=read_quantity("350 psi", "pressure"))}
SPREAD = {"core.compression_spread": Figure(quantity=read_quantity("40 psi", "pressure"))}


@pytest.fixture(scope="module")
def read(health_tests):
    def read_(text):
        return list(readings_in(text, list(health_tests.values()), "the ad says"))

    return read_


@pytest.mark.parametrize(
    ("text", "test", "values"),
    [
        pytest.param("compression 410, 400, 395, 300 psi", "compression", [410, 400, 395, 300], id="commas"),
        pytest.param("Compression: 410/400/395/300 PSI cold", "compression", [410, 400, 395, 300], id="slashes"),
        pytest.param("comp test 410 and 400 psi", "compression", [410, 400], id="and"),
        pytest.param("compression on all four 400 psi", "compression", [400], id="words between"),
        pytest.param("compression 28 bar", "compression", [28 * 100 / float(PSI)], id="bar"),
        pytest.param("40 lbs of oil pressure", "oil_pressure", [40], id="number first"),
        pytest.param("oil pressure 45 psi hot idle", "oil_pressure", [45], id="hot"),
    ],
)
def test_readings_are_found(read, text, test, values):
    (found,) = read(text)
    assert found.test.id == test
    assert found.values == pytest.approx([value * float(PSI) for value in values])


@pytest.mark.parametrize(
    "text",
    [
        pytest.param("compression 410 400 395", id="no unit"),
        pytest.param("18:1 compression, $400", id="ratio"),
        pytest.param("oil pressure 60 psi cold", id="cold"),
        pytest.param("compression 12 %", id="another quantity"),
        pytest.param("great compression. 410 psi relief", id="another sentence"),
    ],
)
def test_what_is_no_reading(read, text):
    assert read(text) == []


def test_a_share(read):
    (found,) = read("leak down 8, 10, 35 and 9 %")
    assert found.values == pytest.approx((0.08, 0.10, 0.35, 0.09))


@pytest.mark.parametrize(
    ("text", "features", "ratio", "why"),
    [
        pytest.param("compression 410, 400, 395, 390 psi", FOUR | LEAST, 3, "at least 350 psi (its own limit)", id="passes"),
        pytest.param(
            "compression 410, 400, 395, 349 psi", FOUR | LEAST, 0.1, "number 4, 349 psi, is below 350", id="below its own"
        ),
        pytest.param("compression 410, 400, 395, 350 psi", FOUR | LEAST, 0.7, "15% apart", id="at its own, not close"),
        pytest.param("compression 410, 400, 395 psi", FOUR | LEAST, 1.5, "3 of 4 were read", id="one was not read"),
        pytest.param("compression 410, 400, 395, 390 psi", FOUR, 1.5, "not in the catalog", id="no limit known"),
        pytest.param("compression 410, 400, 395, 390 psi", LEAST, 1.5, "how many", id="number of cylinders not known"),
        pytest.param(
            "compression 410, 400, 395, 307 psi", FOUR, 0.1, "number 4, 307 psi, is low: 25% below", id="over a quarter"
        ),
        pytest.param("compression 410, 400, 395, 308 psi", FOUR, 0.7, "25% apart, more than 10 %", id="under a quarter"),
        pytest.param("compression 410, 400, 395, 369 psi", FOUR | LEAST, 3, "its own limit", id="a tenth"),
        pytest.param("compression 410, 400, 395, 371 psi", FOUR | LEAST | SPREAD, 3, "its own", id="its own spread"),
        pytest.param("compression 410, 400, 395, 369 psi", FOUR | LEAST | SPREAD, 0.1, "41 psi apart", id="over its own spread"),
        pytest.param("leak down 8, 10, 26, 9 %", FOUR, 0.15, "number 3, 26 %, is above 25 %", id="leaks"),
        pytest.param("leak down 8, 10, 25, 9 %", FOUR, 2.5, "at most 25 %", id="leaks as much as it may"),
        pytest.param("oil pressure 20 psi", {}, 1.6, "at least 20 psi", id="oil pressure"),
        pytest.param("oil pressure 19 psi", {}, 0.15, "19 psi is below 20 psi (the usual limit", id="low oil pressure"),
    ],
)
def test_against_limits(read, text, features, ratio, why):
    (found,) = read(text)
    result = judged(found, features)
    assert (result.ratio, why in result.why) == (ratio, True), result


def test_the_last_reading_of_a_test_stands(read):
    assert [one.values for one in latest([*read("oil pressure 20 psi"), *read("oil pressure 45 psi")])] == [
        read("oil pressure 45 psi")[0].values
    ]


@given(st.text(alphabet="compressin 0123456789.,/-psi%\n", max_size=300))
def test_any_text_is_read(read, text):
    assert all(len(one.values) >= 1 for one in read(text))


@pytest.mark.parametrize("piece", ["compression ", "1234567890", "1,", "compression 1", "9 psi ", "oil pressure 9 9 "])
def test_reading_is_linear_in_the_text(read, piece):
    """Ten times the text takes about ten times as long: forty times would be a fault."""
    times = []
    for size in (20_000, 200_000):
        text = piece * (size // len(piece))
        began = time.process_time()
        read(text)
        times.append(time.process_time() - began)
    assert times[1] <= 40 * max(times[0], 0.002)
