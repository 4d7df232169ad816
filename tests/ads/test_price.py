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
    ("a sum that is its own sentence", "K425 runs great. 1400. or trade for quad. Minot", 140000, None, None),
    ("after hours with no pause", "T412 engine 76 hp 3400 hrs 1650", 165000, None, None),
    ("dollars of New Zealand", "BH4 digger, tidy. $24,000 NZ", 2400000, "NZD", None),
    ("dollars said to be Canadian", "B440 engine, he says 600 dollars canadian", 60000, "CAD", None),
    ("Aussie dollars", "C120 transmission. 3,300 Aussie dollars.", 330000, "AUD", None),
    ("can is a verb", "C90 gearbox $500 can deliver", 50000, "USD", None),
    ("kronor with a blank", "OD60 engine complete. 28 000 kronor. Växjö", 2800000, "SEK", None),
    ("kr. in Denmark", "K425 engine, from a sweeper. 19.500 kr. Viborg, Denmark", 1950000, "DKK", None),
    ("kroner in Norway", "Selger B440 motor. 22.000 kroner. Hamar, Norge", 2200000, "NOK", None),
    ("pesos behind a dollar sign", "OD60 engine, runs. $48,000 pesos", 4800000, "MXN", None),
    ("zloty before", "Selling gearbox C120, zł 9 500", 950000, "PLN", None),
    ("thousands said thou", "OD60 engine in a crate. Wants 9 thou for it.", 900000, None, None),
    ("thousand and hundred in figures", "Pellworth 620 tractor. Executor says 5 thousand 4 hundred.", 540000, None, None),
    ("Canadian after the number", "Pellworth 540 $900 CAD", 90000, "CAD", None),
    ("currency in another place", "Engine: T412\nPrice: 265,00\nCurrency: EUR", 26500, "EUR", None),
    ("Canadian funds", "T412 $900, prices in Canadian", 90000, "CAD", None),
    ("two currencies settle nothing", "T412 $900, CAD or US ok", 90000, "USD", None),
    ("asked, and would take less", "Ask. $800 / take 600, T412 engine", 80000, "USD", "obo"),
    ("lowest I would go", "T412. The lowest I would go is 1,400, though I started at 1,900.", 140000, None, None),
    ("offers over", "T412 engine. Will consider offers over 1200", 120000, None, None),
    ("exchange before outright", "T618, $3,150 exch. $3,750 outright", 315000, "USD", None),
    ("postage", "I would be happy with 200 for the L20. I can mail it for about 45 dollars.", 20000, None, None),
    ("by the roll", "hay $40/roll, RL90 loader $7,500", 750000, "USD", None),
    ("the same as was paid", "I paid $500 for the B330 and I am asking the same", 50000, "USD", None),
    ("set right in brackets", "T412 $75000\n(that's 750 and no/100)", 75000, None, None),
    ("first of a list on one line", "H52D $2,400 / C90 $1,100 FIRM / L20 $175 EA", 240000, "USD", "firm"),
    (
        "said by the seller",
        "Ray: b440, got a tin pan\nLou: how much\nRay: 1500\nLou: id do 1100\nRay: no 1500",
        150000,
        None,
        None,
    ),
    ("under a post", "would sell for 300\n\nComments\nRon: i'd go 200\nOP: 300", 30000, None, None),
    (
        "the last of a talk",
        "Is the motor still available\nYes\nHow much\n1900\nWould you do 1500\n1700 meet me",
        170000,
        None,
        None,
    ),
    ("hours asked for in a talk", "BH3 6 GRAND\n\nComments\nEd: hours?\nOP: 6250", 600000, None, None),
    ("labels are no speakers", "Engine: T412\nHours: 3905\nPrice: 2,600\nPlace: Utica", 260000, None, None),
    ("columns", "item,hours,price,place\nT412 engine,4100,1850,Minot ND", 185000, None, None),
    ("heard", "B440, sell for for teen hundred", 140000, None, None),
    ("spaced type", "T 4 1 2 , a s k i n g 2 , 4 0 0", 240000, None, None),
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
    ("for rent", "Skid steer for rent - $95", "rental"),
    ("hire by label", "Skarrow S28\nHire, 4 h: $140\nDeposit: $300", "rental"),
    ("rent and sale", "RL90 was a rental, for sale, $9,500", "asked"),
    ("trade only", "$1\nBrackmoor B440 motor. Trade only, no cash", "trade"),
    ("straight across", "WTT: Skarrow S28, straight across", "trade"),
    ("a number by message", "L20 pump, pm me a number", "call"),
    ("dollars by call", "T618 ENG ..... $ CALL", "call"),
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
        pytest.param("K438 $1500 now 1250", 125000, 150000, id="now, with no was"),
        pytest.param("$3,750\n$4,500\nDunmarrow RL90", 375000, 450000, id="struck out on a listing page"),
    ],
)
def test_old_price(ad, now, was, phrases, words):
    reading = read_ad(ad, phrases, words)
    assert (reading.price.cents, reading.was_price and reading.was_price.cents) == (now, was)


def test_a_range_keeps_both_ends(phrases, words):
    price = read_ad("Hestrel H52D engine $800-1000", phrases, words).price
    assert (price.cents, price.cents_to, price.text) == (80000, 100000, "$800-1000")


@pytest.mark.parametrize(
    ("ad", "low", "high"),
    [
        pytest.param("T412 cores 300-500 depending", 30000, 50000, id="bare"),
        pytest.param("T412, thinking eleven or twelve hundred", 110000, 120000, id="spoken"),
        pytest.param("T412, asking 1,100 or 1,200 delivered", 110000, None, id="two ways to buy"),
        pytest.param("T412 900-1050 hp boats", None, None, id="of horsepower"),
    ],
)
def test_ranges_with_no_sign(ad, low, high, phrases, words):
    price = read_ad(ad, phrases, words).price
    assert (price.cents, price.cents_to) == (low, high)


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
