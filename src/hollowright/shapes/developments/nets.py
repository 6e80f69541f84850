"""Nets of forms with plane faces: faces laid flat side by side, folds, seams, plates to mitre."""

from __future__ import annotations

import math
from collections import deque
from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property
from itertools import combinations, pairwise
from typing import Literal

from hollowright.shapes.curves import Bounds, Point
from hollowright.shapes.curves import around as bounds_of
from hollowright.shapes.developments.facets import Faceted, Side, around, bevel, groove
from hollowright.shapes.developments.net_cuts import (
    Cut,
    Frame,
    Link,
    cut_face,
    inset,
    nicks_of,
    sides_of,
)
from hollowright.shapes.developments.tracing import without_repeats
from hollowright.shapes.outline import Outline, polygon
from hollowright.shapes.space import Vector, add, cross, unit

ROUNDING = 1e-9  # mm2
NICKS = (1.0, 1.5, 2.2, 3.1, 4.3, 6.0, 9.0, 14.0)  # length along seam to fold; the least taken

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


@dataclass(frozen=True)
class Net:
    """A form's faces in one flat piece, seen from outside, joined by the folds.

    `frames` place the outside faces; with a web left in the grooves they overlap by what each fold
    takes, and `cuts` are the faces cut at their fold lines. `seams` are the edges that are cut and
    meet again: they are bevelled by `facets.bevel` of the dihedral. `left` are the faces left open.
    """

    form: Faceted
    frames: tuple[Frame, ...]
    folds: tuple[Fold, ...]
    cuts: tuple[Cut, ...]
    left: tuple[int, ...] = ()

    @property
    def faces(self) -> tuple[int, ...]:
        """Numbers of the faces that are in the flat."""
        return tuple(face for face in range(len(self.cuts)) if face not in self.left)

    @cached_property
    def polygons(self) -> tuple[tuple[Point, ...], ...]:
        """Each face in the flat [mm], anticlockwise, cut at its fold lines."""
        return tuple(tuple(point for point, _ in cut) for cut in self.cuts)

    @cached_property
    def seams(self) -> tuple[Side, ...]:
        """Edges that are cut in the net and meet again."""
        folded = {fold.side for fold in self.folds}
        return tuple(
            side
            for side, faces in self.form.sides.items()
            if side not in folded and not set(faces) & set(self.left)
        )

    def flat(self, face: int, point: Vector) -> Point:
        """The point of the flat for a point of a face in space [mm]."""
        return self.frames[face].flat(point)

    def surface(self, point: Point) -> tuple[int, Vector]:
        """Face and point in space of a point of the flat; ValueError for one outside."""
        for face in self.faces:
            corners = self.polygons[face]
            if all(_turn(a, b, point) >= -1e-9 for a, b in around(corners)):
                return face, self.frames[face].space(point)
        raise ValueError(f"the point {point} lies outside the net")

    def overlapping(self) -> tuple[Side, ...]:
        """Pairs of faces that lie over each other in the flat, so that it can't be one piece."""
        boxes = [bounds_of(corners) for corners in self.polygons]
        return tuple(
            (a, b)
            for a, b in combinations(self.faces, 2)
            if _meet(boxes[a], boxes[b]) and not _apart(self.polygons[a], self.polygons[b])
        )

    @property
    def area(self) -> float:
        """Area of the flat [mm2]."""
        return sum(_area(self.polygons[face]) for face in self.faces)

    def points(self) -> tuple[Point, ...]:
        """The net's outline as a polygon [mm], anticlockwise."""
        return without_repeats(self._walk(self.folds[0].faces[0], None), 1e-7)

    def outline(self) -> Outline:
        """The net's outline, of lines."""
        return polygon(self.points())

    def _walk(self, face: int, entered: Side | None) -> list[Point]:
        """Corners of a face and all that hangs on it, from the edge it was entered by."""
        cut = self.cuts[face]
        hanging = {fold.side: fold.faces[1] for fold in self.folds if fold.faces[0] == face}
        first = [side for _, side in cut].index(entered) + 1 if entered else 0
        found: list[Point] = []
        for point, side in (*cut[first:], *cut[:first]):
            found.append(point)
            if side in hanging:
                found += self._walk(hanging[side], side)
        return found


def net(
    form: Faceted,
    layout: Layout | None = None,
    thickness: float = 0.0,
    web: float = 0.0,
    k: float = 0.5,
    left: tuple[int, ...] = (),
) -> Net:
    """A form's net, for folding: outside sizes less what each fold takes.

    Grooves are filed `thickness` - `web` deep [mm] from the inside; the web left bends round the
    groove's bottom on the line `k` x web above it. Each fold then takes 2 web tan(turn / 2) - turn
    k web of the faces' outside widths, turn = 180 degrees - dihedral. A web 0 is a sharp fold, the
    outside faces edge to edge. Where two folds meet a seam, its ends are nicked. `left` faces
    are left open and aren't in the flat.
    Without a `layout` it is the first of star and strip whose faces don't overlap. ValueError for a
    web thicker than the sheet, a k outside 0 to 1, a layout that the form doesn't have, or faces
    that overlap. Source: the bent web's geometry; k as in a bend allowance.
    """
    if not 0 <= web <= thickness or not 0 <= k <= 1:
        raise ValueError(
            f"web {web} mm must lie between 0 and the sheet's {thickness}, k in 0 to 1"
        )
    walled = len(form.faces) - len(form.faces[0]) in (1, 2)
    both: tuple[Layout, ...] = ("star", "strip") if walled else ("star",)
    layouts = (layout,) if layout else both
    for each in layouts:
        links = _star(form, left) if each == "star" else _strip(form, left)
        found = _folded_flat(form, links, (thickness, web, k), left)
        if not found.overlapping():
            return found
    raise ValueError("the faces overlap in one flat: cut the net in two")


