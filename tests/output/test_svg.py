"""The SVG read back by another library: sizes, curves, text and safety."""

import io
import math
import xml.etree.ElementTree as ET

import numpy as np
import pytest
import svgelements
from hypothesis import given, settings
from hypothesis import strategies as st

from hollowright.output.drawing import Drawing, Label, LinearDimension, Path, text_width
from hollowright.output.svg import path_data, svg
from hollowright.shapes.cubic import Cubic
from hollowright.shapes.curves import TURN, Arc, EllipseArc, Line
from hollowright.shapes.outline import annulus, disc, rectangle

NS = "{http://www.w3.org/2000/svg}"


def read(drawing, **options):
    return svgelements.SVG.parse(io.StringIO(svg(drawing, **options)), ppi=25.4)


def paths(drawing):
    return [e for e in read(drawing).elements() if isinstance(e, svgelements.Path)]


def test_one_unit_is_one_millimetre():
    """The reader at 25.4 pixels an inch: one pixel is 1 mm (its own mm is off by 5e-7)."""
    cut = Path("cut", rectangle(112.35, 16.6, 2).moved(5, 5).segments)
    drawing = Drawing(130, 40, (cut,))
    whole = read(drawing)
    assert whole.width == pytest.approx(130, rel=1e-5)
    assert whole.height == pytest.approx(40, rel=1e-5)
    (path,) = paths(drawing)
    assert path.bbox() == pytest.approx((5, 18.4, 117.35, 35), abs=2e-4)
    length = path.length(error=1e-6)
    assert length == pytest.approx(rectangle(112.35, 16.6, 2).perimeter, abs=2e-3)


@pytest.mark.parametrize("outline", [disc(38.05), annulus(38.05, 36.01), rectangle(50, 30, 5)])
def test_outlines_keep_their_length(outline):
    for edge in (outline, *outline.holes):
        (path,) = paths(Drawing(60, 60, (Path("cut", edge.moved(25, 25).segments),)))
        assert path.length(error=1e-6) == pytest.approx(edge.perimeter, abs=2e-3)
        assert any(isinstance(part, svgelements.Arc) for part in path)


curves = st.one_of(
    st.builds(
        Arc,
        st.tuples(st.floats(-20, 20), st.floats(-20, 20)),
        st.floats(1, 30),
        st.floats(-7, 7),
        st.floats(0.1, 6.2) | st.floats(-6.2, -0.1) | st.just(TURN),
    ),
    st.builds(
        lambda c, turn, a, b, start, sweep: EllipseArc(
            c,
            (a * math.cos(turn), a * math.sin(turn)),
            (b * math.sin(turn), -b * math.cos(turn)),
            start,
            sweep,
        ),
        st.tuples(st.floats(-20, 20), st.floats(-20, 20)),
        st.floats(-7, 7),
        st.floats(1, 30),
        st.floats(-30, -1) | st.floats(1, 30),
        st.floats(-7, 7),
        st.floats(0.1, 6.2) | st.floats(-6.2, -0.1) | st.just(TURN),
    ),
    st.builds(Cubic, *[st.tuples(st.floats(-20, 20), st.floats(-20, 20))] * 4),
)


@given(curves)
@settings(max_examples=60, deadline=None)
def test_curves_keep_their_way(curve):
    """Points of the path as another library reads it lie on the curve, and cover all of it."""
    read = svgelements.Path(path_data([curve], 0.0))
    parts = [part for part in read if not isinstance(part, svgelements.Move | svgelements.Close)]
    found = np.array(
        [(point.x, -point.y) for part in parts for point in map(part.point, np.linspace(0, 1, 40))]
    )
    fine = np.array(curve.points(1e-4))
    apart = np.linalg.norm(found[:, None] - fine[None], axis=2)
    reach = np.linalg.norm(np.diff(fine, axis=0), axis=1).max()
    assert apart.min(axis=1).max() < reach + 1e-3
    step = np.linalg.norm(np.diff(found, axis=0), axis=1).max()
    assert apart.min(axis=0).max() < step + 1e-3


def test_round_dashes_are_shortened_by_the_caps():
    text = svg(Drawing(10, 10, (Path("hidden", (Line((0, 0), (9, 9)),)),)))
    assert 'stroke-dasharray="2.75 1"' in text  # 12 and 3 narrow lines of 0.25, less and plus one
    assert 'stroke-width="0.25"' in text


def test_weights_follow_the_drawing():
    thin = Drawing(10, 10, (Path("cut", (Line((0, 0), (9, 9)),)),), wide_line=0.25)
    assert 'stroke-width="0.25"' in svg(thin)


def test_ink_can_be_the_pages_own():
    text = svg(Drawing(10, 10, (Path("cut", (Line((0, 0), (9, 9)),)),)), ink="currentColor")
    assert 'stroke="currentColor"' in text
    assert "#1c1a17" not in text


def test_it_is_named_for_readers_of_the_screen():
    root = ET.fromstring(svg(Drawing(10, 10, (), "Ring & strip", "A <flat>"), prefix="one"))
    assert root.get("role") == "img"
    assert root.get("aria-labelledby") == "one-title one-desc"
    assert [(root[i].get("id"), root[i].text) for i in (0, 1)] == [
        ("one-title", "Ring & strip"),
        ("one-desc", "A <flat>"),
    ]


@given(st.text())
def test_any_text_is_well_formed_and_kept(text):
    root = ET.fromstring(svg(Drawing(10, 10, (Label(text, (1, 2)),), text)))
    element = root.find(f".//{NS}text")
    legal = "".join(
        c
        for c in text
        if c in "\t\n\r" or " " <= c <= "\ud7ff" or "\ue000" <= c <= "\ufffd" or c > "\uffff"
    )
    kept = legal.replace("\r\n", "\n").replace("\r", "\n")
    assert (element.text or "") == kept


def test_labels_turn_and_stand_where_they_should():
    root = ET.fromstring(svg(Drawing(50, 40, (Label("16.60", (10, 15), 3.25, angle=math.pi / 2),))))
    text = root.find(f".//{NS}text")
    assert (text.get("x"), text.get("y")) == ("10", "25")
    assert text.get("transform") == "rotate(-90 10 25)"
    assert text.get("font-size") == "5"


def test_the_same_drawing_gives_the_same_text():
    drawing = Drawing(50, 40, (LinearDimension((5, 5), (40, 5), 8, "35.00"),))
    assert svg(drawing) == svg(drawing)


def test_wider_text_is_reckoned_wider():
    assert text_width("body cap", 2.5) < text_width("body cap 38.05", 2.5) < 40
