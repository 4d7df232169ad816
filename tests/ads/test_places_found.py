"""Where an ad stands, read and looked up in the list of places: how people write it, and what only looks like it."""

import pytest

from interchange.ads.read import read_ad
from interchange.haul.atlas import atlas
from interchange.haul.places import Place, StateOnly
from interchange.money.placed import placed


@pytest.fixture(scope="module")
def places(tmp_path_factory):
    with pytest.MonkeyPatch.context() as patch:
        patch.setenv("INTERCHANGE_CACHE", str(tmp_path_factory.mktemp("cache")))
        yield atlas()


STANDS = [
    ("T412 engine, runs. Contact Ramon 707-555-0127", (None, None, None)),
    ("T412 engine, runs. Ask for Dale 402-555-0127", (None, None, None)),
    ("T412 engine $900. Call Everett 425-555-0127", ("Everett", "WA", None)),
    ("OD46 engine, $900, Otto, 828-555-0127", ("Otto", "NC", None)),
    ("OD46 engine, $900, Otto, 707-555-0127", (None, None, None)),
    ("L32 pump, $250. Talk to Marion at the counter", (None, None, None)),
    ("T618 long block 1200 obo Turlock 95380", ("Turlock", "CA", "95380")),
    ("T618 long block 1200 obo (Turlock 95380)", ("Turlock", "CA", "95380")),
    ("T618 long block 1200 obo turlock 95380", ("Turlock", "CA", "95380")),
    ("T618 long block 1200 obo, serial 95380", (None, None, None)),
    ("Yakima, Washington (98901) K425 engine 2600", ("Yakima", "WA", "98901")),
    ("H52D engine, Meadville (PA), 900", ("Meadville", "PA", None)),
    ("H52D engine. City: Wooster. State: OH. $900", ("Wooster", "OH", None)),
    ("H52D engine\nCity: Wooster\nState: Ohio\n$900", ("Wooster", "OH", None)),
    ("H52D engine off Route 9 in Keene, NH. 900", ("Keene", "NH", None)),
    ("H52D engine just off Hwy 14 near Brookings SD", ("Brookings", "SD", None)),
    ("H52D engine. Wenatchee area. 900", ("Wenatchee", "WA", None)),
    ("H52D engine, 900, wenatchee area", ("Wenatchee", "WA", None)),
    ("H52D engine. I'm just outside Wenatchee. 900", ("Wenatchee", "WA", None)),
    ("H52D engine. Between Wooster and Ashland, Ohio. 900", ("Wooster", "OH", None)),
    ("H52D engine, Hood River, Oregon", ("Hood River", "OR", None)),
    ("H52D engine, hood river oregon", ("Hood River", "OR", None)),
    ("RL90 loader, Plant City, FL $9000", ("Plant City", "FL", None)),
    ("RL90 loader, Gas City, Indiana $9000", ("Gas City", "IN", None)),
    ("RL90 loader $9000 Belt, MT", ("Belt", "MT", None)),
    ("B440 pump. We live in Boonville, Anderson Valley, Mendocino County, California", ("Boonville", "CA", None)),
    ("B440 pump in Wayne County, Ohio. 300", ("Wayne County", "OH", None)),
    ("B440 pump. Orrville, Wayne County, Ohio. 300", ("Orrville", "OH", None)),
    ("C90 gearbox 900. Emmeloord (NL). 500 EUR", ("Emmeloord", None, None)),
    ("C90 gearbox 900 €, Standort 26871 Papenburg", ("Papenburg", None, None)),
    ("C90 gearbox € 1.750,- excl. BTW. Coevorden. Viewing on appointment", ("Coevorden", None, None)),
    ("C90 gearbox £900 + VAT. Nr Ludlow, Shropshire, England", ("Ludlow", None, None)),
    ("C90 gearbox £900. Collection from Tavistock only", ("Tavistock", None, None)),
    ("C90 gearbox £900 ono. Ring Dave on 555 0100. Skipton", ("Skipton", None, None)),
    ("C90 gearbox 900 €. à retirer à Limoges (87)", ("Limoges", None, None)),
    ("C90 Getriebe 900 €. Abholung in 49377 Vechta", ("Vechta", None, None)),
    ("C90 gearbox AU$900. Located Wagga Wagga NSW.", ("Wagga Wagga", "NSW", None)),
    ("C90 gearbox AU$900. Dubbo, New South Wales", ("Dubbo", "NSW", None)),
    ("C90 gearbox AU$900. Pick up Perth WA", ("Perth", "WA", None)),
    ("C90 gearbox NZ$900. Ashburton, Canterbury", ("Ashburton", None, None)),
    ("C90 gearbox 900 EUR. Müller Landtechnik GmbH, Graz, Austria", ("Graz", None, None)),
    ("C90 gearbox 900 EUR. Hauge Maskin, Bryne, Rogaland, Norway", ("Bryne", None, None)),
    ("C90 gearbox 9 000 SEK. Finns i Östersund", ("Östersund", None, None)),
    ("C90 gearbox 9 000 PLN. Lokalizacja: Radom", ("Radom", None, None)),
    ("C90 gearbox 900 EUR. Ships from Venlo", ("Venlo", None, None)),
    ("Bore gauge: T412 engine bought from the dealer in Santa Rosa. Now in Ukiah, CA", ("Ukiah", "CA", None)),
    ("T412 engine 900, it came off a job in Reno, NV. I am in Susanville, CA", ("Susanville", "CA", None)),
    ("T412 engine 900 beaver falls pa 724 555 0156", ("Beaver Falls", "PA", None)),
    ("T412 engine 900, enid ok", ("Enid", "OK", None)),
    ("T412 engine 900, runs ok", (None, None, None)),
    ("T412 engine 900, text or call me", (None, None, None)),
    ("T412 engine, trade in ok", (None, None, None)),
    ("T412 engine 900, Goshen Ind.", ("Goshen", "IN", None)),
    ("T412 engine 900, Ellsworth Me.", ("Ellsworth", "ME", None)),
    ("T412 engine, Evansville IN plant closing, 900", ("Evansville", "IN", None)),
    ("T412 engine 900 wheeling wv by the stamping plant", ("Wheeling", "WV", None)),
    ("Dale H: T412 1850\nCody: where you at\nDale H: ashtabula, behind the tire place", ("Ashtabula", "OH", None)),
    ("T412 engine 900.\nThanks,\nLamar", (None, None, None)),
    ("T412 engine 900.\nRegards, Melissa", (None, None, None)),
    ("T412 engine 900. Jimmy Walsh built it. Pat Renner", (None, None, None)),
    ("T412 engine 900. Good condition. Price firm. Check availability", (None, None, None)),
    ("T412 engine. Exchange 900", (None, None, None)),
    ("[FS][US-VA] T412 engine 900. local Culpeper", ("Culpeper", "VA", None)),
    ("[H] T412 engine [W] cash [OR] Bend", ("Bend", "OR", None)),
    ("WTS: T412 engine, Bend OR, $900", ("Bend", "OR", None)),
    ("T412 engine 900 / Bend, OR / text only", ("Bend", "OR", None)),
    ("T412 engine 900 - Chico CA 95926 - call", ("Chico", "CA", "95926")),
    ("T412 engine 900. 95926 Chico", ("Chico", "CA", "95926")),
    ("T412 engine 900. We are located 10 miles west of Chico, CA 95926", ("Chico", "CA", "95926")),
    ("T412 engine 900 can deliver to Chico. Located in Yreka, CA", ("Yreka", "CA", None)),
    ("T412 engine 900. Item location: Yreka, California, United States", ("Yreka", "CA", None)),
    ("T412 engine 900. Yreka, California, USA", ("Yreka", "CA", None)),
    ("T412 engine 900 C$. Rimouski, Québec", ("Rimouski", "QC", None)),
    ("T412 engine 900 CAD. Moose Jaw, Sask.", ("Moose Jaw", "SK", None)),
    ("T412 engine 900 CAD. Lethbridge Alberta", ("Lethbridge", "AB", None)),
    ("T412 engine 900. Yreka, Calif.", ("Yreka", "CA", None)),
    ("T412 engine 900. Miles City, Mont. 59301", ("Miles City", "MT", "59301")),
    ("T412 engine 900. Mt. Vernon, Wash.", ("Mount Vernon", "WA", None)),
    ("T412 engine 900. Ft Collins", ("Fort Collins", "CO", None)),
    ("T412 engine 900. N. Platte, Nebr.", ("North Platte", "NE", None)),
    ("T412 engine 900. See it at the Gallup yard.", ("Gallup", "NM", None)),
    ("T412 engine 900. Price, Utah is where it sits.", ("Price", "UT", None)),
    ("T412 engine 900 sits in Price, Utah right now", ("Price", "UT", None)),
    ("T412 engine 900 KALISPELL MT", ("Kalispell", "MT", None)),
    ("T412 ENGINE 900 HOOD RIVER OREGON", ("Hood River", "OR", None)),
    ("T412 ENGINE RUNS OK NEEDS PUMP 900", (None, None, None)),
    ("T412 engine 900, meet at the Love's in Ellensburg", ("Ellensburg", "WA", None)),
    ("T412 engine 900. Ships from Kalispell", ("Kalispell", "MT", None)),
    ("T412 engine 900. FOB Kalispell", ("Kalispell", "MT", None)),
    ("T412 engine 900. Kalispell, Montana 59901 (406) 555-0122", ("Kalispell", "MT", "59901")),
    ("T412 engine 900. P.O. Box 95380. Turlock, CA", ("Turlock", "CA", None)),
    ("T412 engine 900, 1420 Main St, Turlock, CA 95380", ("Turlock", "CA", "95380")),
    ("T412 engine 900, 1420 County Road 12, Turlock CA", ("Turlock", "CA", None)),
    ("T412 engine 900. southeast Iowa", (None, "IA", None)),
    ("T412 engine 900. Northwest Kansas near Colby", ("Colby", "KS", None)),
    ("T412 engine 900. Colby, in northwest Kansas", ("Colby", "KS", None)),
    ("T412 engine 900. Upstate NY, near Malone", ("Malone", "NY", None)),
    ("T412 engine 900. Malone, upstate New York", ("Malone", "NY", None)),
    ("T412 engine 900. 30 min from Colby KS", ("Colby", "KS", None)),
    ("Hi, it's Roy from Baraga. T412 engine, 900", ("Baraga", "MI", None)),
    ("T412 engine 900. Prince George, B.C.", ("Prince George", "BC", None)),
    ("T412 engine 900 EUR. Lars, Vaxjo, Sweden", ("Vaxjo", None, None)),
    ("T412 engine 900. Delivery within 50 miles of Colby KS", ("Colby", "KS", None)),
]


