"""Random kinds to plan with, and what a plan costs, for every test that holds plans against something else.

What is counted is written out here a second time, from the words of the design and not from the code: who supplies what, what a
difference takes, what ignorance is charged, which remedies are shared, how long one waits, and whether the sums close.
"""

import itertools
import random
from typing import NamedTuple

from interchange.catalog.figure import Figure
from interchange.catalog.model import (
    Adapter,
    Dimension,
    FeatureType,
    Joint,
    Kind,
    Offer,
    PartSet,
    Pattern,
    Remedy,
    Rule,
    StackUp,
    Supply,
    Work,
)
from interchange.fit.case import Case, Chance, Donor
from interchange.quantity import Quantity

FACES = ("three", "four", "five")
WORDS = ("red", "blue")
HOUR_CENTS = 3000
LOST_TRY_CENTS = 12_000


class Size(NamedTuple):
    """How much there is in a random kind: (least, most), or what is chosen from."""

    slots: tuple[int, int]
    joints: tuple[int, int]
    dimensions: tuple[int, int]
    stack_ups: tuple[int, int]
    adapters: tuple[int, int]
    sets: int
    to_the_seat: int
    """So many joints, the first, are between a slot, most often the core, and the machine."""
    most_adapters: tuple[int, ...]
    adapted: int
    """The most joints that there are adapters for."""
    conditional: float
    """The share of slots that are only wanted with some word."""
    dearest: int
    """Nine hundred cents times less than this is what an adapter costs."""
    mends: int
    """The most remedies of one joint."""
    thick: int
    """The most joints whose thickness one stack-up takes."""
    remedies: tuple[str, ...]
    joint_remedies: tuple[str, ...]
    dimension_remedies: tuple[str, ...]
    stack_up_remedies: tuple[str, ...]


SMALL = Size(
    slots=(2, 4),
    joints=(1, 3),
    dimensions=(0, 3),
    stack_ups=(0, 2),
    adapters=(0, 8),
    sets=1,
    to_the_seat=0,
    most_adapters=(0, 1, 1, 2, 3),
    adapted=3,
    conditional=0.2,
    dearest=9,
    mends=3,
    thick=2,
    remedies=("r0", "r1", "r2", "plate", "ring"),
    joint_remedies=("r0", "r1", "plate", "ring", "plate", "ring"),
    dimension_remedies=("r0", "r1", "r2"),
    stack_up_remedies=("r1", "r2"),
)
"""Few enough choices to try them all."""

LARGE = Size(
    slots=(6, 9),
    joints=(6, 10),
    dimensions=(4, 10),
    stack_ups=(2, 4),
    adapters=(10, 20),
    sets=2,
    to_the_seat=4,
    most_adapters=(1, 2, 3, 3),
    adapted=3,
    conditional=0.05,
    dearest=3,
    mends=1,
    thick=3,
    remedies=("r0", "r1", "r2", "r3", "r4", "r5", "plate", "ring"),
    joint_remedies=("r0", "r1", "r2", "plate", "ring", "plate", "ring"),
    dimension_remedies=("r0", "r1", "r2", "r3", "r4", "r5"),
    stack_up_remedies=("r2", "r3", "r4", "r5"),
)
"""Far more choices than can be tried one by one."""


def length(value):
    return Figure(quantity=Quantity("length", float(value), None, None, None, f"{value} mm"))


def amount(dimension, value):
    return Figure(quantity=Quantity(dimension, float(value), None, None, None, str(value)))


def circle(holes):
    return Pattern(id=FACES[holes - 3], circle=length(100), holes=holes, first_hole=amount("angle", 0))


PATTERNS = {FACES[holes - 3]: circle(holes) for holes in (3, 4, 5)}


def work(luck):
    return Work(
        money=amount("money", luck.randrange(0, 9) * 1000),
        hours=amount("hours", luck.randrange(0, 3)),
        lead=amount("days", luck.choice((0, 0, 3, 7, 14))),
    )


