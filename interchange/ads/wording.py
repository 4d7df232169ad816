"""Wordings found in a text: words are compared one by one in a tree, so the time does not grow with the list."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from functools import lru_cache
from itertools import product
from typing import NamedTuple

from interchange.ads.fields import AdWords, Phrase, Span

BREAK = "."
COMMA = ","
COLON = ":"
_PUNCTUATION = frozenset([BREAK, COMMA, COLON])
_MOST_READINGS = 400  # of one wording, with all its choices written out

_TOKEN = re.compile(
    r"(?P<without>\b[wW]/[oO]\b)"
    r"|(?P<word>[^\W_]+(?:['’´`]\x20{0,7}(?:t|s|re|ve|ll|d|m|T|S|RE|VE|LL|D|M)\b)?)"
    r"|(?P<comma>,(?!\d)|[()\[\]]|\s[-–—]{1,2}\s|[—–])"
    r"|(?P<colon>:(?!\d))"
    r"|(?P<stop>[.](?!\w)|[;!?|•·●▪►]|\n[ \t]*\n)"
    r"|(?P<line>\n)"
    r"|(?P<and>&)"
)
_APOSTROPHE = re.compile(r"['’´`]\x20*")

_NOUN_NEGATORS = frozenset(["no", "without", "zero"])
_VERB_NEGATORS = frozenset([
    "not", "never", "nor", "neither", "cannot", "cant", "wont", "hardly", "nothing", "none", "dont", "doesnt",
    "didnt", "isnt", "arent", "wasnt", "werent", "hasnt", "havent", "hadnt", "aint", "wouldnt",
])  # fmt: skip
# "no problem", "not only", "no reserve": the denial is spent on its own noun.
_SPENT_BY = frozenset([
    "problem", "problems", "issue", "issues", "trouble", "reserve", "doubt", "only", "matter", "title",
])  # fmt: skip
_NEW_CLAUSE = frozenset([
    "and", "but", "runs", "starts", "drives", "works", "has", "just", "still", "needs", "it", "though",
])  # fmt: skip
_VERBS = frozenset([
    "runs", "run", "ran", "starts", "started", "drives", "turns", "works", "needs", "was", "is", "pulled",
])  # fmt: skip
_DOUBTS = frozenset([
    "may", "might", "maybe", "possibly", "possible", "probably", "could", "if", "think", "guess", "sure",
    "supposedly", "apparently", "suspect", "assume", "believe", "unsure", "supposed",
])  # fmt: skip
_NOT_DENIED = ("thing", "part")  # rooms whose readers look at the words around for themselves
_REACH = 6  # words a "no" or a "may" reaches forward


class Token(NamedTuple):
    """A word (lower case, no apostrophes) or a pause, and where it stands."""

    key: str
    start: int
    end: int


class Hit(NamedTuple):
    """A wording found: tokens `first` up to `last`, text `span`."""

    room: str
    id: str
    first: int
    last: int
    span: Span
    negated: bool
    doubted: bool


Node = dict[str, "Node"]


@dataclass(frozen=True, slots=True, eq=False)
class Lexicon:
    """All wordings of all rooms in one tree; `known` holds every word in it, `nouns` those that name a thing alone."""

    tree: Node
    known: frozenset[str]
    nouns: frozenset[str]


def tokens(text: str) -> list[Token]:
    """Words and pauses in order. A line break is a pause unless the next line runs on in lower case."""
    found: list[Token] = []
    for match in _TOKEN.finditer(text):
        start, end = match.span()
        match match.lastgroup:
            case "word":
                word = match.group().lower()
                if not word.isalnum():
                    word = _APOSTROPHE.sub("", word)
                found.append(Token(word, start, end))
            case "line":
                following = text[end : end + 60].lstrip(" \t")[:1]
                if not following.islower():
                    found.append(Token(BREAK, start, end))
            case "comma":
                found.append(Token(COMMA, start, end))
            case "stop":
                found.append(Token(BREAK, start, end))
            case "colon":
                found.append(Token(COLON, start, end))
            case "and":
                found.append(Token("and", start, end))
            case _:
                found.append(Token("without", start, end))
    return found


def readings(wording: str) -> Iterator[tuple[str, ...]]:
    """A wording with its choices written out, as word sequences. ValueError beyond 400, or for brackets that do not pair."""
    if set("()") & set(re.sub(r"\([^()]*\)", "", wording)):
        raise ValueError(f"{wording!r} has brackets inside brackets, or one without its other")
    choices: list[list[tuple[str, ...]]] = []
    for part in re.findall(r"\([^()]*\)|[^\s()]+", wording):
        optional = part.startswith("(")
        kinds = [tuple(token.key for token in tokens(kind)) for kind in part.strip("()").split("|")]
        choices.append([(), *kinds] if optional else kinds)
    count = 1
    for choice in choices:
        count *= len(choice)
    if count > _MOST_READINGS:
        raise ValueError(f"{wording!r} stands for {count} wordings; split it, {_MOST_READINGS} is the most")
    for picked in product(*choices):
        words = tuple(word for part_words in picked for word in part_words)
        if words:
            yield words


def lexicon(phrases: Sequence[Phrase], words: AdWords) -> Lexicon:
    """The tree of all wordings; made once for each set, which is told by being the same object, not by comparing it."""
    return _lexicon(_Lists(phrases, words))


class _Lists:
    """Word lists as a key: to hash a hundred of them for every ad took as long as finding their words."""

    def __init__(self, phrases: Sequence[Phrase], words: AdWords) -> None:
        self.phrases = phrases
        self.words = words

    def __eq__(self, other: object) -> bool:
        return isinstance(other, _Lists) and self.phrases is other.phrases and self.words is other.words

    def __hash__(self) -> int:
        return hash((id(self.phrases), id(self.words)))


@lru_cache(maxsize=8)
def _lexicon(lists: _Lists) -> Lexicon:
    tree: Node = {}
    known: set[str] = set()
    nouns: set[str] = set()
    rooms: list[tuple[str, Iterable[tuple[str, tuple[str, ...]]]]] = [
        ("phrase", ((phrase.id, phrase.say) for phrase in lists.phrases)),
        *(
            (name, ((one.id, one.say) for one in getattr(lists.words, f"{name}s")))
            for name in ("offer", "thing", "part", "state", "fact")
        ),
    ]
    for room, entries in rooms:
        for entry_id, say in entries:
            for wording in say:
                for sequence in readings(wording):
                    node = tree
                    for word in sequence:
                        node = node.setdefault(word, {})
                    node.setdefault(f"\0{room}", {}).setdefault(entry_id, {})
                    known.update(sequence)
                    if room in ("offer", "thing", "part") and len(sequence) == 1:
                        nouns.update(sequence)
    return Lexicon(tree, frozenset(known - _PUNCTUATION), frozenset(nouns - _PUNCTUATION))


def hits(lexicon: Lexicon, words: Sequence[Token]) -> list[Hit]:
    """Every wording found, the longest at each place, none overlapping another of its room."""
    found: list[Hit] = []
    free_from: dict[str, int] = {}
    tree = lexicon.tree
    for first, token in enumerate(words):
        node = tree.get(token.key)
        if node is None:
            continue
        best: dict[str, tuple[str, int]] = {}
        last = first + 1
        while node is not None:
            for key in node:
                if key[0] == "\0":
                    best[key[1:]] = (next(iter(node[key])), last)
            node = node.get(words[last].key) if last < len(words) else None
            last += 1
        for room, (entry_id, end) in best.items():
            if first >= free_from.get(room, 0):
                free_from[room] = end
                negated, doubted = _polarity(words, first, end) if room not in _NOT_DENIED else (False, False)
                span = Span(token.start, words[end - 1].end)
                found.append(Hit(room, entry_id, first, end, span, negated, doubted))
    return found


def _polarity(words: Sequence[Token], first: int, last: int) -> tuple[bool, bool]:
    """Whether the words before deny it, and whether they doubt it."""
    doubted = False
    verb_first = words[first].key in _VERBS
    for index in range(first - 1, max(-1, first - 1 - _REACH), -1):
        key = words[index].key
        if key == COMMA and _ends_in_or(words, first, last):
            continue
        if key in _PUNCTUATION:
            break
        if key in _DOUBTS:
            doubted = True
        if key == "free" and words[index + 1].key in ("of", "from"):
            return True, doubted
        if key in _NOUN_NEGATORS or key in _VERB_NEGATORS:
            spent = words[index + 1].key in _SPENT_BY and words[min(index + 2, len(words) - 1)].key not in ("with", "of")
            if spent and index + 1 < first:
                break
            return not (key in _NOUN_NEGATORS and verb_first), doubted
        if key in _NEW_CLAUSE:
            break
    return _free_follows(words, last), doubted


def _ends_in_or(words: Sequence[Token], first: int, last: int) -> bool:
    """Part of a list such as "no leaks, smoke, or knocks", where the "no" holds through the commas."""
    near = (words[index].key for index in range(max(0, first - 2), min(len(words), last + 4)))
    return any(key in ("or", "nor") for key in near)


def _free_follows(words: Sequence[Token], last: int) -> bool:
    return last < len(words) and words[last].key == "free" and (last + 1 == len(words) or words[last + 1].key in _PUNCTUATION)
