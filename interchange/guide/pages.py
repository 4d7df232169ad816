"""The manual: pages of Markdown that come with the program; the first is the README itself."""

from __future__ import annotations

from pathlib import Path
from typing import NamedTuple

from interchange.errors import InputError

START = "start"
LEAST_WORD = 3  # letters of a word that is looked for in the pages
_HERE = Path(__file__).parent
_CHECKOUT = _HERE.parents[1] / "README.md"


class Page(NamedTuple):
    """A page: the word it is asked for by, its heading, and all of its text."""

    name: str
    title: str
    text: str


def pages() -> tuple[Page, ...]:
    """Every page, the first one first and the others by name."""
    found = {path.stem: path for path in sorted(_HERE.glob("*.md"))}
    first = found.pop(START, _CHECKOUT)  # an installed copy carries the README as that page
    return tuple(_read(name, path) for name, path in {START: first, **found}.items())


def page(name: str) -> Page:
    """One page by its name.

    Raises:
        InputError: there is none; with those that speak of the word.

    """
    every = pages()
    wanted = name.strip().lower()
    found = next((one for one in every if one.name == wanted), None)
    if found is not None:
        return found
    about = [one.name for one in every if len(wanted) >= LEAST_WORD and wanted in one.text.lower()]
    hint = f"pages that speak of it: {', '.join(about)}" if about else f"there are: {', '.join(one.name for one in every)}"
    raise InputError(f"the guide has no page {name!r}", hint)


def _read(name: str, path: Path) -> Page:
    text = path.read_text(encoding="utf-8")
    return Page(name, text.partition("\n")[0].removeprefix("# "), text)
