"""A plan's piece as plain data to be turned on a screen: surfaces, lines, and where parts go."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np

from hollowright.output.picture import picture_parts
from hollowright.output.picture_axes import widest
from hollowright.output.scene_profile import coarse
from hollowright.plan.plan import Plan
from hollowright.shapes.bodies import Body
from hollowright.shapes.boxes import Array, Flags, Numbers
from hollowright.shapes.mesh_surface import DRAWN_CREASE, FLAT
from hollowright.shapes.meshes import Line, Mesh, creases

UNIT = 0.001
"""Corners are given as whole numbers of this [mm]."""

STEPS = 1000
"""Normals are given as whole numbers, this long."""

FINE = 1 / 800
"""How far a chord may lie off a curve, as a share of the widest part: half a dot of a screen."""

SLIVER = 0.004
"""A triangle lower than this [mm] has no normal to go by."""

SMOOTH, CREASE, SEAM, HOLLOW = 0, 1, 2, 4
"""Kinds of edges: drawn only where the surface turns away from the eye; always; always, narrow.

HOLLOW is added where the surface turns inwards.
"""


def scene(plan: Plan) -> dict[str, Any]:
    """The piece's solids in their assembled places, JSON's own types all through.

    `unit` [mm], `solids`: `id`; `part`: the part's id; `name`; `positions`: x, y, z of each corner
    in units; `triangles`: three corners each, anticlockwise from outside; `normals`: x, y, z each,
    STEPS long; `edges`: five numbers each, two corners, the two normals beside, the kind; `shift`
    [mm]: where it goes drawn apart. Edges in the middle of a plane are left out. ValueError where
    the parts can't be drawn apart as the piece says.
    """
    listed = [(part.id, solid) for part in plan.parts for solid in part.solids]
    bodies = [solid.body for _, solid in listed]
    if not bodies:
        return {"title": plan.piece.title, "unit": UNIT, "solids": []}
    moved = picture_parts(
        bodies,
        [solid.label for _, solid in listed],
        [],
        [solid.pull for _, solid in listed],
        [solid.rides for _, solid in listed],
    )
    tolerance = FINE * widest(bodies)
    solids = [
        {"id": body.id, "part": part, "name": each.name, **shape(body, tolerance)}
        | {"shift": [round(x, 3) for x in each.shift]}
        for (part, _), body, each in zip(listed, bodies, moved, strict=True)
    ]
    return {"title": plan.piece.title, "unit": UNIT, "solids": solids}


def shape(body: Body, tolerance: float) -> dict[str, list[int]]:
    """A body's corners, triangles, normals and edges, chords within `tolerance` [mm]."""
    mesh = coarse(body, tolerance).mesh(tolerance)
    skin = _skin(mesh)
    whole, number = np.unique(
        np.rint(skin.normals * STEPS).astype(np.intp), axis=0, return_inverse=True
    )
    edges = _edges(skin, mesh.lines or creases(mesh))
    edges[:, 2:4] = number.ravel()[edges[:, 2:4]]
    return {
        "positions": np.rint(skin.corners / UNIT).astype(np.intp).ravel().tolist(),
        "triangles": skin.triangles.ravel().tolist(),
        "normals": whole.ravel().tolist(),
        "edges": edges.ravel().tolist(),
    }


@dataclass(frozen=True)
class _Skin:
    """A mesh as arrays: corners [mm], triangles, their outward normals, which are too thin."""

    corners: Array
    triangles: Numbers
    normals: Array
    slivers: Flags


def _skin(mesh: Mesh) -> _Skin:
    corners, triangles = np.array(mesh.vertices), np.array(mesh.triangles, dtype=np.intp)
    a, b, c = (corners[triangles[:, i]] for i in range(3))
    across = np.cross(b - a, c - a)
    double = np.maximum(np.linalg.norm(across, axis=1), 1e-300)
    longest = np.max([np.linalg.norm(p - q, axis=1) for p, q in ((a, b), (b, c), (c, a))], axis=0)
    return _Skin(corners, triangles, across / double[:, None], double < SLIVER * longest)


def _edges(skin: _Skin, lines: Sequence[Line]) -> Numbers:
    """Two corners, two triangles and the kind of each edge that can ever be drawn."""
    count = len(skin.corners)
    sides = np.sort(skin.triangles[:, [0, 1, 1, 2, 2, 0]].reshape(-1, 2), axis=1)
    keys = sides[:, 0] * count + sides[:, 1]
    order = np.argsort(keys, kind="stable")
    found, first, times = np.unique(keys[order], return_index=True, return_counts=True)
    one, other = order[first] // 3, order[first + times - 1] // 3
    one, other = np.where(skin.slivers[one], other, one), np.where(skin.slivers[other], one, other)
    cosine = np.einsum("ij,ij->i", skin.normals[one], skin.normals[other])
    drawn = np.array(lines, dtype=np.intp).reshape(-1, 2)
    listed = np.isin(found, np.min(drawn, axis=1) * count + np.max(drawn, axis=1))
    kind = np.where(listed, np.where(cosine < np.cos(DRAWN_CREASE), CREASE, SEAM), SMOOTH)
    beyond = skin.corners[skin.triangles[other]].mean(axis=1) - skin.corners[found // count]
    rise = np.einsum("ij,ij->i", skin.normals[one], beyond)
    kept = listed | (cosine < np.cos(FLAT))
    kind = np.where((rise > 0) & (cosine < np.cos(FLAT)), kind + HOLLOW, kind)
    edges: Numbers = np.stack([found // count, found % count, one, other, kind], axis=1)[kept]
    return edges
