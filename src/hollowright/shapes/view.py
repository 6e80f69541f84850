"""Axonometric views: how space is laid on the paper (orthographic, z upright, ISO 5456-3)."""

from __future__ import annotations

import math
from dataclasses import dataclass

from hollowright.shapes.curves import Point
from hollowright.shapes.space import Vector, cross, dot, unit


@dataclass(frozen=True, slots=True)
class View:
    """An orthographic view: unit vectors to the right, up the paper and towards the eye."""

    right: Vector
    up: Vector
    eye: Vector

    def project(self, point: Vector) -> Point:
        """A point on the paper [mm]."""
        return (dot(self.right, point), dot(self.up, point))


def view_from(eye: Vector) -> View:
    """The view from a direction in which z stays upright on the paper; not from straight above."""
    toward = unit(eye)
    right = unit(cross((0.0, 0.0, 1.0), toward))
    return View(right, cross(toward, right), toward)


def isometric() -> View:
    """ISO 5456-3 isometric: x, y and z to one scale; a level circle is 0.577 as high as wide."""
    return view_from((1.0, -1.0, 1.0))


def dimetric() -> View:
    """ISO 5456-3 dimetric: x and z to one scale, y to half of it, 7 and 42 degrees off level.

    A level circle is a third as high as wide.
    """
    return view_from((1 / 3, -math.sqrt(7) / 3, 1 / 3))
