"""Files to fill in: they read back as written, whatever the texts, and each comment line is a line that can be filled in."""

import re
from pathlib import Path

import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st

from interchange.catalog.check import SourceText, read_catalog, read_kinds
from interchange.catalog.feature_lines import EXAMPLES, SEEN, how_written, what_stops, worst_first
from interchange.catalog.kind import QUANTITY_FEATURES
from interchange.catalog.model import FeatureType
from interchange.catalog.plain_text import id_from, one_line, quoted, scalar
from interchange.catalog.rooms import read_file
from interchange.catalog.stub import Facts, Said, machine_text, unit_text
from interchange.quantity import read_quantity, read_rating

TRADE = Path(__file__).parents[2] / "catalog" / "trade"
WINCH = Path(__file__).parent / "winch.yaml"
SOURCES = [SourceText(path.name, path.read_text(encoding="utf-8"), 0) for path in (*sorted(TRADE.glob("*.yaml")), WINCH)]
KINDS = read_kinds(SOURCES)
ENGINE, PUMP = KINDS["engine"], KINDS["pump"]

HOSTILE = [
    'a "quoted" title', "it's", "a: b # c", "- [x, {y: z}]", "&a *b !!python/object:os.system", "%YAML 1.1", "--- x\n...\n",
    "\\n\\", "one\ntwo\r\nthree\x85four\u2028five", "\x1b[31mred\x00", "\u202egnp.exe\u202c", "|\n  block", "? key",
    "\ufeffbom", "\ud800half", "🚜 loader", "~", "yes", "0x1F", "@`",
]  # fmt: skip


def read_back(text):
    return read_file(text, "new.yaml", KINDS)


def title_of(text):
    file = read_back(text)
    assert not file.problems
    (one,) = file.records
    return one.value.title


@settings(deadline=None, max_examples=60)
@given(st.text(min_size=1).filter(one_line), st.text(), st.text(), st.text())
@example(*[" ".join(HOSTILE)] * 4)
def test_a_title_reads_back_whatever_is_in_it(title, maker, other, remark):
    said = Said("core.rotation", ("clockwise",), remark)
    facts = Facts("mine", title, maker, (other,), other, (said,), (remark,))
    file = read_back(unit_text(PUMP, facts))
    assert not file.problems
    (unit,) = file.records
    assert unit.value.title == one_line(title)
    assert unit.value.maker == one_line(maker)
    assert unit.value.aka == ((one_line(other),) if one_line(other) else ())
    assert unit.presented[""].features["core.rotation"].origin.source == one_line(other)
    assert title_of(machine_text({"pump": PUMP}, facts._replace(figures=()))) == one_line(title)


@pytest.mark.parametrize("title", HOSTILE, ids=ascii)
def test_hostile_titles(title):
    assert title_of(unit_text(ENGINE, Facts("mine", title, remarks=(title,)))) == one_line(title)


@settings(deadline=None, max_examples=60)
@given(st.text(min_size=1).filter(one_line))
def test_a_figure_is_quoted_unless_it_is_plain(text):
    file = read_back(f"units:\n  a:\n    kind: engine\n    title: t\n    slots:\n      core: {{tier: {scalar(text)}}}\n")
    assert not file.problems
    assert file.records[0].presented[""].features["core.tier"].word == one_line(text)


def test_a_long_text_is_cut():
    assert quoted("x" * 900) == '"' + "x" * 199 + '…"'


@pytest.mark.parametrize("kind", KINDS.values(), ids=lambda kind: kind.id)
def test_every_kind_makes_a_file_without_problems(kind):
    facts = Facts("mine", "Mine")
    for text in (unit_text(kind, facts), machine_text({kind.id: kind}, facts)):
        made = read_catalog([*SOURCES, SourceText("new.yaml", text, 1)])
        assert [problem for problem in made.problems if problem.file == "new.yaml"] == []
        assert made.room("units").get("mine") or made.room("machines").get("mine")


FEATURE = re.compile(r"^( +)# ((?:  )*(?:slots|\w+):.*)$", re.MULTILINE)


