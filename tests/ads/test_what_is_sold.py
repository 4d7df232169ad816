"""What is for sale, told by the names of the catalog and how an ad speaks of them."""

import pytest

from interchange.ads.pasted import Ad
from interchange.ads.reads import ad_words, matched
from interchange.ads.shelf import read_new
from interchange.store.library import Library


@pytest.fixture(scope="module")
def read_of(demo_store):
    library = Library(demo_store)
    words = ad_words(library)

    def read_of_(text):
        return matched(library, read_new([Ad("a", text, "", 1, "")], words))[0]

    return read_of_


@pytest.mark.parametrize(
    ("text", "subject", "names"),
    [
        pytest.param(
            "Kestavik 438 diesel from skid steer - $1,850\n\nStarts and runs.", "unit", ["kestavik-k438"], id="from a machine"
        ),
        pytest.param("Norvick B44 diesel - similar to Brackmoor B440", None, [], id="only likened"),
        pytest.param("It is a K438 not the K425, runs", "unit", ["kestavik-k438"], id="denied"),
        pytest.param("SAWMILL w/Hestrel H52D power unit, $9,500", "machine", ["hestrel-h52d"], id="a machine that has one"),
        pytest.param("Hestrel H56D engine, complete\n\nbolts in where the H52D was", "unit", [], id="a model of no catalog"),
        pytest.param("got a 618 tolvane, knocks", "unit", ["tolvane-t618"], id="number before its maker"),
        pytest.param(
            "BREAKING: Dunmarrow RL90\nEngine H52D, runs ..... 2,600",
            "unit",
            None,
            id="a machine in pieces with a price for its unit",
        ),
        pytest.param("Tolvane T412 engine for breaking\nhead $275", "part", ["tolvane-t412"], id="a unit in pieces"),
        pytest.param("Hestrel H52D service manual, $40", "part", ["hestrel-h52d"], id="a manual"),
        pytest.param("Castelline 460 engine, NOT H52D", "unit", [], id="said not to be one"),
        pytest.param("swap my running BH3 for 7,500", "machine", ["varnhollow-bh3"], id="a running machine"),
    ],
)
def test_subject_and_names(text, subject, names, read_of):
    read = read_of(text)
    found = list(dict.fromkeys(hit.name.id for hit in read.matched.hits))
    if subject is not None:
        assert (read.reading.subject.value if read.reading.subject else None) == subject
    if names is not None:
        assert found == names


@pytest.mark.parametrize(
    ("text", "offer"),
    [
        ("swap my running BH3 for 7,500", "running_machine"),
        ("have skarrow s 28 for parts, motor locked up", "parts_machine"),
        ("KESTAVIK K425 COMPLETE\nComplete drop-out incl. radiator", "drop_out"),
        ("TOLVANE T412 LONG BLK, LESS MANIFOLDS", "long_block"),
        ("I have a complete drop-out from a Varnhollow BH3: the Tolvane T412 with its radiator", "drop_out"),
        ("T412 and T412T cores 300-500 depending", "core"),
        ("HESTREL H52D ENG\n$3,450.00 + $600.00 CORE", None),
        ("HESTREL H52D ENG, core due back, $900", None),
        ("Brackmoor B440 engine, no head", "short_block"),
        ("Brackmoor B440 engine, no head gasket problems", None),
        ("Dunmarrow C90 transmission, less converter", "core"),
        ("H52D engine with the rod through the side, $300", "core"),
        ("B330 out of S28, breaking or complete\ncomplete $1,150 / head $200", None),
        ("B330 engine, breaking it or take all for $550", None),
        ("Pellworth 540, engine locked up raking hay", "machine"),
        ("Pellworth 540, engine pulled and gone, no engine", "parts_machine"),
        ("Pellworth 540, clutch stuck", "machine"),
        ("Pellworth 540. Lifts what it is supposed to, used every week", "running_machine"),
        ("Pellworth 540. Cond: runs, steering loose", "running_machine"),
        ("Pellworth 540, operational before, does not start now", "machine"),
        ("Brackmoor B440 engines\nany of them $5,250\nshort blocks $2,400", None),
    ],
)
def test_offer(text, offer, read_of):
    found = read_of(text).reading.offer
    assert (found.value if found else None) == offer
