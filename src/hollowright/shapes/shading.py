"""Meshes as they are lit: corners split where the surface is creased, each with its normal."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from hollowright.shapes.meshes import CREASE, Mesh

TIP = math.cos(math.radians(30))  # a face further off the mean of those round a tip keeps its own

Array = npt.NDArray[np.float64]
Numbers = npt.NDArray[np.intp]


@dataclass(frozen=True, slots=True)
class Shaded:
    """Corners (n, 3) [mm], their normals (n, 3) of length 1, triangles (m, 3) of corner numbers."""

    vertices: Array
    normals: Array
    triangles: Numbers


def shaded(mesh: Mesh) -> Shaded:
    """A mesh to be lit: smooth where it turns by no more than 12 degrees, else sharp.

    A normal is the mean of its triangles' by the angle that each has there; where a face is over 30
    degrees off that mean, as round the tip of a cone, it keeps its own.
    """
    vertices = np.array(mesh.vertices, dtype=np.float64).reshape(-1, 3)
    triangles = np.array(mesh.triangles, dtype=np.intp).reshape(-1, 3)
    corners = vertices[triangles]
    faces = _units(np.cross(corners[:, 1] - corners[:, 0], corners[:, 2] - corners[:, 0]))
    groups = _groups(triangles, faces)
    own = np.repeat(faces, 3, axis=0)
    means = np.zeros((int(groups.max(initial=-1)) + 1, 3))
    np.add.at(means, groups, own * _angles(corners).reshape(-1, 1))
    normals = _units(means)[groups]
    apart = np.einsum("ij,ij->i", normals, own) < TIP
    normals[apart] = own[apart]
    keys = np.where(apart, len(means) + np.arange(len(groups)), groups)
    _, first, number = np.unique(keys, return_index=True, return_inverse=True)
    return Shaded(vertices[triangles.ravel()[first]], normals[first], number.reshape(-1, 3))


def _groups(triangles: Numbers, faces: Array) -> Numbers:
    """Of each triangle's each corner, a number that corners of one smooth patch there share."""
    from scipy.sparse import coo_array
    from scipy.sparse.csgraph import connected_components

    count = triangles.size
    starts = np.arange(count)
    ends = np.roll(starts.reshape(-1, 3), -1, axis=1).ravel()
    one, other = _neighbours(triangles.ravel()[starts], triangles.ravel()[ends])
    turned = np.einsum("ij,ij->i", faces[one // 3], faces[other // 3])
    smooth = turned >= math.cos(CREASE)
    one, other = one[smooth], other[smooth]
    rows = np.concatenate([starts[one], ends[one]])
    columns = np.concatenate([ends[other], starts[other]])
    links = coo_array((np.ones(len(rows), dtype=np.int8), (rows, columns)), shape=(count, count))
    found: Numbers = connected_components(links, directed=False)[1].astype(np.intp)
    return found


def _neighbours(starts: Numbers, ends: Numbers) -> tuple[Numbers, Numbers]:
    """Numbers of the sides that run along each other, one each way; sides met more often apart."""
    size = int(max(starts.max(initial=0), ends.max(initial=0))) + 1
    keys = np.minimum(starts, ends) * size + np.maximum(starts, ends)
    order = np.argsort(keys, kind="stable")
    _, first, met = np.unique(keys[order], return_index=True, return_counts=True)
    pairs = first[met == 2]
    return order[pairs], order[pairs + 1]


def _angles(corners: Array) -> Array:
    """The angle of each triangle at each of its corners [rad], (m, 3)."""
    after = _units(np.roll(corners, -1, axis=1) - corners)
    before = _units(np.roll(corners, 1, axis=1) - corners)
    found: Array = np.arccos(np.clip(np.einsum("ijk,ijk->ij", after, before), -1, 1))
    return found


def _units(ways: Array) -> Array:
    """Vectors brought to length 1; those without length left as they are."""
    sizes = np.linalg.norm(ways, axis=-1, keepdims=True)
    found: Array = np.divide(ways, sizes, out=np.zeros_like(ways), where=sizes > 0)
    return found
