"""Score the reader and the matcher on the labelled ads of tests/data/ads, field by field.

Ads for tuning and those held out are counted apart. `--show FIELD` lists the misses of the tuning ads; those of the held-out
ads are never shown, so that nobody tunes on them. What the labels mean stands in tests/data/ads/README.md.

A field is compared as the program goes on to use it. A place is looked up first. An offer that an ad does not tell is taken
to be what is usual, as `rank` does: a complete unit, a machine; `offer word` compares the word alone. What is sold is the
form `rank` would give the largest share, whichever seat it is asked for; `first` counts the ads that have it in the catalog,
`refused` those that have not and for which the program names nothing.
"""

from __future__ import annotations

import argparse
import json
import sys
import tempfile
from collections import Counter
from collections.abc import Callable, Iterator
from functools import cache
from pathlib import Path
from typing import TYPE_CHECKING, Any, NamedTuple

ROOT = Path(__file__).resolve().parent.parent
sys.path.insert(0, str(ROOT))

from interchange.ads.learned import WEIGHTS  # noqa: E402 - the path above is for a checkout that is not installed
from interchange.ads.match import MACHINES, UNITS  # noqa: E402
from interchange.ads.offer_kind import MACHINE_DEFAULT, PARTED_OUT, UNIT_DEFAULT, is_machine  # noqa: E402
from interchange.ads.pasted import Ad, ads_in  # noqa: E402
from interchange.ads.reads import Read, ad_words, matched  # noqa: E402
from interchange.ads.shelf import read_new  # noqa: E402
from interchange.haul.atlas import atlas  # noqa: E402
from interchange.haul.place_text import town_key  # noqa: E402
from interchange.haul.places import Place, StateOnly  # noqa: E402
from interchange.money.placed import placed  # noqa: E402
from interchange.money.rank import candidates_of  # noqa: E402
from interchange.opening import Bar, open_setting  # noqa: E402
from interchange.store.stamp import digest  # noqa: E402

if TYPE_CHECKING:
    from interchange.fit.setting import DeadSeat

ADS = ROOT / "tests" / "data" / "ads"
HOME = ROOT / "catalog" / "demo" / "home.yaml"
SHOWN = 0.95  # a form with this share of its unit is taken to be shown by the words
# A seat of each kind, to ask for what an ad may be; every seat of the demo gives the same names.
JOB = """title: every kind
machine: dunmarrow-rl120
dead:
  engine: {unit: orrindale-od46.converter, broke: knocks, usable: []}
  pump: {unit: lissander-l32.fifteen-tooth, broke: leaks, usable: []}
  gearbox: {unit: dunmarrow-c120, broke: slips, usable: []}
  front_axle: {unit: dunmarrow-x90.roading, broke: leaks, usable: []}
"""


# What a label that is left out stands for.
USUAL: dict[str, Any] = {
    "price": None, "price_to": None, "currency": "USD", "terms": None, "each": False, "count": 1, "town": None,
    "state": None, "zip": None, "away_mi": None, "offer": None, "variant": None, "hours": None, "hours_doubted": False,
    "weight_lb": None, "note": "", "held_out": False,
}  # fmt: skip
MADE_OF = WEIGHTS / "made_of.txt"
HELD_OUT_WRITERS = ("northern_plains", "northeast", "ozarks", "tidewater", "bluegrass", "piedmont", "high_plains", "harbor")
TUNING, WRITERS, STYLES = "tuning", "held-out writers", "held-out styles"


class Labelled(NamedTuple):
    """An ad with what a person reads in it."""

    style: str
    label: dict[str, Any]

    @property
    def held_out(self) -> bool:
        """Whether it is kept from tuning."""
        return bool(self.label.get("held_out"))

    @property
    def group(self) -> str:
        """Tuning; held out with its whole writer; or held out of a style whose other ads are for tuning."""
        return TUNING if not self.held_out else WRITERS if self.style in HELD_OUT_WRITERS else STYLES


class Outcome(NamedTuple):
    """One field of one ad: what a person reads and what the program does."""

    ad: Labelled
    field: str
    want: object
    have: object
    right: bool


def labelled_ads() -> Iterator[Labelled]:
    """Every labelled ad, style by style."""
    import yaml

    for path in sorted(ADS.glob("*.yaml")):
        for label in yaml.safe_load(path.read_text(encoding="utf-8")):
            yield Labelled(path.stem, USUAL | label)


