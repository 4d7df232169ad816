"""How much of the labelled ads is read right: what was reached on those held out must not be lost, save a little."""

import importlib.util
import sys
from pathlib import Path

import pytest

SCRIPT = Path(__file__).parents[2] / "scripts" / "score_ads.py"
# Percent that is to be reached on ads of writers that nobody looked at.
BARS = {"price": 97.0, "place": 95.0, "offer": 92.0, "first": 95.0, "refused": 95.0}
# Percent as reached last: ads of those writers, and held-out ads of styles that were made to be hard.
REACHED = {
    "held-out writers": {"subject": 91.1, "form": 90.8, "hours": 97.0},
    "held-out styles": {"price": 81.2, "place": 93.8, "offer": 82.8, "subject": 93.8, "first": 92.5, "hours": 92.2},
}
ALLOWED = {"held-out writers": 1.0, "held-out styles": 4.0}  # points: of the few an ad or two


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
    assert 100 * right / of >= REACHED[group][field] - ALLOWED[group]


@pytest.mark.parametrize("field", BARS)
def test_ads_of_writers_nobody_looked_at_are_read_well_enough(scores, field):
    module, found = scores
    right, of = module.share(found, field, lambda ad: ad.group == module.WRITERS)
    assert of >= 60
    assert 100 * right / of >= BARS[field]


def test_the_weights_were_learned_from_the_labels_there_are():
    module = _script()
    assert module.MADE_OF.read_text(encoding="utf-8").strip() == module.made_of(module.for_learning()), "run scripts/learn_ads.py"
