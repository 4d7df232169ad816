"""What an ad offers for one kind of unit: which of the kind's offers its words come to, and which slots it rules in or out."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import replace

from interchange.ads.fields import AdReading, Field, ModelWord
from interchange.ads.match import MACHINES, UNITS, Hit, Matched
from interchange.ads.offer import OR_WHOLE, left_off, machine_offer
from interchange.catalog.model import Kind, Offer

MACHINE_OFFERS = ("running_machine", "machine", "parts_machine")
UNIT_DEFAULT, MACHINE_DEFAULT = "complete", "machine"
PARTED_OUT = "parts_machine"
NAMED_SURE = 0.6
_JOINED = re.compile(r"\b(?:and|with|plus|both)\b|\bw/|[&+]", re.IGNORECASE)
_NOT_JOINED = re.compile(
    r"\b(?:for|from|off|of|fits?|out|to|into|in|no|not|without|less|minus|needs?|wants?)\b|[.;!?]", re.IGNORECASE
)


_ABOUT = 60  # signs before a name that say how it is spoken of
_LIKENED = re.compile(
    r"(?:\b(?:similar to|like(?: an?| the)?|looks like|same as|(?:bigger|little"
    r"|smaller) brother (?:of|to)|brother (?:of|to)|where (?:the|an?)"
    r"|replaces?|interchanges? with|fits?(?: into| in)?|will fit|bolts? (?:to|up to|in|into)"
    r"|not (?:an?|the)?|no|never an?|isn'?t an?"
    r"|other than|than (?:an?|the)|instead of|told me|said|would be|or (?:an?|the)|same|buys? (?:that|this|the))"
    r"(?:[ ](?:an?|the|my|our|your))?|\bnot)[ ]?(?:[\w'’]{1,16}[ ]){0,1}\Z",
    re.IGNORECASE,
)
_FROM = re.compile(
    r"\b(?:out of|outta|outa|from|off(?: of)?|came in|removed from|pulled (?:from|out of)|for|of|in|was in"
    r"|used in|robbed|took|into)[ ]"
    r"(?:(?:an?|the|my|our|his|old|dead|parted|scrapped|[0-9]{2,4}|[A-Za-z]{3,12})[ ,]{1,2}){0,3}\Z",
    re.IGNORECASE,
)
_HAVING = re.compile(
    r"\b(?:with|w/|has|have|w|powered by|motor|engine|plus|and|got|had|runs)[ :(]{0,2}(?:an?[ ]"
    r"|the[ ]|good[ ]|its[ ]){0,2}(?:[A-Za-z]{3,12}[ ])?\Z",
    re.IGNORECASE,
)
_SELLING = re.compile(
    r"\b(?:selling|sell|for sale|sale|it'?s|it is|is|this|have|got|offered|one|breaking"
    r"|dismantling|parting(?: out)?|wts|up)[ :,-]{1,3}"
    r"(?:(?:an?|the|my|our|this|out|complete|nice|good|old|little|all|[0-9]{1,4}|[A-Za-z]{3,12})[ ,]{1,2}){0,3}\Z",
    re.IGNORECASE,
)
_GONE = re.compile(
    r"[ ]{0,2}(?:(?:engine|motor|pump|trans)[ ])?(?:\(?(?:is |was |already |been )?(?:sold|gone"
    r"|keeping|stays|not for sale|not included))",
    re.IGNORECASE,
)
_HEAD_NOUN = 0.84  # a noun that heads the title
LIKENED, FROM, HAVING, PLAIN, SOLD, LIFTED = -3.0, -1.0, -0.6, 0.0, 0.8, 1.0
_LIFTED = re.compile(
    r"[ ](?:(?:engine|motor|diesel|pump|transmission)[ ])?(?:(?:is|are) (?:up for grabs|for sale)"
    r"|(?:out of|outta|outa|off (?:of )?(?:an?|my|the|our)"
    r"|(?:came|pulled|removed|taken) (?:out of|off|from)|from (?:an?|my|the|our))\b)",
    re.IGNORECASE,
)


def spoken_of(text: str, hit: Hit) -> float:
    """How a name is spoken of: as what is sold, as what that has or comes from, or only as what it is like (or is not)."""
    before = text[max(0, hit.span.start - _ABOUT) : hit.span.start].rpartition("\n")[2]
    before = re.split(r"[.;!?](?:[ ]|\Z)", before)[-1]
    if _GONE.match(text, hit.span.end) or (_LIKENED.search(before) and not before.rstrip().lower().endswith("why not")):
        return LIKENED
    if _FROM.search(before) and not re.search(r"\bfor (?:sale|parts)\W*\Z|\bone of\b", before, re.IGNORECASE):
        return FROM
    if hit.name.room == UNITS and _LIFTED.match(text, hit.span.end):
        return LIFTED
    if _SELLING.search(before):
        return SOLD
    return HAVING if _HAVING.search(before) else PLAIN


def as_spoken(matched: Matched, text: str) -> Matched:
    """The names of an ad without those it likens its own to, or denies; machines it comes from stand last."""
    first: dict[tuple[str, str, str], float] = {}
    for hit in matched.hits:
        first[hit.name.room, hit.name.id, hit.name.variant] = spoken_of(text, hit)
    kept = [hit for hit in matched.hits if first[hit.name.room, hit.name.id, hit.name.variant] > LIKENED]
    ranked = sorted(
        kept, key=lambda hit: hit.name.room == MACHINES and first[hit.name.room, hit.name.id, hit.name.variant] <= FROM
    )
    return matched._replace(hits=tuple(ranked))


def named_subject(reading: AdReading, matched: Matched, text: str = "", kinds: Mapping[str, str] | None = None) -> AdReading:
    """The reading with its subject where no noun says it surely but a name does: "BH3 with a blown head gasket".

    The name that leads is the one spoken of as sold, the title's before the body's, the first before the rest. Where the
    subject was read off a later noun or a word of the body, the name's own room and kind stand before it.
    """
    reading = _whole(_in_pieces(_only_taken_from(reading, matched, text), matched, text, kinds or {}))
    plain = [(hit, spoken_of(text, hit)) for hit in matched.hits if hit.exact or reading.subject is None]
    own = [(hit, how) for hit, how in plain if how > FROM]
    lifted = any(how == LIFTED for _, how in own) and reading.subject is not None and reading.subject.value == "machine"
    if (
        reading.subject is not None
        and not lifted
        and (reading.subject.certainty >= _HEAD_NOUN or reading.subject.value == "part")
    ):
        return reading
    leading = min(own, key=lambda one: (one[1] < LIFTED, not one[0].in_title, one[1] <= HAVING, one[0].span.start), default=None)
    if leading is None or (
        reading.subject is not None and not lifted and (reading.subject.certainty > _LATER_NOUN and not leading[0].in_title)
    ):
        return reading
    hit = leading[0]
    found = text[hit.span.start : hit.span.end] if text else hit.name.name
    if not text and reading.title is not None and hit.in_title:
        found = reading.title.text[hit.span.start - reading.title.span.start : hit.span.end - reading.title.span.start]
    if reading.subject is not None and not hit.in_title and reading.subject.value == "unit" and hit.name.room == MACHINES:
        return reading
    is_a = Field("subject", "machine" if hit.name.room == MACHINES else "unit", found, hit.span, NAMED_SURE)
    kind = (kinds or {}).get(hit.name.id)
    which = Field("subject_is", kind, found, hit.span, NAMED_SURE) if kind else None
    offer = reading.offer
    if is_a.value == "unit" and offer is not None and offer.value in MACHINE_OFFERS:
        offer = None
    if is_a.value == "machine" and (offer is None or offer.value not in (*MACHINE_OFFERS, "part")):
        running = text[max(0, hit.span.start - 8) : hit.span.start].lower().endswith(("running ", "runnin "))
        facts = [fact.name for fact in reading.said if fact.value is True]
        value = "running_machine" if running else machine_offer(reading.phrases, facts)
        offer = Field("offer", value, found, hit.span, NAMED_SURE)
    if is_a.value == "unit" and (offer is None or offer.note == OR_WHOLE):
        offer = left_off(kind or "", reading.missing, reading.phrases, is_a)
    return replace(
        reading, subject=is_a, subject_is=which or (None if is_a.value == "machine" else reading.subject_is), offer=offer
    )


def _only_taken_from(reading: AdReading, matched: Matched, text: str) -> AdReading:
    """A "BH3 take-out" says what the engine came out of, and not how much of it is there."""
    offer = reading.offer
    if offer is None or offer.value != "drop_out" or "drop" in offer.text.lower():
        return reading
    beside = any(
        hit.span.end <= offer.span.start and not text[hit.span.end : offer.span.start].strip() for hit in matched.of(MACHINES)
    )
    return replace(reading, offer=None) if beside else reading


def _whole(reading: AdReading) -> AdReading:
    """The reading of a unit that is broken for parts or sold whole, where the price asked is for the whole."""
    subject, offer = reading.subject, reading.offer
    if subject is None or offer is None or subject.value != "unit" or offer.note != OR_WHOLE:
        return reading
    kind = str(reading.subject_is.value) if reading.subject_is else ""
    return replace(reading, offer=left_off(kind, reading.missing, reading.phrases, subject))


def _in_pieces(reading: AdReading, matched: Matched, text: str, kinds: Mapping[str, str]) -> AdReading:
    """Of a machine taken apart what is for sale is its first unit with a price beside it; of a unit taken apart its parts."""
    if reading.offer is None or reading.offer.value != "part" or reading.subject is None:
        return reading
    if reading.subject.value == "unit":
        return reading if reading.offer.note == OR_WHOLE else replace(reading, subject=reading.subject._replace(value="part"))
    if reading.subject.value != "machine":
        return reading
    prices = [price.span for price in (reading.price, *reading.other_prices) if price.cents is not None]
    for hit in sorted(matched.of(UNITS), key=lambda hit: hit.span.start):
        line_end = text.find("\n", hit.span.end)
        line_end = line_end if line_end >= 0 else len(text)
        priced = any(hit.span.end <= span.start < min(line_end, hit.span.end + _PRICED_WITHIN) for span in prices)
        if priced and not _GONE.match(text, hit.span.end):
            found = text[hit.span.start : hit.span.end]
            kind = kinds.get(hit.name.id)
            which = Field("subject_is", kind, found, hit.span, NAMED_SURE) if kind else None
            return replace(reading, subject=Field("subject", "unit", found, hit.span, _HEAD_NOUN), subject_is=which, offer=None)
    return reading


def names_sold(reading: AdReading, matched: Matched, text: str) -> Matched:
    """The names of an ad, or none where its title says that something else is sold.

    "Sawmill with an H52D power unit" sells a sawmill; a title with a model that is in no catalog sells that, whatever the
    body names.
    """
    title = reading.title
    if title is None or not matched.hits:
        return matched
    inside = sorted((hit for hit in matched.hits if hit.in_title), key=lambda hit: hit.span.start)
    early = [word for word in _strange(reading, matched, text) if inside and ". " in text[word.span.end : inside[0].span.start]]
    if inside and not early:
        first = inside[0]
        before = text[title.span.start : first.span.start]
        noun_before = reading.subject is not None and reading.subject.span.start < first.span.start
        alone = _ONLY_HAS.fullmatch(before) is not None
        return matched._replace(hits=()) if alone and not noun_before else matched
    if not early and not _strange(reading, matched, text):
        return matched
    return matched._replace(hits=tuple(hit for hit in matched.hits if spoken_of(text, hit) >= SOLD and not early))


def _strange(reading: AdReading, matched: Matched, text: str) -> list[ModelWord]:
    """Models of the title, each after a maker's name, that no name of the catalog covers."""
    spans = [hit.span for hit in matched.hits]
    return [
        word
        for word in reading.model_words
        if word.in_title
        and word.kind in ("model", "number")
        and word.certainty >= _MODEL_SURE
        and not any(span.start < word.span.end and word.span.start < span.end for span in spans)
        and (led := _MAKER_BEFORE.search(text[max(0, word.span.start - 20) : word.span.start])) is not None
        and led["maker"].lower() not in _NO_MAKERS
    ]


_NO_MAKERS = frozenset([
    "lot", "item", "stock", "sale", "ref", "engine", "motor", "model", "series", "tier", "part", "from",
    "about", "turbo", "diesel",
    "tractor", "loader", "type", "size", "year", "rebuilt", "built", "call", "asking", "price", "auction",
    "number", "serial", "code",
])  # fmt: skip
_PRICED_WITHIN = 70
_MODEL_SURE = 0.8
_ONLY_HAS = re.compile(
    r"(?:[A-Z][A-Za-z-]{2,20} ){0,2}[A-Za-z-]{4,20}[ ]?,?[ ](?:w/|with|powered by|run by)[ ]?(?:[A-Za-z]{3,12}[ ]){0,2}",
    re.IGNORECASE,
)
_MAKER_BEFORE = re.compile(r"(?:^|[\s(])(?P<maker>[A-Z][A-Za-z]{3,14})[ ]\Z")

_LATER_NOUN = 0.6  # a word of the body


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
