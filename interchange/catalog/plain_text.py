"""Text from outside as it may stand in a catalog file: on one line, without what does not print, quoted."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Iterable

LONGEST_ID = 80
LONGEST_TEXT = 200
NOT_PRINTED = frozenset({"Cc", "Cf", "Cs", "Co", "Cn", "Zl", "Zp"})
PLAIN = re.compile(r"[A-Za-z0-9][A-Za-z0-9_./-]*( [A-Za-z0-9_@./-]+)*")


def one_line(text: str, most: int = LONGEST_TEXT) -> str:
    """A text on one line, without what does not print; cut with an ellipsis."""
    printed = (
        " " if sign.isspace() else sign for sign in text if sign.isspace() or unicodedata.category(sign) not in NOT_PRINTED
    )
    folded = " ".join("".join(printed).split())
    return folded if len(folded) <= most else folded[: most - 1].rstrip() + "…"


def quoted(text: str) -> str:
    """A text as a YAML scalar in double quotes, on one line, whatever is in it."""
    return '"' + one_line(text).replace("\\", "\\\\").replace('"', '\\"') + '"'


def scalar(text: str) -> str:
    """A figure or word as a YAML scalar: quoted where it is more than letters, digits and units."""
    return text if PLAIN.fullmatch(text) else quoted(text)


def id_from(words: Iterable[str]) -> str:
    """An id made of words: ``Tolvane T-999`` as tolvane-t-999; empty where nothing in them can stand in one."""
    plain = unicodedata.normalize("NFKD", " ".join(words).lower()).encode("ascii", "ignore").decode()
    return re.sub(r"[^a-z0-9]+", "-", plain)[:LONGEST_ID].strip("-")
