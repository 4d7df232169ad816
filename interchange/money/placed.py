"""Where an ad stands, by what it says and what there is: words that may be a town count only where there is such a town."""

from __future__ import annotations

from typing import TYPE_CHECKING

from interchange.ads.fields import PlaceRead
from interchange.ads.number import AREA_CODE
from interchange.haul.places import Ambiguous, Place, StateOnly, find_place, state_of_area

if TYPE_CHECKING:
    import duckdb

    from interchange.ads.fields import AdReading

Found = Place | Ambiguous | StateOnly | None
Known = dict[str, Found]
SURE = 0.35  # less is a guess, which must be found to count
MOST_WORDS = 4
_WHOLE_NUMBER = 10  # digits of a telephone that has one


def words_to_find(place: PlaceRead) -> str:
    """What to look a place up by: its ZIP, else town and state, else the words as they stand."""
    return place.zip or ", ".join(filter(None, (place.town, place.state))) or place.text


def placed(
    places: duckdb.DuckDBPyConnection, reading: AdReading, near: tuple[float, float] | None = None, known: Known | None = None
) -> tuple[PlaceRead | None, Found]:
    """The place of an ad, as written, and what it was found to be.

    What was read as a place stands even where it is not found; a guess stands only where it is. A town of several states is
    settled by the area code of the telephone, and a ZIP elsewhere in the ad is taken along where it is the same town's.
    """
    known = {} if known is None else known
    sure = [place for place in (reading.place, *reading.other_places) if place is not None and place.certainty >= SURE]
    town = next((place for place in sure if place.town or place.zip), None)
    first, found = None, None
    for place in [town] if town else []:
        first, found = place, _located(places, place, near, known)
    if first is None or (found is None and first.kind == "town"):
        for guess in reading.other_places:
            if guess.certainty >= SURE or guess.town is None:
                continue
            seen = _guessed(places, guess, sure, near, known)
            if seen is not None:
                first, found = seen
                break
    if first is None:
        first = sure[0] if sure else None
        found = _located(places, first, near, known) if first else None
    if first is not None and isinstance(found, Ambiguous) and first.state is None and first.zip is None:
        found = _by_telephone(found, reading) or found
    if first is not None and first.zip is None and isinstance(found, Place):
        first = _with_zip(places, first, found, sure, known)
    return first, found


def _located(places: duckdb.DuckDBPyConnection, place: PlaceRead, near: tuple[float, float] | None, known: Known) -> Found:
    """A place looked up; a town that is not found is tried again without its first words, then without its last."""
    if place.kind == "abroad":
        return None
    text = words_to_find(place)
    if text not in known:
        found = find_place(places, text, near)
        words = (place.town or "").split()[-MOST_WORDS:]
        fewer = [words[at:] for at in range(1, len(words))] + ([words[-2:-1]] if len(words) > 1 else [])
        for shorter in fewer:
            if found is not None:
                break
            found = find_place(places, ", ".join(filter(None, (" ".join(shorter), place.state))), near)
        known[text] = found
    return known[text]


def _guessed(
    places: duckdb.DuckDBPyConnection, guess: PlaceRead, sure: list[PlaceRead],
    near: tuple[float, float] | None, known: Known,
) -> tuple[PlaceRead, Found] | None:  # fmt: skip
    """A guess that is found: in the state the ad names, where it names one; of an ad from abroad, one abroad."""
    if guess.kind == "abroad":
        return (guess, None) if guess.town and guess.town[:1].isupper() else None
    state = next((place.state for place in sure if place.state), None)
    if state:
        guess = guess._replace(state=state)
    words = (guess.town or "").split()
    found: Found = None
    for shorter in dict.fromkeys((" ".join(words), words[0], words[-1])):
        guess = guess._replace(town=shorter)
        text = words_to_find(guess)
        if text not in known:
            known[text] = find_place(places, text, near)
        found = known[text]
        if isinstance(found, Place | Ambiguous):
            break
    return (guess, found) if isinstance(found, Place | Ambiguous) else None


def _by_telephone(found: Ambiguous, reading: AdReading) -> Place | None:
    """The one of several towns whose state has the telephone's area code."""
    telephones = [str(phone.value)[-_WHOLE_NUMBER:] for phone in reading.phones]
    codes = [digits[:3] for digits in telephones if len(digits) == _WHOLE_NUMBER]
    for code in [*codes, *(str(fact.value) for fact in reading.said if fact.name == AREA_CODE)]:
        here = [choice for choice in found.choices if choice.state == state_of_area(code)]
        if len(here) == 1:
            return here[0]._replace(note="no state was given; by the telephone's area code")
    return None


def _with_zip(
    places: duckdb.DuckDBPyConnection, place: PlaceRead, found: Place, sure: list[PlaceRead], known: Known
) -> PlaceRead:  # fmt: skip
    for other in sure:
        if other.kind == "zip" and other.zip:
            if other.zip not in known:
                known[other.zip] = find_place(places, other.zip)
            there = known[other.zip]
            if isinstance(there, Place) and (there.name, there.state) == (found.name, found.state):
                return place._replace(zip=other.zip)
    return place
