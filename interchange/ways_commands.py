"""What `ways` does, put together from the rooms."""

from __future__ import annotations

import json as json_format
from pathlib import Path
from typing import TYPE_CHECKING

from interchange.catalog.suggest import suggestion
from interchange.commands import rankings_of, read_ads, seats_of
from interchange.errors import InputError
from interchange.fit.case import spread_of
from interchange.job.folder import ad_files
from interchange.opening import Bar, open_setting, tell_problems, tell_remarks

if TYPE_CHECKING:
    from interchange.fit.setting import DeadSeat, Setting
    from interchange.sheets.ways import Shown


def ways(job: Path, *, home: Path | None, altitude: str | None, json: bool) -> None:
    """Ways out of a job compared."""
    with Bar() as bar:
        setting, problems = open_setting(job, home, bar, altitude)
        shown = _compared(setting, job, bar)
    tell_problems([str(problem) for problem in problems])
    tell_remarks([str(problem) for problem in setting.remarks])
    from interchange.sheets import ways as sheet

    if json:
        print(json_format.dumps(sheet.ways_result(shown), indent=2))
        return
    from interchange.sheets import terminal

    sheet.show_ways(terminal.console(), shown)


def _compared(setting: Setting, job: Path, bar: Bar) -> Shown:
    from interchange.money import ways as money
    from interchange.money.flips import flips
    from interchange.money.on_hand import standing_by
    from interchange.money.several import together
    from interchange.sheets.ways import Shown

    seats = seats_of(setting, None)
    standing = standing_by(setting, job)
    rows = [row for seat in seats for row in money.ways_without_ads(seat, standing)]
    no_ads = "" if ad_files(job) else "the job has none yet"
    if not no_ads:
        read, words = read_ads(setting, job, [], "", bar)
        rankings, hauling = rankings_of(setting, seats, read, words, "total", bar)
        rows += [row for ranking in rankings for row in money.ways_by_ads(ranking)]
        if len(seats) > 1:
            rows += money.ways_for_several(seats, together(rankings, hauling).several)
    case = seats[0].case
    rows += money.ways_to_part(setting, case.own_hour_cents, case.hold_day_cents)
    _check_new_parts(setting, seats)
    found = money.weighed(setting, rows, seats)
    repaired, spent = setting.job.worth.repaired, setting.job.spent
    turns = flips(found, spread_of(repaired) if repaired else None)
    return Shown(setting.job.title, tuple(seats), found, turns, spent.text if spent else "", no_ads)


def _check_new_parts(setting: Setting, seats: list[DeadSeat]) -> None:
    """Raises InputError where a new part is used by a way there is not."""
    from interchange.money import ways as money

    known = {money.REPAIR, money.TWO_IN_ONE, money.USED, money.USED_SAME, money.USED_OTHER, money.DONOR, money.ON_HAND,
             money.SEVERAL, *(name for seat in seats for name in seat.case.kind.ways)}  # fmt: skip
    for name, part in setting.job.new_parts.items():
        for used in part.used_by:
            if used not in known:
                text = f"{setting.job.where.file}: new_parts {name}: there is no way out called {used!r}"
                raise InputError(text, suggestion(used, known))
