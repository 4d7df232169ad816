"""One line of a paste, and what it looks like: a rule, a crumb of the page it came from, a title, a price, a telephone."""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import NamedTuple

from interchange.ads.fields import Span
from interchange.ads.number import phones
from interchange.ads.place_states import STATES

_RULE_SIGNS = frozenset("-=*_~#•+—–─━═➖·┄┈▬")
_LEAST_RULE = 3
_MOST_RULE_LABEL = 32

# What listing pages leave behind when copied. Whole lines only, in lower case and without signs at the ends.
_CRUMBS = frozenset([
    "save", "saved", "share", "see more", "see less", "show more", "show less", "read more", "message",
    "message seller", "send", "send message", "send seller a message", "hide", "report", "report listing",
    "report ad", "reply", "like", "comment", "follow", "favorite", "favourite", "add to favorites",
    "add to watchlist", "watch", "print", "email", "flag", "flagged", "prohibited", "best of", "map", "view map",
    "details", "description", "seller information", "seller details", "seller info", "seller", "about this item",
    "item details", "overview", "view profile", "see profile", "see all", "next", "prev", "previous", "back",
    "home", "menu", "search", "filters", "sort", "sponsored", "ad", "advertisement", "featured",
    "is this still available", "hi, is this available", "contact seller", "show phone number", "more",
    "show contact info", "location is approximate", "more ads by this user", "qr code link to this post",
    "read full description", "translate", "see translation", "edited", "forwarded", "delivered", "seen", "today",
    "yesterday", "x", "ok", "close", "copy link", "photos", "make offer", "request info", "get directions",
    "similar listings", "today's picks", "marketplace", "results", "condition", "price",
])  # fmt: skip
_CRUMB = re.compile(
    r"(?:listed|posted|updated|edited|renewed|added)[: ]{1,2}(?:about |over |less than )?(?:an?|[0-9]{1,3}"
    r"|just)[ +]{1,2}(?:now|sec\w{0,4}|min\w{0,4}|h(?:ou)?rs?|days?|weeks?|months?|years?)(?: ago)?"
    r"|(?:about |over )?[0-9]{1,3} ?(?:sec\w{0,4}|min\w{0,4}|hrs?|hours?|days?|weeks?|months?|years?|d|h|w) ago"
    r"|(?:image |photo )?[0-9]{1,3} ?(?:/|of) ?[0-9]{1,3}|[0-9]{1,3} (?:photos?|images?|views?|likes?"
    r"|comments?|saves?|shares?|results|watching)"
    r"|(?:joined|member since|on here since)[^\n]{0,12} [0-9]{4}|post(?:ing)? id: ?[0-9]{5,15}|ad id: ?[0-9]{4,15}"
    r"|(?:posted|updated|date): ?[0-9]{4}-[0-9]{2}-[0-9]{2}[ t0-9:]{0,9}|[0-9]{1,2}:[0-9]{2} ?(?:am|pm)?"
    r"|(?:mon|tue|wed|thu|fri|sat|sun)\w{0,6},? [^\n]{0,24}[0-9]{1,2}:[0-9]{2} ?(?:am|pm)?|[0-9]{1,3}% response rate"
)
_EDGES = " \t.…!?·•|-–—<>«»[](){}*★☆♡♥❤👍📍🔖💬⭐⋯…▼▲▾▸›‹×"