def for_learning() -> list[tuple[str, dict[str, Any]]]:
    """Every labelled ad that is not held out, with its writer; some of the short ones say the price alone, or the offer."""
    import yaml

    return [
        (path.stem, USUAL | label)
        for path in sorted(ADS.parent.glob("*ads/*.yaml"))
        for label in yaml.safe_load(path.read_text(encoding="utf-8"))
        if not label.get("held_out")
    ]


def made_of(ads: list[tuple[str, dict[str, Any]]]) -> str:
    """A digest of labelled ads: weights learned from others than there are have another."""
    return digest(json.dumps(ads, sort_keys=True).encode())


@cache
def seats() -> dict[str, DeadSeat]:
    """A dead seat of every kind the ads are about, by its kind."""
    folder = Path(tempfile.mkdtemp())
    (folder / "job.yaml").write_text(JOB, encoding="utf-8")
    with Bar() as bar:
        setting, _ = open_setting(folder, HOME, bar)
    found = [setting.seat(name) for name in setting.job.dead]
    return {seat.case.kind.id: seat for seat in found}


def all_read(ads: list[Labelled]) -> list[Read]:
    """The ads read and matched by the program, in order."""
    library = next(iter(seats().values())).setting.library
    read = read_new([Ad(str(i), ad.label["text"], ad.style, 1, "") for i, ad in enumerate(ads)], ad_words(library))
    return matched(library, read)


def kind_sold(read: Read) -> str | None:
    """`machine`, `part`, or the kind of unit for sale."""
    subject, is_a = read.reading.subject, read.reading.subject_is
    if is_machine(read.reading):
        return "machine"
    if subject is not None and subject.value == "part":
        return "part"
    if is_a is not None and is_a.value in seats():
        return str(is_a.value)
    library = next(iter(seats().values())).setting.library
    return next((library.unit(hit.name.id)[1].kind for hit in read.matched.of(UNITS)), None)


def first_place(read: Read) -> tuple[str | None, str | None]:
    """What is sold by its id in the catalog, and its form where that is shown."""
    kind = kind_sold(read)
    if kind in seats():
        candidates, _ = candidates_of(read, seats()[kind])
        shares: Counter[str] = Counter()
        for one in candidates:
            shares[one.form.unit] += one.share
        if not shares:
            return None, None
        unit = max(shares, key=lambda name: shares[name])
        form = max((one for one in candidates if one.form.unit == unit), key=lambda one: one.share)
        return unit, form.form.variant if form.form.variant and form.share >= SHOWN * shares[unit] else None
    rooms = (MACHINES,) if kind == "machine" else (UNITS, MACHINES)
    hit = next((hit for room in rooms for hit in read.matched.of(room)), None)
    return (hit.name.id, None) if hit else (None, None)


def place_of(read: Read) -> tuple[str | None, str | None, str | None, float | None]:
    """Town (by its key), state, ZIP and miles away, looked up as `rank` looks it up."""
    place, found = placed(atlas_open(), read.reading)
    if place is None:
        return None, None, None, None
    town, state = place.town, place.state
    if isinstance(found, Place):
        town, state = found.name, found.state
    elif isinstance(found, StateOnly):
        town, state = None, found.state
    return town_key(town) if town else None, state, place.zip, place.away_mi


@cache
def atlas_open() -> Any:  # noqa: ANN401 - a connection; duckdb is not imported here
    return atlas()


def offer_of(read: Read) -> str | None:
    """The word read for the offer."""
    if any(fact.name == "wanted" and fact.value is True for fact in read.reading.said):
        return "wanted"
    word = str(read.reading.offer.value) if read.reading.offer else None
    return PARTED_OUT if word == "part" and is_machine(read.reading) else word