def some(luck, choices, most):
    return tuple(luck.sample(choices, luck.randrange(0, min(most, len(choices)) + 1)))


def count(luck, span):
    return luck.randrange(span[0], span[1] + 1)


def random_case(seed, size=SMALL):
    """A kind with all that a kind can have, a machine, a dead unit and a donor, some of it not known."""
    luck = random.Random(seed)  # noqa: S311 - a fixed row of figures is wanted, not a secret
    slots = ("core", *"abcdefgh")[: count(luck, size.slots)]
    features = {
        "face": FeatureType("pattern"),
        "side": FeatureType("pattern"),
        "len": FeatureType("length"),
        "word": FeatureType("word"),
    }
    remedies = {}
    for name in size.remedies:
        spent = work(luck)
        thick = {"plate": (2, 6), "ring": (1, 3)}.get(name)
        makes = Figure(quantity=Quantity("length", sum(thick) / 2, *map(float, thick), None, "")) if thick else None
        remedies[name] = Remedy(
            id=name,
            title=name,
            money=spent.money,
            hours=spent.hours,
            lead=spent.lead,
            bought=luck.random() < 0.5,
            makes_thick=makes,
            reach=length(luck.randrange(0, 5)) if luck.random() < 0.4 else None,
        )
    sides = [f"{slot}.{face}" for slot in slots for face in ("face", "side")] + ["seat.face"]
    joints = {}
    for i in range(count(luck, size.joints)):
        when = {"seat.word": ("red",)} if luck.random() < 0.2 else {}
        if i < size.to_the_seat:
            between = (luck.choice(("core.face", luck.choice(sides[:-1]))), luck.choice(("seat.face", "seat.side")))
        else:
            between = tuple(luck.sample(sides, 2))
        joints["j" + "xyzstuvwmn"[i]] = Joint(
            between=between,
            most_adapters=luck.choice(size.most_adapters),
            when=when,
            remedies=some(luck, size.joint_remedies, size.mends),
        )
    adapters = tuple(
        Adapter(
            id=f"ad{i}",
            title="",
            kind="k",
            joint=luck.choice(list(joints)[: size.adapted]),
            faces=tuple(luck.sample(FACES, 2)),
            price=amount("money", luck.randrange(0, size.dearest) * 900),
            lead=amount("days", luck.choice((0, 2, 10))),
            thick=length(luck.randrange(1, 5)) if luck.random() < 0.8 else None,
        )
        for i in range(count(luck, size.adapters))
    )
    dimensions = {}
    for i in range(count(luck, size.dimensions)):
        need = luck.choice(["seat.word", *(f"own.{slot}.word" for slot in slots), *(f"{slot}.word" for slot in slots)])
        when = {f"{luck.choice(slots)}.word": ("red",)} if luck.random() < 0.25 else {}
        dimensions[f"d{i}"] = Dimension(
            title="",
            give=f"{luck.choice(slots)}.word",
            need=need,
            rule=Rule(name="same"),
            seen="photo",
            when=when,
            otherwise=luck.choice(("stops", "fixable", "cost only")),
            remedies=some(luck, size.dimension_remedies, 2),
        )
    stacks = {}
    for i in range(count(luck, size.stack_ups)):
        through = list(joints) if size is SMALL else luck.sample(list(joints), len(joints))
        terms = [f"{luck.choice('+-')}{slot}.len" for slot in some(luck, slots, 2)] + [
            f"+{name}.thick" for name in through[: 1 + luck.randrange(size.thick)]
        ]
        stacks[f"s{i}"] = StackUp(
            title="",
            sum=tuple(terms),
            target=luck.choice(("own", "seat.len", "")),
            remedies=some(luck, size.stack_up_remedies, 2),
            **luck.choice(
                (
                    {"within": length(luck.randrange(0, 3))},
                    {"at_least": length(luck.randrange(0, 3))},
                    {"at_most": length(luck.randrange(0, 6))},
                )
            ),
        )
    supply = {}
    for slot in slots:
        by = ("donor",) if slot == "core" else luck.choice((("donor", "own"), ("donor", "own", "bought"), ("own", "bought")))
        suits = some(luck, (*joints, *dimensions), 3) if luck.random() < 0.6 else ()
        when = {luck.choice(("core.word", "seat.word")): ("blue",)} if slot != "core" and luck.random() < size.conditional else {}
        supply[slot] = Supply(by=by, when=when, own=work(luck), bought=work(luck), suits=suits)
    sets = {
        f"set{i}": PartSet(slots=tuple(luck.sample(slots, 2)), mixing=work(luck)) for i in range(size.sets) if luck.random() < 0.5
    }
    kind = Kind(
        id="k",
        title="k",
        slots=dict.fromkeys(slots, features),
        seat=features,
        supply=supply,
        sets=sets,
        joints=joints,
        dimensions=dimensions,
        stack_ups=stacks,
    )

    def presents(slot):
        made = {
            "face": Figure(ref=luck.choice(FACES)),
            "side": Figure(ref=luck.choice(FACES)),
            "len": length(luck.randrange(0, 12)),
            "word": Figure(word=luck.choice(WORDS)),
        }
        return {f"{slot}.{name}": figure for name, figure in made.items() if luck.random() < 0.9}

    own, donor_has = ({path: figure for slot in slots for path, figure in presents(slot).items()} for _ in range(2))
    perhaps = {slot: luck.choice((0.25, 0.75)) for slot in slots if luck.random() < 0.3}
    has = tuple(slot for slot in slots if slot == "core" or (slot not in perhaps and luck.random() < 0.8))
    case = Case(
        kind=kind,
        seat=presents("seat"),
        own=own,
        usable=frozenset(slot for slot in slots if luck.random() < 0.7),
        adapters=adapters,
        remedies=remedies,
        pattern=PATTERNS.get,
        shaft=lambda _: None,
        own_hour_cents=HOUR_CENTS,
        hold_day_cents=luck.choice((0, 300, 2500)),
        lost_try_cents=LOST_TRY_CENTS,
        chances={
            name: Chance(luck.choice((0.2, 0.5, 0.9)), "") for name in (*joints, *dimensions, *stacks) if luck.random() < 0.7
        },
    )
    return case, Donor(title="", features=donor_has, offer=Offer(has=has, perhaps=perhaps))


