"""Outlines from SVG files: what is drawn, in which unit, and what is refused."""

import math
import time

import pytest
import shapely
import svgelements

from hollowright.errors import InputError
from hollowright.shapes.cubic import Cubic
from hollowright.shapes.curves import Arc, EllipseArc, Line
from hollowright.shapes.drawn import FileRefused
from hollowright.shapes.files import read_outline

NS = 'xmlns="http://www.w3.org/2000/svg"'


def svg(body, size='width="60mm" height="40mm" viewBox="0 0 60 40"'):
    return f"<svg {NS} {size}>{body}</svg>".encode()


def outline(body, **given):
    return read_outline(svg(body), "svg", **given).outline


LEAF = '<path d="M0 20 C 20 -10 60 -10 60 20 S 20 50 0 20 Z"/>'


def test_a_circle_is_one_exact_arc():
    (arc,) = outline('<circle cx="20" cy="20" r="12.5"/>').segments
    assert isinstance(arc, Arc)
    assert arc.closed
    assert arc.radius == pytest.approx(12.5, rel=1e-12)
    assert arc.centre == pytest.approx((12.5, 12.5))


@pytest.mark.parametrize(
    ("body", "kinds", "area"),
    [
        ('<ellipse cx="20" cy="20" rx="18" ry="7"/>', [EllipseArc], math.pi * 18 * 7),
        ('<rect x="3" y="4" width="30" height="20"/>', [Line] * 4, 600),
        ('<polygon points="0,0 30,0 30,15"/>', [Line] * 3, 225),
        ('<rect width="30" height="20" rx="5"/>', [Line, Arc] * 4, 600 - (4 - math.pi) * 25),
        ('<rect width="30" height="20" rx="5" ry="4"/>', [Line, EllipseArc] * 4, 600 - 17.168147),
        ('<path d="M5 5 h20 a5 5 0 0 1 0 10 h-20 z"/>', [Line, Arc, Line, Line], 200 + 39.269908),
        ('<path d="M10 0A10 10 0 0 1 10 20A10 10 0 0 1 10 0Z"/>', [Arc], 100 * math.pi),
        (LEAF, [Cubic, Cubic], None),
        ('<path d="M0 0C10 0 20 0 30 0C30 0 30 15 30 15L0 0"/>', [Line] * 3, 225),
    ],
)
def test_shapes_keep_their_kind(body, kinds, area):
    made = outline(body)
    found = [type(segment) for segment in made.segments]
    assert sorted(k.__name__ for k in found) == sorted(k.__name__ for k in kinds)
    assert made.anticlockwise
    if area:
        assert made.area == pytest.approx(area, abs=1e-6)


TRANSFORMS = [
    "translate(3,4)",
    "rotate(30)",
    "rotate(30 10 20)",
    "scale(1.5 0.4)",
    "skewX(25)",
    "skewY(-10) scale(-1 1)",
    "matrix(0.5 0.2 -0.4 1.1 3 4)",
]


@pytest.mark.parametrize("transform", TRANSFORMS)
@pytest.mark.parametrize(
    "shape",
    [
        '<circle cx="12" cy="7" r="6"/>',
        '<ellipse cx="12" cy="7" rx="9" ry="4"/>',
        '<path d="M5 5 h20 a8 5 20 0 1 0 10 h-20 z"/>',
        LEAF,
    ],
)
def test_any_transform_is_carried_over_exactly(shape, transform):
    # An affine map multiplies areas by its determinant, and points of the curve map to the curve.
    matrix = svgelements.Matrix(transform)
    before, after = outline(shape), outline(f'<g transform="{transform}">{shape}</g>')
    determinant = abs(matrix.a * matrix.d - matrix.b * matrix.c)
    assert after.area == pytest.approx(before.area * determinant, rel=1e-9)
    # y runs down in the file: carry points over in its own sense, then compare up to the shift.
    points = [(x, -y) for x, y in before.points(1e-5)]
    carried = [(matrix.a * x + matrix.c * y, -(matrix.b * x + matrix.d * y)) for x, y in points]
    low_x, low_y = (min(axis) for axis in zip(*carried, strict=True))
    ring = shapely.Polygon([(x - low_x, y - low_y) for x, y in carried])
    ours = shapely.Polygon(after.points(1e-5))
    assert ours.symmetric_difference(ring).area < 2e-3


