"""Polygons with fewer corners that lie within the ones they were, so that none is promised more.

Plain rings of corners: the outer edge anticlockwise, holes clockwise, so that the face is on the
left. A corner that stands out is cut off; two that stand in are replaced by where the sides beside
them meet.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence

from hollowright.shapes.curves import Point

Ring = list[Point]

NEVER = math.inf
LITTLE = 1.0
"""A corner that holds no more than this is cut off even where few are left [mm2]."""


def fewer_corners(rings: Sequence[Sequence[Point]], most: int) -> list[Ring]:
    """A polygon with holes by no more corners than `most`, as far as that can be, inside itself.

    What is cut off is always the least that one corner costs; no ring gets fewer than three.
    """
    found = [list(ring) for ring in rings]
    costs = [[_cost(ring, i) for i in range(len(ring))] for ring in found]
    while True:
        price, number, i = min(
            (min(column), number, column.index(min(column))) for number, column in enumerate(costs)
        )
        if price == NEVER or (price > LITTLE and sum(map(len, found)) <= most):
            return found
        ring, column = found[number], costs[number]
        if not _free(found, ring, i):
            column[i] = NEVER
            continue
        _take(ring, column, i)


def _take(ring: Ring, column: list[float], i: int) -> None:
    """Do what was reckoned for corner i, and reckon anew beside it."""
    put = _meeting(ring, i)
    if put is not None:
        ring[i] = put
        gone = (i + 1) % len(ring)
    else:
        gone = i
    del ring[gone], column[gone]
    centre = i - 1 if gone < i else i
    for step in range(-3, 4):
        place = (centre + step) % len(ring)
        column[place] = _cost(ring, place)


def _cost(ring: Ring, i: int) -> float:
    """What it costs to do away with corner i [mm2]."""
    if len(ring) <= 3:
        return NEVER
    before, at, after = _three(ring, i)
    side = _cross(before, at, after)
    if side >= 0:
        return side / 2
    put = _meeting(ring, i)
    return NEVER if put is None else abs(_cross(at, put, after)) / 2


def _meeting(ring: Ring, i: int) -> Point | None:
    """Where the sides before corner i and after the next meet; None if they don't, ahead of both.

    Both corners must stand in.
    """
    before, at, after = _three(ring, i)
    beyond = ring[(i + 2) % len(ring)]
    if _cross(before, at, after) >= 0 or _cross(at, after, beyond) >= 0:
        return None
    ax, ay = at[0] - before[0], at[1] - before[1]
    bx, by = after[0] - beyond[0], after[1] - beyond[1]
    across = ax * by - ay * bx
    if abs(across) <= 1e-12 * math.hypot(ax, ay) * math.hypot(bx, by):
        return None
    t = ((after[0] - at[0]) * by - (after[1] - at[1]) * bx) / across
    u = ((after[0] - at[0]) * ay - (after[1] - at[1]) * ax) / across
    if t <= 0 or u <= 0:
        return None
    return (at[0] + t * ax, at[1] + t * ay)


def _free(rings: Sequence[Ring], ring: Ring, i: int) -> bool:
    """Whether no edge of any ring runs through what is to be cut off at corner i."""
    before, at, after = _three(ring, i)
    put = _meeting(ring, i)
    corners = (before, at, after) if put is None else (at, put, after)
    own = {before, at, after, ring[(i + 2) % len(ring)]}
    new = [(before, after)] if put is None else [(at, put), (put, after)]
    for a, b in _edges_near(rings, corners):
        if a not in own and _within(a, corners):
            return False
        if a in own and b in own:
            continue
        if any(_crosses(a, b, *side) for side in new):
            return False
    return True


def _edges_near(
    rings: Sequence[Ring], corners: tuple[Point, Point, Point]
) -> Iterator[tuple[Point, Point]]:
    """The edges whose boxes reach into the box of three corners."""
    (ax, ay), (bx, by), (cx, cy) = corners
    low_x, high_x = min(ax, bx, cx), max(ax, bx, cx)
    low_y, high_y = min(ay, by, cy), max(ay, by, cy)
    for ring in rings:
        a = ring[-1]
        for b in ring:
            beside = (a[0] < low_x and b[0] < low_x) or (a[0] > high_x and b[0] > high_x)
            above = (a[1] < low_y and b[1] < low_y) or (a[1] > high_y and b[1] > high_y)
            if not beside and not above:
                yield a, b
            a = b


def _three(ring: Ring, i: int) -> tuple[Point, Point, Point]:
    return ring[i - 1], ring[i], ring[(i + 1) % len(ring)]


def _cross(a: Point, b: Point, c: Point) -> float:
    """Twice the area of a triangle; above 0 when it turns left."""
    return (b[0] - a[0]) * (c[1] - b[1]) - (b[1] - a[1]) * (c[0] - b[0])


def _within(point: Point, corners: tuple[Point, Point, Point]) -> bool:
    a, b, c = corners
    sides = (_cross(a, b, point), _cross(b, c, point), _cross(c, a, point))
    return all(side >= 0 for side in sides) or all(side <= 0 for side in sides)


def _crosses(a: Point, b: Point, c: Point, d: Point) -> bool:
    """Whether two lines cross or touch anywhere but where they share an end."""
    if {a, b} & {c, d}:
        return False
    one, two = _cross(a, b, c), _cross(a, b, d)
    three, four = _cross(c, d, a), _cross(c, d, b)
    return one * two <= 0 and three * four <= 0 and not (one == two == 0)
