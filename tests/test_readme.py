"""Every command in the README is run, in order, in a folder of its own."""

import os
import re
import shlex
import subprocess
import sys
from pathlib import Path

ROOT = Path(__file__).parents[1]
COMMAND = re.compile(r"^    (interchange .+)$", re.MULTILINE)
PASTE = "Hestrel H52D loader engine\n$2,400\nRuns good.\nMontpelier, VT\n"


def test_readme_commands_run(tmp_path):
    text = (ROOT / "README.md").read_text(encoding="utf-8")
    commands = COMMAND.findall(text)
    assert len(commands) >= 9
    (tmp_path / "pasted.txt").write_text(PASTE, encoding="utf-8")
    environment = {**os.environ, "INTERCHANGE_CACHE": str(tmp_path / "cache"), "PYTHONPATH": str(ROOT)}
    for command in commands:
        words, _, given = command.partition(" < ")
        stdin = (tmp_path / given).read_bytes() if given else b""
        arguments = [sys.executable, "-m", "interchange.cli", *shlex.split(words)[1:]]
        ran = subprocess.run(arguments, input=stdin, capture_output=True, cwd=tmp_path, env=environment, check=False)
        assert ran.returncode == 0, f"{command}\n{ran.stderr.decode()}"


def test_readme_names_scripts_that_are_there():
    text = (ROOT / "README.md").read_text(encoding="utf-8")
    for name in set(re.findall(r"scripts/\w+", text)):
        assert os.access(ROOT / name, os.X_OK), name


def test_readme_catalog_example_reads(tmp_path):
    text = (ROOT / "README.md").read_text(encoding="utf-8")
    example = re.search(r"^    # catalog/mine\.yaml\n((?:    .*\n|\n)+)", text, re.MULTILINE)
    assert example
    path = tmp_path / "mine.yaml"
    path.write_text(re.sub(r"^    ", "", example.group(1), flags=re.MULTILINE), encoding="utf-8")
    arguments = [sys.executable, "-m", "interchange.cli", "catalog", "check", str(path)]
    ran = subprocess.run(arguments, capture_output=True, text=True, cwd=ROOT, check=False)
    assert ran.returncode == 0, ran.stdout
