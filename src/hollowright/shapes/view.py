"""Axonometric views with hidden lines: what is seen of solids of revolution, as exact curves.

Views are orthographic, upright z, as ISO 5456-3 names them. What is seen changes only where one
projected curve crosses another or a surface turns away from the eye. All these places are found in
closed form; between two of them one ray at the middle decides.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from itertools import groupby, pairwise

import numpy as np

from hollowright.shapes import crossings
from hollowright.shapes.curves import TURN, Arc, Curve, EllipseArc, Line, Point, extremes
from hollowright.shapes.rims import Kind, Rim, Straight, rims, straights
from hollowright.shapes.sight import Array, Sight
from hollowright.shapes.solids import Turned
from hollowright.shapes.space import Vector, add, cross, dot, unit

NEAR = 1e-6  # of a turn's radian or a line's length: places nearer than this are one
FLATTEST = 1e-6  # a circle seen edge-on is kept as an ellipse this slim


@dataclass(frozen=True, slots=True)
class View:
    """An orthographic view: unit vectors to the right, up the paper and towards the eye."""

    right: Vector
    up: Vector
    eye: Vector

    def project(self, point: Vector) -> Point:
        """A point on the paper [mm]."""
        return (dot(self.right, point), dot(self.up, point))


@dataclass(frozen=True, slots=True)
class Stroke:
    """A piece of a projected curve [mm], wholly seen or wholly hidden.

    `owner` is the solid's id; `outer` tells that the curve isn't one of a bore.
    """

    curve: Curve
    visible: bool
    kind: Kind
    owner: str
    outer: bool


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


def strokes(
    solids: Sequence[Turned], view: View, axes: Sequence[tuple[Vector, Vector]] = ()
) -> tuple[Stroke, ...]:
    """Everything a drafter draws of the solids, cut into seen and hidden pieces.

    `axes` are further straight lines (start, end) [mm], hidden by the solids like the rest; their
    owner is "". The solids may touch but not run through each other.
    """
    circles = rims(solids, view.eye)
    lines = straights(solids, view.eye)
    lines += [Straight(-1, start, end, "axis", True) for start, end in axes]
    sources: list[Rim | Straight] = [*circles, *lines]
    pieces = _pieces(circles, lines, view, _pierced(lines, solids))
    if not pieces:
        return ()
    middles = np.array([_at(sources[piece.source], piece.middle) for piece in pieces])
    hidden = Sight(solids, view.eye).hidden(middles)
    found: list[Stroke] = []
    for piece, unseen in _merged(pieces, [bool(flag) for flag in hidden]):
        source = sources[piece.source]
        curve = _projected(source, piece, view)
        if curve is None or (isinstance(source, Rim) and not source.drawn):
            continue
        kind: Kind = "rim" if isinstance(source, Rim) else source.kind
        owner = solids[source.owner].id if source.owner >= 0 else ""
        found.append(Stroke(curve, not unseen, kind, owner, source.outer))
    return tuple(found)


@dataclass(frozen=True, slots=True)
class _Piece:
    """A stretch of the source with a number, in the source's own parameter."""

    source: int
    start: float
    end: float

    @property
    def middle(self) -> float:
        return (self.start + self.end) / 2


def _pieces(
    circles: Sequence[Rim], lines: Sequence[Straight], view: View, pierced: Sequence[list[float]]
) -> list[_Piece]:
    """Every source cut where what is seen of it may change."""
    on_circles, on_lines = _places(circles, lines, view)
    pieces: list[_Piece] = []
    for i, circle in enumerate(circles):
        stops = _apart([t % TURN for t in (*on_circles[i], *circle.turns)])
        if len(stops) > 1 and stops[0] + TURN - stops[-1] < NEAR:
            stops.pop()
        stops = [*stops, stops[0] + TURN] if stops else [0.0, TURN]
        pieces += [_Piece(i, a, b) for a, b in pairwise(stops)]
    for i in range(len(lines)):
        inside = [t for t in (*on_lines[i], *pierced[i]) if NEAR < t < 1 - NEAR]
        stops = [0.0, *_apart(inside), 1.0]
        pieces += [_Piece(len(circles) + i, a, b) for a, b in pairwise(stops)]
    return pieces


def _pierced(lines: Sequence[Straight], solids: Sequence[Turned]) -> list[list[float]]:
    """Parameters at which lines of no solid run into one or out of it."""
    found: list[list[float]] = []
    for line in lines:
        span = math.dist(line.start, line.end)
        if line.owner >= 0 or span == 0:
            found.append([])
            continue
        along = Sight(solids, unit(add(line.end, line.start, -1)))
        found.append((along.meetings(np.array([line.start])).ravel() / span).tolist())
    return found


