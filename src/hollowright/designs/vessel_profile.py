"""A vessel's profile in plain numbers: its outside, the lines inside it, what lies below a level.

Heights are measured from the table. Mouth and levels are flat: the metal is cut there by a plane,
as it is when the rim is trued on a flat.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass, field
from functools import cached_property
from itertools import pairwise

from hollowright.designs.vessel_lines import Points, below, heading, parallel, reached_along, volume
from hollowright.shapes.curves import Curve, Line, Point
from hollowright.shapes.developments import meridian
from hollowright.shapes.developments.tracing import hermite
from hollowright.shapes.outline import polygon

FINE = 1e-4  # chords of a curve that is reckoned with lie no further off than this [mm]
DRAWN = 0.01  # and those of a drawn body than this [mm]
AXIS = 1e-3  # a drawn line that begins so near the axis begins on it [mm]


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
        inside = below(self.drawn_inside(thickness), self.height)
        return (*self.drawn, *reversed(inside))

    def drawn_inside(self, depth: float) -> Points:
        """The line at a depth [mm] as near as a picture wants.

        Its own chords' parallel; the fine line thinned out where a corner cuts whole chords away.
        """
        try:
            return parallel(self.drawn, depth)
        except ValueError:
            from hollowright.shapes.polygons import thinned

            return thinned(self.inside(depth), DRAWN)

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


def through(points: Sequence[Point]) -> Profile:
    """A profile bent evenly through its points: a level base stays straight, a bottom is round."""
    if len(points) < 3:
        return from_points(points)
    low = min(z for _, z in points)
    moved = tuple((r, z - low) for r, z in points)
    _check(moved)
    flat = moved[0][1] == moved[1][1]
    wall = moved[1:] if flat else moved
    reached = reached_along(wall)
    ways = [heading(wall, reached, i) for i in range(len(wall))] if len(wall) > 2 else []
    if ways and not flat:
        ways[0] = (1.0, 0.0)
    curves: list[Curve] = [Line(*moved[:2])] if flat else []
    for (a, b), ends in zip(pairwise(wall), pairwise(ways or [(0.0, 0.0)] * 2), strict=True):
        size = math.dist(a, b)
        (x, y), (x1, y1) = ends
        bent = hermite(a, (x * size, y * size), b, (x1 * size, y1 * size))
        curves.append(bent if ways else Line(a, b))
    return from_curves(curves)


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