# The same sums again, one choice at a time.


def cost(thing, money="money"):
    """(money and own hours in cents, days of waiting)."""
    spent, hours, lead = (getattr(thing, name, None) for name in (money, "hours", "lead"))
    return (spent.value if spent else 0) + (hours.value * HOUR_CENTS if hours else 0), lead.value if lead else 0


def figure_at(case, donor, by, path):
    if path.startswith("own."):
        return case.own.get(path.removeprefix("own."))
    slot = path.split(".")[0]
    if slot == "seat":
        return case.seat.get(path)
    return {"donor": donor.features, "own": case.own}.get(by.get(slot), {}).get(path)


def from_whom(path, by):
    return "own" if path.startswith("own.") else "machine" if path.startswith("seat.") else by[path.split(".")[0]]


def condition(case, donor, by, when):
    """True, False, or None where it is not known."""
    answers = []
    for path, words in when.items():
        figure = figure_at(case, donor, by, path)
        answers.append(None if figure is None else figure.text in words)
    return False if False in answers else None if None in answers else True


def state_of(case, donor, by, name, ends, member):
    """How a joint or dimension stands: "fine", "not known" or "differs"."""
    sources = [from_whom(end, by) for end in ends]
    matters = condition(case, donor, by, member.when)
    if "nobody" in sources or matters is False:
        return "fine"
    if "bought" in sources:
        bought = [end.split(".")[0] for end, source in zip(ends, sources, strict=True) if source == "bought"]
        chosen_for = [case.kind.supply[slot].suits for slot in bought]
        return "fine" if any(not suits or name in suits for suits in chosen_for) else "not known"
    if sources == ["donor", "donor"] or set(sources) <= {"own", "machine"}:
        return "fine"
    one, other = (figure_at(case, donor, by, end) for end in ends)
    if one is None or other is None:
        return "not known"
    if one.text == other.text:
        return "fine"
    return "not known" if matters is None else "differs"


