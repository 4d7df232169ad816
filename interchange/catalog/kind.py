"""What a kind of unit is made of, and what decides whether one goes in. The sentence under a field says what to write."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Annotated, NamedTuple

from interchange.catalog.figure import NO_ORIGIN, NOWHERE, Origin, Where
from interchange.catalog.measures import Days, Hours, Id, Length, Money, Number, Ratio, Share, Times

PATTERN_FEATURE, SHAFT_FEATURE, WORD_FEATURE, TORQUE_FEATURE = "pattern", "shaft", "word", "torque"
QUANTITY_FEATURES = (
    "length", "angle", "count", "mass", "torque", "power", "speed", "voltage", "pressure", "displacement", "flow", "share",
    "ratio",
)  # fmt: skip
FEATURE_TYPES = (PATTERN_FEATURE, SHAFT_FEATURE, WORD_FEATURE, *QUANTITY_FEATURES)


ANY = "any"
"""In a row of a derived value's table: whatever it is, known or not."""


class Factor(float):
    """What a product is multiplied by, as a plain number."""


class FeatureType(NamedTuple):
    """The type of a feature; ``words`` closes the list of a word feature's values."""

    name: str
    words: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Work:
    """What an operation costs: low-high, or one figure."""

    money: Money | None = None
    """Paid to others, for parts and work."""
    hours: Hours | None = None
    """Own hours."""
    lead: Days | None = None
    """Waiting until it is there."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Supply:
    """Where the parts of a slot can come from."""

    parts: str = ""
    """What the slot holds, in words for a parts list."""
    words: tuple[Id, ...] = ()
    """The part_words of ads that speak of it."""
    by: tuple[Annotated[str, ("donor", "own", "bought")], ...] = ("donor", "own")
    """Who may supply it."""
    when: Mapping[str, tuple[str, ...]] = field(default_factory=dict)
    """Only where these features have one of these words."""
    own: Work | None = None
    """Moving one's own part across."""
    bought: Work | None = None
    """Buying one used."""
    suits: tuple[Id, ...] = ()
    """Joints and dimensions a bought one is chosen to suit; at the others it is whatever turns up. Left out: all of them."""
    keep: str = ""
    """What to mark, cap and keep when it is one's own."""


