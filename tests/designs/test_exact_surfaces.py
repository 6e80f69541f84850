"""Surfaces of mitred and saddled tube and of slanting cones against fine triangles of their bodies.

The bodies are made again with many more points round their rails. tests/oracle compares the same
surfaces with a CAD kernel's.
"""

from dataclasses import replace

import numpy as np
import pytest

from hollowright.designs import cone_bodies, tube_mitre_bodies, tube_saddle_bodies
from hollowright.designs.cone_bodies import Form
from hollowright.designs.tube_mitre_bodies import Length, finished, looped
from hollowright.designs.tube_saddle_bodies import Crossing

FINE = 1440
FLATS = 2e-6
"""Relative: flats of 0.25 degrees are too small by (0.125 degrees)^2 / 6, 8e-7, rims by twice it.
"""

ACROSS = 16
"""The skin across the wall at both ends in so many parts: one alone follows no helicoid."""


@pytest.fixture(autouse=True)
def fine(monkeypatch):
    for module in (cone_bodies, tube_mitre_bodies, tube_saddle_bodies):
        monkeypatch.setattr(module, "ROUND", FINE)


def by_triangles(body):
    """Area of a looped body's skin, the wall's ends divided across."""
    outer_low, outer_high, inner_high, inner_low = map(np.array, body.rails)
    high = [outer_high + (inner_high - outer_high) * i / ACROSS for i in range(ACROSS)]
    low = [inner_low + (outer_low - inner_low) * i / ACROSS for i in range(ACROSS)]
    rails = np.array([*high, inner_high, *low, outer_low, outer_high])
    near, far = rails[:-1], rails[1:]
    near_on, far_on = np.roll(near, -1, axis=1), np.roll(far, -1, axis=1)
    first, second = np.cross(near_on - near, far - near), np.cross(far_on - near_on, far - near_on)
    return (np.linalg.norm(first, axis=-1).sum() + np.linalg.norm(second, axis=-1).sum()) / 2


@pytest.mark.parametrize("cut", ["bevelled", "square", "unfiled"])
@pytest.mark.parametrize(
    ("outside", "wall", "degrees", "piece"),
    [
        (15.9, 0.8, 17.0, Length(34.0, False, True)),
        (15.9, 0.8, 22.5, Length(21.3, True, True)),
        (23.7, 3.1, 52.0, Length(47.9, True, False)),
        (12.1, 1.4, 74.0, Length(63.0, False, True)),
    ],
)
def test_a_mitred_piece(cut, outside, wall, degrees, piece):
    body = looped("leg", finished(outside, wall, degrees, cut), piece, 1.0)
    assert body.surface == pytest.approx(by_triangles(body), rel=FLATS)


CROSSINGS = [
    (34.93, 1.02, 15.87, 0.815, 64.0, 2.4),
    (34.93, 1.02, 15.87, 0.815, 51.3, 0.0),
    (25.4, 1.0, 12.7, 0.79, 90.0, 0.0),
    (40.2, 1.5, 21.7, 2.5, 57.0, -4.1),
    (31.0, 0.9, 30.1, 0.9, 78.0, 0.0),
]


@pytest.mark.parametrize("joint", ["set-on", "let-in"])
@pytest.mark.parametrize("cut", ["bevelled", "square", "unfiled"])
@pytest.mark.parametrize("sizes", CROSSINGS)
def test_a_branch(cut, joint, sizes):
    if joint == "let-in" and sizes[2] > 30:
        return
    body = Crossing(*sizes, joint, cut).branch_body(60.0, 1.0)
    near = FLATS if cut == "unfiled" else 5e-5  # the mesh is straight across what lies on the main
    assert body.surface == pytest.approx(by_triangles(body), rel=near)


@pytest.mark.parametrize("joint", ["set-on", "let-in"])
@pytest.mark.parametrize("sizes", CROSSINGS[:4])
def test_a_main(joint, sizes):
    """The mesh of the hole is within 0.005 mm."""
    body = Crossing(*sizes, joint, "unfiled").main_body(86.0, 40.0, 1.0)
    assert body.surface == pytest.approx(replace(body, exact_surface=None).surface, rel=3e-5)
    assert body.surface != pytest.approx(body.body.surface, rel=1e-3)


@pytest.mark.parametrize(
    ("base", "top", "height", "cut"),
    [
        (57.2, 21.9, 60.0, (27.3, 0.55)),
        (41.7, 41.7, 50.0, (27.3, 0.55)),
        (33.1, 52.8, 61.0, (30.1, -0.4)),
        (60.0, 12.0, 80.0, (25.0, 0.0)),
    ],
)
def test_a_slanting_cone(base, top, height, cut):
    body = Form(base, top, height, 0.9, cut=cut).body("cone", 1.0)
    assert body.surface == pytest.approx(by_triangles(body), rel=FLATS)


def test_a_surface_is_worked_out_when_it_is_asked_for():
    body = Crossing(*CROSSINGS[0], "set-on", "unfiled").branch_body(60.0, 1.0)
    assert callable(body.exact_surface)
    assert body.surface == body.exact_surface() == body.moved((1.0, 2.0, 3.0)).surface
