"""Nets of forms with plane faces: faces laid flat side by side, folds, seams, plates to mitre."""

from __future__ import annotations

import math
from collections import deque
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import cached_property
from itertools import pairwise
from typing import Literal

from hollowright.shapes.curves import Point
from hollowright.shapes.developments.facets import Faceted, Side, around, bevel, groove
from hollowright.shapes.developments.tracing import without_repeats
from hollowright.shapes.outline import Outline, polygon
from hollowright.shapes.space import Vector, add, cross, dot, unit

Layout = Literal["star", "strip"]
"""*star*: faces round the first one, then round those. *strip*: the walls in a row, the first face
(and the last, if it isn't a wall) at the second face's edges."""


@dataclass(frozen=True, slots=True)
class Fold:
    """Where two faces of a net meet: the edge's corners, dihedral [rad], groove and line.

    `line` is the middle of the groove in the flat [mm]; `groove` its angle [rad]; `depth` how deep
    it is filed [mm], 0 where no thickness was given.
    """

    faces: tuple[int, int]
    side: Side
    dihedral: float
    line: tuple[Point, Point]
    depth: float = 0.0

    @property
    def groove(self) -> float:
        """Angle of the groove [rad]."""
        return groove(self.dihedral)


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


@dataclass(frozen=True)
class Net:
    """A form's faces in one flat piece, seen from outside, joined by the folds.

    `frames` place the outside faces; with a web left in the grooves they overlap by what each fold
    takes, and `polygon` cuts each face at its fold lines. `seams` are the edges that are cut and
    meet again: their sides are bevelled by `facets.bevel` of the dihedral.
    """

    form: Faceted
    frames: tuple[Frame, ...]
    folds: tuple[Fold, ...]
    insets: Mapping[Side, float]

    @cached_property
    def seams(self) -> tuple[Side, ...]:
        """Edges that are cut in the net."""
        folded = {fold.side for fold in self.folds}
        return tuple(side for side in self.form.sides if side not in folded)

    def flat(self, face: int, point: Vector) -> Point:
        """The point of the flat for a point of a face in space [mm]."""
        return self.frames[face].flat(point)

    def surface(self, point: Point) -> tuple[int, Vector]:
        """Face and point in space of a point of the flat; ValueError for one outside."""
        for face in range(len(self.frames)):
            corners = self.polygon(face)
            if all(_turn(a, b, point) >= -1e-9 for a, b in around(corners)):
                return face, self.frames[face].space(point)
        raise ValueError(f"the point {point} lies outside the net")

    def polygon(self, face: int) -> tuple[Point, ...]:
        """A face in the flat [mm], anticlockwise, cut at its fold lines."""
        corners = [self.frames[face].flat(point) for point in self.form.points(face)]
        numbers = self.form.faces[face]
        insets = [self.insets.get((min(a, b), max(a, b)), 0.0) for a, b in around(numbers)]
        return inset(corners, insets)

    @property
    def area(self) -> float:
        """Area of the flat [mm2]."""
        return sum(_area(self.polygon(face)) for face in range(len(self.frames)))

    def points(self) -> tuple[Point, ...]:
        """The net's outline as a polygon [mm], anticlockwise."""
        return without_repeats(self._walk(0, None), 1e-7)

    def outline(self) -> Outline:
        """The net's outline, of lines."""
        return polygon(self.points())

    def _walk(self, face: int, entered: Side | None) -> list[Point]:
        """Corners of a face and all that hangs on it, from the edge it was entered by."""
        numbers, corners = self.form.faces[face], self.polygon(face)
        sides = [(min(a, b), max(a, b)) for a, b in around(numbers)]
        first = sides.index(entered) + 1 if entered else 0
        hanging = {fold.side: fold.faces[1] for fold in self.folds if fold.faces[0] == face}
        found: list[Point] = []
        for i in range(len(sides)):
            number = (first + i) % len(sides)
            found.append(corners[number])
            if sides[number] in hanging:
                found += self._walk(hanging[sides[number]], sides[number])
        return found


def net(
    form: Faceted, layout: Layout = "star", thickness: float = 0.0, web: float = 0.0, k: float = 0.5
) -> Net:
    """A form's net, for folding: outside sizes less what each fold takes.

    Grooves are filed `thickness` - `web` deep [mm] from the inside; the web left bends round the
    groove's bottom on the line `k` x web above it. Each fold then takes 2 web tan(turn / 2) - turn
    k web of the faces' outside widths, turn = 180 degrees - dihedral. A web 0 is a sharp fold, the
    outside faces edge to edge. ValueError for a web thicker than the sheet, a k outside 0 to 1, or
    a layout that the form doesn't have. Source: the bent web's geometry; k as in a bend allowance.
    """
    if not (0 <= web <= thickness or web == thickness == 0) or not 0 <= k <= 1:
        raise ValueError(
            f"web {web} mm must lie between 0 and the sheet's {thickness}, k in 0 to 1"
        )
    links = _star(form) if layout == "star" else _strip(form)
    taken = {side: _taken(form.dihedral(side), web, k) for _, _, side in links}
    first = links[0][0]
    frames: dict[int, Frame] = {first: _frame(form, first)}
    for parent, child, side in links:
        frames[child] = _beside(form, frames[parent], child, side, 2 * taken[side])
    placed = tuple(frames[face] for face in range(len(form.faces)))
    folds = tuple(
        Fold(
            (p, c),
            side,
            form.dihedral(side),
            _line(form, frames[p], p, side, taken),
            thickness - web,
        )
        for p, c, side in links
    )
    return Net(form, placed, folds, taken)


