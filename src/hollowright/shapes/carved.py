"""Bodies with others taken out of them: a tube with a hole for a branch."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from functools import lru_cache
from itertools import pairwise
from typing import Any

from hollowright.shapes.bodies import Body, Known, known
from hollowright.shapes.frames import Frame
from hollowright.shapes.meshes import Line, Mesh, beside_edges, welded
from hollowright.shapes.space import Vector

FINE = 0.005  # tolerance of the meshes from which the volume taken out is measured [mm]

Source = tuple[int, int]
"""Where a triangle comes from: the number of its body (0 the one carved) and its own there."""


@dataclass(frozen=True, slots=True)
class Carved:
    """A body less others; each must pass clean through its skin, none merely touch it.

    The volume is the body's own less what meshes within 0.005 mm say was taken out, and the surface
    likewise, unless exact_volume [mm3] or exact_surface [mm2] (itself, or what works it out) say
    better.
    """

    id: str
    body: Body
    cut: tuple[Body, ...]
    exact_volume: float | None = None
    exact_surface: Known | None = None

    @property
    def volume(self) -> float:
        """Volume [mm3]."""
        if self.exact_volume is not None:
            return self.exact_volume
        return self.body.volume + self.mesh(FINE).volume - self.body.mesh(FINE).volume

    @property
    def surface(self) -> float:
        """Area of the whole surface [mm2]."""
        if self.exact_surface is not None:
            return known(self.exact_surface)
        return self.body.surface + self.mesh(FINE).surface - self.body.mesh(FINE).surface

    def moved(self, by: Vector) -> Carved:
        """The same body shifted [mm]."""
        cut = tuple(each.moved(by) for each in self.cut)
        return replace(self, body=self.body.moved(by), cut=cut)

    def placed(self, frame: Frame) -> Carved:
        """The same body put into a frame."""
        cut = tuple(each.placed(frame) for each in self.cut)
        return replace(self, body=self.body.placed(frame), cut=cut)

    def reach(self, axis: Vector) -> tuple[float, float]:
        """From where to where the body reaches along a unit vector [mm] before it is carved."""
        return self.body.reach(axis)

    def mesh(self, tolerance: float = 0.05) -> Mesh:
        """A closed mesh; lines are the body's, the others' and those where they meet.

        ValueError when nothing is left, or a body isn't closed.
        """
        return _carved(self, tolerance)


@lru_cache(maxsize=32)
def _carved(carved: Carved, tolerance: float) -> Mesh:
    import manifold3d

    meshes = [each.mesh(tolerance) for each in (carved.body, *carved.cut)]
    first = manifold3d.Manifold.reserve_ids(len(meshes))
    solids = [_solid(carved.id, mesh, first + number) for number, mesh in enumerate(meshes)]
    left = solids[0]
    for solid in solids[1:]:
        left -= solid
    if left.is_empty():
        raise ValueError(f"{carved.id}: nothing is left")
    packed = left.to_mesh64()
    return _unpacked(packed, first, meshes)


def _solid(id: str, mesh: Mesh, run: int) -> Any:
    """A mesh as the mesh library's solid: each triangle with its number, all with that of a run."""
    import manifold3d
    import numpy as np

    solid = manifold3d.Manifold(
        manifold3d.Mesh64(
            np.array(mesh.vertices, dtype=np.float64),
            np.array(mesh.triangles, dtype=np.uint64),
            run_index=np.array([0, 3 * len(mesh.triangles)], dtype=np.uint64),
            run_original_id=np.array([run], dtype=np.uint32),
            face_id=np.arange(len(mesh.triangles), dtype=np.uint64),
        )
    )
    if solid.status() != manifold3d.Error.NoError:
        raise ValueError(f"{id}: a body isn't closed ({solid.status().name})")
    return solid


def _unpacked(packed: Any, first: int, meshes: Sequence[Mesh]) -> Mesh:
    """The mesh library's answer with the lines that it inherits and those where bodies meet."""
    joined = list(range(len(packed.vert_properties)))
    for place, target in zip(packed.merge_from_vert, packed.merge_to_vert, strict=True):
        joined[int(place)] = int(target)
    corners = [(float(x), float(y), float(z)) for x, y, z in packed.vert_properties[:, :3]]
    faces = [(joined[a], joined[b], joined[c]) for a, b, c in packed.tri_verts.tolist()]
    runs = [int(id) - first for id in packed.run_original_id]
    sizes = [(int(b) - int(a)) // 3 for a, b in pairwise(packed.run_index)]
    owners = [run for run, size in zip(runs, sizes, strict=True) for _ in range(size)]
    sources = list(zip(owners, map(int, packed.face_id), strict=True))
    bare = Mesh(tuple(corners), tuple(faces))
    return welded(corners, faces, _lines(bare, sources, meshes))


def _lines(mesh: Mesh, sources: Sequence[Source], meshes: Sequence[Mesh]) -> Iterable[Line]:
    """Edges between triangles of two bodies, or of two triangles with a line between them."""
    drawn = [_drawn(each) for each in meshes]
    for edge, pair in beside_edges(mesh).items():
        if len(pair) != 2:
            continue
        (owner, one), (other, two) = (sources[number] for number in pair)
        if owner != other or frozenset((one, two)) in drawn[owner]:
            yield edge


def _drawn(mesh: Mesh) -> set[frozenset[int]]:
    """Pairs of triangles between which a line is drawn."""
    lines = set(mesh.lines)
    return {frozenset(pair) for edge, pair in beside_edges(mesh).items() if edge in lines}
