"""The seller's sheet holds nothing of the home, the job, one's own lines or other ads: every one of them filled with a marker."""

import base64
import json
import re
import zlib
from html.parser import HTMLParser

import pytest

HOME = """\
place: "Ely, NV"
catalog: [catalog]
rates:
  own_hour: $36.17
  hold_day: $13.19
  driving_hour: $21.31
  selling_fee: 7.3 %
  discount_month: 1.7 %
  scrap_ton: $143
  sales_tax: 6.85 %
at_home: farm
altitude: 6,427 ft
rig:
  vehicle:
    gvwr: 9,917 lb
    gcwr: 20,113 lb
    curb: 6,653 lb
    payload: 3,119 lb
    tow: 13,127 lb
    hitch: 14,033 lb
    ball: 2-5/16 in
  trailer:
    gvwr: 14,029 lb
    own_weight: 3,433 lb
    deck_length: 19 ft
    tie_downs: 4
    tie_down_rating: 5,413 lb
  cost_mile: $0.97-1.57
"""
JOB = """\
title: "Zzyzx job title"
machine: dunmarrow-rl90
dead:
  engine:
    unit: hestrel-h52d.loader
    broke: "zzyzx broke thrown rod"
    usable: [housing, flywheel, starter, nose, fuel]
    proof: "zzyzx proof"
  pump: {unit: lissander-l20, broke: "zzyzx pump", proof: "zzyzx proof of the pump", usable: []}
spent: $1,913
quotes:
  - {place: "Concord, NH", amount: "$2,719", who: "Zzyzx haulier", date: 2026-11-02}
note: "zzyzx note of the job"
"""
AD = """\
Tolvane T412 diesel, industrial, side mounts
Good running take-out from a backhoe, ran good when pulled. 4,300 hours. Stamped pan.
Concord, NH. Can help load.
@ 2026-11-20 price: $1,877 obo
@ 2026-11-20 asked: zzyzx asked
@ 2026-11-21 answered: zzyzx asked: zzyzx answered
@ 2026-11-21 reading: compression 411, 402, 397, 405 psi
@ 2026-11-21 photo: zzyzx photo
@ 2026-11-22 note: zzyzx note, offer him $1,555
@ 2026-11-22 place: Gabbs, NV
@ 2026-11-22 hours: 4,444
"""
OTHER = """\
Hestrel H52D loader engine zzyzx other, runs good, complete with everything
$2,468
Barre, VT
"""
ENGINE, MACHINE = "hestrel-h52d", "dunmarrow"
MARKERS = (
    "zzyzx", "Ely", "Nevada", "NV", "36.17", "13.19", "21.31", "7.3", "1.7 %", "143", "6.85", "farm", "6,427", "6427", "9,917",
    "20,113", "6,653", "3,119", "13,127", "14,033", "14,029", "3,433", "5,413", "0.97", "1.57", "1,913", "2,719", "1,877",
    "1,555", "411", "4,444", "Gabbs", "2,468", "Barre", ENGINE, MACHINE, "hestrel", "Lissander L20", "$", "thrown rod", "2026",
    "walk away", "walk-away", "expected", "rank", "bill", "chance",
)  # fmt: skip


@pytest.fixture
def job(own_shop):
    folder = own_shop / "jobs" / "pit-loader"
    (own_shop / "home.yaml").write_text(HOME, encoding="utf-8")
    (folder / "job.yaml").write_text(JOB, encoding="utf-8")
    for old in (folder / "ads").iterdir():
        old.unlink()
    (folder / "ads" / "2026-11-16.txt").write_text(AD, encoding="utf-8")
    (folder / "ads" / "2026-11-17.txt").write_text(OTHER, encoding="utf-8")
    return folder