_CHAT = re.compile(
    r"[ \t]{0,4}(?:\[[^\]\n]{3,40}\][ \t]{0,2}[^:\n]{1,40}:"
    r"|[0-9]{1,2}/[0-9]{1,2}/[0-9]{2,4},? [0-9]{1,2}:[0-9]{2}(?: ?[apAP][mM])? ?[-–] ?[^:\n]{1,40}:"
    r"|[A-Z][\w .'-]{1,30},? (?:\(?(?:today|yesterday|[A-Z][a-z]{2} [0-9]{1,2}),? "
    r"(?:at )?)?[0-9]{1,2}:[0-9]{2}(?: ?[apAP][mM])?\)?[ \t]*(?::|$)"
    r"|[0-9]{1,2}:[0-9]{2}(?: ?[apAP][mM])? <?[A-Z][\w .'-]{1,30}[>:])"
)
_BULLET = re.compile(
    r"(?P<indent>[ \t]{0,12})(?P<mark>[•◦▪‣·●○►▸➤➢✅✔*+–—-]|(?P<number>\(?[0-9]{1,3}[.)]"
    r"(?![ \t]{1,4}[0-9]{3}[-. ]))|[a-z]\))[ \t]{1,4}(?=\S)"
)
_NAMED_RULE = re.compile(
    r"[ \t]{0,4}(?:#{1,3} ?)?(?:ad|listing|item|no\.?|number|donor|option|result"
    r"|#) ?#?[0-9]{1,4}[.:)]?[ \t]*",
    re.IGNORECASE,
)
_LABEL = re.compile(r"[ \t]{0,4}(?P<label>[A-Za-z][A-Za-z /#.]{1,24}?)[ \t]{0,2}[:=][ \t]{0,3}(?P<rest>.{0,200})")
_LEADING_LABELS = frozenset([
    "title", "subject", "listing", "item", "ad", "headline", "for sale", "selling", "machine", "name", "make",
    "heading", "re", "fs", "wts", "sale",
])  # fmt: skip
_DETAIL_LABELS = frozenset([
    "price", "asking", "location", "hours", "condition", "year", "model", "model name", "manufacturer", "engine",
    "motor", "transmission", "fuel", "weight", "phone", "tel", "cell", "contact", "description", "serial",
    "serial number", "s/n", "stock", "horsepower", "hp", "drive", "cab", "tires", "attachments", "includes",
    "included", "missing", "needs", "notes", "note", "category", "type", "seller", "call", "text", "mileage",
    "title status", "color", "size",
])  # fmt: skip

