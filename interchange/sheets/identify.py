"""What `identify` shows and gives to programs: what some readings may be of, and what would settle it."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any, NamedTuple

from interchange.fit.next_reading import PART, Worth
from interchange.fit.part_sort import BY_NAME
from interchange.fit.taken import COUNTED, KINDS, Reading, ReadingKind
from interchange.quantity import show
from interchange.sheets.terminal import LEFT, RIGHT, indented, table, text

if TYPE_CHECKING:
    from rich.console import Console

    from interchange.fit.candidate import Candidate
    from interchange.fit.identify import Held, Identified, Standing

Json = dict[str, Any]
MOST_SHOWN, MOST_REMARKED, MOST_OUTCOMES, MOST_USES, MOST_NEXT = 8, 3, 5, 3, 3
SHOWN_FROM = 0.001
ALMOST = 0.9995
SURELY = 0.5


class Answer(NamedTuple):
    """All that is told about some readings."""

    part: str
    """The part named; empty where it was not."""
    found: Identified
    contradictions: tuple[str, ...]
    following: tuple[Worth, ...]
    like: tuple[str, ...]
    """What a spline reads like by formula."""


def show_answer(out: Console, answer: Answer) -> None:
    """The readings, what they may be of, what in them does not go together, and what to read next."""
    out.print(text("; ".join(map(reading_words, answer.found.readings)), "dim"))
    for words in answer.contradictions:
        out.print(text(f"These do not go together: {words}", "yellow"))
    out.print(text(verdict(answer.found), "bold"))
    shown = _shown(answer.found)
    if shown:
        rows = table(("chance", RIGHT), ("what", LEFT), ("id", LEFT), ("held against the readings", LEFT))
        for each in shown:
            rows.add_row(percent(each.chance), *map(text, (each.candidate.title, each.candidate.id, _held_words(each))))
        rows.add_row(percent(answer.found.none_chance), text("in no catalog here"), "", "")
        out.print(rows)
    for each in answer.found.rivals[:MOST_REMARKED]:
        for words in _remarks(each.candidate):
            out.print(indented(text(f"{each.candidate.title}: {words}"), 2))
    for words in answer.like:
        out.print(text(f"By formula or table it reads like {words}."))
    _show_following(out, answer)


def verdict(found: Identified) -> str:
    """The sum of it in a sentence."""
    rivals, best = found.rivals, next(iter(found.standings), None)
    if found.answer:
        return f"It is the {found.answer.candidate.title}."
    if rivals:
        if found.none_chance > max(each.chance for each in rivals):
            return "It is likely none of those in the catalog; the nearest:"
        if len(rivals) == 1:
            return f"It may be the {rivals[0].candidate.title}, and nothing else here; not sure enough to build on."
        return f"It may be any of {len(rivals)}: these readings do not tell them apart."
    if best and best.against and best.chance > SURELY:
        wrong = " and the ".join(each.reading.kind.title for each in best.against)
        return f"It looks like the {best.candidate.title}, but the {wrong} does not go with it: read that again."
    return "Nothing in the catalog reads like this."


def reading_words(reading: Reading) -> str:
    """A reading with its ±, as ``opposite chord 16-7/8 in (tape, ±1.59 mm)``."""
    if reading.by == COUNTED:
        return f"{reading.kind.title} {reading.text}"
    return f"{reading.kind.title} {reading.text} ({reading.by}, ±{reading.tolerance:.3g} mm)"


def percent(chance: float) -> str:
    """A chance to a tenth of a percent; never 100 % nor 0 %, which no reading gives."""
    if chance >= ALMOST:
        return "> 99.9 %"
    return f"{chance:.1%}".replace("%", " %") if chance >= SHOWN_FROM else "< 0.1 %"


def _shown(found: Identified) -> list[Standing]:
    """The rivals, and what else is likely enough to be worth a line."""
    rivals = found.rivals
    return [each for each in found.standings if each in rivals or each.chance >= SHOWN_FROM][:MOST_SHOWN]


def _held_words(standing: Standing) -> str:
    return "; ".join(_one_held(each, standing.candidate) for each in standing.held)


def _one_held(held: Held, candidate: Candidate) -> str:
    title = held.reading.kind.title + (" of what goes on it" if held.reading.kind.name in candidate.partners else "")
    if held.expected is None or held.off is None:
        return f"{title} not known"
    if held.reading.kind.counted:
        return f"{title} {held.expected:g}" if held.agrees else f"{title} should be {held.expected:g}"
    size = show(held.expected, "length")
    return f"{title} {size}, {held.off:+.1f} mm" if held.agrees else f"{title} should be {size}: {held.off:+.1f} mm off"


def _remarks(candidate: Candidate) -> list[str]:
    """Its note, and who has it."""
    owners = list(dict.fromkeys(use.owner for use in candidate.uses))
    more = f" and {len(owners) - MOST_USES} more" if len(owners) > MOST_USES else ""
    found = [candidate.note] if candidate.note else []
    return found + ([f"stands on {', '.join(owners[:MOST_USES])}{more}"] if owners else [])


def _show_following(out: Console, answer: Answer) -> None:
    if answer.found.answer or not answer.following:
        return
    best = answer.following[0]
    out.print(text(f"What would settle it best: {ask_words(best)} ({settles(best, answer.found):.0%} of what is open)", "bold"))
    by_id = {each.candidate.id: each.candidate.title for each in answer.found.standings}
    for id_, reads in best.outcomes[:MOST_OUTCOMES]:
        out.print(indented(text(f"{outcome_words(best.name, reads)}: {by_id[id_]}"), 2))
    others = [f"{_title(each)} ({settles(each, answer.found):.0%})" for each in answer.following[1:MOST_NEXT]]
    if others:
        out.print(text(f"Else: {', '.join(others)}.", "dim"))


def settles(worth: Worth, found: Identified) -> float:
    """The share of what is open that a reading is expected to settle."""
    return min(1.0, worth.bits / found.entropy_bits) if found.entropy_bits > 0 else 0.0


def _title(worth: Worth) -> str:
    return "which part it is" if worth.name == PART else KINDS[worth.name].title


def ask_words(worth: Worth) -> str:
    """What to do, as ``the pilot bore, across the recess that centres it, by tape (--bore)``."""
    if worth.name == PART:
        return f"say which part it is (--part {' or '.join(sorted(_parts_of(worth)))})"
    kind: ReadingKind = KINDS[worth.name]
    by = "" if worth.by == COUNTED else f", by {worth.by}"
    return f"the {kind.title}: {kind.how}{by} (--{kind.name})"


def _parts_of(worth: Worth) -> set[str]:
    titles = {title for _, words in worth.outcomes for title in str(words).split(" or ")}
    return {sort.name for sort in BY_NAME.values() if sort.title in titles}


def outcome_words(name: str, reads: float | str) -> str:
    """What it would read."""
    if isinstance(reads, str):
        return reads
    return f"{reads:g}" if KINDS[name].counted else show(reads, "length")


def answer_result(answer: Answer) -> Json:
    """Everything for a program: lengths in mm, chances from 0 to 1."""
    found = answer.found
    return {
        "part": answer.part or None,
        "readings": [
            {"reading": each.kind.name, "value": each.value, "tolerance": each.tolerance, "text": each.text, "by": each.by}
            for each in found.readings
        ],
        "contradictions": list(answer.contradictions),
        "answer": found.answer.candidate.id if found.answer else None,
        "may_be": [each.candidate.id for each in found.rivals],
        "in_no_catalog": found.none_chance,
        "candidates": [_candidate_result(each) for each in found.standings if each in found.rivals or each.chance >= SHOWN_FROM],
        "reads_like": list(answer.like),
        "next": [
            {
                "reading": each.name,
                "by": each.by,
                "settles": round(settles(each, found), 4),
                "outcomes": [{"id": id_, "reads": reads} for id_, reads in each.outcomes],
            }
            for each in answer.following
        ],
    }


def _candidate_result(standing: Standing) -> Json:
    candidate = standing.candidate
    return {
        "id": candidate.id,
        "title": candidate.title,
        "room": candidate.room,
        "standard": candidate.standard or None,
        "parts": sorted(candidate.sorts),
        "chance": standing.chance,
        "possible": standing.possible,
        "held": [
            {"reading": each.reading.kind.name, "expected": each.expected, "off": each.off, "agrees": each.agrees}
            for each in standing.held
        ],
        "stands_on": [f"{use.owner} {use.path}" for use in candidate.uses],
    }
