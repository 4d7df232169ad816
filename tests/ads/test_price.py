"""The price asked, told apart from telephones, hours, years, weights, serials and models."""

from __future__ import annotations

import pytest

from interchange.ads.read import read_ad

ASKED = [
    ("dollars and thousands", "Hestrel H52D engine $3,750 OBO", 375000, "USD", "obo"),
    ("firm", "Orrindale OD46 $1,200 firm", 120000, "USD", "firm"),
    ("price is firm, said later", "Tolvane T412 $900\nPrice is firm.", 90000, "USD", "firm"),
    ("o.b.o. with stops", "Tolvane T412 $900 o.b.o.", 90000, "USD", "obo"),
    ("k", "Brackmoor B440 long block 4k", 400000, None, None),
    ("k with a fraction", "Tolvane T412, 2.6k", 260000, None, None),
    ("dollar k", "Ostrander Vale F60 forklift $4.5k obo", 450000, "USD", "obo"),
    ("asking, no sign", "Pellworth 540 tractor asking 925", 92500, None, None),
    ("cash takes it", "Skarrow S28. 2000 cash takes it.", 200000, None, None),
    ("bare thousands before obo", "Varnhollow BH3 backhoe. 8,500 obo.", 850000, None, "obo"),
    ("shipped", "lissander l32 pump, 150 shipped", 15000, None, None),
    ("in a list of commas", "Orrindale OD46 core, 300, near Portland, ME", 30000, None, None),
    ("alone on its line", "Hestrel H52D engine\n2,400\nBarre, VT", 240000, None, None),
    ("cents", "Lissander L20 seal kit $42.50", 4250, "USD", None),
    ("dot for thousands", "Dunmarrow RL120 EUR 105.040", 10504000, "EUR", None),
    ("dot and comma", "Dunmarrow RL90 37.168,14 €", 3716814, "EUR", None),
    ("euro behind", "Dunmarrow RL90 85,734 €", 8573400, "EUR", None),
    ("pounds", "Dunmarrow RL90 £4,000", 400000, "GBP", None),
    ("Canadian", "Dunmarrow RL90 C$4,000", 400000, "CAD", None),
    ("emoji sign", "Dunmarrow RL90 💲3,000", 300000, "USD", None),
    ("beside a telephone", "RL90 $3750 Barre, VT cell 8025550123", 375000, "USD", None),
    ("beside hours and a year", "Pellworth 540 1968 3200 hrs $2,400", 240000, "USD", None),
    ("beside a weight", "Tolvane T618, 1,450 lbs, asking 600", 60000, None, None),
    ("beside a serial", "Tolvane T618 S/N 4521998, $700", 70000, "USD", None),
    ("paid more", "Pellworth 540 tractor, paid 8000, asking 2500 obo", 250000, None, "obo"),
    ("new ones cost", "Lissander L20 pump $250. New ones are $1,100.", 25000, "USD", None),
    ("and shipping", "Lissander L20 pump $250 + $40 shipping", 25000, "USD", None),
    ("and a core deposit", "Tolvane T618 $350 + core charge $200", 35000, "USD", None),
    ("markup inside", "Tolvane T412 <b>$1,950</b> firm", 195000, "USD", "firm"),
]


@pytest.mark.parametrize(("ad", "cents", "currency", "terms"), [pytest.param(*case, id=name) for name, *case in ASKED])
def test_price_asked(ad, cents, currency, terms, phrases, words):
    price = read_ad(ad, phrases, words).price
    assert (price.kind, price.cents, price.currency, price.terms) == ("asked", cents, currency, terms)


