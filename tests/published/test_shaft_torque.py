"""Shear of a shaft against what makers rate theirs for."""

import pytest

from interchange.fit.shaft_torque import SHEAR_MPA, shear_torque_nm
from interchange.fit.spline_size import spline_size
from interchange.quantity import read_quantity, read_spline

IN = 25.4


def test_the_one_published_rating_gives_the_stress() -> None:
    """25-3 end, 1 in, taper 1:8, no key: rated 405 N·m (3580 lbf·in), 540 at most (Sauer-Danfoss H1 045/053 11063344, p. 24)."""
    assert 405 / shear_torque_nm(IN, 1.0) == pytest.approx(125.9, abs=0.05)
    assert 540 / shear_torque_nm(IN, 1.0) == pytest.approx(167.8, abs=0.05)
    assert shear_torque_nm(IN, SHEAR_MPA) < 405
    assert read_quantity(f"{3580 / 12} lb-ft", "torque").value == pytest.approx(405, abs=0.6)


@pytest.mark.parametrize(
    ("written", "rated_nm"),
    [
        pytest.param("13T 16/32", 198, id="size 28"),
        pytest.param("15T 16/32", 319, id="size 45"),
        pytest.param("14T 12/24", 626, id="size 71"),
        pytest.param("17T 12/24", 1104, id="size 100"),
        pytest.param("13T 8/16", 1620, id="size 140"),
    ],
)
def test_ratings_from_memory_lie_close_together_and_over_the_estimate(written, rated_nm) -> None:
    """Rexroth A10VO series 31, shaft S: from memory, unconfirmed. On the flat root they are 154 to 166 MPa."""
    root_mm = spline_size(read_spline(written)).minor_external_mm
    assert 154 < rated_nm / shear_torque_nm(root_mm, 1.0) < 167
    assert shear_torque_nm(root_mm) < rated_nm
