"""Turned bodies from a profile of curves: domes, bells, beads; volume and surface exact."""

from __future__ import annotations

import math
from collections.abc import Sequence

from hollowright.shapes import along
from hollowright.shapes.curves import TURN, Arc, Curve, Line, Point, integral
from hollowright.shapes.loops import loop
from hollowright.shapes.moments import moments
from hollowright.shapes.solids import Turned
from hollowright.shapes.space import Vector

ON_AXIS = 1e-9  # radii below this lie on the axis [mm]


def turned_curve(
    id: str,
    profile: Sequence[Curve],
    origin: Vector = (0.0, 0.0, 0.0),
    direction: Vector = (0.0, 0.0, 1.0),
    seams: tuple[float, ...] = (),
    tolerance: float = 0.01,
) -> Turned:
    """A closed profile of curves in (radius, height) [mm] turned once round an axis.

    The body's profile is the polygon that follows the curves within `tolerance` [mm], no chord
    turning by over 8 degrees; its volume and surface are the curves' own. ValueError where the
    curves don't meet or cross the axis.

    >>> from hollowright.shapes.curves import Arc, Line
    >>> half_circle = [Arc((0, 0), 10, -math.pi / 2, math.pi), Line((0, 10), (0, -10))]
    >>> ball = turned_curve("ball", half_circle)
    >>> round(ball.volume, 6), round(ball.surface, 6)
    (4188.790205, 1256.637061)
    """
    for before, after in zip([*profile[-1:], *profile[:-1]], profile, strict=True):
        if math.dist(before.end, after.start) > ON_AXIS:
            raise ValueError(f"{id}: the profile has a gap at {after.start}")
    points, _ = loop(profile, tolerance)
    corners = tuple((0.0 if abs(r) < ON_AXIS else r, z) for r, z in points)
    _, moment, _ = moments(profile)
    swept = sum(swept_area(curve) for curve in profile)
    return Turned(id, corners, origin, direction, seams, TURN * moment, swept)


def swept_area(curve: Curve) -> float:
    """Area that a curve in (radius, height) sweeps in a turn [mm2]: 2 pi x integral of r ds."""
    if isinstance(curve, Line):
        return math.pi * (curve.start[0] + curve.end[0]) * curve.length()
    if isinstance(curve, Arc):
        first, last = curve.start_angle, curve.start_angle + curve.sweep
        reach = curve.centre[0] * curve.sweep
        reach += curve.radius * (math.sin(last) - math.sin(first))
        return TURN * abs(curve.radius * reach)

    def step(u: float) -> float:
        place: Point = along.place(curve, u)
        return place[0] * math.hypot(*along.velocity(curve, u))

    return TURN * integral(step, 0.0, 1.0)
