"""A model whose number is in no catalog is not its neighbour, and a maker that is denied is not the one."""

import pytest

from interchange.ads.pasted import Ad
from interchange.ads.reads import ad_words, matched
from interchange.ads.shelf import read_new
from interchange.store.library import Library


@pytest.fixture(scope="module")
def named(demo_store):
    library = Library(demo_store)
    words = ad_words(library)

    def named_(text):
        found = matched(library, read_new([Ad("a", text, "", 1, "")], words))[0].matched
        return list(dict.fromkeys(hit.name.id for hit in found.hits))

    return named_


@pytest.mark.parametrize(
    ("text", "names"),
    [
        pytest.param("Tolvane T421 dieselmotor, ikke T412!", [], id="number turned about"),
        pytest.param("Hydraulics\nLissander L40 pump\nbought together: L20 seal kit", [], id="beside what is in it"),
        pytest.param("I have an H62D, made between the H52D and the 78", [], id="family told by its pattern"),
        pytest.param("Make: Dunmarrow; Model: RL150; Engine: H78E", [], id="a machine with a known engine"),
        pytest.param("H52D engine out of a swather, not the H62D", ["hestrel-h52d"], id="only likened to one"),
        pytest.param("H52D engine, same bell as an H62D", ["hestrel-h52d"], id="named after it"),
        pytest.param("Hestrel H52D, spline S30, T25 torx", ["hestrel-h52d"], id="other words of such a pattern"),
        pytest.param("A Drennock 410, not a Hestrel, fitted to a Dunmarrow RL90", [], id="maker denied"),
        pytest.param("Hestrel H52D, not a Tolvane", ["hestrel-h52d"], id="another maker denied"),
    ],
)
def test_what_a_model_of_no_catalog_leaves(text, names, named):
    assert named(text) == names
