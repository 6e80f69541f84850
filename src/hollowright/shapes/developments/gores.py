"""Turned forms seamed from flats: gores along the meridian, or cones stacked one on the other."""

from __future__ import annotations

import math
from dataclasses import dataclass
from itertools import pairwise

from hollowright.shapes.curves import Point
from hollowright.shapes.developments.cone import Frustum
from hollowright.shapes.developments.meridian import Meridian
from hollowright.shapes.developments.tracing import chords, cubics, sides, without_repeats
from hollowright.shapes.outline import Outline
from hollowright.shapes.space import Vector

MOST_CONES = 256


@dataclass(frozen=True, slots=True)
class Gore:
    """One of `count` equal gores of a turned form, its middle along the meridian's true length.

    `meridian` is the neutral surface's. Half its width is pi x radius / count at every length along
    the meridian, so that the gores' areas add up to the form's. A gore bends one way; across, it
    must stretch or shrink a little: `edge_defect`. ValueError for fewer than three gores.
    """

    meridian: Meridian
    count: int

    def __post_init__(self) -> None:
        """Refuse too few gores."""
        if self.count < 3:
            raise ValueError(f"a form needs 3 gores at least, not {self.count}")

    @property
    def half_angle(self) -> float:
        """Angle from a gore's middle to its edge [rad]."""
        return math.pi / self.count

    @property
    def area(self) -> float:
        """Area of one gore [mm2]."""
        return self.meridian.area / self.count

    def half_width(self, t: float) -> float:
        """Half the width [mm] at the meridian's parameter."""
        return self.half_angle * self.meridian.place(t)[0]

    def flat(self, angle: float, t: float) -> Point:
        """The point of the flat [mm], angles [rad] from the gore's middle."""
        return (self.meridian.place(t)[0] * angle, self.meridian.reached(t))

    def surface(self, point: Point) -> tuple[float, float]:
        """Angle [rad] and the meridian's parameter of a point of the flat."""
        t = self.meridian.parameter(point[1])
        radius = self.meridian.place(t)[0]
        return (point[0] / radius if radius > 0 else 0.0, t)

    def space(self, angle: float, t: float) -> Vector:
        """The point on the form [mm]."""
        radius, height = self.meridian.place(t)
        return (radius * math.cos(angle), radius * math.sin(angle), height)

    def points(self, tolerance: float = 1e-3) -> tuple[Point, ...]:
        """The flat as a polygon, anticlockwise, no chord further off than `tolerance` [mm]."""
        right = chords(self._edge, self.meridian.breaks, tolerance)
        return without_repeats([*right, *((-x, y) for x, y in reversed(right))])

    def outline(self, tolerance: float = 1e-3) -> Outline:
        """The flat's outline: cubics within `tolerance` [mm], lines across its ends."""
        right = cubics(self._edge, self.meridian.breaks, tolerance)
        left = [type(c)(*((-x, y) for x, y in c.controls[::-1])) for c in reversed(right)]
        top = sides((right[-1].end, left[0].start))
        bottom = sides((left[-1].end, right[0].start))
        return Outline((*right, *top, *left, *bottom))

    @property
    def edge_defect(self) -> float:
        """How much longer the gore's edge is than the meridian that it must follow [mm].

        The edge is shrunk by this (or the middle stretched) as the gore is bent across.
        """
        edge = cubics(self._edge, self.meridian.breaks, 1e-4)
        return sum(cubic.length() for cubic in edge) - self.meridian.length

    def _edge(self, t: float) -> Point:
        return self.flat(self.half_angle, t)


def stacked_cones(meridian: Meridian, tolerance: float) -> tuple[Frustum, ...]:
    """The fewest cones, of equal length within each smooth piece, that stay near a turned form.

    No cone's straight line is further than `tolerance` [mm] from the meridian, which is the
    neutral surface's. Each cone's `start` is its base's height; neighbours share an edge.
    ValueError for a tolerance that isn't positive or asks for more than 256 cones.
    """
    if not tolerance > 0:
        raise ValueError(f"tolerance must be more than 0 mm, not {tolerance}")
    found: list[Frustum] = []
    for low, high in pairwise(meridian.breaks):
        ends = _stations(meridian, low, high, tolerance)
        found += [_cone(*(meridian.place(t) for t in pair)) for pair in pairwise(ends)]
    return tuple(found)


def _stations(meridian: Meridian, low: float, high: float, tolerance: float) -> list[float]:
    enough = 1
    while not _near(meridian, _even(meridian, low, high, enough), tolerance):
        if enough >= MOST_CONES:
            raise ValueError(f"{MOST_CONES} cones don't come within {tolerance} mm of the profile")
        enough *= 2
    few = enough // 2
    while enough - few > 1:
        count = (few + enough) // 2
        if _near(meridian, _even(meridian, low, high, count), tolerance):
            enough = count
        else:
            few = count
    return _even(meridian, low, high, enough)


def _even(meridian: Meridian, low: float, high: float, count: int) -> list[float]:
    first, last = meridian.reached(low), meridian.reached(high)
    inner = (first + (last - first) * i / count for i in range(1, count))
    return [low, *(meridian.parameter(reached) for reached in inner), high]


def _near(meridian: Meridian, ends: list[float], tolerance: float) -> bool:
    return all(_bulge(meridian, a, b) <= tolerance for a, b in pairwise(ends))


def _bulge(meridian: Meridian, low: float, high: float) -> float:
    (r, z), (r1, z1) = meridian.place(low), meridian.place(high)
    size = math.hypot(r1 - r, z1 - z)
    inner = (meridian.place(low + (high - low) * i / 8) for i in range(1, 8))
    return max(abs((r1 - r) * (q - z) - (z1 - z) * (p - r)) / size for p, q in inner)


def _cone(low: Point, high: Point) -> Frustum:
    """The frustum between two points of a profile, the lower or, level, the wider one its base."""
    (r, z), (r1, z1) = sorted((low, high), key=lambda point: (point[1], -point[0]))
    return Frustum(r, r1, z1 - z, z)
