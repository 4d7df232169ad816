"""`rank --explain AD` and one's own lines under an ad, as they are used."""

import json

import pytest

AD = """Tolvane T412 engine, complete
$2,200 or best offer
Concord, NH
Good running take-out. <b>No</b> smoke \x1b[31m.
"""


@pytest.fixture
def job(own_shop):
    folder = own_shop / "jobs" / "pit-loader"
    for old in (folder / "ads").glob("*.txt"):
        old.unlink()
    return folder


PRICE = {"kind": "asked", "asked": 1900.0, "currency": "USD", "terms": None, "wants": None}


def lay(job, *lines, ad=AD):
    (job / "ads" / "2026-11-01.txt").write_text(ad + "".join(f"{line}\n" for line in lines), encoding="utf-8")


def entry_of(run, job):
    ran = run("rank", job, "--unit", "engine", "--json")
    seat = json.loads(ran.out)["seats"][0]
    (entry,) = seat["ranked"]
    return entry, ran


def test_an_ad_is_shown_with_its_fields_in_brackets(run, job):
    lay(job)
    shown = run("rank", job, "--explain", entry_of(run, job)[0]["ad"], "--unit", "engine").out
    assert "[$2,200]" in shown
    assert "[Concord, NH]" in shown
    assert "Chance that it needs no internal work" in shown
    assert "\x1b" not in shown


def test_explained_json_points_into_the_text(run, job):
    lay(job, "@ 2026-11-02 price: $1,900")
    found = json.loads(run("rank", job, "--explain", entry_of(run, job)[0]["ad"], "--json").out)
    placed = [field for field in found["fields"] if field["end"] is not None]
    assert placed
    assert all(found["text"][field["start"] : field["end"]] == field["text"] for field in placed if field["field"] == "place")
    assert [line["word"] for line in found["lines"]] == ["price"]


@pytest.mark.parametrize(
    ("lines", "key", "value"),
    [
        pytest.param(["@ 2026-11-02 price: $1,900"], "price", PRICE, id="price"),
        pytest.param(["@ 2026-11-02 place: Barre, VT"], "place", "Barre, VT", id="place"),
        pytest.param(["@ 2026-11-02 offer: long block"], "offer", "long_block", id="offer"),
    ],
)  # fmt: skip
def test_ones_own_lines_change_what_is_ranked(run, job, lines, key, value):
    lay(job, *lines)
    assert entry_of(run, job)[0][key] == value


def test_what_it_is(run, job):
    lay(job, "@ 2026-11-02 is: hestrel-h52d.loader")
    (form,) = entry_of(run, job)[0]["forms"]
    assert (form["unit"], form["variant"]) == ("hestrel-h52d", "loader")


def test_readings_and_silence_are_factors(run, job):
    lay(job, "@ 2026-11-02 asked: plate photo", "@ 2026-11-02 reading: compression 200, 400, 390, 395 psi")
    entry, _ = entry_of(run, job)
    assert [factor["ratio"] for factor in entry["factors"]][2:] == [0.1, 0.8]
    lay(job, "@ 2026-11-02 asked: plate photo", "@ 2026-11-03 answered: plate photo: sent")
    better, _ = entry_of(run, job)
    assert better["good"] > entry["good"]


@pytest.mark.parametrize(
    ("line", "said"),
    [
        pytest.param("@ 2026-11-02 prise: $5", "2026-11-01.txt:5:14: nothing is noted under 'prise' (did you mean 'price'?)",
                     id="misspelt"),
        pytest.param("@ 2026-11-02 price: cheap", "2026-11-01.txt:5:1: 'cheap' is no price", id="no price"),
        pytest.param("@ 2026-11-02 is: tolvane-t412x", "did you mean 'tolvane-t412'?", id="no such unit"),
    ],
)  # fmt: skip
def test_a_line_that_cannot_be_followed_is_told_and_the_ad_is_ranked(run, job, line, said):
    lay(job, line)
    entry, ran = entry_of(run, job)
    assert said in ran.err
    assert entry["price"]["asked"] == 2200.0


def test_an_id_that_no_ad_has(run, job):
    lay(job)
    ran = run("rank", job, "--explain", "zzzz", code=2)
    assert "no ad's id begins with 'zzzz'" in ran.err
