"""A paste of many ads into ads. What parts them is decided for the paste as a whole; nothing pasted is lost."""

from __future__ import annotations

import re
from bisect import bisect_left
from collections.abc import Iterable, Iterator, Sequence
from hashlib import blake2b
from itertools import pairwise
from typing import NamedTuple

from interchange.ads.headline import with_bodies
from interchange.ads.line import PRICE_QUICK as PRICE
from interchange.ads.line import Line, has_model_word, has_trade_word, leads_a_record, lines
from interchange.ads.page import own_end
from interchange.ads.plain import clean

__all__ = ["Piece", "Split", "ad_id", "clean", "looks_like_an_ad", "split", "split_paste"]

_ID_SIGNS = "23456789abcdefghjkmnpqrstuvwxyz"  # 31 signs: no 0 o, no 1 i l
_ID_LENGTH = 8
_MOSTLY = 2 / 3
_NEAR_PARAGRAPHS = 2
_TITLE_TO_PRICE = 3  # lines from a price back to its title


class Piece(NamedTuple):
    """A stretch of the paste: `paste[start:end] == text`."""

    text: str
    start: int
    end: int


class Split(NamedTuple):
    """The ads of a paste, what belongs to none, and what told them apart."""

    ads: tuple[Piece, ...]
    crumbs: tuple[Piece, ...]
    parted_by: str


_Group = list[Line]


def split(text: str) -> tuple[Piece, ...]:
    """The ads of a paste, in order; none where it is only noise."""
    return split_paste(text).ads


def split_paste(text: str) -> Split:
    """The ads of a paste with what was left over. Rules of the paste are in neither; every other sign is in one of them."""
    plain = clean(text)
    all_lines = [_to_its_end(line, text) for line in lines(plain)]
    own = bisect_left(all_lines, own_end(plain), key=lambda line: line.start)
    groups, parted_by = _groups(all_lines[:own])
    groups += _groups(all_lines[own:])[0] if own < len(all_lines) else []
    ads: list[Piece] = []
    crumbs: list[Piece] = []
    for group in groups:
        _keep(text, group, ads, crumbs)
    return Split(tuple(ads), tuple(crumbs), parted_by)


def _to_its_end(line: Line, text: str) -> Line:
    """The line with the last sign of the tag that ended it: a line break was read in its place."""
    return line._replace(end=line.end + 1) if line.end < len(text) and not text[line.end].isspace() else line


def ad_id(text: str) -> str:
    """A short name for an ad, the same however its lines are broken and whatever its capitals."""
    folded = " ".join(text.split()).casefold()
    number = int.from_bytes(blake2b(folded.encode("utf-8", "surrogatepass"), digest_size=8).digest())
    signs = []
    for _ in range(_ID_LENGTH):
        number, sign = divmod(number, len(_ID_SIGNS))
        signs.append(_ID_SIGNS[sign])
    return "".join(signs)


_PLAIN_WORD = re.compile(r"(?<![\w])(?:[^\W\d_]{2,15})(?![\w])")
_VOWEL = re.compile(r"[aeiouyAEIOUY]|[^\x00-\x7f]")
_SHORTEST = re.compile(
    r"[A-Z]{1,3}-?[0-9]{2,4}[A-Z]{0,2}[ ,–-]{1,3}\$?[1-9][0-9]{2,4}(?:[ ](?:obo|firm|cash))?", re.IGNORECASE
)  # "K425 900": a model and a sum
_JUDGED = 20_000  # signs looked at


