"""Rows of a table, read as if every cell had its column's name before it: "price: 265,00; place: Gent"."""

from __future__ import annotations

import re
from collections.abc import Iterator

from interchange.ads.spoken import Edit

_NAMES = frozenset([
    "price", "preis", "prix", "precio", "prijs", "cena", "asking", "ask", "amount", "currency", "make", "maker", "brand",
    "mfr", "manufacturer", "model", "type", "hours", "hrs", "hour", "year", "yr", "item", "description", "desc", "location",
    "loc", "place", "town", "city", "qty", "quantity", "serial", "sn", "s/n", "engine", "condition", "cond", "stock", "stk",
    "part", "notes", "note", "no", "lot", "state", "zip", "weight", "hp", "kw", "phone", "unit", "pos", "marke", "modell",
    "ort", "stunden", "baujahr", "status", "includes", "missing", "id", "vat", "contact", "name", "offer", "title", "fuel",
    "volts", "kind", "machine", "remarks", "comment", "comments",
])  # fmt: skip
_LONGEST_ROW, _LONGEST_HEAD = 400, 160
_FEWEST = 3  # columns
_PARTS = (
    re.compile(r"[ \t]*\t[ \t]*"),
    re.compile(r"[ ]*\|[ ]*"),
    re.compile(r"[ ]*;[ ]*"),
    re.compile(r"[ ]*,[ ]*"),
    re.compile(r"[ ]{2,}"),
)
COLUMNS = re.compile(r"\b(?:price|preis|prix|make|maker|model|hours|hrs|item|description|location)\b", re.IGNORECASE)
"""Where none of these stands there is no table to read."""
_LINE = re.compile(r"[^\n]+")


def tabled(text: str) -> Iterator[Edit]:
    """Names of columns written before the cells of every row, and the row of names left out; nothing where there is no table."""
    lines = [(match.start(), match.group()) for match in _LINE.finditer(text)]
    for at, (start, line) in enumerate(lines[:-1]):
        cut = _heading(line)
        if cut is None:
            continue
        names = [name.strip(" .:|").lower() for name in cut.split(line.strip(" |"))]
        rows: list[list[Edit]] = []
        for row_start, row in lines[at + 1 :]:
            edits = _row(row_start, row, names, cut)
            if not edits:
                break
            rows.append(edits)
        if rows:
            yield Edit(start, start + len(line), "")
            for row_edits in rows:
                yield from row_edits
            return


def _heading(line: str) -> re.Pattern[str] | None:
    """What parts the columns of a row of names."""
    if len(line) > _LONGEST_HEAD:
        return None
    for cut in _PARTS:
        cells = [cell.strip(" .:|").lower() for cell in cut.split(line.strip(" |"))]
        known = sum(_known(cell) for cell in cells)
        if len(cells) >= _FEWEST and known >= _FEWEST - 1 and known * 2 >= len(cells) and not any(map(str.isdigit, line)):
            return cut
    return None


def _known(cell: str) -> bool:
    return cell.partition(" ")[0].partition("(")[0].strip(" /") in _NAMES


def _row(start: int, row: str, names: list[str], cut: re.Pattern[str]) -> list[Edit]:
    if len(row) > _LONGEST_ROW:
        return []
    lead = len(row) - len(row.lstrip(" |"))
    body = row.strip(" |")
    cuts = [match.span() for match in cut.finditer(body)]
    if len(cuts) + 1 != len(names):
        return []
    edits: list[Edit] = []
    ends = [0, *(end for _, end in cuts)]
    begins = [*(begin for begin, _ in cuts), len(body)]
    for column, name in enumerate(names):
        first, last = ends[column], begins[column]
        if column:
            before = begins[column - 1]
            label = f"; {name}: " if last > first else "; "
            edits.append(Edit(start + lead + before, start + lead + first, label))
        elif last > first:
            edits.append(Edit(start + lead, start + lead, f"{name}: "))
    return edits
