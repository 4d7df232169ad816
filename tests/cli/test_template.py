"""`template` as whole commands: what it writes, how a face is named, and what a wrong name is told."""

from xml.etree import ElementTree as ET

import pytest


@pytest.fixture
def here(tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    return tmp_path


def test_a_standard_face(run, here):
    out = run("template", "sae-j617-3", code=0).out
    assert "template-sae-j617-3.pdf: 9 sheets of letter at true size, after what is to be known first." in out
    assert "Measure both bars on every sheet before you drill" in out
    assert (here / "template-sae-j617-3.pdf").read_bytes().startswith(b"%PDF")
    assert [path.name for path in here.iterdir()] == ["template-sae-j617-3.pdf"]


@pytest.mark.parametrize(
    ("name", "words"),
    [
        pytest.param("hestrel-h52d.core.rear", "8 holes", id="unit.slot.feature"),
        pytest.param("hestrel-h52d.loader.housing.out", "12 holes", id="unit.variant.slot.feature"),
        pytest.param("dunmarrow-rl90.engine.face", "12 holes", id="machine.seat.feature"),
        pytest.param("tolvane-crank-6", "where the first hole stands is not known", id="pattern"),
    ],
)
def test_faces_by_where_they_stand(run, here, shop, name, words):
    out = run("template", name, "--home", shop / "home.yaml", "--to", "it.pdf", "--svg", "it.svg", "--paper", "a4", code=0).out
    assert words in out
    assert ET.parse(here / "it.svg").getroot().get("width").endswith("mm")  # noqa: S314 - our own


@pytest.mark.parametrize(
    ("name", "words"),
    [
        pytest.param("sae-j617-33", "no pattern, unit or machine called 'sae-j617-33' (did you mean", id="misspelt pattern"),
        pytest.param("hestrel-h52d", "hestrel-h52d has no bolt face '' (it has hestrel-h52d.", id="unit alone"),
        pytest.param("hestrel-h52d.core.reer", "no bolt face 'core.reer' (it has hestrel-h52d.", id="misspelt feature"),
        pytest.param(
            "hestrel-h52d.housing.out", "differs from form to form (say which: hestrel-h52d.loader.housing.out", id="forms"
        ),
        pytest.param("dunmarrow-rl90.engine", "no bolt face 'engine' (it has dunmarrow-rl90.", id="seat alone"),
        pytest.param("hestrel-h52d:core.rear", "there is no pattern 'hestrel-h52d:core.rear'", id="nothing written in place"),
    ],
)
def test_names_that_are_no_face(run, here, shop, name, words):
    ran = run("template", name, "--home", shop / "home.yaml", code=2)
    assert words in ran.err
    assert list(here.iterdir()) == []


def test_the_plate_between_two_faces(run, here):
    made = run("template", "sae-j617-2", "sae-j617-3", "--dxf", "plate.dxf", "--svg", "plate.svg", "--thick", "3/4 in", code=0)
    words = " ".join(made.out.split())
    assert "template-sae-j617-2-sae-j617-3.pdf: 9 sheets of letter at true size" in words
    assert "CHECK AGAINST THE PARTS BEFORE CUTTING" in words
    assert "Material: steel. Thickness: 19.05 mm (3/4 in)." in words
    assert "Joint: engine.gearbox, 1/32 in clearance. Holes: 12 sunk, 12 tapped." in words
    assert "first hole at 15 deg: a judgement" in words
    assert sorted(path.name for path in here.iterdir()) == ["plate.dxf", "plate.svg", "template-sae-j617-2-sae-j617-3.pdf"]
    layers = (here / "plate.dxf").read_text(encoding="cp1252").splitlines()
    assert {"DRILL", "COUNTERBORE", "TAP", "OUTLINE", "OPENING", "REGISTER"} <= set(layers)


def test_a_plate_from_where_faces_stand(run, here, shop):
    """The Kestavik housing was read with a tape, and the plate says so."""
    faces = ("kestavik-k425.housing.out", "dunmarrow-rl120.engine.face")
    words = " ".join(run("template", *faces, "--home", shop / "home.yaml", "--to", "it.pdf", code=0).out.split())
    assert "Holes: 10 sunk, 12 tapped." in words
    assert "gearbox side: the holes were read to ±1.6 mm only: check them against the part before drilling" in words
    assert (here / "it.pdf").is_file()


@pytest.mark.parametrize(
    ("arguments", "words"),
    [
        pytest.param(["sae-j617-3", "sae-j620-10"], "no plate joins No. 3 housing to 10 in flywheel", id="no place to stand"),
        pytest.param(["sae-j744-a-2-bolt", "sae-j744-b-2-bolt"], "cannot be told (--joint engine.rear", id="no such joint"),
        pytest.param(["sae-j617-2", "sae-j617-3", "--thick", "10 mm"], "allow 14.3 to 40 mm", id="too thin for its bolts"),
        pytest.param(["sae-j617-2", "sae-j617-3", "--thick", "2 in"], "a plate 2 in thick cannot be made", id="too thick"),
        pytest.param(["sae-j617-2", "sae-j617-3", "--joint", "engine.gearbx"], "(did you mean", id="misspelt joint"),
        pytest.param(["sae-j617-2", "--thick", "1 in"], "are those of a plate between two faces", id="one face"),
    ],
)
def test_plates_that_cannot_be(run, here, arguments, words):
    assert words in run("template", *arguments, code=2).err
    assert list(here.iterdir()) == []


def test_wrong_paper_and_folder(run, here):
    assert "no paper is called 'a5'" in run("template", "sae-j617-3", "--paper", "a5", code=2).err
    assert "there is no folder 'away'" in run("template", "sae-j617-3", "--to", "away/it.pdf", code=2).err
    assert list(here.iterdir()) == []


def test_a_face_that_is_not_fully_known_is_not_drawn(run, own_shop):
    (own_shop / "catalog" / "half.yaml").write_text("patterns:\n  half: {circle: 400 mm}\n", encoding="utf-8")
    assert "the holes of half are not all known" in run("template", "half", "--home", own_shop / "home.yaml", code=2).err
