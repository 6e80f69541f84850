"""Transitions between two mouths in parallel planes: square to round, and round to round."""

from __future__ import annotations

import math
from dataclasses import dataclass
from itertools import pairwise

from hollowright.shapes.curves import Point
from hollowright.shapes.developments.fibres import depth, positive
from hollowright.shapes.developments.unrolling import Patch, Rail, Unrolled, unroll
from hollowright.shapes.space import Vector

QUARTER = math.pi / 2


@dataclass(frozen=True, slots=True)
class Transition:
    """A transition unrolled on its neutral surface, with the sizes of that surface [mm].

    `thickness_error` [mm] is how far the neutral mouth may differ from the true parallel surface's
    (0 where the walls lean alike all round).
    """

    unrolled: Unrolled
    low_sizes: tuple[float, float]
    diameter: float
    height: float
    thickness_error: float = 0.0

    def true_lengths(self, divisions: int) -> tuple[tuple[float, ...], ...]:
        """The straight lines' true lengths [mm], patch by patch, for `divisions` of each.

        What is marked out by compass when the flat is drawn by triangulation.
        """
        return tuple(
            tuple(
                math.dist(
                    self.unrolled.space(i + j / divisions, 0),
                    self.unrolled.space(i + j / divisions, 1),
                )
                for j in range(divisions + 1)
            )
            for i in range(len(self.unrolled.patches))
        )


def square_to_round(
    length: float,
    width: float,
    diameter: float,
    height: float,
    thickness: float = 0.0,
    *,
    offset: Point = (0.0, 0.0),
    neutral: float = 0.5,
) -> Transition:
    """A rectangle below (length along x, width along y), a circle above: outside sizes [mm].

    Four plane triangles, each from a side to the circle's nearest quarter point, and four conical
    corners. `offset` [mm] moves the circle off the middle. The seam lies in the middle of the side
    towards -y. The neutral mouths lie (1 - neutral) x thickness / cos(lean) inside, each side by
    its own lean; the circle takes the mean, and `thickness_error` is what that leaves.
    Source: the developable hull of a rectangle and a circle, plane geometry.
    """
    positive(length=length, width=width, diameter=diameter, height=height)
    under = depth(thickness, neutral)
    half = (length / 2, width / 2)
    leans = [_aside(under, gap, height) for gap in _gaps(half, diameter / 2, offset)]
    right, top, left, low = (r - c for r, c in zip((half[0], half[1]) * 2, leans, strict=True))
    mean = sum(leans) / 4
    radius = diameter / 2 - mean
    if min(right, top, left, low, radius) <= 0 or thickness >= min(length, width, diameter) / 2:
        raise ValueError(f"sheet of {thickness} mm fills the transition")
    corners = [(right, -low), (right, top), (-left, top), (-left, -low)]
    patches = _square_patches([(x, y, 0.0) for x, y in corners], radius, height, offset)
    error = max(abs(lean - mean) for lean in leans)
    return Transition(unroll(patches), (right + left, top + low), 2 * radius, height, error)


def round_to_round(
    base_diameter: float,
    top_diameter: float,
    height: float,
    thickness: float = 0.0,
    *,
    offset: float = 0.0,
    neutral: float = 0.5,
) -> Transition:
    """Two round mouths in parallel planes, the top's middle `offset` [mm] along x: outside sizes.

    An oblique cone or, with equal mouths, an oblique cylinder; without offset the plain frustum.
    The seam lies on the line at +x. The neutral line lies (1 - neutral) x thickness / cos(lean)
    inside, by the mean of the leans at +x and -x; `thickness_error` is what that leaves.
    Source: development of the oblique cone, plane geometry.
    """
    positive(base_diameter=base_diameter, top_diameter=top_diameter, height=height)
    under = depth(thickness, neutral)
    taper = (base_diameter - top_diameter) / 2
    leans = [_aside(under, taper + side * offset, height) for side in (-1, 1)]
    aside = sum(leans) / 2
    low, high = base_diameter / 2 - aside, top_diameter / 2 - aside
    if min(low, high) <= 0 or thickness >= min(base_diameter, top_diameter) / 2:
        raise ValueError(f"sheet of {thickness} mm fills the transition")
    patches = [
        Patch(
            _arc((0.0, 0.0, 0.0), low, i * QUARTER),
            _arc((offset, 0.0, height), high, i * QUARTER),
        )
        for i in range(4)
    ]
    return Transition(unroll(patches), (2 * low, 2 * low), 2 * high, height, abs(leans[0] - aside))


def _gaps(half: Point, radius: float, offset: Point) -> tuple[float, float, float, float]:
    """How far each side (right, top, left, low) stands outside the circle's quarter point [mm]."""
    (a, b), (x, y) = half, offset
    return (a - x - radius, b - y - radius, a + x - radius, b + y - radius)


def _aside(under: float, gap: float, height: float) -> float:
    return under * math.hypot(1.0, gap / height)


def _square_patches(
    corners: list[Vector], radius: float, height: float, offset: Point
) -> list[Patch]:
    """Half the low side, then corner and side by turns, then the other half."""
    centre = (*offset, height)
    sw, se = corners[3], corners[0]
    middle = ((sw[0] + se[0]) / 2, sw[1], 0.0)
    starts = [middle, *corners, middle]
    patches = []
    for i, (start, end) in enumerate(pairwise(starts)):
        quarter = (i - 1) * QUARTER
        patches.append(
            Patch(_line(start, end), _fixed(_arc(centre, radius, quarter)(0)[0]), plane=True)
        )
        if i < 4:
            patches.append(Patch(_fixed(end), _arc(centre, radius, quarter)))
    return patches


def _line(start: Vector, end: Vector) -> Rail:
    slope = (end[0] - start[0], end[1] - start[1], end[2] - start[2])

    def rail(t: float) -> tuple[Vector, Vector]:
        return (
            (start[0] + t * slope[0], start[1] + t * slope[1], start[2] + t * slope[2]),
            slope,
        )

    return rail


def _fixed(point: Vector) -> Rail:
    def rail(t: float) -> tuple[Vector, Vector]:
        del t
        return (point, (0.0, 0.0, 0.0))

    return rail


def _arc(centre: Vector, radius: float, first: float) -> Rail:
    """A quarter turn from an angle [rad], level, anticlockwise."""

    def rail(t: float) -> tuple[Vector, Vector]:
        angle = first + t * QUARTER
        x, y = radius * math.cos(angle), radius * math.sin(angle)
        slope = (-y * QUARTER, x * QUARTER, 0.0)
        return ((centre[0] + x, centre[1] + y, centre[2]), slope)

    return rail
