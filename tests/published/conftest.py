"""The shipped standards, read once as the program reads them."""

import pytest

from interchange.catalog.check import SourceText, read_catalog
from interchange.catalog.folders import read_text, search_path, source_files


@pytest.fixture(scope="session")
def catalog():
    files = source_files(search_path())
    return read_catalog([SourceText(file.name, read_text(file.path), file.rank) for file in files])


@pytest.fixture(scope="session")
def patterns(catalog):
    return {id_: one.value for id_, one in catalog.room("patterns").items()}


@pytest.fixture(scope="session")
def shafts(catalog):
    return {id_: one.value for id_, one in catalog.room("shafts").items()}


@pytest.fixture(scope="session")
def pins(catalog):
    return {id_: one.value for id_, one in catalog.room("pins").items()}
