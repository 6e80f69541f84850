"""Bodies with flat faces: bevelled plates of faceted forms, prisms, pyramids."""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from itertools import pairwise

from hollowright.shapes.frames import Frame, shifted, square
from hollowright.shapes.meshes import Line, Mesh, Triangle, edges, outward, turned_more, welded
from hollowright.shapes.space import Vector, add, cross, dot, unit

Face = tuple[int, ...]

FLAT = math.cos(math.radians(0.1))  # faces that meet at less are one, and no line is drawn


@dataclass(frozen=True, slots=True)
class Plated:
    """A polyhedron: its corners [mm] and its flat faces as rings of corner numbers.

    Neighbouring faces run the same way round, so that each edge is met once each way; which way
    doesn't matter. ValueError when it isn't closed.
    """

    id: str
    corners: tuple[Vector, ...]
    faces: tuple[Face, ...]

    def __post_init__(self) -> None:
        """Refuse faces that don't close, or that enclose nothing."""
        ways = Counter(edge for face in self.faces for edge in edges(face))
        if not ways or any(ways[b, a] != 1 or count != 1 for (a, b), count in ways.items()):
            raise ValueError(f"{self.id}: the faces don't close, or don't run the same way round")
        if self._signed_volume == 0:
            raise ValueError(f"{self.id}: the faces enclose nothing")

    @property
    def volume(self) -> float:
        """Volume [mm3], exact: the pyramids from one corner to all faces."""
        return abs(self._signed_volume)

    @property
    def surface(self) -> float:
        """Area of the whole surface [mm2], exact."""
        return math.fsum(_size(self._normal(face)) for face in self.faces) / 2

    def moved(self, by: Vector) -> Plated:
        """The same body shifted [mm]."""
        return self.placed(shifted(by))

    def placed(self, frame: Frame) -> Plated:
        """The same body put into a frame."""
        return replace(self, corners=tuple(frame.at(corner) for corner in self.corners))

    def reach(self, axis: Vector) -> tuple[float, float]:
        """From where to where it reaches along a unit vector [mm]."""
        along = [dot(self.corners[i], axis) for face in self.faces for i in face]
        return (min(along), max(along))

    def mesh(self, tolerance: float = 0.05) -> Mesh:
        """A closed mesh, exact; lines are the edges between faces that meet at an angle."""
        del tolerance
        found = [t for face in self.faces for t in _cut(self.corners, face, self._normal(face))]
        return outward(welded(self.corners, found, self._lines()))

    def _lines(self) -> Iterable[Line]:
        beside = {edge: face for face in self.faces for edge in edges(face)}
        for (a, b), face in beside.items():
            if a < b and turned_more(self._normal(face), self._normal(beside[b, a]), FLAT):
                yield (a, b)

    @property
    def _signed_volume(self) -> float:
        apex = self.corners[self.faces[0][0]]
        pyramids = (
            dot(self._normal(face), add(self.corners[face[0]], apex, -1)) for face in self.faces
        )
        return math.fsum(pyramids) / 6

    def _normal(self, face: Face) -> Vector:
        """A face's normal, as long as twice its area [mm2]."""
        first, *others = (self.corners[i] for i in face)
        total: Vector = (0.0, 0.0, 0.0)
        for p, q in pairwise(others):
            total = add(total, cross(add(p, first, -1), add(q, first, -1)))
        return total


def _cut(corners: Sequence[Vector], face: Face, normal: Vector) -> Iterable[Triangle]:
    """Triangles of one face: a fan where it is convex."""
    if _convex([corners[i] for i in face], normal):
        for b, c in pairwise(face[1:]):
            yield (face[0], b, c)
        return
    from hollowright.shapes.polygons import triangles

    up = unit(normal)
    across = square(add(corners[face[1]], corners[face[0]], -1), up)
    beyond = cross(up, across)
    flat = [(dot(corners[i], across), dot(corners[i], beyond)) for i in face]
    for a, b, c in triangles([flat]):
        yield (face[a], face[b], face[c])


def _convex(points: Sequence[Vector], normal: Vector) -> bool:
    """Whether every corner of a flat ring turns the same way as its normal."""
    ways = [add(b, a, -1) for a, b in pairwise((*points, points[0]))]
    return all(dot(cross(a, b), normal) > 0 for a, b in pairwise((*ways, ways[0])))


def _size(a: Vector) -> float:
    return math.sqrt(dot(a, a))
