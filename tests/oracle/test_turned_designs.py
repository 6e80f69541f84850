"""Beads and vessels against a CAD kernel: build123d (OpenCASCADE) turns the same sections.

Relative 1e-6 where the section is of lines and arcs on both sides; a vessel read from a curve
follows it by chords within 0.0001 mm, so 2e-5.
"""

from __future__ import annotations

import math
from typing import Any

import pytest

from hollowright.job.job import plan_tables

pytestmark = pytest.mark.oracle


def turned(section: Any) -> Any:
    """A face in x, z turned once round the z axis."""
    from build123d import Axis, revolve

    return revolve(section, Axis.Z, 360)


def polygon(points: Any) -> Any:
    from build123d import Plane, Polyline, make_face

    return Plane.XZ * make_face(Polyline(*points, close=True))


def plan(design: str, thickness: str, sizes: dict[str, Any]) -> Any:
    sheet = {"metal": "C26000", "thickness": thickness}
    return plan_tables({"design": design, "stock": {"sheet": sheet}, "sizes": sizes})


@pytest.mark.parametrize(
    ("diameter", "rise", "hole", "t"),
    [(29.3, 6.1, 2.3, 0.83), (17.4, 8.7, 1.9, 0.61), (41.0, 15.2, 6.4, 1.22)],
)
def test_a_dome_is_a_shell_cut_from_two_spheres(
    diameter: float, rise: float, hole: float, t: float
) -> None:
    from build123d import Box, Cylinder, Pos, Sphere

    sizes = {"diameter": diameter, "rise": rise, "hole": hole}
    made = plan("bead", str(t), sizes)
    ball = (diameter**2 / 4 + rise**2) / (2 * rise)
    half_space = Pos(0, 0, ball - rise + 200) * Box(400, 400, 400)
    shell = (Sphere(ball) - Sphere(ball - t)) & half_space
    whole = shell - Cylinder(hole / 2, 400)
    assert made.quantities["dome_mass"].value == pytest.approx(whole.volume * 8.53e-3, rel=1e-6)
    inside = (Sphere(ball - t) & half_space).volume
    assert made.quantities["inside_volume"].value == pytest.approx(2e-3 * inside, rel=1e-6)
    middle = Sphere(ball - t / 2) & half_space
    cap = sum(face.area for face in middle.faces() if abs(face.center().Z - ball + rise) > 1e-3)
    blank = made.quantities["blank_diameter"].value
    assert math.pi * blank**2 / 4 == pytest.approx(cap, rel=1e-6)


POINTS = ((0.0, 0.0), (16.8, 0.0), (24.3, 8.7), (26.9, 21.4), (26.9, 33.2), (22.1, 44.6))


@pytest.mark.parametrize("way", ["raised", "cones", "gores"])
def test_a_vessel_weighs_and_holds_as_the_kernel_says(way: str) -> None:
    profile = "; ".join(f"{r} {z}" for r, z in POINTS)
    made = plan("vessel", "0.92", {"way": way, "profile": profile, "fill_level": "37.3"})
    volume = sum(
        turned(polygon(solid.body.profile)).volume for part in made.parts for solid in part.solids
    )
    assert made.mass.value == pytest.approx(volume * 8.53e-3, rel=1e-6)
    whole = turned(polygon((*POINTS, (0.0, POINTS[-1][1])))).volume
    brim = made.quantities["brim_capacity"].value
    assert brim == pytest.approx((whole - volume) / 1000, rel=1e-6)


def test_a_curved_vessel_s_shell() -> None:
    """A half sphere: the kernel's own balls cut in half."""
    from build123d import Box, Pos, Sphere

    radius, t = 27.4, 0.9
    drawing = (
        '<svg xmlns="http://www.w3.org/2000/svg" width="90mm" height="90mm" viewBox="0 0 90 90">'
        f'<path d="M5 {radius + 9} A{radius} {radius} 0 0 0 {radius + 5} 9"/></svg>'
    )
    made = plan("vessel", str(t), {"way": "raised", "curve": drawing})
    shell = (Sphere(radius) - Sphere(radius - t)) & (Pos(0, 0, 100) * Box(200, 200, 200))
    assert made.mass.value == pytest.approx(shell.volume * 8.53e-3, rel=2e-5)
