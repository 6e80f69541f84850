"""Lines of a turned form as points: parallels, cuts at a level, straight sides, cubics, volume.

A line is its points in (radius, height) [mm], from the axis, or the foot, up to the rim.
"""

from __future__ import annotations

import math
from bisect import bisect_left
from collections.abc import Sequence
from itertools import accumulate, pairwise

from hollowright.shapes.curves import Curve, Line, Point
from hollowright.shapes.developments import meridian
from hollowright.shapes.developments.tracing import hermite

Points = tuple[Point, ...]

KINK = math.radians(5)  # a turn of more than this between two chords is a corner
SIDE = 1.0  # a chord longer than this is a straight side, not part of a curve [mm]
FOLLOWED = 3e-4  # how near cubics follow the points of a smooth stretch [mm]
MOST_SIDES = 64


def parallel(points: Points, depth: float) -> Points:
    """The line at a depth to the left [mm], corners mitred; ValueError where it is too tight."""
    if not depth:
        return points
    stretches = runs(points)
    if all(len(run) == 2 for run in stretches):
        return meridian.through(points).inside(depth).points()
    chains = [_shifted(run, depth) for run in stretches]
    line = list(chains[0])
    for chain in chains[1:]:
        line = _joined(line, chain, depth)
    (r, z), (r1, z1) = line[:2]
    if r1 - r > 0:
        line[0] = (0.0, z - r * (z1 - z) / (r1 - r))
    return tuple(line)


def _shifted(run: Points, depth: float) -> list[Point]:
    """A smooth stretch moved to its left, chord by chord; ValueError where it is tighter."""
    ways = [_unit(a, b) for a, b in pairwise(run)]
    found = []
    for i, (r, z) in enumerate(run):
        (x, y), (x1, y1) = ways[max(i - 1, 0)], ways[min(i, len(ways) - 1)]
        reach = depth / (1 + x * x1 + y * y1)
        found.append((r - reach * (y + y1), z + reach * (x + x1)))
    for (a, b), (x, y) in zip(pairwise(found), ways, strict=True):
        if (b[0] - a[0]) * x + (b[1] - a[1]) * y <= 0:
            raise ValueError(f"it is bent tighter than {depth:.2f} mm near {_place(a)}")
    return found


def _joined(line: list[Point], chain: list[Point], depth: float) -> list[Point]:
    """Two shifted stretches cut where they cross, or led on straight until they meet."""
    if math.dist(line[-1], chain[0]) < 1e-6:
        return [*line, *chain[1:]]
    for i in range(len(line) - 1, 0, -1):
        for j in range(1, len(chain)):
            at = _crossing(line[i - 1], line[i], chain[j - 1], chain[j])
            if at:
                return [*line[:i], at, *chain[j:]]
            if math.dist(chain[j], chain[0]) > 20 * depth:
                break
        if math.dist(line[i - 1], line[-1]) > 20 * depth:
            break
    at = _led_on(line[-2], line[-1], chain[0], chain[1])
    if at is None:
        raise ValueError(
            f"it has a corner that {depth:.2f} mm can't follow near {_place(line[-1])}"
        )
    return [*line, at, *chain]


def _crossing(a: Point, b: Point, c: Point, d: Point) -> Point | None:
    """Where the side from a to b crosses that from c to d."""
    turn = (b[0] - a[0]) * (d[1] - c[1]) - (b[1] - a[1]) * (d[0] - c[0])
    if not turn:
        return None
    s = ((c[0] - a[0]) * (d[1] - c[1]) - (c[1] - a[1]) * (d[0] - c[0])) / turn
    t = ((c[0] - a[0]) * (b[1] - a[1]) - (c[1] - a[1]) * (b[0] - a[0])) / turn
    if not (0 <= s <= 1 and 0 <= t <= 1):
        return None
    return (a[0] + s * (b[0] - a[0]), a[1] + s * (b[1] - a[1]))


def _led_on(a: Point, b: Point, c: Point, d: Point) -> Point | None:
    """Where the side from a on through b meets the one from d back through c."""
    (x, y), (x1, y1) = _unit(a, b), _unit(d, c)
    turn = x * y1 - y * x1
    if not turn:
        return None
    s = ((c[0] - b[0]) * y1 - (c[1] - b[1]) * x1) / turn
    t = ((c[0] - b[0]) * y - (c[1] - b[1]) * x) / turn
    return (b[0] + s * x, b[1] + s * y) if s >= 0 and t >= 0 else None


def _unit(a: Point, b: Point) -> Point:
    size = math.dist(a, b)
    return ((b[0] - a[0]) / size, (b[1] - a[1]) / size)


def _place(point: Point) -> str:
    return f"radius {point[0]:.1f}, height {point[1]:.1f} mm"