PRICE_QUICK = re.compile(
    r"(?:\$|€|£|\b(?:USD|EUR|GBP|CAD)) ?[0-9]|[0-9] ?(?:\$(?! ?[0-9])|€|£|eur\b|usd\b|dollars\b|bucks\b)|"
    r"(?<![\w.])[0-9]{1,3}(?:\.[0-9])?k\b(?! ?(?:mi|hrs?|hours?|lbs?|km)\b)"
    r"|\b(?:asking|price:?|priced at|for|firm at|obo at|takes?|want|only|now|make it) ?\$?"
    r"(?:[1-9][0-9]{2,5}|[1-9][0-9]{0,2},[0-9]{3})\b(?! ?(?:hrs?|hours?|lbs?|mi\b|miles|hp|-))|[0-9] ?(?:,"
    r"|-|/)? ?(?:obo|firm|cash)\b"
    r"|[,–-] ?[1-9][0-9]{0,2},[0-9]{3}(?=[ .]*$|,)",
    re.IGNORECASE,
)
_CALL_QUICK = re.compile(
    r"\b(?:call|text|message|ask|inquire|contact)(?: me)? for (?:a )?(?:price|pricing|quote)|make (?:me )?"
    r"(?:an )?offer|best offer|\bobo\b|\bfor trade\b",
    re.IGNORECASE,
)
_PRICE_WORDS = frozenset([
    "price", "asking", "ask", "now", "was", "obo", "firm", "cash", "or", "best", "offer", "usd", "eur", "free",
    "reduced", "to", "from", "each", "only", "neg", "negotiable", "o", "b", "is", "on", "request", "call", "for",
    "make", "an", "k", "new", "sale", "drop", "plus", "tax", "vat", "excl", "cad", "us", "h", "hr", "hour", "day",
    "week", "month", "per", "a", "std",
])  # fmt: skip
_PHONE_WORDS = frozenset([
    "call", "text", "phone", "tel", "telephone", "cell", "mobile", "ph", "or", "at", "me", "contact", "evenings",
    "mornings", "after", "before", "ask", "for", "anytime", "no", "texts", "please", "only", "and", "number", "my",
    "is", "best", "leave", "a", "message", "voicemail", "pm", "am", "home", "work", "to",
])  # fmt: skip
_PLACE_LINE = re.compile(
    r"(?:(?:listed|posted)[^\n]{0,40} in |location:? |located (?:in|at|near) |pick ?up (?:in|at) |in "
    r"|near |from )?\(?[A-Z][\w.'’-]{1,20}(?: [A-Z][\w.'’-]{1,20}){0,3}[, ] ?(?P<state>[A-Z]{2})\)?"
    r"(?: [0-9]{5}(?:-[0-9]{4})?)?"
    r"(?: ?[·•|(-] ?[^\n]{0,30})?|[0-9]{5}(?:-[0-9]{4})?|(?:about )?[0-9]{1,4} ?(?:mi|miles|km)(?: away)?"
    r"|[0-9]{1,3}[kK] miles?|\([A-Z][\w .'-]{2,30}\)"
    r"|(?:about |approx\.? )?[0-9]{1,3} ?(?:mi|miles) (?:[NSEWnsew]|north|south|east"
    r"|west)\.? of [^\n]{2,40}|(?:located |location)[^\n]{2,50}"
)
_TOWN_AND_STATE = re.compile(
    r"(?:located |location:? |pick ?up )?(?:in |at |near )?[A-Z][\w.'’-]{1,20}"
    r"(?: [A-Z][\w.'’-]{1,20}){0,3}[, ] ?(?:(?P<code>\b[A-Z]{2})|(?P<name>\b[A-Z][a-z]{3,12}"
    r"(?: [A-Z][a-z]{3,9})?))\b"
)
_STATE_NAMES = frozenset([*STATES, *STATES.values(), *(name.split()[-1] for name in STATES.values())])
_YEAR = re.compile(r"(?<![\w$.,/-])(?:19[3-9][0-9]|20[0-3][0-9])(?![\w,./]|-[0-9])")
_MODEL = re.compile(
    r"(?<![\w$€£.,/-])(?:[A-Za-z]{1,4}-?[0-9]{1,4}[A-Za-z]{0,3}|[A-Z]{1,3} [0-9]{2,4}[A-Z]{0,2}"
    r"|[0-9]{2,4}[A-Za-z]{1,2}|[A-Z][A-Za-z]{3,14} [1-9][0-9]{2,3})"
    r"(?:-[A-Za-z0-9]{1,4})?(?![\w]|[.,][0-9])"
)
_NOT_MODEL = re.compile(
    r"[0-9]+ ?(?:k|hp|v|h|hr|hrs|lb|lbs|kg|mi|km|ft|in|mm|cm|cc|l|th|st|nd|rd|wd|pt|am|pm|kw|gpm|psi|rpm|oz|x[0-9])"
    r"|(?:of|to|at|in|by|for|is|on|or|and|was|now|only|the|are|has|with|about|over|paid|call|text|ask|have"
    r"|had|from|all|new|took|zip|meter|reads|price|obo|us|cad|usd|eur"
    r"|asking|priced|firm|cash|want|reduced|around|approx|weighs|hours|hour|under|runs|almost|item|lot"
    r"|photo|image|page|route|route|highway|take|takes|sold|gets|spent) ?[0-9]+"
    r"|[A-Za-z]{2} ?[0-9]{5}",
    re.IGNORECASE,
)
# Only to tell ads from noise and titles from prose; what words mean is in the catalog.
_TRADE_WORD = re.compile(
    r"\b(?:engines?|motors?|diesel|tractors?|loaders?|backhoes?|skid ?steers?|fork ?lifts?|dozers?"
    r"|excavators?|crawlers?|machines?|machinery|equipment|transmissions?"
    r"|gear ?box(?:es)?|hydraulics?|pumps?|axles?|cylinders?|crankshafts?|crank|pistons?|heads?|blocks?"
    r"|long ?block|short ?block|cores?|flywheels?|starters?|alternators?"
    r"|injectors?|injection|turbo|clutch|torque converter|converters?|drivetrain|final drives?|buckets?"
    r"|tires?|hours|hrs|runs|running|seized|parts|part(?:ing)? out|for sale|obo"
    r"|rebuilt|overhauled|blown|knocks?|manifolds?|radiators?|bell ?housing|pto|cab|combine|baler|mower"
    r"|generator|genset|trailer|truck|swather|telehandler|grader|compressor|hp)\b",
    re.IGNORECASE,
)
_FOR_SALE = re.compile(
    r"\b(?:for sale|selling|wts|i have an?|^have an?|parting out|fs:|for trade|must go|need gone"
    r"|up for grabs|dismantling|breaking)\b",
    re.IGNORECASE,
)
_WORD = re.compile(r"[^\W\d_]+")
_LONGEST_TITLE = 110
_LONGEST_WORD = 48
_LONGEST_READ = 400  # of a line, for its traits


