"""Sums, parts and places as they are said: what each rule reads, and what it leaves alone. Common practice, no source."""

import pytest

from interchange.ads.evidence import _ratio
from interchange.ads.fields import PhraseHit, Span
from interchange.ads.figures import figures
from interchange.ads.no_price import no_price
from interchange.ads.notes import without_notes
from interchange.ads.number import _CURRENCIES, Taken
from interchange.ads.page import own_end
from interchange.ads.pasted import ads_in
from interchange.ads.place_words import read_places
from interchange.ads.price_settled import read_prices
from interchange.ads.read import read_ad
from interchange.ads.runs import standing_runs
from interchange.catalog.words import Phrase
from interchange.job.currency import CURRENCIES


@pytest.mark.parametrize(
    ("said", "read"),
    [
        ("Hundred and forty dollars", "140 dollars"),
        ("ten two fifty and i will throw in the bucket", "10,250 and i will throw in the bucket"),
        ("Sixteen thousand nine, reduced", "16,900, reduced"),
        ("Sixteen five today", "16,500 today"),
        ("two thousand nine model", "2009 model"),
        ("several hundred and fifty hours", "several hundred and 50 hours"),
        ("three thousand four new tires", "3004 new tires"),
        ("six hundred five hours", "605 hours"),
    ],
)
def test_numbers_in_words(said, read):
    assert figures(said).text == read


@pytest.mark.parametrize(
    ("text", "currency", "value"),
    [
        ("Price: 560 000 Ft", "HUF", 560_000), ("45.000 TL, Bursa", "TRY", 45_000), ("R$ 14.500", "BRL", 14_500),
        ("¥120,000", "JPY", 120_000), ("14 500 Kč", "CZK", 14_500), ("KSh 850,000", "KES", 850_000),
        ("38,000 ILS", "ILS", 38_000), ("A$500", "AUD", 500), ("a $500 deposit", "USD", 500),
    ],
)  # fmt: skip
def test_currencies(text, currency, value):
    money = [one for one in figures(text).numbers if one.role == "money"]
    assert [(one.currency, one.value) for one in money] == [(currency, value)]


@pytest.mark.parametrize(
    "text", ["1000 Ft of cable", "Torque 1,000 Ft. Lbs.", "Case 95 TL loader", "ils 4 cylindres", "2 TL50 loaders"]
)
def test_no_currencies(text):
    assert not any(one.role == "money" for one in figures(text).numbers)


def test_every_currency_that_is_read_can_have_a_rate():
    assert set(_CURRENCIES.values()) - {"USD"} <= set(CURRENCIES)


@pytest.mark.parametrize(
    ("text", "missing", "rest"),
    [
        ("H52D, head and pan gone", {"head", "oil_pan"}, set()),
        ("new starter, alternator missing", {"alternator"}, set()),
        ("Rebuilt head, crank gone", {"crankshaft"}, set()),
        ("Block cracked, head good", set(), set()),
    ],
)
def test_parts_of_a_list(text, missing, rest, words):
    parts = read_ad(text, (), words).parts
    assert {part.part for part in parts if part.state == "missing"} == missing
    assert {part.part for part in parts if part.state == "bad"} == rest


@pytest.mark.parametrize("text", ["I won't consider a swap", "Not considering a trade", "Never for trade"])
def test_a_trade_that_is_denied(text):
    assert no_price(text).kind == "none"


OWN = "H52D diesel out of a loader, runs, all there, you load\n$2,400\n"


@pytest.mark.parametrize(
    "heading", ["Recently viewed: Tolvane T412, $900", "Similar near you: boat motor stand $40", "Similar listings: L20 $90"]
)
def test_other_listings_on_one_line_are_cut_off(heading):
    assert own_end(f"{OWN}{heading}\n") == len(OWN)


@pytest.mark.parametrize(
    "line", ["Recommended retail price: $4,000 new.", "Similar ones online: $5,000 and up.", "Related costs: $150"]
)
def test_a_sellers_own_line_is_not(line):
    text = f"{OWN}{line}\nNo starter. Barre VT\n"
    assert own_end(text) == len(text)


def test_free_and_nothing_is_free():
    counted = figures("FREE B440 block, bare\n$0\nPlant City, FL")
    asked = read_prices(counted.text, counted.numbers, counted.title).asked
    assert (asked.kind, asked.cents) == ("asked", 0)


@pytest.mark.parametrize(
    ("text", "town", "state"),
    [
        ("Fairmont, West Virginia, 681-555-0104", "Fairmont", "WV"), ("Fond du Lac, WI", "Fond du Lac", "WI"),
        ("8 mi. west of St. Anthony, ID", "St. Anthony", "ID"), ("Riverhead, Long Island", "Riverhead", "NY"),
        ("Located in Hamilton NZ", "Hamilton", None), ("Stands in Steinkjer, Norway", "Steinkjer", None),
        ("Chioggia (VE), Italy", "Chioggia", None), ("Twillingate, Nfld.", "Twillingate", "NL"),
    ],
)  # fmt: skip
def test_places(text, town, state):
    place = read_places(text, Taken([]), frozenset())[0]
    assert (place.town, place.state) == (town, state)


def test_a_range_of_hours_is_no_price():
    counted = figures("Hours between 4000 and 5000. Asking $900")
    assert read_prices(counted.text, counted.numbers, counted.title).asked.cents == 90_000


def test_an_answer_hoped_for_does_no_harm():
    phrase = Phrase(id="turns", say=(), ratio=0.8, denied=0.2)
    told = PhraseHit("turns", Span(3, 9), False, "turns", None, False, 0.8)
    assert _ratio(told, phrase) == 0.8
    assert _ratio(told._replace(span=Span(0, 0)), phrase) == 1.0
    assert _ratio(told._replace(span=Span(0, 0), negated=True), phrase) == 0.2


def test_two_ads_with_telephones_of_their_own_are_two():
    text = (
        "H52D motor\nKeene NH\n1800 or trade for a brush hog\nwas in a loader. has a knock when hot. phone 603 555 0144\n\n"
        "T412 Tolvane engin from a backhoe!! strong runner. 3200 obo, will not split. Located Burlington Vermont. text 555-0151\n"
    )
    assert len(ads_in(text, "")) == 2


@pytest.mark.parametrize("line", ["@ 26/11/2026 hours: 3,200", "@ price: $2,400", "@ 2026-13-45 price: $2"])
def test_a_line_meant_for_ones_own_is_told(line):
    text, cuts = without_notes(f"T412 engine\n{line}\nBarre VT\n", "ads.txt")
    assert text == "T412 engine\nBarre VT\n"
    assert cuts[0].note.line == 2


def test_a_line_of_ones_own_needs_no_blank_behind_its_mark():
    assert without_notes("T412\n@2026-11-26 price: $2,400\n", "")[1][0].note.text == "$2,400"


def test_names_are_found_in_long_texts_in_linear_time():
    names = {"h52"}
    assert len(standing_runs("h52, " * 20_000, names, {"h", "h5", "h52"})) == 20_000
