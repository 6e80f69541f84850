"""Plates and upright walls: an outline with its holes, drawn out square to itself."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace

from hollowright.shapes.curves import Point
from hollowright.shapes.frames import Frame
from hollowright.shapes.loops import Loop, loop
from hollowright.shapes.meshes import Line, Mesh, Triangle, welded
from hollowright.shapes.outline import Outline, positive
from hollowright.shapes.space import Vector, add, dot

FINE = 0.001  # how far a slanting extent may be off [mm]


@dataclass(frozen=True, slots=True)
class Extruded:
    """An outline (with holes) drawn out by `height` [mm] along `direction` from `origin`.

    The outline's x points `across`, brought square to the direction; its 0, 0 lies at the origin.
    A wall of sheet is the outline of its outer face with the inner one as a hole.
    """

    id: str
    outline: Outline
    height: float
    origin: Vector = (0.0, 0.0, 0.0)
    direction: Vector = (0.0, 0.0, 1.0)
    across: Vector = (1.0, 0.0, 0.0)

    def __post_init__(self) -> None:
        """Refuse a height that is none, and directions that make no frame."""
        positive(height=self.height)
        _ = self.frame

    @property
    def frame(self) -> Frame:
        """Where the outline's 0, 0 lies and which way it faces."""
        return Frame(self.origin, self.direction, self.across)

    @property
    def volume(self) -> float:
        """Volume [mm3]: area x height, exact.

        >>> from hollowright.shapes.outline import annulus
        >>> round(Extruded("wall", annulus(38.05, 36.01), 30).volume, 3)
        3559.795
        """
        return self.outline.area * self.height

    @property
    def surface(self) -> float:
        """Area of the whole surface [mm2]: both ends, and all edges x height, exact."""
        rims = self.outline.perimeter + sum(hole.perimeter for hole in self.outline.holes)
        return 2 * self.outline.area + rims * self.height

    def moved(self, by: Vector) -> Extruded:
        """The same body shifted [mm]."""
        return replace(self, origin=add(self.origin, by))

    def placed(self, frame: Frame) -> Extruded:
        """The same body put into a frame."""
        there = frame.of(self.frame)
        across, _, up = there.axes
        return replace(self, origin=there.origin, direction=up, across=across)

    def reach(self, axis: Vector) -> tuple[float, float]:
        """From where to where it reaches along a unit vector [mm]; slanting ways to 0.001 mm."""
        base = dot(self.origin, axis)
        x, y, up = (dot(way, axis) for way in self.frame.axes)
        low, high = _across(self.outline, x, y)
        rise = up * self.height
        return (base + low + min(0.0, rise), base + high + max(0.0, rise))

    def mesh(self, tolerance: float = 0.05) -> Mesh:
        """A closed mesh: both ends triangulated, the sides as pairs of triangles."""
        from hollowright.shapes.polygons import triangles

        rings = [loop(each.segments, tolerance) for each in (self.outline, *self.outline.holes)]
        corners = [point for ring, _ in rings for point in ring]
        flat = triangles([ring for ring, _ in rings])
        count = len(corners)
        frame = self.frame
        vertices = [frame.at((x, y, z)) for z in (0.0, self.height) for x, y in corners]
        faces = [(a, c, b) for a, b, c in flat]
        faces += [(a + count, b + count, c + count) for a, b, c in flat]
        lines: list[Line] = []
        start = 0
        for number, ring in enumerate(rings):
            sides, drawn = _sides(ring, start, count, outer=number == 0)
            faces += sides
            lines += drawn
            start += len(ring[0])
        return welded(vertices, faces, lines)


def _sides(ring: Loop, start: int, count: int, outer: bool) -> tuple[list[Triangle], list[Line]]:
    """The triangles and the drawn lines of one edge's side; `count` leads to the upper corner."""
    points, sharp = ring
    forward = (_doubled_area(points) > 0) == outer
    faces: list[Triangle] = []
    lines: list[Line] = []
    for i in range(len(points)):
        a, b = start + i, start + (i + 1) % len(points)
        lines += [(a, b), (a + count, b + count)]
        if sharp[i]:
            lines.append((a, a + count))
        if not forward:
            a, b = b, a
        faces += [(a, b, b + count), (a, b + count, a + count)]
    return faces, lines


def _doubled_area(points: Sequence[Point]) -> float:
    following = [*points[1:], points[0]]
    return sum(a[0] * b[1] - b[0] * a[1] for a, b in zip(points, following, strict=True))


def _across(outline: Outline, x: float, y: float) -> tuple[float, float]:
    """From where to where an outline reaches along a vector in its plane, times its length."""
    low_x, low_y, high_x, high_y = outline.bounds
    if math.isclose(y, 0.0, abs_tol=1e-12):
        return (min(x * low_x, x * high_x), max(x * low_x, x * high_x))
    if math.isclose(x, 0.0, abs_tol=1e-12):
        return (min(y * low_y, y * high_y), max(y * low_y, y * high_y))
    along = [x * px + y * py for px, py in outline.points(FINE)]
    return (min(along), max(along))
