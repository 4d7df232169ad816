"""What an ad says, as facts for a catalog file."""

from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from interchange.ads.entered import facts_of, named_model
from interchange.ads.fields import AdWords
from interchange.ads.pasted import Ad
from interchange.ads.read import read_ad
from interchange.catalog.check import SourceText, check_record, read_catalog
from interchange.catalog.plain_text import one_line
from interchange.catalog.rooms import read_file
from interchange.catalog.stub import machine_text, unit_text
from interchange.catalog.words import WORD_ROOMS

TRADE = Path(__file__).parents[2] / "catalog" / "trade"
CATALOG = read_catalog([SourceText(path.name, path.read_text(encoding="utf-8"), 0) for path in sorted(TRADE.glob("*.yaml"))])
KINDS = {id_: one.value for id_, one in CATALOG.room("kinds").items()}
ENGINE, PUMP = KINDS["engine"], KINDS["pump"]
PHRASES = tuple(one.value for one in CATALOG.room("phrases").values())
ROOMS = [tuple(one.value for one in CATALOG.room(room).values()) for room in WORD_ROOMS]
WORDS = AdWords(offers=ROOMS[0], things=ROOMS[1], parts=ROOMS[2], states=ROOMS[3], facts=ROOMS[4])


def entered(text, kind=ENGINE, on="2026-11-20"):
    return facts_of(Ad("1a2b3c4d", text, "pasted.txt", 1, on), read_ad(text, PHRASES, WORDS), kind)


def said(facts):
    return {one.path: one.values for one in facts.figures}


FULL = (
    "Aldermast A52 diesel engine\n$1,400\n62 hp, 4 cylinder, 3.3 L (201 cu in), 12 volt starter, weighs 905 lbs.\n"
    "Turns clockwise seen from the flywheel. Barre, VT"
)


def test_everything_said_stands_with_the_ad_and_the_day():
    facts = entered(FULL)
    assert (facts.id, facts.title, facts.maker, facts.aka) == ("aldermast-a52", "Aldermast A52", "Aldermast", ("A52",))
    assert facts.source == "ad 1a2b3c4d, pasted 2026-11-20"
    assert said(facts) == {
        "core.power": ("62 hp",), "core.cylinders": ("4",), "core.displacement": ("3.3 L",), "core.fuel": ("diesel",),
        "electrics.volts": ("12 V",), "core.weight": ("905 lb",), "core.rotation": ("clockwise",),
    }  # fmt: skip
    assert facts.remarks[0] == "From ad 1a2b3c4d, pasted 2026-11-20: “Aldermast A52 diesel engine”"
    assert 'power: {value: 62 hp, basis: said, from: "ad 1a2b3c4d, pasted 2026-11-20"}   # “62 hp”' in unit_text(ENGINE, facts)


def test_a_day_that_is_not_known_is_not_told():
    assert entered(FULL, on="").source == "ad 1a2b3c4d"


@pytest.mark.parametrize(
    ("words", "path", "values"),
    [
        pytest.param("3.3 L, 201 cu in", "core.displacement", ("3.3 L",), id="one figure in two units"),
        pytest.param("3.3 L, 240 cu in", "core.displacement", ("3.3 L", "240 cu in"), id="two that differ"),
        pytest.param("turns clockwise", "core.rotation", None, id="from which end is not said"),
        pytest.param("clockwise seen from the fan", "core.rotation", None, id="from the other end"),
        pytest.param("turbo", "core.aspiration", ("turbo",), id="a word of the kind"),
        pytest.param("not a diesel", "core.fuel", None, id="denied"),
    ],
)
def test_what_is_said_once_twice_or_unclearly(words, path, values):
    assert said(entered(f"Aldermast A52 engine\n{words}\n$900\nBarre, VT")).get(path) == values


def test_a_turning_that_is_unclear_is_kept_as_a_remark():
    facts = entered("Aldermast A52 engine\nturns clockwise\n$900")
    assert any(remark.startswith("The ad on rotation: “") for remark in facts.remarks)


def test_a_machines_weight_is_its_own_and_not_its_engines():
    text = "Castelline 460 tractor\nweighs 4,100 lbs\n$2,300\nBarre, VT"
    assert said(entered(text, kind=None)) == {"weight": ("4100 lb",)}
    assert "core.weight" not in said(entered(text))


@pytest.mark.parametrize(
    ("text", "words"),
    [
        pytest.param("Aldermast 5200 diesel engine\n$900", "Aldermast 5200", id="maker and number"),
        pytest.param("For sale: D44 engine, runs", "D44", id="model alone"),
        pytest.param("Engine for sale\nIt is a Norvick D44 and ran fine. $900", "Norvick D44", id="below the title"),
        pytest.param("4 loader tires 20.5-25, about half tread", None, id="parts"),
        pytest.param("square bales, second cut, never wet. $5 each", None, id="hay"),
        pytest.param("engine, 5200 asked", None, id="a number alone"),
    ],
)
def test_the_model_an_ad_names(text, words):
    found = named_model(read_ad(text, PHRASES, WORDS))
    assert (found and found.words) == words


def test_an_ad_without_a_model_keeps_its_first_words_and_gives_no_id():
    facts = entered("old diesel engine out of a barn\n$200")
    assert (facts.id, facts.maker, facts.title) == ("", "", "old diesel engine out of a barn")


PIECES = [
    'Aldermast "A52"', "Norvick D44: # x", "\n", " ", "62 hp", "1e300 hp", "0 hp", "4 cyl", "99999 cylinder", "3.3 L", "201 ci",
    "12 volt", "24v", "905 lbs", "weighs 0.0001 lb", "turns clockwise seen from the flywheel", "reverse rotation", "$900",
    "€3.200", "diesel", "turbo", "not a diesel", "engine", "tractor", "{a: &b *c}", "---", "\x00\x1b[31m", "\u202e", "\u2028",
    "\ud800", "🚜", "s/n 12345X", "1978", "2,310 hours", "&quot;&#10;", "<b>", "\\", "|", ">-", "%TAG", "\t",
]  # fmt: skip


@settings(deadline=None, max_examples=150)
@given(st.lists(st.sampled_from(PIECES) | st.text(max_size=8), max_size=14).map(" ".join))
def test_whatever_an_ad_says_the_file_passes_the_check(text):
    for kind in (ENGINE, None):
        facts = entered(text, kind)
        facts = facts._replace(id=facts.id or "mine", title=one_line(facts.title) or "mine")
        made = unit_text(kind, facts) if kind else machine_text({"pump": PUMP}, facts)
        file = read_file(made, "new.yaml", KINDS)
        assert [str(problem) for one in file.records for problem in (*file.problems, *check_record(one))] == []
        (one,) = file.records
        assert one.value.title == facts.title
        assert set(said(facts)) <= set(one.presented[""].features if kind else ["weight"])