def plate(form: Faceted, face: int, thickness: float = 0.0) -> tuple[Outline, Outline]:
    """A face cut apart for mitred edges: its outside outline and its inside one [mm].

    The inside is smaller by thickness x tan(bevel) at each edge. ValueError where nothing is left.
    """
    frame = _frame(form, face)
    corners = [frame.flat(point) for point in form.points(face)]
    numbers = form.faces[face]
    sides = [(min(a, b), max(a, b)) for a, b in around(numbers)]
    insets = [thickness * math.tan(bevel(form.dihedral(side))) for side in sides]
    inner = inset(corners, insets)
    if any(
        (b[0] - a[0]) * (d[0] - c[0]) + (b[1] - a[1]) * (d[1] - c[1]) <= 0
        for (a, b), (c, d) in zip(around(corners), around(inner), strict=True)
    ):
        raise ValueError(f"sheet of {thickness} mm leaves nothing of the inside of face {face}")
    return polygon(corners), polygon(inner)


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


Link = tuple[int, int, Side]


def _star(form: Faceted) -> list[Link]:
    found: list[Link] = []
    seen, waiting = {0}, deque([0])
    while waiting:
        face = waiting.popleft()
        for a, b in around(form.faces[face]):
            side = (min(a, b), max(a, b))
            other = next(f for f in form.sides[side] if f != face)
            if other not in seen:
                seen.add(other)
                waiting.append(other)
                found.append((face, other, side))
    return found


def _strip(form: Faceted) -> list[Link]:
    """The walls in a row, then the base and, of a prism or frustum, the top at the first wall."""
    sides = len(form.faces[0])
    walls = range(1, sides + 1)
    if len(form.faces) not in (sides + 1, sides + 2):
        raise ValueError("a strip of walls is for prisms, pyramids and frusta; take the star")
    row = [(a, b, _shared(form, a, b)) for a, b in pairwise(walls)]
    ends = [0] if len(form.faces) == sides + 1 else [0, sides + 1]
    return [*row, *((1, end, _shared(form, 1, end)) for end in ends)]


def _shared(form: Faceted, a: int, b: int) -> Side:
    return next(side for side, faces in form.sides.items() if set(faces) == {a, b})


def _taken(dihedral: float, web: float, k: float) -> float:
    """Half of what a fold takes: how far its line lies inside each face's own edge [mm]."""
    turn = groove(dihedral)
    return web * math.tan(turn / 2) - turn * k * web / 2


def _frame(form: Faceted, face: int) -> Frame:
    start, second, *_ = form.points(face)
    across = unit(add(second, start, -1))
    return Frame(start, across, cross(form.normal(face), across), (0.0, 0.0), 0.0)


def _beside(form: Faceted, parent: Frame, child: int, side: Side, overlap: float) -> Frame:
    """The child's frame: its edge along the parent's, moved in by what the fold takes."""
    numbers = form.faces[child]
    a, b = next(pair for pair in around(numbers) if set(pair) == set(side))
    start, end = parent.flat(form.corners[a]), parent.flat(form.corners[b])
    turn = math.atan2(end[1] - start[1], end[0] - start[0])
    across = unit(add(form.corners[b], form.corners[a], -1))
    up = cross(form.normal(child), across)
    place = (start[0] + overlap * math.sin(turn), start[1] - overlap * math.cos(turn))
    return Frame(form.corners[a], across, up, place, turn)


def _line(
    form: Faceted, frame: Frame, face: int, side: Side, taken: Mapping[Side, float]
) -> tuple[Point, Point]:
    a, b = next(pair for pair in around(form.faces[face]) if set(pair) == set(side))
    start, end = frame.flat(form.corners[a]), frame.flat(form.corners[b])
    size, reach = math.dist(start, end), taken[side]
    dx, dy = -(end[1] - start[1]) / size * reach, (end[0] - start[0]) / size * reach
    return ((start[0] + dx, start[1] + dy), (end[0] + dx, end[1] + dy))


def _area(corners: Sequence[Point]) -> float:
    return sum(a[0] * b[1] - b[0] * a[1] for a, b in around(corners)) / 2


def _turn(a: Point, b: Point, c: Point) -> float:
    return (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0])
