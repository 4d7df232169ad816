"""What sort of offer an ad makes of its subject: complete, a core, a parts machine."""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from typing import NamedTuple

from interchange.ads.fields import Field, PhraseHit, Span
from interchange.ads.subject import belongs_to_another
from interchange.ads.wording import Hit, Token

_MACHINE_OFFERS = ("parts_machine", "running_machine", "machine")
_RUNS = frozenset(["runs_and_drives", "cold_start_video", "runs_well", "runs", "hard_starting"])
_WRECKED = frozenset(["for_parts"])
# Where several are said, the one that says most of what comes with it.
_ORDER = {
    "bare_block": 0, "short_block": 0, "long_block": 0, "drop_out": 1, "core": 2, "parts_machine": 3, "complete": 4, "part": 5,
    "running_machine": 6, "machine": 7,
}  # fmt: skip
_BESIDE = 20  # signs between what is offered and its price: "complete engine asking $1,150"
ENGINE = "engine"
_OFF_AN_ENGINE = {"head": "short_block"}
_OFF_WHAT_IS_DRIVEN = {"converter": "core", "clutch": "core"}  # what it is driven through
_LEFT_OFF_SURE = 0.6
OR_WHOLE = "or whole, at the price asked"
_STOPPED = frozenset(["no_start", "not_running"])
_MACHINES = frozenset(
    ["loader", "tractor", "backhoe", "forklift", "lift", "truck", "machine", "dozer", "steer", "swather", "combine"]
)
_CHARGED = re.compile(
    r"(?:\+|\bplus|\bno|\band an?|\brefundable|\bless|\bexchange|[$€£][ ]?[0-9.,]{1,9})[ ]{0,2}(?:[$€£]?[0-9.,]{1,9}[ ])?\Z",
    re.IGNORECASE,
)  # a core that is to be given back, or paid for

_CHARGE = re.compile(
    r"[ ]{0,2}(?:\(?(?:chg|crg|charges?|dep(?:osit)?|due|back|returns?|returned|req\w{0,7}|refund\w{0,4}|exch\w{0,5}|credit)\b"
    r"|bank\b)",
    re.IGNORECASE,
)
_BEGINS = re.compile(r"(?:\A|[\n/;.•*-]|\bor)[ \t]{0,3}\Z", re.IGNORECASE)
_WHOLE = re.compile(
    r"\b(?:all(?: of it)?|everything|the (?:whole )?lot|(?:as|in) one piece|whole (?:thing|engine|motor)|together|complete)"
    r"[ :,-]{0,3}(?:(?:for|at|above|takes?|is|asking|only|just)[ ]{1,2}){0,2}\Z",
    re.IGNORECASE,
)


class Said(NamedTuple):
    """What an ad says that bears on its offer: phrases on health, facts, the parts that are missing, where the price stands."""

    phrases: Sequence[PhraseHit]
    facts: frozenset[str]
    missing: tuple[str, ...]
    price: Span


def offer(
    text: str, words: Sequence[Token], offers: Sequence[Hit], sort: Field | None, sort_is: Field | None, said: Said, title: Span
) -> Field | None:
    """The word used for it: the one its price stands at, then the title's, then the body's.

    Where none says that parts were left off, what is missing, the subject and the words on its health make it.
    """
    kind = sort.value if sort else None
    best = _best(text, words, offers, kind, said, title)
    if best is not None and best.id not in ("complete", "part", "machine"):
        return _as_field(text, best, title)
    if (
        best is not None
        and best.id == "part"
        and (kind != "machine" or sort_is is None)
        and _WHOLE.search(text[max(0, said.price.start - 40) : said.price.start])
    ):
        return _as_field(text, best, title)._replace(note=OR_WHOLE)
    if kind in ("unit", None):
        less = left_off(str(sort_is.value) if sort_is else "", said.missing, said.phrases, sort)
        return less or (_as_field(text, best, title) if best else None)
    if best is not None and best.id == "part":
        return _as_field(text, best, title)
    value = "part" if kind == "part" else machine_offer(said.phrases, said.facts)
    if value == "parts_machine" and best is not None and best.id == "machine":
        value = "machine"  # "engine seized, selling it whole"
    return sort._replace(name="offer", value=value, certainty=sort.certainty * 0.8) if sort else None


