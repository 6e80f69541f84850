"""Arcs that stand for a whole ellipse, made from one quarter: against the ellipse itself."""

import math
from itertools import pairwise

import pytest

from hollowright.shapes.along import place
from hollowright.shapes.biarcs import bits
from hollowright.shapes.curves import TURN, EllipseArc
from hollowright.shapes.outline import Outline


@pytest.mark.parametrize("tolerance", [1e-2, 1e-4, 2e-5])
@pytest.mark.parametrize("sweep", [TURN, -TURN])
@pytest.mark.parametrize("start", [0.0, math.pi / 2, -math.pi, 0.3])
@pytest.mark.parametrize(("half", "share", "lean"), [(30.0, 0.66, 0.0), (23.1, 0.4, 0.7)])
def test_the_arcs_follow_the_ellipse(half, share, lean, start, sweep, tolerance):
    major = (half * math.cos(lean), half * math.sin(lean))
    minor = (-share * major[1], share * major[0])
    oval = EllipseArc((4.0, -7.0), major, minor, start, sweep)
    found = bits(oval, tolerance)
    assert (found[0].first, found[-1].last) == pytest.approx((0.0, 1.0), abs=1e-12)
    for before, after in pairwise((*found, found[0])):
        assert math.dist(before.curve.end, after.curve.start) < 1e-9
        assert math.remainder(before.last - after.first, 1.0) == pytest.approx(0.0, abs=1e-12)
    for bit in found:
        for u in (0.0, 0.2, 0.5, 0.8, 1.0):
            point = place(oval, bit.first + u * (bit.last - bit.first))
            off = abs(math.dist(point, bit.curve.centre) - bit.curve.radius)
            assert off <= tolerance * 1.02
            assert math.copysign(1.0, bit.curve.sweep) == math.copysign(1.0, sweep)
    area = Outline(tuple(bit.curve for bit in found)).area
    around = Outline((oval,)).perimeter
    assert area == pytest.approx(math.pi * half * half * share, abs=around * tolerance)
