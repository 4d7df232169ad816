"""Pastes kept and read back, ads once each, and an ad called by the beginning of its id."""

from __future__ import annotations

import datetime as dt
import re

import pytest

from interchange.ads import pasted
from interchange.ads.pasted import Ad, ad_named, ads_in, ads_of_files, each_once, keep, read_paste
from interchange.errors import InputError

NOW = dt.datetime(2026, 11, 18, 9, 30, 5, tzinfo=dt.UTC)
TWO = "Some I found:\n\n• Hestrel H52D engine, $900, Keene NH\n• Tolvane T412 engine, $800, Barre VT\n"


def ad(id_, text="engine", source="a"):
    return Ad(id_, text, source, 1, "")


def test_ads_in_a_paste_know_their_line_and_day():
    found = ads_in(TWO, "notes", "2026-11-18")
    assert [(one.text[:7], one.source, one.line, one.on) for one in found] == [
        ("Hestrel", "notes", 3, "2026-11-18"), ("Tolvane", "notes", 4, "2026-11-18"),
    ]  # fmt: skip
    assert all(re.fullmatch("[2-9a-hjkmnp-z]{8}", one.id) for one in found)


def test_the_same_ad_is_one_whatever_its_line_breaks_and_capitals():
    (one,), (other,) = ads_in("Hestrel H52D engine\n$900, Keene NH", "a"), ads_in("HESTREL H52D ENGINE $900,\n  KEENE NH", "b")
    assert one.id == other.id
    assert [each.source for each in each_once([one, other])] == ["b"]


@pytest.mark.parametrize("text", ["", "\n\n", "Save · Share", "x" * 5000], ids=["empty", "blank", "crumbs", "noise"])
def test_what_is_no_ad_gives_none(text):
    assert ads_in(text, "a") == []


def test_each_once_keeps_order_and_the_last():
    assert each_once([ad("aa", source="1"), ad("bb"), ad("aa", source="2")]) == [ad("aa", source="2"), ad("bb")]


def test_keep_writes_the_bytes_as_pasted(tmp_path):
    path = keep(tmp_path / "job" / "ads", "a\r\nb\u00a0€\n", NOW)
    assert path.name == "2026-11-18-093005.txt"
    assert path.read_bytes() == "a\r\nb\u00a0€\n".encode()


def test_keep_never_writes_over_anything(tmp_path):
    paths = [keep(tmp_path, f"paste {i}", NOW) for i in range(4)]
    assert [path.name for path in paths] == [f"2026-11-18-093005{end}.txt" for end in ("", "-2", "-3", "-4")]
    assert [path.read_text(encoding="utf-8") for path in paths] == [f"paste {i}" for i in range(4)]


def test_keep_gives_up_after_a_thousand(tmp_path):
    for number in range(1, 1000):
        (tmp_path / (f"2026-11-18-093005{'' if number == 1 else f'-{number}'}.txt")).touch()
    with pytest.raises(InputError, match="a thousand pastes"):
        keep(tmp_path, "one more", NOW)


def test_what_was_kept_is_read_back_with_its_day(tmp_path):
    path = keep(tmp_path, TWO, NOW)
    found = ads_of_files([path, path])
    assert [one.on for one in found] == ["2026-11-18"] * 2
    assert all(one.source.endswith(path.name) for one in found)


def test_a_name_without_a_date_gives_no_day(tmp_path):
    (tmp_path / "board.txt").write_text(TWO, encoding="utf-8")
    assert {one.on for one in ads_of_files([tmp_path / "board.txt"])} == {""}


def test_bytes_that_are_no_text_are_kept_as_marks(tmp_path):
    (tmp_path / "a.txt").write_bytes(b"Hestrel H52D engine \xff\xfe $900")
    assert read_paste(tmp_path / "a.txt") == "Hestrel H52D engine \ufffd\ufffd $900"


def test_a_missing_or_oversize_paste_is_refused_with_its_name(tmp_path, monkeypatch):
    with pytest.raises(InputError, match=r"none\.txt"):
        read_paste(tmp_path / "none.txt")
    (tmp_path / "big.txt").write_bytes(b"x" * 11)
    monkeypatch.setattr(pasted, "MOST_BYTES", 10)
    with pytest.raises(InputError, match=r"big\.txt"):
        read_paste(tmp_path / "big.txt")


@pytest.mark.parametrize(
    ("beginning", "found"),
    [
        pytest.param("ab2", "ab23", id="beginning"),
        pytest.param("AB3", "ab34", id="capitals"),
        pytest.param("cd45", "cd45", id="whole"),
    ],
)
def test_ad_named(beginning, found):
    assert ad_named([ad("ab23"), ad("ab34"), ad("cd45")], beginning).id == found


@pytest.mark.parametrize(
    ("beginning", "words"),
    [
        pytest.param("ab", "2 ads begin with 'ab': ab23, ab34", id="ambiguous"),
        pytest.param("zz", "no ad's id begins with 'zz'", id="none"),
    ],
)
def test_ad_named_refuses(beginning, words):
    with pytest.raises(InputError, match=re.escape(words)):
        ad_named([ad("ab23"), ad("ab34"), ad("cd45")], beginning)
