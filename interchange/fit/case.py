"""What a plan is made from: the seat, the dead unit, the donor, and what help there is."""

from __future__ import annotations

import functools
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from typing import TYPE_CHECKING, NamedTuple

from interchange.catalog.features import SEAT
from interchange.catalog.figure import Figure
from interchange.catalog.model import Adapter, Features, Kind, Offer, Pattern, Remedy, Shaft, Work
from interchange.fit.finding import Finding
from interchange.fit.height import lowered
from interchange.fit.plate import PlateDesign
from interchange.spread import NOTHING, Spread

if TYPE_CHECKING:
    from interchange.fit.chain import Chain
    from interchange.fit.factor import Factor, Option
    from interchange.fit.layout import Layout

DONOR, OWN, BOUGHT, MACHINE, NOBODY = "donor", "own", "bought", "the machine", "nobody"
OWN_PREFIX = "own."
CORE = "core"
COST_ONLY = "cost only"


class Chance(NamedTuple):
    """How likely something not known agrees, and what that rests on."""

    value: float
    basis: str


NOTHING_TO_GO_BY = Chance(0.5, "nothing to go by: even chances")


class Memory:
    """What is found once and asked for again by every plan of one case: the same faces come up donor after donor."""

    def __init__(self, of: tuple[object, ...] = ()) -> None:
        self.of = of
        """What it was found with: the kind, adapters and remedies, and what an hour and a lost try cost."""
        self.findings: dict[tuple[str, str, str, bool], Finding] = {}
        """Two faces or shafts compared, by joint, the two of them, and whether all there is to say of them was asked for."""
        self.states: dict[tuple[str, str, str], str] = {}
        """Only whether they go together, likewise."""
        self.chains: dict[tuple[str, str, str], tuple[Chain, ...]] = {}
        """Rows of adapters between two faces or shafts, likewise."""
        self.options: dict[tuple[object, ...], list[Option]] = {}
        """The ways to make a joint or dimension good where no donor matters, by who supplies its ends and its chance."""
        self.factors: tuple[Factor, ...] = ()
        """Every joint and compared dimension of the kind."""
        self.layouts: dict[tuple[tuple[str, ...], ...], Layout] = {}
        """How slots, factors and stack-ups fall into groups, by which of them there are."""
        self.efforts: dict[str, Effort] = {}
        """What a remedy takes, by its id."""
        self.designs: dict[tuple[str, str, str, str], PlateDesign | None] = {}
        """The plate a remedy would make between two faces, by remedy, joint and the two of them."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Case:
    """One dead unit in one machine, with what may mend it. Money in cents, times in hours and days."""

    kind: Kind
    seat: Features
    """What the machine asks for, keyed seat.feature."""
    own: Features
    """What the dead unit presents: as it was fitted, dead or not."""
    usable: frozenset[str]
    """Slots of the dead unit that can be carried over."""
    adapters: tuple[Adapter, ...] = ()
    remedies: Mapping[str, Remedy] = field(default_factory=dict)
    pattern: Callable[[str], Pattern | None]
    shaft: Callable[[str], Shaft | None]
    own_hour_cents: float
    hold_day_cents: float
    lost_try_cents: float
    """What a try that fails is taken to cost, where what is not known cannot be mended."""
    explain: bool = True
    """Whether everything is put into words; a search that only counts money is sooner done without."""
    chances: Mapping[str, Chance] = field(default_factory=dict)
    """For each joint or dimension, how often such pairs agree."""
    told: Mapping[str, Chance] = field(default_factory=dict)
    """What to take instead, of what is not known: to see what an answer would change."""
    height: Figure | None = None
    """How high the machine works; the ratings that fall with height are lowered where it is given."""
    doubts: Mapping[str, str] = field(default_factory=dict)
    """Usable slots of the dead unit to be checked first, each with the reason in words."""
    memory: Memory = field(default_factory=Memory, compare=False, repr=False)

    def __post_init__(self) -> None:
        """A case copied with another kind, other adapters, remedies or rates remembers nothing of the first."""
        of = (self.kind, self.adapters, self.remedies, self.own_hour_cents, self.lost_try_cents)
        known = self.memory.of
        if len(known) != len(of) or any(one is not other for one, other in zip(known, of, strict=True)):
            object.__setattr__(self, "memory", Memory(of))

    def effort(self, remedy: Remedy) -> Effort:
        """What a remedy takes."""
        found = self.memory.efforts.get(remedy.id)
        if found is None:
            found = self.memory.efforts[remedy.id] = effort_of(remedy)
        return found

    def falls_with_height(self, *paths: str) -> bool:
        """Whether the height where the machine works changes a feature at one of these paths."""
        rule = self.kind.altitude
        return bool(self.height and rule and {path.removeprefix(OWN_PREFIX) for path in paths} & set(rule.features))

    def chance(self, name: str) -> Chance:
        """How often such pairs agree; even chances where there is nothing to go by."""
        return self.told.get(name) or self.chances.get(name, NOTHING_TO_GO_BY)


@dataclass(frozen=True, slots=True, kw_only=True)
class Donor:
    """A unit that might go in: what it presents, and which slots come with it."""

    title: str
    features: Features
    offer: Offer


class Effort(NamedTuple):
    """What something takes: money to others, own hours, days of waiting."""

    money: Spread = NOTHING
    hours: Spread = NOTHING
    lead: Spread = NOTHING

    def cents(self, case: Case) -> float:
        """Expected money and own time, without the waiting."""
        return middle(self.money) + middle(self.hours) * case.own_hour_cents


def middle(spread: Spread) -> float:
    """The middle of a range: the mean of a symmetric one, which these are."""
    return spread.likely


def spread_of(figure: Figure | None) -> Spread:
    """A figure's low, value and high; nothing where it is left out, because then there is nothing to pay or wait for."""
    if figure is None or figure.quantity is None:
        return NOTHING
    quantity = figure.quantity
    low = quantity.value if quantity.low is None else quantity.low
    high = quantity.value if quantity.high is None else quantity.high
    return Spread(low, quantity.value, high)


