"""The manual: every page shows, on a terminal and not, and its commands run."""

import os
import pty
import re
import shlex
import subprocess
import sys
from pathlib import Path

import pytest

from interchange.errors import InputError
from interchange.guide.pages import page, pages

ROOT = Path(__file__).parents[2]
NAMES = [one.name for one in pages()]
BLOCK = re.compile(r"(?:^(?:    .*)?\n)+", re.MULTILINE)
FIGURE = re.compile(r"-?\$[0-9][0-9,]*|\b[0-9]{1,3}%")
COMMAND = re.compile(r"^    (interchange .+)$", re.MULTILINE)
PASTE = "Hestrel H52D loader engine\n$2,400\nRuns good.\nMontpelier, VT\n"


def interchange(*arguments, cwd=ROOT, **more):
    environment = {**os.environ, "PYTHONPATH": str(ROOT), **more.pop("env", {})}
    return subprocess.run(
        [sys.executable, "-m", "interchange.cli", *arguments], capture_output=True, cwd=cwd, env=environment, check=False, **more
    )


def test_pages_are_listed():
    ran = interchange("guide")
    assert ran.returncode == 0
    listed = re.findall(r"^(\w+)  ", ran.stdout.decode(), re.MULTILINE)
    assert listed == NAMES
    assert NAMES[0] == "start"


@pytest.mark.parametrize("name", NAMES)
def test_a_page_goes_out_as_it_is_written(name):
    ran = interchange("guide", name)
    assert ran.stdout.decode() == page(name).text


@pytest.mark.parametrize("columns", [40, 100])
def test_a_page_fits_the_terminal(columns):
    """On a terminal of its own: prose no wider than it is; what is to be copied or lined up is left as it is written."""
    ours, theirs = pty.openpty()
    environment = {**os.environ, "PYTHONPATH": str(ROOT), "COLUMNS": str(columns), "NO_COLOR": "1", "TERM": "xterm"}
    with subprocess.Popen(
        [sys.executable, "-m", "interchange.cli", "guide", "measuring"], stdout=theirs, env=environment, cwd=ROOT
    ) as ran:
        os.close(theirs)
        seen = b""
        while True:
            try:
                got = os.read(ours, 65536)
            except OSError:
                break
            if not got:
                break
            seen += got
    os.close(ours)
    text = re.sub(r"\x1b\[[0-9;?]*[A-Za-z]", "", seen.decode())
    assert ran.returncode == 0
    assert "Measuring in the yard" in text
    assert max(len(line) for line in text.splitlines() if not line.startswith("    ")) <= columns
    assert "    interchange identify --part housing --holes 12 --adjacent '4-3/8 in' --bore '16.13 in, caliper'" in text


def test_a_word_that_is_no_page_finds_those_that_speak_of_it():
    with pytest.raises(InputError) as told:
        page("freight")
    assert "haul" in told.value.hint
    ran = interchange("guide", "qqqq")
    assert ran.returncode == 2
    assert "there are: start" in ran.stderr.decode()


def test_every_page_is_named_in_the_readme_or_by_another():
    every = "\n".join(one.text for one in pages())
    for name in NAMES[1:]:
        assert f"`interchange guide {name}`" in every or f"`{name}`" in page("start").text, name


def test_pages_asked_for_are_there():
    for one in pages():
        for name in re.findall(r"interchange guide (\w+)", one.text):
            assert name in NAMES, f"{one.name} names {name}"


@pytest.fixture(scope="module")
def printed(tmp_path_factory):
    """What every command of every page prints, run in order in one shop; by the page. Nothing is pasted into its job."""
    folder = tmp_path_factory.mktemp("pages")
    (folder / "pasted.txt").write_text(PASTE, encoding="utf-8")
    environment = {"INTERCHANGE_CACHE": str(folder / "cache"), "COLUMNS": "108"}
    assert interchange("start", "shop", cwd=folder, env=environment).returncode == 0
    found: dict[str, list[subprocess.CompletedProcess[bytes]]] = {}
    for one in pages():
        for command in COMMAND.findall(one.text):
            words, _, given = command.partition(" < ")
            if words.startswith(("interchange start", "interchange paste", "interchange guide")):
                continue
            given_bytes = (folder / given).read_bytes() if given else b""
            ran = interchange(*shlex.split(words)[1:], cwd=folder, env=environment, input=given_bytes)
            found.setdefault(one.name, []).append(ran)
    return found


def test_commands_of_the_pages_run(printed):
    assert sum(map(len, printed.values())) > 30
    for ran in (one for each in printed.values() for one in each):
        assert ran.returncode == 0, f"{ran.args}\n{ran.stderr.decode()}"


@pytest.mark.parametrize("name", NAMES)
def test_money_and_chances_on_the_pages_are_those_that_come_out(printed, name):
    """Of what a page shows of a command, cut short where an ellipsis stands: every amount and share stands in the output too."""
    out = " ".join(" ".join(ran.stdout.decode().split()) for ran in printed.get(name, ()))
    shown = [block for block in BLOCK.findall(page(name).text) if "\n    …\n" in block or "\n      …\n" in block]
    for figure in (figure for block in shown for figure in FIGURE.findall(block)):
        assert figure in out, figure
