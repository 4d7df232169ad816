"""Chances worked by hand: base rate to odds, times a likelihood ratio for the best and the worst that is said."""

from __future__ import annotations

import pytest

from interchange.ads.evidence import health, odds
from interchange.ads.read import read_ad
from interchange.catalog.words import Phrase

BASE = 0.25  # odds 1 to 3


@pytest.fixture(scope="module")
def told(phrases, words):
    by_id = {phrase.id: phrase for phrase in phrases}

    def told_(text, kind="engine", base=BASE):
        return health(read_ad(text, phrases, words), by_id, base, kind)

    return told_


def shown(result):
    return [reason.text for reason in result.reasons[1:]]


@pytest.mark.parametrize(
    ("chance", "expected"),
    [
        pytest.param(0.5, 1.0, id="even"),
        pytest.param(0.25, 1 / 3, id="one in four"),
        pytest.param(0.0, 0.0, id="never"),
        pytest.param(1.0, 49.0, id="a certainty is taken as nearly so"),
    ],
)
def test_odds(chance, expected):
    assert odds(chance) == pytest.approx(expected)


@pytest.mark.parametrize(
    ("text", "chance"),
    [
        pytest.param("Tolvane T412 engine", 0.25, id="nothing said: the base rate"),
        pytest.param("Engine, video of a cold start", 0.7, id="one good word: its own chance"),
        pytest.param("Engine, it knocks", 0.03, id="one bad word: its own chance"),
        pytest.param("Engine runs good, have a video of a cold start", 0.7, id="of two good words the stronger"),
        pytest.param("Engine has milky oil, and it knocks", 0.03, id="of two bad words the worse"),
        # odds 1/3, times (7/3)/(1/3) = 7, times (1/9)/(1/3) = 1/3: 7/9, which is 7 of 16
        pytest.param("Video of a cold start. Some blow-by.", 7 / 16, id="good and bad together"),
        pytest.param("Engine, cracked block, video of a cold start", 0.0, id="a cracked block ends it"),
        pytest.param("Engine does not smoke, no knocks, no milky oil", 0.25, id="denied"),
        pytest.param("Engine may have a spun bearing", 0.25, id="only supposed"),
    ],
)
def test_chance(told, text, chance):
    assert told(text).chance == pytest.approx(chance), shown(told(text))


def test_factors_are_likelihood_ratios(told):
    base, good, bad = told("Video of a cold start. Some blow-by.").reasons
    assert (base.factor, base.text) == (1.0, "")
    assert (good.factor, good.text) == (pytest.approx(7.0), "Video of a cold start")
    assert (bad.factor, bad.text) == (pytest.approx(1 / 3), "Some blow-by")


@pytest.mark.parametrize(
    ("text", "chance"),
    [
        pytest.param("Engine, low hours", 0.30, id="up"),
        pytest.param("Engine, fresh paint", 0.15, id="down"),
        pytest.param("Engine, fresh paint, low hours", 0.20, id="both"),
        pytest.param("Engine, supposedly low hours", 0.25, id="doubted"),
        pytest.param("Cracked block, fresh paint", 0.0, id="never under nothing"),
    ],
)
def test_shifts_are_added_last(told, text, chance):
    assert told(text).chance == pytest.approx(chance), shown(told(text))


def test_shift_never_goes_over_one(phrases, words):
    sure = Phrase(id="sure", say=("sure thing",), shift=0.9)
    reading = read_ad("engine, sure thing", (*phrases, sure), words)
    assert health(reading, {"sure": sure}, 0.5, "engine").chance == 1.0


@pytest.mark.parametrize(
    ("text", "caution"),
    [
        pytest.param("Engine, fresh paint", "paint hides", id="paint"),
        pytest.param("Loader, no title", "ownership", id="title"),
        pytest.param("Engine, deposit to hold", "fraud", id="pay first"),
        pytest.param("Engine sucked in water", "water", id="water"),
    ],
)
def test_cautions(told, text, caution):
    assert any(caution in each for each in told(text).cautions)


def test_each_caution_once_and_none_denied(told):
    assert len(told("new paint, freshly painted, repainted").cautions) == 1
    assert told("Engine, no fresh paint").cautions == ()


@pytest.mark.parametrize(
    ("text", "kind", "bad"),
    [
        pytest.param("Loader, motor is good, trans is bad", "engine", False, id="engine of a loader with a bad gearbox"),
        pytest.param("Loader, motor is good, trans is bad", "gearbox", True, id="its gearbox"),
        pytest.param("Tractor, trans is good, motor is junk", "engine", True, id="the other way round"),
        pytest.param("Tractor, trans might be bad", "gearbox", False, id="only supposed"),
        pytest.param("Loader, pump is weak", "engine", False, id="pump"),
    ],
)
def test_called_bad_outright(told, text, kind, bad):
    result = told(text, kind)
    assert (result.chance == 0.0, "called bad outright" in [reason.effect for reason in result.reasons]) == (bad, bad)


def test_phrases_of_another_unit_do_not_count(told):
    text = "Loader. The transmission is seized. Engine runs good."
    assert told(text).chance > BASE
    assert told(text, "gearbox").chance < BASE
