"""What triangles hide of straight lines, exactly: for each line the stretches behind metal.

Everything is in the view's own frame: right, up, towards the eye. Only triangles that look towards
the eye can be the first to hide something behind a closed mesh. A triangle hides a line where the
line runs inside its three edges and behind its plane; each of the four bounds is linear along the
line, so what is hidden is one stretch, without any sampling.
"""

from __future__ import annotations

import numpy as np

from hollowright.shapes.boxes import Array, Flags, Numbers, around_each, meeting
from hollowright.shapes.mesh_surface import Surface

EDGE_ON = 1e-6  # triangles that lean less than this [rad] to the eye cover nothing
NEAR = 1.1  # tolerances: how far behind a triangle a line still touches it
REACH = 8.0  # how far a line may lie behind facets of its own curved surface, in NEAR

Stretches = tuple[Numbers, Array, Array]


class Cover:
    """The triangles that can hide something, ready to be asked."""

    def __init__(self, shape: Surface, tolerance: float) -> None:
        """Pack the triangles that look towards the eye; `tolerance` [mm] is the mesh's own."""
        facing = shape.normals[:, 2] > EDGE_ON
        self._which = np.flatnonzero(facing)
        self._shape = shape
        self._normals = shape.normals[self._which]
        points = shape.corners[shape.triangles[self._which]]
        self._boxes = around_each(points)
        self._top = points[:, :, 2].max(axis=1)
        self._level = (self._normals * points[:, 0]).sum(axis=1)
        self._edges = _edge_bounds(points)
        self._near = NEAR * tolerance + 1e-7 * shape.size
        self._least = self._margins(facing, tolerance)

    def _margins(self, facing: Flags, tolerance: float) -> Array:
        """How far inside each edge a line must be to be hidden: more than 0 at outlines only.

        Neighbours that both look to the eye overlap by a hair, so that no gap shows between them.
        """
        shape = self._shape
        inner = facing[shape.sides].all(axis=1) & (shape.sides[:, 0] != shape.sides[:, 1])
        corners = shape.triangles[self._which]
        edge = shape.edge_between(corners, corners[:, [1, 2, 0]])
        margins: Array = np.where(inner[edge], -1e-7 * shape.size, 0.1 * tolerance)
        return margins

    def stretches(self, ends: Array, beside: Numbers) -> Stretches:
        """What is hidden of lines (n, 2, 3): their numbers, from, to (shares of their length).

        beside (n, 2): triangles that each line lies on, -1 for none: facets of the same curved
        surface hide it only from well before it, since they stand in for what bends round it.
        """
        line, tri = meeting(around_each(ends), self._boxes)
        before = self._top[tri] > ends[line, :, 2].min(axis=1) + self._near
        line, tri = line[before], tri[before]
        bounds = self._bounds(ends, line, tri)
        bounds[3] -= (self._near + self._slack(beside, line, tri))[:, None]
        low, high = _within(bounds)
        good = high > low
        return line[good], low[good], high[good]

    def _bounds(self, ends: Array, line: Numbers, tri: Numbers) -> Array:
        """How far inside the edges and behind the plane the ends lie: (4, pairs, 2) [mm]."""
        points = ends[line]
        found = np.empty((4, len(line), 2))
        for k in range(3):
            a, b, c = self._edges[tri, k].T
            for end in (0, 1):
                found[k, :, end] = a * points[:, end, 0] + b * points[:, end, 1] + c
            found[k] -= self._least[tri, k][:, None]
        along = (points * self._normals[tri][:, None, :]).sum(axis=2)
        found[3] = self._level[tri][:, None] - along
        return found

    def _slack(self, beside: Numbers, line: Numbers, tri: Numbers) -> Array:
        """What a line may lie behind facets of a curved surface that it lies on [mm]."""
        shape = self._shape
        group = np.append(np.where(shape.curved, shape.groups, -1), -1)
        covering = group[self._which[tri]][:, None]
        own = ((group[beside][line] == covering) & (covering >= 0)).any(axis=1)
        slack: Array = np.where(own, REACH * self._near, 0.0)
        return slack

    def nearest(self, points: Array) -> tuple[Numbers, Numbers, Array]:
        """Of points on the paper (n, 2) those that metal is seen at, its triangle and height there.

        Numbers of the points, numbers of the triangles, heights towards the eye [mm].
        """
        boxes = np.concatenate([points, points], axis=1)
        at, tri = meeting(boxes, self._boxes)
        a, b, c = np.moveaxis(self._edges[tri], 2, 0)
        x, y = points[at].T
        inside = (a * x[:, None] + b * y[:, None] + c >= 0).all(axis=1)
        at, tri, x, y = at[inside], tri[inside], x[inside], y[inside]
        nx, ny, nz = self._normals[tri].T
        depth = (self._level[tri] - nx * x - ny * y) / nz
        order = np.lexsort((-depth, at))
        at, tri, depth = at[order], tri[order], depth[order]
        first = np.flatnonzero(np.diff(at, prepend=-1))
        return at[first], self._which[tri[first]], depth[first]


def _edge_bounds(points: Array) -> Array:
    """For triangles (n, 3, 3) the edges as a x + b y + c: how far inside a point is (n, 3, 3)."""
    start = points[:, :, :2]
    step = start[:, [1, 2, 0]] - start
    length = np.maximum(np.linalg.norm(step, axis=2), 1e-300)
    a, b = -step[:, :, 1] / length, step[:, :, 0] / length
    return np.stack([a, b, -(a * start[:, :, 0] + b * start[:, :, 1])], axis=2)


def _within(bounds: Array) -> tuple[Array, Array]:
    """From where to where all bounds (k, n, 2), each even along the line, are more than 0."""
    first, last = bounds[:, :, 0], bounds[:, :, 1]
    with np.errstate(divide="ignore", invalid="ignore"):
        turn = first / (first - last)
    low = np.where(first > 0, 0.0, np.where(last > 0, turn, 2.0)).max(axis=0)
    high = np.where(last > 0, 1.0, np.where(first > 0, turn, -1.0)).min(axis=0)
    return low, high


def united(stretches: Stretches, gap: float = 1e-9) -> Stretches:
    """Stretches of lines made one where they overlap or are `gap` apart; in order."""
    line, low, high = stretches
    order = np.lexsort((low, line))
    line, low, high = line[order], low[order], high[order]
    reach = np.maximum.accumulate(high + 4.0 * line) - 4.0 * line
    before = np.append(-9.0, reach[:-1])
    begins = np.append(True, line[1:] != line[:-1])[: len(line)] | (low > before[: len(line)] + gap)
    first = np.flatnonzero(begins)
    last = np.append(first[1:], len(line)) - 1 if len(first) else first
    return line[first], low[first], reach[last]
