"""The labelled ads keep their shape: keys, words, ids and places. Nothing here reads an ad."""

import re
from pathlib import Path

import pytest
import yaml
import zipcodes

from interchange.haul.place_text import town_key

ROOT = Path(__file__).parents[2]
ADS = ROOT / "tests/data/ads"
CATALOG = ROOT / "catalog/demo/catalog"
AT_LEAST = {
    "chat": 20, "classified_long": 20, "dealer": 20, "estate": 20, "europe": 19, "farm_paper": 22, "forum": 20, "one_line": 24,
    "plain_talk": 20, "salvage": 20, "spec_sheet": 20, "swap_board": 20, "text_message": 20, "copied_page": 20,
}  # fmt: skip
STYLES = sorted(path.stem for path in ADS.glob("*.yaml"))

KEYS = {
    "id",
    "text",
    "price",
    "price_to",
    "currency",
    "kind",
    "terms",
    "each",
    "count",
    "town",
    "state",
    "zip",
    "away_mi",
    "offer",
    "subject",
    "is",
    "variant",
    "hours",
    "hours_doubted",
    "missing",
    "includes",
    "health",
    "weight_lb",
    "note",
    "held_out",
}
KINDS = {"asked", "call", "trade", "placeholder", "rental", "none"}
OFFERS = {
    "running_machine",
    "machine",
    "parts_machine",
    "complete",
    "drop_out",
    "long_block",
    "short_block",
    "bare_block",
    "core",
    "part",
    "wanted",
}
SUBJECTS = {"engine", "pump", "gearbox", "axle", "machine", "part", "other"}
CATALOG_SORTS = {"engine", "pump", "gearbox", "axle", "machine"}
CURRENCIES = {
    "USD", "CAD", "MXN", "EUR", "GBP", "SEK", "DKK", "NOK", "PLN", "CZK", "HUF", "CHF", "AUD", "NZD", "ZAR", "KES", "BRL", "JPY",
    "TRY", "ILS",
}  # fmt: skip
ABROAD = {"NSW", "QLD", "VIC", "Sonora", "Chihuahua", "Free State"}
PROVINCES = {"AB", "BC", "MB", "NB", "NL", "NS", "NT", "NU", "ON", "PE", "QC", "SK", "YT"}
PARTS = {
    "housing",
    "flywheel",
    "flexplate",
    "converter",
    "coupler",
    "clutch",
    "starter",
    "alternator",
    "injection_pump",
    "carburetor",
    "coil",
    "manifold",
    "turbo",
    "radiator",
    "fan",
    "pan",
    "head",
    "front_cover",
    "mounts",
    "controller",
    "harness",
    "gauges",
    "hydraulic_pump",
    "seals",
    "generator",
    "muffler",
    "tank",
    "brakes",
    "yoke",
    "tag",
    "engine",
    "bucket",
    "forks",
    "auger",
    "air_cleaner",
    "air_cooler",
    "batteries",
    "block",
    "bolster",
    "cab",
    "camshaft",
    "clutch_packs",
    "crankshaft",
    "fuel_tank",
    "gaskets",
    "generator_end",
    "hood",
    "injectors",
    "liners",
    "loader",
    "pistons",
    "pump_coupler",
    "rear_axle",
    "rings",
    "rods",
    "sensors",
    "stabilizers",
    "stand",
    "throttle",
    "transmission",
    "valve_body",
    "vaporizer",
    "wheels",
}
STATES_OF_HEALTH = {
    "runs",
    "video",
    "pulled_for_upgrade",
    "ran_when_parked",
    "turns",
    "seized",
    "knocks",
    "smokes",
    "blow_by",
    "milky",
    "rebuilt",
    "needs_head_gasket",
    "needs_rings",
    "hole",
    "cracked",
    "low_oil_pressure",
    "hard_start",
    "low_hours",
    "not_running",
    "overheated",
    "leaks",
    "tested",
    "warranty",
    "unknown",
    "bad_brakes",
    "burns_oil",
    "low_compression",
    "new",
    "overheating",
    "smoke",
    "works",
}
# Seven digits parted by a blank are left alone: "tolvane 618 1600" is an engine and a price.
NUMBER_LIKE_A_PHONE = re.compile(r"(?<![\d-])(?:\(?\d{3}\)?[-. ]?\d{3}[-. ]|\d{3}[-.])\d{4}(?![\d-])|(?<!\d)\d{10}(?!\d)")
KEPT_FOR_FICTION = re.compile(r"555[-. ]?01\d\d$")


USUAL = {  # what a key that is left out stands for
    "price": None, "price_to": None, "currency": "USD", "terms": None, "each": False, "count": 1, "town": None, "state": None,
    "zip": None, "away_mi": None, "offer": None, "variant": None, "hours": None, "hours_doubted": False, "missing": [],
    "includes": [], "health": [], "weight_lb": None, "note": "", "held_out": False,
}  # fmt: skip
AS_HEARD = ("scanned", "voice")  # styles whose text is mangled: a ZIP need not stand in it as such


def ads_of(style: str) -> list[dict]:
    ads = yaml.safe_load((ADS / f"{style}.yaml").read_text(encoding="utf-8"))
    return [{**USUAL, **ad, "style": style} for ad in ads]


EVERY = [pytest.param(ad, id=ad["id"]) for style in STYLES for ad in ads_of(style)]


