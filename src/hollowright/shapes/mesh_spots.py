"""A spot on each mesh that is seen, well inside the surface that shows most, towards the right."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from hollowright.shapes.boxes import Array, Flags, Numbers
from hollowright.shapes.mesh_sight import Cover
from hollowright.shapes.mesh_surface import Surface, surface
from hollowright.shapes.meshes import Mesh
from hollowright.shapes.space import Vector
from hollowright.shapes.view import View

ACROSS = 32  # places looked at across and up each mesh
TALL = 0.6  # how much a place counts less for being above or below the middle


def mesh_spots(meshes: Sequence[Mesh], view: View, tolerance: float = 0.05) -> tuple[Vector, ...]:
    """For each mesh a point of its surface [mm]; one all the same if it is wholly hidden.

    tolerance [mm] is the meshes' own.
    """
    return surface_spots(surface(meshes, view), len(meshes), view, tolerance)


def surface_spots(shape: Surface, count: int, view: View, tolerance: float) -> tuple[Vector, ...]:
    """The same of `count` meshes that are one surface already."""
    cover = Cover(shape, tolerance)
    frame = np.array([view.right, view.up, view.eye])
    found = []
    for number in range(count):
        mine = np.flatnonzero(shape.owner == number)
        spot = _seen_spot(shape, cover, mine, number)
        if spot is None:
            facing = mine[np.argmax(shape.normals[mine, 2])]
            spot = shape.corners[shape.triangles[facing]].mean(axis=0)
        x, y, z = (spot @ frame).tolist()
        found.append((x, y, z))
    return tuple(found)


def _seen_spot(shape: Surface, cover: Cover, mine: Numbers, number: int) -> Array | None:
    """The best place of a raster over one mesh; None where nothing of it is seen."""
    corners = shape.corners[shape.triangles[mine]][:, :, :2].reshape(-1, 2)
    low, high = corners.min(axis=0), corners.max(axis=0)
    share = (np.arange(ACROSS) + 0.5) / ACROSS
    xs, ys = (low + share[:, None] * (high - low)).T
    points = np.stack([np.tile(xs, ACROSS), np.repeat(ys, ACROSS)], axis=1)
    at, first, depth = cover.nearest(points)
    own = shape.owner[first] == number
    at, first, depth = at[own], first[own], depth[own]
    if not len(at):
        return None
    groups = shape.groups[first]
    fullest = np.bincount(groups).argmax()
    at, depth = at[groups == fullest], depth[groups == fullest]
    shown = np.zeros(ACROSS * ACROSS, dtype=bool)
    shown[at] = True
    clear = _clearance(shown.reshape(ACROSS, ACROSS)).ravel()[at]
    roomy = np.flatnonzero(clear >= max(1, clear.max() // 2))
    spread = np.maximum(high - low, 1e-12)
    x, y = ((points[at[roomy]] - low) / spread).T
    best = roomy[np.argmax(x - TALL * np.abs(y - y.mean()))]
    place: Array = np.append(points[at[best]], depth[best])
    return place


def _clearance(shown: Flags) -> Numbers:
    """How many steps each place of a raster is from one that isn't shown."""
    clear = np.zeros(shown.shape, dtype=np.intp)
    left = np.pad(shown, 1)
    while left.any():
        clear += left[1:-1, 1:-1]
        core = left[1:-1, 1:-1]
        near = left[:-2, 1:-1] & left[2:, 1:-1] & left[1:-1, :-2] & left[1:-1, 2:]
        left = np.pad(core & near, 1)
    return clear
