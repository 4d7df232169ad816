"""What a catalog is made of, from one place. The sentence under each field says what to write; the schema reads it too."""

from __future__ import annotations

from interchange.catalog.figure import Figure
from interchange.catalog.kind import (
    ANY,
    FEATURE_TYPES,
    PATTERN_FEATURE,
    QUANTITY_FEATURES,
    SHAFT_FEATURE,
    TORQUE_FEATURE,
    WORD_FEATURE,
    Altitude,
    Bolts,
    Derived,
    Dimension,
    Factor,
    Failure,
    FeatureType,
    HeightLoss,
    Joint,
    Kind,
    Offer,
    PartSet,
    Proof,
    Rule,
    StackUp,
    Supply,
    WayOut,
    Work,
)
from interchange.catalog.measures import (
    Angle,
    Count,
    Days,
    Hours,
    Id,
    Length,
    Likelihood,
    Mass,
    Money,
    Number,
    Ratio,
    Share,
    Times,
    Torque,
)
from interchange.catalog.shapes import Pattern, Pin, Point, Register, Shaft
from interchange.catalog.things import Adapter, Features, Leftovers, LeftPart, Machine, PlateLimits, Remedy, Seat, Unit, Variant

__all__ = [
    "ANY", "FEATURE_TYPES", "PATTERN_FEATURE", "QUANTITY_FEATURES", "SHAFT_FEATURE", "TORQUE_FEATURE", "WORD_FEATURE",
    "Adapter", "Altitude", "Angle", "Bolts", "Count", "Days", "Derived", "Dimension", "Factor", "Failure", "FeatureType",
    "Features", "Figure", "HeightLoss", "Hours", "Id", "Joint", "Kind", "LeftPart", "Leftovers", "Length", "Likelihood",
    "Machine", "Mass", "Money", "Number", "Offer", "PartSet", "Pattern", "Pin", "PlateLimits", "Point", "Proof", "Ratio",
    "Register", "Remedy", "Rule", "Seat", "Shaft", "Share", "StackUp", "Supply", "Times", "Torque", "Unit", "Variant", "WayOut",
    "Work",
]  # fmt: skip
