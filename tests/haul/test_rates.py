from dataclasses import fields

import pytest

from interchange.catalog.figure import BASES, Figure, Origin
from interchange.errors import InputError
from interchange.haul.rates import HaulRates, rate_of
from interchange.quantity import read_quantity
from interchange.spread import NOTHING, Spread, exactly, total


def test_the_shipped_file_has_every_field_and_no_other(shipped) -> None:
    assert set(shipped) - {"origin"} == {field.name for field in fields(HaulRates)}


def test_every_shipped_figure_says_where_it_comes_from(shipped) -> None:
    for name, written in shipped.items():
        if isinstance(written, dict) and name != "origin":
            assert written["basis"] in BASES, name
            assert written["from"], name
    assert all(anchor["price"]["basis"] == "published" for anchor in shipped["linehaul_anchors"])


def test_figures_come_in_plain_units(rates) -> None:
    assert rates.own_mile.spread == (90, 125, 160)
    assert rates.own_mile.origin == "judgement: common practice, no source"
    assert rates.fuel.spread == pytest.approx((0.25, 0.275, 0.30))
    assert rates.pallet_most.likely == pytest.approx(4000)
    assert rates.linehaul_anchors[2].weight_lb == pytest.approx(2500)
    assert rates.linehaul_anchors[2].price.spread == (50000, 85000, 120000)
    assert [row.over_lb_ft3 for row in rates.density_classes] == sorted(row.over_lb_ft3 for row in rates.density_classes)


def test_a_single_value_has_no_spread() -> None:
    assert rate_of(Figure(quantity=read_quantity("$80", "money"))).spread == exactly(8000)


def test_a_figure_without_origin_says_which_file_it_stands_in() -> None:
    bare = Figure(quantity=read_quantity("$80", "money"))
    assert rate_of(bare, "home.yaml").origin == "home.yaml"
    assert rate_of(bare).origin == ""
    assert rate_of(bare._replace(origin=Origin(basis="said")), "home.yaml").origin == "said"


def test_a_word_is_no_rate() -> None:
    with pytest.raises(InputError, match="must be a figure"):
        rate_of(Figure(word="dear"))


def test_spreads_add_and_multiply_point_by_point() -> None:
    ranged = Spread(1, 2, 4)
    assert ranged.plus(exactly(1)) == (2, 3, 5)
    assert ranged.times(2) == (2, 4, 8)
    assert ranged.times(Spread(1, 2, 3)) == (1, 4, 12)
    assert ranged.at_least(exactly(2)) == (2, 2, 4)
    assert total([ranged, ranged]) == (2, 4, 8)
    assert total([]) == NOTHING
