"""An ad in euros, through whole commands, with and without a rate."""

import json

import pytest

AD = b"Hestrel H52D loader engine, runs well\nEUR 3.200 firm\nMontpelier, VT\n"


def with_rate(shop, rate):
    home = shop / "home.yaml"
    text = home.read_text(encoding="utf-8")
    home.write_text(text.replace("rates:\n", f"rates:\n  currency: {{{rate}}}\n"), encoding="utf-8")


def entry_of(ran):
    (entry,) = json.loads(ran.out)["seats"][0]["ranked"]
    return entry


def test_without_a_rate_the_price_is_not_known_and_the_rate_is_named(run, own_shop):
    job = own_shop / "jobs" / "pit-loader"
    arguments = ("rank", job, "-", "--unit", "engine")
    entry = entry_of(run(*arguments, "--json", stdin=AD, code=0))
    assert entry["bill"]["not_known"] == ["price"]
    assert (entry["price"]["asked"], entry["price"]["currency"]) == (3200, "EUR")
    assert entry["price"]["wants"].endswith("rates: {currency: {EUR: …}}")
    out = " ".join(run(*arguments, stdin=AD, code=0).out.split())
    assert "3,200 EUR" in out
    assert "Price not known where it is asked in EUR: write in home.yaml how many dollars one is" in out


def test_at_ones_own_rate_it_is_in_the_total(run, own_shop):
    with_rate(own_shop, "EUR: 1.08")
    job = own_shop / "jobs" / "pit-loader"
    entry = entry_of(run("rank", job, "-", "--unit", "engine", "--json", stdin=AD, code=0))
    line = next(line for line in entry["bill"]["lines"] if line["label"] == "price")
    assert line["likely"] == pytest.approx(3456)
    assert line["origin"].endswith("at 1.08 dollars, your rate in home.yaml")
    assert entry["price"]["wants"] is None
    out = run("rank", job, "-", "--unit", "engine", stdin=AD, code=0).out
    assert "3,200 EUR" in out
    assert "$3,200" not in out


def test_fit_says_which_rate_to_write(run, own_shop):
    job = own_shop / "jobs" / "pit-loader"
    run("paste", job, stdin=AD, code=0)
    found = json.loads(run("rank", job, "--unit", "engine", "--json", code=0).out)["seats"][0]["ranked"]
    ad = next(entry["ad"] for entry in found if entry["price"]["currency"] == "EUR")
    out = " ".join(run("fit", job, ad, "--unit", "engine", code=0).out.split())
    assert "Price not known: asked in EUR: write in home.yaml" in out


def test_a_code_nobody_knows_is_a_problem_with_its_line(run, own_shop):
    with_rate(own_shop, "EURO: 1.08")
    ran = run("rank", own_shop / "jobs" / "pit-loader", code=2)
    assert "home.yaml:" in ran.err
    assert "[unknown-currency]" in ran.err
