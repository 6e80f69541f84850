"""Lines that touching parts share: where a line of one part lies along one of another."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from hollowright.shapes.boxes import Array, Numbers, around_each, meeting
from hollowright.shapes.mesh_sight import Stretches

PARALLEL = 0.995  # cosine of the angle below which two lines run together


@dataclass(frozen=True)
class Placed:
    """Straight lines (n, 2, 3) [mm] and the number of the part that each is of, -1 for none."""

    ends: Array
    owner: Numbers


def coincident(lines: Placed, others: Placed, near: float, *, earlier: bool) -> Stretches:
    """Stretches of lines that lie within `near` [mm] of other parts' lines, of no part excepted.

    earlier: only parts with lesser numbers count.
    """
    grown = around_each(lines.ends) + np.array([-near, -near, near, near])
    line, other = meeting(grown, around_each(others.ends))
    mine, its = lines.owner[line], others.owner[other]
    wanted = (mine >= 0) & (its >= 0) & ((its < mine) if earlier else (its != mine))
    line, other = line[wanted], other[wanted]
    way, _ = _ways(lines.ends)
    along, length = _ways(others.ends)
    together = np.abs((way[line] * along[other]).sum(axis=1)) > PARALLEL
    line, other = line[together], other[together]
    rest = lines.ends[line] - others.ends[other, 0][:, None, :]
    ahead = (rest * along[other][:, None, :]).sum(axis=2)
    off = np.linalg.norm(rest - ahead[:, :, None] * along[other][:, None, :], axis=2)
    low, high = _inside(ahead, length[other])
    good = (off.max(axis=1) < near) & (high > low)
    return line[good], low[good], high[good]


def _ways(ends: Array) -> tuple[Array, Array]:
    """Unit vectors along lines, and the lines' lengths [mm]."""
    span = ends[:, 1] - ends[:, 0]
    length = np.linalg.norm(span, axis=1)
    return span / np.where(length > 0, length, 1.0)[:, None], length


def _inside(along: Array, length: Array) -> tuple[Array, Array]:
    """From where to where a place that runs evenly along a line is within 0 and a length."""
    first, last = along[:, 0], along[:, 1]
    with np.errstate(divide="ignore", invalid="ignore"):
        at_start = -first / (last - first)
        at_end = (length - first) / (last - first)
    low = np.minimum(at_start, at_end)
    high = np.maximum(at_start, at_end)
    return np.clip(low, 0.0, 1.0), np.clip(high, 0.0, 1.0)
