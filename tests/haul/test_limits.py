from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from interchange.haul.limits import (
    CAUTIONS,
    allowed,
    binding,
    heaviest_lb,
    inches,
    limits,
    to_check,
    trailer_room,
)
from interchange.haul.rig import Rig, Trailer, Vehicle

TRUCK = Vehicle(
    gvwr_lb=10000, gcwr_lb=20000, curb_lb=6500, aboard_lb=500, tow_lb=12000, hitch_lb=10000, hitch_tongue_lb=1500,
    ball_in=2.3125, ball_lb=10000,
)  # fmt: skip
TRAILER = Trailer(
    gvwr_lb=9000, own_lb=2200, coupler_in=2.3125, coupler_lb=10000, deck_length_in=216, deck_width_in=82, tie_downs=4,
    tie_down_lb=3000,
)  # fmt: skip
RIG = Rig(vehicle=TRUCK, trailer=TRAILER)
REAR = {"truck": {"rear_axle_own_lb": 3000, "rear_axle_leverage": 1.5, "rear_tyres": 2, "tyre_lb": 2062.5}}


def rig(truck=None, trailer=None) -> Rig:
    return Rig(vehicle=replace(TRUCK, **truck or {}), trailer=replace(TRAILER, **trailer or {}))


def one(name, checked):
    return next(limit for limit in checked if limit.name == name)


@pytest.mark.parametrize(
    ("name", "changed", "load_lb", "ok"),
    [
        pytest.param("trailer GVWR", {}, 6800, True, id="trailer GVWR includes the trailer: just holds"),
        pytest.param("trailer GVWR", {}, 6801, False, id="trailer GVWR: just over"),
        pytest.param("tow rating", {"truck": {"tow_lb": 7000}}, 4800, True, id="tow rating holds"),
        pytest.param("tow rating", {"truck": {"tow_lb": 7000}}, 4801, False, id="tow rating over"),
        pytest.param("hitch", {"truck": {"hitch_lb": 5000}}, 2800, True, id="hitch holds"),
        pytest.param("hitch", {"truck": {"hitch_lb": 5000}}, 2801, False, id="hitch over"),
        pytest.param("ball", {"truck": {"ball_lb": 6000}}, 3800, True, id="ball holds"),
        pytest.param("ball", {"truck": {"ball_lb": 6000}}, 3801, False, id="ball over"),
        pytest.param("coupler", {"trailer": {"coupler_lb": 7000}}, 4800, True, id="coupler holds"),
        pytest.param("coupler", {"trailer": {"coupler_lb": 7000}}, 4801, False, id="coupler over"),
        pytest.param("GCWR", {"truck": {"gcwr_lb": 15000}}, 5800, True, id="combined holds"),
        pytest.param("GCWR", {"truck": {"gcwr_lb": 15000}}, 5801, False, id="combined over"),
        pytest.param("hitch tongue weight", {"truck": {"hitch_tongue_lb": 750}}, 2800, True, id="tongue holds at 15 %"),
        pytest.param("hitch tongue weight", {"truck": {"hitch_tongue_lb": 750}}, 2801, None, id="tongue depends"),
        pytest.param("hitch tongue weight", {"truck": {"hitch_tongue_lb": 750}}, 5301, False, id="tongue over at 10 %"),
        pytest.param("truck GVWR", {"truck": {"gvwr_lb": 7750}}, 2800, True, id="truck holds at 15 %"),
        pytest.param("truck GVWR", {"truck": {"gvwr_lb": 7750}}, 2801, None, id="truck depends"),
        pytest.param("truck GVWR", {"truck": {"gvwr_lb": 7750}}, 5301, False, id="truck over at 10 %"),
        pytest.param("truck GVWR", {"truck": {"payload_lb": 1250}}, 5301, False, id="the lower of sticker and GVWR"),
        pytest.param("tie-downs", {"trailer": {"tie_down_lb": 1000}}, 8000, True, id="half the weight held"),
        pytest.param("tie-downs", {"trailer": {"tie_down_lb": 1000}}, 8002, False, id="half the weight not held"),
        pytest.param("tie-downs", {"trailer": {"tie_downs": 3}}, 100, False, id="three tie-downs are too few"),
        pytest.param("ball size", {}, 100, True, id="ball and coupler alike"),
        pytest.param("ball size", {"truck": {"ball_in": 2.0}}, 100, False, id="a small ball in a large coupler"),
        pytest.param("hitch class", {"truck": {"ball_in": 1.875}}, -200, True, id="class 1 takes a small ball"),
        pytest.param("hitch class", {"truck": {"ball_in": 1.875}}, -199, False, id="class 2 does not"),
        pytest.param("hitch class", {}, 7800, True, id="class 4 suits its coupler"),
        pytest.param("hitch class", {}, 7801, None, id="beyond the classes"),
        pytest.param("trailer axles", {"trailer": {"axles": 2, "axle_lb": 3150}}, 4800, True, id="axles hold at 10 %"),
        pytest.param("trailer axles", {"trailer": {"axles": 2, "axle_lb": 3150}}, 4801, None, id="axles depend"),
        pytest.param("trailer axles", {"trailer": {"axles": 2, "axle_lb": 2975}}, 4801, False, id="axles over at 15 %"),
        pytest.param("trailer tyres", {"trailer": {"tyres": 4, "tyre_lb": 1575}}, 4800, True, id="tyres hold at 10 %"),
        pytest.param("trailer tyres", {"trailer": {"tyres": 4, "tyre_lb": 1487.5}}, 4801, False, id="tyres over at 15 %"),
        pytest.param("safety chains", {"trailer": {"chains_lb": 5000}}, 2800, True, id="chains of class 3"),
        pytest.param("safety chains", {"trailer": {"chains_lb": 4999}}, 2800, False, id="chains too weak for class 3"),
        pytest.param("safety chains", {"trailer": {"chains_lb": 8999}}, 2801, False, id="class 4: as the trailer is rated"),
        pytest.param("safety chains", {"trailer": {"chains_lb": 9000}}, 2801, True, id="class 4: strong enough"),
        pytest.param("rear tyres", REAR, 2800, True, id="rear tyres hold at 15 %"),
        pytest.param("rear tyres", REAR, 2801, None, id="rear tyres depend"),
        pytest.param("rear tyres", REAR, 5301, False, id="rear tyres over at 10 %"),
    ],
)
def test_each_limit_on_both_sides(name, changed, load_lb, ok) -> None:
    assert one(name, limits(rig(**changed), load_lb)).ok is ok


