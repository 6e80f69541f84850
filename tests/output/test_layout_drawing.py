"""Drawings of laid sheets, read back by other libraries; names that keep to their own blanks."""

import io
import math
import re
from collections.abc import Callable
from typing import Any

import ezdxf
import pytest
import shapely
import svgelements
from hypothesis import given
from hypothesis import strategies as st

from hollowright.output.drawing import Label, Path, text_width
from hollowright.output.dxf import dxf
from hollowright.output.extent import label_box
from hollowright.output.hatching import hatched
from hollowright.output.layout_block import sheet_to_keep
from hollowright.output.layout_drawing import (
    Looks,
    fitting,
    sheet_at_origin,
    sheet_drawing,
    sheet_items,
)
from hollowright.output.layout_labels import Named, led, written, written_alike
from hollowright.output.layout_view import SheetView, sheet_view, sheet_views
from hollowright.output.svg import svg
from hollowright.plan.laid import Layout
from hollowright.shapes.curves import Arc, Line
from hollowright.shapes.outline import Outline, annulus, disc, polygon, rectangle

Made = Callable[..., tuple[Layout, ...]]


@pytest.fixture
def caps(laid_by_hand: Made) -> SheetView:
    """Four caps on an L-shaped offcut."""
    return sheet_views(laid_by_hand()[0])[0]


@pytest.fixture
def rings(laid_by_hand: Made) -> SheetView:
    """Two rings on a sheet to buy."""
    return sheet_views(laid_by_hand()[1])[0]


def shape(outline: Outline) -> shapely.Polygon:
    return shapely.Polygon(outline.points(0.01), [hole.points(0.01) for hole in outline.holes])


def text_of(items: Any) -> list[str]:
    return [item.text for item in items if isinstance(item, Label)]


# ---- what is seen


def test_places_are_measured_from_the_sheets_lower_left_corner(caps: SheetView) -> None:
    """By hand: the L begins at -10, 5; a disc put at 10, 35 has its middle 20 right, 30 up."""
    assert caps.outline.bounds == (0, 0, 220, 120)
    found = [blank.at for blank in caps.blanks]
    assert found == [pytest.approx(at) for at in [(20, 30), (70, 30), (160, 30), (70, 90)]]
    assert [blank.number for blank in caps.blanks] == [1, 2, 3, 4]
    assert [blank.spot.pinned for blank in caps.blanks] == [False, False, False, True]
    assert caps.offcuts[0].bounds == (185, 5, 215, 45)


def test_a_turned_strip_lies_where_its_spot_says(rings: SheetView) -> None:
    """By hand: turned by a quarter about 0, 0 and shifted to 50, 30, it lies left of 50."""
    level, turned = rings.blanks
    long, wide = level.cut.width, level.cut.height
    assert level.at == pytest.approx((2, 2))
    assert turned.cut.bounds == pytest.approx((50 - wide, 30, 50, 30 + long))
    assert turned.turn == 90
    assert turned.net is not None
    assert shape(turned.cut).contains(shape(turned.net))


def test_pieces_laid_together_are_told_apart(laid_by_hand: Made) -> None:
    layout = laid_by_hand()[1]
    assert sheet_view(layout, layout.sheets[0]).blanks[0].name == "ring"
    assert sheet_view(layout, layout.sheets[0], True).blanks[0].name == "Tea caddy: ring"


# ---- SVG and DXF


def test_the_dxf_holds_the_sheet_with_its_corner_at_nought(caps: SheetView) -> None:
    document = ezdxf.read(io.StringIO(dxf(sheet_at_origin(caps)).decode()))
    assert document.header["$INSUNITS"] == 4
    space = document.modelspace()
    circles = [each for each in space.query("CIRCLE") if each.dxf.layer == "cut"]
    diameter = float(caps.blanks[0].flat.sizes["diameter"].value)
    found = sorted((round(c.dxf.center.x, 6), round(c.dxf.center.y, 6)) for c in circles)
    assert found == [(20, 30), (70, 30), (70, 90), (160, 30)]
    assert all(2 * c.dxf.radius == pytest.approx(diameter, abs=1e-9) for c in circles)
    assert {"cut", "mark", "text", "visible"} <= {each.dxf.layer for each in space}
    words = [each.dxf.text for each in space.query("TEXT") if each.dxf.layer == "text"]
    assert "1 cap" in words
    assert any("keep" in each for each in words)
    edge = [each for each in space.query("LWPOLYLINE") if each.dxf.layer == "visible"]
    points = [tuple(round(v, 6) for v in p[:2]) for p in edge[0].get_points()]
    assert sorted(points) == sorted([(0, 0), (220, 0), (220, 60), (100, 60), (100, 120), (0, 120)])


