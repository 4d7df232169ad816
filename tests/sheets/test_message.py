"""A message to a seller: how to measure and the figure hoped for, in words that can be sent as they are."""

from pathlib import Path

import pytest

from interchange.catalog.figure import Figure
from interchange.money.asked import DIMENSION, FORM, PART, SOUND, Question
from interchange.opening import Bar, open_library
from interchange.sheets.message import message

ROOT = Path(__file__).parents[2]


@pytest.fixture(scope="module")
def library(tmp_path_factory):
    with pytest.MonkeyPatch.context() as patch, Bar() as bar:
        patch.setenv("INTERCHANGE_CACHE", str(tmp_path_factory.mktemp("cache")))
        return open_library((ROOT / "catalog" / "standards", ROOT / "catalog" / "trade"), bar)[0]


FACE = Question(DIMENSION, "gearbox", "rear face", "", "photo", need=Figure(ref="sae-j617-3"))
LENGTH = Question(DIMENSION, "depth", "depth", "", "tape", "how deep the flywheel housing is", "about 96.0 mm")
WHICH = Question(FORM, "form", "which form it is", "", "plate", "a photo of the plate", "the loader's")
COLD = Question(SOUND, "cold", "cold start", "", "photo", "a short video of a cold start", "little smoke")
STARTER = Question(PART, "starter", "starter", "", "photo", "whether it comes with the starter", "yes")


@pytest.mark.parametrize(
    ("question", "there", "not_there"),
    [
        # 12 holes on 16-7/8 in: SAE J617 No. 3; neighbours stand 16.875 x sin 15 deg = 4.368 in apart.
        pytest.param(FACE, ("Count the bolt holes", "Hoped for: 12.", "16-7/8 in", "4.368 in"), (), id="a face by its chords"),
        pytest.param(LENGTH, ("how deep the flywheel housing is?", "Hoped for: about 96.0 mm."), (), id="a length"),
        pytest.param(WHICH, ("a photo of the plate?",), ("loader",), id="which is wanted is not told"),
        pytest.param(COLD, ("a short video of a cold start?",), ("smoke",), id="what is hoped of its health is not told"),
        pytest.param(STARTER, ("whether it comes with the starter?",), ("yes", "Hoped"), id="a part"),
    ],
)
def test_one_question(library, question, there, not_there):
    words = message("H52D engine", [question], library)
    assert "Could you tell me " in words
    assert all(each in words for each in there), words
    assert not any(each in words for each in not_there), words


def test_several_are_numbered_and_each_is_a_sentence(library):
    lines = message("H52D engine", [FACE, LENGTH, COLD], library).splitlines()
    assert lines[0] == "Hello, I am interested in your ad “H52D engine”."
    asked = [line for line in lines if line[0].isdigit()]
    assert [line[:4] for line in asked] == ["1. T", "2. H", "3. A"]
    assert all(line.endswith(".") and ".." not in line for line in asked)


def test_a_title_is_one_line_of_plain_text(library):
    words = message("H52D\n\x1b[31mengine " + "x" * 300, [COLD], library)
    assert "\x1b" not in words
    assert len(words.splitlines()[0]) < 130
