from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from hypothesis.strategies import sampled_from

from interchange.errors import InputError
from interchange.haul.freight import HEAVY, HIRED, HOT_SHOT, OWN, PALLET, QUOTE, TERMINAL, Load, Quote, cheapest, haul_options
from interchange.haul.pallet import (
    cheapest_rated,
    class_factor,
    density_lb_ft3,
    freight_class,
    linehaul,
    pallet_lines,
    terminal_saving,
)
from interchange.haul.rates import LinehaulAnchor, Rate
from interchange.haul.rig import Rig, Trailer, Vehicle
from interchange.haul.road import RoadMiles, band
from interchange.spread import Spread, exactly, total

RIG = Rig(
    vehicle=Vehicle(
        gvwr_lb=10000, gcwr_lb=20000, curb_lb=6500, aboard_lb=500, tow_lb=12000, hitch_lb=10000, hitch_tongue_lb=1500,
        ball_in=2.3125, ball_lb=10000,
    ),
    trailer=Trailer(
        gvwr_lb=9000, own_lb=2200, coupler_in=2.3125, coupler_lb=10000, tie_downs=4, tie_down_lb=3000
    ),
)  # fmt: skip
ENGINE = Load(
    what="engine", weight_lb=900, on_pallet=True, length_in=48, width_in=40, height_in=40, collection="dock", delivery="dock"
)
MACHINE = Load(what="loader", weight_lb=6500)


def road(miles: float) -> RoadMiles:
    low, high = band(miles)
    return RoadMiles(miles, miles * low, miles * high, "")


def by_mode(options):
    return {option.mode: option for option in options}


def test_every_mode_cheapest_first(rates, own_hour) -> None:
    options = haul_options(ENGINE, road(300), RIG, rates, own_hour=own_hour)
    assert {option.mode for option in options} == {OWN, *HIRED}
    likely = [option.cost.likely for option in options]
    assert likely == sorted(likely)
    assert all(option.cost.low <= option.cost.likely <= option.cost.high for option in options)


def test_a_cost_is_the_sum_of_its_lines(rates, own_hour) -> None:
    for option in haul_options(ENGINE, road(700), RIG, rates, own_hour=own_hour):
        assert option.cost == pytest.approx(total(line.cost for line in option.lines))
        assert all(line.origin for line in option.lines)


def test_own_rig_drives_both_ways(rates, own_hour) -> None:
    own = by_mode(haul_options(MACHINE, RoadMiles(100, 100, 100, ""), RIG, rates, own_hour=own_hour))[OWN]
    assert own.lines[0].cost == pytest.approx((18000, 25000, 32000))
    assert own.hours == pytest.approx((200 / 58 + 1, 200 / 50 + 2, 200 / 42 + 3))
    assert own.lines[1].cost.likely == pytest.approx(6 * 3500)
    assert own.allowed is True
    assert own.why.startswith("tightest: trailer GVWR 8700 lb of 9000 lb")


def test_own_cost_a_mile_of_the_rig_comes_first(rates, own_hour) -> None:
    mine = replace(RIG, cost_mile=Rate(low=70, likely=80, high=90, basis="measured", source="own book"))
    own = by_mode(haul_options(MACHINE, road(100), mine, rates, own_hour=own_hour))[OWN]
    assert own.lines[0].cost.likely == pytest.approx(200 * 80)
    assert own.lines[0].origin == "measured: own book"


@pytest.mark.parametrize(
    ("miles", "nights"),
    [
        pytest.param(250, 0, id="ten hours: home the same day"),
        pytest.param(251, 1, id="just over"),
        pytest.param(500, 1, id="twenty hours"),
        pytest.param(501, 2, id="just over two days"),
    ],
)
def test_nights_on_the_road(rates, own_hour, miles, nights) -> None:
    own = by_mode(haul_options(MACHINE, RoadMiles(miles, miles, miles, ""), RIG, rates, own_hour=own_hour))[OWN]
    slept = [line for line in own.lines if "night" in line.label]
    assert (slept[0].cost.likely if slept else 0) == nights * 13500


