"""A spot on a solid that is seen, for a leader to point at."""

from __future__ import annotations

import math
from collections.abc import Sequence

import numpy as np

from hollowright.shapes.bodies import Body
from hollowright.shapes.mesh_spots import mesh_spots
from hollowright.shapes.sight import Sight, facing_frame
from hollowright.shapes.solids import Turned
from hollowright.shapes.space import Vector, add, dot
from hollowright.shapes.strokes import turned_only
from hollowright.shapes.view import View

TURNS = tuple(math.radians(degrees) for degrees in (40, 25, 60, 10, 90, 120, 150, 170, -30, -90))


def spots(bodies: Sequence[Body], view: View) -> tuple[Vector, ...]:
    """For each body a point of its surface that is seen, towards the right, on its fullest face.

    A body that is wholly hidden gets a point of its surface all the same.
    """
    solids = turned_only(bodies)
    if solids is None:
        return mesh_spots([body.mesh() for body in bodies], view)
    sight = Sight(solids, view.eye)
    return tuple(_best(solid, view, sight) for solid in solids)


def _best(solid: Turned, view: View, sight: Sight) -> Vector:
    points = _candidates(solid, view)
    hidden = sight.hidden(np.array(points))
    seen = (point for point, unseen in zip(points, hidden, strict=True) if not unseen)
    return next(seen, points[0])


def _candidates(solid: Turned, view: View) -> list[Vector]:
    """Points half way along each face, those of the face that shows most first."""
    u, v, axis = facing_frame(solid, view.eye)
    found: list[tuple[float, list[Vector]]] = []
    for (r0, z0), (r1, z1) in solid.edges:
        if r0 == r1 == 0:
            continue
        r, foot = (r0 + r1) / 2, add(solid.origin, axis, (z0 + z1) / 2)
        shows = (z1 - z0) * dot(v, view.eye) - (r1 - r0) * dot(axis, view.eye)
        around = [add(add(foot, u, r * math.cos(t)), v, r * math.sin(t)) for t in TURNS]
        found.append((shows, around))
    found.sort(key=lambda face: -face[0])
    return [spot for _, around in found for spot in around]
