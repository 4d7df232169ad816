"""Whole outputs of commands on the demo, compared to the letter.

After a wanted change: UPDATE_GOLDEN=1 scripts/test tests/sheets, then read the difference.
"""

import os
import shutil
import subprocess
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]
GOLDEN = Path(__file__).parent / "golden"

SHEETS = {
    "rank pit-loader wide": (120, ["rank", "shop/jobs/pit-loader"]),
    "rank pit-loader 80": (80, ["rank", "shop/jobs/pit-loader", "--unit", "engine"]),
    "rank pit-loader 60": (60, ["rank", "shop/jobs/pit-loader", "--unit", "pump"]),
    "rank hill-tractor wide": (120, ["rank", "shop/jobs/hill-tractor"]),
    "fit loader bolts up": (100, ["fit", "shop/jobs/pit-loader", "hestrel-h52d.loader"]),
    "fit loader adapts": (100, ["fit", "shop/jobs/pit-loader", "tolvane-t412.plain"]),
    "fit loader stops": (100, ["fit", "shop/jobs/pit-loader", "kestavik-k438"]),
    "fit tractor stops": (100, ["fit", "shop/jobs/hill-tractor", "kestavik-k438"]),
    "fit tractor plate": (100, ["fit", "shop/jobs/hill-tractor", "brackmoor-b330.plain"]),
    "donors pit-loader wide": (120, ["donors", "shop/jobs/pit-loader", "--most", "8"]),
    "donors pit-loader 60": (60, ["donors", "shop/jobs/pit-loader", "--most", "4"]),
    "donors hill-tractor": (100, ["donors", "shop/jobs/hill-tractor"]),
    "fit loader narrow": (60, ["fit", "shop/jobs/pit-loader", "orrindale-od46"]),
    "fit tractor": (100, ["fit", "shop/jobs/hill-tractor", "brackmoor-b440e"]),
    "fit pump": (100, ["fit", "shop/jobs/pit-loader", "lissander-l32"]),
    "haul engine": (100, ["haul", "shop/jobs/pit-loader", "Columbus, OH", "--size", "48 x 40 x 42 in", "--seller", "farm"]),
    "haul machine narrow": (60, ["haul", "shop/jobs/pit-loader", "Springfield", "--what", "dunmarrow-rl90"]),
    "ways pit-loader wide": (110, ["ways", "shop/jobs/pit-loader"]),
    "ways pit-loader 60": (60, ["ways", "shop/jobs/pit-loader"]),
    "ways hill-tractor 80": (80, ["ways", "shop/jobs/hill-tractor"]),
    "rank hill-tractor roomy": (140, ["rank", "shop/jobs/hill-tractor"]),
    "ask no total": (100, ["ask", "shop/jobs/pit-loader", "sf7vbqx9"]),
    "ask all ads": (100, ["ask", "shop/jobs/pit-loader"]),
    "ask one ad 60": (60, ["ask", "shop/jobs/hill-tractor", "6bb88m3g"]),
    "find": (100, ["find", "H52", "--home", "shop"]),
    "show": (100, ["catalog", "show", "kestavik-k438", "--home", "shop"]),
}


@pytest.fixture(scope="module")
def shop(tmp_path_factory):
    folder = tmp_path_factory.mktemp("golden")
    shutil.copytree(ROOT / "catalog" / "demo", folder / "shop")
    return folder


@pytest.mark.parametrize("name", SHEETS)
def test_sheet(shop, name):
    width, arguments = SHEETS[name]
    environment = {
        **os.environ,
        "COLUMNS": str(width),
        "NO_COLOR": "1",
        "PYTHONPATH": str(ROOT),
        "INTERCHANGE_CACHE": str(shop / "cache"),
    }
    command = [sys.executable, "-m", "interchange.cli", *arguments]
    ran = subprocess.run(command, cwd=shop, env=environment, capture_output=True, text=True, encoding="utf-8", check=False)
    assert ran.returncode == 0, ran.stderr
    shown = "\n".join(line.rstrip() for line in ran.stdout.splitlines()) + "\n"
    path = GOLDEN / f"{name.replace(' ', '-')}.txt"
    if os.environ.get("UPDATE_GOLDEN"):
        path.write_text(shown, encoding="utf-8")
    assert shown == path.read_text(encoding="utf-8")
    assert max(map(len, shown.splitlines())) <= width


def test_no_golden_sheet_is_left_over():
    assert {path.stem for path in GOLDEN.glob("*.txt")} == {name.replace(" ", "-") for name in SHEETS}
