"""What a catalog is made of. The sentence under each field says what to write there; the decoder and the schema read it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Annotated, NamedTuple

from interchange.catalog.figure import NO_ORIGIN, NOWHERE, Figure, Origin, Where
from interchange.catalog.nodes import Node
from interchange.quantity import Quantity, Spline, Thread

# A figure whose quantity has the dimension named.
Length = Annotated[Figure, "length"]
Angle = Annotated[Figure, "angle"]
Mass = Annotated[Figure, "mass"]
Torque = Annotated[Figure, "torque"]
Money = Annotated[Figure, "money"]
Hours = Annotated[Figure, "hours"]
Days = Annotated[Figure, "days"]
Count = Annotated[int, "count"]
Share = Annotated[float, "share"]
Signed = Annotated[float, "signed"]
Id = Annotated[str, "id"]

PATTERN_FEATURE, SHAFT_FEATURE, WORD_FEATURE = "pattern", "shaft", "word"
QUANTITY_FEATURES = (
    "length", "angle", "count", "mass", "torque", "power", "speed", "voltage", "pressure", "displacement", "flow", "share",
)  # fmt: skip
FEATURE_TYPES = (PATTERN_FEATURE, SHAFT_FEATURE, WORD_FEATURE, *QUANTITY_FEATURES)
FEATURES_WITH_SPEED = frozenset({"power", "torque"})


class FeatureType(NamedTuple):
    """The type of a feature; ``words`` closes the list of a word feature's values."""

    name: str
    words: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Point:
    """A hole or dowel at a point."""

    x: Length
    """Right of the centre, as seen; negative to the left."""
    y: Length
    """Above the centre; negative below."""
    hole: Length | None = None
    """Diameter of a clear hole, or of a dowel."""
    thread: Thread | None = None
    """Thread of a tapped hole."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Register:
    """A close fit that centres one face on the other: give the bore or the spigot."""

    bore: Length | None = None
    """Diameter of the recess."""
    spigot: Length | None = None
    """Diameter of the raised shoulder that enters a recess."""
    depth: Length | None = None
    """How deep or how proud."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Pattern:
    """A bolt face: holes on a circle, or at points."""

    id: str = ""
    title: str = ""
    """What people call it."""
    circle: Length | None = None
    """Bolt circle diameter."""
    holes: Count | None = None
    """How many holes on the circle."""
    first_hole: Angle | None = None
    """Angle of the first hole, clockwise from straight up, as seen."""
    thread: Thread | None = None
    """Thread of the holes, where they are tapped."""
    hole: Length | None = None
    """Diameter of the holes, where they are clear."""
    points: tuple[Point, ...] = ()
    """The holes one by one, instead of a circle."""
    dowels: tuple[Point, ...] = ()
    """Dowels that locate the face."""
    pilot: Register | None = None
    """The register that centres it."""
    flange: Length | None = None
    """Outside diameter of the flange."""
    depth: Length | None = None
    """Depth the standard fixes with the pattern: a flywheel's G, from housing face to drive face."""
    seen: Annotated[str, ("from the gearbox", "from the front", "from the shaft end")] = "from the gearbox"
    """The side it was noted from. From the front is flipped on reading."""
    standard: str = ""
    """The standard it belongs to."""
    size: str = ""
    """Its size in that standard."""
    note: str = ""
    """What to watch for."""
    origin: Origin = NO_ORIGIN
    where: Where = NOWHERE


@dataclass(frozen=True, slots=True, kw_only=True)
class Shaft:
    """A shaft end, or the bore that takes it."""

    id: str = ""
    title: str = ""
    """What people call it."""
    form: Annotated[str, ("involute", "straight-sided", "keyed", "taper", "flange", "plain")]
    """How it drives."""
    spline: Spline | None = None
    """Teeth and pitch, 14T 12/24, or module, 20T m2."""
    teeth: Count | None = None
    """How many splines, where the pitch is not stated."""
    angle: Angle | None = None
    """Pressure angle of an involute spline."""
    major: Length | None = None
    """Outside diameter."""
    minor: Length | None = None
    """Root diameter."""
    width: Length | None = None
    """Width of a spline's tooth or of the key."""
    length: Length | None = None
    """Usable length."""
    thread: Thread | None = None
    """Thread at its end."""
    thread_hand: Annotated[str, ("right", "left", "")] = ""
    """Hand of that thread; some crank noses are left-hand."""
    torque: Torque | None = None
    """What its maker rates it for."""
    speed: Annotated[Figure, "speed"] | None = None
    """The speed the standard gives it."""
    pattern: Id = ""
    """For a flange: its bolt pattern."""
    standard: str = ""
    """The standard it belongs to."""
    size: str = ""
    """Its size in that standard."""
    note: str = ""
    """What to watch for."""
    origin: Origin = NO_ORIGIN
    where: Where = NOWHERE


