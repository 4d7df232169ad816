"""The matcher on paired titles from an open benchmark (Abt-Buy, University of Leipzig), which it was not made for.

Known without training: character TF-IDF 0.850, rapidfuzz token_set_ratio 0.685. The folder is not part of the project.
"""

import os
import sys
from pathlib import Path

import pytest

from interchange.ads.match import match
from interchange.catalog.folders import search_path
from interchange.store.cache import up_to_date

ROOT = Path(__file__).parents[2]
FOLDER = os.environ.get("ABT_BUY", "")
LEAST_RIGHT, LEAST_SETTLED_RIGHT = 0.90, 0.95


@pytest.mark.skipif(not FOLDER, reason="the titles are not here: name their folder in ABT_BUY")
@pytest.mark.parametrize("way", [0, 1])
def test_first_place_is_right(way, monkeypatch, tmp_path):
    monkeypatch.syspath_prepend(str(ROOT / "scripts"))
    monkeypatch.setenv("INTERCHANGE_CACHE", str(tmp_path / "cache"))
    from title_catalog import both_ways, write_titles

    pairs = both_ways(Path(FOLDER))[way]
    write_titles(tmp_path / "catalog", pairs.catalog)
    connection, _ = up_to_date(search_path((tmp_path / "catalog",)))
    found = match(connection, {id_: (title, len(title)) for id_, title in pairs.ads.items()})
    right = {id_ for id_, one in found.items() if one.first and one.first.name.id.removeprefix("t-") in pairs.right[id_]}
    settled = {id_ for id_, one in found.items() if one.hits}
    assert len(right) / len(found) >= LEAST_RIGHT
    assert len(right & settled) / len(settled) >= LEAST_SETTLED_RIGHT
    sys.modules.pop("title_catalog")
