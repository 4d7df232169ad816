"""What is for sale, in what state, and with which parts."""

from __future__ import annotations

import pytest

from interchange.ads.read import read_ad


def value(field):
    return None if field is None else field.value


SUBJECTS = [
    ("machine", "Dunmarrow RL90 loader", "machine", "machine"),
    ("engine", "Hestrel H52D engine", "unit", "engine"),
    ("engine out of a machine", "Tolvane T412 engine out of Dunmarrow RL90 loader", "unit", "engine"),
    ("machine with an engine", "Skarrow S28 skid steer with bad engine", "machine", "machine"),
    ("noun before noun", "Dunmarrow RL90 loader engine", "unit", "engine"),
    ("pump before all", "RL90 wheel loader hydraulic pump", "unit", "pump"),
    ("part for an engine", "starter for Brackmoor B330 engine", "part", "starter"),
    ("part named last", "Hestrel H52D cylinder head", "part", "head"),
    ("turbo is a model here", "Tolvane T412T turbo - dropout from Varnhollow BH4", "unit", None),
    ("engine only spoken of", "Skarrow S28, 1,850 hours, engine locked up", None, None),
    ("core", "Two H52D cores", "unit", None),
    ("word in the body", "Early Brackmoor B440E\nLong block only", "unit", None),
    ("runs and drives", "DUNMARROW RL120 RUNS AND DRIVES", "machine", None),
    ("looking for", "Looking for a parts tractor", "machine", "machine"),
    ("tires", "4 loader tires", "part", "tires"),
    ("nothing named", "Pellworth 540, nice paint", None, None),
]


@pytest.mark.parametrize(("ad", "kind", "which"), [pytest.param(*case, id=name) for name, *case in SUBJECTS])
def test_subject(ad, kind, which, phrases, words):
    reading = read_ad(ad, phrases, words)
    assert (value(reading.subject), value(reading.subject_is)) == (kind, which)


OFFERS = [
    ("long block", "Brackmoor B440 long block", "long_block"),
    ("short block", "Brackmoor B440E short-block", "short_block"),
    ("bare block", "B440 bare block", "bare_block"),
    ("drop-out", "Hestrel H52D engine, complete drop-out", "drop_out"),
    ("takeout", "Hestrel H52D takeout", "drop_out"),
    ("complete", "Complete engine, Hestrel H52D", "complete"),
    ("complete said later", "Brackmoor B330 tractor engine\nComplete with bell housing.", "complete"),
    ("core", "H52 D core, no core charge", "core"),
    ("with a core is none", "Orrindale OD60 engine, sold with core", None),
    ("radiator core", "radiator core for RL90", "part"),
    ("parts machine", "Dunmarrow RL90 parts machine", "parts_machine"),
    ("for parts", "Pellworth 540 tractor for parts", "parts_machine"),
    ("running machine", "RL120 loader. Good running machine.", "running_machine"),
    ("runs", "F60 forklift. Runs.", "running_machine"),
    ("only its engine runs", "Pellworth 620 tractor, engine runs, clutch stuck", "machine"),
    ("machine", "Varnhollow BH4 backhoe, fire damage", "machine"),
    ("parting out", "Parting out Pellworth 620 tractor", "part"),
    ("part", "starter for B330", "part"),
    ("not said", "Hestrel H52D engine", None),
]


@pytest.mark.parametrize(("ad", "offer"), [pytest.param(*case, id=name) for name, *case in OFFERS])
def test_offer(ad, offer, phrases, words):
    assert value(read_ad(ad, phrases, words).offer) == offer


PARTS = [
    ("missing list", "engine missing starter, pump coupler and flywheel", {"starter", "pump_coupler", "flywheel"}, set()),
    ("no this or that", "T412 long block. No starter or alternator.", {"starter", "alternator"}, set()),
    ("minus", "T412, minus starter", {"starter"}, set()),
    ("does not come with", "T412 engine, doesn't come with a radiator", {"radiator"}, set()),
    ("gone", "The starter is gone.", {"starter"}, set()),
    ("not included", "T412. Air starter is not included.", {"starter"}, set()),
    ("includes", "T412T, includes turbo and manifold", set(), {"turbo", "manifold"}),
    ("comes with", "Comes with starter, alternator and flywheel housing.", set(), {"starter", "alternator", "housing"}),
    ("with", "H78E engine w/ ECM, no harness", {"harness"}, {"controller"}),
    ("both", "includes turbo; minus starter", {"starter"}, {"turbo"}),
    ("sold apart", "Also have injectors $40 each", set(), set()),
    ("needed is neither", "RL90 loader, needs a starter", set(), set()),
]


