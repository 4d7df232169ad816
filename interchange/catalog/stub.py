"""A catalog file to fill in: what is known of one unit or machine, and a comment line for everything else its kind has.

Texts come from outside, from ads too: they are folded to one line, stripped of what does not print, and quoted.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from typing import NamedTuple

from interchange.catalog.feature_lines import EXAMPLES, Decides, decided_by, follows_from, line, what_stops, worst_first
from interchange.catalog.features import SEAT
from interchange.catalog.figure import BASES, READINGS
from interchange.catalog.model import FeatureType, Kind
from interchange.catalog.plain_text import one_line, quoted, scalar

SCHEMA_FILE = "catalog.schema.json"

HEAD = f"""\
# yaml-language-server: $schema={SCHEMA_FILE}
# Begun by interchange catalog new. Take "# " off a line to fill it in. What stays a comment counts as not known.
# A figure may say where it comes from: {{value: 5/8 in, read: depth gauge, basis: measured, from: "own bench"}}
#   read is one of: {", ".join(READINGS)}
#   basis is one of: {", ".join(BASES)}
"""
FACES = """\
# Bolt faces are as seen looking from the gearbox end towards the fan (a pump: at its shaft end), angles clockwise from straight
# up; noted from the front, add seen: from the front. Ids of faces and shafts: interchange find WORDS
"""
MACHINE_SIZES = {"weight": "mass", "length": "length", "width": "length", "height": "length"}


class Said(NamedTuple):
    """What is known of one feature: a value, or several where sources differ; and a remark to stand behind it."""

    path: str
    values: tuple[str, ...]
    remark: str = ""


class Facts(NamedTuple):
    """What is known of a unit or machine before anybody looks: ``source`` says who says so, ``remarks`` fits no feature."""

    id: str
    title: str
    maker: str = ""
    aka: tuple[str, ...] = ()
    source: str = ""
    figures: tuple[Said, ...] = ()
    remarks: tuple[str, ...] = ()


def unit_text(kind: Kind, facts: Facts) -> str:
    """The file of one unit: what is known, and each other feature of its kind as a comment, what stops a swap first."""
    lines = [*_begun(facts), f"# What stops a swap of one {one_line(kind.title)}, so find it out first:"]
    lines += [f"#   {one}" for one in what_stops(kind)]
    lines += ["units:", f"  {facts.id}:", f"    kind: {kind.id}", *_named(facts, "    "), *_slots(kind, facts)]
    lines += [
        "    # variants:   # its forms, where there are several: each with only what differs",
        "    #   NAME: {share: , tell: , slots: }   # how many of them are so, as 60 %, and what shows which it is",
    ]
    return "\n".join((*lines, ""))


def machine_text(seats: Mapping[str, Kind], facts: Facts) -> str:
    """The file of one machine: a seat of each name, with what it needs as comments."""
    known = {one.path: one for one in facts.figures}
    lines = [*_begun(facts), "machines:", f"  {facts.id}:", *_named(facts, "    ")]
    lines.append("    # sort:   # what sort of machine it is")
    for name, type_ in MACHINE_SIZES.items():
        lines.append(f"    {_figure(name, known[name], facts)}" if name in known else f"    # {name}:   # {_size(name, type_)}")
    lines.append("    seats:")
    for name, kind in seats.items():
        lines += [f"      {name}:", f"        kind: {kind.id}"]
        lines += [
            "        # fitted: {ID: 1}   # which units came in it (an id, or id.variant), and how many of the machines had each",
            "        # hours:   # own hours to take it out and put a like one in, as 14-24 h",
            "        # needs:   # what the seat asks of any unit; measure it on the machine",
        ]
        lines += [f"        #   {one}" for one in _features(kind, SEAT, kind.seat, (), decided_by(kind))]
    return "\n".join((*lines, ""))


def _begun(facts: Facts) -> Iterator[str]:
    yield from HEAD.splitlines()
    yield from FACES.splitlines()
    for remark in facts.remarks:
        yield f"# {one_line(remark)}"


def _named(facts: Facts, indent: str) -> Iterator[str]:
    """Title, maker, other names."""
    yield f"{indent}title: {quoted(facts.title)}"
    yield f"{indent}maker: {quoted(facts.maker)}" if one_line(facts.maker) else f"{indent}# maker:   # who made it"
    aka = [quoted(name) for name in facts.aka if one_line(name)]
    yield f"{indent}aka: [{', '.join(aka)}]" if aka else f"{indent}# aka: []   # other names it goes by in ads"
    yield f"{indent}# years:   # when it was made, as 1974-1986"


def _slots(kind: Kind, facts: Facts) -> Iterator[str]:
    """Every slot: live where something in it is known, else a comment with its features."""
    decides = decided_by(kind)
    known = {one.path: one for one in facts.figures}
    live = {path.partition(".")[0] for path in known}
    yield "    slots:" if live else "    # slots:"
    order = sorted(
        kind.slots, key=lambda slot: min((decides[p][0][:2] for p in _paths(kind, slot) if p in decides), default=(9,))
    )
    for slot in order:
        given = [known[path] for path in _paths(kind, slot) if path in known]
        parts = f"   # {one_line(kind.supply[slot].parts)}" if slot in kind.supply and kind.supply[slot].parts else ""
        missing = _features(kind, slot, kind.slots[slot], {one.path for one in given}, decides)
        if given:
            yield f"      {scalar(slot)}:{parts}"
            yield from (f"        {_figure(one.path.partition('.')[2], one, facts)}" for one in given)
            yield from (f"        # {each}" for each in missing)
        else:
            lead = "      # " if live else "    #   "
            yield f"{lead}{slot}:{parts}"
            yield from (f"{lead}  {each}" for each in missing)


def _paths(kind: Kind, slot: str) -> list[str]:
    return [f"{slot}.{name}" for name in kind.slots[slot]]


def _features(
    kind: Kind, prefix: str, types: Mapping[str, FeatureType], known: Iterable[str], decides: Mapping[str, list[Decides]]
) -> list[str]:
    """A line for each feature that is not known."""
    follows = follows_from(kind)
    paths = {name: f"{prefix}.{name}" for name in worst_first(types, prefix, decides)}
    return [line(name, types[name], decides.get(p, []), follows.get(p, "")) for name, p in paths.items() if p not in known]


def _figure(name: str, said: Said, facts: Facts) -> str:
    """A feature with what is said of it and by whom."""
    source = f", from: {quoted(facts.source)}" if one_line(facts.source) else ""
    values = [f"{{value: {scalar(value)}, basis: said{source}}}" for value in said.values]
    remark = f"   # {one_line(said.remark)}" if said.remark else ""
    return f"{scalar(name)}: {values[0] if len(values) == 1 else '[' + ', '.join(values) + ']'}{remark}"


def _size(name: str, type_: str) -> str:
    return f"overall {name}, for hauling: {type_}, as {'21 ft' if type_ == 'length' else EXAMPLES[type_]}"
