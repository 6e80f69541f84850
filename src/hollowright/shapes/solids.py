"""Solids of revolution set in space: tubes, discs, rings, cones; volume, surface and mesh."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from itertools import pairwise

from hollowright.shapes.curves import TURN, Point, chords
from hollowright.shapes.meshes import Mesh
from hollowright.shapes.space import Vector, add, beside, cross, dot, unit

FRONT_LEFT = -1.75  # [rad] where a seam shows well in the usual views


@dataclass(frozen=True, slots=True)
class Turned:
    """A profile turned once round an axis.

    `profile` is a closed polygon of (radius, height) [mm], the first point not repeated; heights
    are measured from `origin` along `direction`. A tube is a rectangle away from the axis, a disc
    one that touches it. `seams` are angles [rad] at which a join shows as a line round the section;
    they are measured from `beside(direction)`, anticlockwise seen against `direction`.
    """

    id: str
    profile: tuple[Point, ...]
    origin: Vector = (0.0, 0.0, 0.0)
    direction: Vector = (0.0, 0.0, 1.0)
    seams: tuple[float, ...] = ()

    def __post_init__(self) -> None:
        """Refuse a profile that reaches across the axis or encloses nothing."""
        if len(self.profile) < 3 or any(r < 0 for r, _ in self.profile):
            raise ValueError(f"{self.id}: a profile needs three corners, none across the axis")
        if self.section_area <= 0:
            raise ValueError(f"{self.id}: the profile encloses nothing")

    @property
    def axis(self) -> Vector:
        """Unit vector along the axis."""
        return unit(self.direction)

    @property
    def edges(self) -> tuple[tuple[Point, Point], ...]:
        """Sides of the profile, anticlockwise in (radius, height), each a surface once turned."""
        corners = self.profile if _signed_area(self.profile) > 0 else self.profile[::-1]
        return tuple(zip(corners, corners[1:] + corners[:1], strict=True))

    @property
    def section_area(self) -> float:
        """Area of the profile [mm2]."""
        return abs(_signed_area(self.profile))

    @property
    def volume(self) -> float:
        """Volume [mm3] by Pappus: 2 pi x (the profile's first moment about the axis).

        >>> round(tube("half", 38.05, 1.02, 30).volume, 3)
        3559.795
        """
        moment = sum((r0 + r1) * (r0 * z1 - r1 * z0) for (r0, z0), (r1, z1) in self.edges) / 6
        return 2 * math.pi * moment

    @property
    def surface(self) -> float:
        """Area of the whole surface [mm2]: the cone frusta that the profile's sides sweep."""
        return sum(math.pi * (a[0] + b[0]) * math.dist(a, b) for a, b in self.edges)

    @property
    def low(self) -> float:
        """Least height of the profile, from the origin along the axis [mm]."""
        return min(z for _, z in self.profile)

    @property
    def high(self) -> float:
        """Greatest height of the profile [mm]."""
        return max(z for _, z in self.profile)

    @property
    def radius(self) -> float:
        """Greatest radius [mm]."""
        return max(r for r, _ in self.profile)

    def moved(self, by: Vector) -> Turned:
        """The same solid shifted [mm]."""
        return replace(self, origin=add(self.origin, by))

    def along(self, distance: float) -> Turned:
        """The same solid shifted along its own axis [mm]."""
        return replace(self, origin=add(self.origin, self.axis, distance))

    def mesh(self, tolerance: float = 0.05) -> Mesh:
        """A closed mesh, its circles inscribed polygons within the tolerance [mm]."""
        return mesh(self, max(48, chords(self.radius, TURN, tolerance)))

    def at(self, radius: float, height: float, angle: float) -> Vector:
        """A point in space from radius, height [mm] and angle [rad] about the axis."""
        u = beside(self.axis)
        v = cross(self.axis, u)
        foot = add(self.origin, self.axis, height)
        return add(add(foot, u, radius * math.cos(angle)), v, radius * math.sin(angle))


def tube(id: str, outside_diameter: float, wall: float, length: float) -> Turned:
    """A piece of tube standing on 0, 0, 0 [mm]."""
    outer, inner = outside_diameter / 2, outside_diameter / 2 - wall
    if not (wall > 0 and inner > 0 and length > 0):
        raise ValueError(f"{id}: a tube needs a wall, a bore and a length")
    return Turned(id, ((inner, 0.0), (outer, 0.0), (outer, length), (inner, length)))


def disc(id: str, diameter: float, thickness: float) -> Turned:
    """A flat disc lying on 0, 0, 0 [mm]."""
    if not (diameter > 0 and thickness > 0):
        raise ValueError(f"{id}: a disc needs a diameter and a thickness")
    r = diameter / 2
    return Turned(id, ((0.0, 0.0), (r, 0.0), (r, thickness), (0.0, thickness)))


def ring(
    id: str, outside_diameter: float, thickness: float, width: float, seam: float = FRONT_LEFT
) -> Turned:
    """A strip bent round, its ends met at the angle `seam` [rad], standing on 0, 0, 0 [mm]."""
    return replace(tube(id, outside_diameter, thickness, width), seams=(seam,))


def spread(solids: Sequence[Turned], gap: float) -> tuple[Turned, ...]:
    """Solids on one axis drawn apart along it in the order given, `gap` [mm] between neighbours.

    The first stays where it is; each other one is shifted along the first one's axis.
    """
    placed = list(solids[:1])
    for solid in solids[1:]:
        axis = placed[0].axis
        shift = max(reach(placed[-1], axis)) + gap - min(reach(solid, axis))
        placed.append(solid.moved(add((0.0, 0.0, 0.0), axis, shift)))
    return tuple(placed)


def reach(solid: Turned, axis: Vector) -> tuple[float, float]:
    """From where to where a solid reaches along a unit vector [mm], measured from 0, 0, 0."""
    base, cosine = dot(solid.origin, axis), dot(solid.axis, axis)
    sine = math.sqrt(max(0.0, 1 - cosine * cosine))
    ends = [(base + z * cosine, r * sine) for r, z in solid.profile]
    return (min(at - out for at, out in ends), max(at + out for at, out in ends))


def mesh(solid: Turned, segments: int = 96) -> Mesh:
    """A closed mesh of a solid, its circles as polygons inscribed with `segments` sides.

    Volume and size come from the solid itself; the mesh is for seeing and for hollows.
    """
    if segments < 3:
        raise ValueError(f"segments must be 3 at least, not {segments}")
    corners = [start for start, _ in solid.edges]
    vertices: list[Vector] = []
    rows: list[list[int]] = []
    for r, z in corners:
        count = segments if r > 0 else 1
        first = len(vertices)
        vertices += [solid.at(r, z, 2 * math.pi * j / segments) for j in range(count)]
        rows.append([first + j % count for j in range(segments + 1)])
    found: list[tuple[int, int, int]] = []
    for near, far in zip(rows, rows[1:] + rows[:1], strict=True):
        found += _band(near, far)
    return Mesh(tuple(vertices), tuple(found))


def _band(near: Sequence[int], far: Sequence[int]) -> Iterable[tuple[int, int, int]]:
    """Triangles between two circles of corners; a corner on the axis makes a fan."""
    for (a, b), (d, c) in zip(pairwise(near), pairwise(far), strict=True):
        if a != b:
            yield (a, b, c)
        if c != d:
            yield (a, c, d)


def _signed_area(profile: Sequence[Point]) -> float:
    sides = zip(profile, (*profile[1:], profile[0]), strict=True)
    return sum(r0 * z1 - r1 * z0 for (r0, z0), (r1, z1) in sides) / 2