@pytest.mark.parametrize(("ad", "missing", "included"), [pytest.param(*case, id=name) for name, *case in PARTS])
def test_parts(ad, missing, included, phrases, words):
    reading = read_ad(ad, phrases, words)
    assert (set(reading.missing), set(reading.included)) == (missing, included)


HEALTH = [
    ("each in its clause", "motor is good, trans is bad", {("engine", "good"), ("gearbox", "bad")}),
    ("no comma", "good motor bad trans", {("engine", "good"), ("gearbox", "bad")}),
    ("two at once", "engine and transmission are good", {("engine", "good"), ("gearbox", "good")}),
    ("denied", "engine is not bad", {("engine", "good")}),
    ("its mounts", "Engine mounts are broken", set()),
    ("something else", "engine, good tires", set()),
    ("pump", "hydraulic pump whines", {("pump", "bad")}),
]


@pytest.mark.parametrize(("ad", "health"), [pytest.param(*case, id=name) for name, *case in HEALTH])
def test_unit_health(ad, health, phrases, words):
    assert {(one.unit, one.state) for one in read_ad(ad, phrases, words).health} == health


SAID_OF = [
    ("plain", "engine knocks", [("knocks", False, "engine")]),
    ("no", "no knocks", [("knocks", True, "engine")]),
    ("never", "never overheated", [("overheated", True, "engine")]),
    ("doesn't", "doesn't smoke or knock", [("smokes", True, "engine"), ("knocks", True, "engine")]),
    ("entity for the apostrophe", "doesn&#39;t smoke", [("smokes", True, "engine")]),
    ("a list", "no leaks, smoke, or knocks", [("smokes", True, "engine"), ("knocks", True, "engine")]),
    ("no reaches one clause", "no smoke and runs great", [("smokes", True, "engine"), ("runs_well", False, "engine")]),
    ("no reaches no verb", "no smoke runs great", [("smokes", True, "engine"), ("runs_well", False, "engine")]),
    ("no problem", "no problems, turns by hand", [("turns_by_hand", False, "engine")]),
    ("free of", "free of knocks", [("knocks", True, "engine")]),
    ("not running is its own", "not running", [("not_running", False, "engine")]),
    ("of the gearbox", "transmission rebuilt", [("rebuilt_no_receipts", False, "gearbox")]),
    ("longest wins", "ran when parked", [("ran_when_parked", False, "engine")]),
    ("across a soft line break", "turns over\nby hand", [("turns_by_hand", False, "engine")]),
    ("not across a list", "Runs\nGood tires", [("runs", False, "engine")]),
    ("not across a stop", "It won't. Start the pump first", []),
]


@pytest.mark.parametrize(("ad", "hits"), [pytest.param(*case, id=name) for name, *case in SAID_OF])
def test_phrases(ad, hits, phrases, words):
    assert [(hit.id, hit.negated, hit.unit) for hit in read_ad(ad, phrases, words).phrases] == hits


def test_a_guess_is_doubted(phrases, words):
    sure, guess = (read_ad(text, phrases, words).phrases[0] for text in ("head gasket is bad", "might be a bad head gasket"))
    assert (sure.doubted, guess.doubted) == (False, True)
    assert guess.certainty < sure.certainty


@pytest.mark.parametrize(
    ("ad", "title"),
    [
        pytest.param("Save\nShare\n$2,900\nDunmarrow RL90 loader\nBarre, VT", "Dunmarrow RL90 loader", id="after leavings"),
        pytest.param("• RL90 loader $5", "RL90 loader $5", id="after a bullet"),
        pytest.param("Title: Brackmoor B330 engine\nPrice: $800", "Brackmoor B330 engine", id="labelled"),
        pytest.param("<b>Tolvane T412T</b>\nx", "Tolvane T412T", id="in markup"),
        pytest.param("802-555-0143\nH52D engine", "H52D engine", id="after a telephone"),
        pytest.param(
            "Hestrel H52D engine, complete drop-out from a Varnhollow BH3. Ran when parked two years ago. Asking 2,400.",
            "Hestrel H52D engine, complete drop-out from a Varnhollow BH3",
            id="first of some sentences",
        ),
    ],
)
def test_title(ad, title, phrases, words):
    assert value(read_ad(ad, phrases, words).title) == title