def _folded_flat(
    form: Faceted,
    links: Sequence[Link],
    sheet: tuple[float, float, float],
    left: tuple[int, ...],
) -> Net:
    thickness, web, k = sheet
    taken = {side: _taken(form.dihedral(side), web, k) for _, _, side in links}
    frames = {face: _frame(form, face) for face in (links[0][0], *left)}
    for parent, child, side in links:
        frames[child] = _beside(form, frames[parent], child, side, 2 * taken[side])
    placed = tuple(frames[face] for face in range(len(form.faces)))
    corners = [
        inset(
            [placed[face].flat(point) for point in form.points(face)],
            [taken.get(side, 0.0) for side in sides_of(form, face)],
        )
        for face in range(len(form.faces))
    ]
    folds = tuple(
        Fold((p, c), side, form.dihedral(side), _line(form, corners, (p, c), side), thickness - web)
        for p, c, side in links
    )
    nicks = nicks_of(form, corners, links)
    for deep in NICKS if nicks else (1.0,):
        cuts = tuple(cut_face(form, face, corners, nicks, deep) for face in range(len(form.faces)))
        found = Net(form, placed, folds, cuts, left)
        if not found.overlapping() and not _touching(found.points()):
            break
    return found


def plate(form: Faceted, face: int, thickness: float = 0.0) -> tuple[Outline, Outline]:
    """A face cut apart for mitred edges: its outside outline and its inside one [mm].

    The inside is smaller by thickness x tan(bevel) at each edge. ValueError where nothing is left.
    """
    frame = _frame(form, face)
    corners = [frame.flat(point) for point in form.points(face)]
    insets = [thickness * math.tan(bevel(form.dihedral(s))) for s in sides_of(form, face)]
    inner = inset(corners, insets)
    if any(
        (b[0] - a[0]) * (d[0] - c[0]) + (b[1] - a[1]) * (d[1] - c[1]) <= ROUNDING
        for (a, b), (c, d) in zip(around(corners), around(inner), strict=True)
    ):
        raise ValueError(f"sheet of {thickness} mm leaves nothing of the inside of face {face}")
    return polygon(corners), polygon(inner)


def _star(form: Faceted, left: tuple[int, ...]) -> list[Link]:
    """Round the first face, or where that is left open the last, or a wall."""
    last = len(form.faces) - 1
    middle = next(face for face in (0, last, 1) if face not in left)
    found: list[Link] = []
    seen, waiting = {middle, *left}, deque([middle])
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


def _strip(form: Faceted, left: tuple[int, ...]) -> list[Link]:
    """The walls in a row, then the base and, of a prism or frustum, the top at the first wall."""
    sides = len(form.faces[0])
    walls = range(1, sides + 1)
    if len(form.faces) not in (sides + 1, sides + 2):
        raise ValueError("a strip of walls is for prisms, pyramids and frusta; take the star")
    if set(left) & set(walls):
        raise ValueError("a strip has all its walls: leave the base or the top open")
    row = [(a, b, _shared(form, a, b)) for a, b in pairwise(walls)]
    ends = [0] if len(form.faces) == sides + 1 else [0, sides + 1]
    return [*row, *((1, end, _shared(form, 1, end)) for end in ends if end not in left)]


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
    form: Faceted, corners: Sequence[Sequence[Point]], faces: tuple[int, int], side: Side
) -> tuple[Point, Point]:
    """A fold line in the first face's direction, its ends where the shorter of both edges ends."""
    numbers = form.faces[faces[0]]
    order = next(pair for pair in around(numbers) if set(pair) == set(side))
    ends = [[corners[face][form.faces[face].index(v)] for v in order] for face in faces]
    middle = _middle(*ends[0])
    start, end = (min(pair, key=lambda p: math.dist(p, middle)) for pair in zip(*ends, strict=True))
    return start, end


def _middle(a: Point, b: Point) -> Point:
    return ((a[0] + b[0]) / 2, (a[1] + b[1]) / 2)


def _touching(points: Sequence[Point]) -> bool:
    """Whether an outline comes back to a point where it has been."""
    near = sorted(points)
    return any(
        math.dist(point, other) < 1e-6
        for i, point in enumerate(near)
        for other in near[i + 1 : i + 5]
    )


def _meet(a: Bounds, b: Bounds) -> bool:
    return a[0] <= b[2] and b[0] <= a[2] and a[1] <= b[3] and b[1] <= a[3]


def _apart(a: Sequence[Point], b: Sequence[Point]) -> bool:
    """Whether two convex polygons share no more than an edge: some side of one parts them."""
    return any(
        all(_turn(p, q, point) <= 1e-9 * math.dist(p, q) for point in other)
        for one, other in ((a, b), (b, a))
        for p, q in around(one)
        if math.dist(p, q) > 1e-9
    )


def _area(corners: Sequence[Point]) -> float:
    return sum(a[0] * b[1] - b[0] * a[1] for a, b in around(corners)) / 2


def _turn(a: Point, b: Point, c: Point) -> float:
    return (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0])
