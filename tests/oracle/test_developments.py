"""Developments against a CAD kernel: build123d (OpenCASCADE), which knows no unrolling of ours.

The kernel makes solids and surfaces in its own way (cylinders, cones, loft, boolean cuts) and
measures their edges and faces. Tolerance 1e-6 relative: its own geometric tolerance is 1e-7 mm on
some tens of mm; where it intersects two surfaces its curve is fitted, and the looser tolerance says
so beside the check.
"""

import math
from typing import Any

import pytest

from hollowright.shapes.developments.band import Band, Level
from hollowright.shapes.developments.cone import frustum
from hollowright.shapes.developments.cone_cut import SlantingEdge, cut_cone
from hollowright.shapes.developments.cylinder import cut_ellipse, mitre_blank
from hollowright.shapes.developments.facets import Faceted, pyramid
from hollowright.shapes.developments.facets import frustum as facet_frustum
from hollowright.shapes.developments.nets import net
from hollowright.shapes.developments.saddle import Crossing
from hollowright.shapes.developments.transitions import round_to_round

pytestmark = pytest.mark.oracle
CLOSE = 1e-6


def kernel_length(edges: Any) -> float:
    """Length of edges to 1e-10: the kernel's default takes few points (5e-4 off on an ellipse)."""
    from OCP.GCPnts import GCPnts_AbscissaPoint

    return math.fsum(GCPnts_AbscissaPoint.Length_s(edge.geom_adaptor(), 1e-10) for edge in edges)


def kernel_area(face: Any) -> float:
    """Area of a face to 1e-10 relative, for the same reason."""
    from OCP.BRepGProp import BRepGProp
    from OCP.GProp import GProp_GProps

    found = GProp_GProps()
    BRepGProp.SurfaceProperties_s(face.wrapped, found, 1e-10)
    return float(found.Mass())


def kernel_cylinder(radius: float, length: float) -> Any:
    """A cylinder standing round the middle of the z axis."""
    from build123d import Cylinder

    return Cylinder(radius, length)


def kernel_branch(main: float, branch: float, degrees: float, offset: float) -> Any:
    """What a main along x leaves standing of a branch, as the kernel cuts it."""
    from build123d import Align, Cylinder, Pos, Rot

    low = (Align.CENTER, Align.CENTER, Align.MIN)
    leaning = Rot(0, 90 - degrees, 0) * Cylinder(branch, 6 * main, align=low)
    return Pos(0, offset, 0) * leaning - Rot(0, 90, 0) * kernel_cylinder(main, 12 * main)


CROSSINGS = [
    (20.0, 10.0, 90.0, 0.0),
    (15.0, 10.0, 60.0, 0.0),
    (19.03, 7.94, 52.0, 6.1),
    (19.03, 12.2, 75.0, -5.3),
]


@pytest.mark.parametrize(("main", "branch", "degrees", "offset"), CROSSINGS)
def test_the_curve_of_two_cylinders(
    main: float, branch: float, degrees: float, offset: float
) -> None:
    from build123d import GeomType, Vertex

    crossing = Crossing(main, branch, math.radians(degrees), offset)
    body = kernel_branch(main, branch, degrees, offset)
    edges = [
        edge for edge in body.edges() if edge.geom_type not in (GeomType.LINE, GeomType.CIRCLE)
    ]
    length = kernel_length(edges)
    # The kernel's curve is a spline fitted through points on both surfaces.
    assert crossing.length() == pytest.approx(length, rel=CLOSE)
    for i in range(24):
        point = Vertex(*crossing.space(i * math.tau / 24))
        assert min(edge.distance_to(point) for edge in edges) < 1e-5


@pytest.mark.parametrize(("main", "branch", "degrees", "offset"), CROSSINGS)
def test_the_side_of_the_branch(main: float, branch: float, degrees: float, offset: float) -> None:
    from build123d import GeomType

    crossing = Crossing(main, branch, math.radians(degrees), offset)
    body = kernel_branch(main, branch, degrees, offset)
    (side,) = (
        face
        for face in body.faces()
        if face.geom_type == GeomType.CYLINDER and math.isclose(face.radius, branch, rel_tol=1e-9)
    )
    flat = Band(branch, 0.0, crossing.depth, Level(6 * main))
    assert flat.area == pytest.approx(kernel_area(side), rel=CLOSE)
    assert flat.outline(1e-5).area == pytest.approx(kernel_area(side), rel=CLOSE)


