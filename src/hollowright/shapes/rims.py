"""The curves that a drafter draws of solids of revolution: rims, contours, seams; exact, in space.

A corner of the profile sweeps a rim (a circle). A contour is the straight line along which a
cylinder or cone turns away from the eye. A seam is drawn round the section where a join is.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import Literal

from hollowright.shapes.curves import Point
from hollowright.shapes.sight import facing_frame
from hollowright.shapes.solids import Turned
from hollowright.shapes.space import Vector, add, dot

Edge = tuple[Point, Point]
Kind = Literal["rim", "contour", "seam", "axis"]

CREASE = math.radians(12)  # a corner of the profile that turns less is smooth: no line is drawn
STRAIGHT = 1e-6  # [rad] a corner that turns less is none


@dataclass(frozen=True, slots=True)
class Rim:
    """A circle: centre + u cos t + v sin t [mm]; `turns` are the t at which its sides turn away."""

    owner: int
    centre: Vector
    u: Vector
    v: Vector
    turns: tuple[float, ...]
    drawn: bool
    outer: bool


@dataclass(frozen=True, slots=True)
class Straight:
    """A straight line in space [mm]; `owner` is the solid's number, -1 for none."""

    owner: int
    start: Vector
    end: Vector
    kind: Kind
    outer: bool


def rims(solids: Sequence[Turned], eye: Vector) -> list[Rim]:
    """Every circle swept by a corner; of those that coincide one is drawn."""
    found: list[Rim] = []
    known: set[tuple[float, ...]] = set()
    for owner, solid in enumerate(solids):
        u, v, axis = facing_frame(solid, eye)
        for before, after in _corners(solid):
            r, z = after[0]
            centre = add(solid.origin, axis, z)
            key = _same(centre, axis, r)
            sharp = _turn(before, after) > CREASE and key not in known
            known.add(key)
            turns = tuple(t for edge in (before, after) for t in _turning(edge, v, axis, eye))
            outer = _outer(before) or _outer(after)
            found.append(Rim(owner, centre, _times(u, r), _times(v, r), turns, sharp, outer))
    return found


def straights(solids: Sequence[Turned], eye: Vector) -> list[Straight]:
    """Every contour and every seam."""
    return [
        line
        for owner, solid in enumerate(solids)
        for line in (*_contours(owner, solid, eye), *_seams(owner, solid))
    ]


def bends(solid: Turned) -> bool:
    """Whether a corner of the profile stands for a bend that is smooth, as a dome's do."""
    turns = (_turn(before, after) for before, after in _corners(solid))
    return any(STRAIGHT < turn <= CREASE for turn in turns)


def _contours(owner: int, solid: Turned, eye: Vector) -> Iterable[Straight]:
    u, v, axis = facing_frame(solid, eye)
    for edge in solid.edges:
        for t in _turning(edge, v, axis, eye):
            out = add(_times(u, math.cos(t)), v, math.sin(t))
            start, end = (add(add(solid.origin, axis, z), out, r) for r, z in edge)
            yield Straight(owner, start, end, "contour", _outer(edge))


def _seams(owner: int, solid: Turned) -> Iterable[Straight]:
    for angle in solid.seams:
        for edge in solid.edges:
            if edge[0][0] > 0 or edge[1][0] > 0:
                start, end = (solid.at(r, z, angle) for r, z in edge)
                yield Straight(owner, start, end, "seam", _outer(edge))


def _corners(solid: Turned) -> Iterable[tuple[Edge, Edge]]:
    """The two sides that meet at each corner off the axis."""
    edges = [edge for edge in solid.edges if edge[0] != edge[1]]
    for before, after in zip(edges[-1:] + edges[:-1], edges, strict=True):
        if after[0][0] > 0:
            yield before, after


def _outer(edge: Edge) -> bool:
    """Whether the surface swept by a side looks away from the axis (profiles run anticlockwise)."""
    return edge[1][1] > edge[0][1]


def _turn(before: Edge, after: Edge) -> float:
    """By how much the profile turns at a corner [rad], 0 for straight on."""
    angles = [math.atan2(b[1] - a[1], b[0] - a[0]) for a, b in (before, after)]
    return abs(math.remainder(angles[1] - angles[0], 2 * math.pi))


def _turning(edge: Edge, v: Vector, axis: Vector, eye: Vector) -> tuple[float, ...]:
    """Angles at which the surface swept by a side lies edge-on: h sin t = k e, k its slope."""
    (r0, z0), (r1, z1) = edge
    if z0 == z1 or (r0 == 0 and r1 == 0):
        return ()
    toward = dot(v, eye)
    level = (r1 - r0) / (z1 - z0) * dot(axis, eye)
    if abs(level) >= toward:
        return ()
    t = math.asin(level / toward)
    return (t, math.pi - t)


def _same(centre: Vector, axis: Vector, radius: float) -> tuple[float, ...]:
    """A key that is equal for circles that coincide to a millionth of a millimetre."""
    lead = next((x for x in axis if abs(x) > 1e-6), 1.0)
    normal = _times(axis, math.copysign(1.0, lead))
    return tuple(round(x, 6) + 0.0 for x in (*centre, *normal, radius))


def _times(a: Vector, factor: float) -> Vector:
    return (a[0] * factor, a[1] * factor, a[2] * factor)
