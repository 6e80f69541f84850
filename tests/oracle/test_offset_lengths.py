"""Parallel curves against a CAD kernel: build123d (OpenCASCADE), which offsets wires by itself.

The kernel follows an ellipse's parallel with splines of its own; it agrees with the theorem to some
1e-6 of the length, the tolerance here. Offsets of lines and arcs are exact on both sides.
"""

import pytest

from hollowright.shapes.mid_line import mid_length, parallel_length
from hollowright.shapes.offset import offset
from hollowright.shapes.outline import rectangle
from hollowright.shapes.ovals import ellipse, regular_polygon

pytestmark = pytest.mark.oracle


@pytest.mark.parametrize(("length", "width"), [(60, 40), (47, 31), (60, 22)])
@pytest.mark.parametrize("distance", [-1.3, -0.5, 0.7, 2.9])
def test_an_ellipses_parallel(length: float, width: float, distance: float) -> None:
    from build123d import Edge, Wire

    wire = Wire([Edge.make_ellipse(length / 2, width / 2)])
    theirs = wire.offset_2d(distance)
    assert parallel_length(ellipse(length, width), distance) == pytest.approx(
        theirs.length, rel=1e-6
    )


def test_the_ellipses_own_length_and_area() -> None:
    from build123d import Edge, Face, Wire

    # The kernel measures a whole ellipse by a coarse quadrature, 2.7e-4 high; in quarters it is
    # true.
    quarters = [
        Edge.make_ellipse(30, 20, start_angle=90 * i, end_angle=90 * i + 90) for i in range(4)
    ]
    assert ellipse(60, 40).perimeter == pytest.approx(sum(e.length for e in quarters), rel=1e-6)
    wire = Wire([Edge.make_ellipse(30, 20)])
    assert ellipse(60, 40).area == pytest.approx(Face(wire).area, rel=1e-6)


@pytest.mark.parametrize("distance", [-2.2, -0.5, 0.7])
def test_sharp_and_rounded_corners(distance: float) -> None:
    from build123d import Kind, RectangleRounded, RegularPolygon, Wire

    hexagon = RegularPolygon(20 / (3**0.5 / 2), 6).wire()
    assert isinstance(hexagon, Wire)
    sharp = hexagon.offset_2d(distance, Kind.INTERSECTION)
    assert parallel_length(regular_polygon(6, 40), distance) == pytest.approx(
        sharp.length, rel=1e-9
    )
    box = RectangleRounded(50, 30, 5).wire().offset_2d(distance)
    assert offset(rectangle(50, 30, 5), distance).perimeter == pytest.approx(box.length, rel=1e-9)


def test_mid_line_of_an_oval() -> None:
    from build123d import Edge, Wire

    theirs = Wire([Edge.make_ellipse(30, 20)]).offset_2d(-0.5).length
    assert mid_length(ellipse(60, 40), 1.0) == pytest.approx(theirs, rel=1e-6)
    assert mid_length(ellipse(60, 40), 1.0) == pytest.approx(155.513, abs=0.0005)
