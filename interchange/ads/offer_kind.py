"""What an ad offers for one kind of unit: which of the kind's offers its words come to, and which slots it rules in or out."""

from __future__ import annotations

import re
from dataclasses import replace

from interchange.ads.fields import AdReading, Field
from interchange.ads.match import MACHINES, UNITS, Hit, Matched
from interchange.catalog.model import Kind, Offer

MACHINE_OFFERS = ("running_machine", "machine", "parts_machine")
UNIT_DEFAULT, MACHINE_DEFAULT = "complete", "machine"
PARTED_OUT = "parts_machine"
NAMED_SURE = 0.6
_JOINED = re.compile(r"\b(?:and|with|plus|both)\b|\bw/|[&+]", re.IGNORECASE)
_NOT_JOINED = re.compile(
    r"\b(?:for|from|off|of|fits?|out|to|into|in|no|not|without|less|minus|needs?|wants?)\b|[.;!?]", re.IGNORECASE
)


def named_subject(reading: AdReading, matched: Matched) -> AdReading:
    """The reading with its subject where no noun says it but the first name in the title does: "BH3 with a blown head gasket"."""
    first = next((hit for hit in matched.hits if hit.in_title), None)
    title = reading.title
    if reading.subject is not None or first is None or title is None or first.span.start < title.span.start:
        return reading
    span = first.span
    text = title.text[span.start - title.span.start : span.end - title.span.start]
    is_a = Field("subject", "machine" if first.name.room == MACHINES else "unit", text, span, NAMED_SURE)
    offer = reading.offer
    if offer is None and is_a.value == "machine":
        offer = Field("offer", MACHINE_DEFAULT, text, span, NAMED_SURE)
    return replace(reading, subject=is_a, offer=offer)


def is_machine(reading: AdReading) -> bool:
    """Whether a whole machine is for sale."""
    if reading.subject is not None:
        return reading.subject.value == "machine"
    return reading.offer is not None and reading.offer.value in MACHINE_OFFERS


def sold_along(matched: Matched, hit: Hit, text: str) -> bool:
    """Whether the title sells a unit along with another it names: "H52D engine and L20 pump", and not "pump off an H52D"."""
    spans = [sorted((other.span, hit.span)) for other in matched.of(UNITS) if other.in_title and other.span != hit.span]
    between = [text[first.end : second.start] for first, second in spans] if hit.in_title else []
    return any(_JOINED.search(words) and not _NOT_JOINED.search(words) for words in between)


def offer_word(reading: AdReading, kind: Kind) -> str:
    """The offer an ad comes to, in the kind's own words; what is usual where it does not say."""
    default = MACHINE_DEFAULT if is_machine(reading) else UNIT_DEFAULT
    word = str(reading.offer.value) if reading.offer is not None else default
    if is_machine(reading) and word not in MACHINE_OFFERS:
        word = PARTED_OUT if word == "part" else default
    if not is_machine(reading) and word in MACHINE_OFFERS:
        word = UNIT_DEFAULT
    return word if word in kind.offers else default if default in kind.offers else next(iter(kind.offers), "")


def offered(reading: AdReading, kind: Kind, word: str) -> Offer:
    """What comes with it: the kind's table, with what the ad says is included or missing."""
    plain = kind.offers[word]
    slot_of = {part: slot for slot, supply in kind.supply.items() for part in supply.words}
    included = sorted({slot_of[part] for part in reading.included if part in slot_of})
    missing = {slot_of[part] for part in reading.missing if part in slot_of}
    has = tuple(slot for slot in dict.fromkeys((*plain.has, *included)) if slot not in missing)
    perhaps = {slot: chance for slot, chance in plain.perhaps.items() if slot not in missing and slot not in has}
    return Offer(title=plain.title, has=has, perhaps=perhaps, work=plain.work)
