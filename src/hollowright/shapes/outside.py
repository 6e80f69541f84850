"""Which surfaces of a mesh look out freely, as a part's outside does and its bore doesn't."""

from __future__ import annotations

from collections.abc import Collection

import numpy as np

from hollowright.shapes.boxes import Flags, Numbers
from hollowright.shapes.mesh_surface import Surface

ASKED = 3  # largest triangles of each smooth stretch of surface that are asked


def outside(shape: Surface, owners: Collection[int]) -> Flags:
    """For each triangle whether its smooth stretch of surface looks out freely.

    It does where straight out from the most of it its own body isn't met again. Told for the
    bodies with these numbers; False for all others.
    """
    found = np.zeros(len(shape.triangles), dtype=bool)
    for owner in owners:
        mine = np.flatnonzero(shape.owner == owner)
        points = shape.corners[shape.triangles[mine]]
        across = np.cross(points[:, 1] - points[:, 0], points[:, 2] - points[:, 0])
        order = np.lexsort((-np.linalg.norm(across, axis=1), shape.groups[mine]))
        group = shape.groups[mine][order]
        first = np.flatnonzero(np.diff(group, prepend=-1))
        rank = np.arange(len(group)) - np.repeat(first, np.diff(np.append(first, len(group))))
        asked = order[rank < ASKED]
        free = ~_meets(shape, mine, asked)
        groups = shape.groups[mine][asked]
        votes = np.bincount(groups, np.where(free, 1, -1), int(shape.groups.max()) + 1)
        found[mine] = votes[shape.groups[mine]] > 0
    return found


def _meets(shape: Surface, mine: Numbers, asked: Numbers) -> Flags:
    """Whether a ray straight out from the middle of each asked triangle meets another."""
    points = shape.corners[shape.triangles[mine]]
    normals = shape.normals[mine]
    level = (normals * points[:, 0]).sum(axis=1)
    hits = np.zeros(len(asked), dtype=bool)
    for i, number in enumerate(asked):
        start, way = points[number].mean(axis=0), normals[number]
        closing = normals @ way
        with np.errstate(divide="ignore", invalid="ignore"):
            far = (level - normals @ start) / closing
        ahead = np.flatnonzero((far > 1e-6 * shape.size) & np.isfinite(far) & (far < 1e9))
        at = start + far[ahead, None] * way
        inside = np.ones(len(ahead), dtype=bool)
        for k in range(3):
            a, b = points[ahead, k], points[ahead, (k + 1) % 3]
            inside &= (np.cross(b - a, at - a) * normals[ahead]).sum(axis=1) >= 0
        hits[i] = inside.any()
    return hits