@pytest.mark.parametrize(
    ("load", "allowed", "why"),
    [
        pytest.param(ENGINE, True, "900 lb of 4000 lb", id="an engine"),
        pytest.param(replace(ENGINE, weight_lb=4000), True, "", id="the heaviest pallet"),
        pytest.param(replace(ENGINE, weight_lb=4001), False, "over the 4000 lb", id="too heavy"),
        pytest.param(replace(ENGINE, on_pallet=False), False, "does not go on a pallet", id="a whole machine"),
        pytest.param(replace(ENGINE, weight_lb=None), None, "weight is not known", id="no weight"),
    ],
)
def test_pallet_freight_allowed(rates, own_hour, load, allowed, why) -> None:
    pallet = by_mode(haul_options(load, road(300), RIG, rates, own_hour=own_hour))[PALLET]
    assert pallet.allowed is allowed
    assert why in pallet.why


@pytest.mark.parametrize(("weight_lb", "allowed"), [(12000, True), (12001, False), (None, None)])
def test_hot_shot_allowed(rates, own_hour, weight_lb, allowed) -> None:
    options = by_mode(haul_options(replace(MACHINE, weight_lb=weight_lb), road(300), RIG, rates, own_hour=own_hour))
    assert options[HOT_SHOT].allowed is allowed
    assert options[HEAVY].allowed is True


@pytest.mark.parametrize(
    ("mode", "miles", "cost"),
    [
        pytest.param(HOT_SHOT, 10, (20000, 30000, 40000), id="hot-shot, least charge"),
        pytest.param(HOT_SHOT, 400, (70000, 105000, 140000), id="hot-shot by the mile"),
        pytest.param(HEAVY, 10, (30000, 45000, 60000), id="heavy, least charge"),
        pytest.param(HEAVY, 200, (80000, 90000, 100000), id="heavy, all near"),
        pytest.param(HEAVY, 400, (130000, 155000, 180000), id="heavy, beyond"),
    ],
)
def test_hired_by_the_mile_with_a_least_charge(rates, own_hour, mode, miles, cost) -> None:
    option = by_mode(haul_options(MACHINE, RoadMiles(miles, miles, miles, ""), RIG, rates, own_hour=own_hour))[mode]
    assert option.cost == pytest.approx(cost)


def test_unknown_weight_is_not_known_everywhere(rates, own_hour) -> None:
    options = by_mode(haul_options(replace(ENGINE, weight_lb=None), road(300), RIG, rates, own_hour=own_hour))
    assert options[OWN].allowed is None
    assert "check the plate" in options[OWN].why
    assert options[PALLET].cost is None


def test_unknown_miles_leave_no_cost(rates, own_hour) -> None:
    options = haul_options(ENGINE, None, RIG, rates, own_hour=own_hour)
    assert all(option.cost is None and option.allowed is not True for option in options)
    assert all("miles are not known" in option.why for option in options)
    assert cheapest(options, conditional=True) is None


def test_no_own_rig(rates, own_hour) -> None:
    own = by_mode(haul_options(MACHINE, road(100), None, rates, own_hour=own_hour))[OWN]
    assert own.allowed is False
    assert "no own truck" in own.why


def test_an_unknown_rating_is_never_the_cheapest_silently(rates) -> None:
    doubtful = replace(RIG, vehicle=replace(RIG.vehicle, ball_lb=None))
    free = Rate(low=0, likely=0, high=0, basis="judgement")
    options = haul_options(MACHINE, road(60), doubtful, rates, own_hour=free)
    assert options[0].mode == OWN
    assert "check the plate: ball" in options[0].why
    assert cheapest(options).mode == HOT_SHOT
    assert cheapest(options, conditional=True).mode == OWN


def test_to_a_terminal_without_lift_gate_and_house_but_with_a_drive(rates, own_hour) -> None:
    load = replace(ENGINE, delivery="house")
    rig = replace(RIG, trailer=replace(RIG.trailer, deck_length_in=200, deck_width_in=80))
    options = by_mode(haul_options(load, RoadMiles(600, 600, 600, ""), rig, rates, own_hour=own_hour))
    door, terminal = options[PALLET], options[TERMINAL]
    away_mi = 2 * 37.5
    hours = away_mi / 50 + 1
    assert terminal.cost.likely == pytest.approx(door.cost.likely - 22500 + away_mi * 125 + hours * 3500)
    assert terminal.hours.likely == pytest.approx(hours + 3)
    assert not any("lift gate" in line.label for line in terminal.lines)
    assert terminal.allowed is True
    assert terminal.days == door.days


