"""The axes of a piece drawn apart: the one it stands about, those that parts are pulled along."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence

from hollowright.shapes.apart import UP
from hollowright.shapes.bodies import Body
from hollowright.shapes.solids import Turned
from hollowright.shapes.space import Vector, add, beside, cross, dot, unit

OVERRUN = 0.25  # of an axis beyond the outermost parts, as a share of the widest one
SAME = 1e-3  # of the widest one: places nearer than this are one

Axis = tuple[Vector, Vector]
Moved = tuple[Body, Vector]
"""A body in its assembled place, and how far it is moved to be drawn apart [mm]."""


def axis_of(bodies: Sequence[Body]) -> Vector:
    """The way that the bodies stand: the axis of turned ones that share one, upright otherwise."""
    turned = [body for body in bodies if isinstance(body, Turned)]
    first = turned[0].axis if turned else UP
    shared = len(turned) == len(bodies) and all(_parallel(body.axis, first) for body in turned)
    return first if shared else UP


def widest(bodies: Iterable[Body]) -> float:
    """Greatest width of a body across the way that the bodies stand [mm]."""
    listed = tuple(bodies)
    axis = axis_of(listed)
    return max(
        high - low for body in listed for way in _across(axis) for low, high in (body.reach(way),)
    )


def axes(parts: Sequence[Moved]) -> list[Axis]:
    """Lines (start, end) [mm] to draw with the bodies apart."""
    bodies = [body for body, _ in parts]
    way = axis_of(bodies)
    beyond = OVERRUN * widest(bodies)
    standing = [(body, move) for body, move in parts if _parallel(move, way)]
    found = _shared(standing, way, beyond)
    for body, move in parts:
        if isinstance(body, Turned) and not _parallel(move, way) and _parallel(body.axis, move):
            found.append(_along(body, move, beyond))
    return found


def _shared(parts: Sequence[Moved], way: Vector, beyond: float) -> list[Axis]:
    """The axis of the bodies that stand about the first one's middle; none for one that is flat."""
    if not parts:
        return []
    places = [_middle(body, way) for body, _ in parts]
    near = SAME * widest(body for body, _ in parts)
    stack = [
        part
        for part, place in zip(parts, places, strict=True)
        if math.dist(place, places[0]) < near
    ]
    if len(stack) < 2 and not isinstance(stack[0][0], Turned):
        return []
    ends = [end + dot(move, way) for body, move in stack for end in body.reach(way)]
    return [
        (
            add(places[0], way, min(ends) - beyond),
            add(places[0], way, max(ends) + beyond),
        )
    ]


def _along(body: Turned, move: Vector, beyond: float) -> Axis:
    """A turned body's own axis from its assembled place to where it is drawn apart."""
    way = unit(move)
    low, high = body.reach(way)
    foot = add(body.origin, way, -dot(body.origin, way))
    return add(foot, way, low), add(foot, way, high + math.sqrt(dot(move, move)) + beyond)


def _middle(body: Body, way: Vector) -> Vector:
    """A point of the line through a body's middle along a unit vector: the one nearest 0, 0, 0."""
    if isinstance(body, Turned) and _parallel(body.axis, way):
        return add(body.origin, way, -dot(body.origin, way))
    point: Vector = (0.0, 0.0, 0.0)
    for side in _across(way):
        point = add(point, side, sum(body.reach(side)) / 2)
    return point


def _across(way: Vector) -> tuple[Vector, Vector]:
    """Two unit vectors square to a unit vector and to each other."""
    side = beside(way)
    return side, cross(way, side)


def _parallel(a: Vector, b: Vector) -> bool:
    """Whether two vectors run the same way or against each other; one of no length does."""
    across = cross(a, b)
    return math.sqrt(dot(across, across)) <= 1e-6 * math.sqrt(dot(a, a) * dot(b, b))
