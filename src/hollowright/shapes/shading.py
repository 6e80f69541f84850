"""Meshes as they are lit: corners split where the surface is creased, each with its normal."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from hollowright.shapes.meshes import CREASE, Mesh, Triangle, beside_edges, normals, turned_more
from hollowright.shapes.space import Vector, add, dot, unit

TIP = math.cos(math.radians(30))  # a face further off the mean of those round a tip keeps its own


@dataclass(frozen=True, slots=True)
class Shaded:
    """Corners [mm] with their normals of length 1, and triangles of corner numbers."""

    vertices: tuple[Vector, ...]
    normals: tuple[Vector, ...]
    triangles: tuple[Triangle, ...]


def shaded(mesh: Mesh) -> Shaded:
    """A mesh to be lit: smooth where it turns by no more than 12 degrees, else sharp.

    A normal is the mean of its triangles' by the angle that each has there.
    """
    faces = [_direction(normal) for normal in normals(mesh)]
    groups = _groups(mesh)
    sums: dict[int, Vector] = {}
    for number, triangle in enumerate(mesh.triangles):
        for place, angle in enumerate(_angles(mesh, triangle)):
            group = groups[3 * number + place]
            sums[group] = add(sums.get(group, (0.0, 0.0, 0.0)), faces[number], angle)
    means = {group: _direction(total) for group, total in sums.items()}
    return _split(mesh, faces, groups, means)


def _split(
    mesh: Mesh, faces: Sequence[Vector], groups: Sequence[int], means: dict[int, Vector]
) -> Shaded:
    known: dict[tuple[int, Vector], int] = {}
    triangles: list[Triangle] = []
    for number, triangle in enumerate(mesh.triangles):
        row = []
        for place, corner in enumerate(triangle):
            mean = means[groups[3 * number + place]]
            normal = faces[number] if turned_more(mean, faces[number], TIP) else mean
            row.append(known.setdefault((corner, normal), len(known)))
        triangles.append((row[0], row[1], row[2]))
    return Shaded(
        tuple(mesh.vertices[corner] for corner, _ in known),
        tuple(normal for _, normal in known),
        tuple(triangles),
    )


def _groups(mesh: Mesh) -> list[int]:
    """Of each triangle's each corner, a number that corners of one smooth patch there share."""
    parents = list(range(3 * len(mesh.triangles)))

    def root(corner: int) -> int:
        while parents[corner] != corner:
            parents[corner] = parents[parents[corner]]
            corner = parents[corner]
        return corner

    across = normals(mesh)
    least = math.cos(CREASE)
    for edge, pair in beside_edges(mesh).items():
        if len(pair) != 2 or turned_more(across[pair[0]], across[pair[1]], least):
            continue
        for end in edge:
            one, other = (3 * number + mesh.triangles[number].index(end) for number in pair)
            parents[root(one)] = root(other)
    return [root(corner) for corner in range(len(parents))]


def _angles(mesh: Mesh, triangle: Triangle) -> list[float]:
    """The angle of a triangle at each of its corners [rad]."""
    found = []
    for i, corner in enumerate(triangle):
        here = mesh.vertices[corner]
        one, other = (add(mesh.vertices[triangle[(i + k) % 3]], here, -1) for k in (1, 2))
        sizes = math.sqrt(dot(one, one) * dot(other, other))
        found.append(math.acos(max(-1.0, min(1.0, dot(one, other) / sizes))) if sizes else 0.0)
    return found


def _direction(a: Vector) -> Vector:
    """A vector brought to length 1; up where it has none."""
    return unit(a) if dot(a, a) > 0 else (0.0, 0.0, 1.0)
