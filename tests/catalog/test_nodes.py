import gc

import pytest
import yaml
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from interchange.catalog import nodes
from interchange.catalog.nodes import MOST_DEPTH, Node, collector_paused, descend, read_nodes

LOADERS = [pytest.param(yaml.SafeLoader, id="pure"), pytest.param(getattr(yaml, "CSafeLoader", yaml.SafeLoader), id="C")]


@pytest.fixture(params=LOADERS, autouse=True)
def _loader(request, monkeypatch):
    monkeypatch.setattr(nodes, "LOADER", request.param)


def places(text: str) -> list[tuple[int, int, str]]:
    _, problems = read_nodes(text, "a.yaml")
    assert all(problem.file == "a.yaml" and problem.text and problem.hint for problem in problems)
    return [(problem.line, problem.column, problem.slug) for problem in problems]


def plain(node: Node | None) -> object:
    """A node without its places."""
    if node is None or node.value is None or isinstance(node.value, str):
        return node.value if node else None
    if isinstance(node.value, list):
        return [plain(child) for child in node.value]
    return {key: plain(child) for key, child in node.value.items()}


@pytest.mark.parametrize(
    "written", ["1:2", "010", "no", "1.50", "~", "null", "2026-05-02", "0x1F", "1_000", "=", "<<", "16-7/8 in"]
)
def test_a_scalar_stays_as_it_is_written(written):
    root, problems = read_nodes(f"key: {written}\n", "a.yaml")
    assert (plain(root), problems) == ({"key": written}, [])


def test_places_of_keys_and_values_are_counted_from_one():
    root, problems = read_nodes("a: 1\nbb:\n  c: [x,  y]\n  d: 'quoted'\n  e: {f: g}\n", "a.yaml")
    assert problems == []
    bb = root.value["bb"]
    assert root[1:] == (1, 1, 0, 0)
    assert root.value["a"][1:] == (1, 4, 1, 1)
    assert bb[1:] == (3, 3, 2, 1)
    assert [item[1:3] for item in bb.value["c"].value] == [(3, 7), (3, 11)]
    assert bb.value["d"][1:] == (4, 7, 4, 3), "a quoted scalar stands after its quote"
    assert bb.value["e"].value["f"][1:] == (5, 10, 5, 7)


def test_text_in_blocks_and_quotes():
    text = "a: |\n  two\n  lines\nb: >-\n  folded\n  text\nc: \"tab\\there\"\nd: 'it''s'\ne:\nf: \"\"\n"
    root, problems = read_nodes(text, "a.yaml")
    assert problems == []
    assert plain(root) == {"a": "two\nlines\n", "b": "folded text", "c": "tab\there", "d": "it's", "e": "", "f": ""}


@pytest.mark.parametrize("text", ["", "\n\n", "# nothing but a remark\n", "---\n...\n"])
def test_nothing_written(text):
    root, problems = read_nodes(text, "a.yaml")
    assert problems == []
    assert root is None or plain(root) == ""


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        pytest.param("a: &x 1\nb: *x\n", [(1, 4, "anchor"), (2, 4, "alias")], id="anchor and alias"),
        pytest.param("a: &x {b: [1, 2]}\nc: d\n", [(1, 4, "anchor")], id="anchor on a mapping"),
        pytest.param("&x a: 1\n", [(1, 1, "anchor")], id="anchor on a key"),
        pytest.param("a: 1\nb: {c: *a}\n", [(2, 8, "alias")], id="alias alone"),
        pytest.param("<<: *a\n", [(1, 5, "alias")], id="merge"),
        pytest.param("a: !!str 1\n", [(1, 4, "tag")], id="tag of YAML"),
        pytest.param("a: !made [1, {b: c}]\nd: e\n", [(1, 4, "tag")], id="own tag on a list"),
        pytest.param("a: !!python/object/apply:os.system ['true']\n", [(1, 4, "tag")], id="tag that would run something"),
        pytest.param("!!str a: 1\n", [(1, 1, "tag")], id="tag on a key"),
        pytest.param("a: 1\nb: 2\na: 3\n", [(3, 1, "duplicate-key")], id="a key again"),
        pytest.param("a:\n  b: 1\n  b: 2\n  b: 3\n", [(3, 3, "duplicate-key"), (4, 3, "duplicate-key")], id="a key three times"),
        pytest.param("a: {b: 1, c: 2, b: 3}\n", [(1, 17, "duplicate-key")], id="a key again on one line"),
        pytest.param("a: 1\n'a': 3\nb: 1\n", [(2, 1, "duplicate-key")], id="the same key in quotes"),
        pytest.param("a: 1\n---\nb: 2\n", [(2, 1, "second-document")], id="a second document"),
        pytest.param("? [a, b]\n: 1\nc: 2\n", [(1, 3, "bad-key")], id="a list for a key"),
        pytest.param("? {a: &x 1}\n: 1\nc: 2\n", [(1, 3, "bad-key")], id="a mapping for a key"),
        pytest.param('"a\\u001bb": 1\nc: 2\n', [(1, 1, "bad-character")], id="a control character in a key"),
        pytest.param('a: "x\\0"\n', [(1, 4, "bad-character")], id="NUL, escaped"),
        pytest.param('a: "\\e[31m"\n', [(1, 4, "bad-character")], id="an escape for the terminal"),
        pytest.param("a: [\n", [(2, 1, "not-yaml")], id="a list without its end"),
        pytest.param("a: 1\n b: 2\n", [(2, 3, "not-yaml")], id="a wrong indent"),
        pytest.param('a: "x\n', [(2, 1, "not-yaml")], id="a quote without its end"),
        pytest.param("a: b: c\n", [(1, 5, "not-yaml")], id="two colons"),
        pytest.param("a: b\n- c\n", [(2, 1, "not-yaml")], id="a list beside a mapping"),
        pytest.param("a: @b\n", [(1, 4, "not-yaml")], id="a reserved sign"),
        pytest.param("a: 1\nb: x\0y\n", [(2, 5, "bad-character")], id="NUL"),
        pytest.param("a: é½\nb: xé\x07\n", [(2, 6, "bad-character")], id="BEL after letters of two bytes"),
        pytest.param("a: 𝕏\x1b[0m\n", [(1, 5, "bad-character")], id="ESC after a letter of four bytes"),
        pytest.param("a: 1\r\nb: \ud800\r\n", [(2, 4, "bad-character")], id="half of a pair"),
    ],
)
def test_what_is_refused_is_told_with_its_place(text, expected):
    assert places(text) == expected