@pytest.mark.parametrize("sizes", [(40, 24, 30, 0.0), (40, 24, 30, 0.8), (13.3, 57.1, 22.2, 0.6)])
def test_area_of_a_frustum(sizes: tuple[float, float, float, float]) -> None:
    from build123d import Cone, GeomType

    ours = frustum(*sizes)
    body = Cone(ours.base_radius, ours.top_radius, ours.height)
    (side,) = body.faces().filter_by(GeomType.CONE)
    assert ours.area == pytest.approx(kernel_area(side), rel=CLOSE)
    assert ours.band().outline().area == pytest.approx(kernel_area(side), rel=CLOSE)


@pytest.mark.parametrize("degrees", [11.25, 30.0, 52.0])
def test_perimeter_and_skin_of_a_mitred_tube(degrees: float) -> None:
    from build123d import GeomType, Plane, Pos, split

    blank = mitre_blank(38.05, 1.02, math.radians(degrees), 80, fibre="outer", neutral=1.0)
    lean = math.radians(degrees)
    tilted = Plane((0, 0, 80), z_dir=(-math.sin(lean), 0, math.cos(lean)))
    body = split(Pos(0, 0, 75) * kernel_cylinder(38.05 / 2, 150), tilted, keep=_below())
    cut = [edge for edge in body.edges() if edge.geom_type == GeomType.ELLIPSE]
    perimeter = kernel_length(cut)
    assert cut_ellipse(38.05 / 2, lean).length() == pytest.approx(perimeter, rel=CLOSE)
    (side,) = body.faces().filter_by(GeomType.CYLINDER)
    assert blank.area == pytest.approx(kernel_area(side), rel=CLOSE)
    edge = [s for s in blank.outline(1e-6).segments if type(s).__name__ == "Cubic"]
    assert sum(cubic.length() for cubic in edge) == pytest.approx(perimeter, rel=CLOSE)


def _below() -> Any:
    from build123d import Keep

    return Keep.BOTTOM


@pytest.mark.parametrize(("top", "degrees"), [(24.0, 20.0), (0.0, 31.0)])
def test_a_cone_cut_by_a_plane(top: float, degrees: float) -> None:
    from build123d import Align, Cone, GeomType, Plane, split

    lean = math.radians(degrees)
    blank = cut_cone(40, top, 60, 25, lean)
    tilted = Plane((0, 0, 25), z_dir=(-math.sin(lean), 0, math.cos(lean)))
    low = (Align.CENTER, Align.CENTER, Align.MIN)
    body = split(Cone(20, top / 2, 60, align=low), tilted, keep=_below())
    (side,) = body.faces().filter_by(GeomType.CONE)
    assert blank.area == pytest.approx(kernel_area(side), rel=CLOSE)
    cut = [edge for edge in body.edges() if edge.geom_type == GeomType.ELLIPSE]
    ours = SlantingEdge(frustum(40, top, 60), lean, 25).ellipse()
    assert ours.length() == pytest.approx(kernel_length(cut), rel=CLOSE)


@pytest.mark.parametrize("offset", [0.0, 7.3])
def test_round_to_round_is_the_loft_between_two_circles(offset: float) -> None:
    from build123d import Circle, GeomType, Pos, loft

    ours = round_to_round(40, 24, 30, offset=offset).unrolled
    body = loft([Circle(20), Pos(offset, 0, 30) * Circle(12)], ruled=True)
    sides = [face for face in body.faces() if face.geom_type != GeomType.PLANE]
    # The flat's rails are cubics: 1e-6 of the area at their own error.
    assert ours.outline().area == pytest.approx(math.fsum(map(kernel_area, sides)), rel=3 * CLOSE)


@pytest.mark.parametrize(
    "form", [pyramid(4, 100, 50), pyramid(7, 33.1, 58.2), facet_frustum(6, 40.2, 22.7, 31.1)]
)
def test_nets_and_volumes_of_faceted_forms(form: Faceted) -> None:
    from build123d import Face, Polyline, Shell, Solid, Wire

    faces = [
        Face(Wire(Polyline(*form.points(face), close=True).edges()))
        for face in range(len(form.faces))
    ]
    body = Solid(Shell(faces))
    assert abs(body.volume) == pytest.approx(form.volume, rel=CLOSE)
    assert net(form).outline().area == pytest.approx(math.fsum(map(kernel_area, faces)), rel=CLOSE)
