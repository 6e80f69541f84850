"""Bodies whose skin runs through a ring of closed rails: mitred and saddled tubes, cones, lips."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

from hollowright.shapes.bands import band, quad_sides, ruled_volume, ties
from hollowright.shapes.bodies import Known, known
from hollowright.shapes.frames import Frame, shifted
from hollowright.shapes.meshes import Line, Mesh, Triangle, creases, outward, welded
from hollowright.shapes.space import Vector, dot

Rail = tuple[Vector, ...]


@dataclass(frozen=True, slots=True)
class Looped:
    """A closed skin through `rails` [mm], from each to the next and from the last to the first.

    Each rail is a closed row of points, the first not repeated; all have the same number of points,
    point to point, or one alone (an apex, the middle of a flat end). Outer low, outer high, inner
    high, inner low: a piece of tube of any shape. `seams` are the numbers of points along which a
    join is drawn. exact_volume [mm3], exact_surface [mm2] (itself, or what works it out when it is
    asked for): where they are known better; else they are those of the skin through the points. The
    way round doesn't matter.
    """

    id: str
    rails: tuple[Rail, ...]
    seams: tuple[int, ...] = ()
    exact_volume: float | None = None
    exact_surface: Known | None = None

    def __post_init__(self) -> None:
        """Refuse rails that don't go together."""
        counts = {len(rail) for rail in self.rails}
        if len(self.rails) < 2 or len(counts - {1}) != 1 or min(counts) < 1 or counts & {2}:
            raise ValueError(
                f"{self.id}: rails need the same number of points, three or more, or one alone; "
                f"these have {sorted(counts)}"
            )

    @property
    def volume(self) -> float:
        """Volume [mm3]: the closed form where it is given, else of the skin ruled rail to rail."""
        if self.exact_volume is not None:
            return self.exact_volume
        apex = self.rails[0][0]
        pairs = zip(self.rails, (*self.rails[1:], self.rails[0]), strict=True)
        return abs(math.fsum(ruled_volume(near, far, apex) for near, far in pairs))

    @property
    def surface(self) -> float:
        """Area of the whole surface [mm2]: the closed form where it is given, else the mesh's."""
        return self.mesh().surface if self.exact_surface is None else known(self.exact_surface)

    def moved(self, by: Vector) -> Looped:
        """The same body shifted [mm]."""
        return self.placed(shifted(by))

    def placed(self, frame: Frame) -> Looped:
        """The same body put into a frame."""
        at = frame.at
        return replace(self, rails=tuple(tuple(at(p) for p in rail) for rail in self.rails))

    def reach(self, axis: Vector) -> tuple[float, float]:
        """From where to where it reaches along a unit vector [mm]."""
        along = [dot(point, axis) for rail in self.rails for point in rail]
        return (min(along), max(along))

    def mesh(self, tolerance: float = 0.05) -> Mesh:
        """A closed mesh through the rails' own points, whatever the tolerance."""
        del tolerance
        vertices = [point for rail in self.rails for point in rail]
        rows: list[range] = []
        for rail in self.rails:
            start = rows[-1].stop if rows else 0
            rows.append(range(start, start + len(rail)))
        faces: list[Triangle] = []
        seams: list[Line] = []
        for near, far in zip(rows, rows[1:] + rows[:1], strict=True):
            faces += band(near, far, vertices)
            seams += ties(near, far, self.seams)
        bare = outward(welded(vertices, faces, quad_sides(rows)))
        drawn = set(creases(bare)) & set(bare.lines)
        seamed = welded(vertices, faces, seams)
        return replace(bare, lines=tuple(sorted(drawn | set(seamed.lines))))
