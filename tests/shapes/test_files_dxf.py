"""Outlines from DXF files that the DXF library wrote: curves, units, joins, refusals."""

import io
import math
import time

import ezdxf
import numpy as np
import pytest
import shapely
from ezdxf import units
from ezdxf.math import closed_uniform_bspline
from scipy.interpolate import BSpline

from hollowright.shapes.cubic import Cubic
from hollowright.shapes.curves import Arc, EllipseArc, Line
from hollowright.shapes.drawn import FileRefused
from hollowright.shapes.files import read_outline
from hollowright.shapes.offset import offset


def written(draw, insunits=units.MM, version="R2010"):
    document = ezdxf.new(version, units=insunits)
    draw(document.modelspace())
    stream = io.StringIO()
    document.write(stream)
    return stream.getvalue().encode()


def outline(draw, **given):
    return read_outline(written(draw), "dxf", **given).outline


def kinds(made):
    return [type(segment).__name__ for segment in made.segments]


def test_a_circle_and_a_hole():
    def draw(space):
        space.add_circle((30, 20), 12)
        space.add_circle((33, 20), 4)

    made = outline(draw)
    assert made.area == pytest.approx(math.pi * (144 - 16))
    assert isinstance(made.segments[0], Arc)
    assert made.holes[0].segments[0].radius == pytest.approx(4)


def test_an_ellipse_and_its_two_halves():
    def halves(space):
        space.add_ellipse((5, 5), (18, 24), 0.5, 0, math.pi)
        space.add_ellipse((5, 5), (18, 24), 0.5, math.pi, math.tau)

    for draw in (lambda space: space.add_ellipse((5, 5), (18, 24), 0.5), halves):
        made = outline(draw)
        assert kinds(made) == ["EllipseArc"]
        assert isinstance(made.segments[0], EllipseArc)
        assert made.area == pytest.approx(math.pi * 30 * 15)


@pytest.mark.parametrize("extrusion", [(0, 0, 1), (0, 0, -1)])
@pytest.mark.parametrize("version", ["R12", "R2010"])
def test_a_polyline_with_bulges(extrusion, version):
    # A slot 20 long between centres, 10 wide; seen from below it is the same slot.
    corners = [(0, 0, 0), (20, 0, 1), (20, 10, 0), (0, 10, 1)]

    def draw(space):
        attributes = {"extrusion": extrusion}
        if version == "R12":
            space.add_polyline2d(corners, format="xyb", close=True, dxfattribs=attributes)
        else:
            space.add_lwpolyline(corners, format="xyb", close=True, dxfattribs=attributes)

    made = read_outline(written(draw, version=version), "dxf").outline
    assert sorted(kinds(made)) == ["Arc", "Arc", "Line", "Line"]
    assert made.area == pytest.approx(200 + 25 * math.pi)
    assert (made.width, made.height) == pytest.approx((30, 10))


def test_an_arc_seen_from_below_is_mirrored():
    # The upper half of a circle round (-10, 5) in the world, closed by a line.
    def draw(space):
        space.add_arc((10, 5), 7, 0, 180, dxfattribs={"extrusion": (0, 0, -1)})
        space.add_line((-17, 5), (-3, 5))
        space.add_line((-3, 5), (-3, 5))

    made = outline(draw)
    assert made.area == pytest.approx(math.pi * 49 / 2)
    assert (made.width, made.height) == pytest.approx((14, 7))


def test_loose_lines_and_arcs_in_any_order_and_direction():
    def draw(space):
        space.add_line((5, 0), (45, 0))
        space.add_arc((45, 5), 5, -90, 0)
        space.add_line((5, 30.004), (45, 30))
        space.add_line((0, 25), (0, 5))
        space.add_arc((5, 5), 5, 180, 270)
        space.add_line((50, 25), (50, 5))
        space.add_arc((45, 25), 5, 0, 90)
        space.add_arc((5, 25), 5, 90, 180)

    made = outline(draw)
    assert len(made.segments) == 8
    assert made.area == pytest.approx(1500 - (4 - math.pi) * 25, abs=0.2)
    assert offset(made, -1).area == pytest.approx(48 * 28 - (4 - math.pi) * 16, abs=0.2)


def closed_spline(degree, weights=None):
    points = [(0, 0), (14, -6), (30, 2), (34, 20), (18, 31), (2, 24), (-5, 9), (0, 0)]

    def draw(space):
        if weights is None:
            space.add_open_spline(points, degree=degree)
        else:
            space.add_rational_spline(points, weights, degree=degree)

    return draw


def test_a_periodic_spline_whose_knots_dont_hold_its_ends():
    tool = closed_uniform_bspline([(0, 0), (30, 2), (34, 20), (2, 24)], order=4)
    made = outline(lambda space: space.add_spline().apply_construction_tool(tool))
    knots, points = np.array(tool.knots()), np.array([(p.x, p.y) for p in tool.control_points])
    theirs = BSpline(knots, points, 3)(np.linspace(knots[3], knots[-4], 4000))
    ours = shapely.Polygon(made.points(1e-4))
    low = theirs.min(axis=0)
    assert ours.symmetric_difference(shapely.Polygon(theirs - low)).area < 0.01
    assert max(abs(turn) for turn in made.turns) < 1e-6


