"""Compression readings against a printed example.

US Army TM 5-3895-359-14&P, compression check: readings of 445, 440, 405 and 435 psi, all above the low limit; cylinder 3 is
suspect, because no cylinder may differ from another by more than 25 psi. (Its table of limits is of another engine: only the
rule on the difference is taken.)
"""

import pytest

from interchange.ads.health_reading import Reading, judged
from interchange.catalog.figure import Figure
from interchange.catalog.health import HealthTest
from interchange.quantity import read_quantity
from interchange.quantity.units import PSI

TEST = HealthTest(
    kind="engine", title="compression", say=("compression",), measures="pressure", about="cylinders", how="cranked",
    least="core.compression", spread="core.compression_spread", passes=3, even=1.5, doubtful=0.7, fails=0.1,
)  # fmt: skip
FEATURES = {
    "core.compression": Figure(quantity=read_quantity("400 psi", "pressure")),
    "core.compression_spread": Figure(quantity=read_quantity("25 psi", "pressure")),
}


@pytest.mark.parametrize(
    ("readings", "ratio", "why"),
    [
        pytest.param((445, 440, 405, 435), 0.1, "number 3, 405 psi, is low: 40 psi apart, more than 25 psi", id="as printed"),
        pytest.param((445, 440, 420, 435), 3, "within", id="25 apart"),
        pytest.param((445, 440, 419, 435), 0.1, "number 3", id="26 apart"),
    ],
)
def test_printed_example(readings, ratio, why):
    result = judged(Reading(TEST, tuple(each * float(PSI) for each in readings), "", "measured"), FEATURES)
    assert result.ratio == ratio
    assert why in result.why
