import json

import pytest

AD = b"Hestrel H52D loader engine\n$2,400 OBO\nRuns good, pulled for upgrade.\nMontpelier, VT\n802-555-0111\n"


def seat_of(ran, name="engine"):
    return next(seat for seat in json.loads(ran.out)["seats"] if seat["seat"] == name)


def test_ranks_every_dead_unit_of_the_job(run, shop):
    result = json.loads(run("rank", shop / "jobs/pit-loader", "--json", code=0).out)
    assert [seat["seat"] for seat in result["seats"]] == ["engine", "pump"]
    assert result["catalog_problems"] == []
    for seat in result["seats"]:
        assert seat["ranked"]
        assert seat["stopped"]


def test_every_ad_is_somewhere_and_only_once(run, shop):
    for seat in json.loads(run("rank", shop / "jobs/pit-loader", "--json").out)["seats"]:
        ads = [ad["ad"] for group in ("ranked", "stopped", "other", "unknown") for ad in seat[group]]
        assert len(ads) == len(set(ads))
        assert len(ads) >= 30


def test_expected_total_is_what_ranks(run, shop):
    ranked = seat_of(run("rank", shop / "jobs/pit-loader", "--json"))["ranked"]
    keys = [(bool(ad["bill"]["not_known"]), ad["bill"]["expected"]) for ad in ranked]
    assert keys == sorted(keys)


@pytest.mark.parametrize("order", ["fit", "haul", "price", "total"])
def test_other_orders_rank_the_same_ads(run, shop, order):
    ranked = seat_of(run("rank", shop / "jobs/pit-loader", "--by", order, "--json"))["ranked"]
    assert {ad["ad"] for ad in ranked} == {ad["ad"] for ad in seat_of(run("rank", shop / "jobs/pit-loader", "--json"))["ranked"]}
    if order == "haul":
        likely = [
            next((line["likely"] for line in ad["bill"]["lines"] if line["label"] == "haul"), float("inf")) for ad in ranked
        ]
        assert likely == sorted(likely)
    if order == "fit":
        order_of = ["bolts up", "adapts", "machine work", "not known", "stops"]
        places = [order_of.index(ad["verdict"]) for ad in ranked]
        assert places == sorted(places)


def test_wrong_rotation_stays_below_the_line_however_cheap(run, shop):
    paste = b"Kestavik K438 power unit. Runs. $1. Barre, VT\n"
    seat = seat_of(run("rank", shop / "jobs/pit-loader", "-", "--json", stdin=paste))
    assert seat["ranked"] == []
    (ad,) = seat["stopped"]
    assert ad["verdict"] == "stops"
    assert any("rotation" in reason for reason in ad["stopped_by"])


def test_standard_input_is_ranked_and_not_kept(run, own_shop):
    before = sorted((own_shop / "jobs/pit-loader/ads").iterdir())
    (ad,) = seat_of(run("rank", own_shop / "jobs/pit-loader", "-", "--json", stdin=AD))["ranked"]
    assert ad["price"] == {"kind": "asked", "asked": 2400.0, "currency": "USD", "terms": "obo", "wants": None}
    assert ad["place"] == "Montpelier, VT"
    assert 5 <= ad["miles"]["likely"] <= 15
    assert sorted((own_shop / "jobs/pit-loader/ads").iterdir()) == before


def test_the_bill_is_the_sum_of_its_lines(run, shop):
    for ad in seat_of(run("rank", shop / "jobs/pit-loader", "--json"))["ranked"]:
        for end in ("low", "likely", "high"):
            assert ad["bill"]["total"][end] == pytest.approx(sum(line[end] for line in ad["bill"]["lines"]), abs=0.06)
        assert all(line["origin"] for line in ad["bill"]["lines"])


