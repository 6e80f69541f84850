"""Dimensions drawn out: where lines and figures stand, by the rules of ISO 129-1."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from hollowright.output.dimensions import LONGEST, drawn
from hollowright.output.drawing import DiameterDimension, Label, LinearDimension, Path
from hollowright.output.extent import extent, label_box


def parts(dimension):
    found = drawn(dimension)
    lines = [p for p in found if isinstance(p, Path) and not p.filled]
    arrows = [p for p in found if isinstance(p, Path) and p.filled]
    (label,) = [p for p in found if isinstance(p, Label)]
    return lines, arrows, label


def test_a_level_dimension_with_room():
    lines, arrows, label = parts(LinearDimension((0, 0), (100, 5), 10, "100.00", "horizontal"))
    extensions, line = lines
    assert line.curves[0].start == (0, 10)
    assert line.curves[0].end == (100, 10)
    assert [curve.end for curve in extensions.curves] == [(0, 12), (100, 12)]
    assert [curve.start for curve in extensions.curves] == [(0, 1), (100, 6)]
    tips = [arrow.curves[0].start for arrow in arrows]
    assert tips == [(0, 10), (100, 10)]
    assert label.anchor == "middle"
    assert label.at == pytest.approx((50, 11))
    assert label.angle == 0


def test_an_upright_dimension_reads_from_the_right():
    _, _, label = parts(LinearDimension((0, 40), (0, 0), 10, "40.00", "vertical"))
    assert label.angle == pytest.approx(math.pi / 2)


def test_arrows_are_three_times_as_long_as_wide():
    _, arrows, _ = parts(LinearDimension((0, 0), (100, 0), 10, "100.00", height=5))
    low_x, low_y, high_x, high_y = arrows[0].bounds()
    assert high_x - low_x == pytest.approx(LONGEST)
    assert (high_x - low_x) / (high_y - low_y) == pytest.approx(3)


def test_a_narrow_dimension_puts_arrows_and_figures_outside():
    lines, arrows, label = parts(LinearDimension((0, 0), (2, 0), 10, "2.00"))
    assert lines[-1].curves[0].start[0] < 0
    assert label_box(label)[0] >= 2
    for arrow, side in zip(arrows, (-1, 1), strict=True):
        low_x, _, high_x, _ = arrow.bounds()
        assert (high_x <= 0) if side < 0 else (low_x >= 2)


angles = st.floats(-math.pi, math.pi)


@given(angles, st.floats(1, 150), st.floats(-30, 30))
def test_figures_are_never_upside_down(angle, span, offset):
    end = (span * math.cos(angle), span * math.sin(angle))
    _, arrows, label = parts(LinearDimension((0, 0), end, offset, "38.05"))
    assert -math.pi / 2 + 1e-9 < label.angle <= math.pi / 2 + 1e-9
    tips = [arrow.curves[0].start for arrow in arrows]
    assert math.dist(*tips) == pytest.approx(span)


@given(angles, st.floats(1, 150))
def test_a_diameter_spans_its_circle(angle, diameter):
    _, arrows, label = parts(DiameterDimension((3, 4), diameter, "⌀38.05", angle))
    tips = [arrow.curves[0].start for arrow in arrows]
    assert math.dist(*tips) == pytest.approx(diameter)
    assert math.dist(tips[0], (3, 4)) == pytest.approx(diameter / 2)
    assert -math.pi / 2 < label.angle <= math.pi / 2 + 1e-9


@pytest.mark.parametrize(
    "dimension",
    [
        LinearDimension((1, 1), (1, 1), 5, "0"),
        LinearDimension((1, 1), (1, 9), 5, "0", "horizontal"),
        DiameterDimension((0, 0), 0, "0"),
    ],
)
def test_a_dimension_of_nothing_is_refused(dimension):
    with pytest.raises(ValueError, match="dimension"):
        drawn(dimension)


def test_extent_holds_everything():
    dimension = LinearDimension((0, 0), (100, 0), 10, "100.00")
    low_x, low_y, high_x, high_y = extent([dimension])
    assert (low_x, high_x) == pytest.approx((0, 100))
    assert low_y == pytest.approx(1)
    assert high_y == pytest.approx(13.5)