@pytest.mark.parametrize(
    ("rig", "load", "allowed", "why"),
    [
        pytest.param(None, ENGINE, False, "no own truck", id="nothing to fetch it with"),
        pytest.param(RIG, MACHINE, False, "does not go on a pallet", id="a machine"),
        pytest.param(
            replace(RIG, vehicle=replace(RIG.vehicle, ball_lb=None)), ENGINE, None, "check the plate", id="ball not read"
        ),
        pytest.param(replace(RIG, vehicle=replace(RIG.vehicle, ball_lb=900)), ENGINE, False, "over: ball", id="ball too weak"),
    ],
)
def test_a_terminal_wants_a_rig_that_may_carry_it(rates, own_hour, rig, load, allowed, why) -> None:
    terminal = by_mode(haul_options(load, road(300), rig, rates, own_hour=own_hour))[TERMINAL]
    assert terminal.allowed is allowed
    assert why in terminal.why


def test_what_goes_on_a_pallet_is_drained_and_crated(rates, own_hour) -> None:
    pallet = by_mode(haul_options(ENGINE, road(300), RIG, rates, own_hour=own_hour))[PALLET]
    lines = {line.label: line.cost for line in pallet.lines}
    assert lines["draining and crating, 3.0 h"] == pytest.approx((1.5 * 2500, 3 * 3500, 4.5 * 4500))
    assert lines["pallet and straps"] == (4000, 8000, 12000)
    assert pallet.hours == (1.5, 3, 4.5)


@pytest.mark.parametrize(
    ("mode", "days"),
    [
        pytest.param(OWN, (2, 2, 3), id="own: 1000 miles at 58, 50 and 42 an hour, ten hours a day"),
        pytest.param(PALLET, (1 + 500 / 500, 2.5 + 500 / 375, 4 + 500 / 250), id="pallet"),
        pytest.param(HOT_SHOT, (1 + 500 / 600, 3 + 1, 5 + 500 / 400), id="hot-shot"),
        pytest.param(HEAVY, (3 + 500 / 600, 8.5 + 1, 14 + 500 / 400), id="heavy"),
    ],
)
def test_days_until_it_stands_at_home(rates, own_hour, mode, days) -> None:
    options = by_mode(haul_options(ENGINE, RoadMiles(500, 500, 500, ""), RIG, rates, own_hour=own_hour))
    assert options[mode].days == pytest.approx(days)


def test_an_overloaded_rig_names_its_limit(rates, own_hour) -> None:
    own = by_mode(haul_options(replace(MACHINE, weight_lb=7000), road(60), RIG, rates, own_hour=own_hour))[OWN]
    assert own.allowed is False
    assert own.why.startswith("over: trailer GVWR 9200 lb of 9000 lb")
    assert own.why.endswith("to mend it: 200 lb less on the trailer, or a trailer rated 9,200 lb or more")


def test_a_quote_takes_the_place_of_the_model(rates, own_hour) -> None:
    price = Rate(low=95000, likely=95000, high=95000, basis="said")
    options = haul_options(
        MACHINE, road(300), None, rates, [Quote(price=price, said_by="carrier", on="2026-05-02")], own_hour=own_hour
    )
    assert cheapest(options).mode == QUOTE
    assert by_mode(options)[QUOTE].lines[0].origin == "quote: carrier 2026-05-02"
    assert all(by_mode(options)[mode].allowed is False for mode in HIRED)


def test_a_quote_for_one_mode_leaves_the_others(rates, own_hour) -> None:
    quote = Quote(price=Rate(low=1, likely=1, high=1, basis="said"), mode=HEAVY)
    options = by_mode(haul_options(MACHINE, road(300), RIG, rates, [quote], own_hour=own_hour))
    assert options[HEAVY].allowed is False
    assert options[HOT_SHOT].allowed is True
    assert options[OWN].allowed is True


def test_a_quote_for_no_known_mode_is_a_wrong_call(rates, own_hour) -> None:
    quote = Quote(price=Rate(low=1, likely=1, high=1, basis="said"), mode="balloon")
    with pytest.raises(InputError, match="balloon"):
        haul_options(MACHINE, road(300), RIG, rates, [quote], own_hour=own_hour)


