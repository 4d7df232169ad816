from __future__ import annotations

from functools import lru_cache
from pathlib import Path

import pytest
import yaml

from interchange.ads.fields import AdWords
from interchange.catalog.words import Phrase, Wording

CATALOG = Path(__file__).parents[2] / "catalog"
SHIPPED = CATALOG / "trade" / "ads.yaml"


@lru_cache(maxsize=1)
def shipped() -> tuple[tuple[Phrase, ...], AdWords]:
    rooms = yaml.safe_load(SHIPPED.read_text(encoding="utf-8"))
    phrases = tuple(
        Phrase(id=id_, say=tuple(one.pop("say")), **one)
        for id_, one in ((id_, dict(one)) for id_, one in rooms["phrases"].items())
    )
    words = AdWords(
        *(
            tuple(Wording(id=id_, say=tuple(one["say"])) for id_, one in rooms[room].items())
            for room in ("offer_words", "thing_words", "part_words", "state_words", "fact_words")
        )
    )
    return phrases, words


@pytest.fixture(scope="session")
def phrases() -> tuple[Phrase, ...]:
    return shipped()[0]


@pytest.fixture(scope="session")
def words() -> AdWords:
    return shipped()[1]


@pytest.fixture(scope="session")
def store_of(tmp_path_factory):
    """A connection to a temporary store of some folders."""

    from interchange.store.cache import up_to_date

    def store_of_(*folders):
        with pytest.MonkeyPatch.context() as patch:
            patch.setenv("INTERCHANGE_CACHE", str(tmp_path_factory.mktemp("cache")))
            return up_to_date(folders)[0]

    return store_of_


@pytest.fixture(scope="session")
def demo_store(store_of):
    return store_of(CATALOG / "standards", CATALOG / "trade", CATALOG / "demo" / "catalog")


@pytest.fixture(scope="session")
def health_tests(demo_store):
    """The shipped tests of health, by id."""
    from interchange.store.library import Library

    return {one.id: one.value for one in Library(demo_store).records("health_tests")}


@pytest.fixture(scope="session")
def trade():
    return CATALOG / "trade"