def looks_like_an_ad(text: str) -> bool:
    """Whether it holds words, and a price, a word of the trade or something like a model: noise does not."""
    plain = clean(text[:_JUDGED])
    signs = sum(map(len, plain.split()))
    words = [word for word in _PLAIN_WORD.findall(plain) if _is_plain(word)]
    share = sum(map(len, words)) / signs if signs else 0.0
    if _SHORTEST.fullmatch(plain.strip()):
        return True
    if not words:
        return False
    if has_trade_word(plain):
        return share >= 0.12  # noqa: PLR2004 - "RL90 loader $3,750 (802) 555-0100" has 0.2
    named = PRICE.search(plain) is not None or has_model_word(plain)
    long_words = sum(len(word) > 2 for word in words)  # noqa: PLR2004 - "of", "it" prove nothing
    return named and share >= 0.3 and long_words >= 1  # noqa: PLR2004 - random signs have about 0.1


def _is_plain(word: str) -> bool:
    return (word.islower() or word.isupper() or word.istitle()) and _VOWEL.search(word) is not None


def _groups(all_lines: Sequence[Line]) -> tuple[list[_Group], str]:
    """The lines of each ad. The first way that finds two ads or more is taken for the whole paste."""
    for way, parted in (
        ("rules", _by_rules),
        ("messages", _by_messages),
        ("labels", _by_labels),
        ("bullets", _by_bullets),
        ("lines", _by_lines),
        ("prices", _by_price_lines),
        ("paragraphs", _by_paragraphs),
    ):
        groups = parted(all_lines)
        if way == "paragraphs":
            groups = with_bodies(groups)
        priced = sum(any(line.has_price for line in group) for group in groups)
        called = sum(any(line.has_phone for line in group) for group in groups)
        if way == "paragraphs" and priced == 1 and called <= 1:
            break  # one price, one ad, however many blank lines it has
        if sum(map(_looks, groups)) >= 2:  # noqa: PLR2004 - one ad needs no parting
            return groups, way
    return [list(all_lines)], "nothing"


def _looks(group: _Group) -> bool:
    return any(line.has_model or line.has_trade_word or line.has_price for line in group) and looks_like_an_ad(_joined(group))


def _joined(group: _Group) -> str:
    return "\n".join(line.text for line in group if line.sort not in ("crumb", "rule"))


def _cut_before(all_lines: Sequence[Line], starts: Iterable[int]) -> list[_Group]:
    """Groups that begin at the given lines; what stands before the first is a group of its own."""
    cuts = sorted({0, *starts, len(all_lines)})
    return [list(all_lines[a:b]) for a, b in pairwise(cuts) if b > a]


def _by_rules(all_lines: Sequence[Line]) -> list[_Group]:
    """Lines of one sign. Where two signs are used the one that parts whole ads counts; the other is decoration."""
    signs = {line.mark for line in all_lines if line.sort == "rule"}
    best: list[_Group] = []
    best_share = 0.0
    for chosen in ([{sign} for sign in sorted(signs)] if len(signs) > 1 else []) + ([signs] if signs else []):
        cuts = [i for i, line in enumerate(all_lines) if line.sort == "rule" and line.mark in chosen]
        groups = _cut_before(all_lines, cuts)
        filled = sum(any(line.sort not in ("blank", "rule") for line in group) for group in groups)
        looking = sum(_looks(group) and not _is_heading(group) for group in groups)
        share = looking / filled if filled else 0.0
        if looking >= 2 and share >= _MOSTLY and (share, looking) > (best_share, len(best)):  # noqa: PLR2004 - one ad needs no parting
            best, best_share = groups, share
    return best


def _is_heading(group: _Group) -> bool:
    """A title with nothing under it: the rule below was drawn to underline it."""
    content = [line for line in group if line.sort not in ("blank", "rule", "crumb")]
    return len(content) == 1 and not content[0].stands_alone and not _SHORTEST.fullmatch(content[0].text)


