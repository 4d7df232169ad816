"""`guide`: the manual on the terminal, or as it is written where the output goes elsewhere."""

from __future__ import annotations

import sys

from interchange.guide.pages import START, page, pages
from interchange.sheets.terminal import console


def guide(name: str | None) -> None:
    """List the pages, or show one."""
    if name is None:
        _contents()
    elif sys.stdout.isatty():
        from rich.markdown import Markdown

        console().print(Markdown(page(name).text))
    else:
        sys.stdout.write(page(name).text)


def _contents() -> None:
    from rich.table import Table

    table = Table.grid(padding=(0, 2))
    for one in pages():
        table.add_row(one.name, "what it is for, and the first steps" if one.name == START else one.title)
    out = console()
    out.print("The manual. One page: interchange guide PAGE")
    out.print()
    out.print(table)
