"""`guide`: the manual on the terminal, or as it is written where the output goes elsewhere."""

from __future__ import annotations

import re
import sys

from interchange.guide.pages import START, page, pages
from interchange.sheets.terminal import console

_BLOCK = re.compile(r"((?:^    .*\n(?:\n(?=    ))*)+)", re.MULTILINE)


def guide(name: str | None) -> None:
    """List the pages, or show one."""
    if name is None:
        _contents()
    elif sys.stdout.isatty():
        _shown(page(name).text)
    else:
        sys.stdout.write(page(name).text)


def _shown(text: str) -> None:
    """Prose to the terminal's width; what is to be copied or lined up just as it is written, however narrow it is."""
    from rich.markdown import Markdown
    from rich.text import Text

    out = console()
    for place, part in enumerate(_BLOCK.split(text)):
        if place % 2:
            out.print(Text(part.rstrip("\n"), "cyan"), soft_wrap=True)
            out.print()
        elif part.strip():
            out.print(Markdown(part.strip("\n")))
            out.print()


def _contents() -> None:
    from rich.table import Table

    table = Table.grid(padding=(0, 2))
    for one in pages():
        table.add_row(one.name, "what it is for, and the first steps" if one.name == START else one.title)
    out = console()
    out.print("The manual. One page: interchange guide PAGE")
    out.print()
    out.print(table)
