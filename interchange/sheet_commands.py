"""What `sheet` does: one ad as a page for its seller, or as a page to take along."""

from __future__ import annotations

import dataclasses
from collections.abc import Iterator
from pathlib import Path
from typing import TYPE_CHECKING

import typer

from interchange.commands import rankings_of, read_ads, seats_of
from interchange.errors import InputError
from interchange.opening import Bar, open_setting, tell_problems, tell_remarks, write_whole

if TYPE_CHECKING:
    from interchange.fit.setting import Setting
    from interchange.money.rank import Entry, Ranking
    from interchange.sheets.page import Page
    from interchange.sheets.seller_sheet import Wanted
    from interchange.sheets.take_along import Stop
    from interchange.sheets.total_plot import Dot

SELLER, BUYER = "seller", "buyer"
READERS = (BUYER, SELLER)
FORMATS = {"html": "html", "md": "md", "pdf": "pdf", "htm": "html", "markdown": "md"}


def sheet(
    job: Path, ad: str, *, reader: str, to: Path | None, form: str | None, paper: str, unit: str | None, home: Path | None,
    altitude: str | None,
) -> None:  # fmt: skip
    """Write the sheet and say where it is."""
    from interchange.ads.pasted import ad_named
    from interchange.ads.reads import pasted_together

    if reader not in READERS:
        raise InputError(f"there is no sheet for {reader!r}", f"write one of: {', '.join(READERS)}")
    written = _format(to, form)
    with Bar() as bar:
        setting, problems = open_setting(job, home, bar, altitude)
        kept, words = read_ads(setting, job, [], "", bar)
        chosen = ad_named([each.ad for each in kept], ad)
        shown = {each.ad.id for each in pasted_together(setting.library, kept, chosen.id)}
        rankings, _ = rankings_of(setting, seats_of(setting, unit), kept, words, "total", bar, job)
        found = [(each, one) for each in rankings for one in (*each.entries, *each.stopped) if one.read.ad.id in shown]
        if not found:
            raise InputError(
                f"ad {chosen.id} names no unit or machine of the catalog that has to do with this job", "interchange find WORDS"
            )
        page = for_seller(setting, found) if reader == SELLER else to_take_along(setting, found)
    tell_problems([str(problem) for problem in problems])
    tell_remarks([str(problem) for problem in setting.remarks])
    target = to or Path(f"sheet-{chosen.id}-{reader}.{written}")
    write_whole(target, lambda: rendered(page, written, paper))
    typer.echo(f"{target}: {_what(reader)}.")


def _what(reader: str) -> str:
    if reader == SELLER:
        return "what the seller can check, without a word of you, your other ads or your figures"
    return "to take along; it says what you would pay, so keep it to yourself"


def _format(to: Path | None, form: str | None) -> str:
    """The format asked for, or the one the file's name ends with, or a page."""
    asked = form or (to.suffix.removeprefix(".").lower() if to and to.suffix else "html")
    if asked not in FORMATS:
        raise InputError(f"a sheet cannot be written as {asked!r}", "write html, md or pdf")
    return FORMATS[asked]


def for_seller(setting: Setting, found: list[tuple[Ranking, Entry]]) -> Page:
    """The page for the seller of an ad, for every dead unit it has to do with."""
    from interchange.sheets.seller_sheet import seller_sheet

    title = _ad_title(found[0][1])
    return seller_sheet(title, [_wanted(setting, ranking, entry) for ranking, entry in found])


def _ad_title(entry: Entry) -> str:
    """The ad's first words as its seller wrote them, whatever the user noted under it."""
    return next((line.strip() for line in entry.read.ad.text.splitlines() if line.strip()), "")


def _first(setting: Setting, ranking: Ranking, entry: Entry) -> Iterator[tuple[str, str, str]]:
    """(what to ask, the answer hoped for, what it is worth) of the questions that `ask` finds the best."""
    from interchange.ask_commands import askings_of
    from interchange.sheets.ask import worth_text
    from interchange.sheets.message import hoped, wording

    library = setting.library
    for asking in askings_of(setting, [ranking.only({entry.read.ad.id})]):
        for one in asking.chosen:
            yield wording(one.question, library), hoped(one.question, library), worth_text(one)


def _wanted(setting: Setting, ranking: Ranking, entry: Entry) -> Wanted:
    from interchange.fit.case import Suppliers
    from interchange.money.rank import pair_of
    from interchange.sheets.checks import checks, told_forms
    from interchange.sheets.seller_sheet import Wanted

    seat, plan = ranking.seat, entry.likeliest.plan
    case, donor = pair_of(seat, entry)
    suppliers = Suppliers(
        dataclasses.replace(case, height=None), donor, plan.suppliers
    )  # how high one lives is nobody's business
    kind = seat.case.kind
    first = tuple((what, hoped) for what, hoped, _ in _first(setting, ranking, entry))
    tells = told_forms([candidate.form.tell for candidate in entry.candidates]) if len(entry.candidates) > 1 else ()
    return Wanted(kind.title, first, tells, tuple(checks(suppliers, plan)), tuple(_tests(setting, kind.id)), "fuel" in kind.slots)


def _tests(setting: Setting, kind: str) -> Iterator[tuple[str, str]]:
    """The tests of health the catalog knows for a kind, and how each is made."""
    from interchange.catalog.health import HealthTest

    for record in setting.library.records("health_tests"):
        test = record.value
        if isinstance(test, HealthTest) and test.kind == kind and test.how:
            yield test.title, test.how


def to_take_along(setting: Setting, found: list[tuple[Ranking, Entry]]) -> Page:
    """The page to take along to an ad."""
    from interchange.sheets.take_along import take_along

    spent = setting.job.spent
    return take_along([_stop(setting, ranking, entry) for ranking, entry in found], spent.text if spent else "")


def _stop(setting: Setting, ranking: Ranking, entry: Entry) -> Stop:
    from interchange.fit.case import Suppliers
    from interchange.money.rank import pair_of
    from interchange.sheets.checks import checks
    from interchange.sheets.take_along import Stop

    plan = entry.likeliest.plan
    suppliers = Suppliers(*pair_of(ranking.seat, entry), plan.suppliers)
    first = tuple(_first(setting, ranking, entry))
    return Stop(ranking.seat, entry, suppliers, first, tuple(checks(suppliers, plan)), tuple(_dots(ranking, entry)))


def _dots(ranking: Ranking, mine: Entry) -> Iterator[Dot]:
    """Every ad that goes in and whose total is known, by its place."""
    from interchange.money.odds import what_to_expect
    from interchange.sheets.total_plot import Dot

    for place, entry in enumerate(ranking.entries, 1):
        if not entry.bill.complete and entry is not mine:
            continue
        may_be = what_to_expect(entry.bill.odds)
        yield Dot(str(place), entry.works, entry.bill.mean_cents, may_be.low, may_be.high, marked=entry is mine)


def rendered(page: Page, written: str, paper: str) -> bytes:
    """A page as the content of a file: html, md or pdf. Raises InputError for a paper that is none."""
    if written == "html":
        from interchange.sheets.page_html import html

        return html(page).encode()
    if written == "md":
        from interchange.sheets.page_markdown import markdown

        return markdown(page).encode()
    from interchange.sheets.page_pdf import paged
    from interchange.sheets.tiles import paper_named

    return paged(page, paper_named(paper))
