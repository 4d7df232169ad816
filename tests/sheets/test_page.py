"""Blocks written as a page, as Markdown and on paper: whatever stands in them is text."""

import itertools
from html.parser import HTMLParser

import pytest
from markdown_it import MarkdownIt

from interchange.sheets.drawing import SIZE, Circle, Drawing, Line, Words
from interchange.sheets.page import RIGHT, WARN, WRITE, Column, Figure, Heading, Page, Paragraph, Points, Quote, Table
from interchange.sheets.page_html import html
from interchange.sheets.page_markdown import escaped, markdown
from interchange.sheets.page_pdf import paged
from interchange.sheets.tiles import PAPERS

HOSTILE = [
    pytest.param("<script>alert(1)</script>", id="script"),
    pytest.param("\"quoted\" 'twice' & <b>bold</b> </td></table>", id="quotes and tags"),
    pytest.param("🚜🔧 emoji", id="emoji"),
    pytest.param("מנוע טרקטור محرك", id="right to left"),
    pytest.param("long" * 2500, id="10,000 letters"),
    pytest.param("{{ 7*7 }} {% raw %} {# no #}", id="template signs"),
    pytest.param("# no heading", id="heading sign"),
    pytest.param("- no list", id="dash"),
    pytest.param("12. no list", id="number"),
    pytest.param("12) no list", id="number with bracket"),
    pytest.param("+ no list", id="plus"),
    pytest.param("---", id="rule"),
    pytest.param("===", id="underline"),
    pytest.param("> no quote", id="quote sign"),
    pytest.param("```", id="fence"),
    pytest.param("~~~", id="other fence"),
    pytest.param("a | b | c", id="bars"),
    pytest.param("[words](http://outside.example) ![x](y.png)", id="link and picture"),
    pytest.param("<http://outside.example> http://outside.example www.outside.example me@outside.example", id="bare links"),
    pytest.param("*stars* _lines_ **two** __two__ ~~struck~~ `code`", id="emphasis"),
    pytest.param("back\\slash \\* \\\\", id="backslashes"),
    pytest.param("&lt;b&gt; &amp; &#35;", id="entities"),
    pytest.param("$2,000 or $1,500 $$x$$", id="sums"),
    pytest.param("javascript:alert(1)", id="scheme"),
    pytest.param("]]> --> <!-- <![CDATA[", id="comment signs"),
    pytest.param("<para><font size=90>big</font></para><br/>", id="reportlab's markup"),
]
READER = MarkdownIt("commonmark", {"html": True}).enable(["table", "strikethrough"])
DRAWING = Drawing("a circle", (Circle(0, 0, 5, SIZE), Line(0, 0, 5, 5, SIZE), Words(0, 0, "A", 3)), ("a note",))


def page_with(text):
    return Page(
        text[:200],
        (
            Heading(text),
            Paragraph(text),
            Paragraph(text, WARN),
            Points((text, "next")),
            Points((text, "next"), numbered=True),
            Table(
                text, (Column(text[:60]), Column("figure", RIGHT), Column("found", WRITE)), ((text, text, ""),), (text, "", "")
            ),
            Figure(Drawing(text, (*DRAWING.shapes, Words(0, 9, text, 3)), (text,)), text),
            Quote(f"{text}\n\n{text}", text),
        ),
    )


class Tags(HTMLParser):
    def __init__(self):
        super().__init__()
        self.tags, self.words = [], []

    def handle_starttag(self, tag, attrs):
        self.tags.append((tag, tuple(name for name, _ in attrs)))

    def handle_data(self, data):
        self.words.append(data)


def read(text):
    found = Tags()
    found.feed(text)
    return found


def shown(text):
    return " ".join(text.split())


@pytest.mark.parametrize("text", HOSTILE)
def test_as_a_page_it_is_text(text):
    made = read(html(page_with(text)))
    assert made.tags == read(html(page_with("plain words"))).tags
    assert sum(shown(text) in shown(words) for words in made.words) >= 12


@pytest.mark.parametrize("text", HOSTILE)
def test_as_markdown_it_is_text(text):
    """Read back by an outside reader: the same tags as plain words give, with the text in them."""
    made, plain = (read(READER.render(markdown(page_with(words)))) for words in (text, "plain words"))
    assert made.tags == plain.tags
    assert shown("".join(made.words)).count(shown(text)) >= 10


@pytest.mark.parametrize("text", HOSTILE)
def test_on_paper_it_is_laid_out(text):
    assert paged(page_with(text), PAPERS["letter"]).startswith(b"%PDF")


@pytest.mark.parametrize("text", HOSTILE)
def test_a_line_of_markdown_is_one_paragraph(text):
    (first, inline, last) = READER.parse(escaped(text))
    assert (first.type, inline.type, last.type) == ("paragraph_open", "inline", "paragraph_close")
    assert "".join(each.content for each in inline.children) == shown(text)


def test_turning_and_control_signs_are_dropped():
    for write in (html, markdown):
        made = write(page_with("a\u202eb\x1b[31mc\u2066d\x00e"))
        assert not set("\u202e\x1b\u2066\x00") & set(made)
        assert "ab[31mcde" in made.replace("\\", "")


def test_pages_say_their_names_and_their_size():
    a4, letter = (paged(page_with("plain words"), PAPERS[name]) for name in ("a4", "letter"))
    assert b"/Title (plain words)" in a4
    assert b"595.2" in a4
    assert b"612 792" in letter


def test_every_layer_with_words_can_be_read_on_white():
    """Contrast of at least 4.5, as WCAG 2 AA asks of small text."""
    from interchange.sheets.drawing import ALONE, FACE, MARKED, MEETS, SIZE, STYLES, TAPE, TITLE, WORDS

    for layer in (ALONE, FACE, MARKED, MEETS, SIZE, TAPE, TITLE, WORDS):
        channels = [int(STYLES[layer].colour[i : i + 2], 16) / 255 for i in (1, 3, 5)]
        linear = [c / 12.92 if c <= 0.03928 else ((c + 0.055) / 1.055) ** 2.4 for c in channels]
        light = sum(share * each for share, each in zip((0.2126, 0.7152, 0.0722), linear, strict=True))
        assert 1.05 / (light + 0.05) >= 4.5, layer


def test_headings_do_not_skip_a_level():
    made = read(html(Page("title", (Heading("two"), Heading("three", 3), Heading("two again")))))
    levels = [int(tag[1]) for tag, _ in made.tags if tag in {"h1", "h2", "h3"}]
    assert levels == [1, 2, 3, 2]
    assert all(later - earlier <= 1 for earlier, later in itertools.pairwise(levels))
