"""How much of the labelled ads is read right: what was reached on those held out must not be lost, save a little."""

import importlib.util
import sys
from pathlib import Path

import pytest

SCRIPT = Path(__file__).parents[2] / "scripts" / "score_ads.py"
# Percent of the ads held out, as reached last: those of whole writers, and those of styles that were made to be hard.
REACHED = {
    "held-out writers": {
        "price": 96.7,
        "place": 96.4,
        "offer": 93.3,
        "subject": 90.6,
        "first": 96.6,
        "form": 90.7,
        "refused": 97.1,
        "hours": 96.7,
    },
    "held-out styles": {"price": 82.8, "place": 92.2, "offer": 81.2, "subject": 93.8, "first": 90.6, "hours": 92.2},
}
ALLOWED = 4.0  # points: an ad or two of the few that are held out


def _script():
    spec = importlib.util.spec_from_file_location("score_ads", SCRIPT)
    module = importlib.util.module_from_spec(spec)
    sys.modules["score_ads"] = module
    spec.loader.exec_module(module)
    return module


@pytest.fixture(scope="module")
def scores(tmp_path_factory):
    module = _script()
    with pytest.MonkeyPatch.context() as patch:
        patch.setenv("INTERCHANGE_CACHE", str(tmp_path_factory.mktemp("cache")))
        yield module, module.scored()


@pytest.mark.long
@pytest.mark.parametrize(("group", "field"), [(group, field) for group, fields in REACHED.items() for field in fields])
def test_held_out_ads_are_read_as_well_as_before(scores, group, field):
    module, found = scores
    right, of = module.share(found, field, lambda ad: ad.group == group)
    assert of >= 25
    assert 100 * right / of >= REACHED[group][field] - ALLOWED


def test_the_weights_were_learned_from_the_labels_there_are():
    module = _script()
    assert module.MADE_OF.read_text(encoding="utf-8").strip() == module.made_of(module.for_learning()), "run scripts/learn_ads.py"
