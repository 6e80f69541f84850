"""Meshes as surfaces: which triangles meet, where the surface is creased, its normals elsewhere."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np

from hollowright.shapes.boxes import Array, Flags, Numbers
from hollowright.shapes.meshes import Mesh
from hollowright.shapes.space import Vector
from hollowright.shapes.view import View

CREASE = math.radians(12)  # a surface that turns more between two triangles is creased there
DRAWN_CREASE = math.radians(8.5)  # so is one that turns more along a line that is drawn
FLAT = math.radians(0.05)  # triangles that turn less lie in one plane


@dataclass(frozen=True)
class Surface:
    """All meshes of a view together, in the view's own frame: right, up, towards the eye [mm].

    corners (n, 3); triangles (t, 3), by corners' numbers; owner (t,), whose each triangle is;
    normals (t, 3), flat; smooth (t, 3, 3), at each corner, of the surface that the mesh stands for;
    groups (t,), the smooth stretch of surface that each triangle belongs to; curved (t,), whether
    that stretch isn't flat. edges (e, 2): corners' numbers; sides (e, 2): the triangles on both
    sides; turns (e,) [rad], more than 0 where the metal is convex; creased (e,); drawn (e,).
    """

    corners: Array
    triangles: Numbers
    owner: Numbers
    normals: Array
    smooth: Array
    groups: Numbers
    curved: Flags
    edges: Numbers
    sides: Numbers
    turns: Array
    creased: Flags
    drawn: Flags

    @property
    def size(self) -> float:
        """Greatest extent [mm]."""
        return float(np.ptp(self.corners, axis=0).max()) if len(self.corners) else 0.0

    def edge_between(self, one: Numbers, two: Numbers) -> Numbers:
        """Numbers of the edges between corners, of any shape."""
        count = len(self.corners)
        wanted = np.minimum(one, two) * count + np.maximum(one, two)
        found: Numbers = np.searchsorted(_key(self.edges, count), wanted)  # edges are in this order
        return found

    def shifted(self, view: View, shifts: Sequence[Vector]) -> Surface:
        """The same with each mesh moved [mm]."""
        frame = np.array([view.right, view.up, view.eye])
        moves = np.array(shifts, dtype=np.float64).reshape(-1, 3) @ frame.T
        corners = self.corners.copy()
        corners[self.triangles] = self.corners[self.triangles] + moves[self.owner][:, None, :]
        return replace(self, corners=corners)


def surface(meshes: Sequence[Mesh], view: View) -> Surface:
    """The meshes as one surface; an edge that only one triangle has is taken as a crease."""
    corners, triangles, owner, lines = _together(meshes)
    corners = corners @ np.array([view.right, view.up, view.eye]).T
    area, normals = _normals(corners, triangles)
    edges, sides = _edges(triangles, len(corners))
    turns = _turns(corners, triangles, normals, edges, sides)
    alone = (sides[:, 0] == sides[:, 1]) | (area[sides] <= 0).any(axis=1)
    listed = np.isin(_key(edges, len(corners)), _key(lines, len(corners)))
    sharp = alone | (np.abs(turns) > CREASE)
    creased = sharp | (listed & (np.abs(turns) > DRAWN_CREASE))
    told = np.array([bool(mesh.lines) for mesh in meshes], dtype=bool)
    drawn = listed | (sharp & ~alone & ~told[owner[sides[:, 0]]])
    groups = _joined(len(triangles), sides[~creased, 0], sides[~creased, 1])
    bent = ~creased & (np.abs(turns) > FLAT)
    curved = np.zeros(int(groups.max(initial=-1)) + 1, dtype=bool)
    curved[groups[sides[bent, 0]]] = True
    fans = _fans(triangles, edges, sides, ~creased)
    smooth = _smooth(corners, triangles, area, normals, fans)
    return Surface(
        corners, triangles, owner, normals, smooth, groups, curved[groups],
        edges, sides, turns, creased, drawn,
    )  # fmt: skip


def _together(meshes: Sequence[Mesh]) -> tuple[Array, Numbers, Numbers, Numbers]:
    """Corners, triangles, their owners, and lines, all numbered through."""
    corners, triangles, owner, lines = [], [], [], []
    base = 0
    for number, mesh in enumerate(meshes):
        corners.append(np.array(mesh.vertices, dtype=np.float64).reshape(-1, 3))
        triangles.append(np.array(mesh.triangles, dtype=np.intp).reshape(-1, 3) + base)
        owner.append(np.full(len(mesh.triangles), number, dtype=np.intp))
        lines.append(np.array(mesh.lines, dtype=np.intp).reshape(-1, 2) + base)
        base += len(mesh.vertices)
    empty = np.zeros((0, 3))
    return (
        np.concatenate([empty, *corners]),
        np.concatenate([empty.astype(np.intp), *triangles]),
        np.concatenate([np.zeros(0, np.intp), *owner]),
        np.concatenate([np.zeros((0, 2), np.intp), *lines]),
    )


def _key(pairs: Numbers, count: int) -> Numbers:
    """One number for each pair of corners, whatever their order."""
    key: Numbers = pairs.min(axis=1) * count + pairs.max(axis=1)
    return key


def _normals(corners: Array, triangles: Numbers) -> tuple[Array, Array]:
    """Areas, and unit normals; both zero for a triangle without an area."""
    a, b, c = (corners[triangles[:, i]] for i in range(3))
    across = np.cross(b - a, c - a)
    size = np.linalg.norm(across, axis=1)
    longest = np.maximum(np.linalg.norm(b - a, axis=1), np.linalg.norm(c - a, axis=1))
    good = size > 1e-9 * longest**2
    area = np.where(good, size / 2, 0.0)
    return area, np.where(good[:, None], across / np.where(good, size, 1.0)[:, None], 0.0)


def _edges(triangles: Numbers, count: int) -> tuple[Numbers, Numbers]:
    """Edges as pairs of corners, and the two triangles on both sides of each."""
    halves = np.concatenate([triangles[:, [0, 1]], triangles[:, [1, 2]], triangles[:, [2, 0]]])
    whose = np.tile(np.arange(len(triangles)), 3)
    key = _key(halves, count)
    order = np.argsort(key, kind="stable")
    first = np.flatnonzero(np.diff(key[order], prepend=-1))
    second = np.minimum(first + 1, len(order) - 1)
    paired = key[order[second]] == key[order[first]]
    other = np.where(paired, whose[order[second]], whose[order[first]])
    sides = np.stack([whose[order[first]], other], axis=1)
    return halves[order[first]], sides


def _turns(
    corners: Array, triangles: Numbers, normals: Array, edges: Numbers, sides: Numbers
) -> Array:
    """By how much the surface turns at each edge [rad]: more than 0 where the metal is convex."""
    one, two = normals[sides[:, 0]], normals[sides[:, 1]]
    turn = np.arctan2(np.linalg.norm(np.cross(one, two), axis=1), (one * two).sum(axis=1))
    beyond = corners[triangles[sides[:, 1]].sum(axis=1) - edges.sum(axis=1)]
    hollow = ((beyond - corners[edges[:, 0]]) * one).sum(axis=1) > 0
    turns: Array = np.where(hollow, -turn, turn)
    return turns


def _joined(count: int, one: Numbers, two: Numbers) -> Numbers:
    """The number of the cluster that each of `count` things belongs to."""
    from scipy.sparse import coo_array
    from scipy.sparse.csgraph import connected_components

    links = coo_array((np.ones(len(one), dtype=np.int8), (one, two)), shape=(count, count))
    _, labels = connected_components(links, directed=False)
    found: Numbers = labels.astype(np.intp)
    return found


def _fans(triangles: Numbers, edges: Numbers, sides: Numbers, joined: Flags) -> Numbers:
    """For each corner of each triangle (t, 3) the smooth fan round the corner that it is in."""
    one: list[Numbers] = []
    two: list[Numbers] = []
    for end in (0, 1):
        corner = edges[joined, end]
        for side, found in ((0, one), (1, two)):
            triangle = sides[joined, side]
            place = (triangles[triangle] == corner[:, None]).argmax(axis=1)
            found.append(3 * triangle + place)
    labels = _joined(triangles.size, np.concatenate(one), np.concatenate(two))
    return labels.reshape(-1, 3)


def _smooth(
    corners: Array, triangles: Numbers, area: Array, normals: Array, fans: Numbers
) -> Array:
    """Normals at the corners: the mean over each fan, by the triangles' angles and areas.

    The area weighs in so that a broad flat beside a narrow bend keeps its own normal. The tip of a
    cone has none (zero): every contour may run into it.
    """
    points = corners[triangles]
    out = points[:, [1, 2, 0]] - points
    back = points[:, [2, 0, 1]] - points
    angle = np.arctan2(np.linalg.norm(np.cross(out, back), axis=2), (out * back).sum(axis=2))
    weight = (angle * area[:, None]).ravel()
    count = int(fans.max(initial=-1)) + 1
    total = np.stack(
        [np.bincount(fans.ravel(), weight * np.repeat(normals[:, i], 3), count) for i in range(3)],
        axis=1,
    )
    size = np.linalg.norm(total, axis=1)
    mean = (total / np.where(size > 0, size, 1.0)[:, None])[fans]
    pointed = ((mean * normals[:, None, :]).sum(axis=2) < math.cos(CREASE)).ravel()
    tips = np.zeros(count, dtype=bool)
    tips[fans.ravel()[pointed]] = True
    smooth: Array = np.where(tips[fans][:, :, None], 0.0, mean)
    return smooth