def test_the_svg_is_at_true_size_with_arcs(caps: SheetView) -> None:
    drawing = sheet_to_keep(caps)
    text = svg(drawing)
    assert float(text.split('width="')[1].split("mm")[0]) == pytest.approx(drawing.width, abs=1e-3)
    cuts, edges = (paths_of(text, role) for role in ("cut", "visible"))
    left, _, _, below = edges[0].bbox()
    diameter = float(caps.blanks[0].flat.sizes["diameter"].value)
    found = []
    for cut in cuts:
        assert any(isinstance(each, svgelements.Arc) for each in cut)
        x0, y0, x1, y1 = cut.bbox()
        assert (x1 - x0, y1 - y0) == pytest.approx((diameter, diameter), abs=1e-3)
        found.append((round((x0 + x1) / 2 - left, 2), round(below - (y0 + y1) / 2, 2)))
    assert sorted(found) == [(20, 30), (70, 30), (70, 90), (160, 30)]
    assert re.search("Tea caddy", text)
    assert "0.30 mm kerf" in text


def paths_of(text: str, role: str) -> list[Any]:
    """The paths of a role, as the reading library has them."""
    groups = re.findall(rf'<g class="path-{role}"[^>]*>(.*?)</g>', text, re.DOTALL)
    return [svgelements.Path(d) for group in groups for d in re.findall(r'd="([^"]+)"', group)]


# ---- names


def test_every_blank_has_its_name_in_it(caps: SheetView, rings: SheetView) -> None:
    for view in (caps, rings):
        for times in (1, 2, 4):
            items = sheet_items(view, Looks(1 / times))
            boxes = [label_box(each) for each in items if isinstance(each, Label)]
            for i, a in enumerate(boxes):
                for b in boxes[i + 1 :]:
                    assert not (a[0] < b[2] and b[0] < a[2] and a[1] < b[3] and b[1] < a[3])
            words = text_of(items)
            for blank in view.blanks:
                own = [word for word in words if re.match(rf"{blank.number}\b", word)]
                assert own, f"{blank.number} isn't written at 1:{times}"


def test_pinned_and_turned_over_are_told_without_colour(caps: SheetView) -> None:
    items = sheet_items(caps, Looks())
    assert "4 cap, face down" in text_of(items)
    signs = [each for each in items if isinstance(each, Path) and each.role == "leader"]
    rings_and_dots = [each for each in signs if isinstance(each.curves[0], Arc)]
    assert [each.filled for each in rings_and_dots] == [False, True]


@given(
    st.floats(3, 120), st.floats(3, 120), st.floats(0, 360),
    st.sampled_from(["a", "body cap", "x" * 30]), st.booleans(),
)  # fmt: skip
def test_a_name_keeps_within_its_blank(
    width: float, height: float, turn: float, name: str, pinned: bool
) -> None:
    corners = [(0, 0), (width, 0), (width * 0.8, height), (0, height)]
    c, s = math.cos(math.radians(turn)), math.sin(math.radians(turn))
    outline = polygon([(x * c - y * s, x * s + y * c) for x, y in corners])
    named = Named((f"7 {name}", "7"), outline, f"7 {name}", turn=math.radians(turn), pinned=pinned)
    found = written(named)
    if found is None:
        assert min(width, height) < 8
        return
    assert shape(outline).buffer(0.05).contains(shapely.Polygon(found.box))
    label = found.label
    assert text_width(label.text, label.height) <= 170
    assert -math.pi / 2 < label.angle <= math.pi / 2 + 1e-9