def effort_of(work: Work | Remedy | None) -> Effort:
    """What a remedy or other work takes."""
    return Effort(spread_of(work.money), spread_of(work.hours), spread_of(work.lead)) if work else Effort()


def effort_of_adapter(adapter: Adapter) -> Effort:
    """What an adapter takes."""
    return Effort(spread_of(adapter.price), spread_of(adapter.hours), spread_of(adapter.lead))


def holds(conditions: Mapping[str, tuple[str, ...]], figure_at: Callable[[str], Figure | None]) -> bool | None:
    """Whether conditions are met; None where what they ask about is not known."""
    answer: bool | None = True
    for path, words in conditions.items():
        figure = figure_at(path)
        if figure is None:
            answer = None
        elif figure.text not in words:
            return False
    return answer


@functools.cache
def slot_of(path: str) -> str:
    """The slot a feature belongs to; seat for the machine, own for the dead unit as it was."""
    return path.partition(".")[0]


def source_of(path: str, by: Mapping[str, str]) -> str:
    """Who a feature comes from, as the suppliers of the slots stand."""
    if path.startswith(OWN_PREFIX):
        return OWN
    slot = slot_of(path)
    return MACHINE if slot == SEAT else by.get(slot, NOBODY)


class Suppliers(NamedTuple):
    """Who supplies each slot, and so which figure stands at slot.feature."""

    case: Case
    donor: Donor
    by: Mapping[str, str]

    def source(self, path: str) -> str:
        """Who a feature comes from."""
        return source_of(path, self.by)

    def figure(self, path: str) -> Figure | None:
        """The figure at a path, as the suppliers stand; None where it is not known or nobody supplies it."""
        return figure_from(self.case, self.donor, path, self.source(path))

    def height_caveat(self, *paths: str) -> str:
        """What is to be said of ratings that cannot be lowered, because what decides how much is lost is not known."""
        case, rule = self.case, self.case.kind.altitude
        if case.height is None or rule is None:
            return ""
        lost = [path for path in paths if self.figure(path) is None and _written(case, self.donor, path, self.source(path))]
        by = rule.by.partition(".")[2].replace("_", " ")
        return f"at {case.height.text} it hangs on the {by}, which is not known" if lost else ""


def figure_from(case: Case, donor: Donor, path: str, source: str) -> Figure | None:
    """The figure at a path from a given source, at the height where the machine works."""
    figure, rule = _written(case, donor, path, source), case.kind.altitude
    if case.height is None or rule is None or figure is None or path.removeprefix(OWN_PREFIX) not in rule.features:
        return figure
    return lowered(rule, case.height, figure, (donor.features if source == DONOR else case.own).get(rule.by))


def _written(case: Case, donor: Donor, path: str, source: str) -> Figure | None:
    """The figure at a path as the catalog has it."""
    if source == MACHINE:
        return case.seat.get(path)
    if source == OWN:
        return case.own.get(path.removeprefix(OWN_PREFIX))
    return donor.features.get(path) if source == DONOR else None