def _by_messages(all_lines: Sequence[Line]) -> list[_Group]:
    """A chat: each message is a paragraph, joined or not as paragraphs are; talk that says nothing of an ad is left out."""
    starts = [i for i, line in enumerate(all_lines) if line.sort == "chat"]
    if len(starts) < 2:  # noqa: PLR2004 - one is a line that happens to look so
        return []
    messages = [_as_text(group) for group in _cut_before(all_lines, starts)]
    useful: list[_Group] = []
    idle: list[_Group] = []
    for message in messages:
        says = any(
            line.has_price or line.has_model or line.has_phone or line.has_place or line.has_trade_word for line in message
        )
        (useful if says else idle).append(message)
    grouped = _joined_paragraphs(useful)
    return (
        sorted([*grouped, *idle], key=lambda group: group[0].start) if _in_order(grouped, idle) else _joined_paragraphs(messages)
    )


def _in_order(grouped: Sequence[_Group], idle: Sequence[_Group]) -> bool:
    """No idle message stands inside an ad: pieces are stretches of the paste and cannot step over one."""
    spans = sorted((group[0].start, group[-1].end) for group in grouped)
    talk = sorted(group[0].start for group in idle)
    at = 0
    for start, end in spans:
        while at < len(talk) and talk[at] < start:
            at += 1
        if at < len(talk) and talk[at] < end:
            return False
    return True


def _as_text(group: _Group) -> _Group:
    return [
        line._replace(sort="text")
        if line.sort == "chat" and line.text
        else line._replace(sort="crumb")
        if line.sort == "chat"
        else line
        for line in group
    ]


def _by_labels(all_lines: Sequence[Line]) -> list[_Group]:
    """Records that each begin with the same label: "Title: ...". Where other ads stand among them the labels part nothing."""
    first = next((line.mark for line in all_lines if leads_a_record(line)), None)
    starts = [i for i, line in enumerate(all_lines) if first and line.mark == first and leads_a_record(line)]
    if len(starts) < 2 or any(line.stands_alone for line in all_lines[: starts[0]]):  # noqa: PLR2004 - records are two or more
        return []
    groups = _cut_before(all_lines, starts)
    titles = sum(line.is_title_like and line.has_model for line in all_lines)
    return groups if titles <= 2 * len(groups) else []


def _by_bullets(all_lines: Sequence[Line]) -> list[_Group]:
    """A list whose points each are an ad; a list of one ad's points is not taken."""
    content = [line for line in all_lines if line.sort not in ("blank", "rule", "crumb")]
    marks = {line.mark for line in content if line.mark and line.body_at > line.start and len(line.mark) <= 2}  # noqa: PLR2004 - a bullet, not a label
    for mark in sorted(marks, key=lambda mark: next(i for i, line in enumerate(content) if line.mark == mark)):
        starts = [i for i, line in enumerate(all_lines) if line.mark == mark and line.sort != "rule"]
        groups = _cut_before(all_lines, starts)
        points = [group for group in groups if group[0].mark == mark]
        alone = sum(_holds_an_ad(group) for group in points)
        if len(points) >= 2 and alone >= _MOSTLY * len(points):  # noqa: PLR2004 - a list has two points
            return groups
    return []


def _holds_an_ad(group: _Group) -> bool:
    if any(line.stands_alone for line in group):
        return True
    return any(line.has_price for line in group) and (
        group[0].has_model or (group[0].has_trade_word and len(group) > 1 and group[0].has_place)
    )


def _by_lines(all_lines: Sequence[Line]) -> list[_Group]:
    """An ad on every line, or nearly; a line with only a telephone belongs to the one before."""
    content = [line for line in all_lines if line.sort not in ("blank", "rule", "crumb")]
    alone = [line for line in content if line.stands_alone]
    if len(alone) < 2 or len(alone) < _MOSTLY * len(content):  # noqa: PLR2004 - a list has two lines
        return []
    if len(alone) == 2 and len(content) == 2 and sum(line.is_title_like for line in content) < 2:  # noqa: PLR2004 - two sentences of one ad
        return []
    starts = [i for i, line in enumerate(all_lines) if line.sort == "text" and (line.stands_alone or line.is_title_like)]
    parted = [i for i in starts if i == 0 or all_lines[i - 1].sort in ("blank", "rule")]
    if len(parted) >= _MOSTLY * len(starts):  # blank lines between: a line right below another without a price goes with it
        starts = [i for i in starts if i in parted or all_lines[i].has_price]
    return _cut_before(all_lines, starts)


