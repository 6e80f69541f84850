"""How deep forms on a lattice overlap, for every way in which one can lie on another."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
import numpy.typing as npt

from hollowright.shapes.polygons import covering, meeting_at

TOUCHING = 1e-6
"""Forms that share no more than so much of a square of the lattice lie beside each other."""

FINER = 8.0
"""Depths are whole numbers: so many to a step."""

Corners = npt.NDArray[np.float64]
Numbers = npt.NDArray[np.float32]


def tables(forms: Sequence[Corners]) -> tuple[Numbers, tuple[int, int]]:
    """Depths (form laid, form moved, columns, rows), and how far the first of them is moved.

    forms: corners of each on the lattice, the least at 0. Depth: how far the moved one is at least
    to be moved until the two don't overlap, in steps, times FINER; 0 where they don't.
    """
    wide, high = (int(max(form[:, i].max() for form in forms)) for i in (0, 1))
    found = np.zeros((len(forms), len(forms), 2 * wide - 1, 2 * high - 1), np.float32)
    for laid, under in enumerate(forms):
        for moved, over in enumerate(forms[: laid + 1]):
            depth = depths(over, under)
            columns, rows = (int(over[:, i].max()) for i in (0, 1))
            x, y = wide - columns, high - rows
            found[laid, moved, x : x + depth.shape[0], y : y + depth.shape[1]] = depth
            columns, rows = (int(under[:, i].max()) for i in (0, 1))
            x, y = wide - columns, high - rows
            back = depth[::-1, ::-1]
            found[moved, laid, x : x + depth.shape[0], y : y + depth.shape[1]] = back
    return found, (1 - wide, 1 - high)


def depths(moved: Corners, laid: Corners) -> Numbers:
    """Depths of one form moved over another: by 1 - its width, 1 - its height, and on from there.

    Where both cover the centre of one square of the lattice they overlap; else their areas tell.
    """
    from scipy.ndimage import distance_transform_edt

    sizes = moved.max(axis=0).astype(int), laid.max(axis=0).astype(int)
    columns, rows = (np.arange(1 - a, b) for a, b in zip(*sizes, strict=True))
    shifts = np.stack(np.meshgrid(columns, rows, indexing="ij"), axis=-1).reshape(-1, 2)
    meets = _covering_one(_centres(moved), _centres(laid)).ravel()
    rest = np.flatnonzero(~meets)
    meets[rest] = meeting_at(moved, laid, shifts[rest].astype(float), TOUCHING)
    around = np.pad(meets.reshape(len(columns), len(rows)), 1)
    deep = FINER * distance_transform_edt(around)[1:-1, 1:-1]
    return np.asarray(np.rint(deep), np.float32)


def _covering_one(
    moved: npt.NDArray[np.int64], laid: npt.NDArray[np.int64]
) -> npt.NDArray[np.bool_]:
    """For each shift whether two rasters both cover some square: they are correlated."""
    size = [a + b - 1 for a, b in zip(moved.shape, laid.shape, strict=True)]
    product = np.fft.rfft2(laid, size) * np.fft.rfft2(moved[::-1, ::-1], size)
    return np.asarray(np.fft.irfft2(product, size) > 0.5)


def _centres(form: Corners) -> npt.NDArray[np.int64]:
    """Of each square of the lattice whether its centre lies within a form: 1 or 0."""
    columns, rows = (np.arange(size) + 0.5 for size in form.max(axis=0))
    x, y = np.meshgrid(columns, rows, indexing="ij")
    return covering(form, x, y).astype(int)