class Words(HTMLParser):
    """What a page says: its text, and what is read out or shown of its tags."""

    def __init__(self):
        super().__init__()
        self.said, self.quiet = [], False

    def handle_starttag(self, tag, attrs):
        self.quiet = tag == "style"
        self.said += [value for name, value in attrs if name in {"aria-label", "data-of", "content", "title", "alt"} and value]

    def handle_endtag(self, tag):
        self.quiet = self.quiet and tag != "style"

    def handle_data(self, data):
        if not self.quiet:
            self.said.append(data)


def streams_of(content):
    """What a PDF's streams hold."""
    for stream in re.findall(rb"stream\r?\n(.*?)endstream", content, re.DOTALL):
        yield zlib.decompress(base64.a85decode(stream.strip().removesuffix(b"~>"))).decode("cp1252")


def said_in(path):
    """What a file says: its words, and its metadata."""
    content = path.read_bytes()
    if path.suffix == ".html":
        page = Words()
        page.feed(content.decode())
        return " ".join(page.said)
    if path.suffix == ".md":
        return content.decode().replace("\\", "")
    shown = [words for stream in streams_of(content) for words in re.findall(r"\(((?:\\.|[^()\\])*)\) Tj", stream)]
    told = re.findall(r"/(?:Title|Author|Subject|Keywords|Creator)\s*\(.*?\)", content.decode("latin-1"))
    assert len(shown) > 10
    assert len(told) == 5
    return " ".join(re.sub(r"\\([()\\])", r"\1", words) for words in (*shown, *told))


def found_in(path):
    """The markers in what a file says."""
    words = said_in(path)
    return {marker for marker in MARKERS if re.search(rf"(?<![\w.]){re.escape(marker)}", words, re.IGNORECASE)}


@pytest.mark.parametrize("form", ["html", "md", "pdf"])
def test_nothing_of_his_own_is_on_the_sellers_sheet(run, job, tmp_path, form):
    for ad in ("Tolvane", "Hestrel"):
        ranked = json.loads(run("rank", job, "--json", code=0).out)["seats"][0]["ranked"]
        id_ = next(each["ad"] for each in ranked if each["title"].startswith(ad))
        path = tmp_path / f"{ad}.{form}"
        out = run("sheet", job, id_, "--for", "seller", "--to", path, code=0)
        his_title = {"zzyzx"} if ad == "Hestrel" else set()
        assert found_in(path) - (his_title | {"hestrel"} if ad == "Hestrel" else set()) == set()
        if ad == "Tolvane":
            raw = path.read_bytes()
            everything = raw.decode("latin-1") + " ".join(streams_of(raw) if form == "pdf" else ())
            assert "zzyzx" not in everything.lower()
            assert "zzyzx" not in out.out.lower()
            assert "Tolvane T412 diesel" in said_in(path)


@pytest.mark.parametrize("form", ["html", "md", "pdf"])
def test_his_own_sheet_has_them(run, job, tmp_path, form):
    """The markers would be found if they were there."""
    ranked = json.loads(run("rank", job, "--json", code=0).out)["seats"][0]["ranked"]
    path = tmp_path / f"own.{form}"
    run("sheet", job, next(each["ad"] for each in ranked if each["title"].startswith("Tolvane")), "--to", path, code=0)
    assert {"zzyzx", "1,913", "$", "walk away", "expected", "dunmarrow", "bill", "chance", "2026"} <= found_in(path)


def test_nothing_of_his_own_is_in_a_message(run, job):
    """What `ask` has ready to send about every ad; only the other ad's own title has a marker in it, and is its seller's."""
    asks = json.loads(run("ask", job, "--json", code=0).out)["asks"]
    messages = {asked["title"]: asked["message"] for asked in asks if asked["message"]}
    assert any(title.startswith("Tolvane") for title in messages)
    for title, message in messages.items():
        words = message.replace(title, "")
        assert not {marker for marker in MARKERS if re.search(rf"(?<![\w.]){re.escape(marker)}", words, re.IGNORECASE)}, message
        assert "zzyzx" not in words.lower()
