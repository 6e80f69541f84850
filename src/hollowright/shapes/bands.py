"""Skins between neighbouring rows of corners: the bands of turned and of looped bodies."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from itertools import pairwise

from hollowright.shapes.meshes import Line, Triangle
from hollowright.shapes.space import Vector, add, cross, dot

EVEN = 1 + 1e-9  # diagonals that differ by less are equal


def band(near: Sequence[int], far: Sequence[int], vertices: Sequence[Vector]) -> Iterable[Triangle]:
    """Triangles between two closed rows of corner numbers; a row of one corner makes a fan.

    Each piece is cut along its shorter diagonal. Two rows of one corner have nothing between them.
    """
    count = max(len(near), len(far))
    if count == 1:
        return
    for (a, d), (b, c) in pairwise(_pairs(near, far, count)):
        if a == b:
            yield (a, c, d)
        elif c == d:
            yield (a, b, c)
        elif math.dist(vertices[a], vertices[c]) <= EVEN * math.dist(vertices[b], vertices[d]):
            yield (a, b, c)
            yield (a, c, d)
        else:
            yield (a, b, d)
            yield (b, c, d)


def ruled_volume(near: Sequence[Vector], far: Sequence[Vector], apex: Vector) -> float:
    """Volume between an apex and the ruled skin between two closed rows [mm3], with its sign.

    Each piece between two pairs of points is ruled from side to side; its share is the mean of
    what both ways of cutting it along a diagonal give, which is exact.
    """
    count = max(len(near), len(far))
    low, high = ([add(p, apex, -1) for p in row] * (count // len(row)) for row in (near, far))
    pairs = pairwise((*zip(low, high, strict=True), (low[0], high[0])))
    whole = (_cone(a, b, c, d) + _cone(b, c, d, a) for (a, d), (b, c) in pairs)
    return math.fsum(whole) / 12


def _cone(a: Vector, b: Vector, c: Vector, d: Vector) -> float:
    """Six times the volume between 0, 0, 0 and a piece cut from a to c."""
    across = cross(c, a)
    return dot(across, b) - dot(across, d)


def _pairs(near: Sequence[int], far: Sequence[int], count: int) -> Iterable[Line]:
    """Corners that face each other, the first pair again at the end."""
    for j in range(count + 1):
        yield near[j % len(near)], far[j % len(far)]


def ties(near: Sequence[int], far: Sequence[int], columns: Iterable[int]) -> Iterable[Line]:
    """Lines from row to row at the columns asked for."""
    for j in columns:
        yield near[j % len(near)], far[j % len(far)]


def ring_sides(row: Sequence[int]) -> Iterable[Line]:
    """The sides of a closed row; none of a single corner."""
    if len(row) > 1:
        yield from pairwise((*row, row[0]))


def quad_sides(rows: Sequence[Sequence[int]]) -> Iterable[Line]:
    """Every line along a row and from row to row, round and round: all but the diagonals."""
    for near, far in zip(rows, (*rows[1:], *rows[:1]), strict=True):
        yield from ring_sides(near)
        yield from ties(near, far, range(max(len(near), len(far))))
