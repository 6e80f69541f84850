"""Random bodies and frames, and what an independent mesh library reads of a mesh, for the tests."""

import math
import random

import numpy as np
import trimesh
from hypothesis import strategies as st
from scipy.spatial import ConvexHull

from hollowright.shapes.frames import Frame
from hollowright.shapes.offset import offset
from hollowright.shapes.outline import Outline, polygon, rectangle
from hollowright.shapes.ovals import ellipse, regular_polygon

seeds = st.integers(0, 10**6)


def read(mesh):
    """The mesh as another library has it, which says too whether it is closed."""
    body = trimesh.Trimesh(mesh.vertices, mesh.triangles, process=False)
    assert body.is_watertight
    assert body.is_winding_consistent
    return body


def hull(rng):
    points = np.array([[rng.uniform(-25, 25), rng.uniform(-18, 18)] for _ in range(8)])
    return polygon([tuple(map(float, points[i])) for i in ConvexHull(points).vertices])


def convex(seed):
    """A random convex outline of lines, arcs or an ellipse."""
    rng = random.Random(seed)
    width, height = rng.uniform(10, 60), rng.uniform(10, 60)
    kinds = (
        lambda: hull(rng),
        lambda: offset(hull(rng), rng.uniform(0.5, 4), "round"),
        lambda: rectangle(width, height, rng.uniform(3, 5)),
        lambda: ellipse(max(width, height), max(width, height) * rng.uniform(0.6, 1.0)),
        lambda: regular_polygon(rng.randint(3, 12), width),
    )
    return rng.choice(kinds)()


def wall(outline, thickness):
    """The region between an outline and its inward parallel."""
    return Outline(outline.segments, (Outline(offset(outline, -thickness).segments),))


def frame(seed):
    rng = random.Random(seed)

    def way():
        return tuple(rng.gauss(0, 1) for _ in range(3))

    origin = tuple(rng.uniform(-50, 50) for _ in range(3))
    return Frame(origin, way(), way())


def circle(radius, rise, count):
    """A row of points over a circle, each lifted by `rise` of its angle [mm]."""
    angles = [math.tau * i / count for i in range(count)]
    return tuple((radius * math.cos(a), radius * math.sin(a), rise(a)) for a in angles)


def cut_tube(radius, wall, low, high, count):
    """Rails of a piece of tube between z = low(x, y) and z = high(x, y)."""
    rails = []
    for r, end in ((radius, low), (radius, high), (radius - wall, high), (radius - wall, low)):
        rails.append(
            circle(r, lambda a, r=r, end=end: end(r * math.cos(a), r * math.sin(a)), count)
        )
    return tuple(rails)
