"""The DXF read back by the library's reader: no faults, layers, units, arcs, sizes."""

import io
import math

import ezdxf
import pytest
from ezdxf import bbox
from hypothesis import given, settings
from hypothesis import strategies as st

from hollowright.output.drawing import Drawing, Label, LinearDimension, Path
from hollowright.output.dxf import dxf, plain
from hollowright.shapes.cubic import Cubic
from hollowright.shapes.curves import TURN, Arc, EllipseArc, Line
from hollowright.shapes.outline import annulus, disc, rectangle


def read(*items, width=100.0, height=60.0):
    document = ezdxf.read(io.StringIO(dxf(Drawing(width, height, items)).decode("utf-8")))
    faults = document.audit()
    assert faults.errors == []
    assert faults.fixes == []
    return document


def only(document):
    (entity,) = document.modelspace()
    return entity


def test_it_is_in_millimetres():
    document = read(Path("cut", disc(38.05).segments))
    assert document.dxfversion == "AC1024"
    assert document.units == ezdxf.units.MM
    assert document.header["$MEASUREMENT"] == 1


def test_a_disc_is_a_circle():
    circle = only(read(Path("cut", disc(38.05).moved(20, 30).segments)))
    assert circle.dxftype() == "CIRCLE"
    assert circle.dxf.layer == "cut"
    assert circle.dxf.radius == pytest.approx(19.025, abs=1e-12)
    assert tuple(circle.dxf.center)[:2] == pytest.approx((20, 30))


def test_a_rounded_strip_is_one_closed_polyline_with_bulges():
    outline = rectangle(112.35, 16.6, 2)
    line = only(read(Path("cut", outline.segments)))
    assert line.dxftype() == "LWPOLYLINE"
    assert line.closed
    bulges = [bulge for *_, bulge in line.get_points("xyb") if bulge]
    assert bulges == pytest.approx([math.tan(math.pi / 8)] * 4)
    box = bbox.extents([line])
    assert tuple(box.extmin)[:2] == pytest.approx((0, 0), abs=1e-9)
    assert tuple(box.extmax)[:2] == pytest.approx((112.35, 16.6), abs=1e-9)


def test_an_arc_alone_is_an_arc():
    arc = only(read(Path("mark", (Arc((5, 6), 10, math.radians(100), math.radians(-60)),))))
    assert arc.dxftype() == "ARC"
    assert (arc.dxf.start_angle, arc.dxf.end_angle) == pytest.approx((40, 100))
    assert arc.dxf.layer == "mark"


@given(
    st.floats(-7, 7),
    st.floats(1, 30),
    st.floats(-30, -1) | st.floats(1, 30),
    st.floats(-7, 7),
    st.floats(0.1, 6.2) | st.floats(-6.2, -0.1) | st.just(TURN),
)
@settings(max_examples=40, deadline=None)
def test_an_ellipse_is_an_ellipse(turn, a, b, start, sweep):
    major = (a * math.cos(turn), a * math.sin(turn))
    minor = (-b * math.sin(turn), b * math.cos(turn))
    curve = EllipseArc((4, 5), major, minor, start, sweep)
    ellipse = only(read(Path("visible", (curve,))))
    assert ellipse.dxftype() == "ELLIPSE"
    points = [tuple(p)[:2] for p in ellipse.flattening(0.001)]
    found = (
        min(x for x, _ in points),
        min(y for _, y in points),
        max(x for x, _ in points),
        max(y for _, y in points),
    )
    assert found == pytest.approx(curve.bounds(), abs=0.01)


def test_a_cubic_is_a_spline_through_its_ends():
    curve = Cubic((0, 0), (10, 20), (30, -5), (40, 10))
    spline = only(read(Path("cut", (curve,))))
    assert spline.dxftype() == "SPLINE"
    made = list(spline.construction_tool().approximate(100))
    assert min(math.dist(tuple(p)[:2], curve.at(0.37)) for p in made) < 0.3
    assert tuple(made[-1])[:2] == pytest.approx((40, 10))


def test_cut_mark_text_and_dimension_have_layers_of_their_own():
    flat = annulus(38.05, 36.01).moved(30, 30)
    document = read(
        Path("cut", flat.segments),
        Path("cut", flat.holes[0].segments),
        Path("mark", (Line((1, 1), (9, 1)), Line((20, 1), (29, 1)))),
        Path("fold", (Line((1, 3), (9, 3)),)),
        Label("Ring strip", (2, 50), role="title"),
        LinearDimension((10, 10), (48, 10), -8, "⌀38.05"),
    )
    layers = {}
    for entity in document.modelspace():
        layers.setdefault(entity.dxf.layer, []).append(entity.dxftype())
    assert layers["cut"] == ["CIRCLE", "CIRCLE"]
    assert layers["mark"] == ["LINE"] * 3
    assert layers["text"] == ["TEXT"]
    assert sorted(set(layers["dimension"])) == ["LINE", "SOLID", "TEXT"]
    assert set(layers) == {"cut", "mark", "text", "dimension"}
    assert document.layers.get("mark").dxf.linetype == "HOLLOWRIGHT_MARK"


def test_lettering_keeps_height_place_and_diameter_sign():
    text = only(read(Label("⌀38.05", (30, 12), 3.5, anchor="middle", angle=math.pi / 2)))
    assert text.dxf.text == "%%c38.05"
    assert text.dxf.height == 3.5
    assert text.dxf.rotation == pytest.approx(90)
    assert tuple(text.dxf.align_point)[:2] == (30, 12)


def test_the_same_drawing_gives_the_same_bytes():
    drawing = Drawing(100, 60, (Path("cut", rectangle(50, 20, 3).segments), Label("a", (1, 1))))
    assert dxf(drawing) == dxf(drawing)


def test_a_filled_dot_is_a_hatch():
    hatch = only(read(Path("leader", (Arc((5, 5), 0.5, 0, TURN),), filled=True)))
    assert hatch.dxftype() == "HATCH"


@given(st.text())
@settings(max_examples=40, deadline=None)
def test_any_text_leaves_the_file_whole(text):
    """A name can't end the text and begin something else."""
    document = read(Label(text, (1, 2)), Path("cut", disc(3).segments))
    kinds = sorted(entity.dxftype() for entity in document.modelspace())
    assert kinds in (["CIRCLE", "TEXT"], ["CIRCLE"])
    assert "%%" not in plain(text).replace("%%c", "")
