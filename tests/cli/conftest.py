"""Whole commands, run in this process against a copy of the demo, with one cache for all of them."""

import io
import shutil
import sys
from pathlib import Path
from typing import NamedTuple

import pytest

from interchange.cli import main

DEMO = Path(__file__).parents[2] / "catalog" / "demo"


class Ran(NamedTuple):
    code: int
    out: str
    err: str


@pytest.fixture(scope="session")
def warm_cache(tmp_path_factory):
    return tmp_path_factory.mktemp("cache")


@pytest.fixture(autouse=True)
def _settings(monkeypatch, warm_cache):
    monkeypatch.setenv("INTERCHANGE_CACHE", str(warm_cache))
    monkeypatch.setenv("COLUMNS", "110")
    monkeypatch.setenv("NO_COLOR", "1")


@pytest.fixture(scope="session")
def shop(tmp_path_factory):
    folder = tmp_path_factory.mktemp("shop") / "shop"
    shutil.copytree(DEMO, folder)
    return folder


@pytest.fixture
def own_shop(tmp_path):
    """A copy that a test may change."""
    folder = tmp_path / "shop"
    shutil.copytree(DEMO, folder)
    return folder


@pytest.fixture
def run(monkeypatch, capsys):
    def run_(*arguments, stdin=b"", code=None):
        monkeypatch.setattr(sys, "stdin", io.TextIOWrapper(io.BytesIO(stdin)))
        capsys.readouterr()
        try:
            main([str(argument) for argument in arguments])
            ended = 0
        except SystemExit as error:
            ended = error.code or 0
        ran = Ran(ended, *capsys.readouterr())
        assert "Traceback" not in ran.out + ran.err
        if code is not None:
            assert ran.code == code, ran.out + ran.err
        return ran

    return run_
