from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from interchange.haul.limits import limits
from interchange.haul.mend import mend
from interchange.haul.rig import Rig, Trailer, Vehicle

TRUCK = Vehicle(
    gvwr_lb=10000, gcwr_lb=20000, curb_lb=6500, aboard_lb=500, tow_lb=12000, hitch_lb=10000, hitch_tongue_lb=1500,
    rear_axle_lb=6500, rear_axle_own_lb=3400, rear_axle_leverage=1.4, ball_in=2.3125, ball_lb=10000,
)  # fmt: skip
TRAILER = Trailer(
    gvwr_lb=9000, own_lb=2200, coupler_in=2.3125, coupler_lb=10000, axles=2, axle_lb=5200, tyres=4, tyre_lb=2540, chains_lb=9000,
    deck_length_in=216, deck_width_in=82, tie_downs=4, tie_down_lb=3000,
)  # fmt: skip
RIG = Rig(vehicle=TRUCK, trailer=TRAILER)


def mended(name, rig, load_lb, **size):
    limit = next(limit for limit in limits(rig, load_lb, **size) if limit.name == name)
    return mend(limit, rig, load_lb)


@pytest.mark.parametrize(
    ("name", "changed", "load_lb", "words"),
    [
        pytest.param("ball", {"ball_lb": 5000}, 4800, "a 2-5/16 in ball rated 7,000 lb or more", id="ball"),
        pytest.param(
            "ball size",
            {"ball_in": 2.0},
            4800,
            "a 2-5/16 in ball rated 10,000 lb, as the coupler is",
            id="ball of the wrong size",
        ),
        pytest.param("trailer GVWR", {}, 7000, "200 lb less on the trailer, or a trailer rated 9,200 lb or more", id="trailer"),
        pytest.param("tow rating", {"tow_lb": 6999}, 4800, "1 lb less behind the truck, or another truck: no hitch", id="tow"),
        pytest.param("hitch", {"hitch_lb": 5000}, 4800, "a hitch rated 7,000 lb or more", id="hitch"),
        pytest.param("hitch tongue weight", {"hitch_tongue_lb": 1000}, 4800, "weigh the tongue", id="tongue depends"),
        pytest.param("hitch tongue weight", {"hitch_tongue_lb": 500}, 4800, "for a tongue of 700 lb or more", id="tongue over"),
        pytest.param("coupler", {"coupler_lb": 5000}, 4800, "a coupler rated 7,000 lb or more, and a ball", id="coupler"),
        pytest.param("hitch class", {"ball_in": 1.875}, 1000, "a ball of 2 in or more", id="class"),
        pytest.param("hitch class", {}, 7801, "a hitch made and stamped for such a trailer", id="beyond the classes"),
        pytest.param("safety chains", {"chains_lb": 3000}, 1000, "chains that break at 3,500 lb or more", id="chains"),
        pytest.param("GCWR", {"gcwr_lb": 13900}, 4800, "100 lb less in all, on the trailer or aboard", id="combined"),
        pytest.param("truck GVWR", {"payload_lb": 1100}, 4800, "100 lb less aboard or on the tongue", id="payload"),
        pytest.param("truck GVWR", {"payload_lb": 1300}, 4800, "weigh the tongue", id="payload depends"),
        pytest.param("rear axle", {"rear_axle_lb": 4000}, 4800, "380 lb less on the rear wheels", id="rear axle"),
        pytest.param("trailer axles", {"axle_lb": 2900}, 4800, "150 lb less on the trailer", id="axles"),
        pytest.param("trailer tyres", {"tyre_lb": 1500}, 4800, "or a heavier tongue", id="tyres depend"),
        pytest.param("tie-downs", {"tie_down_lb": 500}, 4800, "1 more of 500 lb working load", id="chains and straps"),
        pytest.param("tie-downs", {"tie_downs": 3}, 4800, "1 more", id="too few"),
        pytest.param("tow rating", {"tow_lb": None}, 4800, "look it up in the vehicle's manual", id="not stated"),
        pytest.param("ball", {"ball_lb": None}, 4800, "read the stamp on top of the ball", id="no stamp read"),
        pytest.param("ball", {}, None, "find out what the load weighs", id="weight not known"),
        pytest.param("ball", {}, 4800, "", id="holds"),
    ],
)
def test_what_would_mend_it(name, changed, load_lb, words) -> None:
    truck = {
        key: value for key, value in changed.items() if hasattr(TRUCK, key) and key not in ("tie_downs", "tie_down_lb", "tyre_lb")
    }
    trailer = {key: value for key, value in changed.items() if key not in truck}
    rig = Rig(vehicle=replace(TRUCK, **truck), trailer=replace(TRAILER, **trailer))
    said = mended(name, rig, load_lb)
    assert words in said
    assert bool(said) == bool(words)


@pytest.mark.parametrize(
    ("size", "name", "words"),
    [
        pytest.param({"length_in": 220}, "deck length", "let it hang over no farther than local law allows", id="long"),
        pytest.param({"width_in": 90}, "deck width", "a wider deck, or one above the wheels", id="wide"),
    ],
)
def test_a_load_too_large(size, name, words) -> None:
    assert words in mended(name, RIG, 4800, **size)
    bare = Rig(vehicle=TRUCK, trailer=replace(TRAILER, deck_length_in=None, deck_width_in=None))
    assert mended(name, bare, 4800, **size) == "measure the deck"


def test_a_load_in_the_bed() -> None:
    truck = Rig(vehicle=replace(TRUCK, tie_downs=4, tie_down_lb=3000))
    assert mended("truck GVWR", truck, 3200) == "200 lb less in the bed or aboard, or a trailer"
    assert mended("rear axle", truck, 3200) == "set it ahead of the rear axle, and weigh the axle"


@given(load_lb=st.none() | st.floats(0, 30000), bare=st.booleans(), stated=st.sets(st.sampled_from(sorted(Trailer.__slots__))))
def test_whatever_does_not_hold_has_a_mend(load_lb, bare, stated) -> None:
    trailer = replace(TRAILER, **dict.fromkeys(stated))
    rig = Rig(vehicle=Vehicle() if bare else TRUCK, trailer=trailer)
    for limit in limits(rig, load_lb, length_in=300, width_in=100):
        assert bool(mend(limit, rig, load_lb)) == (limit.ok is not True), limit
