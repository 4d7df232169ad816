"""What `rank --explain` does: one ad as it was read, without a plan or a haul."""

from __future__ import annotations

import datetime as dt
import json as json_format
from pathlib import Path
from typing import TYPE_CHECKING

from interchange.commands import read_ads, seats_of, standard_input
from interchange.opening import Bar, open_setting, tell_problems, tell_remarks

if TYPE_CHECKING:
    from interchange.ads.reads import Read
    from interchange.ads.soundness import Known
    from interchange.fit.setting import DeadSeat
    from interchange.sheets.explained import Seated


def explain(job: Path, named: list[str], beginning: str, *, unit: str | None, home: Path | None, json: bool) -> None:
    """Show one ad with its fields marked in the text, and every factor of its unit's chance."""
    from interchange.ads.pasted import ad_named
    from interchange.ads.reads import matched, pasted_together
    from interchange.ads.soundness import known_of
    from interchange.sheets import explained

    with Bar() as bar:
        setting, problems = open_setting(job, home, bar)
        kept, words = read_ads(setting, job, named, standard_input() if "-" in named else "", bar)
        chosen = ad_named([each.ad for each in kept], beginning)
        (read,) = matched(setting.library, pasted_together(setting.library, kept, chosen.id))
        known = known_of(setting.library, words, dt.datetime.now().astimezone().date())
        seats = [_seated(seat, read, known) for seat in seats_of(setting, unit)]
    tell_problems([str(problem) for problem in problems])
    tell_remarks([str(fault) for fault in (*setting.remarks, *read.faults)])
    if json:
        print(json_format.dumps(explained.explained_result(read, seats), indent=2))
        return
    from interchange.sheets import terminal

    explained.show_explained(terminal.console(), read, seats)


def _seated(seat: DeadSeat, read: Read, known: Known) -> Seated:
    from interchange.money.rank import candidates_of, health_for

    candidates, _ = candidates_of(read, seat)
    return seat.name, candidates, health_for(seat, read, candidates, known) if candidates else None
