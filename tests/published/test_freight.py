"""Pallet freight against printed classes, prices and one printed bill."""

from pathlib import Path

import pytest
import yaml

from interchange.haul.pallet import delivered, freight_class, linehaul
from interchange.haul.rates import DensityClass, LinehaulAnchor, Rate
from interchange.quantity import read_quantity
from interchange.spread import exactly

SHIPPED = yaml.safe_load((Path(__file__).parents[2] / "catalog" / "trade" / "haul.yaml").read_text(encoding="utf-8"))["rates"][
    "haul"
]
LB = read_quantity("1 lb", "mass").value
CLASSES = tuple(
    DensityClass(over_lb_ft3=read_quantity(row["a_cubic_foot"], "mass").value / LB, freight_class=float(row["freight_class"]))
    for row in SHIPPED["density_classes"]
)
PRINTED = [(500, 500, 15000, 35000), (1000, 500, 25000, 50000), (2500, 1000, 50000, 120000)]
ANCHORS = tuple(
    LinehaulAnchor(
        weight_lb=weight,
        miles=miles,
        price=Rate(low=low, likely=(low + high) / 2, high=high, basis="published"),
    )
    for weight, miles, low, high in PRINTED
)


@pytest.mark.parametrize(
    ("density", "printed"),
    [
        (0.0, 400), (0.99, 400), (1.0, 300), (1.99, 300), (2.0, 250), (3.99, 250), (4.0, 175), (5.99, 175), (6.0, 125),
        (7.99, 125), (8.0, 100), (9.99, 100), (10.0, 92.5), (11.99, 92.5), (12.0, 85), (14.99, 85), (15.0, 70),
        (22.49, 70), (22.5, 65), (29.99, 65), (30.0, 60), (34.99, 60), (35.0, 55), (49.99, 55), (50.0, 50), (400.0, 50),
    ],
)  # fmt: skip
def test_class_by_density(density, printed) -> None:
    assert freight_class(density + 1e-9, CLASSES) == printed


@pytest.mark.parametrize(("weight_lb", "miles", "low", "high"), PRINTED)
def test_printed_prices_come_back(weight_lb, miles, low, high) -> None:
    """The likely price exactly; the band, as wide as the widest printed one, holds the printed range."""
    priced = linehaul(weight_lb, exactly(miles), exactly(1.0), ANCHORS)
    assert priced.likely == pytest.approx((low + high) / 2)
    assert priced.low <= low * 1.0001
    assert priced.high >= high * 0.9999
    assert priced.low > 0.85 * low
    assert priced.high < 1.1 * high


def shipped_range(name: str, dimension: str) -> tuple[float, float]:
    quantity = read_quantity(SHIPPED[name]["value"], dimension)
    return quantity.low, quantity.high


def test_a_printed_bill() -> None:
    """$280 of carrying came to $625.60 delivered: 27 % fuel, a lift gate, a house, limited access, each in its range."""
    fuel, liftgate, residential, limited = 0.27, 9500, 11000, 6500
    assert delivered(28000, fuel, (liftgate, residential, limited)) == pytest.approx(62560)
    ends = [shipped_range(name, "money") for name in ("liftgate", "residential", "limited_access")]
    least, most = (28000 * (1 + shipped_range("fuel", "share")[side]) + sum(end[side] for end in ends) for side in (0, 1))
    assert least < 62560 < most
    for name, dimension, amount in (
        ("fuel", "share", fuel),
        ("liftgate", "money", liftgate),
        ("residential", "money", residential),
        ("limited_access", "money", limited),
    ):
        low, high = shipped_range(name, dimension)
        assert low <= amount <= high, name
