"""Hours, year, weight, volts, delivery, telephones: numbers told apart by what stands beside them."""

from __future__ import annotations

import pytest

from interchange.ads.read import read_ad


def value(field):
    return None if field is None else field.value


HOURS = [
    ("plain", "Dunmarrow RL90, 6,250 hrs", 6250),
    ("dot for thousands", "Dunmarrow RL90 6.250 h", 6250),
    ("label first", "Hours: 4,500", 4500),
    ("meter reads", "Skarrow S28. Hour meter reads 3200.", 3200),
    ("k", "Dunmarrow RL120, 4.5k hrs", 4500),
    ("original", "Engine, 3,100 original hours", 3100),
    ("since a rebuild", "Brackmoor B440, 3 hours on rebuild", 3),
    ("away", "Loader is 30 hours away", None),
    ("drive", "OD60 engine. 26 hours drive from Boston", None),
    ("notice", "Call with 48 hours notice", None),
    ("rate", "RL90 loader $65/hr", None),
    ("opening", "open 24 hours", None),
    ("few, with no label", "took me 8 hours", None),
]


@pytest.mark.parametrize(("ad", "hours"), [pytest.param(*case, id=name) for name, *case in HOURS])
def test_hours(ad, hours, phrases, words):
    assert value(read_ad(ad, phrases, words).hours) == hours


def test_hours_since_a_rebuild_are_noted_and_give_way(phrases, words):
    reading = read_ad("B440 engine, 300 hours since rebuild, 7,100 hrs on meter", phrases, words)
    assert value(reading.hours) == 7100
    alone = read_ad("B440 engine, 300 hours since rebuild", phrases, words).hours
    assert alone is not None
    assert "not the meter" in alone.note


@pytest.mark.parametrize(
    "said", ["hour meter not working", "Meter doesn't work", "hours unknown", "new hour meter", "not actual hours", "meter broke"]
)
def test_meter_doubted(said, phrases, words):
    assert value(read_ad(f"Dunmarrow RL90, {said}.", phrases, words).meter_doubted) is True


YEARS = [
    ("in the title", "1978 Dunmarrow RL90", 1978),
    ("behind the model", "Dunmarrow RL90, 1982", 1982),
    ("labelled", "Dunmarrow RL90\nYear: 1969", 1969),
    ("short", "'78 Varnhollow BH3 backhoe", 1978),
    ("unknown year of a listing", "Dunmarrow RL90\nYear: 1000", None),
    ("rebuilt in", "Brackmoor B440, rebuilt in 2015", None),
    ("since", "Family farm since 1952. Loader.", None),
    ("a price", "Dunmarrow RL90 $1,978", None),
    ("engine speed", "62 hp @ 2000 rpm engine", None),
    ("joined", "loader for sale\nJoined in 2014", None),
]


@pytest.mark.parametrize(("ad", "year"), [pytest.param(*case, id=name) for name, *case in YEARS])
def test_year(ad, year, phrases, words):
    assert value(read_ad(ad, phrases, words).year) == year


WEIGHTS = [
    ("lbs", "Tolvane T618, 1,450 lbs", 1450.0),
    ("weighs", "H52D core weighs about 900 lb", 900.0),
    ("hash", "OD46 engine 1200#", 1200.0),
    ("kilograms", "OD46 engine, 500 kg", 1102.3),
    ("weighs tons", "RL90 loader weighs 7 tons", 14000.0),
    ("tons of class", "2 ton crane and loader", None),
    ("capacity", "F60 forklift 6000 lb capacity", None),
    ("lifts", "S28 lifts 2,800 lbs", None),
    ("torque", "T412 makes 240 lb-ft", None),
]


@pytest.mark.parametrize(("ad", "pounds"), [pytest.param(*case, id=name) for name, *case in WEIGHTS])
def test_weight(ad, pounds, phrases, words):
    assert value(read_ad(ad, phrases, words).weight_lb) == pounds


PHONES = [
    ("dashes", "call 802-555-0143", ["8025550143"]),
    ("brackets", "(518)555-0107", ["5185550107"]),
    ("dots", "802.555.0101", ["8025550101"]),
    ("blanks", "TEXT ONLY 802 555 0121", ["8025550121"]),
    ("run together", "cell 8025550123", ["8025550123"]),
    ("seven digits", "call 555-0143 evenings", ["5550143"]),
    ("country code", "+1 802 555 0143", ["18025550143"]),
    ("in words", "802 five five five 0143", ["8025550143"]),
    ("all but digits", "eight oh two 555 0143", ["8025550143"]),
    ("two of them", "802-555-0143 or 802-555-0144", ["8025550143", "8025550144"]),
    ("a part number", "casting no 1234567890123", []),
    ("a price", "$8025550", []),
]


@pytest.mark.parametrize(("ad", "numbers"), [pytest.param(*case, id=name) for name, *case in PHONES])
def test_phones(ad, numbers, phrases, words):
    assert [value(phone) for phone in read_ad(ad, phrases, words).phones] == numbers


