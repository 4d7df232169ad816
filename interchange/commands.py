"""What the commands do, put together from the rooms."""

from __future__ import annotations

import datetime as dt
import json as json_format
import shutil
import sys
from pathlib import Path
from typing import TYPE_CHECKING

import typer

from interchange.catalog.folders import shipped, shown_name
from interchange.errors import InputError
from interchange.job.folder import ADS_FOLDER, ad_files, find_home, job_path, other_jobs
from interchange.opening import Bar, home_folders, open_library, open_setting, tell_problems, tell_remarks
from interchange.store import memo

if TYPE_CHECKING:
    from interchange.ads.pasted import Ad
    from interchange.ads.shelf import ReadAd, Words
    from interchange.errors import Problem
    from interchange.fit.setting import DeadSeat, Setting
    from interchange.money.rank import Ranking
    from interchange.money.several import Hauling
    from interchange.sheets.result import RankResult

STANDARD_INPUT = "-"
PASTE_WHOLE = "paste whole ads: a title, a price, a few words"
ORDERS = ("total", "fit", "haul", "price")
MOST_BYTES = 32 * 1024 * 1024


def read_ads(setting: Setting, job: Path, named: list[str], pasted: str, bar: Bar) -> tuple[list[ReadAd], Words]:
    """The ads asked for, read: the job's own from its shelf, others afresh. Raises InputError where there are none."""
    from interchange.ads.pasted import ads_in, ads_of_files, each_once
    from interchange.ads.reads import ad_words
    from interchange.ads.shelf import read_new, shelved

    words = ad_words(setting.library)
    if not named:
        kept = shelved(ad_files(job), words, bar)
        if not kept:
            raise InputError(f"{shown_name(job)} has no ads yet", f"copy some and run: interchange paste {shown_name(job)}")
        return kept, words
    ads: list[Ad] = []
    for name in named:
        ads += ads_in(pasted, "standard input") if name == STANDARD_INPUT else ads_of_files([Path(name)])
    if not ads:
        raise InputError("no ads were found in what was given", PASTE_WHOLE)
    return read_new(each_once(ads), words, bar), words


def standard_input() -> str:
    """What is piped in. Raises InputError where it is too much."""
    content = sys.stdin.buffer.read(MOST_BYTES + 1)
    if len(content) > MOST_BYTES:
        raise InputError(f"more than {MOST_BYTES // 2**20} MiB on standard input", "paste fewer at once")
    return content.decode("utf-8", errors="replace")


def seats_of(setting: Setting, unit: str | None) -> list[DeadSeat]:
    """The dead units asked for: one by its seat, or all of the job. Raises InputError where there are none."""
    if not setting.job.dead:
        raise InputError("the job names no dead unit", "write under dead: in job.yaml what is dead")
    return [setting.seat(unit)] if unit else [setting.seat(name) for name in setting.job.dead]


def rank(job: Path, named: list[str], *, by: str, unit: str | None, home: Path | None, altitude: str | None, json: bool) -> None:
    """Rank ads for each dead unit. The same question again, with nothing changed, is answered from what was kept."""
    if by not in ORDERS:
        raise InputError(f"{by!r} is not an order", "write one of: " + ", ".join(ORDERS))
    files = [job_path(job), find_home(job, home), *(ad_files(job) if not named else [])]
    files += [Path(name) for name in named if name != STANDARD_INPUT]
    files += [job_path(other) for other in other_jobs(job)]  # their machines stand by
    pasted = standard_input() if STANDARD_INPUT in named else ""
    today = dt.datetime.now().astimezone().date().isoformat()  # silence is counted in days
    question = json_format.dumps(
        ["rank", *(str(path.resolve()) for path in files), pasted, by, unit, altitude, str(Path.cwd()), today]
    )
    result: RankResult | None = memo.recall(question)
    if result is None:
        with Bar() as bar:
            folders = home_folders(home, job)
            made_from = memo.inputs(folders, files)
            result = _ranked(job, named, pasted, by, unit, home, altitude, bar)
        memo.keep(question, result, folders, files, made_from)
    _print_ranking(result, json=json)


def _ranked(
    job: Path, named: list[str], pasted: str, by: str, unit: str | None, home: Path | None, altitude: str | None, bar: Bar
) -> RankResult:  # fmt: skip
    from interchange.money.several import together
    from interchange.sheets.result import seat_result, together_result

    setting, problems = open_setting(job, home, bar, altitude)
    read, words = read_ads(setting, job, named, pasted, bar)
    rankings, hauling = rankings_of(setting, seats_of(setting, unit), read, words, by, bar, job)
    spent, height = setting.job.spent, setting.home.altitude
    return {
        "job": setting.job.title,
        "folder": None if named else shown_name(job),
        "spent": spent.text if spent else None,
        "altitude": height.text if height else None,
        "catalog_problems": [str(problem) for problem in problems],
        "job_problems": [str(problem) for problem in (*setting.remarks, *faults_of(rankings))],
        "seats": [seat_result(ranking) for ranking in rankings],
        "together": together_result(together(rankings, hauling)) if len(rankings) > 1 else None,
    }


