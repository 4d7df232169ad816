"""Who seeks and who sells."""

import pytest

from interchange.ads.seeking import seeks

SEEKS = [
    "ISO T412 engine, up to 1500", "looking for a T412 motor in Ohio", "anybody got a T412 laying around?",
    "need a T412 motor, can pay 1200", "WTB T412 engine $1200", "in search of: T412",
    "does anyone have a T412 engine? I have 900 cash",
    "Wanted: T412 engine", "WANTED TO BUY T412 motor 1,000", "I am in need of a T412 engine", "searching for a good T412",
    "who has a T412 for sale", "trying to find a T412 motor for my backhoe, budget 1500", "will pay 900 for a good T412",
    "Cash paid for T412 cores", "Buying T412 engines, any condition", "Hi im after a T412",
    "Request: T412 engine wanted, max 1200",
    "LF T412 motor", "need: T412 head", "hoping someone has a T412 they would sell", "Type: Wanted\nItem: T412",
    "Anyone parting out a BH3? need the pump", "seeking T412 engine", "GESUCHT: T412 Motor",
]  # fmt: skip
SELLS = [
    "FS C120 trans $2200, ISO C90", "T412 engine, no longer need it 900", "selling my T412, looking for a K425, 1400",
    "T412 motor 900. Also looking for a good hay rake", "For sale T412, wanted 1500 will take 1200", "WANTED TO SELL ONE TRACTOR",
    "nobody wanted it so T412 now 700", "T412 engine need gone 800", "If you are looking for a T412 this is it. $1400",
    "Anyone need a T412? 1400", "Looking for between 1000 and 1200 for the B220", "Need to sell my B220. It's $1050",
    "FT: axle 4.56. Looking for same axle in 4.10", "Are you still looking for one? I have a T412",
]  # fmt: skip


@pytest.mark.parametrize("text", SEEKS)
def test_the_writer_seeks(text):
    span = seeks(text)
    assert span is not None
    assert text[span.start : span.end].strip()


@pytest.mark.parametrize("text", SELLS)
def test_the_writer_sells(text):
    assert seeks(text) is None


def test_what_seeks_asks_no_price(phrases, words):
    from interchange.ads.read import read_ad

    read = read_ad("ISO T412 engine, up to $1,500", phrases, words)
    assert read.price.kind == "none"
    assert [fact.text for fact in read.said if fact.name == "wanted"] == ["ISO"]
