"""The same ad pasted again: known again though it changed, and two ads of one seller kept two."""

import pytest

from interchange.ads.again import Told, grouped, history
from interchange.ads.match import match
from interchange.ads.pasted import Ad, each_once
from interchange.ads.plain import clean
from interchange.ads.read import read_ad
from interchange.ads.split import ad_id

AD = (
    "Hestrel H52D loader engine\n$2,400 OBO\nBarre, VT\n"
    "Pulled when we repowered, ran fine and started well in the cold. Starter and alternator go with it, no radiator.\n"
    "I can load it with the forklift any evening after five.\nCall Wade 802-555-0114"
)
SHORT = "H52D engine $2,400\nBarre, VT"


@pytest.fixture(scope="module")
def groups(demo_store, phrases, words):
    def groups_(*pastes):
        """Ids of ads pasted as (day, text), by group; one paste a day."""
        ads = each_once([Ad(ad_id(text), text, f"{day}.txt", 1, day) for day, text in pastes])
        readings = [read_ad(ad.text, phrases, words) for ad in ads]
        ends = [reading.title.span.end if reading.title else 0 for reading in readings]
        found = match(demo_store, {ad.id: (clean(ad.text), end) for ad, end in zip(ads, ends, strict=True)})
        return grouped([Told(ad, reading, found[ad.id]) for ad, reading in zip(ads, readings, strict=True)])

    return groups_


@pytest.mark.parametrize(
    "later",
    [
        pytest.param(AD.replace("$2,400 OBO", "$1,900"), id="price changed"),
        pytest.param(AD + "\nStill here, no more questions about trades please.", id="a line added"),
        pytest.param(AD.replace("Call Wade 802-555-0114", ""), id="a line less"),
        pytest.param(
            "Home > Farm > Engines\nSaved searches\n" + AD + "\nReport this listing\nShare\nMore from this seller\nSafety tips",
            id="page round it",
        ),
        pytest.param(AD.upper(), id="capitals: the same ad"),
        pytest.param(AD.replace("in the cold", "in the cold last winter"), id="words put in"),
    ],
)
def test_pasted_again(groups, later):
    (group,) = groups(("2026-03-01", AD), ("2026-03-20", later))
    assert group[-1].ad.on == "2026-03-20"
    assert [seen.on for seen in history(group)] == ["2026-03-01", "2026-03-20"]


@pytest.mark.parametrize(
    ("one", "other"),
    [
        pytest.param(AD, AD.replace("H52D", "T412"), id="another engine"),
        pytest.param(AD, AD.replace("Barre, VT", "Keene, NH"), id="another place"),
        pytest.param(AD, AD.replace("802-555-0114", "802-555-0177"), id="another telephone"),
        pytest.param(AD + "\n4,300 hours", AD + "\n6,100 hours", id="another meter"),
        pytest.param(AD + "\nserial number 88412", AD + "\nserial number 90155", id="another serial number"),
        pytest.param(
            AD,
            "Hestrel H52D loader engine\n$900\nBarre, VT\nKnocks, sold for parts. Missing the injection pump and the pan.\n"
            "You load, weekends only.\nCall Wade 802-555-0114",
            id="other words of the same seller",
        ),
        pytest.param(SHORT, "H52D engine $1,900\nBarre, VT", id="too few words to tell"),
    ],
)
def test_two_stay_two(groups, one, other):
    assert len(groups(("2026-03-01", one), ("2026-03-20", other))) == 2


def test_two_ads_of_one_paste_stay_two(groups):
    assert len(groups(("2026-03-01", AD), ("2026-03-01", AD.replace("$2,400 OBO", "$1,900")))) == 2


@pytest.mark.parametrize(("kept", "count"), [pytest.param(30, 1, id="most of it"), pytest.param(14, 2, id="half of it")])
def test_how_much_must_agree(groups, kept, count):
    """Of 46 words after the place, the first so many stay and the rest are others."""
    head, body = AD.split("Barre, VT\n")
    words = body.split()
    others = [f"word{chr(97 + place % 26)}{chr(97 + place // 26)}" for place in range(len(words) - kept)]
    later = head + "Barre, VT\n" + " ".join(words[:kept] + others)
    assert len(groups(("2026-03-01", AD), ("2026-03-20", later))) == count


def test_history_has_every_day_and_price(groups):
    cheaper, cheapest = AD.replace("$2,400 OBO", "$2,100"), AD.replace("$2,400 OBO", "$1,900 firm")
    (group,) = groups(("2026-03-01", AD), ("2026-03-08", AD), ("2026-03-20", cheaper), ("2026-04-02", cheapest))
    assert [(seen.on, seen.cents) for seen in history(group)] == [
        ("2026-03-01", 240000), ("2026-03-08", 240000), ("2026-03-20", 210000), ("2026-04-02", 190000),
    ]  # fmt: skip
    assert group[-1].reading.price.cents == 190000


def test_the_last_one_pasted_counts_whatever_the_order(groups):
    (group,) = groups(("2026-03-20", AD.replace("$2,400 OBO", "$1,900")), ("2026-03-01", AD))
    assert group[-1].ad.on == "2026-03-20"
