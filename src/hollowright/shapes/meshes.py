"""Closed meshes: corners, triangles and the lines that a drafter draws; volume and surface."""

from __future__ import annotations

from dataclasses import dataclass

from hollowright.shapes.space import Vector


@dataclass(frozen=True, slots=True)
class Mesh:
    """A closed mesh: corners [mm] and triangles of corner numbers, anticlockwise from outside.

    lines: pairs of corner numbers that are drawn: creases of the surface, and seams.
    """

    vertices: tuple[Vector, ...]
    triangles: tuple[tuple[int, int, int], ...]
    lines: tuple[tuple[int, int], ...] = ()