def _by_price_lines(all_lines: Sequence[Line]) -> list[_Group]:
    """Copied from a page of results: every ad has its price on a line of its own, above its title or below it."""
    at = [i for i, line in enumerate(all_lines) if line.sort not in ("blank", "rule", "crumb")]
    content = [all_lines[i] for i in at]
    prices = [i for i, line in enumerate(content) if line.sort == "price" and (i == 0 or content[i - 1].sort != "price")]
    inline = sum(line.sort == "text" and line.has_price and line.has_model for line in content)
    if len(prices) < 2 or inline > len(prices) or _blocks_hold_one_each(all_lines, len(prices)):  # noqa: PLR2004 - two ads, two prices
        return []
    if prices[0] == 0 and sum(i + 1 < len(content) and _after_prices(content, i).sort == "text" for i in prices) >= _MOSTLY * len(
        prices
    ):
        return _cut_before(all_lines, [at[i] for i in prices])
    starts = []
    for i in prices:
        title = _title_before(content, i)
        if title is None:
            return []
        starts.append(at[title])
    return _cut_before(all_lines, starts) if len(set(starts)) == len(starts) else []


def _blocks_hold_one_each(all_lines: Sequence[Line], prices: int) -> bool:
    """Blank lines part the ads already: each block begins with words and has its one price further down."""
    priced = 0
    for block in _by_paragraphs(all_lines):
        sorts = [line.sort for line in block if line.sort not in ("blank", "rule", "crumb")]
        runs = sum(sort == "price" and (i == 0 or sorts[i - 1] != "price") for i, sort in enumerate(sorts))
        if runs > 1 or sorts[:1] == ["price"]:
            return False
        priced += runs
    return priced == prices


def _after_prices(content: Sequence[Line], index: int) -> Line:
    while index + 1 < len(content) and content[index].sort == "price":
        index += 1
    return content[index]


def _title_before(content: Sequence[Line], price: int) -> int | None:
    """The nearest title above a price, past a place or a label or two; a second title-like line above it is looked at no more."""
    for index in range(price - 1, max(-1, price - 1 - _TITLE_TO_PRICE), -1):
        if content[index].is_title_like or (
            content[index].sort == "text" and index == price - 1 and len(content[index].text) <= 110  # noqa: PLR2004
        ):
            return index
        if content[index].sort == "price":
            return None
    return None


def _by_paragraphs(all_lines: Sequence[Line]) -> list[_Group]:
    """Blocks with blank lines between; a block with only a price, a place or a telephone belongs to the ad before it."""
    paragraphs: list[_Group] = []
    open_paragraph = False
    for line in all_lines:
        if line.sort in ("blank", "rule"):
            open_paragraph = False
            if paragraphs:
                paragraphs[-1].append(line)
            else:
                paragraphs.append([line])
        elif open_paragraph:
            paragraphs[-1].append(line)
        else:
            paragraphs.append([line])
            open_paragraph = True
    return _joined_paragraphs(paragraphs)


class _Looks(NamedTuple):
    """What a paragraph has, for telling whether it begins an ad."""

    detail: bool
    names: bool
    titled: bool
    price: bool
    contact: bool
    phone: bool
    for_sale: bool
    whole: bool


def _looks_of(paragraph: _Group) -> _Looks:
    content = [line for line in paragraph if line.sort not in ("blank", "rule", "crumb")]
    if not content:
        return _Looks(True, False, False, False, False, False, False, False)
    first = next((line for line in content if line.sort == "text"), content[0])
    detail = all(line.is_detail for line in content)
    price = any(line.has_price for line in content)
    contact = any(line.has_phone or line.has_place for line in content)
    return _Looks(
        detail,
        any(line.has_model for line in content[:2]) or (first.has_trade_word and first.is_title_like),
        first.is_title_like and not first.text[:1].islower(),
        price,
        contact,
        any(line.has_phone for line in content),
        any(line.for_sale for line in content[:2]),
        not detail and price and contact and content[0].sort == "text" and not _GOES_ON.match(first.text),
    )