def test_all_hold() -> None:
    checked = limits(RIG, 5000, length_in=200, width_in=80)
    assert allowed(checked) is True
    assert to_check(checked) == ""
    assert binding(checked).name == "tie-downs" or binding(checked).name == "trailer GVWR"
    assert binding(checked).load_lb / binding(checked).rating_lb == max(
        limit.load_lb / limit.rating_lb for limit in checked if limit.rating_lb
    )


def test_the_most_overrun_limit_binds() -> None:
    checked = limits(rig(truck={"ball_lb": 5000, "tow_lb": 6000}), 4800)
    assert allowed(checked) is False
    assert binding(checked).name == "ball"


def test_a_wrong_ball_binds_before_any_weight() -> None:
    assert binding(limits(rig(truck={"ball_in": 2.0, "ball_lb": 3500}), 4800)).name == "ball size"


def test_a_weight_binds_before_a_narrow_deck() -> None:
    assert binding(limits(RIG, 6000, width_in=90)).name == "deck width"
    assert binding(limits(RIG, 7000, width_in=90)).name == "trailer GVWR"


@pytest.mark.parametrize(
    ("truck", "trailer", "name"),
    [
        pytest.param({"gcwr_lb": None}, {}, "GCWR", id="no GCWR"),
        pytest.param({"tow_lb": None}, {}, "tow rating", id="no tow rating"),
        pytest.param({"hitch_lb": None}, {}, "hitch", id="no hitch rating"),
        pytest.param({"hitch_tongue_lb": None}, {}, "hitch tongue weight", id="no tongue rating"),
        pytest.param({"ball_lb": None}, {}, "ball", id="no stamp"),
        pytest.param({"gvwr_lb": None}, {}, "truck GVWR", id="neither GVWR nor payload"),
        pytest.param({}, {"gvwr_lb": None}, "trailer GVWR", id="no trailer plate"),
        pytest.param({}, {"coupler_lb": None}, "coupler", id="no coupler rating"),
        pytest.param({}, {"coupler_in": None}, "ball size", id="no coupler size"),
        pytest.param({}, {"tie_down_lb": None}, "tie-downs", id="no tags on the chains"),
    ],
)
def test_a_rating_not_stated_is_not_known(truck, trailer, name) -> None:
    checked = limits(rig(truck, trailer), 4800)
    assert one(name, checked).ok is None
    assert "not known" in one(name, checked).note
    assert allowed(checked) is None
    assert to_check(checked) == f"check the plate: {name}"


