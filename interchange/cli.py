"""The command line: it parses, calls, prints and exits. Everything heavy is imported by the command that needs it."""

from __future__ import annotations

import io
import os
import sys
from pathlib import Path
from typing import Annotated, Any

import typer

from interchange.errors import FileProblemsError, InputError

app = typer.Typer(
    name="interchange",
    help="What goes into a machine with a dead engine, pump, gearbox or axle: ads ranked by fit, haul and price. Works offline.",
    no_args_is_help=True,
    rich_markup_mode=None,  # plain help: 90 ms to start instead of 190
    pretty_exceptions_enable=False,
    add_completion=False,
)
catalog_app = typer.Typer(help="Check, show and add to the catalog.", no_args_is_help=True, rich_markup_mode=None)
app.add_typer(catalog_app, name="catalog")


def _version(asked: bool) -> None:  # noqa: FBT001 - typer calls it with the flag
    if asked:
        from importlib.metadata import version

        typer.echo(f"interchange {version('interchange')}")
        raise typer.Exit


@app.callback()
def options(
    version: Annotated[
        bool, typer.Option("--version", callback=_version, is_eager=True, help="Print the version and exit.")
    ] = False,
) -> None:
    """What goes into a machine with a dead engine, pump, gearbox or axle: ads ranked by fit, haul and price. Works offline."""


JobFolder = Annotated[Path, typer.Argument(metavar="JOB", help="The job's folder, with a job.yaml in it.")]
HomeOption = Annotated[
    Path | None, typer.Option("--home", metavar="FILE", help="The home file; else the nearest home.yaml above the job.")
]
JsonOption = Annotated[bool, typer.Option("--json", help="Print JSON for a program to read.")]
AltitudeOption = Annotated[
    str | None,
    typer.Option("--altitude", metavar="HEIGHT", help="How high the machine works, such as 5,200 ft; else the home's."),
]
UnitOption = Annotated[str | None, typer.Option("--unit", metavar="SEAT", help="Only this dead unit, such as engine.")]


@app.command()
def rank(
    job: JobFolder,
    ads: Annotated[
        list[str] | None, typer.Argument(metavar="[ADS]...", help="Files of pasted ads, or - for standard input.")
    ] = None,
    by: Annotated[str, typer.Option("--by", help="What to rank by: total, fit, haul or price.")] = "total",
    unit: UnitOption = None,
    home: HomeOption = None,
    altitude: AltitudeOption = None,
    explain: Annotated[
        str | None, typer.Option("--explain", metavar="AD", help="Show one ad as it was read, each field marked in its text.")
    ] = None,
    json: JsonOption = False,
) -> None:
    """Rank pasted ads for each dead unit: the job's own, or those of the files named."""
    if explain is not None:
        from interchange import explain_commands

        explain_commands.explain(job, ads or [], explain, unit=unit, home=home, json=json)
        return
    from interchange import commands

    commands.rank(job, ads or [], by=by, unit=unit, home=home, altitude=altitude, json=json)


@app.command()
def paste(job: JobFolder) -> None:
    """Keep ads pasted on standard input in the job, dated, exactly as pasted."""
    from interchange import commands

    commands.paste(job)


@app.command()
def fit(
    job: JobFolder,
    donor: Annotated[str, typer.Argument(metavar="DONOR", help="A unit, unit.variant or machine of the catalog, or an ad's id.")],
    unit: UnitOption = None,
    home: HomeOption = None,
    altitude: AltitudeOption = None,
    json: JsonOption = False,
) -> None:
    """Show one pair in full: every dimension, the plan, and for an ad what it comes to."""
    from interchange import fit_commands

    fit_commands.fit(job, donor, unit=unit, home=home, altitude=altitude, json=json)


@app.command()
def donors(
    job: JobFolder,
    most: Annotated[int, typer.Option("--most", metavar="N", min=1, max=1000, help="How many to show.")] = 20,
    unit: UnitOption = None,
    home: HomeOption = None,
    altitude: AltitudeOption = None,
    json: JsonOption = False,
) -> None:
    """What in the catalog goes in, cheapest first: exact, without an ad."""
    from interchange import fit_commands

    fit_commands.donors(job, most=most, unit=unit, home=home, altitude=altitude, json=json)


