"""Chances worked by hand: base rate to odds, times a likelihood ratio for each thing known."""

from __future__ import annotations

import datetime as dt

import pytest

from interchange.ads.evidence import OUTRIGHT, Asked, health, odds
from interchange.ads.health_reading import Result
from interchange.ads.notes import Note
from interchange.ads.read import read_ad
from interchange.catalog.figure import Figure
from interchange.catalog.health import HealthTest
from interchange.catalog.rates import SilenceRates
from interchange.quantity import read_quantity

BASE = 0.25  # odds 1 to 3
TODAY = dt.date(2026, 11, 25)


@pytest.fixture(scope="module")
def told(phrases, words):
    by_id = {phrase.id: phrase for phrase in phrases}

    def told_(text, kind="engine", base=BASE, measured=(), asked=None):
        return health(read_ad(text, phrases, words), by_id, base, kind, measured, asked)

    return told_


def chance(*ratios):
    """The chance that ratios make of odds of 1 to 3."""
    value = 1 / 3
    for ratio in ratios:
        value *= ratio
    return value / (1 + value)


def shown(result):
    return [reason.text for reason in result.reasons[1:]]


@pytest.mark.parametrize(
    ("chance", "expected"),
    [
        pytest.param(0.5, 1.0, id="even"),
        pytest.param(0.25, 1 / 3, id="one in four"),
        pytest.param(0.0, 0.0, id="never"),
        pytest.param(1.0, 1e6, id="a certainty is taken as nearly so"),
    ],
)
def test_odds(chance, expected):
    assert odds(chance) == pytest.approx(expected)


@pytest.mark.parametrize(
    ("text", "ratios"),
    [
        pytest.param("Tolvane T412 engine", [], id="nothing said: the base rate"),
        pytest.param("Engine, video of a cold start", [4.3], id="one good word"),
        pytest.param("Engine, it knocks", [0.057], id="one bad word"),
        pytest.param("Engine runs good, have a video of a cold start", [4.3], id="of two good words the stronger"),
        pytest.param("Engine has milky oil, and it knocks", [0.057], id="of two bad words the worse"),
        pytest.param("Video of a cold start. Some blow-by.", [4.3, 0.21], id="good and bad together"),
        pytest.param("Engine, cracked block, video of a cold start", [0], id="a cracked block ends it"),
        pytest.param("Engine does not turn over by hand", [0.2], id="a good word denied"),
        pytest.param("Engine, no milky oil", [1.2], id="a bad word denied"),
        pytest.param("Engine may have a spun bearing", [], id="only supposed"),
        pytest.param("Engine, low hours", [1.2], id="low hours"),
        pytest.param("Engine, fresh paint, low hours", [1.2, 0.62], id="paint and low hours"),
        pytest.param("Engine, supposedly low hours", [], id="doubted"),
    ],
)
def test_chance(told, text, ratios):
    assert told(text).chance == pytest.approx(chance(*ratios)), shown(told(text))


def test_every_factor_is_there_to_see(told):
    base, good, bad = told("Video of a cold start. Some blow-by.").reasons
    assert (base.factor, base.text) == (1.0, "")
    assert (good.factor, good.text) == (4.3, "Video of a cold start")
    assert (bad.factor, bad.text) == (0.21, "Some blow-by")


def result(about, ratio):
    test = HealthTest(
        kind="engine", title=about, say=(about,), measures="pressure", about=about, how="",
        passes=3, even=1.5, doubtful=0.7, fails=0.1,
    )  # fmt: skip
    return Result(test, ratio, about, "why")


@pytest.mark.parametrize(
    ("text", "measured", "ratios"),
    [
        pytest.param("Engine", [result("cylinders", 3)], [3], id="a reading"),
        pytest.param("Engine, good compression", [result("cylinders", 0.1)], [0.1], id="stands before words about it"),
        pytest.param("Engine, it knocks", [result("cylinders", 3)], [3, 0.057], id="and beside other words"),
        pytest.param("Engine", [result("cylinders", 3), result("cylinders", 0.7)], [0.7], id="the worst about one thing"),
        pytest.param("Engine", [result("cylinders", 3), result("bearings", 1.6)], [3, 1.6], id="two things"),
    ],
)
def test_what_was_measured(told, text, measured, ratios):
    assert told(text, measured=measured).chance == pytest.approx(chance(*ratios))


def asked(*days, answered=()):
    notes = [Note(day, "asked", f"question {day}", "ads.txt", 1) for day in days]
    notes += [Note("2026-11-24", "answered", f"question {day}: yes", "ads.txt", 2) for day in answered]
    rates = SilenceRates(ratio=0.8, most=2, after=Figure(quantity=read_quantity("3 days", "days")))
    return Asked(notes, rates, TODAY)


@pytest.mark.parametrize(
    ("questions", "ratios"),
    [
        pytest.param(asked(), [], id="nothing asked"),
        pytest.param(asked("2026-11-22"), [0.8], id="three days ago"),
        pytest.param(asked("2026-11-23"), [], id="two days ago: not yet"),
        pytest.param(asked("2026-11-20", answered=["2026-11-20"]), [], id="answered"),
        pytest.param(asked("2026-11-18", "2026-11-19", "2026-11-20"), [0.8, 0.8], id="no more than two"),
        pytest.param(asked("2026-12-24"), [], id="in days to come"),
    ],
)
def test_silence_counts_once_there_was_time_to_answer(told, questions, ratios):
    assert told("Engine", asked=questions).chance == pytest.approx(chance(*ratios))


@pytest.mark.parametrize(
    ("text", "caution"),
    [
        pytest.param("Engine, fresh paint", "paint hides", id="paint"),
        pytest.param("Loader, no title", "ownership", id="title"),
        pytest.param("Engine, deposit to hold", "fraud", id="pay first"),
        pytest.param("Engine sucked in water", "water", id="water"),
        pytest.param("Engine with start-up warranty", "in writing", id="start-up warranty"),
        pytest.param("Loader, bank has the title, payoff", "release", id="lien"),
        pytest.param("Engine, serial plate missing", "plate", id="no plate"),
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
    assert (result.chance == 0.0, OUTRIGHT in [reason.effect for reason in result.reasons]) == (bad, bad)


def test_phrases_of_another_unit_do_not_count(told):
    text = "Loader. The transmission is seized. Engine runs good."
    assert told(text).chance > BASE
    assert told(text, "gearbox").chance < BASE