def test_nothing_stated_is_nothing_known() -> None:
    checked = limits(Rig(vehicle=Vehicle(), trailer=Trailer()), 4800)
    assert {limit.ok for limit in checked} == {None}
    assert binding(checked) is None
    assert trailer_room(Vehicle()) == ()


def test_what_is_aboard_is_not_assumed() -> None:
    checked = limits(rig(truck={"aboard_lb": None}), 4800)
    assert one("GCWR", checked).ok is None
    assert one("truck GVWR", checked).ok is None
    over = limits(rig(truck={"aboard_lb": None, "gcwr_lb": 13000}), 4800)
    assert one("GCWR", over).ok is False


def test_a_load_of_unknown_weight() -> None:
    checked = limits(RIG, None)
    assert one("trailer GVWR", checked).ok is None
    assert one("tie-downs", checked).ok is None
    assert one("ball size", checked).ok is True
    assert allowed(checked) is None
    assert one("tow rating", limits(rig(truck={"tow_lb": 2000}), None)).ok is False


@pytest.mark.parametrize(
    ("size", "name", "ok"),
    [
        pytest.param({"length_in": 216}, "deck length", True, id="just fits"),
        pytest.param({"length_in": 217}, "deck length", None, id="hangs over: a look, not a no"),
        pytest.param({"width_in": 82}, "deck width", True, id="between the fenders"),
        pytest.param({"width_in": 83}, "deck width", False, id="too wide"),
    ],
)
def test_deck(size, name, ok) -> None:
    assert one(name, limits(RIG, 1000, **size)).ok is ok


@pytest.mark.parametrize(("load_lb", "ok"), [(3000, True), (3001, False)])
def test_a_load_in_the_bed(load_lb, ok) -> None:
    truck = replace(TRUCK, tie_downs=4, tie_down_lb=1500)
    checked = limits(Rig(vehicle=truck), load_lb)
    assert [limit.name for limit in checked] == ["truck GVWR", "tie-downs"]
    assert one("truck GVWR", checked).ok is ok


def test_what_is_left_for_the_load_is_said() -> None:
    assert one("trailer GVWR", limits(RIG, 100)).note == "trailer and load together; it may carry 6,800 lb"


@pytest.mark.parametrize(
    ("load_lb", "ok"),
    [
        pytest.param(2200, True, id="all of it on the rear axle still holds"),
        pytest.param(2201, None, id="depends on where it stands"),
    ],
)
def test_a_load_in_the_bed_bears_on_the_rear_axle(load_lb, ok) -> None:
    truck = replace(TRUCK, tie_downs=4, tie_down_lb=1500, rear_axle_lb=5200, rear_axle_own_lb=3000)
    assert one("rear axle", limits(Rig(vehicle=truck), load_lb)).ok is ok


def test_a_bed_has_a_length_and_a_width() -> None:
    truck = replace(TRUCK, bed_length_in=96, bed_width_in=50)
    checked = limits(Rig(vehicle=truck), 900, length_in=48, width_in=51)
    assert (one("deck length", checked).ok, one("deck width", checked).ok) == (True, False)


def test_the_heaviest_load_is_where_the_first_limit_ends() -> None:
    assert heaviest_lb(RIG) == 6800
    assert allowed(limits(RIG, 6800)) is True
    assert allowed(limits(RIG, 6801)) is False
    assert heaviest_lb(rig(truck={"ball_in": 2.0})) is None
    assert heaviest_lb(rig(truck={"ball_lb": None})) is None


@pytest.mark.parametrize(
    ("size_in", "words"), [(2.3125, "2-5/16"), (1.875, "1-7/8"), (2.0, "2"), (0.75, "3/4"), (1.9685, "1.9685"), (2.35, "2.35")]
)
def test_inches_as_balls_are_sold(size_in, words) -> None:
    assert inches(size_in) == words


@given(st.floats(0, 30000), st.floats(0, 10000))
def test_a_heavier_load_is_never_more_allowed(load_lb, more_lb) -> None:
    rank = {True: 0, None: 1, False: 2}
    assert rank[allowed(limits(RIG, load_lb))] <= rank[allowed(limits(RIG, load_lb + more_lb))]


def test_cautions_defer() -> None:
    assert any("manual" in caution for caution in CAUTIONS)
    assert any("local law" in caution for caution in CAUTIONS)
