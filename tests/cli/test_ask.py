"""`ask` as it is used."""

import json

import pytest


def asks(run, *arguments):
    return json.loads(run("ask", *arguments, "--json", code=0).out)["asks"]


def test_the_best_three_with_a_message(run, shop):
    (asked,) = asks(run, shop / "jobs" / "pit-loader", "e3ymfenj", "--unit", "engine")
    worths = [each["worth"] for each in asked["questions"]]
    assert worths == sorted(worths, reverse=True)
    assert asked["message"].count("\n") >= 4
    shown = run("ask", shop / "jobs" / "pit-loader", "e3ymfenj", code=0).out
    assert "To send" in shown
    assert asked["questions"][0]["title"] in shown


def test_a_question_of_fit_has_its_words_and_the_figure_hoped_for(run, shop):
    asked = [each for ask in asks(run, shop / "jobs" / "pit-loader") for each in ask["questions"]]
    face = next(each for each in asked if each["id"] == "feet")
    assert "Count the bolt holes" in face["ask"]
    assert "Hoped for: 4." in face["ask"]
    depth = next(each for each in asked if each["id"] == "converter_gap")
    assert "how deep the flywheel housing is" in depth["ask"]
    assert "about 96.0 mm" in depth["hoped"]
    part = next(each for each in asked if each["id"] == "housing")
    assert part["hoped"] == "yes"
    assert {each["whom"] for each in asked} == {"seller"}


def test_over_all_ads(run, shop):
    shown = run("ask", shop / "jobs" / "pit-loader", code=0).out
    assert "First: " in shown


@pytest.mark.parametrize(
    ("line", "gone"),
    [
        pytest.param("@ 2026-11-20 asked: compression", True, id="asked"),
        pytest.param("@ 2026-11-20 answered: compression?: all even", True, id="answered"),
        pytest.param("@ 2026-11-20 reading: compression 410, 400, 405, 400 psi", True, id="read"),
        pytest.param("@ 2026-11-20 reading: hot idle oil pressure 40 psi", False, id="another read"),
        pytest.param("@ 2026-11-20 note: compression is what I would ask", False, id="only noted"),
    ],
)
def test_what_was_asked_is_not_proposed_again(run, own_shop, line, gone):
    job = own_shop / "jobs" / "pit-loader"
    for old in (job / "ads").glob("*.txt"):
        old.unlink()
    ad = "Hestrel H52D loader engine, complete, runs good\n$2,400\nBarre, VT\n"
    (job / "ads" / "2026-11-01.txt").write_text(f"{ad}{line}\n", encoding="utf-8")
    (asked,) = asks(run, job, "--unit", "engine")
    assert ("compression" not in [each["id"] for each in asked["questions"]]) is gone


def test_nothing_of_the_buyer_stands_in_a_message(run, own_shop):
    job = own_shop / "jobs" / "pit-loader"
    for path, old, new in (
        (own_shop / "home.yaml", "Barre, VT", "Montpelier, VT"),
        (job / "job.yaml", "Pit loader: engine and loader pump", "MARKER title"),
        (job / "job.yaml", "$1,900", "$31,337"),
    ):
        text = path.read_text(encoding="utf-8")
        assert old in text
        path.write_text(text.replace(old, new), encoding="utf-8")
    messages = [asked["message"] for asked in asks(run, job) if asked["message"]]
    assert messages
    for message in messages:
        assert not any(private in message for private in ("Montpelier", "MARKER", "31,337", "worth", "total", "walk"))


@pytest.mark.parametrize(
    ("ad", "says"),
    [
        pytest.param("Hestrel H52D loader engine, complete, runs good\nBarre, VT\n", "price", id="no price"),
        pytest.param("Hestrel H52D loader engine\n$2,400\nComplete engine. Runs.\n", "place", id="no place"),
    ],
)
def test_what_the_total_wants_is_asked_first(run, own_shop, ad, says):
    job = own_shop / "jobs" / "pit-loader"
    for old in (job / "ads").glob("*.txt"):
        old.unlink()
    (job / "ads" / "2026-11-01.txt").write_text(ad, encoding="utf-8")
    (asked,) = asks(run, job, "--unit", "engine")
    assert asked["questions"][0]["id"] == says
    assert all(each["worth"] is None for each in asked["questions"])
    shown = run("ask", job, asked["ad"], "--unit", "engine", code=0).out
    assert "Its total is not known, for want of: " in shown
    assert "not weighed, because its total is not known" in shown
    assert f"ask for its {says} first" in run("ask", job, "--unit", "engine", code=0).out


def test_one_ad_is_weighed_as_among_all(run, shop):
    job = shop / "jobs" / "pit-loader"
    among = {(each["ad"], each["seat"]): each for each in asks(run, job)}
    for asked in asks(run, job, "rtecpwk7"):
        assert asked == among[asked["ad"], asked["seat"]]


def test_an_ad_that_is_stopped(run, own_shop):
    job = own_shop / "jobs" / "hill-tractor"
    (job / "ads" / "2026-11-19.txt").write_text("Kestavik K438 engine, runs\n$500\nBarre, VT\n", encoding="utf-8")
    ranked = json.loads(run("rank", job, "--json", code=0).out)["seats"][0]
    id_ = next(each["ad"] for each in ranked["stopped"] if "K438" in each["title"])
    ran = run("ask", job, id_, code=2)
    assert "does not go in" in ran.err


def test_an_ad_that_is_not_there(run, shop):
    ran = run("ask", shop / "jobs" / "pit-loader", "zzz", code=2)
    assert "begins with 'zzz'" in ran.err