def outcomes(ad: Labelled, read: Read) -> Iterator[Outcome]:
    """Every field of one ad that can be counted."""
    label, price = ad.label, read.reading.price
    asked = price.kind in ("asked", "rental")
    amount = price.cents / 100 if asked and price.cents is not None else None
    upper = price.cents_to / 100 if asked and price.cents_to is not None else None
    town, state, zip_code, away = place_of(read)
    kind, (first, form) = kind_sold(read), first_place(read)
    word = offer_of(read)
    usual = MACHINE_DEFAULT if label["subject"] == "machine" else UNIT_DEFAULT
    mine = MACHINE_DEFAULT if kind == "machine" else UNIT_DEFAULT
    currency = (price.currency or "USD") if amount is not None else label["currency"]
    want_town = town_key(label["town"]) if label["town"] else None
    hours = read.reading.hours
    pairs: dict[str, tuple[object, object]] = {
        "price kind": (label["kind"], price.kind),
        "price amount": ((label["price"], label["price_to"]), (amount, upper)),
        "price currency": (label["currency"], currency),
        "price terms": (label["terms"], price.terms),
        "price each, count": ((label["each"], label.get("count", 1)), (price.each, price.for_count)),
        "town": (want_town, town),
        "state": (label["state"], state),
        "zip": (label["zip"], zip_code),
        "away": (label["away_mi"], away),
        "offer": (label["offer"] or usual, word or mine),
        "offer word": (label["offer"], word),
        "subject": (label["subject"], kind or "other"),
        "hours": (label["hours"], float(hours.value) if hours else None),
    }
    if label["is"]:
        pairs["first"] = (label["is"][0], first)
        if label["subject"] != "machine":
            pairs["form"] = (label["variant"], form)
    else:
        pairs["refused"] = (None, first)
    for field, (want, have) in pairs.items():
        yield Outcome(ad, field, want, have, want == have)
    for whole, parts in (("price", ("price kind", "price amount", "price currency")), ("place", ("town", "state", "zip"))):
        want, have = (tuple(pairs[part][i] for part in parts) for i in (0, 1))
        yield Outcome(ad, whole, want, have, want == have)
    pieces = ads_in(label["text"], "")
    yield Outcome(ad, "one ad", 1, len(pieces), len(pieces) == 1)


FIELDS = (
    "price", "price kind", "price amount", "price currency", "price terms", "price each, count", "place", "town", "state", "zip",
    "away", "offer", "offer word", "subject", "first", "form", "refused", "hours", "one ad",
)  # fmt: skip


def scored() -> list[Outcome]:
    """Every field of every ad."""
    ads = list(labelled_ads())
    return [one for ad, read in zip(ads, all_read(ads), strict=True) for one in outcomes(ad, read)]


def share(found: list[Outcome], field: str, chosen: Callable[[Labelled], bool]) -> tuple[int, int]:
    """(right, counted) for a field among the chosen ads."""
    counted = [one.right for one in found if one.field == field and chosen(one.ad)]
    return sum(counted), len(counted)


def _table(found: list[Outcome]) -> None:
    groups = {name: sum(one.ad.group == name for one in found if one.field == "price") for name in (TUNING, WRITERS, STYLES)}
    print(f"{'':18}" + "".join(f"{f'{name}, {count} ads':>29}" for name, count in groups.items()))
    for field in FIELDS:
        cells = []
        for name in groups:
            right, of = share(found, field, lambda ad, name=name: ad.group == name)
            cells.append(f"{right:>8} of {of:>3} {right / of if of else 0:>7.1%}")
        print(f"{field:18}" + "".join(f"{cell:>29}" for cell in cells))


def _styles(found: list[Outcome]) -> None:
    fields = ("price", "place", "offer", "subject", "first", "form", "refused", "hours")
    for name in (TUNING, WRITERS, STYLES):
        print(f"\n{name + ', right of counted':36}" + "".join(f"{field:>10}" for field in fields))
        for style in sorted({one.ad.style for one in found if one.ad.group == name}):
            counts = [share(found, field, lambda ad, s=style, n=name: ad.style == s and ad.group == n) for field in fields]
            print(f"{style:36}" + "".join(f"{f'{right}/{of}' if of else '-':>10}" for right, of in counts))


def _misses(found: list[Outcome], field: str) -> None:
    for one in found:
        if one.field == field and not one.right and not one.ad.held_out:
            print(f"\n{one.ad.style}/{one.ad.label['id']}: wanted {one.want}, got {one.have}")
            print("    " + one.ad.label["text"].strip().replace("\n", "\n    "))
            if one.ad.label["note"]:
                print(f"    ({one.ad.label['note']})")


if __name__ == "__main__":
    parser = argparse.ArgumentParser(description="Score the reader on the labelled ads.")
    parser.add_argument("--show", metavar="FIELD", choices=FIELDS, help="list the misses of the tuning ads in one field")
    asked_for = parser.parse_args().show
    results = scored()
    if asked_for:
        _misses(results, asked_for)
    else:
        _table(results)
        _styles(results)