def test_a_name_keeps_out_of_holes_and_off_lines() -> None:
    ring = annulus(60, 40)
    found = written(Named(("1", "1"), ring, "1"))
    assert found is not None
    assert shape(ring).contains(shapely.Polygon(found.box))
    lined = rectangle(60, 30)
    line = Line((0.0, 15.0), (60.0, 15.0))
    crossed = written(Named(("1 cap",), lined, "1 cap", lines=(line,)))
    assert crossed is not None
    assert not shapely.Polygon(crossed.box).intersects(shapely.LineString([(0, 15), (60, 15)]))


def test_what_has_no_room_is_named_by_a_leader_and_many_of_a_kind_once() -> None:
    small = [
        Named((f"{i} pin", str(i)), disc(1.2).moved(3 * i, 0), f"{i} pin", "pin", i)
        for i in range(1, 31)
    ]
    assert written_alike(small) == [None] * 30
    few, many = text_of(led(small[:3], 100)), text_of(led(small, 100))
    assert sorted(few) == ["1 pin", "2 pin", "3 pin"]
    assert many == ["1 to 30: pin"]
    for item in led(small[:3], 100):
        if isinstance(item, Path) and item.filled:
            x, y = item.curves[0].bounds()[0] + 0.5, item.curves[0].bounds()[1] + 0.5
            assert any(shape(each.outline).contains(shapely.Point(x, y)) for each in small)


# ---- hatching, scale


@given(st.floats(5, 80), st.floats(5, 80), st.floats(1.5, 6))
def test_hatching_stays_in_its_offcut_and_off_its_name(w: float, h: float, pitch: float) -> None:
    outline = Outline(
        polygon([(0, 0), (w, 0), (w, h), (w / 2, h / 2), (0, h)]).segments,
        (disc(min(w, h) / 6).moved(w / 4, h / 4),),
    )
    box = [(w * 0.6, h * 0.1), (w * 0.9, h * 0.1), (w * 0.9, h * 0.2), (w * 0.6, h * 0.2)]
    free = shape(outline).difference(shapely.Polygon(box)).buffer(0.06)
    for path in hatched(outline, pitch, [box]):
        for line in path.curves:
            assert free.contains(shapely.LineString([line.start, line.end]))


def test_the_overview_takes_the_largest_scale_that_goes(rings: SheetView) -> None:
    drawing, times = fitting(rings, 168, 105)
    assert drawing.width <= 168
    assert drawing.height <= 105
    assert times == 2.5
    assert sheet_drawing(rings).width > 300
    assert "300" in [each.text for each in drawing.items if hasattr(each, "direction")]


def test_sizes_in_inches_too(laid_by_hand: Made) -> None:
    changes = {"stock__tube__wall": ["0.04 in"], "sizes__height": "1 3/4 in"}
    view = sheet_views(laid_by_hand(**changes)[1])[0]
    assert view.inches
    shown = [each.text for each in sheet_drawing(view).items if hasattr(each, "direction")]
    assert "300 (11.811 in)" in shown


# ---- clean enough to work to


def test_at_true_size_two_cuts_a_kerf_apart_stay_two_lines(rings: SheetView) -> None:
    drawing = sheet_drawing(rings)
    kerf = rings.layout.task.rules.between
    assert drawing.weight("cut") < kerf / 2
    assert drawing.weight("mark") >= 0.1


def test_a_finished_outline_that_hugs_the_cut_is_left_to_machines(rings: SheetView) -> None:
    """The strip is cut some tenths larger all round: a line there smears with the cut's own."""
    net, cut = rings.blanks[0].net, rings.blanks[0].cut
    assert net is not None
    assert (cut.height - net.height) / 2 < 0.4
    roles = [[i.role for i in drawing.items if isinstance(i, Path)] for drawing in (
        sheet_drawing(rings), sheet_at_origin(rings))]  # fmt: skip
    assert ["mark" in each for each in roles] == [False, True]


def test_a_names_tails_keep_off_its_lines() -> None:
    """Of 'plates', p hangs below the baseline by about a third of the capitals' height."""
    low = Line((0, 1.0), (90, 1.0))
    named = Named(("14 Lamp plates", "14 gap", "14"), rectangle(90, 4.6), "", lines=(low,))
    found = written(named)
    assert found is not None
    assert label_box(found.label)[1] >= 1.0
