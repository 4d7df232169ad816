"""Pairs of titles from somewhere else as a catalog and ads: how well the matcher does on words it was not made for.

A folder holds two lists of titles (CSV with `id` and `name`, a `manufacturer` where there is one) and a mapping between them,
whose two columns are `id` and the lists' file names: `idLeft,idRight` for left.csv and right.csv.
"""

from __future__ import annotations

import csv
import json
import re
from pathlib import Path
from typing import NamedTuple

WORD = re.compile(r"[A-Za-z0-9]+(?:[-/.][A-Za-z0-9]+)*")
LEAST_MODEL = 3


class Titles(NamedTuple):
    """One list: titles by id, and makers where they are told."""

    titles: dict[str, str]
    makers: dict[str, str]


class Pairs(NamedTuple):
    """Ads, the catalog they are sought in, and which units are right for each ad."""

    name: str
    ads: dict[str, str]
    catalog: Titles
    right: dict[str, set[str]]


def both_ways(folder: Path) -> list[Pairs]:
    """Each list as the catalog of the other."""
    (mapping,) = folder.glob("*mapping*.csv")
    rows = _rows(mapping)
    sides = [(column, column.removeprefix("id").lower()) for column in rows[0]]
    lists = {name: _titles(_rows(folder / f"{name}.csv")) for _, name in sides}
    found = []
    for (ad_column, ads), (unit_column, units) in (sides, sides[::-1]):
        right: dict[str, set[str]] = {}
        for row in rows:
            right.setdefault(row[ad_column], set()).add(row[unit_column])
        found.append(Pairs(f"{ads} sought in {units}", {id_: lists[ads].titles[id_] for id_ in right}, lists[units], right))
    return found


def write_titles(folder: Path, one: Titles) -> None:
    """A catalog of units, by a plain rule: the maker is told or the first word, the model the longest word with a digit."""
    folder.mkdir(parents=True, exist_ok=True)
    lines = ["origin: {read: handbook, basis: judgement, from: a list of titles}", "units:"]
    for id_, title in one.titles.items():
        unit = {"kind": "engine", "title": title, "maker": one.makers.get(id_) or title.split()[0]}
        model = model_of(title)
        lines.append(f"  t-{id_}: {json.dumps(unit | ({'aka': [model]} if model else {}), ensure_ascii=False)}")
    (folder / "titles.yaml").write_text("\n".join(lines) + "\n", encoding="utf-8")


def model_of(title: str) -> str:
    """The longest word with a digit, of three signs or more; hyphens and strokes do not count."""
    words = [word for word in WORD.findall(title) if any(map(str.isdigit, word)) and _signs(word) >= LEAST_MODEL]
    return max(words, key=_signs, default="")


def _signs(word: str) -> int:
    return sum(map(str.isalnum, word))


def _titles(rows: list[dict[str, str]]) -> Titles:
    return Titles({row["id"]: row["name"] for row in rows}, {row["id"]: row.get("manufacturer") or "" for row in rows})


def _rows(path: Path) -> list[dict[str, str]]:
    with path.open(encoding="latin-1", newline="") as file:
        return list(csv.DictReader(file))
