"""Which boxes on the paper meet: a grid finds the pairs, so that few are looked at."""

from __future__ import annotations

import numpy as np
import numpy.typing as npt

Array = npt.NDArray[np.float64]
Numbers = npt.NDArray[np.intp]
Flags = npt.NDArray[np.bool_]


def around_each(points: Array) -> Array:
    """Boxes (n, 4) of n groups of points (n, k, 2 or more): low x, low y, high x, high y."""
    return np.concatenate([points[:, :, :2].min(axis=1), points[:, :, :2].max(axis=1)], axis=1)


def meeting(first: Array, second: Array, cells: int = 64) -> tuple[Numbers, Numbers]:
    """Numbers of the boxes (n, 4) and (m, 4) [mm] that overlap or touch, each pair once."""
    if not len(first) or not len(second):
        return np.zeros(0, np.intp), np.zeros(0, np.intp)
    low = np.minimum(first[:, :2].min(axis=0), second[:, :2].min(axis=0))
    high = np.maximum(first[:, 2:].max(axis=0), second[:, 2:].max(axis=0))
    step = np.maximum((high - low) / cells, 1e-12)
    ours, theirs = _cells(first, low, step, cells), _cells(second, low, step, cells)
    mine, my_cell = _spread(ours, cells)
    other, its_cell = _spread(theirs, cells)
    order = np.argsort(its_cell, kind="stable")
    its_cell, other = its_cell[order], other[order]
    start = np.searchsorted(its_cell, my_cell, "left")
    count = np.searchsorted(its_cell, my_cell, "right") - start
    a = np.repeat(mine, count)
    b = other[np.repeat(start, count) + _ranks(count)]
    cell = np.repeat(my_cell, count)
    # Of the cells that two boxes share only the lowest counts: each pair is kept once.
    shared = np.maximum(ours[a, :2], theirs[b, :2])
    once = cell == shared[:, 1] * cells + shared[:, 0]
    a, b = a[once], b[once]
    near = (first[a, :2] <= second[b, 2:]).all(axis=1) & (second[b, :2] <= first[a, 2:]).all(axis=1)
    return a[near], b[near]


def _cells(boxes: Array, low: Array, step: Array, cells: int) -> Numbers:
    """First and last column and row of the grid that each box reaches into."""
    at = np.floor((boxes - np.tile(low, 2)) / np.tile(step, 2))
    found: Numbers = np.clip(at, 0, cells - 1).astype(np.intp)
    return found


def _spread(ranges: Numbers, cells: int) -> tuple[Numbers, Numbers]:
    """Each box's number once for every cell that it reaches into, and that cell."""
    wide = ranges[:, 2] - ranges[:, 0] + 1
    count = wide * (ranges[:, 3] - ranges[:, 1] + 1)
    owner = np.repeat(np.arange(len(ranges)), count)
    rank = _ranks(count)
    column = ranges[owner, 0] + rank % wide[owner]
    row = ranges[owner, 1] + rank // wide[owner]
    return owner, row * cells + column


def _ranks(count: Numbers) -> Numbers:
    """0, 1, 2 ... anew for each count."""
    ends = np.cumsum(count)
    ranks: Numbers = np.arange(ends[-1] if len(ends) else 0) - np.repeat(ends - count, count)
    return ranks
