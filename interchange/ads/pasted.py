"""Pasted text into ads, wherever it was pasted: the job's own files, named files, or standard input."""

from __future__ import annotations

import datetime as dt
import re
from bisect import bisect_right
from collections.abc import Iterable
from pathlib import Path
from typing import NamedTuple

from interchange.ads.notes import Cut, Note, in_order, without_notes
from interchange.ads.split import ad_id, looks_like_an_ad, split
from interchange.catalog.folders import shown_name
from interchange.errors import InputError, Problem

MOST_BYTES = 32 * 1024 * 1024
DATED = re.compile(r"\d{4}-\d{2}-\d{2}")


class Ad(NamedTuple):
    """One ad as pasted: a short id made from its text, where it lies, and the day it was pasted where that is known.

    ``before`` are the days the same text was pasted earlier; ``notes`` the user's own lines under it, which are no part of its
    text, and ``faults`` those of them that cannot be read.
    """

    id: str
    text: str
    source: str
    line: int
    on: str
    before: tuple[str, ...] = ()
    notes: tuple[Note, ...] = ()
    faults: tuple[Problem, ...] = ()


def ads_in(text: str, source: str, on: str = "") -> list[Ad]:
    """The ads of one paste; pieces that do not look like ads are left out. Notes belong to the ad they stand under."""
    text, cuts = without_notes(text, source)
    pieces = [piece for piece in split(text) if looks_like_an_ad(piece.text)]
    found: list[Ad] = []
    line, at = 1, 0
    ends = [bisect_right(cuts, piece.start, key=_at) for piece in pieces[1:]] + [len(cuts)]
    for piece, end in zip(pieces, ends, strict=False):
        line, at = line + text.count("\n", at, piece.start), piece.start
        begin = bisect_right(cuts, piece.start, key=_at)
        above = [] if found else [_homeless(cut) for cut in cuts[:begin]]
        notes = tuple(cut.note for cut in cuts[begin:end] if isinstance(cut.note, Note))
        faults = (*above, *(cut.note for cut in cuts[begin:end] if isinstance(cut.note, Problem)))
        found.append(Ad(ad_id(piece.text), piece.text, source, line + begin, on, (), notes, faults))
    return found


def _at(cut: Cut) -> int:
    return cut.at


def _homeless(cut: Cut) -> Problem:
    note = cut.note
    return note.problem("no-ad", "no ad stands above this line", "write it under its ad") if isinstance(note, Note) else note


def each_once(ads: Iterable[Ad]) -> list[Ad]:
    """The same ad pasted again counts once, as it was pasted last."""
    latest: dict[str, Ad] = {}
    for ad in ads:
        latest[ad.id] = again(latest.get(ad.id), ad)
    return list(latest.values())


def again(earlier: Ad | None, ad: Ad) -> Ad:
    """An ad that was pasted before, as pasted now, with the days it was pasted on before."""
    days = {day for day in (*earlier.before, earlier.on, *ad.before) if day and day != ad.on} if earlier else set(ad.before)
    notes = in_order((*earlier.notes, *ad.notes)) if earlier else ad.notes
    faults = (*earlier.faults, *ad.faults) if earlier else ad.faults
    return ad._replace(before=tuple(sorted(days)), notes=notes, faults=faults)


def read_paste(path: Path) -> str:
    """The text of a paste, whatever its bytes: what is not UTF-8 is kept as marked bytes rather than refused.

    Raises InputError where it cannot be read or is too large.
    """
    try:
        content = path.read_bytes()
    except OSError as error:
        raise InputError(f"cannot read {shown_name(path)}: {error.strerror}", "check its name and rights") from error
    if len(content) > MOST_BYTES:
        size = f"{len(content) / 2**20:.0f} MiB"
        raise InputError(f"{shown_name(path)} holds {size}", f"at most {MOST_BYTES // 2**20} MiB are read")
    return content.decode("utf-8", errors="replace")


def day_of(path: Path) -> str:
    """The day a paste was kept, where its name begins with one; else empty."""
    dated = DATED.match(path.name)
    return dated.group() if dated else ""


def ads_of_files(paths: Iterable[Path]) -> list[Ad]:
    """The ads of several files, each once. The day is taken from a file's name where it begins with one."""
    found: list[Ad] = []
    for path in paths:
        found += ads_in(read_paste(path), shown_name(path), day_of(path))
    return each_once(found)


def keep(folder: Path, text: str, now: dt.datetime) -> Path:
    """Keep a paste in a job's folder of ads, as pasted, under a name with its date. Never writes over anything."""
    folder.mkdir(parents=True, exist_ok=True)
    stem = now.strftime("%Y-%m-%d-%H%M%S")
    for number in range(1, 1000):
        path = folder / (f"{stem}.txt" if number == 1 else f"{stem}-{number}.txt")
        try:
            with path.open("x", encoding="utf-8", newline="") as file:
                file.write(text)
        except FileExistsError:
            continue
        return path
    raise InputError("a thousand pastes in one second", "wait a moment")


def ad_named(ads: Iterable[Ad], beginning: str) -> Ad:
    """The ad whose id begins so. Raises InputError where none does, or several do."""
    found = [ad for ad in ads if ad.id.startswith(beginning.lower())]
    if not found:
        raise InputError(f"no ad's id begins with {beginning!r}", "interchange rank JOB lists them")
    if len(found) > 1:
        raise InputError(f"{len(found)} ads begin with {beginning!r}: " + ", ".join(ad.id for ad in found), "write more of it")
    return found[0]