def below(points: Points, level: float) -> Points:
    """A line up to a level, cut where it last comes up to it, or led on straight to it."""
    last = len(points) - 1
    while last > 1 and points[last - 1][1] > level:
        last -= 1
    (r, z), (r1, z1) = points[last - 1], points[last]
    if z1 - z <= 1e-9:
        return points  # a level rim ends as it is
    end = (r + (r1 - r) * (level - z) / (z1 - z), level)
    return (*points[:last], end) if end != points[last - 1] else points[:last]


def above(points: Points, level: float) -> Points:
    """A line from where it first comes up to a level."""
    first = next(i for i, (_, z) in enumerate(points) if z >= level)
    if first == 0 or points[first][1] == level:
        return points[first:]
    (r, z), (r1, z1) = points[first - 1], points[first]
    return ((r + (r1 - r) * (level - z) / (z1 - z), level), *points[first:])


def length(points: Points) -> float:
    """Length of a line [mm]."""
    return math.fsum(math.dist(a, b) for a, b in pairwise(points))


def volume(points: Points) -> float:
    """Volume between a line turned once and the axis [mm3]: the cone frusta under its sides."""
    third = math.fsum(
        (a[0] * a[0] + a[0] * b[0] + b[0] * b[0]) * (b[1] - a[1]) for a, b in pairwise(points)
    )
    return math.pi / 3 * third


def runs(points: Points) -> tuple[Points, ...]:
    """A line's straight sides and its smooth stretches, in order."""
    ways = [(b[0] - a[0], b[1] - a[1]) for a, b in pairwise(points)]
    side = [math.hypot(*way) > SIDE for way in ways]
    stops = [
        i
        for i in range(1, len(ways))
        if side[i - 1] or side[i] or _turn(ways[i - 1], ways[i]) > KINK
    ]
    return tuple(points[i : j + 1] for i, j in pairwise([0, *stops, len(ways)]))


def straightened(run: Points, off: float) -> Points:
    """The fewest even sides that stay within a distance [mm] of a smooth stretch: their ends."""
    count = 1
    while count < MOST_SIDES:
        stops = _even(run, count)
        if all(_bulge(run[i : j + 1]) <= off for i, j in pairwise(stops)):
            return tuple(run[i] for i in stops)
        count += 1
    raise ValueError(f"{MOST_SIDES} sides don't come within {off:g} mm of the profile")


def _even(run: Points, count: int) -> list[int]:
    """Numbers of points of a stretch that lie about even lengths apart, its ends among them."""
    reached = reached_along(run)
    wanted = (reached[-1] * k / count for k in range(count))
    inner = {bisect_left(reached, want - 1e-9) for want in wanted}
    return sorted({*inner, len(run) - 1})


def _bulge(points: Points) -> float:
    (r, z), (r1, z1) = points[0], points[-1]
    size = math.hypot(r1 - r, z1 - z)
    return max(abs((r1 - r) * (q - z) - (z1 - z) * (p - r)) / size for p, q in points)


def reached_along(points: Points) -> list[float]:
    """Length along a line at each of its points [mm]."""
    return [0.0, *accumulate(math.dist(a, b) for a, b in pairwise(points))]


def _turn(a: Point, b: Point) -> float:
    return abs(math.atan2(a[0] * b[1] - a[1] * b[0], a[0] * b[0] + a[1] * b[1]))


def cubics(run: Points) -> list[Curve]:
    """A smooth stretch as cubics close to its points; two points as the line they are."""
    if len(run) == 2:
        return [Line(*run)]
    return _followed(run, reached_along(run), 0, len(run) - 1)


def _followed(run: Points, reached: Sequence[float], i: int, j: int) -> list[Curve]:
    """Points i to j of a stretch by one cubic, or by as many as keep near them."""
    size = reached[j] - reached[i]
    (x, y), (x1, y1) = (heading(run, reached, k) for k in (i, j))
    cubic = hermite(run[i], (x * size, y * size), run[j], (x1 * size, y1 * size))
    looks = {i + (j - i) * part // 4 for part in (1, 2, 3)} - {i, j}
    near = (math.dist(cubic.at((reached[k] - reached[i]) / size), run[k]) for k in looks)
    if j - i < 4 or all(off <= FOLLOWED for off in near):
        return [cubic]
    middle = (i + j) // 2
    return [*_followed(run, reached, i, middle), *_followed(run, reached, middle, j)]


def heading(points: Points, reached: Sequence[float], i: int) -> Point:
    """Unit direction of a smooth run at a point, as on a parabola through it and its neighbours."""
    i0 = min(max(i - 1, 0), len(points) - 3)
    s0, s1, s2 = reached[i0 : i0 + 3]
    s = reached[i]
    weights = (
        (2 * s - s1 - s2) / ((s0 - s1) * (s0 - s2)),
        (2 * s - s0 - s2) / ((s1 - s0) * (s1 - s2)),
        (2 * s - s0 - s1) / ((s2 - s0) * (s2 - s1)),
    )
    near = points[i0 : i0 + 3]
    x, y = (sum(w * p[k] for w, p in zip(weights, near, strict=True)) for k in (0, 1))
    size = math.hypot(x, y)
    return (x / size, y / size)