@app.command()
def haul(
    job: JobFolder,
    place: Annotated[str, typer.Argument(metavar="PLACE", help="Where it stands: town and state, or ZIP.")],
    what: Annotated[
        str | None, typer.Option("--what", metavar="ID", help="A unit or machine of the catalog; else one like the dead unit.")
    ] = None,
    unit: UnitOption = None,
    weight: Annotated[
        str | None, typer.Option("--weight", metavar="WEIGHT", help="As it travels, such as 900 lb; else the catalog's.")
    ] = None,
    size: Annotated[
        str | None, typer.Option("--size", metavar="L x W x H", help="As it travels, such as 48 x 40 x 42 in.")
    ] = None,
    seller: Annotated[
        str | None, typer.Option("--seller", metavar="END", help="What stands there: dock, terminal, street, house or farm.")
    ] = None,
    home: HomeOption = None,
    json: JsonOption = False,
) -> None:
    """What fetching something from a place costs, way by way, and what limits the rig."""
    from interchange import haul_commands

    fetched = haul_commands.Fetched(what, unit, weight, size, seller)
    haul_commands.haul(job, place, fetched, home=home, json=json)


@app.command()
def ask(
    job: JobFolder,
    ad: Annotated[str | None, typer.Argument(metavar="[AD]", help="An ad's id; without it, all ads are weighed.")] = None,
    unit: UnitOption = None,
    home: HomeOption = None,
    json: JsonOption = False,
) -> None:
    """What to ask a seller, ready to send; without an ad, which single question is worth asking first."""
    from interchange import ask_commands

    ask_commands.ask(job, ad, unit=unit, home=home, json=json)


@app.command()
def ways(
    job: JobFolder,
    home: HomeOption = None,
    altitude: AltitudeOption = None,
    json: JsonOption = False,
) -> None:
    """Ways out compared: mend, rebuild, buy, take a donor, part out, sell, wait; and what would change the choice."""
    from interchange import ways_commands

    ways_commands.ways(job, home=home, altitude=altitude, json=json)


@app.command()
def find(
    words: Annotated[list[str], typer.Argument(metavar="WORDS...", help="A name, or part of one.")],
    home: HomeOption = None,
    json: JsonOption = False,
) -> None:
    """Search the catalog by name."""
    from interchange import commands

    commands.find(" ".join(words), home=home, json=json)


def _reading(flag: str, words: str) -> Any:  # noqa: ANN401 - what typer.Option says it gives
    """A flag for one reading off a part."""
    return typer.Option(flag, metavar="READING", help=words)


