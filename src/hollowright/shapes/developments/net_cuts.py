"""Faces of a net cut at their fold lines, and nicked where folds meet at the end of a seam."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from hollowright.shapes.curves import Point
from hollowright.shapes.developments.facets import Faceted, Side, around
from hollowright.shapes.space import Vector, add, dot

Link = tuple[int, int, Side]
"""A face, the face that hangs on it, and the edge between them."""

Cut = tuple[tuple[Point, Side | None], ...]
"""A face's corners in the flat [mm], each with the edge after it (None across a nick)."""

Nick = tuple[Side, int, int]
"""A fold's edge, one of its corners, and the face that is nicked there."""


NEAR = 1e-9  # mm


@dataclass(frozen=True, slots=True)
class Frame:
    """A face's place in the flat: a corner in space and in the flat, and two unit vectors."""

    corner: Vector
    across: Vector
    up: Vector
    place: Point
    turn: float

    def flat(self, point: Vector) -> Point:
        """The point of the flat [mm] for a point of the face in space."""
        out = add(point, self.corner, -1)
        x, y = dot(out, self.across), dot(out, self.up)
        c, s = math.cos(self.turn), math.sin(self.turn)
        return (self.place[0] + c * x - s * y, self.place[1] + s * x + c * y)

    def space(self, point: Point) -> Vector:
        """The point in space [mm] for a point of the flat, on the face's plane."""
        x, y = point[0] - self.place[0], point[1] - self.place[1]
        c, s = math.cos(self.turn), math.sin(self.turn)
        along = add(self.corner, self.across, c * x + s * y)
        return add(along, self.up, c * y - s * x)


def inset(corners: Sequence[Point], by: Sequence[float]) -> tuple[Point, ...]:
    """A convex polygon's corners with each side moved inside [mm], corner i before side i."""
    lines = []
    for (a, b), reach in zip(around(corners), by, strict=True):
        size = math.dist(a, b)
        dx, dy = (b[0] - a[0]) / size, (b[1] - a[1]) / size
        lines.append((a[0] - reach * dy, a[1] + reach * dx, dx, dy))
    found = []
    for before, after in zip([lines[-1], *lines[:-1]], lines, strict=True):
        turn = before[2] * after[3] - before[3] * after[2]
        x, y = after[0] - before[0], after[1] - before[1]
        reach = (x * after[3] - y * after[2]) / turn
        found.append((before[0] + reach * before[2], before[1] + reach * before[3]))
    return tuple(found)


def sides_of(form: Faceted, face: int) -> list[Side]:
    """A face's edges in order, each from the corner of its number."""
    return [(min(a, b), max(a, b)) for a, b in around(form.faces[face])]


def cut_face(
    form: Faceted,
    face: int,
    corners: Sequence[Sequence[Point]],
    nicks: Mapping[Nick, Point],
    deep: float,
) -> Cut:
    """A face's corners with the edge after each; where folds meet at a seam's end, it is nicked.

    Along the seam a nick is `deep` times as long as along the fold, at most half the seam.
    """
    sides, numbers, own = sides_of(form, face), form.faces[face], corners[face]
    found: list[tuple[Point, Side | None]] = []
    for i, corner in enumerate(own):
        before, after = sides[i - 1], sides[i]
        if (after, numbers[i], face) in nicks:
            end = nicks[after, numbers[i], face]
            found += [(_nicked(corner, own[i - 1], end, deep), None), (end, after)]
        elif (before, numbers[i], face) in nicks:
            end = nicks[before, numbers[i], face]
            found += [(end, None), (_nicked(corner, own[(i + 1) % len(own)], end, deep), after)]
        else:
            found.append((corner, after))
    return tuple(found)


def nicks_of(
    form: Faceted, corners: Sequence[Sequence[Point]], links: Sequence[Link]
) -> dict[Nick, Point]:
    """Where a face's fold ends short, since its neighbour has another fold there: that end."""
    folded = {side for _, _, side in links}
    found = {}
    for parent, child, side in links:
        for face, other in ((parent, child), (child, parent)):
            start, end = (corners[face][form.faces[face].index(v)] for v in side)
            middle = ((start[0] + end[0]) / 2, (start[1] + end[1]) / 2)
            for v, own in zip(side, (start, end), strict=True):
                one, two = (
                    all(s in folded for s in sides_of(form, each) if v in s)
                    for each in (face, other)
                )
                theirs = corners[other][form.faces[other].index(v)]
                if two and not one and math.dist(theirs, middle) < math.dist(own, middle) - NEAR:
                    found[side, v, face] = theirs
    return found


def _nicked(corner: Point, along: Point, end: Point, deep: float) -> Point:
    """Where a nick ends on the seam from a corner."""
    seam = math.dist(corner, along)
    share = min(deep * math.dist(corner, end) / seam, 0.5)
    return (
        corner[0] + share * (along[0] - corner[0]),
        corner[1] + share * (along[1] - corner[1]),
    )
