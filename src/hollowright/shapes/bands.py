"""Skins between neighbouring rows of corners: the bands of turned and of looped bodies."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from itertools import pairwise

from hollowright.shapes.meshes import Line, Triangle
from hollowright.shapes.space import Vector


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
        elif math.dist(vertices[a], vertices[c]) <= math.dist(vertices[b], vertices[d]):
            yield (a, b, c)
            yield (a, c, d)
        else:
            yield (a, b, d)
            yield (b, c, d)


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
