"""What height takes, against printed rules and worked examples."""

from pathlib import Path

import pytest

from interchange.catalog.check import SourceText, read_kinds
from interchange.catalog.figure import Figure
from interchange.catalog.kind import HeightLoss
from interchange.fit.height import left
from interchange.quantity import read_quantity

TRADE = Path(__file__).parents[2] / "catalog" / "trade"
LOSSES = read_kinds([SourceText("engine.yaml", (TRADE / "engine.yaml").read_text(encoding="utf-8"), 0)])["engine"].altitude.losses
FT = 304.8


def loss(share, above):
    return HeightLoss(loss=Figure(quantity=read_quantity(share, "share")), above=Figure(quantity=read_quantity(above, "length")))


def test_the_225_hp_problem():
    """An agricultural text: 3 % per 1000 ft above 500 ft; 225 hp at 4,500 ft: by hand 198 hp; its answer was not seen."""
    assert 225 * left(LOSSES["natural"], 4500 * FT)[1] == pytest.approx(198.0)


def test_a_generator_at_6079_ft():
    """Gucbir Generator, altitude power loss calculation: 100 kVA, 3.5 % per 1000 ft above 500 ft: 19.52 % lost, 80.48 kVA left.

    The sum on the page takes 5.579 thousands; to two places it is 80.47.
    """
    assert 100 * left(loss("3.5 %", "500 ft"), 6079 * FT)[1] == pytest.approx(80.48, abs=0.01)


@pytest.mark.parametrize("feet", [3000, 5200, 8000])
def test_truck_makers_begin_at_the_sea(feet):
    """Drivers' manuals of two truck makers: 3 % per 1000 ft above sea level, 1.5 % more than the rule taken here."""
    assert left(LOSSES["natural"], feet * FT)[1] - left(loss("3 %", "0 ft"), feet * FT)[1] == pytest.approx(0.015)


def test_a_regulator_s_rule_for_fuel():
    """MSHA user group minutes: 1 % per 100 m from 1000 m (turbo): at 3000 m 20 % is taken back."""
    assert 1 - left(LOSSES["turbo"], 3_000_000)[1] == pytest.approx(0.20, abs=0.002)


def test_turbocharged_engines_lose_less():
    """The drivers' manuals of two truck makers say so, without a figure."""
    for feet in range(600, 14_000, 200):
        assert left(LOSSES["turbo"], feet * FT)[1] > left(LOSSES["natural"], feet * FT)[1]
