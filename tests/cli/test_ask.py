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


def test_over_all_ads(run, shop):
    shown = run("ask", shop / "jobs" / "pit-loader", code=0).out
    assert "First: " in shown


@pytest.mark.parametrize(
    ("line", "gone"),
    [
        pytest.param("@ 2026-11-20 asked: compression", True, id="asked"),
        pytest.param("@ 2026-11-20 answered: compression?: all even", True, id="answered"),
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


def test_an_ad_that_is_not_there(run, shop):
    ran = run("ask", shop / "jobs" / "pit-loader", "zzz", code=2)
    assert "begins with 'zzz'" in ran.err
