"""Solids of revolution: volume and mesh against two mesh libraries, places in space."""

import math
from itertools import pairwise

import manifold3d
import numpy as np
import pytest
import trimesh
from hypothesis import given, settings
from hypothesis import strategies as st

from hollowright.shapes.solids import Turned, disc, mesh, reach, ring, spread, tube
from hollowright.shapes.space import dot

CHAMFERED = Turned("chamfered", ((5, 0), (9, 0), (10, 1), (10, 7), (5, 7)), (1, 2, 3), (1, 1, 0.3))
CONE = Turned("cone", ((0, 0), (10, 0), (0, 20)), (4, 0, -2), (0.2, -1, 1))
SOLIDS = [tube("tube", 38.05, 1.02, 30), disc("disc", 38.05, 0.71), CHAMFERED, CONE]


def inscribed(segments):
    """An inscribed polygon's area over its circle's."""
    return segments / math.tau * math.sin(math.tau / segments)


@pytest.mark.parametrize("solid", SOLIDS, ids=lambda solid: solid.id)
@pytest.mark.parametrize("segments", [3, 24, 180])
def test_meshes_are_closed_and_hold_the_volume(solid, segments):
    found = mesh(solid, segments)
    body = trimesh.Trimesh(found.vertices, found.triangles, process=False)
    assert body.is_watertight
    assert body.is_winding_consistent
    assert body.volume == pytest.approx(solid.volume * inscribed(segments), rel=1e-9)
    packed = manifold3d.Manifold(
        manifold3d.Mesh(
            np.array(found.vertices, dtype=np.float32), np.array(found.triangles, dtype=np.uint32)
        )
    )
    assert packed.status() == manifold3d.Error.NoError
    assert packed.volume() == pytest.approx(body.volume, rel=1e-5)


def test_volume_and_surface_of_a_tube_by_the_textbook():
    half = tube("half", 38.05, 1.02, 30)
    assert half.volume == pytest.approx(math.pi / 4 * (38.05**2 - 36.01**2) * 30, rel=1e-12)
    faces = math.pi / 2 * (38.05**2 - 36.01**2)
    assert half.surface == pytest.approx(math.pi * (38.05 + 36.01) * 30 + faces, rel=1e-12)


def test_volume_of_a_cone():
    assert CONE.volume == pytest.approx(math.pi * 10**2 * 20 / 3, rel=1e-12)


@given(st.lists(st.floats(0.2, 30), min_size=1, max_size=6), st.floats(0, 20))
@settings(max_examples=50)
def test_spread_leaves_the_gap_between_neighbours(heights, gap):
    axis = (0.0, 0.6, 0.8)
    stack = [
        Turned(str(i), ((0, 0), (5, 0), (5, h), (0, h)), (1, 2, 3), axis)
        for i, h in enumerate(heights)
    ]
    placed = spread(stack, gap)
    reaches = [reach(solid, axis) for solid in placed]
    for below, above in pairwise(reaches):
        assert above[0] - below[1] == pytest.approx(gap, abs=1e-9)
    assert placed[0] == stack[0]


def test_reach_of_a_tilted_solid_follows_its_mesh():
    axis = (0.36, 0.48, 0.8)
    heights = [dot(vertex, axis) for vertex in mesh(CHAMFERED, 720).vertices]
    assert reach(CHAMFERED, axis) == pytest.approx((min(heights), max(heights)), abs=1e-3)


def test_along_and_at():
    moved = CHAMFERED.along(5)
    offset = np.subtract(moved.at(9, 0, 1.0), CHAMFERED.at(9, 0, 1.0))
    assert offset == pytest.approx(np.multiply(CHAMFERED.axis, 5))
    assert ring("ring", 36, 0.64, 16.6, seam=0.5).seams == (0.5,)


@pytest.mark.parametrize(
    "profile", [((0, 0), (1, 1)), ((-1, 0), (1, 0), (1, 1)), ((0, 0), (1, 1), (2, 2))]
)
def test_profiles_that_make_no_solid_are_refused(profile):
    with pytest.raises(ValueError, match="profile"):
        Turned("bad", profile)


def test_tubes_without_a_bore_are_refused():
    with pytest.raises(ValueError, match="bore"):
        tube("bad", 2, 1, 5)
    with pytest.raises(ValueError, match="thickness"):
        disc("bad", 2, 0)
