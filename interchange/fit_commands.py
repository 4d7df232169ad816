"""What `fit` and `donors` do, put together from the rooms."""

from __future__ import annotations

import json as json_format
from pathlib import Path
from typing import TYPE_CHECKING

from interchange.commands import rankings_of, read_ads, seats_of
from interchange.errors import InputError
from interchange.opening import Bar, open_setting, tell_problems, tell_remarks

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping, Sequence

    from rich.console import Console

    from interchange.ads.again import Seen
    from interchange.fit.donors import Donors
    from interchange.fit.report import Plan
    from interchange.fit.setting import DeadSeat, Form, Setting
    from interchange.money.rank import Entry
    from interchange.money.several import Cure
    from interchange.sheets.donors import Shared

MOST_SHARED = 5


def fit(job: Path, donor: str, *, unit: str | None, home: Path | None, altitude: str | None, json: bool) -> None:
    """Show one pair in full."""
    with Bar() as bar:
        setting, problems = open_setting(job, home, bar, altitude)
        named = _catalog_donor(setting, donor, unit)
        entries, cure = ([], None) if named else _ad_entries(setting, job, donor, unit, bar)
        faults = sorted({fault for _, entry in entries for fault in entry.read.faults})
    tell_problems([str(problem) for problem in problems])
    tell_remarks([str(problem) for problem in (*setting.remarks, *faults)])
    if json:
        _fit_json(named, entries, cure)
        return
    from interchange.sheets import plan_sheet, terminal

    out = terminal.console()
    for seat, title, plan, _ in named:
        plan_sheet.show_plan(out, seat, plan, title)
        out.print()
    show_forms(out, [(plan, form) for _, _, plan, form in named])
    for seat, entry in entries:
        _show_entry(out, seat, entry)
    if cure:
        terminal.show_cure(out, cure, sum(entry.bill.mean_cents for seat, entry in entries if seat.name in cure.seats))


def _catalog_donor(setting: Setting, donor: str, unit: str | None) -> list[tuple[DeadSeat, str, Plan, Form]]:
    """(seat, title, plan, form) for every form of a unit or machine of the catalog; empty where the catalog has no such id."""
    library = setting.library
    base = donor.partition(".")[0]
    machine = library.record("machines", donor)
    found = []
    if library.record("units", base):
        kind = library.unit(base)[1].kind
        seats = [seat for seat in seats_of(setting, unit) if seat.case.kind.id == kind]
        if not seats:
            raise InputError(f"{donor} is a {kind}; the job has no dead {kind}", "name another donor")
        found = [
            (seat, _title(seat, form.title, form, form.share), seat.plan(form), form)
            for seat in seats
            for form in seat.forms(donor)
        ]
    elif machine:
        value = library.machine(donor)[1]
        for seat in seats_of(setting, unit):
            offer = seat.offer("machine")
            for name, share in seat.fitted(value).items():
                for form in seat.forms(name):
                    title = _title(seat, f"{form.title}, out of a {value.title}", form, form.share * share)
                    found.append((seat, title, seat.plan(form, offer), form))
    return found


def _title(seat: DeadSeat, donor: str, form: Form, share: float) -> str:
    return f"{donor}{_share(form, share)} into the {seat.setting.machine.title} for its {seat.unit.title}"


def _share(form: Form, share: float) -> str:
    """How many of them are this form, and what shows it; nothing where all are."""
    if share >= 1:
        return ""
    guessed = "" if form.share_known else ", taken as even with the others: the catalog gives no share"
    return f" ({share:.0%} of them{guessed}" + (f"; {form.tell}" if form.tell else "") + ")"


def _ad_entries(
    setting: Setting, job: Path, donor: str, unit: str | None, bar: Bar
) -> tuple[list[tuple[DeadSeat, Entry]], Cure | None]:
    """An ad for each dead unit it has to do with, and what it comes to for several of them."""
    from interchange.ads.pasted import ad_named
    from interchange.ads.reads import pasted_together
    from interchange.money.several import together

    try:
        kept, words = read_ads(setting, job, [], "", bar)
        chosen = ad_named([each.ad for each in kept], donor)
    except InputError as error:
        from interchange.catalog.suggest import suggestion

        ids = [
            row[0]
            for row in setting.library.connection.execute(
                "SELECT id FROM record WHERE live AND room IN ('units', 'machines')"
            ).fetchall()
        ]
        raise InputError(
            f"{donor!r} is neither a unit or machine of the catalog nor an ad of the job", suggestion(donor, ids) or error.hint
        ) from error
    seats = seats_of(setting, unit)
    shown = {each.ad.id for each in pasted_together(setting.library, kept, chosen.id)}
    rankings, hauling = rankings_of(
        setting, seats, kept, words, "total", bar, job
    )  # all of them: what it is worth hangs on the others
    rankings = [each.only(shown) for each in rankings]
    entries = [(each.seat, entry) for each in rankings for entry in (*each.entries, *each.stopped)]
    if not entries:
        raise InputError(
            f"ad {chosen.id} names no unit or machine of the catalog that has to do with this job", "interchange find WORDS"
        )
    return entries, next(iter(together(rankings, hauling).several), None)


