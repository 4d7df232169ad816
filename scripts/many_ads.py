"""Ads to measure the matcher with: invented, the same ones every time, written as sellers write.

Of the model words a part is as printed, the rest respaced, hyphenated, in other capitals, with O for 0 or l for 1, or with one
slip of the finger; the maker is left out or misspelt; machines are named in passing, and now and then another engine of the
catalog.
"""

from __future__ import annotations

import random
import re
from collections.abc import Iterator, Sequence
from typing import NamedTuple

TITLES = (
    "{} engine", "{} motor for sale", "{} diesel", "{} long block, complete", "Complete {} engine, ran when pulled", "{}",
    "FOR SALE: {} engine", "Rebuilt {} motor w/ warranty", "{} engine out of {machine}",
    "engine - {} - low hours", "{} core or parts",
)  # fmt: skip
BODIES = (
    "Runs good, {hours} hours on the meter.", "Turns over by hand, has been sitting since {year}.",
    "No smoke, good oil pressure.",
    "Was in a {machine}, replaced with a new one.", "Starter and alternator included.",
    "Call or text 802-555-0{phone}, no emails.",
    "Fan to flywheel, you haul.", "Would trade for a trailer.", "Weighs about {weight} lb, I can load it.",
    "Compression {psi} on all four.", "Serial plate is readable.", "Also have parts for a {machine}.",
)  # fmt: skip
MACHINES = ("Dunmarrow RL90 loader", "Pellworth 540", "Varnhollow BH3 backhoe", "Skarrow S28 baler", "Aldermast 5200 sprayer")
PLACES = ("Barre, VT", "Concord NH", "Bangor, Maine 04401", "20 mi N of Utica", "Erie PA")
LETTERS = "abcdefghjkmnprstuvwxyz"


class ManyAd(NamedTuple):
    """An ad, where its title ends, and the unit it is of."""

    text: str
    title_end: int
    unit: str
    spelling: str


def many_ads(units: Sequence[tuple[str, str, str]], count: int) -> Iterator[ManyAd]:
    """Ads of units given as (id, maker, model)."""
    chance = random.Random(count)  # noqa: S311 - the same ads every time
    for _ in range(count):
        unit, maker, model = chance.choice(units)
        spelling = chance.choices(tuple(SPELLINGS), (30, 20, 15, 15, 10, 10))[0]
        written = SPELLINGS[spelling](chance, model)
        told = chance.random()
        if told > 0.3:
            written = f"{_slip(chance, maker) if told > 0.95 else maker} {written}"
        title = _filled(chance, chance.choice(TITLES)).replace("{}", written)
        if chance.random() < 0.2:
            title = title.lower() if chance.random() < 0.5 else title.upper()
        body = [_filled(chance, sentence) for sentence in chance.sample(BODIES, chance.randrange(4))]
        if chance.random() < 0.05:
            body.append(f"Bought a {chance.choice(units)[2]} to replace it.")
        price = chance.choice(("${} OBO", "asking {}", "${} firm", "{} cash")).format(chance.randrange(300, 9000))
        yield ManyAd(f"{title}\n{price}\n{' '.join(body)}\n{chance.choice(PLACES)}", len(title), unit, spelling)


def _filled(chance: random.Random, words: str) -> str:
    return (
        words.replace("{machine}", chance.choice(MACHINES))
        .replace("{hours}", f"{chance.randrange(200, 9000):,}")
        .replace("{year}", str(chance.randrange(1990, 2025)))
        .replace("{phone}", str(chance.randrange(100, 200)))
        .replace("{weight}", str(chance.randrange(400, 1900)))
        .replace("{psi}", str(chance.randrange(250, 400)))
    )


def _as_printed(_: random.Random, model: str) -> str:
    return model


def _parts(model: str) -> list[str]:
    return re.findall("[A-Za-z]+|[0-9]+", model)


def _respaced(chance: random.Random, model: str) -> str:
    return _parted(chance, model, " ")


def _hyphened(chance: random.Random, model: str) -> str:
    return _parted(chance, model, chance.choice(("-", "-", " - ", "/")))


def _parted(chance: random.Random, model: str, sign: str) -> str:
    parts = _parts(model)
    at = chance.randrange(1, len(parts))
    return "".join(parts[:at]) + sign + "".join(parts[at:])


def _small(_: random.Random, model: str) -> str:
    return model.lower()


def _lookalike(chance: random.Random, model: str) -> str:
    """One sign misread: O for 0, l for 1, or the other way about; as printed where there is none."""
    others = {"0": "O", "1": "l", "O": "0", "I": "1", "l": "1"}
    places = [place for place, sign in enumerate(model) if sign in others]
    if not places:
        return model
    at = chance.choice(places)
    return model[:at] + others[model[at]] + model[at + 1 :]


def _slip(chance: random.Random, word: str) -> str:
    """One slip of the finger: a sign wrong, left out, doubled or changed round with the next."""
    at = chance.randrange(1, len(word) - 1)
    wrong = chance.choice("0123456789" if word[at].isdigit() else LETTERS)
    return chance.choice((
        word[:at] + wrong + word[at + 1 :],
        word[:at] + word[at + 1 :],
        word[:at] + word[at] + word[at:],
        word[:at] + word[at + 1] + word[at] + word[at + 2 :],
    ))  # fmt: skip


SPELLINGS = {
    "as printed": _as_printed, "respaced": _respaced, "hyphened": _hyphened, "small letters": _small, "O for 0": _lookalike,
    "one slip": _slip,
}  # fmt: skip
