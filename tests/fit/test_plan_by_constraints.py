"""Plans of kinds too large to try every choice, against an outside solver: OR-Tools CP-SAT.

The constraints are the words of the design, with nothing taken from the code: one supplier a slot; a way for each joint and
dimension that differs; a remedy paid once, whoever needs it; adapters in a row, face to face; plates as thick as they can be
made; stack-ups that close, are mended, stop, or are not known; sets that mix; the longest wait. What a thing costs and whether
two ends agree are told by the sums that every choice is tried with. Everything is a whole number of tenths of a cent, days and
sixths of a millimetre, so that nothing is rounded.
"""

import itertools
from collections import Counter
from types import SimpleNamespace

import pytest
from ortools.sat.python import cp_model
from random_kinds import (
    LARGE,
    LOST_TRY_CENTS,
    SMALL,
    charge_of,
    cost,
    every_total,
    figure_at,
    members,
    needed,
    random_case,
    rows_of,
    slot_ways,
    stacks_of,
    state_of,
    taken_as_it_is,
    uneven,
    window,
)

from interchange.catalog.model import Joint
from interchange.fit.finding import BOLTS_UP
from interchange.fit.plan import best_choice

CASES = 100
QUICK = 10
FAR = 10_000
SIXTHS = 6
"""Of a millimetre. Where limits of up to four sums of plates meet, thicknesses are whole numbers of halves or thirds: a
determinant of four rows of noughts and ones is 3 at most."""


def whole(value, scale=1):
    """A figure as a whole number, which it is."""
    number = round(value * scale)
    assert number == pytest.approx(value * scale, abs=1e-6)
    return number


