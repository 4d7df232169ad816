"""`identify` as whole commands: flags, JSON, wrong calls, and the conversation on a terminal."""

import json
import os
import pty
import select
import subprocess
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]
LONGEST_S = 60


def test_a_tie_says_what_settles_it(run):
    out = run("identify", "--holes", "8", "--opposite", "13-1/8 in", code=0).out
    assert "It may be any of 2: these readings do not tell them apart." in out
    assert "No. 5 housing" in out
    assert "11-1/2 in flywheel" in out
    assert "say which part it is (--part flywheel or housing)" in " ".join(out.split())


def test_the_part_said_settles_it(run):
    out = run("identify", "--part", "housing", "--holes", "8", "--opposite", "13-1/8 in", code=0).out
    assert "It is the No. 5 housing." in out
    assert "flywheel drive" not in out
    assert "What would settle it" not in out


def test_readings_at_odds_are_called_out(run):
    words = " ".join(run("identify", "--holes", "12", "--adjacent", "4-3/8 in", "--opposite", "15 in", code=0).out.split())
    assert "These do not go together: for 12 holes the opposite chord gives a circle of 381 ± 1.59 mm" in words
    assert "the adjacent chord gives a circle of 429.35 ± 6.13 mm" in words


def test_json(run):
    made = json.loads(run("identify", "--adjacent", "4-3/8 in", "--part", "housing", "--json", code=0).out)
    assert made["part"] == "housing"
    assert made["answer"] is None
    assert made["may_be"] == ["sae-j617-3", "sae-j617-6"]
    assert made["readings"] == [{"reading": "adjacent", "value": 111.125, "tolerance": 1.5875, "text": "4-3/8 in", "by": "tape"}]
    first = made["candidates"][0]
    assert first["held"][0]["off"] == pytest.approx(111.125 - 110.94, abs=0.01)
    assert sum(each["chance"] for each in made["candidates"]) + made["in_no_catalog"] == pytest.approx(1, abs=0.01)
    assert made["next"][0]["settles"] > 0.7
    assert {"id": "sae-j617-3", "reads": 12} in made["next"][0]["outcomes"]


def test_a_face_of_ones_own_catalog_says_where_it_stands(run, shop):
    out = run("identify", "--part", "block", "--holes", "14", "--opposite", "460 mm", "--home", shop / "home.yaml", code=0).out
    assert "Orrindale six-cylinder block, rear face: stands on orrindale-" in " ".join(out.split())


def test_a_face_written_in_place_is_found(run, own_shop):
    path = own_shop / "catalog" / "winches.yaml"
    path.write_text(
        "units:\n  odd-engine:\n    kind: engine\n    title: Odd engine\n    slots:\n      core:\n"
        "        rear: {circle: 400 mm, holes: 7}\n        nose: {form: involute, spline: 19T m2}\n",
        encoding="utf-8",
    )
    home = ("--home", own_shop / "home.yaml")
    made = json.loads(run("identify", "--holes", "7", "--circle", "400 mm", *home, "--json", code=0).out)
    assert made["answer"] == "odd-engine:core.rear"
    assert made["candidates"][0]["parts"] == ["block"]
    made = json.loads(run("identify", "--teeth", "19", "--part", "crank-nose", *home, "--json", code=0).out)
    assert made["may_be"][0] == "odd-engine:core.nose"
    assert made["candidates"][0]["stands_on"] == ["odd-engine core.nose"]


@pytest.mark.parametrize(
    ("arguments", "words"),
    [
        pytest.param([], "nothing was read off the part", id="bare, and no terminal"),
        pytest.param(["--part", "housng"], "no part is called 'housng' (did you mean", id="misspelt part"),
        pytest.param(["--holes", "8", "--teeth", "13"], "one part at a time", id="two parts"),
        pytest.param(["--part", "pump-shaft", "--holes", "8"], "--holes is read off a bolt face", id="not of that part"),
        pytest.param(["--opposite", "16-7/8"], "opposite chord: '16-7/8' has no unit", id="no unit"),
        pytest.param(["--holes", "8", "--cannot", "hols"], "no reading is called 'hols'", id="misspelt reading"),
    ],
)
def test_wrong_calls(run, arguments, words):
    ran = run("identify", *arguments, code=2)
    assert words in ran.err
    assert ran.out == ""


def converse(answers, tmp_path):
    """What a terminal shows when these answers are typed; a pseudo-terminal stands for it."""
    terminal, child = pty.openpty()
    environment = {**os.environ, "INTERCHANGE_CACHE": str(tmp_path), "PYTHONPATH": str(ROOT), "COLUMNS": "110", "NO_COLOR": "1"}
    arguments = [sys.executable, "-m", "interchange.cli", "identify"]
    with subprocess.Popen(arguments, stdin=child, stdout=child, stderr=child, env=environment, close_fds=True) as process:
        os.close(child)
        os.write(terminal, "".join(f"{answer}\n" for answer in (*answers, "done", "done")).encode())
        shown = b""
        while select.select([terminal], [], [], LONGEST_S)[0]:
            try:
                part = os.read(terminal, 4096)
            except OSError:  # the other end was closed
                break
            if not part:
                break
            shown += part
        else:
            process.kill()
        assert process.wait(60) == 0, shown.decode()
    os.close(terminal)
    return " ".join(shown.decode().split())


def test_the_conversation_ends_when_one_is_left(tmp_path):
    shown = converse(["housing", "8", "13-1/8 in"], tmp_path)
    assert "Which part is it (housing, flywheel" in shown
    assert "hole count (count the bolt holes" in shown
    assert "It is the No. 5 housing." in shown


def test_the_conversation_goes_on_without_what_cannot_be_read(tmp_path):
    """The part is not known, the holes cannot be counted, one answer is mistyped; then the chord is asked for."""
    shown = converse(["", "face", "", "13-1/8", "13-1/8 in"], tmp_path)
    assert "Is it a bolt face, a shaft or a hitch" in shown
    assert "opposite chord: '13-1/8' has no unit" in shown
    assert "It may be any of" in shown
    assert shown.count("hole count (") == 1