@app.command()
def identify(
    part: Annotated[
        str | None,
        typer.Option("--part", help="Which part it is: housing, flywheel, pump-flange, port, pump-shaft, pto-shaft, …"),
    ] = None,
    holes: Annotated[str | None, _reading("--holes", "Face: bolt holes, dowels left out.")] = None,
    adjacent: Annotated[str | None, _reading("--adjacent", "Face: between neighbouring holes.")] = None,
    skip_one: Annotated[str | None, _reading("--skip-one", "Face: from a hole to the next but one.")] = None,
    opposite: Annotated[str | None, _reading("--opposite", "Face: between the holes farthest apart.")] = None,
    circle: Annotated[str | None, _reading("--circle", "Face: the bolt circle, where somebody gives it.")] = None,
    bore: Annotated[str | None, _reading("--bore", "Face: the recess that centres it.")] = None,
    spigot: Annotated[str | None, _reading("--spigot", "Face: the raised shoulder that centres it.")] = None,
    flange: Annotated[str | None, _reading("--flange", "Face: across the outside of the flange.")] = None,
    depth: Annotated[str | None, _reading("--depth", "Flywheel: housing face to drive face.")] = None,
    long_spacing: Annotated[str | None, _reading("--long-spacing", "Port: long side of its four holes.")] = None,
    short_spacing: Annotated[str | None, _reading("--short-spacing", "Port: short side.")] = None,
    teeth: Annotated[str | None, _reading("--teeth", "Shaft: splines.")] = None,
    od: Annotated[str | None, _reading("--od", "Shaft: outside diameter.")] = None,
    root: Annotated[str | None, _reading("--root", "Shaft: root diameter.")] = None,
    width: Annotated[str | None, _reading("--width", "Shaft: key, or straight-sided tooth.")] = None,
    upper_pin: Annotated[str | None, _reading("--upper-pin", "Hitch: upper pin.")] = None,
    lower_pin: Annotated[str | None, _reading("--lower-pin", "Hitch: lower pin.")] = None,
    spread: Annotated[str | None, _reading("--spread", "Hitch: between the lower points.")] = None,
    mast: Annotated[str | None, _reading("--mast", "Hitch: lower points up to the upper one.")] = None,
    read: Annotated[
        str,
        typer.Option("--read", metavar="HOW", help="How lengths were read where they do not say: tape, caliper, depth gauge."),
    ] = "tape",
    cannot: Annotated[
        list[str] | None, typer.Option("--cannot", metavar="READING", help="A reading that cannot be taken; may be repeated.")
    ] = None,
    home: HomeOption = None,
    json: JsonOption = False,
) -> None:
    """Which pattern, shaft, port or hitch do these readings belong to? A reading: '16-7/8 in', '3.25 in, caliper'. Bare: asks."""
    from interchange import identify_commands

    given = {
        "holes": holes, "adjacent": adjacent, "skip-one": skip_one, "opposite": opposite, "circle": circle, "bore": bore,
        "spigot": spigot, "flange": flange, "depth": depth, "long-spacing": long_spacing, "short-spacing": short_spacing,
        "teeth": teeth, "od": od, "root": root, "width": width, "upper-pin": upper_pin, "lower-pin": lower_pin,
        "spread": spread, "mast": mast,
    }  # fmt: skip
    identify_commands.read_part(given, part=part, by=read, cannot=cannot or [], home=home, json=json)


@app.command()
def template(
    a: Annotated[str, typer.Argument(metavar="A", help="A pattern's id, unit.slot.feature or machine.seat.feature.")],
    b: Annotated[str | None, typer.Argument(metavar="[B]", help="Another face: the plate that joins A to it.")] = None,
    paper: Annotated[str, typer.Option("--paper", help="letter or a4.")] = "letter",
    to: Annotated[Path | None, typer.Option("--to", metavar="FILE", help="The PDF to write; else template-A.pdf.")] = None,
    svg: Annotated[Path | None, typer.Option("--svg", metavar="FILE", help="Write it as one SVG figure too.")] = None,
    dxf: Annotated[
        Path | None, typer.Option("--dxf", metavar="FILE", help="Write it as DXF too, a layer for each operation.")
    ] = None,
    joint: Annotated[
        str | None, typer.Option("--joint", metavar="KIND.JOINT", help="Which joint the plate stands in, such as engine.gearbox.")
    ] = None,
    thick: Annotated[str | None, typer.Option("--thick", metavar="LENGTH", help="How thick the plate is to be.")] = None,
    home: HomeOption = None,
) -> None:
    """A bolt face at true size on paper, over as many sheets as it takes; of two faces, the plate that joins them."""
    from interchange import template_commands

    template_commands.template(a, b, paper=paper, to=to, dxf=dxf, svg=svg, joint=joint, thick=thick, home=home)


@app.command()
def sheet(
    job: JobFolder,
    ad: Annotated[str, typer.Argument(metavar="AD", help="The ad's id, or its beginning.")],
    reader: Annotated[
        str, typer.Option("--for", metavar="WHO", help="buyer: to take along. seller: what the seller can check for you.")
    ] = "buyer",
    to: Annotated[Path | None, typer.Option("--to", metavar="FILE", help="The file to write; else sheet-AD-WHO.html.")] = None,
    form: Annotated[
        str | None, typer.Option("--format", metavar="FORMAT", help="html, md or pdf; else what the file's name ends with.")
    ] = None,
    paper: Annotated[str, typer.Option("--paper", help="For pdf: letter or a4.")] = "letter",
    unit: UnitOption = None,
    home: HomeOption = None,
    altitude: AltitudeOption = None,
) -> None:
    """One ad as a page, Markdown or PDF: for its seller to check, or to take along."""
    from interchange import sheet_commands

    sheet_commands.sheet(job, ad, reader=reader, to=to, form=form, paper=paper, unit=unit, home=home, altitude=altitude)


