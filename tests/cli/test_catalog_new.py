"""`catalog new` and `catalog schema`, whole commands."""

import json
import re

import pytest

from interchange import catalog_new_commands
from interchange.catalog.schema import schema_text

UNKNOWN = "Aldermast 5200 diesel engine"


def ad_id(run, folder, title, unit="engine"):
    found = json.loads(run("rank", folder / "jobs" / "pit-loader", "--json", code=0).out)
    (seat,) = (seat for seat in found["seats"] if seat["seat"] == unit)
    return next(read["ad"] for read in seat["unknown"] if read["title"].startswith(title))


def test_a_unit_begun_from_an_ad_is_known_from_then_on(run, own_shop):
    job = own_shop / "jobs" / "pit-loader"
    ad = ad_id(run, own_shop, UNKNOWN)
    told = run("rank", job, code=0).out
    command = re.search(rf"^ +interchange (catalog new --job .+ --ad {ad})$", told, re.MULTILINE)
    assert command or f"--ad {ad}" in " ".join(told.split())
    ran = run("catalog", "new", "--job", job, "--ad", ad, code=0)
    path = own_shop / "catalog" / "aldermast-5200.yaml"
    assert "catalog check" in ran.out
    text = path.read_text(encoding="utf-8")
    assert text.startswith("# yaml-language-server: $schema=catalog.schema.json\n")
    assert f'fuel: {{value: diesel, basis: said, from: "ad {ad}, pasted 2026-11-16"}}' in text
    assert "1 records, no problems" in run("catalog", "check", path, code=0).out
    assert "no problems" in run("catalog", "check", own_shop, code=0).out
    after = json.loads(run("rank", job, "--unit", "engine", "--json", code=0).out)["seats"][0]
    assert ad not in [read["ad"] for read in after["unknown"]]
    assert ad in [entry["ad"] for entry in (*after["ranked"], *after["stopped"])]
    again = run("catalog", "new", "--job", job, "--ad", ad, code=2)
    assert "aldermast-5200" in again.err
    assert path.read_text(encoding="utf-8") == text


def test_only_ads_that_name_a_model_have_the_command(run, own_shop):
    out = " ".join(run("rank", own_shop / "jobs" / "pit-loader", "--unit", "engine", code=0).out.split())
    assert f"--ad {ad_id(run, own_shop, UNKNOWN)}" in out
    assert f"--ad {ad_id(run, own_shop, 'square bales')}" not in out


def test_a_paste_that_is_not_kept_has_no_command(run, own_shop):
    paste = f"{UNKNOWN}\n$1,400\nRuns good.\nBarre, VT\n".encode()
    out = run("rank", own_shop / "jobs" / "pit-loader", "-", stdin=paste, code=0).out
    assert UNKNOWN in out
    assert "catalog new" not in out


def test_a_machine_for_sale_makes_a_machine(run, own_shop):
    job = own_shop / "jobs" / "hill-tractor"
    found = json.loads(run("rank", job, "--json", code=0).out)["seats"][0]["unknown"]
    ad = next(read["ad"] for read in found if read["model"] == "Castelline 460")
    run("catalog", "new", "--job", job, "--ad", ad, code=0)
    path = own_shop / "catalog" / "castelline-460.yaml"
    assert "\nmachines:\n  castelline-460:\n" in path.read_text(encoding="utf-8")
    run("catalog", "check", path, code=0)


@pytest.mark.parametrize("kind", ["engine", "pump", "gearbox", "axle"])
def test_every_kind_and_a_machine_with_it(run, own_shop, kind):
    home = own_shop / "home.yaml"
    run("catalog", "new", f"my-{kind}", "--kind", kind, "--title", 'a: "b" # c', "--maker", "M\nN", "--home", home, code=0)
    run("catalog", "new", "my-machine", "--machine", "--kind", kind, "--kind", "pump", "--home", home, code=0)
    for name in (f"my-{kind}", "my-machine"):
        assert "1 records, no problems" in run("catalog", "check", own_shop / "catalog" / f"{name}.yaml", code=0).out
    assert 'a: "b" # c' in run("catalog", "show", f"my-{kind}", "--home", home, code=0).out


