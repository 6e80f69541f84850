"""The lines that a drafter draws of meshes: creases, seams, and contours of their curved surfaces.

A contour is where the smooth surface that the mesh stands for turns away from the eye. It is found
where the normals between the corners lie square to the eye, and set out onto that surface.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from hollowright.shapes.boxes import Array, Flags, Numbers
from hollowright.shapes.mesh_surface import DRAWN_CREASE, Surface
from hollowright.shapes.rims import Kind
from hollowright.shapes.space import Vector
from hollowright.shapes.view import View

KINDS: tuple[Kind, ...] = ("rim", "contour", "seam", "axis")
AWAY = 1e-6  # a surface whose normal leans less than this [rad] towards the eye isn't seen


@dataclass(frozen=True)
class Segments:
    """Straight pieces of lines in the view's frame [mm].

    ends (n, 2, 3); nodes (n, 2): pieces that share a node join there; owner (n,), -1 for none;
    kind (n,), a place in KINDS; beside (n, 2): triangles that they lie on, -1 for none; unseen: the
    stretches that the line's own surface hides: pieces' numbers, from, to (shares of their length).
    """

    ends: Array
    nodes: Numbers
    owner: Numbers
    kind: Numbers
    beside: Numbers
    unseen: tuple[Numbers, Array, Array]

    def __len__(self) -> int:
        return len(self.ends)


def segments(shape: Surface, view: View, axes: Sequence[tuple[Vector, Vector]] = ()) -> Segments:
    """All lines of the meshes, and `axes`: further straight lines (start, end) [mm]."""
    parts = [_creases(shape), _contours(shape), _axes(axes, view)]
    starts = np.cumsum([0, *(len(part) for part in parts)])
    return Segments(
        np.concatenate([part.ends for part in parts]),
        np.concatenate([part.nodes for part in parts]),
        np.concatenate([part.owner for part in parts]),
        np.concatenate([part.kind for part in parts]),
        np.concatenate([part.beside for part in parts]),
        (
            np.concatenate([p.unseen[0] + s for p, s in zip(parts, starts, strict=False)]),
            np.concatenate([part.unseen[1] for part in parts]),
            np.concatenate([part.unseen[2] for part in parts]),
        ),
    )


def _creases(shape: Surface) -> Segments:
    """Creases and seams, and where both surfaces beside them look away."""
    which = np.flatnonzero(shape.drawn)
    nodes, sides = shape.edges[which], shape.sides[which]
    turns = shape.turns[which]
    smooth = (np.abs(turns) <= DRAWN_CREASE) & (sides[:, 0] != sides[:, 1])
    facing = np.stack([_facing(shape, nodes, sides[:, i]) for i in (0, 1)])
    hollow = (turns < 0) & ~smooth
    number = np.arange(len(which))
    both = _both_away(facing)
    rows = [(number[~hollow], *(bound[~hollow] for bound in both))]
    for side in facing:
        low, high = _span(AWAY - side)
        rows.append((number[hollow], low[hollow], high[hollow]))
    unseen = tuple(np.concatenate([row[i] for row in rows]) for i in range(3))
    return Segments(
        shape.corners[nodes],
        nodes,
        shape.owner[sides[:, 0]],
        np.where(smooth, KINDS.index("seam"), KINDS.index("rim")).astype(np.intp),
        sides,
        _real(unseen[0], unseen[1], unseen[2]),
    )


def _facing(shape: Surface, nodes: Numbers, triangle: Numbers) -> Array:
    """How far the surface of a triangle leans to the eye at both ends of its edges (n, 2)."""
    at = shape.triangles[triangle][:, None, :] == nodes[:, :, None]
    return np.take_along_axis(shape.smooth[triangle, :, 2], at.argmax(axis=2), axis=1)


def _both_away(facing: Array) -> tuple[Array, Array]:
    """The stretch along which both sides look away."""
    (low, high), (low2, high2) = (_span(AWAY - side) for side in facing)
    return np.maximum(low, low2), np.minimum(high, high2)


def _span(values: Array) -> tuple[Array, Array]:
    """From where to where values that run evenly from (:, 0) to (:, 1) are more than 0."""
    first, last = values[:, 0], values[:, 1]
    with np.errstate(divide="ignore", invalid="ignore"):
        turn = first / (first - last)
    low = np.where(first > 0, 0.0, np.where(last > 0, turn, 1.0))
    high = np.where(last > 0, 1.0, np.where(first > 0, turn, 0.0))
    return low, high


def _real(number: Numbers, low: Array, high: Array) -> tuple[Numbers, Array, Array]:
    """Only the stretches that have a length."""
    good = high > low
    return number[good], low[good], high[good]


def _contours(shape: Surface) -> Segments:
    """Where curved surfaces turn away from the eye."""
    toward = shape.smooth[:, :, 2] > AWAY
    mixed = shape.curved & toward.any(axis=1) & ~toward.all(axis=1)
    which = np.flatnonzero(mixed)
    up = toward[which]
    # Of three corners one differs from the others: the contour crosses the two edges at it.
    odd = np.where(up.sum(axis=1) == 1, up.argmax(axis=1), (~up).argmax(axis=1))
    ends, nodes = [], []
    for other in ((odd + 1) % 3, (odd + 2) % 3):
        ends.append(_crossing(shape, which, odd, other))
        nodes.append(_edge_node(shape, which, odd, other))
    unseen = np.flatnonzero(_hollow(shape, which))
    full = np.ones(len(unseen))
    return Segments(
        np.stack(ends, axis=1),
        np.stack(nodes, axis=1),
        shape.owner[which],
        np.full(len(which), KINDS.index("contour")),
        np.stack([which, which], axis=1),
        (unseen, full * 0, full),
    )


def _crossing(shape: Surface, which: Numbers, one: Numbers, two: Numbers) -> Array:
    """Where the contour crosses the triangles' edges, set out onto the curved surface.

    Along an edge the surface is the cubic that meets both ends square to their normals. The end
    with the lower number comes first, so that both triangles at an edge find the same point.
    """
    swap = shape.triangles[which, one] > shape.triangles[which, two]
    one, two = np.where(swap, two, one), np.where(swap, one, two)
    start, end = (shape.corners[shape.triangles[which, i]] for i in (one, two))
    first, last = (shape.smooth[which, i] for i in (one, two))
    t = (first[:, 2] / (first[:, 2] - last[:, 2]))[:, None]
    along = end - start
    leave = -(along * first).sum(axis=1, keepdims=True) * first
    arrive = -(along * last).sum(axis=1, keepdims=True) * last
    found: Array = start + t * along + t * (1 - t) * ((1 - t) * leave - t * arrive)
    return found


def _edge_node(shape: Surface, which: Numbers, one: Numbers, two: Numbers) -> Numbers:
    """A number for each triangle's edge: both triangles share it unless the edge is a crease."""
    edge = shape.edge_between(shape.triangles[which, one], shape.triangles[which, two])
    second = shape.creased[edge] & (shape.sides[edge, 0] != which)
    nodes: Numbers = len(shape.corners) + 2 * edge + second
    return nodes


