"""Branches of tube on a main against a CAD kernel: build123d (OpenCASCADE) cuts its own cylinders.

Volumes, weights, areas, lengths: 1e-6 relative (a square edge's skin follows the kernel's own
points by a spline; where it was filed down on the main the kernel's is straight across the wall,
up to 2e-5 too much metal: tests/designs/test_tube_saddle.py sums that over all fibres). Surfaces:
1e-6 relative where the edge is bevelled, 5e-6 where the kernel follows it by a spline.
"""

import math
from typing import Any

import pytest

from tests.oracle import kernel
from tests.oracle.cases import CLOSE, Case, cases, same_bodies

pytestmark = pytest.mark.oracle

CASES = cases(
    "tube-saddle",
    bevelled={"sizes__cut": "bevelled"},
    square={"sizes__cut": "square", "sizes__offset": "0 mm", "sizes__angle": "51.3 deg"},
    square_aside={"sizes__cut": "square", "sizes__offset": "4.4 mm", "sizes__angle": "90 deg"},
    let_in={"sizes__joint": "let-in", "sizes__cut": "bevelled", "sizes__offset": "-3.7 mm"},
    let_in_unfiled={"sizes__joint": "let-in", "sizes__angle": "78.9 deg"},
    thick={"stock__branch__wall": ["2.47"], "sizes__angle": "57.1 deg", "sizes__offset": "4.1 mm"},
    upright={"sizes__angle": "90 deg", "sizes__offset": "0 mm", "sizes__cut": "bevelled"},
)
named = pytest.mark.parametrize("case", CASES, ids=lambda case: case.name)


@named
def test_main_and_branch(case: Case) -> None:
    straight = CLOSE if case.tables["sizes"].get("cut") != "square" else 5e-5
    plain = case.tables["sizes"].get("cut") == "bevelled"
    same_bodies(case, volumes=straight, surfaces=CLOSE if plain else 5e-6, masses=straight)
    assert case.ours["main"].surface == pytest.approx(kernel.area(case.theirs["main"]), rel=CLOSE)


def seat(case: Case) -> float:
    from tests.oracle.kernel_saddle import seat_radius

    return seat_radius(case.q, case.tables)


def entering(case: Case, seat: float, radius: float) -> list[Any]:
    """The curve at which a rod along the branch comes out of a main of a radius: its edges."""
    from build123d import GeomType

    from tests.oracle.kernel_saddle import lying, rod

    main = lying(case.q, rod(seat, 40 * seat))
    through = main & kernel.cylinder(2 * radius, 9 * seat)
    plain = (GeomType.LINE, GeomType.CIRCLE)
    return [edge for edge in through.edges() if edge.geom_type not in plain]


@named
def test_length_of_the_joint(case: Case) -> None:
    q = case.q
    if case.tables["sizes"].get("joint") == "let-in":
        mid = (q["main_outside_diameter"] - q["main_wall"]) / 2
        edges = entering(case, mid, q["outside_radius"])
    else:
        edges = entering(case, seat(case), (q["outside_radius"] + q["bore_radius"]) / 2)
    assert q["joint_length"] == pytest.approx(kernel.length(*edges), rel=CLOSE)


@named
def test_the_hole_on_the_main(case: Case) -> None:
    from build123d import GeomType

    from tests.oracle.kernel_saddle import lying, rod

    q, radius = case.q, case.q["main_outside_diameter"] / 2
    through = lying(q, rod(radius, 40 * radius)) & kernel.cylinder(2 * q["hole_radius"], 9 * radius)
    (patch,) = (
        face
        for face in through.faces().filter_by(GeomType.CYLINDER)
        if math.isclose(_radius(face), radius, rel_tol=1e-9)
    )
    assert q["hole_area"] == pytest.approx(kernel.area(patch), rel=CLOSE)
    lean = math.radians(q["angle"])
    spots = [
        edge.position_at(i / 2000)
        for edge in entering(case, radius, q["hole_radius"])
        for i in range(2001)
    ]
    along = [spot.Z * math.cos(lean) - spot.X * math.sin(lean) for spot in spots]
    assert q["hole_length"] == pytest.approx(max(along) - min(along), abs=1e-4)
    assert q["hole_shift"] == pytest.approx((max(along) + min(along)) / 2, abs=1e-4)


@named
def test_highest_and_deepest_place(case: Case) -> None:
    """Of an edge that follows one line alone, on the kernel's curve of that line."""
    q = case.q
    cut = case.tables["sizes"].get("cut", "unfiled")
    if cut == "unfiled":
        line = kernel_edge(case)
    else:
        followed = q["outside_radius"] if cut == "bevelled" else q["bore_radius"]
        line = [
            edge.position_at(i / 2000).Z
            for edge in entering(case, seat(case), followed)
            for i in range(2001)
        ]
    assert q["highest"] == pytest.approx(max(line), abs=1e-4)
    assert q["deepest"] == pytest.approx(min(line), abs=1e-4)
    assert q["long_side"] == pytest.approx(q["axis_length"] - min(line), abs=1e-4)


def kernel_edge(case: Case) -> list[float]:
    """Heights of the branch's own edge as the kernel has it cut."""
    high = case.q["axis_length"] - 1e-2
    edges = [edge for edge in case.theirs["branch"].edges() if not _reaches(edge, high)]
    return [edge.position_at(i / 2000).Z for edge in edges for i in range(2001)]


def _radius(face: Any) -> float:
    from OCP.BRepAdaptor import BRepAdaptor_Surface

    return float(BRepAdaptor_Surface(face.wrapped).Cylinder().Radius())


def _reaches(edge: Any, height: float) -> bool:
    top = float(edge.bounding_box().max.Z)
    return top > height
