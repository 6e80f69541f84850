"""Blanks at true size: measured in the drawing, in the SVG read back and in printed pixels."""

import io
import itertools

import pytest
import svgelements
from hypothesis import given
from hypothesis import strategies as st

from hollowright.output.blank_drawing import BlankMark, BlankSheet, BlankSize, blank_drawing
from hollowright.output.dimensions import drawn
from hollowright.output.drawing import Label, LinearDimension, Path
from hollowright.output.extent import extent, label_box
from hollowright.output.svg import svg
from hollowright.shapes.curves import Line
from hollowright.shapes.outline import disc, rectangle


def strip(length=112.35, width=16.6, trim=1.35):
    return BlankSheet(
        "ring",
        "Ring strip",
        "brass sheet 0.64 mm, 1 piece",
        rectangle(length - trim, width),
        rectangle(length, width),
        (
            BlankSize(f"{length:.2f}", "width"),
            BlankSize(f"{width:.2f}", "height"),
            BlankSize(f"{length - trim:.2f}", "width", "net", "finished"),
        ),
        (
            BlankMark(Line((length - trim, 0), (length - trim, width)), "trim at the trial"),
            BlankMark(Line((0, 2), (length, 2)), "stands out below this", "fold"),
        ),
        ("Saw outside the wide line.",),
    )


def cap(diameter=38.05, allowance=1.0):
    return BlankSheet(
        "lid_cap",
        "Lid cap",
        "brass sheet 0.71 mm, 1 piece",
        disc(diameter),
        disc(diameter + allowance),
        (
            BlankSize(f"{diameter + allowance:.2f}", "diameter"),
            BlankSize(f"{diameter:.2f}", "diameter", "net", "finished"),
        ),
    )


def by_role(drawing, role):
    return [item for item in drawing.items if isinstance(item, Path) and item.role == role]


def size(bounds):
    return bounds[2] - bounds[0], bounds[3] - bounds[1]


lengths = st.floats(3, 400)


@given(lengths, st.floats(2, 200))
def test_a_strip_is_at_true_size_and_on_the_sheet(length, width):
    drawing = blank_drawing(strip(length, width, trim=0.3))
    assert size(by_role(drawing, "cut")[0].bounds()) == pytest.approx((length, width))
    assert size(by_role(drawing, "mark")[0].bounds()) == pytest.approx((length - 0.3, width))
    assert size(by_role(drawing, "bar")[0].bounds())[0] == pytest.approx(100)
    low_x, low_y, high_x, high_y = extent(drawing.items)
    assert min(low_x, low_y) >= 5.9
    assert high_x <= drawing.width - 5.9
    assert high_y <= drawing.height - 5.9


@given(st.floats(5, 200))
def test_a_disc_has_its_centre_and_both_diameters(diameter):
    drawing = blank_drawing(cap(diameter))
    assert size(by_role(drawing, "cut")[0].bounds()) == pytest.approx((diameter + 1,) * 2)
    (cross,) = by_role(drawing, "centre")
    (cut,) = by_role(drawing, "cut")
    assert cross.curves[0].start == pytest.approx(cut.curves[0].centre)
    texts = [item.text for item in drawing.items if isinstance(item, LinearDimension)]
    assert texts == [f"⌀{diameter + 1:.2f}", f"finished ⌀{diameter:.2f}"]


def test_dimension_lines_span_what_they_say():
    drawing = blank_drawing(strip())
    for item in drawing.items:
        if isinstance(item, LinearDimension):
            axis = 1 if item.direction == "vertical" else 0
            said = float(item.text.split()[-1])
            assert item.end[axis] - item.start[axis] == pytest.approx(said)


def test_the_figures_to_mark_are_the_largest():
    drawing = blank_drawing(strip())
    dimensions = [item for item in drawing.items if isinstance(item, LinearDimension)]
    others = [item.height for item in drawing.items if isinstance(item, Label)]
    cut = [d.height for d in dimensions if "finished" not in d.text]
    assert min(cut) > max(others)


@pytest.mark.parametrize("blank", [strip(), strip(60, 40), cap(), cap(12)])
def test_labels_do_not_overlap(blank):
    drawing = blank_drawing(blank)
    labels = [item for item in drawing.items if isinstance(item, Label)]
    for item in drawing.items:
        if isinstance(item, LinearDimension):
            labels += [part for part in drawn(item) if isinstance(part, Label)]
    for a, b in itertools.combinations(map(label_box, labels), 2):
        assert not (a[0] < b[2] and b[0] < a[2] and a[1] < b[3] and b[1] < a[3])


def test_a_blank_cut_to_its_finished_size_has_no_second_outline():
    plain = BlankSheet("cap", "Cap", "brass", disc(30), disc(30), (BlankSize("30.00", "diameter"),))
    drawing = blank_drawing(plain)
    assert by_role(drawing, "mark") == []
    assert not any("finished" in i.text for i in drawing.items if isinstance(i, Label))


def test_lines_that_say_the_same_share_a_letter():
    lines = tuple(BlankMark(Line((x, 0), (x, 20)), "bend here", "fold") for x in (10, 30, 50))
    drawing = blank_drawing(
        BlankSheet("wall", "Wall", "silver", rectangle(90, 20), rectangle(90, 20), (), lines)
    )
    letters = [i.text for i in drawing.items if isinstance(i, Label) and i.role == "name"]
    assert letters == ["A", "A", "A"]
    assert "A: bend here" in [i.text for i in drawing.items if isinstance(i, Label)]


def test_svg_of_a_strip_measures_112_35():
    read = svgelements.SVG.parse(io.StringIO(svg(blank_drawing(strip()))), ppi=25.4)
    widths = []
    for element in read.elements():
        if isinstance(element, svgelements.Path):
            low_x, _, high_x, _ = element.bbox()
            widths.append(high_x - low_x)
    assert any(width == pytest.approx(112.35, abs=2e-4) for width in widths)
    assert any(width == pytest.approx(100, abs=2e-4) for width in widths)


def test_printed_pixels_of_the_bar():
    """At 600 dots an inch 100 mm is 2362.2 dots; the bar's line adds its own width, 0.25 mm."""
    typst = pytest.importorskip("typst")
    image = pytest.importorskip("PIL.Image")
    drawing = blank_drawing(cap())
    only_bar = svg(type(drawing)(110, 20, tuple(by_role(drawing, "bar")), wide_line=0.25))
    only_bar = only_bar.replace('viewBox="0 0 110 20"', 'viewBox="0 0 110 20"')
    page = (
        "#set page(width: 130mm, height: 60mm, margin: 10mm)\n"
        '#image(bytes(sys.inputs.svg), format: "svg", width: 110mm)'
    )
    png = typst.compile(
        page.encode(), format="png", ppi=600, sys_inputs={"svg": only_bar}, ignore_system_fonts=True
    )
    picture = image.open(io.BytesIO(png)).convert("L").point(lambda v: 255 if v < 128 else 0)
    left, _, right, _ = picture.getbbox()
    assert (right - left) * 25.4 / 600 == pytest.approx(100.25, abs=0.1)


def test_a_long_note_moves_the_blank_no_further_than_the_bar_is_long() -> None:
    """Else a small paper stands far from its figures, and the card cuts it in two."""
    long = BlankSheet(
        "hole", "Hole's paper", "paper", rectangle(41, 40), rectangle(41, 40),
        (BlankSize("41.00", "width"),), notes=("Bend it round the main. " * 20,),
        figures=("11.57 hole width",),
    )  # fmt: skip
    (cut,) = by_role(blank_drawing(long), "cut")
    assert extent([cut])[2] < 120.0