def uneven(case, name):
    """The chance that something not known turns out badly."""
    return 1 - case.chances.get(name, Chance(0.5, "")).value


def taken_as_it_is(member):
    """Whether a difference that nothing mends is left standing."""
    return isinstance(member, Dimension) and member.otherwise == "cost only"


def charge_of(case, name, member):
    """What not knowing is charged."""
    way_out = 0 if taken_as_it_is(member) else LOST_TRY_CENTS
    return uneven(case, name) * min((cost(case.remedies[each])[0] for each in member.remedies), default=way_out)


def ways_of(case, donor, by, name, ends, member):
    """(stops, charge, what is done, thickness) for every way a joint or dimension can be made good."""
    mends = [case.remedies[each] for each in member.remedies]
    state = state_of(case, donor, by, name, ends, member)
    if state == "fine":
        return [(0, 0, None, (0, 0))]
    if state == "not known":
        return [(0, charge_of(case, name, member), None, (0, 0))]
    ways = [(0, 0, each, (each.makes_thick.low, each.makes_thick.high) if each.makes_thick else (0, 0)) for each in mends]
    if isinstance(member, Joint):
        one, other = (figure_at(case, donor, by, end) for end in ends)
        ways += [(0, 0, row, row_thickness(row)) for row in rows_of(case, name, member.most_adapters, one.text, other.text)]
    if not ways and taken_as_it_is(member):
        return [(0, 0, None, (0, 0))]
    return ways or [(1, 0, None, (0, 0))]


def rows_of(case, name, most, one, other):
    """Every row of different adapters whose faces are the same from one end to the other."""
    there = [each for each in case.adapters if each.joint == name]
    for many in range(1, most + 1):
        for row in itertools.permutations(there, many):
            faces = [one, *(face for each in row for face in each.faces), other]
            if all(a == b for a, b in zip(faces[::2], faces[1::2], strict=True)):
                yield row


def row_thickness(row):
    if any(each.thick is None for each in row):
        return None
    return (sum(each.thick.value for each in row),) * 2


def stack_sum(case, donor, by, stack, thick):
    """The sum; None where a term is not known."""
    total = 0
    for term in stack.sum:
        sign, path = (-1 if term[0] == "-" else 1), term[1:]
        if path.endswith(".thick"):
            value = thick.get(path.split(".")[0], 0)
        else:
            figure = figure_at(case, donor, by, path)
            value = None if figure is None else figure.value
        if value is None:
            return None
        total += sign * value
    return total


def window(case, donor, stack):
    """(least, most) the sum may come to; None where what it must come to is not known."""
    target = 0
    if stack.target == "own":
        target = stack_sum(case, donor, dict.fromkeys(case.kind.slots, "own"), stack, {})
    elif stack.target:
        target = case.seat[stack.target].value if stack.target in case.seat else None
    if target is None:
        return None
    if stack.within:
        return target - stack.within.value, target + stack.within.value
    return (
        target + stack.at_least.value if stack.at_least else float("-inf"),
        target + stack.at_most.value if stack.at_most else float("inf"),
    )


def closing_ways(case, donor, by, name, thick):
    """(stops, charge or None, remedy) for every way one stack-up can be closed."""
    stack = case.kind.stack_ups[name]
    mends = [case.remedies[each] for each in stack.remedies]
    total, within = stack_sum(case, donor, by, stack, thick), window(case, donor, stack)
    if total is None or within is None:
        return [(0, name, None)]
    out = max(within[0] - total, total - within[1], 0)
    if not out:
        return [(0, None, None)]
    return [(0, None, each) for each in mends if not each.reach or out <= each.reach.value] or [(1, None, None)]