@dataclass(frozen=True, slots=True, kw_only=True)
class Pin:
    """Hitch pins of one category."""

    id: str = ""
    title: str = ""
    """What people call it."""
    upper: Length | None = None
    """Upper pin diameter."""
    lower: Length | None = None
    """Lower pin diameter."""
    spread: Length | None = None
    """Distance between the lower points."""
    mast: Length | None = None
    """Height of the mast."""
    standard: str = ""
    """The standard it belongs to."""
    size: str = ""
    """Its category."""
    note: str = ""
    """What to watch for."""
    origin: Origin = NO_ORIGIN
    where: Where = NOWHERE


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
    most_adapters: Count = 0
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
    remedies: tuple[Id, ...] = ()
    """What can be done where it differs."""
    when: Mapping[str, tuple[str, ...]] = field(default_factory=dict)
    """Only where these features have one of these words."""
    why: str = ""
    """What happens where it is wrong."""
    caution: str = ""
    """What to print beside it."""


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


Features = dict[str, Figure]


@dataclass(frozen=True, slots=True, kw_only=True)
class Variant:
    """One of the forms a unit comes in."""

    share: Share | None = None
    """How much of what is out there is this one."""
    tell: str = ""
    """What shows which it is."""
    title: str = ""
    """What people call it."""
    aka: tuple[str, ...] = ()
    """Other names for this form."""
    slots: Mapping[str, Mapping[str, Node]] = field(default_factory=dict)
    """Only the features that differ."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Unit:
    """An engine family, gearbox or pump."""

    id: str = ""
    kind: Id
    """The kind it is."""
    title: str
    """What people call it."""
    maker: str = ""
    """Who made it."""
    aka: tuple[str, ...] = ()
    """Other names."""
    years: str = ""
    """When it was made."""
    note: str = ""
    """What to watch for."""
    slots: Mapping[str, Mapping[str, Node]] = field(default_factory=dict)
    """What it presents, slot by slot."""
    variants: Mapping[str, Variant] = field(default_factory=dict)
    """Its forms; left out where there is one."""
    origin: Origin = NO_ORIGIN
    where: Where = NOWHERE


@dataclass(frozen=True, slots=True, kw_only=True)
class Seat:
    """A place in a machine that takes a unit."""

    kind: Id
    """The kind of unit."""
    fitted: Mapping[str, Share] = field(default_factory=dict)
    """Units (or unit.variant) that came fitted, with their share."""
    hours: Hours | None = None
    """Own hours to take the unit out and put a like one in."""
    needs: Mapping[str, Node] = field(default_factory=dict)
    """What the seat asks for."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Machine:
    """A model of machine."""

    id: str = ""
    title: str
    """What people call it."""
    maker: str = ""
    """Who made it."""
    sort: str = ""
    """What sort of machine it is."""
    aka: tuple[str, ...] = ()
    """Other names."""
    years: str = ""
    """When it was made."""
    weight: Mass | None = None
    """Operating weight, for hauling."""
    length: Length | None = None
    """Overall length, for hauling."""
    width: Length | None = None
    """Overall width, for hauling."""
    height: Length | None = None
    """Overall height, for hauling."""
    seats: Mapping[str, Seat]
    """Its seats."""
    note: str = ""
    """What to watch for."""
    origin: Origin = NO_ORIGIN
    where: Where = NOWHERE


@dataclass(frozen=True, slots=True, kw_only=True)
class Adapter:
    """A part that joins two features which do not go together."""

    id: str = ""
    title: str
    """What people call it."""
    kind: Id
    """The kind of unit it is for."""
    joint: Id
    """The joint it stands in."""
    faces: tuple[Id, ...]
    """Its two patterns or shafts, in the order of the joint."""
    thick: Length | None = None
    """What it adds along the crank line."""
    torque: Torque | None = None
    """The most it carries."""
    price: Money | None = None
    """What it costs."""
    lead: Days | None = None
    """How long it takes to come."""
    hours: Hours | None = None
    """Own hours to fit it."""
    note: str = ""
    """What to watch for."""
    origin: Origin = NO_ORIGIN
    where: Where = NOWHERE


@dataclass(frozen=True, slots=True, kw_only=True)
class Remedy:
    """An operation that mends a difference."""

    id: str = ""
    title: str
    """What is done."""
    money: Money | None = None
    """Paid to others."""
    hours: Hours | None = None
    """Own hours."""
    lead: Days | None = None
    """Waiting."""
    bought: bool = False
    """Whether it is a part that is bought or carried, rather than machine work."""
    makes_thick: Length | None = None
    """For a made plate: the thickness it can have."""
    needs: tuple[str, ...] = ()
    """Figures that must be known before it is ordered, as stack-up names."""
    caution: str = ""
    """What to print beside it."""
    origin: Origin = NO_ORIGIN
    where: Where = NOWHERE


Thing = Pattern | Shaft | Pin | Kind | Unit | Machine | Adapter | Remedy

__all__ = [
    "Adapter", "Dimension", "FeatureType", "Features", "Figure", "Joint", "Kind", "Machine", "Offer", "PartSet", "Pattern",
    "Pin", "Point", "Quantity", "Register", "Remedy", "Rule", "Seat", "Shaft", "StackUp", "Supply", "Thing", "Unit",
    "Variant", "Work",
]  # fmt: skip
