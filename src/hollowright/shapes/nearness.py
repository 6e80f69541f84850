"""How near points lie to a chain of lines and arcs, and whether inside it, many at once."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
import numpy.typing as npt

from hollowright.shapes.curves import TURN, Arc, Line

Array = npt.NDArray[np.float64]
Flags = npt.NDArray[np.bool_]


def nearest(points: Array, chain: Sequence[Line | Arc]) -> Array:
    """Least distance [mm] from each of the points (n, 2) to the chain."""
    found = np.full(len(points), np.inf)
    lines = [curve for curve in chain if isinstance(curve, Line)]
    arcs = [curve for curve in chain if isinstance(curve, Arc)]
    if lines:
        starts, ends = (np.array([getattr(c, end) for c in lines]) for end in ("start", "end"))
        found = np.minimum(found, _to_lines(points, starts, ends))
    if arcs:
        found = np.minimum(found, _to_arcs(points, arcs))
    return found


def inside(points: Array, chain: Sequence[Line | Arc], tolerance: float) -> Flags:
    """Whether points (n, 2) lie inside a closed chain, told to within `tolerance` [mm] of it."""
    corners = np.array([point for curve in chain for point in curve.points(tolerance)[:-1]])
    following = np.roll(corners, -1, axis=0)
    x, y = points[:, :1], points[:, 1:]
    (x0, y0), (x1, y1) = corners.T, following.T
    spans = (y0 > y) != (y1 > y)
    with np.errstate(divide="ignore", invalid="ignore"):
        crossing = x0 + (y - y0) * (x1 - x0) / (y1 - y0)
    odd: Flags = ((spans & (x < crossing)).sum(axis=1) % 2).astype(np.bool_)
    return odd


def in_quads(points: Array, quads: Array, margin: float) -> Flags:
    """Whether points (n, 2) lie inside any of the quadrangles (m, 4, 2), deeper than a margin."""
    step = np.roll(quads, -1, axis=1) - quads
    away = points[:, None, None] - quads[None]
    left = step[None, ..., 0] * away[..., 1] - step[None, ..., 1] * away[..., 0]
    depth = left / np.maximum(np.hypot(step[..., 0], step[..., 1]), 1e-300)[None]
    deepest = np.maximum(depth.min(axis=2), -depth.max(axis=2)).max(axis=1)
    found: Flags = deepest > margin
    return found


def _to_lines(points: Array, starts: Array, ends: Array) -> Array:
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