@pytest.mark.parametrize(
    ("arguments", "words"),
    [
        pytest.param(["hestrel-h52d", "--kind", "engine"], "unit hestrel-h52d is in the catalog already", id="a unit's id"),
        pytest.param(["dunmarrow-rl90", "--kind", "engine"], "machine dunmarrow-rl90 is in the catalog", id="a machine's id"),
        pytest.param(["engines", "--kind", "engine"], "engines.yaml is there already", id="a file's name"),
        pytest.param(["../x", "--kind", "engine"], "'../x' cannot be an id", id="a path"),
        pytest.param(["X", "--kind", "engine"], "'X' cannot be an id", id="capitals"),
        pytest.param(["mine", "--kind", "engin"], "engine", id="a kind misspelt"),
        pytest.param(["mine", "--kind", "engine", "--kind", "pump"], "--machine", id="two kinds"),
        pytest.param(["mine"], "--kind engine", id="no kind"),
        pytest.param(["--kind", "engine"], "an id is missing", id="no id"),
        pytest.param(["mine", "--ad", "abc"], "--job and --ad go together", id="an ad without its job"),
    ],
)
def test_what_cannot_be_made_says_why(run, own_shop, arguments, words):
    before = sorted(own_shop.rglob("*"))
    assert words in run("catalog", "new", *arguments, "--home", own_shop / "home.yaml", code=2).err
    assert sorted(own_shop.rglob("*")) == before


def test_an_ad_that_names_what_is_known_needs_an_id_of_its_own(run, own_shop):
    job = own_shop / "jobs" / "pit-loader"
    known = json.loads(run("rank", job, "--unit", "engine", "--json", code=0).out)["seats"][0]["ranked"][0]
    assert f"ad {known['ad']} names what the catalog has" in run("catalog", "new", "--job", job, "--ad", known["ad"], code=2).err
    run("catalog", "new", "another-one", "--job", job, "--ad", known["ad"], "--kind", "engine", code=0)
    run("catalog", "check", own_shop / "catalog" / "another-one.yaml", code=0)


def test_a_home_without_a_catalog_folder(run, own_shop):
    home = own_shop / "home.yaml"
    text = home.read_text(encoding="utf-8")
    home.write_text(text.replace("catalog: [catalog]\n", ""), encoding="utf-8")
    assert "names no catalog folder of your own" in run("catalog", "new", "mine", "--kind", "engine", "--home", home, code=2).err
    home.write_text(text.replace("[catalog]", "[gone]"), encoding="utf-8")
    assert "there is no catalog folder" in run("catalog", "new", "mine", "--kind", "engine", "--home", home, code=2).err


def test_a_folder_that_cannot_be_written_to_says_so(run, own_shop, monkeypatch):
    def refuse(*_):
        raise PermissionError(13, "Permission denied")

    monkeypatch.setattr(catalog_new_commands.os, "fsync", refuse)
    ran = run("catalog", "new", "mine", "--kind", "engine", "--home", own_shop / "home.yaml", code=2)
    assert "mine.yaml: permission denied (check the rights of the folder" in ran.err
    assert not [path.name for path in (own_shop / "catalog").iterdir() if "mine" in path.name]


@pytest.mark.parametrize("links", [True, False], ids=["disk with links", "disk without"])
def test_a_file_that_appears_meanwhile_is_not_written_over(tmp_path, monkeypatch, links):
    if not links:

        def refuse(*_):
            raise OSError(95, "Operation not supported")

        monkeypatch.setattr(catalog_new_commands.os, "link", refuse)
    path = tmp_path / "a.yaml"
    catalog_new_commands.write_new(path, "first\n")
    with pytest.raises(catalog_new_commands.InputError, match="there already"):
        catalog_new_commands.write_new(path, "second\n")
    assert path.read_text(encoding="utf-8") == "first\n"
    assert list(tmp_path.iterdir()) == [path]


def test_the_schema_printed_and_written(run, tmp_path):
    assert run("catalog", "schema", code=0).out == schema_text()
    path = tmp_path / "catalog.schema.json"
    run("catalog", "schema", "--write", path, code=0)
    assert path.read_text(encoding="utf-8") == schema_text()
    path.write_text('{"$schema": "older", "title": "catalog file"}', encoding="utf-8")
    run("catalog", "schema", "--write", path, code=0)
    assert path.read_text(encoding="utf-8") == schema_text()


def test_the_schema_is_not_written_over_anything_else(run, own_shop):
    home = own_shop / "home.yaml"
    before = home.read_bytes()
    assert "is no schema" in run("catalog", "schema", "--write", home, code=2).err
    assert home.read_bytes() == before
