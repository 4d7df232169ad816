"""What `identify` does: readings given as flags, or asked for one by one where it is run bare on a terminal."""

from __future__ import annotations

import json as json_format
import sys
from collections.abc import Callable, Sequence
from pathlib import Path

from interchange.errors import InputError
from interchange.fit.candidate import Candidate, candidate
from interchange.fit.contradiction import contradictions
from interchange.fit.identify import Identified, identify
from interchange.fit.next_reading import PART, next_readings
from interchange.fit.part_sort import BY_NAME, PartSort, sort_named
from interchange.fit.spline_like import spline_like
from interchange.fit.taken import KINDS, PATTERNS, PINS, ROOM_WORDS, SHAFTS, Reading, read_reading
from interchange.opening import Bar, home_folders, open_library, tell_problems
from interchange.sheets import identify as sheet

ROOM_NAMES = {"face": PATTERNS, "shaft": SHAFTS, "hitch": PINS}
FIRST = {PATTERNS: "holes", SHAFTS: "teeth", PINS: "lower-pin"}
DONE = ("done", "q", "quit")

Ask = Callable[[str], str]


def read_part(
    given: dict[str, str | None], *, part: str | None, by: str, cannot: Sequence[str], home: Path | None, json: bool
) -> None:  # fmt: skip
    """Say what the readings given may be of; ask for them where none is given and somebody sits at a terminal."""
    sort = sort_named(part) if part else None
    for name in cannot:
        if name != PART and name not in KINDS:
            raise InputError(f"no reading is called {name!r}", f"there are {', '.join(KINDS)}")
    readings = [read_reading(name, written, by) for name, written in given.items() if written is not None]
    bare = not readings and not json
    if bare and not (sys.stdin.isatty() and sys.stdout.isatty()):
        raise InputError("nothing was read off the part", "give a reading, such as --holes 12 --opposite '16-7/8 in'")
    room = _room_of(readings, sort) if readings else ""
    with Bar() as bar:
        library, problems = open_library(home_folders(home, Path.cwd()), bar)
        from interchange.store.shapes import shapes_of

        everything = [candidate(each.id, each.value, each.uses) for each in shapes_of(library)]
    tell_problems([str(problem) for problem in problems])
    if bare:
        _Wizard(everything, sort, by, input).run()
        return
    if not readings:
        raise InputError("nothing was read off the part", "give a reading, such as --holes 12")
    answer = answer_to(everything, readings, sort, room, cannot)
    if json:
        print(json_format.dumps(sheet.answer_result(answer), indent=2, ensure_ascii=False))
        return
    from interchange.sheets import terminal

    sheet.show_answer(terminal.console(), answer)


def answer_to(
    everything: Sequence[Candidate], readings: Sequence[Reading], sort: PartSort | None, room: str, cannot: Sequence[str] = ()
) -> sheet.Answer:  # fmt: skip
    """All there is to say about some readings."""
    found = identify(of_part(everything, sort, room), readings)
    return sheet.Answer(
        sort.name if sort else "",
        found,
        _contradictions(found),
        next_readings(found, cannot, part_known=sort is not None),
        spline_like(readings) if room == SHAFTS and not found.answer else (),
    )


def of_part(everything: Sequence[Candidate], sort: PartSort | None, room: str) -> list[Candidate]:
    """The shapes that may be of a part: those known to be, and those of which nothing tells what they are of."""
    return [each for each in everything if each.room == room and (sort is None or not each.sorts or sort.name in each.sorts)]


def _contradictions(found: Identified) -> tuple[str, ...]:
    """What does not go together, unless some shape of the catalog has just these figures."""
    if any(each.possible and each.whole for each in found.standings):
        return ()
    return contradictions(found.readings)


def _room_of(readings: Sequence[Reading], sort: PartSort | None) -> str:
    """Of what the readings are. Raises InputError where they are of several things, or not of the part named."""
    rooms = dict.fromkeys(reading.kind.room for reading in readings)
    if len(rooms) > 1:
        words = " and ".join(f"{_flags(readings, room)} of {ROOM_WORDS[room]}" for room in rooms)
        raise InputError(f"one part at a time: {words}", "ask for each by itself")
    room = next(iter(rooms))
    if sort and sort.room != room:
        raise InputError(
            f"a {sort.name} is {ROOM_WORDS[sort.room]}; {_flags(readings, room)} is read off {ROOM_WORDS[room]}",
            f"of it there are {', '.join(f'--{each.name}' for each in KINDS.values() if each.room == sort.room)}",
        )
    return room


def _flags(readings: Sequence[Reading], room: str) -> str:
    return " and ".join(f"--{reading.kind.name}" for reading in readings if reading.kind.room == room)


class _Wizard:
    """Asks which part it is, then for the reading that would settle it best, until one shape is left or no more can be taken."""

    def __init__(self, everything: Sequence[Candidate], sort: PartSort | None, by: str, ask: Ask) -> None:
        self.everything, self.sort, self.by, self.ask = everything, sort, by, ask
        self.readings: list[Reading] = []
        self.cannot: list[str] = []

    def run(self) -> None:
        """The whole conversation."""
        print("Give each reading as a shop writes it: 16-7/8 in, or 428.6 mm; add ', caliper' where it was not a tape.")
        print("Enter: cannot be read. done: that is all.")
        try:
            room = self._room()
            name: str | None = FIRST[room]
            while name and self._take(name):
                name = self._best(room)
        except EOFError:  # the end of the input is as good as done
            print()
            room = self.readings[0].kind.room if self.readings else ""
        if not self.readings:
            print("Nothing was read.")
            return
        from interchange.sheets import terminal

        sheet.show_answer(terminal.console(), answer_to(self.everything, self.readings, self.sort, room, self.cannot))

    def _room(self) -> str:
        while self.sort is None:
            words = self.ask(f"Which part is it ({', '.join(BY_NAME)}; Enter if you cannot tell)? ").strip()
            if not words:
                break
            try:
                self.sort = sort_named(words)
            except InputError as error:
                print(error)
        if self.sort:
            return self.sort.room
        while True:
            words = self.ask("Is it a bolt face, a shaft or a hitch (face, shaft, hitch)? ").strip().casefold()
            if words in ROOM_NAMES:
                return ROOM_NAMES[words]
            print("Write face, shaft or hitch.")

    def _take(self, name: str) -> bool:
        """Ask for one reading until it is understood; False where that was all."""
        kind = KINDS[name]
        while True:
            words = self.ask(f"{kind.title} ({kind.how}): ").strip()
            if words.casefold() in DONE:
                return False
            if not words:
                self.cannot.append(name)
                return True
            try:
                self.readings.append(read_reading(name, words, self.by))
            except InputError as error:
                print(error)
            else:
                return True

    def _best(self, room: str) -> str | None:
        """The next reading to ask for; None where the answer is clear, or nothing more would tell."""
        found = identify(of_part(self.everything, self.sort, room), self.readings)
        if self.readings:
            print(f"  {sheet.verdict(found)}")
        if found.answer:
            return None
        following = next_readings(found, (*self.cannot, PART), part_known=True)
        return following[0].name if following else None
