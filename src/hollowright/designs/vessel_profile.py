"""A vessel's profile in plain numbers: its outside, the lines inside it, what lies below a level.

Heights are measured from the table. Mouth and levels are flat: the metal is cut there by a plane,
as it is when the rim is trued on a flat. A line is its points in (radius, height) [mm], from the
axis, or the foot, up to the rim.
"""

from __future__ import annotations

import math
from bisect import bisect_left
from collections.abc import Callable, Sequence
from dataclasses import dataclass, field
from functools import cached_property
from itertools import accumulate, pairwise

from hollowright.shapes.curves import Curve, Line, Point
from hollowright.shapes.developments import meridian
from hollowright.shapes.developments.tracing import hermite
from hollowright.shapes.outline import polygon

Points = tuple[Point, ...]

FINE = 1e-4  # chords of a curve that is reckoned with lie no further off than this [mm]
DRAWN = 0.01  # and those of a drawn body than this [mm]
AXIS = 1e-3  # a drawn line that begins so near the axis begins on it [mm]
KINK = math.radians(5)  # a turn of more than this between two chords is a corner
SIDE = 1.0  # a chord longer than this is a straight side, not part of a curve [mm]
FOLLOWED = 3e-4  # how near cubics follow the points of a smooth stretch [mm]
MOST_SIDES = 64


@dataclass(frozen=True)
class Profile:
    """The outside of a vessel from the axis at its bottom to its mouth.

    fine: its points, a curve's as near as reckoning wants; drawn: as near as a picture wants.
    """

    fine: Points
    drawn: Points
    _inside: dict[float, Points] = field(default_factory=dict, repr=False, compare=False)

    @property
    def curved(self) -> bool:
        """Whether the points follow a curve."""
        return len(self.fine) > len(self.drawn)

    @property
    def height(self) -> float:
        """Outside height [mm]."""
        return self.fine[-1][1]

    @property
    def mouth(self) -> float:
        """Outside radius of the mouth [mm]."""
        return self.fine[-1][0]

    @cached_property
    def widest(self) -> float:
        """Greatest outside radius [mm]."""
        return max(r for r, _ in self.fine)

    @property
    def flat_base(self) -> float:
        """Radius of the flat that it stands on [mm], 0 where its bottom is round or hollow."""
        return self.wall[0][0] if self.fine[0][1] <= 1e-6 else 0.0

    @property
    def wall(self) -> Points:
        """The points from the flat base's edge up."""
        first = next(i for i, (_, z) in enumerate(self.fine) if z > 1e-6)
        return self.fine[first - 1 :]

    @cached_property
    def steepest(self) -> float:
        """Greatest angle of the wall from the flat [rad]: over 90 degrees where it closes in."""
        return max(math.atan2(b[1] - a[1], b[0] - a[0]) for a, b in pairwise(self.drawn))

    def inside(self, depth: float) -> Points:
        """The line at a depth under the outside [mm]; ValueError where the form is too tight."""
        if depth not in self._inside:
            self._inside[depth] = parallel(self.fine, depth)
        return self._inside[depth]

    def filled(self, depth: float, level: float) -> float:
        """Volume inside the line at a depth, up to a level [mm3]."""
        return volume(below(self.inside(depth), level))

    def section(self, thickness: float) -> Points:
        """Half the section of the metal, its rim flat: up the outside, down the inside [mm]."""
        inside = below(parallel(self.drawn, thickness), self.height)
        return (*self.drawn, *reversed(inside))

    def uprights(self, least: float) -> tuple[tuple[float, float, float], ...]:
        """Radius, lower and upper height [mm] of every upright stretch of `least` or more."""
        return tuple(
            (a[0], a[1], b[1])
            for a, b in pairwise(self.drawn)
            if abs(a[0] - b[0]) < 1e-6 and b[1] - a[1] >= least
        )


def from_points(points: Sequence[Point]) -> Profile:
    """A profile of straight sides; ValueError tells what a turned vessel can't have."""
    if len(points) < 3:
        raise ValueError("it needs three points at least: the middle of the base, its edge, a rim")
    low = min(z for _, z in points)
    moved = tuple((r, z - low) for r, z in points)
    _check(moved)
    return Profile(moved, moved)


def from_curves(curves: Sequence[Curve]) -> Profile:
    """A profile of lines and curves, each beginning where the one before ends; else ValueError."""
    if abs(curves[0].start[0]) > AXIS:
        raise ValueError("it must begin on the axis: the bottom is part of the form")
    fine, drawn = (_points(curves, tolerance) for tolerance in (FINE, DRAWN))
    _check(drawn)
    return Profile(fine, drawn)


def _points(curves: Sequence[Curve], tolerance: float) -> Points:
    found = [(0.0, curves[0].start[1])]
    for curve in curves:
        if isinstance(curve, Line):
            found.append(curve.end)
        else:
            found += meridian.along([curve]).points(tolerance)[1:]
    return tuple(found)


def _check(points: Points) -> None:
    if points[0][0] > 0:
        raise ValueError("it must begin on the axis, at radius 0: the bottom is part of the form")
    if any(a == b for a, b in pairwise(points)):
        raise ValueError("two points in turn are alike")
    if points[-1][0] < 0.5:
        raise ValueError("it has no mouth: its last point must be the rim, away from the axis")
    if any(r < 1e-6 for r, _ in points[1:]):
        raise ValueError("it comes back to the axis")
    if points[-1][1] < max(z for _, z in points) - 1e-6 or points[-1][1] <= 0:
        raise ValueError("its last point must be the rim, the highest of all")
    from hollowright.shapes.polygons import crossing

    at = crossing(polygon([*points, (0.0, points[-1][1])]))
    if at:
        raise ValueError(f"it crosses itself near radius {at[0]:.2f}, height {at[1]:.2f} mm")


# ---- lines


def parallel(points: Points, depth: float) -> Points:
    """The line at a depth to the left [mm], corners mitred; ValueError where it is too tight."""
    return meridian.through(points).inside(depth).points() if depth else points


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
    (x, y), (x1, y1) = (_heading(run, reached, k) for k in (i, j))
    cubic = hermite(run[i], (x * size, y * size), run[j], (x1 * size, y1 * size))
    looks = {i + (j - i) * part // 4 for part in (1, 2, 3)} - {i, j}
    near = (math.dist(cubic.at((reached[k] - reached[i]) / size), run[k]) for k in looks)
    if j - i < 4 or all(off <= FOLLOWED for off in near):
        return [cubic]
    middle = (i + j) // 2
    return [*_followed(run, reached, i, middle), *_followed(run, reached, middle, j)]


def _heading(points: Points, reached: Sequence[float], i: int) -> Point:
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


# ---- skins


@dataclass(frozen=True)
class Skin:
    """Three numbers that tell a skin's metal at any thickness t: a t - b t^2 / 2 + c t^3 / 3 [mm3].

    area: a, of its outside [mm2]; closing: b, how fast the area shrinks going in [mm]; slowing: c,
    how that slows [1]. Exact where sides are straight.
    """

    area: float
    closing: float
    slowing: float


def skin_of(metal: Callable[[float], float], thickness: float) -> Skin:
    """The numbers of a skin, from its metal [mm3] at one, two and three thirds of a thickness."""
    third = thickness / 3
    one, two, three = (metal(third * k) / (third * k) for k in (1, 2, 3))
    c = 3 * (three - 2 * two + one) / (2 * third * third)
    b = -2 * ((two - one) / third - c * third)
    return Skin(one + b * third / 2 - c * third * third / 3, b, c)
