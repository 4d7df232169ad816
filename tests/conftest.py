"""No test touches the caches of whoever runs it."""

import pytest


@pytest.fixture(autouse=True)
def _own_cache(monkeypatch, tmp_path_factory):
    monkeypatch.setenv("INTERCHANGE_CACHE", str(tmp_path_factory.mktemp("cache")))
