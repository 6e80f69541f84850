"""Where projected lines and ellipses cross, in closed form, all pairs at once.

Ellipses are (centre, u, v) with the point centre + u cos t + v sin t; lines are (start, step) with
the point start + step t, t from 0 to 1. Results are (number of the curve, t) for every crossing of
that curve with any other; one too many does no harm, one too few does, so touching counts.
"""

from __future__ import annotations

import numpy as np
import numpy.typing as npt

Array = npt.NDArray[np.float64]
Index = npt.NDArray[np.intp]
Found = tuple[Index, Array]

TOUCH = 1e-7  # how far curves may miss each other, relative to their size, and still touch


def lines_lines(starts: Array, steps: Array) -> Found:
    """Parameters on each line where another crosses it; starts and steps are (n, 2)."""
    gap = starts[None] - starts[:, None]
    with np.errstate(divide="ignore", invalid="ignore"):
        under = _cross(steps[:, None], steps[None])
        s = _cross(gap, steps[None]) / under
        t = _cross(gap, steps[:, None]) / under
        good = _within(s) & _within(t)
    here, _ = np.nonzero(good)
    return here, s[good]


def lines_ellipses(starts: Array, steps: Array, centres: Array, axes: Array) -> tuple[Found, Found]:
    """Parameters on the lines and on the ellipses where they cross; `axes` (m, 2, 2)."""
    inverse = np.linalg.inv(axes)
    at = np.einsum("lej,ejk->lek", starts[:, None] - centres[None], inverse)
    way = np.einsum("lj,ejk->lek", steps, inverse)
    a = (way * way).sum(axis=2)
    b = (at * way).sum(axis=2)
    c = (at * at).sum(axis=2) - 1
    inside = b * b - a * c
    root = np.sqrt(np.where(inside > -TOUCH * a, np.maximum(inside, 0), np.nan))
    on_lines, on_ellipses = [], []
    for sign in (-1, 1):
        s = np.divide(-b + sign * root, a, out=np.full_like(a, np.nan), where=a > 0)
        here, there = np.nonzero(_within(s))
        point = at[here, there] + s[here, there, None] * way[here, there]
        on_lines.append((here, s[here, there]))
        on_ellipses.append((there, np.arctan2(point[:, 1], point[:, 0])))
    return join(on_lines), join(on_ellipses)


def ellipses_ellipses(centres: Array, axes: Array) -> Found:
    """Parameters on each ellipse where another crosses it.

    In the frame where the other one is the unit circle, |c + u cos t + v sin t|2 = 1 is
    p + q cos t + r sin t + m cos 2t + n sin 2t = 0: of first order when the two have one shape,
    else the roots z = exp(i t) of a polynomial of degree four.
    """
    count = len(centres)
    mine, other = np.nonzero(~np.eye(count, dtype=np.bool_))
    inverse = np.linalg.inv(axes)[other]
    c = np.einsum("nj,njk->nk", centres[mine] - centres[other], inverse)
    u = np.einsum("nj,njk->nk", axes[mine, 0], inverse)
    v = np.einsum("nj,njk->nk", axes[mine, 1], inverse)
    uu, vv, cc = ((x * x).sum(axis=1) for x in (u, v, c))
    p = cc - 1 + (uu + vv) / 2
    q, r, n = (f * (x * y).sum(axis=1) for f, x, y in ((2, c, u), (2, c, v), (1, u, v)))
    m = (uu - vv) / 2
    scale = cc + uu + vv
    apart = np.hypot(q, r) + np.hypot(m, n) < np.abs(p) - TOUCH * scale
    simple = ~apart & (np.hypot(m, n) < 1e-9 * scale)
    found = [_first_order(mine[simple], p[simple], q[simple], r[simple])]
    rest = ~apart & ~simple
    if rest.any():
        found.append(_second_order(mine[rest], *(x[rest] for x in (p, q, r, m, n))))
    return join(found)


def join(found: list[Found]) -> Found:
    """Several results as one."""
    owners = [owner for owner, _ in found]
    return np.concatenate(owners), np.concatenate([t for _, t in found])


def _first_order(mine: Index, p: Array, q: Array, r: Array) -> Found:
    """Solutions of p + q cos t + r sin t = 0; none for curves that coincide."""
    size = np.hypot(q, r)
    with np.errstate(divide="ignore", invalid="ignore"):
        cosine = -p / size
        good = (np.abs(cosine) < 1 + TOUCH) & (size > TOUCH)
    spread = np.arccos(np.clip(cosine[good], -1, 1))
    middle = np.arctan2(r[good], q[good])
    return np.tile(mine[good], 2), np.concatenate([middle - spread, middle + spread])


def _second_order(mine: Index, p: Array, q: Array, r: Array, m: Array, n: Array) -> Found:
    """Solutions with the double angle: eigenvalues of the companion matrix near the unit circle."""
    lead = (m - 1j * n) / 2
    companion = np.zeros((len(mine), 4, 4), dtype=np.complex128)
    companion[:, [1, 2, 3], [0, 1, 2]] = 1
    low = ((m + 1j * n) / 2, (q + 1j * r) / 2, p, (q - 1j * r) / 2)
    for row, coefficient in enumerate(low):
        companion[:, row, 3] = -coefficient / lead
    roots = np.linalg.eigvals(companion)
    near = np.abs(np.abs(roots) - 1) < 1e-4
    here, _ = np.nonzero(near)
    return mine[here], np.angle(roots[near])


def _cross(a: Array, b: Array) -> Array:
    product: Array = a[..., 0] * b[..., 1] - a[..., 1] * b[..., 0]
    return product


def _within(t: Array) -> npt.NDArray[np.bool_]:
    return (t > -TOUCH) & (t < 1 + TOUCH)
