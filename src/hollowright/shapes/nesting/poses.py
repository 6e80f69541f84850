"""The ways an item may be turned that are worth trying: few, none twice for a shape's symmetry."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from itertools import pairwise

import numpy as np

from hollowright.shapes.nesting.forms import Form
from hollowright.shapes.nesting.problem import Turns
from hollowright.shapes.placing import cosine_and_sine
from hollowright.shapes.polygons import (
    Area,
    Numbers,
    apart_area,
    corners_of,
    hull_of,
    shifted,
    turned,
)

SAME = 0.004
"""Two turns look alike when this share of the area, or less, lies differently.

What polygons on curves differ by besides doesn't count.
"""

QUARTERS = (0.0, 90.0, 180.0, 270.0)


@dataclass(frozen=True, eq=False)
class Pose:
    """One way to lay an item: a form, and its turn [deg]."""

    form: Form
    turn: float


def poses_of(forms: Sequence[Form], most: int) -> tuple[Pose, ...]:
    """At most so many ways to lay one item, of its forms, that differ.

    Where it may be turned at will: the turn of the least box, its quarters, and those that lay
    another long side of its hull level; where turns are given, those.
    """
    found: list[Pose] = []
    seen: list[Area] = []
    for form, turn in _wanted(forms):
        if len(found) == most:
            break
        area = _centred(form, turn)
        alike = max(SAME * area.area, 1.5 * form.doubt * area.length)
        if not any(apart_area(area, other) < alike for other in seen):
            found.append(Pose(form, turn))
            seen.append(area)
    return tuple(found)


def least_box(form: Form) -> float:
    """The turn [deg] that gives the least box round it, lying long side level."""
    corners = corners_of(hull_of(form.filled))
    best = min(_levels(corners), key=lambda turn: (round(_box(corners, turn)[2], 6), turn))
    width, height, _ = _box(corners, best)
    return best if width >= height - 1e-9 else (best + 90.0) % 360.0


def _wanted(forms: Sequence[Form]) -> Iterable[tuple[Form, float]]:
    allowed: Turns = forms[0].item.turns
    if allowed is not None:
        return [(form, turn) for turn in allowed for form in forms]
    first = [(form, least_box(form)) for form in forms]
    corners = {id(form): corners_of(hull_of(form.filled)) for form in forms}
    more = [(form, level) for form in forms for level in _levels(corners[id(form)])[:4]]
    return [(form, (turn + q) % 360.0) for form, turn in (*first, *more) for q in QUARTERS]


def _levels(corners: Numbers) -> list[float]:
    """Turns below 90 [deg] that lay a side of a hull level, that of the longest sides first."""
    lengths: dict[float, float] = {0.0: 0.0}
    for (x0, y0), (x1, y1) in pairwise(corners):
        turn = round(-math.degrees(math.atan2(y1 - y0, x1 - x0)) % 90.0, 9) % 90.0
        lengths[turn] = lengths.get(turn, 0.0) + math.hypot(x1 - x0, y1 - y0)
    return sorted(lengths, key=lambda turn: (-round(lengths[turn], 6), turn))


def _box(corners: Numbers, turn: float) -> tuple[float, float, float]:
    c, s = cosine_and_sine(turn)
    x, y = corners[:, 0] * c - corners[:, 1] * s, corners[:, 0] * s + corners[:, 1] * c
    width, height = float(np.ptp(x)), float(np.ptp(y))
    return width, height, width * height


def _centred(form: Form, turn: float) -> Area:
    area = turned(form.area, *cosine_and_sine(turn))
    return shifted(area, -area.centroid.x, -area.centroid.y)