@pytest.mark.parametrize(
    ("size", "told", "mm", "words"),
    [
        ('width="60mm" height="40mm" viewBox="0 0 60 40"', None, 1, "from its size 60mm by 40mm"),
        ('width="6cm" height="4cm" viewBox="0 0 120 80"', None, 0.5, "6cm by 4cm"),
        ('width="2in" viewBox="0 0 100 80"', None, 0.508, "2in"),
        ('width="100" height="80"', None, 25.4 / 96, "1/96 in"),
        ('width="100" height="80" viewBox="0 0 50 40"', None, 25.4 / 48, "1/96 in"),
        ('viewBox="0 0 50 40"', None, 25.4 / 96, "no size"),
        ('width="100%" height="100%" viewBox="0 0 50 40"', None, 25.4 / 96, "no size"),
        ('width="60mm" height="40mm" viewBox="0 0 120 80"', "mm", 1, "as told"),
        ('width="100" height="80"', "pt", 25.4 / 72, "1 pt, as told"),
        ('width="60mm" height="60mm" viewBox="0 0 120 80"', None, 0.5, "60mm by 60mm"),
    ],
)
def test_the_unit_is_taken_from_the_file_or_as_told(size, told, mm, words):
    made = read_outline(svg('<rect x="1" y="1" width="30" height="20"/>', size), "svg", unit=told)
    assert made.mm == pytest.approx(mm, rel=1e-12)
    assert made.outline.width == pytest.approx(30 * mm, rel=1e-12)
    assert made.outline.height == pytest.approx(20 * mm, rel=1e-12)
    assert words in made.unit


def test_a_stretched_page_stretches_the_outline():
    size = 'width="60mm" height="60mm" viewBox="0 0 120 80" preserveAspectRatio="none"'
    made = read_outline(svg('<circle cx="40" cy="40" r="20"/>', size), "svg").outline
    assert (made.width, made.height) == pytest.approx((20, 30))
    assert isinstance(made.segments[0], EllipseArc)


def test_scale_enlarges():
    assert outline('<circle r="10"/>', scale=1.5).width == pytest.approx(30)


def test_sizes_with_units_of_their_own():
    assert outline('<circle r="5mm"/>', unit="px").width == pytest.approx(10, rel=1e-12)


def test_holes_are_found_and_nothing_else_is():
    holes = '<circle cx="10" cy="10" r="4"/><circle cx="30" cy="10" r="3"/>'
    body = f'<rect width="40" height="30"/>{holes}'
    made = outline(body)
    assert len(made.holes) == 2
    assert made.area == pytest.approx(1200 - 25 * math.pi)
    compound = outline('<path d="M0 0H40V30H0ZM5 5V10H10V5Z"/>')
    assert compound.area == pytest.approx(1200 - 25)


def test_y_runs_up_in_the_outline():
    # A triangle with its point at the file's top has its point at the top.
    made = outline('<polygon points="0,20 20,20 10,0"/>')
    assert max(made.points(), key=lambda point: point[1]) == pytest.approx((10, 20))


def test_reused_and_grouped_shapes():
    body = (
        '<defs><circle id="c" r="5"/></defs><g transform="scale(2)">'
        '<use href="#c" x="7" y="3"/></g>'
    )
    assert outline(body).width == pytest.approx(20)


def test_what_is_left_out_is_counted():
    body = LEAF + '<text>a</text><text>b</text><image/><circle r="3" style="display: none"/>'
    made = read_outline(svg(body), "svg")
    assert made.notes == ("1 × hidden left out", "1 × image left out", "2 × text left out")


def test_drawn_twice_counts_once():
    made = read_outline(svg(LEAF + LEAF), "svg")
    assert made.outline.holes == ()
    assert made.notes == ("1 × curve drawn twice left out",)


def test_ends_within_a_hundredth_are_joined_and_the_outline_is_exact():
    body = '<path d="M0 0H30.004"/><path d="M30 0.003V20"/><path d="M0.002 0V20.005Q15 30 30 20"/>'
    made = outline(body)
    assert len(made.segments) == 4
    assert made.area == pytest.approx(600 + 100, abs=0.2)  # a parabola's 2/3 of 30 x 5


