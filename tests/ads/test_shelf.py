import dataclasses
import json
from pathlib import Path

import duckdb
import pytest

from interchange.ads import shelf
from interchange.ads.fields import NO_WORDS
from interchange.ads.pasted import ads_of_files
from interchange.ads.plain_reading import from_plain, to_plain
from interchange.ads.read import read_ad
from interchange.ads.shelf import Words, read_new, shelved
from interchange.catalog.words import Phrase
from interchange.store.place import cache_folder

DEMO = sorted((Path(__file__).parents[2] / "catalog/demo/jobs").glob("*/ads/*.txt"))
WORDS = Words((Phrase(id="runs", say=("runs good",), ratio=2.8),), NO_WORDS, "words 1")
AD = "Tolvane T412 engine\n$925\nRuns good.\nBangor, Maine\n"
OTHER = "Hestrel H52D engine\n$2,000\nBarre, VT\n"


@pytest.fixture(autouse=True)
def _cache(monkeypatch, tmp_path):
    monkeypatch.setenv("INTERCHANGE_CACHE", str(tmp_path / "cache"))


@pytest.fixture
def pastes(tmp_path):
    folder = tmp_path / "ads"
    folder.mkdir()
    (folder / "2026-01-01.txt").write_text(AD, encoding="utf-8")
    (folder / "2026-01-02.txt").write_text(OTHER, encoding="utf-8")
    return sorted(folder.iterdir())


@pytest.fixture
def texts_read(monkeypatch):
    read = []

    def counting(text, *rest):
        read.append(text)
        return read_ad(text, *rest)

    monkeypatch.setattr(shelf, "read_ad", counting)
    return read


@pytest.mark.parametrize("path", DEMO, ids=lambda path: f"{path.parents[1].name} {path.stem}")
def test_a_reading_comes_back_as_it_was(path):
    for _, reading in read_new(ads_of_files([path]), WORDS):
        assert from_plain(json.loads(json.dumps(to_plain(reading)))) == reading


def test_the_shelf_holds_what_reading_gives(pastes):
    assert shelved(pastes, WORDS) == read_new(ads_of_files(pastes), WORDS)
    assert shelved(pastes, WORDS) == read_new(ads_of_files(pastes), WORDS)


def test_only_a_changed_paste_is_read_again(pastes, texts_read):
    shelved(pastes, WORDS)
    assert len(texts_read) == 2
    shelved(pastes, WORDS)
    assert len(texts_read) == 2
    pastes[0].write_text(AD.replace("925", "850"), encoding="utf-8")
    ads = shelved(pastes, WORDS)
    assert len(texts_read) == 3
    assert "850" in texts_read[-1]
    assert sorted(reading.price.cents for _, reading in ads) == [85000, 200000]
    assert len(list(cache_folder().glob("ads-*.duckdb"))) == 1


def test_other_words_read_everything_again(pastes, texts_read):
    shelved(pastes, WORDS)
    shelved(pastes, WORDS._replace(stamp="words 2"))
    assert len(texts_read) == 4


def test_a_removed_paste_is_gone(pastes):
    shelved(pastes, WORDS)
    assert [ad.text.split("\n")[0] for ad, _ in shelved(pastes[:1], WORDS)] == ["Tolvane T412 engine"]


def test_the_same_ad_twice_is_one(pastes):
    pastes[1].write_text(AD, encoding="utf-8")
    (read,) = shelved(pastes, WORDS)
    assert read.ad.on == "2026-01-02"


def test_no_pastes_are_no_ads():
    assert shelved([], WORDS) == []


def test_a_damaged_shelf_is_made_anew(pastes):
    first = shelved(pastes, WORDS)
    (file,) = cache_folder().glob("ads-*.duckdb")
    file.write_bytes(b"not a database")
    pastes[0].touch()
    pastes[0].write_text(AD + "\n", encoding="utf-8")
    assert [ad.id for ad, _ in shelved(pastes, WORDS)] == [ad.id for ad, _ in first]


def test_the_tables_can_be_asked(pastes):
    shelved(pastes, WORDS)
    (file,) = cache_folder().glob("ads-*.duckdb")
    connection = duckdb.connect(str(file), read_only=True)
    rows = connection.execute("SELECT title, price_cents, state FROM ad ORDER BY day").fetchall()
    assert rows == [("Tolvane T412 engine", 92500, "ME"), ("Hestrel H52D engine", 200000, "VT")]
    prices = "SELECT a.body[f.first + 1 : f.last] FROM field AS f JOIN ad AS a USING (path, place) WHERE f.name = 'price'"
    assert sorted(row[0] for row in connection.execute(prices).fetchall()) == ["$2,000", "$925"]
    connection.close()


def test_nothing_of_a_reading_is_left_out():
    reading = read_ad(AD, WORDS.phrases, NO_WORDS)
    assert set(to_plain(reading)) == {each.name for each in dataclasses.fields(reading)}
