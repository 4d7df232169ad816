"""Ways of asking a price, and sums that are none, as a whole ad is read."""

import pytest

from interchange.ads.read import read_ad

ASKED = [
    ("hestrel motor runs good i want twenty two hundred for it", 2200),
    ("T412 runs\n💰4500💰 or b/o", 4500),
    ("Tolvane 412\n3500\nok 3300\n3000 last price", 3000),
    ("T412 engine - $2,900\n\nwas asking 3400, now\n$2600 and thats the bottom", 2600),
    ("K425, I paid 3,200 for it, somebody give me 1,400", 1400),
    ("My nephew says I should ask 900. I'd take 650.", 650),
    ("No I won't take 800. It is a B330. Twelve hundred is the price.", 1200),
    ("BREAKING: RL90\nEngine H52D ....... 2,600\nC90 trans ........ 1,500\nCylinders ...... 250 ea", 2600),
    ("G540 trans, complete\n1,395.00    warr. 60 da.", 1395),
    ("H52G engine & trans, ran good, 1,350.-", 1350),
    ("BH3 backhoe asking 3.5", 3500),
    ("900\nor 750 if you take it friday, K425", 900),
    ("T618 $1,150 + $300 core", 1150),
    ("hestrel motor runs good eleven hundred cuba new york", 1100),
    ("H52D tractor motor, 2100 to 2400 depending", 2100),
    ("swap my running BH3 for your skid steer, or 7,500", 7500),
]


@pytest.mark.parametrize(("text", "dollars"), ASKED)
def test_asked(text, dollars, phrases, words):
    read = read_ad(text, phrases, words).price
    assert (read.kind, read.cents) == ("asked", dollars * 100)


@pytest.mark.parametrize(
    ("text", "kind"),
    [
        pytest.param("LOT 114 H52DP\nCurrent bid: $825.00 Buyer's premium 12.5%. $50 load out fee.", "none", id="bids and fees"),
        pytest.param("K425 hit me with an offer", "call", id="offers asked for"),
        pytest.param("wanna trade a good c90 for a c120, straight swap", "trade", id="a trade"),
        pytest.param("bh4 and operator 110 an hour", "rental", id="by the hour"),
        pytest.param("estate auction: H52D engine; 600 sq bales; anvils", "none", id="a count of bales"),
        pytest.param("K425 runs, serial 4500, 1800 rpm", "none", id="a serial and a speed"),
    ],
)
def test_no_sum_asked(text, kind, phrases, words):
    assert read_ad(text, phrases, words).price.kind == kind


def test_a_bid_closed_and_a_price_the_seller_takes(phrases, words):
    text = "Lot 301 T412 engine. Bidding closed at $640. Reserve not met. SELLER WILL TAKE $950."
    assert read_ad(text, phrases, words).price.cents == 95000


@pytest.mark.parametrize(
    ("dollars", "kind"), [("2,000,000", "asked"), ("2,500,000", "placeholder"), ("88,888,888", "placeholder")]
)
def test_a_sum_beyond_any_price_is_none(dollars, kind, phrases, words):
    assert read_ad(f"H52D engine ${dollars}", phrases, words).price.kind == kind


@pytest.mark.parametrize(
    ("text", "seeks"),
    [
        ("WANTED: Tolvane T412 engine, pay cash", True),
        ("GESUCHT / WANTED Motor B440", True),
        ("yo you still looking for a h52d, my uncle has one", False),
        ("WANTED TO SELL one tractor 6500.00", False),
        ("F60 forklift, nobody else wanted it", False),
    ],
)
def test_who_seeks(text, seeks, phrases, words):
    said = read_ad(text, phrases, words).said
    assert any(fact.name == "wanted" and fact.value for fact in said) == seeks


@pytest.mark.parametrize(
    ("text", "hours"),
    [
        ("H52D, 6,120 on the meter", 6120),
        ("skid loader, low hrs. (1,140), $6,750", 1140),
        ("Skarrow S28, 3.875 horas", 3875),
        ("BH4. Yard hours 8 to 5", None),
        ("engine 88 h.p.", None),
    ],
)
def test_hours_said_otherwise(text, hours, phrases, words):
    read = read_ad(text, phrases, words).hours
    assert (float(read.value) if read else None) == hours
