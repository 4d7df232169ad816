"""A sheet as one HTML file: no script, nothing from outside, readable at 360 px and on paper.

By jinja2, which escapes whatever a template does not explicitly trust; all that is trusted are drawings, escaped by `svg`.
It is loaded where a page is written.
"""

from __future__ import annotations

import functools
from typing import TYPE_CHECKING

from interchange.sheets.page import Figure, Page, Quote
from interchange.sheets.plain import one_line
from interchange.sheets.svg import svg

if TYPE_CHECKING:
    from jinja2 import Template

    from interchange.sheets.page import Block

LONGEST = 100_000


def html(page: Page) -> str:
    """The file's text. Whatever stands in the page's text is text in it, never markup."""
    return _template().render(page=page)


@functools.cache
def _template() -> Template:
    from jinja2 import Environment, PackageLoader, StrictUndefined

    environment = Environment(
        loader=PackageLoader("interchange.sheets", "templates"),
        autoescape=True,
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
    )
    environment.filters |= {"drawn": _drawn, "clean": _clean, "lines": _lines}
    environment.tests |= {"block": _is}
    return environment.get_template("page.html")


def _is(block: Block, name: str) -> bool:
    return type(block).__name__ == name


def _drawn(figure: Figure) -> str:
    from markupsafe import Markup

    return Markup(svg(figure.drawing, true_size=False, label=figure.alt))  # noqa: S704 - svg escapes every word in it


def _clean(text: str) -> str:
    return one_line(text, LONGEST)


def _lines(quote: Quote) -> list[str]:
    return [one_line(line, LONGEST) for line in quote.text.splitlines()]
