"""Flat curves followed by chords or by cubic curves, within a stated tolerance."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable, Sequence
from dataclasses import replace
from itertools import pairwise

from hollowright.shapes.cubic import Cubic
from hollowright.shapes.curves import Curve, Line, Point

Flat = Callable[[float], Point]

PANELS = 8  # a curve is looked at in so many pieces at least
DEPTH = 24  # and each of them is halved so often at most
SAFE = 0.9  # share of the tolerance that is used, as the furthest place is only nearly known
SLOPE = 1e-3  # step of a slope, as a share of its panel


def chords(curve: Flat, ends: Sequence[float], tolerance: float) -> list[Point]:
    """Points on a curve, both ends included, no chord further off than `tolerance` [mm].

    `ends` are the curve's first and last parameter and, between them in order, every parameter
    where it has a corner. ValueError for a tolerance that isn't positive.
    """
    _positive(tolerance)
    found = [curve(ends[0])]
    for low, high in _panels(ends):
        _chords(curve, (low, found[-1]), (high, curve(high)), SAFE * tolerance, found, DEPTH)
    return found


def cubics(curve: Flat, ends: Sequence[float], tolerance: float) -> list[Cubic]:
    """Cubic curves that follow a curve within `tolerance` [mm], with its own slope at each end.

    `ends` as for `chords`. ValueError for a tolerance that isn't positive.
    """
    _positive(tolerance)
    found: list[Cubic] = []
    for low, high in _panels(ends):
        _cubics(curve, low, high, SAFE * tolerance, found, DEPTH)
    return [_joined(before, cubic) for before, cubic in pairwise([None, *found]) if cubic]


def hermite(start: Point, slope: Point, end: Point, end_slope: Point) -> Cubic:
    """The cubic between two points with the slopes there [mm for the whole way]."""
    control = (start[0] + slope[0] / 3, start[1] + slope[1] / 3)
    control_end = (end[0] - end_slope[0] / 3, end[1] - end_slope[1] / 3)
    return Cubic(start, control, control_end, end)


def sides(points: Sequence[Point]) -> list[Curve]:
    """Straight lines through points in order; a side of no length is left out."""
    return [Line(a, b) for a, b in pairwise(points) if a != b]


def without_repeats(points: Iterable[Point], near: float = 1e-9) -> tuple[Point, ...]:
    """The corners of a closed polygon, without a point within `near` [mm] of the one before."""
    kept: list[Point] = []
    for point in points:
        if not kept or math.dist(kept[-1], point) > near:
            kept.append(point)
    while len(kept) > 1 and math.dist(kept[0], kept[-1]) <= near:
        kept.pop()
    return tuple(kept)


def _positive(tolerance: float) -> None:
    if not tolerance > 0:
        raise ValueError(f"tolerance must be more than 0 mm, not {tolerance}")


def _panels(ends: Sequence[float]) -> list[tuple[float, float]]:
    whole = ends[-1] - ends[0]
    found = []
    for low, high in pairwise(ends):
        count = max(1, math.ceil(PANELS * (high - low) / whole))
        places = [low + (high - low) * i / count for i in range(count)] + [high]
        found += list(pairwise(places))
    return found


Placed = tuple[float, Point]


def _chords(
    curve: Flat, low: Placed, high: Placed, tolerance: float, found: list[Point], depth: int
) -> None:
    a, b = low[0], high[0]
    inner = [(t, curve(t)) for t in ((3 * a + b) / 4, (a + b) / 2, (a + 3 * b) / 4)]
    if depth == 0 or all(_off(p, low[1], high[1]) <= tolerance for _, p in inner):
        found.append(high[1])
        return
    _chords(curve, low, inner[1], tolerance, found, depth - 1)
    _chords(curve, inner[1], high, tolerance, found, depth - 1)


def _cubics(
    curve: Flat, low: float, high: float, tolerance: float, found: list[Cubic], depth: int
) -> None:
    whole = high - low
    cubic = hermite(curve(low), _slope(curve, low, whole), curve(high), _slope(curve, high, -whole))
    near = (math.dist(cubic.at(s), curve(low + s * whole)) for s in (0.25, 0.5, 0.75))
    if depth == 0 or all(off <= tolerance for off in near):
        found.append(cubic)
        return
    middle = (low + high) / 2
    _cubics(curve, low, middle, tolerance, found, depth - 1)
    _cubics(curve, middle, high, tolerance, found, depth - 1)


def _slope(curve: Flat, place: float, panel: float) -> Point:
    """The curve's slope over |panel|, taken on the panel's side alone (fourth order)."""
    step = SLOPE * panel
    points = [curve(place + i * step) for i in range(5)]
    weights = (-25 / 12, 4, -3, 4 / 3, -1 / 4)
    scale = abs(panel) / step
    xs, ys = zip(*points, strict=True)
    return (scale * _dot(weights, xs), scale * _dot(weights, ys))


def _off(point: Point, start: Point, end: Point) -> float:
    dx, dy = end[0] - start[0], end[1] - start[1]
    px, py = point[0] - start[0], point[1] - start[1]
    size = math.hypot(dx, dy)
    return abs(dx * py - dy * px) / size if size else math.hypot(px, py)


def _joined(before: Cubic | None, cubic: Cubic) -> Cubic:
    return replace(cubic, start=before.end) if before else cubic


def _dot(weights: Sequence[float], values: Sequence[float]) -> float:
    return sum(w * v for w, v in zip(weights, values, strict=True))
