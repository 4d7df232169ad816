"""Where an ad stands, by what it says and what there is: words that may be a town count only where there is such a town."""

from __future__ import annotations

from typing import TYPE_CHECKING

from interchange.ads.fields import PlaceRead
from interchange.ads.number import AREA_CODE
from interchange.ads.place_guess import ORDINARY
from interchange.ads.place_person import PERSON
from interchange.ads.place_words import LONGER
from interchange.haul.places import FAR_MI, Ambiguous, Place, StateOnly, find_place, state_of_area
from interchange.haul.road import great_circle_mi

if TYPE_CHECKING:
    import duckdb

    from interchange.ads.fields import AdReading

Found = Place | Ambiguous | StateOnly | None
Known = dict[str, Found]
SURE = 0.35  # less is a guess, which must be found to count
WRITTEN_OUT = 0.85
"""A town with its state behind a comma, a ZIP: it stands though no list has it."""
COUNTY_MI = 60.0
"""A town this near a county's middle is taken to be in it: a judgement."""
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
    first, found = _first_sure(places, reading, sure, near, known)
    in_county = isinstance(found, Place) and found.how == "county"
    if (
        first is None
        or in_county
        or (found is None and first.kind != "abroad" and (first.kind == "town" or first.certainty < WRITTEN_OUT))
    ):
        for guess in sorted(reading.other_places, key=lambda place: -place.certainty):
            if guess.certainty >= SURE or guess.town is None or guess.note == LONGER:
                continue
            seen = _guessed(places, guess, sure, near, known)
            if seen is None or (guess.note == PERSON and not _called_there(seen[1], reading)):
                continue
            if in_county and not _near_county(found, seen[1]):
                continue
            first, found = seen
            break
    if first is None:
        first = sure[0] if sure else None
        found = _located(places, first, near, known) if first else None
    if first is not None and isinstance(found, Ambiguous) and first.state is None and first.zip is None:
        found = _by_state(found, sure) or _by_telephone(found, reading) or found
    if first is not None and first.zip is None and isinstance(found, Place):
        first = _with_zip(places, first, found, sure, known)
    return first, found


def _first_sure(
    places: duckdb.DuckDBPyConnection, reading: AdReading, sure: list[PlaceRead], near: tuple[float, float] | None, known: Known
) -> tuple[PlaceRead | None, Found]:
    """The surest town or ZIP; one without its comma, or a town alone, yields to another that is found.

    A longer name of it goes first.
    """
    towns = [place for place in sure if place.town or place.zip]
    first: tuple[PlaceRead | None, Found] = (None, None)
    for place in towns:
        longer = [one for one in reading.other_places if one.note == LONGER and one.span.end == place.span.end]
        for one in longer:
            text = words_to_find(one)
            known[text] = known[text] if text in known else find_place(places, text, near)
            if isinstance(known[text], Place | Ambiguous):
                return one, known[text]
        found = _located(places, place, near, known)
        if found is not None or place.kind == "abroad":
            return place, found
        if first[0] is None:
            first = place, found
        if place.certainty >= WRITTEN_OUT and place.kind != "town":
            break
    return first


def _called_there(found: Found, reading: AdReading) -> bool:
    """Whether a telephone in the ad is of the state of what was found."""
    states = {state_of_area(code) for code in _area_codes(reading)}
    choices = found.choices if isinstance(found, Ambiguous) else (found,) if isinstance(found, Place) else ()
    return any(choice.state in states for choice in choices)


def _near_county(county: Found, found: Found) -> bool:
    """Whether a place found lies in or by a county."""
    if not isinstance(county, Place) or not isinstance(found, Place):
        return False
    return great_circle_mi((county.lat, county.lon), (found.lat, found.lon)) <= COUNTY_MI


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
        return (guess._replace(zip=None), None) if guess.town and guess.town[:1].isupper() and guess.note != PERSON else None
    written = guess.state is not None
    if not written:
        guess = guess._replace(state=next((place.state for place in sure if place.state and place.kind != "abroad"), None))
    words = (guess.town or "").split()
    if written or guess.zip:
        ways = [" ".join(words[at:]) for at in range(len(words))]
    else:
        ways = [" ".join(words), words[0], words[-1]] if guess.note != PERSON else [" ".join(words)]
    for shorter in dict.fromkeys(ways):
        one = guess._replace(town=shorter)
        text = ", ".join(filter(None, (one.town, one.state)))
        if text not in known:
            known[text] = find_place(places, text, near)
        found = known[text]
        if guess.zip:
            by_zip = known[guess.zip] = known[guess.zip] if guess.zip in known else find_place(places, guess.zip)
            if isinstance(by_zip, Place) and _same_town(by_zip, found):
                return one, by_zip
        elif isinstance(found, Place | Ambiguous) and (written or not (len(words) > 1 and shorter.lower() in ORDINARY)):
            return one, found
    return None


def _same_town(by_zip: Place, found: Found) -> bool:
    """Whether a ZIP lies where a town of the name beside it does."""
    choices = found.choices if isinstance(found, Ambiguous) else (found,) if isinstance(found, Place) else ()
    point = (by_zip.lat, by_zip.lon)
    return any(choice.state == by_zip.state and great_circle_mi(point, (choice.lat, choice.lon)) <= FAR_MI for choice in choices)


def _by_state(found: Ambiguous, sure: list[PlaceRead]) -> Place | None:
    """The one of several towns that lies in the only state the ad names."""
    states = {place.state for place in sure if place.kind == "state"}
    here = [choice for choice in found.choices if choice.state in states]
    return here[0]._replace(note="its state stands elsewhere in the ad") if len(here) == len(states) == 1 else None


def _by_telephone(found: Ambiguous, reading: AdReading) -> Place | None:
    """The one of several towns whose state has the telephone's area code."""
    for code in _area_codes(reading):
        here = [choice for choice in found.choices if choice.state == state_of_area(code)]
        if len(here) == 1:
            return here[0]._replace(note="no state was given; by the telephone's area code")
    return None


def _area_codes(reading: AdReading) -> list[str]:
    telephones = [str(phone.value)[-_WHOLE_NUMBER:] for phone in reading.phones]
    codes = [digits[:3] for digits in telephones if len(digits) == _WHOLE_NUMBER]
    return [*codes, *(str(fact.value) for fact in reading.said if fact.name == AREA_CODE)]


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
