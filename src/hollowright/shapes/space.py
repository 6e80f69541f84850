"""Vectors in space, plain triples of floats."""

from __future__ import annotations

import math

Vector = tuple[float, float, float]


def add(a: Vector, b: Vector, factor: float = 1.0) -> Vector:
    """The vector a + factor x b."""
    return (a[0] + factor * b[0], a[1] + factor * b[1], a[2] + factor * b[2])


def dot(a: Vector, b: Vector) -> float:
    """Scalar product."""
    return a[0] * b[0] + a[1] * b[1] + a[2] * b[2]


def cross(a: Vector, b: Vector) -> Vector:
    """Vector product.

    >>> cross((1, 0, 0), (0, 1, 0))
    (0, 0, 1)
    """
    return (
        a[1] * b[2] - a[2] * b[1],
        a[2] * b[0] - a[0] * b[2],
        a[0] * b[1] - a[1] * b[0],
    )


def unit(a: Vector) -> Vector:
    """The vector of length 1 that points the same way; ValueError for one without direction."""
    size = math.sqrt(dot(a, a))
    if not (math.isfinite(size) and size > 0):
        raise ValueError(f"a direction needs a length, not {a}")
    return (a[0] / size, a[1] / size, a[2] / size)


def beside(axis: Vector) -> Vector:
    """A unit vector square to a unit axis: x brought square to it, or y where the axis is x."""
    start: Vector = (1.0, 0.0, 0.0) if abs(axis[0]) < 0.9 else (0.0, 1.0, 0.0)
    return unit(add(start, axis, -dot(start, axis)))