_GOES_ON = re.compile(
    r"(?:also|and|or|plus|but|will|would|can|could|call|text|e?mail|price[ds]?|asking|located|it|its|it's"
    r"|i|i'm|i'll|we|he|she|they|my|this|that|these"
    r"|those|if|for more|for info|has|have|had|was|is|are|please|thanks?|no|not|new ones?|paid|pick ?up"
    r"|delivery|shipping|comes|includes?|included)\b(?!:)",
    re.IGNORECASE,
)


def _joined_paragraphs(paragraphs: Sequence[_Group]) -> list[_Group]:
    looks = [_looks_of(paragraph) for paragraph in paragraphs]
    groups: list[_Group] = []
    price = contact = named = phone = False  # of the ad so far
    for index, (paragraph, look) in enumerate(zip(paragraphs, looks, strict=True)):
        another = phone and look.phone and look.names and look.whole  # with a telephone of its own
        if groups and not (named and (another or _begins(look, _support(looks, index), price=price, contact=contact))):
            groups[-1] += paragraph
            phone = phone or look.phone
            price, contact, named = price or look.price, contact or look.contact, named or look.names or look.for_sale
        else:
            groups.append(list(paragraph))
            phone = look.phone
            price, contact, named = look.price, look.contact, look.names or look.for_sale or (look.price and not look.detail)
    return groups


def _support(looks: Sequence[_Looks], index: int) -> tuple[bool, bool]:
    """Whether a price and a contact follow in the paragraph or the next two, before another begins."""
    price, contact = looks[index].price, looks[index].contact
    for look in looks[index + 1 : index + 1 + _NEAR_PARAGRAPHS]:
        if look.titled and look.names and not look.detail:
            break
        price, contact = price or look.price, contact or look.contact
    return price, contact


def _begins(look: _Looks, support: tuple[bool, bool], *, price: bool, contact: bool) -> bool:
    """Whether a paragraph begins an ad, given what the ad before it has: a second price or contact asks for a second ad."""
    own_price, own_contact = support
    if look.detail:
        return False
    if price and contact and look.whole:
        return True
    if look.for_sale and (look.names or own_price) and (price or contact):
        return True
    if look.names and look.titled:
        return (price and own_price) or (contact and own_contact) or ((price or contact) and (own_price or own_contact))
    return look.names and look.price and price and (look.contact or look.for_sale or contact)


def _keep(text: str, group: _Group, ads: list[Piece], crumbs: list[Piece]) -> None:
    """Trim page leavings off both ends of an ad and keep each part where it belongs."""
    content = [i for i, line in enumerate(group) if line.sort not in ("blank", "rule", "crumb")]
    if not content or not looks_like_an_ad(_joined(group)):
        crumbs += _each_line(text, group)
        return
    first, last = content[0], content[-1]
    crumbs += _each_line(text, group[:first])
    head = group[first]
    if head.body_at > head.start:  # a bullet, or the head of a message
        crumbs += _piece(text, head.start, head.body_at)
    ads += _piece(text, head.body_at, group[last].end)
    crumbs += _each_line(text, group[last + 1 :])


def _each_line(text: str, group: Iterable[Line]) -> Iterator[Piece]:
    for line in group:
        if line.sort != "rule":  # a line that reads as blank may hold markup
            yield from _piece(text, line.start, line.end)


def _piece(text: str, start: int, end: int) -> list[Piece]:
    """The stretch without blanks at its ends; nothing for nothing."""
    kept = text[start:end]
    start += len(kept) - len(kept.lstrip())
    kept = kept.strip()
    return [Piece(kept, start, start + len(kept))] if kept else []