def test_two_quotes_stand_side_by_side(rates, own_hour) -> None:
    quotes = [Quote(price=Rate(low=9, likely=9, high=9, basis="said"), mode=mode) for mode in (HEAVY, PALLET)]
    options = haul_options(ENGINE, road(300), RIG, rates, quotes, own_hour=own_hour)
    assert [option.lines[0].label for option in options if option.mode == QUOTE] == [HEAVY, PALLET]
    allowed = {option.mode: option.allowed for option in options}
    assert (allowed[HEAVY], allowed[PALLET], allowed[TERMINAL], allowed[HOT_SHOT]) == (False, False, False, True)


def test_a_wide_load_is_cautioned_and_its_permits_are_reckoned(rates, own_hour) -> None:
    for width_in, wide in ((102, False), (103, True)):
        options = by_mode(haul_options(replace(MACHINE, width_in=width_in), road(300), RIG, rates, own_hour=own_hour))
        for mode in (OWN, HOT_SHOT, HEAVY):
            assert any("permit is needed" in caution for caution in options[mode].cautions) is wide
            assert any(line.label == "permits for a wide load" for line in options[mode].lines) is wide


@pytest.mark.parametrize(("height_in", "cautioned"), [(120, False), (121, True)])
def test_a_high_load_is_cautioned(rates, own_hour, height_in, cautioned) -> None:
    options = by_mode(haul_options(replace(MACHINE, height_in=height_in), road(300), RIG, rates, own_hour=own_hour))
    assert any("13 ft 6 in" in caution for caution in options[HEAVY].cautions) is cautioned


@pytest.mark.parametrize(
    ("end", "labels"),
    [
        ("dock", []),
        ("terminal", []),
        ("street", ["lift gate, delivery"]),
        ("house", ["lift gate, delivery", "residential delivery"]),
        ("farm", ["lift gate, delivery", "limited access, delivery"]),
    ],
)
def test_what_an_end_adds(rates, end, labels) -> None:
    lines = pallet_lines(900, 15, exactly(500), ("dock", end), rates)
    assert [line.label for line in lines[2:]] == labels


def test_an_unknown_end_runs_from_nothing_to_the_dearest(rates) -> None:
    line = pallet_lines(900, 15, exactly(500), ("dock", "not known"), rates)[2]
    assert line.cost == (0, 10000 + 8250, 12500 + 15000)
    assert line.origin.startswith("judgement")


def test_a_terminal_avoids_lift_gate_and_house(rates, own_hour) -> None:
    assert terminal_saving("house", rates) == (17500, 22500, 27500)
    assert terminal_saving("dock", rates) == (0, 0, 0)
    options = by_mode(haul_options(replace(ENGINE, delivery="house"), road(300), RIG, rates, own_hour=own_hour))
    assert any("terminal the freight itself may cost $225 less" in caution for caution in options[PALLET].cautions)


@pytest.mark.parametrize(("weight_lb", "cautioned"), [(2000, False), (2001, True)])
def test_a_heavy_pallet_needs_a_fork_truck(rates, own_hour, weight_lb, cautioned) -> None:
    load = replace(ENGINE, weight_lb=weight_lb, delivery="farm")
    pallet = by_mode(haul_options(load, road(300), RIG, rates, own_hour=own_hour))[PALLET]
    assert any("lift gate may not take it" in caution for caution in pallet.cautions) is cautioned


def test_a_pallet_of_unknown_size_is_priced_as_a_range(rates) -> None:
    sized = pallet_lines(900, 15, exactly(500), ("dock", "dock"), rates)
    unsized = pallet_lines(900, None, exactly(500), ("dock", "dock"), rates)
    assert "size not known" in unsized[0].label
    assert unsized[0].cost.high > sized[0].cost.high
    assert "70" in sized[0].label


def test_beyond_the_known_prices_is_said(rates) -> None:
    assert "stretched" not in pallet_lines(900, 15, exactly(700), ("dock", "dock"), rates)[0].origin
    assert "stretched" in pallet_lines(900, 15, exactly(100), ("dock", "dock"), rates)[0].origin
    assert "stretched" in pallet_lines(3000, 15, exactly(700), ("dock", "dock"), rates)[0].origin


def test_density() -> None:
    assert density_lb_ft3(900, 48, 40, 40) == pytest.approx(20.25)


@pytest.mark.parametrize(
    ("freight", "factor"),
    [(50, 50 / 70), (65, 65 / 70), (70, 1.0), (77.5, 1.0), (85, 1.0), (92.5, 92.5 / 85), (400, 400 / 85)],
)
def test_class_factor(freight, factor) -> None:
    assert class_factor(freight, 1.0) == pytest.approx(factor)


