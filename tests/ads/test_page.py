"""Where a listing's own words end on a page that was copied whole."""

import pytest

from interchange.ads.page import own, own_end
from interchange.ads.split import split

LISTING = (
    "Tolvane T412 engine, complete\n$1,450\nBarre, VT 05641\nRan when pulled, oil was clean, no radiator. Call 802-555-0143.\n"
)


@pytest.mark.parametrize(
    "heading",
    [
        "Similar listings",
        "You may also like",
        "YOU MIGHT ALSO LIKE",
        "Others looked at",
        "People also viewed",
        "More from this seller",
        "Seller's other ads",
        "Nearby ads",
        "Recommended items",
        "Sponsored",
        "★ Related ads ★",
        "Customers also viewed",
    ],
)
def test_other_listings_are_cut_off(heading):
    text = f"{LISTING}\n{heading}\nHestrel H52D loader engine $2,950 Keene\nPellworth 540 $5,600 Lima\n"
    assert text[: own_end(text)].strip() == LISTING.strip()
    assert len(own(text)) == len(text)
    assert "H52D" not in own(text)


@pytest.mark.parametrize(
    "text",
    [
        pytest.param(LISTING, id="no heading"),
        pytest.param("Similar listings\n" + LISTING, id="nothing of its own before"),
        pytest.param(LISTING + "Similar engines sell for twice that.\n", id="a sentence"),
        pytest.param(LISTING + "You may also like the pump I have for it.\nAsk about it.\n", id="an offer with no sum"),
        pytest.param(LISTING + "Similar listings\nSee all\n", id="no sums under it"),
    ],
)
def test_nothing_is_cut_off(text):
    assert own(text) == text


def test_listings_under_a_heading_are_ads_of_their_own():
    text = f"{LISTING}\nSimilar listings\nHestrel H52D loader engine $2,950 Keene NH\nPellworth 540 tractor $5,600 Lima OH\n"
    pieces = split(text)
    assert pieces[0].text.startswith("Tolvane T412")
    assert "H52D" not in pieces[0].text
    assert any("H52D" in piece.text for piece in pieces[1:])


@pytest.mark.parametrize(
    "text",
    [
        pytest.param(
            "PARTING OUT an RL90 loader, Willits CA\n\nEngine H52D $2,400\nbucket too\n\nCall 707-555-0184\n",
            id="a heading, a list",
        ),
        pytest.param(
            "BENCH ROAD SALVAGE\nRed Bluff, CA 96080  530-555-0100\n\nEngine, Tolvane T412\nPrice: $1,895\n", id="a letterhead"
        ),
        pytest.param(
            "Tolvane T618, industrial\n$2,300\n\nCame off a chipper. Complete motor.\n\n530-555-0168\n", id="price on top"
        ),
    ],
)
def test_an_ad_with_one_price_is_one_ad(text):
    assert len(split(text)) == 1
