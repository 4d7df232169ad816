"""Whole commands for a dead gearbox and a dead axle in the demo's loader."""

import json

import pytest

from interchange.ads.form_signs import ODDS
from interchange.ads.form_told import TELL

JOB = """
title: "Pit loader: gearbox and front axle"
machine: dunmarrow-rl90
dead:
  gearbox: {unit: dunmarrow-c90, usable: [converter]}
  front_axle: {unit: dunmarrow-x90.loader, usable: [brakes, yoke]}
"""
ADS = """Dunmarrow X90 front axle, 41/11
$900
Rutland, VT

---

Dunmarrow RL90 loader for parts, engine blown
$3,000
Lebanon, NH

---

C90 transmission with converter, worked when pulled
$1,400 OBO
Concord, NH

---

C120 transmission, no converter
$700
Concord, NH
"""


@pytest.fixture
def job(own_shop):
    folder = own_shop / "jobs" / "driveline"
    (folder / "ads").mkdir(parents=True)
    (folder / "job.yaml").write_text(JOB, encoding="utf-8")
    (folder / "ads" / "2026-11-20.txt").write_text(ADS, encoding="utf-8")
    return folder


def test_ads_are_ranked_for_each_of_the_two(run, job):
    gearbox, axle = json.loads(run("rank", job, "--json", code=0).out)["seats"]
    verdicts = {ad["title"]: ad["verdict"] for ad in gearbox["ranked"]}
    assert verdicts["C90 transmission with converter, worked when pulled"] == "bolts up"
    assert verdicts["Dunmarrow RL90 loader for parts, engine blown"] == "bolts up"
    bare = next(ad for ad in gearbox["ranked"] if ad["title"] == "C120 transmission, no converter")
    assert bare["parts"]["own"] == []  # one's own converter has another hub, and is usable
    assert "torque converter" in bare["parts"]["bought"]
    ratios = next(ad for ad in axle["ranked"] if ad["title"] == "Dunmarrow X90 front axle, 41/11")
    shown = (
        0.3 * ODDS[TELL]
    )  # three in ten have the other ratio, which stops it, and 41/11 in the ad shows that it is one of these
    assert ratios["goes_in"] == pytest.approx(0.7 / (0.7 + shown))
    assert {form["variant"]: form["verdict"] for form in ratios["forms"]} == {"loader": "bolts up", "roading": "stops"}


def test_a_machine_gives_the_unit_of_the_seat_that_is_asked_about(run, job):
    shown = run("fit", job, "dunmarrow-rl120", "--unit", "front_axle", code=0).out
    assert "stops: ratio" in shown
    assert "41/11 against 4.11:1 (-9%)" in shown
    assert "cannot be tested" in run("fit", job, "dunmarrow-c90", code=0).out
