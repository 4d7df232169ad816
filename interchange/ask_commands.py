"""What `ask` does, put together from the rooms."""

from __future__ import annotations

import json as json_format
from pathlib import Path
from typing import TYPE_CHECKING

from interchange.catalog.health import HealthQuestion
from interchange.catalog.rates import AskingRates
from interchange.commands import faults_of, rankings_of, read_ads, seats_of
from interchange.errors import InputError
from interchange.opening import Bar, open_setting, tell_problems, tell_remarks

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from interchange.fit.setting import Setting
    from interchange.money.rank import Entry, Progress, Ranking
    from interchange.sheets.ask import Asking


def ask(job: Path, beginning: str | None, *, unit: str | None, home: Path | None, json: bool) -> None:
    """What to ask the seller of one ad, or over all ads which single call is worth making first."""
    with Bar() as bar:
        setting, problems = open_setting(job, home, bar)
        read, words = read_ads(setting, job, [], "", bar)
        rankings, _ = rankings_of(setting, seats_of(setting, unit), read, words, "total", bar, job)
        wanted = rankings if beginning is None else _of_ad(rankings, beginning)
        askings = list(askings_of(setting, wanted, bar))
    tell_problems([str(problem) for problem in problems])
    tell_remarks([str(problem) for problem in (*setting.remarks, *faults_of(wanted))])
    from interchange.sheets import ask as sheet

    library = setting.library
    if json:
        print(json_format.dumps({"asks": [sheet.asking_result(one, library) for one in askings]}, indent=2))
        return
    from interchange.sheets import terminal

    out = terminal.console()
    if beginning is None:
        sheet.show_calls(out, askings, library)
        return
    for one in askings:
        sheet.show_asking(out, one, library)
        out.print()


def _of_ad(rankings: list[Ranking], beginning: str) -> list[Ranking]:
    """Only what is said of the ad whose id begins so. Raises InputError where none, or more than one, that may go in does."""
    begins = beginning.strip().lower()
    stopped = [entry.read.ad.id for ranking in rankings for entry in ranking.stopped]
    ids = {entry.read.ad.id for ranking in rankings for entry in ranking.entries if entry.read.ad.id.startswith(begins)}
    if len(ids) > 1:
        raise InputError(f"{len(ids)} ads that may go in begin with {beginning!r}", "write more of its id")
    if not ids and any(id_.startswith(begins) for id_ in stopped):
        raise InputError(
            f"ad {beginning} does not go in, whatever its seller answers", "interchange fit JOB AD says what stops it"
        )
    if not ids:
        raise InputError(f"no ad that may go in begins with {beginning!r}", "interchange rank JOB lists them")
    return [ranking.only(ids) for ranking in rankings]


def askings_of(setting: Setting, rankings: Sequence[Ranking], bar: Progress | None = None) -> Iterator[Asking]:
    """What to ask of every ad that may go in. Raises InputError where the catalog's table of answers is gone."""
    from interchange.ads.soundness import readings_of
    from interchange.catalog.health import HealthTest
    from interchange.money.questions import questions_of, weighed
    from interchange.sheets.ask import Asking

    found = setting.library.record("rates", "asking")
    if found is None or not isinstance(found.value, AskingRates):
        raise InputError("the catalog has no table of rates called 'asking'", "put back trade/evidence.yaml")
    health = [one.value for one in setting.library.records("health_questions") if isinstance(one.value, HealthQuestion)]
    tests = [one.value for one in setting.library.records("health_tests") if isinstance(one.value, HealthTest)]
    pairs = [(ranking.seat, entry) for ranking in rankings for entry in ranking.entries]
    for done, (seat, entry) in enumerate(pairs):
        if bar:
            bar("weighing questions", done, len(pairs))
        tested = {reading.test.id for reading in readings_of(entry.read, seat.case.kind.id, tests)}
        questions = questions_of(seat, entry, found.value, health, _asked(entry), tested)
        other = entry.walk_away.instead.mean_cents if entry.walk_away else None
        yield Asking(seat.name, entry, tuple(weighed(questions, entry, other)))


def _asked(entry: Entry) -> list[str]:
    """What was asked or answered already, by the user's own lines under the ad."""
    from interchange.ads.notes import ANSWERED, ASKED

    notes = [note for note in entry.read.ad.notes if note.word in (ASKED, ANSWERED)]
    subjects = (note.text.partition(":")[0].strip(" ?").casefold() for note in notes)
    return [subject for subject in subjects if subject]
