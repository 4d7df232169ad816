"""What is for sale: a machine, a unit or a part, by the noun the others of its title belong to."""

from __future__ import annotations

from collections.abc import Sequence

from interchange.ads.fields import Field, Span
from interchange.ads.wording import BREAK, COLON, COMMA, Hit, Token

# Before a noun, these say it is not the thing sold but where that came from, or what the thing sold has.
_COMES_FROM = frozenset([
    "for", "from", "off", "of", "fits", "fit", "out", "to", "removed", "pulled", "took", "into", "in",
])  # fmt: skip
_HAS = frozenset([
    "with", "w", "has", "have", "needs", "need", "bad", "blown", "no", "without", "plus", "and", "wants", "had",
    "includes", "not",
])  # fmt: skip
_OWNED = frozenset(["have", "has", "had", "need", "needs", "wants"])
_OWNERS = frozenset(
    [
        "i",
        "we",
        "ive",
        "weve",
        "you",
        "he",
        "she",
        "they",
        "who",
        "anybody",
        "anyone",
        "somebody",
        "someone",
        "still",
        "also",
    ]
)  # "I have a drop-out", "anybody need a starter": for sale itself
_PHRASE_REACH = 6
_FORMS = frozenset(["kind", "one", "type", "version", "style", "form"])
_COPULAS = frozenset(["is", "are", "was", "has", "still", "just"])
_PAUSES = frozenset([BREAK, COMMA, COLON])
_PAUSE_REACH = 12
_SUBJECT_OF = {
    "bare_block": "unit", "short_block": "unit", "long_block": "unit", "drop_out": "unit", "core": "unit", "complete": "unit",
    "parts_machine": "machine", "running_machine": "machine", "machine": "machine", "part": "machine",
}  # fmt: skip


def subject(
    text: str, words: Sequence[Token], nouns: Sequence[Hit], offers: Sequence[Hit], said: Sequence[Hit], title: Span
) -> tuple[Field | None, Field | None]:
    """What is for sale: machine, unit or part, and which of them.

    The head noun before the title's first pause; else what a word of the title sells ("core", "runs and drives"); else
    a later noun of the title; else such a word of the body, or its first unit or machine. A noun something is said of
    ("engine knocks") after a pause belongs to what was named before it, and a part in the body is never for sale by itself.
    """
    predicated = {index for hit in said for index in range(hit.first, hit.last)}
    own = [hit for hit in nouns if not belongs_to_another(words, hit.first)]
    in_title = [hit for hit in nouns if title.start <= hit.span.start < title.end]
    pause = next(
        (word.start for word in words if word.key in (BREAK, COMMA) and word.start > title.start and word.start < title.end),
        title.end,
    )
    sells = [
        hit
        for hit in offers
        if hit.id in _SUBJECT_OF
        and not hit.negated
        and not belongs_to_another(words, hit.first)
        and not (hit.id == "complete" and hit.first and words[hit.first - 1].key in _COPULAS)  # "the hoe is complete,"
    ]
    own_units = [hit for hit in own if hit.room == "thing" and hit.span.start >= title.end]
    steps = (
        (0.85, _head(words, [hit for hit in in_title if hit.span.start < pause], predicated)),
        (0.7, next((hit for hit in sells if title.start <= hit.span.start < title.end), None)),
        (0.75, _head(words, [hit for hit in in_title if hit.room == "thing"], predicated)),
        (0.55, next((hit for hit in sells if hit.span.start >= title.end and hit.id != "part"), None)),
        (0.45, _head(words, own_units, predicated)),
    )
    for certainty, head in steps:
        if head is not None:
            return _read(text, head, certainty)
    return None, None


def _read(text: str, head: Hit, certainty: float) -> tuple[Field, Field | None]:
    found = text[head.span.start : head.span.end]
    if head.room == "offer":
        return Field("subject", _SUBJECT_OF[head.id], found, head.span, certainty), None
    kind = "part" if head.room == "part" else "machine" if head.id == "machine" else "unit"
    return Field("subject", kind, found, head.span, certainty), Field("subject_is", head.id, found, head.span, certainty)


def _head(words: Sequence[Token], nouns: Sequence[Hit], predicated: set[int]) -> Hit | None:
    """The noun the others belong to: of nouns side by side the last ("loader engine"), none that follows "for" or "with"."""
    index = 0
    while index < len(nouns):
        run = index
        while run + 1 < len(nouns) and _side_by_side(words, nouns[run], nouns[run + 1]):
            run += 1
        apart = not belongs_to_another(words, nouns[index].first) and not _only_spoken_of(words, nouns[run], predicated)
        if apart and not _says_which_form(words, nouns[run]) and not _says_which_model(words, nouns[run]):
            return nouns[run]
        index = run + 1
    return None


def _says_which_form(words: Sequence[Token], noun: Hit) -> bool:
    """Whether it only tells forms apart: "cast pan, the tractor kind", "is it the loader one"."""
    return noun.id == "machine" and noun.last < len(words) and words[noun.last].key in _FORMS


def _says_which_model(words: Sequence[Token], noun: Hit) -> bool:
    """Whether it only tells models apart: "Tolvane T412T turbo" is the engine that has one."""
    return noun.id == "turbo" and noun.first > 0 and any(map(str.isdigit, words[noun.first - 1].key))


def _only_spoken_of(words: Sequence[Token], noun: Hit, predicated: set[int]) -> bool:
    """Something is said of it, after a pause: "Skarrow S28, 1,850 hours, engine locked up"; "engine T412T knocks"."""
    after = noun.last
    while after < len(words) and (words[after].key in _COPULAS or any(map(str.isdigit, words[after].key))):
        after += 1
    said = noun.first in predicated or after in predicated
    return said and any(token.key in _PAUSES for token in words[max(0, noun.first - _PAUSE_REACH) : noun.first])


def _side_by_side(words: Sequence[Token], left: Hit, right: Hit) -> bool:
    """Only models and such stand between: no pause, no little word that starts another phrase."""
    between = [words[index].key for index in range(left.last, right.first)]
    if right.room == "part" and left.room == "thing" and any(key.isdigit() for key in between):
        return False  # "motor 8 bolt crank"
    blocked = (*_COMES_FROM, *_HAS, *_PAUSES, "or", "is", "runs")
    return len(between) <= 2 and not any(key in blocked for key in between)  # noqa: PLR2004 - "loader diesel engine"


def belongs_to_another(words: Sequence[Token], first: int) -> bool:
    """A "for", "out of" or "with" stands before it, in the same phrase: "starter for Brackmoor engine"."""
    for index in range(first - 1, max(-1, first - _PHRASE_REACH), -1):
        key, before = words[index].key, words[index - 1].key if index else BREAK
        if key in (BREAK, COMMA, COLON, "sale", "selling"):
            return False
        if key == "as" and before == "or":
            return False
        if (key in _OWNED and before in _OWNERS) or (key == "and" and _both_models(words, index)):
            continue
        if key in _COMES_FROM or key in _HAS:
            return not (key == "for" and (words[index + 1].key == "sale" or before == "looking"))
    return False


def _both_models(words: Sequence[Token], at: int) -> bool:
    """Whether models stand on both sides: "T412 and T412T cores"."""
    return 0 < at < len(words) - 1 and all(any(map(str.isdigit, words[index].key)) for index in (at - 1, at + 1))
