"""The normal distribution behind what coarse readings leave open, against printed values."""

import math
import statistics

import pytest

from interchange.fit.reading_odds import between, normal_share, within_disc

# NIST/SEMATECH e-Handbook of Statistical Methods, table 1.3.6.7.1, area under the normal curve from 0 to x, to five places; the
# rows are quoted from memory.
AREAS = [
    (0.10, 0.03983), (0.50, 0.19146), (1.00, 0.34134), (1.50, 0.43319), (1.64, 0.44950), (1.96, 0.47500), (2.00, 0.47725),
    (2.50, 0.49379), (2.58, 0.49506), (3.00, 0.49865),
]  # fmt: skip


@pytest.mark.parametrize(("z", "area"), AREAS)
def test_area_under_the_normal_curve(z, area) -> None:
    assert normal_share(z) - 0.5 == pytest.approx(area, abs=5.1e-6)
    assert between(-z, z, 0.0, 1.0) == pytest.approx(2 * area, abs=1.1e-5)
    assert between(10 - 3 * z, 10 + 3 * z, 10.0, 3.0) == pytest.approx(2 * area, abs=1.1e-5)
    assert normal_share(-z) == pytest.approx(statistics.NormalDist().cdf(-z), rel=1e-12)


# The circular error of gunnery and surveying tables: half of all hits lie within 1.1774 standard deviations, 39.35 % within one,
# 86.47 % within two, 98.89 % within three. From memory; 1 - exp(-r²/2σ²).
CIRCULAR = [(1.1774, 0.5), (1.0, 0.3935), (2.0, 0.8647), (3.0, 0.9889), (3.4393, 0.9973)]


@pytest.mark.parametrize(("radii", "share"), CIRCULAR)
def test_circular_error(radii, share) -> None:
    assert within_disc(0.0, radii * 0.7, 0.7) == pytest.approx(share, abs=6e-5)
    assert within_disc(0.0, radii, 1.0) == pytest.approx(1 - math.exp(-(radii**2) / 2), abs=1e-9)