def test_sunk_money_changes_nothing(run, own_shop):
    job = own_shop / "jobs/pit-loader/job.yaml"
    before = json.loads(run("rank", own_shop / "jobs/pit-loader", "--json").out)["seats"]
    text = job.read_text(encoding="utf-8")
    assert "spent: $1,900" in text
    job.write_text(text.replace("spent: $1,900", "spent: $91,900"), encoding="utf-8")
    after = json.loads(run("rank", own_shop / "jobs/pit-loader", "--json").out)
    assert after["spent"] == "$91,900"
    assert after["seats"] == before


def test_an_answer_kept_is_dropped_when_a_price_changes(run, own_shop):
    job = own_shop / "jobs/pit-loader"
    first = seat_of(run("rank", job, "--json"))
    again = seat_of(run("rank", job, "--json"))
    assert again == first
    path = min((job / "ads").iterdir())
    text = path.read_text(encoding="utf-8")
    assert "$3,750" in text
    path.write_text(text.replace("$3,750", "$3,150"), encoding="utf-8")
    prices = {ad["price"]["asked"] for ad in seat_of(run("rank", job, "--json"))["ranked"]}
    assert 3150.0 in prices
    assert 3750.0 not in prices


def test_an_answer_kept_is_dropped_when_the_catalog_changes(run, own_shop):
    job = own_shop / "jobs/pit-loader"
    paste = b"Tolvane T412 industrial engine. Runs. $900. Barre, VT\n"
    (ad,) = seat_of(run("rank", job, "-", "--json", stdin=paste))["ranked"]
    engines = own_shop / "catalog/engines.yaml"
    engines.write_text(engines.read_text(encoding="utf-8").replace("counter-clockwise", "clockwise"), encoding="utf-8")
    seat = seat_of(run("rank", job, "-", "--json", stdin=paste))
    assert ad["ad"] in {one["ad"] for one in seat["stopped"]}


@pytest.mark.parametrize("width", [60, 80, 110, 160])
def test_tables_stay_within_the_terminal(run, shop, monkeypatch, width):
    monkeypatch.setenv("COLUMNS", str(width))
    lines = run("rank", shop / "jobs/pit-loader", code=0).out.splitlines()
    assert max(len(line) for line in lines) <= width
    text = "\n".join(lines)
    assert "bolts up" in text
    assert "Does not go in:" in text
    assert "$" in text


def test_an_ad_cannot_write_to_the_terminal_as_markup(run, shop):
    paste = "[bold red]Hestrel H52D[/] engine \x1b[31m\u202e evil \x07 $900\nBarre, VT\n".encode()
    out = run("rank", shop / "jobs/pit-loader", "-", stdin=paste, code=0).out
    assert "[bold red]" in out
    for character in "\x1b\u202e\x07":
        assert character not in out


def test_an_ad_pasted_again_is_ranked_once_with_what_was_asked_before(run, own_shop):
    job = own_shop / "jobs/pit-loader"
    body = "Pulled when we repowered, ran fine and started well in the cold. Starter goes with it, no radiator. Call after five."
    for day, price in (("2026-03-01", "$2,400"), ("2026-03-20", "$1,900")):
        (job / "ads" / f"{day}.txt").write_text(f"Hestrel H52D engine\n{price}\nBarre, VT\n{body}\n", encoding="utf-8")
    seat = seat_of(run("rank", job, "--json"))
    (again,) = (ad for ad in (*seat["ranked"], *seat["stopped"]) if len(ad["history"]) > 1)
    assert [(seen["on"], seen["asked"], seen["currency"]) for seen in again["history"]] == [
        ("2026-03-01", 2400, "USD"), ("2026-03-20", 1900, "USD"),
    ]  # fmt: skip
    assert again["price"]["asked"] == 1900
    before, now = (seen["ad"] for seen in again["history"])
    assert now == again["ad"]
    for id_ in (before, now):
        shown = run("fit", job, id_, code=0).out
        assert "Pasted 2 times: 2026-03-01 $2,400, 2026-03-20 $1,900" in shown
    assert all(len(ad["history"]) == 1 for ad in seat["ranked"] if ad["ad"] != again["ad"])
