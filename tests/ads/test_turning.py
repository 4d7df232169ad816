"""Which way a pump turns, by its hand, and which of a family that makes it."""

import importlib.util
import sys
from pathlib import Path

import pytest

from interchange.ads.pasted import Ad
from interchange.ads.read import read_ad
from interchange.ads.reads import ad_words, matched
from interchange.ads.shelf import read_new
from interchange.money.rank import candidates_of

SCRIPT = Path(__file__).parents[2] / "scripts" / "score_ads.py"


@pytest.mark.parametrize(
    ("ad", "turns"),
    [
        pytest.param("PUMP for Pellworth 540, right hand Lissander L20", "clockwise", id="before its maker"),
        pytest.param("hydraulic pump L20, left hand one", "counter-clockwise", id="left"),
        pytest.param("L20 pump, turns right", "clockwise", id="turns right"),
        pytest.param("L20 pump off the right hand side of an RL90", None, id="a side is no hand"),
        pytest.param("Tolvane T412 engine, right hand turn", None, id="said of an engine"),
    ],
)
def test_hand_of_a_pump(ad, turns, phrases, words):
    rotation = read_ad(ad, phrases, words).rotation
    assert (rotation.value if rotation else None) == turns


@pytest.fixture(scope="module")
def pump_seat(tmp_path_factory):
    spec = importlib.util.spec_from_file_location("score_ads_of_a_pump", SCRIPT)
    module = importlib.util.module_from_spec(spec)
    sys.modules["score_ads_of_a_pump"] = module
    spec.loader.exec_module(module)
    with pytest.MonkeyPatch.context() as patch:
        patch.setenv("INTERCHANGE_CACHE", str(tmp_path_factory.mktemp("cache")))
        yield module.seats()["pump"]


@pytest.mark.parametrize(
    ("ad", "unit"),
    [
        ("Lissander L20 pump, right hand one", "lissander-l20r"),
        ("Lissander L20 pump, left hand one", "lissander-l20"),
        ("Lissander L20 pump", "lissander-l20"),
        ("Lissander L20R pump, left hand one", "lissander-l20r"),
    ],
)
def test_one_of_the_family_that_turns_so(ad, unit, pump_seat):
    library = pump_seat.setting.library
    read = matched(library, read_new([Ad("a", ad, "", 1, "")], ad_words(library)))[0]
    assert {one.form.unit for one in candidates_of(read, pump_seat)[0]} == {unit}
