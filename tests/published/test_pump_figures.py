"""What the pump kind derives, against printed pump tables and exercises."""

from pathlib import Path

import pytest

from interchange.catalog.check import SourceText, read_kinds
from interchange.catalog.derive import derived
from interchange.catalog.figure import Figure
from interchange.quantity import read_quantity

TRADE = Path(__file__).parents[2] / "catalog" / "trade"
PUMP = read_kinds([SourceText("pump.yaml", (TRADE / "pump.yaml").read_text(encoding="utf-8"), 0)])["pump"]
EFFICIENCY = 0.85  # what the kind takes for torque and power


def known(owner, **figures):
    return {f"{owner}.{name}": Figure(quantity=read_quantity(text, name)) for name, text in figures.items()}


# A10V series 31 catalogue, technical data at 280 bar without losses: cm3, rpm, L/min, kW, N·m.
A10V = [
    (18, 3300, 59.4, 28, 80), (28, 3000, 84, 39, 125), (45, 2600, 117, 55, 200), (71, 2200, 156, 73, 316),
    (100, 2000, 200, 93, 445), (140, 1800, 252, 118, 623),
]  # fmt: skip


@pytest.mark.parametrize(("size", "rpm", "l_min", "kw", "nm"), A10V, ids=[str(row[0]) for row in A10V])
def test_a_catalogue_without_losses(size, rpm, l_min, kw, nm):
    """The catalogue cuts torques off (445.6 is printed 445), and takes no losses: the kind's figures are that over 0.85."""
    figures = {"displacement": f"{size} cc/rev", "speed": f"{rpm} rpm", "pressure": "280 bar"}
    core, seat = derived(PUMP, known("core", **figures), ""), derived(PUMP, known("seat", **figures), "seat")
    assert core["core.flow"].value == pytest.approx(l_min, abs=0.5)
    assert core["core.torque"].value * EFFICIENCY == pytest.approx(nm, abs=0.95)
    assert seat["seat.power"].value * EFFICIENCY == pytest.approx(kw, abs=0.5)


def test_an_exercise_in_inches():
    """hydrauliclearning.com, pump power exercise: 1.5 in3, 1800 rpm, 3000 psi, mechanical 0.85. Its answers were not seen; by
    hand 11.69 gpm before leakage, 24.06 hp and 70.2 lb-ft on the shaft."""
    figures = {"displacement": "1.5 in3/rev", "speed": "1800 rpm", "pressure": "3000 psi"}
    core, seat = derived(PUMP, known("core", **figures), ""), derived(PUMP, known("seat", **figures), "seat")
    assert core["core.flow"].value == pytest.approx(read_quantity("11.69 gpm", "flow").value, rel=1e-3)
    assert core["core.torque"].value == pytest.approx(read_quantity("70.2 lb-ft", "torque").value, rel=1e-3)
    assert seat["seat.power"].value == pytest.approx(read_quantity("24.06 hp", "power").value, rel=1e-3)
    assert seat["seat.power"].text == "24.1 hp"


def test_a_page_with_a_rounded_flow():
    """machinecalc, hydraulic pump flow: 18 cm3 at 1500 rpm and a volumetric 0.92 give 24.8 L/min; without leakage 27.0."""
    flow = derived(PUMP, known("core", displacement="18 cc", speed="1500 rpm"), "")["core.flow"]
    assert flow.value * 0.92 == pytest.approx(24.8, abs=0.05)
