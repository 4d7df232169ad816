"""Pasted text made safe to read, at its own length: what is found in it still points into the original."""

from __future__ import annotations

import html
import re

_BLOCK_TAGS = frozenset([
    "article", "blockquote", "br", "dd", "div", "dl", "dt", "h1", "h2", "h3", "h4", "h5", "h6", "hr", "li", "ol",
    "p", "pre", "section", "table", "td", "th", "tr", "ul",
])  # fmt: skip
_SILENT_TAGS = ("script", "style")

# One pass over the text. Every branch starts with its own character and is bounded, so the whole is linear.
_ODD = re.compile(
    r"(?P<tag><[/]?[A-Za-z][A-Za-z0-9]{0,15}(?:[\s/][^<>]{0,1000})?>)"
    r"|(?P<entity>&(?:[A-Za-z]{2,8}|\#[0-9]{1,7}|\#[xX][0-9A-Fa-f]{1,6});)"
    r"|(?P<escape>(?:\x1b\[|\x9b)[0-?]{0,64}[ -/]{0,8}[@-~]|\x1b\][^\x07\x1b\n]{0,512}(?:\x07|\x1b\\)?|\x1b[@-Z\\-_]?)"
    r"|(?P<pair>\r(?=\n))"
    r"|(?P<line>[\r\x0b\x0c\x1c-\x1e\x85\u2028\u2029])"
    r"|"
    r"(?P<odd>[\x00-\x08\x0e-\x1b\x1f\x7f-\x9f\xad\u034f\u061c\u115f\u1160\u180e\u200b-\u200f\u202a-\u202e\u2060-\u206f"
    r"\ufeff\ufe0f\ufff9-\uffff\ud800-\udfff\U000e0000-\U000e0fff])"
    r"|(?P<dollar>[\uff04\ufe69\U0001f4b2])"
    r"|(?P<space>[\xa0\u1680\u2000-\u200a\u202f\u205f\u3000])"
)
_TAG_NAME = re.compile(r"</?([A-Za-z][A-Za-z0-9]*)")


def clean(text: str) -> str:
    """The text for reading only, exactly as long: markup, escapes, direction marks and nulls are blank.

    A tag that ends a line becomes blanks and a line break, an entity its character and blanks. Never show or keep the result
    in place of what was pasted.
    """
    if text.isascii() and text.isprintable() and "<" not in text and "&" not in text:
        return text
    return _ODD.sub(_replaced, _without_silent(text))


def _replaced(match: re.Match[str]) -> str:
    found = match.group()
    width = len(found)
    match match.lastgroup:
        case "tag":
            name = _TAG_NAME.match(found)
            breaks = name is not None and name.group(1).lower() in _BLOCK_TAGS
            return " " * (width - 1) + ("\n" if breaks else " ")
        case "entity":
            meant = html.unescape(found)
            safe = meant if len(meant) == 1 and meant.isprintable() and meant not in "<>" else " "
            return safe + " " * (width - 1)
        case "dollar":
            return "$"
        case "line":
            return "\n"
        case _:
            return " " * width


def _without_silent(text: str) -> str:
    """Blank what stands between script or style tags, and in comments; an opening without its end is left alone."""
    if "<" not in text:
        return text
    for opens, closes in (("<!--", "-->"), *((f"<{tag}", f"</{tag}") for tag in _SILENT_TAGS)):
        folded = _folded(text)
        kept: list[str] = []
        done = 0
        while (start := folded.find(opens, done)) >= 0 and (end := folded.find(closes, start + len(opens))) >= 0:
            after = end + (len(closes) if opens == "<!--" else 0)  # an end tag is blanked as a tag
            kept += [text[done:start], re.sub(r"[^\n]", " ", text[start:after])]
            done = after
        text = "".join([*kept, text[done:]])
    return text


def _folded(text: str) -> str:
    """The text in small letters, where that keeps its length: a few capitals grow when lowered."""
    lowered = text.lower()
    return lowered if len(lowered) == len(text) else text
