"""Text that came from outside, made safe to show: no control characters, no turning of the writing direction, one line."""

from __future__ import annotations

import unicodedata

UNSAFE = frozenset({"Cc", "Cf", "Cs", "Co", "Cn", "Zl", "Zp"})


def one_line(text: str, most: int = 400) -> str:
    """A line of a terminal or table: whitespace folded, unsafe characters dropped, cut with an ellipsis."""
    safe = "".join(
        " " if letter.isspace() else letter for letter in text if letter.isspace() or unicodedata.category(letter) not in UNSAFE
    )
    folded = " ".join(safe.split())
    return folded if len(folded) <= most else folded[: most - 1].rstrip() + "…"


def safe_block(text: str) -> str:
    """Several lines, each safe."""
    return "\n".join(one_line(line, 2000) for line in text.splitlines())
