"""What makes one answer better than another: nothing left over, cheap bins, little metal taken."""

from __future__ import annotations

from collections.abc import Sequence
from functools import lru_cache

import numpy as np

from hollowright.shapes.curves import Bounds
from hollowright.shapes.nesting.problem import Packing, Problem, Spot
from hollowright.shapes.outline import Outline
from hollowright.shapes.placing import cosine_and_sine
from hollowright.shapes.polygons import Area, Numbers, area_of, box_of, common

SIDES = 4

Rating = tuple[int, float, float, float]
"""Items left over; cost of the bins used; metal taken [mm2]; how far out flats lie, as a tie."""


def rating(problem: Problem, packing: Packing) -> Rating:
    """How good an answer is: less is better, compared from the first figure on.

    The metal taken from a bin is what lies on the filled side of one straight cut past all its
    flats, whichever of the four sides is best filled from: what is beyond stays one offcut.
    """
    left = sum(packing.left_over(problem).values())
    cost = taken = far = 0.0
    for name in packing.bins:
        bin, spots = problem.bin(name), packing.within(name)
        boxes = [bounds_of(problem, spot) for spot in spots]
        cost += bin.cost
        taken += min(swept(bin.outline, _around(boxes), problem.between))
        far += sum((box[0] + box[2] + box[1] + box[3]) / 2 for box in boxes)
    return (left, round(cost, 6), round(taken, 3), round(far, 3))


def swept(outline: Outline, box: Bounds, between: float) -> list[float]:
    """The area [mm2] of a bin up to a cut past a box, filled from its left, low, right, top end."""
    low_x, low_y, high_x, high_y = outline.bounds
    halves = (
        (low_x, low_y, min(high_x, box[2] + between), high_y),
        (low_x, low_y, high_x, min(high_y, box[3] + between)),
        (max(low_x, box[0] - between), low_y, high_x, high_y),
        (low_x, max(low_y, box[1] - between), high_x, high_y),
    )
    width, height = high_x - low_x, high_y - low_y
    if not outline.holes and abs(_area(outline) - width * height) < 1e-9 * width * height:
        return [(half[2] - half[0]) * (half[3] - half[1]) for half in halves]
    whole = _shape(outline)
    return [float(common(whole, box_of(*half)).area) for half in halves]


def bounds_of(problem: Problem, spot: Spot) -> Bounds:
    """Where a flat reaches as it lies [mm]: least x, least y, greatest x, greatest y."""
    c, s = cosine_and_sine(spot.turn)
    points = _points(problem.item(spot.item).outline)
    across = -points[:, 0] if spot.mirrored else points[:, 0]
    x, y = across * c - points[:, 1] * s, across * s + points[:, 1] * c
    low_x, high_x, low_y, high_y = (float(each) for each in (x.min(), x.max(), y.min(), y.max()))
    return (low_x + spot.x, low_y + spot.y, high_x + spot.x, high_y + spot.y)


def _around(boxes: Sequence[Bounds]) -> Bounds:
    low_x, low_y, high_x, high_y = zip(*boxes, strict=True)
    return (min(low_x), min(low_y), max(high_x), max(high_y))


@lru_cache(maxsize=512)
def _points(outline: Outline) -> Numbers:
    return np.array(outline.points(0.002))


@lru_cache(maxsize=64)
def _area(outline: Outline) -> float:
    return outline.area


@lru_cache(maxsize=64)
def _shape(outline: Outline) -> Area:
    return area_of(outline)