def _show_entry(out: Console, seat: DeadSeat, entry: Entry) -> None:
    from interchange.money.bill import LEFTOVERS
    from interchange.money.leftovers import selling
    from interchange.money.rank import parted_out
    from interchange.sheets import explained, plan_sheet, terminal
    from interchange.sheets.plain import safe_block

    out.print(terminal.text(f"Ad {entry.read.ad.id} ({entry.read.ad.source}, line {entry.read.ad.line})", "bold"))
    if len(entry.read.history) > 1:
        out.print(terminal.text(f"Pasted {len(entry.read.history)} times: {prices_then(entry.read.history)}"))
    for line in safe_block(entry.read.ad.text.strip()).splitlines():
        out.print(terminal.text(f"  | {line}", "dim"))
    for candidate, outcome in zip(entry.candidates, entry.outcomes, strict=True):
        share = _share(candidate.form, candidate.share)
        out.print(terminal.text(f"May be: {candidate.form.title}{share}, by {candidate.by}: {outcome.plan.verdict}"))
    show_forms(out, [(outcome.plan, each.form) for each, outcome in zip(entry.candidates, entry.outcomes, strict=True)])
    title = _title(seat, entry.candidate.form.title, entry.candidate.form, 1.0)
    plan_sheet.show_plan(out, seat, entry.likeliest.plan, title)
    plan_sheet.show_bill(out, entry.bill)
    if entry.price_wants:
        out.print(terminal.text(f"Price not known: {entry.price_wants}", "magenta"))
    left = parted_out(entry.read, [seat], selling(seat.setting), seat.case.own_hour_cents)
    if left and entry.bill.line(LEFTOVERS):
        plan_sheet.show_leftovers(out, left)
    plan_sheet.show_walk_away(out, entry.walk_away)
    explained.show_health(out, entry.health)
    for caution in entry.fetch.option.cautions if entry.fetch.option else ():
        out.print(terminal.text(f"  {caution}"))
    out.print()


def prices_then(history: Sequence[Seen]) -> str:
    """What was asked on each day an ad was pasted: ``2026-03-01 $2,400, 2026-03-20 $1,900``."""
    return ", ".join(f"{seen.on or 'day not known'} {_asked(seen)}" for seen in history)


def _asked(seen: Seen) -> str:
    from interchange.sheets.terminal import dollars

    if seen.cents is None:
        return "no price"
    return dollars(seen.cents) if seen.currency in (None, "USD") else f"{seen.cents / 100:,.0f} {seen.currency}"


def _fit_json(named: list[tuple[DeadSeat, str, Plan, Form]], entries: list[tuple[DeadSeat, Entry]], cure: Cure | None) -> None:
    from interchange.sheets.fit_result import plan_result
    from interchange.sheets.result import cure_result, entry_result

    made = [{"seat": seat.name, **plan_result(plan)} for seat, _, plan, _ in named]
    for seat, entry in entries:
        plans = [{**plan_result(outcome.plan), "share": outcome.share} for outcome in entry.outcomes]
        made.append({"seat": seat.name, **entry_result(entry), "plans": plans})
    print(json_format.dumps({"fits": made, "together": cure_result(cure) if cure else None}, indent=2))


def show_forms(out: Console, plans: list[tuple[Plan, Form]]) -> None:
    """What hangs on which form a unit has, and what shows it; nothing where it has one."""
    from interchange.fit.forms import hang_on_form
    from interchange.sheets import plan_sheet

    for unit in dict.fromkeys(form.unit for _, form in plans):
        of_unit = [(plan, form) for plan, form in plans if form.unit == unit]
        if len(of_unit) > 1:
            changed = hang_on_form([plan for plan, _ in of_unit], [form.share for _, form in of_unit])
            shown = zip(of_unit, changed, strict=True)
            plan_sheet.show_forms(out, [(form.title, form.share, form.tell, plan, each) for (plan, form), each in shown])


def donors(job: Path, *, most: int, unit: str | None, home: Path | None, altitude: str | None, json: bool) -> None:
    """What in the catalog goes in, the cheapest first."""
    from interchange.fit.donors import best_donors

    with Bar() as bar:
        setting, problems = open_setting(job, home, bar, altitude)
        found = {seat.name: best_donors(seat, most) for seat in seats_of(setting, unit)}
        shared = sorted(_shared(setting, found), key=lambda one: (-len(one.donors), one.cents, one.id))[:MOST_SHARED]
    tell_problems([str(problem) for problem in problems])
    tell_remarks([str(problem) for problem in setting.remarks])
    from interchange.sheets import donors as sheet

    if json:
        made = [sheet.donors_result(setting.seat(name), each) for name, each in found.items()]
        print(json_format.dumps({"seats": made, "shared": [sheet.shared_result(one) for one in shared]}, indent=2))
        return
    from interchange.sheets import terminal

    out = terminal.console()
    for name, each in found.items():
        sheet.show_donors(out, setting.job.title, setting.seat(name), each)
        out.print()
    sheet.show_shared(out, shared)


def _shared(setting: Setting, found: Mapping[str, Donors]) -> Iterator[Shared]:
    """Machines of the catalog that came with a donor for more than one dead unit; each gives the cheapest of its forms."""
    from interchange.catalog.model import Machine
    from interchange.sheets.donors import Shared, donor_id

    for record in setting.library.records("machines") if len(found) > 1 else ():
        machine = record.value
        if not isinstance(machine, Machine):
            continue
        serving: dict[str, tuple[float, str]] = {}
        for name, donors in found.items():
            fitted = setting.seat(name).fitted(machine)
            for ranked in donors.found:
                if fitted.keys() & {ranked.form.unit, donor_id(ranked)}:
                    serving.setdefault(name, (ranked.plan.cost_cents, donor_id(ranked)))
        if len(serving) > 1:
            parts = tuple((name, donor) for name, (_, donor) in serving.items())
            yield Shared(record.id, machine.title, parts, sum(cents for cents, _ in serving.values()))