@pytest.fixture(scope="module")
def catalog() -> dict[str, tuple[str, set[str]]]:
    """What each id of the demo is, and the names of its forms."""
    files = [yaml.safe_load(path.read_text(encoding="utf-8")) for path in sorted(CATALOG.glob("*.yaml"))]
    units = {
        name: (unit["kind"], set(unit.get("variants", {}))) for file in files for name, unit in file.get("units", {}).items()
    }
    return units | {name: ("machine", set()) for file in files for name in file.get("machines", {})}


@pytest.fixture(scope="module")
def post_offices() -> dict[str, set[str]]:
    """The towns of each state, under every name the post takes."""
    towns: dict[str, set[str]] = {}
    for record in zipcodes.list_all():
        towns.setdefault(record["state"], set()).update([record["city"], *record["acceptable_cities"]])
    return towns


def test_every_style_is_there() -> None:
    assert set(STYLES) >= set(AT_LEAST)


@pytest.mark.parametrize(("style", "at_least"), AT_LEAST.items())
def test_none_is_lost_and_the_held_out_are_spread(style, at_least) -> None:
    held = [ad["held_out"] for ad in ads_of(style)]
    assert len(held) >= at_least
    if any(held):  # a style may be all for tuning
        assert 0.25 <= sum(held) / len(held) <= 0.45
        assert all(any(held[at : at + 5]) and not all(held[at : at + 2]) for at in range(len(held) - 4))


def test_ids_are_used_once() -> None:
    ids = [ad["id"] for style in STYLES for ad in ads_of(style)]
    assert len(ids) == len(set(ids))
    assert all(re.fullmatch(r"[a-z0-9]+(-[a-z0-9]+)*", name) for name in ids)


def test_texts_differ() -> None:
    texts = [ad["text"] for style in STYLES for ad in ads_of(style)]
    assert len(texts) == len(set(texts))


@pytest.mark.parametrize("ad", EVERY)
def test_keys_and_words_are_known(ad) -> None:
    assert set(ad) == KEYS | {"style"}
    assert ad["text"].strip()
    assert ad["kind"] in KINDS
    assert ad["terms"] in {"obo", "firm", None}
    assert ad["offer"] in OFFERS | {None}
    assert ad["subject"] in SUBJECTS
    assert ad["currency"] in CURRENCIES
    assert {ad["each"], ad["hours_doubted"], ad["held_out"]} <= {True, False}
    assert set(ad["missing"]) | set(ad["includes"]) <= PARTS
    assert not set(ad["missing"]) & set(ad["includes"])
    assert {word.removeprefix("no ") for word in ad["health"]} <= STATES_OF_HEALTH


@pytest.mark.parametrize("ad", EVERY)
def test_prices_go_with_their_kind(ad) -> None:
    assert (ad["price"] is not None) == (ad["kind"] in {"asked", "rental"})
    assert ad["price_to"] is None or ad["price_to"] > ad["price"]
    assert ad["count"] >= 1
    assert not (ad["each"] and ad["count"] > 1)
    assert not ad["hours_doubted"] or ad["hours"] is not None


@pytest.mark.parametrize("ad", EVERY)
def test_ids_stand_in_the_demo_catalog(ad, catalog) -> None:
    assert set(ad["is"]) <= set(catalog)
    if ad["subject"] in CATALOG_SORTS:
        assert {catalog[name][0] for name in ad["is"][:1]} <= {ad["subject"]} or ad["subject"] == "machine"
    if ad["variant"] is not None:
        assert ad["variant"] in catalog[ad["is"][0]][1]


@pytest.mark.parametrize("ad", EVERY)
def test_places_are_real(ad, post_offices) -> None:
    if ad["state"] in post_offices and ad["town"] is not None and ad["currency"] == "USD":  # WA is in Australia too
        assert town_key(ad["town"]) in set(map(town_key, post_offices[ad["state"]]))
    assert ad["state"] is None or ad["state"] in set(post_offices) | PROVINCES | ABROAD
    if ad["zip"] is not None:
        assert ad["zip"] in ad["text"] or ad["style"] in AS_HEARD
        towns = [
            (town_key(name), record["state"])
            for record in zipcodes.matching(ad["zip"])
            for name in (record["city"], *record["acceptable_cities"])
        ]
        assert (town_key(ad["town"]), ad["state"]) in towns
    assert ad["away_mi"] is None or ad["town"] is not None


@pytest.mark.parametrize("ad", EVERY)
def test_phones_are_those_kept_for_fiction(ad) -> None:
    found = NUMBER_LIKE_A_PHONE.findall(ad["text"])
    assert [number for number in found if not KEPT_FOR_FICTION.search(number)] == []


@pytest.mark.parametrize(
    ("number", "caught"),
    [
        pytest.param("802-555-0143", False, id="kept"),
        pytest.param("802 555 0119", False, id="blanks"),
        pytest.param("(806) 555-0145", False, id="area code apart"),
        pytest.param("8025550143", False, id="in one"),
        pytest.param("802-555-0243", True, id="the next hundred"),
        pytest.param("802-554-0143", True, id="another exchange"),
        pytest.param("554-0143", True, id="without area code"),
        pytest.param("8025540143", True, id="ten digits in one"),
    ],
)
def test_what_is_taken_for_a_real_phone(number, caught) -> None:
    found = NUMBER_LIKE_A_PHONE.findall(f"call {number} after 5")
    assert found
    assert any(not KEPT_FOR_FICTION.search(one) for one in found) == caught
