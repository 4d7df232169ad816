"""A hint for a word that is not known: the one nearest to it, or the short list it must come from."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Collection

MEANT = dict.fromkeys(("anticlockwise", "anti-clockwise", "ccw"), "counter-clockwise")
"""Words that are nearer in letters to their opposite than to what they mean."""
MOST_LISTED = 20
MOST_FOR_DIFFLIB = 50
LEAST_ALIKE = 0.6


def suggestion(word: str, choices: Collection[str]) -> str:
    """``did you mean x?`` where one is near, the choices where they are few, else empty.

    difflib serves short lists; a long one (ids) takes rapidfuzz: 1 ms against 169 for 5,000 names. Both are imported only here.
    """
    if near := nearest(word, choices):
        return f"did you mean {near!r}?"
    if choices and len(choices) <= MOST_LISTED:
        return "write one of: " + ", ".join(sorted(choices))
    return ""


def nearest(word: str, choices: Collection[str]) -> str:
    """The one choice that is like the word; empty where none is."""
    folded = {choice.casefold(): choice for choice in choices}
    word = MEANT.get(word.casefold(), word)
    if word.casefold() in folded:
        return folded[word.casefold()]
    if len(choices) <= MOST_FOR_DIFFLIB:
        import difflib

        found = difflib.get_close_matches(word.casefold(), folded, n=1, cutoff=LEAST_ALIKE)
        return folded[found[0]] if found else ""
    from rapidfuzz import process

    best = process.extractOne(word.casefold(), folded.keys(), score_cutoff=100 * LEAST_ALIKE)
    return folded[best[0]] if best else ""