KINDS = [
    ("call for price", "Dunmarrow RL120 loader, call for price", "call"),
    ("make offer", "Skarrow S28, make offer", "call"),
    ("only obo", "Skarrow S28 OBO", "call"),
    ("trade", "Skarrow S28 will trade for hay", "trade"),
    ("call before trade", "OD60 diesel. Call for price. Will trade.", "call"),
    ("no trades", "Skarrow S28, no trades", "none"),
    ("1", "Skarrow S28 $1", "placeholder"),
    ("0", "Pellworth 620 tractor $0", "placeholder"),
    ("1234", "Skarrow S28 price 1234", "placeholder"),
    ("12345", "Dunmarrow RL90 $12345", "placeholder"),
    ("99999", "Dunmarrow RL90 $99,999", "placeholder"),
    ("a placeholder gives way", "Dunmarrow RL90 $1\nasking 2800", "asked"),
    ("by the hour", "RL90 loader $45 per hour", "rental"),
    ("by the hour, euro", "RL90 EUR 38,40 /h", "rental"),
    ("nothing", "Hestrel H52D engine", "none"),
    ("telephone only", "engine 802-555-0143", "none"),
    ("short telephone", "Hestrel H52D engine 555-0143", "none"),
    ("hours only", "Dunmarrow RL90 6.250 h 1998", "none"),
    ("model number", "Pellworth 540 tractor for 620 owners", "none"),
    ("weight", "Hestrel H52D core weighs 900 lb", "none"),
    ("zip", "Hestrel H52D engine\n05641", "none"),
    ("what a wanted ad pays", "Wanted: H52D head. Will pay $400", "none"),
    ("free haul is no price", "Pellworth 540, free delivery", "none"),
]


@pytest.mark.parametrize(("ad", "kind"), [pytest.param(*case, id=name) for name, *case in KINDS])
def test_kind_of_price(ad, kind, phrases, words):
    assert read_ad(ad, phrases, words).price.kind == kind


@pytest.mark.parametrize(
    ("ad", "now", "was"),
    [
        pytest.param("T618 was 5200 now 4600", 460000, 520000, id="was and now"),
        pytest.param("Tolvane T618 $4,600 (was $5,200)", 460000, 520000, id="in brackets"),
        pytest.param("540 tractor price drop $2,000 reduced from $2,500", 200000, 250000, id="reduced from"),
        pytest.param("Price was $6,000, reduced to $5,200.", 520000, 600000, id="reduced to"),
        pytest.param("$3,750\n$4,500\nDunmarrow RL90", 375000, 450000, id="struck out on a listing page"),
    ],
)
def test_old_price(ad, now, was, phrases, words):
    reading = read_ad(ad, phrases, words)
    assert (reading.price.cents, reading.was_price and reading.was_price.cents) == (now, was)


def test_a_range_keeps_both_ends(phrases, words):
    price = read_ad("Hestrel H52D engine $800-1000", phrases, words).price
    assert (price.cents, price.cents_to, price.text) == (80000, 100000, "$800-1000")


def test_a_range_of_thousands(phrases, words):
    price = read_ad("Hestrel H78E engine, 6-7k", phrases, words).price
    assert (price.cents, price.cents_to, price.text) == (600000, 700000, "6-7k")


def test_two_for_a_price(phrases, words):
    price = read_ad("Two Kestavik K425 motors, 2 for 900", phrases, words).price
    assert (price.cents, price.for_count) == (90000, 2)


def test_several_prices_are_all_kept_and_doubted(phrases, words):
    reading = read_ad("Hestrel H52D head $300 firm. Also injectors $40 each, injection pump $250", phrases, words)
    assert reading.price.cents == 30000
    assert [(one.cents, one.each) for one in reading.other_prices] == [(4000, True), (25000, False)]
    assert reading.price.certainty < 0.9
    assert "3 prices" in reading.price.note


def test_no_currency_is_none_and_a_sign_is_surer(phrases, words):
    bare = read_ad("Pellworth 540 tractor asking 925", phrases, words).price
    signed = read_ad("Pellworth 540 tractor $925", phrases, words).price
    assert bare.currency is None
    assert bare.certainty < signed.certainty


def test_a_hundred_may_be_a_stand_in(phrases, words):
    price = read_ad("Dunmarrow RL90 loader $100", phrases, words).price
    assert (price.kind, price.certainty, price.note) == ("asked", 0.5, "may be a stand-in for a price")