def members(case, slots):
    """Joints and dimensions of the slots there are, each with its two ends."""
    named = [(name, joint.between, joint) for name, joint in case.kind.joints.items()]
    named += [(name, (each.give, each.need), each) for name, each in case.kind.dimensions.items()]
    return [one for one in named if {path.split(".")[0] for path in (*one[1], *one[2].when)} <= {*slots, "seat", "own"}]


def stacks_of(case, slots):
    """Stack-ups of the slots there are."""
    used = {
        name: {term.lstrip("+-").split(".")[0] for term in stack.sum} & set(case.kind.slots)
        for name, stack in case.kind.stack_ups.items()
    }
    return [name for name, terms in used.items() if terms <= set(slots)]


def needed(case, donor, slot):
    """Whether a slot is wanted at all, going by the machine and the donor; None where that is not known."""
    return condition(case, donor, dict.fromkeys(case.kind.slots, "donor"), case.kind.supply[slot].when)


def slot_ways(case, donor, slot):
    """(by, cents, days, stops)."""
    supply = case.kind.supply[slot]
    found = []
    if "own" in supply.by and slot in case.usable:
        found.append(("own", *cost(supply.own), 0))
    if "bought" in supply.by:
        found.append(("bought", *cost(supply.bought), 0))
    share = 1 if slot in donor.offer.has else donor.offer.perhaps.get(slot, 0)
    if "donor" in supply.by and share:
        found.append(("donor", (1 - share) * min((cents for _, cents, *_ in found), default=LOST_TRY_CENTS), 0, 0))
    return found or [("nobody", 0, 0, 1 if needed(case, donor, slot) else 0)]


def every_total(case, donor):
    """(stops, cents) of every choice there is."""
    slots = [slot for slot in case.kind.slots if needed(case, donor, slot) is not False]
    for chosen in itertools.product(*(slot_ways(case, donor, slot) for slot in slots)):
        by = {slot: way[0] for slot, way in zip(slots, chosen, strict=True)}
        stops, cents, days = sum(way[3] for way in chosen), sum(way[1] for way in chosen), max(way[2] for way in chosen)
        for each in case.kind.sets.values():
            if len({by[slot] for slot in each.slots if slot in by}) > 1:
                cents, days = cents + cost(each.mixing)[0], max(days, cost(each.mixing)[1])
        everything = members(case, slots)
        for taken in itertools.product(*(ways_of(case, donor, by, *one) for one in everything)):
            yield from every_closing(case, donor, by, [one[0] for one in everything], taken, (stops, cents, days))


def done_by(what):
    """The remedy, or the adapters of a row, one by one; nothing where nothing is done."""
    return what if isinstance(what, tuple) else () if what is None else (what,)


def every_closing(case, donor, by, names, taken, before):
    paid = {each.id: each for way in taken for each in done_by(way[2])}
    thick = {name: way[3] for name, way in zip(names, taken, strict=True) if name in case.kind.joints and way[2] is not None}
    spans = [[None] if span is None else range(int(span[0]), int(span[1]) + 1) for span in thick.values()]
    for millimetres in itertools.product(*spans):
        standing = dict(zip(thick, millimetres, strict=True))
        for closed in itertools.product(*(closing_ways(case, donor, by, name, standing) for name in stacks_of(case, by))):
            done = paid | {way[2].id: way[2] for way in closed if way[2] is not None}
            spent = [cost(each, "price" if isinstance(each, Adapter) else "money") for each in done.values()]
            charges = sum(way[1] for way in taken) + sum(
                uneven(case, way[1])
                * min(
                    (0 if name in paid else cost(case.remedies[name])[0] for name in case.kind.stack_ups[way[1]].remedies),
                    default=LOST_TRY_CENTS,
                )
                for way in closed
                if way[1] is not None
            )
            stops = before[0] + sum(way[0] for way in taken) + sum(way[0] for way in closed)
            days = max([before[2], *(each[1] for each in spent)])
            yield stops, round(before[1] + sum(each[0] for each in spent) + charges + days * case.hold_day_cents, 6)