def anchor(weight_lb, miles, likely) -> LinehaulAnchor:
    return LinehaulAnchor(weight_lb=weight_lb, miles=miles, price=Rate(low=likely, likely=likely, high=likely, basis="said"))


@pytest.mark.parametrize(
    "anchors",
    [
        pytest.param((anchor(500, 500, 1.0), anchor(900, 900, 2.0)), id="two"),
        pytest.param((anchor(500, 500, 1.0), anchor(900, 500, 2.0), anchor(1500, 500, 3.0)), id="one distance"),
        pytest.param((anchor(500, 500, 1.0), anchor(500, 900, 2.0), anchor(500, 1500, 3.0)), id="one weight"),
    ],
)
def test_known_prices_that_fix_nothing(anchors) -> None:
    with pytest.raises(InputError):
        linehaul(700, exactly(600), exactly(1.0), anchors)


def test_no_class_below_the_first_row(rates) -> None:
    with pytest.raises(InputError, match="no freight class"):
        freight_class(0.5, rates.density_classes[1:])


@settings(max_examples=60)
@given(miles=st.floats(5, 3000), more=st.floats(0, 1000), load=sampled_from([ENGINE, MACHINE]))
def test_more_miles_never_cost_less(rates, miles, more, load) -> None:
    hour = Rate(low=2500, likely=3500, high=4500, basis="judgement")
    near = by_mode(haul_options(load, road(miles), RIG, rates, own_hour=hour))
    far = by_mode(haul_options(load, road(miles + more), RIG, rates, own_hour=hour))
    for mode, option in near.items():
        assert all(a <= b + 1e-6 for a, b in zip(option.cost, far[mode].cost, strict=True)), mode


@given(st.floats(50, 4000), st.floats(0, 1000))
def test_more_weight_never_carries_for_less(rates, weight_lb, more_lb) -> None:
    anchors = rates.linehaul_anchors
    light, heavy = (linehaul(each, Spread(400, 500, 600), exactly(1.0), anchors) for each in (weight_lb, weight_lb + more_lb))
    assert all(a <= b + 1e-6 for a, b in zip(light, heavy, strict=True))


@pytest.mark.parametrize(
    ("weight_lb", "rated"),
    [
        pytest.param(640, (640, 85), id="in the middle of a class"),
        pytest.param(530, (5120 / 9.6, 85), id="just short of the next class"),
        pytest.param(3000, (3000, 50), id="in the densest class"),
    ],
)
def test_no_dearer_than_a_heavier_load_in_the_same_space(rates, weight_lb, rated) -> None:
    density = density_lb_ft3(weight_lb, 48, 40, 40)
    found = cheapest_rated(weight_lb, density, 500, 1.0, rates.linehaul_anchors, rates.density_classes)
    assert found == pytest.approx(rated)


SIDES = st.floats(20, 120)


@settings(max_examples=150)
@given(
    weight_lb=st.floats(50, 20000),
    more_lb=st.floats(0, 1500),
    sides=st.none() | st.tuples(SIDES, SIDES, SIDES),
    miles=st.floats(5, 2500),
)
def test_heavier_is_never_cheaper(rates, weight_lb, more_lb, sides, miles) -> None:
    hour = Rate(low=2500, likely=3500, high=4500, basis="judgement")
    size = dict(zip(("length_in", "width_in", "height_in"), sides, strict=True)) if sides else {}
    wide_rig = replace(RIG, trailer=replace(RIG.trailer, deck_length_in=150, deck_width_in=130))
    one, other = (
        haul_options(Load(what="engine", weight_lb=each, on_pallet=True, **size), road(miles), wide_rig, rates, own_hour=hour)
        for each in (weight_lb, weight_lb + more_lb)
    )
    light, heavy = by_mode(one), by_mode(other)
    rank = {True: 0, None: 1, False: 2}
    for mode, option in light.items():
        assert all(a <= b * (1 + 1e-9) for a, b in zip(option.cost, heavy[mode].cost, strict=True)), mode
        assert rank[option.allowed] <= rank[heavy[mode].allowed], mode
    assert cheapest(one).cost.likely <= cheapest(other).cost.likely * (1 + 1e-9)