def _print_ranking(result: RankResult, *, json: bool) -> None:
    tell_problems(result["catalog_problems"])
    tell_remarks(result["job_problems"])
    if json:
        print(json_format.dumps(result, indent=2))
        return
    from interchange.sheets import terminal

    out = terminal.console()
    for place, seat in enumerate(result["seats"]):
        if place:
            out.print()
        terminal.show_ranking(out, result["job"], seat, result["folder"])
    if result["together"]:
        out.print()
        terminal.show_together(out, result["together"])
    out.print(terminal.text("Totals are what is expected, standing at home and running, own hours included.", "dim"))
    if result["altitude"]:
        out.print(terminal.text(f"Ratings are compared as they are at {result['altitude']}.", "dim"))
    if result["spent"]:
        out.print(terminal.text(f"Spent before, and the same whatever is done: {result['spent']}.", "dim"))


def rankings_of(
    setting: Setting, seats: list[DeadSeat], read: list[ReadAd], words: Words, by: str, bar: Bar, job: Path | None = None
) -> tuple[list[Ranking], Hauling]:
    """A ranking for each dead unit, and how an ad is hauled for several of them.

    With the job's folder, what to pay is weighed against ways out without an ad too.
    """
    from interchange.ads.reads import matched
    from interchange.haul.atlas import atlas
    from interchange.money.fetch import Fetcher
    from interchange.money.on_hand import standing_by
    from interchange.money.rank import rank as rank_ads
    from interchange.money.ways import others_for_rank

    reads = matched(setting.library, read)
    fetcher = Fetcher(setting, atlas())
    today = dt.datetime.now().astimezone().date()
    standing = standing_by(setting, job) if job else []
    others = {seat.name: others_for_rank(seat, standing) if job else [] for seat in seats}
    rankings = [rank_ads(setting, seat, reads, fetcher, words, by, bar, today, others[seat.name]) for seat in seats]
    return rankings, lambda read, units: fetcher.fetch(read, *units).line


def faults_of(rankings: list[Ranking]) -> list[Problem]:
    """What is wrong with the user's own lines under the ads ranked, each once."""
    every = (
        read.faults
        for ranking in rankings
        for read in (*(entry.read for entry in (*ranking.entries, *ranking.stopped)), *ranking.other, *ranking.unknown)
    )
    return sorted({fault for faults in every for fault in faults})


def paste(job: Path) -> None:
    """Keep a paste in the job."""
    from interchange.ads.pasted import ads_in, ads_of_files, each_once, keep
    from interchange.job.job import read_job

    read_job(job)
    text = standard_input()
    found = ads_in(text, "standard input")
    if not found:
        raise InputError("nothing in the paste looks like an ad; nothing was kept", PASTE_WHOLE)
    known = {ad.id for ad in ads_of_files(ad_files(job))}
    path = keep(job / ADS_FOLDER, text, dt.datetime.now().astimezone())
    fresh = [ad for ad in each_once(found) if ad.id not in known]
    typer.echo(f"{len(found)} ad{'s' * (len(found) > 1)} kept in {shown_name(path)}, {len(fresh)} of them new.")


def find(words: str, *, home: Path | None, json: bool) -> None:
    """Search the catalog by name."""
    from interchange.catalog.rooms import singular
    from interchange.store.search import find as search

    with Bar() as bar:
        library, problems = open_library(home_folders(home, Path.cwd()), bar)
    tell_problems([str(problem) for problem in problems])
    found = search(library.connection, words)
    if json:
        print(json_format.dumps({"found": [one._asdict() for one in found]}, indent=2))
        return
    if not found:
        raise InputError(f"nothing in the catalog is called anything like {words!r}", "try fewer letters")
    from interchange.sheets import terminal

    out = terminal.console()
    for one in found:
        maker = f", {one.maker}" if one.maker and not one.title.startswith(one.maker) else ""
        out.print(terminal.text(f"{singular(one.room):9} {one.id:32} {one.title}{maker}"))


def start(folder: Path) -> None:
    """Make a home with a worked job to try."""
    if folder.exists() and (not folder.is_dir() or any(folder.iterdir())):
        raise InputError(f"{shown_name(folder)} is there already", "name a folder that is not there yet, or an empty one")
    try:
        shutil.copytree(shipped("demo"), folder, dirs_exist_ok=True)
    except OSError as error:
        raise InputError(f"cannot make {shown_name(folder)}: {error.strerror}", "check the name and the rights") from error
    jobs = sorted(path.parent for path in folder.glob("jobs/*/job.yaml"))
    typer.echo(f"Made {shown_name(folder)}: home.yaml, a catalog of invented makers, and {len(jobs)} jobs. Try:")
    for job in jobs:
        typer.echo(f"  interchange rank {shown_name(job)}")
