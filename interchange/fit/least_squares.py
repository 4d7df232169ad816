"""Two faces laid over each other as well as they go: a reading aid where nothing centres them, and not a fit.

The turn and shift that leave the least sum of squares between paired holes have a closed form in the plane (Umeyama 1991, without
scale, two dimensions: from memory): shift the middles of the paired holes together, and turn by the angle of the summed products.
Which hole pairs with which is found by turns: pair for the least sum of squares, lay over, pair again.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from typing import NamedTuple

from interchange.catalog.geometry import Hole
from interchange.fit.clocking import WHOLE_TURN, Clock, turned

MOST_ROUNDS = 20  # the sum of squares falls with every round, and there are only so many pairings
ANGLE_DIGITS = 6
SAME_MM2 = 1e-9


class Overlay(NamedTuple):
    """How the second face lies best on the first."""

    x_mm: float
    """How far right it is shifted, after the turn."""
    y_mm: float
    """How far up."""
    turn_deg: float
    """How far it is turned clockwise."""
    worst_mm: float
    """Between the centres of the worst pair."""
    mean_square_mm: float
    """Root of the mean square over the pairs."""
    pairs: tuple[tuple[int, int], ...]
    """Holes of the first face with holes of the second; where one has more, the others are left over."""


def least_squares_offset(a: Sequence[Hole], b: Sequence[Hole], clock: Clock) -> Overlay | None:
    """The shift and turn of face ``b`` that lays it best over ``a``; None where either has no holes.

    It starts at the turns a joint allows, or wherever any two holes meet where it may turn, and ends at the best it comes to.
    """
    if not a or not b:
        return None
    best: tuple[float, Overlay] | None = None
    for start in _starts(a, b, clock):
        square, overlay = _settled(a, b, start)
        if best is None or square < best[0] - SAME_MM2:
            best = square, overlay
    return best[1] if best else None


def _starts(a: Sequence[Hole], b: Sequence[Hole], clock: Clock) -> Iterator[float]:
    if clock.centres_deg is not None:
        yield from clock.centres_deg
        return
    middles = [_middle([(hole.x_mm, hole.y_mm) for hole in face]) for face in (a, b)]
    angles = [
        [math.degrees(math.atan2(hole.x_mm - x, hole.y_mm - y)) for hole in face]
        for face, (x, y) in zip((a, b), middles, strict=True)
    ]
    yield from sorted({round((one - other) % WHOLE_TURN, ANGLE_DIGITS) for one in angles[0] for other in angles[1]})


def _middle(places: Sequence[tuple[float, float]]) -> tuple[float, float]:
    return sum(x for x, _ in places) / len(places), sum(y for _, y in places) / len(places)


def _settled(a: Sequence[Hole], b: Sequence[Hole], start_deg: float) -> tuple[float, Overlay]:
    """(sum of squares, overlay) that pairing and laying over by turns comes to."""
    turn, shift = start_deg, (0.0, 0.0)
    if len(a) == len(b):
        here, there = _middle([(hole.x_mm, hole.y_mm) for hole in a]), _middle([turned(hole, turn) for hole in b])
        shift = here[0] - there[0], here[1] - there[1]
    before: list[tuple[int, int]] = []
    for _ in range(MOST_ROUNDS):
        places = [(x + shift[0], y + shift[1]) for x, y in (turned(hole, turn) for hole in b)]
        pairs = _paired(a, places)
        if pairs == before:
            break
        before = pairs
        turn, shift = _laid_over([a[i] for i, _ in pairs], [b[j] for _, j in pairs])
    apart = [_apart(a[i], b[j], turn, shift) for i, j in before]
    square = sum(each**2 for each in apart)
    return square, Overlay(*shift, turn % WHOLE_TURN, max(apart), math.sqrt(square / len(apart)), tuple(before))


def _apart(one: Hole, other: Hole, turn_deg: float, shift: tuple[float, float]) -> float:
    x, y = turned(other, turn_deg)
    return math.hypot(x + shift[0] - one.x_mm, y + shift[1] - one.y_mm)


def _laid_over(a: Sequence[Hole], b: Sequence[Hole]) -> tuple[float, tuple[float, float]]:
    """(turn clockwise in degrees, shift) of the second that leaves the least sum of squares to the first, pair by pair."""
    (ax, ay), (bx, by) = (_middle([(hole.x_mm, hole.y_mm) for hole in face]) for face in (a, b))
    along = across = 0.0
    for one, other in zip(a, b, strict=True):
        x, y, u, v = one.x_mm - ax, one.y_mm - ay, other.x_mm - bx, other.y_mm - by
        along += x * u + y * v
        across += x * v - y * u
    turn = math.degrees(math.atan2(across, along))
    cosine, sine = math.cos(math.radians(turn)), math.sin(math.radians(turn))
    return turn, (ax - (bx * cosine + by * sine), ay - (by * cosine - bx * sine))


def _paired(a: Sequence[Hole], places: Sequence[tuple[float, float]]) -> list[tuple[int, int]]:
    """The pairing with the least sum of squares, every hole of the smaller face paired (the Hungarian method with potentials)."""
    cost = [[(hole.x_mm - x) ** 2 + (hole.y_mm - y) ** 2 for x, y in places] for hole in a]
    if len(a) <= len(places):
        return _assigned(cost)
    return sorted((i, j) for j, i in _assigned([list(column) for column in zip(*cost, strict=True)]))


def _assigned(cost: Sequence[Sequence[float]]) -> list[tuple[int, int]]:
    """(row, column) of the least sum; there are no more rows than columns."""
    rows, columns = len(cost), len(cost[0])
    row_price, column_price = [0.0] * (rows + 1), [0.0] * (columns + 1)
    row_of, came_by = [0] * (columns + 1), [0] * (columns + 1)
    for row in range(1, rows + 1):
        row_of[0], column = row, 0
        least, seen = [math.inf] * (columns + 1), [False] * (columns + 1)
        while row_of[column]:
            seen[column] = True
            here, step, following = row_of[column], math.inf, 0
            for j in range(1, columns + 1):
                if not seen[j]:
                    spare = cost[here - 1][j - 1] - row_price[here] - column_price[j]
                    if spare < least[j]:
                        least[j], came_by[j] = spare, column
                    if least[j] < step:
                        step, following = least[j], j
            for j in range(columns + 1):
                if seen[j]:
                    row_price[row_of[j]] += step
                    column_price[j] -= step
                else:
                    least[j] -= step
            column = following
        while column:
            row_of[column] = row_of[came_by[column]]
            column = came_by[column]
    return sorted((row_of[j] - 1, j - 1) for j in range(1, columns + 1) if row_of[j])
