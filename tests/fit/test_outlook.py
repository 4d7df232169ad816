"""What SQL says of the whole catalog against what the same figures say in Python, one by one."""

import dataclasses
import random

import pytest

from interchange.catalog.figure import Figure
from interchange.fit.case import OWN_PREFIX
from interchange.fit.faces import compare_ends
from interchange.fit.factor import applies_to_seat
from interchange.fit.finding import AGREES, DIFFERS, NOT_KNOWN
from interchange.fit.outlook import Outlook, chance_of
from interchange.fit.rating import compare

JOBS = [("pit_loader", "engine"), ("pit_loader", "pump"), ("hill_tractor", "engine")]


@pytest.fixture(params=JOBS, ids=lambda job: f"{job[0]} {job[1]}")
def seat(request):
    return request.getfixturevalue(request.param[0]).seat(request.param[1])


def every_form(seat):
    """(unit, variant) to what it presents, for all units of the seat's kind."""
    library = seat.setting.library
    found = {}
    for record in library.records("units"):
        if record.value.kind == seat.case.kind.id:
            found |= {(record.id, variant): form.features for variant, form in record.presented.items()}
    return found


def needed(case, path):
    return case.own.get(path.removeprefix(OWN_PREFIX)) if path.startswith(OWN_PREFIX) else case.seat.get(path)


def found_in_sql(connection, case):
    """(unit, variant, dimension) to its finding, for all that is known."""
    Outlook(connection, case)
    rows = connection.execute("SELECT unit, variant, dimension, agrees FROM finding").fetchall()
    assert len(rows) == len({row[:3] for row in rows})
    return {tuple(row[:3]): AGREES if row[3] else DIFFERS for row in rows}


def asked_about(case):
    """Dimensions and joints of a unit with what is there already, whatever the conditions of the kind say."""
    for name, dimension in case.kind.dimensions.items():
        if dimension.rule and dimension.need.startswith(("seat.", "own.")) and not dimension.give.startswith("seat."):
            yield name, dimension.give, dimension.need, dimension
    for name, joint in case.kind.joints.items():
        for end, other in (joint.between, joint.between[::-1]):
            if other.startswith("seat.") or (end.startswith("core.") and not other.startswith("core.")):
                yield name, end, other, joint


def agree(seat, case):
    """Every finding of SQL is what Python finds in the same two figures. How many were known."""
    connection = seat.setting.library.connection
    in_sql = found_in_sql(connection, case)
    known = 0
    for unit, features in every_form(seat).items():
        for name, give, need, member in asked_about(case):
            if not applies_to_seat(member.when, case):
                continue
            said = in_sql.get((*unit, name), NOT_KNOWN)
            joined = hasattr(member, "between")
            there = needed(case, need) or (case.own.get(need) if joined else None)
            figures = features.get(give), there
            if any(figure and figure.others for figure in figures):
                assert said == NOT_KNOWN
                continue
            if joined:
                ends = member.between
                pair = figures if ends[0] == give else figures[::-1]
                wanted = compare_ends(case, name, member, *pair).state
            else:
                wanted = compare(member.rule, *figures).state
            assert said == wanted, (unit, name)
            known += wanted != NOT_KNOWN
    return known


def test_sql_finds_what_python_finds(seat):
    assert agree(seat, seat.case) > 20


@pytest.mark.parametrize("luck", range(12))
def test_sql_finds_what_python_finds_whatever_is_needed(pit_loader, luck):
    """The same units against needs made by chance: each near some unit's own figure, at or about the limits of the rule."""
    seat, chance = pit_loader.seat("engine"), random.Random(luck)  # noqa: S311 - a fixed row of figures is wanted, not a secret
    forms = list(every_form(seat).values())
    needs = dict(seat.case.seat)
    for name, give, need, _ in asked_about(seat.case):
        given = [form[give] for form in forms if give in form]
        if not need.startswith("seat.") or not given:
            continue
        figure = chance.choice(given)
        if figure.quantity:
            value = figure.value * chance.choice((1.0, 0.9, 1 / 1.1, 1 / 1.15, 1.2, 0.84, 1.0000001))
            figure = Figure(
                quantity=figure.quantity._replace(
                    value=value, low=None, high=None, tolerance=chance.choice((None, 0.0, value / 50))
                )
            )
        elif figure.word and name == "block":
            figure = Figure(word=chance.choice(("framed", "frameless")))
        needs[need] = figure
        if chance.random() < 0.1:
            del needs[need]
    agree(seat, dataclasses.replace(seat.case, seat=needs))


COUNTS = {("rear", None, None): (6, 8), ("rear", "Hestrel", None): (2, 2), ("rear", "Hestrel", "h52d"): (0, 1)}


@pytest.mark.parametrize(
    ("maker", "unit", "value", "basis"),
    [
        pytest.param("", "", 0.7, "6 of 8 in all", id="all"),  # (6 + 2 × 0.5) / (8 + 2)
        pytest.param("Tolvane", "t1", 0.7, "6 of 8 in all", id="another maker"),
        pytest.param("Hestrel", "", 0.85, "2 of 2 of this maker, 6 of 8 in all", id="maker"),  # (2 + 2 × 0.7) / (2 + 2)
        pytest.param(
            "Hestrel", "h52d", 1.7 / 3, "0 of 1 of this family, 2 of 2 of this maker, 6 of 8 in all", id="family"
        ),  # (0 + 2 × 0.85) / (1 + 2)
    ],
)
def test_chances_are_smoothed_from_the_family_to_its_maker_to_all_to_even(maker, unit, value, basis):
    chance = chance_of(COUNTS, "rear", maker, unit)
    assert (chance.value, chance.basis) == (pytest.approx(value), f"known in the catalog, these agree: {basis}")


def test_nothing_known_is_even():
    assert chance_of(COUNTS, "nose", "Hestrel", "h52d").value == 0.5


def test_counts_are_of_what_is_known(seat):
    connection = seat.setting.library.connection
    Outlook(connection, seat.case)
    rows = connection.execute("SELECT dimension, maker, unit, variant, agrees FROM finding").fetchall()
    assert any(unit for _, _, unit in seat.outlook.counts) == any(row[3] for row in rows)
    for (name, maker, unit), (agreeing, known) in seat.outlook.counts.items():
        of_it = [row[4] for row in rows if row[0] == name and maker in (None, row[1]) and unit in (None, row[2])]
        assert (of_it.count(True), len(of_it)) == (agreeing, known)


def test_what_follows_stands_in_the_feature_table(pit_loader):
    rows = pit_loader.library.connection.execute(
        "SELECT unit, number, basis FROM feature WHERE feature = 'core.flow' AND unit IN ('lissander-l20', 'lissander-l32')"
    ).fetchall()
    flows = {unit: (round(number, 1), basis) for unit, number, basis in rows}
    assert flows == {"lissander-l20": (106.6, "measured"), "lissander-l32": (153.6, "said")}


def test_a_pump_of_the_other_hand_is_stopped_by_what_drives_it(pit_loader):
    """The machine only says that the pump hangs on the crank nose."""
    case = pit_loader.seat("pump").case
    assert case.seat["seat.rotation"].origin.source.startswith("follows from driven by crank nose and engine rotation counter")
    seat = pit_loader.seat("pump")
    assert [one.name for one in seat.plan(seat.form("lissander-l20r", "")).stopped_by] == ["rotation"]
