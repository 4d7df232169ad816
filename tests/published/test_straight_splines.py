"""Straight-sided splines: the rows of ISO 14 and the proportions of SAE."""

import pytest

from interchange.catalog.figure import Figure
from interchange.catalog.model import Shaft
from interchange.fit.straight_spline import ISO14, ISO14_LIGHT, ISO14_MEDIUM, looks_like, sae_sizes
from interchange.quantity import read_quantity

IN = 25.4


def length(mm):
    return Figure(quantity=read_quantity(f"{mm} mm", "length"))


def test_the_table_hangs_together() -> None:
    """RoyMech's page was flattened, so the rows are held against what the series are: a root, and two depths of spline on it."""
    assert (len(ISO14_LIGHT), len(ISO14_MEDIUM)) == (15, 20)
    for series in (ISO14_LIGHT, ISO14_MEDIUM):
        assert list(series) == sorted(series)
        assert all(minor < major and teeth * width < 3.1416 * minor for teeth, minor, major, width in series)
    medium = {(teeth, minor): (major, width) for teeth, minor, major, width in ISO14_MEDIUM}
    for teeth, minor, major, width in ISO14_LIGHT:
        deeper, same_width = medium[teeth, minor]
        assert deeper > major
        assert same_width == width


@pytest.mark.parametrize("size", ISO14, ids=lambda size: size.name)
def test_a_spline_measured_whole_looks_like_its_own_row(size) -> None:
    sizes = {name: length(getattr(size, f"{name}_mm")) for name in ("major", "minor", "width")}
    shaft = Shaft(form="straight-sided", teeth=size.teeth, **sizes)
    assert [name for name in looks_like(shaft) if name.startswith("ISO")] == [size.name]


@pytest.mark.parametrize(
    ("teeth", "major_in", "width_in", "roots_in"),
    [
        pytest.param(6, 1.375, 0.34375, (1.2375, 1.16875, 1.1), id="6 splines, 1-3/8 in"),
        pytest.param(10, 1.75, 0.273, (1.5925, 1.505, 1.4175), id="10 splines, 1-3/4 in"),
    ],
)
def test_sae_proportions(teeth, major_in, width_in, roots_in) -> None:
    """W = D/4 or 0.156 D; d = 0.90, 0.85, 0.80 D or 0.91, 0.86, 0.81 D for A, B, C: from memory, unconfirmed."""
    sizes = sae_sizes(teeth, major_in * IN)
    assert [size.minor_mm / IN for size in sizes] == pytest.approx(list(roots_in))
    assert {round(size.width_mm / IN, 5) for size in sizes} == {width_in}


def test_sae_has_no_proportions_here_for_other_counts() -> None:
    assert sae_sizes(8, 40.0) == ()


def test_sae_is_not_told_by_a_diameter_alone() -> None:
    one = Shaft(form="straight-sided", teeth=6, major=length(34.925))
    assert looks_like(one) == ()
    assert looks_like(Shaft(form="straight-sided", teeth=6, major=length(34.925), minor=length(29.69))) == (
        "SAE 6B (slides without load; from memory)",
    )
