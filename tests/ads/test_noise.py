"""Megabytes that are no ad: refused line by line before anything costly is looked for."""

from __future__ import annotations

import base64
import random
import time

import pytest

from interchange.ads.split import split, split_paste


def noise_bytes(seed, size):
    return random.Random(seed).randbytes(size)  # noqa: S311 - noise, the same each time


@pytest.mark.parametrize(
    "noise",
    [
        pytest.param(base64.encodebytes(noise_bytes(1, 3_700_000)).decode(), id="base64 in lines"),
        pytest.param(base64.b64encode(noise_bytes(2, 3_700_000)).decode(), id="base64 in one line"),
        pytest.param(noise_bytes(3, 1_900_000).hex(" ", 4), id="hex"),
        pytest.param(noise_bytes(4, 1_000_000).decode("utf-8", errors="replace"), id="bytes"),
        pytest.param("\n" * 1_000_000, id="blank lines"),
        pytest.param("9" * 5_000_000, id="digits"),
    ],
)
def test_noise_holds_no_ad(noise):
    start = time.process_time()
    found = split(noise)
    took = time.process_time() - start
    print(f"{len(noise) / 1e6:.1f} MB in {took:.2f} s")
    assert found == ()
    assert took < 10  # 1 s for 5 MB of base64 on an idle machine


LONG_LINES = ["a" * 1_000_000, "9" * 1_000_000, "<" * 1_000_000, "lorem ipsum " * 80_000]


@pytest.mark.parametrize("line", LONG_LINES, ids=lambda line: line[:5])
def test_a_line_of_a_million_signs_in_an_ad(line):
    start = time.process_time()
    assert split_paste(f"Hestrel H52D engine $900\n{line}\n").parted_by == "nothing"
    assert time.process_time() - start < 5


def test_a_long_word_is_no_title_and_no_price():
    (ad,) = split(f"Hestrel H52D engine $900\nhttps://example.com/{'x' * 60}/2004-loader-$500\nBarre VT")
    assert ad.text.endswith("Barre VT")