@dataclass(frozen=True, slots=True, kw_only=True)
class PartSet:
    """Slots best taken whole from one engine."""

    slots: tuple[Id, ...]
    """The slots that travel together."""
    mixing: Work
    """What it costs, on the average, to mix suppliers within the set."""
    why: str = ""
    """What goes wrong when they are mixed."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Bolts:
    """What the bolts of a joint are taken to be, so that what they carry by friction can be said."""

    grades: tuple[Annotated[str, ("2", "5", "8", "8.8", "10.9")], ...]
    """Grade of an inch bolt, property class of a metric one, or one of each."""
    friction: Share
    """Coefficient of friction between the two faces."""
    safety: Times
    """How many times the torque they have to carry."""
    origin: Origin = NO_ORIGIN
    where: Where = NOWHERE


@dataclass(frozen=True, slots=True, kw_only=True)
class Joint:
    """Two features that are bolted or slid together."""

    between: tuple[Id, ...]
    """The two features, as slot.feature."""
    clock: tuple[str, ...] = ("0 deg",)
    """Allowed turns of the second face on the first: angles, or any."""
    clearance: Length | None = None
    """How much larger than the bolt a clear hole is, where neither face says."""
    register: Length | None = None
    """How far two registers may differ and still locate."""
    torque: Id = ""
    """The torque two shafts must carry, as slot.feature."""
    bolts: Bolts | None = None
    """What its bolts are taken to be; left out, what they carry is not known."""
    most_adapters: Number = 0
    """How many adapters may stand in it."""
    remedies: tuple[Id, ...] = ()
    """What can be done where the faces do not go together."""
    when: Mapping[str, tuple[str, ...]] = field(default_factory=dict)
    """Only where these features have one of these words."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Rule:
    """How two features must compare: one of the closed list."""

    name: Annotated[str, ("same", "within", "at least", "at most", "pairs")]
    below: float | None = None
    above: float | None = None
    relative: bool = True
    by_dimension: str = ""
    pairs: tuple[tuple[str, str], ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Dimension:
    """One thing that decides whether a unit goes in."""

    title: str
    """What people call it."""
    give: Id = ""
    """The feature offered, as slot.feature."""
    need: Id = ""
    """The feature it must suit: slot.feature, seat.feature or own.slot.feature."""
    rule: Rule | None = None
    """same, within, at least, at most or pairs."""
    joints: tuple[Id, ...] = ()
    """Instead: the joints it stands for."""
    stack_ups: tuple[Id, ...] = ()
    """Instead: the stack-ups it stands for."""
    otherwise: Annotated[str, ("stops", "fixable", "cost only")]
    """What a difference means."""
    seen: Annotated[str, ("photo", "tape", "teardown", "plate", "seller")]
    """How it is read."""
    ask: str = ""
    """How a seller is asked for it, to follow on: could you tell me …"""
    remedies: tuple[Id, ...] = ()
    """What can be done where it differs."""
    when: Mapping[str, tuple[str, ...]] = field(default_factory=dict)
    """Only where these features have one of these words."""
    why: str = ""
    """What happens where it is wrong."""
    caution: str = ""
    """What to print beside it."""
    moves: Mapping[str, str] = field(default_factory=dict)
    """Figures of the machine that go in proportion to what is offered, as seat.feature, each with what to call it."""


@dataclass(frozen=True, slots=True, kw_only=True)
class StackUp:
    """A signed sum of lengths along the crank line."""

    title: str
    """What people call it."""
    sum: tuple[str, ...]
    """Terms as +slot.feature, -joint.thick or +0.5 seat.feature."""
    target: Id = ""
    """own: the dead unit's own sum; seat.feature: a length of the machine; left out: zero."""
    within: Length | None = None
    """How far it may be from the target, either way."""
    at_least: Length | None = None
    """How much more than the target it must be."""
    at_most: Length | None = None
    """How much more than the target it may be."""
    when: Mapping[str, tuple[str, ...]] = field(default_factory=dict)
    """Only where these features have one of these words."""
    remedies: tuple[Id, ...] = ()
    """What can be done where it does not close."""
    why: str = ""
    """What happens where it does not close."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Offer:
    """What one sort of ad brings."""

    title: str = ""
    """What people call it."""
    has: tuple[Id, ...]
    """Slots it brings for sure."""
    perhaps: Mapping[str, Share] = field(default_factory=dict)
    """Slots it may bring, with the chance."""
    work: Work | None = None
    """What it takes to make it whole inside, before it can go in: a short block wants a head and gaskets."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Derived:
    """How a feature follows from others of its slot, or of the seat, where it is not written itself: a table, or a product."""

    of: tuple[Id, ...] = ()
    """For a table: the features it goes by."""
    rows: tuple[tuple[str, ...], ...] = ()
    """For a table: a word or count for each of them, or any, and last what follows. The first row that holds counts."""
    times: tuple[Id, ...] = ()
    """For a product: the figures multiplied, in base units (mm, cm3, rpm, kPa, L/min, N·m, kW, kg)."""
    over: tuple[Id, ...] = ()
    """For a product: the figures divided by."""
    factor: Factor = Factor(1.0)  # noqa: RUF009 - a number, which nothing changes
    """For a product: what it is multiplied by, to come out in the unit."""
    unit: str = ""
    """For a product: the unit it comes out in."""
    note: str = ""
    """What it leaves out or takes for granted, and who says so."""


@dataclass(frozen=True, slots=True, kw_only=True)
class HeightLoss:
    """What thin air takes."""

    loss: Ratio
    """Lost of the figure at sea level, for each 1000 ft."""
    above: Length
    """From this height up."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Altitude:
    """Ratings that fall with height. They are only lowered where somebody says how high the machine works."""

    features: tuple[Id, ...]
    """The ratings: slot.feature of a unit, seat.feature for those of the unit the machine was built with."""
    by: Id
    """The word feature that decides how much is lost; of the dead unit, for what the seat asks."""
    losses: Mapping[str, HeightLoss]
    """What is lost, for each of its words."""


@dataclass(frozen=True, slots=True, kw_only=True)
class WayOut:
    """A way to have a dead unit's work done again without a donor: mended, rebuilt, or bought."""

    title: str
    """What is done."""
    price: Money | None = None
    """What the unit is bought for; a unit's own prices go before it."""
    money: Money | None = None
    """Parts and machine work besides."""
    hours: Hours | None = None
    """Own hours on the bench or in the machine."""
    swap: Times | None = None
    """Hours to take it out and refit it, as a share of those for one that drops in; left out: it stays in."""
    lead: Days | None = None
    """Waiting for what is ordered."""
    shop: bool = False
    """Whether it waits in a machine shop's queue."""
    good: Share
    """Chance that it is good when it is done."""
    not_after: tuple[Id, ...] = ()
    """Failures after which it cannot be done."""
    rescue: Work | None = None
    """What it takes where it is no good, besides taking it out once more; left out: what a core takes, or else the same again."""
    two_in_one: bool = False
    """Whether it makes one good unit of two dead ones that broke in different parts."""
    why: str = ""
    """What speaks for it, or against."""
    origin: Origin = NO_ORIGIN
    where: Where = NOWHERE


@dataclass(frozen=True, slots=True, kw_only=True)
class Proof:
    """One thing that tells dead from what only looks so."""

    title: str
    """What to do."""
    rules_out: str = ""
    """What else it may be."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Failure:
    """One way of breaking, and what it leaves."""

    title: str
    """What people call it."""
    say: tuple[str, ...] = ()
    """Wordings by which it is known."""
    spoils: tuple[Id, ...] = ()
    """Slots that are no good after it."""
    doubts: Mapping[str, Share] = field(default_factory=dict)
    """Slots to be checked before they are used again, with the share that is still good."""
    breaks: tuple[str, ...] = ()
    """Parts of the core that are no good after it: block, crank, head. Left out: not known."""
    repair: WayOut | None = None
    """What mends the part that failed; left out, nothing does."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Kind:
    """What a kind of unit is made of."""

    id: str = ""
    title: str
    """What people call it."""
    slots: Mapping[str, Mapping[str, FeatureType]]
    """Slot to its features and their types."""
    seat: Mapping[str, FeatureType]
    """Features of the machine that takes the unit."""
    supply: Mapping[str, Supply] = field(default_factory=dict)
    """Where each slot's parts can come from."""
    sets: Mapping[str, PartSet] = field(default_factory=dict)
    """Slots that travel together."""
    joints: Mapping[str, Joint] = field(default_factory=dict)
    """Pairs of features that go together."""
    dimensions: Mapping[str, Dimension] = field(default_factory=dict)
    """What decides, most often first."""
    stack_ups: Mapping[str, StackUp] = field(default_factory=dict)
    """Sums of lengths that must close."""
    offers: Mapping[str, Offer] = field(default_factory=dict)
    """What each sort of ad brings."""
    said: Mapping[str, Mapping[str, str]] = field(default_factory=dict)
    """What fact_words of ads say of a feature: a form that has it otherwise is not the one."""
    ask: Mapping[str, str] = field(default_factory=dict)
    """How a seller is asked for one feature, as slot.feature: what to measure from where to where."""
    derive: Mapping[str, Derived] = field(default_factory=dict)
    """Features that follow from others where they are not written, as slot.feature or seat.feature."""
    altitude: Altitude | None = None
    """What height takes of its ratings."""
    failures: Mapping[str, Failure] = field(default_factory=dict)
    """Ways of breaking."""
    proofs: tuple[Proof, ...] = ()
    """What to do before one is called dead, the cheapest first."""
    ways: Mapping[str, WayOut] = field(default_factory=dict)
    """Ways out without a donor."""
    renew: tuple[str, ...] = ()
    """What is always renewed while it is apart."""
    renew_cost: Work | None = None
    """What that comes to."""
    sundries: Work | None = None
    """Small things nobody counts."""
    cautions: tuple[str, ...] = ()
    """What to print with every plan."""
    origin: Origin = NO_ORIGIN
    where: Where = NOWHERE