@app.command()
def start(folder: Annotated[Path, typer.Argument(metavar="FOLDER", help="A folder that is not there yet, or is empty.")]) -> None:
    """Make a home with a worked job to try."""
    from interchange import commands

    commands.start(folder)


@app.command()
def guide(
    page: Annotated[
        str | None, typer.Argument(metavar="[PAGE]", help="A page of the manual; without one they are listed.")
    ] = None,
) -> None:
    """The manual, offline."""
    from interchange import guide_commands

    guide_commands.guide(page)


@catalog_app.command()
def check(
    paths: Annotated[
        list[Path] | None, typer.Argument(metavar="[PATHS]...", help="Files or folders; else the home's own catalog.")
    ] = None,
    home: HomeOption = None,
) -> None:
    """Check catalog files: every mistake with its place and how to mend it. Exit 1 where there are any."""
    from interchange.catalog_commands import check_paths

    raise typer.Exit(check_paths(tuple(paths or ()), home))


@catalog_app.command()
def show(
    name: Annotated[str, typer.Argument(metavar="ID", help="An id of the catalog.")],
    home: HomeOption = None,
) -> None:
    """Show one record as the program reads it, each figure with its origin."""
    from interchange.catalog_commands import show_record

    show_record(name, home)


@catalog_app.command()
def new(
    name: Annotated[str | None, typer.Argument(metavar="[ID]", help="The new id; else one made of what the ad names.")] = None,
    kind: Annotated[
        list[str] | None, typer.Option("--kind", metavar="KIND", help="Its kind, such as engine; of a machine, of each seat.")
    ] = None,
    machine: Annotated[bool, typer.Option("--machine", help="Make a machine, with a seat for each kind.")] = False,
    title: Annotated[str, typer.Option("--title", metavar="TITLE", help="What people call it.")] = "",
    maker: Annotated[str, typer.Option("--maker", metavar="MAKER", help="Who made it.")] = "",
    job: Annotated[Path | None, typer.Option("--job", metavar="JOB", help="The job whose ad it is begun from.")] = None,
    ad: Annotated[str | None, typer.Option("--ad", metavar="AD", help="The ad it is begun from.")] = None,
    home: HomeOption = None,
) -> None:
    """Begin a unit or machine of your own: a new file in your catalog, with a line to fill in for everything its kind has."""
    from interchange import catalog_new_commands as commands

    commands.new(commands.Wanted(name or "", tuple(kind or ()), machine, title, maker), home=home, job=job, ad=ad)


@catalog_app.command()
def schema(
    write: Annotated[Path | None, typer.Option("--write", metavar="FILE", help="Write it there instead of printing it.")] = None,
) -> None:
    """Print the JSON Schema of catalog files, by which an editor knows what may be written."""
    from interchange import catalog_new_commands as commands

    commands.schema(write)


def main(arguments: list[str] | None = None) -> None:
    """Run the program. A wrong call or input ends with one line for each fault and exit code 2, never with a traceback."""
    for stream in (sys.stdout, sys.stderr):
        if isinstance(stream, io.TextIOWrapper):
            stream.reconfigure(errors="replace")  # a terminal that has no “ or – is still told the rest
    try:
        try:
            app(args=arguments)
        finally:
            sys.stdout.flush()  # here, where a reader that went away or a full disk can still be answered
    except FileProblemsError as error:
        for problem in error.problems:
            typer.echo(str(problem), err=True)
        sys.exit(2)
    except InputError as error:
        typer.echo(f"interchange: {error}", err=True)
        sys.exit(2)
    except BrokenPipeError:  # the reader has seen enough, as head does
        _forget_output()
        sys.exit(0)
    except OSError as error:
        _forget_output()
        typer.echo(f"interchange: {error.strerror or error} (check the disk and the rights)", err=True)
        sys.exit(2)


def _forget_output() -> None:
    """Send what is left of the output nowhere, so that Python's own flush at the end does not fail again."""
    os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())


if __name__ == "__main__":
    main()