def _places(
    circles: Sequence[Rim], lines: Sequence[Straight], view: View
) -> tuple[list[list[float]], list[list[float]]]:
    """Parameters of all crossings on each circle and on each line."""
    paper = np.array([view.right, view.up]).T
    centres = np.array([circle.centre for circle in circles]).reshape(-1, 3) @ paper
    axes = np.array([(circle.u, circle.v) for circle in circles]).reshape(-1, 2, 3) @ paper
    axes = _not_flat(axes)
    ends = np.array([(line.start, line.end) for line in lines]).reshape(-1, 2, 3) @ paper
    starts, steps = ends[:, 0], ends[:, 1] - ends[:, 0]
    straight, round_ = crossings.lines_ellipses(starts, steps, centres, axes)
    on_lines = crossings.join([crossings.lines_lines(starts, steps), straight])
    on_circles = crossings.join([crossings.ellipses_ellipses(centres, axes), round_])
    return _sorted_out(on_circles, len(circles)), _sorted_out(on_lines, len(lines))


def _not_flat(axes: Array) -> Array:
    """Circles seen edge-on opened by a hair, so that they have an inside."""
    u, v = axes[:, 0], axes[:, 1]
    least = FLATTEST * np.hypot(u[:, 0], u[:, 1])
    flat = np.hypot(v[:, 0], v[:, 1]) < least
    opened = axes.copy()
    opened[flat, 1] = FLATTEST * np.stack([-u[flat, 1], u[flat, 0]], axis=1)
    return opened


def _sorted_out(found: crossings.Found, count: int) -> list[list[float]]:
    """Parameters by the number of their curve."""
    lists: list[list[float]] = [[] for _ in range(count)]
    for owner, t in zip(found[0].tolist(), found[1].tolist(), strict=True):
        lists[owner].append(t)
    return lists


def _apart(values: Iterable[float]) -> list[float]:
    """Values in order, of a cluster the first."""
    kept: list[float] = []
    for value in sorted(values):
        if not kept or value - kept[-1] > NEAR:
            kept.append(value)
    return kept


def _merged(pieces: Sequence[_Piece], hidden: Sequence[bool]) -> Iterable[tuple[_Piece, bool]]:
    """Neighbouring pieces that are alike made one, across the start of a circle too."""
    flagged = zip(pieces, hidden, strict=True)
    for number, group in groupby(flagged, key=lambda pair: pair[0].source):
        runs: list[tuple[_Piece, bool]] = []
        for flag, members in groupby(group, key=lambda pair: pair[1]):
            chain = [piece for piece, _ in members]
            runs.append((_Piece(number, chain[0].start, chain[-1].end), flag))
        (first, flag), (last, last_flag) = runs[0], runs[-1]
        round_again = abs(last.end - first.start - TURN) < NEAR
        if len(runs) > 1 and round_again and flag == last_flag:
            runs[0] = (_Piece(number, last.start - TURN, first.end), flag)
            runs.pop()
        yield from runs


def _at(source: Rim | Straight, t: float) -> Vector:
    if isinstance(source, Rim):
        return add(add(source.centre, source.u, math.cos(t)), source.v, math.sin(t))
    return add(add(source.start, source.start, -t), source.end, t)


def _projected(source: Rim | Straight, piece: _Piece, view: View) -> Curve | None:
    """A piece on the paper; None when it is seen end on."""
    if isinstance(source, Rim):
        return _projected_arc(source, piece, view)
    start, end = (view.project(_at(source, t)) for t in (piece.start, piece.end))
    return Line(start, end) if math.dist(start, end) > NEAR else None


def _projected_arc(source: Rim, piece: _Piece, view: View) -> Curve:
    centre, major, minor = (view.project(p) for p in (source.centre, source.u, source.v))
    sweep = min(piece.end - piece.start, TURN)
    slim = math.hypot(*minor) / math.hypot(*major)
    if slim < 10 * FLATTEST:
        arc = EllipseArc(centre, major, minor, piece.start, sweep)
        turns = extremes(0.0, piece.start, sweep, 2)
        across = sorted((arc.start, arc.end, *(arc.at(t) for t in turns)))
        return Line(across[0], across[-1])
    if abs(slim - 1) < NEAR:
        left = math.copysign(1.0, major[0] * minor[1] - major[1] * minor[0])
        first = math.atan2(major[1], major[0]) + left * piece.start
        return Arc(centre, math.hypot(*major), first, left * sweep)
    return EllipseArc(centre, major, minor, piece.start, sweep)
