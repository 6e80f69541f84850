"""Lines that two touching parts share: of lines that coincide only the first is drawn."""

from __future__ import annotations

import numpy as np

from hollowright.shapes.boxes import Array, Numbers, around_each, meeting
from hollowright.shapes.mesh_sight import Stretches

PARALLEL = 0.995  # cosine of the angle below which two lines run together


def coincident(ends: Array, owner: Numbers, near: float) -> Stretches:
    """Stretches of lines (n, 2, 3) that lie within `near` [mm] of a line of an earlier owner.

    Lines of no owner (-1) neither cover nor are covered.
    """
    boxes = around_each(ends)
    grown = boxes + np.array([-near, -near, near, near])
    line, other = meeting(grown, boxes)
    earlier = (owner[other] < owner[line]) & (owner[other] >= 0)
    line, other = line[earlier], other[earlier]
    span = ends[:, 1] - ends[:, 0]
    length = np.linalg.norm(span, axis=1)
    way = span / np.where(length > 0, length, 1.0)[:, None]
    together = np.abs((way[line] * way[other]).sum(axis=1)) > PARALLEL
    line, other = line[together], other[together]
    rest = ends[line] - ends[other, 0][:, None, :]
    along = (rest * way[other][:, None, :]).sum(axis=2)
    off = np.linalg.norm(rest - along[:, :, None] * way[other][:, None, :], axis=2)
    low, high = _inside(along, length[other])
    good = (off.max(axis=1) < near) & (high > low)
    return line[good], low[good], high[good]


def _inside(along: Array, length: Array) -> tuple[Array, Array]:
    """From where to where a place that runs evenly along a line is within 0 and a length."""
    first, last = along[:, 0], along[:, 1]
    with np.errstate(divide="ignore", invalid="ignore"):
        at_start = -first / (last - first)
        at_end = (length - first) / (last - first)
    low = np.minimum(at_start, at_end)
    high = np.maximum(at_start, at_end)
    return np.clip(low, 0.0, 1.0), np.clip(high, 0.0, 1.0)
