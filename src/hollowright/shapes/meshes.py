"""Closed meshes: corners, triangles and the lines that a drafter draws; volume and surface."""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from itertools import pairwise

from hollowright.shapes.space import Vector, add, cross, dot

CREASE = math.radians(12)  # an edge at which the surface turns less is smooth: no line is drawn
SMOOTH = math.radians(8)  # a chord of a mesh turns by no more than this
ROUND = 48  # sides of a circle at least, which is 7.5 degrees each

Triangle = tuple[int, int, int]
Line = tuple[int, int]


@dataclass(frozen=True, slots=True)
class Mesh:
    """A closed mesh: corners [mm] and triangles of corner numbers, anticlockwise from outside.

    lines: pairs of corner numbers that are drawn: creases of the surface, and seams.
    """

    vertices: tuple[Vector, ...]
    triangles: tuple[Triangle, ...]
    lines: tuple[Line, ...] = ()

    @property
    def volume(self) -> float:
        """Volume enclosed [mm3], negative when the triangles face inwards."""
        x, y, z = self.vertices[0]
        near = [(a - x, b - y, c - z) for a, b, c in self.vertices]
        return math.fsum(dot(cross(near[a], near[b]), near[c]) for a, b, c in self.triangles) / 6

    @property
    def surface(self) -> float:
        """Area of all triangles [mm2]."""
        return math.fsum(math.sqrt(dot(n, n)) for n in normals(self)) / 2

    @property
    def bounds(self) -> tuple[Vector, Vector]:
        """The least and the greatest x, y, z [mm]."""
        xs, ys, zs = zip(*self.vertices, strict=True)
        return ((min(xs), min(ys), min(zs)), (max(xs), max(ys), max(zs)))

    @property
    def is_closed(self) -> bool:
        """Whether every edge is met once each way for each triangle beside it."""
        ways = Counter(edge for triangle in self.triangles for edge in edges(triangle))
        return bool(ways) and all(ways[b, a] == count for (a, b), count in ways.items())


def edges(corners: Sequence[int]) -> Iterable[Line]:
    """The sides of a face, in its own way round."""
    return pairwise((*corners, corners[0]))


def normals(mesh: Mesh) -> list[Vector]:
    """Each triangle's outward normal, as long as twice its area [mm2]."""
    found = []
    for a, b, c in mesh.triangles:
        p = mesh.vertices[a]
        found.append(cross(add(mesh.vertices[b], p, -1), add(mesh.vertices[c], p, -1)))
    return found


def creases(mesh: Mesh, angle: float = CREASE) -> tuple[Line, ...]:
    """Edges between two triangles at which the surface turns by more than an angle [rad]."""
    across = normals(mesh)
    least = math.cos(angle)
    found = []
    for (a, b), pair in beside_edges(mesh).items():
        if len(pair) == 2 and turned_more(across[pair[0]], across[pair[1]], least):
            found.append((a, b))
    return tuple(found)


def beside_edges(mesh: Mesh) -> Mapping[Line, list[int]]:
    """The numbers of the triangles beside each edge, its lesser corner first."""
    found: dict[Line, list[int]] = {}
    for number, triangle in enumerate(mesh.triangles):
        for a, b in edges(triangle):
            found.setdefault((min(a, b), max(a, b)), []).append(number)
    return found


def turned_more(n: Vector, m: Vector, cosine: float) -> bool:
    """Whether the angle between two normals of any length has less than a cosine."""
    return dot(n, m) < cosine * math.sqrt(dot(n, n) * dot(m, m))


def welded(
    vertices: Sequence[Vector], triangles: Iterable[Triangle], lines: Iterable[Line] = ()
) -> Mesh:
    """A mesh whose corners at one place [to 1e-9 mm] are one.

    Triangles and lines that shrink to nothing are left out, and so are corners that none uses.
    """
    places: dict[tuple[float, ...], int] = {}
    numbers: list[int] = []
    kept: list[Vector] = []
    for vertex in vertices:
        key = tuple(round(x, 9) + 0.0 for x in vertex)
        if key not in places:
            places[key] = len(kept)
            kept.append(vertex)
        numbers.append(places[key])
    whole = [(numbers[a], numbers[b], numbers[c]) for a, b, c in triangles]
    whole = [t for t in whole if len(set(t)) == 3]
    drawn = {_sorted(numbers[a], numbers[b]) for a, b in lines if numbers[a] != numbers[b]}
    return _used(kept, whole, drawn)


def _sorted(a: int, b: int) -> Line:
    return (a, b) if a < b else (b, a)


def _used(vertices: Sequence[Vector], triangles: Sequence[Triangle], lines: Iterable[Line]) -> Mesh:
    order = sorted({corner for triangle in triangles for corner in triangle})
    number = {old: new for new, old in enumerate(order)}
    return Mesh(
        tuple(vertices[old] for old in order),
        tuple((number[a], number[b], number[c]) for a, b, c in triangles),
        tuple(sorted((number[a], number[b]) for a, b in lines)),
    )


def outward(mesh: Mesh) -> Mesh:
    """The same mesh, its triangles turned over where they face inwards."""
    if mesh.vertices and mesh.volume < 0:
        turned = tuple((a, c, b) for a, b, c in mesh.triangles)
        return Mesh(mesh.vertices, turned, mesh.lines)
    return mesh