@pytest.mark.parametrize("kind", KINDS.values(), ids=lambda kind: kind.id)
def test_a_line_with_its_sign_taken_off_and_nothing_written_is_a_problem_and_no_figure(kind):
    made = unit_text(kind, Facts("mine", "Mine"))
    head, _, body = made.partition("    # slots:")
    body = body.partition("    # variants:")[0]
    file = read_back(head + FEATURE.sub(r"\1\2", "    # slots:" + body))
    wanted = sum(len(types) for types in kind.slots.values())
    lines = {problem.line for problem in file.problems if problem.slug in ("empty", "unknown-word", "missing-key")}
    assert len(lines) == wanted
    assert {problem.slug for problem in file.problems} <= {"empty", "unknown-word", "missing-key"}


def test_a_filled_line_counts():
    text = unit_text(ENGINE, Facts("mine", "Mine", figures=(Said("core.fuel", ("diesel",)),)))
    line = next(line for line in text.splitlines() if "# flange_proud:" in line)
    filled = line.replace("# flange_proud:", "flange_proud: 5/8 in", 1)
    file = read_back(text.replace(line, filled))
    assert not file.problems
    assert file.records[0].presented[""].features["core.flange_proud"].value == pytest.approx(15.875)


def test_what_stops_a_swap_comes_first():
    text = unit_text(ENGINE, Facts("mine", "Mine"))
    stops = [
        line.removeprefix("#   ")
        for line in text.splitlines()
        if line.startswith("#   ") and "; " in line and "is one" not in line
    ]
    assert stops == list(what_stops(ENGINE))
    assert stops[0] == "stressed block: core.block; a photo shows it"
    core = [line for line in text.splitlines() if line.startswith("    #     ")]
    severities = [("stops:" in line, "fixable:" in line) for line in core[: len(ENGINE.slots["core"])]]
    assert severities == sorted(severities, reverse=True)


def test_features_nothing_compares_come_last_as_the_kind_has_them():
    types = {"b": FeatureType("word"), "a": FeatureType("word")}
    assert worst_first(types, "core", {}) == ["b", "a"]


def test_every_type_has_an_example_that_reads():
    assert set(EXAMPLES) == set(QUANTITY_FEATURES)
    for dimension, words in EXAMPLES.items():
        for text in re.split(r", | or ", words):
            if " @ " in text:
                assert read_rating(text, dimension).speed
            else:
                assert read_quantity(text, dimension).value


def test_every_way_of_seeing_has_words():
    assert {one.seen for kind in KINDS.values() for one in kind.dimensions.values()} <= set(SEEN)


@pytest.mark.parametrize(
    ("type_", "words"),
    [
        pytest.param(FeatureType("word"), "a word", id="free"),
        pytest.param(FeatureType("word", ("left",)), "left", id="one"),
        pytest.param(FeatureType("word", ("left", "right", "top")), "left, right or top", id="three"),
        pytest.param(FeatureType("pattern"), "bolt face, or the id of one", id="face"),
        pytest.param(FeatureType("voltage"), "voltage, as 12 V", id="quantity"),
    ],
)
def test_how_it_is_written(type_, words):
    assert how_written(type_) == words


def test_sources_that_differ_stand_as_a_list():
    said = Said("core.power", ("62 hp", "58 hp"))
    text = unit_text(ENGINE, Facts("mine", "Mine", source="ad x", figures=(said,)))
    figure = read_back(text).records[0].presented[""].features["core.power"]
    assert [one.text for one in figure.readings] == ["62 hp", "58 hp"]
    assert {one.origin.basis for one in figure.readings} == {"said"}


@pytest.mark.parametrize(
    ("words", "id_"),
    [
        pytest.param(["Tolvane T-999"], "tolvane-t-999", id="plain"),
        pytest.param(["Škovár", "4/12"], "skovar-4-12", id="accents and signs"),
        pytest.param(["../../etc/passwd"], "etc-passwd", id="a path"),
        pytest.param(["機械"], "", id="nothing left"),
        pytest.param(["x" * 200], "x" * 80, id="long"),
    ],
)
def test_id_from_words(words, id_):
    assert id_from(words) == id_