class Line(NamedTuple):
    """One line of a paste: where it stands and what it looks like. `text` is cleaned and stripped."""

    start: int
    end: int
    text: str
    sort: str
    """`blank` · `rule` · `crumb` · `chat` (starts a message) · `price` · `phone` · `place` · `label` · `text`."""
    mark: str
    """Of a rule its sign, of a bulleted line its bullet (`1.` for any number), of a label its name."""
    body_at: int
    """Where the text begins after a bullet or the head of a message; `start` where there is neither."""
    has_price: bool
    has_model: bool
    has_trade_word: bool
    has_place: bool
    has_phone: bool
    for_sale: bool

    @property
    def is_detail(self) -> bool:
        """Says one thing about the ad before it, and starts none."""
        return self.sort in ("price", "phone", "place", "label", "crumb")

    @property
    def is_title_like(self) -> bool:
        """Short, names something, and does not read as a sentence."""
        text = self.text
        return (
            self.sort == "text"
            and len(text) <= _LONGEST_TITLE
            and (self.has_model or self.has_trade_word or self.for_sale)
            and not text.endswith((".", "?"))
            and not text[:1].islower()
        )

    @property
    def stands_alone(self) -> bool:
        """Enough on one line to be an ad: what it is, and its price or place."""
        named = self.has_model + self.has_trade_word
        placed = self.has_price + self.has_place + self.has_phone
        enough = 1 if self.has_model else 2
        return self.sort == "text" and named >= 1 and placed >= enough


def lines(clean_text: str) -> Iterator[Line]:
    """Every line of a cleaned text, in order; each is judged only when it is asked for."""
    start = 0
    for raw in clean_text.split("\n"):
        yield _line(raw, start)
        start += len(raw) + 1


def _line(raw: str, start: int) -> Line:
    stripped = raw.strip()
    end = start + len(raw)
    if not stripped:
        return Line(start, end, "", "blank", "", start, False, False, False, False, False, False)
    sign = _rule_sign(stripped)
    if sign:
        return Line(start, end, stripped, "rule", sign, start, False, False, False, False, False, False)
    mark, at = _bullet(raw)
    sort = ""
    chat = _CHAT.match(raw[:120])
    if chat:
        sort, at = "chat", chat.end()
    text = raw[at : at + _LONGEST_READ].strip()
    return _judged(text, start, end, sort, mark, start + at)


def _judged(text: str, start: int, end: int, sort: str, mark: str, body_at: int) -> Line:
    if len(text) > _LONGEST_WORD and len(text.split(None, 1)) == 1:  # an address, or noise: nothing is looked for in it
        return Line(start, end, text, sort or "text", mark, body_at, False, False, False, False, False, False)
    has_price = PRICE_QUICK.search(text) is not None
    tel = phones(text) if _has_digits(text, 7) else []
    has_phone = bool(tel)
    has_model = has_model_word(_without(text, [phone.span for phone in tel]))
    has_trade_word = _TRADE_WORD.search(text) is not None
    has_place = _names_state(text)
    if not sort:
        sort, label = _sort(text, has_price=has_price, has_phone=has_phone, known=has_model or has_trade_word)
        mark = mark or label
    if _CALL_QUICK.search(text):
        has_price = True
    return Line(
        start,
        end,
        text,
        sort,
        mark,
        body_at,
        has_price,
        has_model,
        has_trade_word,
        has_place,
        has_phone,
        _FOR_SALE.search(text) is not None,
    )


