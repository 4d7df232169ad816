from __future__ import annotations

from functools import lru_cache
from pathlib import Path

import pytest
import yaml

from interchange.ads.fields import AdWords, Phrase, Wording

SHIPPED = Path(__file__).parents[2] / "catalog" / "trade" / "ads.yaml"


@lru_cache(maxsize=1)
def shipped() -> tuple[tuple[Phrase, ...], AdWords]:
    rooms = yaml.safe_load(SHIPPED.read_text(encoding="utf-8"))
    phrases = tuple(
        Phrase(id=id_, say=tuple(one.pop("say")), **one) for id_, one in ((id_, dict(one)) for id_, one in rooms["phrases"].items())
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