def _hollow(shape: Surface, which: Numbers) -> Flags:
    """Whether a curved surface bends towards the eye where it turns away: then metal hides it."""
    a, b, c = (shape.corners[shape.triangles[which, i]] for i in range(3))
    u, v = b - a, c - a
    facing = shape.smooth[which, :, 2]
    du, dv = facing[:, 1] - facing[:, 0], facing[:, 2] - facing[:, 0]
    # How fast the surface turns to the eye as one goes across it towards the eye.
    uu, uv, vv = (u * u).sum(axis=1), (u * v).sum(axis=1), (v * v).sum(axis=1)
    p, q = u[:, 2], v[:, 2]
    gain = p * (vv * du - uv * dv) + q * (uu * dv - uv * du)
    hollow: Flags = gain < 0
    return hollow


def _axes(axes: Sequence[tuple[Vector, Vector]], view: View) -> Segments:
    frame = np.array([view.right, view.up, view.eye]).T
    count = len(axes)
    none = np.full((count, 2), -1)
    return Segments(
        np.array(axes, dtype=np.float64).reshape(-1, 2, 3) @ frame,
        -1 - np.arange(2 * count).reshape(-1, 2),
        none[:, 0],
        np.full(count, KINDS.index("axis")),
        none,
        (np.zeros(0, np.intp), np.zeros(0), np.zeros(0)),
    )
