"""The sheets in a real browser: nothing asked of the network, no word on the console, no sideways scroll, readable by anyone.

Pictures and prints are kept in tests/output/sheets, to be looked at.
"""

import importlib.util
import itertools
import json
import shutil
import subprocess
import sys
from importlib import resources
from pathlib import Path
from typing import NamedTuple

import pytest

ROOT = Path(__file__).parents[2]
OUTPUT = ROOT / "tests" / "output" / "sheets"
spec = importlib.util.spec_from_file_location("browser", Path(__file__).with_name("browser.py"))
browser = importlib.util.module_from_spec(spec)
spec.loader.exec_module(browser)

pytestmark = pytest.mark.skipif(browser.CHROMIUM is None, reason=browser.WHY_NOT)
PHONE, DESK = 360, 1000
MOST_PAGES = {"seller": 4, "buyer": 14}
HOSTILE = (
    "<script>document.title='taken'</script> \"Brackmoor\" B440 'engine' & more, $1,500 🚜🔧\n"
    "Complete tractor engine out of a running machine, turns by hand, good oil pressure, sold with everything on it.\n"
    '<img src="https://outside.example/x.png" onerror="alert(1)"> --> ]]> </style></svg></title>\n'
    "Barre, VT\n"
    "מנוע טרקטור \u202edesrever محرك\n"
    "javascript:alert(2) http://outside.example/ [a](b) `code` ${x} {{ 7*7 }} {% raw %}\n"
    + "good engine " * 900
    + "long" * 2500
    + "\n"
)
SHEETS = {
    "seller engine": ("jobs/pit-loader", "rtec", "seller"),
    "buyer plate": ("jobs/hill-tractor", "ch39", "buyer"),
    "buyer two units": ("jobs/pit-loader", "2dzc", "buyer"),
    "seller hostile": ("jobs/hill-tractor", None, "seller"),
    "buyer hostile": ("jobs/hill-tractor", None, "buyer"),
}


def interchange(shop, *arguments):
    environment = {"PATH": "/usr/bin:/bin", "HOME": str(shop), "PYTHONPATH": str(ROOT), "INTERCHANGE_CACHE": str(shop / "cache")}
    command = [sys.executable, "-m", "interchange.cli", *map(str, arguments)]
    ran = subprocess.run(command, env=environment, cwd=shop, capture_output=True, text=True, encoding="utf-8", check=False)
    assert ran.returncode == 0, ran.stderr
    return ran.stdout


@pytest.fixture(scope="module")
def shop(tmp_path_factory):
    """The demo, with a hostile ad pasted too."""
    folder = tmp_path_factory.mktemp("browsed") / "shop"
    shutil.copytree(ROOT / "catalog" / "demo", folder)
    (folder / "jobs/hill-tractor/ads/2026-11-20.txt").write_text(HOSTILE, encoding="utf-8")
    return folder


@pytest.fixture(scope="module")
def hostile(shop):
    ranked = json.loads(interchange(shop, "rank", "jobs/hill-tractor", "--json"))["seats"][0]
    return next(each["ad"] for each in ranked["ranked"] if "2026-11-20" in each["source"])


@pytest.fixture(scope="module")
def pages(shop, hostile):
    """Every sheet as a file."""
    made = {}
    for name, (job, ad, reader) in SHEETS.items():
        made[name] = shop / f"{name.replace(' ', '-')}.html"
        interchange(shop, "sheet", job, ad or hostile, "--for", reader, "--to", made[name])
    return made


@pytest.fixture(scope="module")
def chromium(tmp_path_factory):
    OUTPUT.mkdir(parents=True, exist_ok=True)
    with browser.Browser(tmp_path_factory.mktemp("profile")) as opened:
        yield opened


class Seen(NamedTuple):
    """All that is looked at of one page at one width: it is opened once."""

    complaints: list
    requests: list
    scroll: int
    beyond: int
    small: int
    levels: list
    tiny_words: list
    unnamed: int
    broken: list
    held: set


BEYOND = "e => e.getBoundingClientRect().right > innerWidth + 0.5 && !e.closest('thead, svg')"
SMALL = "e => parseFloat(getComputedStyle(e).fontSize) < 14"
TINY = "[...document.querySelectorAll('svg text')].filter(t => t.getBoundingClientRect().height < 8).map(t => t.textContent)"
AXE = "axe.run().then(r => [r.violations.map(v => [v.id, v.nodes.length, v.nodes[0].html]), r.passes.map(v => v.id)])"