def _sort(text: str, *, has_price: bool, has_phone: bool, known: bool) -> tuple[str, str]:
    if is_crumb(text):
        return "crumb", ""
    words = [word.lower() for word in _WORD.findall(text[:120])] if len(text) <= _LONGEST_TITLE else []
    if words or len(text) <= _LONGEST_TITLE:
        others = [word for word in words if word not in _PRICE_WORDS]
        if (has_price or (words and words[0] in ("free", "price", "make", "best", "obo"))) and not others:
            return "price", ""
        if has_phone and (sum(word not in _PHONE_WORDS for word in words) <= 2 or _only_reaches(text, known=known)):  # noqa: PLR2004 - a name
            return "phone", ""
        place = _PLACE_LINE.fullmatch(text)
        if place and not has_price and (place["state"] is None or place["state"] in STATES):
            return "place", ""
    label = _LABEL.fullmatch(text)
    if label and "http" not in text[:12]:
        name = label["label"].strip().lower()
        if name in _LEADING_LABELS:
            return "text", name
        if not known or name in _DETAIL_LABELS:
            return "label", name
    return "text", ""


def _only_reaches(text: str, *, known: bool) -> bool:
    """Where and whom to call, and no more: "Littleton NH 03561, Irene 603-555-0177"."""
    place = _TOWN_AND_STATE.match(text)
    if known or place is None or (place["code"] or place["name"].title()) not in _STATE_NAMES:
        return False
    rest = [word.lower() for word in _WORD.findall(text[place.end() :])]
    return sum(word not in _PHONE_WORDS for word in rest) <= 2  # noqa: PLR2004 - a name


def is_crumb(text: str) -> bool:
    """A leaving of the page it was copied from, or no letters and digits at all."""
    if len(text) > _LONGEST_TITLE:
        return False
    bare = text.strip(_EDGES).lower()
    return bare in _CRUMBS or _CRUMB.fullmatch(bare) is not None or not any(sign.isalnum() for sign in text)


def has_model_word(text: str) -> bool:
    """A year, or a word of letters and digits that is no number with its unit."""
    if _YEAR.search(text):
        return True
    return any(not _NOT_MODEL.fullmatch(match.group()) for match in _MODEL.finditer(text))


def has_trade_word(text: str) -> bool:
    """A word of the trade: engine, loader, runs, obo."""
    return _TRADE_WORD.search(text) is not None


def leads_a_record(line: Line) -> bool:
    """A label that starts an ad where it comes again: "Title: ..."."""
    return line.mark in _LEADING_LABELS


def _rule_sign(stripped: str) -> str:
    signs = set(stripped[:200]) - {" ", "\t"}
    if len(signs) == 1 and signs <= _RULE_SIGNS:
        sign = next(iter(signs))
        return sign if stripped[:200].count(sign) >= _LEAST_RULE else ""
    if len(stripped) <= 80 and _NAMED_RULE.fullmatch(stripped):  # noqa: PLR2004 - a short line
        return "#"
    first = stripped[0]
    if len(stripped) <= 120 and first in _RULE_SIGNS and stripped[-1] == first:  # noqa: PLR2004 - a short line
        label = stripped.strip(first)
        ruled = len(stripped) - len(label)
        if ruled >= 2 * _LEAST_RULE and len(label) <= _MOST_RULE_LABEL and not PRICE_QUICK.search(label):
            return first
    return ""


def _bullet(raw: str) -> tuple[str, int]:
    match = _BULLET.match(raw)
    if not match:
        return "", 0
    return ("1." if match["number"] else match["mark"]), match.end()


_STATE_QUICK = re.compile(
    r"[A-Za-z][a-z.'’-]{1,20},? (?P<code>[A-Z]{2})(?![\w'])|, ?(?P<after>[A-Za-z]{2})(?=[ ,.)]|$)|\b"
    r"(?:near|located in|location|[0-9]{1,3} ?mi(?:les?)? (?:[nsewNSEW]|north|south|east|west) of)\b"
)


def _names_state(text: str) -> bool:
    return any(
        match["code"] in STATES or (match["after"] or "").upper() in STATES or not (match["code"] or match["after"])
        for match in _STATE_QUICK.finditer(text)
    )


def _without(text: str, spans: list[Span]) -> str:
    """The text with some stretches blank: "Text 802-555-0143" names no model."""
    for start, end in spans:
        text = f"{text[:start]}{' ' * (end - start)}{text[end:]}"
    return text


_DIGIT = re.compile("[0-9]")


def _has_digits(text: str, least: int) -> bool:
    return len(_DIGIT.findall(text)) >= least or "five" in text or "oh" in text
