"""Forms of plane faces in sheet: the hollow inside, bevelled plates, the folded shell in one."""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import cached_property

from hollowright.shapes.curves import Point
from hollowright.shapes.developments.facets import Faceted, Side, around
from hollowright.shapes.plated import Plated
from hollowright.shapes.space import Vector, add, cross, dot, unit

LEAST_LEFT = 1e-6
"""An edge of the hollow shorter than this part of the outside's is none."""


@dataclass(frozen=True)
class Hollow:
    """A form of sheet: outside corners and faces, thickness [mm], faces that are left open.

    Where a face is left open no more than three faces may meet at its corners.
    """

    form: Faceted
    thickness: float
    left: tuple[int, ...] = ()

    @property
    def closed(self) -> tuple[int, ...]:
        """Numbers of the faces that are made."""
        return tuple(face for face in range(len(self.form.faces)) if face not in self.left)

    @cached_property
    def inner(self) -> tuple[Vector, ...]:
        """The hollow's corners [mm], one to each outside corner."""
        return tuple(self._moved_in(corner) for corner in range(len(self.form.corners)))

    @property
    def has_room(self) -> bool:
        """Whether every edge of the hollow still runs the outside's way."""
        return all(
            self._kept(a, b) > LEAST_LEFT
            for face in self.closed
            for a, b in around(self.form.faces[face])
        )

    def shell(self, id: str) -> Plated:
        """The whole form in one, its edges mitred."""
        faces = [self.form.faces[face] for face in self.closed]
        faces += [self._inside(face) for face in self.closed]
        for face in self.left:
            faces += self._rims(face)
        return Plated(id, (*self.form.corners, *self.inner), tuple(faces))

    def plate(self, id: str, face: int) -> Plated:
        """One face as a plate, its edges mitred, or flush where the neighbour is left open."""
        numbers = self.form.faces[face]
        place = {number: i for i, number in enumerate(numbers)}
        count = len(numbers)
        corners = (*self.form.points(face), *(self.inner[i] for i in numbers))
        outside = tuple(range(count))
        inside = tuple(place[i] + count for i in reversed(numbers))
        edges = tuple(
            (place[b], place[a], place[a] + count, place[b] + count) for a, b in around(numbers)
        )
        return Plated(id, corners, (outside, inside, *edges))

    def outlines(self, face: int) -> tuple[tuple[Point, ...], tuple[Point, ...]]:
        """A face laid flat, its first side along x: the outside corners, the inside ones [mm]."""
        start, second, *_ = self.form.points(face)
        x = unit(add(second, start, -1))
        y = cross(self.form.normal(face), x)

        def flat(point: Vector) -> Point:
            out = add(point, start, -1)
            return (dot(out, x), dot(out, y))

        numbers = self.form.faces[face]
        outside = tuple(flat(point) for point in self.form.points(face))
        return outside, tuple(flat(self.inner[i]) for i in numbers)

    def beside(self, side: Side, face: int) -> int:
        """The other face at an edge."""
        return next(other for other in self.form.sides[side] if other != face)

    def pull(self, face: int, way: float) -> Vector:
        """A way [mm] square to a face, outwards."""
        return add((0.0, 0.0, 0.0), self.form.normal(face), way)

    def _inside(self, face: int) -> tuple[int, ...]:
        count = len(self.form.corners)
        return tuple(i + count for i in reversed(self.form.faces[face]))

    def _rims(self, face: int) -> list[tuple[int, ...]]:
        count = len(self.form.corners)
        return [(a, b, b + count, a + count) for a, b in around(self.form.faces[face])]

    def _moved_in(self, corner: int) -> Vector:
        meeting = [face for face, numbers in enumerate(self.form.faces) if corner in numbers]
        count = len(meeting)
        three = [meeting[i] for i in (0, count // 3, 2 * count // 3)]
        planes = [(self.form.normal(face), self._reach(face)) for face in three]
        return _crossing(planes)

    def _reach(self, face: int) -> float:
        """How far the hollow's face lies from 0, 0, 0 [mm]."""
        reach = dot(self.form.normal(face), self.form.corners[self.form.faces[face][0]])
        return reach if face in self.left else reach - self.thickness

    def _kept(self, a: int, b: int) -> float:
        """The hollow's edge in parts of the outside's, under 0 where it runs the other way."""
        edge = add(self.form.corners[b], self.form.corners[a], -1)
        return dot(add(self.inner[b], self.inner[a], -1), edge) / dot(edge, edge)


def _crossing(planes: list[tuple[Vector, float]]) -> Vector:
    """Where three planes meet, each by its unit normal and its distance [mm]."""
    (n1, d1), (n2, d2), (n3, d3) = planes
    total: Vector = (0.0, 0.0, 0.0)
    for reach, across in ((d1, cross(n2, n3)), (d2, cross(n3, n1)), (d3, cross(n1, n2))):
        total = add(total, across, reach)
    whole = dot(n1, cross(n2, n3))
    return (total[0] / whole, total[1] / whole, total[2] / whole)


def middle_of(points: tuple[Point, ...]) -> Point:
    """The middle of a face's corners."""
    count = len(points)
    return (math.fsum(x for x, _ in points) / count, math.fsum(y for _, y in points) / count)
