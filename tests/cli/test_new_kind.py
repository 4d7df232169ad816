"""Whole commands for a kind that exists only in a file of the user's."""

import json
import shutil
from pathlib import Path

import pytest

WINCH = Path(__file__).parents[1] / "catalog" / "winch.yaml"
HOME = """
place: "Barre, VT"
catalog: [catalog]
"""
JOB = """
title: "Logging tractor: winch"
machine: ravensholm-24
dead:
  winch: {unit: kettrin-w8, usable: [fairlead], broke: "drum split"}
"""
ADS = """Kettrin W8 winch
$900
Works fine, off a tractor that was scrapped.
Rutland, VT

---

Kettrin W8R winch, complete
$250
Montpelier, VT

---

Sollbach S40 winch
$400 OBO
No fairlead.
Concord, NH

---

Ravensholm 24 logging tractor for parts
$3,000
Lebanon, NH

---

Hay rake, five bars
$300
Stowe, VT
"""


@pytest.fixture(scope="module")
def home(tmp_path_factory):
    folder = tmp_path_factory.mktemp("woods")
    job = folder / "jobs" / "winch"
    for path in (folder / "catalog", job / "ads"):
        path.mkdir(parents=True)
    shutil.copy(WINCH, folder / "catalog")
    (folder / "home.yaml").write_text(HOME, encoding="utf-8")
    (job / "job.yaml").write_text(JOB, encoding="utf-8")
    (job / "ads" / "2026-11-20.txt").write_text(ADS, encoding="utf-8")
    return folder


@pytest.fixture
def job(home):
    return home / "jobs" / "winch"


def test_the_catalog_has_no_problems(run, home):
    assert "no problems" in run("catalog", "check", home / "catalog", "--home", home, code=0).out


def test_ads_for_it_are_ranked(run, job):
    (seat,) = json.loads(run("rank", job, "--json", code=0).out)["seats"]
    ranked = {ad["title"].split("\n")[0]: ad["verdict"] for ad in seat["ranked"]}
    assert ranked == {
        "Kettrin W8 winch": "bolts up",
        "Sollbach S40 winch": "machine work",
        "Ravensholm 24 logging tractor for parts": "bolts up",
    }
    assert [ad["title"] for ad in seat["stopped"]] == ["Kettrin W8R winch, complete"]
    assert "Hay rake" in run("rank", job, code=0).out


def test_one_pair_in_full(run, job):
    shown = run("fit", job, "kettrin-w8", code=0).out
    for words in ("bolts up", "4 of 4 holes line up", "both 27:1", "fairlead", "nobody stands in its line"):
        assert words in shown
    turned = run("fit", job, "kettrin-w8r", code=0).out
    assert "stops: rotation" in turned
    assert "counter-clockwise against clockwise" in turned
    made = run("fit", job, "sollbach-s40", code=0).out
    assert "foot plate made" in made
    assert "51/2 against 27:1 (-6%)" in made
    assert "fairlead: grease the rollers" in made, "one's own is kept: whether it comes with the donor is even"


def test_a_machine_of_the_catalog_as_the_donor(run, job):
    assert "out of a Ravensholm 24" in run("fit", job, "ravensholm-24", code=0).out


def test_it_is_found_and_shown(run, home):
    assert "sollbach-s40" in run("find", "sollbach", "--home", home, code=0).out
    assert "51/2" in run("catalog", "show", "sollbach-s40", "--home", home, code=0).out
