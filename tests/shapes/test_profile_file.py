"""A profile from a drawing file: one line in any order, a half silhouette, and what is refused."""

from __future__ import annotations

import io
import math

import ezdxf
import pytest

from hollowright.shapes.curves import Arc, Line
from hollowright.shapes.drawn import FileRefused
from hollowright.shapes.profile_file import read_profile

HEAD = '<svg xmlns="http://www.w3.org/2000/svg" width="90mm" height="80mm" viewBox="0 0 90 80">'


def svg(*paths: str) -> bytes:
    drawn = "".join(f'<path d="{path}"/>' for path in paths)
    return f"{HEAD}{drawn}</svg>".encode()


def ends(data: bytes, kind: str = "svg") -> list[tuple[float, float]]:
    curves = read_profile(data, kind).curves
    found = [curves[0].start, *(curve.end for curve in curves)]
    return [(round(r, 6) + 0.0, round(z, 6) + 0.0) for r, z in found]


CUP = [(0.0, 0.0), (20.0, 0.0), (26.0, 31.0), (23.5, 52.0)]


@pytest.mark.parametrize(
    "paths",
    [
        ("M10 70 H30 L36 39 L33.5 18",),
        ("M33.5 18 L36 39 L30 70 H10",),
        ("M36 39 L30 70", "M10 70 L30 70", "M36 39 L33.5 18"),
        ("M10 70 H30 L36 39 L33.5 18 H10 Z",),
        ("M10 18 V70", "M30 70 H10", "M33.5 18 L36 39 L30 70", "M10 18 H33.5"),
    ],
)
def test_the_same_cup_drawn_in_many_ways(paths: tuple[str, ...]) -> None:
    assert ends(svg(*paths)) == CUP


def test_a_dxf_line_with_an_arc() -> None:
    document = ezdxf.new(units=4)
    space = document.modelspace()
    space.add_line((5, 3), (17, 3))
    space.add_arc((17, 23), 20, 270, 360)
    space.add_line((37, 23), (37, 41.5))
    text = io.StringIO()
    document.write(text)
    curves = read_profile(text.getvalue().encode(), "dxf").curves
    assert [type(curve) for curve in curves] == [Line, Arc, Line]
    assert curves[-1].end == pytest.approx((32, 38.5))
    arc = next(curve for curve in curves if isinstance(curve, Arc))
    assert arc.length() == pytest.approx(10 * math.pi)


def test_a_hollow_bottom_stands_on_its_edge() -> None:
    assert ends(svg("M10 66 L30 70 L36 39")) == [(0, 4), (20, 0), (26, 31)]


def test_units_are_told() -> None:
    found = read_profile(svg("M10 70 H30 L36 39"), "svg", "cm")
    assert found.mm == 10
    assert found.curves[0].end == pytest.approx((200, 0))
    assert "as told" in found.unit


@pytest.mark.parametrize(
    ("data", "words"),
    [
        (svg("M10 70 H30", "M36 39 L33.5 18"), "breaks off"),
        (svg("M30 70 H10 L4 39"), "left of the axis"),
        (svg("M10 10 H30 V30 H10 Z", "M50 10 H60 V30 H50 Z"), "several"),
        (svg("M10 10 L30 12 L22 30 Z"), "without an upright axis"),
        (svg("M10 70 V20"), "left of the axis"),
        (svg(), "no line"),
        (b"<svg>" + b" " * 1_000_001, "larger than"),
        (b"<!DOCTYPE svg [<!ENTITY a 'b'>]><svg/>", "DOCTYPE"),
    ],
)
def test_refused(data: bytes, words: str) -> None:
    with pytest.raises(FileRefused, match=words):
        read_profile(data, "svg")