def test_what_stands_beside_a_refusal_is_read():
    root, problems = read_nodes("a: &x {b: 1}\nc: 2\nd: [!t 3, 4]\n", "a.yaml")
    assert len(problems) == 2
    assert plain(root) == {"a": None, "c": "2", "d": [None, "4"]}


def test_the_first_of_two_keys_counts_and_is_named():
    root, (problem,) = read_nodes("x: 1\n\na: 1\nb: 2\na: 3\nc: 4\n", "a.yaml")
    assert plain(root) == {"x": "1", "a": "1", "b": "2", "c": "4"}
    assert "line 3" in problem.hint
    assert "'a'" in problem.text


def nested(depth: int) -> str:
    """So many mappings within each other."""
    return "".join("{a: " for _ in range(depth)) + "x" + "}" * depth


def test_depth_is_bounded():
    assert places(f"a: {nested(MOST_DEPTH - 1)}\n") == []
    assert places(f"a: {nested(MOST_DEPTH)}\nb: 1\n") == [(1, 4 + 4 * (MOST_DEPTH - 1), "too-deep")]
    assert [slug for _, _, slug in places("a: " + "[" * MOST_DEPTH + "]" * MOST_DEPTH + "\n")] == ["too-deep"]


def test_depth_far_beyond_any_stack_is_no_fault_of_ours():
    (slug,) = [slug for _, _, slug in places("[" * 1500 + "]" * 1500)]
    assert slug in {"too-deep", "not-yaml"}, "the C loader has a bound of its own"


def test_size_is_bounded(monkeypatch):
    monkeypatch.setattr(nodes, "MOST_BYTES", 100)
    assert places("a: " + "x" * 90 + "\n") == []
    root, (problem,) = read_nodes("a: " + "x" * 100 + "\n", "a.yaml")
    assert root is None
    assert (problem.line, problem.column, problem.slug) == (1, 1, "too-large")


@pytest.mark.parametrize("broken", [False, True])
@pytest.mark.parametrize("enabled", [False, True])
def test_the_collector_is_left_as_it_was(enabled, broken):
    was = gc.isenabled()
    (gc.enable if enabled else gc.disable)()
    try:
        read_nodes("a: [" if broken else "a: 1", "a.yaml")
        assert gc.isenabled() is enabled
    finally:
        (gc.enable if was else gc.disable)()


def test_the_collector_is_left_as_it_was_after_an_exception():
    assert gc.isenabled()

    def fall() -> None:
        with collector_paused():
            assert not gc.isenabled()
            raise KeyError

    with pytest.raises(KeyError):
        fall()
    assert gc.isenabled()


def test_descend_stops_where_the_path_ends():
    root, _ = read_nodes("a: {b: [x, y]}\nc: z\n", "a.yaml")
    assert descend(root, ("a", "b", 1)).value == "y"
    assert descend(root, ("c", 0)).value == "z", "a single item may stand without its list"
    assert descend(root, ("a", "none", "b")) == root.value["a"]


@settings(max_examples=300, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(st.text(alphabet=st.one_of(st.characters(), st.sampled_from("{}[]:,&*!|>'\"%@`-?# \n\r\t\\\0\x85\u2028")), max_size=60))
def test_any_text_gives_nodes_or_problems(text):
    root, problems = read_nodes(text, "a.yaml")
    lines = len(nodes.BREAK.split(text))
    assert all(1 <= problem.line <= lines + 1 and problem.column >= 1 for problem in problems)
    if root is None and not problems:
        assert not yaml.safe_load(text)
