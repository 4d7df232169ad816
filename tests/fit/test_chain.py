"""Rows of adapters: every one there is, against an outside library's simple paths, and what they add up to."""

import random

import networkx as nx
import pytest
from hypothesis import given
from hypothesis import strategies as st

from interchange.catalog.figure import Figure
from interchange.catalog.model import Adapter
from interchange.fit.chain import Chain, chains, torque_limit
from interchange.quantity import read_quantity


def quantity(text, dimension):
    return Figure(quantity=read_quantity(text, dimension))


def adapter(name, faces, **fields):
    return Adapter(id=name, title=name, kind="engine", joint="gearbox", faces=faces, **fields)


def same(one, other):
    return one == other


@given(st.integers(0, 10**9), st.integers(1, 4))
def test_every_row_is_found_once(seed, most):
    """NetworkX's all_simple_paths over adapters as nodes finds the same rows."""
    luck = random.Random(seed)  # noqa: S311 - a fixed row of figures is wanted, not a secret
    there = [adapter(f"a{i}", (luck.choice("pqrs"), luck.choice("pqrs"))) for i in range(luck.randrange(8))]
    graph = nx.DiGraph()
    graph.add_nodes_from(["start", "end", *(each.id for each in there)])
    graph.add_edges_from(("start", each.id) for each in there if each.faces[0] == "p")
    graph.add_edges_from((each.id, "end") for each in there if each.faces[1] == "s")
    graph.add_edges_from((a.id, b.id) for a in there for b in there if a is not b and a.faces[1] == b.faces[0])
    outside = sorted(tuple(path[1:-1]) for path in nx.all_simple_paths(graph, "start", "end", cutoff=most + 1))
    found = sorted(tuple(each.id for each in chain.adapters) for chain in chains(there, ("p", "s"), most, same))
    assert found == outside


def test_a_joint_that_takes_no_adapter_has_no_rows():
    assert not list(chains([adapter("a", ("p", "s"))], ("p", "s"), 0, same))


def test_a_row_adds_thickness_money_and_hours_and_waits_for_the_longest():
    one = adapter(
        "a", ("p", "q"), thick=quantity("22 mm", "length"), price=quantity("$400", "money"), hours=quantity("2 h", "hours"),
        lead=quantity("14 d", "days"),
    )  # fmt: skip
    other = adapter(
        "b", ("q", "s"), thick=quantity("1 in", "length"), price=quantity("$250", "money"), lead=quantity("5 d", "days")
    )
    row = Chain((one, other))
    assert row.thick_mm == (pytest.approx(47.4), pytest.approx(47.4))
    assert (row.effort.money.likely, row.effort.hours.likely, row.effort.lead.likely) == (65_000, 2, 14)


def test_a_row_with_one_thickness_not_known_has_none():
    row = Chain((adapter("a", ("p", "q"), thick=quantity("22 mm", "length")), adapter("b", ("q", "s"))))
    assert row.thick_mm is None


WEAK = Chain((
    adapter("a", ("p", "q"), torque=quantity("700 lb-ft", "torque")),
    adapter("b", ("q", "s"), torque=quantity("400 lb-ft", "torque")),
))  # fmt: skip


@pytest.mark.parametrize(
    ("torque", "limit"),
    [
        pytest.param("400 lb-ft", "", id="the weakest just carries it"),
        pytest.param("401 lb-ft", None, id="the weakest breaks"),
        pytest.param(None, "carries 400 lb-ft: the donor's torque is not known", id="not known"),
    ],
)
def test_the_weakest_of_a_row_carries_it_all(torque, limit):
    assert torque_limit(WEAK, quantity(torque, "torque") if torque else None) == limit


def test_a_row_of_no_stated_limit_says_nothing():
    assert torque_limit(Chain((adapter("a", ("p", "s")),)), quantity("9000 lb-ft", "torque")) == ""