@pytest.mark.parametrize(
    "draw",
    [
        closed_spline(2),
        closed_spline(3),
        closed_spline(5),
        closed_spline(3, [1, 2, 0.5, 1, 1, 3, 1, 1]),
        lambda space: space.add_spline([(0, 0), (20, -5), (30, 15), (8, 25), (0, 0)]),
    ],
    ids=["quadratic", "cubic", "fifth degree", "rational", "fit points"],
)
def test_splines_become_cubics(draw):
    data = written(draw)
    made = read_outline(data, "dxf").outline
    assert all(isinstance(segment, Cubic) for segment in made.segments)
    # Against the library's own flattening of the spline.
    document = ezdxf.read(io.StringIO(data.decode()))
    (entity,) = document.modelspace()
    flat = [(p.x, p.y) for p in entity.flattening(1e-4)]
    low_x, low_y, _, _ = shapely.LineString(flat).bounds
    theirs = shapely.Polygon([(x - low_x, y - low_y) for x, y in flat])
    ours = shapely.Polygon(made.points(1e-4))
    assert ours.symmetric_difference(theirs).area < 0.05
    assert made.area == pytest.approx(theirs.area, abs=0.05)


@pytest.mark.parametrize(
    ("code", "mm"), [(units.MM, 1), (units.IN, 25.4), (units.CM, 10), (units.M, 1000)]
)
def test_insunits(code, mm):
    made = read_outline(written(lambda space: space.add_circle((0, 0), 2), code), "dxf")
    assert made.outline.width == pytest.approx(4 * mm)
    assert "as it states" in made.unit


def test_no_unit_is_millimetres_and_says_so():
    data = written(lambda space: space.add_circle((0, 0), 2), 0)
    assert read_outline(data, "dxf").outline.width == pytest.approx(4)
    assert "states no unit" in read_outline(data, "dxf").unit
    assert read_outline(data, "dxf", unit="in").outline.width == pytest.approx(101.6)


def test_a_unit_of_the_stars_is_refused():
    with pytest.raises(FileRefused, match="unit"):
        read_outline(written(lambda space: space.add_circle((0, 0), 2), 19), "dxf")


def test_texts_blocks_and_layers_that_are_off_are_counted():
    def draw(space):
        space.add_circle((0, 0), 20)
        space.add_text("lid")
        space.add_point((3, 3))
        block = space.doc.blocks.new("MARK")
        block.add_circle((0, 0), 3)
        space.add_blockref("MARK", (2, 2))
        space.doc.layers.add("notes").off()
        space.add_line((0, 0), (9, 9), dxfattribs={"layer": "notes"})

    made = read_outline(written(draw), "dxf")
    assert made.outline.width == pytest.approx(40)
    assert made.notes == (
        "1 × hidden left out",
        "1 × insert left out",
        "1 × point left out",
        "1 × text left out",
    )


def test_lines_drawn_twice_count_once():
    def draw(space):
        corners = [(0, 0), (30, 0), (30, 20)]
        for a, b in zip(corners, corners[1:] + corners[:1], strict=True):
            space.add_line(a, b)
        space.add_line((30, 0), (0, 0))

    made = read_outline(written(draw), "dxf")
    assert made.outline.area == pytest.approx(300)
    assert made.notes == ("1 × curve drawn twice left out",)
    assert all(isinstance(segment, Line) for segment in made.outline.segments)


def test_an_open_path_is_refused_with_its_gap():
    def draw(space):
        space.add_lwpolyline([(0, 0), (30, 0), (30, 20), (0, 20), (0, 0.25)])

    with pytest.raises(FileRefused, match=r"a gap of 0\.25 mm at x 0\.00, y 0\.\d\d") as refused:
        outline(draw)
    assert refused.value.at[0] == 0


def test_a_crossing_is_refused_with_its_place():
    def draw(space):
        space.add_lwpolyline([(0, 0), (30, 20), (30, 0), (0, 20)], close=True)

    with pytest.raises(FileRefused, match=r"x 15\.00, y 10\.00"):
        outline(draw)


@pytest.mark.parametrize(
    "draw",
    [
        lambda space: space.add_circle((0, 0), 5, dxfattribs={"extrusion": (1, 0, 0)}),
        lambda space: space.add_lwpolyline([(i, i * i % 7) for i in range(20_050)]),
        lambda space: space.add_polyline3d([(0, 0, 0), (9, 0, 3), (9, 9, 5)], close=True),
        lambda space: space.add_circle((1e9, 0), 5),
        lambda space: space.add_text("nothing else"),
    ],
    ids=["on edge", "many points", "not flat", "far out", "empty"],
)
def test_what_gives_no_outline_is_refused(draw):
    with pytest.raises(FileRefused):
        outline(draw)


def test_files_that_are_none():
    whole = written(lambda space: space.add_circle((0, 0), 2))
    for data in (b"", b"hello\n", whole[:2000], b"AutoCAD Binary DXF\r\n\x1a\x00junk"):
        with pytest.raises(FileRefused):
            read_outline(data, "dxf")


def test_it_is_read_quickly():
    data = written(closed_spline(3))
    read_outline(data, "dxf")
    begun = time.perf_counter()
    read_outline(data, "dxf")
    assert time.perf_counter() - begun < 0.1
