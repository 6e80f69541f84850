"""The picture: both views inside the sheet, names apart, parts told by their strokes."""

import itertools
import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from hollowright.output.drawing import Label, Path
from hollowright.output.extent import extent, label_box
from hollowright.output.leaders import apart
from hollowright.output.picture import picture, picture_parts
from hollowright.shapes.curves import EllipseArc
from hollowright.shapes.extruded import Extruded
from hollowright.shapes.offset import offset
from hollowright.shapes.outline import Outline, rectangle
from hollowright.shapes.ovals import ellipse, regular_polygon
from hollowright.shapes.polyline import Polyline
from hollowright.shapes.solids import Turned, disc, ring, tube

NAMES = ("body cap", "body", "ring", "lid", "lid cap")


def box(outside=38.05, wall=1.02, body=30.0, lid=15.0, cap=0.7):
    top = cap + body
    return (
        disc("body_cap", outside, cap),
        tube("body", outside, wall, body).along(cap),
        ring("ring", outside - 2 * wall - 0.05, 0.64, lid + 1.6).along(top - 2),
        tube("lid", outside, wall, lid).along(top),
        disc("lid_cap", outside, cap).along(top + lid),
    )


def overlap(a, b):
    return a[0] < b[2] and b[0] < a[2] and a[1] < b[3] and b[1] < a[3]


sizes = st.tuples(st.floats(8, 120), st.floats(0.3, 2), st.floats(4, 150), st.floats(3, 60))


@given(sizes, st.sampled_from([80.0, 92.0, 120.0, 170.0]))
@settings(max_examples=40, deadline=None)
def test_everything_is_on_the_sheet_and_names_stand_apart(size, width):
    drawing = picture(picture_parts(box(*size), NAMES, ["ring"]), width=width)
    low_x, low_y, high_x, high_y = extent(drawing.items)
    assert low_x >= 0
    assert low_y >= 0
    assert high_x <= drawing.width == width
    assert high_y <= drawing.height <= 240 + 1e-9
    boxes = [label_box(item) for item in drawing.items if isinstance(item, Label)]
    assert len(boxes) == len(NAMES) + 2
    assert not any(overlap(a, b) for a, b in itertools.combinations(boxes, 2))


def test_the_assembled_view_shows_the_hidden_ring_dashed():
    shown = picture(picture_parts(box(), NAMES, ["ring"]))
    plain = picture(picture_parts(box(), NAMES))
    roles = [item.role for item in shown.items if isinstance(item, Path)]
    assert "hidden" in roles
    assert "hidden" not in [item.role for item in plain.items if isinstance(item, Path)]
    assert "centre" in roles


def test_a_wider_box_is_drawn_wider_at_the_same_scale():
    """The picture agrees with the number: width over height of the assembled view."""

    def shape(outside):
        drawing = picture(picture_parts(box(outside), NAMES))
        visible = next(i for i in drawing.items if isinstance(i, Path) and i.role == "visible")
        low_x, low_y, high_x, high_y = visible.bounds()
        return (high_x - low_x) / (high_y - low_y)

    def wanted(outside):
        return outside / (46.4 * 8**0.5 / 3 + outside / 3)

    assert shape(38.05) == pytest.approx(wanted(38.05))
    assert shape(61.3) == pytest.approx(wanted(61.3))


def test_rims_stay_exact_ellipses():
    drawing = picture(picture_parts(box(), NAMES))
    curves = [c for item in drawing.items if isinstance(item, Path) for c in item.curves]
    assert sum(isinstance(curve, EllipseArc) for curve in curves) > 15


def test_names_are_told_to_those_who_cannot_see():
    drawing = picture(picture_parts(box(), NAMES), title="Striker box")
    assert "body cap, body, ring, lid, lid cap" in drawing.description
    assert drawing.title == "Striker box"


def test_too_little_room_is_refused():
    with pytest.raises(ValueError, match="too little"):
        picture(picture_parts(box(), NAMES), width=20)
    with pytest.raises(ValueError, match="one part"):
        picture([])


@given(st.lists(st.floats(-100, 100), min_size=1, max_size=12), st.floats(0.1, 20))
def test_levels_keep_apart_and_in_order(wanted, pitch):
    placed = apart(wanted, pitch)
    ranked = sorted(placed)
    assert all(b - a >= pitch - 1e-9 for a, b in itertools.pairwise(ranked))
    order = sorted(range(len(wanted)), key=lambda i: wanted[i])
    assert [placed[i] for i in order] == pytest.approx(ranked)
    assert sum(placed) == pytest.approx(sum(wanted), abs=1e-6)


def walled(outline, high=22.0, lid=9.0, wall=0.8, cap=0.7):
    """A lidded box of any outline, its lid's inner ring hidden inside."""

    def band(id, outer, thick, height, at):
        inner = Outline(offset(outer, -thick).segments)
        return Extruded(id, Outline(outer.segments, (inner,)), height, (0, 0, at))

    within = Outline(offset(outline, -wall).segments)
    top = cap + high
    return (
        Extruded("base", outline, cap),
        band("wall", outline, wall, high, cap),
        band("ring", within, 0.6, lid + 1.5, top - 2),
        band("lid", outline, wall, lid, top),
        Extruded("top", outline, cap, (0, 0, top + lid)),
    )


OUTLINES = {
    "rectangle": lambda: rectangle(50, 30, 5),
    "oval": lambda: ellipse(60, 40),
    "hexagon": lambda: regular_polygon(6, 40),
}


def roles(drawing):
    return {item.role for item in drawing.items if isinstance(item, Path)}


