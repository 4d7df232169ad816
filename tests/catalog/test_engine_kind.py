"""The shipped engine against the list of what ends a swap: common practice and judgement, from no published source."""

import pytest

from interchange.catalog.check import SourceText, read_catalog
from interchange.catalog.folders import read_text, search_path, source_files


@pytest.fixture(scope="module")
def catalog():
    return read_catalog([SourceText(file.name, read_text(file.path), file.rank) for file in source_files(search_path())])


@pytest.fixture(scope="module")
def engine(catalog):
    return catalog.room("kinds")["engine"].value


# number in the list of what most often ends a swap, the dimensions that stand for it, what a difference means
LIST = [
    ("1 structural block, pan, bolster", {"block": "stops", "structural_pan": "fixable", "pan_build": "stops"}),
    ("2 rear face", {"rear_face": "fixable"}),
    ("3 crank flange", {"crank_flange": "fixable", "balance": "fixable"}),
    ("4 depth", {"depth": "fixable"}),
    ("5 clutch or converter, pilot", {"clutch": "fixable", "disc": "fixable", "pilot": "fixable", "bush": "fixable",
                                      "converter_pilot": "fixable"}),
    ("6 front drive", {"front_drive": "fixable"}),
    ("7 ring gear and starter", {"starter": "fixable", "ring_gear": "fixable", "ring_teeth": "fixable",
                                 "starter_hand": "fixable", "starter_side": "cost only"}),
    ("8 injection pump", {"injection": "fixable"}),
    ("9 length and hood", {"length": "fixable", "height": "fixable"}),
    ("10 rotation", {"rotation": "stops"}),
    ("11 sump, pickup", {"sump": "fixable", "pan_depth": "fixable", "pickup": "fixable"}),
    ("12 mounts", {"mounts": "cost only"}),
    ("13 power and torque", {"power": "cost only", "torque": "cost only"}),
    ("14 cooling", {"cooling": "fixable", "fan": "cost only", "fan_height": "fixable"}),
    ("15 exhaust and intake side", {"exhaust": "fixable"}),
    ("16 fuel and stop control", {"fuel": "stops", "stop_control": "cost only", "stop_sense": "cost only"}),
    ("17a electronic set", {"electronics": "fixable"}),  # into a machine that had none; a set that does not come stops it
    ("17 electrics", {"volts": "cost only", "starter_volts": "cost only", "earth": "cost only", "tach": "cost only"}),
    ("18 belts", {"belts": "cost only", "belt_line": "cost only"}),
    ("19 weight", {"weight": "cost only"}),
    ("20 emissions", {"tier": "cost only"}),
]  # fmt: skip


@pytest.mark.parametrize(("item", "dimensions"), LIST, ids=[item for item, _ in LIST])
def test_it_is_there_and_says_what_a_difference_means(engine, item, dimensions):
    assert {name: engine.dimensions[name].otherwise for name in dimensions} == dimensions, item


def test_every_dimension_says_what_it_is_how_it_is_seen_and_why(engine):
    assert {name for name, one in engine.dimensions.items() if not (one.title and one.seen and one.why)} == set()


@pytest.mark.parametrize("kind", ["engine", "gearbox", "axle", "pump"])
def test_every_remedy_that_is_named_is_in_the_catalog_and_costs_something(catalog, kind):
    one = catalog.room("kinds")[kind].value
    named = {name for group in (one.joints, one.dimensions, one.stack_ups) for each in group.values() for name in each.remedies}
    for name in named:
        remedy = catalog.room("remedies")[name].value
        assert remedy.money, name
        assert remedy.origin.basis in ("judgement", "published"), name


def test_limits(engine):
    """Each from common practice: no source, or a judgement of this project."""
    rules, stacks, joints = engine.dimensions, engine.stack_ups, engine.joints
    shares = {
        name: (rules[name].rule.below, rules[name].rule.above)
        for name in ("power", "torque", "power_enough", "torque_enough", "weight")
    }
    assert shares == {
        "power": (None, 0.15),
        "power_enough": (0.10, None),
        "torque": (None, 0.15),
        "torque_enough": (0.15, None),
        "weight": (0.20, 0.20),
    }
    assert stacks["friction_face"].within.value == 1.5
    assert stacks["tip_clearance"].at_least.value == 1.5
    assert stacks["fan_clear"].at_least.value == pytest.approx(19.05)
    assert stacks["fan_near"].at_most.value == pytest.approx(50.8)
    assert stacks["pan_clear"].at_least.value == pytest.approx(12.7)
    assert rules["belt_line"].rule.above == pytest.approx(3.175)
    assert joints["starter"].register.value == 0.25  # 0.010 in about the starter's pilot, in print


def test_the_electronic_set_comes_from_one_machine_or_not_at_all(engine):
    supply = engine.supply["electronics"]
    assert (supply.by, supply.bought, supply.own) == (("donor",), None, None)
    assert supply.when == {"core.control": ("electronic",)}
    for word in ("controller", "harness", "sensors", "throttle"):
        assert word in supply.parts


def test_what_the_sheet_must_warn_of(engine):
    said = " ".join(engine.cautions).casefold()
    for word in ("splitting", "lifting", "pierce", "accumulators", "asbestos", "first start", "hot work", "battery", "manual"):
        assert word in said