class Constraints:
    """Everything a plan may be, as a constraint problem."""

    def __init__(self, case, donor):
        self.case, self.donor = case, donor
        self.model = cp_model.CpModel()
        self.spent, self.stops = [], []
        """(literal, tenths of a cent), and literals that each stop the plan."""
        self.days = self.model.new_int_var(0, 1000, "days")
        slots = [slot for slot in case.kind.slots if needed(case, donor, slot) is not False]
        self.by = {slot: self._supplied(slot) for slot in slots}
        self.wanted = {name: [] for name in case.remedies}
        """For each remedy, what calls for it."""
        self.joints = {}
        for each in case.kind.sets.values():
            self._mixing(each)
        for member in members(case, slots):
            self._made_good(*member)
        self.begun = {name: self._any(wanted) for name, wanted in self.wanted.items()}
        """Remedies that joints and dimensions call for."""
        for name in stacks_of(case, slots):
            self._closed(name, case.kind.stack_ups[name])
        for name, wanted in self.wanted.items():
            self._pays(self._any(wanted), *cost(case.remedies[name]))

    def _flag(self):
        return self.model.new_bool_var("")

    def _any(self, flags):
        """Whether any of these is so."""
        found = self._flag()
        self.model.add_max_equality(found, flags or [0])
        return found

    def _pays(self, flag, cents, days=0):
        self.spent.append((flag, whole(cents, 10)))
        self.model.add(self.days >= whole(days)).only_enforce_if(flag)

    def _supplied(self, slot):
        flags = {}
        for who, cents, days, stops in slot_ways(self.case, self.donor, slot):
            flags[who] = self._flag()
            self._pays(flags[who], cents, days)
            self.stops += [flags[who]] * stops
        self.model.add_exactly_one(flags.values())
        return flags

    def _mixing(self, parts):
        mixed = self._flag()
        there = [slot for slot in parts.slots if slot in self.by]
        for one, other in itertools.permutations(there, 2):
            for who, flag in self.by[one].items():
                self.model.add(flag - self.by[other].get(who, 0) <= mixed)
        self._pays(mixed, *cost(parts.mixing))

    def _made_good(self, name, ends, member):
        """Each choice of suppliers that matters here: fine, charged for, or to be mended."""
        slots = [path.split(".")[0] for path in (*ends, *member.when) if not path.startswith("own.")]
        slots = [slot for slot in dict.fromkeys(slots) if slot != "seat"]
        mends = [self.case.remedies[each] for each in dict.fromkeys(member.remedies)]
        apart, stuck = {}, []
        for suppliers in itertools.product(*(self.by[slot] for slot in slots)):
            by = dict(zip(slots, suppliers, strict=True))
            here = self._all([self.by[slot][who] for slot, who in by.items()])
            state = state_of(self.case, self.donor, by, name, ends, member)
            if state == "not known":
                self._pays(here, charge_of(self.case, name, member))
            elif state == "differs":
                faces = tuple(figure_at(self.case, self.donor, by, end).text for end in ends)
                apart.setdefault(faces, []).append(here)
                if not mends and not (isinstance(member, Joint) and any(rows_of(self.case, name, member.most_adapters, *faces))):
                    stuck.append(here)
        differs = [here for each in apart.values() for here in each]
        taken = {each.id: self._flag() for each in mends}
        for each, flag in taken.items():
            self.wanted[each].append(flag)
        row = self._flag()
        self.model.add(sum(taken.values()) + row + sum(stuck) == sum(differs))
        if not taken_as_it_is(member):
            self.stops += stuck
        if isinstance(member, Joint):
            self.joints[name] = self._in_a_row(name, member, row, apart)
            self.joints[name].thick.append(self._plate(taken))
        else:
            self.model.add(row == 0)

    def _all(self, flags):
        """Whether all of these are so."""
        found = self._flag()
        self.model.add_min_equality(found, flags or [1])
        return found

    def _in_a_row(self, name, joint, row, apart):
        """Adapters at their places, none twice, each face on its like."""
        there = [each for each in self.case.adapters if each.joint == name]
        places = [{each.id: self._flag() for each in there} for _ in range(joint.most_adapters)]
        filled = [sum(place.values()) for place in places]
        self.model.add((filled[0] if filled else 0) == row)
        for place, before in zip(filled[1:], filled, strict=False):
            self.model.add(place <= before)
        for each in there:
            self.model.add(sum(place[each.id] for place in places) <= 1)
        for (i, place), each in itertools.product(enumerate(places), there):
            self._pays(place[each.id], *cost(each, "price"))
            if i:
                fit = [places[i - 1][other.id] for other in there if other.faces[1] == each.faces[0]]
                self.model.add(sum(fit) >= place[each.id])
            after = filled[i + 1] if i + 1 < len(places) else 0
            for (first, last), heres in apart.items():
                if i == 0 and each.faces[0] != first:
                    self.model.add(place[each.id] + sum(heres) <= 1)
                if each.faces[1] != last:
                    self.model.add(place[each.id] + sum(heres) <= 1 + after)
        known = [whole(each.thick.value, SIXTHS) * place[each.id] for place in places for each in there if each.thick]
        return SimpleNamespace(thick=known, blind=[place[each.id] for place in places for each in there if not each.thick])

    def _plate(self, taken):
        """The thickness of what is made for a joint; nothing where nothing is."""
        spans = {each: self.case.remedies[each].makes_thick for each in taken}
        thick = self.model.new_int_var(0, 100 * SIXTHS, "")
        for each, span in spans.items():
            if span:
                least, most = whole(span.low, SIXTHS), whole(span.high, SIXTHS)
                self.model.add_linear_constraint(thick, least, most).only_enforce_if(taken[each])
        made = sum(taken[each] for each, span in spans.items() if span)
        self.model.add(thick <= 100 * SIXTHS * made)
        return thick

    def _closed(self, name, stack):
        """A sum that closes, is mended, stops, or hangs on something not known."""
        terms, blind = [], []
        for term in stack.sum:
            sign, (slot, feature) = (-1 if term[0] == "-" else 1), term[1:].split(".")
            if feature == "thick" and slot not in self.joints:
                continue
            if feature == "thick":
                terms += [sign * each for each in self.joints[slot].thick]
                blind += self.joints[slot].blind
                continue
            for who, flag in self.by[slot].items():
                figure = figure_at(self.case, self.donor, {slot: who}, term[1:])
                if figure is None:
                    blind.append(flag)
                else:
                    terms.append(sign * whole(figure.value, SIXTHS) * flag)
        within = window(self.case, self.donor, stack)
        unknown = self._any(blind if within else [1])
        closes, stops = self._flag(), self._flag()
        mends = {each: self._flag() for each in stack.remedies}
        self.model.add_exactly_one(unknown, closes, stops, *mends.values())
        for each, flag in mends.items():
            self.wanted[each].append(flag)
        if within:
            least, most = (whole(max(-FAR, min(FAR, end)), SIXTHS) for end in within)
            self.model.add_linear_constraint(sum(terms), least, most).only_enforce_if(closes)
            for each, flag in mends.items():
                reach = self.case.remedies[each].reach
                if reach:
                    off = whole(reach.value, SIXTHS)
                    self.model.add_linear_constraint(sum(terms), least - off, most + off).only_enforce_if(flag)
        if any(not self.case.remedies[each].reach for each in mends):
            self.model.add(stops == 0)
        self.stops.append(stops)
        if not mends:
            self._pays(unknown, uneven(self.case, name) * LOST_TRY_CENTS)
            return
        named = {each: self._flag() for each in mends}
        self.model.add_exactly_one(*named.values(), ~unknown)
        for each, flag in named.items():
            charged = self._flag()
            self.model.add(flag - self.begun[each] <= charged)
            self._pays(charged, uneven(self.case, name) * cost(self.case.remedies[each])[0])

    def solved(self):
        """(stops, cents) of the best there is: fewest stops, then least money."""
        a_day = whole(self.case.hold_day_cents, 10)
        a_stop = 1 + 1000 * a_day + sum(tenths for _, tenths in self.spent)
        money = sum(flag * tenths for flag, tenths in self.spent) + a_day * self.days
        self.model.minimize(a_stop * sum(self.stops) + money)
        solver = cp_model.CpSolver()
        solver.parameters.num_workers = 1
        assert solver.solve(self.model) == cp_model.OPTIMAL
        return divmod(whole(solver.objective_value), a_stop)


