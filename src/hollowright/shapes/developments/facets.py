"""Forms of plane faces: prisms, pyramids, frusta, regular solids; angles between their faces."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from functools import cache, cached_property
from typing import TypeVar

from hollowright.shapes.developments.fibres import positive
from hollowright.shapes.space import Vector, add, cross, dot, unit

T = TypeVar("T")

Side = tuple[int, int]
"""An edge by the numbers of its corners, the lower first."""


@dataclass(frozen=True)
class Faceted:
    """A closed form: corners [mm] and faces of corner numbers, anticlockwise from outside.

    Sizes are outside sizes. ValueError where an edge isn't shared by exactly two faces.
    """

    corners: tuple[Vector, ...]
    faces: tuple[tuple[int, ...], ...]

    def __post_init__(self) -> None:
        """Refuse an open form."""
        for side, faces in self.sides.items():
            if len(faces) != 2:
                raise ValueError(f"the edge {side} has {len(faces)} faces, not 2")

    @cached_property
    def sides(self) -> dict[Side, tuple[int, ...]]:
        """Every edge with the numbers of its faces."""
        found: dict[Side, tuple[int, ...]] = {}
        for number, face in enumerate(self.faces):
            for a, b in around(face):
                side = (min(a, b), max(a, b))
                found[side] = (*found.get(side, ()), number)
        return found

    def points(self, face: int) -> tuple[Vector, ...]:
        """A face's corners in space [mm]."""
        return tuple(self.corners[i] for i in self.faces[face])

    def normal(self, face: int) -> Vector:
        """Unit vector square to a face, outwards."""
        return self._normals[face]

    @cached_property
    def _normals(self) -> tuple[Vector, ...]:
        return tuple(self._square(face) for face in range(len(self.faces)))

    def _square(self, face: int) -> Vector:
        points = self.points(face)
        total: Vector = (0.0, 0.0, 0.0)
        for a, b in around(points):
            total = add(total, cross(add(a, points[0], -1), add(b, points[0], -1)))
        return unit(total)

    def dihedral(self, side: Side) -> float:
        """Angle inside the form between the two faces at an edge [rad]."""
        first, second = (self.normal(face) for face in self.sides[side])
        across = cross(first, second)
        turn = math.atan2(math.sqrt(dot(across, across)), dot(first, second))
        inwards = add(self._middle(self.sides[side][1]), self.corners[side[0]], -1)
        return math.pi + (turn if dot(inwards, first) > 0 else -turn)

    @property
    def area(self) -> float:
        """Area of all faces [mm2]."""
        return sum(self.face_area(face) for face in range(len(self.faces)))

    def face_area(self, face: int) -> float:
        """Area of a face [mm2]."""
        points = self.points(face)
        total: Vector = (0.0, 0.0, 0.0)
        for a, b in around(points):
            total = add(total, cross(a, b))
        return abs(dot(total, self.normal(face))) / 2

    @property
    def volume(self) -> float:
        """Volume inside the outside faces [mm3]."""
        return (
            sum(
                self.face_area(f) * dot(self.normal(f), self.corners[self.faces[f][0]])
                for f in range(len(self.faces))
            )
            / 3
        )

    def _middle(self, face: int) -> Vector:
        points = self.points(face)
        total: Vector = (0.0, 0.0, 0.0)
        for point in points:
            total = add(total, point, 1 / len(points))
        return total


def bevel(dihedral: float) -> float:
    """Bevel of a mitred edge from square [rad]: half of 180 degrees less the dihedral."""
    return (math.pi - dihedral) / 2


def groove(dihedral: float) -> float:
    """Angle of the groove filed for a fold [rad], 180 degrees less the dihedral."""
    return math.pi - dihedral


def compound_mitre(sides: int, pitch: float) -> tuple[float, float]:
    """Blade's mitre across the face, and its bevel from square [rad], of sloping sides.

    mitre = atan(tan(180 / n) cos(pitch)), bevel = asin(sin(180 / n) sin(pitch)); the pitch [rad] is
    the side's lean from flat, 90 degrees for upright sides.

    >>> mitre, bevel = compound_mitre(6, math.radians(60))
    >>> round(math.degrees(mitre), 2), round(math.degrees(bevel), 2)
    (16.1, 25.66)
    """
    _sides(sides)
    half = math.pi / sides
    mitre = math.atan(math.tan(half) * math.cos(pitch))
    return mitre, math.asin(math.sin(half) * math.sin(pitch))


def prism(sides: int, across_flats: float, height: float) -> Faceted:
    """An upright prism on a regular base, its base the first face, its top the last [mm].

    `across_flats` is twice the distance from the middle to a side, also for odd numbers of sides.
    """
    return frustum(sides, across_flats, across_flats, height)


def frustum(sides: int, across_flats: float, top_across_flats: float, height: float) -> Faceted:
    """A pyramid's frustum between two regular polygons [mm]; base first, top last."""
    positive(across_flats=across_flats, top_across_flats=top_across_flats, height=height)
    low, high = _ring(sides, across_flats, 0.0), _ring(sides, top_across_flats, height)
    walls = tuple((i, (i + 1) % sides, sides + (i + 1) % sides, sides + i) for i in range(sides))
    base, top = tuple(reversed(range(sides))), tuple(range(sides, 2 * sides))
    return Faceted((*low, *high), (base, *walls, top))


