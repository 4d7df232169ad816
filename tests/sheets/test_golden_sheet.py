"""Whole sheets of the demo as Markdown, compared to the letter. UPDATE_GOLDEN=1 writes them anew: read the difference."""

import os
import shutil
import subprocess
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]
GOLDEN = Path(__file__).parent / "golden"
SHEETS = {
    "sheet engine seller": ("pit-loader", "rtec", "seller", "engine"),
    "sheet engine buyer": ("pit-loader", "rtec", "buyer", "engine"),
    "sheet tractor buyer": ("hill-tractor", "ch39", "buyer", "engine"),
    "sheet pump seller": ("pit-loader", "gxj8", "seller", "pump"),
}


@pytest.fixture(scope="module")
def shop(tmp_path_factory):
    folder = tmp_path_factory.mktemp("golden")
    shutil.copytree(ROOT / "catalog" / "demo", folder / "shop")
    return folder


@pytest.mark.parametrize("name", SHEETS)
def test_sheet(shop, name):
    job, ad, reader, unit = SHEETS[name]
    environment = {**os.environ, "PYTHONPATH": str(ROOT), "INTERCHANGE_CACHE": str(shop / "cache")}
    arguments = ["sheet", f"shop/jobs/{job}", ad, "--for", reader, "--unit", unit, "--to", "it.md"]
    ran = subprocess.run([sys.executable, "-m", "interchange.cli", *arguments], cwd=shop, env=environment, check=False)
    assert ran.returncode == 0
    shown = (shop / "it.md").read_text(encoding="utf-8")
    path = GOLDEN / f"{name.replace(' ', '-')}.md"
    if os.environ.get("UPDATE_GOLDEN"):
        path.write_text(shown, encoding="utf-8")
    assert shown == path.read_text(encoding="utf-8")


def test_no_golden_sheet_is_left_over():
    assert {path.stem for path in GOLDEN.glob("*.md")} == {name.replace(" ", "-") for name in SHEETS}
