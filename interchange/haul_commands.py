"""What `haul` does, put together from the rooms."""

from __future__ import annotations

import json as json_format
from pathlib import Path
from typing import TYPE_CHECKING, NamedTuple

from interchange.errors import InputError
from interchange.opening import Bar, open_setting, tell_problems, tell_remarks

if TYPE_CHECKING:
    from interchange.fit.setting import Setting


class Fetched(NamedTuple):
    """What the user says of the load, beside the job."""

    what: str | None
    unit: str | None
    weight: str | None
    size: str | None
    seller: str | None


def haul(job: Path, place: str, fetched: Fetched, *, home: Path | None, json: bool) -> None:
    """Fetching one thing from one place, way by way."""
    from interchange.haul.atlas import atlas
    from interchange.haul.hauler import Hauler
    from interchange.haul.load_of import load_of, with_known
    from interchange.sheets.haul_result import haul_result

    with Bar() as bar:
        setting, problems = open_setting(job, home, bar)
        hauler = Hauler(setting, atlas())
    load = load_of(setting.library, fetched.what or _dead(setting, fetched.unit))
    load = with_known(load, fetched.weight, fetched.size, fetched.seller, hauler.delivery)
    way = hauler.way(place)
    if way.unknown:
        raise InputError(*way.warnings)
    result = haul_result(hauler, setting.job.title, load, way, hauler.options(load, way))
    tell_problems([str(problem) for problem in problems])
    tell_remarks([str(problem) for problem in setting.remarks])
    if json:
        print(json_format.dumps(result, indent=2))
        return
    from interchange.sheets import haul_sheet, terminal

    haul_sheet.show_haul(terminal.console(), result)


def _dead(setting: Setting, unit: str | None) -> str:
    """A unit like the dead one: what a job fetches where nothing else is said."""
    from interchange.commands import seats_of

    return seats_of(setting, unit)[0].dead.unit