def pyramid(sides: int, across_flats: float, height: float) -> Faceted:
    """A pyramid on a regular base, its base the first face [mm].

    >>> form = pyramid(4, 100, 50)
    >>> lateral, base = form.dihedral((0, 4)), form.dihedral((0, 1))
    >>> round(math.degrees(lateral), 3), round(math.degrees(base), 3)
    (120.0, 45.0)
    """
    positive(across_flats=across_flats, height=height)
    low = _ring(sides, across_flats, 0.0)
    walls = tuple((i, (i + 1) % sides, sides) for i in range(sides))
    return Faceted((*low, (0.0, 0.0, height)), (tuple(reversed(range(sides))), *walls))


def regular(kind: str, edge: float) -> Faceted:
    """A regular solid by name (tetrahedron, cube, octahedron, dodecahedron, icosahedron) [mm].

    It stands on its first face. ValueError for another name.

    >>> form = regular("octahedron", 30)
    >>> round(math.degrees(form.dihedral((0, 2))), 3)
    109.471
    """
    positive(edge=edge)
    if kind not in REGULAR:
        raise ValueError(f"kind must be one of {', '.join(REGULAR)}, not {kind}")
    form = _unit_solid(kind)
    scaled = tuple(add((0.0, 0.0, 0.0), corner, edge) for corner in form.corners)
    return Faceted(scaled, form.faces)


@cache
def _unit_solid(kind: str) -> Faceted:
    """A regular solid of edge 1, standing on its first face."""
    corners = REGULAR[kind]
    nearest = min(math.dist(corners[0], other) for other in corners[1:])
    scaled = tuple(add((0.0, 0.0, 0.0), corner, 1 / nearest) for corner in corners)
    return _standing(Faceted(scaled, tuple(_hull(scaled))))


GOLDEN = (1 + math.sqrt(5)) / 2


def _signs(*places: tuple[float, float, float]) -> tuple[Vector, ...]:
    """Each place with every choice of signs, no corner twice."""
    signs = [(a, b, c) for a in (1, -1) for b in (1, -1) for c in (1, -1)]
    found = [(x * a, y * b, z * c) for x, y, z in places for a, b, c in signs]
    return tuple(dict.fromkeys((x + 0.0, y + 0.0, z + 0.0) for x, y, z in found))


def _turned(a: float, b: float, c: float) -> tuple[tuple[float, float, float], ...]:
    return ((a, b, c), (b, c, a), (c, a, b))


# Corners: Coxeter, Regular Polytopes, section 3.7.
REGULAR: dict[str, tuple[Vector, ...]] = {
    "tetrahedron": ((1.0, 1.0, 1.0), (1.0, -1.0, -1.0), (-1.0, 1.0, -1.0), (-1.0, -1.0, 1.0)),
    "cube": _signs((1.0, 1.0, 1.0)),
    "octahedron": _signs(*_turned(1.0, 0.0, 0.0)),
    "dodecahedron": _signs((1.0, 1.0, 1.0), *_turned(0.0, 1 / GOLDEN, GOLDEN)),
    "icosahedron": _signs(*_turned(0.0, 1.0, GOLDEN)),
}


def around(items: Sequence[T]) -> Iterable[tuple[T, T]]:
    """Each item with the one after it, the last with the first."""
    return zip(items, [*items[1:], items[0]], strict=True)


def _hull(corners: Sequence[Vector]) -> list[tuple[int, ...]]:
    """Faces of a convex form round 0, 0, 0: the planes that leave every corner on one side."""
    found: dict[frozenset[int], tuple[int, ...]] = {}
    count = len(corners)
    for i in range(count):
        for j in range(i + 1, count):
            for k in range(j + 1, count):
                face = _face(corners, (i, j, k))
                if face:
                    found.setdefault(frozenset(face), face)
    return list(found.values())


def _face(corners: Sequence[Vector], three: tuple[int, int, int]) -> tuple[int, ...]:
    a, b, c = (corners[i] for i in three)
    out = cross(add(b, a, -1), add(c, a, -1))
    size = math.sqrt(dot(out, out))
    if size < 1e-9:
        return ()
    normal = unit(out) if dot(out, a) > 0 else unit(add((0.0, 0.0, 0.0), out, -1))
    reach = dot(normal, a)
    near = 1e-9 * max(1.0, abs(reach))
    heights = [dot(normal, corner) - reach for corner in corners]
    if max(heights) > near:
        return ()
    on = [i for i, height in enumerate(heights) if height > -near]
    return tuple(_in_order(corners, on, normal))


def _in_order(corners: Sequence[Vector], on: Sequence[int], normal: Vector) -> list[int]:
    """Corner numbers anticlockwise seen against the normal."""
    middle: Vector = (0.0, 0.0, 0.0)
    for i in on:
        middle = add(middle, corners[i], 1 / len(on))
    u = unit(add(corners[on[0]], middle, -1))
    v = cross(normal, u)

    def turn(i: int) -> float:
        out = add(corners[i], middle, -1)
        return math.atan2(dot(out, v), dot(out, u))

    return sorted(on, key=turn)


def _standing(form: Faceted) -> Faceted:
    """The form turned and lifted until its first face lies at height 0, outside down."""
    down = form.normal(0)
    start, second, *_ = form.points(0)
    u = unit(add(second, start, -1))
    v = cross(u, down)
    placed = []
    for corner in form.corners:
        out = add(corner, start, -1)
        placed.append((dot(out, u), dot(out, v), -dot(out, down)))
    return Faceted(tuple(placed), form.faces)


def _ring(sides: int, across_flats: float, height: float) -> tuple[Vector, ...]:
    _sides(sides)
    radius = across_flats / 2 / math.cos(math.pi / sides)
    turns = ((2 * i - 1) * math.pi / sides for i in range(sides))
    return tuple((radius * math.cos(a), radius * math.sin(a), height) for a in turns)


def _sides(sides: int) -> None:
    if sides < 3:
        raise ValueError(f"sides must be 3 at least, not {sides}")
