"""Where a listing's own words end on a page that was copied whole, and those of other listings begin."""

from __future__ import annotations

import re

_THINGS = (
    r"(?:listings?|ads?|items?|lots?|results?|posts?|offers?|machines?|engines?|classifieds|equipment|parts|inventory|stock)"
)
_OTHERS = re.compile(
    rf"^[^\w\n]{{0,6}}(?:"
    rf"(?:similar|related|recommended|nearby|other|more|featured|popular|latest|recent|recently viewed|promoted|suggested"
    rf"|sponsored)"
    rf"(?:[ ][\w-]{{1,14}}){{0,2}}[ ]{_THINGS}\b[^\n.]{{0,30}}"
    rf"|(?:you|people|others?|buyers|customers|visitors|members|shoppers)(?:[ ][\w'’]{{1,10}}){{0,4}}[ ]"
    rf"(?:like|liked|viewed|view|looked at|looking at|bought|searched(?: for)?|interested in|watched|watching)\b[^\n.]{{0,24}}"
    rf"|(?:more|others?)[ ](?:from|by|like|in|near)[ ][^\n.:]{{1,36}}"
    rf"|(?:similar|related|sponsored|recommended|recently viewed|see also)"
    rf"|(?:this |the )?seller[’']?s?(?: is)? (?:other|also)\b[^\n.]{{0,24}}"
    rf")[ \t]{{0,2}}[^\w\n]{{0,6}}$"
    rf"|^[^\w\n]{{0,6}}(?:recently viewed|(?:similar|nearby) near you"
    rf"|(?:similar|related|recommended|nearby)(?:[ ][a-z]{{2,10}}){{0,2}}[ ]{_THINGS}"
    rf"|(?:you|people)[ ][a-z ]{{3,16}} (?:like|viewed)"
    rf"|(?:more|other {_THINGS}) (?:from|by)[ ][^\n.:]{{1,36}})[ ]?:[ ](?=[^\n]{{0,200}}[$€£][ ]?[0-9])",
    re.IGNORECASE | re.MULTILINE,
)
_OWN = 60  # signs of its own a listing has before others may follow
_PRICE = re.compile(r"[$€£][ ]?[0-9]|[0-9][ ]?[$€£k]|\b[0-9]{3,6}\b")


def own_end(text: str) -> int:
    """Where the listing's own text ends: at a heading for other listings, with sums or numbers under it; else the whole."""
    first = _PRICE.search(text)
    if first is None:
        return len(text)
    last = max(match.start() for match in _PRICE.finditer(text, first.start()))
    begins = len(text) - len(text.lstrip())
    for match in _OTHERS.finditer(text):
        if match.start() - begins >= _OWN and first.end() <= match.start() and last >= match.start():
            return match.start()
    return len(text)


def own(text: str) -> str:
    """The text at its own length, with what is not of this listing blank."""
    end = own_end(text)
    return text if end == len(text) else text[:end] + re.sub(r"[^\n]", " ", text[end:])