def left_off(kind: str, missing: Iterable[str], phrases: Iterable[PhraseHit], sort: Field | None) -> Field | None:
    """What a unit is without its head or converter, or with a hole in its block; None where nothing makes it less than whole."""
    parts = _OFF_AN_ENGINE if kind == ENGINE else _OFF_WHAT_IS_DRIVEN if kind else {}
    value = next((parts[part] for part in missing if part in parts), None)
    if value is None and kind == ENGINE and any(hit.id == "rod_through_block" and not hit.negated for hit in phrases):
        value = "core"
    return sort._replace(name="offer", value=value, certainty=_LEFT_OFF_SURE) if value and sort else None


def _best(text: str, words: Sequence[Token], offers: Sequence[Hit], kind: object, said: Said, title: Span) -> Hit | None:
    fitting = []
    for hit in offers:
        in_title = title.start <= hit.span.start < title.end
        if hit.negated or _not_of_it(text, words, hit) or not _suits(hit.id, kind, in_title=in_title):
            continue
        priced = hit.id != "part" and _priced(text, hit, said.price)
        fitting.append((not (priced and not in_title), not in_title, _ORDER.get(hit.id, 9), hit.span, hit))
    if not fitting:
        return None
    best = min(fitting)
    if best[-1].id == "complete":  # "K425, COMPLETE ... Complete drop-out": the closer word
        return next((one[-1] for one in fitting if one[-1].id == "drop_out"), best[-1])
    return best[-1]


def _priced(text: str, hit: Hit, price: Span) -> bool:
    """Whether the price asked stands right behind; what is called complete must begin its line or clause."""
    gap = text[hit.span.end : price.start]
    if not price.end or not 0 <= price.start - hit.span.end <= _BESIDE or "\n" in gap:
        return False
    return hit.id != "complete" or _BEGINS.search(text[max(0, hit.span.start - 4) : hit.span.start]) is not None


def _not_of_it(text: str, words: Sequence[Token], hit: Hit) -> bool:
    """Whether a word for an offer speaks of another thing: of what it came from, or of the core to be given back."""
    if belongs_to_another(words, hit.first):
        return True
    if hit.id == "core":
        before = text[max(0, hit.span.start - 20) : hit.span.start]
        return bool(_CHARGED.search(before) or _CHARGE.match(text, hit.span.end))
    # "Loader take-out": only what it was taken from.
    return hit.id == "drop_out" and "take" in words[hit.first].key and hit.first > 0 and words[hit.first - 1].key in _MACHINES


def _as_field(text: str, hit: Hit, title: Span) -> Field:
    certainty = (0.9 if title.start <= hit.span.start < title.end else 0.65) * (0.7 if hit.doubted else 1)
    return Field("offer", hit.id, text[hit.span.start : hit.span.end], hit.span, certainty)


def machine_offer(phrases: Iterable[PhraseHit], facts: Iterable[str]) -> str:
    """A machine by its state: wrecked, running where that is said of it and not of its engine alone, or just a machine."""
    said = [hit for hit in phrases if not hit.negated and not hit.doubted]
    facts = set(facts)
    if "no_engine" in facts or any(hit.id in _WRECKED for hit in said):
        return "parts_machine"
    own = (hit.text.lower() for hit in said if hit.id in _RUNS)
    if any(hit.id in _STOPPED for hit in said):
        return "machine"
    runs = "in_work" in facts or any("engine" not in words and "motor" not in words for words in own)
    return "running_machine" if runs else "machine"


def _suits(offer_id: str, kind: object, *, in_title: bool) -> bool:
    """A word counts only where it can be said of the thing sold: a loader is no long block, a used starter no core."""
    if kind == "machine":
        return offer_id in _MACHINE_OFFERS or (offer_id == "part" and in_title)
    if kind == "unit":
        return offer_id not in _MACHINE_OFFERS
    return kind is None or offer_id == "part"
