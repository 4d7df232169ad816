"""Small kinds, faces and figures to plan with, and the demo's jobs set against the shipped catalog."""

from pathlib import Path

import pytest

from interchange.opening import Bar, open_setting

DEMO = Path(__file__).parents[2] / "catalog" / "demo"


@pytest.fixture(scope="session")
def _cache(tmp_path_factory):
    with pytest.MonkeyPatch.context() as patch:
        patch.setenv("INTERCHANGE_CACHE", str(tmp_path_factory.mktemp("cache")))
        yield


@pytest.fixture(scope="session")
def pit_loader(_cache):
    with Bar() as bar:
        return open_setting(DEMO / "jobs/pit-loader", None, bar)[0]


@pytest.fixture(scope="session")
def hill_tractor(_cache):
    with Bar() as bar:
        return open_setting(DEMO / "jobs/hill-tractor", None, bar)[0]