@pytest.mark.parametrize(
    ("ad", "volts"),
    [
        pytest.param("OD46 engine 24V", 24, id="24V"),
        pytest.param("OD46 engine, 12 volt", 12, id="12 volt"),
        pytest.param("welder 220v", None, id="not of a machine"),
        pytest.param("OD46 engine", None, id="not said"),
    ],
)
def test_volts(ad, volts, phrases, words):
    assert value(read_ad(ad, phrases, words).volts) == volts


def test_two_voltages_are_doubted(phrases, words):
    volts = read_ad("OD46 engine, 24v, was 12 volt", phrases, words).volts
    assert volts is not None
    assert (volts.certainty, volts.note) == (0.5, "more than one voltage is named")


@pytest.mark.parametrize(
    ("ad", "turns", "note"),
    [
        pytest.param("L20 pump, clockwise seen from the shaft end", "clockwise", "as seen from the shaft end", id="seen from"),
        pytest.param("L20R, CCW rotation", "counter-clockwise", "from which end is not said", id="no end said"),
        pytest.param("K438, reverse rotation", "reverse", "from which end is not said", id="reverse"),
        pytest.param("L20, left hand rotation facing the front", "counter-clockwise", "as seen from the front", id="left hand"),
    ],
)
def test_rotation(ad, turns, note, phrases, words):
    rotation = read_ad(ad, phrases, words).rotation
    assert rotation is not None
    assert (rotation.value, rotation.note) == (turns, note)


FETCHING = [
    ("will ship", "Will ship freight on a pallet.", True, True, None),
    ("will not", "No shipping. Pickup only.", False, None, None),
    ("you haul", "You haul.", False, None, None),
    ("delivers so far", "Can deliver within 50 miles.", None, None, 50.0),
    ("nothing said", "H52D engine", None, None, None),
]


@pytest.mark.parametrize(("ad", "ships", "pallet", "miles"), [pytest.param(*case, id=name) for name, *case in FETCHING])
def test_fetching(ad, ships, pallet, miles, phrases, words):
    reading = read_ad(ad, phrases, words)
    assert (value(reading.ships), value(reading.on_pallet), value(reading.deliver_mi)) == (ships, pallet, miles)


SAID = [
    ("power", "T412, 62 hp", ("power_hp", 62.0)),
    ("cylinders", "B330, 3 cyl", ("cylinders", 3.0)),
    ("serial", "B440 S/N 4521998", ("serial", "4521998")),
    ("casting", "block casting no. 377-A1", ("casting_number", "377-A1")),
    ("wanted", "Wanted: H52D head", ("wanted", True)),
    ("sold", "SOLD - Dunmarrow RL90", ("sold", True)),
    ("petrol", "F60 forklift, gas.", ("petrol", True)),
    ("no engine", "RL90 loader, engine is gone", ("no_engine", True)),
    ("no trades", "RL90 loader, no trades", ("trades", False)),
    ("stressed", "B440 stressed block", ("stressed_block", True)),
]


@pytest.mark.parametrize(("ad", "fact"), [pytest.param(*case, id=name) for name, *case in SAID])
def test_said(ad, fact, phrases, words):
    assert fact in [(field.name, field.value) for field in read_ad(ad, phrases, words).said]


def test_sold_with_a_core_is_not_sold(phrases, words):
    assert "sold" not in [field.name for field in read_ad("OD60 engine, sold with core", phrases, words).said]


MODELS = [
    ("together", "Dunmarrow RL90 loader", {"Dunmarrow": "name", "RL90": "model"}),
    ("hyphen", "Tolvane T-412 long block", {"Tolvane": "name", "T-412": "model"}),
    ("blank", "Tolvane T 412 engine", {"T 412": "model"}),
    ("letter apart", "Hestrel H52 D takeout", {"H52": "model", "H52 D": "model"}),
    ("number", "Pellworth 540 tractor", {"Pellworth": "name", "540": "number"}),
    ("lower case", "old pellworth 540 runs", {"pellworth": "name", "540": "number"}),
    ("two-word maker", "Ostrander Vale F60 forklift", {"Ostrander": "name", "Vale": "name", "F60": "model"}),
    ("in the body", "Engine for sale\nout of a Skarrow S28", {"Skarrow": "name", "S28": "model"}),
]


@pytest.mark.parametrize(("ad", "names"), [pytest.param(*case, id=name) for name, *case in MODELS])
def test_model_words(ad, names, phrases, words):
    found = {word.text: word.kind for word in read_ad(ad, phrases, words).model_words}
    assert {name: found.get(name) for name in names} == names


@pytest.mark.parametrize(
    "ad",
    [
        "runs good, 24v, 62hp, 4x4, 1200lbs, 3pt",
        "asking 925, call 802-555-0143",
        "1978, 3200 hrs",
        "Barre VT 05641",
        "paid 8000 for it",
    ],
)
def test_no_model_words(ad, phrases, words):
    assert [word.text for word in read_ad(ad, phrases, words).model_words if word.kind != "name"] == []
