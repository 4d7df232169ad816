"""A donor machine sold by part, worked by hand, and what it does to a bill."""

import dataclasses

import pytest

from interchange.catalog.figure import Figure
from interchange.catalog.model import Leftovers, LeftPart, Machine
from interchange.money.bill import HAUL, LEFTOVERS, PRICE, Bill, Line
from interchange.money.leftovers import Selling, leftovers_line, parted
from interchange.money.odds import what_to_expect
from interchange.quantity import read_quantity
from interchange.spread import Spread, exactly


def figure(text, dimension):
    return Figure(quantity=read_quantity(text, dimension))


def part(title, price, chance, months, hours, **more):
    days = figure(months, "days")
    return LeftPart(title=title, price=figure(price, "money"), chance=chance, months=days, hours=figure(hours, "hours"), **more)


RATES = Selling(exactly(0.10), 0.01, exactly(16000), 0.0, exactly(0.1), exactly(0.1))
MACHINE = Machine(
    title="loader",
    seats={},
    weight=figure("10,000 lb", "mass"),
    leftovers=Leftovers(
        hours=figure("10 h", "hours"),
        scrap=0.5,
        parts={
            "axle": part("axle", "$1,000", 0.8, "3 months", "5 h"),
            "finals": part("final drives", "$500", 0.5, "1 year", "4 h"),
            "gauge": part("gauge", "$60", 0.5, "1 month", "2 h"),
            "pump": part("pump", "$400", 0.9, "1 month", "1 h", seat="pump"),
        },
    ),
)
HOUR = 4000


def test_a_full_part_out_by_hand():
    found = parted(MACHINE, ["pump"], RATES, HOUR)
    axle = 0.8 * 1000 * 0.9 / 1.01**3  # 698.83
    finals = 0.5 * 500 * 0.9 / 1.01**12  # 199.68
    scrap = 5000 / 2000 * 160  # half of 10,000 lb, at 160 a short ton
    hours = (10 + 5 + 4) * 40  # the gauge brings 26.73 for 2 h at 40: it stays on
    assert [sale.title for sale in found.sales] == ["axle", "final drives"]
    assert found.kept_on == ("gauge",)
    assert found.scrap.likely == pytest.approx(scrap * 100)
    assert found.mean_cents == pytest.approx(100 * (axle + finals + scrap - hours))
    assert found.mean_cents == pytest.approx(53850, abs=1)


def test_a_unit_that_is_not_taken_is_sold_too():
    pump = 0.9 * 400 * 0.9 / 1.01 - 40
    with_pump = parted(MACHINE, [], RATES, HOUR).mean_cents - parted(MACHINE, ["pump"], RATES, HOUR).mean_cents
    assert with_pump == pytest.approx(100 * pump)


def test_a_part_with_a_fee_of_its_own_pays_that():
    dear = dataclasses.replace(MACHINE.leftovers.parts["axle"], fee=figure("50 %", "share"))
    one = dataclasses.replace(MACHINE, leftovers=dataclasses.replace(MACHINE.leftovers, parts={"axle": dear}))
    assert parted(one, [], RATES, HOUR).sales[0].mean_cents == pytest.approx(0.8 * 100000 * 0.5 / 1.01**3)


def test_ranges_run_from_cheap_late_and_dear_to_sell_to_the_other_end():
    wide = part("axle", "$800-1,200", 1.0, "1-5 months", "0 h")
    one = dataclasses.replace(MACHINE, leftovers=Leftovers(parts={"axle": wide}))
    rates = RATES._replace(fee=Spread(0, 0.1, 0.2))
    (sale,) = parted(one, [], rates, HOUR).sales
    assert sale.brings == pytest.approx(Spread(80000 * 0.8 / 1.01**5, 100000 * 0.9 / 1.01**3, 120000 / 1.01))


@pytest.mark.parametrize(("hour", "there"), [(4000, True), (40_000, False)], ids=["worth the hours", "not worth them"])
def test_a_part_out_that_does_not_pay_its_hours_is_not_done(hour, there):
    assert (leftovers_line(parted(MACHINE, ["pump"], RATES, hour)) is not None) == there


def test_a_machine_the_catalog_says_nothing_of_has_no_credit():
    assert parted(Machine(title="other", seats={}), [], RATES, HOUR) is None
    assert leftovers_line(None) is None


def test_the_bill_is_less_by_the_credit_and_the_whole_distribution_with_it():
    found = parted(MACHINE, ["pump"], RATES, HOUR)
    line = leftovers_line(found)
    paid = (Line(PRICE, exactly(300000), ""), Line(HAUL, exactly(50000), ""))
    without, made = Bill(paid, (), exactly(0.0)), Bill((*paid, line), (), exactly(0.0))
    assert line.label == LEFTOVERS
    assert made.mean_cents == pytest.approx(without.mean_cents - found.mean_cents)
    may_be = what_to_expect(made.odds)
    assert may_be.mean == pytest.approx(made.mean_cents)
    # 3,500 and 760 for hours, less 400 for scrap: 3,860; less 873.53 for the axle (0.8) and 399.35 for the drives (0.5).
    assert may_be.low == pytest.approx(386000 - 87353 - 39935, abs=2000)
    assert may_be.middle == pytest.approx(386000 - 87353, abs=2000)
