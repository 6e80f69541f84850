"""A place in space and the way things stand there: the rigid motion that puts them there."""

from __future__ import annotations

import math
from dataclasses import dataclass

from hollowright.shapes.space import Vector, add, beside, cross, dot, unit


@dataclass(frozen=True, slots=True)
class Frame:
    """Where 0, 0, 0 goes [mm] and which way up (z) and across (x) point there; y follows.

    Both ways are brought to length 1, across square to up; without one it is `beside(up)`.
    ValueError for an up without length, or across along it.
    """

    origin: Vector = (0.0, 0.0, 0.0)
    up: Vector = (0.0, 0.0, 1.0)
    across: Vector | None = None

    def __post_init__(self) -> None:
        """Bring both ways to unit vectors square to each other."""
        up = unit(self.up)
        given = self.across
        across = beside(up) if given is None else square(given, up)
        object.__setattr__(self, "up", up)
        object.__setattr__(self, "across", across)

    @property
    def axes(self) -> tuple[Vector, Vector, Vector]:
        """Where x, y and z point, each of length 1."""
        across = self.across or beside(self.up)
        return (across, cross(self.up, across), self.up)

    def at(self, point: Vector) -> Vector:
        """Where a point goes [mm]."""
        return add(self.origin, self.turned(point))

    def turned(self, way: Vector) -> Vector:
        """Where a direction points."""
        (ax, ay, az), (bx, by, bz), (cx, cy, cz) = self.axes
        x, y, z = way
        return (ax * x + bx * y + cx * z, ay * x + by * y + cy * z, az * x + bz * y + cz * z)

    def of(self, inner: Frame) -> Frame:
        """The frame that lies within this one as `inner` lies within the world's."""
        across, _, up = inner.axes
        return Frame(self.at(inner.origin), self.turned(up), self.turned(across))


def shifted(by: Vector) -> Frame:
    """The frame that only shifts [mm]."""
    return Frame(by, (0.0, 0.0, 1.0), (1.0, 0.0, 0.0))


def square(way: Vector, up: Vector) -> Vector:
    """The unit vector nearest to a way that is square to a unit vector; ValueError along it."""
    rest = add(way, up, -dot(way, up))
    if math.sqrt(dot(rest, rest)) <= 1e-9 * math.sqrt(dot(way, way)):
        raise ValueError(f"across {way} lies along up {up}")
    return unit(rest)
