"""Any ruled strip between two closed curves, unrolled as a chain of triangles, its error stated."""

from __future__ import annotations

import math
from bisect import bisect_right
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from itertools import pairwise

from hollowright.shapes.curves import Point
from hollowright.shapes.developments.tracing import without_repeats
from hollowright.shapes.outline import Outline, polygon
from hollowright.shapes.space import Vector, add, cross, dot

Rail = Callable[[float], Vector]
"""A closed curve in space [mm] from the share 0 to 1 of the way round."""

Rung = tuple[int, int]
"""Numbers of a low point and of the high point that a straight line joins it to."""

FEWEST, MOST = 16, 4096


@dataclass(frozen=True, slots=True)
class Ruled:
    """A strip as a chain of triangles: exact for the triangles, near for the strip [mm].

    `low` and `high` are the rails' points from the seam round to the seam again; `rungs` the
    straight lines between them in order, each sharing one end with the next. `edge_defect` is how
    much a rail is longer than its chords, at most. Parameters: `along`, number of the rung and
    the share of the way to the next; `share`, 0 on the low rail to 1 on the high one.
    """

    low: tuple[Vector, ...]
    high: tuple[Vector, ...]
    rungs: tuple[Rung, ...]
    flat_low: tuple[Point, ...]
    flat_high: tuple[Point, ...]
    edge_defect: float = 0.0

    @property
    def area(self) -> float:
        """Area of the triangles, in space as in the flat [mm2]."""
        return sum(_area(*self._triangle(k)) for k in range(len(self.rungs) - 1))

    @property
    def stretch(self) -> float:
        """How much longer the flat is along its middle than the strip [mm].

        0 for a strip that bends without stretching (a cylinder, a cone). More points don't lessen
        what a twisted strip shows here: by that much its middle must be shrunk, or its rails
        stretched, when it is formed.
        """
        whole = [self._middle(k) for k in range(0, len(self.rungs), 2)]
        flat = [self.flat(k, 0.5) for k in range(0, len(self.rungs), 2)]
        return sum(math.dist(a, b) for a, b in pairwise(flat)) - sum(
            math.dist(a, b) for a, b in pairwise(whole)
        )

    def flat(self, along: float, share: float) -> Point:
        """The point of the flat [mm]."""
        (i, j), (k, m), part = self._near(along)
        a, b = _mix(self.flat_low[i], self.flat_low[k], part), self.flat_high
        return _mix(a, _mix(b[j], b[m], part), share)

    def space(self, along: float, share: float) -> Vector:
        """The point on the triangles [mm]."""
        (i, j), (k, m), part = self._near(along)
        a = _between(self.low[i], self.low[k], part)
        return _between(a, _between(self.high[j], self.high[m], part), share)

    def surface(self, point: Point) -> tuple[float, float]:
        """Parameters (along, share) of a point of the flat; ValueError for one outside."""
        for number, ((i, j), (k, m)) in enumerate(pairwise(self.rungs)):
            onto_low = j == m
            shared = self.flat_high[j] if onto_low else self.flat_low[i]
            rail = self.flat_low if onto_low else self.flat_high
            start, end = (rail[i], rail[k]) if onto_low else (rail[j], rail[m])
            weights = _weights(point, shared, start, end)
            if weights and min(weights) >= -1e-9:
                out, first, second = weights
                part = second / (first + second) if first + second > 0 else 0.0
                return (number + part, out if onto_low else 1 - out)
        raise ValueError(f"the point {point} lies outside the flat")

    def points(self) -> tuple[Point, ...]:
        """The flat as a polygon, anticlockwise; the triangles have no other outline."""
        return without_repeats((*self.flat_low, *self.flat_high[::-1]))

    def outline(self) -> Outline:
        """The flat's outline, of lines."""
        return polygon(self.points())

    def _near(self, along: float) -> tuple[Rung, Rung, float]:
        number = min(max(int(along), 0), len(self.rungs) - 2)
        return self.rungs[number], self.rungs[number + 1], along - number

    def _middle(self, rung: int) -> Vector:
        i, j = self.rungs[rung]
        return _between(self.low[i], self.high[j], 0.5)

    def _triangle(self, number: int) -> tuple[Vector, Vector, Vector]:
        (i, j), (k, m) = self.rungs[number], self.rungs[number + 1]
        return (self.low[i], self.high[j], self.low[k] if j == m else self.high[m])


def ruled(low: Rail, high: Rail, tolerance: float = 0.01) -> Ruled:
    """The strip between two closed rails, straight lines joining equal shares of them.

    The points are doubled until neither rail is longer than its chords by more than `tolerance`
    [mm]; `edge_defect` tells by how much it still is. ValueError where the tolerance isn't
    positive, a rail isn't closed, or 4096 points aren't enough.
    """
    if not tolerance > 0:
        raise ValueError(f"tolerance must be more than 0 mm, not {tolerance}")
    for name, rail in (("low", low), ("high", high)):
        if math.dist(rail(0.0), rail(1.0)) > 1e-6:
            raise ValueError(f"the {name} rail isn't closed: {rail(0.0)} to {rail(1.0)}")
    count = FEWEST
    before = [_around(rail, count) for rail in (low, high)]
    while count <= MOST:
        count *= 2
        after = [_around(rail, count) for rail in (low, high)]
        # Halving a smooth rail's chords leaves a quarter of what they lack.
        defect = max(_length(b) - _length(a) for a, b in zip(before, after, strict=True)) / 3
        if defect <= tolerance:
            return _flattened(after[0], after[1], _straight(after[0], after[1]), defect)
        before = after
    raise ValueError(f"{MOST} points don't bring the rails within {tolerance} mm")


