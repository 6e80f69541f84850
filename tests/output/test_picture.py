"""The picture: both views inside the sheet, names apart, parts told by their strokes."""

import itertools

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from hollowright.output.drawing import Label, Path
from hollowright.output.extent import extent, label_box
from hollowright.output.leaders import apart
from hollowright.output.picture import picture, picture_parts
from hollowright.shapes.curves import EllipseArc
from hollowright.shapes.solids import disc, ring, tube

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