def check_sheet(drawing, names, width, most_height):
    low_x, low_y, high_x, high_y = extent(drawing.items)
    assert low_x >= 0
    assert low_y >= 0
    assert high_x <= drawing.width == width
    assert high_y <= drawing.height <= most_height + 1e-9
    boxes = [label_box(item) for item in drawing.items if isinstance(item, Label)]
    assert len(boxes) in (len(names), len(names) + 2)
    assert not any(overlap(a, b) for a, b in itertools.combinations(boxes, 2))


@pytest.mark.parametrize("outline", OUTLINES)
@pytest.mark.parametrize("width", [92.0, 150.0])
def test_a_box_of_any_outline_is_drawn(outline, width):
    parts = picture_parts(walled(OUTLINES[outline]()), NAMES, ["ring"])
    drawing = picture(parts, width=width)
    check_sheet(drawing, NAMES, width, 240)
    assert roles(drawing) >= {"visible", "hidden", "centre", "leader"}


PIECES = {
    "a flat disc": lambda: [disc("a", 120, 0.5)],
    "a rod": lambda: [Extruded("a", rectangle(3, 3), 200)],
    "a band": lambda: [ring("a", 20.3, 1.5, 5)],
    "a bar of many beads": lambda: [disc(str(i), 6, 6).moved((8 * i, 0, 0)) for i in range(9)],
    "two thin plates": lambda: [
        Extruded("a", rectangle(160, 4), 0.6),
        Extruded("b", rectangle(160, 4), 0.6, (0, 0, 0.6)),
    ],
}


@pytest.mark.parametrize("piece", PIECES)
@pytest.mark.parametrize("size", [(92.0, 120.0), (150.0, 240.0), (70.0, 240.0)])
@pytest.mark.parametrize("pulled", [False, True])
def test_flat_tall_and_single_pieces_fit_their_sheet(piece, size, pulled):
    bodies = PIECES[piece]()
    names = [f"part {body.id}" for body in bodies]
    pulls = [(30.0 * i, 0.0, 0.0) if i else None for i in range(len(bodies))] if pulled else ()
    width, most_height = size
    drawing = picture(picture_parts(bodies, names, (), pulls), width=width, most_height=most_height)
    check_sheet(drawing, names, width, most_height)


def test_one_part_is_drawn_once_and_without_captions():
    drawing = picture(picture_parts([ring("a", 20.3, 1.5, 5)], ["band"]))
    assert [item.text for item in drawing.items if isinstance(item, Label)] == ["band"]
    assert drawing.description == "The piece: band."
    assert "seam" in roles(drawing)


def views(drawing):
    """Where the captions of the two views stand."""
    labels = {item.text: item.at for item in drawing.items if isinstance(item, Label)}
    return labels["assembled"], labels["drawn apart"]


def test_views_stand_one_above_the_other_where_they_come_out_larger():
    wide = [Extruded("a", rectangle(70, 8), 1), disc("b", 5, 3).moved((10, 4, 1))]
    pulls = [None, (-40.0, 0.0, 0.0)]
    drawing = picture(picture_parts(wide, ["bar", "pin"], (), pulls), width=120)
    (_, first), (_, second) = views(drawing)
    assert first > second
    assert drawing.description.startswith("On top the piece assembled, below")
    tall = picture(picture_parts(box(), NAMES), width=150)
    (_, first), (_, second) = views(tall)
    assert first == second


def test_a_pulled_part_takes_its_riders_along():
    bodies = [tube("body", 30, 1, 40), disc("cap", 6, 1).moved((20, 0, 20)), disc("bead", 2, 1)]
    pulls = [None, (25.0, 0.0, 5.0), (0.0, 0.0, 9.0)]
    parts = picture_parts(bodies, ["body", "cap", "bead"], (), pulls, ["", "body", "cap"])
    assert [part.shift for part in parts] == [(0, 0, 0), (25, 0, 5), (25, 0, 14)]


@pytest.mark.parametrize("sides", [17, 80])
def test_smooth_and_many_sided_profiles_are_drawn_as_meshes_with_few_long_paths(sides):
    turns = [(10 * math.cos(t), 10 * math.sin(t)) for t in np.linspace(0, math.pi / 2, sides)]
    dome = Turned("dome", ((0.0, 0.0), *((r if r > 1e-9 else 0.0, z) for r, z in turns)))
    drawing = picture(picture_parts([dome, disc("foot", 22, 1).along(-1)], ["dome", "foot"]))
    curves = [
        c
        for item in drawing.items
        if isinstance(item, Path) and item.role == "visible"
        for c in item.curves
    ]
    assert any(isinstance(curve, Polyline) for curve in curves)
    assert len(curves) <= 20


def test_a_mesh_is_fine_enough_for_its_scale():
    """Corners of the drawn oval's top edge lie on the ellipse, and chords within 0.03 mm of it."""
    drawing = picture(picture_parts(walled(ellipse(60, 40)), NAMES), width=150)
    curves = [
        c
        for item in drawing.items
        if isinstance(item, Path) and item.role == "visible"
        for c in item.curves
        if isinstance(c, Polyline) and c.start == c.end
    ]
    for curve in curves:
        for a, b, c in zip(curve.corners, curve.corners[1:], curve.corners[2:], strict=False):
            chord = math.dist(a, c)
            off = abs((c[0] - a[0]) * (b[1] - a[1]) - (c[1] - a[1]) * (b[0] - a[0])) / chord
            assert off / 4 < 0.03
    assert len(curves) >= 5
