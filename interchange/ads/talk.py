"""Who says what where an ad is a talk: a group post with its comments, messages to and fro. What a buyer bids is not asked."""

from __future__ import annotations

import re
from typing import NamedTuple

from interchange.ads.fields import Span

_SPOKEN_LINE = re.compile(
    r"^[ \t]{0,4}(?P<who>[A-Z][\w.'’]{0,14}(?:[ ][A-Z][\w.'’]{0,12})?)[ \t]?:[ \t]{1,3}(?=\S)", re.MULTILINE
)
_NOBODY = frozenset([
    "price", "asking", "ask", "make", "model", "year", "hours", "hrs", "location", "loc", "place", "condition", "cond",
    "engine", "engines", "title", "subject", "description", "phone", "contact", "call", "type", "serial", "item", "lot",
    "note", "notes", "good", "bad", "stock", "missing", "includes", "included", "trans", "transmission", "pump", "weight",
    "town", "city", "state", "seller", "fs", "wtb", "wts", "iso", "wanted", "for sale", "selling", "deposit", "hire",
    "fuel", "depot", "vat", "budget", "terms", "status", "details", "comments", "email", "tel", "fax", "text", "date",
    "brand", "qty", "core", "trade", "bucket", "update", "sold", "available",
])  # fmt: skip
_SELF = frozenset(["op", "me", "seller", "author", "poster", "owner"])
_ASKS = re.compile(
    r"\?|\b(?:still (?:available|got|have|there)|how much|whats? it out of|anyone (?:got|have)|looking for|what do you want"
    r"|any(?:body|one) (?:know|selling))\b",
    re.IGNORECASE,
)
_TO_AND_FRO = re.compile(
    r"^[ \t]{0,4}(?:(?:hi|hey|hello)[, ]{1,2})?"
    r"(?:is (?:the|it|this|that)[\w ]{0,24}(?:still )?(?:available|for sale|there)|you still (?:got|have)"
    r"|still (?:available|got it|have it|for sale)|how much|would (?:you|u|ya) (?:do|take|go)"
    r"|what(?:'?s| is) (?:your|the) (?:lowest|bottom)|what (?:are )?(?:you|u) (?:asking|want))",
    re.IGNORECASE | re.MULTILINE,
)
_BID = re.compile(
    r"\b(?:would (?:you|u|ya) (?:do|take|consider|go|accept)|will (?:you|u|ya) (?:do|take)|(?:you|u|ya) (?:take|do)"
    r"|i'?d (?:do|go|give|pay)|i(?:'?ll| will| would| can) (?:give|go|do|pay|offer)|how (?:about|bout)|can (?:you|u) do"
    r"|(?:he|she|they|somebody|someone|guy|fella) (?:bid|offered|wanted to give)|offer(?:ed|ing)? (?:me|you|him|her|us))[ ]"
    r"(?:you |u |ya |me |him |us )?(?:like |about |maybe )?\$?(?=[0-9])",
    re.IGNORECASE,
)


class Talk(NamedTuple):
    """The stretches of a text that the seller does not say, and whether it is talk to and fro at all."""

    not_the_seller: tuple[Span, ...]
    to_and_fro: bool

    def holds(self, start: int) -> bool:
        """Whether somebody else says what stands there."""
        return any(span.start <= start < span.end for span in self.not_the_seller)


def talk(text: str) -> Talk:
    """Who says what. A first speaker who asks is the buyer, else the seller; under a post "OP" is."""
    lines = [match for match in _SPOKEN_LINE.finditer(text) if match["who"].lower() not in _NOBODY]
    speakers = list(dict.fromkeys(match["who"].lower() for match in lines))
    others: list[Span] = []
    spoken = [match["who"].lower() for match in lines]
    under_a_post = _COMMENTS.search(text) is not None or bool(set(speakers) & _SELF)
    named = len(speakers) >= 2 and (under_a_post or _again(spoken))  # noqa: PLR2004 - two people
    if named:
        ends = [*(match.start() for match in lines[1:]), len(text)]
        said = [(match["who"].lower(), text[match.end() : end]) for match, end in zip(lines, ends, strict=True)]
        seller = next((name for name in speakers if name in _SELF), None)
        if seller is None and not text[: lines[0].start()].strip():
            first_asks = _ASKS.search(said[0][1]) is not None and not _OFFERS.search(said[0][1])
            seller = speakers[1] if first_asks else speakers[0]
        others = [Span(match.start(), end) for match, end, (who, _) in zip(lines, ends, said, strict=True) if who != seller]
    to_and_fro = named or _TO_AND_FRO.search(text) is not None
    if to_and_fro:
        others += [Span(match.start(), match.end() + 1) for match in _BID.finditer(text)]
    return Talk(tuple(others), to_and_fro)


def _again(spoken: list[str]) -> bool:
    """Whether somebody speaks again after another did: labels of a form do not."""
    turns = [who for who, before in zip(spoken, [None, *spoken], strict=False) if who != before]
    return len(turns) > len(set(turns))


_COMMENTS = re.compile(r"^[ \t]{0,4}(?:comments?|replies|[0-9]{1,3} comments?)[ \t:]{0,4}$", re.IGNORECASE | re.MULTILINE)
_OFFERS = re.compile(r"\b(?:i(?:'?ve)? got|i have|selling|for sale|got an?|need an?|fs)\b", re.IGNORECASE)
