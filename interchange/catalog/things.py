"""Units, the machines they sit in, and what joins or mends them. The sentence under each field says what to write there."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from interchange.catalog.figure import NO_ORIGIN, NOWHERE, Figure, Origin, Where
from interchange.catalog.measures import Days, Hours, Id, Length, Mass, Money, Ratio, Share, Times, Torque
from interchange.catalog.nodes import Node

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
    prices: Mapping[str, Money] = field(default_factory=dict)
    """What a supplier asks, by the kind's way out it is for: long_block, say."""
    deposit: Money | None = None
    """What a supplier asks besides, and pays back for the old one handed in."""
    origin: Origin = NO_ORIGIN
    where: Where = NOWHERE

    @property
    def shares(self) -> dict[str, float]:
        """How much of what is out there each form is, brought to a whole; those that do not say part the rest equally."""
        known = [each.share for each in self.variants.values()]
        rest = max(0.0, 1.0 - sum(share or 0.0 for share in known)) / max(1, known.count(None))
        shares = [rest if share is None else share for share in known]
        whole = sum(shares) or 1.0
        return {name: share / whole for name, share in zip(self.variants, shares, strict=True)}


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
class LeftPart:
    """Something of a donor machine that is sold when what one wants is out of it."""

    title: str
    """What it is."""
    price: Money
    """What it brings."""
    chance: Share
    """Chance that it is sold at all."""
    months: Days | None = None
    """How long until it is: 1-6 months, say."""
    hours: Hours | None = None
    """Own hours to take it off, clean and pack it, sold or not."""
    fee: Ratio | None = None
    """What selling it costs, as a share of the price; left out, the general rate."""
    seat: Id = ""
    """The seat it sits in, for a unit: it is not left where that is what one takes."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Leftovers:
    """What is left of a donor machine, and what it brings."""

    parts: Mapping[str, LeftPart] = field(default_factory=dict)
    """What is sold by part: three to six bring most of the money."""
    hours: Hours | None = None
    """Own hours to take the rest apart and be rid of it."""
    scrap: Share | None = None
    """How much of the weight goes for scrap."""
    origin: Origin = NO_ORIGIN
    where: Where = NOWHERE


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
    leftovers: Leftovers | None = None
    """What is left of one that is bought for a unit, and what it brings."""
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
class PlateLimits:
    """What a made plate has to keep to. Its bolts go through from one side, sunk, and are tapped into it from the other."""

    material: str
    """What it is made of."""
    land: Length
    """The least metal between the edges of two holes."""
    edge: Times
    """The least from a hole's centre to a pilot or the outer edge, in bolt diameters."""
    engagement: Times
    """The least of thread in the plate, in bolt diameters."""
    head: Times
    """How wide a sunk head's hole is, in bolt diameters."""
    head_depth: Times
    """How deep a sunk head is, in bolt diameters."""
    floor: Times
    """The least metal left under a sunk head, in bolt diameters."""
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
    reach: Length | None = None
    """The largest gap it mends, for a length or a stack-up; left out: any."""
    makes_thick: Length | None = None
    """For a made plate: the thickness it can have."""
    plate: PlateLimits | None = None
    """For a plate that carries both faces' holes: what it has to keep to. Left out, it is taken that it can be made."""
    needs: tuple[str, ...] = ()
    """Figures that must be known before it is ordered, as stack-up names."""
    caution: str = ""
    """What to print beside it."""
    origin: Origin = NO_ORIGIN
    where: Where = NOWHERE