@pytest.fixture(scope="module", params=[(name, width) for name in SHEETS for width in (PHONE, DESK)], ids=str)
def seen(request, chromium, pages):
    name, width = request.param
    page = chromium.open(pages[name], width)
    complaints, requests = page.complaints(), page.requests()
    (OUTPUT / f"{name.replace(' ', '-')}-{width}.png").write_bytes(page.picture())
    page.run(resources.files("axe_core_python").joinpath("axe.min.js").read_text(encoding="utf-8") + ";0")
    broken, held = page.run(AXE)
    return Seen(
        complaints,
        requests,
        page.run("document.documentElement.scrollWidth - innerWidth"),
        page.run(f"[...document.querySelectorAll('body *')].filter({BEYOND}).length"),
        page.run(f"[...document.querySelectorAll('p, li, td, th, figcaption')].filter({SMALL}).length"),
        page.run("[...document.querySelectorAll('h1, h2, h3, h4')].map(h => +h.tagName[1])"),
        page.run(TINY),
        page.run("[...document.querySelectorAll('svg')].filter(s => s.getAttribute('aria-label').length < 10).length"),
        broken,
        set(held),
    )


def test_it_opens_in_quiet(seen):
    assert seen.complaints == []
    assert seen.requests == []


def test_nothing_has_to_be_scrolled_sideways(seen):
    assert seen.scroll <= 0
    assert seen.beyond == 0


def test_letters_are_large_enough(seen):
    assert seen.small == 0
    assert seen.tiny_words == []


def test_anyone_can_read_it(seen):
    """By axe-core's rules, WCAG 2 A and AA and its best practices: contrast, names of pictures, headings, tables."""
    assert seen.broken == []
    assert {"color-contrast", "svg-img-alt", "heading-order", "page-has-heading-one", "html-has-lang"} <= seen.held
    assert seen.levels.count(1) == 1
    assert all(later - earlier <= 1 for earlier, later in itertools.pairwise(seen.levels))
    assert seen.unnamed == 0


def test_what_is_wrong_would_be_seen(chromium, tmp_path):
    """What the tests above rest on."""
    path = tmp_path / "bad.html"
    bad = (
        '<script>console.error("oh")</script><img src="gone.png"><p style="width: 500px; color: #ccc">far <svg role="img"></svg>'
    )
    path.write_text(f"<!DOCTYPE html><title>bad</title>{bad}", encoding="utf-8")
    page = chromium.open(path, PHONE)
    assert len(page.complaints()) == 2
    assert [url.rpartition("/")[2] for url in page.requests()] == ["gone.png"]
    assert page.run("document.documentElement.scrollWidth") > PHONE
    page.run(resources.files("axe_core_python").joinpath("axe.min.js").read_text(encoding="utf-8") + ";0")
    broken = {rule for rule, *_ in page.run(AXE)[0]}
    assert {"color-contrast", "svg-img-alt", "html-has-lang", "image-alt"} <= broken


@pytest.mark.parametrize("name", SHEETS)
def test_it_prints(chromium, pages, name):
    page = chromium.open(pages[name], DESK)
    printed = page.printed()
    assert printed.startswith(b"%PDF")
    (OUTPUT / f"{name.replace(' ', '-')}-printed.pdf").write_bytes(printed)
    assert printed.count(b"/Type /Page\n") <= MOST_PAGES[name.partition(" ")[0]]
    page.tell("Emulation.setEmulatedMedia", media="print")
    headings = "[...document.querySelectorAll('thead')].map(each => getComputedStyle(each).position)"
    assert set(page.run(headings)) <= {"static"}


@pytest.mark.parametrize("reader", ["seller", "buyer"])
def test_a_hostile_ad_is_text(chromium, pages, reader):
    page = chromium.open(pages[f"{reader} hostile"], PHONE)
    assert page.run("document.title") != "taken"
    assert page.run("document.querySelectorAll('script, img, iframe, form, a').length") == 0
    shown = page.run("document.body.innerText")
    assert """<script>document.title='taken'</script> "Brackmoor" B440 'engine' & more""" in shown
    assert "🚜🔧" in shown
    if reader == "buyer":
        assert "long" * 2500 in shown
        assert "javascript:alert(2) http://outside.example/ [a](b) `code` ${x} {{ 7*7 }} {% raw %}" in shown
        assert "מנוע טרקטור" in shown
        assert "\u202e" not in shown
