"""Turned bodies with no more points along their profile than a screen can show."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import replace

from hollowright.shapes.bodies import Body
from hollowright.shapes.curves import Point
from hollowright.shapes.meshes import CREASE
from hollowright.shapes.solids import Turned

BEND = math.radians(7.5)
"""A chord stands for no more of a bend than this."""


def coarse(body: Body, tolerance: float) -> Body:
    """A turned body along whose profile chords lie within `tolerance` [mm]; any other as it is."""
    if not isinstance(body, Turned):
        return body
    points = [start for start, _ in body.edges]
    kept = thinned(points, body.turns, tolerance)
    return replace(body, profile=tuple(kept)) if len(kept) >= 3 else body


def thinned(points: Sequence[Point], turns: Sequence[float], tolerance: float) -> list[Point]:
    """Those points of a closed profile that chords within `tolerance` [mm] need.

    turns: by how much it turns at each [rad]. Corners stay, and so do points on the axis.
    """
    fixed = [turn > CREASE or point[0] == 0 for point, turn in zip(points, turns, strict=True)]
    first = fixed.index(True) if True in fixed else 0
    order = [*range(first, len(points)), *range(first + 1)]
    kept = [first]
    between: list[int] = []
    for at in order[1:]:
        bend = sum(turns[i] for i in between)
        near = all(_off(points[i], points[kept[-1]], points[at]) <= tolerance for i in between)
        if between and (fixed[between[-1]] or bend > BEND or not near):
            kept.append(between[-1])
            between = []
        between.append(at)
    return [points[i] for i in kept]


def _off(point: Point, start: Point, end: Point) -> float:
    """How far a point lies off the line through two others [mm]."""
    (x, y), (a, b), (c, d) = point, start, end
    long = math.dist(start, end)
    return abs((c - a) * (y - b) - (d - b) * (x - a)) / long if long else math.dist(point, start)