def by_constraints(case, donor):
    stops, tenths = Constraints(case, donor).solved()
    return stops, tenths / 10


SEEDS = [pytest.param(seed, marks=[pytest.mark.long] if seed >= QUICK else []) for seed in range(CASES)]


@pytest.mark.parametrize("seed", SEEDS)
def test_no_plan_the_solver_finds_is_better(seed):
    case, donor = random_case(seed, LARGE)
    choice = best_choice(case, donor)
    stops, cents = by_constraints(case, donor)
    assert (choice.stops, choice.cost_cents) == (stops, pytest.approx(cents))


@pytest.mark.parametrize("seed", range(20))
def test_the_constraints_say_what_trying_everything_says(seed):
    case, donor = random_case(seed, SMALL)
    stops, cents = min(every_total(case, donor))
    assert by_constraints(case, donor) == (stops, pytest.approx(cents))


def what_is_in(case, choice):
    """What a plan makes use of."""
    rows = [len(option.chain.adapters) for option in choice.taken.values() if option.chain]
    calls = [each.remedy for each in (*choice.taken.values(), *choice.closings) if each.remedy]
    said = {
        "an adapter": rows,
        "two or more in a row": max(rows, default=0) >= 2,
        "three in a row": max(rows, default=0) == 3,
        "a made plate": any(remedy.makes_thick for remedy in calls),
        "a made plate in a sum": any(each.plates for each in choice.closings),
        "a shared remedy": len({remedy.id for remedy in calls}) < len(calls),
        "a wait that costs": choice.lead_days * case.hold_day_cents,
        "a mixed set": choice.mixed,
        "a sum that closes": any(each.verdict == BOLTS_UP for each in choice.closings),
        "a sum that is mended": any(each.remedy for each in choice.closings),
        "a charge for not knowing": any(each.charge_cents for each in (*choice.taken.values(), *choice.closings)),
        "a lost try": any(each.stake_cents for each in (*choice.taken.values(), *choice.closings)),
        "no stops": not choice.stops,
    }
    return [what for what, so in said.items() if so]


LEAST = {
    "an adapter": 35,
    "two or more in a row": 10,
    "three in a row": 1,
    "a made plate": 25,
    "a made plate in a sum": 6,
    "a shared remedy": 15,
    "a wait that costs": 50,
    "a mixed set": 30,
    "a sum that closes": 45,
    "a sum that is mended": 20,
    "a charge for not knowing": 60,
    "a lost try": 50,
    "no stops": 40,
}
"""How many of the hundred best plans have what makes planning hard, or more: else the checks above would agree on little."""


@pytest.mark.long
def test_the_kinds_make_use_of_everything():
    used = Counter()
    for case, donor in (random_case(seed, LARGE) for seed in range(CASES)):
        used.update(what_is_in(case, best_choice(case, donor)))
    assert {what: many for what, many in LEAST.items() if used[what] < many} == {}, used
