"""What is seen of solids of revolution and what is hidden, exactly.

What is seen changes only where one projected curve crosses another or a surface turns away from the
eye. All these places are found in closed form; between two of them one ray at the middle decides.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from itertools import groupby, pairwise

import numpy as np

from hollowright.shapes import crossings
from hollowright.shapes.curves import TURN
from hollowright.shapes.rims import Rim, Straight, rims, straights
from hollowright.shapes.sight import Array, Sight
from hollowright.shapes.solids import Turned
from hollowright.shapes.space import Vector, add, unit
from hollowright.shapes.view import View

NEAR = 1e-6  # of a turn's radian or a line's length: places nearer than this are one
FLATTEST = 1e-6  # a circle seen edge-on is kept as an ellipse this slim

Source = Rim | Straight


@dataclass(frozen=True, slots=True)
class Piece:
    """A stretch of a curve in space, in its own parameter, wholly seen or wholly hidden."""

    source: Source
    start: float
    end: float
    hidden: bool

    def at(self, t: float) -> Vector:
        """The point in space at the curve's parameter t [mm]."""
        return at(self.source, t)


def pieces(
    solids: Sequence[Turned], view: View, axes: Sequence[tuple[Vector, Vector]] = ()
) -> tuple[Piece, ...]:
    """Every rim, contour and seam of the solids, and every axis, cut into pieces.

    `axes` are further straight lines (start, end) [mm], hidden by the solids like the rest. The
    solids may touch but not run through each other; axes may run through them.
    """
    circles = rims(solids, view.eye)
    lines = straights(solids, view.eye)
    lines += [Straight(-1, start, end, "axis", True) for start, end in axes]
    sources: list[Source] = [*circles, *lines]
    stretches = _stretches(circles, lines, view, _pierced(lines, solids))
    if not stretches:
        return ()
    middles = np.array([at(sources[s.source], (s.start + s.end) / 2) for s in stretches])
    hidden = Sight(solids, view.eye).hidden(middles)
    return tuple(
        Piece(sources[stretch.source], stretch.start, stretch.end, unseen)
        for stretch, unseen in _merged(stretches, [bool(flag) for flag in hidden])
    )


@dataclass(frozen=True, slots=True)
class _Stretch:
    """A stretch of the source with a number, in the source's own parameter."""

    source: int
    start: float
    end: float


def _stretches(
    circles: Sequence[Rim], lines: Sequence[Straight], view: View, pierced: Sequence[list[float]]
) -> list[_Stretch]:
    """Every source cut where what is seen of it may change."""
    on_circles, on_lines = _places(circles, lines, view)
    stretches: list[_Stretch] = []
    for i, circle in enumerate(circles):
        stops = _apart([t % TURN for t in (*on_circles[i], *circle.turns)])
        if len(stops) > 1 and stops[0] + TURN - stops[-1] < NEAR:
            stops.pop()
        stops = [*stops, stops[0] + TURN] if stops else [0.0, TURN]
        stretches += [_Stretch(i, a, b) for a, b in pairwise(stops)]
    for i in range(len(lines)):
        inside = [t for t in (*on_lines[i], *pierced[i]) if NEAR < t < 1 - NEAR]
        stops = [0.0, *_apart(inside), 1.0]
        stretches += [_Stretch(len(circles) + i, a, b) for a, b in pairwise(stops)]
    return stretches


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


def _merged(
    stretches: Sequence[_Stretch], hidden: Sequence[bool]
) -> Iterable[tuple[_Stretch, bool]]:
    """Neighbouring stretches that are alike made one, across the start of a circle too."""
    flagged = zip(stretches, hidden, strict=True)
    for number, group in groupby(flagged, key=lambda pair: pair[0].source):
        runs: list[tuple[_Stretch, bool]] = []
        for flag, members in groupby(group, key=lambda pair: pair[1]):
            chain = [stretch for stretch, _ in members]
            runs.append((_Stretch(number, chain[0].start, chain[-1].end), flag))
        (first, flag), (last, last_flag) = runs[0], runs[-1]
        round_again = abs(last.end - first.start - TURN) < NEAR
        if len(runs) > 1 and round_again and flag == last_flag:
            runs[0] = (_Stretch(number, last.start - TURN, first.end), flag)
            runs.pop()
        yield from runs


def at(source: Source, t: float) -> Vector:
    """The point in space at a curve's own parameter [mm]."""
    if isinstance(source, Rim):
        return add(add(source.centre, source.u, math.cos(t)), source.v, math.sin(t))
    return add(add(source.start, source.start, -t), source.end, t)