def ruled_points(low: Sequence[Vector], high: Sequence[Vector]) -> Ruled:
    """The strip between two closed polygons, the first point of each not repeated at its end.

    As many points on both: straight lines join equal numbers, and the shorter diagonal. Otherwise
    the chain goes on along whichever rail gives the shorter next line, from first to last points.
    The triangles have exactly these corners: no defect. ValueError for fewer than three points.
    """
    if min(len(low), len(high)) < 3:
        raise ValueError(f"a rail needs three points at least, not {min(len(low), len(high))}")
    below, above = [*low, low[0]], [*high, high[0]]
    rungs = _straight(below, above) if len(low) == len(high) else _shortest(below, above)
    return _flattened(below, above, rungs, 0.0)


def at_shares(points: Sequence[Vector]) -> Rail:
    """A closed polygon as a rail, by shares of its length: for rails of unlike point counts."""
    closed = [*points, points[0]]
    reached = [0.0]
    for a, b in pairwise(closed):
        reached.append(reached[-1] + math.dist(a, b))

    def rail(share: float) -> Vector:
        place = share * reached[-1]
        number = min(max(bisect_right(reached, place) - 1, 0), len(closed) - 2)
        side = reached[number + 1] - reached[number]
        return _between(closed[number], closed[number + 1], (place - reached[number]) / side)

    return rail


def _around(rail: Rail, count: int) -> list[Vector]:
    return [rail(i / count) for i in range(count)] + [rail(0.0)]


def _length(points: Sequence[Vector]) -> float:
    return sum(math.dist(a, b) for a, b in pairwise(points))


def _straight(low: Sequence[Vector], high: Sequence[Vector]) -> list[Rung]:
    """Equal numbers joined, and in each four-sided field the shorter diagonal."""
    rungs: list[Rung] = [(0, 0)]
    for i in range(len(low) - 1):
        onto_low = math.dist(low[i + 1], high[i]) <= math.dist(low[i], high[i + 1])
        rungs += [(i + 1, i) if onto_low else (i, i + 1), (i + 1, i + 1)]
    return rungs


def _shortest(low: Sequence[Vector], high: Sequence[Vector]) -> list[Rung]:
    rungs: list[Rung] = [(0, 0)]
    i, j = 0, 0
    while (i, j) != (len(low) - 1, len(high) - 1):
        onto_low = j == len(high) - 1 or (
            i < len(low) - 1 and math.dist(low[i + 1], high[j]) <= math.dist(low[i], high[j + 1])
        )
        i, j = (i + 1, j) if onto_low else (i, j + 1)
        rungs.append((i, j))
    return rungs


def _flattened(
    low: Sequence[Vector], high: Sequence[Vector], rungs: Sequence[Rung], defect: float
) -> Ruled:
    """The triangles laid down one beside the other, then turned so that the middle is upright."""
    first = math.dist(low[0], high[0])
    if first == 0:
        raise ValueError("the rails touch at the seam")
    below, above = [(0.0, 0.0)], [(0.0, first)]
    for (i, j), (k, m) in pairwise(rungs):
        new = low[k] if j == m else high[m]
        placed = _beside(low[i], high[j], new, below[-1], above[-1])
        (below if j == m else above).append(placed)
    i, j = rungs[len(rungs) // 2]
    foot, head = below[i], above[j]
    size = math.dist(foot, head)
    c, s = (head[1] - foot[1]) / size, (head[0] - foot[0]) / size

    def upright(point: Point) -> Point:
        x, y = point[0] - foot[0], point[1] - foot[1]
        return (c * x - s * y, s * x + c * y)

    flats = [tuple(upright(point) for point in rail) for rail in (below, above)]
    return Ruled(tuple(low), tuple(high), tuple(rungs), flats[0], flats[1], defect)


def _beside(low: Vector, high: Vector, new: Vector, foot: Point, head: Point) -> Point:
    """Where a triangle's new corner lies in the flat, to the right of its laid-down side."""
    side, out = add(high, low, -1), add(new, low, -1)
    square = dot(side, side)
    if square == 0:
        raise ValueError(f"the rails touch at {low}")
    along = dot(out, side) / square
    across = math.sqrt(dot(*[cross(side, out)] * 2)) / square
    dx, dy = head[0] - foot[0], head[1] - foot[1]
    return (foot[0] + along * dx + across * dy, foot[1] + along * dy - across * dx)


def _area(a: Vector, b: Vector, c: Vector) -> float:
    square = cross(add(b, a, -1), add(c, a, -1))
    return math.sqrt(dot(square, square)) / 2


def _weights(point: Point, a: Point, b: Point, c: Point) -> tuple[float, float, float] | None:
    """Shares of a triangle's corners in a point; None for a triangle without area."""
    whole = _turn(a, b, c)
    if whole == 0:
        return None
    return (
        _turn(point, b, c) / whole,
        _turn(a, point, c) / whole,
        _turn(a, b, point) / whole,
    )


def _turn(a: Point, b: Point, c: Point) -> float:
    return (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0])


def _mix(a: Point, b: Point, share: float) -> Point:
    return (a[0] + share * (b[0] - a[0]), a[1] + share * (b[1] - a[1]))


def _between(a: Vector, b: Vector, share: float) -> Vector:
    return add(a, add(b, a, -1), share)
