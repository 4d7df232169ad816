"""`sheet` as whole commands: what it writes for whom, and what a wrong call is told."""

import re
import subprocess
import sys
from html.parser import HTMLParser

import pytest

from interchange import sheet_commands


@pytest.fixture
def here(tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    return tmp_path


class Read(HTMLParser):
    """The tags of a page with their attributes, and its text."""

    def __init__(self):
        super().__init__()
        self.tags, self.words = [], []

    def handle_starttag(self, tag, attrs):
        self.tags.append((tag, dict(attrs)))

    def handle_data(self, data):
        self.words.append(data)


def read(path):
    found = Read()
    found.feed(path.read_text(encoding="utf-8"))
    return found


@pytest.mark.parametrize(
    ("ad", "reader", "words"),
    [
        pytest.param("rtec", "seller", ["About your ad: Tolvane T412", "Count the bolt holes", "Hoped for: 8."], id="seller"),
        pytest.param(
            "rtec", "buyer", ["Walk away above $", "keep", "Adapters, work", "The bill", "Lifting: rated gear"], id="buyer"
        ),
        pytest.param("mjg4", "seller", ["About your ad: Skarrow S-28", "The engine", "The hydraulic pump"], id="of two units"),
        pytest.param("mjg4", "buyer", ["As things are known it does not go in"], id="one that stops"),
        pytest.param("dagj", "buyer", ["Lissander L20", "shaft"], id="a pump"),
    ],
)
def test_a_page(run, here, shop, ad, reader, words):
    out = run("sheet", shop / "jobs/pit-loader", ad, "--for", reader, code=0).out
    (path,) = here.iterdir()
    assert re.fullmatch(rf"sheet-{ad}\w+-{reader}\.html", path.name)
    assert path.name in out
    page = read(path)
    text = " ".join(page.words)
    for each in words:
        assert each.lower() in text.lower()
    tags = {tag for tag, _ in page.tags}
    assert not tags & {"script", "iframe", "object", "embed", "form", "img", "video", "base"}
    outside = [value for _, attributes in page.tags for name, value in attributes.items() if name in {"src", "href", "srcset"}]
    assert outside == ["data:,"]
    assert "url(" not in path.read_text(encoding="utf-8")
    assert path.stat().st_size < 150_000


@pytest.mark.parametrize(
    ("name", "begins"), [("it.html", b"<!DOCTYPE html>"), ("it.md", b"# "), ("it.pdf", b"%PDF"), ("it.MD", b"# ")]
)
def test_the_format_is_that_of_the_file(run, here, shop, name, begins):
    run("sheet", shop / "jobs/hill-tractor", "ch39", "--to", name, code=0)
    assert (here / name).read_bytes().startswith(begins)


def test_a_format_asked_for_stands_before_the_files_name(run, here, shop):
    run("sheet", shop / "jobs/hill-tractor", "ch39", "--to", "it.txt", "--format", "pdf", "--paper", "a4", code=0)
    assert b"595.2" in (here / "it.txt").read_bytes()


def test_the_same_call_gives_the_same_bytes(run, here, shop):
    for form in ("html", "md", "pdf"):
        for name in ("one", "two"):
            run("sheet", shop / "jobs/hill-tractor", "ch39", "--to", name, "--format", form, code=0)
        assert (here / "one").read_bytes() == (here / "two").read_bytes()


@pytest.mark.parametrize(
    ("arguments", "words"),
    [
        pytest.param(["ch39", "--for", "neighbour"], "there is no sheet for 'neighbour' (write one of: buyer, seller", id="who"),
        pytest.param(["ch39", "--format", "docx"], "cannot be written as 'docx' (write html, md or pdf", id="format"),
        pytest.param(["ch39", "--to", "it.docx"], "cannot be written as 'docx'", id="format by name"),
        pytest.param(["ch39", "--to", "away/it.html"], "there is no folder 'away'", id="folder"),
        pytest.param(["ch39", "--format", "pdf", "--paper", "a5"], "no paper is called 'a5'", id="paper"),
        pytest.param(["zzzz"], "no ad's id begins with 'zzzz'", id="no such ad"),
        pytest.param(["psbx"], "names no unit or machine of the catalog that has to do with this job", id="another thing"),
        pytest.param(["ch39", "--unit", "pump"], "no dead unit called 'pump'", id="no such unit"),
    ],
)
def test_wrong_calls(run, here, shop, arguments, words):
    assert words in run("sheet", shop / "jobs/hill-tractor", *arguments, code=2).err
    assert list(here.iterdir()) == []


def test_other_commands_do_not_load_what_writes_pages():
    code = (
        "import sys; from interchange import cli, commands, sheet_commands; "
        "from interchange.sheets import page, page_html, page_markdown, page_pdf, seller_sheet; "
        "print(sorted({'jinja2', 'reportlab', 'ezdxf', 'duckdb'} & set(sys.modules)))"
    )
    ran = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert ran.stdout.strip() == "[]"


@pytest.mark.long
@pytest.mark.parametrize("job", ["pit-loader", "hill-tractor"])
def test_every_ad_of_the_demo_has_both_sheets(shop, job):
    """In all three formats, whatever its verdict: nothing is missing that a sheet cannot do without."""
    from interchange.commands import rankings_of, read_ads, seats_of
    from interchange.opening import Bar, open_setting

    folder = shop / "jobs" / job
    with Bar() as bar:
        setting, _ = open_setting(folder, None, bar)
        kept, words = read_ads(setting, folder, [], "", bar)
        rankings, _ = rankings_of(setting, seats_of(setting, None), kept, words, "total", bar, folder)
    every = [(each, entry) for each in rankings for entry in (*each.entries, *each.stopped)]
    assert len(every) > 20
    for pair in every:
        for page in (sheet_commands.for_seller(setting, [pair]), sheet_commands.to_take_along(setting, [pair])):
            for form in ("html", "md", "pdf"):
                assert len(sheet_commands.rendered(page, form, "letter")) > 1000
