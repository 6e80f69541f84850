"""How near points lie to a chain of lines and arcs, and whether inside it, many at once."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

import numpy as np
import numpy.typing as npt

from hollowright.shapes.curves import TURN, Arc, Line

Array = npt.NDArray[np.float64]
Flags = npt.NDArray[np.bool_]
Index = npt.NDArray[np.intp]

BLOCK = 128  # points that are looked at together


def nearest(points: Array, chain: Sequence[Line | Arc], reach: float) -> Array:
    """Least distance [mm] from each of the points (n, 2) to the chain; infinite beyond `reach`."""
    found = np.full(len(points), np.inf)
    bounds = np.array([curve.bounds() for curve in chain])
    for block in _blocks(points):
        here = points[block]
        near = np.flatnonzero(_over(here, bounds, reach)).tolist()
        lines = [curve for curve in (chain[i] for i in near) if isinstance(curve, Line)]
        arcs = [curve for curve in (chain[i] for i in near) if isinstance(curve, Arc)]
        if lines:
            found[block] = np.minimum(found[block], _to_lines(here, lines))
        if arcs:
            found[block] = np.minimum(found[block], _to_arcs(here, arcs))
    return found


def overlaps(bounds: Array, margin: float) -> list[tuple[int, int]]:
    """Pairs of boxes (n, 4: low x, low y, high x, high y) that overlap or come within a margin."""
    order = np.argsort(bounds[:, 0], kind="stable")
    low_x, low_y, high_x, high_y = bounds[order].T
    last = np.searchsorted(low_x, high_x + margin, side="right")
    found: list[tuple[int, int]] = []
    for i, end in enumerate(last.tolist()):
        rest = slice(i + 1, end)
        over = (low_y[rest] <= high_y[i] + margin) & (high_y[rest] >= low_y[i] - margin)
        here = int(order[i])
        found += [(here, int(j)) for j in order[rest][over]]
    return found


def _blocks(points: Array) -> Iterable[Index]:
    """Numbers of the points in blocks that lie near each other from left to right."""
    order = np.argsort(points[:, 0], kind="stable")
    return [order[i : i + BLOCK] for i in range(0, len(order), BLOCK)]


def _over(points: Array, bounds: Array, reach: float) -> Flags:
    """Which of the boxes come within reach of a block of points."""
    low, high = points.min(axis=0) - reach, points.max(axis=0) + reach
    over: Flags = (bounds[:, 0] <= high[0]) & (bounds[:, 2] >= low[0])
    over &= (bounds[:, 1] <= high[1]) & (bounds[:, 3] >= low[1])
    return over


def inside(points: Array, chain: Sequence[Line | Arc], tolerance: float) -> Flags:
    """Whether points (n, 2) lie inside a closed chain, told to within `tolerance` [mm] of it."""
    corners = np.array([point for curve in chain for point in curve.points(tolerance)[:-1]])
    (x0, y0), (x1, y1) = corners.T, np.roll(corners, -1, axis=0).T
    found = np.zeros(len(points), dtype=np.bool_)
    for block in _blocks(points):
        x, y = points[block, :1], points[block, 1:]
        spans = (y0 > y) != (y1 > y)
        with np.errstate(divide="ignore", invalid="ignore"):
            crossing = x0 + (y - y0) * (x1 - x0) / (y1 - y0)
        found[block] = (spans & (x < crossing)).sum(axis=1) % 2 == 1
    return found


def in_quads(points: Array, quads: Array, margin: float) -> Flags:
    """Whether points (n, 2) lie inside any of the quadrangles (m, 4, 2), deeper than a margin."""
    found = np.zeros(len(points), dtype=np.bool_)
    bounds = np.concatenate([quads.min(axis=1), quads.max(axis=1)], axis=1)
    for block in _blocks(points):
        near = quads[_over(points[block], bounds, 0.0)]
        if len(near):
            found[block] = _deep(points[block], near) > margin
    return found


def _deep(points: Array, quads: Array) -> Array:
    """How deep points lie inside the quadrangle that holds them deepest; negative outside."""
    step = np.roll(quads, -1, axis=1) - quads
    away = points[:, None, None] - quads[None]
    left = step[None, ..., 0] * away[..., 1] - step[None, ..., 1] * away[..., 0]
    depth = left / np.maximum(np.hypot(step[..., 0], step[..., 1]), 1e-300)[None]
    deepest: Array = np.maximum(depth.min(axis=2), -depth.max(axis=2)).max(axis=1)
    return deepest


def _to_lines(points: Array, lines: Sequence[Line]) -> Array:
    starts, ends = (np.array([getattr(line, end) for line in lines]) for end in ("start", "end"))
    way = ends - starts
    squared = np.maximum((way * way).sum(axis=1), 1e-300)
    gap = points[:, None] - starts[None]
    share = np.clip((gap * way[None]).sum(axis=2) / squared, 0.0, 1.0)
    off = gap - share[..., None] * way[None]
    least: Array = np.hypot(off[..., 0], off[..., 1]).min(axis=1)
    return least


def _to_arcs(points: Array, arcs: Sequence[Arc]) -> Array:
    centres = np.array([arc.centre for arc in arcs])
    radii = np.array([arc.radius for arc in arcs])
    first = np.array(
        [arc.start_angle if arc.sweep > 0 else arc.start_angle + arc.sweep for arc in arcs]
    )
    sweeps = np.array([abs(arc.sweep) for arc in arcs])
    ends = np.array([(arc.start, arc.end) for arc in arcs])
    gap = points[:, None] - centres[None]
    within = (np.arctan2(gap[..., 1], gap[..., 0]) - first) % TURN <= sweeps
    to_ring = np.abs(np.hypot(gap[..., 0], gap[..., 1]) - radii)
    off = points[:, None, None] - ends[None]
    to_ends = np.hypot(off[..., 0], off[..., 1]).min(axis=2)
    least: Array = np.where(within, to_ring, to_ends).min(axis=1)
    return least
