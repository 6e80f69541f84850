"""What stands between a point and the eye: exact rays through solids of revolution.

The projection is orthographic, so every ray runs the same way. In a solid's own frame (x square to
axis and ray, y towards the eye, z along the axis) a ray keeps its x, and meeting the cylinders,
cones and flats that the profile sweeps is a quadratic or less.
"""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
import numpy.typing as npt

from hollowright.shapes.solids import Turned
from hollowright.shapes.space import Vector, beside, cross, dot, unit

Array = npt.NDArray[np.float64]
Flags = npt.NDArray[np.bool_]

THIN = 1e-6  # of the scene's size: metal thinner along the ray than this hides nothing


def facing_frame(solid: Turned, eye: Vector) -> tuple[Vector, Vector, Vector]:
    """Unit vectors of a solid's own frame: square to the ray, towards the eye, along the axis."""
    axis = solid.axis
    across = cross(axis, eye)
    u = unit(across) if dot(across, across) > 1e-24 else beside(axis)
    return (u, cross(u, axis), axis)


class Sight:
    """Solids packed so that many points can be asked at once whether they are hidden."""

    def __init__(self, solids: Sequence[Turned], eye: Vector) -> None:
        """Pack solids as seen from the direction `eye` (a unit vector)."""
        frames = np.array([facing_frame(solid, eye) for solid in solids]).reshape(-1, 3, 3)
        origins = np.array([solid.origin for solid in solids]).reshape(-1, 3)
        self._frames = frames
        self._feet = np.einsum("sij,sj->si", frames, origins)
        self._ray = frames @ np.array(eye)
        self._owners, self._slots, self._surfaces = _surfaces(solids)
        self._depth = 2 * int(self._slots.max(initial=-1) + 1)
        reach = max((abs(x) for solid in solids for x in (*solid.origin, solid.radius)), default=1)
        size = max((solid.high - solid.low for solid in solids), default=1)
        self._thin = THIN * max(reach, size)

    def hidden(self, points: Array) -> Flags:
        """Whether metal stands between each point (n, 3) [mm] and the eye."""
        hits = np.sort(self.meetings(points), axis=2)
        inside: Array = hits[:, :, 1::2].sum(axis=2) - hits[:, :, 0::2].sum(axis=2)
        metal: Array = inside.sum(axis=1)
        return metal > self._thin

    def meetings(self, points: Array) -> Array:
        """How far from each point towards the eye each solid's surfaces are met [mm].

        Shape (points, solids, meetings), not in order, filled up with 0.
        """
        local = np.einsum("sij,nj->nsi", self._frames, points) - self._feet
        hits = np.zeros((len(points), len(self._frames), self._depth))
        near, far = self._meet(local[:, self._owners, :])
        hits[:, self._owners, 2 * self._slots] = near
        hits[:, self._owners, 2 * self._slots + 1] = far
        return hits

    def _meet(self, at: Array) -> tuple[Array, Array]:
        """How far along the ray each surface is met, twice at most; 0 where it isn't.

        A flat is met where the ray reaches its height, a cone where |x, y + s h| = a + k (z + s e).
        """
        r0, z0, r1, z1 = self._surfaces.T
        _, toward, up = self._ray[self._owners].T
        x, y, z = at[..., 0], at[..., 1], at[..., 2]
        rise = z1 - z0
        flat = rise == 0
        slope = np.divide(r1 - r0, rise, out=np.zeros_like(rise), where=~flat)
        with np.errstate(divide="ignore", invalid="ignore"):
            across = (z0 - z) / up
            radius = np.hypot(x, y + across * toward)
            on_flat = flat & (radius >= np.minimum(r0, r1)) & (radius < np.maximum(r0, r1))
            start = r0 + slope * (z - z0)
            a = toward**2 - (slope * up) ** 2
            b = y * toward - slope * up * start
            c = x * x + y * y - start * start
            root = np.sqrt(b * b - a * c)
            q = -(b + np.copysign(root, b))
            pair = []
            for s in (q / a, c / q):
                height, wide = z + s * up, start + slope * s * up
                level = (height >= np.minimum(z0, z1)) & (height < np.maximum(z0, z1))
                good = ~flat & level & (wide >= 0) & (s > 0) & np.isfinite(s)
                pair.append(np.where(good, s, 0.0))
            ahead = on_flat & (across > 0) & np.isfinite(across)
        return np.where(ahead, across, pair[0]), pair[1]


def _surfaces(
    solids: Sequence[Turned],
) -> tuple[npt.NDArray[np.intp], npt.NDArray[np.intp], Array]:
    """Owner, place in its owner's list and (r0, z0, r1, z1) of every surface that is swept."""
    owners, slots, rows = [], [], []
    for owner, solid in enumerate(solids):
        swept = [(a, b) for a, b in solid.edges if (a[0] > 0 or b[0] > 0) and a != b]
        for slot, (a, b) in enumerate(swept):
            owners.append(owner)
            slots.append(slot)
            rows.append((*a, *b))
    return (
        np.array(owners, dtype=np.intp),
        np.array(slots, dtype=np.intp),
        np.array(rows, dtype=np.float64).reshape(-1, 4),
    )