@pytest.mark.parametrize(
    ("body", "words", "at"),
    [
        ('<path d="M5 5H30V20H5V5.35"/>', r"open: a gap of 0\.35 mm at x 5\.00, y 5\.\d+", (5, 5)),
        ('<path d="M0 0H30V20"/>', r"open: a gap of 36\.1 mm", None),
        (
            '<path d="M0 0L30 20V0L0 20Z"/>',
            r"crosses or touches itself at x 15\.00, y 10\.00",
            (15, 10),
        ),
        ('<path d="M0 0H30V20H0ZM30 5H40V10H30Z"/>', "two of its curves meet", None),
        ('<circle r="5"/><circle cx="20" r="4"/>', "second outline", None),
        ('<circle r="9"/><circle r="6"/><circle r="3"/>', "inside a hole", None),
        ('<path d="M0 0H9M9 0V9M9 0H18M9 9L0 0"/>', "3 lines meet at x 9.00, y 0.00", (9, 0)),
        ("<text>hello</text>", r"no curve \(1 × text left out\)", None),
        ('<line x1="0" x2="5" y1="1" y2="1"/>', "open", None),
        ('<path d="M0 0C 40 40 -20 40 20 0Z"/>', "crosses", None),
    ],
)
def test_what_isnt_one_closed_outline_is_refused_with_the_place(body, words, at):
    with pytest.raises(FileRefused, match=words) as refused:
        outline(body)
    assert isinstance(refused.value, InputError)
    assert isinstance(refused.value, ValueError)
    if at:
        assert refused.value.at == pytest.approx(at, abs=0.4)


LOL = "".join(f'<!ENTITY l{i} "{f"&l{i - 1};" * 10}">' for i in range(1, 10))
DEEP = "<g>" * 30000 + "</g>" * 30000
USES = "".join(
    f'<g id="u{i}"><use href="#u{i - 1}"/><use href="#u{i - 1}"/></g>' for i in range(1, 40)
)
HOSTILE = {
    "doctype": f"<!DOCTYPE svg><svg {NS}/>",
    "billion laughs": f'<!DOCTYPE svg [<!ENTITY l0 "lol">{LOL}]><svg {NS}>&l9;</svg>',
    "external entity": f'<!DOCTYPE s [<!ENTITY x SYSTEM "a.txt">]><svg {NS}>&x;</svg>',
    "undeclared entity": f"<svg {NS}>&x;</svg>",
    "external dtd": f'<!DOCTYPE svg SYSTEM "http://example.com/x.dtd"><svg {NS}/>',
    "deep": f"<svg {NS}>{DEEP}</svg>",
    "uses that double": f'<svg {NS}><circle id="u0" r="3"/>{USES}</svg>',
    "a use of itself": f'<svg {NS}><g id="a"><use href="#a"/></g></svg>',
    "a reference outside": f'<svg {NS}><use href="http://example.com/a.svg#b"/></svg>',
    "an image outside": f'<svg {NS}><image href="other.png"/></svg>',
    "many points": f'<svg {NS}><path d="M0 0{"L1 2" * 130_000}"/></svg>',
    "many lines": f'<svg {NS}><path d="M0 0{"h1v1" * 21_000}"/></svg>',
    "many elements": f"<svg {NS}>{'<g/>' * 100_000}</svg>",
    "large": f"<svg {NS}>{' ' * 1_000_001}</svg>",
    "long transform": f'<svg {NS}><g transform="{"scale(1)" * 1000}"/></svg>',
    "infinite": f'<svg {NS}><circle r="1e400"/></svg>',
    "an infinite handle": f'<svg {NS}><path d="M0 0C1 -1e400 9 9 9 0Z"/></svg>',
    "far out": f'<svg {NS}><circle r="1e12"/></svg>',
    "not a number": f'<svg {NS}><circle r="nan"/></svg>',
    "a share": f'<svg {NS}><circle r="5%"/></svg>',
    "broken": f"<svg {NS}><g></svg>",
    "empty": "",
    "no drawing": "<html/>",
    "a broken path": f'<svg {NS}><path d="M 0 0 L x"/></svg>',
    "a broken transform": f'<svg {NS}><circle r="4" transform="scale(0)"/></svg>',
}


@pytest.mark.parametrize("name", HOSTILE)
def test_hostile_files_are_refused_at_once(name):
    begun = time.perf_counter()
    with pytest.raises(FileRefused):
        read_outline(HOSTILE[name].encode(), "svg")
    assert time.perf_counter() - begun < 2


@pytest.mark.parametrize("data", [b"\xff\xfe<", b"\x00" * 50, bytes(range(256)), b"<svg" * 999])
def test_rubbish_is_refused(data):
    for kind in ("svg", "dxf"):
        with pytest.raises(FileRefused):
            read_outline(data, kind)


def test_names_that_arent_known():
    with pytest.raises(InputError, match="svg, dxf"):
        read_outline(svg(LEAF), "png")
    with pytest.raises(InputError, match="Known: mm, cm"):
        read_outline(svg(LEAF), "svg", unit="furlong")
    with pytest.raises(ValueError, match="scale"):
        read_outline(svg(LEAF), "svg", scale=0)


def test_a_leaf_is_read_quickly():
    read_outline(svg(LEAF), "svg")
    begun = time.perf_counter()
    read_outline(svg(LEAF), "svg")
    assert time.perf_counter() - begun < 0.1
