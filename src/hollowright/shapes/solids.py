"""Solids of revolution set in space: tubes, discs, rings, cones; volume, surface and mesh."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace

from hollowright.shapes.bands import band, ring_sides, ties
from hollowright.shapes.curves import TURN, Point
from hollowright.shapes.frames import Frame
from hollowright.shapes.loops import sides
from hollowright.shapes.meshes import CREASE, Line, Mesh, Triangle, welded
from hollowright.shapes.space import Vector, add, beside, cross, dot, unit

FRONT_LEFT = -1.75  # [rad] where a seam shows well in the usual views
Edge = tuple[Point, Point]


@dataclass(frozen=True, slots=True)
class Turned:
    """A profile turned once round an axis.

    `profile` is a closed polygon of (radius, height) [mm], the first point not repeated; heights
    are measured from `origin` along `direction`. A tube is a rectangle away from the axis, a disc
    one that touches it. `seams` are angles [rad] at which a join shows as a line round the section;
    they are measured from `beside(direction)`, anticlockwise seen against `direction`.
    exact_volume [mm3], exact_surface [mm2]: of the curve that the profile's points follow, where it
    is one; else both are those of the profile as it stands.
    """

    id: str
    profile: tuple[Point, ...]
    origin: Vector = (0.0, 0.0, 0.0)
    direction: Vector = (0.0, 0.0, 1.0)
    seams: tuple[float, ...] = ()
    exact_volume: float | None = None
    exact_surface: float | None = None

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
    def turns(self) -> tuple[float, ...]:
        """By how much the profile turns at the start of each side [rad]; 0 for a side of no length.

        A side of no length is passed over: what turns there turns at the next.
        """
        found = []
        before = next(edge for edge in reversed(self.edges) if edge[0] != edge[1])
        for edge in self.edges:
            found.append(0.0 if edge[0] == edge[1] else abs(_turn(before, edge)))
            before = before if edge[0] == edge[1] else edge
        return tuple(found)

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
        if self.exact_volume is not None:
            return self.exact_volume
        moment = sum((r0 + r1) * (r0 * z1 - r1 * z0) for (r0, z0), (r1, z1) in self.edges) / 6
        return 2 * math.pi * moment

    @property
    def surface(self) -> float:
        """Area of the whole surface [mm2]: the cone frusta that the profile's sides sweep."""
        if self.exact_surface is not None:
            return self.exact_surface
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

    def placed(self, frame: Frame) -> Turned:
        """The same solid put into a frame; its seams go with it."""
        origin, axis = frame.at(self.origin), unit(frame.turned(self.axis))
        start, across = frame.turned(beside(self.axis)), beside(axis)
        turn = math.atan2(dot(start, cross(axis, across)), dot(start, across))
        seams = tuple(seam + turn for seam in self.seams)
        return replace(self, origin=origin, direction=axis, seams=seams)

    def reach(self, axis: Vector) -> tuple[float, float]:
        """From where to where it reaches along a unit vector [mm], measured from 0, 0, 0."""
        base, cosine = dot(self.origin, axis), dot(self.axis, axis)
        sine = math.sqrt(max(0.0, 1 - cosine * cosine))
        ends = [(base + z * cosine, r * sine) for r, z in self.profile]
        return (min(at - out for at, out in ends), max(at + out for at, out in ends))

    def mesh(self, tolerance: float = 0.05) -> Mesh:
        """A closed mesh, its circles inscribed polygons within the tolerance [mm]."""
        return mesh(self, sides(self.radius, tolerance))

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
    return solid.reach(axis)


def mesh(solid: Turned, segments: int = 96) -> Mesh:
    """A closed mesh of a solid, its circles as inscribed polygons of `segments` equal sides.

    A seam adds a corner of its own to each circle where it meets none.
    """
    if segments < 3:
        raise ValueError(f"segments must be 3 at least, not {segments}")
    angles, joined = _columns(solid.seams, segments)
    frame = Frame(solid.origin, solid.axis)
    across, beyond, _ = frame.axes
    ways = [_round(across, beyond, angle) for angle in angles]
    vertices: list[Vector] = []
    rows: list[range] = []
    for (r, z), _ in solid.edges:
        first, foot = len(vertices), add(solid.origin, frame.up, z)
        vertices += [add(foot, way, r) for way in (ways if r > 0 else ways[:1])]
        rows.append(range(first, len(vertices)))
    faces: list[Triangle] = []
    lines: list[Line] = []
    for near, far in zip(rows, rows[1:] + rows[:1], strict=True):
        faces += band(near, far, vertices)
        if len(near) > 1 or len(far) > 1:
            lines += ties(near, far, joined)
    for row, turn in zip(rows, solid.turns, strict=True):
        if turn > CREASE:
            lines += ring_sides(row)
    return welded(vertices, faces, lines)


def _round(across: Vector, beyond: Vector, angle: float) -> Vector:
    """The way out from the axis at an angle [rad]."""
    c, s = math.cos(angle), math.sin(angle)
    return (
        c * across[0] + s * beyond[0],
        c * across[1] + s * beyond[1],
        c * across[2] + s * beyond[2],
    )


def _columns(seams: Sequence[float], segments: int) -> tuple[list[float], list[int]]:
    """Angles of a circle's corners [rad], and which of them are seams."""
    step = TURN / segments
    angles: dict[float, float] = {i: step * i for i in range(segments)}
    kept: dict[float, float] = {}
    for place in (seam % TURN / step for seam in seams):
        kept[round(place) % segments if _on(place) else place] = place * step
    found = sorted((angles | kept).items())
    return [angle for _, angle in found], [i for i, (key, _) in enumerate(found) if key in kept]


def _on(place: float) -> bool:
    """Whether a place counted in sides is a corner."""
    return abs(place - round(place)) < 1e-6


def _turn(before: Edge, after: Edge) -> float:
    """By how much the way turns from one side to the next [rad]."""
    first, second = (math.atan2(b[1] - a[1], b[0] - a[0]) for a, b in (before, after))
    return math.remainder(second - first, TURN)


def _signed_area(profile: Sequence[Point]) -> float:
    edges = zip(profile, (*profile[1:], profile[0]), strict=True)
    return sum(r0 * z1 - r1 * z0 for (r0, z0), (r1, z1) in edges) / 2
