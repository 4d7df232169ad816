"""Straight-sided splines of two standards, to tell what readings look like: ISO 14 by table, SAE by proportion.

A likeness is no identity: many hubs of farm machinery follow neither.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

if TYPE_CHECKING:
    from interchange.catalog.model import Shaft

SLACK_MM = 0.15  # as for other diameters read with a caliper

ISO14_LIGHT = (
    (6, 23, 26, 6), (6, 26, 30, 6), (6, 28, 32, 7), (8, 32, 36, 6), (8, 36, 40, 7), (8, 42, 46, 8), (8, 46, 50, 9),
    (8, 52, 58, 10), (8, 56, 62, 10), (8, 62, 68, 12), (10, 72, 78, 12), (10, 82, 88, 12), (10, 92, 98, 14), (10, 102, 108, 16),
    (10, 112, 120, 18),
)  # fmt: skip
ISO14_MEDIUM: tuple[tuple[int, int, int, float], ...] = (
    (6, 11, 14, 3), (6, 13, 16, 3.5), (6, 16, 20, 4), (6, 18, 22, 5), (6, 21, 25, 5), (6, 23, 28, 6), (6, 26, 32, 6),
    (6, 28, 34, 7), (8, 32, 38, 6), (8, 36, 42, 7), (8, 42, 48, 8), (8, 46, 54, 9), (8, 52, 60, 10), (8, 56, 65, 10),
    (8, 62, 72, 12), (10, 72, 82, 12), (10, 82, 92, 12), (10, 92, 102, 14), (10, 102, 112, 16), (10, 112, 125, 18),
)  # fmt: skip
"""Splines, root, outside diameter and width, mm: RoyMech, straight sided spline dimensions (BS 5686, ISO 14-1982). One source,
and the series of a row was told from the order of its page. The page says both 65 and 66 for 8 × 56; 65 is right from memory.
Hubs are H7 on the root; shafts f7 to slide, g7 close, h7 fixed: all far closer than what tells one size from the next."""

SAE_CLASSES = {"A": "permanent", "B": "slides without load", "C": "slides under load"}
SAE_WIDTH = {6: 0.25, 10: 0.156}
SAE_ROOT = {6: {"A": 0.90, "B": 0.85, "C": 0.80}, 10: {"A": 0.91, "B": 0.86, "C": 0.81}}
"""Shares of the outside diameter, by splines and class, from memory, unconfirmed. Mechaface's spline components list 6B at 1 in
and 1-3/8 in and 10B at 1-3/4 in, so the names at least are right."""


class StraightSize(NamedTuple):
    """One size of a standard, mm."""

    name: str
    teeth: int
    minor_mm: float
    major_mm: float
    width_mm: float


ISO14 = tuple(
    StraightSize(f"ISO 14 {teeth}×{minor}×{major}", teeth, minor, major, width)
    for teeth, minor, major, width in (*ISO14_LIGHT, *ISO14_MEDIUM)
)


def sae_sizes(teeth: int, major_mm: float) -> tuple[StraightSize, ...]:
    """The three classes of an SAE spline of an outside diameter; none for other counts than 6 and 10."""
    classes = SAE_ROOT.get(teeth, {})
    return tuple(
        StraightSize(
            f"SAE {teeth}{name} ({SAE_CLASSES[name]}; from memory)",
            teeth,
            share * major_mm,
            major_mm,
            SAE_WIDTH[teeth] * major_mm,
        )
        for name, share in classes.items()
    )


def looks_like(shaft: Shaft) -> tuple[str, ...]:
    """The sizes that a straight-sided spline's readings do not speak against.

    A diameter alone tells a size of ISO 14; SAE goes by proportion, so it takes a width or root diameter to tell one.
    """
    if shaft.form != "straight-sided" or shaft.teeth is None or shaft.major is None:
        return ()
    found = [each for each in ISO14 if each.teeth == shaft.teeth and _near(shaft, each)]
    if shaft.width or shaft.minor:
        found += [each for each in sae_sizes(shaft.teeth, shaft.major.value) if _near(shaft, each)]
    return tuple(each.name for each in found)


def _near(shaft: Shaft, size: StraightSize) -> bool:
    pairs = ((shaft.major, size.major_mm), (shaft.minor, size.minor_mm), (shaft.width, size.width_mm))
    return all(figure.low - SLACK_MM <= mm <= figure.high + SLACK_MM for figure, mm in pairs if figure)