@pytest.mark.parametrize(("text", "place"), STANDS)
def test_where_it_stands(places, text, place, words, phrases):
    read, found = placed(places, read_ad(text, phrases, words))
    town, state = (read.town, read.state) if read else (None, None)
    if isinstance(found, Place):
        town, state = found.name, found.state
    elif isinstance(found, StateOnly):
        town, state = None, found.state
    assert (town, state, read.zip if read else None) == place


ALSO = [
    ("T412 engine 900. Ruston La just off I-20", ("Ruston", "LA", None)),
    ("T412 engine 900. OKC", ("Oklahoma City", "OK", None)),
    ("T412 engine 900. I bought it in Eunice, never again. I'm in Opelousas. Louisiana.", ("Opelousas", "LA", None)),
    ("West Central Tx Farm Stuff (group)\nCoy: T412 engine 900. Its at Brady", ("Brady", "TX", None)),
    ("T412 engine 900. Yankton S Dak", ("Yankton", "SD", None)),
    ("Selling engines out of grain trucks, 400 each. Watertown SD", ("Watertown", "SD", None)),
    ("T412 engine 900. Winnipeg, Man.", ("Winnipeg", "MB", None)),
    ("T412 engine 900, from the old man. Call me", (None, None, None)),
    ("T412 engine £900. Boston, Lincs.", ("Boston", None, None)),
    ("T412 engine €900 ono.\nBallinasloe, Co. Galway", ("Ballinasloe", None, None)),
    ("T412 Motor, VB 450,-\nAbholung in Leer", ("Leer", None, None)),
    ("T412 engine 900, sits above Happy Camp. 530-555-0185", ("Happy Camp", "CA", None)),
    ("T412 engine NZ$450. At Matamata. See Ross", ("Matamata", None, None)),
    ("T412 engine 900. Foothill Tractor, Sonora, California", ("Sonora", "CA", None)),
    ("T412 engine 900. Sonora, CA", ("Sonora", "CA", None)),
    ("T412 engine 900. It sits at the Gallup shop, complete", ("Gallup", "NM", None)),
    ("T412 engine 900 EUR. Outside EU no VAT. Coevorden.", ("Coevorden", None, None)),
    ("T412 engine R27 500 onco. Kroonstad", ("Kroonstad", None, None)),
]


@pytest.mark.parametrize(("text", "place"), ALSO)
def test_where_it_stands_too(places, text, place, words, phrases):
    test_where_it_stands(places, text, place, words, phrases)
